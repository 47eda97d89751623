//! Which of two rules is stricter, where that can be seen from constant limits on the same measure.

use super::super::Reader;
use super::{Changes, Item};
use crate::faults::Code;
use crate::ruleset::lint::coverage::stated;
use crate::ruleset::{Bound, Requirement, Rule, Test, Value};
use crate::text::Span;
use crate::work;

/// A rule of one file that is said to tighten or to replace one of another.
pub(in super::super) struct Comparison {
    /// The base's rule as it was.
    pub base: Item,
    /// The id of the rule in the file that changes it.
    pub id: String,
    /// Whether it is said to be stricter.
    pub tightens: bool,
    pub changes: Changes,
    pub span: Span,
}

/// How one rule compares with another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Compared {
    Same,
    Stricter,
    Laxer,
    /// It cannot be seen.
    Not,
}

impl<'a> Reader<'a> {
    /// Compares what was changed with what it was.
    pub(crate) fn compare_layers(&mut self, rules: &[Rule]) {
        for comparison in &self.merged.comparisons {
            let Some(local) = rules.iter().find(|rule| rule.id == comparison.id) else {
                continue;
            };
            let (faults, warnings) = (self.faults.list.len(), self.warnings.list.len());
            let base = self.rule(&comparison.base.node);
            // What is wrong with the base's rule was said where it stands, or no longer matters.
            self.faults.list.truncate(faults);
            self.warnings.list.truncate(warnings);
            let compared = base.map_or(Compared::Not, |base| compared(&base, local));
            self.report(comparison, compared);
        }
    }

    fn report(&mut self, comparison: &Comparison, compared: Compared) {
        let (span, minimum) = (
            comparison.span,
            comparison.tightens || comparison.changes == Changes::Minimum,
        );
        let ceiling = comparison.changes == Changes::Ceiling;
        match compared {
            Compared::Laxer if comparison.tightens => {
                self.fault(
                    Code::Laxer,
                    span,
                    "This is said to be stricter than the base's rule, and is laxer.",
                )
                .help("Change the limit until it asks more than the base's, or write `replaces` instead of `tightens`.");
            }
            Compared::Laxer if minimum => {
                self.fault(
                    Code::Laxer,
                    span,
                    "The base says that its rule is a minimum, and this is laxer.",
                );
            }
            Compared::Stricter if ceiling => {
                self.fault(Code::Stricter, span, "The base says that its rule is the most that may be asked, and this asks more.")
.help("Change the limit until it asks no more than the base's.");
            }
            Compared::Not if minimum || ceiling => {
                self.warning(Code::NotCompared, span, "The program cannot tell whether this is stricter or laxer than the base's rule.")
                    .help("It compares plain limits on the same measure only. See for yourself that this is as the base allows.");
            }
            _ => {}
        }
    }
}

fn compared(base: &Rule, local: &Rule) -> Compared {
    let (Some(old), Some(new)) = (tests(&base.require), tests(&local.require)) else {
        return Compared::Not;
    };
    let reliefs = |rule: &Rule| {
        rule.reliefs
            .iter()
            .map(|relief| (relief.id.clone(), relief.leave))
            .collect::<Vec<_>>()
    };
    if base.each != local.each || reliefs(base) != reliefs(local) || base.strength != local.strength
    {
        return Compared::Not;
    }
    let each = old.iter().map(|test| against(test, &new));
    each.fold(
        if new.len() > old.len() {
            Compared::Stricter
        } else {
            Compared::Same
        },
        joined,
    )
}

/// How the limits on the same value compare; that there are none is laxer.
fn against(old: &Test, new: &[&Test]) -> Compared {
    let Some(new) = new.iter().find(|test| same(&test.value, &old.value)) else {
        return Compared::Not;
    };
    match (&old.bounds[..], &new.bounds[..]) {
        ([old], [new]) => bounds_compared(old, new),
        (old, new) if old == new => Compared::Same,
        _ => Compared::Not,
    }
}

fn bounds_compared(old: &Bound, new: &Bound) -> Compared {
    let (before, after, more_is_stricter) = match (old, new) {
        (Bound::AtLeast(old), Bound::AtLeast(new))
        | (Bound::MoreThan(old), Bound::MoreThan(new)) => (old, new, true),
        (Bound::AtMost(old), Bound::AtMost(new)) | (Bound::LessThan(old), Bound::LessThan(new)) => {
            (old, new, false)
        }
        (old, new) if old == new => return Compared::Same,
        _ => return Compared::Not,
    };
    let (Some(before), Some(after)) = (stated(before), stated(after)) else {
        return Compared::Not;
    };
    match before.range.low.cmp(&after.range.low) {
        _ if before.dimension != after.dimension => Compared::Not,
        std::cmp::Ordering::Equal => Compared::Same,
        std::cmp::Ordering::Less if more_is_stricter => Compared::Stricter,
        std::cmp::Ordering::Greater if !more_is_stricter => Compared::Stricter,
        _ => Compared::Laxer,
    }
}

fn joined(one: Compared, other: Compared) -> Compared {
    match (one, other) {
        (Compared::Not, _) | (_, Compared::Not) => Compared::Not,
        (Compared::Laxer, _) | (_, Compared::Laxer) => Compared::Laxer,
        (Compared::Stricter, _) | (_, Compared::Stricter) => Compared::Stricter,
        _ => Compared::Same,
    }
}

/// The tests of a requirement that is nothing but tests, all of which must hold.
fn tests(requirement: &Requirement) -> Option<Vec<&Test>> {
    match requirement {
        Requirement::Test(test) => Some(vec![test]),
        Requirement::All(members) => Some(
            members
                .iter()
                .map(tests)
                .collect::<Option<Vec<_>>>()?
                .concat(),
        ),
        _ => None,
    }
}

/// Whether two values are the same, by a term or not.
pub(crate) fn same(one: &Value, other: &Value) -> bool {
    work::step_through(1);
    bare(one) == bare(other)
}

/// What a value says, by whatever name.
pub(crate) fn bare(value: &Value) -> &Value {
    match value {
        Value::Named { value, .. } => bare(value),
        value => value,
    }
}
