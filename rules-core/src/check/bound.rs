//! How much work judging may be, and what is said where it would be more.

use crate::ruleset::{Rule, RuleSet};
use crate::text::{Fault, Faults};
use crate::work::MOST_STEPS;

/// A plan that is not judged by a rule set, because that would take too long.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TooMuch {
    /// The rule file in which the rule stands that takes so long: the name under which others build on it; `None`: the
    /// file that was asked for.
    pub file: Option<String>,
    /// What takes so long, where it stands in that file, and what to do.
    pub fault: Fault,
}

impl TooMuch {
    /// A rule that takes more steps than there may be; without one, the rules together.
    pub(super) fn spent(rules: &RuleSet, rule: Option<&Rule>) -> TooMuch {
        let (what, help) = match rule {
            Some(rule) => (
                format!("the rule `{}` takes", rule.id),
                "Take fewer things or fewer corners into the plan, or choose the things that the rule speaks of more narrowly.",
            ),
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
        TooMuch {
            file: layer.map(|layer| layer.id.clone()),
            fault: Fault {
                code: "too-much-work",
                span: rule.filter(|rule| !rule.built_in).map(|rule| rule.span),
                message,
                help: Some(help.to_owned()),
            },
        }
    }

    /// The same, said where only the plan's text is at hand.
    pub(crate) fn of_plan(self) -> Faults {
        let fault = Fault {
            span: None,
            ..self.fault
        };
        Faults { list: vec![fault] }
    }

    /// The same of an edition that is not the rule set that was asked for.
    pub(super) fn in_edition(self, rules: &RuleSet) -> TooMuch {
        TooMuch {
            file: self.file.or_else(|| Some(rules.id.clone())),
            ..self
        }
    }
}
