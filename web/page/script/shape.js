// The outlines of a thing: drawn as a shape, by places, or taken from another outline. Here they are only typed in.

import {act, el} from "./dom.js";
import {handlesOf} from "./judge.js";
import {at, put} from "./plan.js";
import {figure, idOf, question} from "./field.js";
import {set, state} from "./store.js";
import {t} from "./words.js";

const SHAPES = ["rectangle", "rounded-rectangle", "oval", "circle", "kidney", "l-shape"];

/** What an outline is drawn as. */
export function shapeOf(drawn) {
  if (drawn === undefined) return "none";
  if (drawn === "none") return "absent";
  if (Array.isArray(drawn)) return typeof drawn[0] === "object" ? "places" : "place";
  return Object.keys(drawn).find((key) => [...SHAPES, "same-as", "outward", "inward", "parts"].includes(key)) ?? "other";
}

/** Fields for an area that is drawn: which shape, where, how large. */
export function areaFields(path, pick = [...SHAPES, "places"]) {
  const drawn = at(state.plan, path);
  const shape = shapeOf(drawn);
  return el("div", {class: "shape"},
    pick.length > 1 && shapePick(path, shape, pick),
    shapeFields(path, shape));
}

function shapePick(path, shape, pick) {
  return el("div", {class: "question"},
    el("label", {class: "ask", for: `${idOf(path)}-shape`}, t("shape.which")),
    el("select", {id: `${idOf(path)}-shape`, "data-do": "shape-picked", "data-path": path},
      pick.map((name) => el("option", {value: name, selected: name === shape}, t(`shape.${name}`))),
      !pick.includes(shape) && el("option", {value: shape, selected: true}, t(`shape.${shape}`))));
}

function shapeFields(path, shape) {
  const below = (key) => `${path}.${shape}.${key}`;
  const length = (key) => figure(below(key), t(`shape.${key}`));
  const place = (key) => placeFields(below(key), t(`shape.${key}`));
  switch (shape) {
    case "rectangle":
    case "rounded-rectangle":
    case "l-shape":
      return [pair(length("length"), length("width")), shape === "rounded-rectangle" && length("corner-radius"),
        shape === "l-shape" && pair(length("notch-length"), length("notch-width")),
        place("at"), question(below("turned"), {ask: t("shape.turned"), answer: "angle", unit: "deg"})];
    case "kidney":
      return [pair(length("radius"), length("hollow")), length("back"), place("from"), place("to")];
    case "circle":
      return [length("radius"), place("at")];
    case "oval":
      return [length("radius"), place("from"), place("to")];
    case "places":
      return placesFields(path);
    case "place":
      return placeFields(path, t("shape.at"));
    default:
      return null;
  }
}

function pair(...fields) {
  return el("div", {class: "pair"}, fields);
}

/** The two figures of a place: how far to the right and how far up, from the corner that the plan counts from. */
export function placeFields(path, label) {
  return el("fieldset", {class: "place"}, el("legend", {}, label),
    pair(figure(`${path}.0`, t("shape.right")), figure(`${path}.1`, t("shape.up"))));
}

/** A line or a ring, place by place. */
export function placesFields(path) {
  const places = at(state.plan, path) ?? [];
  return el("ol", {class: "places"},
    places.map((_, index) => el("li", {},
      placeFields(`${path}.${index}`, t("shape.place", {n: index + 1})),
      places.length > 2 && el("button", {type: "button", class: "plain", "data-do": "place-gone", "data-path": `${path}.${index}`},
        t("shape.place-gone", {n: index + 1})))),
    el("li", {class: "more"}, el("button", {type: "button", class: "plain", "data-do": "place-more", "data-path": path}, t("shape.place-more"))));
}

/** An outline that lies outward of another: how far, and with which corners. */
export function outwardFields(path, outline, from) {
  const drawn = at(state.plan, path);
  const shape = shapeOf(drawn);
  const own = ["outward", "same-as", "none", "absent"].includes(shape);
  const id = idOf(path);
  return el("fieldset", {class: "outward"}, el("legend", {}, outline.said),
    el("div", {class: "question"},
      el("label", {class: "ask", for: `${id}-as`}, t("outline.where")),
      el("select", {id: `${id}-as`, "data-do": "outline-picked", "data-path": path, "data-from": from.id},
        el("option", {value: "none", selected: shape === "none"}, t("field.not-known")),
        el("option", {value: "same-as", selected: shape === "same-as"}, t("outline.same", {from: from.said})),
        el("option", {value: "outward", selected: shape === "outward"}, t("outline.outward", {from: from.said})),
        (outline["may-be-none"] || shape === "absent") && el("option", {value: "absent", selected: shape === "absent"}, t("field.none")),
        !own && el("option", {value: shape, selected: true}, t(`shape.${shape}`)))),
    shape === "outward" && pair(figure(`${path}.outward`, t("outline.how-far")),
      question(`${path}.corners`, {ask: t("outline.corners"), answer: "choice", words: ["square", "round"]})));
}

/** The outline of that path drawn as another shape, where the library has it now. Only something to begin with. */
function reshaped(plan, path, shape) {
  const outline = path.slice(path.lastIndexOf(".") + 1);
  const owner = path.slice(0, path.lastIndexOf("."));
  const held = handlesOf(plan, `${at(plan, owner).id}:${outline}`);
  const spots = (what) => held.filter((handle) => handle.what === what).map((handle) => typedPlace(handle.at));
  const corners = spots("corner");
  const ends = [spots("side")[3], spots("side")[1]];
  const first = corners[0] ?? typedPlace(held[0]?.at ?? [0, 0]);
  const box = {at: first, length: "8 m", width: "4 m"};
  switch (shape) {
    case "circle": return {circle: {at: first, radius: "2 m"}};
    case "rounded-rectangle": return {"rounded-rectangle": {...box, ...at(plan, path).rectangle, "corner-radius": "500 mm"}};
    case "rectangle": return {rectangle: box};
    case "l-shape": return {"l-shape": {...box, width: "6 m", "notch-length": "4 m", "notch-width": "2 m"}};
    case "kidney": if (ends[0]) return {kidney: {from: ends[0], to: ends[1], radius: "2 m", hollow: "500 mm"}};
    // Falls through.
    case "oval": if (ends[0]) return {oval: {from: ends[0], to: ends[1], radius: "2 m"}};
    // Falls through: what has no ends or corners yet is made a rectangle first, which has.
    default: if (shape === "places" && corners.length > 2) return corners;
  }
  return reshaped(put(plan, path, {rectangle: box}), path, shape);
}

/** A place as the document has it; the library counts in millimetres. */
export function typedPlace([x, y]) {
  return [`${(x / 1000).toFixed(2)} m`, `${(y / 1000).toFixed(2)} m`];
}

act("shape-picked", (select) => {
  const {path} = select.dataset;
  set(path, reshaped(state.plan, path, select.value));
});
act("outline-picked", (select) => {
  const {path, from} = select.dataset;
  const made = {
    "same-as": {"same-as": from},
    absent: "none",
    outward: {outward: state.unit === "ft" ? "1 ft" : "300 mm", from, corners: "square"},
  };
  set(path, made[select.value]);
});
act("place-gone", (button) => set(button.dataset.path, undefined));
act("place-more", (button) => {
  const path = button.dataset.path;
  const places = at(state.plan, path) ?? [];
  // Between the last and the first, or at the end of a line: where it is to be, is typed or dragged.
  set(path, [...places, places.at(-1) ?? ["0 m", "0 m"]]);
});
