//! How what a value may be stands to what its limit may be.

use super::judge::{Asked, relation};
use super::room::Room;
use super::value::{Val, Way};
use super::{Level, Truth};
use crate::mutant::{self, Mutant};
use crate::plan::Words;
use crate::quantity::{Dimension, Interval, ONE, Relation, in_one_dimension};
use crate::ruleset::{Bound, Choice};

/// What is possible for a value and a bound, and the room that is left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Standing {
    pub(crate) truth: Truth,
    pub(crate) room: Room,
    /// There is surely nothing to measure.
    pub(crate) void: bool,
}

impl Standing {
    fn sure(level: Level) -> Standing {
        let truth = Truth::of(level);
        Standing {
            truth,
            room: Room::of_truth(truth),
            void: false,
        }
    }

    fn of(truth: Truth) -> Standing {
        Standing {
            truth,
            room: Room::of_truth(truth),
            void: false,
        }
    }

    fn void(asked: Asked, relation: Relation) -> Standing {
        match (asked, relation) {
            (Asked::Required, _) => Standing {
                void: true,
                ..Standing::sure(Level::Holds)
            },
            (Asked::Condition, Relation::AtLeast | Relation::MoreThan) => {
                Standing::sure(Level::Holds)
            }
            (Asked::Condition, _) => Standing::sure(Level::Fails),
        }
    }

    fn either(self, other: Standing) -> Standing {
        Standing {
            truth: self.truth.or_else(other.truth),
            room: self.room.either(other.room),
            void: self.void && other.void,
        }
    }
}

/// How a value stands to a bound, whose limit (all but `is` have one) was found before.
pub(crate) fn standing(value: &Val, bound: &Bound, limit: Option<&Val>, asked: Asked) -> Standing {
    let all = match (bound, limit) {
        (Bound::Is(choices), _) => value
            .ways
            .iter()
            .map(|way| among(way, value.dimension, choices, asked))
            .reduce(Standing::either),
        (_, Some(limit)) => {
            let one = |way, other| {
                let (own, others) = ((way, value.dimension), (other, limit.dimension));
                beside(own, others, relation(bound), asked)
            };
            let beside_all = |way| limit.ways.iter().map(move |other| one(way, other));
            value
                .ways
                .iter()
                .flat_map(beside_all)
                .reduce(Standing::either)
        }
        (_, None) => None,
    };
    all.unwrap_or(Standing::of(Truth::OPEN))
}

fn beside(
    (way, own): (&Way, Dimension),
    (limit, others): (&Way, Dimension),
    relation: Relation,
    asked: Asked,
) -> Standing {
    match (way, limit) {
        (Way::Refer, _) | (_, Way::Refer) => Standing::sure(Level::Authority),
        (Way::Empty(Some(said)), _) => Standing::sure(Level::of_if_none(*said)),
        (Way::Empty(None), _) => Standing::void(asked, relation),
        (_, Way::Empty(Some(said))) => Standing::sure(Level::of_if_none(*said)),
        (_, Way::Empty(None)) => Standing::sure(Level::Holds),
        (
            Way::Amount { least, most },
            Way::Amount {
                least: low,
                most: high,
            },
        ) => {
            // A value that varies along its thing must keep the bound everywhere.
            let (measured, limit) = match relation {
                Relation::AtLeast | Relation::MoreThan => (*least, *high),
                Relation::AtMost | Relation::LessThan => (*most, *low),
                Relation::Is => (least.hull(*most), low.hull(*high)),
            };
            amounts((measured, own), (limit, others), relation)
        }
        _ => Standing::sure(Level::Fails),
    }
}

fn amounts(
    measured: (Interval, Dimension),
    limit: (Interval, Dimension),
    relation: Relation,
) -> Standing {
    let Some((one, two, dimension)) = in_one_dimension(measured, limit) else {
        return Standing::of(Truth::OPEN);
    };
    let two = match mutant::is_on(Mutant::LimitsLowEnd) {
        true => Interval {
            high: two.low,
            ..two
        },
        false => two,
    };
    let compared = relation.judge(one, two);
    let truth = Truth::of_comparison(compared.can_be_true, compared.can_be_false);
    let room = relation
        .margin(one, two)
        .map_or(Room::of_truth(truth), |range| {
            Room::Amount(range, dimension)
        });
    Standing {
        truth,
        room,
        void: false,
    }
}

fn among(way: &Way, dimension: Dimension, choices: &[Choice], asked: Asked) -> Standing {
    match way {
        Way::Refer => Standing::sure(Level::Authority),
        Way::Empty(Some(said)) => Standing::sure(Level::of_if_none(*said)),
        Way::Empty(None) => Standing::void(asked, Relation::Is),
        Way::Nothing => Standing::of(Truth::of_comparison(
            choices.contains(&Choice::None),
            !choices.contains(&Choice::None),
        )),
        Way::Words(words) => Standing::of(word_among(words, choices)),
        Way::Amount { least, most } => {
            let range = least.hull(*most);
            let amounts = choices.iter().filter_map(|choice| match choice {
                Choice::Amount(amount) => Some(*amount),
                _ => None,
            });
            Standing::of(amount_among(range, dimension, amounts))
        }
    }
}

fn amount_among(
    range: Interval,
    _dimension: Dimension,
    amounts: impl Iterator<Item = i128>,
) -> Truth {
    let inside = { amounts }.any(|amount| range.contains(amount));
    let surely = range.is_exact() && inside;
    Truth::of_comparison(inside, !surely)
}

fn word_among(words: &Words, choices: &[Choice]) -> Truth {
    let chosen = |word: &String| {
        choices
            .iter()
            .any(|choice| matches!(choice, Choice::Word(own) if own == word))
    };
    match words {
        Words::Any => Truth::of_comparison(
            choices
                .iter()
                .any(|choice| matches!(choice, Choice::Word(_))),
            true,
        ),
        Words::OneOf(set) => {
            Truth::of_comparison(set.iter().any(chosen), set.iter().any(|word| !chosen(word)))
        }
    }
}

/// A choice as a whole number, where it is one.
pub(crate) fn whole_choice(choice: &Choice) -> Option<i128> {
    match choice {
        Choice::Amount(amount) => Some(amount.div_euclid(ONE)),
        _ => None,
    }
}
