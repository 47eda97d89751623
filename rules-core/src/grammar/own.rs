//! A rule file's own vocabulary: questions, kinds, facts and outlines.

use super::Syntax::{
    Amount, AnyOf, List, Map, Meanings, Named, ShortName, Text, Told, Words, YesNo,
};
use super::{CITED, ID, Key, Keys, Tie, keys, may, need};

/// The types of answer, besides a list of words.
pub(crate) const ANSWERS: [(&str, &str); 14] = [
    ("yes-no", "Yes or no."),
    ("length", "Such as `3 m`."),
    ("area", "Such as `32 m2`."),
    ("volume", "Such as `45 m3`."),
    ("voltage", "Such as `15 kV`."),
    ("angle", "Such as `12 deg`."),
    ("sound", "Such as `45 dB(A)`."),
    ("flow", "Such as `2 l/s`."),
    ("power", "Such as `1 kW`."),
    ("mass", "Such as `40 kg`."),
    ("load", "Such as `220 kg/m2`."),
    ("days", "Such as `14 days` or `2 months`."),
    ("date", "Such as `2026-03-01`."),
    ("number", "Such as `4` or `40 %`."),
];

/// The keys of a rule set's own fact.
pub(crate) const ANSWER: [Key; 9] = [
    need("ask", Told).says("The question that asks for it."),
    may("how", Told).says("How it is measured or where it is found."),
    need("answer", AnyOf(&[Meanings(&ANSWERS), List(&Text, 1)]))
        .says("What can be answered: a list of words, or a word such as `yes-no` or `length`."),
    may("least", Amount(None)).says("The least that is possible."),
    may("most", Amount(None)).says("The most that is possible."),
    may("open", YesNo).says("Whether other words are possible too."),
    may("matter", Named("matter")).says("The matter to which it belongs."),
    may("varies", YesNo).says("Whether it may vary along the thing."),
    may("none", YesNo).says("Whether `none` is an answer."),
];

/// A question that only the applicant can answer.
pub(crate) const QUESTION: Keys<3> = keys([
    ID,
    may("said", Told).says("Its name in a sentence, without an article."),
    CITED,
])
.called("a question")
.or_as_people_say(&[
    ("question", "ask"),
    ("text", "ask"),
    ("title", "ask"),
    ("max", "most"),
    ("maximum", "most"),
    ("at-most", "most"),
    ("min", "least"),
    ("minimum", "least"),
    ("at-least", "least"),
    ("help", "how"),
    ("hint", "how"),
    ("type", "answer"),
])
.with(&[&ANSWER])
.example("{id: corner-lot, ask: Is it a corner lot?, answer: yes-no}");

pub(crate) const OWN_FACT: Keys<2> = keys([
    ID,
    need("said", Told).says("Its name in a sentence, without an article."),
])
.called("a fact")
.with(&[&ANSWER])
.example("{id: weight, said: weight, ask: How heavy is it?, answer: mass}");

pub(crate) const SHAPES: [&str; 3] = ["point", "line", "area"];

pub(crate) const OWN_OUTLINE: Keys<5> = keys([
    ID,
    need("said", Told).says("Its name in a sentence, with the article."),
    need("shape", Words(&SHAPES)),
    may("none", YesNo).says("Whether a thing may be without it."),
    may("like", Text).says(
        "Another outline: this one is drawn like it and is as high, by facts of the same names.",
    ),
])
.called("an outline")
.example("{id: foot, said: its foot, shape: area}");

/// How many things of a kind there can be.
pub(crate) const NUMBERS: [&str; 3] = ["one", "at-most-one", "many"];

/// The keys of a new kind; the program's own kinds have these already.
pub(crate) const NEW_KIND: [Key; 4] = [
    may("said", Told).says("Its name in a sentence, with the article."),
    may("ask", Told).says("The question that finds out whether there is any."),
    may("number", Words(&NUMBERS)).says("How many there can be."),
    may("matter", Named("matter")).says("The matter to which it belongs."),
];

/// A kind, or what is added to one.
pub(crate) const OWN_KIND: Keys<4> = keys([
    need("id", ShortName)
        .says("Its name in plans and rules; the name of a kind that is there already adds to that kind."),
    may("like", ShortName)
        .says("Another kind: a form asks for this one beside it, and the two belong to the same owner."),
    may("outlines", List(&Map(&OWN_OUTLINE), 0)),
    may("facts", List(&Named("own-fact"), 0)),
])
.called("a kind")
.with(&[&NEW_KIND])
.tied(&[Tie::Some(&[&["outlines"], &["facts"], &["said", "ask"]])])
.example("{id: mast, said: a mast, ask: Does a mast stand on the lot?, outlines: [{id: foot, said: its foot, shape: point}]}");
