//! Directions, as floats: for constructions that are rounded to whole nanometres afterwards.

use crate::measure::figure::exact::Vector;
use crate::plan::figure::Point;

pub(crate) fn distance(a: Point, b: Point) -> f64 {
    let (x, y) = Vector::between(a, b).floats();
    (x * x + y * y).sqrt()
}

pub(crate) fn unit(a: Point, b: Point) -> Option<(f64, f64)> {
    let (x, y) = Vector::between(a, b).floats();
    let length = (x * x + y * y).sqrt();
    (length > 0.0).then(|| (x / length, y / length))
}

pub(crate) fn dot(a: (f64, f64), b: (f64, f64)) -> f64 {
    a.0 * b.0 + a.1 * b.1
}

pub(crate) fn moved(from: Point, direction: (f64, f64), by: f64) -> Point {
    Point {
        x: from.x.saturating_add((direction.0 * by).round() as i64),
        y: from.y.saturating_add((direction.1 * by).round() as i64),
    }
}
