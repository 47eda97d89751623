//! What a good plan says, in YAML, in JSON and in other units.

use super::read;
use crate::plan::{DocumentState, Figure, Form, Looked, Plan, Point, Possible, Thing, Words};
use crate::quantity::Interval;
use crate::vocabulary::{Matter, Named, Vocabulary};

const M: i64 = 1_000_000_000;
const MM: i64 = 1_000_000;

pub(super) const GOOD: &str = "\
plan: quarry-lane-8
title: Quarry Lane 8, pool in the garden
unit: m
north: 12 deg
sources:
  - {id: survey, by: survey, accuracy: 20 mm, shift: 0 mm}
  - {id: town-map, by: map, accuracy: 0.5 m, shift: 1 m}
  - {id: old-fence, by: fence}
dates: {applied: 2026-03-02}
applicant: {role: owner-occupier}
zone: {district: R-1}
lot:
  source: survey
  flood-zone: none
  corners:
    a: [100.25, 50.5]
    b: {at: [124.25, 50.5], accuracy: 10 mm}
    c: [124.25, 86.5]
    d: [100.25, 86.5]
  sides:
    - {id: front, from: a, to: b, faces: front, beyond: road}
    - {id: left, from: a, to: d, faces: side, source: old-fence}
    - {id: rear, from: c, to: d, faces: rear, accuracy: 30 mm}
pool:
  id: pool
  source: survey
  accuracy: 5 mm
  water: {rectangle: {at: [108, 70], length: 8 m, width: 4 m}}
  coping: {outward: 300 mm, from: water, corners: square}
  shell: {outward: 200 mm, from: water, corners: round}
  excavation: {outward: 1 m, from: shell, corners: round}
  inside-face: {same-as: water}
  depth: 1.5 m ± 0.1 m
things:
  - {kind: building, id: house, source: town-map, wall: [[102,60],[114,60],[114,68],[102,68]], use: dwelling, footing-depth: unknown}
  - {kind: wall-opening, id: back-door, part-of: house, type: door, line: [[105,68],[106,68]], alarm: none}
  - {kind: overhead-line, id: wires, path: [[95,80],[130,81]], height: {from: 6.1 m, to: 7.4 m}, voltage: 400 V}
  - {kind: tree, id: oak, stem: {circle: {at: [103,84], radius: 0.2 m}}}
  - {kind: gate, id: gate-1, latch-side: {one-of: [pool, outside]}, latch-height: 1 m .. 1.6 m, self-closing: yes}
inventory:
  septic-part: none
  well: {all-shown: {within: 30 m}}
  gate: all-shown
  buried-service: not-checked
measured:
  - {from: pool.water, to: house.wall, is: 2.05 m ± 20 mm}
  - {from: pool.coping, to: rear, is: 12 m}
documents: {site-plan: in-hand, consent-letter: refused, flood-map: not-yet}
answered: {flood: {says: Outside the flood area., by: the county, on: 2026-03-02}}
";

fn plan(text: &str) -> Plan {
    read(text, &Vocabulary::standard())
        .unwrap_or_else(|faults| panic!("{}", faults.show("plan.yaml", text)))
}

fn thing<'p>(plan: &'p Plan, id: &str) -> &'p Thing {
    plan.things.iter().find(|thing| thing.id == id).unwrap()
}

fn fact<'p>(plan: &'p Plan, id: &str, path: &str) -> Option<&'p Possible> {
    let Some(Named::Fact(fact)) = Vocabulary::standard().path(path) else {
        panic!("{path}")
    };
    thing(plan, id).facts.get(&fact)
}

fn figure<'p>(plan: &'p Plan, id: &str, path: &str) -> &'p Figure {
    let Some(Named::Outline(outline)) = Vocabulary::standard().path(path) else {
        panic!("{path}")
    };
    &thing(plan, id).outlines[&outline]
}

fn ring(points: [(i64, i64); 4]) -> Vec<Form> {
    vec![Form::Ring(
        points
            .map(|(x, y)| Point {
                x: x * MM,
                y: y * MM,
            })
            .to_vec(),
    )]
}

fn words(possible: &Possible) -> Vec<&str> {
    match possible.words.as_deref() {
        Some(Words::OneOf(words)) => words.iter().map(String::as_str).collect(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn things_stand_in_their_order() {
    let plan = plan(GOOD);
    let ids: Vec<_> = plan.things.iter().map(|thing| thing.id.as_str()).collect();
    let order = "lot zone applicant works events answers front b-c rear left pool house back-door wires oak gate-1";
    assert_eq!(ids.join(" "), order);
    assert_eq!(thing(&plan, "front").part_of, Some(0));
    assert_eq!(
        plan.things[thing(&plan, "back-door").part_of.unwrap()].id,
        "house"
    );
}

#[test]
fn places_count_from_an_origin_at_the_lot() {
    let plan = plan(GOOD);
    assert_eq!(plan.origin, (100 * i128::from(M), 50 * i128::from(M)));
    let boundary = figure(&plan, "lot", "lot.boundary");
    assert_eq!(
        boundary.forms,
        ring([(250, 500), (24_250, 500), (24_250, 36_500), (250, 36_500)])
    );
    assert_eq!(plan.north, Some(12 * i128::from(M)));
}

#[test]
fn outlines_are_worked_out_from_each_other() {
    let plan = plan(GOOD);
    let water = figure(&plan, "pool", "pool.water");
    assert_eq!(
        water.forms,
        ring([
            (8000, 20_000),
            (16_000, 20_000),
            (16_000, 24_000),
            (8000, 24_000)
        ])
    );
    let coping = figure(&plan, "pool", "pool.coping");
    assert_eq!(
        coping.forms,
        ring([
            (7700, 19_700),
            (16_300, 19_700),
            (16_300, 24_300),
            (7700, 24_300)
        ])
    );
    let excavation = figure(&plan, "pool", "pool.excavation");
    assert_eq!(
        (&excavation.forms, excavation.spread),
        (&water.forms, 1200 * MM)
    );
    assert_eq!(figure(&plan, "pool", "pool.inside-face"), water);
    let stem = figure(&plan, "oak", "tree.stem");
    assert_eq!(stem.spread, 200 * MM);
    assert_eq!(
        stem.forms,
        [Form::Point(Point {
            x: 3 * M,
            y: 34 * M
        })]
    );
}

#[test]
fn accuracy_comes_from_the_thing_then_from_its_source() {
    let plan = plan(GOOD);
    assert_eq!(figure(&plan, "pool", "pool.water").accuracy, Some(5 * MM));
    assert_eq!(
        figure(&plan, "house", "building.wall").accuracy,
        Some(500 * MM)
    );
    assert_eq!(
        figure(&plan, "wires", "overhead-line.path").accuracy,
        None,
        "no source, none stated"
    );
}

#[test]
fn a_side_is_as_good_as_the_worse_of_its_corners() {
    let plan = plan(GOOD);
    let side = |id| figure(&plan, id, "lot-line.line").accuracy;
    // a: the survey's 20 by the front; b: its own 10; c: 20 by b-c; d: 30 by the rear, the fence says nothing.
    assert_eq!(
        (side("front"), side("b-c"), side("rear")),
        (Some(20 * MM), Some(20 * MM), Some(30 * MM))
    );
    assert_eq!(
        side("left"),
        None,
        "a line from a fence with no accuracy stated is unknown"
    );
    assert_eq!(
        figure(&plan, "lot", "lot.boundary").accuracy,
        None,
        "the boundary is no better known than its worst side"
    );
    assert_eq!(
        words(fact(&plan, "left", "lot-line.source").unwrap()),
        ["fence"]
    );
    assert_eq!(
        words(fact(&plan, "b-c", "lot-line.source").unwrap()),
        ["survey"]
    );
    assert_eq!(fact(&plan, "left", "lot-line.accuracy"), None);
}

#[test]
fn facts_are_what_they_can_still_be() {
    let plan = plan(GOOD);
    let amount = |id: &str, path: &str| fact(&plan, id, path).unwrap().amount.clone().unwrap();
    let nm = |low: i64, high: i64| Interval::new(i128::from(low * MM), i128::from(high * MM));
    let depth = amount("pool", "pool.depth");
    assert_eq!((depth.least, depth.most), (nm(1400, 1600), None));
    assert_eq!(
        depth.drawn,
        Some((1500 * i128::from(MM), 1500 * i128::from(MM)))
    );
    let height = amount("wires", "overhead-line.height");
    assert_eq!(
        (height.least, height.most),
        (nm(6100, 6100), Some(nm(7400, 7400)))
    );
    let latch = amount("gate-1", "gate.latch-height");
    assert_eq!((latch.least, latch.drawn), (nm(1000, 1600), None));
    assert_eq!(
        words(fact(&plan, "gate-1", "gate.latch-side").unwrap()),
        ["outside", "pool"]
    );
    assert_eq!(
        words(fact(&plan, "gate-1", "gate.self-closing").unwrap()),
        ["yes"]
    );
    let alarm = fact(&plan, "back-door", "wall-opening.alarm").unwrap();
    assert!(alarm.none && alarm.words.is_none());
    assert_eq!(
        fact(&plan, "house", "building.footing-depth"),
        None,
        "unknown is as good as not stated"
    );
    let applied = amount("events", "events.applied");
    assert_eq!(
        applied.least,
        Interval::exact(20_514),
        "days from 1970-01-01 to 2026-03-02"
    );
}

#[test]
fn inventory_tape_and_documents_are_read() {
    let plan = plan(GOOD);
    let vocabulary = Vocabulary::standard();
    let looked = |name| plan.inventory.get(&vocabulary.kind_named(name).unwrap());
    assert_eq!(looked("septic-part"), Some(&Looked::None));
    assert_eq!(looked("well"), Some(&Looked::AllShown(Some(30 * M))));
    assert_eq!(looked("gate"), Some(&Looked::AllShown(None)));
    assert_eq!(looked("buried-service"), None);
    let [first, second] = plan.measured.as_slice() else {
        panic!()
    };
    assert_eq!(first.range, Interval::new(2_030_000_000, 2_070_000_000));
    assert_eq!(plan.things[second.to.0].id, "rear");
    assert_eq!(plan.paper("consent-letter"), Some(DocumentState::Refused));
    let flood = plan.answered.get(&Matter::Flood).unwrap();
    assert_eq!((flood.by.as_str(), flood.on), ("the county", 20_514));
    assert_eq!(flood.says.as_deref(), Some("Outside the flood area."));
    assert_eq!(plan.answered.get(&Matter::Shore), None);
}

#[test]
fn json_says_the_same_as_yaml() {
    let value: serde_json::Value = serde_yaml::from_str(GOOD).unwrap();
    let mut json = plan(&value.to_string());
    let mut yaml = plan(GOOD);
    for plan in [&mut json, &mut yaml] {
        forget_places(plan);
    }
    assert_eq!(json, yaml);
}

fn forget_places(plan: &mut Plan) {
    for thing in &mut plan.things {
        thing.span = Default::default();
        thing.facts.values_mut().for_each(|fact| fact.span = None);
    }
    plan.measured
        .iter_mut()
        .for_each(|taped| taped.span = Default::default());
    let papers = plan.documents.values_mut();
    papers.for_each(|papers| papers.span = Default::default());
    let answered = plan.answered.values_mut();
    answered.for_each(|answer| answer.span = Default::default());
}

/// 25 ft is 7.62 m, 10 ft 3.048 m, exactly (international yard and pound agreement of 1959).
#[test]
fn units_do_not_change_what_is_meant() {
    let small = |unit: &str, corners: &str, depth: &str| {
        let text = format!(
            "plan: p\ntitle: T\nunit: {unit}\nlot: {{corners: {corners}}}\n\
             pool: {{id: pool, depth: {depth}, water: {{circle: {{at: [0, 0], radius: 10 ft}}}}}}\n"
        );
        let mut plan = plan(&text);
        let Some(Named::Fact(depth)) = Vocabulary::standard().path("pool.depth") else {
            panic!()
        };
        let depth = plan
            .things
            .iter()
            .find_map(|thing| thing.facts.get(&depth))
            .unwrap()
            .amount
            .clone()
            .unwrap();
        forget_places(&mut plan);
        plan.things.iter_mut().for_each(|thing| thing.facts.clear());
        plan.unit = None;
        (plan, depth.least)
    };
    let metres = small("m", "{a: [0, 0], b: [7.62, 0], c: [0, 3.048]}", "1219.2 mm");
    let feet = small("ft", "{a: [0, 0], b: [25, 0], c: [0, 10]}", "4");
    assert_eq!(metres, feet);
}

#[test]
fn a_turned_rectangle_and_round_forms() {
    let water = |way: &str| {
        let text = GOOD
            .replace("{rectangle: {at: [108, 70], length: 8 m, width: 4 m}}", way)
            .replace("corners: square", "corners: round");
        figure(&plan(&text), "pool", "pool.water").clone()
    };
    // Turned by 90 degrees, length runs north and width west.
    let turned = water("{rectangle: {at: [108, 70], length: 8 m, width: 4 m, turned: 90 deg}}");
    assert_eq!(
        turned.forms,
        ring([
            (8000, 20_000),
            (8000, 28_000),
            (4000, 28_000),
            (4000, 20_000)
        ])
    );
    // 3-4-5: at the angle whose tangent is 3/4, 5 m along is 4 m east and 3 m north.
    let slanted =
        water("{rectangle: {at: [108, 70], length: 5 m, width: 5 m, turned: 36.869897646 deg}}");
    let Form::Ring(corners) = &slanted.forms[0] else {
        panic!()
    };
    assert!(
        (corners[1].x - 12 * M).abs() < 10 && (corners[1].y - 23 * M).abs() < 10,
        "{corners:?}"
    );
    let rounded =
        water("{rounded-rectangle: {at: [108, 70], length: 8 m, width: 4 m, corner-radius: 1 m}}");
    assert_eq!(
        rounded.forms,
        ring([
            (9000, 21_000),
            (15_000, 21_000),
            (15_000, 23_000),
            (9000, 23_000)
        ])
    );
    assert_eq!(rounded.spread, M);
    let capsule =
        water("{rounded-rectangle: {at: [108, 70], length: 8 m, width: 4 m, corner-radius: 2 m}}");
    let oval = water("{oval: {from: [110, 72], to: [114, 72], radius: 2 m}}");
    assert_eq!(capsule, oval);
    let band = water("{band: {along: [[108, 70], [112, 70], [112, 74]], width: 3 m}}");
    assert_eq!(band.spread, 1500 * MM);
    let parts = water(
        "{parts: [{circle: {at: [108, 70], radius: 2 m}}, {oval: {from: [108, 70], to: [112, 70], radius: 2 m}}]}",
    );
    assert_eq!(parts.forms.len(), 2);
}

#[test]
fn several_pools_are_a_list() {
    let text = "plan: p\ntitle: T\nunit: m\nlot: {corners: {a: [0, 0], b: [9, 0], c: [0, 9]}}\n\
        pool:\n  - {id: pool}\n  - {id: spa, construction: spa}\n";
    let plan = plan(text);
    assert_eq!(
        plan.things
            .iter()
            .filter(|thing| ["pool", "spa"].contains(&thing.id.as_str()))
            .count(),
        2
    );
    assert!(thing(&plan, "pool").outlines.is_empty());
}

/// An invented home with most of the kinds of things that a real one has.
#[test]
fn a_whole_home_is_read() {
    let plan = plan(include_str!("quarry-lane.yaml"));
    let kinds: std::collections::BTreeSet<_> = plan.things.iter().map(|thing| thing.kind).collect();
    assert!(kinds.len() >= 25, "{}", kinds.len());
    let coping = figure(&plan, "pool", "pool.coping");
    assert_eq!(
        coping.forms,
        ring([
            (2720, 30_100),
            (7320, 30_100),
            (7320, 39_700),
            (2720, 39_700)
        ])
    );
    assert_eq!(
        figure(&plan, "hedge-west", "barrier-stretch.line").accuracy,
        None
    );
    assert_eq!(fact(&plan, "garden-gate", "gate.latch-side"), None);
    let started = fact(&plan, "events", "events.works-started").unwrap();
    assert!(started.none && started.amount.is_none());
}

/// An id holds what the number of a parcel holds, and a name any text; two things may have the same one.
#[test]
fn ids_are_as_parcels_have_them_and_names_are_free() {
    for id in [
        "12",
        "12/4",
        "0123.45.067",
        "7A_2",
        "Nord-3",
        "Hütte",
        "участок-7",
    ] {
        assert!(super::context::is_id(id), "{id}");
    }
    for text in ["", "-a", "a-", "a--b", "a b", "o'neil", "a:b", "a\u{202e}b"] {
        assert!(!super::context::is_id(text), "{text}");
    }
    let text = include_str!("quarry-lane.yaml");
    let named = plan(&text.replace("id: oak,", "id: 12/4, name: \"o'neil\","));
    assert_eq!(thing(&named, "12/4").called(), "o'neil");
    assert_eq!(thing(&named, "house").called(), "house");
}
