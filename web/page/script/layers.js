// The layers of the drawing while something is dragged: only what is drawn otherwise is touched.

import {svgFrom} from "./svg.js";

/** The layers that are shown, as text, and those of the drawing that the drag began with. */
let layersShown = [];
let layersBegun = [];

/** The drawing stands in the page with these layers. */
export function setLayers(layers) {
  layersShown = layersBegun = layers;
}

/** Shows what has become of the drawing in a drag: each layer is given that is otherwise than when it began. */
export function showLayers(drawing, changed) {
  const wanted = changed.map((layer, index) => layer ?? layersBegun[index]);
  const standing = [...drawing.querySelectorAll(":scope > g")];
  if (standing.length !== wanted.length) return;
  wanted.forEach((layer, index) => {
    if (layer === layersShown[index] || retraced(standing[index], layersShown[index], layer)) return;
    renew(standing[index], svgFrom(`${SHEET}${layer}</svg>`).firstElementChild);
  });
  layersShown = wanted;
}

const SHEET = "<svg xmlns=\"http://www.w3.org/2000/svg\">";

/** Where the same elements stand in both texts, with other figures or other words in them, puts the new ones in the place of
 * the old ones. In a drawing no sign of a tag and no quotation mark stands in a value or a text. */
function retraced(layer, was, is) {
  const [old, made] = [was.split("<"), is.split("<")];
  if (old.length !== made.length) return false;
  const others = [];
  for (let piece = 0, at = -1; piece < made.length; piece += 1) {
    if (made[piece] && !made[piece].startsWith("/")) at += 1;
    if (made[piece] === old[piece]) continue;
    const other = changeOf(old[piece], made[piece]);
    if (!other) return false;
    others.push([at, other]);
  }
  const elements = [layer, ...layer.querySelectorAll("*")];
  for (const [at, {values, letters}] of others) {
    for (const [name, value] of values) {
      if (value === null) elements[at].removeAttribute(name);
      else elements[at].setAttribute(name, value);
    }
    if (letters) elements[at].firstChild.data = letters;
  }
  return true;
}

/** How a tag, with the letters behind it, differs from what it was; nothing where not only in values and letters. */
function changeOf(was, is) {
  const [[oldTag, oldLetters], [tag, letters]] = [was.split(">"), is.split(">")];
  if (is.includes("&") || is.startsWith("/") || nameOfTag(tag) !== nameOfTag(oldTag)) return null;
  if (Boolean(oldLetters) !== Boolean(letters)) return null;
  const values = otherValues(oldTag.split("\""), tag.split("\"")) ?? allValues(oldTag, tag);
  return values.some(([name]) => name.endsWith("href")) ? null : {values, letters: letters === oldLetters ? null : letters};
}

function nameOfTag(tag) {
  return /^[^ /]*/.exec(tag)[0];
}

/** The values that differ between two tags, taken apart at the quotation marks, that name the same in the same order. */
function otherValues(old, made) {
  if (old.length !== made.length) return null;
  const values = [];
  for (let at = 0; at < made.length; at += 1) {
    if (made[at] === old[at]) continue;
    if (at % 2 === 0) return null;
    const before = made[at - 1];
    values.push([before.slice(before.lastIndexOf(" ") + 1, -1), made[at]]);
  }
  return values;
}

/** The values of a tag, and nothing in the place of those that are gone from it. */
function allValues(oldTag, tag) {
  const named = (one) => [...one.matchAll(/ ([\w:-]+)="([^"]*)"/g)].map(([, name, value]) => [name, value]);
  return [...new Map([...named(oldTag).map(([name]) => [name, null]), ...named(tag)])];
}

/** Puts what is drawn otherwise in the place of what was there, and leaves the rest: it need not be laid out and painted again. */
function renew(old, made) {
  const [was, is] = [[...old.children], [...made.children]];
  if (was.length !== is.length || was.length === 0) return old.replaceWith(made);
  if (was.length === 1 && was[0].nodeName === "g" && is[0].nodeName === "g" && sameTag(was[0], is[0])) return renew(was[0], is[0]);
  was.forEach((child, index) => child.isEqualNode(is[index]) || child.replaceWith(is[index]));
}

/** Whether two groups differ at most in what is in them. */
function sameTag(one, other) {
  return one.cloneNode(false).isEqualNode(other.cloneNode(false));
}
