//! Random rule files as text, made from the vocabulary: well formed, though not all of them make sense. Also the same
//! file written differently, or with one thing spoilt.

mod change;
mod requirement;
mod respell;
mod spoil;

use std::fmt::Write as _;

use rules_core::vocabulary::{KindId, Number, Vocabulary};

use crate::random_plans::Random;
use requirement::Maker;

pub use change::changed;
pub use respell::{Spelling, respelled};
pub use spoil::spoilt;

/// Kinds that random plans draw, which most rules should be about.
const DRAWN: [&str; 8] = [
    "building",
    "overhead-line",
    "buried-service",
    "barrier-stretch",
    "gate",
    "well",
    "lot-line",
    "pool",
];

/// The text of a random rule file of one to four rules.
pub fn rule_set(seed: u64, vocabulary: &Vocabulary) -> String {
    let mut random = Random::new(seed);
    let mut text =
        format!("ruleset: random\ntitle: Random rules {seed}\nedition: \"1\"\nauthority: nobody\n");
    if random.once_in(4) {
        text += "in-force: {from: 2022-05-01, by: applied}\n";
    }
    text += "questions: [{id: asked, ask: Is it so?, answer: yes-no}, {id: much, ask: How much?, answer: length, least: 0 m, none: yes}]\n";
    text += "documents: [{id: letter, title: A letter, from: somebody}]\n";
    text += &terms(&mut random, vocabulary);
    text += "rules:\n";
    for index in 0..random.within(1, 4) {
        let rule = rule(&mut random, vocabulary, index);
        let _ = writeln!(text, "  - {{{rule}}}");
    }
    if random.once_in(3) {
        let mut maker = Maker::new(&mut random, vocabulary);
        let condition = maker.condition();
        let _ = writeln!(
            text,
            "decide:\n  - {{id: class, table: {{rows: [{{when: {condition}, then: one}}, {{otherwise: other}}]}}}}"
        );
    }
    text
}

fn terms(random: &mut Random, vocabulary: &Vocabulary) -> String {
    let mut maker = Maker::new(random, vocabulary);
    let edge = maker
        .random
        .pick(&["pool.water", "pool.coping", "[pool.shell, pool.excavation]"]);
    let condition = maker.condition();
    let length = maker.length();
    format!("terms:\n  edge: {edge}\n  small: {length}\n  holds: {{all-of: [{condition}]}}\n")
}

fn rule(random: &mut Random, vocabulary: &Vocabulary, index: i64) -> String {
    let each = (!random.once_in(3))
        .then(|| some_kind(random, vocabulary))
        .flatten();
    let mut maker = Maker::new(random, vocabulary);
    let mut rule = format!("id: rule-{index}, title: Rule {index}, clause: S {index}");
    if maker.random.once_in(4) {
        let key = maker.random.pick(&["when", "unless"]);
        let condition = maker.condition();
        let _ = write!(rule, ", {key}: {condition}");
    }
    if let Some(kind) = each {
        let _ = write!(rule, ", each: {}", vocabulary.kind(kind).name);
        maker.bound.push(kind);
        if maker.random.once_in(3)
            && let Some(filter) = maker.own_fact(kind)
        {
            let _ = write!(rule, ", where: {filter}");
        }
    }
    let key = if maker.random.once_in(6) {
        "should"
    } else {
        "require"
    };
    let requirement = maker.requirement(3);
    let _ = write!(rule, ", {key}: {requirement}");
    if maker.random.once_in(3) {
        let (leave, other) = (maker.random.pick(&["yes", "no"]), maker.requirement(1));
        let _ = write!(
            rule,
            ", relief: [{{id: other, leave: {leave}, require: {other}}}]"
        );
    }
    rule
}

/// A kind that can have several things: mostly one that plans draw.
fn some_kind(random: &mut Random, vocabulary: &Vocabulary) -> Option<KindId> {
    if !random.once_in(3) {
        return vocabulary.kind_named(random.pick(&DRAWN));
    }
    let many = vocabulary
        .kinds()
        .filter(|(_, kind)| kind.number == Number::Many);
    let many: Vec<_> = many.map(|(id, _)| id).collect();
    let last = i64::try_from(many.len()).ok()? - 1;
    many.get(usize::try_from(random.within(0, last)).ok()?)
        .copied()
}
