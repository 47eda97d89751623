//! Distances to the lot's own lines.

use crate::check::Truth;
use crate::check::judge::Judge;
use crate::check::value::distance::{Drawn, End};
use crate::check::world::env::{Env, Referent};
use crate::check::world::special::ownership_fact;
use crate::measure::{Gap, Place, contains, distance, farthest, lies_within, moved_away};
use crate::plan::{Figure, Form, Point, ThingIndex, Words};
use crate::quantity::Interval;

/// The position of a place outside the lot relative to one of the lot's lines.
struct Past {
    /// Its distance from this line.
    depth: i64,
    /// How much nearer it is to this line than to any other.
    nearer_by: i64,
}

impl<'a> Judge<'a> {
    /// The distance from a thing of the owner's to a lot line: 0 once any part of it is past the line. `None` where this is
    /// not such a pair, or where the thing is within the lot, so that the plain distance is right.
    pub(crate) fn past_the_line(
        &self,
        own: &Drawn<'a>,
        line: &Drawn<'a>,
        gap: Gap,
        tolerance: i64,
    ) -> Option<Interval> {
        if line.thing.kind != self.special.lot_line {
            return None;
        }
        let ring = self.lot_ring()?;
        let held = |form| contains(ring, form).is_within();
        let outline = (own.index, own.outline);
        let within = || own.figure.forms.iter().all(held);
        let within = self.scene.base.on_the_lot(outline, within);
        // A thing within the lot that does not touch this line is not past it.
        if within && (gap.low > 0 || lies_within(ring, own.figure)) {
            return None;
        }
        let range = self.how_far_past((own, line), ring, gap, tolerance)?;
        match self.is_owners(own.index) {
            Truth::HOLDS => Some(range),
            Truth::FAILS => None,
            _ => Some(range.hull(plain(gap, tolerance))),
        }
    }

    /// The distance to a line from a thing that is not all within the lot; `None` where no part of it may be past this line.
    fn how_far_past(
        &self,
        (own, line): (&Drawn<'a>, &Drawn<'a>),
        ring: &[Point],
        gap: Gap,
        tolerance: i64,
    ) -> Option<Interval> {
        let tolerance = tolerance.saturating_add(own.figure.corners_off());
        let margin = tolerance.saturating_mul(2);
        let places = own.figure.corners().copied().filter_map(|corner| {
            let place = self.outermost(corner, own.figure.spread, line)?;
            self.past(place, ring, line)
        });
        let near: Vec<Past> = places.filter(|past| past.nearer_by >= -margin).collect();
        // The thing is surely past this line only where no other line is about as near.
        let surely = near.iter().filter(|past| past.nearer_by >= margin);
        let deepest = surely.map(|past| past.depth).max();
        let high = match deepest {
            _ if near.is_empty() => return None,
            Some(depth) if depth > tolerance => 0,
            Some(_) => plain(gap, tolerance).high.min(i128::from(tolerance)),
            None => plain(gap, tolerance).high,
        };
        Some(Interval { low: 0, high })
    }

    /// Whether a thing is the owner's: by its kind, by a stated fact, or by what it is part of.
    fn is_owners(&self, index: ThingIndex) -> Truth {
        let Some(thing) = self.scene.thing(index) else {
            return Truth::FAILS;
        };
        let vocabulary = &self.scene.rules().vocabulary;
        if vocabulary.kind(thing.kind).owners {
            return Truth::HOLDS;
        }
        let Some((fact, own)) = ownership_fact(thing.kind, vocabulary) else {
            return thing
                .part_of
                .map_or(Truth::FAILS, |whole| self.is_owners(whole));
        };
        let env = Env::EMPTY;
        let seen = self
            .scene
            .fact(fact, &env.bind(thing.kind, Referent::Thing(index)), &[]);
        match seen.view.words.as_deref() {
            Some(Words::OneOf(words)) => {
                let is = words.contains(own);
                Truth::of_comparison(is, !is || words.len() > 1 || seen.view.none)
            }
            Some(Words::Any) => Truth::OPEN,
            None => Truth::FAILS,
        }
    }

    /// The lot's boundary as drawn.
    pub(crate) fn lot_ring(&self) -> Option<&'a [Point]> {
        let lot = self.scene.base.of_kind(self.special.lot).first()?;
        match self
            .scene
            .thing(*lot)?
            .outlines
            .get(&self.special.boundary)?
            .forms
            .first()?
        {
            Form::Ring(ring) => Some(ring),
            _ => None,
        }
    }

    /// The place of a thing, near one of its corners, that is farthest past a line.
    fn outermost(&self, corner: Point, spread: i64, line: &Drawn<'a>) -> Option<Point> {
        if spread == 0 {
            return Some(corner);
        }
        let Form::Path(ends) = line.figure.forms.first()? else {
            return None;
        };
        let outside = |place: &Point| {
            let place = Form::Point(*place);
            self.lot_ring()
                .is_some_and(|ring| contains(ring, &place) == Place::Outside)
        };
        let places = moved_away(corner, ends, spread).into_iter();
        places
            .filter(outside)
            .max_by_key(|place| to_line(*place, line.figure))
    }

    /// The position of a place relative to a lot line; `None` where it is not outside the lot.
    fn past(&self, place: Point, ring: &[Point], line: &Drawn<'a>) -> Option<Past> {
        if contains(ring, &Form::Point(place)) != Place::Outside {
            return None;
        }
        let depth = to_line(place, line.figure)?;
        let sides = self.scene.base.of_kind(self.special.lot_line).iter();
        let others = sides.filter(|side| **side != line.index);
        let figures =
            others.filter_map(|side| self.scene.thing(*side)?.outlines.get(&self.special.line));
        let other = figures.filter_map(|side| to_line(place, side)).min();
        Some(Past {
            depth,
            nearer_by: other.unwrap_or(i64::MAX).saturating_sub(depth),
        })
    }

    /// The greatest distance that a thing may extend beyond the lot; `None` where a tolerance is unknown.
    pub(crate) fn beyond_the_lot(&self, own: &Drawn<'a>) -> Option<i128> {
        let lot = self.scene.base.of_kind(self.special.lot).first()?;
        let end = End::whole(Referent::Thing(*lot), self.special.boundary);
        let lot = self.drawn(&end)?;
        let tolerance = self.joint_tolerance(own, &lot)?;
        Some(
            i128::from(farthest(own.figure, lot.figure).high).saturating_add(i128::from(tolerance)),
        )
    }
}

/// The drawn distance, plus or minus the tolerance of both.
fn plain(gap: Gap, tolerance: i64) -> Interval {
    Interval {
        low: i128::from(gap.low.saturating_sub(tolerance).max(0)),
        high: i128::from(gap.high).saturating_add(i128::from(tolerance)),
    }
}

fn to_line(place: Point, line: &Figure) -> Option<i64> {
    let place = Form::Point(place);
    let gaps = line.forms.iter().map(|form| distance(&place, form).low);
    gaps.min()
}
