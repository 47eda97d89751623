// The library, unpacked once.
// `unpacking` and `library` are the scripts that wasm-bindgen wrote. The packer puts the first before all others, and the
// second, which is long, before the library itself in its block: the page's policy names it.

/** A block that the packer wrote into the page, which is needed only once. */
function takeBlock(id) {
  const block = document.getElementById(id);
  block.remove();
  return block;
}

/** Runs a script that the page's policy names. */
function run(text) {
  const script = document.createElement("script");
  script.text = text;
  document.head.append(script);
}

/** Compiles and starts a module. A browser starts a large one only if the page does not wait for it. */
async function start(module, body) {
  const response = new Response(body, {headers: {"content-type": "application/wasm"}});
  await module.init({module_or_path: await WebAssembly.compileStreaming(response)});
}

/** Unpacks the library that stands in the page, and compiles it while it is being unpacked. */
export async function wake() {
  const letters = Uint8Array.from(atob(takeBlock("unpacking").textContent), (letter) => letter.charCodeAt(0));
  await start(unpacking, new Blob([letters]).stream().pipeThrough(new DecompressionStream("deflate-raw")));
  const block = takeBlock("library");
  const packed = new unpacking.Unpacking(block.textContent);
  const first = packed.piece();
  run(new TextDecoder().decode(first.subarray(0, block.dataset.script)));
  const pieces = new ReadableStream({
    start: (stream) => stream.enqueue(first.subarray(block.dataset.script)),
    pull(stream) {
      const piece = packed.piece();
      if (piece.length > 0) stream.enqueue(piece);
      else stream.close();
    },
  });
  await start(library, pieces);
}
