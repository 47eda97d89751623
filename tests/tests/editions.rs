//! Which edition of a rule set governs a plan: before, at and after the day from which the newer one counts, and where
//! that day is not known.

use outside_checks::random_plans;
use outside_checks::random_rules::rule_set;
use outside_checks::read;
use rules_core::check::{Governed, Outcome, Truth, Verdict, governed};
use rules_core::judge_texts;
use rules_core::plan;
use rules_core::ruleset::{self, RuleSet};
use rules_core::vocabulary::Vocabulary;

use crate::common::Plot;

const HEAD: &str = "title: Hazelbrook\nauthority: Hazelbrook building office\nnotice: Invented\n";

/// The edition of 2019: 2 m to a line, and a gate of no more than 1.2 m.
fn old() -> String {
    format!(
        "ruleset: hazelbrook-2019\nedition: \"2019\"\n{HEAD}in-force: {{from: 2019-05-01, by: applied}}\n\
         rules:\n  - {{id: line, title: Line, clause: s. 4, require: {{distance: {{from: pool.water, to: lot-line}}, at-least: 2 m}}}}\n\
         \x20 - {{id: depth, title: Depth, clause: s. 5, require: {{fact: pool.depth, at-most: 1 m}}}}\n"
    )
}

/// The edition of 2026: 4 m to a line, for applications that are handed in from New Year on.
fn new(in_force: &str) -> String {
    format!(
        "ruleset: hazelbrook\nedition: \"2026\"\n{HEAD}earlier: hazelbrook-2019\nin-force: {in_force}\n\
         questions: [{{id: chose-new, ask: Is the edition of 2026 chosen?, answer: yes-no}}]\n\
         rules:\n  - {{id: line, title: Line, clause: s. 4, require: {{distance: {{from: pool.water, to: lot-line}}, at-least: 4 m}}}}\n\
         \x20 - {{id: kept, title: Kept, clause: s. 6, require: {{fact: pool.depth, at-most: 3 m}}}}\n"
    )
}

const BY_APPLICATION: &str = "{from: 2026-01-01, by: applied}";

fn rules(new: &str, old: &str) -> RuleSet {
    read::layered(new, &|name| name.contains("2019").then_some(old))
}

/// A lot on which the pool is this far from one line and 10 m from the others.
fn plan_text(metres: &str, more: &str) -> String {
    let plot = Plot::top(more).and_pool("depth", "1.5 m");
    plot.and_east(metres).text()
}

/// The edition whose rules the findings are by, the verdict, and what each rule comes to.
fn found(rules: &RuleSet, metres: &str, more: &str) -> (String, Verdict, Vec<(String, Outcome)>) {
    let plan = read::plan(&plan_text(metres, more), rules);
    let all = governed(&plan, rules).expect("not too much work");
    let outcomes = all.findings.rules.iter();
    let outcomes = outcomes.map(|it| (all.rules.rule(it.rule).unwrap().id.clone(), it.outcome));
    (
        all.rules.edition.clone(),
        all.findings.verdict,
        outcomes.collect(),
    )
}

fn line(rules: &RuleSet, metres: &str, more: &str) -> (String, Outcome) {
    let (edition, _, outcomes) = found(rules, metres, more);
    (edition, outcomes[0].1)
}

#[test]
fn the_day_of_the_application_says_which_edition() {
    let rules = rules(&new(BY_APPLICATION), &old());
    let on = |day: &str| line(&rules, "3", &format!("dates: {{applied: {day}}}"));
    assert_eq!(on("2025-12-31"), ("2019".to_owned(), Outcome::Pass));
    assert_eq!(on("2026-01-01"), ("2026".to_owned(), Outcome::Fail));
    assert_eq!(on("2026-06-01"), ("2026".to_owned(), Outcome::Fail));
    // Before the first edition nothing is in force.
    assert_eq!(
        on("2019-04-30"),
        ("2026".to_owned(), Outcome::NotApplicable)
    );
}

#[test]
fn where_the_day_is_not_known_both_may_hold() {
    let old_always = old().replace("in-force: {from: 2019-05-01, by: applied}\n", "");
    let rules = rules(&new(BY_APPLICATION), &old_always);
    // Between 2 m and 4 m it turns on the edition, beyond that it passes either way, below that it fails either way.
    assert_eq!(line(&rules, "3", "").1, Outcome::Unknown);
    assert_eq!(line(&rules, "4", "").1, Outcome::Pass);
    assert_eq!(line(&rules, "1.999", "").1, Outcome::Fail);
    let (edition, verdict, outcomes) = found(&rules, "1.999", "");
    // `depth` fails in 2019, `kept` passes in 2026; the line is too near in both.
    assert_eq!(
        (edition.as_str(), verdict),
        ("2026", Verdict::DoesNotComply)
    );
    assert_eq!(outcomes[1], ("kept".to_owned(), Outcome::Pass));
    let plan = read::plan(&plan_text("4", ""), &rules);
    let all = governed(&plan, &rules).expect("not too much work");
    assert_eq!(all.findings.verdict, Verdict::NotDecided);
    let depth: Vec<_> = all.editions.iter().map(|it| it.outcome("depth")).collect();
    assert_eq!(depth, [None, Some(Outcome::Fail)]);
}

#[test]
fn what_turns_on_the_edition_asks_for_the_day() {
    let report = |more: &str| {
        let (new, old) = (new(BY_APPLICATION), old());
        let bases = |name: &str| name.contains("2019").then_some(old.as_str());
        judge_texts(&plan_text("3", more), &new, &bases).expect("a report")
    };
    let open = report("");
    let asked: Vec<_> = open.rules[0]
        .missing
        .iter()
        .map(|it| it.name.as_str())
        .collect();
    assert_eq!(asked, ["events.applied"]);
    assert_eq!(
        open.rules[0].sentence,
        "This depends on the edition: under edition 2026 it fails and under edition 2019 it passes."
    );
    let editions: Vec<_> = open
        .editions
        .iter()
        .map(|it| (it.edition.as_str(), it.sure))
        .collect();
    assert_eq!(editions, [("2026", false), ("2019", false)]);
    let text = rules_core::report::text::render(&open, Default::default());
    assert!(text.contains("If it is edition 2019"), "{text}");
    let before = report("dates: {applied: 2020-01-01}");
    assert_eq!(before.rule_set.edition, "2019");
    // The line named is one of the earlier edition's file.
    assert_eq!(before.rules[1].rule_line, Some(9));
    let text = rules_core::report::text::render(&before, Default::default());
    assert!(
        text.contains("Edition 2019 (in force from 2019-05-01 on, by the day of the"),
        "{text}"
    );
}

/// The day may be one of the pool's own; of several pools, that of any of them will do.
#[test]
fn the_day_on_which_a_pool_was_built_can_say_which_edition() {
    let by_pool = |text: String| text.replace("by: applied", "by: pool.built-on");
    let rules = rules(&by_pool(new(BY_APPLICATION)), &by_pool(old()));
    let of = |pools: &str| {
        let text = plan_text("3", "");
        let (before, _) = text.split_once("pool:\n").expect("a pool");
        let plan = read::plan(&format!("{before}pool:{pools}\n"), &rules);
        let all = governed(&plan, &rules).expect("not too much work");
        (all.rules.edition.clone(), all.findings.rules[0].outcome)
    };
    let pool = |id: &str, at: &str, day: &str| {
        format!(
            "\n  - {{id: {id}, source: exact, depth: 1 m, built-on: {day}, water: {{rectangle: {{at: {at}, length: 4 m, width: 8 m}}}}}}"
        )
    };
    let one = |day: &str| of(&pool("pool", "[3, 10]", day));
    assert_eq!(one("2025-12-31"), ("2019".to_owned(), Outcome::Pass));
    assert_eq!(one("2026-01-01"), ("2026".to_owned(), Outcome::Fail));
    assert_eq!(one("unknown").1, Outcome::Unknown);
    let two = |one: &str, other: &str| {
        of(&(pool("pool", "[3, 10]", one) + &pool("spa", "[9, 10]", other)))
    };
    assert_eq!(two("2025-12-31", "2025-06-01").0, "2019");
    assert_eq!(two("2025-12-31", "2026-01-01").0, "2026");
    assert_eq!(two("2025-12-31", "unknown").1, Outcome::Unknown);
}

#[test]
fn the_authority_has_its_own_rule_about_what_is_under_way() {
    let chosen = "{from: 2026-01-01, by: permit-issued, or-when: {fact: chose-new, is: yes}, unless: {fact: works.already-built, is: yes}}";
    let rules = rules(&new(chosen), &old());
    let under = |more: &str| {
        line(
            &rules,
            "3",
            &format!("dates: {{applied: 2025-10-01, permit-issued: {more}"),
        )
        .0
    };
    let built = "works: {already-built: no}";
    assert_eq!(
        under(&format!(
            "2025-12-31}}\n{built}\nanswers: {{chose-new: no}}"
        )),
        "2019"
    );
    assert_eq!(
        under(&format!(
            "2026-02-01}}\n{built}\nanswers: {{chose-new: no}}"
        )),
        "2026"
    );
    assert_eq!(
        under(&format!(
            "2025-12-31}}\n{built}\nanswers: {{chose-new: yes}}"
        )),
        "2026"
    );
    assert_eq!(
        under("2026-02-01}\nworks: {already-built: yes}\nanswers: {chose-new: no}"),
        "2019"
    );
    // Whether it is chosen is not known: both may hold.
    let (_, outcome) = line(
        &rules,
        "3",
        &format!("dates: {{applied: 2025-10-01, permit-issued: 2025-12-31}}\n{built}"),
    );
    assert_eq!(outcome, Outcome::Unknown);
}

/// What stands against nobody is one class.
fn class(truth: Truth) -> Truth {
    let harmless = Truth::HOLDS.or_else(Truth::NOT_APPLICABLE);
    let any = [Truth::HOLDS, Truth::NOT_APPLICABLE]
        .iter()
        .any(|it| it.within(truth));
    if any { truth.or_else(harmless) } else { truth }
}

fn truth_of(all: &Governed<'_>, id: &str) -> Truth {
    let found = all.findings.rules.iter();
    let mut found = found.filter(|it| all.rules.rule(it.rule).unwrap().id == id);
    found.next().map_or(Truth::NOT_APPLICABLE, |it| it.truth)
}

/// Two random files as the editions of one rule set.
fn random_editions(seed: u64, vocabulary: &Vocabulary) -> Option<RuleSet> {
    let file = |seed: u64, id: &str, head: &str| {
        let text = rule_set(seed, vocabulary).replace("ruleset: random", &format!("ruleset: {id}"));
        let kept: Vec<_> = text
            .lines()
            .filter(|line| !line.starts_with("in-force"))
            .collect();
        format!("{}\n{head}", kept.join("\n"))
    };
    let oldest =
        ["", "in-force: {from: 2018-01-01, by: applied}\n"][usize::from(seed.is_multiple_of(2))];
    let old = file(2 * seed, "random-2019", oldest);
    let new = file(
        2 * seed + 1,
        "random",
        "earlier: random-2019\nin-force: {from: 2024-01-01, by: applied}\n",
    );
    let bases = |name: &str| (name == "random-2019").then_some(old.as_str());
    Some(
        ruleset::read(&new, &bases, Vocabulary::standard())
            .ok()?
            .rule_set,
    )
}

#[test]
fn a_day_that_is_not_known_leaves_all_that_each_day_gives() {
    let vocabulary = Vocabulary::standard();
    let days = [
        "2017-12-31",
        "2018-01-01",
        "2023-12-31",
        "2024-01-01",
        "2026-05-05",
    ];
    let (mut tried, mut decided, mut open) = (0, 0, 0);
    for seed in 0..600 {
        let Some(rules) = random_editions(seed, &vocabulary) else {
            continue;
        };
        let text = random_plans::plan(seed);
        let undated: Vec<_> = text
            .lines()
            .filter(|line| !line.starts_with("dates:"))
            .collect();
        let undated = undated.join("\n");
        let Ok(unknown) = plan::read(&undated, &rules.vocabulary) else {
            continue;
        };
        tried += 1;
        let unknown = governed(&unknown, &rules).expect("not too much work");
        for day in days {
            let dated = format!("{undated}\ndates: {{applied: {day}}}\n");
            let dated = read::plan(&dated, &rules);
            let known = governed(&dated, &rules).expect("not too much work");
            for rule in &unknown.rules.rules {
                let (before, after) = (truth_of(&unknown, &rule.id), truth_of(&known, &rule.id));
                assert!(
                    class(after).within(class(before)),
                    "{seed}, {day}, {}: {before:?} to {after:?}",
                    rule.id
                );
                match before.is_open() {
                    true => open += 1,
                    false => decided += 1,
                }
            }
            let verdict = unknown.findings.verdict;
            assert!(
                verdict == Verdict::NotDecided || verdict == known.findings.verdict,
                "{seed}, {day}"
            );
        }
    }
    assert!(
        tried > 100 && decided > 100 && open > 100,
        "{tried} tried, {decided} decided, {open} open"
    );
}
