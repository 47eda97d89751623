//! What a value is in one world.

use rules_core::check::Level;
use rules_core::ruleset::{
    Area, Distance, Measured, Operand, Over, Places, Selection, Then, Value, Which, Zone,
};
use rules_core::vocabulary::{FactId, KindId, Number};

use super::{Found, Got, Scene, Undecided, of_none};
use crate::soundness::geometry;
use crate::soundness::number::Real;
use crate::soundness::world::{Drawn, Held};

impl<'a> Scene<'a> {
    pub(super) fn value(&mut self, value: &Value) -> Found<Got> {
        match value {
            Value::Stated(stated) if stated.range.low == stated.range.high => {
                Ok(Got::Number(Real::whole(stated.range.low)))
            }
            Value::Fact(fact) => self.fact(*fact),
            Value::Distance(distance) => self.distance(distance),
            Value::Area(area) => self.area(area),
            Value::Count(selection) => {
                let count = self.selected(selection)?.len() as i128;
                Ok(Got::Number(Real::whole(count * 1_000_000_000)))
            }
            Value::Table(table) => match self.row(table)? {
                Then::Give(value) => self.value(value),
                Then::Refer => Ok(Got::Refer),
            },
            Value::Largest(of) => self.folded(of, Real::greater, true),
            Value::Smallest(of) => self.folded(of, Real::lesser, true),
            Value::Sum(of) => self.folded(of, |a, b| Some(a.plus(b)), true),
            Value::Difference(of) => self.folded(of, |a, b| Some(a.less(b)), false),
            Value::Product(of) => self.folded(of, Real::times, false),
            Value::Over { how, of, take } => self.over(*how, of, take),
            Value::Named { value, .. } => self.value(value),
            _ => Err(Undecided::NotKnown),
        }
    }

    fn folded(&mut self, of: &[Value], fold: Fold, without_the_absent: bool) -> Found<Got> {
        let mut got = Vec::new();
        for value in of {
            got.push(self.value(value)?);
        }
        fold_all(got, fold, without_the_absent)
    }

    fn over(&mut self, how: Over, of: &Selection, take: &Value) -> Found<Got> {
        let mut got = Vec::new();
        for thing in self.selected(of)? {
            self.bound.push((of.kind, thing));
            got.push(self.value(take)?);
            self.bound.pop();
        }
        let fold: Fold = match how {
            Over::Largest => Real::greater,
            Over::Smallest => Real::lesser,
            Over::Sum => |a, b| Some(a.plus(b)),
        };
        got.retain(|got| !matches!(got, Got::Nothing | Got::Empty(_)));
        match (got.is_empty(), how) {
            // Of nothing, there is nothing in all.
            (true, Over::Sum) => Ok(Got::Number(Real::whole(0))),
            (true, _) => of_none(of.if_none).map(Got::Empty),
            _ => fold_all(got, fold, true),
        }
    }

    /// The thing that a kind's name stands for; `Ok(None)` where there is none.
    fn meant(&self, kind: KindId) -> Found<Option<usize>> {
        if let Some((_, thing)) = self.bound.iter().rev().find(|(bound, _)| *bound == kind) {
            return Ok(Some(*thing));
        }
        match self.rules.vocabulary.kind(kind).number {
            Number::Many => Err(Undecided::NotKnown),
            _ => Ok(self.world.of_kind(kind).next()),
        }
    }

    pub(super) fn fact(&self, fact: FactId) -> Found<Got> {
        let kind = self.rules.vocabulary.fact(fact).kind;
        let Some(thing) = self.meant(kind)? else {
            return Ok(Got::Nothing);
        };
        Ok(match self.world.things[thing].facts.get(&fact) {
            Some(Held::Amount(amount)) => Got::Number(Real::whole(*amount)),
            Some(Held::Varies(low, high)) => Got::Varies(Real::whole(*low), Real::whole(*high)),
            Some(Held::Word(word)) => Got::Word(word.clone()),
            Some(Held::Nothing) => Got::Nothing,
            None => return Err(Undecided::NotKnown),
        })
    }

    pub(super) fn selected(&mut self, selection: &Selection) -> Found<Vec<usize>> {
        let world = self.world;
        let mut all = Vec::new();
        for thing in world.of_kind(selection.kind) {
            if let Some(zone) = &selection.zone
                && !self.stands_in(zone, thing)?
            {
                continue;
            }
            if let Some(filter) = &selection.filter {
                self.bound.push((selection.kind, thing));
                let level = self.requirement(filter)?;
                self.bound.pop();
                if level != Level::Holds {
                    continue;
                }
            }
            all.push(thing);
        }
        Ok(all)
    }

    /// Whether any outline of a thing comes so near another.
    fn stands_in(&mut self, zone: &Zone, thing: usize) -> Found<bool> {
        let Zone::Around {
            of,
            by: Value::Stated(by),
        } = zone
        else {
            return Err(Undecided::NotKnown);
        };
        let Ok(around) = self.outlines(of)? else {
            return Err(Undecided::NotKnown);
        };
        let by = Real::whole(by.range.low);
        let mut near = false;
        for own in self.world.things[thing].outlines.values() {
            for other in &around {
                let apart = geometry::nearest(own, other).0;
                self.close |= apart != by && apart.near(by, 4);
                near |= apart.compared(by).ok_or(Undecided::Tie)?.is_le();
            }
        }
        Ok(near)
    }

    /// The outlines meant; where there are none, what that comes to.
    fn outlines(&mut self, operand: &Operand) -> Found<Result<Vec<&'a Drawn>, Level>> {
        let world = self.world;
        let (mut all, mut if_none) = (Vec::new(), None);
        for part in &operand.parts {
            let things = match &part.which {
                Which::Bound(kind) => self.meant(*kind)?.into_iter().collect(),
                Which::All(selection) => {
                    if_none = if_none.or(selection.if_none);
                    self.selected(selection)?
                }
            };
            for thing in things {
                match world.things[thing].outlines.get(&part.outline) {
                    Some(drawn) => all.push(drawn),
                    // A thing that is without it.
                    None if self.rules.vocabulary.outline(part.outline).none => {}
                    None => return Err(Undecided::NotKnown),
                }
            }
        }
        match all.is_empty() {
            true => of_none(if_none).map(Err),
            false => Ok(Ok(all)),
        }
    }

    fn distance(&mut self, distance: &Distance) -> Found<Got> {
        if distance.how != Measured::Level {
            return Err(Undecided::NotKnown);
        }
        let (from, to) = (self.outlines(&distance.from)?, self.outlines(&distance.to)?);
        let (from, to) = match (from, to) {
            (Err(level), _) | (_, Err(level)) => return Ok(Got::Empty(level)),
            (Ok(from), Ok(to)) => (from, to),
        };
        let apart = |one: &Drawn, two: &Drawn| match distance.places {
            Places::Nearest => Ok(geometry::nearest(one, two).0),
            Places::Farthest => Ok(geometry::farthest(one, two)),
            Places::FarthestOfFirst => Err(Undecided::NotKnown),
        };
        let mut best: Option<Real> = None;
        for one in &from {
            for two in &to {
                let found = apart(one, two)?;
                best = Some(match best {
                    Some(best) => best.lesser(found).ok_or(Undecided::Tie)?,
                    None => found,
                });
            }
        }
        Ok(Got::Number(best.ok_or(Undecided::NotKnown)?))
    }

    fn area(&mut self, area: &Area) -> Found<Got> {
        if area.within.is_some() || area.share_of.is_some() {
            return Err(Undecided::NotKnown);
        }
        Ok(match self.outlines(&area.of)?.as_deref() {
            Ok([one]) if one.spread == 0 => Got::Number(geometry::area(one)),
            Ok(_) => return Err(Undecided::NotKnown),
            Err(level) => Got::Empty(*level),
        })
    }
}

/// How two numbers make one; `None` where that cannot be told.
type Fold = fn(Real, Real) -> Option<Real>;

/// One number out of several. What is absent is left aside (in a sum, a largest, a smallest) or leaves no number at
/// all (in a difference, a product).
fn fold_all(mut got: Vec<Got>, fold: Fold, without_the_absent: bool) -> Found<Got> {
    if got.contains(&Got::Refer) {
        return Ok(Got::Refer);
    }
    let absent = |got: &Got| matches!(got, Got::Nothing | Got::Empty(_));
    if without_the_absent && !got.iter().all(absent) {
        got.retain(|got| !absent(got));
    }
    if got.contains(&Got::Nothing) {
        return Ok(Got::Nothing);
    }
    if let Some(empty) = got.iter().find(|got| absent(got)) {
        return Ok(empty.clone());
    }
    let mut result: Option<Real> = None;
    for value in &got {
        match (value, result) {
            (Got::Number(number), None) => result = Some(*number),
            (Got::Number(number), Some(so_far)) => {
                result = Some(fold(so_far, *number).ok_or(Undecided::Tie)?);
            }
            _ => return Err(Undecided::NotKnown),
        }
    }
    result.map(Got::Number).ok_or(Undecided::NotKnown)
}
