//! Tables of published numbers in `tests/data/`: a line that names the source, one of column names,
//! then rows.

use std::collections::BTreeMap;
use std::io;
use std::path::Path;

/// The rows of a table, each by its columns; what is no number is left out.
///
/// # Errors
/// Where there is no such file.
pub fn table(name: &str) -> io::Result<Vec<BTreeMap<String, f64>>> {
    let number = |(column, value): (String, String)| Some((column, value.parse().ok()?));
    let numbers = |row: BTreeMap<String, String>| row.into_iter().filter_map(number).collect();
    Ok(words(name)?.into_iter().map(numbers).collect())
}

/// The same, all of it as it stands.
///
/// # Errors
/// Where there is no such file.
pub fn words(name: &str) -> io::Result<Vec<BTreeMap<String, String>>> {
    let text =
        std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("data").join(name))?;
    let mut lines = text.lines().filter(|line| !line.starts_with('#') && !line.is_empty());
    let columns: Vec<_> = lines.next().unwrap_or_default().split(',').map(str::to_owned).collect();
    let row =
        |line: &str| columns.iter().cloned().zip(line.split(',').map(str::to_owned)).collect();
    Ok(lines.map(row).collect())
}
