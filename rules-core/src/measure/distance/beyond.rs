//! How far something reaches out of something else, seen from any side.

use crate::measure::distance::reach::farthest_corner;
use crate::measure::distance::{Gap, between_lines};
use crate::measure::figure::chain::Chain;
use crate::measure::figure::convex::hull;
use crate::plan::figure::{Figure, Form, Point};

/// How far the forms of `a`, widened by its spread, reach out of the convex hull of the forms of `b`, widened by its own: from
/// the least to the most, in nanometres; negative where they lie within. `None` without any corners.
///
/// The farthest place of `a` is at least as far from `b`, and just as far where `b` is convex: in every direction a spread takes
/// the edge of either outwards by as much.
pub(super) fn beyond_hull(a: &Figure, b: &Figure) -> Option<(i64, i64)> {
    let around = Figure::new(vec![hull_of(b)?], 0, None);
    let out = farthest_corner(a, &around)?;
    let (low, high) = match around.forms.as_slice() {
        [Form::Ring(ring)] if out.high == 0 => {
            let depth = gap_to_line(a, ring)?;
            (depth.high.saturating_neg(), depth.low.saturating_neg())
        }
        _ => (out.low, out.high),
    };
    let apart = a.spread.saturating_sub(b.spread);
    Some((apart.saturating_add(low), apart.saturating_add(high)))
}

/// The convex hull of a figure's corners: an area, or, if they lie on one line, that line or a point.
fn hull_of(figure: &Figure) -> Option<Form> {
    let mut places: Vec<Point> = figure.corners().copied().collect();
    if let Some(ring) = hull(&places) {
        return Some(Form::Ring(ring));
    }
    places.sort_unstable();
    let (first, last) = (*places.first()?, *places.last()?);
    Some(match first == last {
        true => Form::Point(first),
        false => Form::Path(vec![first, last]),
    })
}

/// The least distance from a figure to the edge of a ring.
pub(crate) fn gap_to_line(inner: &Figure, ring: &[Point]) -> Option<Gap> {
    let lines = inner.forms.iter().map(Chain::of);
    let gaps = lines.map(|line| between_lines(line, Chain::ring(ring)));
    gaps.reduce(|best, gap| if gap.span() < best.span() { gap } else { best })
}
