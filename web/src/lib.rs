//! The library in WebAssembly.
