//! An outline drawn as another shape where it lies: about the same middle, turned alike, and as large as that shape allows.

use super::amount::{MILLIMETRE, angle_node, length, new_length};
use super::handle::{Rectangle, circle};
use super::shape::{
    LONG, Place, SQUARE, drawn_mut, middle, moved, nanodegrees, place, places, rotated,
    to_millimetre,
};
use super::tree::{list, map, thing_mut};
use super::{Wrong, split, undrawn, unit_of, unknown};
use crate::quantity::Unit;
use crate::text::{Entry, Node};

/// The least length and width of what is drawn anew, in nanometres: where nothing has any yet, it gets these.
const LEAST: i128 = 2000 * MILLIMETRE;
/// How round a corner is to begin with, if there is room: 500 mm.
const ROUND: i128 = 500 * MILLIMETRE;
/// How much longer a kidney is than its ends and its dent ask: 300 mm.
const SPARE: i128 = 300 * MILLIMETRE;

/// Draws what a path names, such as `pool:water`, as a `rectangle`, `rounded-rectangle`, `l-shape`, `circle`, `oval`, `kidney`, or
/// by its `places`.
///
/// # Errors
/// A sentence, where nothing is drawn there or there is no such shape.
pub fn reshape(plan: &mut Node, path: &str, shape: &str) -> Result<(), Wrong> {
    let unit = unit_of(plan);
    let (id, outline) = split(path);
    let thing = thing_mut(plan, id).ok_or_else(|| unknown(id))?;
    let node = drawn_mut(thing, outline, unit).next();
    let node = node.ok_or_else(|| undrawn(path))?;
    let lies = Lies::of(node, unit).ok_or_else(|| undrawn(path))?;
    let drawn = lies.drawn(shape, node, unit);
    *node = drawn.ok_or_else(|| Wrong(format!("There is no shape `{shape}`.")))?;
    Ok(())
}

/// How an outline lies: the box about it, turned as it is.
struct Lies {
    middle: Place,
    length: i128,
    width: i128,
    degrees: f64,
}

impl Lies {
    fn of(node: &Node, unit: Option<Unit>) -> Option<Self> {
        if let Some(drawn) = Rectangle::of(node, unit) {
            return Some(Self {
                middle: drawn.spot(1, 1, 0),
                length: drawn.length,
                width: drawn.width,
                degrees: drawn.degrees,
            });
        }
        if let Some((middle, radius)) = node.get("circle").and_then(|way| circle(way, unit)) {
            return Some(Self::level(middle, 2 * radius, 2 * radius));
        }
        let long = LONG.iter().find_map(|key| node.get(key));
        long.and_then(|way| Self::between_ends(way, unit))
            .or_else(|| Self::around(&places(node, unit)))
    }

    fn level(middle: Place, length: i128, width: i128) -> Self {
        Self {
            middle,
            length: length.max(LEAST),
            width: width.max(LEAST),
            degrees: 0.0,
        }
    }

    fn between_ends(way: &Node, unit: Option<Unit>) -> Option<Self> {
        let (from, to) = (place(way.get("from")?, unit)?, place(way.get("to")?, unit)?);
        let radius = length(way.get("radius")?, unit)?;
        let (x, y) = ((to.0 - from.0) as f64, (to.1 - from.1) as f64);
        Some(Self {
            middle: middle(&[from, to])?,
            length: to_millimetre((x * x + y * y).sqrt()) + 2 * radius,
            width: 2 * radius,
            degrees: libm::atan2(y, x).to_degrees(),
        })
    }

    fn around(places: &[Place]) -> Option<Self> {
        let middle = middle(places)?;
        let most = |of: fn(&Place) -> i128| places.iter().map(of).max().unwrap_or_default();
        let (x, y) = (most(|at| at.0) - middle.0, most(|at| at.1) - middle.1);
        Some(Self::level(middle, 2 * x, 2 * y))
    }

    /// The place so far from the middle along the length and across it.
    fn spot(&self, along: i128, across: i128) -> Place {
        let (x, y) = rotated((along as f64, across as f64), self.degrees);
        moved(self.middle, (to_millimetre(x), to_millimetre(y)))
    }

    fn drawn(&self, shape: &str, old: &Node, unit: Option<Unit>) -> Option<Node> {
        match shape {
            "circle" => Some(self.circle(unit)),
            "oval" => Some(self.long("oval", self.width.min(self.length * 3 / 4) / 2, unit)),
            "kidney" => {
                // A dent of a quarter of the radius needs ends that are this far apart.
                let roundest = (self.length - SPARE) * 10 / 34;
                Some(self.long("kidney", (self.width / 2).min(roundest), unit))
            }
            "places" => {
                let corners = [(-1, -1), (1, -1), (1, 1), (-1, 1)];
                let spot = |(u, v)| self.spot(u * self.length / 2, v * self.width / 2);
                let places = corners.map(|corner| typed(spot(corner), unit));
                Some(list(places.to_vec()))
            }
            _ => self.square(SQUARE.iter().find(|key| **key == shape)?, old, unit),
        }
    }

    fn circle(&self, unit: Option<Unit>) -> Node {
        let radius = self.length.min(self.width) / 2;
        let way = [
            ("at", typed(self.middle, unit)),
            ("radius", new_length(radius, unit)),
        ];
        map([("circle", map(way))])
    }

    /// What lies between two round ends.
    fn long(&self, shape: &str, radius: i128, unit: Option<Unit>) -> Node {
        let reach = self.length / 2 - radius;
        let end = |along| typed(self.spot(along, 0), unit);
        let mut way = vec![
            ("from", end(-reach)),
            ("to", end(reach)),
            ("radius", new_length(radius, unit)),
        ];
        if shape == "kidney" {
            way.push(("hollow", new_length(radius / 4, unit)));
        }
        map([(shape, map(way))])
    }

    /// What lies along a length and a width; what was written of one such shape stays as it was written.
    fn square(&self, shape: &str, old: &Node, unit: Option<Unit>) -> Option<Node> {
        let (length, width) = (self.length, self.width);
        let was = SQUARE.iter().find_map(|key| old.get(key)?.as_map());
        let kept = |entry: &&Entry| ["at", "length", "width", "turned"].contains(&&*entry.key);
        let mut way: Vec<(&str, Node)> = match was {
            Some(entries) => entries
                .iter()
                .filter(kept)
                .map(|entry| (entry.key.as_str(), entry.value.clone()))
                .collect(),
            None => vec![
                ("at", typed(self.spot(-length / 2, -width / 2), unit)),
                ("length", new_length(length, unit)),
                ("width", new_length(width, unit)),
                ("turned", angle_node(nanodegrees(self.degrees))),
            ],
        };
        match shape {
            "rounded-rectangle" => {
                let radius = ROUND.min(length.min(width) / 4);
                way.push(("corner-radius", new_length(radius, unit)));
            }
            "l-shape" => way.extend([
                ("notch-length", new_length(length / 2, unit)),
                ("notch-width", new_length(width / 2, unit)),
            ]),
            _ => {}
        }
        Some(map([(shape, map(way))]))
    }
}

fn typed((x, y): Place, unit: Option<Unit>) -> Node {
    list(vec![new_length(x, unit), new_length(y, unit)])
}
