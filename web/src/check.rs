//! The result for a plan.

use std::rc::Rc;

use rules_core::drawing::{Drawing, Options};
use rules_core::edit::{Change, change};
use rules_core::steps::Steps;
use rules_core::text::Node;
use rules_core::{
    DragUpdate, Refusal, Report, RulesRead, judge_texts, refusal_to_json, start_drag, steps_by,
    update_drag,
};
use serde::Serialize;
use serde_json::json;

use crate::draw::wanted;
use crate::held::texts;
use crate::rules::{Fitted, Start, fitted, judged, keep_start, rules_of, with_start};
use crate::written::written;

/// Judges a plan by a rule set: `{"report": …}`. What the rule set builds on is looked for among the bundled ones.
pub fn check(plan: &str, rules: &str) -> String {
    rules_core::to_json(&judge_texts(plan, rules, &|name| {
        siting_rulesets::rules(name)
    }))
}

/// The result for a plan.
#[derive(Debug, Serialize)]
pub struct Answered {
    /// The report.
    pub report: Report,
    /// The drawing.
    pub drawing: Option<Drawing>,
    /// The paths of what the plan holds for other rule sets. These rules have no word for those: that is no fault, but
    /// they are left out, and the page says so.
    pub left_out: Vec<String>,
    /// The plan as it was judged.
    #[serde(skip)]
    document: Node,
    #[serde(skip)]
    rules: Rc<RulesRead>,
    /// The text of the rules.
    #[serde(skip)]
    pub rules_text: String,
}

impl Answered {
    /// The steps that the rules ask of this plan, from a day on.
    pub fn steps(&self, start: i128) -> Option<Steps> {
        let (plan, rules) = (
            (&self.document, ""),
            (&self.rules.rule_set, &*self.rules_text),
        );
        let bases = |name: &str| siting_rulesets::rules(name);
        // It was judged before, so that there is nothing to refuse.
        steps_by(plan, rules, &bases, start).ok()
    }
}

/// The result for the current plan, with its drawing.
pub fn answered(options: &Options) -> Result<Answered, Refusal> {
    let [plan, rules_text] = texts();
    let rules = rules_of(&rules_text)?;
    let Fitted {
        mut document,
        left_out,
    } = fitted(&plan, &rules)?;
    let options = options.holding(&mut document);
    let (report, drawing) = judged(&document, &rules, [&plan, &rules_text], &options)?;
    Ok(Answered {
        report,
        drawing,
        left_out,
        document,
        rules,
        rules_text,
    })
}

/// The same as JSON: `{"report", "drawing": {"open", "layers"}, "left_out": ["answers.…"]}`, or what [`check`] gives if
/// it is refused. A fault of the plan has the path it is about. `options` are those of [`draw`](crate::draw()).
pub fn answer(options: &str) -> String {
    let options = match wanted(options) {
        Ok(options) => options,
        Err(wrong) => return wrong,
    };
    match answered(&options) {
        Ok(answered) => written(&answered),
        Err(refusal) => refusal_to_json(&refusal),
    }
}

/// A drag begins with this plan; `options` are those of [`draw`](crate::draw()). Gives nothing where it can, else what
/// [`check`] gives where it is refused, or `{"wrong": "…"}`.
pub fn begin(options: &str) -> String {
    wanted(options)
        .and_then(begin_with)
        .err()
        .unwrap_or_default()
}

/// The same for options, as values.
pub fn begin_with(options: Options) -> Result<(), String> {
    let [plan, rules] = texts();
    keep_start(None);
    keep_start(Some(start_of(&plan, &rules, options)?));
    Ok(())
}

fn start_of(plan: &str, rules: &str, options: Options) -> Result<Start, String> {
    let refused = |refusal| refusal_to_json(&refusal);
    let rules = rules_of(rules).map_err(refused)?;
    let mut document = fitted(plan, &rules).map_err(refused)?.document;
    let whole = options.holding(&mut document);
    let begun = start_drag((&document, plan), &rules.rule_set, &whole).map_err(refused)?;
    Ok(Start {
        text: plan.to_owned(),
        document,
        rules,
        options,
        begun,
    })
}

/// One step of the drag that [`begin`] began: what differs from the plan before the change (JSON, as
/// `rules_core::edit::Change` has it), `{"verdict", "counts", "rules", "layers"}`. Of a rule its id, its outcome and, under the
/// names of the report, the texts of its line in a list, of the selected one all; null for a layer that is drawn as before.
/// `{"wrong": "…"}` where nothing can be changed so, `{"refused": …}` where the plan would not do.
pub fn follow(wish: &str) -> String {
    let wish = serde_json::from_str(wish).map_err(|error| wrong(error.to_string()));
    let step = wish.and_then(|wish| followed(&wish));
    step.map_or_else(|wrong| wrong, |step| written(&step))
}

/// The same for a change, as values.
pub fn followed(wish: &Change) -> Result<DragUpdate, String> {
    with_start(|start| match start {
        Some(start) => step(start, wish),
        None => Err(wrong("No drag has begun.".to_owned())),
    })
}

fn wrong(wrong: String) -> String {
    json!({"wrong": wrong}).to_string()
}

fn step(start: &Start, wish: &Change) -> Result<DragUpdate, String> {
    let mut document = start.document.clone();
    change(&mut document, wish).map_err(|why| wrong(why.0))?;
    let options = start.options.holding(&mut document);
    let (plan, rules) = ((&document, start.text.as_str()), &start.rules.rule_set);
    update_drag(&start.begun, plan, rules, &options).map_err(|refusal| refusal_to_json(&refusal))
}
