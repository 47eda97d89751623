//! Pulling handles, and replacing drawn shapes by other shapes.

use super::edit_tests::*;
use super::{centre_of, handles, reshape};

use crate::quantity::Unit;
use crate::text::{Node, read, to_json_text};

#[test]
fn a_handle_goes_where_it_is_pulled_to() {
    let mut now = document(&without_answers(HOME));
    for (json, rectangle) in [
        (
            r#"{"pull": {"path": "pool", "what": "corner", "index": 2, "dx": 0.5, "dy": 0.3}}"#,
            r#"{"at": [2.2, 20.7], "length": "4.5 m", "width": "10.3 m"}"#,
        ),
        (
            r#"{"pull": {"path": "pool", "what": "side", "index": 1, "dx": 0.5, "dy": 9}}"#,
            r#"{"at": [2.2, 20.7], "length": "5 m", "width": "10.3 m"}"#,
        ),
        (
            r#"{"pull": {"path": "pool", "what": "turn", "index": 0, "dx": 15.3, "dy": -6.15}}"#,
            r#"{"at": [-0.45, 28.35], "length": "5 m", "width": "10.3 m", "turned": "-90 deg"}"#,
        ),
    ] {
        applied(&mut now, json).unwrap();
        let text = to_json_text(&now);
        assert!(text.contains(rectangle), "{json}: {text}");
    }
    applied(
        &mut now,
        r#"{"pull": {"path": "lot", "what": "corner", "index": 2, "dx": 1.5, "dy": 1}}"#,
    )
    .unwrap();
    assert!(to_json_text(&now).contains(r#""ne": [23.5, 33]"#));
    let corners = r#"{"lot": {"corners": [["0 m", "0 m"], ["9.5 m", "1 m"], ["4", "12 ft"]]}}"#;
    applied(&mut now, corners).unwrap();
    let text = to_json_text(&now);
    let wanted = r#""corners": {"c1": ["0 m", "0 m"], "c2": ["9.5 m", "1 m"], "c3": [4, "12 ft"]}"#;
    assert!(text.contains(wanted), "{text}");
}

/// A rectangle of 250 m has its handles where its far corners lie, and keeps its middle when it is turned or drawn anew.
#[test]
fn what_is_longer_than_a_hundred_metres_is_held_at_its_far_end() {
    for turned in ["0 deg", "90 deg"] {
        let mut now = read(&format!(
            "{{unit: m, pool: {{id: pool, water: {{rectangle: {{at: [7, 20], length: 250 m, width: 150 m, turned: {turned}}}}}}}}}"
        ))
        .unwrap();
        let far = match turned {
            "0 deg" => [257_000, 170_000],
            _ => [-143_000, 270_000],
        };
        let corner = handles(&now, "pool").into_iter().nth(2).unwrap();
        assert_eq!((corner.index, corner.at), (2, far), "{turned}");
        let middle = |now: &mut Node| centre_of(now, "pool", Some(Unit::METRE)).unwrap();
        let before = middle(&mut now);
        applied(&mut now, r#"{"turn": {"path": "pool", "degrees": 90}}"#).unwrap();
        assert_eq!(middle(&mut now), before, "{turned}");
        reshape(&mut now, "pool:water", "l-shape").unwrap();
        assert_eq!(middle(&mut now), before, "{turned}");
    }
}

/// What the tests of `edit_tests` change holds an outline drawn in every way a plan allows.
#[test]
fn each_way_to_draw_is_tried() {
    let text = without_answers(HOME) + ROUND;
    for way in crate::grammar::DRAWN_WAYS {
        assert!(text.contains(&format!("{{{way}: ")), "{way}");
    }
}

/// An L pulled shorter keeps a leg, and a kidney's ends do not come nearer than its dent allows.
#[test]
fn what_would_no_longer_be_a_shape_is_not_pulled_so_far() {
    let mut now = document(ROUND);
    let pull = |now: &mut Node, path: &str, what: &str, dx: f64, dy: f64| {
        let json = format!(
            r#"{{"pull": {{"path": "{path}", "what": "{what}", "index": 1, "dx": {dx}, "dy": {dy}}}}}"#
        );
        applied(now, &json).unwrap();
        plan(now);
    };
    pull(&mut now, "bin", "side", -3.0, -1.0);
    let json = to_json_text(&now);
    assert!(json.contains(r#""notch-width": "4 ft""#), "{json}");
    assert!(!json.contains(r#""notch-length": "5 ft""#), "{json}");
    let before = to_json_text(&now);
    pull(&mut now, "pond", "end", -2.9, -1.1);
    assert_eq!(to_json_text(&now), before, "too near");
    pull(&mut now, "pond", "end", 0.6096, 0.0);
    assert!(
        to_json_text(&now).contains(r#""to": [62.001, 84]"#),
        "{}",
        to_json_text(&now)
    );
    assert_eq!(
        handles(&now, "bay")
            .iter()
            .filter(|handle| handle.what == "corner")
            .count(),
        4
    );
}

/// Whatever its new shape, a pool keeps its middle and stays within its old extent.
#[test]
fn another_shape_lies_where_the_old_one_lay() {
    const SHAPES: [&str; 7] = [
        "kidney",
        "l-shape",
        "places",
        "circle",
        "oval",
        "rounded-rectangle",
        "rectangle",
    ];
    for turned in ["0 deg", "30 deg"] {
        for shape in SHAPES {
            let text = format!(
                "{{unit: m, pool: {{id: pool, water: {{rectangle: {{at: [7, 20], length: 8 m, width: 4 m, turned: {turned}}}}}}}}}"
            );
            let mut plan = read(&text).unwrap();
            let before = centre_of(&mut plan, "pool", Some(Unit::METRE)).unwrap();
            reshape(&mut plan, "pool:water", shape).unwrap();
            let water = plan.get("pool").and_then(|pool| pool.get("water")).unwrap();
            assert!(shape == "places" || water.get(shape).is_some(), "{shape}");
            let after = centre_of(&mut plan, "pool", Some(Unit::METRE)).unwrap();
            let off = (after.0 - before.0).abs().max((after.1 - before.1).abs());
            assert!(off <= 2_000_000, "{shape}, {turned}: {off} nm away");
        }
    }
}

/// A rectangle that becomes round and square again is as long and as wide as before.
#[test]
fn length_and_width_outlast_another_shape() {
    let mut plan = read("{unit: m, pool: {id: pool, water: {rectangle: {at: [7, 20], length: 9.5 m, width: 3.2 m}}}}").unwrap();
    for shape in ["rounded-rectangle", "l-shape", "oval", "rectangle"] {
        reshape(&mut plan, "pool:water", shape).unwrap();
    }
    let way = plan.get("pool").unwrap().get("water").unwrap();
    let way = way.get("rectangle").unwrap();
    let [length, width] = ["length", "width"].map(|key| way.get(key).and_then(Node::text));
    assert_eq!([length, width], [Some("9.5"), Some("3.2")]);
    assert!(reshape(&mut plan, "pool:water", "star").is_err());
    assert!(reshape(&mut plan, "pool:deck", "circle").is_err());
}
