//! JSON: one object, named by what it holds. `stowfast_json` rises when a field changes meaning or
//! goes; new fields may come at any time.

use serde::Serialize;

/// The version of the JSON.
const VERSION: u32 = 2;

/// `{"stowfast_json": 2, "<name>": value}`, on one line.
pub(crate) fn object(name: &str, value: &impl Serialize) -> serde_json::Result<String> {
    let mut object = serde_json::Map::new();
    object.insert("stowfast_json".to_owned(), VERSION.into());
    object.insert(name.to_owned(), serde_json::to_value(value)?);
    serde_json::to_string(&object)
}
