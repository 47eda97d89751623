//! A plan as a link: all of it stands behind the `#`, which a browser never sends anywhere.

use js_sys::{Array, Function, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, ReadableWritablePair, Response, window};

/// How links are written now. The first ones, 0, held the plan alone, as plain text.
const VERSION: &str = "1";

/// The part of a link from the `#` on that holds this text.
pub async fn to_fragment(held: &str) -> Result<String, JsValue> {
    let bytes = through(held.as_bytes(), "CompressionStream").await?;
    let letters: String = bytes.into_iter().map(char::from).collect();
    let letters = window().ok_or(JsValue::NULL)?.btoa(&letters)?;
    let letters = letters.replace('+', "-").replace('/', "_");
    Ok(format!("#plan={VERSION}.{}", letters.trim_end_matches('=')))
}

/// The text in such a part of a link; `None` if it holds no plan, or the key of the words that say why it cannot be
/// used.
pub async fn from_fragment(fragment: &str) -> Option<Result<String, &'static str>> {
    let (version, text) = fragment.strip_prefix("#plan=")?.split_once('.')?;
    let held = match version {
        "0" => from_first(text),
        VERSION => unpacked(text).await.ok(),
        _ => return Some(Err("link.newer")),
    };
    Some(held.ok_or("link.broken"))
}

fn from_first(text: &str) -> Option<String> {
    let plan = js_sys::decode_uri_component(text).ok()?;
    Some(format!("{{\"plan\": {plan}}}"))
}

async fn unpacked(text: &str) -> Result<String, JsValue> {
    let letters = text.replace('-', "+").replace('_', "/");
    let letters = window().ok_or(JsValue::NULL)?.atob(&letters)?;
    // Each of these letters stands for a byte.
    let bytes: Vec<u8> = letters.chars().map(|letter| letter as u8).collect();
    let bytes = through(&bytes, "DecompressionStream").await?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// Bytes packed or unpacked by the browser's stream of this name, which `web-sys` does not have yet.
async fn through(bytes: &[u8], name: &str) -> Result<Vec<u8>, JsValue> {
    let kind: Function = Reflect::get(&js_sys::global(), &name.into())?.dyn_into()?;
    let stream = Reflect::construct(&kind, &Array::of1(&"deflate-raw".into()))?;
    let blob = Blob::new_with_u8_array_sequence(&Array::of1(&Uint8Array::from(bytes)))?;
    let pair: &ReadableWritablePair = stream.unchecked_ref();
    let made = blob.stream().pipe_through(pair);
    let made = Response::new_with_opt_readable_stream(Some(&made))?.array_buffer()?;
    Ok(Uint8Array::new(&JsFuture::from(made).await?).to_vec())
}
