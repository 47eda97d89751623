//! Judging a requirement in one world.
//!
//! What a rule's requirement is about may be absent. `not` is carried down to the tests, and a prohibition on something
//! absent is kept. In a condition, everything either holds or does not.

use rules_core::check::Level;
use rules_core::ruleset::{Bound, Each, Requirement, Row, RowTest, Scope, Table, Then, Value};

use super::{Found, Said, Scene, Side, Undecided, mirrored, of_none};

impl Side {
    /// The side under one more `not`.
    fn turned(self) -> Self {
        match self {
            Side::Condition => Side::Condition,
            Side::Must => Side::MustNot,
            Side::MustNot => Side::Must,
        }
    }

    /// The result of something that depends on the side only through the `not`s around it.
    pub(super) fn of(self, level: Level) -> Said {
        Some(match self {
            Side::MustNot => mirrored(level),
            _ => level,
        })
    }

    /// The result if what it is about is absent.
    pub(super) fn nothing(self) -> Said {
        match self {
            Side::Condition | Side::MustNot => Some(Level::Holds),
            Side::Must => None,
        }
    }
}

/// All of them, or under `not` any of them, leaving out those about something absent.
pub(super) fn all_of(said: &[Said], side: Side) -> Said {
    let spoke = said.iter().flatten().copied();
    match side {
        Side::MustNot => spoke.max(),
        _ => spoke.min(),
    }
}

fn any_of(said: &[Said], side: Side) -> Said {
    let spoke = said.iter().flatten().copied();
    match side {
        Side::MustNot => spoke.min(),
        _ => spoke.max(),
    }
}

/// At least `wanted` members hold: the `wanted`-th largest level.
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
    /// The result of a condition.
    pub(super) fn asked(&mut self, condition: &Requirement) -> Found<Level> {
        self.requirement(condition, Side::Condition)?
            .ok_or(Undecided::NotKnown)
    }

    pub(super) fn requirement(&mut self, requirement: &Requirement, side: Side) -> Found<Said> {
        match requirement {
            Requirement::Test(test) => self.test(test, side),
            Requirement::All(of) => Ok(all_of(&self.members(of, side)?, side)),
            Requirement::Any(of) => Ok(any_of(&self.members(of, side)?, side)),
            Requirement::Not(of) => {
                let said = self.requirement(of, side.turned())?;
                Ok(match side {
                    Side::Condition => said.map(mirrored),
                    _ => said,
                })
            }
            Requirement::Count { of, bounds } => self.count(of, bounds, side),
            Requirement::Each(each) => self.each(each, side),
            Requirement::Table(table) => match self.row(table)? {
                Some(Then::Give(requirement)) => self.requirement(requirement, side),
                Some(Then::Refer) => Ok(Some(Level::Authority)),
                None => Ok(side.nothing()),
            },
            Requirement::Meets { term, requirement } => {
                self.within(term.scope, |scene| scene.requirement(requirement, side))
            }
            Requirement::Have(document) => Ok(side.of(self.paper(*document)?)),
            Requirement::Refer => Ok(Some(Level::Authority)),
        }
    }

    /// A term. It depends only on the one thing it is about and on the pool, not on anything else around it.
    pub(super) fn within<T>(
        &mut self,
        scope: Scope,
        act: impl FnOnce(&mut Self) -> Found<T>,
    ) -> Found<T> {
        let pool = self.rules.vocabulary.kind_named("pool");
        let mut inner = Vec::new();
        let kinds = [pool.filter(|_| scope.about_pool), scope.of];
        for kind in kinds.into_iter().flatten() {
            let bound = self.bound.iter().rev().find(|(bound, _)| *bound == kind);
            inner.push(*bound.ok_or(Undecided::NotKnown)?);
        }
        let outer = std::mem::replace(&mut self.bound, inner);
        let said = act(self);
        self.bound = outer;
        said
    }

    fn members(&mut self, of: &[Requirement], side: Side) -> Found<Vec<Said>> {
        of.iter()
            .map(|member| self.requirement(member, side))
            .collect()
    }

    /// How many of some requirements hold. One about something absent does not; if all of them are, so is the count.
    fn count(&mut self, of: &[Requirement], bounds: &[Bound], side: Side) -> Found<Said> {
        let inner = match side {
            Side::Condition => Side::Condition,
            _ => Side::Must,
        };
        let said = self.members(of, inner)?;
        if said.iter().all(Option::is_none) {
            return Ok(side.nothing());
        }
        let levels: Vec<Level> = said
            .iter()
            .map(|said| said.unwrap_or(Level::Fails))
            .collect();
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
        let all = all.into_iter().min().unwrap_or(Level::Holds);
        Ok(side.of(all))
    }

    fn each(&mut self, each: &Each, side: Side) -> Found<Said> {
        let things = self.selected(&each.selection)?;
        if things.is_empty() {
            return Ok(match of_none(each.selection.if_none) {
                Some(said) => side.of(said),
                None => side.nothing(),
            });
        }
        let mut all = Vec::new();
        for thing in things {
            let one = self.with(&each.selection, thing, |scene| {
                scene.requirement(&each.require, side)
            });
            all.push(one?);
        }
        Ok(all_of(&all, side))
    }

    /// What the first row that applies gives; `None` if the value it goes by is absent.
    pub(super) fn row<'t, T>(&mut self, table: &'t Table<T>) -> Found<Option<&'t Then<T>>> {
        let by = match &table.by {
            Some(by) => Some(self.value(by)?),
            None => None,
        };
        for Row { test, then, .. } in &table.rows {
            let applies = match (test, &by) {
                (RowTest::Otherwise, _) => true,
                (RowTest::When(requirement), _) => self.asked(requirement)? == Level::Holds,
                (RowTest::Bounds(bounds), Some(by)) => {
                    self.bounds(by, bounds, Side::Condition)? == Some(Level::Holds)
                }
                (RowTest::Bounds(_), None) => return Err(Undecided::NotKnown),
            };
            if applies {
                return Ok(Some(then));
            }
        }
        Err(Undecided::NotKnown)
    }
}
