//! Whether a changed rule goes the way that its file or the base says.

use super::super::Reader;
use super::{Changes, Item, id_of};
use crate::faults::Code;
use crate::ruleset::stricter::{Difference, Together, Way, differences, together, ways_words};
use crate::ruleset::{Rule, RuleSet};
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
    pub(crate) fn compare_layers(&mut self, rules: &RuleSet) {
        for comparison in &self.merged.comparisons {
            let Some(local) = rules.rules.iter().find(|rule| rule.id == comparison.id) else {
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
            self.report(comparison, differences.as_deref(), rules);
        }
    }

    fn report(&mut self, comparison: &Comparison, all: Option<&[Difference<'_>]>, rules: &RuleSet) {
        let minimum = comparison.tightens || comparison.changes == Changes::Minimum;
        let ceiling = comparison.changes == Changes::Ceiling;
        let wrong = match (minimum, ceiling) {
            (true, _) => Way::Laxer,
            (_, true) => Way::Stricter,
            _ => return,
        };
        let all = all.unwrap_or_default();
        let ways = ways_words(all, rules, rules);
        match all.iter().find(|one| one.way == wrong) {
            Some(one) => self.goes_wrong(comparison, one, together(all), &ways),
            None if all.iter().any(|one| one.way == Way::Changed) => {
                self.not_compared(comparison.span, &ways);
            }
            None if all.is_empty() && comparison.tightens => self.tightens_nothing(comparison),
            None => {}
        }
    }

    /// The rule, or a part of it, is laxer than the base allows, or stricter.
    fn goes_wrong(
        &mut self,
        comparison: &Comparison,
        one: &Difference<'_>,
        all: Together,
        ways: &str,
    ) {
        let base = id_of(&comparison.base.node).unwrap_or_default();
        let (code, said, help) = match (comparison.tightens, one.way) {
            (true, _) => (
                Code::Laxer,
                format!("This is said to be stricter than the base's rule `{base}`"),
                "Change it until it asks more than the base's, or write `replaces` instead of `tightens`.",
            ),
            (false, Way::Stricter) => (
                Code::Stricter,
                format!("The base says that its rule `{base}` is the most that may be asked"),
                "Change it until it asks no more than the base's.",
            ),
            (false, _) => (
                Code::Laxer,
                format!("The base says that its rule `{base}` is a minimum"),
                "Change it until it asks no less than the base's.",
            ),
        };
        let in_part = all != Together::One(one.way);
        let place = one.span.filter(|_| in_part).unwrap_or(comparison.span);
        self.fault(code, place, format!("{said}. It is {ways}."))
            .help(help);
    }

    fn tightens_nothing(&mut self, comparison: &Comparison) {
        let base = id_of(&comparison.base.node).unwrap_or_default();
        let message = format!(
            "This is said to be stricter than the base's rule `{base}`, and asks for the same."
        );
        self.warning(Code::TightensNothing, comparison.span, message)
            .help("The base's rule binds already: change the limit, or take this rule out.");
    }

    fn not_compared(&mut self, span: Span, ways: &str) {
        let message = format!(
            "The program cannot tell whether this is stricter or laxer than the base's rule. It is {ways}."
        );
        self.warning(Code::NotCompared, span, message)
            .help("It compares limits on the same measure only. See for yourself that this is as the base allows.");
    }
}
