//! What to say about a fact, a question or a value that means nothing: what was probably meant, or how it is written.

use super::unknown::without_article;
use super::{Reader, head_of, listed};
use crate::faults::Code;
use crate::grammar::measure_named;
use crate::quantity::meant_amount;
use crate::ruleset::read::take::is_short_name;
use crate::ruleset::read::value::is_amount;
use crate::text::{Help, Span, closest, meant_or, of_same_words};
use crate::vocabulary::{KindId, Role, Shape};

impl Reader<'_> {
    /// Reports a fact of something that is neither a kind nor a term; where people call a kind so, with the fact meant.
    pub(super) fn unknown_kind_of_fact(&mut self, head: &str, tail: &str, span: Span) {
        let called = self.vocabulary.kind_called(head);
        let facts = called.map(|kind| (kind, self.fact_names(kind)));
        let meant = facts.and_then(|(kind, facts)| {
            let kind = &self.vocabulary.kind(kind).name;
            let near = closest(tail, facts.iter().map(String::as_str));
            let near = near.map(|fact| format!("`{kind}.{fact}`"));
            near.or_else(|| facts_with(tail, kind, &facts))
        });
        let Some(meant) = meant else {
            return self.unknown_kind(head, head_of(&format!("{head}.{tail}"), span));
        };
        let message = format!("There is no kind of thing and no term `{head}`.");
        self.fault(Code::UnknownKind, span, message)
            .help(format!("Write {meant}."));
    }

    pub(super) fn unknown_fact(&mut self, kind: KindId, head: &str, tail: &str, span: Span) {
        if self.told_where_declared(tail) {
            return;
        }
        if let Some(outline) = self.vocabulary.outline_named(kind, tail) {
            let is_area = self.vocabulary.outline(outline).shape == Shape::Area;
            self.fault(
                Code::NotAFact,
                span,
                format!("`{head}.{tail}` is drawn, it is not a fact that has a value."),
            )
            .help(measured(head, tail, is_area));
            return;
        }
        let facts = self.fact_names(kind);
        let parts = facts_with(tail, head, &facts);
        let facts = || facts.iter().map(String::as_str);
        let guess = closest(tail, facts()).map(|guess| format!("{head}.{guess}"));
        let others = self.of_other_kinds(tail);
        let list = match (parts.is_none(), measure_named(tail).is_some()) {
            _ if let Some(write) = self.in_one_line(&format!("{head}.{tail}")) => write,
            _ if let Some(own) = self.own_of_same_sort(tail, kind) => format!("Write `{own}`."),
            (true, false) if guess.is_none() && tail.contains("yard") => self.within_yard(),
            (true, false) if let (None, Some(others)) = (&guess, others) => others,
            (true, true) if tail == "distance" => "It is measured: write `distance: {from: pool.water, to: lot-line}` in place of `fact`.".to_owned(),
            (true, true) => format!("It is measured: write `{tail}: …` in place of `fact`."),
            (false, _) if guess.is_none() => format!("Write {}.", parts.unwrap_or_default()),
            _ => format!("Its facts are {}.", listed(facts())),
        };
        self.fault(
            Code::UnknownFact,
            span,
            format!("`{head}` has no fact `{tail}`."),
        )
        .help(Help::near(guess, list));
    }

    /// The kinds whose fact this is.
    fn of_other_kinds(&self, tail: &str) -> Option<String> {
        let bound = self.around.bound.last().map(|bound| bound.kind);
        let bound = bound.filter(|kind| self.vocabulary.fact_named(*kind, tail).is_some());
        if let Some(kind) = bound {
            let kind = &self.vocabulary.kind(kind).name;
            return Some(format!(
                "`{tail}` is a fact of `{kind}`: write `{kind}.{tail}`."
            ));
        }
        let full = self.with_kind(tail)?;
        Some(format!("`{tail}` is a fact of another kind: write {full}."))
    }

    /// What to write for whoever asks in which yard the pool lies.
    fn within_yard(&self) -> String {
        let term = self.term_by_name.keys().find(|name| name.contains("yard"));
        let name = term.copied().unwrap_or("rear-yard");
        let define = match (term, self.term_for_yard(name)) {
            (None, Some(term)) => format!(" Define the yard under `terms`: `{term}`."),
            _ => String::new(),
        };
        format!(
            "A yard is a zone, and what counts is the area of the pool that lies in it or outside it: in place of the whole, write `{{area: {{of: {{each: pool.water}}, in: {{not: {name}}}}}, at-most: 0 m2}}`.{define}"
        )
    }

    /// Reports a name without a kind that is neither a question nor a day.
    pub(super) fn unknown_question(&mut self, name: &str, span: Span) {
        if self.told_where_declared(name) {
            return;
        }
        let names = self.questions_and_days();
        let write = match self.with_kind(name) {
            Some(full) => format!("Write {full}."),
            None => "Write a fact with its kind before it, as in `gate.latch-height`.".to_owned(),
        };
        let help = match self.dotted(name) {
            Some(fact) => Help::near(Some(fact), ""),
            None => meant_or(name, names.iter().map(String::as_str), write),
        };
        let message = format!("There is no question and no day `{name}`.");
        self.fault(Code::UnknownFact, span, message).help(help);
    }

    fn own_questions(&self) -> Vec<String> {
        let answers = self.vocabulary.with_role(Role::Answers);
        answers.map_or_else(Vec::new, |kind| self.fact_names(kind))
    }

    fn questions_and_days(&self) -> Vec<String> {
        let short = self.vocabulary.short_kinds();
        short.flat_map(|kind| self.fact_names(kind)).collect()
    }

    /// The facts of that name with their kinds: `depth` is `pool.depth`.
    fn with_kind(&self, name: &str) -> Option<String> {
        const MOST: usize = 4;
        let kinds = self.vocabulary.kinds();
        let of = kinds.filter(|(id, _)| self.vocabulary.fact_named(*id, name).is_some());
        let of: Vec<String> = of
            .map(|(_, kind)| format!("`{}.{name}`", kind.name))
            .collect();
        (1..=MOST).contains(&of.len()).then(|| of.join(" or "))
    }

    /// Reports a text that should be an amount, a fact or a term and is none of them.
    pub(crate) fn unknown_value(&mut self, name: &str, span: Span) {
        if self.told_where_declared(name) {
            return;
        }
        let (terms, questions) = (self.term_by_name.keys().copied(), self.questions_and_days());
        let names = terms.chain(questions.iter().map(String::as_str));
        let counted = COUNTED.iter().zip(1..).find(|(word, _)| **word == name);
        let write = match (led_by_bound(name), self.with_kind(name)) {
            (Some((bound, amount)), _) => format!("Write the amount alone, `{amount}`, after the key `{bound}`."),
            (_, Some(full)) => format!("Write {full}."),
            _ if self.meant_as_amount(name).is_some() => format!("Write `{}`.", self.meant_as_amount(name).unwrap_or_default()),
            _ if name == "none" => "Where there is no limit, none is written: leave the key out.".to_owned(),
            _ if let Some((_, number)) = counted => format!("Write the number: `{number}`."),
            _ if let Some(share) = share_in_words(name) => format!("Write the share: `{share}`."),
            _ if is_short_name(name) && !self.own_questions().is_empty() => format!(
                "The questions of these rules are {}. A fact is written with its kind, as in `pool.depth`; an amount begins with a figure, as in `2 m`.",
                listed(self.own_questions().iter().map(String::as_str))
            ),
            _ if is_short_name(name) => format!(
                "A fact is written with its kind, as in `pool.depth`; an amount begins with a figure and ends with its unit, as in `2 m`; a name of your own is defined under `terms`, as in `{name}: 5 ft`."
            ),
            _ => "A fact is written with its kind, as in `pool.depth`; an amount begins with a figure and ends with its unit, as in `2 m`.".to_owned(),
        };
        let alike = of_same_words(name, names.clone()).map(str::to_owned);
        let help = match self.dotted(name) {
            Some(fact) => Help::near(Some(fact), ""),
            None if closest(name, names.clone()).is_none() && alike.is_some() => {
                Help::near(alike, write)
            }
            None => meant_or(name, names, write),
        };
        let message = match self.meant_as_amount(name) {
            Some(_) => format!("`{name}` is not how an amount is written here."),
            None => format!("There is no question, no day and no term `{name}`."),
        };
        self.fault(Code::UnknownValue, span, message).help(help);
    }

    /// The amount that a text means which does not begin with a figure, such as `min. 10 ft`.
    pub(crate) fn meant_as_amount(&self, text: &str) -> Option<String> {
        let sentence = text.contains(' ') || text.starts_with(['>', '<', '~', '≥', '≤', 'l', 'O']);
        meant_amount(text).filter(|_| sentence && !self.is_name(text))
    }
}

/// The facts of a kind in whose names a word stands, in a sentence; `None` if there are none.
fn facts_with(word: &str, kind: &str, facts: &[String]) -> Option<String> {
    let named = facts
        .iter()
        .filter(|fact| fact.split('-').any(|part| part == word));
    let named: Vec<String> = named.map(|fact| format!("`{kind}.{fact}`")).collect();
    (!named.is_empty()).then(|| named.join(" or "))
}

/// The share that is written in words.
fn share_in_words(text: &str) -> Option<&'static str> {
    const SHARES: [(&str, &str); 5] = [
        ("half", "50 %"),
        ("third", "1/3"),
        ("quarter", "25 %"),
        ("fifth", "20 %"),
        ("tenth", "10 %"),
    ];
    let word = without_article(text);
    let known = SHARES.iter().find(|(known, _)| *known == word);
    known.map(|(_, share)| *share)
}

/// How an outline is measured, for whoever took it for a fact.
fn measured(kind: &str, outline: &str, is_area: bool) -> String {
    let path = format!("{kind}.{outline}");
    let distance = format!("`distance: {{from: {path}, to: lot-line}}`");
    match is_area {
        true => format!(
            "Measure it: write `area: {{of: {{each: {path}}}}}` in place of `fact` for its size, with `in: …` for its part in a zone, or {distance}."
        ),
        false => format!("Measure it: write {distance} in place of `fact`."),
    }
}

/// Bounds as people write them in a sentence or with a sign, and the keys to write for them.
const LEADS: [(&str, &str); 16] = [
    ("at least", "at-least"),
    ("at-least", "at-least"),
    ("not less than", "at-least"),
    ("no less than", "at-least"),
    ("minimum", "at-least"),
    (">=", "at-least"),
    ("≥", "at-least"),
    ("at most", "at-most"),
    ("at-most", "at-most"),
    ("not more than", "at-most"),
    ("no more than", "at-most"),
    ("maximum", "at-most"),
    ("<=", "at-most"),
    ("≤", "at-most"),
    (">", "more-than"),
    ("<", "less-than"),
];

/// The numbers that people write as words, from one on.
const COUNTED: [&str; 6] = ["one", "two", "three", "four", "five", "six"];

/// The bound and the amount of a text that has both, such as `at most 2 m`.
pub(crate) fn led_by_bound(text: &str) -> Option<(&'static str, &str)> {
    let (rest, bound) = LEADS
        .iter()
        .find_map(|(lead, bound)| Some((text.strip_prefix(lead)?.trim(), bound)))?;
    is_amount(rest).then_some((*bound, rest))
}
