//! Tables of published numbers in `tests/data/`: a line that names the source, one of column names,
//! then rows.

use std::collections::BTreeMap;
use std::path::Path;

/// The rows of a table, each by its columns; what is no number is left out.
#[must_use]
pub fn table(name: &str) -> Vec<BTreeMap<String, f64>> {
    let number = |(column, value): (String, String)| Some((column, value.parse().ok()?));
    words(name).into_iter().map(|row| row.into_iter().filter_map(number).collect()).collect()
}

/// The same, all of it as it stands.
///
/// # Panics
/// Where there is no such file.
#[must_use]
pub fn words(name: &str) -> Vec<BTreeMap<String, String>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("data").join(name);
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path:?}: {error}"));
    let mut lines = text.lines().filter(|line| !line.starts_with('#') && !line.is_empty());
    let columns: Vec<_> = lines.next().unwrap_or_default().split(',').map(str::to_owned).collect();
    let row =
        |line: &str| columns.iter().cloned().zip(line.split(',').map(str::to_owned)).collect();
    lines.map(row).collect()
}
