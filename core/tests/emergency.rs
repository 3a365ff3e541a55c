//! What to do when people are in danger: in the command, and in the app without an engine.
#![allow(clippy::unwrap_used, reason = "a test fails loudly")]

mod call;

use std::fmt::Write as _;
use std::path::Path;

use call::stowfast;
use stowfast_core::engine::emergency;

/// The app's own copy, made anew where `UPDATE_GOLDEN` is set.
const APP: &str = "../android/app/src/main/res/values/strings_life.xml";

#[test]
fn the_app_says_the_same_in_the_same_order() {
    let page = emergency("en", None).unwrap();
    let mut app = "<resources>\n    <!-- Written by core/tests/emergency.rs from core/catalogue/text/en/emergency.toml -->\n".to_owned();
    let escaped = |said: &str| said.replace('&', "&amp;").replace('<', "&lt;").replace('\'', "\\'");
    let string = |app: &mut String, name: &str, said: &str| {
        _ = writeln!(app, "    <string name=\"life_{name}\">{}</string>", escaped(said));
    };
    string(&mut app, "intro", &page.intro);
    for peril in &page.perils {
        string(&mut app, &peril.id, &peril.title);
        _ = writeln!(app, "    <string-array name=\"life_{}_lines\">", peril.id);
        for step in &peril.steps {
            _ = writeln!(app, "        <item>{}</item>", escaped(step));
        }
        app += "    </string-array>\n";
    }
    string(&mut app, "foot", &page.foot);
    app += "</resources>\n";
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(APP);
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::write(&file, &app).unwrap();
    }
    assert_eq!(std::fs::read_to_string(&file).unwrap(), app);
}

#[test]
fn it_is_said_with_no_database_and_with_a_damaged_one() {
    let folder = tempfile::tempdir().unwrap();
    let damaged = folder.path().join("stowfast/stowfast.db");
    std::fs::create_dir(damaged.parent().unwrap()).unwrap();
    for damage in [None, Some("this is no database")] {
        if let Some(bytes) = damage {
            std::fs::write(&damaged, bytes).unwrap();
        }
        let out = stowfast(folder.path()).arg("emergency").output().unwrap();
        let said = String::from_utf8(out.stdout).unwrap();
        assert!(out.status.success() && out.stderr.is_empty(), "{said}");
        let titles = ["Carbon monoxide", "Smell of gas", "Smoke", "Fire"];
        let places = titles.map(|title| said.find(&format!("\n{title}\n  1. ")).unwrap());
        assert!(places.is_sorted(), "{said}");
        assert_eq!(damaged.exists(), damage.is_some(), "nothing is made or set aside");
    }
    let out = stowfast(folder.path()).args(["emergency", "gas", "--json"]).output().unwrap();
    let page: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap();
    let perils = page["emergency"]["perils"].as_array().unwrap();
    assert!(perils.len() == 1 && perils[0]["id"] == "gas" && perils[0]["steps"].is_array());
    let out = stowfast(folder.path())
        .env_remove("XDG_DATA_HOME")
        .env_remove("HOME")
        .arg("emergency")
        .output();
    assert!(out.unwrap().status.success(), "without a data folder");
    let out = stowfast(folder.path()).args(["emergency", "flood"]).output().unwrap();
    assert_eq!(out.status.code(), Some(3));
    assert!(String::from_utf8(out.stderr).unwrap().contains("expected co, gas, smoke, fire"));
}
