// Which edition of the rules governs the plan, where they have several.

import {el, prose} from "./dom.js";
import {t, verdictWords} from "./words.js";

/** The one that surely governs, in a sentence; or all that may, with what comes out otherwise under each. */
export function editionsView(editions) {
  if (!editions?.length) return null;
  if (editions.length === 1 && editions[0].sure) return el("p", {class: "hint", id: "edition"}, prose(t("edition.one", named(editions[0]))));
  return el("section", {class: "group", id: "editions"}, el("h3", {}, t("edition.which")),
    el("p", {}, t(editions.some((edition) => edition.sure) ? "edition.open" : "edition.perhaps-none")),
    el("ul", {}, editions.map((edition) => el("li", {}, el("strong", {}, t("edition.if", {edition: edition.edition})), " ", prose(inForce(edition)),
      el("p", {}, verdictWords(edition.verdict)), otherwise(edition)))));
}

function named(edition) {
  return {edition: edition.edition, when: inForce(edition)};
}

function inForce(edition) {
  return edition["in-force"] ? t("edition.in-force", {when: edition["in-force"]}) : "";
}

function otherwise({otherwise: rules, documents}) {
  if (rules.length + documents.length === 0) return null;
  return el("ul", {}, rules.map((rule) => el("li", {}, `${rule.title} (${rule.clause}): ${t(`outcome.${rule.outcome}`)}`)),
    documents.map((title) => el("li", {}, t("edition.paper", {title}))));
}
