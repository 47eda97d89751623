// The lot: by width and depth, by its sides and corners, or by drawing; and what each of its sides faces.

import {act, announce, el} from "./dom.js";
import {editPlan, proposedFaces} from "./judge.js";
import {tellLibrary} from "./engine.js";
import {faultsAt, question} from "./field.js";
import {placeFields} from "./shape.js";
import {nameOf, sourceField} from "./things.js";
import {look, state, tell, tellAndLook} from "./store.js";
import {SAID, t} from "./words.js";

/** What was typed of the size of a lot of which one figure is still missing. */
let half = {width: "", depth: ""};
let walk = [{length: "", angle: "90"}, {length: "", angle: "90"}, {length: "", angle: "90"}, {length: "", angle: "90"}];
let wrong = null;
/** By how many millimetres the last side misses the first corner. */
let closing = null;

const MODES = ["rectangle", "sides", "draw"];

export function lotFields(lot, line) {
  return [
    el("div", {class: "question", role: "radiogroup", "aria-labelledby": "lot-how"},
      el("p", {class: "ask", id: "lot-how"}, t("lot.how")),
      el("div", {class: "row"}, MODES.map((mode) => el("label", {class: "tick"},
        el("input", {type: "radio", name: "lot-mode", value: mode, id: `lot-mode-${mode}`, "data-do": "lot-mode", checked: state.lotMode === mode}), t(`lot.${mode}`))))),
    modeFields(),
    wrong && el("div", {class: "wrong", id: "lot-wrong", role: "alert"}, el("p", {}, wrong)),
    closing !== null && el("p", {class: "hint", id: "lot-closing", role: "status"}, t(closing === 0 ? "lot.closes" : "lot.closing", {mm: closing})),
    state.plan.lot && drawnLot(lot, line),
  ];
}

function modeFields() {
  if (state.lotMode === "rectangle") return rectangleFields();
  if (state.lotMode === "sides") return walkFields();
  return el("p", {}, t("lot.draw-hint"), " ", el("button", {type: "button", class: "add", "data-do": "lot-drawn", id: "lot-draw"}, t("lot.draw-begin")));
}

function plainField(id, label, value, doing, extra = {}) {
  return el("div", {class: "question"}, el("label", {class: "ask", for: id}, label),
    el("div", {class: "figure"}, el("input", {id, type: "text", autocomplete: "off", class: "short", value, "data-do": doing, "data-unit": state.unit, ...extra}),
      el("span", {class: "unit"}, extra["data-unit"] ?? state.unit)));
}

function rectangleFields() {
  const [width, depth] = tellLibrary("size_of_lot") ?? [half.width, half.depth];
  const size = {width: tellLibrary("figure_shown", width), depth: tellLibrary("figure_shown", depth)};
  const missing = Boolean(half.width) !== Boolean(half.depth);
  return el("div", {},
    el("div", {class: "pair"}, plainField("lot-width", t("lot.width"), size.width, "lot-size", {"data-key": "width"}),
      plainField("lot-depth", t("lot.depth"), size.depth, "lot-size", {"data-key": "depth"})),
    missing && el("p", {class: "hint", id: "lot-half", role: "status"}, t(half.width ? "lot.depth-too" : "lot.width-too")),
    el("p", {class: "hint"}, t(state.plan.lot && !tellLibrary("size_of_lot") ? "lot.not-rectangle" : "lot.rectangle-hint")));
}

function walkFields() {
  return el("div", {},
    el("p", {class: "hint"}, t("lot.sides-hint")),
    el("ol", {class: "places"}, walk.map((side, index) => el("li", {},
      el("fieldset", {class: "place"}, el("legend", {}, t("lot.side", {n: index + 1})),
        el("div", {class: "pair"},
          plainField(`walk-${index}-length`, t("lot.length"), side.length, "walk-typed", {"data-index": index, "data-key": "length"}),
          index + 1 < walk.length && plainField(`walk-${index}-angle`, t("lot.angle"), side.angle, "walk-typed", {"data-index": index, "data-key": "angle", "data-unit": "deg"})))))),
    el("div", {class: "row"},
      el("button", {type: "button", class: "plain", "data-do": "walk-more"}, t("lot.side-more")),
      walk.length > 3 && el("button", {type: "button", class: "plain", "data-do": "walk-less"}, t("lot.side-less"))),
    el("button", {type: "button", class: "add", "data-do": "walk-done", id: "walk-done"}, t("lot.walk-done")));
}

function drawnLot(lot, line) {
  const sides = state.plan.lot.sides ?? [];
  const faces = line?.facts?.find((fact) => fact.id === "faces") ?? {id: "faces", ask: t("lot.faces"), answer: "choice", words: ["front", "side", "rear", "street-side", "shore", "alley"]};
  const others = (line?.facts ?? []).filter((fact) => fact.id !== "faces");
  const proposed = sides.every((side) => side.faces) ? {} : proposedFaces();
  return el("div", {},
    sourceField("lot"), el("p", {class: "hint"}, t("lot.source-hint")),
    el("h3", {}, t("lot.sides-head")), el("p", {class: "hint"}, t("lot.faces-hint")),
    sides.map((side, index) => el("fieldset", {class: "side", id: `side-${side.id}`, "data-wrong": faultsAt(`lot.sides.${index}`).length > 0},
      el("legend", {}, t("lot.side-named", {name: nameOf(side)})),
      question(`lot.sides.${index}.faces`, {...faces, id: null, ask: t("lot.faces")}),
      !side.faces && proposedFace(index, proposed[side.id]),
      others.map((fact) => question(`lot.sides.${index}.${fact.id}`, fact)))),
    (lot?.facts ?? []).map((fact) => question(`lot.${fact.id}`, fact)),
    question("north", {ask: t("lot.north"), answer: "angle", unit: "deg", how: t("lot.north-how")}),
    el("details", {class: "about", id: "lot-corners"}, el("summary", {}, t("lot.corners")),
      Object.entries(state.plan.lot.corners ?? {}).map(([corner, at]) => placeFields(`lot.corners.${corner.replaceAll(".", "\\.")}${at?.at ? ".at" : ""}`, t("lot.corner", {name: corner})))));
}

/** What a side may face, and why: somebody who stands there takes it or says something else. */
function proposedFace(index, proposed) {
  if (!proposed) return null;
  const {faces, why} = proposed;
  return el("p", {class: "hint"}, faces && t("lot.proposed", {faces}), " ", el("span", SAID, why), " ",
    faces && el("button", {type: "button", class: "plain", "data-do": "face-taken", "data-path": `lot.sides.${index}.faces`, "data-faces": faces}, t("lot.take", {faces})));
}

/** The plan with a lot, as the library lays it out; says what is wrong beside the fields where it cannot be. */
function layOut(lot) {
  const answer = editPlan({lot});
  wrong = answer.wrong ?? null;
  closing = answer.closing ?? null;
  look({});
  if (!wrong) announce(t("lot.laid-out"));
}

act("face-taken", (button) => tellAndLook({}, "say", button.dataset.path, button.dataset.faces));
act("lot-mode", (radio) => {
  wrong = null;
  half = {width: "", depth: ""};
  look({lotMode: radio.value});
});
act("lot-size", (field) => {
  half = {...half, [field.dataset.key]: tellLibrary("figure_typed", field.value, field.dataset.unit)};
  closing = null;
  const said = tell("size_lot", half.width, half.depth);
  wrong = said && said !== "incomplete" ? said : null;
  if (!said) half = {width: "", depth: ""};
  look({});
  if (!said) announce(t("lot.laid-out"));
});
act("walk-typed", (field) => {
  const {index, key, unit} = field.dataset;
  walk = walk.map((side, at_) => at_ === Number(index) ? {...side, [key]: tellLibrary("figure_typed", field.value, unit)} : side);
  look({});
});
act("walk-more", () => {
  walk = [...walk, {length: "", angle: "90"}];
  look({});
});
act("walk-less", () => {
  walk = walk.slice(0, -1);
  look({});
});
act("walk-done", () => layOut({sides: walk}));
