//! Places along things: where a value changes along a thing, a rule is judged at each place by itself.
//!
//! Say a fence is from 1.5 m to 2.5 m high. Then one place is 1.5 m high and another 2.5 m, and there may or may not be
//! places in between. So a rule that reads the height is judged at the lowest place, at the highest, and at one that may
//! exist and may be anything in between; the rule must hold at all of them. With two facts of one thing, it is not known
//! whether their lowest places coincide: where one is lowest, the other may be anything. With two things, every pair of
//! places is judged.

use std::collections::{BTreeMap, BTreeSet};

use crate::check::At;
use crate::check::world::dependency::Dependency;
use crate::check::world::env::{Referent, thing_of};
use crate::check::world::scene::Scene;
use crate::check::world::split;
use crate::quantity::Interval;
use crate::vocabulary::{FactId, KindId};

/// A place along each of the things that change: where some fact is lowest or highest. Other facts may have any value there.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Place {
    /// The things that a rule is about one by one; all others of a kind are taken together.
    subjects: Vec<Referent>,
    ends: Vec<(Group, End)>,
}

/// Things at the same place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Group {
    One(Referent),
    AllOther(KindId),
}

/// Where a fact is lowest or highest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct End {
    fact: FactId,
    highest: bool,
}

impl Place {
    /// A fact's value at this place, given its values at its lowest and its highest place.
    pub(crate) fn amount(
        &self,
        referent: Referent,
        (kind, fact): (KindId, FactId),
        (least, most): (Interval, Interval),
    ) -> Interval {
        let group = self.group(referent, kind);
        let end = self
            .ends
            .iter()
            .find(|(own, end)| *own == group && end.fact == fact);
        match end {
            Some((_, End { highest: false, .. })) => least,
            Some((_, End { highest: true, .. })) => most,
            None => least.hull(most),
        }
    }

    fn group(&self, referent: Referent, kind: KindId) -> Group {
        match self.subjects.contains(&referent) {
            true => Group::One(referent),
            false => Group::AllOther(kind),
        }
    }

    /// Where it is, for people.
    pub(crate) fn at(&self) -> Vec<At> {
        let ends = self.ends.iter().map(|(group, end)| At {
            thing: match group {
                Group::One(referent) => thing_of(*referent),
                Group::AllOther(_) => None,
            },
            fact: end.fact,
            highest: end.highest,
        });
        ends.collect()
    }
}

/// The places at which to judge a rule about these subjects, given what it depends on; none where nothing changes.
pub(crate) fn places(
    scene: &Scene<'_>,
    dependencies: &[Dependency],
    subjects: &[Referent],
) -> Vec<Place> {
    let place = |ends: &[(Group, End)]| Place {
        subjects: subjects.to_vec(),
        ends: ends.to_vec(),
    };
    let groups = changing(scene, dependencies, &place(&[]));
    let ends = |(group, facts): (&Group, &BTreeSet<FactId>)| -> Vec<(Group, End)> {
        let both = facts
            .iter()
            .flat_map(|&fact| [false, true].map(|highest| (*group, End { fact, highest })));
        both.collect()
    };
    let groups: Vec<Vec<(Group, End)>> = groups.iter().map(ends).collect();
    match groups.as_slice() {
        [] => Vec::new(),
        [only] => only.iter().map(|end| place(&[*end])).collect(),
        several => pairs(several).iter().map(|pair| place(pair)).collect(),
    }
}

/// Every pair of ends of two groups.
fn pairs(groups: &[Vec<(Group, End)>]) -> Vec<[(Group, End); 2]> {
    let mut all = Vec::new();
    for (at, one) in groups.iter().enumerate() {
        for other in groups.iter().skip(at + 1) {
            for end in one {
                all.extend(other.iter().map(|beside| [*end, *beside]));
            }
        }
    }
    all
}

/// The facts that were read and change along their things.
fn changing(
    scene: &Scene<'_>,
    dependencies: &[Dependency],
    place: &Place,
) -> BTreeMap<Group, BTreeSet<FactId>> {
    let mut groups: BTreeMap<Group, BTreeSet<FactId>> = BTreeMap::new();
    for key in dependencies
        .iter()
        .filter(|dependency| dependency.at_place)
        .filter_map(split::key)
    {
        let kind = scene.rules().vocabulary.fact(key.fact).kind;
        let group = place.group(key.referent, kind);
        groups.entry(group).or_default().insert(key.fact);
    }
    groups
}
