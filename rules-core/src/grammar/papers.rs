//! Documents, decisions, steps and cautions of a rule file.

use super::Syntax::{
    self, AnyOf, Choice, Map, Named, OneOrMore, Pattern, ShortName, Text, Told, Words, YesNo,
};
use super::things::{IF_NONE_KEY, IN, PART_OF, REQUIREMENT, THINGS, WHERE};
use super::{CITED, DAY, ID, Keys, Tie, keys, may, need};

/// A rule's outcomes, in the report's words.
pub(crate) const OUTCOMES: [&str; 6] = [
    "pass",
    "fail",
    "marginal",
    "unknown",
    "refer",
    "not-applicable",
];

/// When a document is needed.
pub(crate) const NEED: Keys<3> = keys([
    may("when", REQUIREMENT).says("When this holds."),
    may("rule", Text).says("When this rule has one of the outcomes."),
    may("outcome", OneOrMore(&Words(&OUTCOMES))),
])
.called("a need")
.tied(&[Tie::Needs("rule", "outcome"), Tie::Needs("outcome", "rule")])
.example("{rule: rear-line, outcome: [fail, marginal]}");

const NEEDED: Syntax = AnyOf(&[Choice("always", "For every application."), Map(&NEED)]);

/// Documents choose things as other entries do, but have no `if-none`: there is no document for no thing.
pub(crate) const DOCUMENT: Keys<12> = keys([
    ID,
    need("title", Told).says("What it is."),
    may("from", Told).says("Who supplies it."),
    may("form", Told).says("In what form."),
    may("each", THINGS).says("There is one for each of these."),
    PART_OF,
    WHERE,
    IN,
    may("needed", OneOrMore(&NEEDED)).says("When it is needed."),
    may("discretion", YesNo).says("Whether whoever issues it may refuse."),
    may("one-for-all", YesNo)
        .says("Whether one is enough if a rule asks for it for each of some things."),
    CITED,
])
.called("a document")
.example("{id: consent, title: Consent of the neighbour, from: The neighbour, needed: always}");

pub(crate) const DECISION: Keys<10> = keys([
    ID,
    may("title", Told),
    may("clause", Told),
    may("each", THINGS).says("It is decided for each of these."),
    PART_OF,
    WHERE,
    IN,
    IF_NONE_KEY,
    CITED,
    need("table", Named("table")),
])
.called("a decision")
.or_as_people_say(&[("rows", "table"), ("classes", "table")])
.refusing(&["when", "unless", "require", "then"])
.example("{id: route, table: {rows: [{when: {fact: pool.depth, at-most: 1 m}, then: short}, {otherwise: full}]}}");

const STEPS: Syntax = OneOrMore(&Text);
const SPAN: Syntax = Named("span");
/// Only steps are counted in working days.
const WORKING: Syntax = AnyOf(&[
    SPAN,
    Pattern(r"^\s*\d+\s*working days?\s*$", &["3 working days"]),
]);

pub(crate) const DUTY: Keys<12> = keys([
    may("step", ShortName).says("A short name of its own."),
    may("id", ShortName).says("A short name of its own."),
    may("what", Told).says("What must be done."),
    may("who", Told).says("Who does it."),
    may("when", REQUIREMENT).says("Only where this holds."),
    may("before", STEPS).says("What it must be done before."),
    may("after", STEPS).says("What it comes after."),
    may("by", WORKING).says("How long before."),
    may("within", WORKING).says("How soon after."),
    may("takes", WORKING).says("How long it takes."),
    may("every", SPAN).says("How often it recurs."),
    CITED,
])
.called("a duty")
.tied(&[Tie::Some(&[&["id"], &["step"]])])
.example("{step: tell-the-office, before: dig, by: 3 working days}");

/// How the authority reads a clause.
pub(crate) const INTERPRETATION: Keys<6> = keys([
    ID,
    need("of", OneOrMore(&ShortName)).says("The rules whose clause it is about."),
    need("says", Told).says("How the clause is read."),
    need("by", Told).says("Who reads it so."),
    need("since", DAY).says("The day from which it is read so."),
    CITED,
])
.called("an interpretation")
.says("How the authority reads a clause; it is printed with what the rule finds, and changes nothing in it.")
.example("{id: height, of: rear-line, says: The distance is taken to the coping., by: The building office, since: 2026-02-01}");

pub(crate) const CAUTION: Keys<3> = keys([
    ID,
    need("says", Told).says("What it says."),
    may("when", REQUIREMENT).says("Only where this holds."),
])
.called("a caution")
.example("{id: wires, says: Have the wires marked before anybody digs.}");
