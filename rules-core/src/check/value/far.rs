//! Distances to the farthest places of outlines.

use crate::check::judge::Judge;
use crate::check::value::distance::{Drawn, End, Pair, slant, witness};
use crate::check::world::env::Env;
use crate::measure::{Gap, farthest, farthest_of_arcs, widest};
use crate::quantity::Interval;
use crate::ruleset::{Distance, Measured, Places};

impl<'a> Judge<'a> {
    /// The distance between the two places farthest apart, or from the farthest place of one outline to the other.
    pub(crate) fn farthest(
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
