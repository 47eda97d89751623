//! Changes of a plan's document by hand: moving, turning and pulling what is drawn, and drawing something new.
//!
//! The document is the tree that the plan's reader reads, with its keys in their order and every figure as it was typed.
//! A change touches only what it changes, in the units in which that was written, and is rounded to the millimetre.
//! Whether the plan makes sense afterwards, its reader says.

pub(crate) mod amount;
mod changes;
mod corners;
mod handle;
mod lot;
mod reshape;
pub(crate) mod shape;
mod things;
pub(crate) mod tree;

#[cfg(test)]
mod edit_tests;

pub use lot::Side;
pub use reshape::reshape;

use crate::drawing::{Handle, Options};
pub use crate::edit::changes::{Add, Change, Changed, Lot, Wrong};
use crate::edit::corners::{add_corner, centre_of, lot_corners, on_all, pull, remove_corner};
use crate::edit::things::{add_thing, remove};
use crate::quantity::{Dimension, Unit};
use crate::text::Node;
use shape::{Place, drawn_mut, nanometres};
use tree::thing_mut;

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
        } => turn(plan, path, degrees.unwrap_or(0.0), about.map(metres), unit).and(nothing),
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

/// Turns what is drawn about a place, or about its middle.
fn turn(
    plan: &mut Node,
    path: &str,
    degrees: f64,
    about: Option<Place>,
    unit: Option<Unit>,
) -> Result<(), Wrong> {
    let about = about.or_else(|| centre_of(plan, path, unit));
    let about = about.ok_or_else(|| undrawn(path))?;
    on_all(plan, path, unit, &|node| {
        shape::turn(node, degrees, about, unit)
    })
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

pub(super) const LOT: &str = "lot";

fn is_side(plan: &Node, id: &str) -> bool {
    let sides = plan.get(LOT).and_then(|lot| lot.get("sides"));
    let mut sides = sides.and_then(Node::as_list).unwrap_or_default().iter();
    sides.any(|side| side.get("id").and_then(Node::text) == Some(id))
}

/// A place or a way in metres, to the millimetre.
pub(super) fn metres([x, y]: [f64; 2]) -> Place {
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

pub(super) fn split(path: &str) -> (&str, Option<&str>) {
    match path.split_once(':') {
        Some((id, outline)) => (id, Some(outline)),
        None => (path, None),
    }
}

pub(super) fn undrawn(path: &str) -> Wrong {
    Wrong(format!(
        "Nothing is drawn of `{path}` that could be changed so."
    ))
}

pub(super) fn unknown(path: &str) -> Wrong {
    Wrong(format!("There is no `{path}` on this plan."))
}
