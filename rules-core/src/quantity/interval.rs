//! The possible values of an amount.

use super::calendar;
use super::dimension::Dimension;
use super::wide::{Rounding, scale};

/// Stands for "no bound below".
pub const NO_LOW: i128 = i128::MIN;
/// Stands for "no bound above".
pub const NO_HIGH: i128 = i128::MAX;
/// One, for plain numbers, shares and slopes.
pub const ONE: i128 = 1_000_000_000;

/// All amounts from `low` to `high`, both included. `i128::MIN` and `i128::MAX` stand for "no bound".
///
/// An end that does not fit becomes "no bound", never a wrong number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Interval {
    /// The least possible amount.
    pub low: i128,
    /// The greatest possible amount.
    pub high: i128,
}

impl Interval {
    /// This one amount.
    pub const fn exact(amount: i128) -> Self {
        Self {
            low: amount,
            high: amount,
        }
    }

    /// All amounts between two, given in either order.
    pub fn new(one: i128, other: i128) -> Self {
        Self {
            low: one.min(other),
            high: one.max(other),
        }
    }

    /// Any amount at all.
    pub const fn any() -> Self {
        Self {
            low: NO_LOW,
            high: NO_HIGH,
        }
    }

    /// This amount or more.
    pub const fn from_low(low: i128) -> Self {
        Self { low, high: NO_HIGH }
    }

    /// This amount or less.
    pub const fn up_to(high: i128) -> Self {
        Self { low: NO_LOW, high }
    }

    /// Whether only one amount is possible.
    pub const fn is_exact(self) -> bool {
        self.low == self.high
    }

    /// The least possible amount, if there is one.
    pub fn least(self) -> Option<i128> {
        (self.low != NO_LOW).then_some(self.low)
    }

    /// The greatest possible amount, if there is one.
    pub fn greatest(self) -> Option<i128> {
        (self.high != NO_HIGH).then_some(self.high)
    }

    /// Whether the amount is possible.
    pub const fn contains(self, amount: i128) -> bool {
        self.low <= amount && amount <= self.high
    }

    /// What both allow; `None` where they contradict each other.
    pub fn meet(self, other: Self) -> Option<Self> {
        let (low, high) = (self.low.max(other.low), self.high.min(other.high));
        (low <= high).then_some(Self { low, high })
    }

    /// The least interval that holds both.
    pub fn hull(self, other: Self) -> Self {
        Self {
            low: self.low.min(other.low),
            high: self.high.max(other.high),
        }
    }

    /// The amounts with the opposite sign.
    #[allow(
        clippy::should_implement_trait,
        reason = "an operator would hide that a bound can be lost"
    )]
    pub fn neg(self) -> Self {
        let negative = |end: i128| match end {
            NO_LOW => NO_HIGH,
            NO_HIGH => NO_LOW,
            end => -end,
        };
        Self {
            low: negative(self.high),
            high: negative(self.low),
        }
    }

    /// Any of these amounts plus any of the others.
    #[allow(
        clippy::should_implement_trait,
        reason = "an operator would hide that a bound can be lost"
    )]
    pub fn add(self, other: Self) -> Self {
        let sum = |one: i128, two: i128, none: i128| match (one, two) {
            _ if one == none || two == none => none,
            // Without a bound there is none after adding, either.
            (NO_LOW | NO_HIGH, _) => one,
            (_, NO_LOW | NO_HIGH) => two,
            _ => one.checked_add(two).unwrap_or(none),
        };
        Self {
            low: sum(self.low, other.low, NO_LOW),
            high: sum(self.high, other.high, NO_HIGH),
        }
    }

    /// Any of these amounts minus any of the others; the two are independent.
    #[allow(
        clippy::should_implement_trait,
        reason = "an operator would hide that a bound can be lost"
    )]
    pub fn sub(self, other: Self) -> Self {
        self.add(other.neg())
    }

    /// All of them moved by the same amount.
    pub fn shift(self, by: i128) -> Self {
        self.add(Self::exact(by))
    }

    /// The lesser of any of these amounts and any of the others.
    pub fn min(self, other: Self) -> Self {
        Self {
            low: self.low.min(other.low),
            high: self.high.min(other.high),
        }
    }

    /// The greater of any of these amounts and any of the others.
    pub fn max(self, other: Self) -> Self {
        Self {
            low: self.low.max(other.low),
            high: self.high.max(other.high),
        }
    }

    /// Widened by `accuracy` either way. The sign of `accuracy` does not matter.
    pub fn widen(self, accuracy: i128) -> Self {
        match accuracy.checked_abs() {
            None | Some(NO_HIGH) => Self::any(),
            Some(size) => self.add(Self {
                low: -size,
                high: size,
            }),
        }
    }

    /// Any of these amounts times any of the others, rounded outward, with the dimension of the product. A number may be
    /// multiplied by anything but a date, a length by a length or an area. `None` for everything else.
    pub fn times(
        self,
        dimension: Dimension,
        other: Self,
        of_other: Dimension,
    ) -> Option<(Self, Dimension)> {
        let (dimension, over) = product_of(dimension, of_other)?;
        let corner = |one: i128, two: i128, rounding| product(one, two, over, rounding);
        Some((self.corners(other, corner), dimension))
    }

    /// Any of these amounts divided by any of the others, as a plain number rounded outward. Where the divisor may be 0
    /// there is no upper bound, and no lower one either unless neither of the two can be negative.
    pub fn divide(self, by: Self) -> Self {
        if by.low > 0 {
            return self.corners(by, share);
        }
        if by.high < 0 {
            return self.neg().divide(by.neg());
        }
        if self.low < 0 || by.low < 0 {
            return Self::any();
        }
        let low = if by.high == 0 {
            0
        } else {
            share(self.low, by.high, Rounding::Down)
        };
        Self::from_low(if low == NO_HIGH { 0 } else { low })
    }

    /// The square roots of these numbers or areas, rounded outward; what is below 0 counts as 0.
    pub fn root(self, dimension: Dimension) -> Self {
        // A number is in billionths, and so is its root.
        let over = if dimension == Dimension::Number {
            ONE
        } else {
            1
        };
        let of = |end: i128| end.max(0).unsigned_abs().checked_mul(over.unsigned_abs());
        let low = of(self.low).map_or(0, u128::isqrt);
        let high = of(self.high).map(|squared| {
            let down = squared.isqrt();
            down + u128::from(down * down != squared)
        });
        let whole = |root: u128| i128::try_from(root).unwrap_or(NO_HIGH);
        Self {
            low: whole(low),
            high: match self.high {
                NO_HIGH => NO_HIGH,
                _ => high.map_or(NO_HIGH, whole),
            },
        }
    }

    /// How many days these months can have, rounded outward: `n` months have at least as many days as the shortest
    /// `n` calendar months in a row, and at most as many as the longest. The months are in thousandths.
    pub fn days_of_months(self) -> Self {
        let low = self
            .least()
            .and_then(|months| calendar::days_in_months(months.div_euclid(1000)));
        let up = |months: i128| months.div_euclid(1000) + i128::from(months.rem_euclid(1000) > 0);
        let high = self
            .greatest()
            .and_then(|months| calendar::days_in_months(up(months)));
        Self {
            low: low.map_or(NO_LOW, |days| days.low),
            high: high.map_or(NO_HIGH, |days| days.high),
        }
    }

    /// The hull of an operation that is monotone in each operand, from its four corners.
    fn corners(self, other: Self, corner: impl Fn(i128, i128, Rounding) -> i128) -> Self {
        let ends = [
            (self.low, other.low),
            (self.low, other.high),
            (self.high, other.low),
            (self.high, other.high),
        ];
        let corner = &corner;
        let rounded = |to| ends.iter().map(move |&(one, two)| corner(one, two, to));
        let low = rounded(Rounding::Down).min().unwrap_or(NO_LOW);
        let high = rounded(Rounding::Up).max().unwrap_or(NO_HIGH);
        // If all four corners are too large (or too small) to hold, that end is not known.
        Self {
            low: if low == NO_HIGH { NO_LOW } else { low },
            high: if high == NO_LOW { NO_HIGH } else { high },
        }
    }
}

/// The dimension of a product, and what to divide it by.
fn product_of(one: Dimension, two: Dimension) -> Option<(Dimension, u128)> {
    use Dimension::{Area, Date, Length, Number, Volume};
    match (one, two) {
        (Date, _) | (_, Date) => None,
        (Number, other) | (other, Number) => Some((other, ONE.unsigned_abs())),
        (Length, Length) => Some((Area, 1)),
        (Length, Area) | (Area, Length) => Some((Volume, 1)),
        _ => None,
    }
}

/// Whether the end of an interval stands for "no bound".
fn is_open(end: i128) -> bool {
    end == NO_LOW || end == NO_HIGH
}

/// The end that stands for "no bound" below or above.
fn open_end(negative: bool) -> i128 {
    if negative { NO_LOW } else { NO_HIGH }
}

fn product(one: i128, two: i128, over: u128, rounding: Rounding) -> i128 {
    let negative = (one < 0) != (two < 0);
    if one == 0 || two == 0 {
        return 0;
    }
    if is_open(one) || is_open(two) {
        return open_end(negative);
    }
    let signed = if two < 0 { -one } else { one };
    scale(signed, two.unsigned_abs(), over, rounding).unwrap_or(open_end(negative))
}

/// `one / by` in billionths, for a divisor above 0.
fn share(one: i128, by: i128, rounding: Rounding) -> i128 {
    match (is_open(one), by == NO_HIGH) {
        (true, true) => 0,
        (true, false) => one,
        (false, true) if rounding == Rounding::Down => -i128::from(one < 0),
        (false, true) => i128::from(one > 0),
        (false, false) => {
            scale(one, ONE.unsigned_abs(), by.unsigned_abs(), rounding).unwrap_or(open_end(one < 0))
        }
    }
}
