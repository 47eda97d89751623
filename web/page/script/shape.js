// The outlines of a thing: drawn as a shape, by places, or taken from another outline. Here they are only typed in.

import {act, el} from "./dom.js";
import {at} from "./plan.js";
import {figure, idOf, question} from "./field.js";
import {state, tellAndLook} from "./store.js";
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

act("shape-picked", (select) => tellAndLook({}, "reshape", select.dataset.path, select.value));
act("outline-picked", (select) => tellAndLook({}, "outline_as", select.dataset.path, select.value, select.dataset.from, state.unit));
act("place-gone", (button) => tellAndLook({}, "take_away", button.dataset.path));
act("place-more", (button) => tellAndLook({}, "add_place", button.dataset.path));
