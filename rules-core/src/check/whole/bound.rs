//! The limit on the work of judging, and the message where it is exceeded.

use crate::check::judge::Judge;
use crate::faults::Code;
use crate::ruleset::{Requirement, Rule, RuleSet};
use crate::text::{Fault, Faults};
use crate::work::MOST_STEPS;

/// The advice about a single rule.
const FEWER: &str = "Take fewer things or fewer corners into the plan, or choose the things that the rule speaks of more narrowly.";

/// The least number of combinations of things to go through: each thing of an `each` with each of those in an inner `each`. A
/// selection with a condition may be empty, and a term is judged once for each thing, so neither counts.
fn combinations(judge: &Judge<'_>, requirement: &Requirement) -> u64 {
    let all = |list: &[Requirement]| {
        let each = list.iter().map(|member| combinations(judge, member));
        each.fold(0, u64::saturating_add)
    };
    match requirement {
        Requirement::All(list) | Requirement::Any(list) | Requirement::Count { of: list, .. } => {
            all(list)
        }
        Requirement::Not(inner) => combinations(judge, inner),
        Requirement::Each(each) if each.selection.is_all() => {
            let things = judge.scene.base.of_kind(each.selection.kind).len();
            let things = u64::try_from(things).unwrap_or(u64::MAX);
            things.saturating_mul(combinations(judge, &each.require).saturating_add(1))
        }
        _ => 0,
    }
}

/// Why a plan is not judged: it would take too long.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TooMuch {
    /// The file of the rule that takes too long, by the name under which others build on it; `None` for the file that was
    /// asked for.
    pub file: Option<String>,
    /// What takes too long, where it is in that file, and what to do.
    pub fault: Box<Fault>,
}

impl TooMuch {
    /// A rule that would surely take more steps than allowed, found before it is judged.
    pub(crate) fn foreseen(judge: &Judge<'_>, rule: &Rule) -> Option<TooMuch> {
        let combinations = combinations(judge, &rule.require);
        // A rule that does not apply takes none.
        let may_not_apply = rule.when.is_some() || rule.unless.is_some() || rule.each.is_some();
        if combinations <= MOST_STEPS
            || may_not_apply
            || judge.in_force.is_some()
            || rule.in_force.is_some()
        {
            return None;
        }
        let message = format!(
            "This plan is not judged, because the rule `{}` speaks of {combinations} combinations of things: more than {MOST_STEPS}.",
            rule.id
        );
        Some(TooMuch::at(judge.scene.rules(), Some(rule), message, FEWER))
    }

    /// A rule that took more steps than allowed; without one, the rules together did.
    pub(crate) fn spent(rules: &RuleSet, rule: Option<&Rule>) -> TooMuch {
        let (what, help) = match rule {
            Some(rule) => (format!("the rule `{}` takes", rule.id), FEWER),
            None => (
                "the rules together take".to_owned(),
                "Take fewer things or fewer corners into the plan, or split the rule set.",
            ),
        };
        let message = format!(
            "This plan is not judged, because {what} too many steps: more than {MOST_STEPS}."
        );
        TooMuch::at(rules, rule, message, help)
    }

    fn at(rules: &RuleSet, rule: Option<&Rule>, message: String, help: &str) -> TooMuch {
        let layer = rule
            .and_then(|rule| rules.layers.get(rule.layer))
            .filter(|_| rule.is_some_and(|rule| rule.layer > 0));
        let span = rule.filter(|rule| !rule.built_in).map(|rule| rule.span);
        let mut fault = Fault::new(Code::TooMuchWork, span, message);
        fault.help(help);
        TooMuch {
            file: layer.map(|layer| layer.id.clone()),
            fault: Box::new(fault),
        }
    }

    /// The same where only the plan's text can be shown: without the place in the rule file.
    pub(crate) fn of_plan(self) -> Faults {
        let fault = Fault {
            span: None,
            ..*self.fault
        };
        Faults { list: vec![fault] }
    }

    /// The same for an edition other than the rule set that was asked for.
    pub(crate) fn in_edition(self, rules: &RuleSet) -> TooMuch {
        TooMuch {
            file: self.file.or_else(|| Some(rules.id.clone())),
            ..self
        }
    }
}
