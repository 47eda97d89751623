//! The drawn cases of `enclosure/cases.yaml`.

use rules_core::measure::View;
use rules_core::plan::{Figure, Form, Point};
use serde_yaml::Value;

use super::{figure, way_out};

const MM: i64 = 1_000_000;
const CASES: &str = include_str!("../../enclosure/cases.yaml");

fn point(value: &Value) -> Point {
    let at = |index: usize| value[index].as_i64().unwrap() * MM;
    Point { x: at(0), y: at(1) }
}

fn drawn(value: &Value) -> Figure {
    let all = |list: &Value| list.as_sequence().unwrap().iter().map(point).collect();
    if let Some(list) = value.get("line") {
        figure(Form::Path(all(list)))
    } else if let Some(list) = value.get("ring") {
        figure(Form::Ring(all(list)))
    } else {
        Figure {
            spread: value["radius"].as_i64().unwrap() * MM,
            ..figure(Form::Point(point(&value["disc"])))
        }
    }
}

fn list(case: &Value, key: &str) -> Vec<Figure> {
    let items = case.get(key).and_then(Value::as_sequence);
    items.into_iter().flatten().map(drawn).collect()
}

#[test]
fn every_drawn_case_has_the_width_read_off_it() {
    let cases: Vec<Value> = serde_yaml::from_str(CASES).unwrap();
    assert!(cases.len() >= 50, "{}", cases.len());
    let mut wrong = Vec::new();
    for case in &cases {
        let (walls, pools, goals) = (
            list(case, "walls"),
            list(case, "pools"),
            list(case, "goals"),
        );
        let ways = pools
            .iter()
            .map(|pool| way_out(&walls, pool, &goals, 0, View::Drawn));
        let (low, high) = ways.fold((0, 0), |sum, way| (sum.0.max(way.low), sum.1.max(way.high)));
        let wanted = case["width"].as_i64().map_or(i64::MAX, |width| width * MM);
        let about = case.get("about").is_some();
        // What is said to be exact is known to the micrometre, and what is about to a tenth or to a millimetre.
        let apart = if about { (wanted / 10).max(MM) } else { 1000 };
        let fits = low <= wanted && wanted <= high && high - low <= apart;
        if !fits {
            let name = case["name"].as_str().unwrap();
            wrong.push(format!(
                "{name}: {} to {} mm, not {:?}",
                low as f64 / 1e6,
                high as f64 / 1e6,
                case["width"]
            ));
        }
    }
    assert!(
        wrong.is_empty(),
        "{} wrong:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}

#[test]
fn every_drawn_case_is_the_same_turned_mirrored_and_in_another_order() {
    let cases: Vec<Value> = serde_yaml::from_str(CASES).unwrap();
    for case in &cases {
        let (walls, pools, goals) = (
            list(case, "walls"),
            list(case, "pools"),
            list(case, "goals"),
        );
        let both = |walls: &[Figure], pool: &Figure, goals: &[Figure]| {
            let way = way_out(walls, pool, goals, 0, View::Drawn);
            (way.low, way.high)
        };
        let turned = |list: &[Figure]| -> Vec<Figure> { list.iter().rev().map(turn).collect() };
        for pool in &pools {
            let (straight, other) = (
                both(&walls, pool, &goals),
                both(&turned(&walls), &turn(pool), &turned(&goals)),
            );
            let name = case["name"].as_str().unwrap();
            assert!(
                straight.0 <= other.1 && other.0 <= straight.1,
                "{name}: {straight:?} {other:?}"
            );
            if case.get("about").is_none() {
                let apart = (straight.0.abs_diff(other.0)).max(straight.1.abs_diff(other.1));
                assert!(apart <= 1000, "{name}: {straight:?} {other:?}");
            }
        }
    }
}

/// A quarter to the left, mirrored, and every line drawn from its other end.
fn turn(figure: &Figure) -> Figure {
    let place = |p: &Point| Point { x: p.y, y: p.x };
    let forms = figure.forms.iter().map(|form| match form {
        Form::Point(at) => Form::Point(place(at)),
        Form::Path(list) => Form::Path(list.iter().rev().map(place).collect()),
        Form::Ring(list) => Form::Ring(list.iter().rev().map(place).collect()),
    });
    Figure {
        forms: forms.collect(),
        ..figure.clone()
    }
}
