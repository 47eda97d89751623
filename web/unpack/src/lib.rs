//! How the library is stored in the page: LZMA, written as text. The packer writes it; the page reads it with this
//! crate, built as a small module of its own.
//!
//! The text is UTF-8 that browsers leave unchanged. It takes 8 bytes for 7 of data (base64 takes 9.3), and LZMA
//! takes a good quarter less than the formats a browser can unpack by itself.

mod letters;

use std::io::{Cursor, Read};

use lzma_rust2::LzmaReader;
use wasm_bindgen::prelude::wasm_bindgen;

pub use letters::{bytes, letters};

/// How much is unpacked at a time, so that the browser can compile what it already has.
pub const PIECE: usize = 1 << 16;
/// The most that unpacking may use, in kilobytes.
const MEMORY: u32 = 1 << 16;

/// The library's text, being unpacked.
#[wasm_bindgen]
pub struct Unpacking(Option<LzmaReader<Cursor<Vec<u8>>>>);

#[wasm_bindgen]
impl Unpacking {
    /// Starts on the text in the page.
    #[wasm_bindgen(constructor)]
    pub fn new(text: &str) -> Self {
        let packed = Cursor::new(bytes(text));
        Self(LzmaReader::new_mem_limit(packed, MEMORY, None).ok())
    }

    /// The next bytes; empty at the end, or if the text is damaged.
    pub fn piece(&mut self) -> Vec<u8> {
        let mut piece = Vec::with_capacity(PIECE);
        let reader = self.0.as_mut();
        // A damaged library cannot be compiled, and the page says that it cannot start.
        let _ = reader.map(|reader| reader.take(PIECE as u64).read_to_end(&mut piece));
        piece
    }
}
