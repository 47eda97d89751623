//! The measures of the trade against NumPy, SciPy and Shapely: stored answers, made by `reference-trade/generate.py`
//! with NumPy 2.4, SciPy 1.17 and Shapely 2.1.

use rules_core::measure::{Ground, Wire, level, together};
use rules_core::plan::{Figure, Form, Point};
use rules_core::quantity::Interval;
use serde_json::Value;

fn rows(name: &str) -> Vec<Value> {
    let path = format!("{}/reference-trade/{name}", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).unwrap();
    text.lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect()
}

fn whole(row: &Value, key: &str) -> Vec<i128> {
    let list = row[key].as_array().unwrap();
    list.iter().map(|n| n.as_i64().unwrap().into()).collect()
}

#[test]
fn levels_of_several_machines_as_in_numpy() {
    let rows = rows("sound.jsonl");
    assert_eq!(rows.len(), 500);
    let mut near = 0;
    for row in rows {
        let (power, far) = (whole(&row, "power"), whole(&row, "far"));
        let machines = power.iter().zip(far).zip(whole(&row, "surfaces"));
        let levels: Vec<Interval> = machines
            .map(|((power, far), surfaces)| {
                let power = Interval::exact(power * 1000);
                let surfaces = Interval::exact(surfaces * 1_000_000_000);
                level(power, Interval::exact(far * 1000), surfaces)
            })
            .collect();
        let all = together(&levels);
        let expected = row["level"].as_f64().unwrap() * 1e6;
        assert!(
            all.low as f64 <= expected && expected <= all.high as f64,
            "{row}"
        );
        // Nearer than a metre the formula is a high end only.
        let close = whole(&row, "far").iter().any(|far| *far < 1_000_000);
        near += usize::from(close);
        let low = if close { expected as i128 } else { all.low };
        assert!(all.high - low <= 8, "{row}");
    }
    assert!(near < 50, "{near}");
}

#[test]
fn the_ground_between_spots_as_in_scipy() {
    let (mut known, rows) = (0, rows("ground.jsonl"));
    for row in &rows {
        let place = |xy: &[i128]| Point {
            x: xy[0] as i64 * 1000,
            y: xy[1] as i64 * 1000,
        };
        let (places, levels) = (whole(row, "spots"), whole(row, "levels"));
        let spots: Vec<Point> = places.chunks(2).map(place).collect();
        let at = Form::Point(place(&whole(row, "at")));
        let ground = Ground::between(spots, 0).unwrap();
        let under = ground.under(&Figure::new(vec![at], 0, Some(0)), 0);
        assert_eq!(under.is_some(), !row["level"].is_null(), "{row}");
        if let Some(under) = under {
            let expected = row["level"].as_f64().unwrap();
            let of_spots = || under.iter().map(|spot| levels[*spot] as f64);
            let (low, high) = (
                of_spots().fold(f64::MAX, f64::min),
                of_spots().fold(f64::MIN, f64::max),
            );
            assert!(
                low - 0.01 <= expected && expected <= high + 0.01,
                "{row} {under:?}"
            );
            known += 1;
        }
    }
    assert!(known > 100 && known < rows.len());
}

#[test]
fn the_distance_to_a_hanging_wire_as_in_scipy() {
    let rows = rows("wires.jsonl");
    assert!(rows.len() > 200, "{}", rows.len());
    let mut tight = 0;
    for row in &rows {
        let place = |xy: &[i128]| Point {
            x: xy[0] as i64 * 1000,
            y: xy[1] as i64 * 1000,
        };
        let (ends, pool) = (whole(row, "ends"), whole(row, "pool"));
        let line = Form::Path(vec![place(&ends[..2]), place(&ends[2..])]);
        let micrometres = |key: &str| i128::from(row[key].as_i64().unwrap()) * 1000;
        let sag = Interval::exact(micrometres("sag"));
        let heights = whole(row, "heights");
        let heights = [0, 1].map(|at: usize| Interval::exact(heights[at] * 1000));
        let wire = Wire::hung(&line, heights, sag, 0).unwrap();
        let corners = [(0, 1), (2, 1), (2, 3), (0, 3)];
        let ring = corners.map(|(x, y): (usize, usize)| place(&[pool[x], pool[y]]));
        let pool = Figure::new(vec![Form::Ring(ring.to_vec())], 0, Some(0));
        let rim = Interval::exact(micrometres("rim"));
        let rise = |wire: Interval| wire.sub(rim).max(rim.sub(wire)).max(Interval::exact(0));
        let (found, _) = wire.nearest(&[(0.0, 1.0)], &pool, 0, rise);
        let expected = row["distance"].as_f64().unwrap() * 1e9;
        assert!(found.low as f64 <= expected + 10.0, "{row} {found:?}");
        assert!(expected <= found.high as f64 + 10.0, "{row} {found:?}");
        tight += usize::from(found.high - found.low < 100_000_000);
    }
    assert!(tight * 3 > rows.len() * 2, "{tight} of {}", rows.len());
}
