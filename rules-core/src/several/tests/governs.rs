//! Which of two limits governs, and where the report does not say.

use super::*;

#[test]
fn of_two_limits_on_the_same_distance_the_stricter_governs() {
    let (state, town) = (
        rear("state", "pool.water", "at-least: 1.5 m"),
        rear("town", "pool.water", "at-least: 3 m"),
    );
    let report = judged(&plan(""), &[&state, &town]);
    let sentence = "The distance from the water's edge to the lot line: at least 3 m governs (town, s. 4); state asks for at least 1.5 m (s. 4).";
    let said: Vec<_> = report
        .governs
        .iter()
        .map(|one| one.sentence.as_str())
        .collect();
    assert_eq!(said, [sentence]);
    let turned = judged(&plan(""), &[&town, &state]);
    assert_eq!(turned.governs[0].governs, report.governs[0].governs);
    let more_than = rear("more", "pool.water", "more-than: 3 m");
    let edge = judged(&plan(""), &[&town, &more_than]);
    assert_eq!(
        edge.governs[0].governs.bound, "more than 3 m",
        "3 m keeps the one and not the other"
    );
}

#[test]
fn the_names_of_terms_do_not_affect_which_limit_governs() {
    let plain = rear("plain", "pool.water", "at-least: 1.5 m");
    let termed = "terms: {edge: pool.water, back: {kind: lot-line, where: {fact: lot-line.faces, is: rear}}}\n\
         rules: [{id: r, title: R, clause: s. 2, each: back, require: {distance: {from: edge, to: lot-line}, at-least: 2 m}}]\n";
    let report = judged(&plan(""), &[&plain, &rules("termed", termed)]);
    let bounds: Vec<_> = report
        .governs
        .iter()
        .map(|one| (&*one.governs.bound, &*one.over.bound))
        .collect();
    assert_eq!(bounds, [("at least 2 m", "at least 1.5 m")]);
}

#[test]
fn no_limit_governs_where_the_measures_differ() {
    let water = rear("water", "pool.water", "at-least: 1.5 m");
    let none = |other: &str| {
        let report = judged(&plan(""), &[&water, other]);
        assert_eq!(report.governs, [], "{other}");
    };
    none(&rear("structure", "pool.shell", "at-least: 3 m"));
    none(&rear("contrary", "pool.water", "at-most: 3 m"));
    none(&rear("alike", "pool.water", "at-least: 1.5 m"));
    none(
        &rear("farthest", "pool.water", "at-least: 3 m")
            .replace("to: lot-line}", "to: lot-line, farthest: yes}"),
    );
    none(&rear("front", "pool.water", "at-least: 3 m").replace("is: rear", "is: front"));
    none(
        &rear("advice", "pool.water", "at-least: 3 m")
            .replace("clause:", "strength: should, clause:"),
    );
    none(&rear("elsewhere", "pool.water", "at-least: 3 m").replace(
        "clause:",
        "when: {fact: pool.depth, more-than: 9 m}, clause:",
    ));
}
