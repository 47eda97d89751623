// The library's drawing brought into the page: read as XML, and what a drawing has no need of is left out.

const HARMLESS = new Set(["svg", "g", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "tspan", "title", "desc",
  "defs", "pattern", "marker", "clipPath", "style", "use"]);

/** The drawing as an element; nothing where the text is none. */
export function svgFrom(text) {
  return surelyHarmless(text) ? quickly(text) : carefully(text);
}

function quickly(text) {
  const template = document.createElement("template");
  template.innerHTML = text;
  return template.content.firstElementChild;
}

function carefully(text) {
  const parsed = new DOMParser().parseFromString(text, "image/svg+xml");
  if (parsed.querySelector("parsererror")) return null;
  const svg = document.importNode(parsed.documentElement, true);
  for (const element of [...svg.querySelectorAll("*")]) {
    if (!HARMLESS.has(element.localName)) element.remove();
    else for (const {name, value} of [...element.attributes]) if (!isHarmless(name, value)) element.removeAttribute(name);
  }
  return svg;
}

const OTHER_TAG = new RegExp(`<(?!/?(?:${[...HARMLESS].join("|")})[\\s>/])`);
const DOING = /[\s"']on\w+\s*=|href/i;

/** Whether the text alone shows that there is nothing to leave out: no tag that a drawing has no need of, nothing that looks
 * like an attribute that does something. Nearly every drawing is so, and then nothing has to be gone through: what people
 * wrote stands in it as text. */
function surelyHarmless(text) {
  return !OTHER_TAG.test(text) && !DOING.test(text);
}

/** Whether an attribute only says what something looks like. */
export function isHarmless(name, value) {
  if (/^on/i.test(name)) return false;
  return !/href$/i.test(name) || value.startsWith("#");
}
