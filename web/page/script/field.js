// One question: a field, why it is asked, how it is measured, and what is wrong with what was typed.

import {act, el, prose} from "./dom.js";
import {at} from "./plan.js";
import {tellLibrary} from "./engine.js";
import {state, tellAndLook} from "./store.js";
import {SAID, t, tOr} from "./words.js";

/** The faults of now, by the path of what they stand in. */
let faults = new Map();

/** All of them, in the order of the plan. */
let faultRows = [];

/** Tells the fields what the reader found. */
export function setFaults(rows) {
  faultRows = rows;
  faults = new Map();
  for (const row of rows) {
    const list = faults.get(row.path) ?? [];
    list.push(row);
    faults.set(row.path, list);
  }
}

/** All faults of now, for whoever has no field in sight that shows them. */
export function faultsNow() {
  return faultRows;
}

/** The faults at a path or below it. */
export function faultsAt(path) {
  const found = [];
  for (const [where, rows] of faults) if (where === path || where.startsWith(`${path}.`)) found.push(...rows);
  return found;
}

/** A question with its field. `fact` is as the library asks it: {id, ask, how, answer, words, unit, why, …}. */
export function question(path, fact) {
  const id = idOf(path);
  const value = at(state.plan, path);
  const wrong = faultsAt(path);
  return el("div", {class: "question", id: `q-${id}`, "data-wrong": wrong.length > 0},
    el("label", {for: id, class: "ask", ...saidOf(path, fact)}, fact.ask),
    ...control(path, id, fact, value, describedBy(id, fact, wrong)),
    wrong.length > 0 && faultText(id, wrong),
    about(path, id, fact));
}

/** What the library asks is English; labels that are the page's own have no id, and the questions of a rule set are in its own
 * language. */
function saidOf(path, fact) {
  return fact.id && !path.startsWith("answers.") ? SAID : {};
}

function describedBy(id, fact, wrong) {
  return {
    "aria-describedby": [wrong.length > 0 && `${id}-wrong`, fact.how && `${id}-how`].filter(Boolean).join(" ") || null,
    "aria-invalid": wrong.length > 0 ? "true" : null,
  };
}

function control(path, id, fact, value, aria) {
  if (isSpan(value)) return spanFields(path, id, fact, value, aria);
  if (fact["other-words"]) return openChoice(path, id, fact, value, aria);
  if (fact.answer === "choice" || fact.answer === "yes-no") return [choice(path, id, fact, value, aria)];
  if (fact.answer === "date") return [input(path, id, {type: "date", ...aria}, value, "typed")];
  return [el("div", {class: "figure"}, figureField(path, id, fact, value, aria), noneButton(path, fact, value))];
}

function figureField(path, id, fact, value, aria) {
  const unit = unitOf(fact);
  const attributes = {type: "text", inputmode: "text", autocomplete: "off", class: "short", "data-unit": unit, ...aria};
  return [input(path, id, attributes, value, "typed"), unit && el("span", {class: "unit"}, unit)];
}

function input(path, id, attributes, value, doing) {
  return el("input", {id, "data-do": doing, "data-path": path, value: tellLibrary("figure_shown", shown(value)), ...attributes});
}

/** A text field for a length or the like, where there is no fact behind it. */
export function figure(path, label, extra = {}) {
  return question(path, {ask: label, answer: "length", unit: state.unit, ...extra});
}

/** A text field for words. */
export function textField(path, label) {
  const id = idOf(path);
  return el("div", {class: "question", id: `q-${id}`},
    el("label", {for: id, class: "ask"}, label),
    el("input", {id, type: "text", autocomplete: "off", "data-do": "words-typed", "data-path": path, value: shown(at(state.plan, path))}));
}

function noneButton(path, fact, value) {
  if (!fact["may-be-none"]) return null;
  return el("label", {class: "tick"},
    el("input", {type: "checkbox", "data-do": "none-ticked", "data-path": path, id: `${idOf(path)}-none`, checked: value === "none"}),
    t("field.none"));
}

/** What changes along a thing has a lowest and a highest place. */
function spanFields(path, id, fact, value, aria) {
  const unit = unitOf(fact);
  const one = (key, label) => el("label", {class: "half"}, label,
    input(`${path}.${key}`, `${id}.${key}`, {type: "text", autocomplete: "off", class: "short", "data-unit": unit, ...aria}, value[key], "typed"));
  return [el("div", {class: "figure", id}, one("from", t("field.lowest")), one("to", t("field.highest")),
    el("button", {type: "button", class: "plain", "data-do": "span-off", "data-path": path}, t("field.same-everywhere")))];
}

function choice(path, id, fact, value, aria) {
  const words = wordsOf(fact);
  const now = shown(value);
  const known = now === "" || words.some(([word]) => word === now);
  return el("select", {id, "data-do": "chosen", "data-path": path, ...aria},
    el("option", {value: "", selected: now === ""}, t("field.not-known")),
    words.map(([word, said]) => el("option", {value: word, selected: word === now}, said)),
    !known && el("option", {value: now, selected: true}, now));
}

/** Words to choose from, where another word is possible as well. */
function openChoice(path, id, fact, value, aria) {
  return [el("input", {id, type: "text", autocomplete: "off", list: `${id}-words`, "data-do": "words-typed", "data-path": path, value: shown(value), ...aria}),
    el("datalist", {id: `${id}-words`}, wordsOf(fact).map(([word, said]) => el("option", {value: word}, said)))];
}

function wordsOf(fact) {
  const given = fact.answer === "yes-no" ? ["yes", "no"] : (fact.words ?? []);
  const words = given.map((word) => {
    const name = typeof word === "string" ? word : word.word;
    return [name, tOr(`word.${name}`, (word.said ?? name).replaceAll("-", " "))];
  });
  if (fact["may-be-none"] && !words.some(([word]) => word === "none")) words.push(["none", t("field.none")]);
  return words;
}

/** Why it is asked and how it is found out, folded away until somebody wants to know. */
function about(path, id, fact) {
  const why = (fact.why ?? []).map((rule) => rule.title ?? rule);
  if (!fact.how && why.length === 0 && !fact.varies) return null;
  return el("details", {class: "about", id: `${id}-about`},
    el("summary", {}, t("field.about")),
    fact.how && el("p", {id: `${id}-how`, ...saidOf(path, fact)}, prose(fact.how)),
    why.length > 0 && el("p", {class: "why"}, t("field.why", {rules: [...new Set(why)].join("; ")})),
    fact.varies && el("button", {type: "button", class: "plain", "data-do": "span-on", "data-path": path}, t("field.varies")));
}

function faultText(id, wrong) {
  return el("div", {class: "wrong", id: `${id}-wrong`},
    wrong.map((row) => el("p", SAID, prose(row.message), row.help && [" ", prose(row.help)])));
}

/** An id that a path gives, and the way back. */
export function idOf(path) {
  return `at-${path.replaceAll(".", "_")}`;
}

/** What a field shows of a value: as it was typed. */
export function shown(value) {
  if (value === undefined || value === null) return "";
  if (value === true) return "yes";
  if (value === false) return "no";
  if (Array.isArray(value)) return value.map(shown).join(", ");
  if (typeof value === "object") {
    if (value["one-of"]) return value["one-of"].map(shown).join(` ${t("field.or")} `);
    return Object.entries(value).map(([key, part]) => `${key}: ${shown(part)}`).join(", ");
  }
  return String(value);
}

function isSpan(value) {
  return value !== null && typeof value === "object" && "from" in value && "to" in value;
}

function unitOf(fact) {
  if (fact.answer === "length" || (fact.units ?? []).includes("m")) return state.unit;
  return fact.unit ?? "";
}

act("typed", (field) => tellAndLook({}, "say_figure", field.dataset.path, field.value, field.dataset.unit ?? ""));
act("words-typed", (field) => tellAndLook({}, "say", field.dataset.path, field.value));
act("chosen", (field) => tellAndLook({}, "say", field.dataset.path, field.value));
act("none-ticked", (box) => tellAndLook({}, "say", box.dataset.path, box.checked ? "none" : ""));
act("span-on", (button) => tellAndLook({}, "vary", button.dataset.path, true));
act("span-off", (button) => tellAndLook({}, "vary", button.dataset.path, false));
