//! Figures as SVG paths: what is round is an arc of a circle, never a row of corners.

use std::fmt::Write;

use super::place::Spot;
use super::sheet::Sheet;
use super::svg::mm;
use crate::measure::is_convex;
use crate::plan::figure::{Figure, Form, Point};

/// A form widened by so much, as the `d` of a path; `None` where its border would need more than arcs and straight
/// lines about its corners.
pub(super) fn widened(form: &Form, by: f64, sheet: &Sheet<'_>) -> Option<String> {
    let spots = |points: &[Point]| points.iter().map(|p| sheet.spot(*p)).collect::<Vec<_>>();
    match form {
        Form::Point(point) => Some(disc(sheet.spot(*point), by)),
        Form::Path(points) if by == 0.0 => Some(straight(&spots(points), false)),
        Form::Path(points) if points.len() == 2 => Some(rounded(&spots(points), by)),
        Form::Path(_) => None,
        Form::Ring(points) if by == 0.0 => Some(straight(&spots(points), true)),
        Form::Ring(points) if is_convex(points) => Some(rounded(&anticlockwise(points, sheet), by)),
        Form::Ring(_) => None,
    }
}

/// The bare form, for a border that is drawn by the width of a line.
pub(super) fn bare(form: &Form, sheet: &Sheet<'_>) -> String {
    match form {
        Form::Point(point) => straight(&[sheet.spot(*point); 2], false),
        Form::Path(points) => straight(&sheet.spots(points), false),
        Form::Ring(points) => straight(&sheet.spots(points), true),
    }
}

/// A figure as the `d` of one path.
pub(super) fn figure(figure: &Figure, sheet: &Sheet<'_>) -> String {
    let by = sheet.ground(figure.spread);
    let exact: Option<Vec<String>> = figure
        .forms
        .iter()
        .map(|form| widened(form, by, sheet))
        .collect();
    if let Some(parts) = exact {
        return parts.join(" ");
    }
    // The border of what has hollows: its polygon is nowhere a millimetre off, and no verdict rests on a drawing.
    let fitted = crate::measure::around(figure, 0, crate::measure::Fit::Outer);
    let parts: Vec<String> = fitted.forms.iter().map(|form| bare(form, sheet)).collect();
    parts.join(" ")
}

fn anticlockwise(points: &[Point], sheet: &Sheet<'_>) -> Vec<Spot> {
    let mut spots = sheet.spots(points);
    let next = spots.iter().cycle().skip(1);
    let area: f64 = spots
        .iter()
        .zip(next)
        .map(|(a, b)| a.x * b.y - b.x * a.y)
        .sum();
    // On the sheet y runs down, so that against the clock is less than nothing.
    if area > 0.0 {
        spots.reverse();
    }
    spots
}

fn straight(spots: &[Spot], closed: bool) -> String {
    let mut d = String::new();
    for (n, spot) in spots.iter().enumerate() {
        let _ = write!(
            d,
            "{}{} {}",
            if n == 0 { "M" } else { "L" },
            mm(spot.x),
            mm(spot.y)
        );
    }
    if closed {
        d.push('Z');
    }
    d
}

fn disc(at: Spot, by: f64) -> String {
    let (r, left, right) = (mm(by), mm(at.x - by), mm(at.x + by));
    let y = mm(at.y);
    format!("M{left} {y}A{r} {r} 0 1 0 {right} {y}A{r} {r} 0 1 0 {left} {y}Z")
}

/// Each edge moved outward, and an arc about each corner; the corners run against the clock.
fn rounded(spots: &[Spot], by: f64) -> String {
    let mut d = String::new();
    let r = mm(by);
    for (from, to) in spots.iter().zip(spots.iter().cycle().skip(1)) {
        // To the right of the way is outside.
        let out = from.to(*to).unit().left();
        let (a, b) = (from.along(out, -by), to.along(out, -by));
        match d.is_empty() {
            true => {
                let _ = write!(d, "M{} {}", mm(a.x), mm(a.y));
            }
            false => {
                let _ = write!(d, "A{r} {r} 0 0 0 {} {}", mm(a.x), mm(a.y));
            }
        }
        let _ = write!(d, "L{} {}", mm(b.x), mm(b.y));
    }
    let first = spots.first().zip(spots.get(1).or(spots.first()));
    if let Some((from, to)) = first {
        let start = from.along(from.to(*to).unit().left(), -by);
        let _ = write!(d, "A{r} {r} 0 0 0 {} {}", mm(start.x), mm(start.y));
    }
    d + "Z"
}
