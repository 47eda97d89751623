//! What is stated, but not exactly enough.

use std::collections::BTreeSet;

use super::context::ReportContext;
use super::figures::{measured_alone, unit_of};
use super::missing::{lowered_after, said};
use super::model::MissingReport;
use super::places::fact_of;
use super::readings::About;
use crate::check::{Outcome, Subject};
use crate::plan::{Amount, Possible, ThingIndex, Words};
use crate::quantity::Interval;
use crate::ruleset::pieces::{self, Piece};
use crate::ruleset::words::listed;
use crate::vocabulary::{FactId, KindId, Number};

/// A fact of a thing.
pub(super) type FactOf = (ThingIndex, FactId);

impl ReportContext<'_> {
    /// The facts that a part turns on although they are stated: those of its open readings, and where nothing else is
    /// missing those that only its conditions read.
    pub(super) fn inexact(&self, about: About<'_>) -> Vec<FactOf> {
        let part = about.part;
        if !matches!(part.outcome, Outcome::Unknown | Outcome::Marginal) {
            return Vec::new();
        }
        let open = part.readings.iter().filter(|one| one.truth.is_open());
        let read: BTreeSet<FactId> = open
            .clone()
            .filter_map(|one| fact_of(one.value()))
            .collect();
        // What the accuracy of a reading leaves open is advised about.
        if part.outcome == Outcome::Marginal && open.count() > 0 {
            return Vec::new();
        }
        let found = self.inexact_of(about, &read);
        match found.is_empty() && part.missing.is_empty() {
            true => self.inexact_of(about, &facts_of(about)),
            false => found,
        }
    }

    fn inexact_of(&self, about: About<'_>, facts: &BTreeSet<FactId>) -> Vec<FactOf> {
        let all = facts.iter().flat_map(|fact| {
            let kind = self.rules.vocabulary.fact(*fact).kind;
            let holders = self.holders(about, kind).into_iter();
            holders.map(|thing| (thing, *fact))
        });
        all.filter(|(thing, fact)| self.is_inexact(*thing, *fact))
            .collect()
    }

    /// The things that a part may mean by a kind's name.
    fn holders(&self, about: About<'_>, kind: KindId) -> Vec<ThingIndex> {
        let part = about.part;
        let own = match part.subject {
            Subject::Thing { index, .. } => Some(index),
            _ => None,
        };
        let mut named = own.into_iter().chain(part.pool);
        match named.find(|index| self.thing(*index).is_some_and(|it| it.kind == kind)) {
            Some(one) => vec![one],
            None => {
                let things = self.plan.things.iter().enumerate();
                let of_kind = things.filter(|(_, thing)| thing.kind == kind);
                of_kind.map(|(index, _)| index).collect()
            }
        }
    }

    fn is_inexact(&self, thing: ThingIndex, fact: FactId) -> bool {
        let possible = self.rules.vocabulary.fact(fact).answer.possible();
        let stated = self.thing(thing).and_then(|thing| thing.facts.get(&fact));
        let stated = stated.filter(|stated| stated.span.is_some());
        stated.is_some_and(|stated| leaves_open(stated, possible))
    }

    pub(super) fn missing_exactness(&self, (thing, fact): FactOf) -> MissingReport {
        let vocabulary = &self.rules.vocabulary;
        let known = vocabulary.fact(fact);
        let many = vocabulary.kind(known.kind).number == Number::Many;
        let lead = match many {
            true => format!("{}: ", crate::text::capitalised(&self.thing_words(thing))),
            false => String::new(),
        };
        let stated = self.stated_words(thing, fact);
        MissingReport {
            kind: "inexact".to_owned(),
            name: vocabulary.fact_path(fact),
            subject: self.id_of(thing),
            question: format!(
                "{lead}{} {stated} is not exact enough.",
                lowered_after(&lead, &known.ask)
            ),
            how: said(&known.how),
        }
    }

    /// What is stated, as the beginning of a sentence: `Between 46 in and 50 in`.
    fn stated_words(&self, thing: ThingIndex, fact: FactId) -> String {
        let stated = self.thing(thing).and_then(|thing| thing.facts.get(&fact));
        let words = stated.map(|stated| {
            let amount = stated.amount.iter().map(amount_words);
            let words = stated.words.iter().flat_map(|words| match &**words {
                Words::OneOf(words) => words.iter().cloned().collect(),
                Words::Any => Vec::new(),
            });
            let none = stated.none.then(|| "none".to_owned());
            amount.chain(words).chain(none).collect::<Vec<_>>()
        });
        let words = words.unwrap_or_default();
        crate::text::capitalised(&listed(&words, "or"))
    }
}

fn facts_of(about: About<'_>) -> BTreeSet<FactId> {
    let mut facts = BTreeSet::new();
    pieces::of_rule(about.rule, &mut |piece| {
        if let Piece::Fact(fact) = piece {
            facts.insert(fact);
        }
    });
    facts
}

/// Whether what is stated leaves something open, and says more than was plain before.
fn leaves_open(stated: &Possible, possible: Interval) -> bool {
    let amount = stated.amount.as_ref().filter(|amount| {
        let ends = [Some(amount.least), amount.most];
        ends.iter().flatten().any(|end| !end.is_exact())
            && amount.least.meet(possible) != Some(possible)
    });
    let words = match stated.words.as_deref() {
        Some(Words::OneOf(words)) => words.len() > 1,
        _ => false,
    };
    let either = stated.none && (stated.amount.is_some() || stated.words.is_some());
    amount.is_some() || words || either
}

fn amount_words(amount: &Amount) -> String {
    let unit = unit_of(amount.unit, amount.dimension);
    let range = amount
        .most
        .map_or(amount.least, |most| amount.least.hull(most));
    measured_alone(range, unit).text
}
