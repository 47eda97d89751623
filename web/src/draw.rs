//! The drawing.

use rules_core::drawing::{Drawing, Options};
use rules_core::edit::{Add, Change, change};
use rules_core::text::Node;
use rules_core::{Refusal, refusal_to_json};
use serde_json::json;

use crate::held::{texts, with};
use crate::rules::{fitted, judged, rules_of};

/// The plan as SVG, whose text begins with `<`; what cannot be drawn comes back as `{"refused": …}`, options that are
/// none as `{"wrong": "…"}`. `options` is a JSON object with any of the keys of `rules_core::drawing::Options`.
/// A plan can only be drawn once it has a pool: one without is lent one, which is for the page to leave out.
pub fn draw(options: &str) -> String {
    let options = match wanted(options) {
        Ok(options) => options,
        Err(wrong) => return wrong,
    };
    match drawing(&options) {
        Ok(drawing) => drawing.map_or_else(String::new, |drawing| drawing.svg()),
        Err(refusal) => refusal_to_json(&refusal),
    }
}

/// The same as values; `None` if there is no lot, are no rules, or it cannot be drawn.
pub fn drawn(options: &Options) -> Option<Drawing> {
    let ready = with(|session| {
        let lot = session.plan().get("lot");
        lot.is_some_and(|lot| !lot.is_empty()) && !session.rules().text.is_empty()
    });
    ready.then(|| drawing(options).ok().flatten()).flatten()
}

fn drawing(options: &Options) -> Result<Option<Drawing>, Refusal> {
    let [plan, rules] = texts();
    let read = rules_of(&rules)?;
    let mut document = fitted(&plan, &read)?.document;
    lend_pool(&mut document);
    let options = options.holding(&mut document);
    let (_, drawing) = judged(&document, &read, [&plan, &rules], &options)?;
    Ok(drawing)
}

fn lend_pool(document: &mut Node) {
    if document.get("pool").is_some_and(|pool| !pool.is_empty()) {
        return;
    }
    let pool = Add {
        kind: "pool".to_owned(),
        outline: Some("water".to_owned()),
        shape: Some("area".to_owned()),
        at: None,
        size: None,
    };
    // Where there is no room for it the plan is refused, and that is said.
    let _ = change(document, &Change::Add(pool));
}

/// How a drawing is wanted; or an answer that says what is wrong with it.
pub fn wanted(options: &str) -> Result<Options, String> {
    serde_json::from_str(options).map_err(|wrong| json!({"wrong": wrong.to_string()}).to_string())
}
