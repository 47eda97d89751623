//! Drawings, held against the files in `drawings/`; `BLESS=1` writes them anew, and then somebody has to look at them.

use std::fs;
use std::path::{Path, PathBuf};

use crate::held::draw;
use siting_rulesets::{DEMO_PLAN as HOME, DEMO_RULES as RULES};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/drawings")
}

fn drawn(plan: &str, options: &str) -> String {
    let svg = draw(plan, RULES, options);
    assert!(svg.starts_with("<svg "), "{svg}");
    svg
}

fn held_against(name: &str, svg: &str) {
    assert_well_formed(svg);
    let path = folder().join(format!("{name}.svg"));
    if std::env::var_os("BLESS").is_some() {
        fs::write(&path, svg).expect("the drawing can be written");
        return;
    }
    let known = fs::read_to_string(&path).unwrap_or_default();
    assert!(known == svg, "{name} is not drawn as in its file");
}

/// Every element that is opened is closed in its turn, and no text holds a bare bracket or quote.
fn assert_well_formed(svg: &str) {
    let mut open = Vec::new();
    let mut rest = svg;
    while let Some((text, after)) = rest.split_once('<') {
        assert!(!text.contains('>'), "{text}");
        let (tag, after) = after.split_once('>').expect("a tag ends");
        assert_eq!(tag.matches('"').count() % 2, 0, "{tag}");
        match tag.strip_prefix('/') {
            Some(name) => assert_eq!(open.pop(), Some(name), "{tag}"),
            None if tag.ends_with('/') => {}
            None => open.extend(tag.split_ascii_whitespace().next()),
        }
        rest = after;
    }
    assert!(open.is_empty() && rest.is_empty(), "{open:?} {rest}");
}

const SHADED: &str = r#"{"shade": true}"#;

#[test]
fn the_home() {
    held_against("home", &drawn(HOME, "{}"));
}

#[test]
fn the_home_with_its_shade() {
    held_against("home-shaded", &drawn(HOME, SHADED));
}

#[test]
fn the_home_with_one_rule_selected() {
    let options = r#"{"shade": true, "selected": "septic-tank", "thing": "tank"}"#;
    held_against("home-selected", &drawn(HOME, options));
}

#[test]
fn the_home_after_its_pool_was_moved() {
    let moved = HOME.replace("at: [2.2, 20.7]", "at: [3.4, 20.2]");
    assert_ne!(moved, HOME);
    held_against("home-moved", &drawn(&moved, SHADED));
}

#[test]
fn the_home_on_paper() {
    let options = r#"{"scale": 200, "paper": [190, 277], "all-distances": true}"#;
    let svg = drawn(HOME, options);
    // 190 mm of paper are 38 m of ground at 1:200, so that 10 m are 50 mm.
    assert!(svg.contains(" width=\"190mm\" height=\"277mm\""));
    let view = svg.split_once("viewBox=\"").expect("a view").1;
    let view: Vec<f64> = view
        .split_once('"')
        .expect("its end")
        .0
        .split(' ')
        .map(|number| number.parse().expect("a number"))
        .collect();
    assert_eq!(view[2..], [38_000.0, 55_400.0]);
    held_against("home-paper", &svg);
}

#[test]
fn what_is_round_or_slanting() {
    let plan = include_str!("drawings/round.yaml");
    let svg = drawn(plan, r#"{"shade": true, "unit": "ft"}"#);
    // The oval's ends are arcs of 8 ft, 2438.4 mm, and not rows of corners.
    assert!(svg.contains("A2438 2438 0 0 0 "), "{svg}");
    held_against("round", &svg);
}

#[test]
fn a_lot_with_a_pool_that_nobody_has_placed() {
    let plan = "plan: p\ntitle: New\nunit: m\nlot: {corners: {a: [0, 0], b: [20, 0], c: [20, 30], d: [0, 30]}}\npool: {id: pool}\n";
    held_against("begun", &drawn(plan, SHADED));
}

#[test]
fn two_hundred_things() {
    let mut plan = HOME
        .split_once("\nthings:")
        .expect("it has things")
        .0
        .to_owned();
    plan += "\nthings:\n";
    for n in 0..200 {
        let (east, north) = (n % 20, n / 20 * 3);
        plan += &match n % 4 {
            0 => format!(
                "  - {{kind: tree, id: tree-{n}, source: survey, stem: {{circle: {{at: [{east}.5, {north}.5], radius: 0.2 m}}}}}}\n"
            ),
            1 => format!(
                "  - {{kind: buried-service, id: pipe-{n}, source: survey, type: water, path: [[{east}, {north}], [{east}.8, {north}.9]]}}\n"
            ),
            2 => format!(
                "  - {{kind: equipment, id: box-{n}, source: survey, region: {{rectangle: {{at: [{east}, {north}], length: 0.6 m, width: 0.4 m}}}}}}\n"
            ),
            _ => format!(
                "  - {{kind: barrier-stretch, id: fence-{n}, source: survey, line: [[{east}, {north}], [{east}, {north}.9]]}}\n"
            ),
        };
    }
    held_against("two-hundred", &drawn(&plan, SHADED));
}

#[test]
fn a_name_is_only_ever_text() {
    let hostile = "'</svg><script>alert(1)</script>\" onload=\"x'";
    let plan = HOME.replace(
        "title: Linden Row 12, pool behind the house",
        &format!("title: {hostile}"),
    );
    assert_ne!(plan, HOME);
    let svg = drawn(&plan, "{}");
    assert_well_formed(&svg);
    assert!(!svg.contains("<script") && !svg.contains("\" onload"));
}

#[test]
fn options_that_are_none_are_said_to_be_wrong() {
    assert!(draw(HOME, RULES, r#"{"shadow": true}"#).starts_with("{\"wrong\""));
    assert!(draw("a: 1", RULES, "{}").contains("\"refused\""));
}
