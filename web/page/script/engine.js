// The library: unpacked once, then called. What it is asked and what it answers is text.
// `library` is the script that wasm-bindgen wrote; the packer puts it before all others.

/** Unpacks the library that stands in the page. */
export async function wake() {
  const block = document.getElementById("library");
  const packed = Uint8Array.from(atob(block.textContent), (letter) => letter.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  library.initSync({module: new Uint8Array(await new Response(stream).arrayBuffer())});
  block.remove();
}

/** Whether the library has that call. */
export function can(call) {
  return typeof library[call] === "function";
}

/** A call whose answer is JSON. */
export function ask(call, ...texts) {
  return JSON.parse(library[call](...texts));
}

/** A call whose answer is plain text, or nothing. */
export function fetchText(call, ...texts) {
  return library[call](...texts) ?? null;
}
