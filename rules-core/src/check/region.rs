//! Zones: what lies in them, and what is left of a thing that is cut to one.

use super::Truth;
use super::distance::{Drawn, End, EndList};
use super::judge::Judge;
use super::scene::{Env, Holder};
use crate::measure::{Fit, Keep, figure_gap, overlaps};
use crate::plan::Figure;
use crate::quantity::{Interval, NO_HIGH};
use crate::ruleset::{Operand, Value, Zone};
use crate::vocabulary::KindId;

impl<'a> Judge<'a> {
    /// Whether a thing comes within a distance of an outline.
    pub(crate) fn is_near(
        &self,
        of: &'a Operand,
        by: &'a Value,
        (kind, holder): (KindId, Holder),
        env: &Env<'_>,
    ) -> Truth {
        let Some(by) = self.value(by, env, &[]).range() else {
            return Truth::OPEN;
        };
        let Some(distance) = self.nearest_of(of, kind, holder, env) else {
            return Truth::FAILS;
        };
        let near = distance.at_most(by);
        Truth::of_comparison(near.can_be_true, near.can_be_false)
    }

    /// Whether any part of a thing lies in an area.
    pub(crate) fn is_inside(
        &self,
        of: &'a Operand,
        kind: KindId,
        holder: Holder,
        env: &Env<'_>,
    ) -> Truth {
        let Some(distance) = self.nearest_of(of, kind, holder, env) else {
            return Truth::FAILS;
        };
        if distance.low > 0 {
            return Truth::FAILS;
        }
        let surely = self
            .zone_ends(of, env)
            .iter()
            .any(|end| end.sure && self.shares(end, kind, holder));
        Truth::of_comparison(true, !surely)
    }

    /// Whether a thing and an area surely share a place, more than a touch where both are areas.
    fn shares(&self, end: &End<'_>, kind: KindId, holder: Holder) -> bool {
        let own = self.own_end(kind, holder);
        let (Some(a), Some(b)) = (own.and_then(|own| self.drawn(&own)), self.drawn(end)) else {
            return false;
        };
        match self.blur(&a, &b) {
            Some(0) => overlaps(a.figure, b.figure) || figure_gap(a.figure, b.figure).high == 0,
            Some(blur) => self.surely_overlaps(&a, &b, blur),
            None => false,
        }
    }

    /// How far a thing is from the nearest outline; `None` where there surely is no outline.
    fn nearest_of(
        &self,
        of: &'a Operand,
        kind: KindId,
        holder: Holder,
        env: &Env<'_>,
    ) -> Option<Interval> {
        let ends = self.zone_ends(of, env);
        let Some(own) = self.own_end(kind, holder) else {
            return Some(Interval::from_low(0));
        };
        let pairs = ends
            .iter()
            .map(|end| (end.sure, self.plain_range(&own, end)));
        let (mut low, mut high) = (NO_HIGH, NO_HIGH);
        for (sure, range) in pairs {
            low = low.min(range.low);
            if sure {
                high = high.min(range.high);
            }
        }
        (!ends.is_empty()).then_some(Interval { low, high })
    }

    /// The outline by which a thing's place is told: the first that is drawn, else the first of its kind.
    pub(crate) fn own_end(&self, kind: KindId, holder: Holder) -> Option<End<'static>> {
        let drawn = super::judge::thing_of(holder)
            .and_then(|index| self.scene.thing(index)?.outlines.keys().next().copied());
        let outline = drawn.or_else(|| {
            self.scene
                .rules()
                .vocabulary
                .kind(kind)
                .outlines
                .first()
                .copied()
        })?;
        Some(End {
            holder,
            outline,
            sure: true,
            zone: None,
        })
    }

    fn zone_ends<'e>(&self, of: &'a Operand, env: &Env<'e>) -> EndList<'e>
    where
        'a: 'e,
    {
        self.ends(of, env).list
    }

    /// The distance between two ends, where one is cut to a zone: what is left of it may be farther away, never
    /// nearer, than the whole.
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
        let Some(blur) = self.blur(cut, other) else {
            return Interval {
                high: NO_HIGH,
                ..range
            };
        };
        let region = self.region(zone, cut, env);
        let left = |fit| region.parts(cut.figure, Keep::Within, fit);
        let gap = |parts: Vec<Figure>| {
            let gaps = parts.iter().map(|part| {
                // Cutting rounds; its accuracy says by how much.
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
            (low - i128::from(blur)).max(range.low)
        });
        let high = gap(left(Fit::Inner)).map_or(NO_HIGH, |(_, high)| high + i128::from(blur));
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
