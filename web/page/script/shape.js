// The outlines of a thing: drawn as a shape, by places, or taken from another outline. Here they are only typed in.

import {act, el} from "./dom.js";
import {at} from "./plan.js";
import {figure, idOf, question} from "./field.js";
import {set, state} from "./store.js";
import {t} from "./words.js";

const SHAPES = ["rectangle", "rounded-rectangle", "oval", "circle"];

/** What an outline is drawn as. */
export function shapeOf(drawn) {
  if (drawn === undefined) return "none";
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
      return [pair(length("length"), length("width")), shape === "rounded-rectangle" && length("corner-radius"),
        place("at"), question(below("turned"), {ask: t("shape.turned"), answer: "angle", unit: "deg"})];
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
export function outwardFields(path, said, from) {
  const drawn = at(state.plan, path);
  const shape = shapeOf(drawn);
  const own = shape === "outward" || shape === "same-as" || shape === "none";
  const id = idOf(path);
  return el("fieldset", {class: "outward"}, el("legend", {}, said),
    el("div", {class: "question"},
      el("label", {class: "ask", for: `${id}-as`}, t("outline.where")),
      el("select", {id: `${id}-as`, "data-do": "outline-picked", "data-path": path, "data-from": from.id},
        el("option", {value: "none", selected: shape === "none"}, t("field.not-known")),
        el("option", {value: "same-as", selected: shape === "same-as"}, t("outline.same", {from: from.said})),
        el("option", {value: "outward", selected: shape === "outward"}, t("outline.outward", {from: from.said})),
        !own && el("option", {value: shape, selected: true}, t(`shape.${shape}`)))),
    shape === "outward" && pair(figure(`${path}.outward`, t("outline.how-far")),
      question(`${path}.corners`, {ask: t("outline.corners"), answer: "choice", words: ["square", "round"]})));
}

/** A shape of that name about the middle of where it is wanted. Only something to begin with: the figures are then typed over. */
export function freshShape(shape, [x, y]) {
  const m = (figure) => `${round(figure)} m`;
  const place = (dx, dy) => [m(x + dx), m(y + dy)];
  switch (shape) {
    case "circle": return {circle: {at: place(0, 0), radius: m(2)}};
    case "oval": return {oval: {from: place(-2, 0), to: place(2, 0), radius: m(2)}};
    case "rounded-rectangle": return {"rounded-rectangle": {at: place(-4, -2), length: m(8), width: m(4), "corner-radius": m(0.5)}};
    case "places": return [place(-4, -2), place(4, -2), place(4, 2), place(-4, 2)];
    case "line": return [place(-4, 0), place(4, 0)];
    case "place": return place(0, 0);
    default: return {rectangle: {at: place(-2, -1.5), length: m(4), width: m(3)}};
  }
}

function round(figure) {
  return Math.round(figure * 100) / 100;
}

/** Where something new is put: amid the corners of the lot, so that it is seen. */
export function amid(plan) {
  const corners = Object.values(plan.lot?.corners ?? {}).map(([x, y]) => [metres(x, plan.unit), metres(y, plan.unit)]);
  if (corners.length === 0) return [10, 10];
  const mean = (axis) => corners.reduce((sum, corner) => sum + corner[axis], 0) / corners.length;
  return [mean(0), mean(1)];
}

/** A figure of the document in metres, near enough for placing something on the screen. */
export function metres(figure, unit) {
  const text = String(figure);
  const feet = /ft|'|′/.test(text) || (unit === "ft" && /^[-\d.]+$/.test(text));
  return parseFloat(text) * (feet ? 0.3048 : 1) || 0;
}

act("shape-picked", (select) => {
  const path = select.dataset.path;
  set(path, freshShape(select.value, amid(state.plan)));
});
act("outline-picked", (select) => {
  const {path, from} = select.dataset;
  const made = {
    "same-as": {"same-as": from},
    outward: {outward: state.unit === "ft" ? "1 ft" : "300 mm", from, corners: "square"},
  };
  set(path, made[select.value]);
});
act("place-gone", (button) => set(button.dataset.path, undefined));
act("place-more", (button) => {
  const path = button.dataset.path;
  const places = at(state.plan, path) ?? [];
  const last = places.at(-1) ?? ["0 m", "0 m"];
  const next = [`${round(metres(last[0], state.plan.unit) + 2)} m`, last[1]];
  set(path, [...places, next]);
});
