//! The generator for Python, Kotlin and Swift. `bindings/generate` calls it; nothing ships it.

fn main() {
    uniffi::uniffi_bindgen_main();
}
