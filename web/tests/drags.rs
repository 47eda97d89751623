//! Compares each step of a drag with judging and drawing the changed plan as a whole.

use serde_json::Value;
use siting_web::follow;

use crate::bindings::{BLANK, json, rules};
use crate::held::{answer, begin, demo, edit, held_plan};

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

/// The layers of a drawing, in order.
pub fn whole(drawing: &Value) -> String {
    let layers = drawing["layers"].as_array().expect("a list").iter();
    let layers: String = layers
        .map(|layer| layer.as_str().expect("a text"))
        .collect();
    format!(
        "{}{layers}</svg>",
        drawing["open"].as_str().expect("a text")
    )
}

/// What a step of a drag returns, and the full results for the plans before and after it.
struct Step {
    told: Value,
    before: Value,
    after: Value,
}

impl Step {
    fn taken(rules: &str, options: &str, wish: &str) -> Self {
        let (plan, rules) = (demo(), self::rules(rules));
        assert_eq!(begin(&plan, &rules, options), "");
        let told = json(&follow(wish));
        // The text as it stands: the order of a lot's corners counts.
        edit(&plan, wish);
        let moved = held_plan();
        let [before, after] = [&plan, &moved].map(|plan| json(&answer(plan, &rules, options)));
        assert!(after["report"].is_object(), "{after}");
        Self {
            told,
            before,
            after,
        }
    }

    /// Each rule's report before and after the step, and what the step returns for it.
    fn rules(&self) -> impl Iterator<Item = (&Value, &Value, Option<&Value>)> {
        let [before, after] = [&self.before, &self.after]
            .map(|answer| answer["report"]["rules"].as_array().expect("a list"));
        let told = self.told["rules"].as_array().expect("a list");
        let of = |id: &Value| told.iter().find(|rule| rule["id"] == *id);
        let both = before.iter().zip(after);
        both.map(move |(was, is)| (was, is, of(&is["id"])))
    }

    /// Each layer of the drawing before and after the step, and what the step returns for it.
    fn layers(&self) -> impl Iterator<Item = (&Value, &Value, &Value)> {
        let [before, after] = [&self.before, &self.after]
            .map(|answer| answer["drawing"]["layers"].as_array().expect("a list"));
        let told = self.told["layers"].as_array().expect("a list");
        let both = before.iter().zip(after);
        both.zip(told).map(|((was, is), told)| (was, is, told))
    }
}

/// What the line of a rule in a list shows.
fn line(rule: &Value) -> Vec<&Value> {
    let deciding = rule["deciding"].as_u64().unwrap_or_default();
    let part = &rule["parts"][usize::try_from(deciding).expect("a small number")];
    let outcome = &rule["outcome"];
    if ["pass", "not-applicable"].contains(&outcome.as_str().expect("a word")) {
        return vec![outcome, &part["brief"]];
    }
    let telling = part["telling"].as_u64();
    let telling = telling.map(|at| usize::try_from(at).expect("a small number"));
    let reading = telling.map_or(&Value::Null, |at| &part["readings"][at]);
    let texts = [&reading["measured"], &reading["limit"], &part["margin"]];
    let texts = texts.into_iter().map(|range| &range["text"]);
    texts.chain([outcome, &reading["bound"]]).collect()
}

const STILL: &str = r#"{"move": {"path": "pool", "dx": 0, "dy": 0}}"#;

const DRAGS: [&str; 6] = [
    r#"{"move": {"path": "pool", "dx": 1.2, "dy": -0.5}}"#,
    r#"{"move": {"path": "pool", "dx": -3, "dy": 2}}"#,
    r#"{"move": {"path": "pool", "dx": 0, "dy": 0.001}}"#,
    r#"{"move": {"path": "house", "dx": 0.3, "dy": 0.2}}"#,
    r#"{"pull": {"path": "pool", "what": "corner", "index": 2, "dx": 0.4, "dy": 0.3}}"#,
    r#"{"pull": {"path": "lot", "what": "corner", "index": 1, "dx": 0.4, "dy": 0.3}}"#,
];

const VIEWS: [&str; 5] = [
    r#"{"thing": "pool"}"#,
    r#"{"thing": "pool", "view": [-9000, -42000, 39000, 45000], "width": 600}"#,
    r#"{"view": [-9000, -42000, 39000, 45000], "shade": true}"#,
    r#"{"view": [-9000, -42000, 39000, 45000], "selected": "rear-line", "unit": "ft"}"#,
    r#"{"view": [-9000, -42000, 39000, 45000], "all-distances": true}"#,
];

/// Each step of a drag gives the same findings as a fresh check of the changed plan, but returns only the rules that changed.
#[test]
fn a_step_of_a_drag_gives_what_the_changed_plan_gives() {
    for (options, drag) in VIEWS.iter().flat_map(|view| DRAGS.map(|drag| (view, drag))) {
        let step = Step::taken("eldermere", options, drag);
        assert_eq!(step.told["verdict"], step.after["report"]["verdict"]);
        assert_eq!(step.told["counts"], step.after["report"]["counts"]);
        let mut told = 0;
        for (was, is, now) in step.rules() {
            told += usize::from(now.is_some());
            assert_eq!(line(now.unwrap_or(was)), line(is), "{options} {drag}");
            // The selected rule is returned whole, except for lines of files, which a drag does not know.
            let selected = options.contains(is["id"].as_str().expect("a text"));
            if let Some(now) = now.filter(|_| selected) {
                assert_eq!(now["sentence"], is["sentence"]);
            }
        }
        assert!(
            (1..step.rules().count()).contains(&told),
            "{options} {drag}"
        );
    }
}

/// A layer that is not returned has not changed; a returned one is drawn as it would be at rest.
#[test]
fn a_step_of_a_drag_draws_what_the_changed_plan_looks_like() {
    for (options, drag) in VIEWS.iter().flat_map(|view| DRAGS.map(|drag| (view, drag))) {
        let step = Step::taken("eldermere", options, drag);
        let mut told = 0;
        for (was, is, now) in step.layers() {
            told += usize::from(!now.is_null());
            // During a drag, the title of a distance names only the rule.
            if is.as_str().expect("a text").contains("class=\"distances") {
                continue;
            }
            assert_eq!(
                if now.is_null() { was } else { now },
                is,
                "{options} {drag}"
            );
        }
        assert!(told > 0, "{options} {drag}");
        if options.contains("view") && drag.contains("pool") && !options.contains("shade") {
            assert!(
                told <= 4,
                "the pool, its distances, letters and rings: {told}"
            );
        }
    }
}

#[test]
fn a_step_that_goes_nowhere_tells_nothing() {
    for options in VIEWS {
        let step = Step::taken("eldermere", options, STILL);
        assert_eq!(step.told["rules"], json("[]"), "{options}");
        assert!(step.layers().all(|(_, _, now)| now.is_null()), "{options}");
    }
}

/// When the pool is dragged, the list of rules is returned in few words.
#[test]
fn a_step_of_a_drag_is_short() {
    let step = Step::taken("eldermere", VIEWS[1], DRAGS[0]);
    let rules = step.told["rules"].to_string();
    assert!(
        !rules.contains("\"title\"") && rules.len() < 6000,
        "{rules}"
    );
}

#[test]
fn a_step_that_cannot_be_says_so() {
    let (plan, rules) = (demo(), rules("eldermere"));
    let begun = |plan: &str, rules: &str, options: &str| json(&begin(plan, rules, options));
    let step = |wish: &str| {
        assert_eq!(begin(&plan, &rules, "{}"), "");
        json(&follow(wish))
    };
    let wish = r#"{"move": {"path": "pool", "dx": 1, "dy": 0}}"#;
    assert!(step(wish)["verdict"].is_object());
    assert!(begun(BLANK, &rules, "{}")["refused"]["plan"].is_array());
    assert!(json(&follow(wish))["wrong"].is_string(), "none has begun");
    assert!(begun(&plan, "", "{}")["refused"]["rules"].is_array());
    assert!(begun(&plan, &rules, "[1]")["wrong"].is_string());
    assert!(step("{}")["wrong"].is_string());
    let nowhere = step(r#"{"move": {"path": "moon", "dx": 1, "dy": 0}}"#);
    assert!(
        nowhere["wrong"]
            .as_str()
            .expect("a sentence")
            .contains("moon")
    );
    let far = step(r#"{"move": {"path": "pool", "dx": 9000, "dy": 0}}"#);
    assert_eq!(far["refused"]["plan"][0]["code"], "pool-far-from-lot");
}
