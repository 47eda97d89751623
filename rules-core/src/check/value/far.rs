//! Distances to the farthest places of outlines.

use crate::check::judge::Judge;
use crate::check::value::distance::{Drawn, End, Ends, Pair, slant, witness};
use crate::check::world::env::Env;
use crate::measure::{Gap, farthest, farthest_of_arcs, widest};
use crate::plan::Figure;
use crate::quantity::{Interval, NO_HIGH};
use crate::ruleset::{Distance, Measured, Places};
use crate::work;

impl<'a> Judge<'a> {
    /// The distance between the two places farthest apart, or from the farthest place of the first outlines to the nearest of
    /// the others. All outlines at one end count together.
    pub(crate) fn farthest_of_all(
        &self,
        distance: &'a Distance,
        (from, to): (&Ends<'_>, &Ends<'_>),
        env: &Env<'_>,
    ) -> Option<Pair> {
        let each = from.list.iter().map(|one| {
            work::corners(to.list.len());
            let pairs = to.list.iter().map(|other| {
                let pair = self.farthest(distance, one, other, env);
                (other.sure, self.far_in_zones(pair, distance, one, other))
            });
            let pairs: Vec<_> = pairs.take_while(|_| !work::step_is_too_many()).collect();
            let found = match distance.places {
                Places::Farthest => largest(&pairs),
                _ => self.to_nearest(distance.how, (one, to), &pairs),
            };
            found.map(|pair| (one.sure, pair))
        });
        let each: Vec<_> = each.flatten().collect();
        largest(&each)
    }

    /// The distance of two outlines to their farthest places.
    fn farthest(
        &self,
        distance: &'a Distance,
        one: &End<'_>,
        other: &End<'_>,
        env: &Env<'_>,
    ) -> Pair {
        let pair = self.on_the_plan(distance.places, one, other);
        let range = match distance.how {
            Measured::Level => pair.range,
            // A walking route is never shorter than the straight line.
            Measured::Walking => Interval::from_low(pair.range.low),
            Measured::InSpace => slant(pair.range, self.any_rise(one, other, env)),
            Measured::Plumb if distance.places == Places::Farthest => {
                self.most_rise(one, other, env)
            }
            Measured::Plumb => self.any_rise(one, other, env),
        };
        Pair { range, ..pair }
    }

    /// The part of an outline in a zone may reach less far than the whole, and what it reaches from may be farther away.
    fn far_in_zones(
        &self,
        pair: Pair,
        distance: &Distance,
        one: &End<'_>,
        other: &End<'_>,
    ) -> Pair {
        let mut range = pair.range;
        if one.zone.is_some() || other.zone.is_some() {
            range.low = 0;
        }
        if other.zone.is_some() && distance.places == Places::FarthestOfFirst {
            range.high = NO_HIGH;
        }
        Pair { range, ..pair }
    }

    /// The distance from the farthest place of one outline to the nearest of several: no more than to those that are surely
    /// there, no less than to all that may be.
    fn to_nearest(
        &self,
        how: Measured,
        (one, to): (&End<'_>, &Ends<'_>),
        pairs: &[(bool, Pair)],
    ) -> Option<Pair> {
        let [(_, first), _, ..] = pairs else {
            return pairs.first().map(|(_, only)| *only);
        };
        let sure = pairs.iter().filter(|(sure, _)| *sure);
        let best = sure
            .map(|(_, pair)| *pair)
            .min_by_key(|pair| pair.range.high);
        let best = best.unwrap_or(Pair {
            range: Interval::from_low(0),
            ..*first
        });
        let together = self.to_all(one, to).unwrap_or(Interval::from_low(0));
        let range = Interval {
            // The way through the air or on foot is no shorter than on the plan; a difference in height may be.
            low: match (how, one.zone) {
                (Measured::Plumb, _) | (_, Some(_)) => 0,
                _ => together.low,
            },
            high: match how {
                Measured::Level => best.range.high.min(together.high),
                _ => best.range.high,
            },
        };
        Some(Pair { range, ..best })
    }

    /// The distance on the plan from the farthest place of one outline to several taken as one; `None` where the outline is not
    /// drawn.
    fn to_all(&self, one: &End<'_>, to: &Ends<'_>) -> Option<Interval> {
        let own = self.drawn(one)?;
        let known = |end: &End<'_>| {
            let other = self.drawn(end)?;
            Some((other.figure, self.joint_tolerance(&own, &other)?))
        };
        let all: Option<Vec<_>> = to.list.iter().map(known).collect();
        let sure = to.list.iter().filter(|end| end.sure && end.zone.is_none());
        let sure: Vec<_> = sure.filter_map(known).collect();
        let low = all.and_then(|all| {
            let spread = all.iter().map(|(figure, _)| figure.spread).max()?;
            let (gap, off) = to_forms(own.figure, &all, spread)?;
            Some(i128::from(gap.low.saturating_sub(off).max(0)))
        });
        let high = sure.iter().map(|(figure, _)| figure.spread).min();
        let high = high.and_then(|spread| {
            let (gap, off) = to_forms(own.figure, &sure, spread)?;
            Some(i128::from(gap.high).saturating_add(i128::from(off)))
        });
        Some(Interval {
            low: low.unwrap_or(0),
            high: high.unwrap_or(NO_HIGH),
        })
    }

    fn on_the_plan(&self, places: Places, one: &End<'_>, other: &End<'_>) -> Pair {
        let (Some(a), Some(b)) = (self.drawn(one), self.drawn(other)) else {
            return Pair::anywhere();
        };
        let (gap, tolerance) = match places {
            Places::Farthest => (
                widest(a.figure, b.figure),
                self.joint_true_tolerance(&a, &b),
            ),
            _ => self.of_first(&a, &b),
        };
        let range = match tolerance {
            Some(tolerance) => Interval {
                low: i128::from(gap.low.saturating_sub(tolerance).max(0)),
                high: i128::from(gap.high).saturating_add(i128::from(tolerance)),
            },
            None => Interval::from_low(0),
        };
        Pair {
            range,
            witness: Some(witness(&a, &b, gap)),
            tolerance: tolerance.filter(|tolerance| *tolerance > 0),
        }
    }

    fn of_first(&self, a: &Drawn<'a>, b: &Drawn<'a>) -> (Gap, Option<i64>) {
        match farthest_of_arcs(a.figure, b.figure) {
            Some(gap) => (gap, self.joint_true_tolerance(a, b)),
            None => (farthest(a.figure, b.figure), self.joint_tolerance(a, b)),
        }
    }

    /// The possible differences in height between any place of one and any place of the other.
    fn any_rise(&self, one: &End<'_>, other: &End<'_>, env: &Env<'_>) -> Interval {
        let [here, there] = self.standing_at(one, other, env);
        Interval {
            low: here.rise(&there).low,
            ..here.most_apart(&there)
        }
    }

    /// The greatest difference in height between a place of one and a place of the other.
    fn most_rise(&self, one: &End<'_>, other: &End<'_>, env: &Env<'_>) -> Interval {
        let [here, there] = self.standing_at(one, other, env);
        here.most_apart(&there)
    }
}

/// The largest of several distances, each with whether it is surely meant; its place is that of the surely largest.
fn largest(pairs: &[(bool, Pair)]) -> Option<Pair> {
    let all = || pairs.iter().map(|(_, pair)| *pair);
    let sure = pairs.iter().filter(|(sure, _)| *sure);
    let least = all().map(|pair| pair.range.low).min()?;
    let farther = |one: Pair, two: Pair| match two.range.low > one.range.low {
        true => two,
        false => one,
    };
    let farthest = all().reduce(farther)?;
    Some(Pair {
        range: Interval {
            low: sure.map(|(_, pair)| pair.range.low).fold(least, i128::max),
            high: all().map(|pair| pair.range.high).fold(0, i128::max),
        },
        ..farthest
    })
}

/// The distance from the farthest place of an outline to the nearest of several, all reaching as far beyond their forms, and
/// how far any of them may be off.
fn to_forms(own: &Figure, others: &[(&Figure, i64)], spread: i64) -> Option<(Gap, i64)> {
    let off = others.iter().map(|(_, off)| *off).max()?;
    let forms = others.iter().flat_map(|(figure, _)| figure.forms.clone());
    let together = Figure::new(forms.collect(), spread, None);
    Some((farthest(own, &together), off))
}
