//! The half of `tests/beside-shapely/compare.py` that runs here: reads its input, times, and prints what it found.

use std::hint::black_box;
use std::time::Instant;

use rules_core::measure::{Goal, Target, Tolerance, View, Wall, distance, widest_way};
use rules_core::plan::{Figure, Form, Point};
use serde_json::{Value, json};

fn points(value: &Value) -> Vec<Point> {
    let number = |value: &Value| value.as_i64().unwrap_or_default() * 1000;
    let list = value.as_array().cloned().unwrap_or_default();
    let place = |at: &Value| Point {
        x: number(&at[0]),
        y: number(&at[1]),
    };
    list.iter().map(place).collect()
}

fn pairs(input: &Value, key: &str, form: fn(Vec<Point>) -> Form) -> Vec<(Form, Form)> {
    let list = input[key].as_array().cloned().unwrap_or_default();
    let pair = |pair: &Value| (form(points(&pair[0])), form(points(&pair[1])));
    list.iter().map(pair).collect()
}

/// The least of so many runs, in seconds.
fn least(runs: u32, mut run: impl FnMut()) -> f64 {
    let times = (0..runs).map(|_| {
        let start = Instant::now();
        run();
        start.elapsed().as_secs_f64()
    });
    times.fold(f64::INFINITY, f64::min)
}

fn drawn(form: Form) -> Figure {
    Figure::new(vec![form], 0, Some(0))
}

fn main() {
    let path = std::env::args().nth(1).expect("the input's path");
    let text = std::fs::read_to_string(path).expect("the input can be read");
    let input: Value = serde_json::from_str(&text).expect("the input is JSON");
    let rings = pairs(&input, "pairs", Form::Ring);
    let lines = pairs(&input, "lines", Form::Path);
    let pool = drawn(Form::Ring(points(&input["pool"])));
    let fences = input["fences"].as_array().cloned().unwrap_or_default();
    let fences: Vec<Figure> = fences
        .iter()
        .map(|line| drawn(Form::Path(points(line))))
        .collect();
    let way = |fence: &Figure| {
        let tolerance = Tolerance::default();
        let walls = [Wall {
            figure: fence,
            tolerance,
        }];
        let start = Target {
            figure: &pool,
            tolerance,
        };
        widest_way(&walls, &start, &[Goal::FarAway], View::Drawn)
    };
    let chunk = |chunk: &[(Form, Form)]| {
        least(9, || {
            for (a, b) in chunk {
                black_box(distance(a, b));
            }
        })
    };
    let all: f64 = rings.chunks(500).map(chunk).sum();
    let each: Vec<f64> = lines
        .iter()
        .map(|(a, b)| {
            // One takes microseconds: much else on the machine takes longer.
            least(99, || {
                black_box(distance(a, b));
            })
        })
        .collect();
    let ways: Vec<f64> = fences
        .iter()
        .map(|fence| {
            least(9, || {
                black_box(way(fence));
            })
        })
        .collect();
    let sum: f64 = rings
        .iter()
        .map(|(a, b)| distance(a, b).high as f64 / 1e9)
        .sum();
    let widths: Vec<f64> = fences
        .iter()
        .map(|fence| way(fence).high as f64 / 1e9)
        .collect();
    let found =
        json!({"pairs": all, "lines": each, "fences": ways, "distance": sum, "widths": widths});
    println!("{found}");
}
