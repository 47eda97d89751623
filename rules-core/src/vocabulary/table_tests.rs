//! The table as a whole: every row works for the reader, the form and the reference page.

use std::collections::BTreeSet;

use super::*;

fn each_fact(vocabulary: &Vocabulary) -> Vec<(String, &Fact)> {
    let kinds = vocabulary.kinds();
    let ids = kinds.flat_map(|(_, kind)| kind.facts.clone());
    ids.map(|id| (vocabulary.fact_path(id), vocabulary.fact(id)))
        .collect()
}

/// A question ends with a question mark, or with one more sentence of caution.
fn is_question(text: &str) -> bool {
    text.starts_with(char::is_uppercase) && text.contains('?') && text.ends_with(['?', '.'])
}

#[test]
fn it_has_what_the_published_clauses_need() {
    let vocabulary = Vocabulary::standard();
    assert!(vocabulary.kinds().count() >= 40);
    assert!(each_fact(&vocabulary).len() >= 150);
    for path in [
        "pool.water",
        "pool.with-attached",
        "gate.latch",
        "gate.latch-height",
        "barrier-stretch.height-above-highest-foothold",
        "building.principal-elevation",
        "slope.toe-45",
        "events.applied",
        "overhead-line.conductor",
        "zone.principal-setback",
        "well.casing",
    ] {
        assert!(vocabulary.path(path).is_some(), "{path}");
    }
    let missing = ["gate.latch-hight", "pol.water", "gate.", ".", "", "a.b.c"];
    assert!(missing.iter().all(|name| vocabulary.path(name).is_none()));
}

#[test]
fn names_are_plain_and_unique() {
    let vocabulary = Vocabulary::standard();
    let mut seen = BTreeSet::new();
    for (id, kind) in vocabulary.kinds() {
        assert!(seen.insert(kind.name.clone()), "{} twice", kind.name);
        let outlines = vocabulary.outline_names(id);
        for name in outlines.chain(vocabulary.fact_names(id)) {
            assert!(is_name(name), "{name}");
            let path = format!("{}.{name}", kind.name);
            assert!(seen.insert(path.clone()), "{path} twice");
            assert!(
                !["id", "kind", "part-of"].contains(&name),
                "{path} is a key of every thing"
            );
        }
        assert!(is_name(&kind.name) && !kind.said.is_empty());
        assert!(is_question(&kind.ask), "{}: {}", kind.name, kind.ask);
    }
}

#[test]
fn every_fact_has_a_question_and_a_way_to_find_the_answer() {
    let vocabulary = Vocabulary::standard();
    for (path, fact) in each_fact(&vocabulary) {
        assert!(is_question(&fact.ask), "{path}: {}", fact.ask);
        assert!(fact.ask.ends_with('?'), "{path}: {}", fact.ask);
        assert!(fact.how.ends_with('.'), "{path}: {}", fact.how);
        let first = fact.said.split(' ').next().unwrap();
        assert!(
            first.chars().all(char::is_lowercase),
            "{path}: {}",
            fact.said
        );
        assert!(
            !["the", "a", "what", "who", "whose", "how", "where"].contains(&first),
            "{path}"
        );
        assert_eq!(fact.answer == Answer::YesNo, first == "whether", "{path}");
    }
}

#[test]
fn limits_are_in_order_and_words_unique() {
    let vocabulary = Vocabulary::standard();
    for (path, fact) in each_fact(&vocabulary) {
        match &fact.answer {
            Answer::Amount { least, most, .. } => {
                assert_eq!(least.is_none(), most.is_none(), "{path}");
                assert!(least <= most, "{path}");
            }
            Answer::Word { words, open } => {
                let unique: BTreeSet<_> = words.iter().collect();
                assert_eq!(unique.len(), words.len(), "{path}");
                assert!(*open || words.len() > 1, "{path}");
                assert!(
                    !words.iter().any(|word| word == "none" || word == "unknown"),
                    "{path}"
                );
            }
            Answer::YesNo => assert!(!fact.none, "{path}"),
        }
    }
}

#[test]
fn a_kind_that_rules_name_without_each_has_at_most_one_thing() {
    let vocabulary = Vocabulary::standard();
    let number = |name: &str| {
        vocabulary
            .kind_named(name)
            .map(|id| vocabulary.kind(id).number)
    };
    for one in ["lot", "zone", "applicant", "works", "events", "answers"] {
        assert_eq!(number(one), Some(Number::One), "{one}");
    }
    for single in [
        "cover",
        "pool-alarm",
        "mesh-fence",
        "diving-structure",
        "screen-enclosure",
    ] {
        assert_eq!(number(single), Some(Number::AtMostOne), "{single}");
    }
    assert_eq!(number("pool"), Some(Number::Many));
}

/// The tiny units of a plain number of each dimension, from their definitions in `Dimension`.
#[test]
fn limits_are_in_the_tiny_units_of_their_dimension() {
    let vocabulary = Vocabulary::standard();
    let most = |path: &str| match vocabulary.path(path) {
        Some(Named::Fact(id)) => match vocabulary.fact(id).answer {
            Answer::Amount { most, .. } => most,
            _ => None,
        },
        _ => None,
    };
    assert_eq!(most("gate.latch-height"), Some(10 * 10_i128.pow(9)));
    assert_eq!(most("lot.area"), Some(10_i128.pow(8 + 18)));
    assert_eq!(most("pool.volume"), Some(10_i128.pow(6 + 27)));
    assert_eq!(most("pool.emptying-rate"), Some(10_i128.pow(5 + 24)));
    assert_eq!(most("overhead-line.voltage"), Some(2 * 10_i128.pow(12)));
    assert_eq!(most("foothold.slope"), Some(90 * 10_i128.pow(9)));
    assert_eq!(most("zone.coverage-limit"), Some(10_i128.pow(9)));
    assert_eq!(most("pool.standing-time"), Some(12_000_000));
}

/// Only these kinds, which rules on many matters use, belong to no matter.
#[test]
fn each_kind_belongs_to_a_matter() {
    let vocabulary = Vocabulary::standard();
    let kinds = vocabulary.kinds();
    let none: Vec<_> = kinds
        .filter(|(_, kind)| kind.matter.is_none())
        .map(|(_, kind)| kind.name.as_str())
        .collect();
    let known = [
        "events",
        "answers",
        "pool",
        "deck",
        "lifting-machine",
        "equipment",
    ];
    assert_eq!(none, known);
    let of = |path: &str| match vocabulary.path(path) {
        Some(Named::Fact(fact)) => vocabulary.matter_of(fact),
        Some(Named::Kind(kind)) => vocabulary.kind(kind).matter,
        _ => None,
    };
    for (path, matter) in [
        ("gate", Matter::Barrier),
        ("gate.latch-height", Matter::Barrier),
        ("wall-opening.alarm", Matter::HouseDoors),
        ("lot.area", Matter::Zoning),
        ("lot.flood-zone", Matter::Flood),
        ("equipment.sound-power", Matter::Noise),
        ("building.footing-depth", Matter::Ground),
        ("pool.emptied-to", Matter::Sewage),
        ("easement", Matter::PrivateRights),
    ] {
        assert_eq!(of(path), Some(matter), "{path}");
    }
}

#[test]
fn each_matter_has_a_name_a_question_and_somebody_to_ask() {
    let mut seen = BTreeSet::new();
    for matter in Matter::ALL {
        assert!(is_name(matter.id()) && seen.insert(matter.id()));
        assert_eq!(Matter::named(matter.id()), Some(*matter));
        assert!(matter.ask().ends_with('?') && matter.who().starts_with("the "));
        assert!(!matter.said().ends_with('.'));
    }
    assert_eq!(Matter::named("floods"), None);
    assert!((15..=20).contains(&seen.len()));
}

/// Whether a name can be written in a file: small letters and digits, in parts joined by single hyphens, beginning with a
/// letter.
fn is_name(text: &str) -> bool {
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit();
    text.starts_with(|c: char| c.is_ascii_lowercase())
        && text
            .split('-')
            .all(|part| !part.is_empty() && part.chars().all(plain))
}
