//! Areas of drawn figures, together, apart and within each other.

#[cfg(test)]
pub(super) mod area_tests;
pub(super) mod clip;
pub(super) mod cut;
pub(super) mod joining;
pub(super) mod overlap;
pub(super) mod region;
pub(super) mod zone;

use crate::measure::figure::exact::Vector;
use crate::plan::figure::Point;

/// An area in square nanometres, between two whole numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Area {
    /// The least it can be.
    pub low: i128,
    /// The most it can be.
    pub high: i128,
}

/// How much the area of a ring can differ from the drawn one, in square nanometres rounded up, if each corner may be
/// off by its own accuracy, in any direction, and the sides stay straight.
///
/// ½ Σ eᵢ·|vᵢ₊₁ − vᵢ₋₁| + ½ Σ eᵢ·eᵢ₊₁, a bound that some displacement nearly reaches. `None` if a corner's accuracy is
/// unknown or missing.
pub fn area_band(ring: &[Point], accuracies: &[Option<i64>]) -> Option<i128> {
    let all: Vec<(Point, i64)> = ring
        .iter()
        .enumerate()
        .map(|(i, p)| Some((*p, accuracies.get(i).copied().flatten()?)))
        .collect::<Option<_>>()?;
    let twice = all.iter().enumerate().map(|(i, (_, accuracy))| {
        let next = all.get((i + 1) % all.len()).copied();
        let before = all.get((i + all.len() - 1) % all.len()).copied();
        let (Some(next), Some(before)) = (next, before) else {
            return 0;
        };
        let chord =
            crate::measure::figure::exact::root(Vector::between(before.0, next.0).squared()).high;
        i128::from(*accuracy).saturating_mul(i128::from(chord) + i128::from(next.1))
    });
    let twice = twice.fold(0, i128::saturating_add);
    Some(twice / 2 + twice % 2)
}

/// The area of a circle in square nanometres, to twelve digits.
pub fn disc_area(radius: i64) -> Area {
    // π to twelve digits, rounded down; plus one in the last digit it is above π.
    const PI: u128 = 3_141_592_653_589;
    const ONE: u128 = 1_000_000_000_000;
    let squared = u128::from(radius.unsigned_abs()) * u128::from(radius.unsigned_abs());
    let whole = |area: u128| i128::try_from(area).unwrap_or(i128::MAX);
    // In two parts, to avoid overflow.
    let times = |factor: u128| {
        (squared / ONE)
            .saturating_mul(factor)
            .saturating_add(squared % ONE * factor / ONE)
    };
    let high = if squared == 0 {
        0
    } else {
        times(PI + 1).saturating_add(1)
    };
    Area {
        low: whole(times(PI)),
        high: whole(high),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(points: &[(i64, i64)]) -> Vec<Point> {
        points.iter().map(|&(x, y)| Point { x, y }).collect()
    }

    #[test]
    fn the_band_of_a_rectangle_with_inaccurate_corners() {
        // 4 x 3, each corner off by 1: pushed out along its diagonal chord 5, four times half of 1 * (5 + 1).
        let rectangle = ring(&[(0, 0), (4, 0), (4, 3), (0, 3)]);
        assert_eq!(area_band(&rectangle, &[Some(1); 4]), Some(12));
        assert_eq!(
            area_band(&rectangle, &[Some(1), None, Some(1), Some(1)]),
            None
        );
        assert_eq!(area_band(&rectangle, &[Some(0); 4]), Some(0));
    }
}
