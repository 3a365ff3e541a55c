//! The budgets of the house: short files, plain module names, nothing of the machine they were
//! written on.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

/// Every file below `folder` that ends in `.ext`, without what is built.
fn files(folder: &Path, ext: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).into_iter().flatten() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() && name != "target" && name != ".git" {
            found.extend(files(&path, ext));
        } else if path.extension().is_some_and(|known| known == ext) {
            found.push(path);
        }
    }
    found.sort();
    found
}

fn lines(path: &Path) -> usize {
    fs::read_to_string(path).unwrap().lines().count()
}

fn is_test(path: &Path) -> bool {
    let text = path.to_string_lossy();
    text.ends_with("tests.rs") || text.contains("/tests/")
}

#[track_caller]
fn within(files: &[PathBuf], most: usize) {
    assert!(!files.is_empty());
    let long: Vec<_> = files.iter().filter(|path| lines(path) > most).collect();
    assert!(long.is_empty(), "longer than {most} lines: {long:?}");
}

#[test]
fn rust_files_stay_short() {
    let core: Vec<_> =
        files(&root().join("core/src"), "rs").into_iter().filter(|path| !is_test(path)).collect();
    assert!(core.len() > 60, "the walk found only {}", core.len());
    within(&core, 400);
    within(&files(&root().join("tests/src"), "rs"), 400);
    within(&files(&root().join("bindings/src"), "rs"), 300);
}

#[test]
fn kotlin_files_stay_short() {
    let kotlin = files(&root().join("android"), "kt");
    let named = |end: &str| -> Vec<PathBuf> {
        kotlin.iter().filter(|path| path.to_string_lossy().ends_with(end)).cloned().collect()
    };
    within(&named("ViewModel.kt"), 150);
    within(&named("Screen.kt"), 300);
}

#[test]
fn modules_are_named_for_what_they_hold() {
    for path in files(&root().join("core/src"), "rs") {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let vague = ["utils", "helpers", "manager", "service", "models", "common", "misc"];
        assert!(!vague.contains(&name.as_str()), "{}", path.display());
    }
}

#[test]
fn nothing_names_a_machine_or_a_registry() {
    // Put together here, so that this file does not name them either.
    let banned = [
        ["/wo", "rk/"],
        ["/ro", "ot/"],
        ["mvn", "repository"],
        ["crates", ".io"],
        ["maven.", "org"],
    ];
    let mut looked = 0;
    for ext in ["rs", "kt", "toml", "md", "sh", "xml", "pro", "kts"] {
        for path in files(&root(), ext) {
            let text = fs::read_to_string(&path).unwrap_or_default();
            for parts in banned {
                assert!(!text.contains(&parts.concat()), "{}: {}", path.display(), parts.concat());
            }
            looked += 1;
        }
    }
    assert!(looked > 150, "the walk found only {looked} files");
}

#[test]
fn the_top_level_holds_what_it_should() {
    let allowed = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "LICENSE-MIT",
        "LICENSE-APACHE",
        "core",
        "bindings",
        "android",
        "tests",
        "demo-data",
        "target",
    ];
    for entry in fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        assert!(name.starts_with('.') || allowed.contains(&name.as_str()), "{name}");
    }
}
