//! Embeds every file of the catalogue, packed, and of the demo data, so that adding one touches no
//! Rust.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let root = PathBuf::from(env::var("CARGO_MANIFEST_DIR").map_err(io::Error::other)?);
    let target = PathBuf::from(env::var("OUT_DIR").map_err(io::Error::other)?);
    let mut out = String::new();
    let _ = writeln!(out, "/// Each file of the catalogue with its length. Unit: bytes.");
    let _ = writeln!(out, "pub(crate) const CATALOGUE: &[(&str, usize)] = &[");
    let mut all = Vec::new();
    for (relative, path) in files(&root.join("catalogue"))? {
        let text = fs::read(path)?;
        let _ = writeln!(out, "    ({relative:?}, {}),", text.len());
        all.extend(text);
    }
    let packed = target.join("catalogue.z");
    // As small as can be where it is shipped; quick where it is only tried.
    let level = if env::var("PROFILE").is_ok_and(|profile| profile == "release") { 10 } else { 1 };
    fs::write(&packed, miniz_oxide::deflate::compress_to_vec(&all, level))?;
    let _ = writeln!(out, "];");
    let _ = writeln!(out, "/// All of them one after the other, packed by Deflate (RFC 1951).");
    let _ =
        writeln!(out, "pub(crate) static PACKED: &[u8] = include_bytes!({:?});", packed.display());
    let _ = writeln!(out, "pub(crate) const DEMO: &[(&str, &str)] = &[");
    for (relative, path) in files(&root.join("../demo-data"))? {
        let _ = writeln!(out, "    ({relative:?}, include_str!({:?})),", path.display());
    }
    let _ = writeln!(out, "];");
    fs::write(target.join("embedded.rs"), out)
}

/// All TOML files below `folder` in order, each by its path within.
fn files(folder: &Path) -> io::Result<Vec<(String, PathBuf)>> {
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut files = Vec::new();
    collect(folder, folder, &mut files)?;
    files.sort();
    Ok(files)
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
