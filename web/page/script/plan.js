// The plan as a document: exactly what the reader takes, held as JSON. Nothing here knows what any of it means.

/** What stands at a path such as `things.3.wall`. */
export function at(plan, path) {
  return path.split(".").reduce((node, key) => node?.[key], plan);
}

/** A copy of the plan with that value at the path; `undefined` takes it away. */
export function put(plan, path, value) {
  const copy = structuredClone(plan);
  const keys = path.split(".");
  const last = keys.pop();
  let node = copy;
  keys.forEach((key, index) => {
    const below = keys[index + 1] ?? last;
    node[key] ??= /^\d+$/.test(below) ? [] : {};
    node = node[key];
  });
  if (value !== undefined) node[last] = value;
  else if (Array.isArray(node)) node.splice(Number(last), 1);
  else delete node[last];
  return pruned(copy, keys);
}

/** Sections that have become empty go, but not what carries a place in a list. */
function pruned(plan, keys) {
  if (keys.length === 1 && plan[keys[0]] && !Array.isArray(plan[keys[0]]) && Object.keys(plan[keys[0]]).length === 0) {
    delete plan[keys[0]];
  }
  return plan;
}

/** The plan as text, and for each of its lines the path of what stands there. */
export function written(plan) {
  const lines = [];
  const paths = [];
  write(plan, "", 0, "", "", lines, paths);
  return {text: lines.join("\n"), paths};
}

function write(node, path, depth, before, after, lines, paths) {
  const indent = " ".repeat(depth);
  const line = (text, of) => {
    lines.push(text);
    paths.push(of);
  };
  if (node === null || typeof node !== "object" || isPlace(node)) {
    line(indent + before + inQuotes(node) + after, path);
    return;
  }
  const list = Array.isArray(node);
  line(indent + before + (list ? "[" : "{"), path);
  const entries = Object.entries(node);
  entries.forEach(([key, value], index) => {
    const comma = index + 1 < entries.length ? "," : "";
    const below = path ? `${path}.${key}` : key;
    write(value, below, depth + 1, list ? "" : `${inQuotes(key)}: `, comma, lines, paths);
  });
  line(indent + (list ? "]" : "}") + after, path);
}

/** As JSON; what the library would refuse in a text as it stands is written as an escape, which reads back as it was. */
function inQuotes(value) {
  return JSON.stringify(value).replace(/[\u007f-\u009f\u2028\u2029\ufeff]/g, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

/** Two figures side by side stay on one line. */
function isPlace(node) {
  return Array.isArray(node) && node.length === 2 && node.every((figure) => typeof figure !== "object");
}

/** The pools, however they are written: each with its path. */
export function pools(plan) {
  if (!plan.pool) return [];
  return Array.isArray(plan.pool) ? plan.pool.map((pool, index) => [`pool.${index}`, pool]) : [["pool", plan.pool]];
}

/** The things of a kind, each with its path. */
export function thingsOf(plan, kind) {
  const all = (plan.things ?? []).map((thing, index) => [`things.${index}`, thing]);
  return all.filter(([, thing]) => thing?.kind === kind);
}

/** The path of the thing with that id: a pool, a thing, or a side of the lot. */
export function pathOf(plan, id) {
  const sides = (plan.lot?.sides ?? []).map((side, index) => [`lot.sides.${index}`, side]);
  const things = (plan.things ?? []).map((thing, index) => [`things.${index}`, thing]);
  return [...pools(plan), ...things, ...sides].find(([, thing]) => thing?.id === id)?.[0] ?? null;
}

/** An id that nothing on the plan has. */
export function freshId(plan, base) {
  const taken = (id) => pathOf(plan, id) !== null || id === "lot";
  if (!taken(base)) return base;
  let number = 2;
  while (taken(`${base}-${number}`)) number += 1;
  return `${base}-${number}`;
}
