// The particulars: the questions in the order in which a person would answer them, one part open at a time.

import {act, el} from "./dom.js";
import {at, pools} from "./plan.js";
import {question, textField} from "./field.js";
import {areaFields, outwardFields, shapeOf} from "./shape.js";
import {kindFields, kindNamed, sourceField} from "./things.js";
import {lotFields} from "./lot.js";
import {look, state, tell, tellAndLook} from "./store.js";
import {count, heading, t} from "./words.js";

/** The parts of the form. */
export function parts(asked) {
  const kinds = asked?.kinds ?? [];
  const within = (part) => kinds.filter((kind) => kind.part === part);
  return [
    {id: "where", fields: () => whereFields(asked)},
    {id: "lot", fields: () => lotFields(kindNamed("lot"), kindNamed("lot-line"))},
    {id: "pool", fields: () => poolFields(kindNamed("pool"))},
    {id: "road", kinds: within("road")},
    {id: "site", kinds: within("site")},
    {id: "barrier", kinds: within("barrier")},
    {id: "questions", fields: () => ownQuestions(asked)},
  ].filter((part) => part.fields || part.kinds.length > 0);
}

/** The form as it should now stand. */
export function formView(asked, sets) {
  ruleSets = sets;
  const all = parts(asked);
  return el("div", {id: "form-parts"}, all.map((part, index) => partView(part, index, all)));
}

let ruleSets = [];

function partView(part, index, all) {
  const open = state.open === part.id;
  const next = all[index + 1];
  return el("section", {class: "part", id: `part-${part.id}`, "data-open": open},
    el("h2", {},
      el("button", {type: "button", class: "part-head", "data-do": "part-opened", "data-part": part.id, "aria-expanded": String(open), id: `head-${part.id}`},
        el("span", {class: "number", "aria-hidden": "true"}, String(index + 1)),
        el("span", {class: "title"}, t(`part.${part.id}`)),
        el("span", {class: "state"}, progress(part)))),
    open && el("div", {class: "part-body", id: `body-${part.id}`},
      el("p", {class: "lead"}, t(`part.${part.id}.lead`)),
      part.fields ? part.fields() : part.kinds.map(kindFields),
      next && el("button", {type: "button", class: "next", "data-do": "part-opened", "data-part": next.id, id: `next-${part.id}`}, t("part.next", {part: t(`part.${next.id}`)}))));
}

/** How far a part is, in words. */
function progress(part) {
  if (part.id === "where") return state.rulesText ? t("state.chosen") : t("state.first");
  if (part.id === "lot") return state.plan.lot ? t("state.drawn") : t("state.to-do");
  if (part.id === "pool") return state.plan.pool ? t("state.drawn") : t("state.to-do");
  if (!part.kinds) return "";
  const open = part.kinds.filter((kind) => !wasLooked(kind.id)).length;
  return open === 0 ? t("state.done") : count("state.not-checked", open);
}

function wasLooked(kind) {
  const said = state.plan.inventory?.[kind];
  return said !== undefined && said !== "not-checked";
}

function whereFields(asked) {
  const set = ruleSets.find((set) => set.id === state.rulesId);
  return [
    el("div", {class: "question", id: "q-rules"},
      el("label", {class: "ask", for: "rules"}, t("where.rules")),
      el("select", {id: "rules", "data-do": "rules-chosen"},
        el("option", {value: "", selected: !state.rulesText}, t("where.choose")),
        ruleSets.map((one) => el("option", {value: one.id, selected: one.id === state.rulesId}, one.title)),
        !state.rulesId && state.rulesText && el("option", {value: "own", selected: true}, t("where.own")))),
    set && el("div", {class: "note"}, el("p", {}, t("where.authority", {authority: set.authority, edition: set.edition})), set.notice && el("p", {}, set.notice)),
    el("p", {class: "hint"}, t("where.other"), " ", el("button", {type: "button", class: "plain", "data-do": "desk-opened", id: "desk-from-form"}, t("where.desk"))),
    textField("title", t("where.title")),
    el("div", {class: "question", role: "radiogroup", "aria-labelledby": "units-ask"},
      el("p", {class: "ask", id: "units-ask"}, t("where.units")),
      el("div", {class: "row"}, ["m", "ft"].map((unit) => el("label", {class: "tick"},
        el("input", {type: "radio", name: "unit", value: unit, id: `unit-${unit}`, "data-do": "unit-chosen", checked: state.unit === unit}), t(`unit.${unit}`)))),
      el("p", {class: "hint"}, t("where.units-hint"))),
    (asked?.kinds ?? []).filter((kind) => kind.part === "where").map((kind) => factsOf(kind.id, kind.id)),
    (asked?.dates ?? []).map((date) => question(`dates.${date.id}`, {answer: "date", ...date})),
  ];
}

function factsOf(kind, path) {
  return (kindNamed(kind)?.facts ?? []).map((fact) => question(`${path}.${fact.id}`, fact));
}

function poolFields(kind) {
  if (!state.plan.pool) {
    return [el("p", {}, t("pool.none")),
      el("button", {type: "button", class: "add", "data-do": "pool-begun", id: "pool-begin"}, t("pool.begin"))];
  }
  return pools(state.plan).map(([path, pool]) => poolOf(kind, path, pool));
}

function poolOf(kind, path, pool) {
  const outlines = kind?.outlines ?? [];
  const isDrawn = (id) => pool[id] && !["none", "absent", "same-as", "outward", "inward"].includes(shapeOf(pool[id]));
  const drawn = ["water", ...outlines.map((outline) => outline.id)].find(isDrawn) ?? "water";
  const from = outlines.find((outline) => outline.id === drawn) ?? {id: drawn, said: t("pool.water")};
  return el("div", {},
    el("p", {class: "hint"}, t("pool.drag")),
    el("fieldset", {class: "outlines"}, el("legend", {}, heading(from.said)), areaFields(`${path}.${drawn}`)),
    sourceField(path),
    (kind?.facts ?? []).map((fact) => question(`${path}.${fact.id}`, fact)),
    el("h3", {}, t("pool.outlines")), el("p", {class: "hint"}, t("pool.outlines-hint")),
    outlines.filter((outline) => outline.id !== drawn).map((outline) => outwardFields(`${path}.${outline.id}`, outline, from)),
    el("button", {type: "button", class: "plain danger", "data-do": "pool-gone", "data-path": path}, t("pool.gone")));
}

function ownQuestions(asked) {
  const questions = asked?.questions ?? [];
  if (questions.length === 0) return el("p", {}, t("questions.none"));
  return questions.map((one) => question(`answers.${one.id}`, one));
}

/** The first thing that is missing before anything can be judged: the part and the words for it. */
export function firstThing() {
  if (!state.rulesText) return "where";
  if (!state.plan.lot) return "lot";
  if (!state.plan.pool) return "pool";
  return null;
}

/** Opens the part that holds a field, and goes there. */
export function goTo(part, id) {
  look({open: part, view: "form"});
  const field = document.getElementById(id) ?? document.getElementById(`head-${part}`);
  field?.focus();
  field?.scrollIntoView({block: "center"});
}

/** Which part a path of the plan stands in. */
export function partOf(path, asked) {
  const [first, second] = path.split(".");
  if (first === "lot" || first === "pool") return first;
  if (first === "answers") return "questions";
  const kind = first === "things" ? at(state.plan, `things.${second}.kind`) : first === "inventory" ? second : null;
  return parts(asked).find((part) => part.kinds?.some((one) => one.id === kind))?.id ?? "where";
}

act("part-opened", (button) => {
  const {part} = button.dataset;
  const isHead = button.classList.contains("part-head");
  look({open: isHead && state.open === part ? null : part, thing: null});
  if (!isHead) document.getElementById(`head-${part}`)?.focus();
  document.getElementById(`head-${part}`)?.scrollIntoView({block: "nearest"});
});
act("rules-chosen", (select) => {
  if (select.value === "own" || select.value === "") return;
  tellAndLook({selected: null}, "use_rules", select.value);
});
act("unit-chosen", (radio) => look({unit: radio.value}));
act("pool-gone", (button) => tellAndLook({thing: null}, "take_away", button.dataset.path));
act("pool-begun", () => {
  look({thing: tell("add_pool")});
  document.querySelector("#body-pool .outlines select")?.focus();
});
