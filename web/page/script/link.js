// A plan as a link: all of it stands behind the `#`, which a browser never sends anywhere.

const VERSION = "1";

/** The fragment that holds what the library says that a link holds. */
export async function toFragment(held) {
  const stream = new Blob([held]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  let letters = "";
  for (const byte of bytes) letters += String.fromCharCode(byte);
  return `#plan=${VERSION}.${btoa(letters).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "")}`;
}

/** What a fragment holds, as text for the library: `null` where it holds no plan; `{wrong: key}` where it cannot be used. */
export async function fromFragment(fragment) {
  const match = /^#plan=([^.]*)\.(.*)$/.exec(fragment);
  if (!match) return null;
  const [, version, text] = match;
  if (version === "0") return fromFirst(text);
  if (version !== VERSION) return {wrong: "link.newer"};
  try {
    const letters = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
    const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
    return {held: await new Response(stream).text()};
  } catch {
    return {wrong: "link.broken"};
  }
}

/** The first links held the plan alone, as plain text. */
function fromFirst(text) {
  try {
    return {held: `{"plan": ${decodeURIComponent(text)}}`};
  } catch {
    return {wrong: "link.broken"};
  }
}
