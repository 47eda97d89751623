// The clerk's desk: a rule file with its faults at their lines, what it says in sentences, its cases, and a plan to try it on.

import {act, el, mend, prose} from "./dom.js";
import {ask} from "./engine.js";
import {handOut, notice} from "./menu.js";
import {state, tellAndLook} from "./store.js";
import {SAID, count, t} from "./words.js";

let draft = "";
let checked = null;
let wait = 0;

/** The desk as it should now stand; what is being typed stays. */
export function showDesk(sets, verdict) {
  const desk = document.getElementById("desk");
  desk.hidden = !state.desk;
  document.body.dataset.desk = String(state.desk);
  if (!state.desk) return;
  if (draft !== state.rulesText && document.activeElement?.id !== "rules-text") draft = state.rulesText;
  if (!document.getElementById("rules-text")) desk.replaceChildren(...deskFrame());
  const area = document.getElementById("rules-text");
  if (area.value !== draft) area.value = draft;
  mend(document.getElementById("desk-head-row"), headRow(sets));
  check();
  mend(document.getElementById("desk-plan"), onPlan(verdict));
}

function deskFrame() {
  return [
    el("div", {id: "desk-head-row"}),
    el("div", {class: "desk-columns"},
      el("div", {class: "desk-left"},
        el("label", {class: "ask", for: "rules-text"}, t("desk.text")),
        el("div", {class: "editor"}, el("pre", {id: "gutter", "aria-hidden": "true"}),
          el("textarea", {id: "rules-text", spellcheck: "false", autocapitalize: "off", wrap: "off", "aria-describedby": "desk-faults"})),
        el("div", {id: "desk-faults", role: "status"})),
      el("div", {class: "desk-right"}, el("div", {id: "desk-plan"}), el("div", {id: "desk-cases"}), el("div", {id: "desk-said"}))),
  ];
}

function headRow(sets) {
  return el("div", {id: "desk-head-row"},
    el("h2", {id: "desk-head"}, t("desk.head")), el("p", {class: "lead"}, t("desk.lead")),
    el("div", {class: "row"},
      el("label", {class: "ask", for: "desk-from"}, t("desk.from")),
      el("select", {id: "desk-from", "data-do": "rules-chosen"}, el("option", {value: "", selected: !state.rulesText}, t("where.choose")),
        sets.map((set) => el("option", {value: set.id, selected: set.id === state.rulesId}, set.title)),
        !state.rulesId && state.rulesText && el("option", {value: "own", selected: true}, t("where.own"))),
      el("button", {type: "button", "data-do": "desk-open", id: "desk-open"}, t("desk.open")),
      el("button", {type: "button", "data-do": "desk-save", id: "desk-save"}, t("desk.save")),
      el("button", {type: "button", "data-do": "desk", id: "desk-back"}, t("desk.back")),
      el("input", {type: "file", id: "rules-file", hidden: true, "data-do": "rules-file", accept: ".yaml,.yml", "aria-label": t("desk.open"), tabindex: "-1"})));
}

/** Listens to the typing; the library reads along a moment later. */
export function wireDesk() {
  document.getElementById("desk").addEventListener("input", (event) => {
    if (event.target.id !== "rules-text") return;
    draft = event.target.value;
    clearTimeout(wait);
    wait = setTimeout(taken, 300);
  });
  document.getElementById("desk").addEventListener("scroll", (event) => {
    if (event.target.id === "rules-text") document.getElementById("gutter").scrollTop = event.target.scrollTop;
  }, true);
}

function taken() {
  if (draft !== state.rulesText) tellAndLook({}, "own_rules", draft, state.casesText);
}

function check() {
  if (checked === draft) return;
  checked = draft;
  const answer = draft.trim() ? ask("faults", draft) : {faults: [], warnings: []};
  gutter(answer);
  mend(document.getElementById("desk-faults"), faultsView(answer));
  mend(document.getElementById("desk-cases"), answer.faults.length > 0 ? el("div", {id: "desk-cases"}) : casesView());
  mend(document.getElementById("desk-said"), answer.faults.length > 0 ? el("div", {id: "desk-said"}) : saidView());
}

function gutter({faults, warnings}) {
  const wrong = new Set(faults.map((row) => row.line));
  const odd = new Set(warnings.map((row) => row.line));
  const lines = draft.split("\n").map((_, index) => {
    const number = index + 1;
    const kind = wrong.has(number) ? "fault" : odd.has(number) ? "odd" : null;
    return el("span", {class: kind, "data-line": number}, `${kind === "fault" ? "× " : kind ? "! " : ""}${number}\n`);
  });
  document.getElementById("gutter").replaceChildren(...lines);
}

function faultsView({faults, warnings}) {
  const row = (one, kind) => el("li", {class: kind},
    one.line && !one.file ? el("button", {type: "button", class: "plain", "data-do": "line-shown", "data-line": one.line}, t("desk.line", {n: one.line})) : (one.file ?? ""),
    " ", el("span", SAID, prose(one.message), one.help && [" ", prose(one.help)]));
  return el("div", {id: "desk-faults", role: "status"},
    el("h3", {}, faults.length > 0 ? count("desk.faults", faults.length) : draft.trim() ? t("desk.clean") : t("desk.empty")),
    el("ul", {}, faults.map((one) => row(one, "fault")), warnings.map((one) => row(one, "odd"))));
}

function casesView() {
  if (!draft.trim()) return el("div", {id: "desk-cases"});
  const answer = ask("try_cases", draft, state.casesText);
  const cases = answer.cases ?? [];
  return el("div", {id: "desk-cases"}, el("h3", {}, t("desk.cases")),
    cases.length === 0 && el("p", {}, answer.faults?.[0]?.message ?? t("desk.no-cases")),
    el("ul", {}, cases.map((one) => el("li", {class: one.wrong?.length ? "fault" : null},
      el("strong", {}, one.title ?? one.case), ": ", one.wrong?.length ? one.wrong.map((line) => (typeof line === "string" ? line : JSON.stringify(line))).join(" ") : t("desk.as-expected")))));
}

function saidView() {
  if (!draft.trim()) return el("div", {id: "desk-said"});
  const answer = ask("read_back", draft);
  return el("div", {id: "desk-said"}, el("h3", {}, t("desk.said")),
    (answer.groups ?? []).filter((group) => group.rules.length > 0).map((group) => el("section", {}, el("h4", {}, group.title),
      group.rules.map((rule) => el("details", {class: "about", id: `said-${rule.id}`}, el("summary", {}, rule.title ?? rule.id, rule.clause && el("span", {class: "source"}, ` ${rule.clause}`)), linesView(rule.lines))))));
}

function linesView(lines) {
  if (!lines?.length) return null;
  return el("ul", {}, lines.map((line) => el("li", SAID, prose(line.text ?? line), linesView(line.under))));
}

function onPlan(verdict) {
  const example = !state.plan.lot || !state.plan.pool;
  return el("div", {id: "desk-plan"}, el("h3", {}, t("desk.plan", {plan: state.plan.title ?? state.plan.plan ?? ""})), el("div", {id: "desk-verdict"}, verdict),
    example && el("button", {type: "button", class: "plain", "data-do": "desk-example", id: "desk-example"}, t("desk.example")));
}

act("desk-open", () => document.getElementById("rules-file").click());
act("desk-save", () => handOut(`${/^ruleset:\s*([a-z0-9-]+)/m.exec(draft)?.[1] ?? "rules"}.yaml`, draft));
act("rules-file", async (field) => {
  const [file] = field.files;
  if (!file) return;
  if (file.size > 4_000_000) return notice(t("open.large", {name: file.name}));
  draft = await file.text();
  field.value = "";
  tellAndLook({}, "own_rules", draft, "");
});
act("line-shown", (button) => {
  const area = document.getElementById("rules-text");
  const lines = area.value.split("\n");
  const from = lines.slice(0, button.dataset.line - 1).join("\n").length + (button.dataset.line > 1 ? 1 : 0);
  area.focus();
  area.setSelectionRange(from, from + (lines[button.dataset.line - 1] ?? "").length);
  area.scrollTop = (area.scrollHeight / lines.length) * (button.dataset.line - 1) - area.clientHeight / 3;
});
act("desk-example", () => tellAndLook({}, "open_home", "eldermere", false));
