//! Where a drawn outline can be taken hold of, and what pulling there does to it.

use super::amount::{MILLIMETRE, angle, length, set_length};
use super::shape::{
    LONG, Place, SQUARE, middle, moved, place, places, rotated, set_place, to_micrometre,
    to_millimetre, turn,
};
use super::tree::{get_mut, list_mut};
use crate::drawing::Handle;
use crate::quantity::Unit;
use crate::text::Node;

/// No side is pulled shorter than this, in nanometres: 100 mm.
const SHORTEST: i128 = 100 * MILLIMETRE;
/// How far outside an outline the handle lies by which it is turned: 1 m.
const OUTSIDE: i128 = 1000 * MILLIMETRE;

/// A rectangle as it is written.
pub(super) struct Rectangle {
    pub at: Place,
    pub length: i128,
    pub width: i128,
    pub degrees: f64,
}

impl Rectangle {
    pub fn of(node: &Node, unit: Option<Unit>) -> Option<Self> {
        let way = SQUARE.iter().find_map(|key| node.get(key))?;
        let turned = way.get("turned").and_then(angle).unwrap_or(0);
        Some(Self {
            at: place(way.get("at")?, unit)?,
            length: length(way.get("length")?, unit)?,
            width: length(way.get("width")?, unit)?,
            degrees: turned as f64 / 1e9,
        })
    }

    /// The place so far along its length and its width, both in halves.
    pub fn spot(&self, along: i128, across: i128, beyond: i128) -> Place {
        let way = (
            (self.length * along / 2) as f64,
            (self.width * across / 2 + beyond) as f64,
        );
        let (x, y) = rotated(way, self.degrees);
        moved(self.at, (to_micrometre(x), to_micrometre(y)))
    }

    /// By how much its low and its high ends move when it is pulled at a handle: along its length, then its width.
    fn pulled(what: &str, index: usize, (u, v): (i128, i128)) -> Option<[(i128, i128); 2]> {
        Some(match (what, index) {
            ("corner", 0) => [(u, 0), (v, 0)],
            ("corner", 1) => [(0, u), (v, 0)],
            ("corner", 2) => [(0, u), (0, v)],
            ("corner", 3) => [(u, 0), (0, v)],
            ("side", 0) => [(0, 0), (v, 0)],
            ("side", 1) => [(0, u), (0, 0)],
            ("side", 2) => [(0, 0), (0, v)],
            ("side", 3) => [(u, 0), (0, 0)],
            _ => return None,
        })
    }

    fn pull(&mut self, what: &str, index: usize, by: Place) -> Option<()> {
        let (u, v) = rotated((by.0 as f64, by.1 as f64), -self.degrees);
        let [along, across] = Self::pulled(what, index, (to_millimetre(u), to_millimetre(v)))?;
        let (low_u, length) = stretched(self.length, along);
        let (low_v, width) = stretched(self.width, across);
        let (x, y) = rotated((low_u as f64, low_v as f64), self.degrees);
        self.at = moved(self.at, (to_millimetre(x), to_millimetre(y)));
        (self.length, self.width) = (length, width);
        Some(())
    }

    fn write(&self, node: &mut Node, unit: Option<Unit>) -> Option<()> {
        let key = SQUARE.iter().find(|key| node.get(key).is_some())?;
        let way = get_mut(node, key)?;
        set_place(get_mut(way, "at")?, self.at, unit);
        set_length(get_mut(way, "length")?, self.length, unit);
        set_length(get_mut(way, "width")?, self.width, unit);
        // A corner is never rounder than half of the shorter side.
        let roundest = self.length.min(self.width) / 2 - MILLIMETRE;
        let radius = get_mut(way, "corner-radius");
        if let Some(radius) =
            radius.filter(|radius| length(radius, unit).is_some_and(|r| r > roundest))
        {
            set_length(radius, roundest, unit);
        }
        // And the corner that an L lacks is shorter than its sides.
        for (key, long) in [("notch-length", self.length), ("notch-width", self.width)] {
            let most = long - SHORTEST / 2;
            let notch = get_mut(way, key);
            if let Some(notch) = notch.filter(|notch| length(notch, unit).is_some_and(|n| n > most))
            {
                set_length(notch, most, unit);
            }
        }
        Some(())
    }
}

/// A side whose low and high ends move: by how much the low one does, and how long it then is.
fn stretched(old: i128, (low, high): (i128, i128)) -> (i128, i128) {
    let low = low.min(old - SHORTEST);
    (low, (old - low + high).max(SHORTEST))
}

/// Where an outline can be taken hold of.
pub(super) fn handles(node: &Node, unit: Option<Unit>) -> Vec<Handle> {
    if let Some(rectangle) = Rectangle::of(node, unit) {
        return of_rectangle(&rectangle);
    }
    let mut found = Vec::new();
    if let Some(way) = node.get("circle") {
        found.extend(
            circle(way, unit).map(|(at, radius)| handle("radius", 0, moved(at, (radius, 0)))),
        );
    } else if let Some(way) = LONG.iter().find_map(|key| node.get(key)) {
        let ends = ["from", "to"].map(|key| way.get(key).and_then(|end| place(end, unit)));
        let ends = ends.into_iter().flatten().enumerate();
        found.extend(ends.map(|(index, at)| handle("end", index, at)));
    } else if place(node, unit).is_none() {
        let corners = match node.get("band") {
            Some(band) => band.get("along").map(|along| places(along, unit)),
            None if node.get("parts").is_none() => Some(places(node, unit)),
            None => None,
        };
        let corners = corners.into_iter().flatten().enumerate();
        found.extend(corners.map(|(index, at)| handle("corner", index, at)));
    }
    found.extend(turning(node, unit));
    found
}

fn of_rectangle(rectangle: &Rectangle) -> Vec<Handle> {
    let corners = [(0, 0), (2, 0), (2, 2), (0, 2)];
    let sides = [(1, 0), (2, 1), (1, 2), (0, 1)];
    let mut found = Vec::new();
    for (what, spots) in [("corner", corners), ("side", sides)] {
        let spots = spots.into_iter().enumerate();
        found.extend(spots.map(|(index, (u, v))| handle(what, index, rectangle.spot(u, v, 0))));
    }
    found.push(handle("turn", 0, rectangle.spot(1, 2, OUTSIDE)));
    found
}

/// A metre above the middle of what has more than one place.
fn turning(node: &Node, unit: Option<Unit>) -> Option<Handle> {
    let all = places(node, unit);
    let top = all
        .iter()
        .map(|place| place.1)
        .max()
        .filter(|_| all.len() > 1)?;
    Some(handle("turn", 0, (middle(&all)?.0, top + OUTSIDE)))
}

/// The handle of a corner.
pub(super) fn corner(index: usize, at: Place) -> Handle {
    handle("corner", index, at)
}

fn handle(what: &str, index: usize, at: Place) -> Handle {
    let millimetres = |nanometres: i128| {
        let rounded = (nanometres + MILLIMETRE / 2).div_euclid(MILLIMETRE);
        i64::try_from(rounded).unwrap_or_default()
    };
    Handle {
        what: what.to_owned(),
        index,
        at: [millimetres(at.0), millimetres(at.1)],
    }
}

pub(super) fn circle(way: &Node, unit: Option<Unit>) -> Option<(Place, i128)> {
    Some((
        place(way.get("at")?, unit)?,
        length(way.get("radius")?, unit)?,
    ))
}

/// Pulls an outline at one of its handles; `None` where it has no such handle.
pub(super) fn pull(
    node: &mut Node,
    (what, index): (&str, usize),
    by: Place,
    unit: Option<Unit>,
) -> Option<()> {
    if what == "turn" {
        return pull_round(node, by, unit);
    }
    if let Some(mut rectangle) = Rectangle::of(node, unit) {
        rectangle.pull(what, index, by)?;
        return rectangle.write(node, unit);
    }
    match what {
        "radius" => {
            let way = get_mut(node, "circle")?;
            let (_, radius) = circle(way, unit)?;
            let (x, y) = ((radius + by.0) as f64, by.1 as f64);
            let new = to_millimetre((x * x + y * y).sqrt()).max(SHORTEST / 2);
            set_length(get_mut(way, "radius")?, new, unit);
        }
        "end" => {
            let key = if index == 0 { "from" } else { "to" };
            let long = LONG.iter().find(|long| node.get(long).is_some())?;
            let way = get_mut(node, long)?;
            let old = place(way.get(key)?, unit)?;
            set_place(get_mut(way, key)?, moved(old, by), unit);
            if !is_long_enough(way, unit) {
                set_place(get_mut(way, key)?, old, unit);
            }
        }
        "corner" => {
            let corner = corner_mut(node, index, unit)?;
            set_place(corner, moved(place(corner, unit)?, by), unit);
        }
        _ => return None,
    }
    Some(())
}

/// Whether the ends are as far apart as a kidney's dent needs; where there is none, they always are.
fn is_long_enough(way: &Node, unit: Option<Unit>) -> bool {
    let size = |key| length(way.get(key)?, unit).map(|size| size as f64);
    let (Some(hollow), Some(radius)) = (size("hollow"), size("radius")) else {
        return true;
    };
    let ends = ["from", "to"].map(|key| way.get(key).and_then(|end| place(end, unit)));
    let [Some(from), Some(to)] = ends else {
        return true;
    };
    let (x, y) = ((to.0 - from.0) as f64, (to.1 - from.1) as f64);
    let widest = hollow.max(size("back").unwrap_or(0.0)) + SHORTEST as f64;
    // The dent's circle touches both ends from outside only while its own radius is more than theirs.
    let round = (2.0 * radius * hollow - hollow * hollow).max(0.0).sqrt() + SHORTEST as f64;
    (x * x + y * y).sqrt() > 2.0 * widest.max(round)
}

/// A corner of what is drawn by its corners; between those with arcs it is written how far a side stands out.
fn corner_mut(node: &mut Node, index: usize, unit: Option<Unit>) -> Option<&mut Node> {
    if node.get("curved").is_none() {
        return corners_mut(node)?.get_mut(index);
    }
    let items = list_mut(get_mut(node, "curved")?)?.iter_mut();
    items.filter(|item| place(item, unit).is_some()).nth(index)
}

/// The corners of what is drawn by them.
fn corners_mut(node: &mut Node) -> Option<&mut Vec<Node>> {
    match node.get("band").is_some() {
        true => list_mut(get_mut(get_mut(node, "band")?, "along")?),
        false => list_mut(node),
    }
}

/// Turns the outline by the angle through which its handle is pulled round the middle.
fn pull_round(node: &mut Node, by: Place, unit: Option<Unit>) -> Option<()> {
    let at = handles(node, unit)
        .into_iter()
        .find(|handle| handle.what == "turn")?;
    let [x, y] = at.at.map(|at| i128::from(at) * MILLIMETRE);
    let about = centre(node, unit)?;
    let angle =
        |(x, y): Place| libm::atan2((y - about.1) as f64, (x - about.0) as f64).to_degrees();
    let degrees = angle(moved((x, y), by)) - angle((x, y));
    turn(node, degrees, about, unit);
    Some(())
}

/// What an outline is turned about.
pub(super) fn centre(node: &Node, unit: Option<Unit>) -> Option<Place> {
    match Rectangle::of(node, unit) {
        Some(rectangle) => Some(rectangle.spot(1, 1, 0)),
        None => middle(&places(node, unit)),
    }
}
