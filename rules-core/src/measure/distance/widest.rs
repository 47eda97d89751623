//! The greatest distance between any place of one thing and any place of another.
//!
//! Each of its ends is at a corner, or at the far side of an arc, where the line runs through the arc's centre.

use crate::measure::distance::Gap;
use crate::measure::distance::course::{faces, on_arc};
use crate::measure::figure::chain::points;
use crate::measure::figure::exact::{Vector, root};
use crate::plan::figure::{Arc, Course, Figure, Point};

/// A possible end of the greatest distance: a corner, or somewhere on an arc.
struct End<'f> {
    /// The corner, or the centre of the arc.
    at: Point,
    arc: Option<(&'f Course, &'f Arc)>,
}

impl End<'_> {
    fn corner(at: Point) -> Self {
        End { at, arc: None }
    }

    fn radius(&self) -> i64 {
        self.arc.map_or(0, |(_, arc)| arc.radius)
    }

    /// The place that is farthest in a direction; `None` where the arc has no place there.
    fn towards(&self, ray: Vector) -> Option<Point> {
        match self.arc {
            None => Some(self.at),
            Some((course, arc)) => {
                let there = ray.squared() > 0 && faces(course, arc, ray);
                there.then(|| on_arc(arc, ray))
            }
        }
    }
}

/// The greatest distance between any place of `a` and any place of `b`, exactly; the first pair of places among equals.
pub fn widest(a: &Figure, b: &Figure) -> Gap {
    let others: Vec<End> = ends(b).collect();
    let mut best: Option<Gap> = None;
    for from in ends(a) {
        for to in &others {
            let Some(gap) = between(&from, to) else {
                continue;
            };
            let farther = |best: Gap| (gap.low, gap.high) > (best.low, best.high);
            if best.is_none_or(farther) {
                best = Some(gap);
            }
        }
    }
    let Some(gap) = best else {
        return Gap::unknown();
    };
    let spread = a.spread.saturating_add(b.spread);
    Gap {
        low: gap.low.saturating_add(spread),
        high: gap.high.saturating_add(spread),
        ..gap
    }
}

fn ends(figure: &Figure) -> impl Iterator<Item = End<'_>> {
    let forms = figure.forms.iter().enumerate();
    forms.flat_map(|(at, form)| {
        let curved = figure.curved.get(at).and_then(Option::as_ref);
        let courses = curved.map_or(&[][..], |curved| &curved.courses);
        let arcs = courses.iter().filter_map(|course| {
            let arc = course.arc.as_ref()?;
            Some(End {
                at: arc.middle,
                arc: Some((course, arc)),
            })
        });
        let corners = match curved {
            Some(_) => &[][..],
            None => points(form),
        };
        let met = courses.iter().map(|course| course.from);
        met.chain(corners.iter().copied())
            .map(End::corner)
            .chain(arcs)
    })
}

fn between(from: &End, to: &End) -> Option<Gap> {
    let (here, there) = (
        from.towards(Vector::between(to.at, from.at))?,
        to.towards(Vector::between(from.at, to.at))?,
    );
    let span = root(Vector::between(from.at, to.at).squared());
    let round = from.radius().saturating_add(to.radius());
    Some(Gap {
        low: span.low.saturating_add(round),
        high: span.high.saturating_add(round),
        from: here,
        to: there,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::figure::arc::Kidney;
    use crate::measure::figure::random::Dice;
    use crate::plan::figure::Form;

    const M: i64 = 1_000_000_000;

    fn figure(form: Form, spread: i64) -> Figure {
        Figure::new(vec![form], spread, Some(0))
    }

    fn point(x: i64, y: i64) -> Point {
        Point { x, y }
    }

    /// A round pool of radius 6 ft measures 12 ft across; a rectangle of 3 by 4 m five from corner to corner.
    #[test]
    fn the_widest_distance_of_a_thing_to_itself_is_its_diameter() {
        let foot = 304_800_000;
        let round = figure(Form::Point(point(M, M)), 6 * foot);
        let gap = widest(&round, &round);
        assert_eq!((gap.low, gap.high), (12 * foot, 12 * foot));
        let corners = [(0, 0), (3, 0), (3, 4), (0, 4)];
        let ring = corners.map(|(x, y)| point(x * M, y * M)).to_vec();
        let gap = widest(
            &figure(Form::Ring(ring.clone()), 0),
            &figure(Form::Ring(ring), 0),
        );
        assert_eq!((gap.low, gap.high), (5 * M, 5 * M));
    }

    fn kidney(hollow: i64) -> Figure {
        let kidney = Kidney {
            ends: (point(0, 0), point(4 * M, 0)),
            radius: 2 * M,
            hollow,
            back: M / 2,
        };
        let (form, curved) = kidney.outline(1_000).unwrap().area();
        Figure {
            curved: vec![curved],
            ..figure(form, 0)
        }
    }

    /// Ends of radius 2 m with centres 4 m apart: 2 + 4 + 2 = 8 m from end to end. From a place 3 m west and 4 m south of the
    /// near end's centre to the far side of the far end: √(7² + 4²) + 2.
    #[test]
    fn arcs_are_measured_as_arcs() {
        let shape = kidney(M / 2);
        let gap = widest(&shape, &shape);
        assert!(
            (gap.low - 8 * M).abs() <= 3 && gap.high - gap.low <= 1,
            "{gap:?}"
        );
        let place = figure(Form::Point(point(-3 * M, -4 * M)), 0);
        let gap = widest(&place, &shape);
        let expected = (65.0_f64.sqrt() + 2.0) * M as f64;
        assert!((gap.low as f64 - expected).abs() < 4.0, "{gap:?}");
    }

    /// Against the corners in place of the arcs, which are within 0.1 mm of them.
    #[test]
    fn two_thousand_places_agree_with_the_corners_of_arcs() {
        let mut dice = Dice::new(8);
        for _ in 0..2_000 {
            let shape = kidney(dice.from(M / 10, M));
            let mut at = || dice.from(-9 * M, 9 * M);
            let line = Form::Path(vec![point(at(), at()), point(at(), at())]);
            let other = figure(line, 0);
            let arcs = widest(&shape, &other);
            let corners = Figure {
                curved: Vec::new(),
                ..shape.clone()
            };
            let corners = widest(&corners, &other);
            assert!(
                (arcs.low - corners.low).abs() < 150_000,
                "{arcs:?} {corners:?}"
            );
            let back = widest(&other, &shape);
            assert_eq!((back.low, back.high), (arcs.low, arcs.high));
        }
    }
}
