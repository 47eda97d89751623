//! A plan, and a file of cases.

use super::Syntax::{
    self, Any, AnyOf, Choice, Each, List, Map, Meanings, Named, OneOrMore, OrNothing, PlanId, Says,
    ShortName, Text, Words,
};
use super::{DAY, Key, Keys, OUTCOMES, keys, may, need};

const LENGTH: Syntax = Named("length");
const POINT: Syntax = Named("point");
const PLAN_ITSELF: Syntax = Named("plan");
const WHEREABOUT: Syntax = Named("whereabouts");

/// The units in which lengths are written.
pub(crate) const UNITS: [&str; 6] = ["m", "mm", "cm", "ft", "in", "yd"];

/// The state of a document; it may differ from thing to thing.
pub(crate) const DOCUMENT_STATES: [&str; 3] = ["in-hand", "not-yet", "refused"];

const STATE: Syntax = Words(&DOCUMENT_STATES);

/// The top of a plan. Each kind of which there is exactly one has a key of its own as well.
pub(crate) const PLAN: Keys<13> = keys([
    need("plan", PlanId).says("A short name for this plan."),
    need("title", Text).says("What the plan shows, in words."),
    may("rules", OneOrMore(&ShortName)).says("The rule sets that it is made for."),
    may("unit", Words(&UNITS)).says("The unit of lengths that are written without one."),
    may("north", Named("angle")).says("How far north is turned from the y axis, clockwise."),
    may("sources", OrNothing(&List(&Named("source"), 0)))
        .says("Where the places of things come from, and how good they are."),
    may("things", OrNothing(&List(&Named("thing"), 0)))
        .says("Everything that stands, runs or grows on the lot and near it."),
    need("lot", Named("thing-lot")),
    need(
        "pool",
        AnyOf(&[Named("thing-pool"), List(&Named("thing-pool"), 1)]),
    )
    .says("The pool, or a list of pools."),
    may("inventory", OrNothing(&Named("inventory"))),
    may("measured", OrNothing(&List(&Named("tape"), 0)))
        .says("Distances read from a tape between two things."),
    may(
        "documents",
        OrNothing(&Each(&AnyOf(&[
            STATE,
            Says(
                "For each thing by its id, where there is a document for each.",
                &Each(&STATE),
            ),
        ]))),
    )
    .says("The state of the documents that the rules ask for."),
    may("answered", OrNothing(&Named("answered"))).says(
        "Matters that the rules may leave to others, each with the answer of somebody who knows.",
    ),
])
.called("a plan");

/// Somebody's answer on a matter that the rules leave to others.
pub(crate) const ANSWER_GIVEN: Keys<3> = keys([
    need("by", Text).says("Who said it."),
    need("on", DAY).says("On which day."),
    may("says", Text).says("What they said."),
])
.called("an answer")
.example("{says: Nothing in the way., by: The road office, on: 2026-03-01}");

/// What a source can be.
pub(crate) const SOURCES: [(&str, &str); 9] = [
    ("survey", "A surveyor's plan, by the marks in the ground."),
    ("plat", "The plan by which the land was divided."),
    ("deed", "The words of the deed."),
    (
        "map",
        "A town's or utility's map, or a picture from the air.",
    ),
    ("fence", "A fence, hedge or wall taken as the line."),
    ("guess", "Somebody's guess."),
    ("design", "What is to be built, as designed."),
    ("tape", "Measured with a tape."),
    (
        "designated",
        "Named by the owner where the rules leave it to the owner.",
    ),
];

pub(crate) const PLAN_SOURCE: Keys<4> = keys([
    need("id", PlanId).says("A short name, by which things name this source."),
    need("by", Meanings(&SOURCES)).says("What it is."),
    may("accuracy", WHEREABOUT).says("How far off a place from it may be."),
    may("shift", WHEREABOUT).says("How far everything from it may be shifted together."),
])
.called("a source")
.example("{id: deed-map, by: map, accuracy: 500 mm}");

const END: &str = "A thing and one of its outlines, such as `house.wall`.";

pub(crate) const TAPE: Keys<3> = keys([
    need("from", Text).says(END),
    need("to", Text).says(END),
    need("is", LENGTH).says("What the tape said, such as `13.45 m ± 60 mm`."),
])
.called("a tape reading")
.example("{from: pool.water, to: house.wall, is: 13.45 m ± 60 mm}");

/// How far something was looked for.
pub(crate) const LOOKED: [(&str, &str); 3] = [
    ("none", "There is none."),
    ("all-shown", "Every one of them is in this plan."),
    ("not-checked", "Nobody has looked yet."),
];

pub(crate) const ALL_SHOWN: Keys<1> = keys([need("all-shown", Map(&SHOWN))])
    .called("an inventory entry")
    .example("{all-shown: {within: 10 m}}");
pub(crate) const SHOWN: Keys<1> =
    keys([need("within", LENGTH).says("How far beyond the lot.")]).called("`all-shown`");

// What things have besides their facts and outlines.

const ID: Key = need("id", PlanId).says("A short name of its own.");
const NAME: Key = may("name", Text).says("What people call it, in any words.");

pub(crate) const THING: Keys<4> = keys([
    may("kind", ShortName),
    ID,
    NAME,
    may("part-of", Text)
        .says("The id of the thing that it is a part of; `none` if it is part of nothing."),
])
.called("a thing");

/// Where the place of a thing comes from.
pub(crate) const PLACED: [Key; 2] = [
    may("source", Text).says("Where its place comes from: the id of one of the `sources`."),
    may("accuracy", WHEREABOUT).says("How far off its drawn places may be."),
];

pub(crate) const LOT: Keys<2> = keys([
    need("corners", Named("corners")),
    may("sides", List(&Named("thing-lot-line"), 0))
        .says("The lot's sides, each between two corners that follow each other."),
])
.called("a lot");

pub(crate) const LOT_CORNER: Keys<2> = keys([need("at", POINT), may("accuracy", WHEREABOUT)])
    .called("a corner")
    .example("{at: [24, 0], accuracy: 20 mm}");

pub(crate) const SIDE: Keys<4> = keys([
    ID,
    NAME,
    need("from", Text).says("The corner at which it begins."),
    need("to", Text).says("The corner at which it ends."),
])
.called("a side of the lot")
.example("{id: front, from: a, to: b}");

/// What a fact may still be: one of several answers, or a range along the thing.
pub(crate) const POSSIBLE: Keys<3> =
    keys([may("one-of", Any), may("from", Any), may("to", Any)]).called("a fact");

/// The parts of plans, under the names that other tables use.
pub(crate) const DEFINED: [(&str, Syntax); 4] = [
    ("source", Map(&PLAN_SOURCE)),
    ("tape", Map(&TAPE)),
    (
        "whereabouts",
        AnyOf(&[LENGTH, Choice("unknown", "Nobody knows how far off it is.")]),
    ),
    (
        "looked",
        AnyOf(&[
            Choice(LOOKED[0].0, LOOKED[0].1),
            Choice(LOOKED[1].0, LOOKED[1].1),
            Choice(LOOKED[2].0, LOOKED[2].1),
            Says(
                "Every one within a distance is in this plan.",
                &Map(&ALL_SHOWN),
            ),
        ]),
    ),
];

/// A rule's expected outcome in a case; `unsaid` if the case does not check it.
pub(crate) const EXPECTED: [&str; 7] = {
    let [a, b, c, d, e, f] = OUTCOMES;
    [a, b, c, d, e, f, "unsaid"]
};

pub(crate) const CASES: Keys<2> = keys([
    may("base", PLAN_ITSELF).says("The plan that the cases share."),
    need("cases", List(&Named("case"), 0)),
])
.called("a file of cases");

pub(crate) const CASE: Keys<9> = keys([
    need("case", ShortName).says("A short name."),
    need("title", Text).says("What it shows."),
    may("plan", PLAN_ITSELF).says("A plan of its own, in place of the base."),
    may("change", Named("change")),
    may("without", List(&Text, 0)).says("Things of the base that are left out."),
    may("expect", Each(&Words(&EXPECTED))).says("Rules, and what each must come to."),
    may("decide", Each(&AnyOf(&[Text, List(&Text, 1)])))
        .says("Questions, and the class that each must be decided to be; a list where it must stay open between these."),
    may("all-others", Words(&EXPECTED))
        .says("What all other rules of the file itself must come to."),
    may("verdict", Words(&["does-not-comply", "not-decided", "nothing-against"]))
        .says("What all binding rules together must come to."),
])
.called("a case")
.example("{case: too-near, title: A pool too near to the line, expect: {rear-line: fail}}");
