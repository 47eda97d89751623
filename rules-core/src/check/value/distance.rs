//! How far apart two outlines may be.

use smallvec::{SmallVec, smallvec};

use crate::check::judge::Judge;
use crate::check::judge::members::Listed;
use crate::check::judge::possible::{Alternative, Alternatives, PossibleValue};
use crate::check::value::heights::Extent;
use crate::check::world::env::{Env, Referent, thing_of};
use crate::check::{Missing, Witness};
use crate::measure::{Gap, Span, figure_gap, in_space};
use crate::plan::{Figure, Looked, Thing, ThingIndex};
use crate::quantity::{Dimension, Interval, NO_HIGH};
use crate::ruleset::{Distance, IfNone, Measured, Operand, Part, Places, Which, Zone};
use crate::vocabulary::{KindId, OutlineId};
use crate::work;

/// One outline at one end of a distance.
#[derive(Debug, Clone, Copy)]
pub(crate) struct End<'e> {
    pub(crate) referent: Referent,
    pub(crate) outline: OutlineId,
    /// Whether it is surely meant.
    pub(crate) sure: bool,
    /// Only its part in this zone is meant.
    pub(crate) zone: Option<&'e Zone>,
}

impl End<'_> {
    /// All of an outline that is surely meant.
    pub(crate) fn whole(referent: Referent, outline: OutlineId) -> End<'static> {
        End {
            referent,
            outline,
            sure: true,
            zone: None,
        }
    }
}

/// The outlines at one end; mostly one or two.
pub(crate) type EndList<'e> = SmallVec<[End<'e>; 4]>;

/// All outlines at one end of a distance.
pub(crate) struct Ends<'e> {
    pub(crate) list: EndList<'e>,
    pub(crate) if_none: Option<IfNone>,
}

/// The possible distances between two outlines.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Pair {
    pub(crate) range: Interval,
    pub(crate) witness: Option<Witness>,
    pub(crate) tolerance: Option<i64>,
}

/// A drawn outline of a thing.
#[derive(Clone, Copy)]
pub(crate) struct Drawn<'a> {
    pub(crate) index: ThingIndex,
    pub(crate) thing: &'a Thing,
    pub(crate) outline: OutlineId,
    pub(crate) figure: &'a Figure,
}

impl Pair {
    pub(crate) fn anywhere() -> Pair {
        Pair {
            range: Interval::from_low(0),
            witness: None,
            tolerance: None,
        }
    }
}

impl<'a> Judge<'a> {
    /// The distance between two sets of outlines: of the nearest pair, or to the farthest places of all of them.
    pub(crate) fn distance(&self, distance: &'a Distance, env: &Env<'_>) -> PossibleValue {
        let from = self.ends(&distance.from, env);
        let to = self.ends(&distance.to, env);
        let measured = match distance.places {
            Places::Nearest => self.nearest_pair(distance, (&from, &to), env),
            _ => self.farthest_of_all(distance, (&from, &to), env),
        };
        let range = measured.map(|found| found.range);
        let mut ways: Alternatives = range.map(Alternative::amount).into_iter().collect();
        // Each end that may be empty has its own `if-none`; where both are surely empty, the first one's counts.
        for end in [&from, &to] {
            if self.may_be_none(end) {
                ways.push(match (end.if_none, distance.places) {
                    (None, Places::Nearest) => Alternative::Far,
                    (said, _) => Alternative::Empty(said),
                });
            }
            if end.list.is_empty() {
                break;
            }
        }
        PossibleValue {
            witness: measured.and_then(|found| found.witness),
            tolerance: measured.and_then(|found| found.tolerance),
            ..PossibleValue::of(ways, Dimension::Length)
        }
    }

    /// The nearest of all pairs.
    fn nearest_pair(
        &self,
        distance: &'a Distance,
        (from, to): (&Ends<'_>, &Ends<'_>),
        env: &Env<'_>,
    ) -> Option<Pair> {
        let mut all: Option<Pair> = None;
        let mut sure = Interval::exact(NO_HIGH);
        let pruned = self.pruned_pairs(distance, (from, to), env);
        for (at, one) in from.list.iter().enumerate() {
            work::corners(to.list.len());
            for (against, other) in to.list.iter().enumerate() {
                if pruned.leaves_out(at, against) {
                    continue;
                }
                if work::step_is_too_many() {
                    break;
                }
                let pair = self.between(distance.how, one, other, env);
                if one.sure && other.sure {
                    sure = sure.min(pair.range);
                }
                if all.is_none_or(|least| pair.range.low < least.range.low) {
                    all = Some(pair);
                }
            }
        }
        all.map(|nearest| Pair {
            range: Interval {
                low: nearest.range.low,
                high: sure.high,
            },
            ..nearest
        })
    }

    /// Whether there may be no outline at this end: one that is not drawn may not exist at all.
    pub(crate) fn may_be_none(&self, ends: &Ends<'_>) -> bool {
        let there = |end: &End<'_>| end.sure && !self.may_lack(end.referent, end.outline);
        !ends.list.iter().any(there)
    }

    /// The outlines that an operand means.
    pub(crate) fn ends<'e>(&self, operand: &'a Operand, env: &Env<'e>) -> Ends<'e>
    where
        'a: 'e,
    {
        let mut ends = Ends {
            list: EndList::new(),
            if_none: None,
        };
        for part in operand.parts.iter() {
            if let Some(selection) = part.which.selection() {
                ends.if_none = ends.if_none.or(selection.if_none);
            }
            ends.list.extend(self.part_ends(part, env));
        }
        ends
    }

    /// The outlines that one part of an operand means.
    pub(crate) fn part_ends<'e>(&self, part: &'a Part, env: &Env<'e>) -> EndList<'e>
    where
        'a: 'e,
    {
        let (list, zone) = match &part.which {
            Which::Bound(kind) => (self.bound(*kind, env), env.zone(*kind)),
            Which::Meant(selection) => {
                let meant = self.meant_member(selection, env).list;
                (meant, selection.zone.as_deref())
            }
            Which::All(selection) => (self.members(selection, env).list, selection.zone.as_deref()),
        };
        // Where a rule says what "none" means, an outline that is not drawn and that its thing may lack is not a sure one.
        let selection = part.which.selection();
        let says_none = selection.is_some_and(|selection| selection.if_none.is_some());
        list.into_iter()
            .filter(|(referent, _)| !self.lacks(*referent, part.outline))
            .filter(|(referent, _)| !part.if_drawn || self.is_drawn(*referent, part.outline))
            .map(|(referent, sure)| End {
                referent,
                outline: part.outline,
                sure: sure && !(says_none && self.may_lack(referent, part.outline)),
                zone,
            })
            .collect()
    }

    fn is_drawn(&self, referent: Referent, outline: OutlineId) -> bool {
        let thing = thing_of(referent).and_then(|index| self.scene.thing(index));
        thing.is_some_and(|thing| thing.outlines.contains_key(&outline))
    }

    /// Whether a thing surely lacks an outline.
    pub(crate) fn lacks(&self, referent: Referent, outline: OutlineId) -> bool {
        let thing = thing_of(referent).and_then(|index| self.scene.thing(index));
        thing.is_some_and(|thing| thing.lacks.contains(&outline))
    }

    /// Whether a thing may lack an outline: it is one that may be missing, and it is not drawn.
    pub(crate) fn may_lack(&self, referent: Referent, outline: OutlineId) -> bool {
        let thing = thing_of(referent).and_then(|index| self.scene.thing(index));
        let drawn = thing.is_some_and(|thing| thing.outlines.contains_key(&outline));
        self.scene.rules().vocabulary.outline(outline).none && !drawn
    }

    /// The thing that a kind's name stands for here, otherwise everything of its kind.
    fn bound(&self, kind: KindId, env: &Env<'_>) -> Listed {
        match env.bound(kind) {
            Some(Referent::Absent) => Listed::new(),
            Some(referent) => smallvec![(referent, true)],
            None => self.all_of_kind(kind, env),
        }
    }

    pub(crate) fn between(
        &self,
        how: Measured,
        one: &End<'_>,
        other: &End<'_>,
        env: &Env<'_>,
    ) -> Pair {
        let pair = self.nearest(one, other, env);
        match how {
            Measured::Level => pair,
            Measured::InSpace => self.in_space(pair, one, other, env),
            Measured::Plumb => Pair {
                range: self.rise(one, other, env),
                ..pair
            },
            Measured::Walking => self.on_foot(pair, one, other),
        }
    }

    /// The drawn outline at an end, where there is one.
    pub(crate) fn drawn(&self, end: &End<'_>) -> Option<Drawn<'a>> {
        let index = thing_of(end.referent)?;
        let thing = self.scene.thing(index)?;
        let Some(figure) = thing.outlines.get(&end.outline) else {
            self.scene
                .depends_on(Missing::Outline(index, end.outline), true, &[]);
            return None;
        };
        self.scene.base.note_read(index);
        Some(Drawn {
            index,
            thing,
            outline: end.outline,
            figure,
        })
    }

    /// Notes an outline as missing if it is not drawn, without reading one that is.
    fn note_if_not_drawn(&self, end: &End<'_>) {
        if !self.is_drawn(end.referent, end.outline) {
            self.drawn(end);
        }
    }

    pub(crate) fn nearest(&self, one: &End<'_>, other: &End<'_>, env: &Env<'_>) -> Pair {
        match (one.referent, other.referent) {
            (Referent::Unseen(kind), _) => return self.to_unseen(kind, other),
            (_, Referent::Unseen(kind)) => return self.to_unseen(kind, one),
            _ => {}
        }
        let (Some(a), Some(b)) = (self.drawn(one), self.drawn(other)) else {
            return Pair::anywhere();
        };
        let gap = self.gap(&a, &b);
        let tolerance = self.joint_true_tolerance(&a, &b);
        let range = self.taped(&a, &b, self.apart(&a, &b, gap, tolerance));
        let range = self.clipped((one, &a), (other, &b), range, env);
        Pair {
            range,
            witness: Some(witness(&a, &b, gap)),
            tolerance: tolerance.filter(|tolerance| *tolerance > 0),
        }
    }

    fn gap(&self, a: &Drawn<'a>, b: &Drawn<'a>) -> Gap {
        self.scene
            .base
            .gap((a.index, a.outline, b.index, b.outline), || {
                figure_gap(a.figure, b.figure)
            })
    }

    /// The drawn distance, plus or minus the tolerance of both ends.
    pub(crate) fn apart(
        &self,
        a: &Drawn<'a>,
        b: &Drawn<'a>,
        gap: Gap,
        tolerance: Option<i64>,
    ) -> Interval {
        let Some(tolerance) = tolerance else {
            return Interval::from_low(0);
        };
        if let Some(range) = self
            .past_the_line(a, b, gap, tolerance)
            .or_else(|| self.past_the_line(b, a, gap, tolerance))
        {
            return range;
        }
        let deep = gap.high == 0 && self.surely_overlaps(a, b, tolerance);
        let low = i128::from(gap.low)
            .saturating_sub(i128::from(tolerance))
            .max(0);
        let high = if deep {
            0
        } else {
            i128::from(gap.high).saturating_add(i128::from(tolerance))
        };
        Interval { low, high }
    }

    /// The distance to something unseen: at least as far as the search for it went.
    fn to_unseen(&self, kind: KindId, end: &End<'_>) -> Pair {
        let looked = self.scene.plan().inventory.get(&kind);
        let Some(Looked::AllShown(Some(radius))) = looked else {
            self.note_if_not_drawn(end);
            return Pair::anywhere();
        };
        let Some(own) = self.drawn(end) else {
            return Pair::anywhere();
        };
        let low = match self.beyond_the_lot(&own) {
            Some(beyond) => i128::from(*radius).saturating_sub(beyond).max(0),
            None => 0,
        };
        Pair {
            range: Interval::from_low(low),
            ..Pair::anywhere()
        }
    }

    fn in_space(&self, pair: Pair, one: &End<'_>, other: &End<'_>, env: &Env<'_>) -> Pair {
        self.along_wire(pair, one, other, env)
            .unwrap_or_else(|| Pair {
                range: slant(pair.range, self.rise(one, other, env)),
                ..pair
            })
    }

    /// The difference in height between two ends, each of which takes up everything between its lowest and its highest place.
    pub(crate) fn rise(&self, one: &End<'_>, other: &End<'_>, env: &Env<'_>) -> Interval {
        let [here, there] = self.standing_at(one, other, env);
        here.rise(&there)
    }

    /// The vertical extents of two things, in one datum.
    pub(crate) fn standing_at(&self, one: &End<'_>, other: &End<'_>, env: &Env<'_>) -> [Extent; 2] {
        let grounds = [one, other].map(|end| self.drawn(end).map(|drawn| self.lying(&drawn)));
        let [here, there] = self.grounds(grounds, env);
        let (one, other) = (self.extent(one, other, env), self.extent(other, one, env));
        [one.upon(here), other.upon(there)]
    }
}

/// The straight distance in space from a distance on the plan and a difference in height.
pub(crate) fn slant(plan: Interval, rise: Interval) -> Interval {
    let straight = in_space(span(plan), span(rise));
    let high = match plan.greatest().and(rise.greatest()) {
        Some(_) => i128::from(straight.high),
        None => NO_HIGH,
    };
    Interval {
        low: i128::from(straight.low),
        high,
    }
}

pub(crate) fn witness(a: &Drawn<'_>, b: &Drawn<'_>, gap: Gap) -> Witness {
    Witness {
        from: gap.from,
        to: gap.to,
        from_thing: a.index,
        from_outline: a.outline,
        to_thing: b.index,
        to_outline: b.outline,
    }
}

/// An interval of lengths as the geometry takes it, with "no bound" as its longest length.
fn span(range: Interval) -> Span {
    let end = |amount: i128| i64::try_from(amount).unwrap_or(if amount < 0 { 0 } else { i64::MAX });
    Span {
        low: end(range.low),
        high: end(range.high),
    }
}
