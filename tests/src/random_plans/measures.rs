//! Random plans with something for every measure to measure; `RULES` has a rule for each.

use std::fmt::Write as _;

use super::{Random, lot, sources};

/// A rule for every measure.
pub const RULES: &str = include_str!("../../every-measure/rules.yaml");

/// The text of a random plan.
pub fn plan(seed: u64) -> String {
    let mut random = Random::new(seed ^ 0xA5A5_5A5A);
    let mut text = format!("plan: measured-{seed}\ntitle: Random plan {seed}\nunit: m\n");
    sources(&mut random, &mut text);
    lot(&mut random, &mut text);
    let level = random.pick(&["yes", "yes", "no", "unknown"]);
    let _ = writeln!(text, "  level-ground: {level}");
    let at = (random.within(10_000, 16_000), random.within(22_000, 30_000));
    pool(&mut random, &mut text, at);
    text.push_str("things:\n");
    house(&mut random, &mut text);
    fence(&mut random, &mut text, at);
    roads_and_wires(&mut random, &mut text);
    for index in 0..random.within(0, 3) {
        tree(&mut random, &mut text, index);
    }
    for index in 0..random.within(0, 2) {
        machine(&mut random, &mut text, index);
    }
    inventory(&mut random, &mut text);
    text
}

fn metres(millimetres: i64) -> String {
    let sign = if millimetres < 0 { "-" } else { "" };
    let size = millimetres.unsigned_abs();
    format!("{sign}{}.{:03}", size / 1000, size % 1000)
}

fn at(x: i64, y: i64) -> String {
    format!("[{}, {}]", metres(x), metres(y))
}

fn line(points: &[(i64, i64)]) -> String {
    let all: Vec<String> = points.iter().map(|(x, y)| at(*x, *y)).collect();
    format!("[{}]", all.join(", "))
}

/// Every shape that a pool may have.
fn pool(random: &mut Random, text: &mut String, (x, y): (i64, i64)) {
    let (long, wide) = (random.within(4_000, 8_000), random.within(2_500, 4_000));
    let (mm, turned) = (|length: i64| format!("{length} mm"), random.within(-40, 40));
    let box_of = |more: &str| {
        format!(
            "{{at: {}, length: {}, width: {}{more}, turned: {turned} deg}}",
            at(x, y),
            mm(long),
            mm(wide)
        )
    };
    let (round, rise) = (wide / 2, random.within(200, wide / 3));
    let water = match random.within(0, 6) {
        0 => format!("{{circle: {{at: {}, radius: {}}}}}", at(x, y), mm(round)),
        1 => format!(
            "{{oval: {{from: {}, to: {}, radius: {}}}}}",
            at(x, y),
            at(x + long - wide, y + rise),
            mm(round)
        ),
        2 => format!(
            "{{rounded-rectangle: {}}}",
            box_of(&format!(", corner-radius: {}", mm(rise)))
        ),
        3 => format!(
            "{{l-shape: {}}}",
            box_of(&format!(
                ", notch-length: {}, notch-width: {}",
                mm(long / 2),
                mm(rise)
            ))
        ),
        4 => format!(
            "{{kidney: {{from: {}, to: {}, radius: {}, hollow: {}, back: {}}}}}",
            at(x, y),
            at(x + long / 2 + 1000, y + rise),
            mm(round),
            mm(rise),
            mm(rise / 2 + 1)
        ),
        5 => format!(
            "{{curved: [{}, {}, {{out: {}}}, {}, {}, {{in: {}}}]}}",
            at(x, y),
            at(x + long, y),
            mm(rise),
            at(x + long, y + wide),
            at(x, y + wide),
            mm(rise / 2)
        ),
        _ => format!("{{rectangle: {}}}", box_of("")),
    };
    let _ = writeln!(
        text,
        "pool:\n  id: pool\n  source: survey\n  accuracy: {} mm\n  water: {water}",
        random.within(0, 80)
    );
    for (name, from, low, high) in [
        ("coping", "water", 200, 500),
        ("shell", "water", 150, 300),
        ("excavation", "shell", 300, 1200),
    ] {
        let by = random.drawn(low, high);
        let _ = writeln!(
            text,
            "  {name}: {{outward: {by}, from: {from}, corners: round}}"
        );
    }
    let _ = writeln!(text, "  height-above-ground: {}", random.length(0, 400));
    let _ = writeln!(text, "  excavation-depth: {}", random.length(500, 3_000));
}

fn house(random: &mut Random, text: &mut String) {
    let (x, y) = (random.within(4_000, 6_000), random.within(6_000, 8_000));
    let (right, rear) = (
        x + random.within(8_000, 12_000),
        y + random.within(7_000, 10_000),
    );
    let wall = line(&[(x, y), (right, y), (right, rear), (x, rear)]);
    let source = random.pick(&["survey", "survey", "town-map"]);
    let _ = writeln!(
        text,
        "  - kind: building\n    id: house\n    source: {source}\n    use: dwelling\n    wall: {wall}\n    footing: {wall}\n    \
         rear-wall: {}\n    side-wall: {{parts: [{}, {}]}}\n    footing-depth: {}",
        line(&[(x, rear), (right, rear)]),
        line(&[(x, y), (x, rear)]),
        line(&[(right, y), (right, rear)]),
        random.length(400, 2_000)
    );
    for (id, sort) in [("back-door", "door"), ("window", "window")] {
        let from = random.within(x, right - 1_500);
        let opening = line(&[(from, rear), (from + random.within(700, 1_500), rear)]);
        let _ = writeln!(
            text,
            "  - {{kind: wall-opening, id: {id}, part-of: house, source: {source}, type: {sort}, in: building, line: {opening}}}"
        );
    }
}

/// A fence around the pool in two stretches that nearly meet, with or without a gate.
fn fence(random: &mut Random, text: &mut String, (x, y): (i64, i64)) {
    let (left, low) = (
        x - random.within(6_000, 7_000),
        y - random.within(4_600, 5_000),
    );
    let (right, high) = (
        x + random.within(11_000, 12_000),
        y + random.within(9_000, 10_000),
    );
    let joint = |random: &mut Random| {
        *[0, 0, 20, 90, 101, 150]
            .get(random.within(0, 5) as usize)
            .unwrap_or(&0)
    };
    let middle = random.within(left + 1_000, right - 1_000);
    let gap = random.within(0, 2) * 500;
    let first = [(middle + gap, low), (right, low), (right, high)];
    let second = [
        (right - joint(random), high),
        (left, high),
        (left, low),
        (middle - joint(random), low),
    ];
    for (id, points) in [
        ("fence-right", first.as_slice()),
        ("fence-left", second.as_slice()),
    ] {
        let _ = writeln!(
            text,
            "  - {{kind: barrier-stretch, id: {id}, source: survey, height-outside: {}, line: {}}}",
            random.length(1_050, 1_500),
            line(points)
        );
    }
    if gap > 0 {
        let part_of = random.pick(&["", ", part-of: fence-left"]);
        let leaf = line(&[
            (middle + joint(random), low),
            (middle + gap - joint(random), low),
        ]);
        let _ = writeln!(
            text,
            "  - {{kind: gate, id: gate, source: survey{part_of}, line: {leaf}}}"
        );
    }
}

fn roads_and_wires(random: &mut Random, text: &mut String) {
    let sway = |random: &mut Random| random.within(-2_000, 2_000);
    let along = line(&[
        (-40_000, -6_000 + sway(random)),
        (90_000, -6_000 + sway(random)),
    ]);
    let across = line(&[
        (44_000 + sway(random), -60_000),
        (44_000 + sway(random), 90_000),
    ]);
    for (id, centre) in [("lane", along), ("cross", across)] {
        let _ = writeln!(
            text,
            "  - {{kind: road, id: {id}, source: town-map, centreline: {centre}}}"
        );
    }
    let wire = line(&[
        (-20_000, random.within(0, 50_000)),
        (60_000, random.within(0, 50_000)),
    ]);
    let height = match random.once_in(2) {
        true => format!(
            "{{from: {}, to: {}}}",
            random.length(4_000, 6_000),
            random.length(6_100, 9_000)
        ),
        false => random.length(5_000, 9_000),
    };
    let _ = writeln!(
        text,
        "  - {{kind: overhead-line, id: wires, source: town-map, path: {wire}, conductor: {wire}, height: {height}}}"
    );
}

fn tree(random: &mut Random, text: &mut String, index: i64) {
    let (x, y) = random.place((0, 30_000), (10_000, 40_000));
    let thick = random.length(150, 700);
    let _ = writeln!(
        text,
        "  - {{kind: tree, id: tree-{index}, source: survey, stem: [{x}, {y}], stem-diameter: {thick}}}"
    );
}

fn machine(random: &mut Random, text: &mut String, index: i64) {
    let (x, y) = (random.within(1_000, 28_000), random.within(8_000, 34_000));
    let region = line(&[(x, y), (x + 800, y), (x + 800, y + 500), (x, y + 500)]);
    let (power, surfaces) = (random.within(45, 70), random.within(0, 2));
    let runs = random.pick(&["always", "day", "day-and-evening", "unknown"]);
    let _ = writeln!(
        text,
        "  - {{kind: equipment, id: machine-{index}, source: survey, region: {region}, sound-power: {power} dB, \
         reflecting-surfaces: {surfaces}, runs: {runs}}}"
    );
}

fn inventory(random: &mut Random, text: &mut String) {
    text.push_str("inventory:\n");
    for kind in [
        "building",
        "wall-opening",
        "overhead-line",
        "barrier-stretch",
        "gate",
        "road",
        "tree",
        "equipment",
    ] {
        let looked = match random.within(0, 7) {
            0 => "not-checked".to_owned(),
            1 => format!("{{all-shown: {{within: {} m}}}}", random.within(1, 60)),
            _ => "all-shown".to_owned(),
        };
        let _ = writeln!(text, "  {kind}: {looked}");
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use rules_core::check::{Outcome, check};
    use rules_core::plan as plans;

    use super::*;

    /// Each rule has more than one outcome among the plans, and most plans can be read.
    #[test]
    fn every_rule_is_decided_now_one_way_and_now_another() {
        let rules = crate::read::rules(RULES);
        let mut outcomes: BTreeMap<usize, Vec<Outcome>> = BTreeMap::new();
        let (mut read, mut all) = (0, 0);
        for seed in 0..60 {
            let text = plan(seed);
            all += 1;
            let plan = match plans::read(&text, &rules.vocabulary) {
                Ok(plan) => plan,
                Err(_) => continue,
            };
            read += 1;
            for finding in check(&plan, &rules).expect("not too much work").rules {
                let seen = outcomes.entry(finding.rule).or_default();
                if !seen.contains(&finding.outcome) {
                    seen.push(finding.outcome);
                }
            }
        }
        assert!(read * 10 >= all * 9, "{read} of {all}");
        let same = outcomes.iter().filter(|(_, seen)| seen.len() < 2);
        let same: Vec<_> = same
            .map(|(rule, seen)| (&rules.rules[*rule].id, seen))
            .collect();
        assert!(same.is_empty(), "always the same: {same:?}");
    }
}
