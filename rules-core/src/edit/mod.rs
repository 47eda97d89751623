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
#[cfg(test)]
mod handle_tests;

pub use lot::Side;
pub use reshape::reshape;

use crate::drawing::{Handle, Options};
pub use crate::edit::changes::{Add, Change, Changed, Lot, Wrong};
use crate::edit::corners::{centre_of, lot_corners, on_all, pull};
use crate::edit::things::add_thing;
use crate::quantity::{Dimension, Unit};
use crate::text::Node;
use shape::{Place, drawn_mut, to_millimetre};
use tree::thing_mut;

/// Changes a document.
///
/// # Errors
/// A sentence, where there is nothing of that name or nothing of it is drawn. The document is then as it was, but for
/// what was changed before that was noticed.
pub fn change(plan: &mut Node, change: &Change) -> Result<Changed, Wrong> {
    let unit = unit_of(plan);
    match change {
        Change::Move { path, dx, dy } => {
            let by = from_metres([*dx, *dy]);
            on_all(plan, path, unit, &|node| shape::shift(node, by, unit))?;
        }
        Change::Turn {
            path,
            degrees,
            about,
        } => turn(plan, path, *degrees, about.map(from_metres), unit)?,
        Change::Pull {
            path,
            what,
            index,
            dx,
            dy,
        } => pull(plan, path, (what, *index), from_metres([*dx, *dy]), unit)?,
        Change::Lot(drawn) => return lot::draw(plan, drawn, unit),
        Change::Add(add) => return add_thing(plan, add, unit),
    }
    Ok(Changed::default())
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

/// Moves a thing, with everything drawn for it and its parts, by a number of nanometres east and north, exactly.
///
/// # Errors
/// As for [`change`].
pub(crate) fn shift_exactly(plan: &mut Node, path: &str, by: Place) -> Result<(), Wrong> {
    let unit = unit_of(plan);
    on_all(plan, path, unit, &|node| {
        shape::shift_exactly(node, by, unit);
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
pub(super) fn from_metres(way: [f64; 2]) -> Place {
    way.map(|metres| to_millimetre(metres * 1e9)).into()
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
