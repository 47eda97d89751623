//! Whether a changed rule goes the way that its file or the base says.

use super::super::Reader;
use super::{Changes, Item};
use crate::faults::Code;
use crate::ruleset::Rule;
use crate::ruleset::stricter::{Difference, Together, Way, differences, together};
use crate::text::Span;

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

/// The rule, compared where its own `when` holds: elsewhere the base's rule still binds.
fn within_its_condition(local: &Rule, base: &Rule) -> Rule {
    let when = local.when.as_ref().and(base.when.clone());
    Rule {
        when,
        ..local.clone()
    }
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
            let local = base.as_ref().map(|base| within_its_condition(local, base));
            let pair = base.as_ref().zip(local.as_ref());
            let differences = pair.map(|(base, local)| differences(base, local));
            self.report(comparison, differences.as_deref());
        }
    }

    fn report(&mut self, comparison: &Comparison, differences: Option<&[Difference<'_>]>) {
        let minimum = comparison.tightens || comparison.changes == Changes::Minimum;
        let ceiling = comparison.changes == Changes::Ceiling;
        let wrong = match (minimum, ceiling) {
            (true, _) => Way::Laxer,
            (_, true) => Way::Stricter,
            _ => return,
        };
        let all = differences.unwrap_or_default();
        let unseen = differences.is_none() || all.iter().any(|one| one.way == Way::Changed);
        match all.iter().find(|one| one.way == wrong) {
            Some(one) => self.goes_wrong(comparison, one, together(all)),
            None if unseen => self.not_compared(comparison.span),
            None => {}
        }
    }

    /// The rule, or a part of it, is laxer than the base allows, or stricter.
    fn goes_wrong(&mut self, comparison: &Comparison, one: &Difference<'_>, all: Together) {
        let in_part = all != Together::One(one.way);
        let where_ = if in_part { " in some cases" } else { "" };
        let (code, message, help) = match (comparison.tightens, one.way) {
            (true, _) => (
                Code::Laxer,
                format!("This is said to be stricter than the base's rule, and is laxer{where_}."),
                "Change the limit until it asks more than the base's, or write `replaces` instead of `tightens`.",
            ),
            (false, Way::Stricter) => (
                Code::Stricter,
                format!(
                    "The base says that its rule is the most that may be asked, and this asks more{where_}."
                ),
                "Change the limit until it asks no more than the base's.",
            ),
            (false, _) => (
                Code::Laxer,
                format!("The base says that its rule is a minimum, and this is laxer{where_}."),
                "Change the limit until it asks no less than the base's.",
            ),
        };
        let place = one.span.filter(|_| in_part).unwrap_or(comparison.span);
        self.fault(code, place, message).help(help);
    }

    fn not_compared(&mut self, span: Span) {
        self.warning(Code::NotCompared, span, "The program cannot tell whether this is stricter or laxer than the base's rule.")
            .help("It compares limits on the same measure only. See for yourself that this is as the base allows.");
    }
}
