//! Distances in space.

use crate::measure::figure::exact::{Span, root};

/// The straight distance between two things, from their distance on the plan and their difference in height, in nanometres.
///
/// The result is right where both are level. Along a sloping line the least height and the least distance need not be at the
/// same place; the low end is then still a lower bound.
pub fn in_space(plan: Span, height: Span) -> Span {
    let least = if height.low <= 0 && height.high >= 0 {
        0
    } else {
        height.low.unsigned_abs().min(height.high.unsigned_abs())
    };
    let most = height.low.unsigned_abs().max(height.high.unsigned_abs());
    let squared = |a: u64, b: u64| {
        (u128::from(a) * u128::from(a)).saturating_add(u128::from(b) * u128::from(b))
    };
    let plan_low = plan.low.max(0).unsigned_abs();
    let plan_high = plan.high.max(0).unsigned_abs();
    Span {
        low: root(squared(plan_low, least)).low,
        high: root(squared(plan_high, most)).high,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slant_distance_by_hand() {
        assert_eq!(
            in_space(Span::exactly(3), Span::exactly(-4)),
            Span::exactly(5)
        );
        assert_eq!(
            in_space(Span { low: 3, high: 4 }, Span { low: -1, high: 2 }),
            Span { low: 3, high: 5 }
        );
        assert_eq!(
            in_space(Span::exactly(1), Span::exactly(1)),
            Span { low: 1, high: 2 }
        );
        let anything = in_space(
            Span {
                low: 0,
                high: i64::MAX,
            },
            Span {
                low: i64::MIN,
                high: i64::MAX,
            },
        );
        assert_eq!(
            anything,
            Span {
                low: 0,
                high: i64::MAX
            }
        );
    }
}
