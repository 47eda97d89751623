//! Changes of a plan's document by hand: moving, turning and pulling what is drawn, and drawing something new.
//!
//! The document is the tree that the plan's reader reads, with its keys in their order and every figure as it was typed.
//! A change touches only what it changes, in the units in which that was written, and is rounded to the millimetre.
//! Whether the plan makes sense afterwards, its reader says.

pub(crate) mod amount;
mod handle;
mod lot;
mod reshape;
pub(crate) mod shape;
pub(crate) mod tree;

#[cfg(test)]
mod edit_tests;

pub use lot::Side;
pub use reshape::reshape;

use crate::drawing::{Handle, Options};
use crate::quantity::{Dimension, Unit};
use crate::text::Node;
use amount::{new_length, scalar};
use handle::{centre, corners_mut};
use shape::{Place, drawn_mut, middle, nanometres, place, set_place};
use tree::{get_mut, ids, list, list_mut, map, parts_of, set, take_out, thing_mut};

/// Why a document was not changed, in a sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wrong(pub String);

/// What came of a change beside the changed document.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Changed {
    /// The id of what was drawn anew.
    pub id: Option<String>,
    /// By how much the last side of a lot misses its first corner, in nanometres.
    pub closing: Option<i128>,
}

/// A change. `path` names a thing by its id (`pool` the pool, `lot` the lot), and after a `:` one of its outlines.
/// Places and ways are to the east and to the north, in metres of the file's own coordinates.
#[derive(Debug, Clone, PartialEq, serde::Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Change {
    /// Moves all that is drawn of a thing, and of what is part of it.
    #[serde(rename_all = "kebab-case")]
    Move {
        /// What.
        path: String,
        /// To the east.
        dx: f64,
        /// To the north.
        dy: f64,
    },
    /// Turns it anticlockwise, about its middle where no place is given.
    Turn {
        /// What.
        path: String,
        /// By how much; or, with `to`, until its handle lies in the direction of that place.
        degrees: Option<f64>,
        /// Where the handle is pulled to by which it is turned.
        to: Option<[f64; 2]>,
        /// About this place.
        about: Option<[f64; 2]>,
    },
    /// Pulls it at one of its handles (see [`handles`]).
    Pull {
        /// What.
        path: String,
        /// Which sort of handle.
        what: String,
        /// Which of them.
        index: usize,
        /// To the east.
        dx: f64,
        /// To the north.
        dy: f64,
    },
    /// Pulls it at a corner or a side.
    Resize {
        /// What.
        path: String,
        /// Which corner, from 0.
        corner: Option<usize>,
        /// Which side, from 0.
        side: Option<usize>,
        /// To the east.
        dx: f64,
        /// To the north.
        dy: f64,
    },
    /// Puts a corner somewhere else; that of a rectangle takes its sides with it.
    Corner {
        /// What.
        path: String,
        /// Which corner, from 0.
        index: usize,
        /// Where to.
        to: [f64; 2],
    },
    /// Draws a corner more.
    AddCorner {
        /// What.
        path: String,
        /// After which corner, from 0.
        after: usize,
        /// Where.
        at: [f64; 2],
    },
    /// Takes a corner out.
    RemoveCorner {
        /// What.
        path: String,
        /// Which, from 0.
        index: usize,
    },
    /// Draws the lot anew.
    Lot(Lot),
    /// Draws something new.
    Add(Add),
    /// Takes a thing off the plan.
    Remove {
        /// What.
        path: String,
    },
}

/// How the lot is drawn anew.
#[derive(Debug, Clone, PartialEq, Eq, serde::Deserialize)]
#[serde(untagged)]
pub enum Lot {
    /// A rectangle.
    Size {
        /// Along the road, as typed.
        width: String,
        /// From the road to the rear, as typed.
        depth: String,
    },
    /// Side by side.
    Sides {
        /// The sides, the first along the road from left to right.
        sides: Vec<Side>,
    },
    /// Corner by corner.
    Corners {
        /// The corners in the order in which one walks round the lot, east and north, as typed.
        corners: Vec<[String; 2]>,
    },
}

/// Something new.
#[derive(Debug, Clone, PartialEq, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Add {
    /// Its kind; `pool` for the pool itself.
    pub kind: String,
    /// Its outline that is drawn; none where it is nowhere.
    pub outline: Option<String>,
    /// `point`, `line` or `area`.
    pub shape: Option<String>,
    /// Its middle; the middle of the lot where that is not said.
    pub at: Option<[f64; 2]>,
    /// Its length and width as typed.
    pub size: Option<[String; 2]>,
}

/// Changes a document.
///
/// # Errors
/// A sentence, where there is nothing of that name or nothing of it is drawn. The document is then as it was, but for
/// what was changed before that was noticed.
pub fn change(plan: &mut Node, change: &Change) -> Result<Changed, Wrong> {
    let unit = unit_of(plan);
    let nothing = Ok(Changed::default());
    match change {
        Change::Move { path, dx, dy } => {
            let by = metres([*dx, *dy]);
            on_all(plan, path, unit, &|node| shape::shift(node, by, unit)).and(nothing)
        }
        Change::Turn {
            path, to: Some(to), ..
        } => {
            let by = to_handle(plan, path, "turn", 0, metres(*to))?;
            pull(plan, path, ("turn", 0), by, unit).and(nothing)
        }
        Change::Turn {
            path,
            degrees,
            about,
            ..
        } => {
            let about = about.map(metres).or_else(|| centre_of(plan, path, unit));
            let about = about.ok_or_else(|| undrawn(path))?;
            let degrees = degrees.unwrap_or(0.0);
            on_all(plan, path, unit, &|node| {
                shape::turn(node, degrees, about, unit)
            })
            .and(nothing)
        }
        Change::Pull {
            path,
            what,
            index,
            dx,
            dy,
        } => pull(plan, path, (what, *index), metres([*dx, *dy]), unit).and(nothing),
        Change::Resize {
            path,
            corner,
            side,
            dx,
            dy,
        } => {
            let which = match side {
                Some(side) => ("side", *side),
                None => ("corner", corner.unwrap_or(2)),
            };
            pull(plan, path, which, metres([*dx, *dy]), unit).and(nothing)
        }
        Change::Corner { path, index, to } => {
            let by = to_handle(plan, path, "corner", *index, metres(*to))?;
            pull(plan, path, ("corner", *index), by, unit).and(nothing)
        }
        Change::AddCorner { path, after, at } => {
            add_corner(plan, path, *after, *at, unit).and(nothing)
        }
        Change::RemoveCorner { path, index } => {
            remove_corner(plan, path, *index, unit).and(nothing)
        }
        Change::Lot(Lot::Size { width, depth }) => {
            lot::by_size(plan, width, depth, unit).and(nothing)
        }
        Change::Lot(Lot::Corners { corners }) => lot::by_corners(plan, corners, unit).and(nothing),
        Change::Lot(Lot::Sides { sides }) => Ok(Changed {
            closing: Some(lot::by_sides(plan, sides, unit)?),
            ..Changed::default()
        }),
        Change::Add(add) => add_thing(plan, add, unit),
        Change::Remove { path } => remove(plan, path).and(nothing),
    }
}

/// Makes a thing so many thousandths as large, all that is drawn of it and of what is part of it, about its middle. What is
/// worked out from another outline keeps its distance from that.
///
/// # Errors
/// As for [`change`].
pub(crate) fn scale(plan: &mut Node, path: &str, thousandths: i128) -> Result<(), Wrong> {
    let unit = unit_of(plan);
    let about = centre_of(plan, path, unit).ok_or_else(|| undrawn(path))?;
    on_all(plan, path, unit, &|node| {
        shape::scale(node, thousandths, about, unit);
    })
}

/// Where a thing can be taken hold of: the first of its outlines that is drawn, or the one that the path names. A side of
/// the lot goes where the lot's corners go, so these are its handles.
pub fn handles(plan: &Node, path: &str) -> Vec<Handle> {
    handles_in(&mut plan.clone(), path)
}

/// The same without a copy of the whole plan, which stays as it is.
fn handles_in(plan: &mut Node, path: &str) -> Vec<Handle> {
    let unit = unit_of(plan);
    if path == LOT || is_side(plan, path) {
        let corners = lot_corners(plan, unit);
        let corner = |(index, (_, at))| handle::corner(index, at);
        return corners.into_iter().enumerate().map(corner).collect();
    }
    let (id, outline) = split(path);
    let thing = thing_mut(plan, id);
    let first = thing.and_then(|thing| drawn_mut(thing, outline, unit).next());
    first
        .map(|node| handle::handles(node, unit))
        .unwrap_or_default()
}

/// The places by which an outline is held, in nanometres: of a rectangle its corners.
pub(crate) fn held(outline: &Node, unit: Option<Unit>) -> Vec<Place> {
    let corners = handle::handles(outline, unit).into_iter();
    let corners = corners.filter(|handle| handle.what != "turn");
    let place = |handle: Handle| {
        let [x, y] = handle.at.map(|at| i128::from(at) * amount::MILLIMETRE);
        (x, y)
    };
    corners.map(place).collect()
}

impl Options {
    /// With the places where the chosen thing can be taken hold of. The plan stays as it is.
    #[must_use]
    pub fn holding(&self, plan: &mut Node) -> Self {
        let chosen = self.chosen.as_ref();
        let handles = chosen.map(|chosen| handles_in(plan, chosen));
        Self {
            handles: handles.unwrap_or_default(),
            ..self.clone()
        }
    }
}

const LOT: &str = "lot";

fn is_side(plan: &Node, id: &str) -> bool {
    let sides = plan.get(LOT).and_then(|lot| lot.get("sides"));
    let mut sides = sides.and_then(Node::as_list).unwrap_or_default().iter();
    sides.any(|side| side.get("id").and_then(Node::text) == Some(id))
}

/// A place or a way in metres, to the millimetre.
fn metres([x, y]: [f64; 2]) -> Place {
    (nanometres(x * 1000.0), nanometres(y * 1000.0))
}

/// How far it is from a handle to a place.
fn to_handle(plan: &Node, path: &str, what: &str, index: usize, to: Place) -> Result<Place, Wrong> {
    let found = handles(plan, path).into_iter();
    let mut found = found.filter(|handle| handle.what == what && handle.index == index);
    let handle = found.next().ok_or_else(|| undrawn(path))?;
    let [x, y] = handle.at.map(|at| i128::from(at) * amount::MILLIMETRE);
    Ok((to.0 - x, to.1 - y))
}

pub(crate) fn unit_of(plan: &Node) -> Option<Unit> {
    let unit = plan.get("unit").and_then(Node::text).and_then(Unit::find);
    unit.filter(|unit| unit.dimension() == Dimension::Length)
}

fn split(path: &str) -> (&str, Option<&str>) {
    match path.split_once(':') {
        Some((id, outline)) => (id, Some(outline)),
        None => (path, None),
    }
}

fn undrawn(path: &str) -> Wrong {
    Wrong(format!(
        "Nothing is drawn of `{path}` that could be changed so."
    ))
}

fn unknown(path: &str) -> Wrong {
    Wrong(format!("There is no `{path}` on this plan."))
}

/// Does something with all drawn outlines of a thing, and of what is part of it.
fn on_all(
    plan: &mut Node,
    path: &str,
    unit: Option<Unit>,
    change: &dyn Fn(&mut Node),
) -> Result<(), Wrong> {
    if path == LOT {
        let corners = get_mut(plan, LOT).and_then(|lot| get_mut(lot, "corners"));
        let corners = corners
            .and_then(tree::map_mut)
            .ok_or_else(|| undrawn(path))?;
        let places = corners
            .iter_mut()
            .filter_map(|entry| corner_place(&mut entry.value));
        places.for_each(change);
        return Ok(());
    }
    let (id, outline) = split(path);
    let parts = parts_of(plan, id);
    let thing = thing_mut(plan, id).ok_or_else(|| unknown(id))?;
    let mut any = false;
    for node in drawn_mut(thing, outline, unit) {
        any = true;
        change(node);
    }
    for part in parts.iter().filter(|_| outline.is_none()) {
        if let Some(thing) = thing_mut(plan, part) {
            drawn_mut(thing, None, unit).for_each(change);
        }
    }
    any.then_some(()).ok_or_else(|| undrawn(path))
}

/// Where a corner of the lot stands: `[x, y]`, or `{at: [x, y], accuracy: …}`.
fn corner_place(node: &mut Node) -> Option<&mut Node> {
    match node.as_map().is_some() {
        true => get_mut(node, "at"),
        false => Some(node),
    }
}

fn lot_corners(plan: &Node, unit: Option<Unit>) -> Vec<(String, Place)> {
    let corners = plan.get(LOT).and_then(|lot| lot.get("corners")?.as_map());
    let placed = corners.into_iter().flatten().filter_map(|entry| {
        let at = entry.value.get("at").unwrap_or(&entry.value);
        Some((entry.key.clone(), place(at, unit)?))
    });
    placed.collect()
}

fn centre_of(plan: &mut Node, path: &str, unit: Option<Unit>) -> Option<Place> {
    if path == LOT {
        let corners: Vec<Place> = lot_corners(plan, unit)
            .into_iter()
            .map(|(_, at)| at)
            .collect();
        return middle(&corners);
    }
    let (id, outline) = split(path);
    let node = drawn_mut(thing_mut(plan, id)?, outline, unit).next()?;
    centre(node, unit)
}

fn pull(
    plan: &mut Node,
    path: &str,
    which: (&str, usize),
    by: Place,
    unit: Option<Unit>,
) -> Result<(), Wrong> {
    if path == LOT {
        let corner = lot_corner(plan, which.1).ok_or_else(|| undrawn(path))?;
        let old = place(corner, unit).ok_or_else(|| undrawn(path))?;
        set_place(corner, shape::moved(old, by), unit);
        return Ok(());
    }
    let (id, outline) = split(path);
    let thing = thing_mut(plan, id).ok_or_else(|| unknown(id))?;
    let node = drawn_mut(thing, outline, unit).next();
    let node = node.ok_or_else(|| undrawn(path))?;
    handle::pull(node, which, by, unit).ok_or_else(|| undrawn(path))
}

/// The place of a corner of the lot.
fn lot_corner(plan: &mut Node, index: usize) -> Option<&mut Node> {
    let corners = get_mut(get_mut(plan, LOT)?, "corners").and_then(tree::map_mut)?;
    corner_place(&mut corners.get_mut(index)?.value)
}

fn add_corner(
    plan: &mut Node,
    path: &str,
    after: usize,
    at: [f64; 2],
    unit: Option<Unit>,
) -> Result<(), Wrong> {
    let (x, y) = metres(at);
    let at = list(vec![new_length(x, unit), new_length(y, unit)]);
    if path == LOT {
        return lot_corner_more(plan, after, at);
    }
    let (id, outline) = split(path);
    let thing = thing_mut(plan, id).ok_or_else(|| unknown(id))?;
    let node = drawn_mut(thing, outline, unit).next();
    let corners = node.and_then(corners_mut).ok_or_else(|| undrawn(path))?;
    corners.insert((after + 1).min(corners.len()), at);
    Ok(())
}

/// A corner more in a side of the lot: the side ends there, and a new one begins.
fn lot_corner_more(plan: &mut Node, after: usize, at: Node) -> Result<(), Wrong> {
    let wrong = || undrawn(LOT);
    let lot = get_mut(plan, LOT).ok_or_else(wrong)?;
    let corners = get_mut(lot, "corners")
        .and_then(tree::map_mut)
        .ok_or_else(wrong)?;
    let before = corners
        .get(after)
        .map(|entry| entry.key.clone())
        .ok_or_else(wrong)?;
    let free = |name: &String| corners.iter().all(|entry| entry.key != *name);
    let name = (1..)
        .map(|n| format!("corner-{n}"))
        .find(free)
        .ok_or_else(wrong)?;
    let entry = crate::text::Entry {
        key: name.clone(),
        key_span: crate::text::Span::default(),
        value: at,
    };
    corners.insert(after + 1, entry);
    let sides = get_mut(lot, "sides").and_then(list_mut);
    let side = sides
        .into_iter()
        .flatten()
        .find(|side| side.get("from").and_then(Node::text) == Some(before.as_str()));
    if let Some(side) = side {
        set(side, "to", scalar(name));
    }
    Ok(())
}

fn remove_corner(
    plan: &mut Node,
    path: &str,
    index: usize,
    unit: Option<Unit>,
) -> Result<(), Wrong> {
    if path == LOT {
        return lot_corner_less(plan, index);
    }
    let (id, outline) = split(path);
    let thing = thing_mut(plan, id).ok_or_else(|| unknown(id))?;
    let node = drawn_mut(thing, outline, unit).next();
    let corners = node.and_then(corners_mut).ok_or_else(|| undrawn(path))?;
    if index < corners.len() && corners.len() > 2 {
        corners.remove(index);
        return Ok(());
    }
    Err(undrawn(path))
}

/// A corner less: the side that came to it goes on to the next, and the side that began there is no more.
fn lot_corner_less(plan: &mut Node, index: usize) -> Result<(), Wrong> {
    let wrong = || undrawn(LOT);
    let lot = get_mut(plan, LOT).ok_or_else(wrong)?;
    let corners = get_mut(lot, "corners")
        .and_then(tree::map_mut)
        .ok_or_else(wrong)?;
    if corners.len() < 4 || index >= corners.len() {
        return Err(Wrong("A lot keeps at least three corners.".to_owned()));
    }
    let next = corners
        .iter()
        .cycle()
        .nth(index + 1)
        .map(|entry| entry.key.clone());
    let gone = corners.remove(index).key;
    if let (Some(sides), Some(next)) = (get_mut(lot, "sides").and_then(list_mut), next) {
        sides.retain(|side| side.get("from").and_then(Node::text) != Some(gone.as_str()));
        for side in sides.iter_mut() {
            if side.get("to").and_then(Node::text) == Some(gone.as_str()) {
                set(side, "to", scalar(next.clone()));
            }
        }
    }
    Ok(())
}

fn add_thing(plan: &mut Node, add: &Add, unit: Option<Unit>) -> Result<Changed, Wrong> {
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
    let given = add.at.map(metres);
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

fn remove(plan: &mut Node, id: &str) -> Result<(), Wrong> {
    thing_mut(plan, id).ok_or_else(|| unknown(id))?;
    let other = |thing: &Node| thing.get("id").and_then(Node::text) != Some(id);
    let things = get_mut(plan, "things").and_then(list_mut);
    things.into_iter().for_each(|things| things.retain(other));
    let pools = get_mut(plan, "pool").and_then(list_mut);
    pools.into_iter().for_each(|pools| pools.retain(other));
    let only = plan
        .get("pool")
        .is_some_and(|pool| pool.as_map().is_some() && (!other(pool) || id == "pool"));
    if only {
        take_out(plan, "pool");
    }
    Ok(())
}
