//! Who applies, for what, and when.

use super::row::{FactRow, KindRow, date, facts, one_of, such_as, yes_no};
use crate::vocabulary::{Matter, Number, Part, Role};

pub(super) const KINDS: &[KindRow] = &[
    KindRow {
        name: "applicant",
        said: "the applicant",
        matter: Some(Matter::Papers),
        number: Number::One,
        ask: "Who applies?",
        outlines: &[],
        facts: APPLICANT,
        part: Part::Where,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "works",
        said: "the works",
        matter: Some(Matter::Papers),
        number: Number::One,
        ask: "What is to be built?",
        outlines: &[],
        facts: WORKS,
        part: Part::Where,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "events",
        said: "the days on which something happens",
        matter: None,
        number: Number::One,
        ask: "Which days are known?",
        outlines: &[],
        facts: EVENTS,
        role: Some(Role::Events),
        part: Part::Where,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "answers",
        said: "the answers to the rule set's own questions",
        matter: None,
        number: Number::One,
        ask: "What does the rule set itself ask?",
        outlines: &[],
        facts: &[],
        role: Some(Role::Answers),
        part: Part::Questions,
        ..KindRow::PLAIN
    },
];

const APPLICANT: &[FactRow] = facts! {
    "role", "role of the applicant", one_of(&["owner-occupier", "owner", "tenant", "licensed-contractor", "designer", "agent"]);
        "Who signs the application?", "Say in which role the person signs; a tenant or an agent may need the owner's authority in writing.";
};

const WORKS: &[FactRow] = facts! {
    "class", "class of the works", such_as(&["1", "2", "3"]);
        "Into which class of difficulty do the works fall?", "Ask the office or the designer, who classes the works by the authority's own list.";
    "already-built", "whether it is built already", yes_no();
        "Is it built already?", "Say yes if any of it that needs a permit stands or was begun.";
};

const EVENTS: &[FactRow] = facts! {
    "applied", "day of the application", date().or_none();
        "On which day was, or will, the application be handed in?", "It is the day on the office's receipt.";
    "complete", "day on which the application was complete", date().or_none();
        "On which day did the office find the application complete?", "Look in the office's letter.";
    "permit-issued", "day on which the permit was issued", date().or_none();
        "On which day was the permit issued?", "Look at the permit.";
    "works-started", "day on which the works started", date().or_none();
        "On which day did, or will, the works start?", "It is the day on which the digging begins.";
    "filled", "day on which the pool was filled", date().or_none();
        "On which day was, or will, the pool be filled?", "It is the day on which the first water is let in.";
    "registered", "day on which the pool was registered", date().or_none();
        "On which day was the pool registered?", "Look at the certificate of registration.";
    "notified", "day on which the neighbours were notified", date().or_none();
        "On which day were the neighbours notified?", "It is the day on the postal receipt, or beside the neighbour's signature.";
    "answered", "day of the last neighbour's answer", date().or_none();
        "On which day did the last neighbour answer?", "It is the day on the letter, or on the office's stamp.";
};
