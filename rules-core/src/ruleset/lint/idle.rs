//! Limits and rules that never count, because another one beside them asks for more.

use crate::faults::Code;
use crate::quantity::show_exactly;
use crate::ruleset::lint::cells::{cells, keeps, stated};
use crate::ruleset::lint::holds::{is_all_tests, tests_in};
use crate::ruleset::read::Reader;
use crate::ruleset::{Bound, Choice, Decision, Requirement, Rule, Then, Value};
use crate::text::Span;

impl Reader<'_> {
    /// A limit of several on one value that never counts.
    pub(crate) fn idle_bound(&mut self, value: &Value, bounds: &[Bound], span: Span) {
        let idle = (0..bounds.len()).find(|&at| self.is_implied(value, bounds, at));
        let Some(bound) = idle.and_then(|at| bounds.get(at)) else {
            return;
        };
        let message = format!(
            "{} never counts here, because the other limit asks for more.",
            written(bound)
        );
        self.warning(Code::LimitIdle, span, message)
            .help("Take it out; or is one of the figures wrong?");
    }

    /// Whether whatever keeps the other bounds keeps this one.
    fn is_implied(&self, value: &Value, bounds: &[Bound], at: usize) -> bool {
        let all: Vec<&Bound> = bounds.iter().collect();
        let Some((bound, cells)) = bounds.get(at).zip(cells(value, &all, &self.vocabulary)) else {
            return false;
        };
        let others = || bounds.iter().enumerate().filter(|(place, _)| *place != at);
        let kept = || {
            cells
                .iter()
                .filter(|cell| others().all(|(_, other)| keeps(cell, other)))
        };
        others().next().is_some()
            && kept().next().is_some()
            && kept().all(|cell| keeps(cell, bound))
    }

    /// An item of an `any-of` that never counts, because another item asks for less of the same.
    pub(crate) fn idle_member(&mut self, members: &[Requirement]) {
        let tests: Vec<_> = members
            .iter()
            .filter_map(|member| match member {
                Requirement::Test(test) if test.holds.is_none() => Some(test),
                _ => None,
            })
            .collect();
        let sight = self.sight();
        let idle = tests.iter().enumerate().find(|(at, test)| {
            let mut others = tests.iter().enumerate().filter(|(other, _)| other != at);
            others.any(|(_, other)| sight.implied(other, &[**test]))
        });
        let Some((_, test)) = idle else { return };
        let limits: Vec<String> = test.bounds.iter().map(written).collect();
        let message = format!(
            "{} never counts here, because another item of this `any-of` asks for less.",
            limits.join(" with ")
        );
        self.warning(Code::LimitIdle, test.span, message)
            .help("Take it out; or is `all-of` meant?");
    }

    /// Warns of a rule that never matters, because another asks for more of the same things.
    pub(crate) fn idle_rule(&mut self, one: &Rule, other: &Rule) {
        let like = |rule: &Rule| {
            (
                rule.layer,
                rule.about_pool,
                rule.strength,
                rule.reliefs.is_empty(),
            )
        };
        let alike = like(one) == like(other)
            && one.reliefs.is_empty()
            && (&one.each, &one.when, &one.unless, &one.in_force)
                == (&other.each, &other.when, &other.unless, &other.in_force)
            && is_all_tests(&one.require)
            && is_all_tests(&other.require);
        if !alike {
            return;
        }
        let asks_no_more = |less: &Rule, more: &Rule| {
            let given = tests_in([&more.require]);
            let asked = tests_in([&less.require]);
            let everywhere = asked.iter().chain(&given).all(|test| test.holds.is_none());
            let implied = asked.iter().all(|test| self.sight().implied(test, &given));
            !asked.is_empty() && everywhere && implied
        };
        let (idle, strict) = match (asks_no_more(one, other), asks_no_more(other, one)) {
            (true, _) => (one, other),
            (false, true) => (other, one),
            _ => return,
        };
        let message = format!(
            "The rule `{}` never counts: `{}` is for the same things and asks for as much or more.",
            idle.id, strict.id
        );
        self.warning(Code::RuleIdle, other.span, message)
            .help("Take one of the two out; or is a figure, an `each` or a `when` wrong?");
    }

    /// A decision that gives the same class in all rows.
    pub(crate) fn same_class(&mut self, decision: &Decision) {
        let mut given = decision.table.rows.iter().map(|row| &row.then);
        let Some(Then::Give(class)) = given.next() else {
            return;
        };
        if given.all(|then| matches!(then, Then::Give(other) if other == class)) {
            let message = format!("The decision `{}` always gives `{class}`.", decision.id);
            self.warning(Code::DecisionSame, decision.table.span, message)
                .help("Is another class meant in one of its rows, or is a row missing?");
        }
    }
}

/// A bound as it is written: `at-least: 3 m`.
fn written(bound: &Bound) -> String {
    let key = match bound {
        Bound::AtLeast(_) => "at-least",
        Bound::AtMost(_) => "at-most",
        Bound::MoreThan(_) => "more-than",
        Bound::LessThan(_) => "less-than",
        Bound::Is(_) => "is",
    };
    let limit = match bound {
        Bound::Is(choices) => match choices.as_slice() {
            [Choice::Word(word)] => Some(word.clone()),
            [Choice::Amount(amount, unit)] => Some(show_exactly(*amount, *unit)),
            _ => None,
        },
        other => other
            .limit()
            .and_then(stated)
            .map(|it| show_exactly(it.range.low, it.unit)),
    };
    match limit {
        Some(limit) => format!("`{key}: {limit}`"),
        None => format!("`{key}`"),
    }
}
