//! How far something reaches out of something else, seen from any side.

use crate::measure::distance::{Gap, forms_gap};
use crate::measure::figure::chain::points;
use crate::measure::figure::convex::hull;
use crate::measure::figure::inside::{Side, side};
use crate::plan::figure::{Figure, Form, Point};

/// How far the forms of `a`, widened by its spread, reach out of the convex hull of the forms of `b`, widened by its own: from
/// the least to the most, in nanometres; negative where they lie within. `None` without any corners.
///
/// The farthest place of `a` is at least as far from `b`, and just as far where `b` is convex: in every direction a spread takes
/// the edge of either outwards by as much.
pub(super) fn beyond_hull(a: &Figure, b: &Figure) -> Option<(i64, i64)> {
    let all = |figure: &Figure| -> Vec<Point> {
        let corners = figure.forms.iter().flat_map(points);
        corners.copied().collect()
    };
    let (own, theirs) = (all(a), all(b));
    let apart = a.spread.saturating_sub(b.spread);
    let (low, high) = match hull(&theirs) {
        Some(ring) => out_of_ring(&own, ring)?,
        None => ends(farthest_from(&own, &on_a_line(theirs)?)?),
    };
    Some((apart.saturating_add(low), apart.saturating_add(high)))
}

/// How far some places reach out of a convex ring; where all lie inside, how near one is to its edge, as a negative figure.
fn out_of_ring(places: &[Point], ring: Vec<Point>) -> Option<(i64, i64)> {
    let outside = places
        .iter()
        .filter(|place| side(&ring, **place) == Side::Outside);
    let outside: Vec<Point> = outside.copied().collect();
    if !outside.is_empty() {
        return farthest_from(&outside, &Form::Ring(ring)).map(ends);
    }
    let mut edge = ring;
    edge.extend(edge.first().copied());
    let edge = Form::Path(edge);
    let depths = places.iter().map(|place| from_place(*place, &edge));
    let least = depths.reduce(|least, gap| {
        if gap.span() < least.span() {
            gap
        } else {
            least
        }
    })?;
    Some((least.high.saturating_neg(), least.low.saturating_neg()))
}

/// Places on one line, as the piece of it from the first to the last.
fn on_a_line(mut places: Vec<Point>) -> Option<Form> {
    places.sort_unstable();
    let (first, last) = (*places.first()?, *places.last()?);
    Some(match first == last {
        true => Form::Point(first),
        false => Form::Path(vec![first, last]),
    })
}

fn farthest_from(places: &[Point], form: &Form) -> Option<Gap> {
    let gaps = places.iter().map(|place| from_place(*place, form));
    gaps.reduce(|most, gap| if gap.span() > most.span() { gap } else { most })
}

fn from_place(place: Point, form: &Form) -> Gap {
    forms_gap(&[Form::Point(place)], std::slice::from_ref(form))
}

fn ends(gap: Gap) -> (i64, i64) {
    (gap.low, gap.high)
}
