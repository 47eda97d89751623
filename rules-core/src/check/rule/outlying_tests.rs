use crate::check::check;
use crate::vocabulary::Vocabulary;
use crate::{plan, ruleset};

const HEAD: &str = "\
plan: pairs
title: Pairs
unit: m
sources:
  - {id: s, by: survey, accuracy: 50 mm, shift: 20 mm}
  - {id: t, by: guess, accuracy: 100 mm, shift: 10 mm}
lot:
  source: s
  level-ground: yes
  corners: {a: [0, 0], b: [90, 0], c: [90, 90], d: [0, 90]}
  sides:
    - {id: street, from: a, to: b, faces: front, beyond: road}
    - {id: east, from: b, to: c, faces: side, beyond: neighbour-lot}
    - {id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}
    - {id: west, from: d, to: a, faces: side, beyond: neighbour-lot}
pool: {id: pool, source: s, water: {rectangle: {at: [60, 60], length: 3 m, width: 2 m}}}
inventory: {building: all-shown, well: all-shown}
things:
  - {kind: building, id: a, source: s, wall: {rectangle: {at: [9, 9], length: 1 m, width: 2 m}}}
  - {kind: building, id: b, source: t, wall: {rectangle: {at: [20, 10], length: 1 m, width: 1 m}}}
  - {kind: building, id: c, source: s, wall: {rectangle: {at: [30, 10], length: 1 m, width: 1 m}}}
";

/// Four wells, two of them equally near.
const NEAR: &str = "  - {kind: well, id: w0, source: s, casing: [22, 10]}
  - {kind: well, id: w1, source: t, casing: [19, 10]}
  - {kind: well, id: w2, source: t, casing: [19, 10.001]}
  - {kind: well, id: w3, source: s, casing: [33, 12]}
";

fn far() -> String {
    let well = |at: usize| {
        format!(
            "  - {{kind: well, id: f{at}, source: s, casing: [{}, 80]}}\n",
            20 + at
        )
    };
    (0..30).map(well).collect()
}

/// Wells far away do not change the findings, whatever the order of the list.
#[test]
fn things_far_away_change_nothing() {
    for limit in [
        "at-least: 500 mm",
        "more-than: 950 mm",
        "at-least: 1 m",
        "at-least: 3 m",
    ] {
        let rules = format!(
            "ruleset: pairs\ntitle: Pairs\nedition: \"1\"\nauthority: the office\nnotice: Invented for tests.\nrules:\n  \
             - {{id: a, title: A, clause: C, each: building, require: {{each: well, require: {{distance: {{from: building.wall, to: well.casing}}, {limit}}}}}}}\n"
        );
        let read = ruleset::read(&rules, &|_| None, Vocabulary::standard()).unwrap();
        let rules = read.rule_set;
        let read = |wells: &str| plan::read(&format!("{HEAD}{wells}"), &rules.vocabulary).unwrap();
        let (few, many) = (read(NEAR), read(&format!("{NEAR}{}", far())));
        let (found, among) = (check(&few, &rules).unwrap(), check(&many, &rules).unwrap());
        assert_eq!(found.rules, among.rules, "{limit}");
        let last = read(&format!("{}{NEAR}", far()));
        let behind = check(&last, &rules).unwrap();
        let truths = |found: &crate::check::Findings<'_>| -> Vec<_> {
            let parts = found.rules.iter().flat_map(|rule| &rule.parts);
            parts
                .map(|part| (part.truth, part.as_drawn, part.margin))
                .collect()
        };
        assert_eq!(truths(&found), truths(&behind), "{limit}");
    }
}
