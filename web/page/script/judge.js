// Asks the library: what comes of the plan, and what it still has to know. Decides nothing.

import {ask, tellLibrary} from "./engine.js";
import {state, tell} from "./store.js";
import {languageNow} from "./words.js";

/** Has the library speak the page's language; says whether that is another than before. */
export function speakAs() {
  if (spoken === languageNow()) return false;
  spoken = languageNow();
  tellLibrary("speak", spoken);
  begun = [];
  known = {rulesText: null, asked: null};
  return true;
}

let spoken = null;

/** What comes of the plan, and its drawing: `{report, drawing, left_out}`, or `{refused: {plan, rules}}`, in which a fault of
 * the plan says where it stands. */
export function judge(options) {
  return ask("answer", JSON.stringify(options));
}

/** What the last drag began with. */
let begun = [];

/** One step of a drag: what differs from the plan where it began, or nothing where that is not possible. */
export function followed(options, change) {
  const begins = [state.plan, state.rulesText, options];
  if (begins.some((one, at) => one !== begun[at])) {
    tellLibrary("begin", JSON.stringify(options));
    begun = begins;
  }
  const step = ask("follow", JSON.stringify(change, inMetres));
  return step.verdict ? step : null;
}

let known = {rulesText: null, asked: null};

/** What this rule set asks of a plan; nothing where it cannot be read. */
export function whatIsAsked(rulesText) {
  if (known.rulesText !== rulesText) {
    const asked = rulesText ? ask("asked") : null;
    known = {rulesText, asked: asked?.refused ? null : asked};
  }
  return known.asked;
}

/** The plan drawn, as the text of an SVG; nothing where it cannot be. */
export function drawn(options) {
  if (!state.plan.lot || !state.rulesText) return null;
  const text = tellLibrary("draw", JSON.stringify(options));
  return text?.startsWith("<") ? text : null;
}

/** Changes the plan: `{id, closing}`, or `{wrong}` in words. */
export function editPlan(change) {
  return JSON.parse(tell("edit", JSON.stringify(change, inMetres)));
}

/** How far something is dragged, and where it is put, is told on the sheet in millimetres, to the library in metres. */
function inMetres(key, value) {
  if (key === "at" && value) return value.map((figure) => figure / 1000);
  return key === "dx" || key === "dy" ? value / 1000 : value;
}

/** What each side of the lot is proposed to face, and why, by the sides' ids. */
export function proposedFaces() {
  return Object.fromEntries(ask("faces").map((one) => [one.side, one]));
}

/** Where a thing, or an outline of it, can be taken hold of; places are in millimetres. */
export function handlesOf(path) {
  return path ? ask("handles", path) : [];
}
