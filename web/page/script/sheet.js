// The drawing: shown, looked about in, and changed by dragging. Where something goes is worked out by the library.

import {act, announce, el} from "./dom.js";
import {pathOf} from "./plan.js";
import {drawn, editPlan, handlesOf} from "./judge.js";
import {setLayers} from "./layers.js";
import {svgFrom} from "./svg.js";
import {nameById} from "./things.js";
import {look, state, tellAndLook} from "./store.js";
import {t} from "./words.js";

const canvas = () => document.getElementById("canvas");
/** The part of the ground that is looked at, as the drawing's viewBox; null is all of it. */
let view = null;
/** What is being dragged or drawn just now. */
let hold = null;
let frame = 0;
let whenDragged = () => {};

/** What is called in each frame of a drag, with the plan where it began and the change since; gives whether that can be. */
export function onDrag(doing) {
  whenDragged = doing;
}

/** The ground that is drawn, whichever part of it is looked at. A drag keeps to it, so that it does not slide away under the
 * pointer. */
export function ground() {
  return document.getElementById("drawing").dataset.whole.split(" ").map(Number);
}

/** How the drawing is wanted. */
export function options() {
  const {clientWidth, clientHeight} = canvas();
  const size = clientWidth > 0 ? {width: clientWidth, height: clientHeight} : {};
  return {selected: state.selected, thing: state.thing, shade: state.shade, unit: state.unit, ...size};
}

/** Shows the plan, or an empty sheet; `ready` is its drawing, where it is there already. The library lends a pool to a plan
 * that has none, which is left out. */
export function showSheet(ready) {
  const {plan} = state;
  const text = ready ? ready.open + ready.layers.join("") + "</svg>" : drawn(plan.pool ? options() : {...options(), selected: null, shade: false});
  const svg = (text && svgFrom(text)) ?? emptySheet();
  setLayers(ready?.layers ?? []);
  const focused = focusedOn();
  if (!plan.pool) withoutLent(svg);
  svg.id = "drawing";
  svg.dataset.whole = svg.getAttribute("viewBox");
  if (view) svg.setAttribute("viewBox", view.join(" "));
  canvas().replaceChildren(svg);
  if (hold?.places) showPlaces(svg);
  if (focused) svg.querySelector(focused)?.focus({preventScroll: true});
}

/** How to find again what has the focus on the drawing: a thing, or a ring of the chosen one. */
function focusedOn() {
  const {path, handle, index} = document.activeElement?.closest?.("#canvas [data-path], #canvas [data-handle]")?.dataset ?? {};
  if (handle) return `[data-handle="${CSS.escape(handle)}"][data-index="${CSS.escape(index)}"]`;
  return path && `[data-path="${CSS.escape(path)}"]`;
}

function withoutLent(svg) {
  for (const part of svg.querySelectorAll(".kind-pool, .distances, .lettering text:not(.length)")) part.remove();
}

/** Forty metres of nothing, to draw a lot on. */
function emptySheet() {
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  svg.setAttribute("viewBox", "-2000 -42000 44000 44000");
  svg.setAttribute("class", "empty");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", t("sheet.empty"));
  for (let line = 0; line <= 40; line += 5) {
    svg.append(svgLine(line * 1000, 0, line * 1000, -40000), svgLine(0, -line * 1000, 40000, -line * 1000));
  }
  return svg;
}

function svgLine(x1, y1, x2, y2) {
  const line = document.createElementNS("http://www.w3.org/2000/svg", "line");
  for (const [name, value] of Object.entries({x1, y1, x2, y2})) line.setAttribute(name, value);
  line.setAttribute("class", "grid");
  return line;
}

/** The bar above the drawing and the words below it. */
export function sheetView() {
  const thing = state.thing && pathOf(state.plan, state.thing);
  const button = (doing, words, extra = {}) => el("button", {type: "button", "data-do": doing, id: `sheet-${doing}`, ...extra}, words);
  return el("div", {id: "sheet-bar"},
    el("div", {class: "row", role: "group", "aria-label": t("sheet.look")},
      button("zoom-in", t("sheet.closer")), button("zoom-out", t("sheet.further")), button("zoom-all", t("sheet.all")),
      el("label", {class: "tick"}, el("input", {type: "checkbox", id: "shade", "data-do": "shade", checked: state.shade}), t("sheet.shade"))),
    hold?.places && el("div", {class: "row drawing-now", role: "group", "aria-label": t("sheet.drawing-now")},
      el("span", {}, t("sheet.drawing-now")), button("draw-done", t("sheet.draw-done")), button("draw-stop", t("sheet.draw-stop"))),
    thing && el("div", {class: "row chosen", role: "group", "aria-label": t("sheet.chosen")},
      el("strong", {}, nameById(state.thing)),
      button("turn-left", t("sheet.turn-left")), button("turn-right", t("sheet.turn-right")),
      !thing.startsWith("lot") && button("thing-gone", t("sheet.remove"), {"data-path": thing, "data-id": state.thing}),
      button("thing-left", t("sheet.leave"))));
}

/** How places of the screen lie on the drawing. A drag keeps to it as it was when it began, so that nothing drifts whatever the
 * page does meanwhile. */
function fromScreen() {
  return document.getElementById("drawing").getScreenCTM()?.inverse() ?? new DOMMatrix();
}

/** A place of the screen on the ground, in millimetres from where the plan counts. */
function groundAt(event, matrix = fromScreen()) {
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
  const [x, y] = zero();
  return [point.x - x, y - point.y];
}

/** Where the plan counts from, in the drawing's own figures, which are millimetres. */
function zero() {
  return (document.getElementById("drawing").dataset.zero ?? "0 0").split(" ").map(Number);
}

/** A place of the plan in the drawing's own figures. */
function onSheet([x, y]) {
  const [left, top] = zero();
  return [left + x, top - y];
}

const fingers = new Map();

/** Takes up the pointer and the keys on the drawing. */
export function wireSheet() {
  const area = canvas();
  area.addEventListener("pointerdown", pressed);
  area.addEventListener("pointermove", moved);
  area.addEventListener("pointerup", let_go);
  area.addEventListener("pointercancel", let_go);
  area.addEventListener("wheel", wheeled, {passive: false});
  area.addEventListener("keydown", keyed);
  area.addEventListener("focusin", (event) => {
    const path = event.target.closest("[data-path]")?.dataset.path;
    if (path && path !== state.thing && !hold) look({thing: path});
  });
  let width = area.clientWidth;
  new ResizeObserver(() => {
    if (hold || area.clientWidth === width) return;
    width = area.clientWidth;
    if (width > 0) look({});
  }).observe(area);
  document.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.target.matches("input[type=text], textarea")) return;
    if (event.key === "z" && !event.shiftKey) tellAndLook({}, "undo");
    else if (event.key === "y" || (event.key.toLowerCase() === "z" && event.shiftKey)) tellAndLook({}, "redo");
    else return;
    event.preventDefault();
  });
}

function pressed(event) {
  if (event.button > 0) return;
  fingers.set(event.pointerId, event);
  if (hold?.places) return;
  canvas().setPointerCapture(event.pointerId);
  if (fingers.size === 2) {
    hold = {pinch: spread(), view: viewNow()};
    return;
  }
  const handle = event.target.closest("[data-handle]");
  const thing = event.target.closest("[data-path]");
  const from = groundAt(event);
  const begun = {from, at: [event.clientX, event.clientY], matrix: fromScreen()};
  if (handle) hold = {...begun, handle: handle.dataset.handle, index: Number(handle.dataset.index), path: heldPath()};
  else if (thing) hold = {...begun, path: thing.dataset.path};
  else hold = {pan: [event.clientX, event.clientY], view: viewNow(), still: true};
}

function moved(event) {
  if (fingers.has(event.pointerId)) fingers.set(event.pointerId, event);
  if (!hold || hold.places) return;
  hold.event = event;
  frame ||= requestAnimationFrame(step_on);
}

/** One frame of a drag: where the pointer is now, what the plan then is, and what comes of it. */
function step_on() {
  frame = 0;
  if (!hold?.event) return;
  if (hold.pinch) return pinched();
  if (hold.pan) return panned();
  const {event} = hold;
  const to = groundAt(event, hold.matrix);
  const [dx, dy] = [to[0] - hold.from[0], to[1] - hold.from[1]];
  if (!hold.moves && Math.hypot(event.clientX - hold.at[0], event.clientY - hold.at[1]) < 3) return;
  hold.moves = true;
  steady(true);
  if (isFixed(hold.path) && !hold.handle) return;
  const {path, handle, index} = hold;
  const change = handle ? {pull: {path, what: handle, index, dx, dy}} : {move: {path, dx, dy}};
  if (whenDragged(change)) hold.change = change;
}

/** Keeps what stands above the drawing as high as it is while something is dragged, whatever is told there meanwhile. */
function steady(is) {
  const verdict = document.getElementById("verdict");
  if (is !== Boolean(verdict.style.height)) verdict.style.height = is ? `${verdict.getBoundingClientRect().height}px` : "";
}

/** What the rings on the drawing belong to: the thing that is chosen, or the lot where one of its sides is. */
function heldPath() {
  const where = state.thing && pathOf(state.plan, state.thing);
  return where?.startsWith("lot") ? "lot" : state.thing;
}

/** The lot itself is not dragged: its corners are. */
function isFixed(path) {
  const where = pathOf(state.plan, path);
  return !where || where.startsWith("lot");
}

function let_go(event) {
  fingers.delete(event.pointerId);
  if (!hold) return;
  if (hold.places) return drawPlace(event);
  if (frame) {
    cancelAnimationFrame(frame);
    step_on();
  }
  const done = hold;
  hold = null;
  steady(false);
  if (done.change) {
    editPlan(done.change);
    look({thing: done.path});
  } else if (done.path && !done.moves) look({thing: done.path});
  else if (done.pan && done.still) look({thing: null, selected: null});
}

function viewNow() {
  const svg = document.getElementById("drawing");
  return (view ?? svg.getAttribute("viewBox").split(/[ ,]+/).map(Number)).slice();
}

function setView(next) {
  view = next;
  const svg = document.getElementById("drawing");
  svg.setAttribute("viewBox", view ? view.join(" ") : svg.dataset.whole);
}

/** Closer about a place of the drawing, given in the drawing's own figures. */
function zoom(by, about) {
  const [x, y, width, height] = viewNow();
  const [cx, cy] = about ?? [x + width / 2, y + height / 2];
  setView([cx - (cx - x) / by, cy - (cy - y) / by, width / by, height / by]);
}

function wheeled(event) {
  if (!event.ctrlKey && !event.metaKey) return;
  event.preventDefault();
  zoom(event.deltaY < 0 ? 1.2 : 1 / 1.2, onSheet(groundAt(event)));
}

function panned() {
  const {pan, event} = hold;
  hold.still = false;
  const matrix = document.getElementById("drawing").getScreenCTM();
  const [x, y, width, height] = hold.view;
  setView([x - (event.clientX - pan[0]) / matrix.a, y - (event.clientY - pan[1]) / matrix.d, width, height]);
}

function spread() {
  const [one, two] = [...fingers.values()];
  return Math.hypot(one.clientX - two.clientX, one.clientY - two.clientY) || 1;
}

function pinched() {
  if (fingers.size < 2) return;
  const by = spread() / hold.pinch;
  const [x, y, width, height] = hold.view;
  setView([x + (width - width / by) / 2, y + (height - height / by) / 2, width / by, height / by]);
}

const ARROWS = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1]};

function keyed(event) {
  const path = event.target.closest("[data-path]")?.dataset.path;
  const step = event.shiftKey ? 10 : 100;
  const [x, y] = ARROWS[event.key] ?? [0, 0];
  const {handle, index} = event.target.closest("[data-handle]")?.dataset ?? {};
  if (handle && (x || y)) {
    edit({pull: {path: heldPath(), what: handle, index: Number(index), dx: x * step, dy: y * step}});
    return event.preventDefault();
  }
  if (hold?.places || !path) return;
  const turn = {"[": 1, "]": -1, "{": 1, "}": -1}[event.key];
  if (x || y) {
    if (event.altKey) pullByKey(path, x * step, y * step);
    else if (!isFixed(path)) edit({move: {path, dx: x * step, dy: y * step}});
  } else if (turn) edit({turn: {path, degrees: turn * (event.shiftKey || "{}".includes(event.key) ? 1 : 15)}});
  else if (event.key === "Escape") look({thing: null, selected: null});
  else if (event.key === "Enter" || event.key === " ") document.dispatchEvent(new CustomEvent("thing-entered", {detail: path}));
  else return;
  event.preventDefault();
}

/** With the keys a rectangle is pulled at its far corner, anything else at its first handle. */
function pullByKey(path, dx, dy) {
  if (isFixed(path)) return;
  const handles = handlesOf(path);
  const {what, index} = handles.find((one) => one.what === "corner" && one.index === 2) ?? handles[0] ?? {};
  if (what) edit({pull: {path, what, index, dx, dy}});
}

function edit(what) {
  if (editPlan(what).wrong) return;
  look({});
  announce(document.getElementById("verdict-word")?.textContent ?? "");
}

/** Drawing by places: each press puts one, the keys of the bar end it. */
export function drawPlaces(done, ring) {
  hold = {places: [], done, ring};
  look({view: "sheet"});
  announce(t("sheet.drawing-now"));
}

function drawPlace(event) {
  hold.places.push(groundAt(event));
  showPlaces(document.getElementById("drawing"));
}

function showPlaces(svg) {
  svg.querySelector(".being-drawn")?.remove();
  const line = document.createElementNS("http://www.w3.org/2000/svg", hold.ring ? "polygon" : "polyline");
  line.setAttribute("class", "being-drawn");
  line.setAttribute("points", hold.places.map((place) => onSheet(place).join(",")).join(" "));
  svg.append(line);
}

act("zoom-in", () => zoom(1.4));
act("zoom-out", () => zoom(1 / 1.4));
act("zoom-all", () => setView(null));
act("shade", (box) => look({shade: box.checked}));
act("turn-left", () => edit({turn: {path: state.thing, degrees: 15}}));
act("turn-right", () => edit({turn: {path: state.thing, degrees: -15}}));
act("thing-left", () => look({thing: null}));
act("draw-done", () => {
  const {places, done, ring} = hold;
  hold = null;
  if (places.length >= (ring ? 3 : 2)) done(places);
  else look({});
});
act("draw-stop", () => {
  hold = null;
  look({});
});
