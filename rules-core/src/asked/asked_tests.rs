use std::collections::BTreeSet;

use super::{Asked, AskedFact, asked};
use crate::check::{Missing, check, questions};
use crate::ruleset::{RuleSet, read};
use crate::vocabulary::{Named, Vocabulary};

const SETS: [&str; 8] = [
    include_str!("../../../rulesets/eldermere/rules.yaml"),
    include_str!("../../../rulesets/barrier-model/rules.yaml"),
    include_str!("../../../rulesets/barrier-as1926/rules.yaml"),
    include_str!("../../../rulesets/norway/rules.yaml"),
    include_str!("../../../rulesets/quebec/rules.yaml"),
    include_str!("../../../rulesets/electric-model/rules.yaml"),
    include_str!("../../../rulesets/germany-nrw/rules.yaml"),
    include_str!("../../../rulesets/digging/rules.yaml"),
];

fn rules(text: &str) -> RuleSet {
    let read = read(text, &|_| None, Vocabulary::standard());
    read.unwrap_or_else(|faults| panic!("{faults:?}")).rule_set
}

/// The names of everything asked, spelled as a report spells missing answers.
fn names(asked: &Asked) -> BTreeSet<String> {
    let fact = |kind: &str, fact: &AskedFact| format!("{kind}.{}", fact.id);
    let kinds = asked.kinds.iter();
    let of_kinds = kinds.flat_map(|kind| {
        let facts = kind.facts.iter().map(|known| fact(&kind.id, known));
        let outlines = kind
            .outlines
            .iter()
            .map(|outline| format!("{}.{}", kind.id, outline.id));
        facts
            .chain(outlines)
            .chain([kind.id.clone()])
            .collect::<Vec<_>>()
    });
    let answers = asked.questions.iter().map(|known| fact("answers", known));
    let events = asked.dates.iter().map(|known| fact("events", known));
    of_kinds.chain(answers).chain(events).collect()
}

fn name(missing: Missing, rules: &RuleSet) -> Option<String> {
    let vocabulary = &rules.vocabulary;
    match missing {
        Missing::Fact(_, fact) | Missing::FactOfUnseen(_, fact) => Some(vocabulary.fact_path(fact)),
        Missing::Outline(_, outline) => Some(vocabulary.outline_path(outline)),
        Missing::Inventory(kind) => Some(vocabulary.kind(kind).name.clone()),
        Missing::Accuracy(_) | Missing::Whole(..) => None,
        Missing::Document(..) => None,
    }
}

/// A lot, a pool and one of every kind, with nothing stated about them.
fn bare_plan(rules: &RuleSet) -> crate::plan::Plan {
    let vocabulary = &rules.vocabulary;
    let own_place = ["pool", "lot-line"];
    let kinds = vocabulary.kinds().filter(|(_, kind)| {
        kind.number != crate::vocabulary::Number::One && !own_place.contains(&kind.name.as_str())
    });
    let things: String = kinds
        .map(|(_, kind)| format!("  - {{kind: {0}, id: one-{0}}}\n", kind.name))
        .collect();
    let text = format!(
        "plan: p\ntitle: P\nunit: m\nlot: {{corners: {{a: [0, 0], b: [20, 0], c: [20, 30], d: [0, 30]}}}}\npool: {{id: pool}}\nthings:\n{things}"
    );
    crate::plan::read(&text, vocabulary).unwrap_or_else(|faults| panic!("{faults:?}"))
}

#[test]
fn whatever_a_report_misses_is_asked() {
    for text in SETS {
        let rules = rules(text);
        let asked = asked(&rules);
        let (names, plan) = (names(&asked), bare_plan(&rules));
        let findings = check(&plan, &rules).expect("not too much work");
        let waits = questions(&rules, &findings.rules);
        assert!(waits.len() > 3, "{}", rules.id);
        for (missing, _) in waits {
            if let Some(name) = name(missing, &rules) {
                assert!(names.contains(&name), "{}: {name} is not asked", rules.id);
            }
            if let Missing::Document(index, _) = missing {
                let id = &rules.documents[index].id;
                assert!(asked.documents.iter().any(|known| known.id == *id), "{id}");
            }
        }
    }
}

/// What the geometry reads although no rule file names it: heights for distances through the air, where people come
/// from for an enclosure, how loud a machine is for a sound.
const READ_WITH_OTHERS: &[&str] = &[
    "lot",
    "ground-spot",
    "level-ground",
    "level",
    "place",
    "height-above-ground",
    "height-inside",
    "lot-line",
    "wall-opening",
    "building",
    "height",
    "height-outside",
    "latch-height",
    "eaves-height",
    "height-above-finished-grade",
    "footing-depth",
    "depth",
    "excavation-depth",
    "beyond",
    "type",
    "in",
    // What a level over the ground is read from.
    "contour",
    "interval",
    "tip-height",
    "level",
    "use",
    "sound-power",
    "reflecting-surfaces",
    "runs",
    "line",
    // Every report says whether the pool lies on the lot.
    "lot",
    "boundary",
    "pool",
    "water",
    "barrier-opening",
    "width",
    "stands-on",
    "on",
    "owner",
];

#[test]
fn nothing_is_asked_that_the_rule_file_does_not_name() {
    for text in SETS {
        let rules = rules(text);
        let asked = asked(&rules);
        for name in names(&asked) {
            let part = name.rsplit('.').next().unwrap_or_default();
            // A kind's only outline is written without its name, and whether a thing lies in a zone reads all its
            // outlines.
            let whole = name.split('.').next().unwrap_or_default();
            let outline = matches!(rules.vocabulary.path(&name), Some(Named::Outline(_)));
            let unnamed = rules.vocabulary.kind_named(whole).is_some_and(|kind| {
                rules.vocabulary.kind(kind).outlines.len() == 1 || text.contains(" in: ")
            });
            let named = text.contains(part)
                || READ_WITH_OTHERS.contains(&part)
                || outline && unnamed && text.contains(whole);
            assert!(named, "{}: {name}", rules.id);
        }
        let facts = asked.kinds.iter().flat_map(|kind| &kind.facts);
        for fact in facts.chain(&asked.questions).chain(&asked.dates) {
            assert!(!fact.why.is_empty() && !fact.ask.is_empty(), "{}", fact.id);
        }
    }
}

#[test]
fn a_rule_asks_for_what_it_reads_and_nothing_else() {
    let text = "\
ruleset: small
title: Small
edition: '1'
authority: The office
rules:
  - id: well
    title: Pool to a well
    clause: s. 1
    each: well
    when: {fact: pool.depth, more-than: 600 mm}
    require:
      distance: {from: pool.water, to: well.casing}
      at-least: 15 m
";
    let asked = asked(&rules(text));
    let found: Vec<String> = names(&asked).into_iter().collect();
    assert_eq!(
        found,
        [
            "lot",
            "lot.boundary",
            "pool",
            "pool.depth",
            "pool.water",
            "well",
            "well.casing"
        ]
    );
    let well = asked
        .kinds
        .iter()
        .find(|kind| kind.id == "well")
        .expect("wells are asked for");
    assert_eq!((well.drawn_as, well.number), (Some("point"), "many"));
    assert_eq!(well.why[0].title, "Pool to a well");
    let pool = asked
        .kinds
        .iter()
        .find(|kind| kind.id == "pool")
        .expect("pools are asked for");
    let depth = &pool.facts[0];
    assert_eq!((depth.answer, depth.unit), ("length", Some("m")));
    assert!(depth.units.contains(&"ft") && !depth.units.contains(&"m²"));
    assert_eq!(depth.most.as_deref(), Some("50 m"));
    assert!(asked.questions.is_empty() && asked.dates.is_empty() && asked.documents.is_empty());
}

#[test]
fn every_name_is_one_of_the_vocabulary() {
    let rules = rules(SETS[0]);
    for name in names(&asked(&rules)) {
        let known = rules.vocabulary.path(&name);
        assert!(
            matches!(
                known,
                Some(Named::Kind(_) | Named::Fact(_) | Named::Outline(_))
            ),
            "{name}"
        );
    }
}
