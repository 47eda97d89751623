//! The corners of the lot, and pulling and changing what is drawn of a thing.

use super::handle::{self, centre};
use super::shape::{self, Place, drawn_mut, middle, place, set_place};
use super::tree::{self, get_mut, parts_of, thing_mut};
use crate::edit::{LOT, Wrong, split, undrawn, unknown};
use crate::quantity::Unit;
use crate::text::Node;

/// Does something with all drawn outlines of a thing, and of what is part of it.
pub(super) fn on_all(
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

pub(super) fn lot_corners(plan: &Node, unit: Option<Unit>) -> Vec<(String, Place)> {
    let corners = plan.get(LOT).and_then(|lot| lot.get("corners")?.as_map());
    let placed = corners.into_iter().flatten().filter_map(|entry| {
        let at = entry.value.get("at").unwrap_or(&entry.value);
        Some((entry.key.clone(), place(at, unit)?))
    });
    placed.collect()
}

pub(super) fn centre_of(plan: &mut Node, path: &str, unit: Option<Unit>) -> Option<Place> {
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

pub(super) fn pull(
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
