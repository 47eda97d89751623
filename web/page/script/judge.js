// Asks the library: what comes of the plan, and what it still has to know. Decides nothing.

import {ask, can, fetchText} from "./engine.js";
import {written} from "./plan.js";

/** What comes of a plan: `{report}`, or `{refused: {plan, rules}}`, in which a fault of the plan says where it stands. */
export function judge(plan, rulesText) {
  const {text, paths} = written(plan);
  const answer = ask("check", text, rulesText);
  for (const row of answer.refused?.plan ?? []) row.path = paths[(row.line ?? 0) - 1] ?? "";
  return answer;
}

/** What this rule set asks of this plan. */
export function whatIsAsked(plan, rulesText) {
  if (!rulesText || !can("asked")) return null;
  const answer = ask("asked", written(plan).text, rulesText);
  return answer.refused ? null : answer;
}

/** What comes of a plan, and its drawing, in one go: `{report, drawing}`, or what `judge` gives where it is refused. */
export function judgeAndDraw(plan, rulesText, options) {
  if (!can("frame")) return judge(plan, rulesText);
  const {text, paths} = written(plan);
  const answer = ask("frame", text, rulesText, JSON.stringify(options));
  for (const row of answer.refused?.plan ?? []) row.path = paths[(row.line ?? 0) - 1] ?? "";
  return answer;
}

/** The plan drawn, as the text of an SVG; nothing where it cannot be. */
export function drawn(plan, rulesText, options) {
  if (!plan.lot || !rulesText || !can("draw")) return null;
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

/** Where a thing, or an outline of it, can be taken hold of; places are in millimetres. */
export function handlesOf(plan, path) {
  return path ? ask("handles", written(plan).text, path) : [];
}
