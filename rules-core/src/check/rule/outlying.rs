//! Where each of some things must keep a clearance from another thing, those that surely keep it, and by more than some other
//! of them, are left out before anything is measured.

use crate::check::judge::members::Listed;
use crate::check::judge::{Ask, Judge};
use crate::check::value::distance::End;
use crate::check::value::nearest::{FEW, MARGIN};
use crate::check::world::env::{Env, Referent};
use crate::ruleset::{
    Bound, Distance, Each, Measured, Operand, Part, Places, Requirement, Value, Which,
};
use crate::vocabulary::{KindId, OutlineId};
use crate::work;

/// The least distance of each of some things, in nanometres, and the distance beyond which things are left out.
pub(crate) struct Outlying {
    least: Vec<Option<f64>>,
    from: f64,
}

impl Outlying {
    const NONE: Outlying = Outlying {
        least: Vec::new(),
        from: f64::INFINITY,
    };

    /// Whether the thing at this index of the list is left out.
    pub(crate) fn leaves_out(&self, place: usize) -> bool {
        let least = self.least.get(place).copied().flatten();
        least.is_some_and(|least| least > self.from)
    }
}

impl<'a> Judge<'a> {
    /// Which of some things need not be judged.
    pub(crate) fn outlying(
        &self,
        each: &'a Each,
        members: &Listed,
        env: &Env<'_>,
        ask: Ask,
    ) -> Outlying {
        let found = || {
            let clearance = Clearance::of(each).filter(|_| !ask.negated)?;
            let fixed = self.fixed_end(&clearance, env)?;
            self.outlying_of(&clearance, &fixed, members)
        };
        match members.len() < FEW {
            true => Outlying::NONE,
            false => found().unwrap_or(Outlying::NONE),
        }
    }

    /// The end of the distance that is the same for all the things.
    fn fixed_end(&self, clearance: &Clearance, env: &Env<'_>) -> Option<End<'static>> {
        let (kind, outline) = clearance.fixed;
        let referent = env.bound(kind)?;
        env.zone(kind)
            .is_none()
            .then_some(End::whole(referent, outline))
    }

    fn outlying_of(
        &self,
        clearance: &Clearance,
        fixed: &End<'static>,
        members: &Listed,
    ) -> Option<Outlying> {
        if !self.scene.plan().measured.is_empty() {
            return None;
        }
        work::corners(members.len());
        let fixed_box = self.end_box(fixed)?;
        let end = |referent: Referent| End {
            referent,
            outline: clearance.outline,
            ..*fixed
        };
        let least = members.iter().map(|(referent, sure)| {
            let own = self.end_box(&end(*referent)).filter(|_| *sure)?;
            Some(own.rectangle.apart(&fixed_box.rectangle) - MARGIN)
        });
        let least: Vec<Option<f64>> = least.collect();
        let known = least.iter().zip(members);
        let known = known.filter_map(|(least, (referent, _))| Some(((*least)?, *referent)));
        let (_, nearest) = known.min_by(|(one, _), (other, _)| one.total_cmp(other))?;
        let nearest = self.nearest(&end(nearest), fixed, &Env::EMPTY).range.high;
        Some(Outlying {
            least,
            from: nearest.max(clearance.limit) as f64,
        })
    }
}

/// A clearance that each of some things must keep from one fixed thing.
struct Clearance {
    outline: OutlineId,
    fixed: (KindId, OutlineId),
    /// The required clearance is no more than this.
    limit: i128,
}

impl Clearance {
    fn of(each: &Each) -> Option<Clearance> {
        let Requirement::Test(test) = &each.require else {
            return None;
        };
        let (Value::Distance(distance), None, None) =
            (&test.value, test.holds, &each.selection.zone)
        else {
            return None;
        };
        let [Bound::AtLeast(limit) | Bound::MoreThan(limit)] = test.bounds.as_slice() else {
            return None;
        };
        let Value::Stated(limit) = limit else {
            return None;
        };
        let (one, other) = bound_ends(distance)?;
        let kind = each.selection.kind;
        let (own, fixed) = match (one.0 == kind, other.0 == kind) {
            (true, false) => (one, other),
            (false, true) => (other, one),
            _ => return None,
        };
        Some(Clearance {
            outline: own.1,
            fixed,
            limit: limit.range.high,
        })
    }
}

/// The two outlines of a level distance, where each is of a single named thing.
fn bound_ends(distance: &Distance) -> Option<((KindId, OutlineId), (KindId, OutlineId))> {
    let plain = distance.how == Measured::Level && distance.places == Places::Nearest;
    let ends = || Some((bound_end(&distance.from)?, bound_end(&distance.to)?));
    plain.then(ends).flatten()
}

fn bound_end(operand: &Operand) -> Option<(KindId, OutlineId)> {
    match operand.parts.as_ref() {
        [
            Part {
                which: Which::Bound(kind),
                outline,
                ..
            },
        ] => Some((*kind, *outline)),
        _ => None,
    }
}

#[cfg(test)]
#[path = "outlying_tests.rs"]
mod tests;
