//! A lot that is a rectangle: its two figures, read from its corners and changed there.

use super::Session;
use crate::edit::amount::{length, new_length, scalar};
use crate::edit::shape::place;
use crate::edit::tree::{get_mut, list_mut, map_mut};
use crate::edit::{Change, Lot, Wrong, change, unit_of};
use crate::quantity::{Dimension, Rounding, Unit, parse, show};
use crate::text::Node;

/// A lot whose sides lie along the axes.
struct Rectangle {
    /// Where it begins and how far it reaches, to the east and to the north, in nanometres.
    low: [i128; 2],
    size: [i128; 2],
    unit: Unit,
}

/// How wide and how deep the lot is, where it is a rectangle along the axes.
pub fn lot_size(plan: &Node) -> Option<[String; 2]> {
    let lot = Rectangle::of(plan)?;
    let text = |length| show(length, lot.unit, Rounding::Nearest, 3);
    Some(lot.size.map(text))
}

impl Rectangle {
    fn of(plan: &Node) -> Option<Self> {
        let unit = unit_of(plan);
        let corners = plan.get("lot")?.get("corners")?.as_map()?;
        let at = |node: &Node| place(node.get("at").unwrap_or(node), unit);
        let places = corners.iter().map(|entry| at(&entry.value));
        let places: Vec<_> = places.collect::<Option<_>>()?;
        let [a, b, c, d] = places.as_slice() else {
            return None;
        };
        let level = a.1 == b.1 && b.0 == c.0 && c.1 == d.1 && d.0 == a.0;
        let upright = a.0 == b.0 && b.1 == c.1 && c.0 == d.0 && d.1 == a.1;
        let low = [a.0.min(c.0), a.1.min(c.1)];
        let size = [(a.0 - c.0).abs(), (a.1 - c.1).abs()];
        (level || upright).then_some(Self {
            low,
            size,
            unit: written_in(plan, unit),
        })
    }
}

/// The unit in which the corners are written.
fn written_in(plan: &Node, unit: Option<Unit>) -> Unit {
    let corners = plan.get("lot").and_then(|lot| lot.get("corners")?.as_map());
    let places = corners.into_iter().flatten().filter_map(|entry| {
        let at = entry.value.get("at").unwrap_or(&entry.value);
        at.as_list()
    });
    let read = |node: &Node| parse(node.text()?, Some(Dimension::Length), unit).ok();
    let mut written = places.flatten().filter_map(read);
    let not_nothing = written.find(|written| written.drawn != Some(0));
    not_nothing.map_or(Unit::METRE, |written| written.unit)
}

impl Session {
    /// Makes the lot so wide and so deep. A lot that is a rectangle keeps its corners and what is said of its sides, and a
    /// figure that is left out stays; any other lot needs both, and is drawn anew. Gives whether both are known.
    ///
    /// # Errors
    /// A sentence, where a figure is no length.
    pub fn size_lot(&mut self, width: &str, depth: &str) -> Result<bool, Wrong> {
        let typed = [width, depth].map(str::trim);
        let known = Rectangle::of(self.plan());
        let complete = !typed.contains(&"");
        match known {
            Some(lot) => self.change(|plan| resized(plan, &lot, typed))?,
            None if complete => {
                let size = Lot::Size {
                    width: width.to_owned(),
                    depth: depth.to_owned(),
                };
                self.change(|plan| change(plan, &Change::Lot(size)).map(drop))?;
            }
            None => return Ok(false),
        }
        Ok(true)
    }
}

fn resized(plan: &mut Node, lot: &Rectangle, typed: [&str; 2]) -> Result<(), Wrong> {
    let unit = unit_of(plan);
    for (axis, text) in typed.into_iter().enumerate() {
        if !text.is_empty() {
            stretch(plan, lot, axis, text, unit)?;
        }
    }
    Ok(())
}

/// Puts the far corners where the new figure says.
fn stretch(
    plan: &mut Node,
    lot: &Rectangle,
    axis: usize,
    text: &str,
    unit: Option<Unit>,
) -> Result<(), Wrong> {
    let wanted = scalar(text.to_owned());
    let long = length(&wanted, unit).filter(|long| *long > 0);
    let no_length = || format!("`{text}` is not a length; write it with its unit: 24 m, 80 ft.");
    let long = long.ok_or_else(|| Wrong(no_length()))?;
    let low = lot.low.get(axis).copied().unwrap_or_default();
    let new = match low {
        0 => wanted,
        low => new_length(low + long, unit),
    };
    let corners = get_mut(plan, "lot").and_then(|lot| get_mut(lot, "corners"));
    for entry in corners.and_then(map_mut).into_iter().flatten() {
        let at = match entry.value.as_map() {
            Some(_) => get_mut(&mut entry.value, "at"),
            None => Some(&mut entry.value),
        };
        let figure = at.and_then(list_mut).and_then(|at| at.get_mut(axis));
        if let Some(figure) = figure.filter(|figure| length(figure, unit) != Some(low)) {
            *figure = new.clone();
        }
    }
    Ok(())
}
