//! Lines that a lot's own lines give: the building line, and a rear line where none was drawn.

use crate::measure::area::clip::{Keep, clip};
use crate::measure::area::length;
use crate::measure::area::region::Fit;
use crate::measure::figure::inside::{Side, side};
use crate::measure::lot::sides::{Hand, distance, moved, unit};
use crate::plan::figure::{Figure, Form, Point};

/// The line across a lot that lies so far behind its front line (behind the chord of a curved one); it comes in several
/// pieces where the lot does. `None` where none of it lies in the lot.
pub fn building_line(front: &[Point], lot: &[Point], setback: i64) -> Option<Vec<Form>> {
    let (a, b) = (*front.first()?, *front.last()?);
    let along = unit(a, b)?;
    let out = match inward(a, b, lot)? {
        Hand::Left => (-along.1, along.0),
        Hand::Right => (along.1, -along.0),
    };
    let far = lot.iter().map(|p| distance(a, *p)).fold(0.0, f64::max);
    let (a, b) = (moved(a, out, setback as f64), moved(b, out, setback as f64));
    let line = |forms| Figure::new(forms, 0, Some(0));
    let long = Form::Path(vec![moved(a, along, -far), moved(b, along, far)]);
    let area = line(vec![Form::Ring(lot.to_vec())]);
    clip(&line(vec![long]), &area, Keep::Within, Fit::Inner).map(|line| line.forms)
}

/// On which side of its front a lot lies.
fn inward(a: Point, b: Point, lot: &[Point]) -> Option<Hand> {
    const STEP: f64 = 1e7;
    let along = unit(a, b)?;
    let middle = crate::measure::figure::exact::part_way(a, b, 0.5);
    let inside = |out| side(lot, moved(middle, out, STEP)) == Side::Inside;
    match (inside((-along.1, along.0)), inside((along.1, -along.0))) {
        (true, false) => Some(Hand::Left),
        (false, true) => Some(Hand::Right),
        _ => None,
    }
}

/// A rear line for a lot that has none: parallel to the front, of a given length, as far behind as the lot is that wide.
/// `None` where the lot is nowhere so wide.
pub fn imaginary_rear(front: &[Point], lot: &[Point], long: i64) -> Option<Form> {
    let at = |deep: i64| {
        building_line(front, lot, deep)?
            .into_iter()
            .max_by_key(|form| length(form).high)
    };
    let fits = |deep: i64| at(deep).is_some_and(|line| length(&line).high >= long);
    let first = *front.first()?;
    let far = lot.iter().map(|p| distance(first, *p)).fold(0.0, f64::max) as i64;
    // From behind, in steps, to the first place that is wide enough; then halved down to a micrometre.
    let mut near = (1..=200)
        .rev()
        .map(|step| far / 200 * step)
        .find(|deep| fits(*deep))?;
    let mut beyond = near.saturating_add(far / 200);
    while beyond - near > 1000 {
        let middle = near.midpoint(beyond);
        if fits(middle) {
            near = middle;
        } else {
            beyond = middle;
        }
    }
    at(near)
}

#[cfg(test)]
mod tests {
    use super::*;

    const M: i64 = 1_000_000_000;

    fn points(points: &[(i64, i64)]) -> Vec<Point> {
        points
            .iter()
            .map(|(x, y)| Point { x: x * M, y: y * M })
            .collect()
    }

    #[test]
    fn a_building_line_runs_across_the_lot() {
        let lot = points(&[(0, 0), (20, 0), (30, 40), (-10, 40)]);
        let line = building_line(&points(&[(0, 0), (20, 0)]), &lot, 8 * M).unwrap();
        assert_eq!(line.len(), 1);
        assert!(
            (length(&line[0]).low - 24 * M).abs() < 10,
            "2 m wider on each side, 8 m behind"
        );
        assert_eq!(
            building_line(&points(&[(0, 0), (20, 0)]), &lot, 41 * M),
            None
        );
    }

    /// Ventura CA: 10 ft, parallel to the front. A triangle 40 ft wide and 60 ft deep is 10 ft wide at 45 ft.
    #[test]
    fn a_triangle_gets_a_rear_line() {
        const FT: i64 = 304_800_000;
        let lot: Vec<Point> = [(0, 0), (40, 0), (15, 60)]
            .iter()
            .map(|(x, y)| Point {
                x: x * FT,
                y: y * FT,
            })
            .collect();
        let Form::Path(line) = imaginary_rear(&lot[..2], &lot, 10 * FT).unwrap() else {
            panic!()
        };
        assert!(
            (line[0].y - 45 * FT).abs() < 10_000 && line[0].y == line[1].y,
            "{line:?}"
        );
        assert!((distance(line[0], line[1]) - 10.0 * FT as f64).abs() < 10_000.0);
    }
}
