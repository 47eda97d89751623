//! Whether things are in a zone, and distances from the part of a thing in a zone.

use crate::check::Truth;
use crate::check::judge::Judge;
use crate::check::value::distance::{Drawn, End, EndList};
use crate::check::world::env::{Env, Referent, thing_of};
use crate::measure::{Fit, Keep, Region, figure_gap, overlaps};
use crate::plan::{Figure, Form, Point};
use crate::quantity::{Interval, NO_HIGH};
use crate::ruleset::{Operand, Value, Zone};
use crate::vocabulary::{KindId, OutlineId};

impl<'a> Judge<'a> {
    /// Whether a thing comes within a distance of an outline.
    pub(crate) fn is_near(
        &self,
        of: &'a Operand,
        by: &'a Value,
        (kind, referent): (KindId, Referent),
        env: &Env<'_>,
    ) -> Truth {
        let Some(by) = self.value(by, env, &[]).range() else {
            return Truth::OPEN;
        };
        let ends = self.zone_ends(of, env);
        self.by_any_outline(kind, referent, |own| {
            let Some(distance) = self.nearest_of(&ends, own) else {
                return Truth::FAILS;
            };
            let near = distance.at_most(by);
            Truth::of_comparison(near.can_be_true, near.can_be_false)
        })
    }

    /// Whether any part of a thing is in an area.
    pub(crate) fn is_inside(
        &self,
        of: &'a Operand,
        kind: KindId,
        referent: Referent,
        env: &Env<'_>,
    ) -> Truth {
        let ends = self.zone_ends(of, env);
        self.by_any_outline(kind, referent, |own| {
            let shares = ends.iter().map(|end| {
                let shares = self.shares(own, end);
                match end.sure {
                    true => shares,
                    false => shares.or_else(Truth::FAILS),
                }
            });
            shares.fold(Truth::FAILS, Truth::or)
        })
    }

    /// Whether an outline and an area overlap. Two areas must share more than a boundary.
    fn shares(&self, own: &End<'_>, end: &End<'_>) -> Truth {
        if self.plain_range(own, end).low > 0 {
            return Truth::FAILS;
        }
        let (Some(a), Some(b)) = (self.drawn(own), self.drawn(end)) else {
            return Truth::OPEN;
        };
        match self.joint_tolerance(&a, &b) {
            Some(0) => {
                let flat = [&a, &b].map(|drawn| drawn.figure.has_area());
                let shared = match flat {
                    [true, true] => overlaps(a.figure, b.figure),
                    _ => figure_gap(a.figure, b.figure).high == 0,
                };
                Truth::of_comparison(shared, !shared)
            }
            Some(tolerance) => Truth::of_comparison(true, !self.surely_shares(&a, &b, tolerance)),
            None => Truth::OPEN,
        }
    }

    /// Whether they overlap wherever their tolerances put them; a line or a point has no depth of its own.
    fn surely_shares(&self, a: &Drawn<'a>, b: &Drawn<'a>, tolerance: i64) -> bool {
        if a.figure.has_area() {
            return self.surely_overlaps(a, b, tolerance);
        }
        let deep = Region::of(b.figure.clone(), tolerance);
        !deep.parts(a.figure, Keep::Within, Fit::Inner).is_empty()
    }

    /// The distance from an outline to the nearest of others; `None` where there is surely no other.
    fn nearest_of(&self, ends: &[End<'_>], own: &End<'_>) -> Option<Interval> {
        let (mut low, mut high) = (NO_HIGH, NO_HIGH);
        for end in ends {
            let range = self.plain_range(own, end);
            low = low.min(range.low);
            if end.sure {
                high = high.min(range.high);
            }
        }
        (!ends.is_empty()).then_some(Interval { low, high })
    }

    /// Whether something is true for any outline of a thing, since a thing is wherever any of its outlines is. An outline that
    /// is not drawn may be anywhere.
    pub(crate) fn by_any_outline(
        &self,
        kind: KindId,
        referent: Referent,
        is_so: impl Fn(&End<'static>) -> Truth,
    ) -> Truth {
        let (drawn, others) = self.own_ends(kind, referent);
        let mut any = Truth::FAILS;
        for end in drawn.iter().chain(&others) {
            any = any.or(is_so(end));
            if any == Truth::HOLDS {
                return any;
            }
        }
        match drawn.is_empty() && others.is_empty() {
            true => Truth::OPEN,
            false => any,
        }
    }

    /// The outlines that give a thing's place: those that are drawn, and those that are not and may be elsewhere.
    fn own_ends(&self, kind: KindId, referent: Referent) -> (EndList<'static>, EndList<'static>) {
        let vocabulary = &self.scene.rules().vocabulary;
        let thing = thing_of(referent).and_then(|index| self.scene.thing(index));
        let is_drawn = |id: OutlineId| thing.is_some_and(|own| own.outlines.contains_key(&id));
        let lacks = |id: OutlineId| thing.is_some_and(|own| own.lacks.contains(&id));
        let all = vocabulary.kind(kind).outlines.iter().copied();
        let all = all.filter(|id| !lacks(*id) && !vocabulary.outline(*id).beside);
        let end = |outline| End::whole(referent, outline);
        let (drawn, others): (Vec<_>, Vec<_>) = all.partition(|id| is_drawn(*id));
        // An outline within another adds nothing to that.
        let is_covered = |id: &OutlineId| {
            let mut around = drawn.iter().chain(&others);
            around.any(|other| vocabulary.is_within(*id, *other))
        };
        let others = others
            .iter()
            .filter(|id| !is_covered(id))
            .map(|id| end(*id));
        // For an unseen thing, one outline says as much as all.
        let others = others.take(if thing.is_some() { usize::MAX } else { 1 });
        (drawn.iter().map(|id| end(*id)).collect(), others.collect())
    }

    fn zone_ends<'e>(&self, of: &'a Operand, env: &Env<'e>) -> EndList<'e>
    where
        'a: 'e,
    {
        self.ends(of, env).list
    }

    /// The distance between two ends where one is cut to a zone. The part in the zone may be farther away than the whole, but
    /// never nearer.
    pub(crate) fn clipped(
        &self,
        (one, a): (&End<'_>, &Drawn<'a>),
        (other, b): (&End<'_>, &Drawn<'a>),
        range: Interval,
        env: &Env<'_>,
    ) -> Interval {
        match (one.zone, other.zone) {
            (None, None) => range,
            (Some(zone), None) => self.cut_range(zone, (a, b), range, env),
            (None, Some(zone)) => self.cut_range(zone, (b, a), range, env),
            (Some(_), Some(_)) => Interval {
                high: NO_HIGH,
                ..range
            },
        }
    }

    fn cut_range(
        &self,
        zone: &Zone,
        (cut, other): (&Drawn<'a>, &Drawn<'a>),
        range: Interval,
        env: &Env<'_>,
    ) -> Interval {
        let Some(tolerance) = self.joint_tolerance(cut, other) else {
            return Interval {
                high: NO_HIGH,
                ..range
            };
        };
        let region = self.region(zone, cut, env);
        let left = |fit| region.parts(cut.figure, Keep::Within, fit);
        let gap = |parts: Vec<Figure>| {
            let gaps = parts.iter().map(|part| {
                // The accuracy of a cut part includes the rounding.
                let off = part
                    .accuracy
                    .zip(cut.figure.accuracy)
                    .map_or(0, |(part, whole)| part.saturating_sub(whole));
                let gap = figure_gap(part, other.figure);
                (
                    i128::from(gap.low) - i128::from(off),
                    i128::from(gap.high) + i128::from(off),
                )
            });
            gaps.reduce(|one, two| (one.0.min(two.0), one.1.min(two.1)))
        };
        let low = gap(left(Fit::Outer)).map_or(range.low, |(low, _)| {
            (low - i128::from(tolerance)).max(range.low)
        });
        let high = gap(left(Fit::Inner)).map_or(NO_HIGH, |(_, high)| high + i128::from(tolerance));
        let high = corner_left(region, cut.figure, (other.figure, tolerance), high);
        Interval {
            low,
            high: high.max(low),
        }
    }

    fn plain_range(&self, one: &End<'_>, other: &End<'_>) -> Interval {
        let whole = |end: &End<'_>| End { zone: None, ..*end };
        self.nearest(&whole(one), &whole(other), &Env::EMPTY).range
    }
}

/// The greatest distance from the part of a figure in a zone to another figure. A corner of the figure that is surely in the
/// zone may give it more exactly than the cut parts do, since it was not rounded. A corner right on the zone's edge does not
/// count.
fn corner_left(
    region: Region,
    cut: &Figure,
    (other, tolerance): (&Figure, i64),
    most: i128,
) -> i128 {
    let region = region.with_more_tolerance(1);
    let forms = cut.forms.iter().filter(|_| cut.spread == 0);
    let alone = |at: &Point| Figure::new(vec![Form::Point(*at)], 0, cut.accuracy);
    let corners = forms.flat_map(Form::points).map(alone);
    corners.fold(most, |most, corner| {
        let far = i128::from(figure_gap(&corner, other).high) + i128::from(tolerance);
        let is_left = || !region.parts(&corner, Keep::Within, Fit::Inner).is_empty();
        match far < most && is_left() {
            true => far,
            false => most,
        }
    })
}
