// The result in words: the verdict, then each rule with its figures, most pressing first.

import {act, el, mend, prose} from "./dom.js";
import {editionsView} from "./editions.js";
import {at, pathOf, pools} from "./plan.js";
import {faultsNow, idOf} from "./field.js";
import {firstThing, goTo, partOf} from "./form.js";
import {nameById} from "./things.js";
import {look, state} from "./store.js";
import {SAID, count, t, verdictWords} from "./words.js";

const ORDER = ["fail", "unknown", "marginal", "refer", "pass", "not-applicable"];
const SETTLED = new Set(["pass", "not-applicable"]);
const MARKS = {fail: "×", unknown: "?", marginal: "≈", refer: "§", pass: "✓", "not-applicable": "–"};

/** The one line that is always in sight. */
export function verdictView(answer, stale) {
  verdictTold = "";
  const report = answer?.report;
  if (!report) return el("div", {id: "verdict", "data-word": "none"}, waiting(answer));
  const {counts, verdict} = report;
  const told = ORDER.filter((outcome) => counts[outcome] > 0).map((outcome) => el("li", {"data-outcome": outcome}, markOf(outcome), count(`count.${outcome}`, counts[outcome])));
  return el("div", {id: "verdict", "data-word": verdict.word},
    el("p", {id: "verdict-word"}, verdictWords(verdict)),
    stale && el("p", {class: "stale"}, t("verdict.stale")),
    wrongView(),
    answer.left_out?.length > 0 && leftOut(answer.left_out),
    el("ul", {class: "counts"}, told));
}

/** What the plan holds for other rules, which these have no word for. */
function leftOut(paths) {
  return el("details", {class: "about", id: "left-out"}, el("summary", {}, count("left-out", paths.length)), el("p", {}, t("left-out.why")),
    el("ul", {}, paths.map((path) => el("li", {}, path.split(".").at(-1).replaceAll("-", " ")))));
}

function waiting(answer) {
  const first = firstThing();
  if (first) {
    return [el("p", {id: "verdict-word"}, t(`first.${first}`)),
      el("p", {class: "row"}, el("button", {type: "button", class: "add", "data-do": "first-thing", "data-part": first, id: "first-thing"}, t(`first.${first}.do`)),
        first === "where" && el("button", {type: "button", class: "plain", "data-do": "example", id: "example-early"}, t("menu.example")))];
  }
  return [el("p", {id: "verdict-word"}, answer?.refused?.rules?.length ? t("verdict.rules-refused") : t("verdict.refused")), wrongView()];
}

/** What is wrong with the plan, each with the way to its field. */
function wrongView() {
  const rows = faultsNow();
  return rows.length > 0 && el("div", {id: "faults-now", class: "wrong", role: "alert"}, el("ul", {}, rows.map(({message, help, path}, index) => el("li", {},
    el("span", SAID, prose(message), help && [" ", prose(help)]), " ",
    path && el("button", {type: "button", class: "plain", "data-do": "fault-shown", "data-path": path, id: `fault-${index}`}, t("verdict.show-field"))))));
}

function markOf(outcome) {
  return el("span", {class: "mark", "aria-hidden": "true"}, MARKS[outcome]);
}

/** All findings, in groups. */
export function findingsView(answer) {
  astir = new Map();
  const report = answer?.report;
  if (!report) return el("div", {id: "findings"}, el("p", {class: "hint"}, t("findings.none-yet")));
  const rules = report.rules.filter((rule) => isAbout(rule, state.thing));
  const binding = rules.filter((rule) => rule.strength === "must");
  const advice = rules.filter((rule) => rule.strength !== "must");
  return el("div", {id: "findings"}, editionsView(report.editions),
    state.thing && !isPool(state.thing) && el("p", {class: "filter"}, t("findings.about", {thing: nameById(state.thing)}), " ",
      el("button", {type: "button", class: "plain", "data-do": "thing-left", id: "findings-all"}, t("findings.all"))),
    rules.length === 0 && el("p", {}, t("findings.nothing-about")),
    ORDER.map((outcome) => group(outcome, binding.filter((rule) => rule.outcome === outcome))),
    advice.length > 0 && el("section", {class: "group", id: "group-advice"}, el("h3", {}, t("group.advice")), advice.map(finding)),
    (!state.thing || isPool(state.thing)) && decisions(report));
}

function isAbout(rule, thing) {
  if (!thing || isPool(thing)) return true;
  return rule.parts.some((part) => part.subject?.id === thing
    || part.readings.some(({witness}) => witness && (witness["from-thing"] === thing || witness["to-thing"] === thing)));
}

/** Nearly every rule is about the pool: choosing it leaves nothing out. */
function isPool(thing) {
  return pools(state.plan).some(([, pool]) => pool.id === thing);
}

function group(outcome, rules) {
  if (rules.length === 0) return null;
  const head = el("h3", {}, t(`group.${outcome}`), " ", el("span", {class: "how-many"}, String(rules.length)));
  const attributes = {class: "group", id: `group-${outcome}`, "data-outcome": outcome};
  if (!SETTLED.has(outcome)) return el("section", attributes, head, rules.map(finding));
  // What is settled is folded away, so that what is not comes first to the eye.
  const open = Boolean(state.thing && !isPool(state.thing)) || rules.some((rule) => rule.id === state.selected);
  return el("details", {...attributes, open}, el("summary", {}, head), rules.map(finding));
}

function finding(rule) {
  const open = state.selected === rule.id;
  const {part, reading} = decidingOf(rule);
  return el("article", {class: "finding", id: `finding-${rule.id}`, "data-outcome": rule.outcome, "data-open": open},
    el("h4", {}, el("button", {type: "button", "data-do": "finding-chosen", "data-rule": rule.id, "aria-expanded": String(open), id: `choose-${rule.id}`},
      markOf(rule.outcome), el("span", {class: "hidden"}, `${t(`outcome.${rule.outcome}`)}: `), el("span", {class: "title"}, rule.title))),
    SETTLED.has(rule.outcome) ? briefOf(rule, part) && el("p", {class: "brief", "data-cell": "brief", ...SAID}, prose(briefOf(rule, part))) : figures(reading, part),
    open && details(rule, part));
}

/** The part of a rule that decides it, and the reading that tells most of it. */
function decidingOf(rule) {
  const part = rule.parts[rule.deciding ?? 0] ?? rule.parts[0];
  return {part, reading: part?.readings[part.telling]};
}

/** Of a rule that passes what it passes by; of one that does not apply there is nothing to tell. */
function briefOf(rule, part) {
  return rule.outcome === "pass" ? part?.brief : null;
}

/** Figure, limit and margin side by side, as in a table of distances. */
function figures(reading, part) {
  if (!reading?.measured && !reading?.limit) return null;
  return el("dl", {class: "figures"}, Object.entries(cellsOf(reading, part)).map(([name, text]) =>
    text && el("div", {class: text.length > LONG ? "long" : null}, el("dt", {}, t(`figure.${name}`)), el("dd", {"data-cell": name, ...(name === "measured" && !reading.measured ? {} : SAID)}, prose(text)))));
}

/** What is longer gets a line to itself. */
const LONG = 40;

/** A margin tells nothing where nothing is known that it would be a margin of. */
function cellsOf(reading, part) {
  const [measured, asked] = [reading.measured?.text ?? t("figure.not-known"), boundText(reading)];
  const margin = reading.measured && part?.margin?.text;
  return asked.length > LONG ? {measured, margin, asked} : {measured, asked, margin};
}

/** The bound in words, with its figure where the words only name it. */
export function boundText({bound, limit}) {
  return !limit || bound.includes(limit.text) ? bound : `${bound}: ${limit.text}`;
}

function details(rule, part) {
  const missing = rule.missing ?? [];
  return el("div", {class: "details"},
    el("p", SAID, prose(part?.sentence ?? rule.sentence)),
    part?.readings.filter((one) => one.witness).slice(0, 1).map((one) => el("p", {class: "witness", ...SAID}, prose(one.witness.text))),
    part?.advice && el("p", {}, el("strong", {}, t("finding.advice")), " ", el("span", SAID, prose(part.advice))),
    missing.map((one) => missingView(one)),
    rule.outcome !== "pass" && rule.outcome !== "not-applicable" && rule.remedy && el("p", {}, el("strong", {}, t("finding.remedy")), " ", prose(rule.remedy)),
    rule.parts.length > 1 && el("details", {class: "about", id: `parts-${rule.id}`}, el("summary", {}, t("finding.parts", {n: rule.parts.length})),
      el("ul", {}, rule.parts.map((one) => el("li", {}, markOf(one.outcome), el("span", SAID, prose(one.sentence)))))),
    rule.note && el("p", {class: "note"}, rule.note),
    el("p", {class: "source"}, rule.clause, originView(rule), rule.provenance === "contradicted" && ` · ${t("provenance.contradicted")}`));
}

/** Where figures are from, where that is neither the law nor an office's page. */
export function originView({mark}) {
  return mark && ` · ${mark}`;
}

/** A question that is open, with the way to its field. */
export function missingView(missing) {
  const path = pathOfMissing(missing);
  return el("div", {class: "missing"}, el("p", SAID, prose(missing.question)),
    missing.how && el("p", {class: "hint", ...SAID}, prose(missing.how)),
    path && el("button", {type: "button", class: "plain", "data-do": "missing-answered", "data-path": path, "data-thing": missing.subject ?? ""}, t("finding.answer")));
}

/** The sections of a plan whose facts belong to nothing that is drawn. */
const SECTIONS = {events: "dates", lot: "lot", applicant: "applicant", works: "works", answers: "answers", zone: "zone"};

function pathOfMissing({kind, name, subject}) {
  if (kind === "inventory") return `inventory.${name}`;
  if (kind === "document") return null;
  const [thing, fact] = name.split(".");
  const path = subject && pathOf(state.plan, subject);
  if (path) return kind === "accuracy" ? `${path}.source` : `${path}.${fact ?? thing}`;
  if (!fact) return kind === "fact" ? `answers.${thing}` : null;
  const section = SECTIONS[thing];
  if (section) return `${section}.${fact}`;
  return `inventory.${thing}`;
}

function decisions(report) {
  if (report.decisions.length === 0) return null;
  return el("section", {class: "group", id: "group-decisions"}, el("h3", {}, t("group.decisions")),
    report.decisions.map((one) => el("article", {class: "finding"}, el("h4", {}, one.title), el("p", SAID, prose(one.sentence)), el("p", {class: "source"}, one.clause, originView(one)))));
}

/** What to answer first: what the report turns on. */
export function nextView(answer) {
  const questions = answer?.report?.questions ?? [];
  if (questions.length === 0) return el("div", {id: "next-question", class: "empty"});
  const [{missing}] = questions;
  return el("div", {id: "next-question"},
    el("h2", {}, count("next.questions", questions.length)),
    missingView(missing));
}

let askedNow = null;
export function setAskedNow(asked) {
  askedNow = asked;
}

/** The rules whose lines differ from where the drag began, each as it is shown now. */
let astir = new Map();
let verdictTold = "";

/** What moves in a drag: the verdict, and each finding where it stands. They go to their new groups when it ends, so that
 * the list does not jump about meanwhile. */
export function followDrag(before, step) {
  const told = JSON.stringify([step.verdict, step.counts]);
  if (told !== verdictTold) mend(document.getElementById("verdict"), verdictView({report: step}, false));
  verdictTold = told;
  const now = new Map(step.rules.map((rule) => [rule.id, rule.outcome + JSON.stringify(rule.parts)]));
  const others = new Map(step.rules.filter(({id}) => now.get(id) !== astir.get(id)).map((rule) => [rule.id, rule]));
  for (const was of before.rules) {
    const back = astir.has(was.id) && !now.has(was.id);
    if (!back && !others.has(was.id)) continue;
    // A step tells of a rule only what can be otherwise.
    const rule = {...was, ...others.get(was.id)};
    const shown = document.getElementById(`finding-${rule.id}`);
    if (shown && !refigured(shown, rule)) mend(shown, finding(rule));
  }
  astir = now;
}

/** Where only the figures of a finding are others, puts them in the place of the old ones. */
function refigured(shown, rule) {
  if (shown.dataset.outcome !== rule.outcome || shown.dataset.open !== undefined) return false;
  const {reading, part} = decidingOf(rule);
  const told = SETTLED.has(rule.outcome) ? {brief: briefOf(rule, part)} : reading && cellsOf(reading, part);
  const cells = [...shown.querySelectorAll("[data-cell]")];
  if (!told || cells.length !== Object.values(told).filter(Boolean).length) return false;
  if (cells.some((cell) => !told[cell.dataset.cell] || told[cell.dataset.cell].includes("`") !== Boolean(cell.firstElementChild))) return false;
  for (const cell of cells) retold(cell, prose(told[cell.dataset.cell]));
  return true;
}

/** Puts a text in the place of the one that stands there; where both are plain, only the letters change. */
function retold(cell, pieces) {
  const plain = pieces.length === 1 && cell.childNodes.length === 1 && cell.firstChild.nodeType === Node.TEXT_NODE;
  if (!plain) cell.replaceChildren(...pieces);
  else if (cell.firstChild.data !== pieces[0]) cell.firstChild.data = pieces[0];
}

act("finding-chosen", (button) => {
  const {rule} = button.dataset;
  look({selected: state.selected === rule ? null : rule});
});
act("missing-answered", (button) => {
  const {path, thing} = button.dataset;
  // What is no thing on the plan, such as the days, has no rules of its own to show.
  if (pathOf(state.plan, thing)) Object.assign(state, {thing});
  const part = partOf(path, askedNow);
  goTo(part, path.startsWith("inventory") ? `${idOf(path)}-none` : idOf(path));
});
act("fault-shown", (button) => {
  const {path} = button.dataset;
  const thing = at(state.plan, path.split(".").slice(0, 2).join("."));
  if (thing?.id) Object.assign(state, {thing: thing.id});
  goTo(partOf(path, askedNow), idOf(path));
});
act("first-thing", (button) => {
  const fields = {where: "rules", lot: "lot-width", pool: "pool-begin"};
  goTo(button.dataset.part, fields[button.dataset.part]);
});
