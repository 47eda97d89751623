// The sheet for the authority: the drawing at a true scale, the table of distances, the papers.

import {act, el, prose} from "./dom.js";
import {boundText, originView} from "./findings.js";
import {drawn} from "./judge.js";
import {svgFrom} from "./svg.js";
import {openBox} from "./menu.js";
import {state} from "./store.js";
import {SAID, t, verdictWords} from "./words.js";

const PAPERS = {A4: [210, 297], A3: [297, 420], Letter: [215.9, 279.4]};
const SCALES = {100: "1:100", 200: "1:200", 500: "1:500", 240: "1 in = 20 ft"};
const MARGIN = 12;
const HEADING = 30;
const chosen = {paper: "A4", scale: "200", lying: false};
let answerNow = null;

/** Tells the sheet what came of the plan. */
export function setPrinted(answer) {
  answerNow = answer;
}

/** Asks for the paper and the scale, and shows what would be printed. */
export function printBox() {
  const text = drawing(sheetRoom());
  const pick = (key, options) => el("div", {class: "question"}, el("label", {class: "ask", for: `print-${key}`}, t(`print.${key}`)),
    el("select", {id: `print-${key}`, "data-do": "print-picked", "data-key": key},
      options.map(([value, said]) => el("option", {value, selected: value === String(chosen[key])}, said))));
  openBox(el("h2", {id: "box-head"}, t("print.head")),
    el("div", {class: "pair"}, pick("paper", Object.keys(PAPERS).map((name) => [name, name])),
      pick("lying", [["false", t("print.upright")], ["true", t("print.lying-down")]]), pick("scale", Object.entries(SCALES))),
    text && el("img", {class: "preview", alt: t("print.preview"), src: `data:image/svg+xml,${encodeURIComponent(text)}`}),
    el("p", {class: "hint", id: "print-fits", role: "status"}, t(!text ? "print.no-drawing" : fits() ? "print.fits" : "print.cut")),
    el("p", {class: "hint"}, t("print.true")),
    el("button", {type: "button", class: "add", "data-do": "print-now", id: "print-now"}, t("print.now")));
  printView();
}

/** The drawing at its scale, as large as the paper given, or as it needs. */
function drawing(paper) {
  return drawn({"all-distances": true, scale: Number(chosen.scale), unit: state.unit, paper});
}

/** What can be printed on, in millimetres. */
function room() {
  const [short, long] = PAPERS[chosen.paper];
  const [width, height] = chosen.lying ? [long, short] : [short, long];
  return [width - 2 * MARGIN, height - 2 * MARGIN];
}

/** The same without the heading, which stands above the drawing on the same page. */
function sheetRoom() {
  const [width, height] = room();
  return [width, height - HEADING];
}

/** Whether all that is near the lot is on the sheet. */
function fits() {
  const whole = svgFrom(drawing(null));
  const [width, height] = sheetRoom();
  return parseFloat(whole.getAttribute("width")) <= width && parseFloat(whole.getAttribute("height")) <= height;
}

/** Lays the sheet out, where only a printer sees it. */
export function printView() {
  setPage();
  const text = drawing(sheetRoom());
  const svg = text && svgFrom(text);
  const report = answerNow?.report;
  svg?.setAttribute("id", "print-drawing");
  document.getElementById("print").replaceChildren(
    el("header", {}, el("h1", {}, state.plan.title ?? state.plan.plan ?? ""),
      el("p", {}, report ? `${report["rule-set"].title}, ${report["rule-set"].edition} · ${report["rule-set"].authority}` : ""),
      el("p", {}, `${SCALES[chosen.scale]} · ${chosen.paper} · `, t("print.check-scale"))),
    svg ?? "",
    ...(report ? [el("p", {class: "verdict"}, verdictWords(report.verdict)), distances(report), papersList(report), cautionList(report), smallPrint(report)] : []));
}

function smallPrint(report) {
  const lines = [report["second-hand"]?.sentence, report.disclaimer];
  return el("div", {class: "small"}, lines.map((line) => line && el("p", {}, prose(line))));
}

function distances(report) {
  const rows = report.rules.flatMap((rule) => rule.parts.flatMap((part) => [part.readings[part.telling]].filter((one) => one?.measured && one.limit).map((one) =>
    el("tr", {}, el("th", {scope: "row"}, rule.title), el("td", SAID, prose(part.subject?.said)), el("td", SAID, one.measured.text), el("td", SAID, prose(boundText(one)), byRelief(part)),
      el("td", SAID, part.margin?.text ?? ""), el("td", {}, t(`outcome.${part.outcome}`)), el("td", {}, rule.clause, originView(rule))))));
  const heads = ["rule", "what", "measured", "asked", "margin", "outcome", "clause"].map((name) => el("th", {scope: "col"}, t(`print.${name}`)));
  return el("table", {}, el("caption", {}, t("print.distances")), el("thead", {}, el("tr", {}, heads)), el("tbody", {}, rows));
}

/** By which relief less is asked than by the rule itself. */
function byRelief({outcome, relief}) {
  return outcome === "pass" && relief ? [` (${t("print.by-relief")} `, el("b", {class: "named"}, relief), ")"] : null;
}

function papersList(report) {
  return el("section", {}, el("h2", {}, t("papers.documents")), el("ul", {class: "boxes"},
    report.documents.filter((paper) => paper.need !== "not-needed").map((paper) => el("li", {}, paper.state === "in-hand" ? "☒ " : "☐ ", paper.sentence))));
}

function cautionList(report) {
  return el("section", {}, el("h2", {}, t("papers.cautions")), el("ul", {}, report.cautions.map((one) => el("li", {}, prose(one.says)))));
}

let pageRule = null;

/** The size of the page is the paper's; a style of its own would not be let in, so a rule is put into the page's. */
function setPage() {
  const [sheet] = document.styleSheets;
  if (pageRule !== null) sheet.deleteRule(pageRule);
  const [width, height] = room();
  pageRule = sheet.insertRule(`@page { size: ${width + 2 * MARGIN}mm ${height + 2 * MARGIN}mm; margin: ${MARGIN}mm; }`, sheet.cssRules.length);
}

act("print-picked", (select) => {
  chosen[select.dataset.key] = select.dataset.key === "lying" ? select.value === "true" : select.value;
  printBox();
  document.getElementById(`print-${select.dataset.key}`)?.focus();
});
act("print-now", () => {
  document.getElementById("box").close();
  window.print();
});
