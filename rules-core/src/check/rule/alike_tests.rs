use crate::check::Findings;
use crate::check::judge::Judge;
use crate::check::whole::judged_by;
use crate::check::world::alike::Alike;
use crate::check::world::base::Base;
use crate::check::world::scene::Scene;
use crate::plan::{self, Plan};
use crate::ruleset::{self, RuleSet};
use crate::vocabulary::Vocabulary;

/// Some of these pools are alike, and some differ in what is stated.
const PLAN: &str = "\
plan: pools
title: Pools
unit: m
sources:
  - {id: s, by: survey, accuracy: 20 mm, shift: 0 mm}
lot:
  source: s
  level-ground: yes
  corners: {a: [0, 0], b: [30, 0], c: [30, 40], d: [0, 40]}
  sides:
    - {id: street, from: a, to: b, faces: front, beyond: road}
    - {id: east, from: b, to: c, faces: side, beyond: neighbour-lot}
    - {id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}
    - {id: west, from: d, to: a, faces: side, beyond: neighbour-lot}
pool:
  - {id: p0, source: s, water: {rectangle: {at: [2, 20], length: 3 m, width: 2 m}}}
  - {id: p1, source: s, water: {rectangle: {at: [6, 20], length: 3 m, width: 2 m}}}
  - {id: p2, source: s, depth: 1.4 m, water: {rectangle: {at: [10, 20], length: 3 m, width: 2 m}}}
  - {id: p3, source: s, depth: 1.4 m, water: {rectangle: {at: [14, 20], length: 3 m, width: 2 m}}}
  - {id: p4, source: s, depth: 0.3 m, water: {rectangle: {at: [18, 20], length: 3 m, width: 2 m}}}
  - {id: p5, source: s, water: {rectangle: {at: [22, 20], length: 3 m, width: 2 m}}}
  - {id: p6, source: s, depth: 1.4 m}
things:
  - {kind: building, id: house, source: s, wall: {rectangle: {at: [5, 5], length: 12 m, width: 8 m}}}
  - {kind: barrier-stretch, id: f, source: s, height-outside: 1.3 m, line: [[1, 18], [29, 18]]}
  - {kind: gate, id: g, part-of: f, source: s, line: [[3, 18], [4, 18]]}
";

const RULES: [&str; 7] = [
    include_str!("../../../../rulesets/eldermere/rules.yaml"),
    include_str!("../../../../rulesets/barrier-model/rules.yaml"),
    include_str!("../../../../rulesets/us-adoptions/rules.yaml"),
    include_str!("../../../../rulesets/barrier-as1926/rules.yaml"),
    include_str!("../../../../rulesets/norway/rules.yaml"),
    include_str!("../../../../rulesets/quebec/rules.yaml"),
    include_str!("../../../../rulesets/electric-model/rules.yaml"),
];

fn found<'a>(plan: &'a Plan, rules: &'a RuleSet, alike: Option<Alike>) -> Findings<'a> {
    let base = Base::new(plan, rules);
    if let Some(alike) = alike {
        base.set_alike(alike);
    }
    let judge = Judge {
        keeps: true,
        ..Judge::new(Scene::new(base), rules.in_force.as_ref())
    };
    judged_by(&judge).unwrap()
}

#[test]
fn reusing_results_of_pools_that_are_alike_changes_nothing() {
    let bases = |name: &str| (name == "barrier-model").then(|| RULES[1]);
    for text in RULES {
        let read = ruleset::read(text, &bases, Vocabulary::standard()).unwrap();
        let plan = plan::read(PLAN, &read.rule_set.vocabulary).unwrap();
        let each_by_itself = found(&plan, &read.rule_set, Some(Alike::new()));
        let judged = found(&plan, &read.rule_set, None);
        assert_eq!(judged, each_by_itself, "{}", read.rule_set.id);
    }
}

#[test]
fn pools_with_the_same_facts_and_outlines_are_alike() {
    let vocabulary = Vocabulary::standard();
    let plan = plan::read(PLAN, &vocabulary).unwrap();
    let pools: Vec<usize> = (0..plan.things.len())
        .filter(|&index| plan.things[index].id.starts_with('p'))
        .collect();
    let alike = crate::check::world::alike::alike(&plan, &pools);
    let first: Vec<&str> = pools
        .iter()
        .map(|pool| plan.things[alike[pool]].id.as_str())
        .collect();
    assert_eq!(first, ["p0", "p0", "p2", "p2", "p4", "p0", "p6"]);
}
