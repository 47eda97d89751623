//! The lot, drawn from what somebody paced off: how wide and how deep it is, or its sides one after the other.

use super::amount::{length, new_length, scalar};
use super::changes::{Changed, Lot, Wrong};
use super::shape::{rotated, to_millimetre};
use super::tree::{get_mut, list, map, set};
use crate::quantity::{Dimension, Unit, parse};
use crate::text::Node;

/// A side and the angle inside the lot at its end, as typed.
#[derive(Debug, Clone, PartialEq, Eq, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Side {
    /// How long it is.
    pub length: String,
    /// The angle between it and the next, in degrees; a right angle where that is not said.
    pub angle: Option<String>,
}

pub(super) fn draw(plan: &mut Node, lot: &Lot, unit: Option<Unit>) -> Result<Changed, Wrong> {
    let closing = match lot {
        Lot::Size { width, depth } => {
            by_size(plan, width, depth, unit)?;
            None
        }
        Lot::Corners { corners } => {
            by_corners(plan, corners, unit)?;
            None
        }
        Lot::Sides { sides } => Some(by_sides(plan, sides, unit)?),
    };
    Ok(Changed {
        closing,
        ..Changed::default()
    })
}

/// A rectangle whose front lies along the road, its left front corner at the origin.
fn by_size(plan: &mut Node, width: &str, depth: &str, unit: Option<Unit>) -> Result<(), Wrong> {
    let typed = |text: &str| scalar(text.trim().to_owned());
    let nothing = || new_length(0, unit);
    positive(width, unit)?;
    positive(depth, unit)?;
    let at = |x: Node, y: Node| list(vec![x, y]);
    let corners = map([
        ("sw", at(nothing(), nothing())),
        ("se", at(typed(width), nothing())),
        ("ne", at(typed(width), typed(depth))),
        ("nw", at(nothing(), typed(depth))),
    ]);
    let side = |id: &str, from: &str, to: &str, faces: &str| {
        let entry = |text: &str| scalar(text.to_owned());
        map([
            ("id", entry(id)),
            ("from", entry(from)),
            ("to", entry(to)),
            ("faces", entry(faces)),
        ])
    };
    let sides = vec![
        side("front", "sw", "se", "front"),
        side("right", "se", "ne", "side"),
        side("rear", "ne", "nw", "rear"),
        side("left", "nw", "sw", "side"),
    ];
    put(plan, corners, sides);
    Ok(())
}

fn positive(text: &str, unit: Option<Unit>) -> Result<i128, Wrong> {
    let length = length(&scalar(text.to_owned()), unit).filter(|length| *length > 0);
    length.ok_or_else(|| {
        Wrong(format!(
            "`{text}` is not a length; write it with its unit: 24 m, 80 ft."
        ))
    })
}

/// The corners and sides of a lot, whatever else was said of it before; a side of the same name keeps what was said of
/// it.
fn put(plan: &mut Node, corners: Node, mut sides: Vec<Node>) {
    if plan.get("lot").and_then(Node::as_map).is_none() {
        set(plan, "lot", map([]));
    }
    let Some(lot) = get_mut(plan, "lot") else {
        return;
    };
    let known = lot
        .get("sides")
        .and_then(Node::as_list)
        .unwrap_or_default()
        .to_vec();
    for side in &mut sides {
        let same = known
            .iter()
            .find(|old| old.get("id").and_then(Node::text) == id(side).as_deref());
        for entry in same.and_then(Node::as_map).unwrap_or_default() {
            if !["id", "from", "to"].contains(&entry.key.as_str()) {
                set(side, &entry.key, entry.value.clone());
            }
        }
    }
    set(lot, "corners", corners);
    set(lot, "sides", list(sides));
}

fn id(side: &Node) -> Option<String> {
    side.get("id")?.text().map(str::to_owned)
}

/// The sides one after the other, the first along the road from left to right; the lot lies to the left of whoever
/// walks. Gives by how much the last misses the first corner, in nanometres.
fn by_sides(plan: &mut Node, written: &[Side], unit: Option<Unit>) -> Result<i128, Wrong> {
    if written.len() < 3 {
        return Err(Wrong("A lot has at least three sides.".to_owned()));
    }
    let (mut at, mut heading) = ((0.0, 0.0), 0.0);
    let mut corners = Vec::new();
    for side in written {
        corners.push(at);
        let way = rotated((positive(&side.length, unit)? as f64, 0.0), heading);
        at = (at.0 + way.0, at.1 + way.1);
        heading += 180.0 - inside_angle(side.angle.as_deref())?;
    }
    let typed = |nanometres: f64| new_length(to_millimetre(nanometres), unit);
    let places = corners
        .iter()
        .map(|(x, y)| list(vec![typed(*x), typed(*y)]));
    put_around(plan, places.collect());
    Ok(to_millimetre((at.0 * at.0 + at.1 * at.1).sqrt()))
}

/// The corners as they were typed or pointed at.
fn by_corners(plan: &mut Node, written: &[[String; 2]], unit: Option<Unit>) -> Result<(), Wrong> {
    if written.len() < 3 {
        return Err(Wrong("A lot has at least three corners.".to_owned()));
    }
    let typed = written
        .iter()
        .map(|corner| corner.each_ref().map(|text| scalar(text.clone())));
    let typed: Vec<[Node; 2]> = typed.collect();
    let wrong = typed
        .iter()
        .flatten()
        .find(|node| length(node, unit).is_none());
    if let Some(text) = wrong.and_then(Node::text) {
        return Err(Wrong(format!(
            "`{text}` is not a length; write it with its unit: 24 m, 80 ft."
        )));
    }
    let places = typed.into_iter().map(|corner| list(corner.to_vec()));
    put_around(plan, places.collect());
    Ok(())
}

/// Corners of which nobody has said yet what lies between them.
fn put_around(plan: &mut Node, places: Vec<Node>) {
    let names: Vec<String> = (1..=places.len()).map(|n| format!("c{n}")).collect();
    let corners = map(names.iter().map(String::as_str).zip(places));
    let next = names.iter().cycle().skip(1);
    let sides = names.iter().zip(next).enumerate().map(|(n, (from, to))| {
        map([
            ("id", scalar(format!("side-{}", n + 1))),
            ("from", scalar(from.clone())),
            ("to", scalar(to.clone())),
        ])
    });
    put(plan, corners, sides.collect());
}

fn inside_angle(text: Option<&str>) -> Result<f64, Wrong> {
    let Some(text) = text.filter(|text| !text.trim().is_empty()) else {
        return Ok(90.0);
    };
    let read = parse(text, Some(Dimension::Angle), Some(Unit::DEGREE)).ok();
    let angle = read
        .and_then(|read| read.drawn)
        .map(|angle| angle as f64 / 1e9);
    let inside = angle.filter(|angle| *angle > 0.0 && *angle < 360.0);
    inside.ok_or_else(|| {
        Wrong(format!(
            "`{text}` is not an angle inside a lot; write its degrees: 90."
        ))
    })
}
