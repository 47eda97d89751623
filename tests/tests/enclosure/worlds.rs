//! The widest gap from a plan to what is known of it, in 2,000 worlds: two pools, each in a fence of its own, one of them
//! by another source that is off as a whole; a stretch that may be too low to count; an opening that may be a door.

use outside_checks::read;
use rules_core::check::check;

use crate::common::Dice;

use super::judged::rules;

/// Whole tenths of a millimetre, in which the worlds are drawn.
const UNIT: f64 = 10_000.0;

type Place = (i64, i64);

fn line(places: &[Place]) -> String {
    let metres = |place: &Place| {
        format!(
            "[{:.4}, {:.4}]",
            place.0 as f64 / UNIT,
            place.1 as f64 / UNIT
        )
    };
    let places: Vec<String> = places.iter().map(metres).collect();
    format!("[{}]", places.join(", "))
}

/// One world: gaps and the door's width in tenths of a millimetre, and what is true of the rest.
struct World {
    gap: i64,
    other_gap: i64,
    door: Place,
    is_door: bool,
    /// The height of the last stretch; under 1200 mm it does not count.
    height: i64,
}

impl World {
    fn random(dice: &mut Dice) -> World {
        let from = dice.whole(-15_000, 5_000);
        World {
            gap: dice.whole(0, 1) * dice.whole(200, 9_000),
            other_gap: dice.whole(200, 9_000),
            door: (from, from + dice.whole(7_000, 20_000)),
            is_door: dice.whole(0, 2) > 0,
            height: [1_500, dice.whole(1_000, 1_400)][dice.whole(0, 1) as usize],
        }
    }

    /// What is true of either pool, from outside.
    fn gaps_outside(&self) -> [f64; 2] {
        [self.own() as f64 / UNIT, self.other_gap as f64 / UNIT]
    }

    /// The gap of the first fence; what does not count is a gap of its length.
    fn own(&self) -> i64 {
        if self.height < 1_200 {
            60_000
        } else {
            self.gap
        }
    }

    /// The rules name no walls of houses: who stands in the door is outside as well as in the first yard. Nobody who
    /// stands there is wider than the door.
    fn gaps_of_the_house(&self) -> [f64; 2] {
        if !self.is_door {
            return [0.0, 0.0];
        }
        let door = self.door.1 - self.door.0;
        [door as f64 / UNIT, door.min(self.other_gap) as f64 / UNIT]
    }

    /// A plan that agrees with it: corners off by no more than `off`, the other fence shifted as a whole, too.
    fn plan(&self, dice: &mut Dice) -> String {
        let off = dice.whole(0, 1) * dice.whole(1, 800);
        let mut moved = |(x, y): Place| {
            let by = off * 7 / 10;
            (x + dice.whole(-by, by), y + dice.whole(-by, by))
        };
        let joined = moved((-40_000, 30_000));
        let first = moved((-40_000, -30_000));
        let end = match self.gap {
            0 => first,
            gap => moved((-40_000, -30_000 + gap)),
        };
        let three = [
            first,
            moved((40_000, -30_000)),
            moved((40_000, 30_000)),
            joined,
        ];
        let other = [
            (-130_000, 30_000),
            (-190_000, 30_000),
            (-190_000, -30_000),
            (-130_000, -30_000),
            (-130_000, 30_000 - self.other_gap),
        ]
        .map(&mut moved);
        let door = [(40_000, self.door.0), (40_000, self.door.1)].map(&mut moved);
        let shift = (dice.whole(-3_500, 3_500), dice.whole(-3_500, 3_500));
        // The door may come from the source that is off as a whole, and then lie beside its wall on the plan.
        let of_door = ["survey", "map"][dice.whole(0, 1) as usize];
        let door = match of_door {
            "map" => door.map(|(x, y)| (x + shift.0, y + shift.1)),
            _ => door,
        };
        let other = other.map(|(x, y)| (x + shift.0, y + shift.1));
        let around = dice.whole(0, 100);
        let kind = match (dice.whole(0, 2), self.is_door) {
            (0, _) => "",
            (_, true) => ", type: door",
            (_, false) => ", type: window",
        };
        format!(
            r#"
plan: yard
title: Two fenced yards
unit: m
sources:
  - {{id: survey, by: survey, accuracy: {off} mm, shift: 0 mm}}
  - {{id: map, by: map, accuracy: {off} mm, shift: 500 mm}}
lot: {{source: survey, accuracy: 0 mm, corners: {{a: [-40, -40], b: [40, -40], c: [40, 40], d: [-40, 40]}}}}
pool:
  - {{id: pool, source: survey, accuracy: 0 mm, water: [[-2, -1.5], [2, -1.5], [2, 1.5], [-2, 1.5]]}}
  - {{id: spa, source: survey, accuracy: 0 mm, water: [[-17, -1], [-15, -1], [-15, 1], [-17, 1]]}}
things:
  - {{kind: barrier-stretch, id: three-sides, source: survey, height-outside: 1.5 m, line: {}}}
  - {{kind: barrier-stretch, id: last, source: survey, height-outside: {} mm .. {} mm, line: {}}}
  - {{kind: barrier-stretch, id: other, source: map, height-outside: 1.5 m, line: {}}}
  - {{kind: building, id: house, source: survey, use: dwelling, wall: [[4, -3], [9, -3], [9, 3], [4, 3]]}}
  - {{kind: wall-opening, id: opening, part-of: house, source: {of_door}{kind}, line: {}}}
inventory: {{pool: all-shown, barrier-stretch: all-shown, barrier-opening: none, gate: all-shown, wall-opening: all-shown, building: all-shown}}
"#,
            line(&three),
            self.height - around,
            self.height + around,
            line(&[joined, end]),
            line(&other),
            line(&door),
            off = off as f64 / 10.0,
        )
    }
}

#[test]
fn two_pools_frames_and_doubtful_doors_stay_inside() {
    let mut dice = Dice::new(71);
    let rules = rules();
    let (mut narrow, mut open) = (0, 0);
    for _ in 0..2_000 {
        let world = World::random(&mut dice);
        let text = world.plan(&mut dice);
        let plan = read::plan(&text, &rules);
        let found = check(&plan, &rules).expect("not too much work");
        for (rule, truths) in [world.gaps_outside(), world.gaps_of_the_house()]
            .into_iter()
            .enumerate()
        {
            let parts = &found.rules[rule].parts;
            assert_eq!(parts.len(), 2, "a part for each pool");
            for (part, truth) in parts.iter().zip(truths) {
                let reading = part.readings.first();
                let range = reading.and_then(|reading| reading.measured).unwrap();
                let (low, high) = (range.low as f64 / 1e9, range.high as f64 / 1e9);
                assert!(
                    low <= truth + 1e-5 && truth <= high + 1e-5,
                    "rule {rule}: {truth} in {low}..{high}\n{text}"
                );
                narrow += i32::from(high - low < 0.4);
                open += i32::from(high - low > 0.4);
            }
        }
    }
    assert!(narrow > 1_500 && open > 500, "{narrow} {open}");
}
