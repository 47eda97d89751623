//! Marks along lines, and the sign for a thing that is a single point.

use super::place::SheetPoint;
use super::sheet::Sheet;
use super::svg::{INK, Svg, el, segment};
use crate::vocabulary::Mark;

/// The spacing of marks, in points.
const APART: f64 = 34.0;
/// More marks than this on one line add nothing.
const MOST: usize = 300;

/// The marks along a line.
pub(super) fn along(
    line: &[SheetPoint],
    mark: Mark,
    letter: Option<char>,
    sheet: &Sheet<'_>,
) -> Svg {
    let apart = match mark {
        Mark::None => return Svg::default(),
        Mark::Crosses => APART * 0.7,
        Mark::Strokes => APART * 0.4,
        Mark::Rings | Mark::Arrows => APART * 2.0,
        Mark::Letter => APART * 2.5,
    };
    let places = places(line, sheet.points(apart), sheet);
    match (mark, letter) {
        (Mark::Letter, Some(letter)) => letters(&places, letter, sheet),
        (Mark::Letter, None) => Svg::default(),
        (Mark::Rings, _) => rings(&places, sheet),
        _ => strokes(&places, mark, sheet),
    }
}

/// Evenly spaced places of a line on the sheet, each with the direction of the line there.
fn places(line: &[SheetPoint], apart: f64, sheet: &Sheet<'_>) -> Vec<(SheetPoint, SheetPoint)> {
    let mut list = Vec::new();
    for (a, b) in line.iter().zip(line.iter().skip(1)) {
        // Marks are counted from the end of the line, so that they stay in place when the view moves.
        let (way, length) = (a.to(*b), a.to(*b).length());
        let count = (length / apart).floor().max(1.0);
        let Some((first, last)) = sheet.frame.part_of(*a, *b) else {
            continue;
        };
        let share = |spot: SheetPoint| a.to(spot).length() / length;
        let begin = (share(first) * count - 0.5).ceil().max(0.0);
        let end = (share(last) * count - 0.5).floor().min(count - 1.0);
        let mut n = begin;
        while n <= end && list.len() < MOST {
            list.push((a.along(way, (n + 0.5) / count), way.unit()));
            n += 1.0;
        }
    }
    list
}

fn strokes(places: &[(SheetPoint, SheetPoint)], mark: Mark, sheet: &Sheet<'_>) -> Svg {
    let mut d = String::new();
    for (at, way) in places {
        let (way, side) = (*way, way.left());
        let from = |forward: f64, left: f64| {
            let (forward, left) = (sheet.points(forward), sheet.points(left));
            at.along(way, forward).along(side, left)
        };
        let lines: &[(SheetPoint, SheetPoint)] = match mark {
            Mark::Crosses => &[
                (from(-3.0, -3.0), from(3.0, 3.0)),
                (from(-3.0, 3.0), from(3.0, -3.0)),
            ],
            Mark::Arrows => &[
                (from(-4.0, -3.5), from(4.0, 0.0)),
                (from(4.0, 0.0), from(-4.0, 3.5)),
            ],
            _ => &[(from(0.0, 0.0), from(0.0, 5.0))],
        };
        d.extend(lines.iter().map(|(from, to)| segment(*from, *to)));
    }
    match d.is_empty() {
        true => Svg::default(),
        false => line(&d, INK, "1"),
    }
}

/// A thin line of the same width at any scale.
fn line(d: &str, stroke: &str, width: &str) -> Svg {
    el("path")
        .with("class", "mark")
        .with("d", d)
        .painted("none", stroke, width)
        .unscaled()
        .with("pointer-events", "none")
        .empty()
}

fn rings(places: &[(SheetPoint, SheetPoint)], sheet: &Sheet<'_>) -> Svg {
    places.iter().map(|(at, _)| ring(*at, 2.6, sheet)).collect()
}

fn ring(at: SheetPoint, radius: f64, sheet: &Sheet<'_>) -> Svg {
    el("circle")
        .with("class", "mark")
        .round(at, sheet.points(radius))
        .painted("#ffffff", INK, "1.1")
        .unscaled()
        .empty()
}

fn letters(places: &[(SheetPoint, SheetPoint)], letter: char, sheet: &Sheet<'_>) -> Svg {
    let size = sheet.points(10.0);
    let one = |(at, _): &(SheetPoint, SheetPoint)| {
        el("text")
            .with("class", "mark")
            .at("x", at.x)
            .at("y", at.y)
            .at("dy", size * 0.35)
            .at("font-size", size)
            .with("text-anchor", "middle")
            .with("font-family", "system-ui, sans-serif")
            .with("fill", INK)
            .with("stroke", "#ffffff")
            .at("stroke-width", size * 0.35)
            .with("paint-order", "stroke")
            .with("pointer-events", "none")
            .saying(&letter.to_string())
    };
    places.iter().map(one).collect()
}

/// The sign for a thing that is a single point: a ring with a cross in it.
pub(super) fn place(at: SheetPoint, sheet: &Sheet<'_>) -> Svg {
    let r = sheet.points(5.5);
    let beside = |x: f64, y: f64| at.along(SheetPoint::new(x, y), r);
    let d = segment(beside(-1.0, 0.0), beside(1.0, 0.0))
        + &segment(beside(0.0, -1.0), beside(0.0, 1.0));
    ring(at, 5.5, sheet) + line(&d, INK, "1")
}

/// Posts at both ends of a gate, door or window.
pub(super) fn posts(ends: [SheetPoint; 2], sheet: &Sheet<'_>) -> Svg {
    let post = |at: SheetPoint| {
        let half = sheet.points(2.8);
        el("rect")
            .with("class", "mark")
            .at("x", at.x - half)
            .at("y", at.y - half)
            .at("width", 2.0 * half)
            .at("height", 2.0 * half)
            .with("fill", INK)
            .empty()
    };
    ends.map(post).into_iter().collect()
}
