// What is done with a whole plan: begun, opened, saved, shared, printed.

import {act, announce, el} from "./dom.js";
import {tellLibrary} from "./engine.js";
import {toFragment} from "./link.js";
import {here, look, state, tell, tellAndLook} from "./store.js";
import {printBox} from "./print.js";
import {languageNow, languages, t} from "./words.js";

const EXAMPLE = "eldermere";
/** More than anybody's plan; what is larger was not meant for this page. */
const LARGEST = 4_000_000;

export function menuView() {
  const button = (doing, extra = {}) => el("button", {type: "button", "data-do": doing, id: `menu-${doing}`, ...extra}, t(`menu.${doing}`));
  return el("nav", {id: "menu", "aria-label": t("menu.label")},
    button("undo", {disabled: !tellLibrary("can_undo")}), button("redo", {disabled: !tellLibrary("can_redo")}),
    el("button", {type: "button", id: "menu-more", "data-do": "menu-more", "aria-expanded": String(state.menu)}, t("menu.more")),
    el("div", {id: "menu-rest", "data-open": String(state.menu)},
      button("example"), button("open"), button("save"), button("share"), button("print"), button("desk", {"aria-pressed": String(state.desk)}), button("anew"),
      el("label", {class: "language"}, el("span", {class: "hidden"}, t("menu.language")),
        el("select", {id: "language", "data-do": "language"}, languages().map(([code, name]) => el("option", {value: code, lang: code, selected: code === languageNow()}, name))))),
    el("input", {type: "file", id: "file", hidden: true, "data-do": "file-chosen", accept: ".yaml,.yml,.json", "aria-label": t("menu.open"), tabindex: "-1"}));
}

// Whatever was chosen, the list of a narrow page has served.
document.addEventListener("click", (event) => {
  if (event.target.closest("#menu-rest button")) state.menu = false;
}, true);

/** Something that the person must know, above all else until it is put away. */
export function notice(text, ...buttons) {
  const area = document.getElementById("notice");
  area.replaceChildren(text ? el("p", {}, text, " ", buttons, " ", el("button", {type: "button", class: "plain", "data-do": "notice-read", id: "notice-read"}, t("notice.read"))) : "");
}

/** A box over the page. */
export function openBox(...content) {
  const box = document.getElementById("box");
  box.replaceChildren(...content, el("p", {class: "row"}, el("button", {type: "button", "data-do": "box-closed", id: "box-close"}, t("box.close"))));
  if (!box.open) box.showModal();
}

/** Hands a file to the person, as a download. */
export function handOut(name, text) {
  const url = URL.createObjectURL(new Blob([text], {type: "application/yaml"}));
  el("a", {href: url, download: name}).click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** Opens the text of a plan; says what is wrong where it is none. */
export function openPlan(text, name) {
  const answer = JSON.parse(tell("open", text));
  if (answer.refused) {
    const [row] = answer.refused.plan;
    return notice(t("open.refused", {name, why: row ? `${t("desk.line", {n: row.line ?? 1})}: ${row.message} ${row.help ?? ""}` : ""}));
  }
  notice(answer.rules.length > 0 ? t("open.no-rules", {rules: answer.rules.join(", ")}) : "");
  look({thing: null, selected: null, open: null});
  announce(t("open.opened", {name}));
}

/** The example's home, under the example's rules. */
export function example() {
  tellAndLook({thing: null, selected: null, open: null, desk: false}, "open_home", EXAMPLE, true);
}

async function share() {
  const fragment = await toFragment(tellLibrary("link"));
  const link = location.href.replace(/#.*$/, "") + fragment;
  openBox(el("h2", {id: "box-head"}, t("share.head")), el("p", {}, t("share.what")),
    el("label", {class: "ask", for: "link"}, t("share.link")), el("textarea", {id: "link", readonly: true, rows: "4"}, link),
    el("p", {class: "hint"}, t(location.protocol === "file:" ? "share.file" : "share.sent")),
    el("button", {type: "button", class: "add", "data-do": "link-copied", id: "link-copy"}, t("share.copy")));
  document.getElementById("link").select();
}

act("menu-more", () => look({menu: !state.menu}));
act("undo", () => tellAndLook({}, "undo"));
act("redo", () => tellAndLook({}, "redo"));
act("example", example);
act("open", () => document.getElementById("file").click());
act("file-chosen", async (field) => {
  const [file] = field.files;
  if (!file) return;
  if (file.size > LARGEST) return notice(t("open.large", {name: file.name}));
  const text = await file.text();
  field.value = "";
  openPlan(text, file.name);
});
act("save", () => {
  handOut(`${(state.plan.plan ?? "plan").replaceAll("/", "-")}.yaml`, tellLibrary("file"));
  announce(t("save.done"));
});
act("share", share);
act("link-copied", async () => {
  const field = document.getElementById("link");
  field.select();
  try {
    await navigator.clipboard.writeText(field.value);
  } catch {
    document.execCommand("copy");
  }
  announce(t("share.copied"));
});
act("print", printBox);
act("desk", () => look({desk: !state.desk}));
act("desk-opened", () => look({desk: true}));
act("anew", () => openBox(el("h2", {id: "box-head"}, t("anew.head")), el("p", {}, t("anew.what")),
  el("button", {type: "button", class: "add danger", "data-do": "anew-sure", id: "anew-sure"}, t("anew.sure"))));
act("anew-sure", () => {
  document.getElementById("box").close();
  tellAndLook({open: "where", thing: null, selected: null}, "begin_anew");
});
act("box-closed", () => document.getElementById("box").close());
act("notice-read", () => notice(""));
act("language", (select) => look({language: select.value}));

let toldRefused = false;

/** Says what became of keeping the plan in the browser, where there is something to say. */
export function wentHow(how) {
  if (how === "other") offerAside();
  if (how !== "refused") toldRefused = false;
  else if (!toldRefused) {
    toldRefused = true;
    notice(t("keep.refused"), el("button", {type: "button", class: "plain", "data-do": "save", id: "keep-save"}, t("menu.save")));
  }
}

/** Offers what other windows had kept when this one kept something else. */
function offerAside() {
  const [key] = tellLibrary("set_aside");
  if (!key) return;
  const button = (doing) => el("button", {type: "button", class: "plain", "data-do": doing, "data-key": key, id: doing}, t(`keep.${doing}`));
  notice(t("keep.other"), button("aside-open"), " ", button("aside-forget"));
}

const HELLO = "siting/hello";
const HEARD = "siting/heard";

/** Whoever opens this page in a second window is told so, and so is the first. */
export function watchOthers() {
  window.addEventListener("storage", ({key, newValue}) => {
    if (!newValue || newValue === here) return;
    if (key === HELLO) call(HEARD);
    if (key === HELLO || key === HEARD) notice(t("keep.two"));
  });
  call(HELLO);
  offerAside();
}

function call(key) {
  try {
    localStorage.setItem(key, here);
    localStorage.removeItem(key);
  } catch {
    // Where nothing is kept, no window takes anything from another.
    wentHow("refused");
  }
}

act("aside-open", (button) => {
  const {key} = button.dataset;
  if (tell("open_aside", key)) tellLibrary("forget_aside", key);
  notice("");
  look({thing: null, selected: null, open: null});
});
act("aside-forget", (button) => {
  tellLibrary("forget_aside", button.dataset.key);
  notice("");
});
