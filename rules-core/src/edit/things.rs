//! Things that are put on the plan.

use super::amount::{self, new_length, scalar};
use super::tree::{get_mut, ids, list, list_mut, map, set};
use crate::edit::corners::centre_of;
use crate::edit::{Add, Changed, LOT, Wrong, from_metres};
use crate::quantity::Unit;
use crate::text::Node;

pub(super) fn add_thing(plan: &mut Node, add: &Add, unit: Option<Unit>) -> Result<Changed, Wrong> {
    let pool = add.kind == "pool";
    let known = ids(plan);
    let names = std::iter::once(add.kind.clone()).chain((2..).map(|n| format!("{}-{n}", add.kind)));
    let free = |name: &String| !known.contains(&name.as_str()) && name != LOT;
    let id = names
        .take(5000)
        .find(free)
        .ok_or_else(|| Wrong("There are too many.".to_owned()))?;
    let mut thing = match pool {
        true => map([("id", scalar(id.clone()))]),
        false => map([
            ("kind", scalar(add.kind.clone())),
            ("id", scalar(id.clone())),
        ]),
    };
    if let Some(outline) = &add.outline {
        set(&mut thing, outline, new_outline(plan, add, unit));
    }
    match (pool, plan.get("things").and_then(Node::as_list)) {
        (true, _) => add_pool(plan, thing),
        (false, Some(_)) => get_mut(plan, "things")
            .and_then(list_mut)
            .into_iter()
            .for_each(|all| all.push(thing.clone())),
        (false, None) => set(plan, "things", list(vec![thing])),
    }
    Ok(Changed {
        id: Some(id),
        ..Changed::default()
    })
}

/// A first pool stands by itself, a second one makes a list of them.
fn add_pool(plan: &mut Node, pool: Node) {
    let old = plan.get("pool").filter(|old| !old.is_empty()).cloned();
    match old {
        None => set(plan, "pool", pool),
        Some(old) => {
            let mut pools = old
                .as_list()
                .map_or_else(|| vec![old.clone()], <[Node]>::to_vec);
            pools.push(pool);
            set(plan, "pool", list(pools));
        }
    }
}

/// What is drawn of a new thing: a place, a level line, or a rectangle about the place that is given.
fn new_outline(plan: &mut Node, add: &Add, unit: Option<Unit>) -> Node {
    const USUAL: i128 = 2_000_000_000;
    let given = add.at.map(from_metres);
    let at = given
        .or_else(|| centre_of(plan, LOT, unit))
        .unwrap_or((0, 0));
    let typed = |n: usize| {
        add.size
            .as_ref()
            .and_then(|size| size.get(n))
            .map(|text| scalar(text.clone()))
    };
    let [long, wide] = [0, 1].map(|n| {
        typed(n)
            .and_then(|node| amount::length(&node, unit))
            .unwrap_or(USUAL)
    });
    let millimetre = |length: i128| length.div_euclid(amount::MILLIMETRE) * amount::MILLIMETRE;
    let spot = |dx: i128, dy: i128| {
        let (x, y) = (millimetre(at.0 + dx), millimetre(at.1 + dy));
        list(vec![new_length(x, unit), new_length(y, unit)])
    };
    match add.shape.as_deref() {
        Some("point") => spot(0, 0),
        Some("line") => list(vec![spot(-long / 2, 0), spot(long / 2, 0)]),
        _ => {
            let length =
                |n: usize, length: i128| typed(n).unwrap_or_else(|| new_length(length, unit));
            let way = map([
                ("at", spot(-long / 2, -wide / 2)),
                ("length", length(0, long)),
                ("width", length(1, wide)),
            ]);
            map([("rectangle", way)])
        }
    }
}
