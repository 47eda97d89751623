// Begins: words, what was kept, the library; then shows what is so after each change.

import {act, el, listen, mend} from "./dom.js";
import {ask, wake} from "./engine.js";
import {setFaults} from "./field.js";
import {drawPlaces, ground, onDrag, options, sheetView, showSheet, wireSheet} from "./sheet.js";
import {findingsView, followDrag, nextView, setAskedNow, verdictView} from "./findings.js";
import {firstThing, formView} from "./form.js";
import {showLayers} from "./layers.js";
import {followed, judge, speakAs, whatIsAsked} from "./judge.js";
import {fromFragment} from "./link.js";
import {pools} from "./plan.js";
import {menuView, notice, watchOthers, wentHow} from "./menu.js";
import {papersView} from "./papers.js";
import {printView, setPrinted} from "./print.js";
import {addThing, kindNamed, sectionOf, setKinds} from "./things.js";
import {look, onChange, restore, state, tell, tellAndLook} from "./store.js";
import {showDesk, wireDesk} from "./desk.js";
import {choose, t, verdictWords} from "./words.js";

let sets = [];
/** The last plan that could be judged, so that a slip of the pen does not wipe the result away. */
let good = null;

function judgeNow() {
  const answer = firstThing() ? null : judge(options());
  if (answer?.report) good = {plan: state.plan, rules: state.rulesText, answer};
  return answer;
}

function show() {
  dragOptions = {plan: null, options: null};
  choose(state.language ?? "en");
  if (speakAs()) {
    sets = ask("rule_sets");
    good = null;
  }
  const answer = judgeNow();
  const stale = Boolean(answer?.refused?.plan?.length) && good?.rules === state.rulesText;
  const shownAnswer = stale ? good.answer : answer;
  const asked = whatIsAsked(state.rulesText);
  setFaults(answer?.refused?.plan ?? []);
  setKinds(asked?.kinds ?? []);
  setAskedNow(asked);
  setPrinted(answer);
  words();
  const put = (id, view) => mend(document.getElementById(id), view);
  put("menu", menuView());
  put("views", viewsView());
  put("form-parts", formView(asked, sets));
  put("verdict", verdictView(shownAnswer, stale));
  put("next-question", nextView(shownAnswer));
  put("findings", findingsView(shownAnswer));
  put("papers", papersView(shownAnswer));
  put("sheet-bar", sheetView());
  put("sheet-foot", footView());
  showSheet(stale ? good.answer.drawing : answer?.drawing);
  showDesk(sets, shownAnswer?.report ? verdictWords(shownAnswer.report.verdict) : t(answer?.refused?.rules?.length ? "desk.mend-first" : "desk.no-plan"));
  document.body.dataset.view = state.view;
  whenIdle(() => warmUp(state.plan));
}

/** The words that stand in the page itself. */
function words() {
  document.title = t("title");
  for (const [id, key] of [["name", "name"], ["skip", "skip"], ["sheet-head", "view.sheet"], ["form-head", "view.form"], ["result-head", "view.result"]]) {
    document.getElementById(id).textContent = t(key);
  }
  document.getElementById("canvas").setAttribute("aria-label", t("sheet.label"));
}

function viewsView() {
  return el("nav", {id: "views", "aria-label": t("view.label")}, ["form", "sheet", "result"].map((view) =>
    el("button", {type: "button", "data-do": "view", "data-view": view, id: `view-${view}`, "aria-current": state.view === view ? "true" : null}, t(`view.${view}`))));
}

function footView() {
  return el("div", {id: "sheet-foot"},
    el("dl", {class: "title-block"},
      el("div", {}, el("dt", {}, t("foot.plan")), el("dd", {}, state.plan.title ?? state.plan.plan ?? "")),
      el("div", {}, el("dt", {}, t("foot.rules")), el("dd", {}, sets.find((set) => set.id === state.rulesId)?.title ?? (state.rulesText ? t("where.own") : "–"))),
      el("div", {}, el("dt", {}, t("foot.not")), el("dd", {}, t("foot.not-a-survey")))),
    el("details", {class: "about", id: "keys"}, el("summary", {}, t("sheet.keys")), el("p", {}, t("sheet.keys-text"))));
}

act("view", (button) => {
  look({view: button.dataset.view});
  window.scrollTo(0, 0);
});
act("lot-drawn", () => drawPlaces((places) => tellAndLook({view: "form"}, "draw_lot", Float64Array.from(places.flat())), true));
act("thing-drawn", (button) => {
  const kind = kindNamed(button.dataset.kind);
  const ring = kind.outlines?.[0]?.shape === "area";
  drawPlaces((places) => look({thing: addThing(kind, places), view: "form"}), ring);
});
document.addEventListener("thing-entered", (event) => {
  const part = sectionOf(event.detail);
  if (!part) return;
  look({thing: event.detail, open: formPart(part), view: "form"});
  document.getElementById(`thing-${event.detail}`)?.querySelector("summary")?.focus();
});

function formPart(part) {
  if (part === "lot" || part === "pool") return part;
  return document.getElementById(`kind-${part}`)?.closest(".part")?.id.slice(5) ?? state.open;
}

async function takeLink() {
  const held = await fromFragment(location.hash);
  if (!held) return;
  history.replaceState(null, "", location.pathname + location.search);
  if (held.wrong) return notice(t(held.wrong));
  const said = tell("open_link", held.held);
  if (said === "broken") return notice(t("link.broken"));
  if (said) notice(t("link.no-rules", {rules: said.replace("missing ", "")}));
  look({thing: null, selected: null, open: null});
}

let dragOptions = {plan: null, options: null};

/** How the drawing is wanted all through a drag that begins with that plan. */
function atDrag(plan) {
  if (dragOptions.plan !== plan) dragOptions = {plan, options: {...options(), view: ground()}};
  return dragOptions.options;
}

/** How many steps are still to be taken until a browser has made fast what is called in each. */
let cold = 200;

/** Steps of a drag that goes nowhere, taken while nobody waits, so that a real one does not falter: the first lets the
 * library read the plan, and a browser makes fast what is called often. */
function warmUp(plan) {
  const [pool] = pools(plan);
  if (plan !== state.plan || good?.plan !== plan || !pool) return;
  followed(atDrag(plan), {move: {path: pool[1].id ?? "pool", dx: 0.001, dy: 0}});
  if (cold > 0) whenIdle(() => warmUp(plan));
  cold -= 1;
}

const whenIdle = window.requestIdleCallback?.bind(window) ?? ((doing) => setTimeout(doing, 50));

async function begin() {
  listen();
  await wake();
  restore();
  onChange(show, wentHow);
  onDrag((change) => {
    const start = performance.now();
    const step = followed(atDrag(state.plan), change);
    if (!step) return false;
    followDrag(good.answer.report, step);
    showLayers(document.getElementById("drawing"), step.layers);
    performance.measure("drag step", {start});
    return true;
  });
  wireSheet();
  wireDesk();
  document.getElementById("opening").remove();
  show();
  performance.mark("verdict shown");
  watchOthers();
  await takeLink();
  window.addEventListener("hashchange", takeLink);
  window.addEventListener("beforeprint", () => printView());
  document.body.dataset.ready = "true";
}

begin().catch((error) => {
  document.getElementById("opening").textContent = `${t("cannot-start")} (${error.message})`;
});
