// What stands, runs and flows: for each kind that the rule set speaks of, whether it was looked for, and each one with its facts.

import {act, announce, el} from "./dom.js";
import {at, pathOf, put, thingsOf} from "./plan.js";
import {edited, handlesOf} from "./judge.js";
import {faultsAt, idOf, question, textField} from "./field.js";
import {areaFields, outwardFields, placeFields, placesFields, shapeOf} from "./shape.js";
import {change, look, set, state} from "./store.js";
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
      "data-unit": state.unit, value: at(state.plan, field) ?? ""}), el("span", {class: "unit"}, state.unit)),
    faultsAt(field).map((row) => el("p", {class: "wrong"}, row.message, row.help && ` ${row.help}`)));
}

/** The plan with a source of that sort, and its id. */
export function withSource(plan, by) {
  const sources = plan.sources ?? [];
  const found = sources.find((source) => source.by === by);
  if (found) return [plan, found.id];
  const ids = new Set(sources.map((source) => source.id));
  const id = ids.has(by) ? `${by}-2` : by;
  return [{...plan, sources: [...sources, {id, by}]}, id];
}

/** Where something new is put: a little way in from the first corner of the lot, where the pool does not hide it. */
function beside(plan) {
  const [corner] = handlesOf(plan, "lot");
  return corner && corner.at.map((figure) => figure + 5000);
}

/** The plan with one more thing of a kind, and its id; `places` are where it was drawn, if it was. */
export function withThing(plan, kind, places) {
  const [outline] = kind.outlines ?? [];
  const {plan: made, id} = edited(plan, {add: {kind: kind.id, outline: outline?.id, shape: outline?.shape, at: beside(plan), size: ["6 m", "4 m"]}});
  return [places && outline ? put(made, `${pathOf(made, id)}.${outline.id}`, places) : made, id];
}

/** The kinds that the rule set asks of, as the form was last told. */
let kinds = [];
export function setKinds(list) {
  kinds = list;
}
export function kindNamed(id) {
  return kinds.find((kind) => kind.id === id);
}

act("looked", (radio) => set(radio.dataset.path, radio.value));
act("thing-added", (button) => {
  const kind = kindNamed(button.dataset.kind);
  const [plan, id] = withThing(state.plan, kind);
  const inventory = {...plan.inventory};
  if (inventory[kind.id] === "none") delete inventory[kind.id];
  change({...plan, inventory}, {thing: id});
  announce(t("thing.added", {kind: kind.said}));
  document.querySelector(`#thing-${CSS.escape(id)} > summary`)?.focus();
});
act("thing-gone", (button) => {
  const {path, id} = button.dataset;
  const kind = at(state.plan, path)?.kind;
  set(path, undefined, {thing: null});
  announce(t("thing.is-gone", {name: id}));
  document.querySelector(`#kind-${CSS.escape(kind ?? "")} .add`)?.focus();
});
act("thing-opened", (summary, event) => {
  event.preventDefault();
  const {id} = summary.dataset;
  look({thing: state.thing === id ? null : id});
});
act("outline-begun", (button) => {
  // Drawn as a new thing's would be, and taken over from there.
  const {path, shape} = button.dataset;
  const {plan, id} = edited(state.plan, {add: {kind: "pool", outline: "water", shape}});
  set(path, at(plan, `${pathOf(plan, id)}.water`));
});
act("source-picked", (select) => {
  const {path} = select.dataset;
  if (!select.value.startsWith("+")) return set(path, select.value || undefined);
  const [plan, id] = withSource(state.plan, select.value.slice(1));
  state.plan = plan;
  set(path, id);
});

/** Opens the part of the form in which that thing stands. */
export function sectionOf(id) {
  const path = pathOf(state.plan, id);
  if (!path) return null;
  if (path.startsWith("pool")) return "pool";
  if (path.startsWith("lot")) return "lot";
  return at(state.plan, path).kind;
}
