// The library, unpacked once.
// `unpacking` and `library` are the scripts that wasm-bindgen wrote; the packer puts them before all others.

/** What the packer wrote into a block of the page, which is needed only once. */
function takeBlock(id) {
  const block = document.getElementById(id);
  block.remove();
  return block.textContent;
}

/** Compiles and starts a module. A browser starts a large one only if the page does not wait for it. */
async function start(module, body) {
  const response = new Response(body, {headers: {"content-type": "application/wasm"}});
  await module.init({module_or_path: await WebAssembly.compileStreaming(response)});
}

/** Unpacks the library that stands in the page, and compiles it while it is being unpacked. */
export async function wake() {
  const letters = Uint8Array.from(atob(takeBlock("unpacking")), (letter) => letter.charCodeAt(0));
  await start(unpacking, new Blob([letters]).stream().pipeThrough(new DecompressionStream("deflate-raw")));
  const packed = new unpacking.Unpacking(takeBlock("library"));
  const pieces = new ReadableStream({
    pull(stream) {
      const piece = packed.piece();
      if (piece.length > 0) stream.enqueue(piece);
      else stream.close();
    },
  });
  await start(library, pieces);
}
