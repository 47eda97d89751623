//! What several outlines cover together.

use super::*;

const ROOF: &str = "  - {kind: building, id: house, source: survey, roof: {rectangle: {at: [2, 2], length: 10 m, width: 10 m}}}\n";
const COVER: &str = "{area: {of: [building.roof, deck.region]}, at-most: 105 m2}";

fn roofs(things: &str) -> String {
    plan(&lot(""), "", things, "building: all-shown, deck: all-shown")
}

fn terrace(source: &str) -> String {
    format!(
        "  - {{kind: deck, id: terrace, {source}, region: {{rectangle: {{at: [2, 2], length: 10 m, width: 10 m}}}}}}\n"
    )
}

/// A terrace of a map that may be shifted by 1 m, drawn just under a roof of 100 m². Shifted aslant, it covers 13.6 m² more; no
/// more than its edge of 40 m and its corners can reach: 100 + 40 · 1 + π. The roof alone covers 100 m².
#[test]
fn what_is_shifted_covers_more() {
    let (found, (low, high)) = judge(
        &roofs(&format!("{ROOF}{}", terrace("source: map, accuracy: 0 mm"))),
        COVER,
    );
    assert_eq!(found, Outcome::Marginal);
    near((low * 1e-9, high * 1e-9), 100.0, 143.143);
    let together = judge(
        &roofs(&format!("{ROOF}{}", terrace("source: survey"))),
        COVER,
    );
    assert_eq!(together.0, Outcome::Pass);
    near((together.1.0 * 1e-9, together.1.1 * 1e-9), 100.0, 100.0);
    assert!(is_open(
        &roofs(&format!("{ROOF}{}", terrace("source: tape"))),
        COVER
    ));
}

/// Taking an outline away never raises the low end, however badly that one is known.
#[test]
fn one_outline_more_never_covers_less() {
    let both = |deck: &str| judge(&roofs(&format!("{ROOF}{deck}")), COVER).1.0;
    let alone = both("");
    for source in [
        "source: survey, accuracy: 3 m",
        "source: map",
        "source: tape",
        "accuracy: 0 mm",
    ] {
        assert!(both(&terrace(source)) >= alone, "{source}");
    }
    let far = "  - {kind: deck, id: terrace, source: survey, accuracy: 0.1 m, region: {rectangle: {at: [15, 2], length: 5 m, width: 4 m}}}\n";
    // So much of it as lies 0.1 m within it: 4.8 · 3.8 m².
    assert!((both(far) - alone) * 1e-9 > 18.2, "{}", both(far));
}

/// Two combs whose teeth meet, each corner off by 0.1 m: 60 m² as drawn, and 48.8 m² where the teeth of both are thin.
#[test]
fn teeth_that_cancel_out_in_one_area_do_not_in_two() {
    let mut teeth = String::new();
    for tooth in 0..12 {
        let x = 5.0 + 0.5 * f64::from(tooth);
        teeth += &format!("[{x}, 5], [{}, 13], ", x + 0.25);
    }
    let things = format!(
        "  - {{kind: deck, id: one, source: survey, accuracy: 100 mm, region: [[11, 4], [5, 4], {teeth}[11, 5]]}}
  - {{kind: driveway, id: two, source: survey, accuracy: 100 mm, region: [[5, 14], {teeth}[11, 5], [11, 14]]}}\n"
    );
    let text = plan(
        &lot(""),
        "",
        &things,
        "deck: all-shown, driveway: all-shown",
    );
    let (found, (low, high)) = judge(
        &text,
        "{area: {of: [deck.region, driveway.region]}, at-least: 55.5 m2}",
    );
    assert_eq!(found, Outcome::Marginal);
    assert!(low * 1e-9 <= 48.8 && high * 1e-9 >= 60.0, "{low} {high}");
    // One of them alone is still known by its corners.
    let (found, _) = judge(&text, "{area: {of: deck.region}, at-least: 27.7 m2}");
    assert_eq!(found, Outcome::Pass);
}

/// What counts by half counts by half of itself, never by less than nothing or more than all of it.
#[test]
fn shares_are_of_a_whole() {
    for (share, good) in [
        ("50 %", true),
        ("0 %", true),
        ("100 %", true),
        ("-50 %", false),
        ("1000000 %", false),
        ("20 % .. 50 %", false),
    ] {
        let text = format!(
            "ruleset: t\ntitle: T\nedition: \"1\"\nauthority: A\nrules:\n  - {{id: a, title: A, clause: C, require: {{area: {{of: {{kind: deck, outline: region, counted: {share}}}}}, at-most: 10 m2}}}}\n"
        );
        let read = rules_core::ruleset::read(
            &text,
            &|_| None,
            rules_core::vocabulary::Vocabulary::standard(),
        );
        assert_eq!(read.is_ok(), good, "{share}");
    }
}

/// A round terrace of 0.7 m radius whose edge may be off by 0.5 m has at least π · 0.2² = 0.126 m², not nothing because its
/// way round of 4.4 m times 0.5 m is more than its area. What is known worse of it never leaves more.
#[test]
fn a_small_outline_that_is_badly_known_has_a_core() {
    let of = |accuracy: &str| {
        let deck = format!(
            "  - {{kind: deck, id: landing, source: survey, accuracy: {accuracy}, region: {{circle: {{at: [2, 2], radius: 0.7 m}}}}}}\n"
        );
        judge(&roofs(&deck), "{area: {of: deck.region}, more-than: 0 m2}")
    };
    let (found, (low, _)) = of("0.5 m");
    assert_eq!(found, Outcome::Pass);
    assert!((0.12..0.126).contains(&(low * 1e-9)), "{low}");
    assert!(is_open(
        &roofs(
            "  - {kind: deck, id: landing, source: survey, accuracy: 0.8 m, region: {circle: {at: [2, 2], radius: 0.7 m}}}\n"
        ),
        "{area: {of: deck.region}, more-than: 0 m2}"
    ));
}

/// A roof that lies within another outline adds nothing, and does not blur an area that is exact without it.
#[test]
fn what_lies_within_another_outline_blurs_nothing() {
    let porch = "  - {kind: building, id: porch, source: survey, roof: [[3, 3], [5, 3.5], [4.5, 5.1], [2.7, 4.3]]}\n";
    let shed = "  - {kind: building, id: shed, source: survey, roof: [[15, 2], [16, 2], [16, 7], [15, 7]]}\n";
    let text = roofs(&format!("{ROOF}{porch}{shed}"));
    assert_eq!(outcome(&text, COVER), Outcome::Pass);
    let more = COVER.replace("at-most", "more-than");
    assert_eq!(outcome(&text, &more), Outcome::Fail);
}

/// A house lies within its own wall, however far off that wall may be drawn: 0 m² of it lie outside.
#[test]
fn nothing_lies_outside_itself() {
    let house = "  - {kind: building, id: house, source: survey, accuracy: 0.3 m, wall: {rectangle: {at: [2, 2], length: 10 m, width: 10 m}}}\n";
    let outside = "{area: {of: building.wall, in: {not: {inside: building.wall}}}, at-most: 0 m2}";
    let found = each(
        &plan(&lot(""), "", house, "building: all-shown"),
        "building",
        outside,
    );
    assert_eq!(found.0, Outcome::Pass);
}
