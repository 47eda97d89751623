//! Multiplying and then dividing, with no overflow in between.

/// Which way a figure is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rounding {
    /// Towards minus infinity.
    Down,
    /// Towards plus infinity.
    Up,
    /// To the nearest, halves away from zero.
    Nearest,
}

impl Rounding {
    /// The same rounding seen from the other side of zero.
    fn mirrored(self) -> Self {
        match self {
            Self::Down => Self::Up,
            Self::Up => Self::Down,
            Self::Nearest => Self::Nearest,
        }
    }
}

/// `amount * by / over`, rounded once. `None` where the answer does not fit or `over` is 0.
///
/// The product is kept in 256 bits: a cubic metre is 10^27 tiny units, so 128 bits are soon full.
pub(crate) fn scale(amount: i128, by: u128, over: u128, rounding: Rounding) -> Option<i128> {
    if amount >= 0 {
        return i128::try_from(scale_up(amount.unsigned_abs(), by, over, rounding)?).ok();
    }
    let size = scale_up(amount.unsigned_abs(), by, over, rounding.mirrored())?;
    i128::try_from(size).ok()?.checked_neg()
}

/// [`scale`] for amounts that are not negative.
pub(crate) fn scale_up(amount: u128, by: u128, over: u128, rounding: Rounding) -> Option<u128> {
    let (quotient, rest) = match small(amount, by, over) {
        Some(both) => both,
        None => divide(product(amount, by), over)?,
    };
    let up = match rounding {
        Rounding::Down => false,
        Rounding::Up => rest > 0,
        Rounding::Nearest => rest >= over - rest,
    };
    quotient.checked_add(u128::from(up))
}

/// The same in 64 bits where the numbers fit, as they nearly always do: many times as fast on a machine without 128-bit
/// arithmetic.
fn small(amount: u128, by: u128, over: u128) -> Option<(u128, u128)> {
    let [amount, by, over] = [amount, by, over].map(|number| u64::try_from(number).ok());
    let (product, over) = (amount?.checked_mul(by?)?, over?);
    Some((
        product.checked_div(over)?.into(),
        product.checked_rem(over)?.into(),
    ))
}

/// The 256-bit product, as its high and its low half.
fn product(a: u128, b: u128) -> (u128, u128) {
    const HALF: u128 = u64::MAX as u128;
    let (a_high, a_low, b_high, b_low) = (a >> 64, a & HALF, b >> 64, b & HALF);
    let low = a_low * b_low;
    let one = a_high * b_low + (low >> 64);
    let two = a_low * b_high + (one & HALF);
    let high = a_high * b_high + (one >> 64) + (two >> 64);
    (high, (two << 64) | (low & HALF))
}

/// Quotient and remainder of a 256-bit number; `None` where the quotient needs more than 128 bits.
fn divide((high, low): (u128, u128), over: u128) -> Option<(u128, u128)> {
    if high == 0 {
        return Some((low.checked_div(over)?, low.checked_rem(over)?));
    }
    if high >= over {
        return None;
    }
    let (mut rest, mut quotient) = (high, 0_u128);
    for bit in (0..128).rev() {
        let carried = rest >> 127 == 1;
        rest = (rest << 1) | ((low >> bit) & 1);
        quotient <<= 1;
        if carried || rest >= over {
            rest = rest.wrapping_sub(over);
            quotient |= 1;
        }
    }
    Some((quotient, rest))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounds_each_way_on_both_sides_of_zero() {
        let round = |amount, rounding| scale(amount, 1, 2, rounding);
        assert_eq!(round(5, Rounding::Down), Some(2));
        assert_eq!(round(5, Rounding::Up), Some(3));
        assert_eq!(round(5, Rounding::Nearest), Some(3));
        assert_eq!(round(-5, Rounding::Down), Some(-3));
        assert_eq!(round(-5, Rounding::Up), Some(-2));
        assert_eq!(round(-5, Rounding::Nearest), Some(-3));
    }

    #[test]
    fn keeps_products_that_need_more_than_128_bits() {
        let big = 10_u128.pow(37);
        assert_eq!(
            scale(10_i128.pow(37), big, big, Rounding::Down),
            Some(10_i128.pow(37))
        );
        assert_eq!(
            scale_up(u128::MAX, u128::MAX, u128::MAX, Rounding::Up),
            Some(u128::MAX)
        );
        assert_eq!(
            scale_up(u128::MAX, 3, 3, Rounding::Nearest),
            Some(u128::MAX)
        );
        assert_eq!(scale_up(big, big, 7, Rounding::Down), None);
        assert_eq!(scale(1, 1, 0, Rounding::Down), None);
    }

    #[test]
    fn quotient_and_remainder_give_the_product_back() {
        let mut seed = 1_u128;
        for _ in 0..2000 {
            seed = seed
                .wrapping_mul(0x5851_f42d_4c95_7f2d_1405_7b7e_f767_814f)
                .wrapping_add(99);
            let (a, b, over) = (seed, seed.rotate_left(41) >> 7, seed.rotate_left(77) | 1);
            let Some((quotient, rest)) = divide(product(a, b), over) else {
                continue;
            };
            let (high, low) = product(quotient, over);
            let (low, carry) = low.overflowing_add(rest);
            assert!(rest < over);
            assert_eq!((high + u128::from(carry), low), product(a, b));
        }
    }
}
