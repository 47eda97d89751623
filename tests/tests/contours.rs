//! The ground between contours, from a plan to what is known of it: as a manual reads them, as SciPy has the surface, and
//! 2,000 random grounds, drawn first and then blurred to a plan.

use crate::common::Dice;
use crate::common::measured::{LOT, judge_all};
use rules_core::quantity::Interval;
use serde_json::Value;

type Place = (f64, f64);

/// A contour: its line, its level from and to, and how far it may be off.
struct Contour {
    line: Vec<Place>,
    level: (f64, f64),
    off: f64,
}

/// What is known of the lowest and of the highest ground under a pool, in metres; nothing where nobody knows.
fn known(
    contours: &[Contour],
    interval: f64,
    (at, wide, deep): (Place, f64, f64),
) -> Option<[(f64, f64); 2]> {
    let mut things = String::new();
    for (number, contour) in contours.iter().enumerate() {
        let line = contour
            .line
            .iter()
            .map(|(x, y)| format!("[{x:.6}, {y:.6}]"));
        let line = line.collect::<Vec<_>>().join(", ");
        let (low, high) = contour.level;
        things += &format!(
            "  - {{kind: contour, id: c{number}, source: survey, accuracy: {:.6} m, line: [{line}], level: {low:.6} m .. {high:.6} m, interval: {interval} m}}\n",
            contour.off,
        );
    }
    let plan = format!(
        "{LOT}pool: {{id: pool, source: survey, water: {{rectangle: {{at: [{:.6}, {:.6}], length: {wide:.6} m, width: {deep:.6} m}}}}, coping: {{same-as: water}}}}\nthings:\n{things}inventory: {{contour: all-shown, ground-spot: all-shown}}\n",
        at.0, at.1
    );
    let rule =
        |bound: &str| format!("    require: {{ground-level: {{at: pool.coping}}, {bound}: 1 m}}\n");
    let rules = [rule("at-least"), rule("at-most")];
    let found = judge_all(&plan, "", &rules.each_ref().map(String::as_str));
    let metres = |range: Option<Interval>| {
        let range =
            range.filter(|range| range.low > i128::MIN / 2 && range.high < i128::MAX / 2)?;
        Some((range.low as f64 / 1e9, range.high as f64 / 1e9))
    };
    let mut found = found.into_iter().map(|(_, range)| metres(range));
    Some([found.next()??, found.next()??])
}

fn exact(line: &[Place], level: f64) -> Contour {
    Contour {
        line: line.to_vec(),
        level: (level, level),
        off: 0.0,
    }
}

/// US Army TC 3-25.26 (2013), 9-10 to 9-12, contours at every 20 m: less than a quarter of the way past the contour of
/// 100 m is taken as 100 m, half way from 160 to 180 m as 170 m, more than three quarters of the way to 200 m as 200 m,
/// and the bottom of a hollow within the contour of 240 m as 230 m. What is known holds each.
#[test]
fn the_levels_that_a_manual_reads_are_held() {
    let straight = |x: f64, level: f64| exact(&[(x, -30.0), (x, 70.0)], level);
    let slope = |low: f64| vec![straight(0.0, low), straight(20.0, low + 20.0)];
    let ring = [
        (0.0, 10.0),
        (20.0, 10.0),
        (20.0, 30.0),
        (0.0, 30.0),
        (0.0, 10.0),
    ];
    let cases = [
        (slope(100.0), 3.0, 100.0, (80.0, 120.0)),
        (slope(160.0), 10.0, 170.0, (140.0, 200.0)),
        (slope(180.0), 17.0, 200.0, (180.0, 220.0)),
        (vec![exact(&ring, 240.0)], 10.0, 230.0, (220.0, 260.0)),
    ];
    for (contours, x, read, expected) in cases {
        let place = ((x - 0.1, 19.9), 0.2, 0.2);
        let [lowest, highest] = known(&contours, 20.0, place).unwrap();
        for (low, high) in [lowest, highest] {
            assert!(low <= read && read <= high, "{read}: {low} to {high}");
        }
        assert_eq!((lowest.0, highest.1), expected, "{read}");
    }
}

/// Contours of 51 and 52 m that are exact to either side of a place, and beside it that of 50 m off an old map, which may
/// be 3 m elsewhere: that it is drawn nearest tells nothing. The ground there may well be at 51.4 m.
#[test]
fn a_contour_that_may_be_far_off_hides_no_other() {
    let straight = |x: f64, level: f64, off: f64| Contour {
        off,
        ..exact(&[(x, -30.0), (x, 70.0)], level)
    };
    let contours = [
        straight(9.5, 50.0, 3.0),
        straight(8.4, 51.0, 0.0),
        straight(12.0, 52.0, 0.0),
    ];
    let [lowest, highest] = known(&contours, 1.0, ((10.0, 19.9), 0.2, 0.2)).unwrap();
    assert_eq!((lowest.0, highest.1), (49.0, 53.0));
}

/// Levels on SciPy's triangulated surface (`LinearNDInterpolator`), and that surface's own contours: straight in each
/// triangle, so that they are its contours to a micrometre.
#[test]
fn the_ground_between_contours_as_in_scipy() {
    let path = format!(
        "{}/reference-trade/contours.jsonl",
        env!("CARGO_MANIFEST_DIR")
    );
    let text = std::fs::read_to_string(path).unwrap();
    let (mut rows, mut above, mut below) = (0, 0, 0);
    for row in text.lines() {
        let row: Value = serde_json::from_str(row).unwrap();
        let metres = |value: &Value| value.as_f64().unwrap() / 1e6;
        let contours = row["contours"].as_array().unwrap().iter().map(|contour| {
            let line = contour
                .as_array()
                .unwrap()
                .iter()
                .map(metres)
                .collect::<Vec<_>>();
            Contour {
                off: 0.000_002,
                ..exact(&[(line[1], line[2]), (line[3], line[4])], line[0])
            }
        });
        let contours: Vec<Contour> = contours.collect();
        let interval = metres(&row["interval"]);
        let at = (metres(&row["at"][0]), metres(&row["at"][1]));
        let level = metres(&row["level"]);
        let [lowest, highest] = known(&contours, interval, (at, 0.001, 0.001)).unwrap();
        assert!(
            lowest.0 <= level + 0.002 && level <= highest.1 + 0.002,
            "{row}: {lowest:?} {highest:?}"
        );
        rows += 1;
        let middle = lowest.0.midpoint(highest.1);
        above += i32::from(level > middle + interval / 4.0);
        below += i32::from(level < middle - interval / 4.0);
    }
    assert!(
        rows == 150 && above > 20 && below > 20,
        "{rows} {above} {below}"
    );
}

/// Ground between places 10 m apart, a triangle to either side of each square's diagonal.
struct Land {
    levels: Vec<Vec<f64>>,
}

const WEST: f64 = -10.0;
const SOUTH: f64 = -5.0;
const APART: f64 = 10.0;

impl Land {
    /// 5 by 6 places, on a slope and up and down.
    fn random(dice: &mut Dice) -> Land {
        let (u, v) = (dice.between(-0.06, 0.06), dice.between(-0.06, 0.06));
        let rough = dice.between(0.0, 1.2);
        let mut level = |i: i32, j: i32| {
            let (x, y) = (APART * f64::from(i), APART * f64::from(j));
            50.003 + u * x + v * y + dice.between(-rough, rough)
        };
        Land {
            levels: (0..5)
                .map(|i| (0..6).map(|j| level(i, j)).collect())
                .collect(),
        }
    }

    fn corner(&self, i: usize, j: usize) -> (Place, f64) {
        let place = (WEST + APART * i as f64, SOUTH + APART * j as f64);
        (place, self.levels[i][j])
    }

    fn triangles(&self) -> Vec<[(Place, f64); 3]> {
        let squares = (0..4).flat_map(|i| (0..5).map(move |j| (i, j)));
        let halves = |(i, j)| {
            let (low, high) = (self.corner(i, j), self.corner(i + 1, j + 1));
            [
                [low, self.corner(i + 1, j), high],
                [low, high, self.corner(i, j + 1)],
            ]
        };
        squares.flat_map(halves).collect()
    }

    fn level(&self, (x, y): Place) -> f64 {
        let (s, t) = ((x - WEST) / APART, (y - SOUTH) / APART);
        let (i, j) = ((s as usize).min(3), (t as usize).min(4));
        let (s, t) = (s - i as f64, t - j as f64);
        let at = |di: usize, dj: usize| self.levels[i + di][j + dj];
        match s > t {
            true => at(0, 0) + s * (at(1, 0) - at(0, 0)) + t * (at(1, 1) - at(1, 0)),
            false => at(0, 0) + t * (at(0, 1) - at(0, 0)) + s * (at(1, 1) - at(0, 1)),
        }
    }

    /// Where each triangle has a level that is so many intervals: straight pieces, all there are.
    fn contours(&self, interval: f64) -> Vec<(f64, [Place; 2])> {
        let mut found = Vec::new();
        for triangle in self.triangles() {
            let levels = triangle.map(|corner| corner.1);
            let low = levels.into_iter().fold(f64::INFINITY, f64::min);
            let high = levels.into_iter().fold(f64::NEG_INFINITY, f64::max);
            let (first, last) = (
                (low / interval).ceil() as i64,
                (high / interval).floor() as i64,
            );
            for step in first..=last {
                let level = step as f64 * interval;
                let sides = [(0, 1), (1, 2), (2, 0)].map(|(a, b)| (triangle[a], triangle[b]));
                let crossed = sides.into_iter().filter_map(|(a, b)| crossing(a, b, level));
                if let [one, other] = crossed.collect::<Vec<_>>()[..] {
                    found.push((level, [one, other]));
                }
            }
        }
        found
    }
}

fn crossing((a, low): (Place, f64), (b, high): (Place, f64), level: f64) -> Option<Place> {
    let share = (level - low) / (high - low);
    let within = (low < level) != (high < level);
    within.then_some((a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1)))
}

/// The land first, with all its contours; then a plan that has each of them somewhere else, by as much as it says, some
/// better than others, and levels that are not known exactly. The lowest and the highest ground under the pool is held.
#[test]
fn the_ground_stays_inside_between_contours() {
    let mut dice = Dice::new(41);
    let (mut told, mut narrow) = (0, 0);
    for _ in 0..2_000 {
        let land = Land::random(&mut dice);
        let interval = [0.25, 0.5, 1.0][dice.between(0.0, 2.999) as usize];
        let (rough, unsure) = (dice.between(0.0, 2.5), dice.between(0.0, 0.2));
        let mut contours = Vec::new();
        for (level, line) in land.contours(interval) {
            // Some by tape, some off an old map.
            let off = [0.001, 0.001 + dice.between(0.0, rough)][dice.between(0.0, 1.999) as usize];
            let mut moved = |(x, y): Place| {
                let by = off * 0.7;
                (x + dice.between(-by, by), y + dice.between(-by, by))
            };
            let line = line.map(&mut moved).to_vec();
            let (below, above) = (dice.between(0.0, unsure), dice.between(0.0, unsure));
            let apart = (line[0].0 - line[1].0)
                .abs()
                .max((line[0].1 - line[1].1).abs());
            if apart > 0.000_01 {
                contours.push(Contour {
                    line,
                    level: (level - below, level + above),
                    off,
                });
            }
        }
        let most = [0.2, 6.0][dice.between(0.0, 1.999) as usize];
        let size = (dice.between(0.1, most), dice.between(0.1, most));
        let at = (
            dice.between(0.0, 20.0 - size.0),
            dice.between(0.0, 40.0 - size.1),
        );
        let Some([lowest, highest]) = known(&contours, interval, (at, size.0, size.1)) else {
            continue;
        };
        let steps = |n: i32| f64::from(n) / 12.0;
        let places = (0..=12).flat_map(|i| (0..=12).map(move |j| (i, j)));
        let levels =
            places.map(|(i, j)| land.level((at.0 + steps(i) * size.0, at.1 + steps(j) * size.1)));
        let (low, high) = levels.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), level| {
            (low.min(level), high.max(level))
        });
        let held =
            |range: (f64, f64), level: f64| range.0 <= level + 1e-5 && level <= range.1 + 1e-5;
        assert!(
            held(lowest, low) && held(highest, high),
            "{low} in {lowest:?}, {high} in {highest:?}"
        );
        told += 1;
        narrow += i32::from(highest.1 - lowest.0 < 3.5 * interval);
    }
    assert!(told > 1_500 && narrow > 150, "{told} {narrow}");
}
