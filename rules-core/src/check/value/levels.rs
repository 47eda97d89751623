//! Levels in the plan's own datum, and what follows from them: falls, volumes, and heights above things nearby.

use crate::check::Missing;
use crate::check::judge::Judge;
use crate::check::judge::possible::{Alternative, Alternatives, PossibleValue};
use crate::check::value::distance::{End, Pair};
use crate::check::value::heights::{VaryingHeight, facts_of_height};
use crate::check::value::several::OfSeveral;
use crate::check::world::env::{Env, thing_of};
use crate::measure::{flood_storage_taken, mass_of_water};
use crate::quantity::{Dimension, Interval, NO_HIGH};
use crate::ruleset::{Fall, HeightOver, LevelOf, Operand, Surface, Volume};
use crate::vocabulary::{FactId, OutlineId, Vocabulary};

/// The fact that states the level of an outline, where there is one.
pub(crate) fn fact_of_level(outline: OutlineId, vocabulary: &Vocabulary) -> Option<FactId> {
    let level = vocabulary.outline(outline).lie.level;
    level.map(|level| level.fact)
}

impl<'a> Judge<'a> {
    /// The lowest and the highest level of some outlines, or of the ground below them.
    pub(crate) fn level(&self, level: &'a LevelOf, env: &Env<'_>) -> PossibleValue {
        let ends = self.ends(&level.of, env);
        let mut all = OfSeveral::default();
        for end in &ends.list {
            let own = match level.ground {
                true => self.ground_at(end, env),
                false => self.level_at(end, env),
            };
            all.add(own, end.sure);
        }
        let mut ways: Alternatives = all.way().into_iter().collect();
        if !ends.list.iter().any(|end| end.sure) {
            ways.push(Alternative::Empty(ends.if_none));
        }
        PossibleValue::of(ways, Dimension::Length)
    }

    /// The level of the ground along an outline; where it is unknown, spots are noted as missing.
    fn ground_at(&self, end: &End<'_>, env: &Env<'_>) -> VaryingHeight {
        let known = self.drawn(end).and_then(|drawn| {
            self.ground_under(drawn.figure, self.absolute_tolerance(&drawn), env)
        });
        match known {
            // It is not known where the lowest place of a cut part is.
            Some(reach) if end.zone.is_some() => VaryingHeight::of(reach.hull()),
            Some(reach) => reach,
            None => {
                let spots = Missing::Inventory(self.special.spot);
                self.scene.depends_on(spots, true, &[]);
                VaryingHeight::of(Interval::any())
            }
        }
    }

    /// The level of an outline: as stated, otherwise from the ground and its height above it.
    fn level_at(&self, end: &End<'_>, env: &Env<'_>) -> VaryingHeight {
        let vocabulary = &self.scene.rules().vocabulary;
        let level = vocabulary.outline(end.outline).lie.level;
        let by_fact = level.is_some_and(|level| level.only);
        let stated = |fact| {
            let thing = thing_of(end.referent).and_then(|index| self.scene.thing(index));
            thing.is_some_and(|thing| thing.facts.contains_key(&fact))
        };
        match level.map(|level| level.fact) {
            Some(fact) if by_fact || !self.stands_on_known_ground(end, env) => {
                self.varying_height(fact, end.referent, env)
            }
            // Stated in two ways: both hold.
            Some(fact) if stated(fact) => {
                let own = self.varying_height(fact, end.referent, env);
                match own.hull().is_exact() {
                    true => own,
                    false => own.meet(self.level_from_ground(end, env)),
                }
            }
            // Neither its level nor its height is stated: it may be in a cut, below the ground around it.
            Some(fact)
                if !facts_of_height(end.outline, vocabulary)
                    .into_iter()
                    .any(stated) =>
            {
                self.varying_height(fact, end.referent, env)
            }
            _ => self.level_from_ground(end, env),
        }
    }

    /// A thing's stated level, and the level that the ground and its stated height give; `None` where one of the two is not
    /// stated.
    pub(crate) fn level_stated_twice(
        &self,
        end: &End<'_>,
        env: &Env<'_>,
    ) -> Option<(FactId, Interval, FactId, Interval)> {
        let vocabulary = &self.scene.rules().vocabulary;
        let thing = thing_of(end.referent).and_then(|index| self.scene.thing(index))?;
        let stated = |fact: &FactId| {
            thing
                .facts
                .get(fact)
                .is_some_and(|own| own.amount.is_some())
        };
        let level = fact_of_level(end.outline, vocabulary).filter(stated)?;
        let height = facts_of_height(end.outline, vocabulary)
            .into_iter()
            .find(stated)?;
        let on_known_ground = self.stands_on_known_ground(end, env);
        on_known_ground.then(|| {
            let own = self.varying_height(level, end.referent, env).hull();
            (level, own, height, self.level_from_ground(end, env).hull())
        })
    }

    fn stands_on_known_ground(&self, end: &End<'_>, env: &Env<'_>) -> bool {
        self.drawn(end).is_some_and(|drawn| {
            self.ground_under(drawn.figure, self.absolute_tolerance(&drawn), env)
                .is_some()
        })
    }

    /// The ground's level plus the height above it: a hole's floor, and the top of everything else.
    fn level_from_ground(&self, end: &End<'_>, env: &Env<'_>) -> VaryingHeight {
        let extent = self.extent(end, end, env);
        let hole = self
            .scene
            .rules()
            .vocabulary
            .outline(end.outline)
            .lie
            .lowest;
        let height = if hole { extent.bottom } else { extent.top };
        self.ground_at(end, env).plus(height)
    }

    /// The least and the greatest fall from any outline to any other, per length of run.
    pub(crate) fn fall(&self, fall: &'a Fall, env: &Env<'_>) -> PossibleValue {
        let (from, to) = (self.ends(&fall.from, env), self.ends(&fall.to, env));
        let run = fall.run.as_ref().map(|run| self.value(run, env, &[]));
        let mut all = OfSeveral::default();
        let mut flattest: Option<(Interval, Pair)> = None;
        for one in &from.list {
            for other in &to.list {
                let pair = self.nearest(one, other, env);
                let drop = self
                    .level_at(one, env)
                    .hull()
                    .sub(self.level_at(other, env).hull());
                let length = match &run {
                    Some(run) => run.range().unwrap_or(Interval::from_low(0)),
                    None => pair.range,
                };
                let own = drop.divide(length);
                all.add(VaryingHeight::of(own), one.sure && other.sure);
                if flattest.is_none_or(|(so_far, _)| own.low < so_far.low) {
                    flattest = Some((own, pair));
                }
            }
        }
        let mut ways: Alternatives = all.way().into_iter().collect();
        for end in [&from, &to] {
            if !end.list.iter().any(|one| one.sure) {
                ways.push(Alternative::Empty(end.if_none));
            }
        }
        PossibleValue {
            witness: flattest.and_then(|(_, pair)| pair.witness),
            ..PossibleValue::of(ways, Dimension::Number)
        }
    }

    /// The volume over an area between two levels; 0 where the upper level is below the lower.
    pub(crate) fn volume(&self, volume: &'a Volume, env: &Env<'_>) -> PossibleValue {
        let area = self.covered(&volume.over, volume.within.as_ref(), env);
        let level = |surface| self.surface(surface, &volume.over, env);
        let (from, to) = (level(&volume.from), level(&volume.to));
        let (Some(from), Some(to)) = (from, to) else {
            return PossibleValue::of(vec![Alternative::Nothing], Dimension::Volume);
        };
        let between = flood_storage_taken(area, from, to, to);
        match volume.as_water {
            true => PossibleValue::amount(mass_of_water(between), Dimension::Mass),
            false => PossibleValue::amount(between, Dimension::Volume),
        }
    }

    fn surface(&self, surface: &'a Surface, over: &'a Operand, env: &Env<'_>) -> Option<Interval> {
        match surface {
            Surface::At(value) => self.value(value, env, &[]).range(),
            Surface::Ground => {
                let ends = self.ends(over, env).list;
                let grounds = ends.iter().map(|end| self.ground_at(end, env).hull());
                Some(grounds.reduce(Interval::hull).unwrap_or(Interval::any()))
            }
        }
    }

    /// The height of something above everything that stands, or may stand, near it: of several things, the least and the greatest.
    pub(crate) fn height_over(&self, height: &'a HeightOver, env: &Env<'_>) -> PossibleValue {
        let within = self.value(&height.within, env, &[]).range();
        let within = within.unwrap_or(Interval::from_low(0));
        let ends = self.ends(&height.of, env);
        let beside = height
            .over
            .as_ref()
            .map_or_else(Default::default, |over| self.ends(over, env).list);
        let (mut all, mut lowest) = (OfSeveral::default(), None);
        for end in &ends.list {
            let (own, pair) = self.least_height(end, &beside, within, env);
            if lowest.is_none_or(|(so_far, _)| own.low < so_far) {
                lowest = Some((own.low, pair));
            }
            all.add(VaryingHeight::of(own), end.sure);
        }
        let mut ways: Alternatives = all.way().into_iter().collect();
        if !ends.list.iter().any(|end| end.sure) {
            ways.push(Alternative::Empty(ends.if_none));
        }
        PossibleValue {
            witness: lowest.and_then(|(_, pair)| pair?.witness),
            ..PossibleValue::of(ways, Dimension::Length)
        }
    }

    fn least_height(
        &self,
        end: &End<'_>,
        beside: &[End<'_>],
        within: Interval,
        env: &Env<'_>,
    ) -> (Interval, Option<Pair>) {
        let less = |top: i128, standing: i128| Interval::exact(top).sub(Interval::exact(standing));
        let own = self.extent(end, end, env).top;
        // The ground nearby may be higher than at its foot.
        let mut low = match self.ground_rise(end, within, env) {
            NO_HIGH => 0,
            rise => less(own.least.low, rise).low.max(0),
        };
        let (mut high, mut highest) = (own.least.high.max(0), None);
        for other in beside.iter().filter(|other| other.referent != end.referent) {
            let pair = self.nearest(end, other, env);
            let near = pair.range.at_most(within);
            if !near.can_be_true {
                continue;
            }
            let top = self.extent(end, other, env).top;
            let standing = self.standing(other, end, env);
            let left = match standing.high {
                NO_HIGH => 0,
                standing => less(top.least.low, standing).low.max(0),
            };
            if left < low {
                (low, highest) = (left, Some(pair));
            }
            if other.sure && !near.can_be_false {
                high = high.min(less(top.most.high, standing.low).high.max(0));
            }
        }
        (Interval { low, high }, highest)
    }

    /// The height of a thing's top above the ground at the foot of another thing.
    fn standing(&self, thing: &End<'_>, foot: &End<'_>, env: &Env<'_>) -> Interval {
        let lying = [thing, foot].map(|end| self.drawn(end).map(|drawn| self.lying(&drawn)));
        let [here, there] = self.grounds(lying, env);
        self.extent(thing, foot, env)
            .top
            .hull()
            .add(here.sub(there))
    }

    /// How much higher the ground near an outline may be than at its foot.
    fn ground_rise(&self, end: &End<'_>, within: Interval, env: &Env<'_>) -> i128 {
        let Some(drawn) = self.drawn(end) else {
            return NO_HIGH;
        };
        let Ok(reach) = i64::try_from(within.high) else {
            return NO_HIGH;
        };
        let mut around = drawn.figure.clone();
        around.spread = around.spread.saturating_add(reach);
        let off = self.absolute_tolerance(&drawn);
        let [near, foot] = self.grounds([Some((&around, off)), Some((drawn.figure, off))], env);
        near.sub(foot).high.max(0)
    }
}

impl VaryingHeight {
    /// The heights that both allow; the first one's where they contradict each other.
    fn meet(self, other: VaryingHeight) -> VaryingHeight {
        VaryingHeight {
            least: self.least.meet(other.least).unwrap_or(self.least),
            most: self.most.meet(other.most).unwrap_or(self.most),
        }
    }

    /// The sum of two heights along one thing. They need not be lowest at the same place.
    fn plus(self, other: VaryingHeight) -> VaryingHeight {
        let sum = |one: Interval, two: Interval| one.add(two);
        let (least, most) = (sum(self.least, other.least), sum(self.most, other.most));
        let (one, two) = (sum(self.least, other.most), sum(self.most, other.least));
        VaryingHeight {
            least: Interval {
                high: one.high.min(two.high),
                ..least
            },
            most: Interval {
                low: one.low.max(two.low),
                ..most
            },
        }
    }
}
