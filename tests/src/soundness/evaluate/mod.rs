//! The second evaluator: what a rule comes to in one world, where everything is either so or not.
//!
//! It follows the meaning of the rule set's words alone and shares no line with the checker.

mod values;

#[cfg(test)]
mod tests;

use std::cmp::Ordering;

use rules_core::check::Level;
use rules_core::ruleset::{
    Bound, Choice, Each, IfNone, Relief, Requirement, Row, RowTest, Rule, RuleSet, Table, Test,
    Then, Value,
};
use rules_core::vocabulary::{FactId, KindId};

use crate::soundness::number::Real;
use crate::soundness::world::World;

/// What a rule comes to in a world.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Judgement {
    /// It applies, and this is what it comes to.
    Applies(Level),
    /// It does not apply, or there is nothing that it speaks of.
    NotApplicable,
}

/// Why a world could not be judged: two numbers are too close to tell apart, or the rule uses a word that this
/// evaluator does not know. Such a case proves nothing and is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Undecided {
    /// Too close to tell.
    Tie,
    /// Not a word of this evaluator.
    NotKnown,
}

type Found<T> = Result<T, Undecided>;

/// What a value is in a world.
#[derive(Debug, Clone, PartialEq)]
enum Got {
    /// A number.
    Number(Real),
    /// It varies along the thing between two numbers.
    Varies(Real, Real),
    /// A word.
    Word(String),
    /// There is none.
    Nothing,
    /// The authority decides.
    Refer,
    /// There is nothing to measure: this is what its requirement comes to.
    Empty(Level),
}

/// A world under a rule set, and what the words of the rule are bound to.
struct Scene<'a> {
    world: &'a World,
    rules: &'a RuleSet,
    bound: Vec<(KindId, usize)>,
    /// Whether some comparison was so close that the checker, which rounds to whole tiny units, may leave it open.
    close: bool,
}

/// What a rule comes to in a world, and whether a comparison in it was closer than the checker rounds.
pub fn judge(world: &World, rules: &RuleSet, rule: &Rule) -> Found<(Judgement, bool)> {
    let mut scene = Scene {
        world,
        rules,
        bound: Vec::new(),
        close: false,
    };
    let judgement = scene.rule(rule)?;
    Ok((judgement, scene.close))
}

/// What a value is in a world, as a number, with some kinds bound to things; `None` where it is no number.
pub fn number(
    world: &World,
    rules: &RuleSet,
    bound: &[(KindId, usize)],
    value: &Value,
) -> Option<i128> {
    let mut scene = Scene {
        world,
        rules,
        bound: bound.to_vec(),
        close: false,
    };
    match scene.value(value).ok()? {
        Got::Number(real) | Got::Varies(real, _) => Some(real.floor()),
        _ => None,
    }
}

/// The word that a fact is, with some kinds bound to things.
pub fn word(
    world: &World,
    rules: &RuleSet,
    bound: &[(KindId, usize)],
    fact: FactId,
) -> Option<String> {
    let scene = Scene {
        world,
        rules,
        bound: bound.to_vec(),
        close: false,
    };
    match scene.fact(fact).ok()? {
        Got::Word(word) => Some(word),
        _ => None,
    }
}

fn level(holds: bool) -> Level {
    match holds {
        true => Level::Holds,
        false => Level::Fails,
    }
}

fn mirrored(level: Level) -> Level {
    match level {
        Level::Holds => Level::Fails,
        Level::Fails => Level::Holds,
        Level::Authority => Level::Authority,
    }
}

fn of_none(if_none: Option<IfNone>) -> Found<Level> {
    match if_none {
        Some(IfNone::Passes) => Ok(Level::Holds),
        Some(IfNone::Fails) => Ok(Level::Fails),
        Some(IfNone::Refer) => Ok(Level::Authority),
        None => Err(Undecided::NotKnown),
    }
}

fn least(levels: &[Level]) -> Level {
    levels.iter().copied().min().unwrap_or(Level::Holds)
}

fn most(levels: &[Level]) -> Level {
    levels.iter().copied().max().unwrap_or(Level::Fails)
}

/// At least so many members hold: the so-many-th largest.
fn at_least(wanted: i128, levels: &[Level]) -> Level {
    let mut sorted = levels.to_vec();
    sorted.sort();
    sorted.reverse();
    match wanted {
        ..=0 => Level::Holds,
        wanted => usize::try_from(wanted - 1)
            .ok()
            .and_then(|place| sorted.get(place).copied())
            .unwrap_or(Level::Fails),
    }
}

impl Scene<'_> {
    fn rule(&mut self, rule: &Rule) -> Found<Judgement> {
        if let Some(when) = &rule.when
            && self.requirement(when)? != Level::Holds
        {
            return Ok(Judgement::NotApplicable);
        }
        if let Some(unless) = &rule.unless
            && self.requirement(unless)? != Level::Fails
        {
            return Ok(Judgement::NotApplicable);
        }
        if let Some(force) = &rule.in_force
            && !self.in_force(force.by, force.from, force.to)?
        {
            return Ok(Judgement::NotApplicable);
        }
        let Some(each) = &rule.each else {
            return self.need(rule).map(Judgement::Applies);
        };
        let mut all = Vec::new();
        for thing in self.selected(each)? {
            self.bound.push((each.kind, thing));
            all.push(self.need(rule)?);
            self.bound.pop();
        }
        Ok(match all.is_empty() {
            true => Judgement::NotApplicable,
            false => Judgement::Applies(least(&all)),
        })
    }

    fn in_force(&self, by: FactId, from: Option<i128>, to: Option<i128>) -> Found<bool> {
        match self.fact(by)? {
            Got::Number(day) => {
                let day = day.floor();
                Ok(from.is_none_or(|from| day >= from) && to.is_none_or(|to| day <= to))
            }
            _ => Err(Undecided::NotKnown),
        }
    }

    fn need(&mut self, rule: &Rule) -> Found<Level> {
        let mut ways = vec![self.requirement(&rule.require)?];
        for relief in &rule.reliefs {
            ways.push(self.relief(relief)?);
        }
        Ok(most(&ways))
    }

    fn relief(&mut self, relief: &Relief) -> Found<Level> {
        let mut all = Vec::new();
        if let Some(when) = &relief.when {
            all.push(self.requirement(when)?);
        }
        all.push(self.requirement(&relief.require)?);
        if relief.leave {
            all.push(Level::Authority);
        }
        Ok(least(&all))
    }

    fn members(&mut self, of: &[Requirement]) -> Found<Vec<Level>> {
        of.iter().map(|member| self.requirement(member)).collect()
    }

    fn requirement(&mut self, requirement: &Requirement) -> Found<Level> {
        match requirement {
            Requirement::Test(test) => self.test(test),
            Requirement::All(of) => self.members(of).map(|levels| least(&levels)),
            Requirement::Any(of) => self.members(of).map(|levels| most(&levels)),
            Requirement::Not(of) => self.requirement(of).map(mirrored),
            Requirement::Count { of, bounds } => self.count(of, bounds),
            Requirement::Each(each) => self.each(each),
            Requirement::Table(table) => match self.row(table)? {
                Then::Give(requirement) => self.requirement(requirement),
                Then::Refer => Ok(Level::Authority),
            },
            Requirement::Meets { requirement, .. } => self.requirement(requirement),
            Requirement::Have(document) => Ok(level(self.world.documents[*document])),
            Requirement::Refer => Ok(Level::Authority),
        }
    }

    fn count(&mut self, of: &[Requirement], bounds: &[Bound]) -> Found<Level> {
        let levels = self.members(of)?;
        let mut all = Vec::new();
        for bound in bounds {
            let (Bound::AtLeast(limit)
            | Bound::MoreThan(limit)
            | Bound::AtMost(limit)
            | Bound::LessThan(limit)) = bound
            else {
                return Err(Undecided::NotKnown);
            };
            let Value::Stated(stated) = limit else {
                return Err(Undecided::NotKnown);
            };
            let billion = 1_000_000_000;
            let up = -(-stated.range.low).div_euclid(billion);
            let above = stated.range.low.div_euclid(billion) + 1;
            all.push(match bound {
                Bound::AtLeast(_) => at_least(up, &levels),
                Bound::MoreThan(_) => at_least(above, &levels),
                Bound::LessThan(_) => mirrored(at_least(up, &levels)),
                _ => mirrored(at_least(above, &levels)),
            });
        }
        Ok(least(&all))
    }

    fn each(&mut self, each: &Each) -> Found<Level> {
        let mut all = Vec::new();
        for thing in self.selected(&each.selection)? {
            self.bound.push((each.selection.kind, thing));
            all.push(self.requirement(&each.require)?);
            self.bound.pop();
        }
        match all.is_empty() {
            true => of_none(each.selection.if_none),
            false => Ok(least(&all)),
        }
    }

    /// The first row that applies.
    fn row<'t, T>(&mut self, table: &'t Table<T>) -> Found<&'t Then<T>> {
        let by = match &table.by {
            Some(by) => Some(self.value(by)?),
            None => None,
        };
        for Row { test, then, .. } in &table.rows {
            let applies = match (test, &by) {
                (RowTest::Otherwise, _) => true,
                (RowTest::When(requirement), _) => self.requirement(requirement)? == Level::Holds,
                (RowTest::Bounds(bounds), Some(by)) => self.bounds(by, bounds)? == Level::Holds,
                (RowTest::Bounds(_), None) => return Err(Undecided::NotKnown),
            };
            if applies {
                return Ok(then);
            }
        }
        Err(Undecided::NotKnown)
    }

    fn test(&mut self, test: &Test) -> Found<Level> {
        let value = self.value(&test.value)?;
        self.bounds(&value, &test.bounds)
    }

    fn bounds(&mut self, value: &Got, bounds: &[Bound]) -> Found<Level> {
        let mut all = Vec::new();
        for bound in bounds {
            all.push(self.bound(value, bound)?);
        }
        Ok(least(&all))
    }

    fn bound(&mut self, value: &Got, bound: &Bound) -> Found<Level> {
        let (limit, wanted) = match bound {
            Bound::Is(choices) => return self.is_one_of(value, choices),
            Bound::AtLeast(limit) => (limit, [Ordering::Greater, Ordering::Equal]),
            Bound::AtMost(limit) => (limit, [Ordering::Less, Ordering::Equal]),
            Bound::MoreThan(limit) => (limit, [Ordering::Greater; 2]),
            Bound::LessThan(limit) => (limit, [Ordering::Less; 2]),
        };
        let limit = self.value(limit)?;
        // A bound means everywhere along the thing: its lowest place must keep a least, its highest a most.
        let upwards = wanted[0] == Ordering::Greater;
        let (value, limit) = match (value, &limit) {
            (Got::Refer, _) | (_, Got::Refer) => return Ok(Level::Authority),
            (Got::Empty(level), _) | (_, Got::Empty(level)) => return Ok(*level),
            (Got::Nothing, _) | (_, Got::Nothing) => return Ok(Level::Fails),
            (Got::Number(value), Got::Number(limit)) => (*value, *limit),
            (Got::Varies(low, high), Got::Number(limit)) => {
                (if upwards { *low } else { *high }, *limit)
            }
            _ => return Err(Undecided::NotKnown),
        };
        self.close |= value != limit && value.near(limit, 4);
        let order = value.compared(limit).ok_or(Undecided::Tie)?;
        Ok(level(wanted.contains(&order)))
    }

    fn is_one_of(&mut self, value: &Got, choices: &[Choice]) -> Found<Level> {
        for choice in choices {
            let same = match (value, choice) {
                (Got::Refer, _) => return Ok(Level::Authority),
                (Got::Empty(level), _) => return Ok(*level),
                (Got::Word(word), Choice::Word(wanted)) => word == wanted,
                (Got::Nothing, Choice::None) => true,
                (Got::Number(number), Choice::Amount(wanted)) => {
                    number.compared(Real::whole(*wanted)) == Some(Ordering::Equal)
                }
                (Got::Varies(..), _) => return Err(Undecided::NotKnown),
                _ => false,
            };
            if same {
                return Ok(Level::Holds);
            }
        }
        Ok(Level::Fails)
    }
}
