//! Large rule sets.

use std::fmt::Write as _;

const RULES: &str = "\
ruleset: large
title: Large
edition: \"1\"
authority: the office
notice: Invented for tests.
";

/// A rule file with these terms and rules.
pub fn rules(terms: &str, rules: &str) -> String {
    let terms = if terms.is_empty() {
        String::new()
    } else {
        format!("terms:\n{terms}")
    };
    format!("{RULES}{terms}rules:\n{rules}")
}

/// `deep` terms that each add up the one before fifty times, and a rule that uses the last.
pub fn laughs(deep: usize) -> String {
    rules(
        &laughing("t", deep),
        &by_sum("a", &format!("t{}", deep - 1)),
    )
}

/// `towers` sets of terms as in [`laughs`], five deep, each with a rule.
pub fn many_laughs(towers: usize) -> String {
    let names: Vec<String> = (0..towers).map(|at| format!("t{at}-")).collect();
    let terms: String = names.iter().map(|name| laughing(name, 5)).collect();
    let by: String = names
        .iter()
        .enumerate()
        .map(|(at, name)| by_sum(&format!("r{at}"), &format!("{name}4")))
        .collect();
    rules(&terms, &by)
}

fn laughing(name: &str, deep: usize) -> String {
    let sum = |of: &str| format!("{{sum: [{}]}}", vec![of; 50].join(", "));
    let mut terms = format!("  {name}0: {}\n", sum("pool.depth"));
    for at in 1..deep {
        let _ = writeln!(terms, "  {name}{at}: {}", sum(&format!("{name}{}", at - 1)));
    }
    terms
}

fn by_sum(id: &str, term: &str) -> String {
    format!("  - {{id: {id}, title: {id}, clause: C, require: {{value: {term}, at-least: 1 m}}}}\n")
}

/// `terms` terms that each name the one before twice.
pub fn doubling(terms: usize) -> String {
    let mut all = "  t0: {fact: pool.depth, at-least: 1 m}\n".to_owned();
    for at in 1..terms {
        let before = at - 1;
        let _ = writeln!(
            all,
            "  t{at}: {{all-of: [{{meets: t{before}}}, {{meets: t{before}}}]}}"
        );
    }
    let last = terms - 1;
    rules(
        &all,
        &format!("  - {{id: a, title: A, clause: C, require: {{meets: t{last}}}}}\n"),
    )
}

/// A rule with `deep` nested `each`.
pub fn nested_each(deep: usize, kind: &str) -> String {
    let mut require = "{fact: pool.depth, at-least: 1 m}".to_owned();
    for _ in 0..deep {
        require = format!("{{each: {kind}, require: {require}}}");
    }
    rules(
        "",
        &format!("  - {{id: a, title: A, clause: C, require: {require}}}\n"),
    )
}

/// A rule about the nearest well to each tree.
pub fn nearest() -> String {
    rules(
        "",
        "  - {id: a, title: A, clause: C, each: tree, require: {distance: {from: tree.stem, to: well.casing}, at-least: 100 mm}}\n",
    )
}

/// A rule about each tree and each well.
pub fn each_pair() -> String {
    rules(
        "",
        "  - {id: a, title: A, clause: C, each: tree, require: {each: well, require: {distance: {from: tree.stem, to: well.casing}, at-least: 100 mm}}}\n",
    )
}

/// A rule with one requirement, on each of some things or on the plan.
fn one_rule(each: &str, require: &str) -> String {
    rules(
        "",
        &format!("  - {{id: a, title: A, clause: C{each}, require: {require}}}\n"),
    )
}

/// A rule about the walking distance from the well to the pool.
pub fn on_foot() -> String {
    one_rule(
        "",
        "{distance: {from: well.casing, to: pool.water, measured: walking}, at-least: 5 m}",
    )
}

/// A rule about what all buildings cover together, and about what they cover near the pool.
pub fn covered() -> String {
    one_rule(
        "",
        "[{area: {of: building.wall}, at-most: 300 m2}, {area: {of: building.wall, in: {around: pool.water, by: 3 m}}, at-most: 30 m2}]",
    )
}

/// The demo's rules without the one on the widest gap in the barrier, which `enclosed` tries by itself.
pub fn unenclosed() -> String {
    "ruleset: fences\ntitle: Fences\nedition: \"1\"\nauthority: Eldermere building office\nbuilds-on: [eldermere]\n\
     rules: [{withdraws: barrier-all-round, clause: \"1\"}]\n"
        .to_owned()
}

/// A rule about the widest gap in the barrier.
pub fn enclosed() -> String {
    one_rule(
        "",
        "{enclosure: {of: pool.water, from: [street, neighbour-lot], made-of: [barrier-stretch, gate]}, at-most: 100 mm}",
    )
}

/// A rule about the ground's level at the pool, and how much must be filled in.
pub fn on_ground() -> String {
    one_rule(
        "",
        "[{ground-level: {at: pool.water}, at-least: 9 m}, {volume: {over: pool.water, from: 9 m, to: ground}, at-most: 100 m3}]",
    )
}

/// A rule that holds where one of `tests` tests does.
pub fn long_list(tests: usize) -> String {
    let test = |at: usize| format!("{{fact: pool.depth, at-most: {} mm}}", at + 1);
    let tests: Vec<String> = (0..tests).map(test).collect();
    one_rule("", &format!("{{any-of: [{}]}}", tests.join(", ")))
}

/// A rule with a table of `rows` rows.
pub fn long_table(rows: usize) -> String {
    let row = |at: usize| format!("{{at-most: {} mm, then: {} mm}}", at + 1, at + 7);
    let rows: Vec<String> = (0..rows).map(row).collect();
    one_rule(
        "",
        &format!(
            "{{distance: {{from: pool.water, to: lot-line.line}}, at-least: {{table: {{by: pool.depth, rows: [{}, {{otherwise: 3 m}}]}}}}}}",
            rows.join(", ")
        ),
    )
}

/// `count` rules, all with the same requirement.
pub fn alike(count: usize) -> String {
    let rule = |at: usize| {
        format!(
            "  - {{id: r{at}, title: A, clause: C, require: {{fact: pool.depth, at-most: {} mm}}}}\n",
            at + 1000
        )
    };
    rules("", &(0..count).map(rule).collect::<String>())
}

/// `count` questions, each with a rule that needs its answer.
pub fn questions(count: usize) -> String {
    let question = |at: usize| format!("  - {{id: q{at}, ask: Is it so?, answer: yes-no}}\n");
    let rule = |at: usize| {
        format!(
            "  - {{id: r{at}, title: A, clause: C, require: {{fact: answers.q{at}, is: yes}}}}\n"
        )
    };
    format!(
        "{RULES}questions:\n{}rules:\n{}",
        (0..count).map(question).collect::<String>(),
        (0..count).map(rule).collect::<String>()
    )
}

/// `count` documents and as many steps, each after the one before it.
pub fn papers(count: usize) -> String {
    let document =
        |at: usize| format!("  - {{id: d{at}, title: A paper, from: somebody, needed: always}}\n");
    let duty = |at: usize| {
        let after = if at == 0 {
            String::new()
        } else {
            format!(", after: s{}, by: 1 days", at - 1)
        };
        format!("  - {{id: s{at}, what: Do it, who: somebody{after}}}\n")
    };
    format!(
        "{RULES}documents:\n{}do:\n{}",
        (0..count).map(document).collect::<String>(),
        (0..count).map(duty).collect::<String>()
    )
}
