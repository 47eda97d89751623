//! Comparisons that stand under a `not`: what must hold is their contrary, and that is what a person is told.

use std::borrow::Cow;

use crate::check::{Margin, Outcome, Part, Reading, Truth};
use crate::ruleset::{Bound, Requirement, Rule, Then};

/// The bounds of a rule, and whether each stands under a `not` (or under three).
pub(super) struct Turns<'r>(Vec<(&'r Bound, bool)>);

/// What must be kept of each reading of a part; a new bound where the rule's own stands under a `not`.
pub(super) struct Asked(Vec<Option<Bound>>);

/// A reading as a person is told of it.
pub(super) struct Comparison<'s> {
    pub reading: Cow<'s, Reading<'s>>,
    /// Whether the rule has its bound under a `not`: then this bound is the contrary, and of words those must not be.
    pub turned: bool,
}

impl<'r> Turns<'r> {
    pub fn of(rule: &'r Rule) -> Self {
        let (mut bounds, mut seen) = (Vec::new(), Vec::new());
        let reliefs = rule.reliefs.iter().map(|relief| &relief.require);
        for requirement in std::iter::once(&rule.require).chain(reliefs) {
            gather(requirement, false, &mut bounds, &mut seen);
        }
        Self(bounds)
    }

    /// What must be kept of each reading of a part of this rule.
    pub fn asked(&self, part: &Part<'_>) -> Asked {
        let readings = part.readings.iter();
        Asked(
            readings
                .map(|reading| {
                    self.is_turned(reading, part.outcome)
                        .then(|| contrary(reading.bound))
                })
                .collect(),
        )
    }

    /// A term that is used with a `not` and without one has the same bound in both places: then the outcome tells which
    /// of them is meant.
    fn is_turned(&self, reading: &Reading<'_>, outcome: Outcome) -> bool {
        let same = self
            .0
            .iter()
            .filter(|(bound, _)| std::ptr::eq(*bound, reading.bound));
        let turned: Vec<bool> = same.map(|(_, turned)| *turned).collect();
        let contradicts = match outcome {
            Outcome::Fail => reading.truth == Truth::HOLDS,
            Outcome::Pass => reading.truth == Truth::FAILS,
            _ => false,
        };
        match (turned.contains(&true), turned.contains(&false)) {
            (true, true) => contradicts,
            (turned, _) => turned,
        }
    }
}

impl Asked {
    /// The readings as a person is told of them.
    pub fn readings<'s>(&'s self, part: &'s Part<'_>) -> Vec<Comparison<'s>> {
        let readings = part.readings.iter().zip(&self.0);
        let compared = readings.map(|(reading, bound)| Comparison {
            reading: match bound {
                None => Cow::Borrowed(reading),
                Some(bound) => Cow::Owned(turned_reading(reading, bound)),
            },
            turned: bound.is_some(),
        });
        compared.collect()
    }
}

fn turned_reading<'s>(reading: &'s Reading<'_>, bound: &'s Bound) -> Reading<'s> {
    let margin = reading.margin.map(|margin| Margin {
        range: margin.range.neg(),
        ..margin
    });
    Reading {
        bound,
        truth: reading.truth.negated(),
        margin,
        ..reading.clone()
    }
}

fn contrary(bound: &Bound) -> Bound {
    match bound {
        Bound::AtLeast(value) => Bound::LessThan(value.clone()),
        Bound::AtMost(value) => Bound::MoreThan(value.clone()),
        Bound::MoreThan(value) => Bound::AtMost(value.clone()),
        Bound::LessThan(value) => Bound::AtLeast(value.clone()),
        Bound::Is(choices) => Bound::Is(choices.clone()),
    }
}

/// The bounds in a requirement. What a term says is gone through once each way, however often it is used.
fn gather<'r>(
    requirement: &'r Requirement,
    turned: bool,
    bounds: &mut Vec<(&'r Bound, bool)>,
    seen: &mut Vec<(&'r Requirement, bool)>,
) {
    let mut each = |inner: &mut dyn Iterator<Item = &'r Requirement>, turned| {
        inner.for_each(|inner| gather(inner, turned, bounds, seen));
    };
    match requirement {
        Requirement::Test(test) => bounds.extend(test.bounds.iter().map(|bound| (bound, turned))),
        Requirement::All(list) | Requirement::Any(list) => each(&mut list.iter(), turned),
        Requirement::Count { of, .. } => each(&mut of.iter(), turned),
        Requirement::Not(inner) => gather(inner, !turned, bounds, seen),
        Requirement::Each(inner) => gather(&inner.require, turned, bounds, seen),
        Requirement::Table(table) => {
            let given = table.rows.iter().filter_map(|row| match &row.then {
                Then::Give(inner) => Some(inner),
                Then::Refer => None,
            });
            each(&mut { given }, turned);
        }
        Requirement::Meets { requirement, .. } => {
            let inner: &Requirement = requirement;
            let known =
                |(one, way): &&(&Requirement, bool)| std::ptr::eq(*one, inner) && *way == turned;
            if seen.iter().find(known).is_none() {
                seen.push((inner, turned));
                gather(inner, turned, bounds, seen);
            }
        }
        Requirement::Have(_) | Requirement::Refer => {}
    }
}
