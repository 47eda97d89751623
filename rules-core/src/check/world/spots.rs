//! The spots where a level is known, and the ground surface between them.

use crate::check::world::base::Base;
use crate::measure::Ground;
use crate::plan::{Form, Plan, Point, ThingIndex};

/// The spots of a plan and the ground surface between them.
pub(crate) struct Spots {
    pub(crate) things: Vec<ThingIndex>,
    /// `None` where a spot's tolerance is unknown, or where the spots are too few or too many.
    pub(crate) ground: Option<Ground>,
    /// The same with every spot exactly where it is drawn.
    pub(crate) exact: Option<Ground>,
}

impl Spots {
    pub(crate) fn of(base: &Base<'_>, spots: &[ThingIndex]) -> Spots {
        let drawn: Option<Vec<_>> = spots.iter().map(|index| spot(base.plan, *index)).collect();
        let places = |drawn: &Vec<(Point, Option<i64>)>| drawn.iter().map(|(at, _)| *at).collect();
        let worst = |drawn: &Vec<(Point, Option<i64>)>| {
            let offs: Option<Vec<i64>> = drawn.iter().map(|(_, off)| *off).collect();
            offs?.into_iter().max()
        };
        let drawn = drawn.as_ref();
        Spots {
            things: spots.to_vec(),
            ground: drawn.and_then(|drawn| Ground::between(places(drawn), worst(drawn)?)),
            exact: drawn.and_then(|drawn| Ground::between(places(drawn), 0)),
        }
    }
}

/// Where a spot is drawn, and its tolerance, if known.
pub(crate) fn spot(plan: &Plan, index: ThingIndex) -> Option<(Point, Option<i64>)> {
    let thing = plan.things.get(index)?;
    let figure = thing.outlines.values().next()?;
    let [Form::Point(at)] = figure.forms[..] else {
        return None;
    };
    let off = figure.accuracy.zip(plan.shift_of(thing));
    Some((
        at,
        off.map(|(accuracy, shift)| accuracy.saturating_add(shift)),
    ))
}
