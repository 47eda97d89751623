//! The names of the sides of drawn lots, as the ordinances beside them would have it (`lots/generate.py` draws them).

use std::collections::BTreeSet;

use rules_core::measure::{Beside, Beyond, Face, Naming, Proposal, propose_faces, sides_along};
use rules_core::plan::Point;
use serde_json::Value;

fn line(value: &Value) -> Vec<Point> {
    let place = |p: &Value| Point {
        x: p[0].as_i64().unwrap() * 1_000_000,
        y: p[1].as_i64().unwrap() * 1_000_000,
    };
    value.as_array().unwrap().iter().map(place).collect()
}

fn lines(value: &Value) -> Vec<Vec<Point>> {
    value.as_array().unwrap().iter().map(line).collect()
}

fn beyond(value: &Value) -> Beyond {
    Beyond {
        what: match value["what"].as_str().unwrap() {
            "street" => Beside::Street,
            "address" => Beside::Address,
            "alley" => Beside::Alley,
            "water" => Beside::Water,
            other => panic!("{other}"),
        },
        line: line(&value["line"]),
        reach: value["reach"].as_i64().unwrap() * 1_000_000,
    }
}

fn naming(value: &Value) -> Naming {
    let words: BTreeSet<&str> = value
        .as_array()
        .unwrap()
        .iter()
        .map(|word| word.as_str().unwrap())
        .collect();
    Naming {
        longest_is_front: words.contains("longest-is-front"),
        every_street_is_front: words.contains("every-street-is-front"),
        corner_without_rear: words.contains("corner-without-rear"),
    }
}

fn word(proposal: &Proposal) -> &'static str {
    match proposal.face {
        Some(Face::Front) => "front",
        Some(Face::Side) => "side",
        Some(Face::Rear) => "rear",
        Some(Face::StreetSide) => "street-side",
        Some(Face::Shore) => "shore",
        Some(Face::Alley) => "alley",
        None if proposal.why == rules_core::measure::Why::Tie => "tie",
        None => "none",
    }
}

fn lots() -> Vec<Value> {
    let text = include_str!("../lots/lots.jsonl");
    text.lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect()
}

fn named(lot: &Value, sides: &[Vec<Point>]) -> Vec<&'static str> {
    let beside: Vec<Beyond> = lot["beyond"]
        .as_array()
        .unwrap()
        .iter()
        .map(beyond)
        .collect();
    let along = sides_along(sides, &beside);
    propose_faces(sides, &along, naming(&lot["naming"]))
        .iter()
        .map(word)
        .collect()
}

#[test]
fn forty_lots_get_the_names_of_their_ordinances() {
    let lots = lots();
    assert!(lots.len() >= 40);
    let mut wrong = Vec::new();
    for lot in &lots {
        let expected: Vec<&str> = lot["expect"]
            .as_array()
            .unwrap()
            .iter()
            .map(|word| word.as_str().unwrap())
            .collect();
        let found = named(lot, &lines(&lot["sides"]));
        if found != expected {
            wrong.push(format!(
                "{}: {found:?} instead of {expected:?}",
                lot["name"]
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The names must not hang on where the list begins, nor on the direction in which the lot was drawn.
#[test]
fn names_do_not_hang_on_the_way_of_drawing() {
    for lot in lots() {
        let sides = lines(&lot["sides"]);
        let names = named(&lot, &sides);
        let mut turned = sides.clone();
        turned.rotate_left(1);
        let mut expected = names.clone();
        expected.rotate_left(1);
        assert_eq!(named(&lot, &turned), expected, "{}", lot["name"]);
        let back: Vec<Vec<Point>> = sides
            .iter()
            .rev()
            .map(|side| side.iter().rev().copied().collect())
            .collect();
        let expected: Vec<&str> = names.into_iter().rev().collect();
        assert_eq!(named(&lot, &back), expected, "{}", lot["name"]);
    }
}
