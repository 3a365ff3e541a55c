//! What only a process that fails shows.

use std::env;
use std::process::Command;

const FAULT: &str = "STOWFAST_FAULT_TEST";

/// The process that fails; as an ordinary test it does nothing.
#[test]
fn child() {
    if env::var_os(FAULT).is_some() {
        super::end_calmly_on_a_fault();
        panic!("the tank is a teapot");
    }
}

#[test]
fn a_fault_ends_in_a_calm_line_and_its_documented_code() {
    let name = format!("{}::child", module_path!());
    let (_, name) = name.split_once("::").unwrap();
    let output = Command::new(env::current_exe().unwrap())
        .args([name, "--exact", "--nocapture", "--test-threads=1"])
        .env(FAULT, "1")
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(70));
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.contains("the tank is a teapot. What was recorded before is kept."), "{said}");
    assert!(!said.contains("panicked"), "{said}");
}
