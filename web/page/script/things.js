// What stands, runs and flows: for each kind that the rule set speaks of, whether it was looked for, and each one with its facts.

import {act, announce, el} from "./dom.js";
import {at, pathOf, thingsOf} from "./plan.js";
import {faultsAt, idOf, question, textField} from "./field.js";
import {areaFields, outwardFields, placeFields, placesFields, shapeOf} from "./shape.js";
import {tellLibrary} from "./engine.js";
import {look, state, tell, tellAndLook} from "./store.js";
import {heading, t} from "./words.js";

/** One kind: was it looked for, and which are there. */
export function kindFields(kind) {
  const things = thingsOf(state.plan, kind.id);
  return el("fieldset", {class: "kind", id: `kind-${kind.id}`},
    el("legend", {}, heading(kind.said)),
    looked(kind, things),
    things.map(([path, thing]) => thingFields(kind, path, thing)),
    el("div", {class: "row"},
      el("button", {type: "button", class: "add", "data-do": "thing-added", "data-kind": kind.id}, t("thing.add", {kind: kind.said})),
      kind["drawn-as"] !== "point" && el("button", {type: "button", class: "plain", "data-do": "thing-drawn", "data-kind": kind.id}, t("thing.draw"))));
}

function looked(kind, things) {
  const path = `inventory.${kind.id}`;
  const said = lookedSaid(at(state.plan, path));
  const one = (value) => el("label", {class: "tick"},
    el("input", {type: "radio", name: path, id: `${idOf(path)}-${value}`, value, "data-do": "looked", "data-path": path,
      checked: said === value, disabled: value === "none" && things.length > 0}),
    t(`looked.${value}`));
  const why = (kind.why ?? []).map((rule) => rule.title ?? rule);
  return el("div", {class: "looked", role: "radiogroup", "aria-label": kind.ask, id: `q-${idOf(path)}`},
    el("p", {class: "ask"}, kind.ask),
    el("div", {class: "row"}, one("none"), one("all-shown"), one("not-checked")),
    why.length > 0 && el("details", {class: "about", id: `${idOf(path)}-about`}, el("summary", {}, t("field.about")),
      el("p", {class: "why"}, t("field.why", {rules: [...new Set(why)].join("; ")}))));
}

function lookedSaid(value) {
  if (value === "none") return "none";
  return value === "all-shown" || value?.["all-shown"] ? "all-shown" : "not-checked";
}

function thingFields(kind, path, thing) {
  const open = state.thing === thing.id;
  return el("details", {class: "thing", id: `thing-${thing.id}`, open, "data-touched": null},
    el("summary", {"data-do": "thing-opened", "data-id": thing.id, "data-wrong": faultsAt(path).length > 0},
      el("strong", {}, nameOf(thing)), " ", el("span", {class: "kind-name"}, heading(kind.said))),
    open && [
      textField(`${path}.name`, t("thing.name")),
      outlines(kind, path, thing),
      sourceField(path),
      (kind.facts ?? []).map((fact) => question(`${path}.${fact.id}`, fact)),
      el("button", {type: "button", class: "plain danger", "data-do": "thing-gone", "data-path": path, "data-id": thing.id}, t("thing.gone")),
    ]);
}

/** What a thing is called: its name, or else its id as a person would say it: `garden-gate` is the garden gate. */
export function nameOf(thing) {
  return thing.name ?? (thing.id ?? "").replaceAll("-", " ");
}

/** The same for a thing that is only known by its id. */
export function nameById(id) {
  return nameOf(at(state.plan, pathOf(state.plan, id) ?? "") ?? {id});
}

function outlines(kind, path, thing) {
  const [first, ...others] = kind.outlines ?? [];
  if (!first) return null;
  return el("fieldset", {class: "outlines"}, el("legend", {}, t("thing.where", {what: first.said})),
    drawnFields(`${path}.${first.id}`, first.shape, thing[first.id]),
    others.map((outline) => otherFields(`${path}.${outline.id}`, outline, first)));
}

function drawnFields(path, shape, drawn) {
  if (drawn === undefined) {
    return el("button", {type: "button", class: "plain", "data-do": "outline-begun", "data-path": path, "data-shape": shape}, t("thing.place-it"));
  }
  if (shape === "point") return placeFields(path, t("shape.at"));
  if (shape === "area") return areaFields(path);
  return shapeOf(drawn) === "places" ? placesFields(path) : null;
}

function otherFields(path, outline, first) {
  return outline.shape === first.shape || outline.shape === "area" ? outwardFields(path, outline, first) : null;
}

/** Where the places come from, and how good they are: on that rests what is too close to call. */
export function sourceField(path) {
  const field = `${path}.source`;
  const id = idOf(field);
  const now = at(state.plan, field);
  const sources = state.plan.sources ?? [];
  const index = sources.findIndex((source) => source.id === now);
  const others = ["survey", "plat", "deed", "map", "tape", "design", "fence", "guess"].filter((by) => !sources.some((source) => source.by === by));
  return el("div", {class: "question", id: `q-${id}`},
    el("label", {class: "ask", for: id}, t("source.ask")),
    el("select", {id, "data-do": "source-picked", "data-path": field},
      el("option", {value: "", selected: !now}, t("field.not-known")),
      sources.map((source) => el("option", {value: source.id, selected: source.id === now},
        `${t(`by.${source.by}`)}${source.accuracy ? `, ± ${source.accuracy}` : ""}`)),
      others.map((by) => el("option", {value: `+${by}`}, t(`by.${by}`)))),
    index >= 0 && el("div", {class: "pair"}, accuracyField(path, index, "accuracy"), accuracyField(path, index, "shift")),
    index >= 0 && el("p", {class: "hint"}, t("source.hint")));
}

/** One source serves many things, so its two figures are asked under each: the ids differ, the place in the plan does not. */
function accuracyField(path, index, key) {
  const id = idOf(`${path}.source-${key}`);
  const field = `sources.${index}.${key}`;
  return el("div", {class: "question"}, el("label", {class: "ask", for: id}, t(`source.${key}`)),
    el("div", {class: "figure"}, el("input", {id, type: "text", autocomplete: "off", class: "short", "data-do": "typed", "data-path": field,
      "data-unit": state.unit, value: tellLibrary("figure_shown", String(at(state.plan, field) ?? ""))}), el("span", {class: "unit"}, state.unit)),
    faultsAt(field).map((row) => el("p", {class: "wrong"}, row.message, row.help && ` ${row.help}`)));
}

/** Draws one more thing of a kind, in the places where it was pointed at, if it was; gives its id. */
export function addThing(kind, spots) {
  const [outline] = kind.outlines ?? [];
  return tell("add", kind.id, outline?.id, outline?.shape ?? "", spots && Float64Array.from(spots.flat()));
}

/** The kinds that the rule set asks of, as the form was last told. */
let kinds = [];
export function setKinds(list) {
  kinds = list;
}
export function kindNamed(id) {
  return kinds.find((kind) => kind.id === id);
}

act("looked", (radio) => tellAndLook({}, "say", radio.dataset.path, radio.value));
act("thing-added", (button) => {
  const kind = kindNamed(button.dataset.kind);
  const id = addThing(kind);
  look({thing: id});
  announce(t("thing.added", {kind: kind.said}));
  document.querySelector(`#thing-${CSS.escape(id)} > summary`)?.focus();
});
act("thing-gone", (button) => {
  const {path, id} = button.dataset;
  const kind = at(state.plan, path)?.kind;
  const name = nameById(id);
  tellAndLook({thing: null}, "take_away", path);
  announce(t("thing.is-gone", {name}));
  document.querySelector(`#kind-${CSS.escape(kind ?? "")} .add`)?.focus();
});
act("thing-opened", (summary, event) => {
  event.preventDefault();
  const {id} = summary.dataset;
  look({thing: state.thing === id ? null : id});
});
act("outline-begun", (button) => tellAndLook({}, "begin_outline", button.dataset.path, button.dataset.shape));
act("source-picked", (select) => tellAndLook({}, "pick_source", select.dataset.path, select.value));

/** Opens the part of the form in which that thing stands. */
export function sectionOf(id) {
  const path = pathOf(state.plan, id);
  if (!path) return null;
  if (path.startsWith("pool")) return "pool";
  if (path.startsWith("lot")) return "lot";
  return at(state.plan, path).kind;
}
