//! How far one outline reaches beyond another that lies within it, and how wide an outline is over all.

use crate::measure::distance::Gap;
use crate::measure::distance::beyond::gap_to_line;
use crate::measure::distance::reach::farthest;
use crate::measure::figure::chain::{Chain, points};
use crate::measure::figure::convex::{hull, is_convex};
use crate::measure::figure::exact::{Span, Vector, from_line};
use crate::measure::figure::inside::contains;
use crate::plan::figure::{Figure, Form, Point};
use crate::work;

/// The distance from `inner` to the nearest place outside `outer`; 0 where not all of `inner` is within one form of `outer`.
///
/// Exact where `outer` has no spread, or where its form is convex. For any other, `low` is right and `high` is that of the
/// form's convex hull. `from` and `to` lie on the forms' own lines, without the spread.
pub fn margin(inner: &Figure, outer: &Figure) -> Gap {
    let each = outer.forms.iter().map(|form| {
        let (near, exact) = from_form(inner, form, outer.spread);
        let most = match exact {
            true => near.high,
            false => from_hull(inner, form, outer.spread).unwrap_or(near.high),
        };
        Gap {
            high: most.max(near.low),
            ..near
        }
    });
    let best = each.reduce(|best, gap| if gap.low > best.low { gap } else { best });
    best.unwrap_or_else(Gap::unknown)
}

fn from_hull(inner: &Figure, form: &Form, spread: i64) -> Option<i64> {
    let around = Form::Ring(hull(points(form))?);
    Some(from_form(inner, &around, spread).0.high)
}

/// The distance from a figure to the nearest place outside a form with a spread, and whether it is exact.
fn from_form(inner: &Figure, form: &Form, spread: i64) -> (Gap, bool) {
    let room = spread.saturating_sub(inner.spread);
    match form {
        Form::Ring(ring)
            if inner
                .forms
                .iter()
                .all(|own| contains(ring, own).is_within()) =>
        {
            let gap = gap_to_line(inner, ring).unwrap_or_else(Gap::unknown);
            (raised(gap, room), spread == 0 || is_convex(ring))
        }
        _ => {
            let flat = |forms: &[Form]| Figure::new(forms.to_vec(), 0, None);
            let far = farthest(&flat(&inner.forms), &flat(std::slice::from_ref(form)));
            let left = Gap {
                low: far.high.saturating_neg(),
                high: far.low.saturating_neg(),
                ..far
            };
            let convex = match form {
                Form::Ring(ring) => is_convex(ring),
                Form::Path(line) => line.len() == 2,
                Form::Point(_) => true,
            };
            (raised(left, room), spread == 0 || convex)
        }
    }
}

/// A gap with some room more on every side, and never below 0.
fn raised(gap: Gap, by: i64) -> Gap {
    Gap {
        low: gap.low.saturating_add(by).max(0),
        high: gap.high.saturating_add(by).max(0),
        ..gap
    }
}

/// The width of a figure over all: the least distance between two parallel lines with all of the figure between them.
///
/// One of the two runs along a side of the convex hull, so it is exact.
pub fn width(figure: &Figure) -> Span {
    let all: Vec<Point> = figure.corners().copied().collect();
    let across = hull(&all).map_or(Span::exactly(0), |ring| narrowest_strip(&ring));
    let round = figure.spread.saturating_mul(2);
    Span {
        low: across.low.saturating_add(round),
        high: across.high.saturating_add(round),
    }
}

fn narrowest_strip(ring: &[Point]) -> Span {
    let heights = Chain::ring(ring).edges().map(|edge| {
        work::corners(ring.len());
        let side = Vector::between(edge.a, edge.b);
        let cross = ring
            .iter()
            .map(|corner| side.cross(Vector::between(edge.a, *corner)));
        from_line(cross.max().unwrap_or(0), side.squared())
    });
    heights.min().unwrap_or(Span::exactly(0))
}
