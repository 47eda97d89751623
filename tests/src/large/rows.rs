//! The large inputs by name, with the sizes to try.

use super::{plans, rules};

/// Inputs of one type.
pub struct Row {
    /// Their name.
    pub name: &'static str,
    /// Makes a plan and a rule set of some size.
    pub make: fn(usize) -> (String, String),
    /// The sizes to try.
    pub sizes: &'static [usize],
}

const ELDERMERE: &str = include_str!("../../../rulesets/eldermere/rules.yaml");
const HOME: &str = include_str!("../../../rulesets/eldermere/home.yaml");

fn row(name: &'static str, sizes: &'static [usize], make: fn(usize) -> (String, String)) -> Row {
    Row { name, make, sizes }
}

/// A rule set, with a small plan.
fn by(rules: String) -> (String, String) {
    (plans::small_plan(), rules)
}

/// A plan under the demo's rules.
fn of(plan: String) -> (String, String) {
    (plan, ELDERMERE.to_owned())
}

/// All rows.
pub fn rows() -> Vec<Row> {
    vec![
        row("demo", &[1], |_| of(HOME.to_owned())),
        row("rules", &[500, 5000], |n| by(rules::alike(n))),
        row("laughs", &[4, 5, 40], |n| by(rules::laughs(n))),
        row("six-laughs", &[6], |n| by(rules::many_laughs(n))),
        row("doubling", &[15, 1000], |n| by(rules::doubling(n))),
        row("nest", &[4, 8, 20], |n| {
            by(rules::nested_each(n, "lot-line"))
        }),
        row("pools", &[10, 100, 1000], |n| of(plans::pools(n))),
        row("corners", &[200, 1000, 2000, 8000], |n| {
            of(plans::corners(n))
        }),
        row("fence", &[10_000, 50_000], |n| {
            (plans::close_fence(n), rules::unenclosed())
        }),
        row("nearest", &[500, 1000, 2000], |n| {
            (plans::trees_and_wells(n, n), rules::nearest())
        }),
        row("pairs", &[500, 1000, 2000], |n| {
            (plans::trees_and_wells(n, n), rules::each_pair())
        }),
        row("on-foot", &[20, 100, 400, 1900], |n| {
            (plans::buildings(n), rules::on_foot())
        }),
        row("covered", &[100, 400, 1900], |n| {
            (plans::buildings(n), rules::covered())
        }),
        row("combs", &[2, 4, 40, 400], |n| {
            (plans::combs(n), rules::covered())
        }),
        row("combs-on-foot", &[1, 2], |n| {
            (plans::combs(n), rules::on_foot())
        }),
        row("enclosed", &[10_000, 50_000], |n| {
            (plans::close_fence(n), rules::enclosed())
        }),
        row("ground", &[200, 1900], |n| {
            (plans::spots(n), rules::on_ground())
        }),
        row("list", &[500, 5000, 20_000], |n| by(rules::long_list(n))),
        row("table", &[500, 5000, 20_000], |n| by(rules::long_table(n))),
        row("questions", &[500, 5000], |n| by(rules::questions(n))),
        row("papers", &[500, 5000], |n| by(rules::papers(n))),
    ]
}

/// The plan and the rules of a row by name and size, as in `pools-100`. A rule set after a slash replaces the row's
/// own, as in `pools-100/denmark`.
pub fn named(name: &str, bundled: &dyn Fn(&str) -> Option<String>) -> Option<(String, String)> {
    let (row, set) = name.split_once('/').unwrap_or((name, ""));
    let (row, size) = row.rsplit_once('-')?;
    let size = size.parse().ok()?;
    let row = rows().into_iter().find(|it| it.name == row)?;
    let (plan, rules) = (row.make)(size);
    match set {
        "" => Some((plan, rules)),
        set => Some((plan, bundled(set)?)),
    }
}
