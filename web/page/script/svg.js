// The library's drawing brought into the page: read as XML, and what a drawing has no need of is left out.

const HARMLESS = new Set(["svg", "g", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "tspan", "title", "desc",
  "defs", "pattern", "marker", "clipPath", "style", "use"]);

/** The drawing as an element; nothing where the text is none. */
export function svgFrom(text) {
  const parsed = new DOMParser().parseFromString(text, "image/svg+xml");
  if (parsed.querySelector("parsererror")) return null;
  const svg = document.importNode(parsed.documentElement, true);
  for (const element of [...svg.querySelectorAll("*")]) {
    if (!HARMLESS.has(element.localName)) element.remove();
    else for (const {name, value} of [...element.attributes]) if (!isHarmless(name, value)) element.removeAttribute(name);
  }
  return svg;
}

function isHarmless(name, value) {
  if (/^on/i.test(name)) return false;
  return !/href$/i.test(name) || value.startsWith("#");
}
