//! The level of the ground: from spot levels and contours, or the same everywhere where the plan says so.

use std::collections::BTreeSet;

use crate::check::Missing;
use crate::check::judge::Judge;
use crate::check::value::distance::Drawn;
use crate::check::value::heights::VaryingHeight;
use crate::check::world::env::{Env, Referent};
use crate::check::world::spots::spot;
use crate::measure::{farthest, figure_gap, is_within};
use crate::plan::{Figure, Form, Point, ThingIndex, Words};
use crate::quantity::Interval;
use crate::vocabulary::KindId;

impl<'a> Judge<'a> {
    /// The level of the ground under some outlines, all in one datum: from the spots and contours, or 0 where the plan says
    /// that the ground is level. Where it is unknown, any level.
    pub(crate) fn grounds<const N: usize>(
        &self,
        under: [Option<(&Figure, Option<i64>)>; N],
        env: &Env<'_>,
    ) -> [Interval; N] {
        let level = self.is_level(env);
        if level == Some(true) {
            return [Interval::exact(0); N];
        }
        under
            .map(|outline| {
                let (figure, off) = outline?;
                Some(self.ground_under(figure, off, env)?.hull())
            })
            .map(|range| range.unwrap_or(Interval::any()))
    }

    /// Whether the plan says that the ground is level.
    fn is_level(&self, env: &Env<'_>) -> Option<bool> {
        let seen = self.scene.fact(self.special.level_ground?, env, &[]);
        match seen.view.words.as_deref() {
            Some(Words::OneOf(words)) if words.len() == 1 => Some(words.contains("yes")),
            _ => None,
        }
    }

    /// The lowest and the highest level of the ground along an outline; `None` where the survey does not give it.
    pub(crate) fn ground_under(
        &self,
        figure: &Figure,
        off: Option<i64>,
        env: &Env<'_>,
    ) -> Option<VaryingHeight> {
        let off = if self.scene.as_drawn { 0 } else { off? };
        let all = self.ground_range(figure, off, env)?;
        let places = figure.forms.iter().flat_map(places);
        let at_places = places.filter_map(|place| {
            let place = Figure::new(vec![Form::Point(place)], 0, figure.accuracy);
            self.ground_range(&place, off, env)
        });
        let at_spots = self.spots_within(figure, off, env);
        Some(VaryingHeight::within(all, at_places.chain(at_spots)))
    }

    /// The level from the spots and from the contours; where there are both, what they have in common.
    fn ground_range(&self, figure: &Figure, off: i64, env: &Env<'_>) -> Option<Interval> {
        let spots = self.between_spots(figure, off, env);
        match (spots, self.between_contours(figure, off, env)) {
            (Some(one), Some(two)) => Some(one.meet(two).unwrap_or(one.hull(two))),
            (one, two) => one.or(two),
        }
    }

    /// The levels of the spots that surely lie within an outline.
    fn spots_within(&self, figure: &Figure, off: i64, env: &Env<'_>) -> Vec<Interval> {
        let spots = self.scene.base.spots(self.special.spot);
        let within = spots.things.iter().filter_map(|&index| {
            let (at, own) = spot(self.scene.plan(), index)?;
            let own = if self.scene.as_drawn { 0 } else { own? };
            is_within(at, figure, off.saturating_add(own)).then_some(index)
        });
        within
            .filter_map(|index| self.levels(&BTreeSet::from([index]), env))
            .collect()
    }

    /// The level from contours. There is no contour between a place and its nearest one, so its level differs from that contour's
    /// by at most the contour interval.
    fn between_contours(&self, figure: &Figure, off: i64, env: &Env<'_>) -> Option<Interval> {
        let kind = self.special.contour;
        let lines = self.base_contours(kind)?;
        if self.may_be_unseen(kind, env) {
            self.scene.depends_on(Missing::Inventory(kind), true, &[]);
            return None;
        }
        let offs: Option<Vec<i64>> = lines
            .iter()
            .map(|line| self.absolute_tolerance(line))
            .collect();
        let lines: Vec<(Drawn<'a>, i64)> = lines.into_iter().zip(offs?).collect();
        // In every world, every place has a contour within this distance.
        let within = lines.iter().map(|(line, own)| {
            let farthest = farthest(figure, line.figure).high;
            farthest.saturating_add(off).saturating_add(*own)
        });
        let within = within.min()?;
        let mut range: Option<Interval> = None;
        for (line, own) in &lines {
            let nearest = figure_gap(figure, line.figure).low;
            if nearest > within.saturating_add(off).saturating_add(*own) {
                continue;
            }
            let fact = |name| {
                let fact = self.scene.rules().vocabulary.fact_named(kind, name)?;
                Some(
                    self.varying_height(fact, Referent::Thing(line.index), env)
                        .hull(),
                )
            };
            let (level, interval) = (fact("level")?, fact("interval")?);
            let own = level.add(interval.hull(interval.neg()));
            range = Some(range.map_or(own, |range| range.hull(own)));
        }
        range
    }

    fn base_contours(&self, kind: KindId) -> Option<Vec<Drawn<'a>>> {
        let all = self.scene.base.of_kind(kind).iter().map(|&index| {
            let thing = self.scene.thing(index)?;
            let (&outline, figure) = thing.outlines.iter().next()?;
            Some(Drawn {
                index,
                thing,
                outline,
                figure,
            })
        });
        let all: Option<Vec<_>> = all.collect();
        all.filter(|lines| !lines.is_empty())
    }

    fn between_spots(&self, figure: &Figure, off: i64, env: &Env<'_>) -> Option<Interval> {
        let kind = self.special.spot;
        if self.may_be_unseen(kind, env) {
            self.scene.depends_on(Missing::Inventory(kind), true, &[]);
            return None;
        }
        let spots = self.scene.base.spots(kind);
        let ground = match self.scene.as_drawn {
            true => &spots.exact,
            false => &spots.ground,
        };
        if ground.is_none() {
            self.note_missing_places(&spots.things);
        }
        let under = ground.as_ref()?.under(figure, off)?;
        self.levels(
            &under
                .iter()
                .filter_map(|at| spots.things.get(*at).copied())
                .collect(),
            env,
        )
    }

    /// Notes the places of spots that are unknown as missing.
    fn note_missing_places(&self, spots: &[ThingIndex]) {
        let outlines = &self
            .scene
            .rules()
            .vocabulary
            .kind(self.special.spot)
            .outlines;
        for &index in spots {
            let missing = match spot(self.scene.plan(), index) {
                Some((_, Some(_))) => None,
                Some((_, None)) => Some(Missing::Accuracy(index)),
                None => outlines
                    .first()
                    .map(|place| Missing::Outline(index, *place)),
            };
            if let Some(missing) = missing {
                self.scene.depends_on(missing, true, &[]);
            }
        }
    }

    fn levels(&self, spots: &BTreeSet<ThingIndex>, env: &Env<'_>) -> Option<Interval> {
        let level = self
            .scene
            .rules()
            .vocabulary
            .fact_named(self.special.spot, "level")?;
        let own = |spot: &ThingIndex| {
            self.varying_height(level, Referent::Thing(*spot), env)
                .hull()
        };
        spots.iter().map(own).reduce(Interval::hull)
    }

    /// An outline and its absolute tolerance, for [`Judge::grounds`].
    pub(crate) fn lying(&self, drawn: &Drawn<'a>) -> (&'a Figure, Option<i64>) {
        (drawn.figure, self.absolute_tolerance(drawn))
    }
}

fn places(form: &Form) -> Vec<Point> {
    match form {
        Form::Point(at) => vec![*at],
        Form::Path(points) | Form::Ring(points) => points.clone(),
    }
}
