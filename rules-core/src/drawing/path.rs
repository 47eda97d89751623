//! Figures as SVG paths: a round part is an arc of a circle, never a row of corners.

use std::fmt::Write;

use super::place::SheetPoint;
use super::sheet::Sheet;
use super::svg::mm;
use crate::measure::is_convex;
use crate::plan::figure::{Arc, Course, Curved, Figure, Form, Point};

/// A form widened by `by`, as the `d` of a path; `None` where arcs about its corners and straight lines cannot draw its
/// border.
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

/// The form itself, for a border drawn by the width of its line.
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
    let forms = figure.forms.iter().enumerate();
    let exact: Option<Vec<String>> = forms
        .map(|(at, form)| match figure.curved.get(at) {
            Some(Some(curved)) => round_about(curved, form, by, sheet),
            _ => widened(form, by, sheet),
        })
        .collect();
    if let Some(parts) = exact {
        return parts.join(" ");
    }
    // The border of a form with hollows: the polygon is less than a millimetre off everywhere, and no verdict rests on
    // a drawing.
    let fitted = crate::measure::around(figure, 0, crate::measure::Fit::Outer);
    let parts: Vec<String> = fitted.forms.iter().map(|form| bare(form, sheet)).collect();
    parts.join(" ")
}

fn anticlockwise(points: &[Point], sheet: &Sheet<'_>) -> Vec<SheetPoint> {
    let mut spots = sheet.spots(points);
    if turned(&spots) > 0.0 {
        spots.reverse();
    }
    spots
}

fn straight(spots: &[SheetPoint], closed: bool) -> String {
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

/// An area with round sides, each moved outward by `by`; `None` where the moved sides do not meet.
fn round_about(curved: &Curved, form: &Form, by: f64, sheet: &Sheet<'_>) -> Option<String> {
    /// How far apart the ends of two moved sides may be, in millimetres.
    const NEAR: f64 = 0.5;
    let Form::Ring(corners) = form else {
        return None;
    };
    let spots = sheet.spots(corners);
    let out = if turned(&spots) < 0.0 { -by } else { by };
    let moved = curved
        .courses
        .iter()
        .map(|course| moved(course, out, sheet));
    let moved: Vec<MovedCourse> = moved.collect::<Option<_>>()?;
    let next = moved.iter().cycle().skip(1);
    let mut joined = moved.iter().zip(next);
    if !joined.all(|(one, next)| one.to.to(next.from).length() <= NEAR) {
        return None;
    }
    let start = moved.first()?.from;
    let mut d = format!("M{} {}", mm(start.x), mm(start.y));
    for MovedCourse { to, arc, .. } in &moved {
        let _ = match arc {
            Some((radius, sweep)) => write!(d, "A{0} {0} 0 0 {sweep} ", mm(*radius)),
            None => write!(d, "L"),
        };
        let _ = write!(d, "{} {}", mm(to.x), mm(to.y));
    }
    Some(d + "Z")
}

/// A course on the sheet: its ends and, where it is round, its radius and whether it runs clockwise, as 1 or 0.
struct MovedCourse {
    from: SheetPoint,
    to: SheetPoint,
    arc: Option<(f64, u8)>,
}

/// A course moved to its left on the sheet by `by`; `None` where nothing would be left of its arc.
fn moved(course: &Course, by: f64, sheet: &Sheet<'_>) -> Option<MovedCourse> {
    let (from, to) = (sheet.spot(course.from), sheet.spot(course.to));
    let Some(Arc {
        middle,
        radius,
        left,
    }) = course.arc
    else {
        let out = from.to(to).unit().left();
        return Some(MovedCourse {
            from: from.along(out, by),
            to: to.along(out, by),
            arc: None,
        });
    };
    let middle = sheet.spot(middle);
    let wider = if left { -by } else { by };
    let beyond = |end: SheetPoint| end.along(middle.to(end).unit(), wider);
    let radius = sheet.ground(radius) + wider;
    (radius > 0.0).then(|| MovedCourse {
        from: beyond(from),
        to: beyond(to),
        arc: Some((radius, u8::from(!left))),
    })
}

/// Twice the area inside a ring, negative where it runs anticlockwise as seen on the sheet.
fn turned(spots: &[SheetPoint]) -> f64 {
    let next = spots.iter().cycle().skip(1);
    let pairs = spots.iter().zip(next);
    pairs.map(|(a, b)| a.x * b.y - b.x * a.y).sum()
}

fn disc(at: SheetPoint, by: f64) -> String {
    let (r, left, right) = (mm(by), mm(at.x - by), mm(at.x + by));
    let y = mm(at.y);
    format!("M{left} {y}A{r} {r} 0 1 0 {right} {y}A{r} {r} 0 1 0 {left} {y}Z")
}

/// Each edge moved outward, with an arc about each corner. The corners must run anticlockwise.
fn rounded(spots: &[SheetPoint], by: f64) -> String {
    let mut d = String::new();
    let r = mm(by);
    let turn = format!("A{r} {r} 0 0 0 ");
    for (from, to) in spots.iter().zip(spots.iter().cycle().skip(1)) {
        // To the right of the way is outside.
        let out = from.to(*to).unit().left();
        let (a, b) = (from.along(out, -by), to.along(out, -by));
        match d.is_empty() {
            true => d.push('M'),
            false => d.push_str(&turn),
        }
        let _ = write!(d, "{} {}L{} {}", mm(a.x), mm(a.y), mm(b.x), mm(b.y));
    }
    let first = spots.first().zip(spots.get(1).or(spots.first()));
    if let Some((from, to)) = first {
        let start = from.along(from.to(*to).unit().left(), -by);
        let _ = write!(d, "{turn}{} {}", mm(start.x), mm(start.y));
    }
    d + "Z"
}
