//! The measures of the trade against NumPy, SciPy and Shapely: stored answers, made by `reference-trade/generate.py`
//! with NumPy 2.4, SciPy 1.17 and Shapely 2.1.

use rules_core::measure::{Spot, ground_level, level, together};
use rules_core::plan::Point;
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
        assert!(all.high - all.low <= 8, "{row}");
    }
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
        let spots: Vec<Spot> = places
            .chunks(2)
            .zip(levels)
            .map(|(xy, level)| Spot {
                at: place(xy),
                level: Interval::exact(level * 1000),
            })
            .collect();
        let found = ground_level(&spots, place(&whole(row, "at")), 0);
        assert_eq!(found.is_some(), !row["level"].is_null(), "{row}");
        if let Some(found) = found {
            let expected = row["level"].as_f64().unwrap() * 1000.0;
            assert!(
                (found.drawn as f64 - expected).abs() < 10.0,
                "{row} {found:?}"
            );
            assert!(found.range.contains(found.drawn));
            known += 1;
        }
    }
    assert!(known > 100 && known < rows.len());
}
