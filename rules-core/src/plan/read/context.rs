//! What every part of the reader needs: the vocabulary, the plan's unit, its origin, and the faults so far.

use std::collections::BTreeSet;

use super::super::{Source, SourceIndex};
use crate::faults::Code;
use crate::grammar::Keys;
use crate::measure::EXTENT;
use crate::quantity::{self, Dimension, QuantityFault, Unit, Written};
use crate::text::{Entry, Faults, Help, Node, Span, meant_or};
use crate::vocabulary::Vocabulary;

/// The widest angle that makes sense for a turn, in billionths of a degree.
const FULL_TURN: i128 = 360_000_000_000;

/// What the parts of the reader share.
pub(super) struct Context<'a> {
    pub vocabulary: &'a Vocabulary,
    /// The unit of a bare number, if the file declares one.
    pub unit: Option<Unit>,
    /// The plan's own origin in the file's coordinates, in nanometres.
    pub origin: (i128, i128),
    pub sources: Vec<Source>,
    /// The ids written anywhere: a name that is one of them was not misspelt, even if what it names is at fault.
    pub mentioned: BTreeSet<&'a str>,
    /// That a unit is missing is said once, not for each number.
    pub told_of_unit: bool,
    pub faults: Faults,
    /// Faults that follow from others. They are told only where there are no others, so that nothing is ever
    /// passed over in silence.
    pub held_back: Faults,
}

/// A stated accuracy: a length, or nobody knows.
pub(super) type Stated = Option<Option<i64>>;

impl<'a> Context<'a> {
    pub fn new(vocabulary: &'a Vocabulary) -> Self {
        Self {
            vocabulary,
            unit: None,
            origin: (0, 0),
            sources: Vec::new(),
            mentioned: BTreeSet::new(),
            told_of_unit: false,
            faults: Faults::default(),
            held_back: Faults::default(),
        }
    }

    /// The entries of a map's keys, in the order of its declaration.
    pub fn keys<const N: usize>(
        &mut self,
        node: &'a Node,
        declared: &Keys<N>,
    ) -> Option<[Option<&'a Entry>; N]> {
        declared.read(node, &mut self.faults)
    }

    /// The text of a single value; a list or a map is a fault.
    pub fn scalar(&mut self, key: &str, node: &'a Node) -> Option<&'a str> {
        let text = node.text().filter(|text| !text.trim().is_empty());
        if text.is_none() {
            let message = format!(
                "`{key}` needs one value; there is {} here.",
                node.describe()
            );
            self.faults.add(Code::NotAValue, node.span, message);
        }
        text
    }

    /// An amount; a bare number takes the file's unit.
    pub fn amount(&mut self, key: &str, node: &'a Node, of: Dimension) -> Option<Written> {
        let text = self.scalar(key, node)?;
        let read = quantity::parse(text, Some(of), self.unit);
        read.map_err(|fault| self.refuse_amount(key, node, of, &fault))
            .ok()
    }

    fn refuse_amount(&mut self, key: &str, node: &Node, of: Dimension, fault: &QuantityFault) {
        if self.is_bare_length(node, of) {
            let told = std::mem::replace(&mut self.told_of_unit, true);
            self.faults_after(told)
                .add(Code::NoUnit, node.span, "This number has no unit, and the plan declares none.")
                .help("Write `unit: m` or `unit: ft` at the top of the plan, or a unit behind each number.");
            return;
        }
        let message = format!("In `{key}`, {}.", fault.sentence);
        let help = format!("{}.", fault.help);
        self.faults
            .add(Code::BadAmount, node.span, message)
            .help(help);
    }

    /// Where a fault belongs: with those held back if it follows from another.
    pub fn faults_after(&mut self, follows: bool) -> &mut Faults {
        if follows {
            &mut self.held_back
        } else {
            &mut self.faults
        }
    }

    /// A length that lacks only the unit which the plan should have declared.
    fn is_bare_length(&self, node: &Node, of: Dimension) -> bool {
        let with_unit = |text| quantity::parse(text, Some(of), Some(Unit::METRE)).is_ok();
        self.unit.is_none() && of == Dimension::Length && node.text().is_some_and(with_unit)
    }

    /// An amount without any ±: the drawn plan is exact, its accuracy is stated apart.
    pub fn exact(&mut self, key: &str, node: &'a Node, of: Dimension) -> Option<i128> {
        let written = self.amount(key, node, of)?;
        if !written.range.is_exact() {
            self.faults
                .add(
                    Code::NotOneAmount,
                    node.span,
                    format!("`{key}` needs one amount, without a range or a ±."),
                )
                .help("State how far off it may be under `accuracy`.");
        }
        written.drawn
    }

    /// A length as drawn, in nanometres, within what the geometry can hold.
    pub fn length(&mut self, key: &str, node: &'a Node) -> Option<i64> {
        let nanometres = self.exact(key, node, Dimension::Length)?;
        let fits = i64::try_from(nanometres)
            .ok()
            .filter(|length| length.abs() <= EXTENT);
        if fits.is_none() {
            let message = format!("`{key}` is more than 10 km.");
            self.faults.add(Code::TooFar, node.span, message);
        }
        fits
    }

    /// A length that is more than nothing.
    pub fn positive(&mut self, key: &str, node: &'a Node) -> Option<i64> {
        let length = self.length(key, node)?;
        if length > 0 {
            return Some(length);
        }
        let message = format!("`{key}` needs to be more than nothing.");
        self.faults.add(Code::NotPositive, node.span, message);
        None
    }

    /// An angle of no more than a full turn, in billionths of a degree.
    pub fn angle(&mut self, key: &str, node: &'a Node) -> Option<i128> {
        let angle = self.exact(key, node, Dimension::Angle)?;
        if angle.abs() <= FULL_TURN {
            return Some(angle);
        }
        self.faults
            .add(
                Code::BadAngle,
                node.span,
                format!("`{key}` is more than a full turn."),
            )
            .help("Write an angle between -360 deg and 360 deg.");
        None
    }

    /// `accuracy: 20 mm` or `accuracy: unknown`; rounded up to a whole nanometre, never down.
    pub fn accuracy(&mut self, entry: Option<&'a Entry>) -> Stated {
        let Entry { key, value, .. } = entry?;
        if value.text() == Some("unknown") {
            return Some(None);
        }
        let length = self.length(key, value)?;
        if length < 0 {
            let message =
                format!("`{key}` says how far off, so that it cannot be less than nothing.");
            self.faults.add(Code::NotPositive, value.span, message);
            return None;
        }
        // What stands behind ± is rounded up, so the same text is read once more in that place.
        let as_error = format!("0 m ± {}", value.text()?);
        let up = quantity::parse(&as_error, Some(Dimension::Length), self.unit).ok();
        let up = up.and_then(|written| written.range.greatest());
        Some(Some(
            up.and_then(|up| i64::try_from(up).ok()).unwrap_or(length),
        ))
    }

    /// One of some words; another is refused with a guess.
    pub fn word(&mut self, key: &str, node: &'a Node, words: &[&str]) -> Option<&'a str> {
        let text = self.scalar(key, node)?;
        if words.contains(&text) {
            return Some(text);
        }
        let help = guess(text, words.iter().copied(), "The words here are");
        let message = format!("`{text}` is not a word for `{key}`.");
        self.faults
            .add(Code::UnknownWord, node.span, message)
            .help(help);
        None
    }

    /// An id (see [`is_id`]).
    pub fn id(&mut self, key: &str, node: &'a Node) -> Option<&'a str> {
        let text = self.scalar(key, node)?;
        self.is_id(key, text, node.span).then_some(text)
    }

    /// Whether a text can be an id; if not, it is a fault.
    pub fn is_id(&mut self, key: &str, text: &str, span: Span) -> bool {
        let good = is_id(text);
        if !good {
            self.faults
                .add(Code::BadId, span, format!("`{text}` cannot be used as an id for `{key}`."))
                .help("Use letters and digits, and single hyphens, dots, slashes or underscores between them: `back-door`, `12/4`. What people call a thing goes under `name`.");
        }
        good
    }

    /// What people call a thing: any text.
    pub fn name(&mut self, entry: Option<&'a Entry>) -> Option<String> {
        let name = self.scalar("name", &entry?.value)?;
        Some(name.trim().to_owned())
    }

    /// The source that a thing names.
    pub fn source(&mut self, entry: Option<&'a Entry>) -> Option<SourceIndex> {
        let entry = entry?;
        let text = self.scalar(&entry.key, &entry.value)?;
        let found = self.sources.iter().position(|source| source.id == text);
        if found.is_none() {
            let help = guess(
                text,
                self.sources.iter().map(|source| source.id.as_str()),
                "The sources are",
            );
            let message = format!("There is no source `{text}` in this plan.");
            let follows = self.mentioned.contains(text);
            self.faults_after(follows)
                .add(Code::UnknownSource, entry.value.span, message)
                .help(help);
        }
        found
    }

    /// How far off things of a source may be.
    pub fn source_accuracy(&self, source: Option<SourceIndex>) -> Option<i64> {
        self.sources.get(source?)?.accuracy
    }
}

/// Whether a text can be an id in a plan: letters and digits of any script, and between them single hyphens, dots, slashes and
/// underscores, as the numbers of parcels have them.
pub(crate) fn is_id(text: &str) -> bool {
    let joins = |c: char| matches!(c, '-' | '.' | '/' | '_');
    let mut parts = text.split(joins);
    parts.all(|part| !part.is_empty() && part.chars().all(char::is_alphanumeric))
}

/// The word that was meant; where none is close, what is possible.
pub(super) fn guess<'w>(
    text: &str,
    words: impl Iterator<Item = &'w str> + Clone,
    list: &str,
) -> Help {
    meant_or(text, words.clone(), possible(words, list))
}

/// The words that are possible, of many the first.
fn possible<'w>(words: impl Iterator<Item = &'w str>, list: &str) -> String {
    const LONGEST_LIST: usize = 12;
    let all: Vec<_> = words.map(|word| format!("`{word}`")).collect();
    match all.len() {
        0 => "There are none.".to_owned(),
        1..=LONGEST_LIST => format!("{list} {}.", all.join(", ")),
        _ => format!(
            "{list} {}, …",
            all.iter()
                .take(LONGEST_LIST)
                .cloned()
                .collect::<Vec<_>>()
                .join(", ")
        ),
    }
}
