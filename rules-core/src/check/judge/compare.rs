//! Comparing the possible values of something with the possible values of its limit.

use crate::check::judge::Role;
use crate::check::judge::possible::{Alternative, PossibleValue};
use crate::check::judge::slack::Slack;
use crate::check::{Level, Truth};
use crate::plan::Words;
use crate::quantity::{Dimension, Interval, ONE, Relation, in_one_dimension};
use crate::ruleset::{Along, Bound, Choice};

/// The result of comparing a value with a bound: its truth, and the slack that is left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Standing {
    pub(crate) truth: Truth,
    pub(crate) slack: Slack,
}

impl Standing {
    fn sure(level: Level) -> Standing {
        Standing::of(Truth::of(level))
    }

    pub(crate) fn of(truth: Truth) -> Standing {
        Standing {
            truth,
            slack: Slack::of_truth(truth),
        }
    }

    /// There is nothing to measure, so a requirement does not apply. In a condition, something that is not there is farther away
    /// than any limit, and the largest of no things is no more than any limit; nothing else that is not there meets a condition.
    fn of_nothing(way: &Alternative, role: Role, relation: Relation) -> Standing {
        let upwards = matches!(relation, Relation::AtLeast | Relation::MoreThan);
        let downwards = matches!(relation, Relation::AtMost | Relation::LessThan);
        let meets = match way {
            Alternative::Far => upwards,
            Alternative::Least => downwards,
            _ => false,
        };
        match (role, meets) {
            (Role::Required, _) => Standing::of(Truth::NOT_APPLICABLE),
            (Role::Condition, true) => Standing::sure(Level::Holds),
            (Role::Condition, false) => Standing::sure(Level::Fails),
        }
    }

    /// There is nothing to compare with. A thing that is there is nearer than one that is not, and no less than the largest of
    /// none.
    fn beside_nothing(limit: &Alternative, role: Role, relation: Relation) -> Standing {
        let turned = match relation {
            Relation::AtLeast => Relation::AtMost,
            Relation::MoreThan => Relation::LessThan,
            Relation::AtMost => Relation::AtLeast,
            Relation::LessThan => Relation::MoreThan,
            Relation::Is => Relation::Is,
        };
        Standing::of_nothing(limit, role, turned)
    }

    fn either(self, other: Standing) -> Standing {
        Standing {
            truth: self.truth.or_else(other.truth),
            slack: match (self.truth, other.truth) {
                (Truth::NOT_APPLICABLE, _) => other.slack,
                (_, Truth::NOT_APPLICABLE) => self.slack,
                _ => self.slack.either(other.slack),
            },
        }
    }

    /// The result of the opposite comparison. A prohibition is met where there is nothing to measure.
    pub(crate) fn negated(self) -> Standing {
        Standing {
            truth: self.truth.negated().absent_as(Truth::HOLDS),
            slack: self.slack.negated(),
        }
    }
}

/// What a value is compared with, and how.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Comparison<'a> {
    pub(crate) bound: &'a Bound,
    /// Where along a thing the bound must be met; `None`: at every place that the value covers.
    pub(crate) holds: Option<Along>,
    pub(crate) role: Role,
}

/// Compares a value with a bound; the bound's limit was found before (all but `is` have one).
///
/// A measured value that changes along a thing is not judged place by place. A condition on it may hold at one place and fail
/// at another, so the results at both ends are possible.
pub(crate) fn standing(
    value: &PossibleValue,
    limit: Option<&PossibleValue>,
    comparison: Comparison<'_>,
) -> Standing {
    let changes = || value.changes() || limit.is_some_and(PossibleValue::changes);
    let all_along = compared(value, limit, comparison);
    match (comparison.role, comparison.holds) {
        (Role::Condition, None) if changes() => {
            let holds = Some(Along::Anywhere);
            all_along.either(compared(
                value,
                limit,
                Comparison {
                    holds,
                    ..comparison
                },
            ))
        }
        _ => all_along,
    }
}

fn compared(
    value: &PossibleValue,
    limit: Option<&PossibleValue>,
    comparison: Comparison<'_>,
) -> Standing {
    let all = match (comparison.bound, limit) {
        (Bound::Is(choices), _) => value
            .ways
            .iter()
            .map(|way| among(way, value.dimension, choices, comparison))
            .reduce(Standing::either),
        (_, Some(limit)) => {
            let one = |way, other| {
                let (own, others) = ((way, value.dimension), (other, limit.dimension));
                beside(own, others, comparison)
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
    (way, own): (&Alternative, Dimension),
    (limit, others): (&Alternative, Dimension),
    comparison: Comparison<'_>,
) -> Standing {
    let relation = comparison.bound.relation();
    let (way, limit) = (
        &*way.for_role(comparison.role),
        &*limit.for_role(comparison.role),
    );
    match (way, limit) {
        (Alternative::Refer, _) | (_, Alternative::Refer) => Standing::sure(Level::Authority),
        (Alternative::Empty(Some(said)), _) => Standing::sure(Level::of_if_none(*said)),
        (Alternative::Empty(None) | Alternative::Far | Alternative::Least, _) => {
            Standing::of_nothing(way, comparison.role, relation)
        }
        (_, Alternative::Empty(Some(said))) => Standing::sure(Level::of_if_none(*said)),
        (_, Alternative::Empty(None) | Alternative::Far | Alternative::Least) => {
            Standing::beside_nothing(limit, comparison.role, relation)
        }
        (
            Alternative::Amount { least, most },
            Alternative::Amount {
                least: low,
                most: high,
            },
        ) => {
            // With `all-along` the worst place along each of the two decides, with `anywhere` the best one.
            let anywhere = comparison.holds == Some(Along::Anywhere);
            let upwards = matches!(relation, Relation::AtLeast | Relation::MoreThan);
            let (measured, limit) = match upwards != anywhere {
                true => (*least, *high),
                false => (*most, *low),
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
    let compared = relation.judge(one, two);
    let truth = Truth::of_comparison(compared.can_be_true, compared.can_be_false);
    let slack = relation
        .margin(one, two)
        .map_or(Slack::of_truth(truth), |range| {
            Slack::Amount(range, dimension)
        });
    Standing { truth, slack }
}

fn among(
    way: &Alternative,
    dimension: Dimension,
    choices: &[Choice],
    comparison: Comparison<'_>,
) -> Standing {
    match &*way.for_role(comparison.role) {
        Alternative::Refer => Standing::sure(Level::Authority),
        Alternative::Empty(Some(said)) => Standing::sure(Level::of_if_none(*said)),
        nothing @ (Alternative::Empty(None)
        | Alternative::Far
        | Alternative::Least
        | Alternative::Bare) => Standing::of_nothing(nothing, comparison.role, Relation::Is),
        Alternative::Nothing => Standing::of(Truth::of_comparison(
            choices.contains(&Choice::None),
            !choices.contains(&Choice::None),
        )),
        Alternative::Words(words) => Standing::of(word_among(words, choices)),
        Alternative::Amount { least, most } => {
            let amounts: Vec<_> = choices.iter().filter_map(amount_of).collect();
            let anywhere = comparison.holds == Some(Along::Anywhere);
            Standing::of(amount_among((*least, *most), dimension, &amounts, anywhere))
        }
    }
}

fn amount_of(choice: &Choice) -> Option<(Interval, Dimension)> {
    match choice {
        Choice::Amount(amount, unit) => Some((Interval::exact(*amount), unit.dimension())),
        _ => None,
    }
}

/// Whether an amount, given its range at its lowest and at its highest place, is one of some amounts: everywhere, or
/// anywhere. Months and days are compared in days. Two months are 59 to 62 days, so no number of days is surely two months,
/// and a number outside that range is surely not.
fn amount_among(
    (least, most): (Interval, Interval),
    dimension: Dimension,
    amounts: &[(Interval, Dimension)],
    anywhere: bool,
) -> Truth {
    let is = |range| {
        amounts
            .iter()
            .any(|one| surely_is((range, dimension), *one))
    };
    let may_be = |range| amounts.iter().any(|one| may_be((range, dimension), *one));
    match anywhere {
        true => Truth::of_comparison(may_be(least.hull(most)), !(is(least) || is(most))),
        false => Truth::of_comparison(may_be(least) && may_be(most), !is(least.hull(most))),
    }
}

fn surely_is(value: (Interval, Dimension), amount: (Interval, Dimension)) -> bool {
    let alike = in_one_dimension(value, amount);
    alike.is_some_and(|(one, other, _)| one.is_exact() && one == other)
}

fn may_be(value: (Interval, Dimension), amount: (Interval, Dimension)) -> bool {
    let alike = in_one_dimension(value, amount);
    alike.is_none_or(|(one, other, _)| one.meet(other).is_some())
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

/// A choice as a whole number, where it is an amount.
pub(crate) fn whole_choice(choice: &Choice) -> Option<i128> {
    match choice {
        Choice::Amount(amount, _) => Some(amount.div_euclid(ONE)),
        _ => None,
    }
}
