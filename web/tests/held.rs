//! What the page holds, put there first: each call on a plan and rules of its own.

use rules_core::text::{read, to_json_text};
use siting_web::{open, own_rules};

/// Holds a plan and rules.
pub fn hold(plan: &str, rules: &str) {
    let opened = open(plan);
    assert!(!opened.contains("\"refused\""), "{opened}");
    own_rules(rules, "");
}

/// The plan that is held, as text.
pub fn held_plan() -> String {
    let link = siting_web::link();
    let plan = link
        .strip_prefix("{\"plan\": ")
        .and_then(|rest| rest.rsplit_once(", \"rules"));
    plan.expect("a plan").0.to_owned()
}

/// The example's home.
pub fn demo() -> String {
    to_json_text(&read(siting_rulesets::DEMO_PLAN).expect("the home reads"))
}

pub fn answer(plan: &str, rules: &str, options: &str) -> String {
    hold(plan, rules);
    siting_web::answer(options)
}

pub fn draw(plan: &str, rules: &str, options: &str) -> String {
    hold(plan, rules);
    siting_web::draw(options)
}

pub fn begin(plan: &str, rules: &str, options: &str) -> String {
    hold(plan, rules);
    siting_web::begin(options)
}

pub fn steps(plan: &str, rules: &str, start: &str) -> String {
    hold(plan, rules);
    siting_web::steps(start)
}

pub fn asked(rules: &str) -> String {
    own_rules(rules, "");
    siting_web::asked()
}

pub fn edit(plan: &str, wish: &str) -> String {
    hold(plan, "");
    siting_web::edit(wish)
}

pub fn handles(plan: &str, path: &str) -> String {
    hold(plan, "");
    siting_web::handles(path)
}
