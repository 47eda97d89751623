//! Where something new is drawn, until somebody moves it: a fence round the pool, a gate in the fence, a road past the
//! front, all else where nothing is drawn yet.

use super::path::at;
use super::things::Spot;
use crate::edit::amount::MILLIMETRE;
use crate::edit::shape::{Place, place, places};
use crate::edit::{handles, unit_of};
use crate::text::Node;
use crate::vocabulary::{Number, Part, Role, Vocabulary};

/// How far apart the places are where something new is tried, in nanometres.
const STEP: i128 = 1000 * MILLIMETRE;
/// How far from the pool a new fence is drawn, in nanometres.
const ROUND: i128 = 2_000_000_000;
/// Half the width of a new gate, in millimetres.
const HALF_GATE: f64 = 500.0;
/// How far beyond the front the middle of a new road is drawn, and how far it goes on at both ends, in millimetres.
const ROAD: [f64; 2] = [6000.0, 10_000.0];

/// The places of something new of that kind; nothing if it is simply drawn where there is room.
pub(super) fn begins(plan: &Node, kind: &str) -> Option<Vec<Spot>> {
    let vocabulary = Vocabulary::standard();
    let kind = vocabulary.kind(vocabulary.kind_named(kind)?);
    match (kind.role, kind.part) {
        (Some(Role::Fence), _) => round_the_pools(plan),
        (Some(Role::Gate), _) => {
            let fence = vocabulary.with_role(Role::Fence)?;
            in_the_fence(plan, &vocabulary.kind(fence).name)
        }
        (None, Part::Road) => past_the_front(plan),
        _ => None,
    }
}

/// The id of the first of several pools that has none of a kind yet of which each pool has at most one.
pub(super) fn pool_without(plan: &Node, kind: &str) -> Option<String> {
    let vocabulary = Vocabulary::standard();
    let known = vocabulary.kind(vocabulary.kind_named(kind)?);
    let each_has_one = known.of_a_pool && known.number == Number::AtMostOne;
    let pools = plan.get("pool")?.as_list()?;
    let ids = pools.iter().filter_map(|pool| pool.get("id")?.text());
    let things = plan.get("things").and_then(Node::as_list).unwrap_or(&[]);
    let has = |pool: &str, thing: &Node| {
        let says = |key, what| thing.get(key).and_then(Node::text) == Some(what);
        says("kind", kind) && says("part-of", pool)
    };
    let mut free = ids.filter(|pool| !things.iter().any(|thing| has(pool, thing)));
    free.next()
        .filter(|_| each_has_one && pools.len() > 1)
        .map(str::to_owned)
}

fn round_the_pools(plan: &Node) -> Option<Vec<Spot>> {
    let pools = plan.get("pool").into_iter();
    let pools = pools.flat_map(|pool| pool.as_list().unwrap_or(std::slice::from_ref(pool)));
    let spots: Vec<Place> = boxes(plan, pools).into_iter().flatten().collect();
    let [low, high] = around(&spots)?;
    let [least, most] = lot(plan)?;
    let west = (low.0 - ROUND).max(least.0);
    let east = (high.0 + ROUND).min(most.0);
    let south = (low.1 - ROUND).max(least.1);
    let north = (high.1 + ROUND).min(most.1);
    let ring = [
        (west, south),
        (east, south),
        (east, north),
        (west, north),
        (west, south),
    ];
    Some(ring.map(millimetres).to_vec())
}

/// In the middle of the first stretch of the first fence.
fn in_the_fence(plan: &Node, fence: &str) -> Option<Vec<Spot>> {
    let unit = unit_of(plan);
    let is_fence = |thing: &&Node| thing.get("kind").and_then(Node::text) == Some(fence);
    let fence = plan.get("things")?.as_list()?.iter().find(is_fence)?;
    let lines = fence
        .as_map()?
        .iter()
        .map(|entry| places(&entry.value, unit));
    let line = lines.into_iter().find(|line| line.len() > 1)?;
    let [from, to] = [line.first()?, line.get(1)?].map(|at| millimetres(*at));
    let along = direction(from, to)?;
    let middle = [0, 1].map(|axis| f64::midpoint(of(from, axis), of(to, axis)));
    Some(vec![
        moved(middle, along, -HALF_GATE),
        moved(middle, along, HALF_GATE),
    ])
}

/// Beside the side of the lot that faces the front, or else its first.
fn past_the_front(plan: &Node) -> Option<Vec<Spot>> {
    let unit = unit_of(plan);
    let sides = at(plan, "lot.sides")?.as_list()?;
    let is_front = |side: &&Node| side.get("faces").and_then(Node::text) == Some("front");
    let side = sides.iter().find(is_front).or_else(|| sides.first())?;
    let corner = |key| {
        let corner = plan
            .get("lot")?
            .get("corners")?
            .get(side.get(key)?.text()?)?;
        place(corner.get("at").unwrap_or(corner), unit).map(millimetres)
    };
    let (from, to) = (corner("from")?, corner("to")?);
    let along = direction(from, to)?;
    let [low, high] = lot(plan)?.map(millimetres);
    let middle = [0, 1].map(|axis| f64::midpoint(of(low, axis), of(high, axis)));
    let [across, behind] = [[of(along, 1), -of(along, 0)], [-of(along, 1), of(along, 0)]];
    let inward = (of(middle, 0) - of(from, 0)) * of(across, 0)
        + (of(middle, 1) - of(from, 1)) * of(across, 1);
    let outward = if inward > 0.0 { behind } else { across };
    let [far, on] = ROAD;
    let ends = [moved(from, along, -on), moved(to, along, on)];
    Some(ends.map(|end| moved(end, outward, far)).to_vec())
}

fn lot(plan: &Node) -> Option<Around> {
    let corners = handles(plan, "lot").into_iter();
    let corners: Vec<Place> = corners
        .map(|handle| {
            let [x, y] = handle.at.map(|at| i128::from(at) * MILLIMETRE);
            (x, y)
        })
        .collect();
    around(&corners)
}

fn millimetres((x, y): Place) -> Spot {
    [x, y].map(|length| length as f64 / 1e6)
}

fn of([x, y]: Spot, axis: usize) -> f64 {
    if axis == 0 { x } else { y }
}

fn moved([x, y]: Spot, [dx, dy]: Spot, far: f64) -> Spot {
    [x + dx * far, y + dy * far]
}

/// The way from one place to another, one millimetre of it.
fn direction([x, y]: Spot, [to_x, to_y]: Spot) -> Option<Spot> {
    let (dx, dy) = (to_x - x, to_y - y);
    let far = libm::sqrt(dx * dx + dy * dy);
    (far > 0.0).then(|| [dx / far, dy / far])
}

/// The box round some places: low and high, in nanometres.
type Around = [Place; 2];

/// The middle of a stretch of the lot where nothing is drawn yet, in metres: tried from the first corner on. Nothing where there
/// is no lot; the first place tried where all of it is taken.
pub(super) fn free_spot(plan: &Node) -> Option<Spot> {
    const HALF: Place = (3_500_000_000, 2_500_000_000);
    let [low, high] = lot(plan)?;
    let taken = taken(plan);
    let steps = |low: i128, high: i128, half: i128| {
        let many = ((high - low - 2 * half) / STEP).clamp(0, 200);
        (0..=many).map(move |n| low + half + n * STEP)
    };
    let spots = steps(low.1, high.1, HALF.1)
        .flat_map(|y| steps(low.0, high.0, HALF.0).map(move |x| (x, y)));
    let free = |at: &Place| {
        let own = [
            (at.0 - HALF.0, at.1 - HALF.1),
            (at.0 + HALF.0, at.1 + HALF.1),
        ];
        !taken.iter().any(|other| meet(&own, other))
    };
    let mut spots = spots.peekable();
    let first = spots.peek().copied()?;
    let (x, y) = spots.find(free).unwrap_or(first);
    Some([x as f64 / 1e9, y as f64 / 1e9])
}

/// What is drawn of each thing, as a box.
fn taken(plan: &Node) -> Vec<Around> {
    let things = plan.get("things").and_then(Node::as_list).unwrap_or(&[]);
    let pools = plan.get("pool").into_iter();
    let pools = pools.flat_map(|pool| pool.as_list().unwrap_or(std::slice::from_ref(pool)));
    boxes(plan, things.iter().chain(pools))
}

/// Each outline that is drawn, as a box.
fn boxes<'n>(plan: &Node, things: impl Iterator<Item = &'n Node>) -> Vec<Around> {
    let unit = unit_of(plan);
    let entries = things.filter_map(Node::as_map).flatten();
    entries
        .filter_map(|entry| around(&handles_of(&entry.value, unit)))
        .collect()
}

/// The places of an outline, with the far corners of one that is written by its length and width.
fn handles_of(outline: &Node, unit: Option<crate::quantity::Unit>) -> Vec<Place> {
    let mut spots = places(outline, unit);
    let held = crate::edit::held(outline, unit).into_iter();
    spots.extend(held);
    spots
}

fn around(places: &[Place]) -> Option<Around> {
    let ends = |of: fn(&Place) -> i128| {
        let all = places.iter().map(of);
        Some((all.clone().min()?, all.max()?))
    };
    let (x, y) = (ends(|at| at.0)?, ends(|at| at.1)?);
    Some([(x.0, y.0), (x.1, y.1)])
}

fn meet(one: &Around, other: &Around) -> bool {
    let apart = |low: i128, high: i128, others: (i128, i128)| high <= others.0 || low >= others.1;
    let [low, high] = one;
    let [least, most] = other;
    !apart(low.0, high.0, (least.0, most.0)) && !apart(low.1, high.1, (least.1, most.1))
}
