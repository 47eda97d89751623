//! Drawn outlines in a document: which parts of a thing they are, and how they are moved and turned.

use super::amount::{MICROMETRE, MILLIMETRE, angle, angle_node, length, scalar, set_length};
use super::tree::{get_mut, list, list_mut, map_mut, set};
use crate::grammar::DRAWN_WAYS;
use crate::quantity::{Unit, show_exactly};
use crate::text::{Entry, Node};

/// A place in the file's coordinates, in nanometres.
pub(crate) type Place = (i128, i128);

/// Those that lie along a length and a width from a corner, and may be turned about it.
pub(super) const SQUARE: [&str; 3] = ["rectangle", "rounded-rectangle", "l-shape"];
/// Those that lie between the middles of two round ends.
pub(super) const LONG: [&str; 2] = ["oval", "kidney"];

/// Whether this is an outline that is drawn, not one that is worked out from another, and no fact.
pub(super) fn is_drawn(node: &Node, unit: Option<Unit>) -> bool {
    let way = |entry: &Entry| DRAWN_WAYS.contains(&entry.key.as_str()) || entry.key == "parts";
    match (node.as_map(), node.as_list()) {
        (Some(entries), _) => entries.iter().any(way),
        (None, Some(items)) => {
            is_point(node, unit) || items.iter().any(|item| is_point(item, unit))
        }
        _ => false,
    }
}

fn is_point(node: &Node, unit: Option<Unit>) -> bool {
    place(node, unit).is_some()
}

/// The place that a pair of lengths says.
pub(crate) fn place(node: &Node, unit: Option<Unit>) -> Option<Place> {
    match node.as_list()? {
        [x, y] => Some((length(x, unit)?, length(y, unit)?)),
        _ => None,
    }
}

/// The outlines of a thing that are drawn, by their names; with a name, only that one.
pub(crate) fn drawn_mut<'n>(
    thing: &'n mut Node,
    outline: Option<&'n str>,
    unit: Option<Unit>,
) -> impl Iterator<Item = &'n mut Node> {
    let entries = map_mut(thing).map(|entries| entries.iter_mut());
    entries
        .into_iter()
        .flatten()
        .filter(move |entry| outline.is_none_or(|name| entry.key == name))
        .map(|entry| &mut entry.value)
        .filter(move |value| is_drawn(value, unit))
}

/// Does something with each place by which an outline is drawn; the node is the pair of lengths.
pub(super) fn each_place(node: &mut Node, unit: Option<Unit>, change: &mut dyn FnMut(&mut Node)) {
    if is_point(node, unit) {
        return change(node);
    }
    if let Some(items) = list_mut(node) {
        items
            .iter_mut()
            .for_each(|item| each_place(item, unit, change));
        return;
    }
    for key in SQUARE.into_iter().chain(["circle"]) {
        let at = get_mut(node, key).and_then(|way| get_mut(way, "at"));
        at.into_iter().for_each(&mut *change);
    }
    for (key, end) in LONG.iter().flat_map(|key| [(key, "from"), (key, "to")]) {
        let at = get_mut(node, key).and_then(|way| get_mut(way, end));
        at.into_iter().for_each(&mut *change);
    }
    if let Some(corners) = get_mut(node, "curved") {
        each_place(corners, unit, change);
    }
    if let Some(along) = get_mut(node, "band").and_then(|way| get_mut(way, "along")) {
        each_place(along, unit, change);
    }
    if let Some(parts) = get_mut(node, "parts") {
        each_place(parts, unit, change);
    }
}

/// All places by which an outline is drawn.
pub(crate) fn places(node: &Node, unit: Option<Unit>) -> Vec<Place> {
    let mut found = Vec::new();
    each_place(&mut node.clone(), unit, &mut |at| {
        found.extend(place(at, unit))
    });
    found
}

/// Puts a place where another was, each length in the manner in which it was typed.
pub(crate) fn set_place(node: &mut Node, (x, y): Place, unit: Option<Unit>) {
    if let Some([east, north]) = list_mut(node).map(Vec::as_mut_slice) {
        set_length(east, x, unit);
        set_length(north, y, unit);
    }
}

/// The place that lies so far east and north of another.
pub(super) fn moved((x, y): Place, (dx, dy): Place) -> Place {
    (x + dx, y + dy)
}

/// Nanometres that were worked out, to the nearest millimetre, as every change is written.
pub(crate) fn to_millimetre(nanometres: f64) -> i128 {
    to_whole(nanometres / 1e6, 1e8) * MILLIMETRE
}

/// Nanometres that were worked out, to the nearest micrometre, for a place that other places are worked out from.
pub(super) fn to_micrometre(nanometres: f64) -> i128 {
    to_whole(nanometres / 1e3, 1e11) * MICROMETRE
}

/// To the nearest whole number. Nothing is farther out than `widest`, and what is no number counts as nothing. Either unit's
/// `widest` is 100 km, beyond what a plan holds.
fn to_whole(number: f64, widest: f64) -> i128 {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "it was cut to `widest` just before"
    )]
    let whole = number.round().clamp(-widest, widest) as i128;
    whole
}

/// Moves an outline.
pub(super) fn shift(node: &mut Node, by: Place, unit: Option<Unit>) {
    each_place(node, unit, &mut |at| {
        if let Some(old) = place(at, unit) {
            set_place(at, moved(old, by), unit);
        }
    });
}

/// Moves an outline by an exact amount; its places are then written with as many digits as that takes.
pub(super) fn shift_exactly(node: &mut Node, by: Place, unit: Option<Unit>) {
    each_place(node, unit, &mut |at| {
        let Some(old) = place(at, unit) else { return };
        let (x, y) = moved(old, by);
        let exact = |length: i128| {
            let text = show_exactly(length, Unit::METRE);
            match unit == Some(Unit::METRE) {
                true => scalar(text.trim_end_matches(" m").to_owned()),
                false => scalar(text),
            }
        };
        *at = list(vec![exact(x), exact(y)]);
    });
}

/// The lengths by which an outline is drawn beside its places.
const LENGTHS: [&str; 10] = [
    "length",
    "width",
    "radius",
    "corner-radius",
    "notch-length",
    "notch-width",
    "hollow",
    "back",
    "out",
    "in",
];

/// Makes an outline so many thousandths as large about a place.
pub(super) fn scale(node: &mut Node, thousandths: i128, about: Place, unit: Option<Unit>) {
    let scaled = |length: i128| (length * thousandths / 1000).div_euclid(MILLIMETRE) * MILLIMETRE;
    each_place(node, unit, &mut |at| {
        if let Some((x, y)) = place(at, unit) {
            let way = (scaled(x - about.0), scaled(y - about.1));
            set_place(at, moved(about, way), unit);
        }
    });
    scale_lengths(node, &scaled, unit);
}

fn scale_lengths(node: &mut Node, scaled: &dyn Fn(i128) -> i128, unit: Option<Unit>) {
    if let Some(items) = list_mut(node) {
        items
            .iter_mut()
            .for_each(|item| scale_lengths(item, scaled, unit));
        return;
    }
    for entry in map_mut(node).into_iter().flatten() {
        let known = LENGTHS.contains(&entry.key.as_str());
        match length(&entry.value, unit).filter(|_| known) {
            Some(old) => set_length(&mut entry.value, scaled(old), unit),
            None => scale_lengths(&mut entry.value, scaled, unit),
        }
    }
}

/// Turns an outline anticlockwise about a place.
pub(super) fn turn(node: &mut Node, degrees: f64, about: Place, unit: Option<Unit>) {
    each_place(node, unit, &mut |at| {
        if let Some(old) = place(at, unit) {
            set_place(at, turned(old, degrees, about), unit);
        }
    });
    turn_rectangles(node, nanodegrees(degrees));
}

fn turn_rectangles(node: &mut Node, by: i128) {
    for key in SQUARE {
        if let Some(way) = get_mut(node, key) {
            let old = way.get("turned").and_then(angle).unwrap_or(0);
            set(way, "turned", angle_node(old + by));
        }
    }
    let parts = get_mut(node, "parts").and_then(list_mut);
    parts
        .into_iter()
        .flatten()
        .for_each(|part| turn_rectangles(part, by));
}

/// Degrees as billionths of one.
pub(super) fn nanodegrees(degrees: f64) -> i128 {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "an angle of a person's hand is far below what an i128 holds, and a cast beyond stops at the end"
    )]
    let whole = (degrees.clamp(-1e6, 1e6) * 1e9).round() as i128;
    whole
}

/// A place turned anticlockwise about another, to the millimetre where it moves at all.
pub(super) fn turned(at: Place, degrees: f64, about: Place) -> Place {
    let way = ((at.0 - about.0) as f64, (at.1 - about.1) as f64);
    let (x, y) = rotated(way, degrees);
    moved(about, (to_millimetre(x), to_millimetre(y)))
}

/// A way turned anticlockwise.
pub(super) fn rotated((x, y): (f64, f64), degrees: f64) -> (f64, f64) {
    let turn = degrees.to_radians();
    let (sin, cos) = (libm::sin(turn), libm::cos(turn));
    (x * cos - y * sin, x * sin + y * cos)
}

/// The middle of the box around some places.
pub(super) fn middle(places: &[Place]) -> Option<Place> {
    let ends = |of: fn(&Place) -> i128| {
        let all = places.iter().map(of);
        Some((all.clone().min()?, all.max()?))
    };
    let (x, y) = (ends(|place| place.0)?, ends(|place| place.1)?);
    Some(((x.0 + x.1) / 2, (y.0 + y.1) / 2))
}
