use super::super::read;
use crate::plan::{Figure, Form, Point};
use crate::vocabulary::Vocabulary;

const MM: i64 = 1_000_000;

fn ring(points: &[(i64, i64)]) -> Vec<Form> {
    let place = |&(x, y): &(i64, i64)| Point {
        x: x * MM,
        y: y * MM,
    };
    vec![Form::Ring(points.iter().map(place).collect())]
}

#[test]
fn arcs_and_hollow_corners_are_shapes_too() {
    let text = |water: &str| {
        format!(
            "plan: p\ntitle: T\nunit: m\nlot: {{corners: {{a: [0, 0], b: [30, 0], c: [30, 30], d: [0, 30]}}}}\n\
             pool:\n  id: pool\n  accuracy: 20 mm\n  water: {water}\n"
        )
    };
    let water = |water: &str| {
        let text = text(water);
        let plan = read(&text, &Vocabulary::standard())
            .unwrap_or_else(|faults| panic!("{}", faults.show("plan", &text)));
        let pool = plan.things.iter().find(|thing| thing.id == "pool").unwrap();
        pool.outlines.values().next().unwrap().clone()
    };
    let l = water(
        "{l-shape: {at: [8, 2], length: 8 m, width: 6 m, notch-length: 4 m, notch-width: 2 m}}",
    );
    assert_eq!(
        l.forms,
        ring(&[
            (8000, 2000),
            (16_000, 2000),
            (16_000, 6000),
            (12_000, 6000),
            (12_000, 8000),
            (8000, 8000)
        ])
    );
    assert_eq!(l.accuracy, Some(20 * MM));
    // The corners are good to a tenth of a millimetre, and that is added to what the pool may be off; the arcs are exact.
    let kidney = water(
        "{kidney: {from: [10, 10], to: [14, 10], radius: 2 m, hollow: 500 mm, back: 300 mm}}",
    );
    let curved =
        water("{curved: [[8, 8], [16, 8], {out: 1.2 m}, [16, 12], [8, 12], {in: 300 mm}]}");
    for figure in [&kidney, &curved] {
        let off = figure.accuracy.unwrap() - 20 * MM;
        assert!(off > 0 && off <= 101_000, "{off}");
        assert_eq!(figure.true_accuracy(), Some(20 * MM));
    }
    let reach = |figure: &Figure, pick: fn(&Point) -> i64| match &figure.forms[0] {
        Form::Ring(ring) => (
            ring.iter().map(pick).min().unwrap(),
            ring.iter().map(pick).max().unwrap(),
        ),
        _ => panic!(),
    };
    let near = |found: (i64, i64), low: i64, high: i64| {
        assert!(
            (found.0 - low * MM).abs() <= 200_000 && (found.1 - high * MM).abs() <= 200_000,
            "{found:?}"
        );
    };
    near(reach(&kidney, |p| p.x), 8000, 16_000);
    near(reach(&kidney, |p| p.y), 7700, 12_000);
    near(reach(&curved, |p| p.x), 8000, 17_200);
    for (wrong, code) in [
        (
            "{kidney: {from: [10, 10], to: [14, 10], radius: 2 m, hollow: 2 m}}",
            "no-kidney",
        ),
        (
            "{curved: [[8, 8], {out: 1 m}, {in: 1 m}, [16, 8], [8, 12]]}",
            "not-curved",
        ),
        (
            "{curved: [[8, 8], {out: 1 m, in: 1 m}, [16, 8], [8, 12]]}",
            "not-an-arc",
        ),
        (
            "{curved: [[8, 8], [16, 8], {in: 5 m}, [16, 10], [8, 10]]}",
            "crosses-itself",
        ),
        (
            "{l-shape: {at: [8, 2], length: 8 m, width: 6 m, notch-length: 8 m, notch-width: 2 m}}",
            "no-l",
        ),
    ] {
        let faults = read(&text(wrong), &Vocabulary::standard()).expect_err(wrong);
        assert!(
            faults
                .sorted()
                .iter()
                .any(|fault| fault.code.word() == code),
            "{wrong}: {}",
            faults.show("plan", &text(wrong))
        );
    }
    let coping =
        |water: &str| text(water) + "  coping: {outward: 300 mm, from: water, corners: square}\n";
    let square = coping("{curved: [[8, 8], [16, 8], {out: 1 m}, [16, 12], [8, 12]]}");
    let faults = read(&square, &Vocabulary::standard()).expect_err("arcs have no square corners");
    assert!(faults.show("plan", &square).contains("It has arcs"));
    let round = coping("{kidney: {from: [10, 10], to: [14, 10], radius: 2 m, hollow: 500 mm}}");
    assert!(
        read(&round, &Vocabulary::standard()).is_ok(),
        "a kidney has no corners to make square"
    );
}
