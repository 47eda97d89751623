// Asks the library: what comes of the plan, and what it still has to know. Decides nothing.

import {ask, can, fetchText} from "./engine.js";
import {written} from "./plan.js";
import {languageNow} from "./words.js";

/** Has the library speak the page's language; says whether that is another than before. */
export function speakAs() {
  if (spoken === languageNow()) return false;
  spoken = languageNow();
  if (can("speak")) fetchText("speak", spoken);
  begun = [];
  known = {rulesText: null, asked: null};
  return true;
}

let spoken = null;

/** What comes of a plan, and its drawing: `{report, drawing, left_out}`, or `{refused: {plan, rules}}`, in which a fault of
 * the plan says where it stands. */
export function judge(plan, rulesText, options) {
  const {text, paths} = written(plan);
  const answer = ask("answer", text, rulesText, JSON.stringify(options));
  for (const row of answer.refused?.plan ?? []) row.path = paths[(row.line ?? 0) - 1] ?? "";
  return answer;
}

/** What the last drag began with. */
let begun = [];

/** One step of a drag: what differs from the plan where it began, or nothing where that is not possible. */
export function followed(plan, rulesText, options, change) {
  const begins = [plan, rulesText, options];
  if (begins.some((one, at) => one !== begun[at])) {
    fetchText("begin", written(plan).text, rulesText, JSON.stringify(options));
    begun = begins;
  }
  const step = ask("follow", JSON.stringify(change, inMetres));
  return step.verdict ? step : null;
}

let known = {rulesText: null, asked: null};

/** What this rule set asks of a plan; nothing where it cannot be read. */
export function whatIsAsked(rulesText) {
  if (known.rulesText !== rulesText) {
    const asked = rulesText ? ask("asked", rulesText) : null;
    known = {rulesText, asked: asked?.refused ? null : asked};
  }
  return known.asked;
}

/** The plan drawn, as the text of an SVG; nothing where it cannot be. */
export function drawn(plan, rulesText, options) {
  if (!plan.lot || !rulesText) return null;
  const text = fetchText("draw", written(plan).text, rulesText, JSON.stringify(options));
  return text?.startsWith("<") ? text : null;
}

/** A change of the plan, worked out by the library: `{plan, id, closing}`, or `{wrong}` in words. */
export function edited(plan, change) {
  const answer = ask("edit", written(plan).text, JSON.stringify(change, inMetres));
  return answer.plan ? answer : {wrong: answer.wrong ?? answer.refused?.plan?.[0]?.message ?? ""};
}

/** How far something is dragged, and where it is put, is told on the sheet in millimetres, to the library in metres. */
function inMetres(key, value) {
  if (key === "at" && value) return value.map((figure) => figure / 1000);
  return key === "dx" || key === "dy" ? value / 1000 : value;
}

/** What each side of the lot is proposed to face, and why, by the sides' ids. */
export function proposedFaces(plan) {
  return Object.fromEntries(ask("faces", written(plan).text).map((one) => [one.side, one]));
}

/** Where a thing, or an outline of it, can be taken hold of; places are in millimetres. */
export function handlesOf(plan, path) {
  return path ? ask("handles", written(plan).text, path) : [];
}
