//! The area of a ring and the length of a line, exact.

use crate::measure::figure::chain::Chain;
use crate::measure::figure::exact::{Span, Vector};
use crate::plan::figure::{Form, Point};

/// Twice the area of a ring in square nanometres: exact, and never negative, whichever way the ring runs.
pub fn area2(ring: &[Point]) -> i128 {
    signed_area2(ring).saturating_abs()
}

/// Twice the area of a ring; positive if the ring runs anticlockwise.
pub(crate) fn signed_area2(ring: &[Point]) -> i128 {
    let Some(&origin) = ring.first() else {
        return 0;
    };
    Chain::ring(ring)
        .edges()
        .map(|edge| Vector::between(origin, edge.a).cross(Vector::between(origin, edge.b)))
        .fold(0, i128::saturating_add)
}

/// The length of a form's line in nanometres: along a path, once round a ring, 0 for a point.
///
/// Each edge is computed to a few millionths of a nanometre, so the low and the high end are neighbouring whole numbers, or
/// equal if every edge has a whole length.
pub fn length(form: &Form) -> Span {
    chain_length(Chain::of(form))
}

pub(crate) fn chain_length(chain: Chain) -> Span {
    const FINE: u32 = 18;
    let (mut low, mut high) = (0_u128, 0_u128);
    for edge in chain.edges() {
        let squared = Vector::between(edge.a, edge.b).squared();
        let fits = squared.leading_zeros() > 2 * FINE;
        let root = if fits {
            (squared << (2 * FINE)).isqrt()
        } else {
            squared.isqrt() << FINE
        };
        let exact = fits && root * root == squared << (2 * FINE);
        let unit = if fits { 1 } else { 1 << FINE };
        low = low.saturating_add(root);
        high = high.saturating_add(if exact { root } else { root + unit });
    }
    let whole = |length: u128| i64::try_from(length).unwrap_or(i64::MAX);
    Span {
        low: whole(low >> FINE),
        high: whole(high.div_ceil(1 << FINE)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(points: &[(i64, i64)]) -> Vec<Point> {
        points.iter().map(|&(x, y)| Point { x, y }).collect()
    }

    #[test]
    fn areas_and_lengths_of_plain_shapes() {
        let triangle = ring(&[(0, 0), (3, 0), (3, 4)]);
        assert_eq!(area2(&triangle), 12);
        assert_eq!(
            area2(&ring(&[(0, 0), (3, 4), (3, 0)])),
            12,
            "the direction does not matter"
        );
        assert_eq!(length(&Form::Ring(triangle.clone())), Span::exactly(12));
        assert_eq!(length(&Form::Path(triangle)), Span::exactly(7));
        assert_eq!(
            length(&Form::Path(ring(&[(0, 0), (1, 1), (2, 2)]))),
            Span { low: 2, high: 3 }
        );
        let kilometres = 10_000_000_000_000;
        let whole = ring(&[
            (-kilometres, -kilometres),
            (kilometres, -kilometres),
            (kilometres, kilometres),
        ]);
        assert_eq!(
            area2(&whole),
            4 * i128::from(kilometres) * i128::from(kilometres)
        );
    }
}
