// What the page knows: the plan, the rule set, what is looked at. It is kept in the browser, and each step can be undone.

import {ask, fetchText} from "./engine.js";
import {put} from "./plan.js";

const KEPT = "siting/1";
const STEPS = 200;

export const state = {
  plan: null,
  /** The id of a rule set that came along, or null where the text is somebody's own. */
  rulesId: null,
  rulesText: "",
  casesText: "",
  language: null,
  /** The unit that a bare figure gets: `m` or `ft`. */
  unit: "m",
  /** Which section of the form is open. */
  open: "where",
  /** Which of the three views a narrow page shows. */
  view: "form",
  desk: false,
  /** Whether a narrow page shows all that can be done with the plan. */
  menu: false,
  selected: null,
  thing: null,
  shade: false,
  start: null,
  lotMode: "rectangle",
};
const TO_KEEP = ["plan", "rulesId", "rulesText", "casesText", "language", "unit", "open", "start", "lotMode", "shade"];

let past = [];
let future = [];
let changed = () => {};

/** What is called after each change. */
export function onChange(doing) {
  changed = doing;
}

/** Looks at something else; nothing to undo. */
export function look(patch) {
  Object.assign(state, patch);
  keep();
  changed();
}

/** Changes the plan; `named` says what an undo would take back. */
export function change(plan, patch = {}) {
  past.push(snapshot());
  if (past.length > STEPS) past.shift();
  future = [];
  Object.assign(state, patch, {plan});
  keep();
  changed();
}

/** Puts one value into the plan. */
export function set(path, value, patch = {}) {
  change(put(state.plan, path, value), patch);
}

export function canUndo() {
  return past.length > 0;
}
export function canRedo() {
  return future.length > 0;
}
export function undo() {
  step(past, future);
}
export function redo() {
  step(future, past);
}

function step(from, to) {
  if (from.length === 0) return;
  to.push(snapshot());
  Object.assign(state, from.pop());
  keep();
  changed();
}

/** What undo brings back: the plan and its rules. Plans are never changed in place, so they can be shared. */
function snapshot() {
  const {plan, rulesId, rulesText, casesText} = state;
  return {plan, rulesId, rulesText, casesText};
}

function keep() {
  const kept = Object.fromEntries(TO_KEEP.map((key) => [key, state[key]]));
  if (state.rulesId) kept.rulesText = kept.casesText = "";
  try {
    localStorage.setItem(KEPT, JSON.stringify(kept));
  } catch {
    // A browser may forbid it; then the page works on, and only forgets.
  }
}

/** Takes up what was kept, or begins anew. */
export function restore() {
  let kept = {};
  try {
    kept = JSON.parse(localStorage.getItem(KEPT) ?? "{}");
  } catch {
    kept = {};
  }
  for (const key of TO_KEEP) if (kept[key] !== undefined && kept[key] !== null) state[key] = kept[key];
  state.plan ??= ask("blank");
  if (state.rulesId) useBundled(state.rulesId);
}

/** Takes a rule set that came along; gives whether there is one of that name. */
export function useBundled(id) {
  const text = fetchText("rule_text", id);
  if (text === null) {
    Object.assign(state, {rulesId: null, rulesText: "", casesText: ""});
    return false;
  }
  Object.assign(state, {rulesId: id, rulesText: text, casesText: fetchText("cases_text", id) ?? ""});
  return true;
}

/** Begins anew, with nothing. */
export function forget() {
  change(ask("blank"), {open: "where", thing: null, selected: null});
}
