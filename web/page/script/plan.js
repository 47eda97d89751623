// The plan as the library holds it, looked at. Nothing here knows what any of it means.

/** What stands at a path such as `things.3.wall`; a dot that belongs to a key has a backslash before it. */
export function at(plan, path) {
  return path.split(/(?<!\\)\./).reduce((node, key) => node?.[key.replaceAll("\\", "")], plan);
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
