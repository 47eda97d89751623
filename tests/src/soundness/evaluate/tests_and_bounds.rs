//! Judging a test: a value and the bounds it must keep.

use std::cmp::Ordering;

use rules_core::check::Level;
use rules_core::ruleset::{Along, Bound, Choice, Test, Value};
use rules_core::vocabulary::FactId;

use super::requirements::all_of;
use super::{Found, Got, Said, Scene, Side, Undecided, level};
use crate::soundness::number::Real;
use crate::soundness::world::Held;

/// The fact that a value names, directly or through a term.
fn plain_fact(value: &Value) -> Option<FactId> {
    match value {
        Value::Fact(fact) => Some(*fact),
        _ => None,
    }
}

impl Scene<'_> {
    pub(super) fn test(&mut self, test: &Test, side: Side) -> Found<Said> {
        if let Some(along) = test.holds {
            let fact = plain_fact(&test.value).ok_or(Undecided::NotKnown)?;
            if let Some(values) = self.along(fact)? {
                return self.somewhere_along(&values, &test.bounds, along, side);
            }
        }
        let value = self.value(&test.value)?;
        self.bounds(&value, &test.bounds, side)
    }

    /// A fact at each piece of its thing, if it varies along the thing.
    fn along(&mut self, fact: FactId) -> Found<Option<Vec<i128>>> {
        let kind = self.rules.vocabulary.fact(fact).kind;
        let Some(thing) = self.meant(kind)? else {
            return Ok(None);
        };
        Ok(match self.world.things[thing].facts.get(&fact) {
            Some(Held::Along(values)) => Some(values.clone()),
            _ => None,
        })
    }

    /// Whether some piece, or every one, keeps the bounds.
    fn somewhere_along(
        &mut self,
        values: &[i128],
        bounds: &[Bound],
        along: Along,
        side: Side,
    ) -> Found<Said> {
        let mut all = Vec::new();
        for value in values {
            let value = Got::Number(Real::whole(*value));
            match self.bounds(&value, bounds, Side::Condition)? {
                Some(level) => all.push(level),
                None => return Err(Undecided::NotKnown),
            }
        }
        let said = match along {
            Along::Anywhere => all.into_iter().max(),
            Along::AllAlong => all.into_iter().min(),
        };
        said.map(|level| side.of(level)).ok_or(Undecided::NotKnown)
    }

    /// Whether all bounds are kept; `None` if what they are about is absent.
    pub(super) fn bounds(&mut self, value: &Got, bounds: &[Bound], side: Side) -> Found<Said> {
        let mut all = Vec::new();
        for bound in bounds {
            all.push(match self.bound(value, bound, side)? {
                Some(level) => side.of(level),
                None => side.nothing(),
            });
        }
        Ok(all_of(&all, side))
    }

    /// Whether a bound is kept, allowing for the `not`s around it; `None` if what it is about is absent.
    fn bound(&mut self, value: &Got, bound: &Bound, side: Side) -> Found<Said> {
        let (limit, wanted) = match bound {
            Bound::Is(choices) => return is_one_of(value, choices, side),
            Bound::AtLeast(limit) => (limit, [Ordering::Greater, Ordering::Equal]),
            Bound::AtMost(limit) => (limit, [Ordering::Less, Ordering::Equal]),
            Bound::MoreThan(limit) => (limit, [Ordering::Greater; 2]),
            Bound::LessThan(limit) => (limit, [Ordering::Less; 2]),
        };
        let limit = covering(self.value(limit)?, side);
        let value = &covering(value.clone(), side);
        let upwards = wanted[0] == Ordering::Greater;
        if *value == Got::Refer || limit == Got::Refer {
            return Ok(Some(Level::Authority));
        }
        // If both sides are absent, the first says what that means.
        if is_nothing(value) && side != Side::Condition {
            return Ok(None);
        }
        let beside = match is_nothing(value) {
            true => None,
            false => said_beside(value).or_else(|| said_beside(&limit)),
        };
        if let Some(said) = beside {
            return Ok(Some(said));
        }
        let (value, limit) = match (value, &limit) {
            (Got::Number(value), Got::Number(limit)) => (*value, *limit),
            (Got::Word(_), _) | (_, Got::Word(_)) => return Err(Undecided::NotKnown),
            _ if side != Side::Condition => return Ok(None),
            (Got::Endless(None), Got::Number(_) | Got::Endless(Some(_))) => {
                return Ok(Some(level(upwards)));
            }
            (Got::Number(_), Got::Endless(None)) => return Ok(Some(level(!upwards))),
            // The largest of none is no more than anything, and nothing else that is not there meets a condition.
            (Got::Least, Got::Number(_)) => return Ok(Some(level(!upwards))),
            (Got::Number(_), Got::Least) => return Ok(Some(level(upwards))),
            (Got::Void(None), Got::Number(_)) => return Ok(Some(Level::Fails)),
            _ => return Err(Undecided::NotKnown),
        };
        self.close |= value != limit && value.near(limit, 4);
        let order = value.compared(limit).ok_or(Undecided::Tie)?;
        Ok(Some(level(wanted.contains(&order))))
    }
}

/// In a condition, something absent covers nothing.
fn covering(got: Got, side: Side) -> Got {
    match (got, side) {
        (Got::Bare, Side::Condition) => Got::Number(Real::whole(0)),
        (got, _) => got,
    }
}

/// Whether it is absent and the rule does not say what that means.
fn is_nothing(got: &Got) -> bool {
    matches!(
        got,
        Got::Endless(None) | Got::Void(None) | Got::Least | Got::Bare | Got::Muddled
    )
}

/// The result of a comparison that one of its sides decides by itself.
fn said_beside(side: &Got) -> Said {
    match side {
        Got::Endless(said) | Got::Void(said) => *said,
        Got::Nothing => Some(Level::Fails),
        Got::Number(_) | Got::Word(_) | Got::Refer | Got::Least | Got::Bare | Got::Muddled => None,
    }
}

fn is_one_of(value: &Got, choices: &[Choice], side: Side) -> Found<Said> {
    for choice in choices {
        let same = match (value, choice) {
            (Got::Refer, _) => return Ok(Some(Level::Authority)),
            (Got::Endless(Some(said)) | Got::Void(Some(said)), _) => return Ok(Some(*said)),
            (Got::Endless(None) | Got::Void(None) | Got::Least | Got::Bare | Got::Muddled, _) => {
                return match side {
                    Side::Condition => Err(Undecided::NotKnown),
                    _ => Ok(None),
                };
            }
            (Got::Word(word), Choice::Word(wanted)) => word == wanted,
            (Got::Nothing, Choice::None) => true,
            (Got::Number(number), Choice::Amount(wanted, _)) => {
                number.compared(Real::whole(*wanted)) == Some(Ordering::Equal)
            }
            _ => false,
        };
        if same {
            return Ok(Some(Level::Holds));
        }
    }
    Ok(Some(Level::Fails))
}
