//! Writes the Kotlin that calls this crate's library. Run by `android/bindgen.sh`.

fn main() {
    uniffi::uniffi_bindgen_main();
}
