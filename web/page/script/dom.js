// Elements made and mended. Text always goes in as text: nothing that a person or a file wrote is ever read as markup,
// and nothing in it hides.

import {visible} from "./visible.js";

/** An element. Children are elements, texts, lists of them, or nothing. */
export function el(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    made.setAttribute(name, value === true ? "" : value);
  }
  const some = children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false);
  made.append(...some.map((child) => (child instanceof Node ? child : visible(String(child)))));
  return made;
}

/** A figure and its unit stay on one line. */
function kept(text) {
  return text.replace(/(\d) (?=(mm|cm|m|ft|in|kV|V|%|°|m²|m2|ft²|dB)\b)/g, "$1\u00a0");
}

/** A sentence in which names stand between backticks: each name set off from the words about it. */
export function prose(text) {
  return kept(visible(text ?? "")).split("`").map((piece, index) => (index % 2 ? el("b", {class: "named"}, piece) : piece));
}

/** Makes `old` like `made`, and keeps what is alike: so focus, what is being typed and what is open stay. */
export function mend(old, made) {
  mendAttributes(old, made);
  if (old.dataset.leave !== undefined) return;
  const wanted = [...made.childNodes];
  let at = old.firstChild;
  for (const next of wanted) {
    const found = alike(at, next) ? at : byId(old, at, next);
    if (found) {
      if (found !== at) old.insertBefore(found, at);
      else at = at.nextSibling;
      if (found.nodeType === Node.ELEMENT_NODE) mend(found, next);
      else if (found.data !== next.data) found.data = next.data;
    } else {
      old.insertBefore(next, at);
    }
  }
  while (at) {
    const gone = at;
    at = at.nextSibling;
    gone.remove();
  }
}

function alike(old, made) {
  if (!old || old.nodeType !== made.nodeType || old.nodeName !== made.nodeName) return false;
  return old.nodeType !== Node.ELEMENT_NODE || old.id === made.id;
}

/** The element of the same id further on among the children. */
function byId(parent, from, made) {
  if (!made.id) return null;
  for (let next = from; next; next = next.nextSibling) if (next.id === made.id) return next;
  return null;
}

function mendAttributes(old, made) {
  for (const {name} of [...old.attributes]) if (!made.hasAttribute(name) && name !== "open") old.removeAttribute(name);
  for (const {name, value} of made.attributes) {
    if (old.getAttribute(name) !== value && !(name === "open" && old.dataset.touched)) old.setAttribute(name, value);
  }
  if ("checked" in made && made.type !== "text") old.checked = made.hasAttribute("checked");
  if (made.nodeName === "OPTION") old.selected = made.hasAttribute("selected");
  if (made.nodeName === "INPUT" && old !== document.activeElement && old.type !== "radio" && old.type !== "checkbox") {
    old.value = made.getAttribute("value") ?? "";
  }
}

const acts = new Map();

/** What is done when an element with `data-do="name"` is clicked, or changed where it is a field. */
export function act(name, doing) {
  acts.set(name, doing);
}

/** Listens once, for the whole page. */
export function listen() {
  const fields = "input, select, textarea";
  const run = (event) => {
    const target = event.target.closest?.("[data-do]");
    if (!target) return;
    const field = target.matches(fields);
    if (field !== (event.type === "change")) return;
    acts.get(target.dataset.do)?.(target, event);
  };
  document.addEventListener("click", run);
  document.addEventListener("change", run);
  // Enter in a field says that it is filled in.
  document.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.target.matches?.("input[data-do]") && event.target.type !== "checkbox") {
      event.target.blur();
      event.target.focus();
    }
  });
}

/** Says something to people who listen to the page. */
export function announce(text) {
  document.getElementById("said").textContent = visible(text);
}
