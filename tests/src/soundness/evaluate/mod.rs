//! The second evaluator: it judges a rule in one world, where everything is certain.
//!
//! It follows the meaning of the rule set's words and shares no code with the checker.

mod needed;
mod places;
mod requirements;
mod tests_and_bounds;
mod values;
mod zones;

#[cfg(test)]
mod tests;

pub use needed::Class;
pub use places::{changes_along, speaks_of};

use rules_core::check::Level;
use rules_core::plan::Plan;
use rules_core::ruleset::{Condition, IfNone, InForce, Relief, Rule, RuleSet, Selection, Value};
use rules_core::vocabulary::KindId;

use crate::soundness::number::Real;
use crate::soundness::random::Random;
use crate::soundness::world::World;

/// A rule's judgement in a world.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Judgement {
    /// It applies, with this result.
    Applies(Level),
    /// It does not apply, or what it is about is not there.
    NotApplicable,
}

/// Why a world could not be judged: two numbers are too close to tell apart, or the rule uses a word that this
/// evaluator does not know. Such a case proves nothing, and is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Undecided {
    /// Too close to tell.
    Tie,
    /// Not a word of this evaluator.
    NotKnown,
}

type Found<T> = Result<T, Undecided>;

/// The result of a requirement: `None` if what it is about is not there.
type Said = Option<Level>;

/// The position of a requirement in its rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    /// In a condition, which asks about what is there.
    Condition,
    /// In what must hold, under an even number of `not`s.
    Must,
    /// In what must hold, under an odd number of them.
    MustNot,
}

/// A value in a world.
#[derive(Debug, Clone, PartialEq)]
enum Got {
    /// A number.
    Number(Real),
    /// A word.
    Word(String),
    /// There is none.
    Nothing,
    /// The authority decides.
    Refer,
    /// There is nothing to measure to. Holds what the rule says this means, if it does.
    Endless(Said),
    /// There is nothing to take the amount of.
    Void(Said),
    /// The largest of no things, of which the rule does not say what it means: a condition takes it as less than anything.
    Least,
    /// There is no outline to take the area of; a condition takes that as nothing covered.
    Bare,
    /// Made from something absent in a way that no condition can ask about.
    Muddled,
}

/// A world under a rule set, and the things that the rule's words are bound to.
struct Scene<'a> {
    world: &'a World,
    rules: &'a RuleSet,
    plan: Option<&'a Plan>,
    /// What each kind's name stands for, innermost last.
    bound: Vec<(KindId, usize)>,
    /// The kinds whose things are limited to a zone.
    cut: Vec<KindId>,
    /// The piece of each thing being considered.
    places: Vec<usize>,
    /// Whether some comparison was so close that the checker, which rounds to whole tiny units, may leave it open.
    close: bool,
}

impl<'a> Scene<'a> {
    fn new(of: Evaluator<'a>) -> Self {
        Self {
            world: of.world,
            rules: of.rules,
            plan: of.plan,
            bound: Vec::new(),
            cut: Vec::new(),
            places: vec![0; of.world.things.len()],
            close: false,
        }
    }

    /// Calls `act` with one of the selected things bound to its kind's name.
    fn with<T>(
        &mut self,
        selection: &Selection,
        thing: usize,
        act: impl FnOnce(&mut Self) -> Found<T>,
    ) -> Found<T> {
        let cut = selection.zone.is_some();
        self.bound.push((selection.kind, thing));
        self.cut.extend(cut.then_some(selection.kind));
        let done = act(self);
        self.bound.pop();
        self.cut.truncate(self.cut.len() - usize::from(cut));
        done
    }
}

/// One world under a rule set, to be judged.
#[derive(Debug, Clone, Copy)]
pub struct Evaluator<'a> {
    /// The world.
    pub world: &'a World,
    /// The rules.
    pub rules: &'a RuleSet,
    /// The plan, if it matters what it draws.
    pub plan: Option<&'a Plan>,
}

impl<'a> Evaluator<'a> {
    /// A rule's judgement, and whether a comparison in it was closer than the checker's rounding.
    ///
    /// # Errors
    /// The world cannot be judged.
    pub fn judge(&self, rule: &Rule) -> Found<(Judgement, bool)> {
        let mut scene = Scene::new(*self);
        let reads = places::read_by_rule(rule);
        let all = scene.everywhere(rule.about_pool, &reads, |scene, _| scene.rule(rule))?;
        let judgement = all.into_iter().min();
        Ok((judgement.unwrap_or(Judgement::NotApplicable), scene.close))
    }

    /// A value as a number, with some kinds bound to things, at any place along them; `None` if it is not a number.
    pub fn number(
        &self,
        random: &mut Random,
        bound: &[(KindId, usize)],
        value: &Value,
    ) -> Option<i128> {
        let mut scene = Scene::new(*self);
        scene.bound = bound.to_vec();
        for (place, thing) in scene.places.iter_mut().zip(&self.world.things) {
            *place = random.below(thing.pieces());
        }
        match scene.value(value).ok()? {
            Got::Number(real) => Some(real.floor()),
            _ => None,
        }
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

/// What a rule says if there is none; `None` if it says nothing.
fn of_none(if_none: Option<IfNone>) -> Said {
    if_none.map(|said| match said {
        IfNone::Passes => Level::Holds,
        IfNone::Fails => Level::Fails,
        IfNone::Refer => Level::Authority,
    })
}

impl Scene<'_> {
    fn rule(&mut self, rule: &Rule) -> Found<Judgement> {
        let applies = self.applies(rule)?;
        if applies == Level::Fails {
            return Ok(Judgement::NotApplicable);
        }
        Ok(match (applies, self.applied(rule)?) {
            // If the authority says whether the rule applies, a requirement that holds anyway holds; otherwise it is up
            // to the authority.
            (Level::Authority, Judgement::Applies(level)) => {
                Judgement::Applies(level.max(Level::Authority))
            }
            (_, judgement) => judgement,
        })
    }

    fn applies(&mut self, rule: &Rule) -> Found<Level> {
        let mut applies = Level::Holds;
        if let Some(when) = &rule.when {
            applies = applies.min(self.asked(when)?);
        }
        if let Some(unless) = &rule.unless {
            applies = applies.min(mirrored(self.asked(unless)?));
        }
        if let Some(force) = &rule.in_force {
            applies = applies.min(self.in_force(force)?);
        }
        Ok(applies)
    }

    /// The judgement of a rule that applies.
    fn applied(&mut self, rule: &Rule) -> Found<Judgement> {
        let Some(each) = &rule.each else {
            return self.need(rule);
        };
        let things = self.selected(each)?;
        if things.is_empty() {
            return self.none_of(rule, each);
        }
        let mut worst = Judgement::NotApplicable;
        for thing in things {
            worst = worst.min(self.with(each, thing, |scene| scene.need(rule))?);
        }
        Ok(worst)
    }

    /// The judgement if there are no things to judge the rule for.
    fn none_of(&mut self, rule: &Rule, each: &Selection) -> Found<Judgement> {
        let Some(said) = of_none(each.if_none) else {
            return Ok(Judgement::NotApplicable);
        };
        let mut best = said;
        for relief in &rule.reliefs {
            // A relief about such a thing has nothing to be about.
            if !places::speaks_of(self.rules, relief, each.kind) {
                best = best.max(self.relief(relief)?);
            }
        }
        Ok(Judgement::Applies(best))
    }

    fn in_force(&mut self, force: &InForce) -> Found<Level> {
        let Got::Number(day) = self.fact(force.by)? else {
            return Err(Undecided::NotKnown);
        };
        let day = day.floor();
        let begun = force.from.is_none_or(|from| day >= from);
        let by_day = level(begun && force.to.is_none_or(|to| day <= to));
        let or_when = self.condition(force.or_when.as_ref())?;
        let unless = self.condition(force.unless.as_ref())?;
        Ok(by_day.max(or_when).min(mirrored(unless)))
    }

    fn need(&mut self, rule: &Rule) -> Found<Judgement> {
        let Some(base) = self.requirement(&rule.require, Side::Must)? else {
            return Ok(Judgement::NotApplicable);
        };
        let mut best = base;
        for relief in &rule.reliefs {
            best = best.max(self.relief(relief)?);
        }
        Ok(Judgement::Applies(best))
    }

    fn relief(&mut self, relief: &Relief) -> Found<Level> {
        let open = match &relief.when {
            Some(when) => self.asked(when)?,
            None => Level::Holds,
        };
        let leave = match relief.leave {
            true => Level::Authority,
            false => Level::Holds,
        };
        // A relief that is about something absent does not hold.
        let met = self.requirement(&relief.require, Side::Must)?;
        Ok(open.min(leave).min(met.unwrap_or(Level::Fails)))
    }

    /// Whether a condition holds, for any pool if it is about a pool.
    fn condition(&mut self, condition: Option<&Condition>) -> Found<Level> {
        let Some(condition) = condition else {
            return Ok(Level::Fails);
        };
        let mut any = Level::Fails;
        for pool in self.pools(condition.about_pool) {
            self.bound.extend(pool);
            any = any.max(self.asked(&condition.requirement)?);
            self.bound
                .truncate(self.bound.len() - usize::from(pool.is_some()));
        }
        Ok(any)
    }
}
