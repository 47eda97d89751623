//! Where a rule does not apply: `pass` and `not-applicable` are told apart.

use crate::common::{Outcome, Plot, outcome};

/// A rule for each gate that speaks of the pool in its `when`.
const GATES: &str = "rules:
  - id: r
    title: A rule
    clause: \"1\"
    when: {fact: pool.fill-depth, more-than: 1 m}
    each: gate
    require: {fact: gate.self-closing, is: yes}
";

/// A gate that does not close by itself, and a pool that can be filled so deep.
fn with_gate(depth: &str, closes: &str) -> Plot {
    Plot::thing(&format!("{{kind: gate, id: g, self-closing: {closes}}}"))
        .and_pool("fill-depth", depth)
}

#[test]
fn a_condition_on_the_pool_decides_whether_a_rule_for_gates_applies() {
    assert_eq!(outcome(GATES, &with_gate("2 m", "no")), Outcome::Fail);
    assert_eq!(outcome(GATES, &with_gate("2 m", "yes")), Outcome::Pass);
    assert_eq!(
        outcome(GATES, &with_gate("1 m", "no")),
        Outcome::NotApplicable
    );
    assert_eq!(
        outcome(GATES, &with_gate("1 m", "yes")),
        Outcome::NotApplicable
    );
    assert_eq!(
        outcome(GATES, &Plot::pool("fill-depth", "2 m")),
        Outcome::NotApplicable
    );
}

#[test]
fn where_the_condition_is_not_known_the_rule_is_open() {
    let unknown = Plot::thing("{kind: gate, id: g, self-closing: no}");
    assert_eq!(outcome(GATES, &unknown), Outcome::Unknown);
    let closes = Plot::thing("{kind: gate, id: g, self-closing: yes}");
    assert_eq!(outcome(GATES, &closes), Outcome::Pass);
}

/// One requirement on the pool, on a plan whose pool has, or lacks, a deck.
fn on_deck(require: &str, deck: Option<&str>) -> Outcome {
    let rules = format!(
        "rules:\n  - id: r\n    title: A rule\n    clause: \"1\"\n    require: {require}\n"
    );
    let plot = deck.map_or_else(Plot::default, |deck| Plot::pool("deck", deck));
    outcome(&rules, &plot)
}

/// A deck that nobody has drawn may be anywhere; one that the plan says is not there has no distance and no area.
#[test]
fn a_pool_without_a_deck() {
    const DRAWN: Option<&str> = Some("{outward: 2 m, from: water, corners: square}");
    const NONE: Option<&str> = Some("none");
    let distance = |bound: &str, deck| {
        on_deck(
            &format!("{{distance: {{from: pool.deck, to: lot-line}}, {bound}}}"),
            deck,
        )
    };
    assert_eq!(distance("at-least: 5 m", DRAWN), Outcome::Pass);
    assert_eq!(distance("at-least: 15 m", DRAWN), Outcome::Fail);
    assert_eq!(distance("at-least: 15 m", None), Outcome::Unknown);
    assert_eq!(
        distance("at-least: 15 m", Some("unknown")),
        Outcome::Unknown
    );
    assert_eq!(distance("at-least: 15 m", NONE), Outcome::NotApplicable);
    // What none means can be said; until somebody looks it stays open.
    let told = |if_none: &str, deck| {
        let from = format!("{{each: {{kind: pool, outline: deck, if-none: {if_none}}}}}");
        on_deck(
            &format!("{{distance: {{from: {from}, to: lot-line}}, at-least: 5 m}}"),
            deck,
        )
    };
    assert_eq!(told("fails", DRAWN), Outcome::Pass);
    assert_eq!(told("fails", NONE), Outcome::Fail);
    assert_eq!(told("refer", NONE), Outcome::Refer);
    assert_eq!(told("refer", None), Outcome::Unknown);
    // Of a deck that is not there nothing can be asked, and another outline of the same list still counts.
    let area = |bound: &str, deck| on_deck(&format!("{{area: {{of: pool.deck}}, {bound}}}"), deck);
    assert_eq!(area("at-most: 0 m2", NONE), Outcome::NotApplicable);
    assert_eq!(area("at-most: 0 m2", DRAWN), Outcome::Fail);
    assert_eq!(area("at-most: 0 m2", None), Outcome::Unknown);
    let both = |deck| {
        on_deck(
            "{distance: {from: [pool.deck, pool.water], to: lot-line}, at-least: 9 m}",
            deck,
        )
    };
    assert_eq!(both(NONE), Outcome::Pass);
    assert_eq!(both(DRAWN), Outcome::Fail);
    assert_eq!(both(None), Outcome::Unknown);
}

/// An own kind's outline may be absent where its rule file says so; a zone that is not there holds nothing.
#[test]
fn a_lot_without_a_flag_handle() {
    let rules = "kinds:\n  - id: mast\n    said: a mast\n    ask: Is there a mast?\n    outlines: [{id: guys, said: its ropes, shape: area, none: yes}]\n\
                 rules:\n  - id: r\n    title: A rule\n    clause: \"1\"\n    require: {area: {of: pool.water, in: mast.guys}, at-most: 0 m2}\n";
    let mast = |guys: &str| {
        let plot = Plot::thing(&format!("{{kind: mast, id: m, source: exact{guys}}}"));
        outcome(rules, &plot)
    };
    assert_eq!(mast(", guys: none"), Outcome::Unknown); // there may be more masts
    let handle = "rules:\n  - id: r\n    title: A rule\n    clause: \"1\"\n    require: {area: {of: pool.water, in: lot.flag-handle}, at-most: 0 m2}\n";
    assert_eq!(outcome(handle, &Plot::default()), Outcome::Unknown);
    let without = Plot::lot("flag-handle", "none");
    assert_eq!(outcome(handle, &without), Outcome::Pass);
}
