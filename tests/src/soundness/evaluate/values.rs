//! Values in one world.

use rules_core::check::Level;
use rules_core::ruleset::{
    Distance, Measured, Operand, Over, Places, Selection, Then, Value, Which,
};
use rules_core::vocabulary::{FactId, KindId, Number, OutlineId};

use super::{Found, Got, Said, Scene, Undecided, of_none};
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
                Some(Then::Give(value)) => self.value(value),
                Some(Then::Refer) => Ok(Got::Refer),
                None => Ok(Got::Void(None)),
            },
            Value::Largest(of) => self.folded(of, Real::greater, true),
            Value::Smallest(of) => self.folded(of, Real::lesser, true),
            Value::Sum(of) => self.folded(of, |a, b| Some(a.plus(b)), true),
            Value::Difference(of) => self.folded(of, |a, b| Some(a.less(b)), false),
            Value::Product(of) => self.folded(of, Real::times, false),
            Value::Over { how, of, take } => self.over(*how, of, take),
            Value::Named { term, value, .. } => self.within(term.scope, |scene| scene.value(value)),
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
            got.push(self.with(of, thing, |scene| scene.value(take))?);
        }
        let fold: Fold = match how {
            Over::Largest => Real::greater,
            Over::Smallest => Real::lesser,
            Over::Sum => |a, b| Some(a.plus(b)),
        };
        if how != Over::Sum && got.contains(&Got::Nothing) && !got.contains(&Got::Refer) {
            return Ok(Got::Nothing);
        }
        got.retain(|got| !is_absent(got));
        match (got.is_empty(), how) {
            // The sum of nothing is zero.
            (true, Over::Sum) => Ok(Got::Number(Real::whole(0))),
            (true, Over::Largest) if of.if_none.is_none() => Ok(Got::Least),
            (true, _) => Ok(Got::Void(of_none(of.if_none))),
            _ => fold_all(got, fold, true),
        }
    }

    /// The thing that a kind's name stands for; `Ok(None)` if there is none.
    pub(super) fn meant(&self, kind: KindId) -> Found<Option<usize>> {
        if let Some((_, thing)) = self.bound.iter().rev().find(|(bound, _)| *bound == kind) {
            return Ok(Some(*thing));
        }
        match self.rules.vocabulary.kind(kind).number {
            Number::Many => Err(Undecided::NotKnown),
            _ => Ok(self.world.of_kind(kind).next()),
        }
    }

    pub(super) fn fact(&mut self, fact: FactId) -> Found<Got> {
        let kind = self.rules.vocabulary.fact(fact).kind;
        let Some(thing) = self.meant(kind)? else {
            return Ok(Got::Nothing);
        };
        Ok(match self.world.things[thing].facts.get(&fact) {
            Some(Held::Amount(amount)) => Got::Number(Real::whole(*amount)),
            Some(Held::Along(values)) => {
                let here = values.get(self.places[thing]);
                Got::Number(Real::whole(*here.ok_or(Undecided::NotKnown)?))
            }
            Some(Held::Word(word)) => Got::Word(word.clone()),
            Some(Held::Nothing) => Got::Nothing,
            None => return Err(Undecided::NotKnown),
        })
    }

    /// Whether the paper is in hand: the one for the bound thing, if each has its own.
    pub(super) fn paper(&self, document: usize) -> Found<Level> {
        match &self.rules.documents[document].each {
            None => Ok(self.world.papers[document]),
            Some(each) => {
                let thing = self.meant(each.kind)?.ok_or(Undecided::NotKnown)?;
                Ok(self.world.things[thing].papers[document])
            }
        }
    }

    pub(super) fn selected(&mut self, selection: &Selection) -> Found<Vec<usize>> {
        match selection.closed {
            Some(scope) => self.within(scope, |scene| scene.selected_here(selection)),
            None => self.selected_here(selection),
        }
    }

    fn selected_here(&mut self, selection: &Selection) -> Found<Vec<usize>> {
        let world = self.world;
        let mut all = Vec::new();
        let whole = match selection.part_of {
            Some(kind) => Some(self.meant(kind)?),
            None => None,
        };
        for thing in world.of_kind(selection.kind) {
            let of = whole.map(|whole| whole.is_some_and(|whole| world.is_part(thing, whole)));
            if of == Some(false) {
                continue;
            }
            if let Some(filter) = &selection.filter {
                self.bound.push((selection.kind, thing));
                let level = self.asked(filter)?;
                self.bound.pop();
                if level != Level::Holds {
                    continue;
                }
            }
            if let Some(zone) = &selection.zone
                && !self.stands_in(thing, zone)?
            {
                continue;
            }
            all.push(thing);
        }
        Ok(all)
    }

    /// The outlines meant or, if there are none, what the rule says that means.
    pub(super) fn outlines(&mut self, operand: &Operand) -> Found<Result<Vec<&'a Drawn>, Said>> {
        let world = self.world;
        let (mut all, mut if_none) = (Vec::new(), None);
        for part in operand.parts.iter() {
            let things = match &part.which {
                // Only the part in the zone is meant, which is not worked out here.
                Which::Bound(kind) if self.cut.contains(kind) => return Err(Undecided::NotKnown),
                Which::All(selection) | Which::Meant(selection) if selection.zone.is_some() => {
                    return Err(Undecided::NotKnown);
                }
                Which::Bound(kind) => self.meant(*kind)?.into_iter().collect(),
                Which::Meant(selection) => {
                    if_none = if_none.or(selection.if_none);
                    let meant = self.meant(selection.kind)?;
                    let mut selected = self.selected(selection)?;
                    selected.retain(|thing| Some(*thing) == meant);
                    selected
                }
                Which::All(selection) => {
                    if_none = if_none.or(selection.if_none);
                    self.selected(selection)?
                }
            };
            for thing in things {
                if part.if_drawn && !self.is_drawn(thing, part.outline) {
                    continue;
                }
                match world.things[thing].outlines.get(&part.outline) {
                    Some(drawn) => all.push(drawn),
                    // A thing without that outline.
                    None if self.rules.vocabulary.outline(part.outline).none => {}
                    None => return Err(Undecided::NotKnown),
                }
            }
        }
        Ok(match all.is_empty() {
            true => Err(of_none(if_none)),
            false => Ok(all),
        })
    }

    /// Whether the plan draws an outline of a thing.
    fn is_drawn(&self, thing: usize, outline: OutlineId) -> bool {
        let id = &self.world.things[thing].id;
        let mut things = self.plan.iter().flat_map(|plan| &plan.things);
        things.any(|thing| thing.id == *id && thing.outlines.contains_key(&outline))
    }

    fn distance(&mut self, distance: &Distance) -> Found<Got> {
        if distance.how != Measured::Level {
            return Err(Undecided::NotKnown);
        }
        let (from, to) = (self.outlines(&distance.from)?, self.outlines(&distance.to)?);
        let (from, to) = match (from, to) {
            // If both ends have no things, the first says what that means.
            (Err(said), _) | (_, Err(said)) => {
                return Ok(match distance.places {
                    Places::Nearest => Got::Endless(said),
                    _ => Got::Void(said),
                });
            }
            (Ok(from), Ok(to)) => (from, to),
        };
        let apart = |one: &Drawn, two: &Drawn| match distance.places {
            Places::Nearest => Ok(geometry::nearest(one, two).0),
            Places::Farthest => Ok(geometry::farthest(one, two)),
            Places::FarthestOfFirst => Err(Undecided::NotKnown),
        };
        let better: Fold = match distance.places {
            Places::Farthest => Real::greater,
            _ => Real::lesser,
        };
        let mut best: Option<Real> = None;
        for one in &from {
            for two in &to {
                let found = apart(one, two)?;
                best = Some(match best {
                    Some(best) => better(best, found).ok_or(Undecided::Tie)?,
                    None => found,
                });
            }
        }
        Ok(Got::Number(best.ok_or(Undecided::NotKnown)?))
    }
}

/// Combines two numbers; `None` if that cannot be told.
type Fold = fn(Real, Real) -> Option<Real>;

fn is_absent(got: &Got) -> bool {
    matches!(
        got,
        Got::Nothing | Got::Endless(_) | Got::Void(_) | Got::Least | Got::Bare | Got::Muddled
    )
}

/// Combines several numbers. An absent one is skipped (in a sum, a largest, a smallest) or leaves no number at all (in
/// a difference, a product).
fn fold_all(mut got: Vec<Got>, fold: Fold, without_the_absent: bool) -> Found<Got> {
    if got.contains(&Got::Refer) {
        return Ok(Got::Refer);
    }
    if without_the_absent && !got.iter().all(is_absent) {
        got.retain(|got| !is_absent(got));
    }
    if got.len() > 1 && got.contains(&Got::Least) {
        return Err(Undecided::NotKnown);
    }
    if got.contains(&Got::Nothing) {
        return Ok(Got::Nothing);
    }
    if let Some(absent) = got.iter().find(|got| is_absent(got)) {
        let said = got
            .iter()
            .find(|got| matches!(got, Got::Endless(Some(_)) | Got::Void(Some(_))));
        return match (absent, said) {
            (Got::Endless(None) | Got::Void(None) | Got::Bare, None) if got.len() > 1 => {
                Ok(Got::Muddled)
            }
            // One says what it means, the other does not.
            (Got::Endless(None) | Got::Void(None) | Got::Bare, Some(_)) => Err(Undecided::NotKnown),
            (absent, _) => Ok(absent.clone()),
        };
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
