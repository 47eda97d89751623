//! Rules, and a file's changes to the rules and terms of files under it.

use super::Syntax::{
    self, Amount, AnyOf, List, Map, Meanings, Named, OneOrMore, Open, ShortName, Text, Told, Words,
    YesNo,
};
use super::things::{IF_NONE_KEY, IN, PART_OF, REQUIREMENT, THINGS, WHERE};
use super::{
    CALENDAR, CAUTION, CITATION, CITED, DAY, DECISION, DOCUMENT, DUTY, ID, INTERPRETATION, Key,
    Keys, NOTE, OWN_FACT, OWN_KIND, QUESTION, RULE_SET, SCOPE, SOURCE, Tie, keys, may, need,
};
use crate::quantity::Dimension;

const IN_FORCE: Syntax = Named("in-force");
const RELIEF: Syntax = Named("relief");

/// Whether a rule binds.
pub(crate) const STRENGTHS: [&str; 2] = ["must", "should"];

/// How well the values of a rule are known.
pub(crate) const PROVENANCE: [(&str, &str); 3] = [
    ("confirmed", "Somebody compared them with the text."),
    ("from-memory", "Nobody has yet."),
    ("contradicted", "Sources differ."),
];

/// How a file above may change a rule.
pub(crate) const CHANGES: [(&str, &str); 3] = [
    ("minimum", "It may be made stricter only."),
    ("default", "It may be changed in any way."),
    ("ceiling", "It may be made laxer only."),
];

pub(crate) const RULE: Keys<24> = keys([
    ID,
    need("title", Told).says("What it is about, in a few words."),
    need("clause", Told).says("Its place in the authority's text."),
    may("when", REQUIREMENT).says("It applies when this holds of the plan."),
    may("unless", REQUIREMENT).says("It does not apply when this holds of the plan."),
    may("each", THINGS).says("It is judged for each of these."),
    PART_OF,
    WHERE,
    IN,
    IF_NONE_KEY,
    may("require", REQUIREMENT).says("What must hold."),
    may("should", REQUIREMENT).says("What ought to hold: reported, but it binds nobody."),
    may("strength", Words(&STRENGTHS)).says("Whether it binds."),
    may("relief", List(&RELIEF, 0))
        .says("Exceptions: other ways to meet the rule."),
    may("remedy", Told).says("What the applicant can do where it fails."),
    may("documents", OneOrMore(&Text)).says("Documents that it calls for."),
    may("provenance", Meanings(&PROVENANCE)).says("How well its values are known."),
    CITED,
    may("again", DAY).says("The day after which it must be compared with its sources again."),
    NOTE,
    may("in-force", IN_FORCE),
    may("replaces", Text).says("The rule of a file under this one that it replaces."),
    may("tightens", Text).says("The rule of a file under this one that it is stricter than."),
    may("changes", Meanings(&CHANGES)).says("How a file above this one may change it."),
])
.called("a rule")
.or_as_people_say(&[
    ("if", "when"),
    ("where-not", "unless"),
    ("except", "unless"),
    ("except", "relief"),
    ("except-when", "unless"),
    ("then", "require"),
    ("must", "require"),
    ("shall", "require"),
    ("must-be", "require"),
    ("limit", "require"),
    ("for", "each"),
    ("for-each", "each"),
    ("of", "each"),
    ("to", "each"),
    ("exception", "relief"),
    ("exceptions", "relief"),
    ("or-else", "relief"),
    ("or", "relief"),
    ("name", "title"),
    ("text", "title"),
    ("description", "title"),
    ("section", "clause"),
    ("article", "clause"),
    ("paragraph", "clause"),
    ("cite", "clause"),
    ("comment", "note"),
    ("remark", "note"),
    ("fix", "remedy"),
    ("advice", "should"),
    ("document", "documents"),
    ("valid", "in-force"),
    ("effective", "in-force"),
    ("overrides", "replaces"),
    ("supersedes", "replaces"),
    ("instead-of", "replaces"),
    ("papers", "documents"),
])
.refusing(&["expect", "recommended", "advisory"])
.tied(&[
    Tie::One(&[&["require"], &["should"]]),
    Tie::Needs("where", "each"),
    Tie::Needs("in", "each"),
    Tie::Needs("if-none", "each"),
])
.example("{id: rear-line, title: Distance from the rear line, clause: 4.2, require: {distance: {from: pool.water, to: lot-line}, at-least: 2 m}}");

pub(crate) const RELIEF_KEYS: Keys<5> = keys([
    ID,
    may("when", REQUIREMENT).says("It is open when this holds."),
    may("unless", REQUIREMENT).says("It is not open when this holds."),
    need("require", REQUIREMENT).says("What must hold instead."),
    may("leave", YesNo).says("Whether the authority is free to refuse."),
])
.called("a relief")
.example("{id: by-leave, require: {have: consent}, leave: yes}");

pub(crate) const IN_FORCE_KEYS: Keys<5> = keys([
    may("from", DAY).says("The first day."),
    may("to", DAY).says("The last day."),
    may("or-when", REQUIREMENT).says("Also where this holds, whatever the day."),
    may("unless", REQUIREMENT).says("Not where this holds, whatever the day."),
    need("by", Named("day-name")).says("Which day of the application decides."),
])
.called("a time in force")
.or_as_people_say(&[
    ("since", "from"),
    ("start", "from"),
    ("starting", "from"),
    ("after", "from"),
    ("until", "to"),
    ("till", "to"),
    ("end", "to"),
    ("through", "to"),
    ("before", "to"),
    ("day", "by"),
    ("date", "by"),
    ("decided-by", "by"),
])
.says("When it is in force.")
.example("{from: 2026-01-01, by: applied}");

const WHEN: Key = may("when", REQUIREMENT).says("Only where this holds.");
const CLAUSE: Key = may("clause", Text);
const EDIT_NOTE: Key = may("note", Text);

/// Withdraws a rule of a file under this one, or a part of it.
pub(crate) const WITHDRAWAL: Keys<4> = keys([
    need("withdraws", Text).says("The rule that goes, or a part of it: `rule/part`."),
    WHEN,
    CLAUSE,
    EDIT_NOTE,
])
.called("an edit")
.example("{withdraws: rear-line, clause: B.1}");

pub(crate) const ADDITION: Keys<4> = keys([
    need("adds-to", Text).says("The rule that gets one more relief."),
    need("relief", AnyOf(&[RELIEF, List(&RELIEF, 1)])),
    CLAUSE,
    EDIT_NOTE,
])
.called("an edit")
.example("{adds-to: rear-line, relief: {id: by-leave, require: {have: consent}}}");

pub(crate) const PART_REPLACED: Keys<5> = keys([
    need("replaces", Text).says("The part that changes: `rule/part`."),
    need("with", Open(&[])),
    WHEN,
    CLAUSE,
    EDIT_NOTE,
])
.called("an edit")
.example("{replaces: rear-line/by-leave, with: {id: by-leave, require: {have: letter}}}");

/// Changes or withdraws a term of a file under this one.
pub(crate) const TERM_EDIT: Keys<6> = keys([
    may("replaces", Text).says("The term of a file under this one that changes."),
    may("withdraws", Text).says("The term of a file under this one that goes."),
    may("with", Named("term")),
    WHEN,
    CLAUSE,
    EDIT_NOTE,
])
.called("an edit")
.tied(&[Tie::Needs("replaces", "with")])
.example("{replaces: rear-distance, with: 3 m}");

/// A term with its sources.
pub(crate) const SOURCED_TERM: Keys<2> = keys([
    need("means", Named("term")).says("What it stands for."),
    CITED,
])
.called("a term")
.example("{means: 3 m, source: bylaw}");

/// The parts of rule files, under the names that other tables use.
pub(crate) const RULE_FILE: [(&str, Syntax); 17] = [
    ("rule-set", Map(&RULE_SET)),
    ("rule", Map(&RULE)),
    ("relief", Map(&RELIEF_KEYS)),
    ("in-force", Map(&IN_FORCE_KEYS)),
    ("scope", Map(&SCOPE)),
    ("source", Map(&SOURCE)),
    ("citation", AnyOf(&[ShortName, Map(&CITATION)])),
    ("calendar", Map(&CALENDAR)),
    ("document", Map(&DOCUMENT)),
    ("decision", Map(&DECISION)),
    ("duty", Map(&DUTY)),
    ("caution", Map(&CAUTION)),
    ("interpretation", Map(&INTERPRETATION)),
    ("question", Map(&QUESTION)),
    ("own-kind", Map(&OWN_KIND)),
    ("own-fact", Map(&OWN_FACT)),
    ("span", Amount(Some(Dimension::Days))),
];
