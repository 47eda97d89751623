//! What comes of a plan.

use rules_core::drawing::Drawing;
use rules_core::edit::{Change, change};
use rules_core::report::Report;
use rules_core::{DragUpdate, judge_texts, refusal_to_json, start_drag, update_drag};
use serde::Serialize;
use serde_json::json;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::draw::wanted;
use crate::held::texts;
use crate::rules::{Start, fitted, judged, keep_start, rules_of, with_start};
use crate::written::written;

/// Judges a plan by a rule set: `{"report": …}`. What the rule set builds on is looked for among the bundled ones.
#[wasm_bindgen]
pub fn check(plan: &str, rules: &str) -> String {
    rules_core::to_json(&judge_texts(plan, rules, &|name| {
        siting_rulesets::rules(name)
    }))
}

#[derive(Serialize)]
struct Answer {
    report: Report,
    drawing: Option<Drawing>,
    left_out: Vec<String>,
}

/// What comes of a plan, and its drawing: `{"report", "drawing": {"open", "layers"}, "left_out": ["answers.…"]}`, or what
/// [`check`] gives where it is refused. What a plan holds for another rule set, and these rules have no word for, is no
/// fault: it is left out of sight and told. A fault of the plan has the path of what it speaks of. `options` are those of
/// [`draw`](crate::draw()).
#[wasm_bindgen]
pub fn answer(options: &str) -> String {
    let [plan, rules] = texts();
    let options = match wanted(options) {
        Ok(options) => options,
        Err(wrong) => return wrong,
    };
    let answer = rules_of(&rules).and_then(|read| {
        let mut fitted = fitted(&plan, &read)?;
        let options = options.holding(&mut fitted.document);
        let (report, drawing) = judged(&fitted.document, &read, [&plan, &rules], &options)?;
        Ok(Answer {
            report,
            drawing,
            left_out: fitted.left_out,
        })
    });
    match answer {
        Ok(answer) => written(&answer),
        Err(refusal) => refusal_to_json(&refusal),
    }
}

/// A drag begins with this plan; `options` are those of [`draw`](crate::draw()). Gives nothing where it can, else what
/// [`check`] gives where it is refused, or `{"wrong": "…"}`.
#[wasm_bindgen]
pub fn begin(options: &str) -> String {
    let [plan, rules] = texts();
    let (start, wrong) = match start_of(&plan, &rules, options) {
        Ok(start) => (Some(start), String::new()),
        Err(wrong) => (None, wrong),
    };
    keep_start(start);
    wrong
}

fn start_of(plan: &str, rules: &str, options: &str) -> Result<Start, String> {
    let refused = |refusal| refusal_to_json(&refusal);
    let options = wanted(options)?;
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
#[wasm_bindgen]
pub fn follow(wish: &str) -> String {
    let wish: Change = match serde_json::from_str(wish) {
        Ok(wish) => wish,
        Err(wrong) => return json!({"wrong": wrong.to_string()}).to_string(),
    };
    with_start(|start| match start {
        Some(start) => step(start, &wish).map_or_else(|wrong| wrong, |step| written(&step)),
        None => json!({"wrong": "No drag has begun."}).to_string(),
    })
}

fn step(start: &Start, wish: &Change) -> Result<DragUpdate, String> {
    let mut document = start.document.clone();
    change(&mut document, wish).map_err(|wrong| json!({"wrong": wrong.0}).to_string())?;
    let options = start.options.holding(&mut document);
    let (plan, rules) = ((&document, start.text.as_str()), &start.rules.rule_set);
    update_drag(&start.begun, plan, rules, &options).map_err(|refusal| refusal_to_json(&refusal))
}
