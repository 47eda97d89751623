//! The narrowest way in for a crane or an excavator, and whether raised ground pushes water over the lot line: worked by
//! hand in `docs/measures/heights.md` and `docs/measures/levels.md`, and 2,000 random worlds of each.

use crate::common::Dice;
use crate::common::measured::{LOT, judge};
use rules_core::check::Outcome;

type Place = (f64, f64);

/// Things on the lot, by a survey that may be off by so many metres, with a hole to dig behind the house.
fn plan(off: f64, things: &str) -> String {
    let lot = LOT.replace("accuracy: 0 mm", &format!("accuracy: {off:.6} m"));
    format!(
        "{lot}pool: {{id: pool, source: survey, water: {{rectangle: {{at: [8, 28], length: 4 m, width: 8 m}}}}, \
         excavation: {{rectangle: {{at: [7, 27], length: 6 m, width: 10 m}}}}}}\nthings:\n{things}\
         inventory: {{building: all-shown, barrier-stretch: all-shown, barrier-opening: none, ground-spot: all-shown, contour: all-shown, raised-ground: all-shown}}\n"
    )
}

fn line(places: &[Place]) -> String {
    let places = places.iter().map(|(x, y)| format!("[{x:.6}, {y:.6}]"));
    format!("[{}]", places.collect::<Vec<_>>().join(", "))
}

mod way_in {
    use super::*;

    /// A fence along three lot lines, a house that leaves a way to either side of it, and a shed in the way to its right.
    struct Yard {
        left: f64,
        right: f64,
        beside: f64,
        shed: f64,
    }

    impl Yard {
        /// From the house's right side the shed stands off by `beside`; the wider of the two ways past it counts.
        fn widest(&self) -> f64 {
            let past = self.right - self.beside - self.shed;
            self.left.max(self.beside.max(past))
        }

        fn things(&self, mut moved: impl FnMut(Place) -> Place) -> String {
            let mut drawn = |places: &[Place]| {
                let places: Vec<Place> = places.iter().map(|place| moved(*place)).collect();
                line(&places)
            };
            let (west, east) = (self.left, 20.0 - self.right);
            let fence = drawn(&[(0.0, 0.0), (0.0, 40.0), (20.0, 40.0), (20.0, 0.0)]);
            let house = drawn(&[(west, 8.0), (east, 8.0), (east, 20.0), (west, 20.0)]);
            let (from, to) = (east + self.beside, east + self.beside + self.shed);
            let shed = drawn(&[(from, 12.0), (to, 12.0), (to, 15.0), (from, 15.0)]);
            format!(
                "  - {{kind: barrier-stretch, id: fence, source: survey, line: {fence}}}
  - {{kind: building, id: house, source: survey, use: dwelling, wall: {house}}}
  - {{kind: building, id: shed, source: survey, use: dwelling, wall: {shed}}}\n"
            )
        }
    }

    fn rule(width: f64) -> String {
        format!(
            "    require:
      enclosure: {{of: pool.excavation, from: [street], made-of: [barrier-stretch.line, building.wall]}}
      at-least: {width:.6} m\n"
        )
    }

    /// 1.5 m to the left of the house; 5 m to its right, with a shed of 1.2 m that leaves 2 m and 1.8 m: 2 m. With the shed
    /// 3.4 m from the house: 3.4 m.
    #[test]
    fn by_hand() {
        let yard = |beside| Yard {
            left: 1.5,
            right: 5.0,
            beside,
            shed: 1.2,
        };
        let outcome = |beside: f64, width| {
            let text = plan(0.0, &yard(beside).things(|place| place));
            judge(&text, "", &rule(width)).0
        };
        assert_eq!(outcome(2.0, 2.0), Outcome::Pass);
        assert_eq!(outcome(2.0, 2.001), Outcome::Fail);
        assert_eq!(outcome(3.4, 3.4), Outcome::Pass);
        assert_eq!(outcome(3.4, 3.401), Outcome::Fail);
        // Everything to 10 cm: each end of the gap may be off by as much.
        let text = plan(0.1, &yard(2.0).things(|place| place));
        let (outcome, range) = judge(&text, "", &rule(2.0));
        assert_eq!(outcome, Outcome::Marginal);
        let range = range.unwrap();
        assert!(
            (1_790_000_000..=1_800_000_000).contains(&range.low),
            "{range:?}"
        );
        assert!(
            (2_200_000_000..=2_210_000_000).contains(&range.high),
            "{range:?}"
        );
    }

    #[test]
    fn the_widest_way_stays_inside() {
        let mut dice = Dice::new(51);
        let (mut decided, mut passed) = (0, 0);
        for _ in 0..2_000 {
            let right = dice.between(2.0, 7.0);
            let shed = dice.between(0.3, right - 1.0);
            let yard = Yard {
                left: dice.between(0.4, 5.0),
                right,
                shed,
                beside: dice.between(0.2, right - shed - 0.2),
            };
            let off = dice.between(0.0, 0.15);
            let things = yard.things(|(x, y)| {
                let by = off * 0.7;
                (x + dice.between(-by, by), y + dice.between(-by, by))
            });
            let widest = yard.widest();
            let limit = widest + dice.between(-0.6, 0.6);
            let text = plan(off, &things);
            let (outcome, range) = judge(&text, "", &rule(limit));
            let range = range.unwrap();
            let (low, high) = (range.low as f64 / 1e9, range.high as f64 / 1e9);
            assert!(
                low <= widest + 1e-5 && widest <= high + 1e-5,
                "{widest} in {low}..{high}\n{text}"
            );
            match outcome {
                Outcome::Pass => assert!(widest >= limit - 1e-5, "{widest} {limit}\n{text}"),
                Outcome::Fail => assert!(widest < limit + 1e-5, "{widest} {limit}\n{text}"),
                _ => {}
            }
            decided += i32::from(matches!(outcome, Outcome::Pass | Outcome::Fail));
            passed += i32::from(outcome == Outcome::Pass);
        }
        assert!(decided > 800 && passed > 200, "{decided} {passed}");
    }
}

mod water {
    use super::*;

    const RULE: &str = "    require:
      ground-level: {at: lot.boundary}
      at-least: {level: {of: raised-ground}}\n";

    fn spots(off: f64, levels: &[(Place, f64, f64)]) -> String {
        let spot = |(number, ((x, y), low, high)): (usize, &(Place, f64, f64))| {
            format!(
                "  - {{kind: ground-spot, id: s{number}, source: survey, accuracy: {off:.6} m, place: [{x:.6}, {y:.6}], level: {low:.6} m .. {high:.6} m}}\n"
            )
        };
        levels.iter().enumerate().map(spot).collect()
    }

    fn mound(low: f64, high: f64) -> String {
        format!(
            "  - {{kind: raised-ground, id: mound, source: survey, region: [[2, 20], [6, 20], [6, 25], [2, 25]], top-level: {low:.6} m .. {high:.6} m}}\n"
        )
    }

    const CORNERS: [Place; 4] = [(0.0, 0.0), (20.0, 0.0), (20.0, 40.0), (0.0, 40.0)];

    /// The lot line lies at 50 m: what is raised to 50 m holds its water, what is raised to 50.001 m sheds it over the line.
    /// On ground from 50 to 51 m nobody knows for 50.5 m, but 51.1 m is over all of it and 49.9 m over none.
    #[test]
    fn by_hand() {
        let outcome = |east: f64, top: f64| {
            let level = |(x, y): Place| ((x, y), 50.0 + east * x / 20.0, 50.0 + east * x / 20.0);
            let things = spots(0.0, &CORNERS.map(level)) + &mound(top, top);
            judge(&plan(0.0, &things), "", RULE).0
        };
        assert_eq!(outcome(0.0, 50.0), Outcome::Pass);
        assert_eq!(outcome(0.0, 50.001), Outcome::Fail);
        assert_eq!(outcome(1.0, 49.9), Outcome::Pass);
        assert_eq!(outcome(1.0, 51.1), Outcome::Fail);
        assert!(!matches!(outcome(1.0, 50.5), Outcome::Pass));
        let unseen = plan(0.0, &mound(50.6, 50.6));
        assert_eq!(judge(&unseen, "", RULE).0, Outcome::Unknown, "no spots");
    }

    /// A plane of ground: its lowest place on the lot line is one of the corners.
    #[test]
    fn no_verdict_is_wrong_in_a_world() {
        let mut dice = Dice::new(52);
        let (mut passed, mut failed) = (0, 0);
        for _ in 0..2_000 {
            let (u, v) = (dice.between(-0.03, 0.03), dice.between(-0.03, 0.03));
            let ground = |(x, y): Place| 50.0 + u * x + v * y;
            let (off, unsure) = (dice.between(0.0, 0.2), dice.between(0.0, 0.1));
            let over = dice.between(-2.0, 2.0);
            let mut about = |level: f64| {
                (
                    level - dice.between(0.0, unsure),
                    level + dice.between(0.0, unsure),
                )
            };
            let places = [
                (-2.0, -2.0),
                (22.0, -2.0),
                (22.0, 42.0),
                (-2.0, 42.0),
                (10.0, 22.0),
            ];
            let levels = places.map(|place| {
                let (low, high) = about(ground(place));
                ((place.0 + off * 0.7, place.1 - off * 0.7), low, high)
            });
            let lowest = CORNERS
                .map(ground)
                .into_iter()
                .fold(f64::INFINITY, f64::min);
            let top = lowest + over;
            let (low, high) = about(top);
            let text = plan(off, &(spots(off, &levels) + &mound(low, high)));
            match judge(&text, "", RULE).0 {
                Outcome::Pass => {
                    assert!(lowest >= top - 1e-5, "{lowest} {top}\n{text}");
                    passed += 1;
                }
                Outcome::Fail => {
                    assert!(lowest < top + 1e-5, "{lowest} {top}\n{text}");
                    failed += 1;
                }
                _ => {}
            }
        }
        assert!(passed > 200 && failed > 200, "{passed} {failed}");
    }
}
