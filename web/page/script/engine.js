// The library: unpacked once, then called. What it is asked and what it answers is text.
// `library` is the script that wasm-bindgen wrote; the packer puts it before all others.

const LETTERS = "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ!#$%()*+,-./:;=>?@[]^_{";

/** The bytes that the packer wrote in letters: five letters are four bytes. */
function bytesOf(letters, count) {
  const worth = new Uint8Array(128);
  for (let index = 0; index < LETTERS.length; index += 1) worth[LETTERS.charCodeAt(index)] = index;
  const words = new DataView(new ArrayBuffer((letters.length / 5) * 4));
  for (let from = 0, to = 0; from < letters.length; from += 5, to += 4) {
    let word = 0;
    for (let index = from; index < from + 5; index += 1) word = word * 85 + worth[letters.charCodeAt(index)];
    words.setUint32(to, word);
  }
  return new Uint8Array(words.buffer, 0, count);
}

/** Unpacks the library that stands in the page. */
export async function wake() {
  const block = document.getElementById("library");
  const packed = bytesOf(block.textContent, Number(block.dataset.bytes));
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
