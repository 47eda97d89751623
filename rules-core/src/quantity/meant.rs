//! What an amount that cannot be read was probably meant to be: a day as people write it, a fraction in one character,
//! a long dash. The guess is only shown in the message, never used.

use super::amount::read_date;
use super::calendar::CalendarDate;
use super::dimension::Dimension;
use super::fault::QuantityFault;
use super::number::split_while;
use super::parse::reads;
use super::unit::Unit;

/// Fractions of one character, and how to write them.
const FRACTIONS: [(char, &str); 9] = [
    ('½', "1/2"),
    ('¼', "1/4"),
    ('¾', "3/4"),
    ('⅛', "1/8"),
    ('⅜', "3/8"),
    ('⅝', "5/8"),
    ('⅞', "7/8"),
    ('⅓', "1/3"),
    ('⅔', "2/3"),
];

/// The first letters of the months, also of months in other languages that begin alike.
const MONTHS: [&str; 12] = [
    "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec",
];

/// What is wrong with a text that is no amount; `None` if no guess can be made.
pub(super) fn meant(text: &str, wanted: Option<Dimension>) -> Option<QuantityFault> {
    if read_date(text).is_some_and(|date| date.is_ok()) {
        return None;
    }
    as_day(text)
        .or_else(|| half_a_day(text, wanted))
        .or_else(|| in_plain_characters(text))
        .or_else(|| thousands(&one_blank(text)))
        .or_else(|| twice(text))
        .or_else(|| plainly(text))
        .or_else(|| span_in_words(text, wanted))
        .or_else(|| two_amounts(text))
        .or_else(|| counted(text, wanted))
}

/// One amount in two units: `10 ft / 3 m`.
fn twice(text: &str) -> Option<QuantityFault> {
    let (one, other) = text.split_once('/')?;
    let (one, other) = (one.trim(), other.trim());
    (reads(one) && reads(other)).then(|| {
        QuantityFault::new(
            format!("`{text}` is one amount twice"),
            format!("Write one of the two, `{one}` or `{other}`"),
        )
    })
}

/// An amount with something round it, or in another form, that can be written plainly.
fn plainly(text: &str) -> Option<QuantityFault> {
    // What the reader itself offers for a comma is as good.
    if text.contains(',') && reads(&text.replace(", ", " ")) {
        return None;
    }
    let amount = meant_amount(text)?;
    Some(QuantityFault::new(
        format!("`{text}` is not how an amount is written here"),
        format!("Write `{amount}`"),
    ))
}

/// Numbers that people write as words, from one on.
const NUMBERS: [&str; 12] = [
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve",
];

/// Words before an amount that the key says already, or that a law may not depend on.
const LEADING: [&str; 12] = [
    "min",
    "min.",
    "minimum",
    "max",
    "max.",
    "maximum",
    "approx",
    "approx.",
    "approximately",
    "about",
    "ca.",
    "circa",
];

/// Words before a unit of length that add nothing to it.
const OF_LENGTH: [&str; 5] = ["lin", "lin.", "lineal", "linear", "running"];

/// The amount that a text means, as it is written here; `None` if that cannot be told, or if it is written so.
pub(crate) fn meant_amount(text: &str) -> Option<String> {
    let bare = text.trim().trim_end_matches([';', ',', '.', ':']).trim();
    let bare = bare
        .trim_start_matches(['(', '['])
        .trim_end_matches([')', ']'])
        .trim();
    let after_words = LEADING
        .iter()
        .find_map(|word| bare.strip_prefix(word)?.strip_prefix(' '));
    let tries = [
        bare.to_owned(),
        after_words.unwrap_or(bare).to_owned(),
        bare.strip_prefix('.')
            .map_or_else(String::new, |decimals| format!("0.{decimals}")),
        with_digits(bare),
        feet_and_inches(bare),
        without_hyphen(bare),
        without_words(bare),
        in_figures(bare),
    ];
    let mut tries = tries.into_iter().map(|it| one_blank(&it));
    tries.find(|it| it != text && reads(it))
}

/// One plain blank between two words.
fn one_blank(text: &str) -> String {
    let words: Vec<&str> = text
        .split(char::is_whitespace)
        .filter(|word| !word.is_empty())
        .collect();
    words.join(" ")
}

/// Letters that look like figures, in the first word.
fn with_digits(text: &str) -> String {
    let (number, rest) = text.split_once(' ').unwrap_or((text, ""));
    let alike = |c: char| c.is_ascii_digit() || matches!(c, 'O' | 'o' | 'l' | 'I' | '.');
    let figure = number.contains(|c: char| c.is_ascii_digit());
    match figure && number.chars().all(alike) {
        true => format!(
            "{} {rest}",
            number.replace(['O', 'o'], "0").replace(['l', 'I'], "1")
        ),
        false => text.to_owned(),
    }
}

/// `4 ft., 6 in.` and `4 feet and 6 inches`.
fn feet_and_inches(text: &str) -> String {
    let text = text.replace(',', " ");
    let words = text.split(' ').filter(|word| *word != "and");
    let words: Vec<&str> = words.map(|word| word.trim_end_matches('.')).collect();
    words.join(" ")
}

/// `54-inch`.
fn without_hyphen(text: &str) -> String {
    match text.split_once('-') {
        Some((figures, unit))
            if figures.ends_with(|c: char| c.is_ascii_digit())
                && unit.starts_with(char::is_alphabetic) =>
        {
            format!("{figures} {unit}")
        }
        _ => text.to_owned(),
    }
}

fn without_words(text: &str) -> String {
    let words = text.split(' ').filter(|word| !OF_LENGTH.contains(word));
    words.collect::<Vec<_>>().join(" ")
}

/// `ten feet` and `ten (10) feet`.
fn in_figures(text: &str) -> String {
    let Some((number, rest)) = text.split_once(' ') else {
        return text.to_owned();
    };
    let number = number.to_lowercase();
    let Some((_, figure)) = NUMBERS.iter().zip(1..).find(|(word, _)| **word == number) else {
        return text.to_owned();
    };
    let repeated = format!("({figure})");
    let rest = rest.strip_prefix(repeated.as_str()).unwrap_or(rest);
    format!("{figure} {}", rest.trim())
}

/// A month or a year instead of a day.
fn half_a_day(text: &str, wanted: Option<Dimension>) -> Option<QuantityFault> {
    if let Some((name, year)) = text.split_once(' ')
        && is_name(name)
        && year.len() == 4
        && let Some(day) = day([year, name, "1"])
    {
        return Some(QuantityFault::new(
            format!("`{text}` is a month, not a day"),
            format!("Write year-month-day, such as `{day}`"),
        ));
    }
    let figures = text.chars().all(|c| c.is_ascii_digit() || c == '-');
    if text.len() == 5 && figures && text.get(2..3) == Some("-") && wanted == Some(Dimension::Date)
    {
        return Some(QuantityFault::new(
            format!("`{text}` is a day of every year"),
            format!(
                "Write it with its year, as in `2026-{text}`; what holds in a season only cannot be written"
            ),
        ));
    }
    let (what, day) = match text.len() {
        4 if wanted == Some(Dimension::Date) => ("a year", format!("{text}-01-01")),
        7 => ("a month", format!("{text}-01")),
        _ => return None,
    };
    let day = read_date(&day).filter(|_| figures)?.ok().map(|_| day)?;
    Some(QuantityFault::new(
        format!("`{text}` is {what}, not a day"),
        format!("Write year-month-day, such as `{day}`"),
    ))
}

/// `10,000 sq ft` or `10 000 sq ft`: a mark between thousands.
fn thousands(text: &str) -> Option<QuantityFault> {
    let (figures, rest) = split_while(text, |c| c.is_ascii_digit() || matches!(c, ',' | ' '));
    let figures = figures.trim_end();
    let mut groups = figures.split([',', ' ']);
    let first = groups
        .next()
        .is_some_and(|first| (1..=3).contains(&first.len()));
    let others: Vec<&str> = groups.collect();
    let grouped = first && !others.is_empty() && others.iter().all(|group| group.len() == 3);
    let plain = figures.replace([',', ' '], "");
    grouped.then(|| {
        QuantityFault::new(
            format!("`{text}` has a separator between its thousands"),
            format!("Write `{}`", format!("{plain} {}", rest.trim()).trim_end()),
        )
    })
}

/// A span of time in units that this field does not take.
fn span_in_words(text: &str, wanted: Option<Dimension>) -> Option<QuantityFault> {
    let (figures, unit) = split_while(text, |c| c.is_ascii_digit());
    let word = unit.trim().to_lowercase();
    let days = matches!(wanted, Some(Dimension::Days | Dimension::Months));
    if !days || figures.is_empty() {
        return None;
    }
    let working = ["business", "work", "banking"]
        .iter()
        .any(|it| word.starts_with(it));
    let help = match (working, word.starts_with("hour")) {
        (true, _) => format!("Write `{figures} working days`"),
        (_, true) => "Write whole days, such as `2 days`".to_owned(),
        _ => return None,
    };
    Some(QuantityFault::new(
        format!("`{text}` is not a span of time that is known here"),
        help,
    ))
}

/// Two amounts with a word between them.
fn two_amounts(text: &str) -> Option<QuantityFault> {
    let joined = [" to ", " and ", " or ", " - "];
    let (one, other) = joined.iter().find_map(|word| text.split_once(word))?;
    let begins = |text: &str| text.trim().starts_with(|c: char| c.is_ascii_digit());
    (begins(one) && begins(other)).then(|| {
        QuantityFault::new(
            format!("`{text}` is two amounts"),
            "Write one. In a rule, two limits are `at-least` and `at-most`; in a plan, `1 m .. 2 m` is somewhere between",
        )
    })
}

/// `2 gates` instead of a plain number.
fn counted(text: &str, wanted: Option<Dimension>) -> Option<QuantityFault> {
    let (figures, what) = split_while(text, |c| c.is_ascii_digit());
    let what = what.trim();
    let word = what.starts_with(char::is_alphabetic) && Unit::close_to(what).is_none();
    let number = wanted == Some(Dimension::Number) && !figures.is_empty();
    (number && word).then(|| {
        QuantityFault::new(
            format!("`{what}` in `{text}` is not a unit that is known here"),
            format!("Write the number alone: `{figures}`"),
        )
    })
}

fn in_plain_characters(text: &str) -> Option<QuantityFault> {
    let (plain, what) = match text.contains(['–', '—', '‑']) {
        true => (text.replace(['–', '—', '‑'], "-"), "a long dash"),
        false => (
            without_small_fractions(text)?,
            "a fraction of one character",
        ),
    };
    let plain = without_small_fractions(&plain).unwrap_or(plain);
    Some(QuantityFault::new(
        format!("`{text}` has {what} in it, which is not read"),
        format!("Write `{plain}`, with the plain hyphen and figures of the keyboard"),
    ))
}

/// The text with each fraction in figures, after a hyphen if a figure comes before it; `None` if it has none.
fn without_small_fractions(text: &str) -> Option<String> {
    let mut plain = String::new();
    let mut any = false;
    for c in text.chars() {
        match FRACTIONS.iter().find(|(small, _)| *small == c) {
            None => plain.push(c),
            Some((_, figures)) => {
                any = true;
                plain.truncate(plain.trim_end().len());
                let whole = plain.ends_with(|c: char| c.is_ascii_digit());
                plain.push_str(if whole { "-" } else { "" });
                plain.push_str(figures);
            }
        }
    }
    any.then_some(plain)
}

/// A day that is not written as year-month-day.
fn as_day(text: &str) -> Option<QuantityFault> {
    let parts: Vec<&str> = text
        .split(['/', '.', '-', ' ', ','])
        .filter(|part| !part.is_empty() && !matches!(*part, "of" | "the"))
        .map(without_ending)
        .collect();
    let [one, two, three] = parts[..] else {
        return None;
    };
    let named = [one, two].iter().any(|word| is_name(word));
    let figures = parts.iter().all(|part| number(part).is_some());
    let divided = figures && !text.contains([' ', ',']) && (has_year(&parts) || text.contains('/'));
    if !(divided || (named && number(three).is_some_and(|year| year > 999))) {
        return None;
    }
    let mut days: Vec<String> = readings([one, two, three])
        .into_iter()
        .filter_map(day)
        .collect();
    days.dedup();
    if one.len() == 4 {
        days.truncate(1);
    }
    if days.is_empty() && read_date(text).is_some() {
        return None;
    }
    let days: Vec<String> = days.iter().map(|day| format!("`{day}`")).collect();
    let help = match days.is_empty() {
        true => "Write year-month-day in figures, such as `2026-03-01`".to_owned(),
        false => format!("Write {}", days.join(" or ")),
    };
    Some(QuantityFault::new(
        format!(
            "`{text}` is not how a day is written here: the year comes first, then the month, then the day"
        ),
        help,
    ))
}

/// Whether the first or the last figure can only be a year.
fn has_year(parts: &[&str]) -> bool {
    let ends = parts.first().into_iter().chain(parts.last());
    ends.into_iter().any(|part| part.len() == 4)
}

/// A word that could be the name of a month.
fn is_name(word: &str) -> bool {
    let letters = word.chars().all(char::is_alphabetic);
    letters && word.chars().count() > 2 && Unit::find(word).is_none()
}

/// `1st` as `1`.
fn without_ending(part: &str) -> &str {
    let (figures, ending) = split_while(part, |c| c.is_ascii_digit());
    match matches!(ending, "st" | "nd" | "rd" | "th") {
        true => figures,
        false => part,
    }
}

fn number(part: &str) -> Option<i128> {
    part.parse().ok().filter(|number| *number >= 0)
}

fn month(part: &str) -> Option<i128> {
    let word = part.to_lowercase();
    let named = MONTHS.iter().position(|month| word.starts_with(month));
    let named = named.and_then(|at| i128::try_from(at + 1).ok());
    named.or_else(|| number(part))
}

/// The possible orders of year, month and day.
fn readings([one, two, three]: [&str; 3]) -> Vec<[&str; 3]> {
    match one.len() == 4 && number(one).is_some() {
        true => vec![[one, two, three], [one, three, two]],
        false => vec![[three, two, one], [three, one, two]],
    }
}

fn day([year, month_written, day]: [&str; 3]) -> Option<String> {
    let date = CalendarDate {
        year: number(year).map(|year| year + if year < 100 { 2000 } else { 0 })?,
        month: month(month_written)?,
        day: number(day)?,
    };
    date.day_number().map(|_| date.to_string())
}
