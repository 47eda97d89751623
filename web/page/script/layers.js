// The layers of the drawing while something is dragged: only what is drawn otherwise is touched.

import {isHarmless, svgFrom} from "./svg.js";

/** The layers that are shown, as text, and those of the drawing that the drag began with. */
let layersShown = [];
let layersBegun = [];

/** The drawing stands in the page with these layers. */
export function setLayers(layers) {
  layersShown = layersBegun = layers;
}

/** Shows what has become of the drawing in a drag: only the layers that differ from the start are given. */
export function showLayers(drawing, changed) {
  const wanted = changed.map((layer, index) => layer ?? layersBegun[index]);
  const standing = [...drawing.querySelectorAll(":scope > g")];
  if (standing.length !== wanted.length) return;
  wanted.forEach((layer, index) => redraw(standing[index], layersShown[index], layer));
  layersShown = wanted;
}

/** Makes an element, drawn as the first text says, like the second. In a drawing no sign of a tag and no quotation mark
 * stands in a value or in letters, and letters stand only in what has no elements in it. */
function redraw(element, was, is) {
  if (was === is || retraced(element, was, is)) return;
  const isGroup = is.startsWith("<g") && tagOf(was) === tagOf(is);
  if (isGroup) redrawInside(element, apart(was), apart(is));
  else element.replaceWith(...elementsOf(is));
}

/** The same for what stands in a group: what is alike at both ends stays. */
function redrawInside(group, was, is) {
  const most = Math.min(was.length, is.length);
  let [begin, end] = [0, 0];
  while (begin < most && was[begin] === is[begin]) begin += 1;
  while (end < most - begin && was.at(-1 - end) === is.at(-1 - end)) end += 1;
  const standing = [...group.children];
  const behind = standing[was.length - end] ?? null;
  const both = most - end;
  for (let at = begin; at < both; at += 1) redraw(standing[at], was[at], is[at]);
  for (const gone of standing.slice(both, was.length - end)) gone.remove();
  for (const come of elementsOf(is.slice(both, is.length - end).join(""))) group.insertBefore(come, behind);
}

function elementsOf(text) {
  return text ? [...svgFrom(`<svg xmlns="http://www.w3.org/2000/svg">${text}</svg>`).children] : [];
}

function tagOf(text) {
  return text.slice(0, text.indexOf(">"));
}

/** The texts of the elements in a group. */
function apart(group) {
  const [from, to] = [group.indexOf(">") + 1, group.lastIndexOf("<")];
  const found = [];
  let [begin, depth] = [from, 0];
  for (let at = from; at < to;) {
    const end = group.indexOf(">", at);
    if (group[at + 1] === "/") depth -= 1;
    else if (group[end - 1] !== "/") depth += 1;
    at = group.indexOf("<", end);
    if (depth > 0) continue;
    found.push(group.slice(begin, at));
    begin = at;
  }
  return found;
}

/** Where the same elements stand in both texts, with other values or other letters, puts the new ones in the place of the old
 * ones. */
function retraced(element, was, is) {
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
  const elements = [element, ...element.querySelectorAll("*")];
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
  return values.some(([name, value]) => !isHarmless(name, value ?? "#")) ? null : {values, letters: letters === oldLetters ? null : letters};
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
