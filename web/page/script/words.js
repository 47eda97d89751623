// The interface's words: one table a language, packed into the page.

const tables = new Map();
for (const block of document.querySelectorAll("script.words")) {
  tables.set(block.dataset.language, JSON.parse(block.textContent));
}
let language = "en";

/** The languages: their codes, each with its own name. */
export function languages() {
  return [...tables].map(([code, table]) => [code, table["language"]]);
}

export function languageNow() {
  return language;
}

/** Chooses a language; one that the page does not have changes nothing. */
export function choose(code) {
  if (tables.has(code)) language = code;
  document.documentElement.lang = language;
}

/** The words under that key, with `{name}` filled in. */
export function t(key, fill = {}) {
  const words = tables.get(language)?.[key] ?? tables.get("en")?.[key] ?? key;
  return words.replace(/\{(\w+)\}/g, (all, name) => fill[name] ?? all);
}

/** The words for so many. */
export function count(key, number) {
  return t(number === 1 ? `${key}.one` : `${key}.many`, {n: number});
}

/** The words under that key, or `otherwise`. */
export function tOr(key, otherwise) {
  return tables.get(language)?.[key] ?? tables.get("en")?.[key] ?? otherwise;
}

/** What marks words that the library says: they are English, whatever the language of the page is. */
export const SAID = {lang: "en"};

/** The verdict of a report, in the page's language. */
export function verdictWords({word, sentence}) {
  return tOr(`verdict.${word}`, sentence);
}

/** A name without its article, with a capital: for a heading. */
export function heading(said) {
  const bare = said.replace(/^(an?|the) /, "");
  return bare.charAt(0).toUpperCase() + bare.slice(1);
}
