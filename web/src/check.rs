//! What comes of a plan.

use rules_core::drawing::Drawing;
use rules_core::edit::{Change, change};
use rules_core::report::Report;
use rules_core::{Followed, RulesRead, follow as followed, judge_texts, refusal_to_json};
use serde::Serialize;
use serde_json::json;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::draw::wanted;
use crate::rules::{fitted, judged, rules_of, start_of};
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
/// fault: it is left out of sight and told. `options` are those of [`draw`](crate::draw()).
#[wasm_bindgen]
pub fn answer(plan: &str, rules: &str, options: &str) -> String {
    let options = match wanted(options) {
        Ok(options) => options,
        Err(wrong) => return wrong,
    };
    let answer = rules_of(rules).and_then(|read| {
        let mut fitted = fitted(plan, &read)?;
        let options = options.holding(&mut fitted.document);
        let (report, drawing) = judged(&fitted.document, &read, [plan, rules], &options)?;
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

/// One step of a drag: what comes out otherwise than for the plan before the change, `{"verdict", "counts", "rules",
/// "layers"}`; of a rule its id, its outcome and, under the names of the report, the texts of its line in a list (of the
/// selected one all), and null for a layer that is drawn as before; `{"wrong": "…"}` where nothing can be changed so. What is
/// the same in every step, the plan and the rules, is read once.
#[wasm_bindgen]
pub fn follow(plan: &str, rules: &str, options: &str, wish: &str) -> String {
    let wish: Change = match serde_json::from_str(wish) {
        Ok(wish) => wish,
        Err(wrong) => return json!({"wrong": wrong.to_string()}).to_string(),
    };
    match rules_of(rules) {
        Ok(read) => step(&read, [plan, rules], options, &wish)
            .map_or_else(|wrong| wrong, |step| written(&step)),
        Err(refusal) => refusal_to_json(&refusal),
    }
}

fn step(
    rules: &RulesRead,
    texts: [&str; 2],
    options: &str,
    wish: &Change,
) -> Result<Followed, String> {
    let refused = |refusal| refusal_to_json(&refusal);
    let [plan, rules_text] = texts;
    let wanted = wanted(options)?;
    let start = start_of([plan, rules_text, options], rules, &wanted).map_err(refused)?;
    let mut document = start.document.clone();
    change(&mut document, wish).map_err(|wrong| json!({"wrong": wrong.0}).to_string())?;
    let options = wanted.holding(&mut document);
    let plan = (&document, plan);
    followed(&start.begun, plan, &rules.rule_set, &options).map_err(refused)
}
