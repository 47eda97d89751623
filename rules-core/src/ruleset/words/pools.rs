//! Of what something speaks that stands by itself: of "the pool", of one gate.

use std::collections::BTreeSet;

use crate::ruleset::pieces::{self, Piece};
use crate::ruleset::{Requirement, RuleSet, Which};
use crate::vocabulary::{KindId, Number, Role, Vocabulary};

/// Whether a condition speaks of "the pool", or of what belongs to one.
pub fn of_the_pool(requirement: &Requirement, rules: &RuleSet) -> bool {
    speakers(requirement, rules).pool
}

/// For whom a term holds: `for a pool `, `for a gate `, `for a gate, pool by pool, `; nothing where it speaks of the plan.
pub fn whose_words(requirement: &Requirement, rules: &RuleSet) -> String {
    let found = speakers(requirement, rules);
    let mut things = found.things.iter();
    let thing = things.next().map(|kind| &found.vocabulary.kind(*kind).said);
    match (thing, found.pool) {
        (None, false) => String::new(),
        (None, true) => "for a pool ".to_owned(),
        (Some(thing), false) => format!("for {thing} "),
        (Some(thing), true) => format!("for {thing}, pool by pool, "),
    }
}

fn speakers<'v>(requirement: &Requirement, rules: &'v RuleSet) -> Speakers<'v> {
    let mut found = Speakers {
        vocabulary: &rules.vocabulary,
        pool: false,
        things: BTreeSet::new(),
    };
    pieces::of_requirement(requirement, &mut |piece, chosen| found.note(piece, chosen));
    found
}

struct Speakers<'v> {
    vocabulary: &'v Vocabulary,
    /// Whether it speaks of "the pool".
    pool: bool,
    /// The kinds of which it means one thing each.
    things: BTreeSet<KindId>,
}

impl Speakers<'_> {
    /// Notes the kind that a piece names, unless things of that kind are chosen around it.
    fn note(&mut self, piece: Piece<'_>, chosen: &[KindId]) {
        let (id, one) = match piece {
            Piece::Fact(fact) => (self.vocabulary.fact(fact).kind, true),
            Piece::Outline(part) => {
                let kind = self.vocabulary.outline(part.outline).kind;
                (kind, !matches!(part.which, Which::All(_)))
            }
            Piece::Selection(selection) => {
                let whole = selection.part_of.filter(|whole| !chosen.contains(whole));
                whole.iter().for_each(|kind| self.note_kind(*kind, true));
                (selection.kind, false)
            }
            Piece::Test | Piece::Enclosure(_) | Piece::Paper(_) => return,
        };
        if !chosen.contains(&id) {
            self.note_kind(id, one);
        }
    }

    /// Notes a kind, and whether one thing of it is meant.
    fn note_kind(&mut self, id: KindId, one: bool) {
        let kind = self.vocabulary.kind(id);
        let is_pool = kind.role == Some(Role::Pool);
        self.pool |= kind.of_a_pool || (is_pool && one);
        if one && !is_pool && kind.number == Number::Many {
            self.things.insert(id);
        }
    }
}
