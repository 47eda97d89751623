//! Where arcs and edges cross, each crossing with its error bound.

use crate::measure::distance::course::{NEAR, edge_of, moved, rays};
use crate::measure::distance::in_common;
use crate::measure::figure::chain::Edge;
use crate::measure::figure::exact::{Span, Vector, floats_between, from_line, root};
use crate::plan::figure::{Arc, Course, Point};

/// Whether two courses meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Meeting {
    At(Point),
    Perhaps,
    Nowhere,
}

pub(super) fn meeting(one: &Course, other: &Course) -> Meeting {
    match (one.arc, other.arc) {
        (None, None) => {
            let (edge, against) = (edge_of(one), edge_of(other));
            match edge.meets(&against) {
                true => Meeting::At(in_common(&edge, &against)),
                false => Meeting::Nowhere,
            }
        }
        (Some(arc), None) => on_all(crossings_of_edge(&arc, edge_of(other)), &[(one, &arc)]),
        (None, Some(arc)) => on_all(crossings_of_edge(&arc, edge_of(one)), &[(other, &arc)]),
        (Some(arc), Some(against)) => on_all(
            crossings_of_circles(&arc, &against),
            &[(one, &arc), (other, &against)],
        ),
    }
}

/// Whether any of the places where whole circles meet is on the arcs as well.
fn on_all(found: Option<Crossings>, arcs: &[(&Course, &Arc)]) -> Meeting {
    let Some(found) = found else {
        return Meeting::Nowhere;
    };
    let of_one = |at: (f64, f64)| {
        let on =
            |(course, arc): &(&Course, &Arc)| on_course(course, arc, found.place(at), found.off);
        let states = arcs.iter().map(on);
        states.fold(Meeting::At(found.place(at)), |all, on| match (all, on) {
            (Meeting::Nowhere, _) | (_, Some(false)) => Meeting::Nowhere,
            (Meeting::Perhaps, _) | (_, None) => Meeting::Perhaps,
            (all, Some(true)) => all,
        })
    };
    let places = found.at.iter().flatten();
    let all = places.map(|at| of_one(*at));
    all.fold(Meeting::Nowhere, |all, one| match (all, one) {
        (Meeting::At(at), _) | (_, Meeting::At(at)) => Meeting::At(at),
        (Meeting::Perhaps, _) | (_, Meeting::Perhaps) => Meeting::Perhaps,
        _ => Meeting::Nowhere,
    })
}

/// The places where a circle meets something, relative to its centre, and how far off they may be.
struct Crossings {
    middle: Point,
    at: [Option<(f64, f64)>; 2],
    off: f64,
}

impl Crossings {
    fn place(&self, (x, y): (f64, f64)) -> Point {
        moved(
            self.middle,
            Vector {
                x: x.round() as i64,
                y: y.round() as i64,
            },
        )
    }
}

/// Whether a place on the circle is on the arc; `None` where it is too near to an end of the arc to decide.
fn on_course(course: &Course, arc: &Arc, place: Point, off: f64) -> Option<bool> {
    let (from, to) = rays(course, arc);
    let at = Vector::between(arc.middle, place);
    let beyond = |ray: Vector, cross: i128| {
        let (x, y) = ray.floats();
        cross as f64 / (x * x + y * y).sqrt().max(1.0)
    };
    let least = beyond(from, from.cross(at)).min(beyond(to, at.cross(to)));
    (least.abs() > off).then_some(least > 0.0)
}

/// Where a straight course crosses the whole circle. The number of crossings is decided exactly; ends on the circle are found
/// elsewhere, as ends.
fn crossings_of_edge(arc: &Arc, edge: Edge) -> Option<Crossings> {
    let reach = u128::from(arc.radius.unsigned_abs());
    let within = |p: Point| Vector::between(arc.middle, p).squared() <= reach * reach;
    let (line, off) = (
        Vector::between(edge.a, edge.b),
        Vector::between(edge.a, arc.middle),
    );
    let (along, squared) = (line.dot(off), line.squared());
    let far = from_line(line.cross(off), squared.max(1));
    let beside = along > 0 && along.unsigned_abs() < squared;
    let which = match (within(edge.a), within(edge.b)) {
        (true, true) => return None,
        (true, false) => [false, true],
        (false, true) => [true, false],
        (false, false) if beside && far.high <= arc.radius => [true, true],
        (false, false) => return None,
    };
    let (x, y) = line.floats();
    let length = squared as f64;
    let foot = floats_between(arc.middle, edge.a);
    let share = along as f64 / length;
    let foot = (foot.0 + x * share, foot.1 + y * share);
    let (half, off) = half_chord(arc.radius, far);
    let step = half / length.sqrt();
    let at = |sign: f64| (foot.0 + sign * step * x, foot.1 + sign * step * y);
    let [first, last] = which;
    Some(Crossings {
        middle: arc.middle,
        at: [first.then(|| at(-1.0)), last.then(|| at(1.0))],
        off,
    })
}

/// Half the chord that a circle cuts from a line at distance `far` from its centre, and how far off the chord's ends may be:
/// more where the line hardly touches the circle.
fn half_chord(radius: i64, far: Span) -> (f64, f64) {
    let inner = radius.saturating_sub(far.low).max(0) as f64;
    let half = (inner * (radius as f64 + far.low as f64)).sqrt();
    // A change of a nanometre in the distance moves the ends by r/h, or by at most √(2r) where h is 0.
    let wide = (4.0 * radius as f64).sqrt();
    let slope = 2.0 * radius as f64 / half.max(1.0);
    (half, NEAR + slope.min(wide))
}

/// Where two whole circles cross.
fn crossings_of_circles(one: &Arc, other: &Arc) -> Option<Crossings> {
    let ray = Vector::between(one.middle, other.middle);
    let far = root(ray.squared());
    let meet = far.high <= one.radius.saturating_add(other.radius)
        && far.low >= one.radius.saturating_sub(other.radius).saturating_abs();
    if !meet || far.high == 0 {
        return None;
    }
    let (r, s) = (one.radius as f64, other.radius as f64);
    let apart = ray.squared() as f64;
    let length = apart.sqrt();
    let ahead = (apart + (r - s) * (r + s)) / (2.0 * length);
    let half = ((r - ahead) * (r + ahead)).max(0.0).sqrt();
    let (x, y) = ray.floats();
    let (x, y) = (x / length, y / length);
    let at = |sign: f64| (x * ahead - sign * y * half, y * ahead + sign * x * half);
    let lost = NEAR + 1e-15 * (r + s + length) * (r + s + length) / length;
    let wide = (4.0 * r * lost).sqrt();
    Some(Crossings {
        middle: one.middle,
        at: [Some(at(-1.0)), Some(at(1.0))],
        off: lost + (2.0 * r * lost / half.max(1.0)).min(wide),
    })
}
