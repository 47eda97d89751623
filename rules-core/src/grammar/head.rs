//! The top of a rule file, and what it says about itself.

use super::Syntax::{
    self, ByName, List, Map, Meanings, Named, OneOrMore, Open, OrNothing, Pattern, ShortName, Text,
    Told, Words,
};
use super::{DAY, Keys, NOTE, keys, may, need};
use crate::quantity::Weekday;

const LANGUAGE: Syntax = Pattern("^[a-z]{2,3}(-[A-Z]{2})?$", &[]);
const MATTER: Syntax = Named("matter");

/// What sort of rule set a file is.
pub(crate) const SORTS: [&str; 4] = ["place", "code", "topic", "example"];

pub(crate) const RULE_SET: Keys<30> = keys([
    need("ruleset", ShortName)
        .says("The short name of this rule set, in small letters and hyphens."),
    need("title", Told).says("Its title."),
    need("edition", Told).says("Your name for this version, such as `2026-01`."),
    need("authority", Told).says("Who decides, and whom the applicant may ask."),
    may("notice", Told).says("What every report says besides its findings."),
    may("in-force", Named("in-force")),
    may("earlier", ShortName).says(
        "The edition before this one, which holds for plans that this one does not govern yet.",
    ),
    may("builds-on", OneOrMore(&ShortName))
        .says("The rule sets under this one, whose rules bind too."),
    may("scope", Named("scope")),
    may("sources", OrNothing(&ByName(&Named("source"))))
        .says("Where its values were read, each under a short name."),
    may("calendar", Named("calendar")),
    may("kinds", OrNothing(&List(&Named("own-kind"), 0)))
        .says("Kinds of things, and facts of them, that the program does not know by itself."),
    may("questions", OrNothing(&List(&Named("question"), 0)))
        .says("What only the applicant can answer."),
    may("terms", OrNothing(&ByName(&Named("term")))).says("What is named once and used by name."),
    may("rules", OrNothing(&List(&Named("entry"), 0)))
        .says("The rules, and the edits of rules of files under this one."),
    may("documents", OrNothing(&List(&Named("document"), 0)))
        .says("What an application must hold."),
    may("decide", OrNothing(&List(&Named("decision"), 0)))
        .says("Questions with a class as the answer."),
    may("do", OrNothing(&List(&Named("duty"), 0))).says("What must be done, and when."),
    may("cautions", OrNothing(&List(&Named("caution"), 0))).says("Warnings for those who build."),
    may(
        "interpretations",
        OrNothing(&List(&Named("interpretation"), 0)),
    )
    .says("How the authority reads a clause, by whom and since when."),
    may("cases", List(&Open(&["case", "title"]), 0))
        .says("Small example plans with the outcomes that the rules must give."),
    may("place", Told).says("The place whose rules they are."),
    may("country", Told).says("The country of that place."),
    may("finding-the-authority", Told).says("How to find out which authority serves an address."),
    may("costs", Told).says("What the permit costs."),
    may("lasts", Told).says("How long the permit lasts."),
    may("sort", Words(&SORTS)).says("What sort of rule set it is."),
    may("belongs-with", OneOrMore(&ShortName)).says("Rule sets that belong with this one."),
    may("language", LANGUAGE).says(
        "The language of texts given in one language only, such as `nb`; English by default.",
    ),
    may("format", Pattern("^[0-9]+$", &["2"]))
        .says("The format for which the file was written: `siting rules check` says which lines mean something else since."),
])
.called("a rule set")
.or_as_people_say(&[
    ("name", "ruleset"),
    ("id", "ruleset"),
    ("version", "edition"),
    ("year", "edition"),
    ("date", "edition"),
    ("office", "authority"),
    ("town", "authority"),
    ("municipality", "authority"),
    ("disclaimer", "notice"),
    ("valid", "in-force"),
    ("effective", "in-force"),
    ("based-on", "builds-on"),
    ("extends", "builds-on"),
    ("definitions", "terms"),
    ("papers", "documents"),
    ("forms", "documents"),
    ("decisions", "decide"),
    ("duties", "do"),
    ("steps", "do"),
    ("warnings", "cautions"),
    ("examples", "cases"),
    ("tests", "cases"),
])
.refusing(&["base"]);

pub(crate) const SCOPE: Keys<3> = keys([
    may("holds", OneOrMore(&MATTER)).says("The matters that these rules cover."),
    may("leaves-out", List(&Map(&LEFT_OUT), 0)).says("The matters that they leave to others."),
    may("on-top", List(&Told, 0)).says("What always applies on top of them."),
])
.called("a scope")
.says("Which matters these rules cover, and which they leave to others: each matter once.")
.example("{holds: barrier, on-top: [What the deed of the lot says.]}");

pub(crate) const LEFT_OUT: Keys<3> = keys([
    need("matter", MATTER),
    need("ask", Told).says("Who knows it."),
    may("why", Told).says("Why it is left out."),
])
.called("a matter that is left out")
.example("{matter: noise, ask: The noise office}");

/// How reliable a source is, best first.
pub(crate) const GRADES: [(&str, &str); 6] = [
    ("law", "The law itself, where the state publishes it."),
    ("authority", "A page of the authority that applies it."),
    ("copy", "A copy of the law's text by somebody else."),
    ("restatement", "The law in somebody else's words."),
    ("trade", "What the trade says."),
    ("memory", "Nobody looked it up."),
];

pub(crate) const SOURCE: Keys<6> = keys([
    need("title", Told).says("What it is called."),
    may("at", Text).says("Its address."),
    need("grade", Meanings(&GRADES)).says("How reliable it is."),
    may("read", DAY).says("The day on which it was read."),
    may("again", DAY).says("The day after which it must be read again."),
    NOTE,
])
.called("a source")
.example("{title: Bylaw 12 of Hazelbrook, grade: law, read: 2026-03-01}");

pub(crate) const CITATION: Keys<3> = keys([
    need("id", ShortName).says("The source."),
    may("clause", Told).says("The place in it."),
    may("value", Told).says("The value found there, if it is only part of the rule."),
])
.called("the name of a source, or a source with the place in it,")
.example("{id: bylaw, clause: 4.2}");

const WEEKDAYS: [&str; 7] = {
    let [a, b, c, d, e, f, g] = Weekday::ALL;
    [a.0, b.0, c.0, d.0, e.0, f.0, g.0]
};
const WEEKDAY: Syntax = Words(&WEEKDAYS);

const HOLIDAY: Syntax = Pattern(
    r"^\s*(\d{4}-\d{2}-\d{2}|\d{2}-\d{2}|easter\s*([+-]?\d+)?|[a-z]+\s+from\s+\d{2}-\d{2})\s*$",
    &["12-25", "easter+1", "monday from 09-01", "2026-05-15"],
);

pub(crate) const CALENDAR: Keys<4> = keys([
    may("name", Told)
        .says("What the holidays are called, such as `the public holidays of Norway`."),
    may("weekend", OneOrMore(&WEEKDAY)).says("The days of the week on which nobody works."),
    may("holidays", List(&HOLIDAY, 0)).says("The holidays."),
    may("moved", Map(&MOVED)).says(
        "If a holiday on a fixed date falls on the first of these days, the second is free, too.",
    ),
])
.called("a calendar")
.says("By which calendar working days are counted.")
.example("{weekend: [saturday, sunday], holidays: [01-01, easter+1, 12-25]}");

/// A key for each day of the week, in their order.
pub(crate) const MOVED: Keys<7> = keys([
    may(WEEKDAYS[0], WEEKDAY),
    may(WEEKDAYS[1], WEEKDAY),
    may(WEEKDAYS[2], WEEKDAY),
    may(WEEKDAYS[3], WEEKDAY),
    may(WEEKDAYS[4], WEEKDAY),
    may(WEEKDAYS[5], WEEKDAY),
    may(WEEKDAYS[6], WEEKDAY),
])
.called("days to which holidays are moved")
.example("{saturday: monday, sunday: monday}");
