//! The measures of the trade from a plan and a rule file to the outcome: worked by hand in `docs/measures`.

use rules_core::check::{Outcome, check};
use rules_core::quantity::Interval;
use rules_core::vocabulary::Vocabulary;
use rules_core::{plan, ruleset};

/// A lot of 20 by 40 m, the road to the south, a house across its middle, a pool behind it.
const LOT: &str = "
plan: mill-lane-3
title: Mill Lane 3
unit: m
sources:
  - {id: survey, by: survey, accuracy: 0 mm, shift: 0 mm}
lot:
  source: survey
  corners: {a: [0, 0], b: [20, 0], c: [20, 40], d: [0, 40]}
  sides:
    - {id: front, from: a, to: b, faces: front, beyond: road}
    - {id: right, from: b, to: c, faces: side, beyond: neighbour-lot}
    - {id: rear, from: c, to: d, faces: rear, beyond: neighbour-lot}
    - {id: left, from: d, to: a, faces: side, beyond: neighbour-lot}
";

fn judge(plan: &str, terms: &str, rule: &str) -> (Outcome, Option<Interval>) {
    let rules = format!(
        "ruleset: eldermere\ntitle: Eldermere\nedition: \"1\"\nauthority: Eldermere building office\n{terms}\
         rules:\n  - id: one\n    title: One\n    clause: s. 1\n{rule}"
    );
    let rules = match ruleset::read(&rules, &|_| None, Vocabulary::standard()) {
        Ok(checked) => checked.rule_set,
        Err(files) => panic!(
            "{:#?}",
            files
                .iter()
                .map(|f| f.faults.show("rules", &rules))
                .collect::<Vec<_>>()
        ),
    };
    let plan = match plan::read(plan, &rules.vocabulary) {
        Ok(plan) => plan,
        Err(faults) => panic!("{}", faults.show("plan", plan)),
    };
    let found = check(&plan, &rules);
    let finding = &found.rules[0];
    let reading = finding.parts.first().and_then(|part| part.readings.first());
    (
        finding.outcome,
        reading.and_then(|reading| reading.measured),
    )
}

mod sound {
    use super::*;

    fn plan(accuracy: &str, first: &str, inventory: &str) -> String {
        format!(
            "{LOT}pool: {{id: pool, source: survey, water: {{rectangle: {{at: [8, 30], length: 8 m, width: 4 m}}}}}}
things:
  - {{kind: building, id: next-door, source: survey, accuracy: {accuracy}, wall: [[30,10],[40,10],[40,20],[30,20]], stands-on: neighbour-lot}}
  - {{kind: wall-opening, id: window, part-of: next-door, source: survey, accuracy: {accuracy}, line: [[30,14],[30,15]], in: neighbour-building}}
  - {{kind: equipment, id: pump, source: survey, region: [[24,14],[25,14],[25,15],[24,15]], sound-power: 60 dB, reflecting-surfaces: 0, runs: {first}}}
  - {{kind: equipment, id: heater, source: survey, region: [[19,14],[20,14],[20,15],[19,15]], sound-power: 67 dB, reflecting-surfaces: 1, runs: day-and-evening}}
inventory: {{wall-opening: all-shown{inventory}}}
"
        )
    }

    fn rule(during: &str, limit: &str) -> String {
        format!(
            "    each: {{kind: wall-opening, where: {{fact: wall-opening.in, is: neighbour-building}}}}
    require: {{sound: {{from: equipment, at: wall-opening, during: {during}}}, at-most: {limit}}}\n"
        )
    }

    /// `docs/measures/sound.md`: 38.02 dB and 42 dB together are 43.46 dB; at night the pump alone.
    #[test]
    fn two_machines_by_hand() {
        let plan = plan("0 mm", "always", ", equipment: all-shown");
        let (outcome, level) = judge(&plan, "", &rule("day", "45 dB"));
        let level = level.unwrap();
        assert_eq!(outcome, Outcome::Pass);
        assert!((level.low - 43_460_000).abs() < 5_000, "{level:?}");
        assert!(level.high - level.low < 8);
        assert_eq!(judge(&plan, "", &rule("evening", "43 dB")).0, Outcome::Fail);
        let (outcome, level) = judge(&plan, "", &rule("night", "39 dB"));
        assert_eq!(outcome, Outcome::Pass);
        assert!((level.unwrap().low - 38_020_000).abs() < 5_000);
    }

    #[test]
    fn what_nobody_knows_keeps_it_open() {
        let off = plan("0.5 m", "always", ", equipment: all-shown");
        assert_eq!(
            judge(&off, "", &rule("day", "43.5 dB")).0,
            Outcome::Marginal
        );
        let unseen = plan("0 mm", "always", "");
        assert_eq!(
            judge(&unseen, "", &rule("day", "45 dB")).0,
            Outcome::Unknown
        );
        assert_eq!(
            judge(&unseen, "", &rule("day", "43 dB")).0,
            Outcome::Fail,
            "louder still with others"
        );
        let timer = plan("0 mm", "unknown", ", equipment: all-shown");
        assert_eq!(judge(&timer, "", &rule("day", "43 dB")).0, Outcome::Unknown);
        assert_eq!(
            judge(&timer, "", &rule("day", "41 dB")).0,
            Outcome::Fail,
            "the heater alone is louder"
        );
        let silent = plan("0 mm", "day", ", equipment: all-shown");
        assert_eq!(
            judge(&silent, "", &rule("night", "0 dB")),
            (Outcome::Pass, Some(Interval::exact(0)))
        );
    }
}
