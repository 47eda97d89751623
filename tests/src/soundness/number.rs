//! Real numbers in one world, to a millionth of a tiny unit, and comparisons between them.

use std::cmp::Ordering;

/// Fractions are counted in 2^-20.
const SHIFT: u32 = 20;
/// One for plain numbers.
const BILLION: i128 = 1_000_000_000;

/// A real number: exactly `low` if both ends are equal, else strictly between the two ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Real {
    low: i128,
    high: i128,
}

/// An unsigned number of 256 bits: its upper and its lower half.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Wide(u128, u128);

impl Wide {
    fn product(a: u128, b: u128) -> Self {
        const HALF: u128 = (1 << 64) - 1;
        let (a1, a0, b1, b0) = (a >> 64, a & HALF, b >> 64, b & HALF);
        let lowest = a0 * b0;
        let middle = a1 * b0 + (lowest >> 64);
        let other = a0 * b1 + (middle & HALF);
        Self(
            a1 * b1 + (middle >> 64) + (other >> 64),
            (other << 64) | (lowest & HALF),
        )
    }

    fn shifted(self, by: u32) -> Self {
        Self((self.0 << by) | (self.1 >> (128 - by)), self.1 << by)
    }
}

impl Real {
    /// A whole number of tiny units.
    pub fn whole(amount: i128) -> Self {
        Self::exactly(amount << SHIFT)
    }

    /// Half of a whole number of tiny units.
    pub fn half(amount: i128) -> Self {
        Self::exactly(amount << (SHIFT - 1))
    }

    /// A number known to within `slack`.
    pub fn about(value: f64, slack: f64) -> Self {
        let scaled = |value: f64| (value * f64::from(1 << SHIFT)) as i128;
        Self {
            low: scaled(value - slack),
            high: scaled(value + slack),
        }
    }

    /// This divided by `base`, as a plain number; `None` if `base` may be zero.
    pub fn over(self, base: Self) -> Option<Self> {
        let share = |part: i128, whole: i128| part as f64 / whole as f64 * 1e9;
        (base.low > 0 && self.low >= 0).then(|| {
            let (low, high) = (share(self.low, base.high), share(self.high, base.low));
            Self::about(f64::midpoint(low, high), (high - low) / 2.0 + 1e-3)
        })
    }

    fn exactly(scaled: i128) -> Self {
        Self {
            low: scaled,
            high: scaled,
        }
    }

    /// √(a² / b), decided in whole numbers of 256 bits.
    pub fn root_of_square_over(a: u128, b: u128) -> Self {
        let square = Wide::product(a, a).shifted(2 * SHIFT);
        let fits = |root: u128| Wide::product(root * root, b) <= square;
        let (mut low, mut high) = (0_u128, 1_u128 << 62);
        while high - low > 1 {
            let middle = low.midpoint(high);
            match fits(middle) {
                true => low = middle,
                false => high = middle,
            }
        }
        let met = Wide::product(low * low, b) == square;
        Self {
            low: low as i128,
            high: low as i128 + i128::from(!met),
        }
    }

    /// √a.
    pub fn root(a: u128) -> Self {
        // a² / a is a.
        match a {
            0 => Self::whole(0),
            a => Self::root_of_square_over(a, a),
        }
    }

    /// Rounded down to whole tiny units.
    pub fn floor(self) -> i128 {
        self.low >> SHIFT
    }

    /// As a float, for searching only.
    pub fn approximately(self) -> f64 {
        self.low as f64 / f64::from(1 << SHIFT)
    }

    /// Whether it lies within `slack` tiny units of another.
    pub fn near(self, other: Self, slack: i128) -> bool {
        self.low - other.high <= slack << SHIFT && other.low - self.high <= slack << SHIFT
    }

    /// How the two compare; `None` if they are too close to tell.
    pub fn compared(self, other: Self) -> Option<Ordering> {
        let exact = self.low == self.high && other.low == other.high;
        match (self.low.cmp(&other.low), exact) {
            (order, true) => Some(order),
            _ if self.high <= other.low => Some(Ordering::Less),
            _ if other.high <= self.low => Some(Ordering::Greater),
            _ => None,
        }
    }

    /// The sum.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self {
            low: self.low + other.low,
            high: self.high + other.high,
        }
    }

    /// The difference.
    #[must_use]
    pub fn less(self, other: Self) -> Self {
        Self {
            low: self.low - other.high,
            high: self.high - other.low,
        }
    }

    /// The number itself, or 0 if it is negative.
    #[must_use]
    pub fn no_less_than_nothing(self) -> Self {
        Self {
            low: self.low.max(0),
            high: self.high.max(0),
        }
    }

    /// Multiplied by a plain number, which counts in billionths; `None` if it does not fit.
    pub fn times(self, number: Self) -> Option<Self> {
        let mut ends = Vec::new();
        for a in [self.low, self.high] {
            for b in [number.low, number.high] {
                ends.push(a.checked_mul(b)?);
            }
        }
        let unit = BILLION << SHIFT;
        let (low, high) = (*ends.iter().min()?, *ends.iter().max()?);
        Some(Self {
            low: low.div_euclid(unit),
            high: -(-high).div_euclid(unit),
        })
    }

    /// The lesser of two; `None` if that cannot be told.
    pub fn lesser(self, other: Self) -> Option<Self> {
        match self == other {
            true => Some(self),
            false => Some(match self.compared(other)? {
                Ordering::Greater => other,
                _ => self,
            }),
        }
    }

    /// The greater of two; `None` if that cannot be told.
    pub fn greater(self, other: Self) -> Option<Self> {
        match self == other {
            true => Some(self),
            false => Some(match self.compared(other)? {
                Ordering::Less => other,
                _ => self,
            }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roots_of_squares_are_exact_and_others_lie_strictly_between() {
        assert_eq!(Real::root(25), Real::whole(5));
        let two = Real::root(2);
        assert_eq!(two.compared(Real::whole(1)), Some(Ordering::Greater));
        assert_eq!(two.compared(Real::whole(2)), Some(Ordering::Less));
        assert_eq!(two.compared(two), None);
        // From memory: the square root of 2 is 1.41421356….
        assert!((two.approximately() - std::f64::consts::SQRT_2).abs() < 2e-6);
    }

    #[test]
    fn a_root_one_beside_a_square_of_site_size_is_told_apart() {
        let side: u128 = 123_456_789_012;
        let wanted = Real::whole(side as i128);
        assert_eq!(
            Real::root(side * side).compared(wanted),
            Some(Ordering::Equal)
        );
        let above = Real::root_of_square_over(side * side + 1, side * side);
        assert_eq!(above.compared(wanted), Some(Ordering::Greater));
    }

    #[test]
    fn products_count_in_billionths() {
        let half = Real::whole(500_000_000);
        assert_eq!(Real::whole(7).times(half), Some(Real::half(7)));
        assert_eq!(Real::whole(-7).times(half), Some(Real::half(-7)));
    }
}
