// The library: unpacked once, then called. What it is asked and what it answers is text.
// `library` is the script that wasm-bindgen wrote; the packer puts it before all others.

/** The bytes that the packer wrote as base64. */
function bytesOf(text) {
  return Uint8Array.fromBase64?.(text) ?? Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
}

/** Unpacks the library that stands in the page, and compiles it while it is being unpacked. */
export async function wake() {
  const block = document.getElementById("library");
  const stream = new Blob([bytesOf(block.textContent)]).stream().pipeThrough(new DecompressionStream("gzip"));
  const module = await WebAssembly.compileStreaming(new Response(stream, {headers: {"content-type": "application/wasm"}}));
  library.initSync({module});
  block.remove();
}

/** A call whose answer is JSON. */
export function ask(call, ...texts) {
  return JSON.parse(library[call](...texts));
}

/** A call whose answer is no JSON: a text, a truth, or nothing. */
export function tellLibrary(call, ...given) {
  return library[call](...given);
}
