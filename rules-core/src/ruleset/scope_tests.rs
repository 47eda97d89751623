//! What rule files say of their scope, and of which matters their rules speak.

use std::collections::BTreeSet;

use super::{Checked, FileFaults, RuleSet, matters_of, read};
use crate::vocabulary::{Matter, Vocabulary};

const HEAD: &str = "ruleset: r\ntitle: R\nedition: '1'\nauthority: the office\n";
const GATE: &str = "rules:\n  - {id: latch, title: Latch, clause: s. 1, each: gate, require: {fact: gate.self-closing, is: yes}}\n";

fn check(body: &str) -> Result<Checked, Vec<FileFaults>> {
    over(body, "")
}

/// A file that may build on a file `base`.
fn over(body: &str, base: &str) -> Result<Checked, Vec<FileFaults>> {
    let base = format!("ruleset: base\ntitle: B\nedition: '1'\nauthority: the office\n{base}");
    let bases = |name: &str| (name == "base").then_some(base.as_str());
    read(&format!("{HEAD}{body}"), &bases, Vocabulary::standard())
}

fn faults(read: Result<Checked, Vec<FileFaults>>) -> Vec<(&'static str, String)> {
    let files = match read {
        Ok(checked) => checked.warnings,
        Err(files) => files,
    };
    let list = files.into_iter().flat_map(|file| file.faults.list);
    list.map(|fault| (fault.code.word(), fault.message))
        .collect()
}

/// All matters but these, as `leaves-out`.
fn leaving_out(but: &[&str]) -> String {
    let all = Matter::ALL.iter().filter(|it| !but.contains(&it.id()));
    let items = all.map(|it| format!("    - {{matter: {}, ask: somebody}}\n", it.id()));
    format!("  leaves-out:\n{}", items.collect::<String>())
}

fn of_rule(rule: &str) -> BTreeSet<Matter> {
    let body = format!(
        "rules:\n  - {{id: one, title: One, clause: s. 1, {rule}}}\nquestions:\n  - {{id: line-kept, ask: Is it kept?, answer: \
         yes-no, matter: zoning}}\ndocuments:\n  - {{id: letter, title: Letter}}\n"
    );
    let checked = check(&body).unwrap_or_else(|files| panic!("{rule}: {files:?}"));
    matters_of(&checked.rule_set.rules[0], &checked.rule_set.vocabulary)
}

#[test]
fn a_rule_speaks_of_what_it_requires() {
    use Matter::*;
    for (rule, matters) in [
        (
            "each: gate, require: {fact: gate.self-closing, is: yes}",
            vec![Barrier],
        ),
        (
            "require: {distance: {from: pool.water, to: lot-line}, at-least: 3 m}",
            vec![LotLines],
        ),
        (
            "require: {distance: {from: pool.water, to: septic-part}, at-least: 3 m}",
            vec![Sewage],
        ),
        // When it applies says nothing of what it holds: the plan's own line is nowhere.
        (
            "when: {fact: lot.zoning-plan-sets-distance, is: no}, require: {distance: {from: pool.water, to: lot-line}, at-least: 4 m}",
            vec![LotLines],
        ),
        (
            "each: {kind: lot-line, where: {fact: zone.district, is: R1}}, require: {distance: {from: pool.water, to: lot-line}, at-least: 4 m}",
            vec![LotLines],
        ),
        // Where all is left to the authority, what it applies to is all that it speaks of.
        (
            "when: {fact: lot.flood-zone, is: AE}, require: refer",
            vec![Flood],
        ),
        (
            "when: {count: septic-part, at-least: 1}, require: {have: letter}",
            vec![Sewage],
        ),
        (
            "require: {table: {rows: [{when: {fact: lot.designation, is: heritage}, then: refer}, {otherwise: {have: letter}}]}}",
            vec![HeritageAndNature],
        ),
        ("require: {fact: line-kept, is: yes}", vec![Zoning]),
        (
            "require: {area: {of: {all: pool.deck}, share-of: lot.boundary}, at-most: 30 %}",
            vec![Zoning],
        ),
        (
            "require: {sound: {from: equipment, at: lot-line, during: night}, at-most: 35 dB}",
            vec![LotLines, Noise],
        ),
        (
            "require: {area: {of: pool.water, in: {around: shoreline.line, by: 50 m}}, at-most: 0 m2}",
            vec![Shore],
        ),
        (
            "require: {enclosure: {of: pool.water, from: [street, dwelling], made-of: barrier-stretch}, less-than: 100 mm}",
            vec![Barrier, HouseDoors],
        ),
        (
            "require: {enclosure: {of: pool.water, from: [street, neighbour-lot], made-of: barrier-stretch}, less-than: 100 mm}",
            vec![Barrier],
        ),
        ("require: {fact: pool.depth, at-most: 2 m}", vec![]),
    ] {
        assert_eq!(of_rule(rule), matters.into_iter().collect(), "{rule}");
    }
}

#[test]
fn advice_holds_nothing() {
    let body = GATE.replace("require", "should")
        + "scope:\n  holds: barrier\n"
        + &leaving_out(&["barrier"]);
    assert_eq!(faults(check(&body))[0].0, "matter-not-read");
}

#[test]
fn what_is_held_must_be_read_by_something() {
    let scope =
        |holds: &str, but: &[&str]| format!("{GATE}scope:\n  holds: {holds}\n{}", leaving_out(but));
    let good = check(&scope("[barrier]", &["barrier"]))
        .expect("good")
        .rule_set;
    assert_eq!(good.reach.holds, [Matter::Barrier].into());
    assert_eq!(
        good.reach
            .left_out(Matter::Flood)
            .map(|left| left.ask.as_str()),
        Some("somebody")
    );
    let found = faults(check(&scope("[barrier, flood]", &["barrier", "flood"])));
    assert_eq!(found.len(), 1);
    assert_eq!(
        found[0].1,
        "The scope says that these rules hold `flood` (floods, rain water and drainage), and no binding rule of theirs reads any of that."
    );
}

#[test]
fn a_question_holds_its_matter_where_something_uses_it() {
    let question =
        "questions:\n  - {id: zone-checked, ask: Which zone?, answer: [a, b], matter: flood}\n";
    let scope = format!(
        "scope:\n  holds: [flood, papers]\n{}",
        leaving_out(&["flood", "papers"])
    );
    let decide = "decide:\n  - {id: c, table: {by: zone-checked, rows: [{is: a, then: low}, {is: b, then: high}]}}\n";
    assert_eq!(faults(check(&format!("{question}{decide}{scope}"))), []);
    let plain = "documents:\n  - {id: plan, title: Plan, needed: always}\n";
    let codes: Vec<_> = faults(check(&format!("{question}{plain}{scope}")))
        .into_iter()
        .map(|it| it.0)
        .collect();
    assert!(codes.contains(&"matter-not-read"), "{codes:?}");
}

#[test]
fn each_matter_is_named_once() {
    let found = faults(check(&format!("{GATE}scope: {{holds: barrier}}\n")));
    assert_eq!(found[0].0, "matter-unnamed");
    assert!(
        found[0].1.contains("`flood`") && !found[0].1.contains("`barrier`"),
        "{}",
        found[0].1
    );
    let twice = format!("{GATE}scope:\n  holds: [barrier]\n{}", leaving_out(&[]));
    assert_eq!(
        faults(check(&twice)),
        [(
            "matter-twice",
            "The scope names `barrier` twice.".to_owned()
        )]
    );
    // A word that nobody knows may have been the matter that is missing.
    let slip = format!(
        "{GATE}scope:\n  holds: [barier]\n{}",
        leaving_out(&["barrier"])
    );
    let codes: Vec<_> = faults(check(&slip)).into_iter().map(|it| it.0).collect();
    assert_eq!(codes, ["unknown-word"]);
}

fn reach(body: &str, base: &str) -> RuleSet {
    over(body, base)
        .unwrap_or_else(|files| panic!("{files:?}"))
        .rule_set
}

#[test]
fn what_a_file_below_holds_counts_as_held() {
    let base = format!(
        "{GATE}scope:\n  holds: [barrier]\n{}  on-top: [The town's own rules.]\n",
        leaving_out(&["barrier"])
    );
    let inherits = reach("builds-on: [base]\n", &base).reach;
    assert_eq!(inherits.holds, [Matter::Barrier].into());
    assert_eq!(inherits.leaves_out.len(), Matter::ALL.len() - 1);
    let own = format!(
        "builds-on: [base]\nscope:\n{}  on-top: [Mine.]\n",
        leaving_out(&["barrier"])
    );
    let own = reach(&own, &base).reach;
    assert_eq!(own.holds, [Matter::Barrier].into());
    assert_eq!(own.on_top, ["Mine.", "The town's own rules."]);
    let only_on_top = reach("builds-on: [base]\nscope: {on-top: [Mine.]}\n", &base).reach;
    assert_eq!(only_on_top.holds, [Matter::Barrier].into());
    assert_eq!(only_on_top.leaves_out.len(), Matter::ALL.len() - 1);
    let door = "rules:\n  - {id: door, title: D, clause: s. 2, each: wall-opening, require: {fact: wall-opening.self-closing, is: yes}}\n";
    let wider = format!("builds-on: [base]\n{door}scope: {{holds: house-doors}}\n");
    let wider = reach(&wider, &base).reach;
    assert_eq!(wider.holds, [Matter::Barrier, Matter::HouseDoors].into());
    assert!(wider.left_out(Matter::HouseDoors).is_none());
    assert_eq!(wider.leaves_out.len(), Matter::ALL.len() - 2);
    let narrowed = format!("builds-on: [base]\nscope:\n{}", leaving_out(&[]));
    assert_eq!(reach(&narrowed, &base).reach.holds, BTreeSet::new());
}

#[test]
fn a_file_that_withdraws_the_rule_no_longer_holds_its_matter() {
    let base = format!(
        "{GATE}scope:\n  holds: [barrier]\n{}",
        leaving_out(&["barrier"])
    );
    let withdrawn = "builds-on: [base]\nrules:\n  - {withdraws: latch}\n";
    assert_eq!(reach(withdrawn, &base).reach.holds, BTreeSet::new());
    let claims = format!("{withdrawn}scope:\n{}", leaving_out(&["barrier"]));
    assert_eq!(faults(over(&claims, &base))[0].0, "matter-not-read");
}

#[test]
fn only_the_file_asked_for_is_told_that_it_has_no_scope() {
    assert_eq!(faults(check(GATE)).len(), 1);
    let own = format!(
        "builds-on: [base]\n{GATE}scope:\n  holds: barrier\n{}",
        leaving_out(&["barrier"])
    );
    let base = GATE.replace("latch", "other");
    assert_eq!(faults(over(&own, &base)), []);
}
