// Papers to gather, ticked as they come; what is to be done and when; what to take care of; and who decides.

import {act, el, prose} from "./dom.js";
import {ask} from "./engine.js";
import {originView} from "./findings.js";
import {scopeView} from "./scope.js";
import {look, state, tellAndLook} from "./store.js";
import {SAID, languageNow, t} from "./words.js";

/** Everything below the findings. */
export function papersView(answer) {
  const report = answer?.report;
  if (!report) return el("div", {id: "papers"});
  return el("div", {id: "papers"}, next(report), scopeView(report), documents(report), stepsView(report), cautions(report), disclaimer(report));
}

function documents(report) {
  if (report.documents.length === 0) return null;
  const wanted = report.documents.filter((paper) => paper.need !== "not-needed");
  const others = report.documents.filter((paper) => paper.need === "not-needed");
  return el("section", {class: "group", id: "documents"}, el("h3", {}, t("papers.documents")), el("p", {class: "hint"}, t("papers.tick")),
    el("ul", {class: "checklist"}, wanted.map(paperView)),
    others.length > 0 && el("details", {class: "about", id: "papers-others"}, el("summary", {}, t("papers.others", {n: others.length})),
      el("ul", {class: "checklist"}, others.map(paperView))));
}

function paperView(paper) {
  return el("li", {}, el("label", {class: "tick"},
    el("input", {type: "checkbox", id: `paper-${paper.id}`, "data-do": "paper-ticked", "data-id": paper.id, checked: paper.state === "in-hand"}),
    el("span", {}, el("strong", {}, paper.title), paper.form && ` (${paper.form})`, paper.from && el("span", {class: "from"}, t("papers.from", {from: paper.from})),
      paper.need !== "needed" && el("span", {class: "from"}, t(`need.${paper.need}`)), originView(paper))));
}

function stepsView(report) {
  if (report.duties.length === 0) return null;
  return el("section", {class: "group", id: "steps"}, el("h3", {}, t("papers.steps")),
    el("div", {class: "question"}, el("label", {class: "ask", for: "start"}, t("papers.start")),
      el("input", {type: "date", id: "start", "data-do": "start-chosen", value: state.start ?? ""})),
    dated() ?? el("ol", {class: "steps"}, report.duties.map((duty) => el("li", SAID, prose(duty.sentence), originView(duty)))));
}

function dated() {
  if (!state.start) return null;
  const answer = ask("steps", state.start);
  if (answer.wrong) return el("p", {class: "wrong", ...SAID}, answer.wrong);
  if (!answer.steps) return null;
  return el("ol", {class: "steps"}, answer.steps.steps.map((step) => el("li", {},
    el("span", {class: "days"}, span(step)), " ", step.what, step.who && el("span", {class: "from"}, t("papers.by", {who: step.who})))));
}

function span({earliest, done}) {
  if (!earliest) return "";
  return earliest === done ? day(earliest) : `${day(earliest)} – ${day(done)}`;
}

function day(text) {
  const date = new Date(`${text}T00:00:00`);
  return Number.isNaN(date.getTime()) ? text : date.toLocaleDateString(languageNow(), {day: "numeric", month: "short", year: "numeric"});
}

function next(report) {
  return el("section", {class: "group", id: "what-next"}, el("h3", {}, t("papers.next")), el("ol", {}, report.next.map((line) => el("li", {}, prose(line)))));
}

function cautions(report) {
  return el("section", {class: "group", id: "cautions"}, el("h3", {}, t("papers.cautions")),
    el("ul", {}, report.cautions.map((one) => el("li", {}, prose(one.says)))));
}

function disclaimer(report) {
  const set_ = report["rule-set"];
  return el("footer", {id: "disclaimer"}, el("h3", {}, t("papers.who-decides", {authority: set_.authority})),
    set_.notice && el("p", {}, set_.notice), report["second-hand"] && el("p", {}, report["second-hand"].sentence), el("p", {}, prose(report.disclaimer)));
}

act("paper-ticked", (box) => tellAndLook({}, "say", `documents.${box.dataset.id}`, box.checked ? "in-hand" : "not-yet"));
act("start-chosen", (field) => look({start: field.value || null}));
