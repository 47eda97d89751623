//! The length of a line, or the perimeter of an area, with or without a spread.

use crate::measure::figure::chain::{Chain, points};
use crate::measure::figure::convex::{hull, is_convex};
use crate::measure::figure::exact::{Span, Vector, root};
use crate::measure::figure::size::chain_length;
use crate::plan::figure::{Arc, Course, Curved, Figure, Form, Point};

/// The length of a line, or the perimeter of an area, in nanometres.
///
/// Exact to a few nanometres for lines, and for areas of one form: with a spread, it is the perimeter of the form plus a whole
/// circle (Steiner, 1840). Where a form with a spread is not convex, or an area has several forms, parts of the boundary may
/// be inside other parts. The perimeter is then at most the sum of all, and at least the length of a string pulled tight
/// around one form.
pub fn perimeter(figure: &Figure) -> Span {
    let forms = figure.forms.iter().enumerate();
    let curved = |at| figure.curved.get(at).and_then(Option::as_ref);
    let each = forms.map(|(at, form)| round_one(form, curved(at), figure.spread));
    let each: Vec<Round> = each.collect();
    let sum = |end: fn(&Round) -> i64| each.iter().map(end).fold(0, i64::saturating_add);
    let alone = each.len() == 1 || each.iter().all(|round| round.line);
    Span {
        low: match alone {
            true => sum(|round| round.length.low),
            false => each.iter().map(|round| round.string).max().unwrap_or(0),
        },
        high: sum(|round| round.length.high),
    }
}

/// The length of one form, or its perimeter.
struct Round {
    length: Span,
    /// The length of a string pulled tight around it.
    string: i64,
    line: bool,
}

fn round_one(form: &Form, curved: Option<&Curved>, spread: i64) -> Round {
    let line = spread == 0 && !matches!(form, Form::Ring(_));
    let own = match curved {
        Some(curved) => all_round(curved),
        None => chain_length(Chain::of(form)),
    };
    // A line with a spread has two sides.
    let sides = match form {
        Form::Path(_) if !line => 2,
        _ => 1,
    };
    let circle = circle(spread);
    let full = |own: i64, circle: i64| own.saturating_mul(sides).saturating_add(circle);
    let string = string(form).saturating_add(circle.low);
    let low = match line || spread == 0 || has_convex_shape(form) {
        true => full(own.low, circle.low),
        false => string,
    };
    Round {
        length: Span {
            low,
            high: full(own.high, circle.high),
        },
        string,
        line,
    }
}

/// Whether a form is convex, so that no part of its widened boundary is inside another.
fn has_convex_shape(form: &Form) -> bool {
    match form {
        Form::Point(_) => true,
        Form::Path(line) => line.len() == 2,
        Form::Ring(ring) => is_convex(ring),
    }
}

/// A lower bound for the length of a string pulled tight around a form.
fn string(form: &Form) -> i64 {
    let places = points(form);
    match hull(places) {
        Some(ring) => chain_length(Chain::ring(&ring)).low,
        None => {
            let ends = places.iter().min().zip(places.iter().max());
            let far = ends.map_or(0, |(a, b)| root(Vector::between(*a, *b).squared()).low);
            far.saturating_mul(2)
        }
    }
}

/// The circumference of a circle.
fn circle(radius: i64) -> Span {
    // π to sixteen digits, rounded down; plus one in the last digit it is above π.
    const PI: u128 = 3_141_592_653_589_793;
    const ONE: u128 = 1_000_000_000_000_000;
    let twice = 2 * u128::from(radius.unsigned_abs());
    let whole = |length: u128| i64::try_from(length).unwrap_or(i64::MAX);
    Span {
        low: whole(twice * PI / ONE),
        high: whole((twice * (PI + 1)).div_ceil(ONE)),
    }
}

fn all_round(curved: &Curved) -> Span {
    let courses = curved.courses.iter();
    let lengths = courses.map(|course| match &course.arc {
        Some(arc) => along_arc(course, arc),
        None => {
            let ends: [Point; 2] = [course.from, course.to];
            chain_length(Chain {
                points: &ends,
                closed: false,
            })
        }
    });
    lengths.fold(Span::exactly(0), |sum, length| Span {
        low: sum.low.saturating_add(length.low),
        high: sum.high.saturating_add(length.high),
    })
}

fn along_arc(course: &Course, arc: &Arc) -> Span {
    /// The rounding of both ends to the nanometre, across and along the arc; the error of the floats is less.
    const OFF: i64 = 4;
    let [from, to] = [course.from, course.to].map(|end| Vector::between(arc.middle, end));
    let (cross, dot) = (from.cross(to), from.dot(to));
    let turned = libm::atan2(cross.unsigned_abs() as f64, dot as f64);
    let length = (turned * arc.radius as f64).round() as i64;
    Span {
        low: length.saturating_sub(OFF).max(0),
        high: length.saturating_add(OFF),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Kidney, Traced};
    use std::f64::consts::PI;

    const M: i64 = 1_000_000_000;

    fn at(x: i64, y: i64) -> Point {
        Point { x: x * M, y: y * M }
    }

    fn metres(figure: &Figure) -> (f64, f64) {
        let span = perimeter(figure);
        (span.low as f64 / 1e9, span.high as f64 / 1e9)
    }

    fn near(figure: &Figure, expected: f64) {
        let (low, high) = metres(figure);
        assert!(
            low <= expected + 1e-9 && expected - 1e-9 <= high,
            "{low} {high} {expected}"
        );
        assert!(high - low < 1e-7, "{low} {high}");
    }

    fn figure(form: Form, spread: i64) -> Figure {
        Figure::new(vec![form], spread, Some(0))
    }

    #[test]
    fn perimeters_of_round_figures() {
        near(&figure(Form::Point(at(3, 3)), 2 * M), 4.0 * PI);
        let oval = Form::Path(vec![at(0, 0), at(4, 0)]);
        near(&figure(oval.clone(), 2 * M), 8.0 + 4.0 * PI);
        near(&figure(oval, 0), 4.0);
        // 8 × 4 m with corners of 0.5 m: four sides shorter by 1 m, and a circle.
        let ring = Form::Ring(vec![at(0, 0), at(7, 0), at(7, 3), at(0, 3)]);
        near(&figure(ring, M / 2), 20.0 + PI);
    }

    /// The arcs of a kidney by their angles: ends of radius 2 m, 4 m apart, dented by 0.5 m.
    #[test]
    fn the_perimeter_of_a_kidney() {
        let kidney = Kidney {
            ends: (at(0, 0), at(4, 0)),
            radius: 2 * M,
            hollow: M / 2,
            back: 0,
        };
        let (form, curved) = kidney.outline(1000).unwrap().area();
        let mut figure = figure(form, 0);
        figure.curved = vec![curved];
        let turn = libm::atan2(3.75, 2.0);
        let dent = 2.25 * (PI - 2.0 * turn);
        let ends = 2.0 * 2.0 * (1.5 * PI - turn);
        near(&figure, 4.0 + dent + ends);
        // Widened by 0.3 m it is longer by a circle of that radius; the low end is that of a string around it.
        let coping = Figure {
            spread: 300_000_000,
            ..figure
        };
        let (low, high) = metres(&coping);
        let exact = 4.0 + dent + ends + 0.6 * PI;
        assert!(
            low <= exact && exact <= high + 1e-9 && high < exact + 1e-6,
            "{low} {high}"
        );
        assert!(low > exact - 0.5, "{low}");
    }

    /// A half circle of 2 m and its straight side of 4 m.
    #[test]
    fn the_perimeter_of_half_a_circle() {
        let mut traced = Traced::new();
        traced.bulge((at(4, 0), at(0, 0)), 2 * M, 300);
        traced.bulge((at(0, 0), at(4, 0)), 0, 300);
        let (form, curved) = traced.area();
        let mut half = figure(form, 0);
        half.curved = vec![curved];
        near(&half, 2.0 * PI + 4.0);
    }

    #[test]
    fn overlapping_parts_are_bounded() {
        // Two squares of 2 m that share a half: between the string around one and the sum.
        let square = |x| Form::Ring(vec![at(x, 0), at(x + 2, 0), at(x + 2, 2), at(x, 2)]);
        let parts = Figure::new(vec![square(0), square(1)], 0, Some(0));
        assert_eq!(metres(&parts), (8.0, 16.0));
        // A band along two sides of a square.
        let band = figure(Form::Path(vec![at(0, 0), at(3, 0), at(3, 4)]), M);
        let (low, high) = metres(&band);
        assert!((low - (12.0 + 2.0 * PI)).abs() < 1e-6 && (high - (14.0 + 2.0 * PI)).abs() < 1e-6);
        let lines = Figure::new(
            vec![
                Form::Path(vec![at(0, 0), at(3, 0)]),
                Form::Path(vec![at(0, 5), at(4, 5)]),
            ],
            0,
            Some(0),
        );
        assert_eq!(metres(&lines), (7.0, 7.0));
    }
}
