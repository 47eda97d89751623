//! The rule sets that come with the program: every folder of `rulesets/` that has a `rules.yaml`.

include!(concat!(env!("OUT_DIR"), "/bundled.rs"));

/// The example's plan.
pub const DEMO_PLAN: &str = include_str!("../../rulesets/eldermere/home.yaml");
/// The example's rules.
pub const DEMO_RULES: &str = include_str!("../../rulesets/eldermere/rules.yaml");

/// The text of the rule set of that name.
pub fn rules(name: &str) -> Option<&'static str> {
    let found = BUNDLED.iter().find(|(bundled, ..)| *bundled == name);
    found.map(|(_, text, _)| *text)
}

/// Their names, for a sentence.
pub fn names() -> String {
    let names: Vec<&str> = BUNDLED.iter().map(|(name, ..)| *name).collect();
    names.join(", ")
}

/// All of them: each with its name and its text, in the order of the names.
pub fn all() -> impl Iterator<Item = (&'static str, &'static str)> {
    BUNDLED.iter().map(|(name, text, _)| (*name, *text))
}

/// The text of its cases, where it has any.
pub fn cases(name: &str) -> Option<&'static str> {
    let found = BUNDLED.iter().find(|(bundled, ..)| *bundled == name);
    found.and_then(|(_, _, cases)| *cases)
}
