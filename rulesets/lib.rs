//! The rule sets that come with the program: every folder beside this file that has a `rules.yaml`.

/// The texts of one rule set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RuleSetTexts {
    /// The name of its folder, under which other rule sets build on it.
    pub name: &'static str,
    /// Its rules.
    pub rules: &'static str,
    /// Its cases, where they stand in a file of their own.
    pub cases: Option<&'static str>,
    /// The plan of an example home under it, where it has one.
    pub home: Option<&'static str>,
}

include!(concat!(env!("OUT_DIR"), "/bundled.rs"));

/// The example's plan.
pub const DEMO_PLAN: &str = include_str!("eldermere/home.yaml");
/// The example's rules.
pub const DEMO_RULES: &str = include_str!("eldermere/rules.yaml");

/// All of them, in the order of their names.
pub fn all() -> &'static [RuleSetTexts] {
    BUNDLED
}

/// The one of that name.
pub fn named(name: &str) -> Option<&'static RuleSetTexts> {
    BUNDLED.iter().find(|set| set.name == name)
}

/// The text of the rule set of that name.
pub fn rules(name: &str) -> Option<&'static str> {
    named(name).map(|set| set.rules)
}

/// The text of its cases, where it has any.
pub fn cases(name: &str) -> Option<&'static str> {
    named(name)?.cases
}

/// Their names, for a sentence.
pub fn names() -> String {
    let names: Vec<&str> = BUNDLED.iter().map(|set| set.name).collect();
    names.join(", ")
}
