// What the rules hold and what they leave to others: whom to ask, and what was answered.

import {act, el, prose} from "./dom.js";
import {tellAndLook} from "./store.js";
import {t} from "./words.js";

/** What is left to ask, what was answered, and what always comes on top. */
export function scopeView({scope}) {
  return el("section", {class: "group", id: "scope"}, scope.open.length > 0 && mattersLeftOpen(scope.open),
    scope.answered.length > 0 && mattersAnswered(scope.answered), scope["on-top"].length > 0 && mattersOnTop(scope["on-top"]), scope.held.length > 0 && mattersHeld(scope.held));
}

function mattersLeftOpen(open) {
  return [el("h3", {}, t("scope.open")), el("p", {class: "hint"}, t("scope.open.why")), el("ul", {class: "checklist", id: "scope-open"}, open.map(openMatterView))];
}

function openMatterView({matter, question, ask}) {
  const field = (key, type) => el("div", {class: "question"}, el("label", {class: "ask", for: `scope-${matter}-${key}`}, t(`scope.${key}`)),
    el("input", {type, id: `scope-${matter}-${key}`}));
  return el("li", {}, el("strong", {}, question), " ", ask.map((one) => el("span", {class: "from"}, t("scope.ask", {who: one.who}), one.why && [" ", prose(one.why)])),
    el("details", {class: "about", id: `scope-${matter}`}, el("summary", {}, t("scope.answer")), field("says", "text"), field("by", "text"), field("on", "date"),
      el("button", {type: "button", class: "plain", "data-do": "matter-answered", "data-id": matter, id: `scope-${matter}-keep`}, t("scope.keep"))));
}

function mattersAnswered(all) {
  return [el("h3", {}, t("scope.answered")), el("ul", {class: "checklist", id: "scope-answered"}, all.map(({matter, said, says, by, on}) =>
    el("li", {}, el("strong", {}, said), says && `: ${says}`, el("span", {class: "from"}, ` (${by}, ${on})`), " ",
      el("button", {type: "button", class: "plain", "data-do": "matter-taken-back", "data-id": matter, id: `scope-${matter}-back`}, t("scope.take-back")))))];
}

function mattersOnTop(all) {
  return [el("h3", {}, t("scope.on-top")), el("ul", {}, all.map(({says}) => el("li", {}, prose(says))))];
}

function mattersHeld(all) {
  return el("details", {class: "about", id: "scope-held"}, el("summary", {}, t("scope.held")), el("ul", {}, all.map(({said}) => el("li", {}, said))));
}

const matterField = (matter, key) => document.getElementById(`scope-${matter}-${key}`).value.trim();

act("matter-answered", ({dataset: {id}}) => {
  const [says, by, on] = ["says", "by", "on"].map((key) => matterField(id, key));
  const missing = [["by", by], ["on", on]].find(([, text]) => !text);
  if (missing) document.getElementById(`scope-${id}-${missing[0]}`).focus();
  else tellAndLook({}, "answer_matter", id, says, by, on);
});
act("matter-taken-back", ({dataset: {id}}) => tellAndLook({}, "forget_matter", id));
