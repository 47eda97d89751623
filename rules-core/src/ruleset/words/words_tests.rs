use super::*;
use crate::quantity::{Dimension, Interval, Unit};
use crate::ruleset::{
    Bound, Choice, Distance, Measured, Operand, Part, Places, Requirement, RuleSet, Selection,
    Stated, Test, Value, Which,
};
use crate::text::Span;
use crate::vocabulary::Vocabulary;

fn rules() -> RuleSet {
    RuleSet {
        id: "r".to_owned(),
        title: "R".to_owned(),
        edition: "1".to_owned(),
        authority: "the office".to_owned(),
        notice: None,
        about: Default::default(),
        language: Default::default(),
        reach: Default::default(),
        sources: Vec::new(),
        working_days: Default::default(),
        in_force: None,
        earlier: None,
        layers: Vec::new(),
        vocabulary: Vocabulary::standard(),
        terms: Vec::new(),
        questions: Vec::new(),
        rules: Vec::new(),
        built_in: Vec::new(),
        decisions: Vec::new(),
        documents: Vec::new(),
        duties: Vec::new(),
        cautions: Vec::new(),
        interpretations: Vec::new(),
    }
}

fn length(amount: i128, unit: Unit) -> Value {
    Value::Stated(Stated {
        range: Interval::exact(amount),
        dimension: Dimension::Length,
        unit,
    })
}

fn fact(path: (&str, &str), rules: &RuleSet) -> Value {
    let kind = rules.vocabulary.kind_named(path.0).unwrap();
    Value::Fact(rules.vocabulary.fact_named(kind, path.1).unwrap())
}

fn test(value: Value, bound: Bound) -> Requirement {
    Requirement::Test(std::sync::Arc::new(Test {
        value,
        bounds: vec![bound],
        holds: None,
        span: Span::default(),
    }))
}

fn is(word: &str) -> Bound {
    Bound::Is(vec![Choice::Word(word.to_owned())])
}

fn part(kind: &str, outline: &str, filter: Option<Requirement>, rules: &RuleSet) -> Operand {
    let kind = rules.vocabulary.kind_named(kind).unwrap();
    Operand {
        term: None,
        parts: std::sync::Arc::new([Part {
            which: Which::All(Selection {
                term: None,
                kind,
                closed: None,
                part_of: None,
                filter: filter.map(std::sync::Arc::new),
                zone: None,
                if_none: None,
            }),
            outline: rules.vocabulary.outline_named(kind, outline).unwrap(),
            counted: None,
            if_drawn: false,
        }]),
    }
}

#[test]
fn a_distance_names_both_ends() {
    let rules = rules();
    let rear = test(fact(("lot-line", "faces"), &rules), is("rear"));
    let distance = |how, places| {
        let from = part("building", "wall", None, &rules);
        let to = part("lot-line", "line", Some(rear.clone()), &rules);
        let distance = Distance {
            from,
            to,
            how,
            places,
        };
        value_words(&Value::Distance(Box::new(distance)), &rules)
    };
    assert_eq!(
        distance(Measured::Level, Places::Nearest),
        "the distance from the outside wall of the nearest building to the nearest lot line (where the side of the lot on which the line lies is rear)"
    );
    let farthest = distance(Measured::InSpace, Places::FarthestOfFirst);
    assert!(farthest.starts_with("the distance through the air from the farthest point of "));
    let widest = distance(Measured::Level, Places::Farthest);
    assert!(widest.starts_with("the greatest distance from any place of the outside wall"));
    assert!(widest.contains(" to any place of any lot line "));
    assert!(
        distance(Measured::Plumb, Places::Nearest)
            .starts_with("the height straight up or down from ")
    );
}

#[test]
fn what_is_part_of_something_is_said_to_be_of_it() {
    let rules = rules();
    let mut doors = part("wall-opening", "line", None, &rules);
    let building = rules.vocabulary.kind_named("building");
    let words = |of: &Operand| operand_words(of, "or", &rules);
    assert_eq!(words(&doors), "any door or window");
    if let Which::All(selection) = &mut std::sync::Arc::make_mut(&mut doors.parts)[0].which {
        selection.part_of = building;
        let count = Value::Count(selection.clone());
        assert_eq!(
            value_words(&count, &rules),
            "the number of doors or windows of the building"
        );
    }
    assert_eq!(words(&doors), "any door or window of the building");
}

#[test]
fn a_term_is_called_by_its_name() {
    let rules = rules();
    let named = Value::Named {
        term: crate::ruleset::TermUse {
            name: "side-yard".to_owned(),
            scope: crate::ruleset::Scope::default(),
        },
        sort: crate::ruleset::types::Sort {
            of: None,
            varies: false,
        },
        value: std::sync::Arc::new(length(1, Unit::METRE)),
    };
    assert_eq!(value_words(&named, &rules), "the side yard");
    let mut edge = part("pool", "water", None, &rules);
    assert_eq!(
        operand_words(&edge, "or", &rules),
        "the water's edge of any pool"
    );
    assert_eq!(
        operand_words(&edge, "and", &rules),
        "the water's edge of all pools together"
    );
    let pool = rules.vocabulary.kind_named("pool").unwrap();
    std::sync::Arc::make_mut(&mut edge.parts)[0].which = Which::Bound(pool);
    assert_eq!(operand_words(&edge, "or", &rules), "the water's edge");
    edge.term = Some("pool-edge".to_owned());
    assert_eq!(operand_words(&edge, "or", &rules), "the pool edge");
}

#[test]
fn a_bound_is_said_as_it_was_written() {
    let rules = rules();
    let bound = Bound::AtLeast(length(1_371_600_000, Unit::INCH));
    assert_eq!(bound_words(&bound, &rules), "at least 54 in");
    let bound = Bound::LessThan(length(4_500_000_000, Unit::METRE));
    assert_eq!(bound_words(&bound, &rules), "less than 4.5 m");
    assert_eq!(bound_words(&is("pool"), &rules), "pool");
    let exactly = Bound::Is(vec![
        Choice::Amount(2_000_000_000, Unit::METRE),
        Choice::None,
    ]);
    assert_eq!(bound_words(&exactly, &rules), "2 m or none");
}

#[test]
fn a_requirement_is_a_clause() {
    let rules = rules();
    let closes = test(fact(("gate", "self-closing"), &rules), is("yes"));
    let side = test(fact(("gate", "latch-side"), &rules), is("pool"));
    let high = Bound::AtLeast(length(1_371_600_000, Unit::INCH));
    let high = test(fact(("gate", "latch-height"), &rules), high);
    let both = Requirement::All(vec![side, Requirement::Not(Box::new(closes.clone()))]);
    let any = Requirement::Any(vec![high, both]);
    assert_eq!(
        requirement_words(&closes, &rules),
        "the gate closes by itself"
    );
    assert_eq!(
        requirement_words(&any, &rules),
        "the height of the latch is at least 54 in or (the side from which the latch is released is pool and the gate does not \
         close by itself)"
    );
}

#[test]
fn plurals_follow_the_head_of_the_phrase() {
    for (one, many) in [
        ("gate", "gates"),
        ("stretch of the barrier", "stretches of the barrier"),
        ("septic tank or field", "septic tanks or fields"),
        ("railway", "railways"),
        ("junction box", "junction boxes"),
        (
            "spot of ground with a known level",
            "spots of ground with a known level",
        ),
    ] {
        assert_eq!(plural(one), many);
    }
}
