// What the page looks at, beside what the library holds: the plan and its rules, which are shown from here.

import {tellLibrary} from "./engine.js";

export const state = {
  /** The plan as the library holds it, for looking at only. */
  plan: {},
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
const TO_KEEP = ["language", "unit", "open", "start", "lotMode", "shade"];
/** This window's name among others that show the same page. */
export const here = Math.random().toString(36).slice(2);

let changed = () => {};
let keptOrNot = () => {};
let planText = null;

/** What is called after each change, and with what became of keeping it. */
export function onChange(doing, onKeep) {
  changed = doing;
  keptOrNot = onKeep;
}

/** Looks at something else; nothing to undo. */
export function look(patch) {
  Object.assign(state, patch);
  const looks = Object.fromEntries(TO_KEEP.map((key) => [key, state[key]]));
  keptOrNot(tellLibrary("keep", JSON.stringify({...looks, by: here})));
  changed();
}

/** Has the library do something with the plan, and gives its answer; what came of it is shown by the next `look`. */
export function tell(call, ...given) {
  const answer = tellLibrary(call, ...given);
  const text = tellLibrary("plan");
  if (text !== planText) state.plan = JSON.parse(text);
  planText = text;
  Object.assign(state, {rulesId: tellLibrary("rules_name") ?? null, rulesText: tellLibrary("rules_text"), casesText: tellLibrary("rules_cases")});
  return answer;
}

/** The same, and shows it. */
export function tellAndLook(patch, call, ...given) {
  const answer = tell(call, ...given);
  look(patch);
  return answer;
}

/** Takes up what was kept. */
export function restore() {
  let kept = {};
  try {
    kept = JSON.parse(tell("restore") ?? "{}");
  } catch {
    // What cannot be read is not taken up.
  }
  for (const key of TO_KEEP) if (kept[key] !== undefined && kept[key] !== null) state[key] = kept[key];
}
