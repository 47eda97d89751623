//! A plan with its pool moved.

use std::collections::BTreeMap;

use super::spot::{MILLIMETRE, Way};
use crate::plan::{Curved, Figure, Form, Papers, Plan, Point, Source, SourceIndex, ThingIndex};
use crate::vocabulary::OutlineId;

/// The drawn outlines of a thing.
type Outlines = BTreeMap<OutlineId, Figure>;

/// A plan in which some things move together and the rest stay.
#[derive(Debug, Clone)]
pub(super) struct Pose {
    plan: Plan,
    /// The outlines that move, as drawn.
    drawn: Vec<(ThingIndex, Outlines)>,
    /// The sources of the moving things alone, each with its own shift.
    moving: Vec<(SourceIndex, Option<i64>)>,
}

impl Pose {
    /// The plan with its sources as they are: wherever the pool is put, it is judged as any plan is.
    pub fn of(plan: &Plan, moving: &[ThingIndex]) -> Pose {
        let plan = Plan {
            measured: staying_tapes(plan, moving),
            ..plan.clone()
        };
        Pose {
            drawn: outlines(&plan, moving),
            moving: Vec::new(),
            plan,
        }
    }

    /// The plan with separate sources for the moving things, so that their shift can be set.
    ///
    /// A shift is always between two sources. The shift of the pool's source is therefore added to all the others instead:
    /// between the pool and whatever stays of its source there is then nothing but the move itself.
    pub fn movable(plan: &Plan, moving: &[ThingIndex]) -> Pose {
        let mut pose = Pose::of(plan, moving);
        let base = (moving.first()).and_then(|first| plan.things.get(*first)?.source);
        let Some(base) = base else {
            return pose;
        };
        let shift = plan.sources.get(base).and_then(|source| source.shift);
        for (index, source) in pose.plan.sources.iter_mut().enumerate() {
            source.shift = match index == base {
                true => Some(0),
                false => sum(source.shift, shift),
            };
        }
        for index in moving {
            pose.give_moving_source(*index, base);
        }
        pose
    }

    /// The plan as if everything were exactly as drawn, with one source for what moves.
    pub fn exact(plan: &Plan, moving: &[ThingIndex]) -> Pose {
        let mut plan = plan.clone();
        plan.measured.clear();
        plan.sources = vec![exact_source("drawn"), exact_source("moved")];
        for (index, thing) in plan.things.iter_mut().enumerate() {
            thing.source = Some(usize::from(moving.contains(&index)));
            for figure in thing.outlines.values_mut() {
                figure.accuracy = Some(figure.corners_off());
            }
            for fact in thing.facts.values_mut() {
                as_drawn(fact);
            }
        }
        Pose {
            drawn: outlines(&plan, moving),
            moving: vec![(1, Some(0))],
            plan,
        }
    }

    /// Replaces what the plan states of its documents.
    pub fn set_documents(&mut self, documents: BTreeMap<String, Papers>) {
        self.plan.documents = documents;
    }

    /// Gives a moving thing a source that no staying thing has.
    fn give_moving_source(&mut self, index: ThingIndex, base: SourceIndex) {
        let old = self.plan.things.get(index).and_then(|it| it.source);
        let new = old.and_then(|old| self.moving_source(old, base));
        if let Some(thing) = self.plan.things.get_mut(index) {
            thing.source = new;
        }
    }

    /// The copy of a source that the moving things have in its place.
    fn moving_source(&mut self, of: SourceIndex, base: SourceIndex) -> Option<SourceIndex> {
        let old = self.plan.sources.get(of)?.clone();
        let id = format!("{}, moved", old.id);
        let known = self.plan.sources.iter().position(|source| source.id == id);
        if known.is_some() {
            return known;
        }
        let shift = if of == base { Some(0) } else { old.shift };
        let new = self.plan.sources.len();
        self.moving.push((new, shift));
        self.plan.sources.push(Source { id, ..old });
        Some(new)
    }

    /// The plan with the pool moved that way, and then by anything up to `reach` nanometres in any direction.
    pub fn put(&mut self, by: Way, reach: i64) -> &Plan {
        for (index, outlines) in &self.drawn {
            if let Some(thing) = self.plan.things.get_mut(*index) {
                thing.outlines = moved(outlines, by);
            }
        }
        for (index, shift) in &self.moving {
            if let Some(source) = self.plan.sources.get_mut(*index) {
                source.shift = sum(*shift, Some(reach));
            }
        }
        &self.plan
    }
}

/// The tape readings between things that stay: a reading to the pool is only true where the pool is drawn.
fn staying_tapes(plan: &Plan, moving: &[ThingIndex]) -> Vec<crate::plan::Taped> {
    let stays = |end: ThingIndex| !moving.contains(&end);
    let readings = plan.measured.iter();
    readings
        .filter(|taped| stays(taped.from.0) && stays(taped.to.0))
        .cloned()
        .collect()
}

fn outlines(plan: &Plan, moving: &[ThingIndex]) -> Vec<(ThingIndex, Outlines)> {
    let drawn = |index: &ThingIndex| Some((*index, plan.things.get(*index)?.outlines.clone()));
    moving.iter().filter_map(drawn).collect()
}

fn sum(one: Option<i64>, other: Option<i64>) -> Option<i64> {
    Some(one?.saturating_add(other?))
}

fn exact_source(id: &str) -> Source {
    Source {
        id: id.to_owned(),
        by: "design".to_owned(),
        accuracy: Some(0),
        shift: Some(0),
    }
}

/// A fact without its ±, where it was stated with one.
fn as_drawn(fact: &mut crate::plan::Possible) {
    let Some(amount) = &mut fact.amount else {
        return;
    };
    if let Some((least, most)) = amount.drawn {
        amount.least = crate::quantity::Interval::exact(least);
        amount.most = amount.most.map(|_| crate::quantity::Interval::exact(most));
    }
}

fn moved(outlines: &Outlines, by: Way) -> Outlines {
    let by = (
        by.x.saturating_mul(MILLIMETRE),
        by.y.saturating_mul(MILLIMETRE),
    );
    outlines
        .iter()
        .map(|(outline, figure)| (*outline, figure_moved(figure, by)))
        .collect()
}

/// A figure moved by so many nanometres east and north.
pub(super) fn figure_moved(figure: &Figure, by: (i64, i64)) -> Figure {
    let mut figure = figure.clone();
    for form in &mut figure.forms {
        match form {
            Form::Point(point) => shift(point, by),
            Form::Path(points) | Form::Ring(points) => {
                points.iter_mut().for_each(|point| shift(point, by));
            }
        }
    }
    figure
        .curved
        .iter_mut()
        .flatten()
        .for_each(|curved| shift_curved(curved, by));
    figure
}

fn shift_curved(curved: &mut Curved, by: (i64, i64)) {
    for course in &mut curved.courses {
        shift(&mut course.from, by);
        shift(&mut course.to, by);
        if let Some(arc) = &mut course.arc {
            shift(&mut arc.middle, by);
        }
    }
}

fn shift(point: &mut Point, (x, y): (i64, i64)) {
    point.x = point.x.saturating_add(x);
    point.y = point.y.saturating_add(y);
}
