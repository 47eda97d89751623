//! The figures of an amount: whole, decimal, or a fraction.

use super::fault::QuantityFault;

/// An exact number that is not negative.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Ratio {
    pub numerator: u128,
    pub denominator: u128,
}

impl Ratio {
    fn whole(self) -> bool {
        self.denominator == 1
    }
}

/// More digits than any measurement has, and few enough for exact arithmetic.
const MOST_DIGITS: usize = 36;
const MOST_BEHIND_POINT: usize = 30;
const MOST_IN_FRACTION: usize = 9;

/// Splits after the characters that `keep` accepts.
pub(super) fn split_while(text: &str, keep: impl Fn(char) -> bool) -> (&str, &str) {
    let end = text.find(|c| !keep(c)).unwrap_or(text.len());
    text.split_at_checked(end).unwrap_or((text, ""))
}

/// The number at the start of a text, and what follows it.
pub(super) fn read_number(text: &str) -> Result<(Ratio, &str), QuantityFault> {
    let (figures, rest) = split_while(text, |c| c.is_ascii_digit() || c == '.');
    refuse_odd_figures(text, figures, rest)?;
    let (whole, behind) = figures.split_once('.').unwrap_or((figures, ""));
    if whole.len() + behind.len() > MOST_DIGITS || behind.len() > MOST_BEHIND_POINT {
        return Err(QuantityFault::new(
            format!("`{text}` has more digits than fit"),
            "Write it with fewer digits behind the point",
        ));
    }
    let number = decimal(whole, behind).ok_or_else(|| not_a_number(text))?;
    if number.whole() {
        read_fraction(number, rest)
    } else {
        Ok((number, rest))
    }
}

/// A 64-bit number always holds this many digits.
const DIGITS_IN_64_BITS: usize = 18;

/// The number that the figures give. There are only digits before and after the point.
fn decimal(whole: &str, behind: &str) -> Option<Ratio> {
    if whole.len() + behind.len() <= DIGITS_IN_64_BITS {
        let digits = whole.bytes().chain(behind.bytes());
        let numerator = digits.fold(0_u64, |number, digit| {
            number * 10 + u64::from(digit.wrapping_sub(b'0'))
        });
        let denominator = 10_u64.checked_pow(u32::try_from(behind.len()).ok()?)?;
        return Some(Ratio {
            numerator: numerator.into(),
            denominator: denominator.into(),
        });
    }
    let numerator = format!("{whole}{behind}").parse().ok()?;
    let denominator = 10_u128.checked_pow(u32::try_from(behind.len()).ok()?)?;
    Some(Ratio {
        numerator,
        denominator,
    })
}

/// Reads `/2` after a whole number, or `-3/4` or ` 3/4`.
fn read_fraction(whole: Ratio, rest: &str) -> Result<(Ratio, &str), QuantityFault> {
    if let Some((over, after)) = rest.strip_prefix('/').and_then(small_whole) {
        return Ok((fraction(0, whole.numerator, over)?, after));
    }
    let part = rest.strip_prefix('-').unwrap_or(rest).trim_start();
    let found = small_whole(part).and_then(|(above, after)| {
        let (over, after) = after.strip_prefix('/').and_then(small_whole)?;
        Some((above, over, after))
    });
    match found {
        Some((above, over, _)) if above >= over => Err(QuantityFault::new(
            format!("the fraction `{above}/{over}` behind a whole number is not less than 1"),
            "Write for instance `1-3/4 in`",
        )),
        Some((above, over, after)) if part.len() < rest.len() => {
            Ok((fraction(whole.numerator, above, over)?, after))
        }
        _ => Ok((whole, rest)),
    }
}

fn fraction(whole: u128, above: u128, over: u128) -> Result<Ratio, QuantityFault> {
    let numerator = whole
        .checked_mul(over)
        .and_then(|all| all.checked_add(above));
    match numerator {
        Some(numerator) if over > 0 => Ok(Ratio {
            numerator,
            denominator: over,
        }),
        _ => Err(QuantityFault::new(
            format!("`{above}/{over}` is not a number"),
            "Divide by something else than 0",
        )),
    }
}

/// The digits of a fraction's part, and what follows.
fn small_whole(text: &str) -> Option<(u128, &str)> {
    let (digits, rest) = split_while(text, |c| c.is_ascii_digit());
    let short = digits.len() <= MOST_IN_FRACTION && !rest.starts_with('.');
    Some((digits.parse().ok().filter(|_| short)?, rest))
}

/// Refuses figures that different readers would take differently.
fn refuse_odd_figures(text: &str, figures: &str, rest: &str) -> Result<(), QuantityFault> {
    let mut next = rest.chars();
    let (first, second) = (next.next(), next.next());
    let exponent = matches!(first, Some('e' | 'E'))
        && second.is_some_and(|c| c.is_ascii_digit() || c == '-' || c == '+');
    let mut digits = figures.chars();
    let padded = digits.next() == Some('0') && digits.next().is_some_and(|c| c.is_ascii_digit());
    let help = if figures.is_empty()
        || figures.starts_with('.')
        || figures.ends_with('.')
        || figures.matches('.').count() > 1
    {
        return Err(not_a_number(text));
    } else if exponent {
        "Write the number in full, such as `1000`"
    } else if first == Some('_') {
        "Leave the underscore out"
    } else if padded {
        "Leave the zero in front out"
    } else {
        return Ok(());
    };
    Err(QuantityFault::new(
        format!("`{text}` is not written as a plain number"),
        help,
    ))
}

fn not_a_number(text: &str) -> QuantityFault {
    QuantityFault::new(
        format!("`{text}` does not begin with a number"),
        "Write a number such as `3`, `0.5` or `1-3/4`",
    )
}
