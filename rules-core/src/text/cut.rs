//! Texts that a comma has cut: in `{ask: Is it heated, or not?}` the comma ends the text, and `or not?` is read as a
//! key without a value.

use super::kit::brief;
use super::{Content, Entry, Faults, Span};
use crate::faults::Code;

/// The texts of a map that commas have cut.
pub(super) struct CutTexts<'a> {
    entries: &'a [Entry],
}

/// Reports the texts of a map that commas have cut. Returns whether there were any.
pub(crate) fn cut_texts_told(entries: &[Entry], faults: &mut Faults) -> bool {
    let cut = CutTexts::in_entries(entries);
    let rests = entries.iter().filter(|entry| is_rest(entry));
    rests.filter(|rest| cut.told(rest, faults)).count() > 0
}

impl<'a> CutTexts<'a> {
    pub(super) fn in_entries(entries: &'a [Entry]) -> Self {
        Self { entries }
    }

    /// If a key is the rest of a cut text, reports how to write the text, and returns true. Several rests of one text
    /// are reported once, at the first.
    pub(super) fn told(&self, rest: &Entry, faults: &mut Faults) -> bool {
        let Some((head, rests)) = self.around(rest) else {
            return false;
        };
        if rests
            .first()
            .is_none_or(|first| first.key_span != rest.key_span)
        {
            return true;
        }
        let pieces: Vec<&str> = head
            .value
            .text()
            .into_iter()
            .chain(rests.iter().map(|it| it.key.as_str()))
            .collect();
        let place = Span {
            end: rests
                .last()
                .map_or(rest.key_span.end, |last| last.key_span.end),
            ..rest.key_span
        };
        let key = brief(&head.key);
        let message = format!(
            "The comma before `{}` ends the text after `{key}`.",
            brief(&rest.key)
        );
        let help = help(
            &key,
            &pieces,
            rest.key_span.start == head.value.span.end + 1,
        );
        faults
            .add(Code::CommaInText, place, message)
            .because_of(head.value.span)
            .help(help);
        true
    }

    /// The entry whose text was cut before this key, and everything that was cut off.
    fn around(&self, rest: &Entry) -> Option<(&'a Entry, &'a [Entry])> {
        let at = self
            .entries
            .iter()
            .position(|it| it.key_span == rest.key_span)?;
        let head = self
            .entries
            .get(..at)?
            .iter()
            .rposition(|it| !is_rest(it))?;
        let after = self.entries.get(head + 1..)?;
        let count = after.iter().take_while(|it| is_rest(it)).count();
        let (head, rests) = (self.entries.get(head)?, after.get(..count)?);
        let is_cut = matches!(head.value.content, Content::Scalar { quoted: false, .. });
        (is_cut && is_rest(rest)).then_some((head, rests))
    }
}

/// What to write, judging by the pieces; `close` says that there is no blank after the comma.
fn help(key: &str, pieces: &[&str], close: bool) -> String {
    let figure = |piece: &&str| piece.starts_with(|c: char| c.is_ascii_digit());
    let of_figures = pieces.iter().all(figure);
    let of_words = pieces.iter().all(|piece| !piece.contains(' '));
    let whole = pieces.join(", ");
    match (of_figures, of_words) {
        (true, _) if close && pieces.iter().skip(1).all(thousands) => in_thousands(key, pieces),
        (true, _) if close => format!(
            "Write decimals behind a point, `{key}: {}`, and thousands without a mark.",
            pieces.join(".")
        ),
        (true, _) => format!(
            "Write its key before it, as in `then: {}`.",
            pieces.last().unwrap_or(&"")
        ),
        _ if let Some(day) = day(&whole) => format!("Write the day as `{key}: {day}`."),
        (_, true) => format!(
            "If these are several words, write a list: `{key}: [{whole}]`. If they are one text, put it in quotes: `{key}: \"{whole}\"`."
        ),
        // One of them is an amount: these are no texts.
        _ if pieces.iter().any(figure) => format!(
            "If these are several, write a list: `{key}: [{whole}]`. If they are one text, put it in quotes: `{key}: \"{whole}\"`."
        ),
        _ => format!("Put the text in quotes: `{key}: \"{whole}\"`."),
    }
}

/// Whether a piece begins with just three figures, as what follows the mark in `1,000 m2` does.
fn thousands(piece: &&str) -> bool {
    let figures = piece.chars().take_while(char::is_ascii_digit).count();
    figures == 3 && !piece.contains('.')
}

/// What to write for an amount with a comma before three figures, which mostly divides thousands.
fn in_thousands(key: &str, pieces: &[&str]) -> String {
    let whole = format!(
        "Write thousands without a mark: `{key}: {}`.",
        pieces.concat()
    );
    match pieces {
        [first, rest] if !rest.starts_with("000") && *first != "0" => format!(
            "{whole} If the comma stands before decimals, write a point: `{key}: {first}.{rest}`."
        ),
        ["0", rest] => format!("Write decimals behind a point: `{key}: 0.{rest}`."),
        _ => whole,
    }
}

const MONTHS: [&str; 12] = [
    "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec",
];

/// The day that is written as in `June 1, 2026`.
fn day(text: &str) -> Option<String> {
    let mut words = text.split([' ', ',']).filter(|word| !word.is_empty());
    let (month, day, year) = (words.next()?.to_lowercase(), words.next()?, words.next()?);
    let month = MONTHS
        .iter()
        .zip(1..)
        .find(|(name, _)| month.starts_with(**name))?
        .1;
    let (day, year) = (day.parse::<u8>().ok()?, year.parse::<u16>().ok()?);
    Some(format!("{year}-{month:02}-{day:02}"))
}

/// Whether a key has no `:` after it.
fn is_rest(entry: &Entry) -> bool {
    entry.value.is_empty() && entry.value.span.start <= entry.key_span.end
}
