//! Judging a plan while something on it is being dragged: the answer holds only what has changed.

use serde::{Serialize, Serializer};

use crate::answer::{Refusal, plan_of, plan_refused};
use crate::check::{Governed, governed};
use crate::drawing::{Element, Layers, Options, layers};
use crate::plan::Plan;
use crate::report::{Counts, Detail, RuleReport, RuleSummary, VerdictWords, rule_summaries};
use crate::ruleset::{Rule, RuleSet};
use crate::text::Node;

/// The start of a drag: a plan and the answer on it.
#[derive(Debug)]
pub struct DragStart {
    plan: Plan,
    rules: Vec<RuleNow>,
    layers: Layers,
}

/// What has changed since the start of a drag, and the totals.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DragUpdate {
    /// The verdict of all binding rules together.
    pub verdict: VerdictWords,
    /// How many binding rules have each outcome.
    pub counts: Counts,
    /// The rules that now show something different, in the order of the rule set.
    pub rules: Vec<RuleNow>,
    /// The layers of the drawing, lowest first; `None` for a layer that has not changed.
    pub layers: Vec<Option<Element>>,
}

/// A rule's result now. As JSON it is the whole report for a selected rule, and for any other rule only what its line
/// in a list shows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuleNow {
    report: RuleReport,
    whole: bool,
}

impl RuleNow {
    /// Its report: complete for a selected rule; for any other, only what its line in a list shows.
    pub fn into_report(self) -> RuleReport {
        self.report
    }
}

impl Serialize for RuleNow {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.whole {
            true => self.report.serialize(serializer),
            false => RuleSummary::of(&self.report).serialize(serializer),
        }
    }
}

/// Judges the document at the start of a drag. The text is the one that the document was read from.
///
/// # Errors
/// All faults of the plan, or that judging it would take too long.
pub fn start_drag(
    plan: (&Node, &str),
    rules: &RuleSet,
    options: &Options,
) -> Result<DragStart, Refusal> {
    let (start, ..) = judged(plan, rules, options, None)?;
    Ok(start)
}

/// Judges a document after a change, by the same rules and options as at the start of the drag, except for the handles.
/// The text is the one that the document at the start was read from.
///
/// # Errors
/// All faults of the changed plan, or that judging it would take too long.
pub fn update_drag(
    before: &DragStart,
    plan: (&Node, &str),
    rules: &RuleSet,
    options: &Options,
) -> Result<DragUpdate, Refusal> {
    let (mut now, verdict, counts) = judged(plan, rules, options, Some(before))?;
    now.rules.retain(|rule| !before.rules.contains(rule));
    Ok(DragUpdate {
        verdict,
        counts,
        rules: now.rules,
        layers: now.layers.diff(&before.layers),
    })
}

/// Judges and draws a document. Layers that have not changed are not drawn again.
fn judged(
    (document, text): (&Node, &str),
    rules: &RuleSet,
    options: &Options,
    before: Option<&DragStart>,
) -> Result<(DragStart, VerdictWords, Counts), Refusal> {
    let plan = plan_of((document, text), rules)?;
    let governed = governed(&plan, rules);
    let governed = governed.map_err(|too_much| plan_refused(text, too_much.of_plan()))?;
    let (reports, verdict, counts) = reports(&plan, &governed, options);
    let findings = (&governed.findings, reports.as_slice());
    let drawn = before.map(|before| (&before.plan, &before.layers));
    let layers = layers((&plan, governed.rules), findings, options, drawn);
    let rules = now(reports, options);
    let now = DragStart {
        plan,
        rules,
        layers,
    };
    Ok((now, verdict, counts))
}

fn reports(
    plan: &Plan,
    governed: &Governed<'_>,
    options: &Options,
) -> (Vec<RuleReport>, VerdictWords, Counts) {
    let detail = |rule: &Rule, outcome| match options.shows(rule, outcome) {
        true if options.selected.is_some() => Detail::Whole,
        true => Detail::Part,
        false => Detail::Reading,
    };
    rule_summaries(&governed.findings, (plan, governed.rules), &detail)
}

fn now(reports: Vec<RuleReport>, options: &Options) -> Vec<RuleNow> {
    let one = |report: RuleReport| RuleNow {
        whole: options.selected.as_ref() == Some(&report.id),
        report,
    };
    reports.into_iter().map(one).collect()
}
