//! Putting the corners of a cut right. Cutting works on a grid, but each corner of the result truly is a corner of one of the
//! two figures, or a crossing of their sides.

use crate::measure::distance::in_common;
use crate::measure::distance::search::nearly;
use crate::measure::figure::chain::{Chain, Edge};
use crate::measure::figure::exact::{Vector, floats_between};
use crate::plan::figure::{Figure, Form, Point};

/// How far rounding to whole nanometres may move a corner, with room to spare.
pub(crate) const CUT: i64 = 10;

/// Puts each corner of a cut where it belongs, if that is clear. Also gives how far any corner may still be off, in
/// nanometres; 0 where all are exact. The figure has straight sides; the zone may be round where it does not cut. `grid` is
/// how far the cutting may have moved corners.
pub(crate) fn put_right(
    (figure, zone): (&Figure, &Figure),
    forms: Vec<Form>,
    grid: f64,
) -> (Vec<Form>, i64) {
    let (own, other) = (sides(figure), straight_sides(zone));
    let reach = 2.0 * grid + 4.0;
    let sides = Sides {
        own: &own,
        other: &other,
        reach,
    };
    let mut all = true;
    let mut right = |at: &Point| {
        let found = sides.true_corner(*at);
        all &= found.is_some();
        found.unwrap_or(*at)
    };
    let forms: Vec<Form> = forms
        .iter()
        .map(|form| match form {
            Form::Point(at) => Form::Point(*at),
            Form::Path(line) => Form::Path(line.iter().map(&mut right).collect()),
            Form::Ring(ring) => Form::Ring(ring.iter().map(&mut right).collect()),
        })
        .collect();
    let exact = all
        && forms.iter().all(|form| is_made_of(form, &own, &other))
        && keeps_apart(&own, &other, reach)
        && keeps_apart(&other, &own, reach);
    let off = match (exact, all) {
        (true, _) => 0,
        (false, true) => CUT,
        (false, false) => CUT + reach.ceil() as i64,
    };
    (forms, off)
}

struct Sides<'s> {
    own: &'s [Edge],
    other: &'s [Edge],
    reach: f64,
}

impl Sides<'_> {
    /// The one corner or crossing near a place; `None` where there is none, or more than one.
    fn true_corner(&self, at: Point) -> Option<Point> {
        let squared = self.reach * self.reach;
        let near = |sides: &[Edge]| -> Vec<Edge> {
            let near = sides.iter().filter(|side| nearly(side, at) <= squared);
            near.copied().collect()
        };
        let (own, other) = (near(self.own), near(self.other));
        let ends = own.iter().chain(&other).flat_map(|side| [side.a, side.b]);
        let mut found: Vec<Point> = ends.filter(|end| apart(*end, at) <= squared).collect();
        for side in &own {
            let crossing = other.iter().filter(|against| side.meets(against));
            found.extend(crossing.map(|against| in_common(side, against)));
        }
        found.retain(|place| apart(*place, at) <= squared);
        found.sort_unstable();
        found.dedup();
        match found.as_slice() {
            [only] => Some(*only),
            _ => None,
        }
    }
}

fn apart(a: Point, b: Point) -> f64 {
    let (x, y) = floats_between(a, b);
    x * x + y * y
}

fn sides(figure: &Figure) -> Vec<Edge> {
    let all = figure.forms.iter().flat_map(|form| Chain::of(form).edges());
    all.filter(|edge| edge.a != edge.b).collect()
}

/// The straight sides of a zone's area. With a spread, those parallel to its own sides at a whole number of nanometres.
fn straight_sides(zone: &Figure) -> Vec<Edge> {
    let own = sides(zone);
    match zone.spread {
        0 => own,
        by => own.iter().flat_map(|side| beside(side, by)).collect(),
    }
}

/// A side moved to its left and to its right; nothing where that is not by whole nanometres.
fn beside(side: &Edge, by: i64) -> Vec<Edge> {
    let line = Vector::between(side.a, side.b);
    let long = line.squared().isqrt();
    let part = |along: i64| {
        let (far, long) = (
            i128::from(along) * i128::from(by),
            i128::try_from(long).ok()?,
        );
        let whole = far.checked_rem(long)? == 0;
        whole.then(|| far / long)
    };
    let exact = long * long == line.squared();
    let Some((x, y)) = part(line.x).zip(part(line.y)).filter(|_| exact) else {
        return Vec::new();
    };
    let (Ok(x), Ok(y)) = (i64::try_from(x), i64::try_from(y)) else {
        return Vec::new();
    };
    let moved = |at: Point, x: i64, y: i64| Point {
        x: at.x.saturating_add(x),
        y: at.y.saturating_add(y),
    };
    let to = |x: i64, y: i64| Edge {
        a: moved(side.a, x, y),
        b: moved(side.b, x, y),
    };
    vec![to(-y, x), to(y, -x)]
}

/// Whether each side of the cut form is part of a side of one of the two figures.
fn is_made_of(form: &Form, own: &[Edge], other: &[Edge]) -> bool {
    let edges = || Chain::of(form).edges().filter(|edge| edge.a != edge.b);
    let part_of = |sides: &[Edge], edge: &Edge| {
        let mut sides = sides.iter();
        sides.any(|side| side.holds(edge.a) && side.holds(edge.b))
    };
    match form {
        Form::Point(_) => true,
        Form::Ring(_) => edges().all(|edge| part_of(own, &edge) || part_of(other, &edge)),
        Form::Path(line) => {
            let mut ends = line.first().into_iter().chain(line.last());
            edges().all(|edge| part_of(own, &edge)) && ends.all(|end| is_end(*end, own, other))
        }
    }
}

/// Whether a cut line may end here: at one of its own corners, or on a side of the zone.
fn is_end(end: Point, own: &[Edge], other: &[Edge]) -> bool {
    own.iter().any(|side| side.a == end || side.b == end)
        || other.iter().any(|side| side.holds(end))
}

/// Whether no corner is so near a side, without being on it, that cutting may have moved it there.
fn keeps_apart(of: &[Edge], sides: &[Edge], reach: f64) -> bool {
    let near = 4.0 * reach * reach;
    let mut corners = of.iter().flat_map(|side| [side.a, side.b]);
    corners.all(|corner| {
        let mut sides = sides.iter();
        sides.all(|side| nearly(side, corner) > near || side.holds(corner))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::area::clip::{Keep, clip};
    use crate::measure::area::region::Fit;

    fn figure(form: Form) -> Figure {
        Figure::new(vec![form], 0, Some(0))
    }

    fn points(list: &[(i64, i64)]) -> Vec<Point> {
        let metres = |&(x, y): &(i64, i64)| Point {
            x: x * 1_000_000_000,
            y: y * 1_000_000_000,
        };
        list.iter().map(metres).collect()
    }

    fn rounded(figure: &Figure, zone: &Figure) -> Vec<Option<i64>> {
        let both = [Keep::Within, Keep::Beyond];
        let cut = both.map(|keep| clip(figure, zone, keep, Fit::Outer));
        cut.into_iter()
            .map(|part| part.and_then(|part| part.accuracy))
            .collect()
    }

    /// A cut along whole millimetres is exact; one at thirds of a metre, or with arcs, is not.
    #[test]
    fn cuts_at_whole_nanometres_are_exact() {
        let pool = figure(Form::Ring(points(&[(0, 0), (8, 0), (8, 4), (0, 4)])));
        let yard = figure(Form::Ring(points(&[(6, -9), (20, -9), (20, 9), (6, 9)])));
        assert_eq!(rounded(&pool, &yard), [Some(0), Some(0)]);
        let fence = figure(Form::Path(points(&[(0, 2), (20, 2)])));
        assert_eq!(rounded(&fence, &pool), [Some(0), Some(0)]);
        // The side from (0, -9) to (3, 9) meets y = 0 at 1.5 m and y = 4 at 2.1666… m.
        let slanting = figure(Form::Ring(points(&[(0, -9), (20, -9), (20, 9), (3, 9)])));
        assert_eq!(rounded(&pool, &slanting), [Some(10), Some(10)]);
        // A zone of 3 m around a wall: exact along the wall, but not round its corner.
        let around = |corners: &[(i64, i64)]| Figure {
            spread: 3_000_000_000,
            ..figure(Form::Ring(points(corners)))
        };
        let wall = around(&[(9, -9), (20, -9), (20, 9), (9, 9)]);
        assert_eq!(rounded(&pool, &wall), [Some(0), Some(0)]);
        let corner = around(&[(9, 5), (20, 5), (20, 9), (9, 9)]);
        assert!(rounded(&pool, &corner).iter().all(|off| *off > Some(1000)));
    }

    /// A corner a few nanometres beside the zone may have been moved onto its side, so the cut does not count as exact.
    #[test]
    fn a_corner_just_beside_the_zone_is_not_trusted() {
        let yard = figure(Form::Ring(points(&[(6, -9), (20, -9), (20, 9), (6, 9)])));
        let mut corners = points(&[(0, 0), (8, 0), (8, 4), (6, 4)]);
        corners[3].x -= 3;
        let pool = figure(Form::Ring(corners));
        assert!(rounded(&pool, &yard).iter().all(|off| *off >= Some(10)));
    }

    /// On a lot of a hundred metres cutting works on a grid of 0.2 micrometres, but the corners come out right.
    #[test]
    fn corners_do_not_stay_on_the_grid() {
        let lot = figure(Form::Ring(points(&[(0, 0), (97, 0), (97, 97), (0, 97)])));
        let mut corners = points(&[(90, 10), (99, 10), (99, 20), (90, 20)]);
        corners.iter_mut().for_each(|corner| corner.y += 1);
        let hut = figure(Form::Ring(corners));
        let part = clip(&hut, &lot, Keep::Within, Fit::Inner).unwrap();
        assert_eq!(part.accuracy, Some(0));
        let Form::Ring(ring) = &part.forms[0] else {
            panic!("{part:?}")
        };
        let place = |x: i64, y: i64| Point {
            x: x * 1_000_000_000,
            y: y * 1_000_000_000 + 1,
        };
        for corner in [place(90, 10), place(97, 10), place(97, 20), place(90, 20)] {
            assert!(ring.contains(&corner), "{ring:?}");
        }
    }
}
