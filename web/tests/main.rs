//! What the page asks of the library, natively and in the browser.

mod bindings;
mod drags;
#[cfg(not(target_arch = "wasm32"))]
mod drawings;
mod held;
#[cfg(not(target_arch = "wasm32"))]
mod no_rule;
mod same_bytes;
#[cfg(not(target_arch = "wasm32"))]
mod words;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
