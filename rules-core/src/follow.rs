//! What comes of a plan while something on it is being dragged: only what differs from before.

use serde::{Serialize, Serializer};

use crate::answer::{Refusal, plan_of, plan_refused};
use crate::check::{Governed, governed};
use crate::drawing::{Layers, Options, layers};
use crate::plan::Plan;
use crate::report::{Counts, Glance, RuleReport, Told, VerdictWords, glances};
use crate::ruleset::{Rule, RuleSet};
use crate::text::Node;

/// Where a drag begins: a plan, and what comes of it.
#[derive(Debug)]
pub struct Begun {
    plan: Plan,
    rules: Vec<RuleNow>,
    layers: Layers,
}

/// What has become of a plan.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Followed {
    /// What the binding rules together come to.
    pub verdict: VerdictWords,
    /// How many binding rules have which outcome.
    pub counts: Counts,
    /// The rules that show something else than before, in the order of the rule set.
    pub rules: Vec<RuleNow>,
    /// The layers of the drawing, the lowest first; nothing in the place of one that is as before.
    pub layers: Vec<Option<String>>,
}

/// What a rule comes to now. As JSON it is the whole report of a selected rule, and of any other no more than its line in
/// a list shows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuleNow {
    report: RuleReport,
    whole: bool,
}

impl Serialize for RuleNow {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.whole {
            true => self.report.serialize(serializer),
            false => Glance::of(&self.report).serialize(serializer),
        }
    }
}

/// Judges the document that a drag begins with. The text is the one that it was read from.
///
/// # Errors
/// All faults of the plan, or that judging it would take too long.
pub fn begin(plan: (&Node, &str), rules: &RuleSet, options: &Options) -> Result<Begun, Refusal> {
    let text = plan.1;
    let plan = plan_of(plan, rules)?;
    let governed = judged(&plan, text, rules)?;
    let (reports, ..) = reports(&plan, &governed, options);
    let findings = (&governed.findings, reports.as_slice());
    let layers = layers((&plan, governed.rules), findings, options, None);
    let rules = now(reports, options);
    Ok(Begun {
        rules,
        layers,
        plan,
    })
}

/// Judges a document after a change, by the same rules and options as the one before it, but for the places to take hold
/// of. The text is the one that the document before it was read from.
///
/// # Errors
/// All faults of the plan that has come of it, or that judging it would take too long.
pub fn follow(
    before: &Begun,
    plan: (&Node, &str),
    rules: &RuleSet,
    options: &Options,
) -> Result<Followed, Refusal> {
    let text = plan.1;
    let plan = plan_of(plan, rules)?;
    let governed = judged(&plan, text, rules)?;
    let (reports, verdict, counts) = reports(&plan, &governed, options);
    let findings = (&governed.findings, reports.as_slice());
    let drawn = Some((&before.plan, &before.layers));
    let layers = layers((&plan, governed.rules), findings, options, drawn);
    let mut rules = now(reports, options);
    rules.retain(|rule| !before.rules.contains(rule));
    Ok(Followed {
        verdict,
        counts,
        rules,
        layers: layers.otherwise_than(&before.layers),
    })
}

fn judged<'a>(plan: &'a Plan, text: &str, rules: &'a RuleSet) -> Result<Governed<'a>, Refusal> {
    governed(plan, rules).map_err(|too_much| plan_refused(text, too_much.of_plan()))
}

fn reports(
    plan: &Plan,
    governed: &Governed<'_>,
    options: &Options,
) -> (Vec<RuleReport>, VerdictWords, Counts) {
    let told = |rule: &Rule, outcome| match options.shows(rule, outcome) {
        true if options.selected.is_some() => Told::Whole,
        true => Told::Part,
        false => Told::Reading,
    };
    glances(&governed.findings, (plan, governed.rules), &told)
}

fn now(reports: Vec<RuleReport>, options: &Options) -> Vec<RuleNow> {
    let one = |report: RuleReport| RuleNow {
        whole: options.selected.as_ref() == Some(&report.id),
        report,
    };
    reports.into_iter().map(one).collect()
}
