//! Embeds every file of the catalogue and of the demo data, so that adding one touches no Rust.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let root = PathBuf::from(env::var("CARGO_MANIFEST_DIR").map_err(io::Error::other)?);
    let mut out = String::new();
    for (name, folder) in
        [("CATALOGUE", root.join("catalogue")), ("DEMO", root.join("../demo-data"))]
    {
        println!("cargo::rerun-if-changed={}", folder.display());
        let mut files = Vec::new();
        collect(&folder, &folder, &mut files)?;
        files.sort();
        let _ = writeln!(out, "pub(crate) const {name}: &[(&str, &str)] = &[");
        for (relative, path) in files {
            let _ = writeln!(out, "    ({relative:?}, include_str!({:?})),", path.display());
        }
        let _ = writeln!(out, "];");
    }
    let target = env::var("OUT_DIR").map_err(io::Error::other)?;
    fs::write(Path::new(&target).join("embedded.rs"), out)
}

/// All TOML files below `folder`, named by their path within `base` with `/` between the parts.
fn collect(base: &Path, folder: &Path, files: &mut Vec<(String, PathBuf)>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            collect(base, &path, files)?;
        } else if path.extension().is_some_and(|ext| ext == "toml") {
            let relative = path.strip_prefix(base).map_err(io::Error::other)?;
            let parts: Vec<_> = relative.iter().map(|part| part.to_string_lossy()).collect();
            files.push((parts.join("/"), path.clone()));
        }
    }
    Ok(())
}
