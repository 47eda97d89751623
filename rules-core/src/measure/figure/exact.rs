//! Exact arithmetic on whole nanometres: vectors, turns, and roots decided in 256 bits.

use std::cmp::Ordering;

use crate::plan::figure::Point;

/// The greatest difference of two coordinates. Plans are a thousand times smaller; the cap only keeps a plan that was never
/// validated from overflowing. With it, a cross product fits in 126 bits and its square in 252.
const WIDEST: i64 = 1 << 62;

/// A vector from one place to another, in nanometres.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Vector {
    pub x: i64,
    pub y: i64,
}

impl Vector {
    #[inline]
    pub fn between(from: Point, to: Point) -> Self {
        Vector {
            x: to.x.saturating_sub(from.x).clamp(-WIDEST, WIDEST),
            y: to.y.saturating_sub(from.y).clamp(-WIDEST, WIDEST),
        }
    }

    #[inline]
    pub fn dot(self, other: Self) -> i128 {
        i128::from(self.x) * i128::from(other.x) + i128::from(self.y) * i128::from(other.y)
    }

    #[inline]
    pub fn cross(self, other: Self) -> i128 {
        i128::from(self.x) * i128::from(other.y) - i128::from(self.y) * i128::from(other.x)
    }

    #[inline]
    pub fn squared(self) -> u128 {
        self.dot(self).unsigned_abs()
    }

    /// The coordinates as floats: exact in any valid plan, whose differences stay below 2^53.
    #[inline]
    pub fn floats(self) -> (f64, f64) {
        (self.x as f64, self.y as f64)
    }
}

/// The vector from one place to another in floats, as [`Vector::floats`] gives it.
#[inline]
pub(crate) fn floats_between(from: Point, to: Point) -> (f64, f64) {
    (
        to.x.wrapping_sub(from.x) as f64,
        to.y.wrapping_sub(from.y) as f64,
    )
}

/// On which side of the line from `a` to `b` the point `c` is: `Greater` is to the left, `Equal` is on it.
#[inline]
pub(crate) fn turn(a: Point, b: Point, c: Point) -> Ordering {
    Vector::between(a, b).cross(Vector::between(a, c)).cmp(&0)
}

/// A product of two 128-bit numbers. The order of the fields makes the derived comparison numeric.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Wide {
    high: u128,
    low: u128,
}

fn multiply(a: u128, b: u128) -> Wide {
    const HALF: u128 = u64::MAX as u128;
    let (a1, a0, b1, b0) = (a >> 64, a & HALF, b >> 64, b & HALF);
    let (low, mid_a, mid_b, high) = (a0 * b0, a1 * b0, a0 * b1, a1 * b1);
    let carry = (low >> 64) + (mid_a & HALF) + (mid_b & HALF);
    Wide {
        high: high + (mid_a >> 64) + (mid_b >> 64) + (carry >> 64),
        low: (low & HALF) | (carry << 64),
    }
}

/// A length known to the nanometre: the whole numbers just below and just above it, equal when it is whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// Rounded down, or the least it can be.
    pub low: i64,
    /// Rounded up, or the most it can be.
    pub high: i64,
}

impl Span {
    /// A length of exactly this many nanometres.
    pub fn exactly(length: i64) -> Self {
        Span {
            low: length,
            high: length,
        }
    }

    pub(crate) const ANYTHING: Span = Span {
        low: 0,
        high: i64::MAX,
    };
}

/// The whole numbers around a length in floats; `None` where the length is so near to one of them that the float cannot
/// decide. Floats computed from whole numbers of a valid plan are good to 0.02.
#[inline]
pub(crate) fn plainly_between(length: f64) -> Option<Span> {
    const FARTHEST: f64 = (1_i64 << 45) as f64;
    const TOO_NEAR: f64 = 0.0625;
    let low = length as i64;
    let beyond = length - low as f64;
    let plain = length < FARTHEST && beyond > TOO_NEAR && beyond < 1.0 - TOO_NEAR;
    plain.then(|| Span { low, high: low + 1 })
}

/// The square root of a whole number, capped at the largest `i64`.
pub(crate) fn root(squared: u128) -> Span {
    let squared = squared.min(1 << 126);
    // The float is right to a few units in its last place, and much quicker than an integer root.
    let guess = (squared as f64).sqrt();
    if let Some(span) = plainly_between(guess) {
        return span;
    }
    let mut low = guess as u128;
    while low * low > squared {
        low -= 1;
    }
    while (low + 1) * (low + 1) <= squared {
        low += 1;
    }
    let high = low + u128::from(low * low != squared);
    Span {
        low: narrow(low),
        high: narrow(high),
    }
}

fn narrow(length: u128) -> i64 {
    i64::try_from(length).unwrap_or(i64::MAX)
}

/// The distance of a point from a line, given the cross product with the line's direction and that direction's square.
pub(crate) fn from_line(cross: i128, squared: u128) -> Span {
    let cross = cross.unsigned_abs();
    // Good to a few units in the last place, so only a few steps are left.
    let guess = (cross as f64 / (squared as f64).sqrt()).clamp(0.0, WIDEST as f64);
    if let Some(span) = plainly_between(guess) {
        return span;
    }
    let target = multiply(cross, cross);
    let against = |n: u128| multiply(n * n, squared).cmp(&target);
    let mut low = guess as u128;
    while low > 0 && against(low).is_gt() {
        low -= 1;
    }
    while low < WIDEST as u128 && against(low + 1).is_le() {
        low += 1;
    }
    let high = low + u128::from(against(low).is_ne());
    Span {
        low: narrow(low),
        high: narrow(high),
    }
}

/// `from` moved by `share` of the way to `to`, to the nearest nanometre.
pub(crate) fn part_way(from: Point, to: Point, share: f64) -> Point {
    let (x, y) = Vector::between(from, to).floats();
    Point {
        x: from.x.saturating_add(whole(x * share)),
        y: from.y.saturating_add(whole(y * share)),
    }
}

/// The nearest whole number, halves away from 0: like `f64::round`, which is a function call on many machines.
#[inline]
fn whole(length: f64) -> i64 {
    let towards = length as i64;
    let left = length - towards as f64;
    towards.saturating_add(i64::from(left >= 0.5) - i64::from(left <= -0.5))
}

/// Whether `p` is between `a` and `b`, or on one of them. It must lie on the line through both.
#[inline]
pub(crate) fn between(a: Point, b: Point, p: Point) -> bool {
    Vector::between(p, a).dot(Vector::between(p, b)) <= 0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::figure::random::Dice;

    #[test]
    fn wide_products_are_right() {
        let product = multiply(u128::MAX, u128::MAX);
        assert_eq!((product.high, product.low), (u128::MAX - 1, 1));
        let product = multiply(1 << 100, 3 << 100);
        assert_eq!((product.high, product.low), (3 << 72, 0));
        assert_eq!(multiply(u64::MAX.into(), 7).low, u128::from(u64::MAX) * 7);
    }

    #[test]
    fn a_root_is_whole_only_when_it_is() {
        assert_eq!(root(25), Span::exactly(5));
        assert_eq!(root(26), Span { low: 5, high: 6 });
        assert_eq!(root(0), Span::exactly(0));
        let great = (1_u128 << 62) - 1;
        assert_eq!(root(great * great), Span::exactly(great as i64));
        assert_eq!(root(great * great - 1).high, great as i64);
        assert_eq!(root(u128::MAX).low, i64::MAX, "no more than fits");
    }

    #[test]
    fn distance_from_a_line_is_decided_to_the_last_bit() {
        // A 3-4-5 line, scaled to 10 km: the distance is a whole number, then just above and just below one.
        let scale = 2_000_000_000_000_i128;
        let squared = (25 * scale * scale) as u128;
        let whole = 123_456_789_i128 * 5 * scale;
        assert_eq!(from_line(whole, squared), Span::exactly(123_456_789));
        assert_eq!(
            from_line(-whole - 1, squared),
            Span {
                low: 123_456_789,
                high: 123_456_790
            }
        );
        assert_eq!(
            from_line(whole - 1, squared),
            Span {
                low: 123_456_788,
                high: 123_456_789
            }
        );
    }

    /// Lengths just beside whole numbers, from 1 nm to 30 km: each result agrees with the exact square, or with the exact
    /// product with the length of the line.
    #[test]
    fn floats_decide_nothing_near_a_whole_number() {
        let mut dice = Dice::new(5);
        for round in 0..100_000 {
            let whole = dice.from(1, [10, 1_000_000, 30_000_000_000_000][round % 3]) as u128;
            let beside = dice.from(-40, 40) as i128 * (1 + whole as i128 / 50);
            let squared = (whole * whole).saturating_add_signed(beside);
            let found = root(squared);
            let (low, high) = (found.low as u128, found.high as u128);
            assert!(low * low <= squared && squared <= high * high, "{squared}");
            assert_eq!(high - low, u128::from(low * low != squared));

            let line = dice.from(1, [7, 1_000_003, 20_000_000_000_000][round / 3 % 3]) as u128;
            let cross = (whole * line).saturating_add_signed(dice.from(-9, 9) as i128);
            let found = from_line(cross as i128, line * line);
            assert_eq!(found.low as u128, cross / line, "{cross} {line}");
            assert_eq!(found.high as u128, cross.div_ceil(line), "{cross} {line}");
        }
    }

    #[test]
    fn floats_round_like_the_library() {
        let mut dice = Dice::new(6);
        let half = [0.0, 0.5, -0.5, 0.49999999999999994, 2.5, -2.5];
        let far = [4503599627370495.5, 9007199254740993.0, 1e300, f64::NAN];
        let drawn = std::iter::repeat_with(|| dice.from(-4_000_000, 4_000_000) as f64 / 1024.0);
        for length in half.into_iter().chain(far).chain(drawn.take(10_000)) {
            assert_eq!(
                crate::measure::figure::exact::whole(length),
                length.round() as i64,
                "{length}"
            );
        }
    }

    #[test]
    fn absurd_coordinates_do_not_overflow() {
        let corner = |x, y| Point { x, y };
        let far = Vector::between(corner(i64::MIN, i64::MAX), corner(i64::MAX, i64::MIN));
        let side = Vector::between(corner(i64::MIN, i64::MIN), corner(i64::MAX, i64::MAX));
        assert!(from_line(far.cross(side), side.squared()).low > 0);
    }
}
