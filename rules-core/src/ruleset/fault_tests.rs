//! What is said of rule files that are wrong: each fault by its code, the text that it underlines, and its words.

use super::read_tests::{check, whole};
use crate::text::Lines;

/// Checks that a body has just one fault.
#[track_caller]
fn one(body: &str, code: &str, under: &str, message: &str, help: &str) {
    let files = match check(body) {
        Ok(checked) => panic!("no fault; {:?}", checked.warnings),
        Err(files) => files,
    };
    let text = whole(body);
    let faults = &files[0].faults;
    assert_eq!(faults.list.len(), 1, "{}", faults.show("rules", &text));
    let fault = &faults.list[0];
    assert_eq!(fault.code.word(), code, "{}", faults.show("rules", &text));
    assert_eq!(Lines::new(&text).underlined(fault.span.unwrap()), under);
    assert_eq!(fault.message, message);
    assert_eq!(fault.help.clone().unwrap_or_default().to_string(), help);
}

/// The same for the parts of one rule.
#[track_caller]
fn in_rule(parts: &str, code: &str, under: &str, message: &str, help: &str) {
    one(&rule(parts), code, under, message, help);
}

/// The same for what a rule requires.
#[track_caller]
fn required(requirement: &str, code: &str, under: &str, message: &str, help: &str) {
    in_rule(
        &format!("require: {requirement}"),
        code,
        under,
        message,
        help,
    );
}

fn rule(parts: &str) -> String {
    format!("rules:\n  - id: one\n    title: One\n    clause: s. 1\n    {parts}\n")
}

#[test]
fn words_that_are_not_ours() {
    required(
        "{fact: pool.depth, over: 600 mm}",
        "wrong-word",
        "over",
        "`over` is not one of the words of a rule.",
        "Write `more-than`.",
    );
    required(
        "{distance: {from: pool.water, to: lot-line}, min: 3 m}",
        "wrong-word",
        "min",
        "`min` is not one of the words of a rule.",
        "Write `at-least`.",
    );
    required(
        "{any: [{fact: pool.depth, at-most: 2 m}, {fact: pool.founded, is: yes}]}",
        "wrong-word",
        "any",
        "`any` is not one of the words of a rule.",
        "Write `any-of`.",
    );
    required(
        "{any-off: [{fact: pool.depth, at-most: 2 m}]}",
        "no-requirement",
        "any-off",
        "Nothing says what must hold here.",
        "Did you mean `any-of`?",
    );
}

#[test]
fn names_that_nobody_knows() {
    required(
        "{fact: pool.dept, at-most: 2 m}",
        "unknown-fact",
        "pool.dept",
        "`pool` has no fact `dept`.",
        "Did you mean `pool.depth`? Its facts are `construction`, `depth`, `fill-depth`, `excavation-depth`, `volume`, \
         `height-above-ground`, `top-above-grade`, `rim-level`, `underside-level`, `shell-mass`, `footprint`, `gross-area`, `standing-time`, `built-on`, \
         `works-begun-on`, `barrier-altered-on`, `work`, `recirculating`, `founded`, `connected-to-mains`, \
         `wall-is-barrier`, `wall-as-barrier-allowed-by-maker`, `opening-without-ladder`, `prefabricated`, \
         `emptied-to`, `emptying-rate` and `emptied-dechlorinated`.",
    );
    required(
        "{distance: {from: pool.watr, to: lot-line}, at-least: 2 m}",
        "unknown-outline",
        "pool.watr",
        "`pool` has no outline `watr`.",
        "Did you mean `pool.water`? Its outlines are `water`, `inside-face`, `coping`, `shell`, `deck`, `excavation`, \
         `with-attached` and `enclosed-area`.",
    );
    in_rule(
        "each: gates\n    require: {fact: pool.depth, at-least: 54 in}",
        "unknown-kind",
        "gates",
        "There is no kind of thing and no term `gates`.",
        "Did you mean `gate`?",
    );
    required(
        "{meets: enclosure}",
        "unknown-term",
        "enclosure",
        "There is no term `enclosure`.",
        "Define it under `terms`: a name, and what it stands for.",
    );
    required(
        "{have: consent}",
        "unknown-document",
        "consent",
        "There is no document `consent`.",
        "Add it under `documents`: `{id: consent, title: Consent, from: …}`.",
    );
    required(
        "{fact: applied-for, is: yes}",
        "unknown-value",
        "applied-for",
        "There is no question, no day and no term `applied-for`.",
        "Did you mean `applied`? A fact is written with its kind, as in `pool.depth`; an amount begins with a figure and ends with its unit, as in `2 m`; a name of your own is defined under `terms`, as in `applied-for: 5 ft`.",
    );
    in_rule(
        "require: refer\n    remdy: Ask.",
        "unknown-key",
        "remdy",
        "`remdy` is not a key of a rule.",
        "Did you mean `remedy`? The keys here are `id`, `title`, `clause`, `when`, `unless`, `each`, `part-of`, `where`, `in`, `if-none`, \
         `require`, `should`, `strength`, `relief`, `remedy`, `documents`, `provenance`, `source`, `again`, `note`, `in-force`, \
         `replaces`, `tightens`, `changes`.",
    );
}

#[test]
fn which_one_is_meant() {
    required(
        "{fact: gate.latch-height, at-least: 54 in}",
        "say-each",
        "gate.latch-height",
        "`gate.latch-height` speaks of a gate, and a plan can have several: which one is meant?",
        "Put `each: gate` before it, or take one amount out of all of them, as in `largest-of: {kind: gate, take: gate.latch-height}`.",
    );
    in_rule(
        "when: {fact: gate.use, is: foot}\n    each: gate\n    require: {fact: gate.latch-height, at-least: 54 in}",
        "move-to-where",
        "gate.use",
        "`when` speaks of the plan, once; `gate.use` is a fact of each gate.",
        "Move this to `where`.",
    );
    required(
        "{distance: {from: pool.water, to: building}, at-least: 2 m}",
        "which-outline",
        "building",
        "Which outline of `building` is meant?",
        "Write one of `building.wall`, `building.roof`, `building.foundation-at-grade`, `building.footing`, \
         `building.front-wall`, `building.rear-wall`, `building.side-wall` and `building.principal-elevation`.",
    );
    in_rule(
        "where: {fact: gate.use, is: foot}\n    require: refer",
        "no-each",
        "where",
        "`where` chooses among things, and no `each` says which.",
        "Add `each: gate` beside it.",
    );
    one(
        "terms: {latch-ok: {fact: gate.latch-height, at-least: 54 in}}\n",
        "say-each",
        "gate.latch-height",
        "`gate.latch-height` speaks of a gate, and a plan can have several: which one is meant?",
        "If the term is meant to be used for one gate, add `of: gate` to it.",
    );
}

#[test]
fn sorts_that_do_not_agree() {
    required(
        "{distance: {from: pool.water, to: lot-line}, at-least: 3 m2}",
        "bad-amount",
        "3 m2",
        "A length is wanted here, `3 m2` is an area.",
        "Write a length, for instance `3.2 m`, `1200 mm` or `4 ft 6 in`.",
    );
    required(
        "{distance: {from: pool.water, to: lot-line}, at-least: lot.area}",
        "sorts-differ",
        "lot.area",
        "This is an area, and a length is expected.",
        "A length is written as `3.2 m`, `1200 mm` or `4 ft 6 in`.",
    );
    required(
        "{area: {of: pool.water}, at-most: 40 %}",
        "percent-of-what",
        "40 %",
        "`40 %` is a share, and nothing says a share of what.",
        "Put `share-of` into the `area`, as in `share-of: lot.boundary`.",
    );
    required(
        "{fact: pool.construction, at-least: 3 m}",
        "not-an-amount",
        "at-least",
        "`at-least` compares amounts, and this is answered with a word.",
        "Use `is` with a word or a list of words.",
    );
    required(
        "{fact: pool.construction, is: in-grond}",
        "unknown-word",
        "in-grond",
        "`in-grond` is not an answer to `pool.construction`.",
        "Did you mean `in-ground`? Its answers are `in-ground`, `on-ground`, `above-ground`, `portable` and `spa`.",
    );
    required(
        "{area: {of: lot-line}, at-most: 3 m2}",
        "not-an-area",
        "{of: lot-line}",
        "`lot-line.line` is not drawn as an area: it has neither a size nor an inside.",
        "Name an area, as in `lot.boundary` or `pool.water`.",
    );
    required(
        "{fact: pool.depth}",
        "no-bound",
        "{fact: pool.depth}",
        "Nothing says what this value must keep.",
        "Add `at-least`, `at-most`, `more-than`, `less-than` or `is`.",
    );
    required(
        "{fact: pool.depth, at-least: 2 m, at-most: 1 m}",
        "contradiction",
        "{fact: pool.depth, at-least: 2 m, at-most: 1 m}",
        "Nothing can keep all of these limits at once.",
        "Is one of them the wrong way round?",
    );
    required(
        "{fact: pool.depth, at-most: 1 m, distance: {from: pool.water, to: lot-line}}",
        "two-requirements",
        "distance",
        "`fact` and `distance` are two requirements in one.",
        "Make a list of them: `[{fact: pool.depth, at-most: 1 m}, {distance: {from: pool.water, to: lot-line}}]`.",
    );
}

#[test]
fn tables_with_gaps() {
    let table = |rows: &str| {
        format!(
            "{{distance: {{from: pool.water, to: lot-line}}, at-least: {{table: {{by: lot.width-at-front, rows: [{rows}]}}}}}}"
        )
    };
    let under = "{by: lot.width-at-front, rows: [{less-than: 40 ft, then: 4 ft}, {more-than: 40 ft, then: 5 ft}]}";
    required(
        &table("{less-than: 40 ft, then: 4 ft}, {more-than: 40 ft, then: 5 ft}"),
        "table-gap",
        under,
        "Exactly 40 ft is in no row of this table.",
        "Make a row for it, or add a last row `otherwise: …`.",
    );
    required(
        &table("{otherwise: 3 m}, {less-than: 40 ft, then: 4 ft}"),
        "row-after-otherwise",
        "{less-than: 40 ft, then: 4 ft}",
        "This row can never apply: `otherwise` stands before it.",
        "Put the `otherwise` row last.",
    );
    required(
        "{table: {rows: [{when: {fact: pool.founded, is: yes}, then: refer}]}}",
        "no-otherwise",
        "{rows: [{when: {fact: pool.founded, is: yes}, then: refer}]}",
        "Nothing says what holds where no row applies.",
        "Add a last row `otherwise: …`; `otherwise: refer` leaves it to the authority.",
    );
    required(
        "{table: {by: pool.construction, rows: [{is: [in-ground, spa], then: refer}, {is: portable, then: {fact: pool.depth, at-most: 1 m}}]}}",
        "table-gap",
        "{by: pool.construction, rows: [{is: [in-ground, spa], then: refer}, {is: portable, then: {fact: pool.depth, at-most: 1 m}}]}",
        "`on-ground` and `above-ground` are in no row of this table.",
        "Make a row for it, or add a last row `otherwise: …`.",
    );
}

#[test]
fn empty_selections_and_none() {
    required(
        "{any-of: [{each: gate, require: {fact: gate.self-closing, is: yes}}, refer]}",
        "if-none-missing",
        "{each: gate, require: {fact: gate.self-closing, is: yes}}",
        "What does it mean here if there is none of these?",
        "Inside `any-of`, `count` and `not` this must be said: add `if-none: passes`, `if-none: fails` or `if-none: refer`.",
    );
    in_rule(
        "each: gate\n    require: {not: {fact: gate.latch-side, is: outside}}",
        "not-of-none",
        "{fact: gate.latch-side, is: outside}",
        "`gate.latch-side` can be `none`, and nothing says whether this holds then.",
        "In place of the whole `not`, write `[{not: {fact: gate.latch-side, is: none}}, {not: …}]` if there must be one, or `{any-of: [{fact: gate.latch-side, is: none}, {not: …}]}` if none will do as well.",
    );
    required(
        "{fact: pool.volume, is: none}",
        "never-none",
        "none",
        "`pool.volume` always has a value; it is never `none`.",
        "Take `none` out, and say what the value must be.",
    );
}

#[test]
fn rings_and_doubles() {
    one(
        "terms: {one-term: {product: [2, other-term]}, other-term: {product: [2, one-term]}}\n",
        "term-cycle",
        "one-term",
        "The term `one-term` is defined by itself.",
        "Write what `one-term` stands for, such as `pool.water` or `3 m`.",
    );
    let twice = rule("require: refer") + &rule("require: refer").replace("rules:\n", "");
    one(
        &twice,
        "duplicate-id",
        "one",
        "There are two rules `one`.",
        "Give each an id of its own.",
    );
    one(
        "terms: {gate: 3 m}\n",
        "name-taken",
        "gate",
        "`gate` is a kind of thing already, so it cannot be a term.",
        "Give the term another name.",
    );
    one(
        "rules:\n  - id: one\n    title: One\n    require: refer\n",
        "missing-key",
        "id",
        "A rule needs the key `clause`, which is not written.",
        "Write it beside its other keys, as in `clause: 4.2`: its place in the authority's text.",
    );
    one(
        "builds-on: [model]\n",
        "unknown-base",
        "model",
        "There is no rule set `model` to build on.",
        "Give its file along with this one, or see with `siting rules list` how it is spelt.",
    );
}

#[test]
fn all_faults_of_a_file_in_one_run() {
    let body = rule("require: {fact: pool.dept, at-most: 2 m}")
        + "documents:\n  - {id: Paper, title: Paper}\nterms: {t: {distance: {from: pool.water, to: building}}}\n";
    let files = check(&body).unwrap_err();
    let codes: Vec<_> = files[0]
        .faults
        .sorted()
        .iter()
        .map(|fault| fault.code.word())
        .collect();
    assert_eq!(codes, ["unknown-fact", "bad-id", "which-outline"]);
}
