use super::{Change, Changed, Wrong, change, handles};
use crate::measure::figure_gap;
use crate::plan::{self, Plan};
use crate::text::{Node, read, to_json_text};
use crate::vocabulary::Vocabulary;

pub(super) const HOME: &str = include_str!("../../../rulesets/eldermere/home.yaml");
pub(super) const ROUND: &str = "\
plan: p
title: P
unit: ft
lot: {corners: {a: [0, 0], b: ['80 ft', 0], c: [80, 120], d: [0 m, 120.5]}}
pool: {id: pool, water: {oval: {from: [30, 60], to: [\"42' 6\\\"\", 60], radius: 7 ft}}, shell: {outward: 10 in, from: water, corners: round}}
things:
  - {kind: building, id: house, wall: [[10, 10], [40, 10 ft], [40, 35], ['3.048 m', 35]], footing-depth: 3 ft}
  - {kind: wall-opening, id: door, part-of: house, line: [[20, 35], [23, 35]]}
  - {kind: tree, id: oak, stem: {circle: {at: [60, 60], radius: 1 ft}}}
  - {kind: equipment, id: pump, region: {rounded-rectangle: {at: [58, 40], length: 4 ft, width: 3 ft, corner-radius: 0.5 ft, turned: 30 deg}}}
  - {kind: septic-part, id: field, region: {parts: [{band: {along: [[5, 80], [25, 80]], width: 3 ft}}, {band: {along: [[5, 90], [25, 90]], width: 3 ft}}]}}
  - {kind: well, id: well, casing: [70, 100]}
  - {kind: equipment, id: pond, region: {kidney: {from: [50, 80], to: [60, 84], radius: 4 ft, hollow: 2 ft, back: 1 ft}}}
  - {kind: equipment, id: bin, region: {l-shape: {at: [50, 20], length: 12 ft, width: 9 ft, notch-length: 5 ft, notch-width: 4 ft, turned: 20 deg}}}
  - {kind: equipment, id: bay, region: {curved: [[60, 20], [70, 20], {out: 2 ft}, [70, 30], [60, 30], {in: 1 ft}]}}
";

pub(super) fn document(text: &str) -> Node {
    read(text).expect("a document that reads")
}

pub(super) fn applied(document: &mut Node, json: &str) -> Result<Changed, Wrong> {
    let wanted: Change = serde_json::from_str(json).expect("a change");
    change(document, &wanted)
}

pub(super) fn plan(document: &Node) -> Plan {
    let text = to_json_text(document);
    plan::read(&text, &Vocabulary::standard()).unwrap_or_else(|faults| panic!("{faults:?}\n{text}"))
}

pub(super) fn without_answers(text: &str) -> String {
    let answers = text.find("answers:").expect("it has answers");
    let lot = text.find("# A corner lot").expect("and a lot");
    format!("{}{}", &text[..answers], &text[lot..])
}

/// Pseudo-random numbers (Marsaglia's xorshift, from memory).
pub(super) struct Dice(pub(super) u64);

impl Dice {
    pub(super) fn from(&mut self, low: i64, high: i64) -> i64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        low + i64::try_from(self.0 % u64::try_from(high - low + 1).unwrap()).unwrap()
    }
}

#[test]
fn what_is_moved_there_and_back_is_as_it_was() {
    for text in [without_answers(HOME), ROUND.to_owned()] {
        let mut dice = Dice(42);
        let before = document(&text);
        let mut now = before.clone();
        let mut ids: Vec<String> = super::tree::ids(&now)
            .into_iter()
            .map(str::to_owned)
            .collect();
        ids.push("lot".to_owned());
        for id in &ids {
            for _ in 0..20 {
                let (dx, dy) = (dice.from(-9000, 9000), dice.from(-9000, 9000));
                let (dx, dy) = (dx as f64 / 1000.0, dy as f64 / 1000.0);
                let json = |dx: f64, dy: f64| {
                    format!(r#"{{"move": {{"path": "{id}", "dx": {dx}, "dy": {dy}}}}}"#)
                };
                let (there, back) = (json(dx, dy), json(-dx, -dy));
                applied(&mut now, &there).unwrap();
                assert_ne!(to_json_text(&now), to_json_text(&before), "{id}");
                applied(&mut now, &back).unwrap();
                let (was, is) = (to_json_text(&before), to_json_text(&now));
                assert!(same_but_for_feet(&was, &is), "{id} {dx} {dy}\n{was}\n{is}");
                now = before.clone();
            }
        }
    }
}

/// Feet and inches may be spelt out otherwise: `42' 6"` comes back as `42 ft 6 in`.
fn same_but_for_feet(one: &str, other: &str) -> bool {
    one.replace(r#"42' 6\""#, "42 ft 6 in") == other.replace(r#"42' 6\""#, "42 ft 6 in")
}

#[test]
fn a_move_moves_by_just_so_much_and_nothing_else() {
    let mut now = document(&without_answers(HOME));
    let (before, pool) = (plan(&now), Vocabulary::standard().kind_named("pool"));
    applied(
        &mut now,
        r#"{"move": {"path": "pool", "dx": 1.2, "dy": -0.5004}}"#,
    )
    .unwrap();
    let after = plan(&now);
    assert_eq!(before.things.len(), after.things.len());
    for (old, new) in before.things.iter().zip(&after.things) {
        for (outline, figure) in &old.outlines {
            let moved = &new.outlines[outline];
            match Some(old.kind) == pool {
                true => assert_ne!(figure, moved),
                false => assert_eq!(figure, moved, "{}", old.id),
            }
        }
    }
    let json = to_json_text(&now);
    assert!(
        json.contains(r#""at": [3.4, 20.2], "length": "4 m""#),
        "{json}"
    );
}

#[test]
fn what_is_part_of_a_thing_goes_with_it() {
    let mut now = document(ROUND);
    applied(
        &mut now,
        r#"{"move": {"path": "house", "dx": 0.3048, "dy": 0}}"#,
    )
    .unwrap();
    let json = to_json_text(&now);
    // A foot is 304.8 mm; a change is rounded to 305 mm, which is 1.0007 ft.
    assert!(
        json.contains(r#""line": [[21.001, 35], [24.001, 35]]"#),
        "{json}"
    );
    assert!(json.contains(r#"["3.353 m", 35]"#), "{json}");
}

#[test]
fn each_unit_stays_as_it_was_typed() {
    let mut now = document(ROUND);
    applied(&mut now, r#"{"move": {"path": "lot", "dx": 0, "dy": 0}}"#).unwrap();
    assert_eq!(to_json_text(&now), to_json_text(&document(ROUND)));
    applied(&mut now, r#"{"move": {"path": "lot", "dx": 1, "dy": 0}}"#).unwrap();
    let json = to_json_text(&now);
    let corners =
        r#"{"a": [3.281, 0], "b": ["83.281 ft", 0], "c": [83.281, 120], "d": ["1 m", 120.5]}"#;
    assert!(json.contains(corners), "{json}");
}

#[test]
fn whatever_is_done_the_plan_still_reads() {
    let mut dice = Dice(7);
    for text in [without_answers(HOME), ROUND.to_owned()] {
        let before = document(&text);
        let ids: Vec<String> = super::tree::ids(&before)
            .into_iter()
            .map(str::to_owned)
            .collect();
        for id in &ids {
            for handle in handles(&before, id) {
                // A corner pulled across another side makes a plan that its reader rightly refuses.
                let far = if handle.what == "corner" { 90 } else { 4000 };
                let metres = |millimetres: i64| millimetres as f64 / 1000.0;
                let (dx, dy) = (metres(dice.from(-far, far)), metres(dice.from(-far, far)));
                let json = format!(
                    r#"{{"pull": {{"path": "{id}", "what": "{}", "index": {}, "dx": {dx}, "dy": {dy}}}}}"#,
                    handle.what, handle.index
                );
                let mut now = before.clone();
                applied(&mut now, &json).unwrap_or_else(|wrong| panic!("{json}: {wrong:?}"));
                plan(&now);
            }
            let mut now = before.clone();
            let degrees = dice.from(-180, 180);
            applied(
                &mut now,
                &format!(r#"{{"turn": {{"path": "{id}", "degrees": {degrees}}}}}"#),
            )
            .unwrap();
            plan(&now);
        }
    }
}

#[test]
fn a_turned_rectangle_keeps_its_middle_and_its_size() {
    let mut now = document(&without_answers(HOME));
    let before = plan(&now);
    applied(&mut now, r#"{"turn": {"path": "pool", "degrees": 90}}"#).unwrap();
    let json = to_json_text(&now);
    // 4 m by 10 m about (4.2, 25.7): turned a quarter, its first corner lies at the lower right.
    assert!(
        json.contains(r#""at": [9.2, 23.7], "length": "4 m", "width": "10 m", "turned": "90 deg""#),
        "{json}"
    );
    let after = plan(&now);
    let water = |plan: &Plan| {
        let pool = plan
            .things
            .iter()
            .find(|thing| thing.id == "pool")
            .expect("a pool")
            .clone();
        pool.outlines.values().next().expect("its water").clone()
    };
    assert_eq!(figure_gap(&water(&before), &water(&after)).low, 0);
    for _ in 0..3 {
        applied(&mut now, r#"{"turn": {"path": "pool", "degrees": 90}}"#).unwrap();
    }
    assert_eq!(plan(&now).things, with_spans_of(&now, &before).things);
}

/// The places in the text differ, since `turned` is written now.
fn with_spans_of(document: &Node, other: &Plan) -> Plan {
    let mut plan = plan(document);
    for (thing, other) in plan.things.iter_mut().zip(&other.things) {
        thing.outlines = other.outlines.clone();
    }
    plan
}

#[test]
fn a_rectangle_pulled_at_a_corner_keeps_the_opposite_one() {
    let mut now = document(&without_answers(HOME));
    for (what, index, rectangle) in [
        (
            "corner",
            2,
            r#"{"at": [2.2, 20.7], "length": "4.5 m", "width": "10.25 m"}"#,
        ),
        (
            "corner",
            0,
            r#"{"at": [2.7, 20.95], "length": "4 m", "width": "10 m"}"#,
        ),
        (
            "side",
            1,
            r#"{"at": [2.7, 20.95], "length": "4.5 m", "width": "10 m"}"#,
        ),
        (
            "side",
            0,
            r#"{"at": [2.7, 21.2], "length": "4.5 m", "width": "9.75 m"}"#,
        ),
    ] {
        let json = format!(
            r#"{{"pull": {{"path": "pool:water", "what": "{what}", "index": {index}, "dx": 0.5, "dy": 0.25}}}}"#
        );
        applied(&mut now, &json).unwrap();
        let text = to_json_text(&now);
        assert!(text.contains(rectangle), "{what} {index}: {text}");
    }
    applied(
        &mut now,
        r#"{"pull": {"path": "pool", "what": "side", "index": 1, "dx": -99, "dy": 0}}"#,
    )
    .unwrap();
    assert!(to_json_text(&now).contains(r#""length": "0.1 m""#));
}

#[test]
fn a_lot_is_drawn_from_its_width_and_depth_or_its_sides() {
    let mut now = document("plan: p\ntitle: P\nunit: m\nthings: []\n");
    applied(&mut now, r#"{"lot": {"width": "80 ft", "depth": "30.5"}}"#).unwrap();
    applied(
        &mut now,
        r#"{"add": {"kind": "pool", "outline": "water", "shape": "area", "size": ["8 m", "4 m"]}}"#,
    )
    .unwrap();
    let drawn = plan(&now);
    assert_eq!(
        drawn
            .things
            .iter()
            .filter(|thing| thing.part_of == Some(0))
            .count(),
        4
    );
    let text = to_json_text(&now);
    assert!(text.contains(r#""ne": ["80 ft", 30.5]"#), "{text}");
    assert!(text.contains(r#""pool": {"id": "pool", "water": {"rectangle": {"at": [8.192, 13.25], "length": "8 m", "width": "4 m"}}}"#), "{text}");

    // A right-angled triangle of 3, 4 and 5 closes (Euclid I.47); its acute angles are 53.13 and 36.87 degrees.
    let sides = r#"{"lot": {"sides": [{"length": "30 m", "angle": "90"}, {"length": "40 m", "angle": "36.87"}, {"length": "50 m"}]}}"#;
    let closing = applied(&mut now, sides)
        .unwrap()
        .closing
        .expect("it says by how much");
    assert!(closing < 10_000_000, "{closing}");
    assert!(
        to_json_text(&now).contains(r#""corners": {"c1": [0, 0], "c2": [30, 0], "c3": [30, 40]}"#)
    );
    plan(&now);
    let open = sides.replace("50 m", "48 m");
    let closing = applied(&mut now, &open)
        .unwrap()
        .closing
        .expect("it says by how much");
    assert!(
        (1_990_000_000..2_010_000_000).contains(&closing),
        "{closing}"
    );
}

#[test]
fn what_is_new_gets_a_free_id() {
    let mut now = document(&without_answers(HOME));
    let added = applied(
        &mut now,
        r#"{"add": {"kind": "well", "outline": "casing", "shape": "point", "at": [3, 4]}}"#,
    );
    assert_eq!(added.unwrap().id.as_deref(), Some("well"));
    let added = applied(&mut now, r#"{"add": {"kind": "well"}}"#);
    assert_eq!(added.unwrap().id.as_deref(), Some("well-2"));
    let text = to_json_text(&now);
    assert!(
        text.contains(r#"{"kind": "well", "id": "well", "casing": [3, 4]}"#),
        "{text}"
    );
    plan(&now);
}

#[test]
fn what_is_not_there_is_not_changed() {
    let mut now = document(ROUND);
    for json in [
        r#"{"move": {"path": "nobody", "dx": 1, "dy": 1}}"#,
        r#"{"move": {"path": "house/roof", "dx": 1, "dy": 1}}"#,
        r#"{"pull": {"path": "oak", "what": "corner", "index": 0, "dx": 1, "dy": 1}}"#,
        r#"{"pull": {"path": "house", "what": "corner", "index": 9, "dx": 1, "dy": 1}}"#,
        r#"{"lot": {"width": "wide", "depth": "9 m"}}"#,
        r#"{"lot": {"sides": []}}"#,
    ] {
        let wrong = applied(&mut now, json).expect_err(json);
        assert!(wrong.0.ends_with('.') && wrong.0.len() > 20, "{wrong:?}");
    }
    assert_eq!(to_json_text(&now), to_json_text(&document(ROUND)));
}
