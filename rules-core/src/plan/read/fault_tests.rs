//! Each fault of a plan: its code, and what is said.

use super::plan_tests::GOOD;
use super::read;
use crate::text::Faults;
use crate::vocabulary::Vocabulary;

fn faults(text: &str) -> Faults {
    read(text, &Vocabulary::standard()).expect_err("this plan is at fault")
}

/// The only fault of the good plan with one part of it changed.
fn only(from: &str, to: &str) -> (&'static str, String, String) {
    assert!(GOOD.contains(from), "{from}");
    let text = GOOD.replacen(from, to, 1);
    let faults = faults(&text);
    let [fault] = faults.list.as_slice() else {
        panic!("{}", faults.show("plan.yaml", &text))
    };
    assert!(
        fault
            .span
            .is_some_and(|span| span.start < span.end && span.end <= text.len()),
        "{fault:?}"
    );
    (
        fault.code.word(),
        fault.message.clone(),
        fault.help.clone().unwrap_or_default().to_string(),
    )
}

#[track_caller]
fn says(from: &str, to: &str, code: &str, message: &str, help: &str) {
    let found = only(from, to);
    assert_eq!(
        (found.0, found.1.as_str(), found.2.as_str()),
        (code, message, help)
    );
}

#[track_caller]
fn code(from: &str, to: &str, code: &str) {
    assert_eq!(only(from, to).0, code);
}

#[test]
fn what_a_plan_must_have() {
    let found = faults("plan: p\n");
    let missing: Vec<_> = found
        .list
        .iter()
        .map(|fault| fault.message.as_str())
        .collect();
    assert_eq!(
        missing,
        [
            "A plan needs the key `title`, which is not written.",
            "A plan needs the key `lot`, which is not written.",
            "A plan needs the key `pool`, which is not written.",
        ]
    );
    code("id: gate-1, ", "", "missing-key");
    code("kind: gate, ", "", "missing-key");
    let text =
        "plan: p\ntitle: T\nunit: m\nlot: {corners: {a: [0, 0], b: [9, 0], c: [0, 9]}}\npool: []\n";
    assert_eq!(faults(text).list[0].code.word(), "no-pool");
}

#[test]
fn misspelt_names_are_guessed() {
    says(
        "kind: gate",
        "kind: gaet",
        "unknown-kind",
        "`gaet` is not a kind of thing that `kind` can name.",
        "Did you mean `gate`?",
    );
    says(
        "from: water, corners: square",
        "from: watr, corners: square",
        "unknown-outline",
        "`watr` is not an outline of a pool.",
        "Did you mean `water`?",
    );
    says(
        "use: dwelling, ",
        "use: Dwelling, ",
        "unknown-word",
        "`Dwelling` is not a word for the use of the building.",
        "Did you mean `dwelling`?",
    );
    says(
        "faces: rear",
        "faces: reer",
        "unknown-word",
        "`reer` is not a word for the side of the lot on which the line lies.",
        "Did you mean `rear`?",
    );
    says(
        "source: town-map",
        "source: townmap",
        "unknown-source",
        "There is no source `townmap` in this plan.",
        "Did you mean `town-map`?",
    );
    says(
        "part-of: house",
        "part-of: hous",
        "unknown-thing",
        "There is no other thing `hous` in this plan.",
        "Did you mean `house`?",
    );
    says(
        "to: house.wall",
        "to: huose.wall",
        "unknown-thing",
        "There is no thing `huose` in this plan.",
        "Did you mean `house`?",
    );
    says(
        "well: {",
        "wel: {",
        "unknown-kind",
        "`wel` is not a kind of thing that `inventory` can name.",
        "Did you mean `well`?",
    );
    let (code, message, help) = only("latch-height: 1", "latch-hight: 1");
    assert_eq!(
        (code, message.as_str()),
        ("unknown-key", "`latch-hight` is not a key of a gate.")
    );
    assert!(help.starts_with("Did you mean `latch-height`?"), "{help}");
}

#[test]
fn amounts_need_units_and_sense() {
    says(
        "voltage: 400 V",
        "voltage: 400",
        "bad-amount",
        "In `voltage`, `400` has no unit.",
        "Write the unit, for instance `750 V` or `15 kV`.",
    );
    code("voltage: 400 V", "voltage: 400 m", "bad-amount");
    code("depth: 1.5 m ± 0.1 m", "depth: 1,5 m", "bad-amount");
    code("unit: m", "unit: kg", "bad-unit");
    let bare = GOOD.replacen("unit: m\n", "", 1);
    let bare = faults(&bare);
    let [fault] = bare.list.as_slice() else {
        panic!("{bare:?}")
    };
    assert_eq!(
        fault.message,
        "This number has no unit, and the plan declares none."
    );
    says(
        "depth: 1.5 m ± 0.1 m",
        "depth: 150 m",
        "beyond-limits",
        "`150 m` cannot be the greatest depth of the water.",
        "It lies between 0 m and 50 m; look at the figure and its unit again.",
    );
    code("accuracy: 5 mm", "accuracy: -5 mm", "not-positive");
    code("accuracy: 5 mm", "accuracy: 5 mm .. 8 mm", "not-one-amount");
    code("length: 8 m", "length: 0 m", "not-positive");
    code("north: 12 deg", "north: 500 deg", "bad-angle");
    code("north: 12 deg", "north: 12 m", "bad-amount");
}

#[test]
fn ranges_and_choices() {
    says(
        "latch-height: 1 m .. 1.6 m",
        "latch-height: {from: 1 m, to: 1.6 m}",
        "does-not-vary",
        "The height of the latch does not change along the thing.",
        "Write one amount; `1.2 m .. 1.4 m` where it lies somewhere between.",
    );
    code(
        "{from: 6.1 m, to: 7.4 m}",
        "{from: 7.4 m, to: 6.1 m}",
        "wrong-way-round",
    );
    code("{from: 6.1 m, to: 7.4 m}", "{from: 6.1 m}", "half-a-range");
    says(
        "{one-of: [pool, outside]}",
        "{one-of: []}",
        "empty-one-of",
        "`one-of` needs a list with at least one entry.",
        "Write what it may still be: `{one-of: [pool, outside]}`.",
    );
    code(
        "{one-of: [pool, outside]}",
        "[pool, outside]",
        "not-a-value",
    );
    says(
        "voltage: 400 V",
        "voltage: none",
        "none-not-possible",
        "`none` makes no sense for the voltage of the line: there always is one.",
        "Write `unknown` where nobody knows.",
    );
    code("self-closing: yes", "self-closing: maybe", "not-yes-or-no");
}

#[test]
fn the_lot_is_checked() {
    code("    b: {at", "    a: {at", "duplicate-key");
    says(
        "from: c, to: d",
        "from: a, to: c",
        "not-neighbours",
        "A side runs between two corners that follow each other, and these do not.",
        "The corners follow each other in the order in which they are listed, the first after the last: after `a` comes `b`, as in `to: b`.",
    );
    code("from: c, to: d", "from: c, to: e", "unknown-corner");
    says(
        "from: c, to: d",
        "from: b, to: a",
        "side-twice",
        "`front` and `rear` are the same side of the lot.",
        "",
    );
    code(
        "    c: [124.25, 86.5]\n",
        "    c: [124.25, 86.5]\n    c--1: [1, 1]\n",
        "bad-id",
    );
    let crossed = GOOD
        .replace("c: [124.25, 86.5]", "c: [100.25, 86.5]")
        .replace("d: [100.25, 86.5]", "d: [124.25, 86.5]");
    let found = faults(&crossed);
    assert_eq!(
        found.list[0].message,
        "The side from `b` to `c` meets the side from `d` to `a`."
    );
    let thin = GOOD.replace("c: [124.25, 86.5]", "c: [124.25, 50.5]");
    assert_eq!(
        faults(&thin).list[0].message,
        "Corners `b` and `c` are at the same place."
    );
}

#[test]
fn outlines_are_checked() {
    says(
        "[[102,60],[114,60],[114,68],[102,68]]",
        "[[102,60],[114,60],[102,68],[114,68]]",
        "crosses-itself",
        "`wall` crosses itself: the side after point 2 meets the side after point 4.",
        "Write the points in the order in which one walks round it.",
    );
    says(
        "[[102,60],[114,60],[114,68],[102,68]]",
        "[[102,60],[114,60]]",
        "too-few-points",
        "`wall` needs at least three points; it has 2.",
        "",
    );
    code(
        "[[102,60],[114,60],[114,68],[102,68]]",
        "[[102,60],[114,60],[120,60]]",
        "crosses-itself",
    );
    code(
        "[[102,60],[114,60],[114,68],[102,68]]",
        "[[102,60],[114,60],[114,68],[102,60]]",
        "same-point",
    );
    code(
        "[[102,60],[114,60],[114,68],[102,68]]",
        "[102, 60]",
        "not-points",
    );
    code("[[95,80],[130,81]]", "[[95,80],[130,81,3]]", "not-a-point");
    code("[[95,80],[130,81]]", "[[95,80],[nan,81]]", "bad-amount");
    says(
        "[[95,80],[130,81]]",
        "[[95,80],[20000,81]]",
        "too-far",
        "This place is more than 10 km from the lot's first corner.",
        "Look at the figures and the unit again; every thing has to be in the same coordinates.",
    );
    code(
        "[[95,80],[130,81]]",
        "{circle: {at: [95, 80], radius: 1 m}}",
        "wrong-shape",
    );
    code(
        "{circle: {at: [103,84]",
        "{cirkle: {at: [103,84]",
        "unknown-way",
    );
    code("{same-as: water}", "{same-as: inside-face}", "not-derived");
    code("{same-as: water}", "{same-as: deck}", "not-derived");
    says(
        "inside-face: {same-as: water}",
        "inside-face: none",
        "none-not-possible",
        "`none` makes no sense for the inside face of the pool wall: there always is one.",
        "Write `unknown` where nobody knows.",
    );
    code(
        "inside-face: {same-as: water}",
        "inside-face: {inward: 3 m, from: water}",
        "not-derived",
    );
    code("corners: square}", "corners: sharp}", "unknown-word");
    code(
        "outward: 300 mm, from: water, corners: square",
        "outward: 300 mm, from: water",
        "missing-key",
    );
}

#[test]
fn things_are_checked_against_each_other() {
    says(
        "gate: all-shown",
        "gate: none",
        "none-but-drawn",
        "The inventory says that there is no `gate`, and `gate-1` is one.",
        "Write `all-shown`, or take the thing out.",
    );
    says(
        "id: oak",
        "id: house",
        "same-id",
        "Two things have the id `house`.",
        "Give each thing an id of its own; the lot's sides and `lot`, `zone`, `works` and so on have theirs.",
    );
    says(
        "id: oak",
        "id: the oak",
        "bad-id",
        "`the oak` cannot be used as an id for `id`.",
        "Use letters and digits, and single hyphens, dots, slashes or underscores between them: `back-door`, `12/4`. What people call a thing goes under `name`.",
    );
    code("part-of: house", "part-of: back-door", "unknown-thing");
    code("gate: all-shown", "lot: all-shown", "always-there");
    code(
        "kind: gate, id: gate-1,",
        "kind: pool, id: gate-1,",
        "wrong-place",
    );
    code("to: house.wall", "to: house", "unknown-outline");
    code(
        "consent-letter: refused",
        "consent-letter: lost",
        "unknown-word",
    );
    code(
        "dates: {applied: 2026-03-02}",
        "dates: {applied: 2026-02-30}",
        "bad-amount",
    );
    code("dates: {", "answers: {own: yes}\ndates: {", "unknown-key");
    let covers = "things:\n  - {kind: cover, id: one}\n  - {kind: cover, id: two}\n";
    says(
        "things:\n",
        covers,
        "more-than-one",
        "`one` and `two` are both a cover, and there can be only one.",
        "",
    );
    let ring =
        "things:\n  - {kind: tree, id: x, part-of: y}\n  - {kind: tree, id: y, part-of: x}\n";
    let found = faults(&GOOD.replacen("things:\n", ring, 1));
    assert!(
        found
            .list
            .iter()
            .all(|fault| fault.code.word() == "part-of-itself"),
        "{found:?}"
    );
}

/// A name that is written elsewhere is no misspelling, and yet nothing is passed over in silence.
#[test]
fn faults_that_follow_from_others_are_held_back() {
    code("source: town-map", "source: oak", "unknown-source");
    code("part-of: house", "part-of: town-map", "unknown-thing");
    code("water: {rectangle", "water: {rectangel", "unknown-way");
    code("to: d, faces: rear", "to: e, faces: rear", "unknown-corner");
    code("by: map", "by: hearsay", "unknown-word");
}

#[test]
fn all_faults_come_in_one_run() {
    let text = GOOD
        .replace("voltage: 400 V", "voltage: high")
        .replace("faces: rear", "faces: back")
        .replace("source: town-map", "source: memory")
        .replace("septic-part: none", "septic-part: perhaps")
        .replace("site-plan: in-hand", "site-plan: lost");
    assert_eq!(faults(&text).list.len(), 5);
}

/// What makes a plan hang or panic must be refused or read, whatever it is.
#[test]
fn a_plan_cut_anywhere_gives_an_answer() {
    let vocabulary = Vocabulary::standard();
    let ends = GOOD.char_indices().map(|(at, _)| at).step_by(7);
    let refused = ends
        .filter(|end| read(&GOOD[..*end], &vocabulary).is_err())
        .count();
    assert!(refused > 100, "{refused}");
}

#[test]
fn who_answered_a_matter_and_when_must_be_said() {
    says(
        "answered: {flood:",
        "answered: {floods:",
        "unknown-matter",
        "`floods` is no matter that can be answered here.",
        "Did you mean `flood`?",
    );
    says(
        ", by: the county, on: 2026-03-02",
        ", on: 2026-03-02",
        "missing-key",
        "An answer needs the key `by`, which is not written.",
        "Write it beside its other keys, as in `by: The road office`: who said it.",
    );
    says(
        "on: 2026-03-02}",
        "on: 2026-03-01 .. 2026-03-02}",
        "not-one-day",
        "After `on`, one day is expected, not a range.",
        "Write the day as year-month-day, as in `2026-03-02`.",
    );
    let (code, ..) = only("on: 2026-03-02}", "on: March}");
    assert_eq!(code, "bad-amount");
}
