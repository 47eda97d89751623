//! Margins, widths over all and square roots from a plan and a rule file to the outcome: worked by hand in
//! `docs/measures/margins.md`.

mod against_geo;

use outside_checks::read;
use rules_core::check::Outcome::{Fail, Marginal, Pass, Unknown};
use rules_core::quantity::Interval;

use crate::common::measured::{LOT, judge};

const M: i128 = 1_000_000_000;
const MM: i128 = 1_000_000;
/// What several outlines together cover is known to a few millimetres.
const JOINED: i128 = 3 * MM;

/// A pool of 8 by 4 m whose corner is at (6, 30), with some more said of it, and other things.
fn plan(accuracy: &str, of_pool: &str, things: &str) -> String {
    format!(
        "{LOT}pool:
  id: pool
  source: survey
  accuracy: {accuracy}
  water: {{rectangle: {{at: [6, 30], length: 8 m, width: 4 m}}}}
{of_pool}{things}inventory: {{deck: all-shown}}
"
    )
}

fn deck(x: &str, y: &str, length: &str, width: &str) -> String {
    format!("  deck: {{rectangle: {{at: [{x}, {y}], length: {length} m, width: {width} m}}}}\n")
}

fn at_least(limit: &str) -> String {
    format!("    require: {{margin: {{of: pool.deck, round: pool.water}}, at-least: {limit}}}\n")
}

fn with_other_decks(limit: &str) -> String {
    at_least(limit).replace("of: pool.deck", "of: [pool.deck, deck.region]")
}

/// Inkster MI, § 151.38 as its code library numbers it, asks for a walkway of 3 ft entirely around the pool; so do
/// Elwood IL § 158.12 and Orland Hills IL (36 inches).
#[test]
fn a_walkway_of_three_feet_on_both_sides_of_the_limit() {
    let round = |by: f64| {
        let feet = by * 0.3048;
        let (x, y) = (6.0 - feet, 30.0 - feet);
        let (long, wide) = (8.0 + 2.0 * feet, 4.0 + 2.0 * feet);
        let deck = deck(
            &format!("{x:.4}"),
            &format!("{y:.4}"),
            &format!("{long:.4}"),
            &format!("{wide:.4}"),
        );
        judge(&plan("0 mm", &deck, ""), "", &at_least("3 ft"))
    };
    assert_eq!(round(3.0), (Pass, Some(Interval::exact(914_400_000))));
    assert_eq!(round(2.99).0, Fail);
    assert_eq!(round(3.01).0, Pass);
}

/// West 1 m, south 1 m, east 0.4 m, north 1 m: 0.4 m. A corner counts by the slanting way: 3-4-5.
#[test]
fn the_side_where_it_reaches_least_far_counts() {
    let uneven = plan("0 mm", &deck("5", "29", "9.4", "6"), "");
    let found = judge(&uneven, "", &at_least("400 mm"));
    assert_eq!(found, (Pass, Some(Interval::exact(400 * MM))));
    assert_eq!(judge(&uneven, "", &at_least("401 mm")).0, Fail);
    // A corner cut off along 3x + 4y = 195.8: the water's corner at (14, 34) is (195.8 − 42 − 136) / 5 = 3.56 m from it.
    let cut_off = "  deck: [[2, 26], [18, 26], [18, 35.45], [14.6, 38], [2, 38]]\n";
    let found = judge(&plan("0 mm", cut_off, ""), "", &at_least("3.56 m"));
    assert_eq!(found, (Pass, Some(Interval::exact(3_560 * MM))));
}

/// With each corner off by 50 mm, both outlines may come 50 mm nearer to each other: 0.9 to 1.1 m.
#[test]
fn what_is_off_makes_it_wider() {
    let off = plan("50 mm", &deck("5", "29", "10", "6"), "");
    let found = judge(&off, "", &at_least("900 mm"));
    let range = Interval::new(900 * MM, 1_100 * MM);
    assert_eq!(found, (Pass, Some(range)));
    assert_eq!(judge(&off, "", &at_least("901 mm")).0, Marginal);
    assert_eq!(judge(&off, "", &at_least("1.1 m")).0, Marginal);
    assert_eq!(judge(&off, "", &at_least("1.101 m")).0, Fail);
}

/// A round pool of radius 2 m in a round deck of radius 3.5 m whose middle lies 0.3 and 0.4 m aside: 3.5 − 2 − 0.5 = 1 m.
#[test]
fn round_shapes_are_exact() {
    let round = |deck: &str| {
        let plan = plan("0 mm", &format!("  deck: {deck}\n"), "").replace(
            "water: {rectangle: {at: [6, 30], length: 8 m, width: 4 m}}",
            "water: {circle: {at: [10, 32], radius: 2 m}}",
        );
        judge(&plan, "", &at_least("1 m"))
    };
    let metre = Some(Interval::exact(M));
    assert_eq!(
        round("{circle: {at: [10.3, 32.4], radius: 3.5 m}}"),
        (Pass, metre)
    );
    // From the middle of the water to the nearest side 3 m.
    assert_eq!(
        round("{rectangle: {at: [7, 28], length: 6.5 m, width: 8 m}}"),
        (Pass, metre)
    );
    assert_eq!(
        round("{circle: {at: [10.3, 32.4], radius: 3.499 m}}").0,
        Fail
    );
}

/// No deck reaches 0 m; one that nobody stated may reach any distance.
#[test]
fn what_is_not_stated_is_unknown() {
    let none = plan("0 mm", "  deck: none\n", "");
    let nothing = Some(Interval::exact(0));
    assert_eq!(judge(&none, "", &at_least("1 mm")), (Fail, nothing));
    assert_eq!(
        judge(&plan("0 mm", "", ""), "", &at_least("1 m")).0,
        Unknown
    );
    let unknown = plan("unknown", &deck("5", "29", "10", "6"), "");
    assert_eq!(judge(&unknown, "", &at_least("1 m")).0, Marginal);
    // Other decks may be there that nobody looked for.
    let short = plan("0 mm", &deck("5.5", "29.5", "9", "5"), "");
    let looked = judge(&short, "", &with_other_decks("1 m"));
    assert_eq!(looked.0, Fail);
    let unlooked = short.replace("inventory: {deck: all-shown}", "inventory: {}");
    assert_eq!(judge(&unlooked, "", &with_other_decks("1 m")).0, Unknown);
    assert_eq!(judge(&unlooked, "", &with_other_decks("500 mm")).0, Pass);
}

/// A deck that lies beside the pool, or that the water sticks out of, reaches 0 m on that side.
#[test]
fn a_deck_that_is_not_all_round_reaches_nothing() {
    for deck in [deck("3", "29", "3", "6"), deck("7", "29", "9", "6")] {
        let found = judge(&plan("0 mm", &deck, ""), "", &at_least("1 mm"));
        assert_eq!(found, (Fail, Some(Interval::exact(0))));
    }
    let by_a_little = plan("50 mm", &deck("6", "29", "10", "6"), "");
    let found = judge(&by_a_little, "", &at_least("100 mm"));
    assert_eq!(found, (Marginal, Some(Interval::new(0, 100 * MM))));
}

/// The pool's own deck reaches 0.5 m to the west, and 1 m elsewhere; a patio from x = 3 to 8 adds the rest.
#[test]
fn several_decks_count_as_one() {
    let patio = |x: &str, length: &str| {
        format!(
            "things:\n  - {{kind: deck, id: patio, source: survey, region: {{rectangle: {{at: [{x}, 28], length: {length} m, width: 8 m}}}}}}\n"
        )
    };
    let own = deck("5.5", "29", "9.5", "6");
    let alone = plan("0 mm", &own, "");
    assert_eq!(judge(&alone, "", &with_other_decks("501 mm")).0, Fail);
    let both = judge(
        &plan("0 mm", &own, &patio("3", "5")),
        "",
        &with_other_decks("990 mm"),
    );
    let range = both.1.expect("it is measured");
    assert_eq!(both.0, Pass);
    assert!(
        range.low <= M && M <= range.high && range.high - range.low <= JOINED,
        "{range:?}"
    );
    // A gap of 100 mm between both leaves the margin of the first.
    let apart = judge(
        &plan("0 mm", &own, &patio("0.4", "5")),
        "",
        &with_other_decks("510 mm"),
    );
    assert_eq!(apart.0, Fail);
}

/// Four walks that meet at the corners, each drawn by itself, leave no gap as drawn; where each is off by 50 mm, one may.
#[test]
fn strips_that_only_meet() {
    let strip = |id: &str, at: &str, length: &str, width: &str| {
        format!(
            "  - {{kind: deck, id: {id}, source: survey, accuracy: ACCURACY, region: {{rectangle: {{at: {at}, length: {length} m, width: {width} m}}}}}}\n"
        )
    };
    let strips = [
        strip("south", "[5, 29]", "10", "1"),
        strip("north", "[5, 34]", "10", "1"),
        strip("west", "[5, 30]", "1", "4"),
        strip("east", "[14, 30]", "1", "4"),
    ];
    let things = format!("things:\n{}", strips.concat());
    let judged = |accuracy: &str, limit: &str| {
        let things = things.replace("ACCURACY", accuracy);
        judge(
            &plan(accuracy, "  deck: none\n", &things),
            "",
            &with_other_decks(limit),
        )
    };
    assert_eq!(judged("0 mm", "990 mm").0, Pass);
    assert_eq!(judged("0 mm", "1.01 m").0, Fail);
    assert_eq!(judged("50 mm", "500 mm").0, Marginal);
    assert_eq!(judged("50 mm", "1.11 m").0, Fail);
}

fn wide(
    water: &str,
    accuracy: &str,
    bound: &str,
) -> (rules_core::check::Outcome, Option<Interval>) {
    let plan = plan(accuracy, "", "").replace(
        "water: {rectangle: {at: [6, 30], length: 8 m, width: 4 m}}",
        &format!("water: {water}"),
    );
    let rule = format!("    require: {{width: {{of: pool.water}}, {bound}}}\n");
    judge(&plan, "", &rule)
}

/// A rectangle is as wide as its shorter side, a round pool as its diameter; of a triangle it is the least height.
#[test]
fn widths_over_all_by_hand() {
    let rectangle = "{rectangle: {at: [6, 30], length: 8 m, width: 2.4384 m}}";
    let eight_feet = Some(Interval::exact(2_438_400_000));
    assert_eq!(
        wide(rectangle, "0 mm", "more-than: 8 ft"),
        (Fail, eight_feet)
    );
    assert_eq!(wide(rectangle, "0 mm", "at-most: 8 ft"), (Pass, eight_feet));
    assert_eq!(wide(rectangle, "50 mm", "at-most: 2.5384 m").0, Pass);
    assert_eq!(wide(rectangle, "50 mm", "at-most: 8 ft").0, Marginal);
    let round = "{circle: {at: [10, 32], radius: 1.5 m}}";
    assert_eq!(
        wide(round, "0 mm", "at-most: 3 m"),
        (Pass, Some(Interval::exact(3 * M)))
    );
    let oval = "{oval: {from: [8, 32], to: [12, 32], radius: 1 m}}";
    assert_eq!(
        wide(oval, "0 mm", "at-most: 2 m"),
        (Pass, Some(Interval::exact(2 * M)))
    );
    // Sides of 3, 4 and 5 m: the height on the longest is 3 · 4 / 5.
    let triangle = "[[6, 30], [10, 30], [6, 33]]";
    assert_eq!(
        wide(triangle, "0 mm", "at-most: 2.4 m"),
        (Pass, Some(Interval::exact(2_400 * MM)))
    );
    // An L of 6 by 6 m with arms 2 m wide goes slantwise through a gap of 8 / √2 m: from (6, 30) to the line x + y = 44.
    let angle = "[[6, 30], [12, 30], [12, 32], [8, 32], [8, 36], [6, 36]]";
    let (_, range) = wide(angle, "0 mm", "at-most: 6 m");
    let range = range.expect("it is measured");
    let expected = 8.0 / 2_f64.sqrt() * 1e9;
    assert!(
        (range.low as f64) <= expected && expected <= range.high as f64,
        "{range:?}"
    );
}

/// Two stems of 300 and 400 mm count as one of 500 mm: BS 5837:2012, 4.6.1 (from memory) takes the root of the sum of the
/// squares of two to five stems, and twelve times that as the radius.
#[test]
fn a_tree_of_two_stems() {
    let tree = |at: &str, first: &str| {
        format!(
            "{LOT}pool: {{id: pool, source: survey, water: {{rectangle: {{at: [6, 30], length: 8 m, width: 4 m}}}}}}
things:
  - {{kind: tree, id: oak, source: survey, stem: [{at}, 32], stem-diameter: {first}, second-stem: 400 mm}}
inventory: {{tree: all-shown}}
"
        )
    };
    let terms = "kinds:
  - id: tree
    facts:
      - {id: second-stem, said: diameter of the second stem, ask: How thick is its second stem?, how: Tape round it and divide by 3.14., answer: length, least: 0 m, most: 5 m, none: yes}
terms:
  both-stems:
    of: tree
    square-root: {sum: [{product: [tree.stem-diameter, tree.stem-diameter]}, {product: [tree.second-stem, tree.second-stem]}]}
";
    let rule = "    each: tree
    require:
      distance: {from: pool.water, to: tree.stem}
      at-least: {product: [12, both-stems]}
";
    let outcome = |at: &str, first: &str| judge(&tree(at, first), terms, rule).0;
    assert_eq!(outcome("20", "300 mm"), Pass);
    assert_eq!(outcome("19.999", "300 mm"), Fail);
    assert_eq!(outcome("20", "300 mm ± 10 mm"), Marginal);
    assert_eq!(outcome("20", "unknown"), Unknown);
    // As the zone's reach.
    let roots = "    each: tree
    require: {area: {of: {each: pool.water}, in: {around: tree.stem, by: {product: [12, both-stems]}}}, at-most: 0 m2}
";
    assert_eq!(judge(&tree("20.1", "300 mm"), terms, roots).0, Pass);
    assert_eq!(judge(&tree("19.9", "300 mm"), terms, roots).0, Fail);
}

/// The sentences that are read back.
#[test]
fn they_read_as_one_would_say_them() {
    let rules = read::rules(&format!(
        "ruleset: eldermere\ntitle: Eldermere\nedition: \"1\"\nauthority: Eldermere building office\nrules:
  - id: walk
    title: Walk
    clause: s. 1
{}  - id: wide
    title: Wide
    clause: s. 2
    require: {{width: {{of: pool.water}}, at-most: 8 ft}}
  - id: root
    title: Root
    clause: s. 3
    require: {{square-root: {{sum: [{{area: {{of: {{each: pool.water}}}}}}, 9 m2]}}, at-most: 8 m}}
",
        with_other_decks("3 ft")
    ));
    let text = rules_core::ruleset::say::read_back(&rules).to_text();
    for sentence in [
        "the distance from the water's edge to the nearest ground round it that lies outside the deck's outer edge or any deck or patio must be at least 3 ft",
        "the width of the water's edge over all must be at most 8 ft",
        "the square root of (the area within the water's edge plus 9 m²) must be at most 8 m",
    ] {
        assert!(text.contains(sentence), "{sentence}\n\n{text}");
    }
}

/// What has no square root, and a width of several things, is refused with what to write.
#[test]
fn what_makes_no_sense_is_refused() {
    let said = |require: &str| {
        let text = format!(
            "ruleset: r\ntitle: R\nedition: \"1\"\nauthority: A\nrules:\n  - {{id: a, title: A, clause: C, require: {require}}}\n"
        );
        let refused = rules_core::read_rules(&text, &|_| None).err();
        let refused = refused.unwrap_or_else(|| panic!("{require} is taken"));
        refused.show("", "r.yaml")
    };
    let root = said("{square-root: 3 m, at-most: 2 m}");
    assert!(root.contains("which has no square root here"), "{root}");
    let many = said("{width: {of: deck.region}, at-most: 2 m}");
    assert!(
        many.contains("which one is meant?") && many.contains("Put `each`"),
        "{many}"
    );
    let line = said("{margin: {of: barrier-stretch.line, round: pool.water}, at-least: 2 m}");
    assert!(line.contains("is not drawn as an area"), "{line}");
}
