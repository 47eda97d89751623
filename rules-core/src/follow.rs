//! What comes of a plan while something on it is being dragged: only what comes out otherwise than before.

use serde::Serialize;

use crate::answer::{Refusal, plan_of};
use crate::check::governed;
use crate::drawing::{Options, drawing};
use crate::report::{Counts, RuleReport, Told, VerdictWords, glances};
use crate::ruleset::{Rule, RuleSet};
use crate::text::Node;

/// What has become of a plan.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Followed {
    /// What the binding rules together come to.
    pub verdict: VerdictWords,
    /// How many binding rules have which outcome.
    pub counts: Counts,
    /// The rules of which anything is otherwise than before, in the order of the rule set: a selected one whole, of the
    /// others only what decides them.
    pub rules: Vec<RuleReport>,
    /// The layers of the drawing, the lowest first; nothing in the place of one that is as before.
    pub layers: Vec<Option<String>>,
}

/// Judges a document after a change. `before` is what this gave, whole, for the document before it, by the same rules and
/// options; without it all is told. The text is the one that the document was read from.
///
/// # Errors
/// All faults of the plan that has come of it.
pub fn follow(
    before: Option<&Followed>,
    plan: (&Node, &str),
    rules: &RuleSet,
    options: &Options,
) -> Result<Followed, Refusal> {
    let plan = plan_of(plan, rules)?;
    let governed = governed(&plan, rules);
    let (findings, rules) = (&governed.findings, governed.rules);
    let told = |rule: &Rule, outcome| match options.shows(rule, outcome) {
        true if options.selected.is_some() => Told::Whole,
        true => Told::Part,
        false => Told::Reading,
    };
    let (reports, verdict, counts) = glances(findings, (&plan, rules), &told);
    let layers = drawing(&plan, rules, findings, &reports, options).layers;
    let now = Followed {
        verdict,
        counts,
        rules: reports,
        layers: layers.into_iter().map(Some).collect(),
    };
    Ok(match before {
        Some(before) => now.otherwise_than(before),
        None => now,
    })
}

impl Followed {
    fn otherwise_than(mut self, before: &Self) -> Self {
        self.rules.retain(|rule| !before.rules.contains(rule));
        for (layer, old) in self.layers.iter_mut().zip(&before.layers) {
            layer.take_if(|layer| old.as_ref() == Some(layer));
        }
        self
    }
}
