//! Things of which nobody says where their place comes from.

use super::*;

fn well(place: &str) -> String {
    plan(
        &lot(""),
        "",
        &format!("  - {{kind: well, id: well, {place}casing: [24, 22]}}\n"),
        "well: all-shown",
    )
}

const FAR: &str = "{distance: {from: pool.water, to: well.casing}, at-least: 6 m}";

/// The well is 6 m from the water as drawn. A source says how far all of it may be shifted; without one nobody knows.
#[test]
fn an_accuracy_without_a_source_says_nothing_of_a_shift() {
    let (found, range) = judge(&well("source: survey, accuracy: 0 mm, "), FAR);
    assert_eq!(found, Outcome::Pass);
    near(range, 6.0, 6.0);
    let (found, range) = judge(&well("source: map, accuracy: 0 mm, "), FAR);
    assert_eq!(found, Outcome::Marginal);
    near(range, 5.0, 7.0);
    for place in ["accuracy: 0 mm, ", "source: tape, ", ""] {
        let (found, range) = judge(&well(place), FAR);
        assert_eq!(found, Outcome::Marginal, "{place}");
        near(range, 0.0, f64::INFINITY);
    }
}

/// Two outlines of one thing shift together, whatever it comes from.
#[test]
fn a_thing_does_not_shift_against_itself() {
    let pool = "pool: {id: pool, accuracy: 0 mm, water: {rectangle: {at: [10, 20], length: 8 m, width: 4 m}}, \
                coping: [[9, 19], [19, 19], [19, 25], [9, 25]], deck: [[19, 19], [21, 19], [21, 25], [19, 25]]}\n";
    let text = plan(&lot(""), "", "", "well: none");
    let start = text.find("pool:").unwrap();
    let end = text.find("things:").unwrap();
    let text = format!(
        "{}{pool}{}",
        &text[..start],
        text[end..].replace("things:\n", "")
    );
    let apart = "{distance: {from: pool.water, to: pool.deck}, at-least: 1 m}";
    let (found, range) = judge(&text, apart);
    assert_eq!(found, Outcome::Pass);
    near(range, 1.0, 1.0);
}
