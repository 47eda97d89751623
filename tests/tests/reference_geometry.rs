//! Distances, touching, containing and areas against GEOS, a general geometry library, on 20,000 stored pairs.
//!
//! Source of the expected values: Shapely 2.1.2 over GEOS 3.13.1, run by `reference-geometry/generate.py`; for ways round
//! areas Shapely 2.2.0 over GEOS 3.14.1 and NetworkX 3.6.1, run by `reference-geometry/walks.py`; for arcs the same Shapely, run
//! by `reference-geometry/arcs.py`.

use std::io::Read;

use rules_core::measure::{
    Area, Fit, Hurdle, Keep, Place, Stand, Traced, area2, clip, contains, distance, figure_gap,
    least_way, length, union_area, way_round,
};
use rules_core::plan::{Figure, Form, Point};
use serde_json::Value;

/// Agreement asked for, in metres.
const WITHIN: f64 = 1e-9;
/// What a clipped area may be off by, in square metres, and for each metre of line: corners are moved to a grid.
const CLIPPED: f64 = 1e-6;
const GRID: f64 = 1e-6;
const METRE: f64 = 1e9;

fn pairs() -> Vec<Value> {
    stored("pairs.jsonl.gz")
}

fn stored(name: &str) -> Vec<Value> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/reference-geometry/");
    let file = std::fs::File::open(format!("{folder}{name}")).unwrap();
    let mut text = String::new();
    flate2::read::GzDecoder::new(file)
        .read_to_string(&mut text)
        .unwrap();
    text.lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect()
}

/// A form from its kind and its coordinates in micrometres.
fn form(value: &Value) -> Form {
    let (kind, coordinates) = value.as_array().unwrap().split_first().unwrap();
    let nanometres: Vec<i64> = coordinates
        .iter()
        .map(|c| c.as_i64().unwrap() * 1000)
        .collect();
    let points: Vec<Point> = nanometres
        .chunks(2)
        .map(|c| Point { x: c[0], y: c[1] })
        .collect();
    match kind.as_str().unwrap() {
        "point" => Form::Point(points[0]),
        "path" => Form::Path(points),
        _ => Form::Ring(points),
    }
}

/// How far a length between two whole nanometres is from one in metres.
fn off(low: i64, high: i64, metres: f64) -> f64 {
    (low as f64 / METRE - metres)
        .max(metres - high as f64 / METRE)
        .max(0.0)
}

fn square_metres(twice: i128) -> f64 {
    twice as f64 / 2.0 / METRE / METRE
}

fn number(pair: &Value, pointer: &str) -> f64 {
    pair.pointer(pointer).and_then(Value::as_f64).unwrap()
}

fn faults(pair: &Value) -> Vec<String> {
    let (a, b) = (form(&pair["a"]), form(&pair["b"]));
    let mut faults = Vec::new();
    let mut expect = |holds: bool, what: String| {
        if !holds {
            faults.push(what);
        }
    };
    for (one, other) in [(&a, &b), (&b, &a)] {
        let gap = distance(one, other);
        let metres = number(pair, "/distance");
        expect(
            off(gap.low, gap.high, metres) <= WITHIN,
            format!("distance {gap:?}, {metres}"),
        );
        expect(
            (gap.high == 0) == pair["intersects"].as_bool().unwrap(),
            format!("touching {gap:?}"),
        );
    }
    for (at, one) in [&a, &b].into_iter().enumerate() {
        let span = length(one);
        let metres = number(pair, &format!("/length/{at}"));
        expect(
            off(span.low, span.high, metres) <= WITHIN,
            format!("length {span:?}, {metres}"),
        );
        let Form::Ring(ring) = one else { continue };
        let expected = number(pair, &format!("/area/{at}"));
        expect(
            (square_metres(area2(ring)) - expected).abs() <= WITHIN,
            format!("area {expected}"),
        );
    }
    if let Form::Ring(ring) = &a {
        let place = contains(ring, &b);
        expect(
            place.is_within() == pair["covers"].as_bool().unwrap(),
            format!("covers {place:?}"),
        );
        let apart = matches!(place, Place::Outside);
        expect(
            apart != pair["intersects"].as_bool().unwrap(),
            format!("apart {place:?}"),
        );
        if let Some(overlaps) = pair["overlaps"].as_bool() {
            expect(place.shares() == overlaps, format!("overlaps {place:?}"));
        }
    }
    if let Some(shared) = pair["shared"].as_f64() {
        let figure = |form: &Form| Figure::new(vec![form.clone()], 0, Some(0));
        let area = shared_area(&figure(&a), &figure(&b));
        let (low, high) = (square_metres(area.low * 2), square_metres(area.high * 2));
        let lengths = number(pair, "/length/0") + number(pair, "/length/1");
        let off = CLIPPED + GRID * lengths;
        expect(
            low - off <= shared && shared <= high + off,
            format!("shared {low} {high}, {shared}"),
        );
        expect(
            high - low <= 2.0 * off,
            format!("shared is loose: {low} {high}"),
        );
    }
    faults
}

/// What two figures share, as a rule on areas takes it: the one cut to the other.
fn shared_area(a: &Figure, b: &Figure) -> Area {
    let cut = |fit| match clip(a, b, Keep::Within, fit) {
        Some(part) => union_area(&[&part]),
        None => Area { low: 0, high: 0 },
    };
    Area {
        low: cut(Fit::Inner).low,
        high: cut(Fit::Outer).high,
    }
}

#[test]
fn twenty_thousand_pairs_agree_with_geos() {
    let pairs = pairs();
    let mut cases = std::collections::BTreeMap::new();
    let mut all = Vec::new();
    for (number, pair) in pairs.iter().enumerate() {
        *cases.entry(pair["case"].as_str().unwrap()).or_insert(0) += 1;
        all.extend(
            faults(pair)
                .into_iter()
                .map(|fault| format!("pair {}: {fault}: {pair}", number + 1)),
        );
    }
    println!(
        "{} pairs compared with GEOS, {} disagree: {cases:?}",
        pairs.len(),
        all.len()
    );
    assert!(
        all.is_empty(),
        "{} disagree:\n{}",
        all.len(),
        all.iter().take(10).cloned().collect::<Vec<_>>().join("\n")
    );
    assert_eq!(pairs.len(), 20_000);
    assert_eq!(cases.len(), 10);
    assert!(cases.values().all(|count| *count == 2_000));
}

fn place(value: &Value) -> Point {
    let at = |index: usize| value[index].as_i64().unwrap() * 1000;
    Point { x: at(0), y: at(1) }
}

fn exact(form: Form) -> Figure {
    Figure::new(vec![form], 0, Some(0))
}

/// The shortest ways round areas by a visibility graph: the low end is no more, the high end no less, both to a fraction of
/// a millimetre. Where a corner is very acute its area does not count for the low end, which is then only not too high.
#[test]
fn ways_round_areas_are_as_a_visibility_graph_has_them() {
    let (mut round, mut near) = (0, 0);
    for scene in stored("walks.jsonl.gz") {
        let ends: Vec<Point> = scene["ends"]
            .as_array()
            .unwrap()
            .iter()
            .map(place)
            .collect();
        let [from, to] = [0, 1].map(|end| exact(Form::Point(ends[end])));
        let ring = |ring: &Value| ring.as_array().unwrap().iter().map(place).collect();
        let rings = scene["rings"].as_array().unwrap().iter().map(ring);
        let rings: Vec<Figure> = rings.map(|ring| exact(Form::Ring(ring))).collect();
        let hurdles: Vec<Hurdle> = rings
            .iter()
            .map(|figure| Hurdle {
                figure,
                off: 0,
                own: [false; 2],
            })
            .collect();
        let (from, to) = (
            Stand {
                figure: &from,
                off: 0,
            },
            Stand {
                figure: &to,
                off: 0,
            },
        );
        let length = number(&scene, "/length") * METRE;
        let high = way_round(&from, &to, &hurdles).expect("a way").length as f64;
        assert!(
            (-10.0..1e5).contains(&(high - length)),
            "{high} {length} {scene}"
        );
        let Some(low) = least_way(&from, &to, &hurdles) else {
            continue;
        };
        round += 1;
        assert!(low as f64 <= length + 10.0, "{low} {length} {scene}");
        near += i32::from(length - low as f64 <= 5e5);
    }
    assert!(round > 100 && near * 10 >= round * 9, "{near} of {round}");
}

/// One of the forms that `arcs.py` writes: its kind, its corners, and how far the side after each stands out.
fn with_arcs(value: &Value) -> Figure {
    let corners: Vec<Point> = value[1].as_array().unwrap().iter().map(place).collect();
    match value[0].as_str().unwrap() {
        "point" => exact(Form::Point(corners[0])),
        "path" => exact(Form::Path(corners)),
        "ring" => exact(Form::Ring(corners)),
        _ => {
            let mut traced = Traced::new();
            let rises = value[2].as_array().unwrap().iter();
            let next = corners.iter().cycle().skip(1);
            for ((from, to), rise) in corners.iter().zip(next).zip(rises) {
                traced.bulge((*from, *to), rise.as_i64().unwrap() * 1000, 400);
            }
            let (form, curved) = traced.area();
            let curved = vec![Some(curved.expect("arcs"))];
            Figure {
                curved,
                ..exact(form)
            }
        }
    }
}

/// Areas with round sides, beside the same as some ten thousand corners each, of which none is 10 nm from its arc.
#[test]
fn a_thousand_distances_to_arcs_agree_with_geos() {
    const CORNERS: f64 = 3e-8;
    let (mut apart, mut open) = (0, 0);
    for pair in stored("arcs.jsonl.gz") {
        let (a, b) = (with_arcs(&pair["a"]), with_arcs(&pair["b"]));
        let metres = number(&pair, "/distance");
        for (one, other) in [(&a, &b), (&b, &a)] {
            let gap = figure_gap(one, other);
            assert!(
                off(gap.low, gap.high, metres) <= CORNERS,
                "{gap:?} {metres} {pair}"
            );
            open += usize::from(gap.high > gap.low + 1);
        }
        apart += usize::from(metres > 0.0);
    }
    assert!((300..900).contains(&apart), "{apart}");
    assert!(open <= 2, "{open}");
}
