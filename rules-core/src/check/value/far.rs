//! How far apart the farthest places of two outlines may be.

use crate::check::judge::Judge;
use crate::check::value::distance::{Drawn, End, Pair, slant, witness};
use crate::check::world::env::Env;
use crate::measure::{Gap, farthest, farthest_of_arcs, widest};
use crate::quantity::Interval;
use crate::ruleset::{Distance, Measured, Places};

impl<'a> Judge<'a> {
    /// Between the places farthest apart, or from the farthest place of the one to the other.
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
            // A way round what stands there is never shorter than the straight line.
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
        let (gap, blur) = match places {
            Places::Farthest => (widest(a.figure, b.figure), self.true_blur(&a, &b)),
            _ => self.of_first(&a, &b),
        };
        let range = match blur {
            Some(blur) => Interval {
                low: i128::from(gap.low.saturating_sub(blur).max(0)),
                high: i128::from(gap.high).saturating_add(i128::from(blur)),
            },
            None => Interval::from_low(0),
        };
        Pair {
            range,
            witness: Some(witness(&a, &b, gap)),
            blur: blur.filter(|blur| *blur > 0),
        }
    }

    fn of_first(&self, a: &Drawn<'a>, b: &Drawn<'a>) -> (Gap, Option<i64>) {
        match farthest_of_arcs(a.figure, b.figure) {
            Some(gap) => (gap, self.true_blur(a, b)),
            None => (farthest(a.figure, b.figure), self.blur(a, b)),
        }
    }

    /// How far apart in height any place of the one may be from any of the other.
    fn any_rise(&self, one: &End<'_>, other: &End<'_>, env: &Env<'_>) -> Interval {
        let [here, there] = self.standing_at(one, other, env);
        Interval {
            low: here.rise(&there).low,
            ..here.most_apart(&there)
        }
    }

    /// How far apart in height the two places are of which that is most.
    fn most_rise(&self, one: &End<'_>, other: &End<'_>, env: &Env<'_>) -> Interval {
        let [here, there] = self.standing_at(one, other, env);
        here.most_apart(&there)
    }
}
