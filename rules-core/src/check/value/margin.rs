//! How far some outlines reach beyond what they lie round, and how wide an outline is.

use crate::check::judge::Judge;
use crate::check::judge::possible::{Alternative, Alternatives, PossibleValue};
use crate::check::value::distance::{Drawn, End, Ends, Pair, witness};
use crate::check::value::heights::VaryingHeight;
use crate::check::value::several::OfSeveral;
use crate::check::world::env::Env;
use crate::measure::{Bounds, Fit, Keep, Patch, Region, farthest, figure_gap, margin, width};
use crate::plan::{Figure, Form, Point};
use crate::quantity::{Dimension, Interval, NO_HIGH};
use crate::ruleset::{Margin, Operand};

/// An area that lies round something, and how far it may be off against it.
struct Round<'a> {
    drawn: Drawn<'a>,
    /// One of its parts.
    figure: Figure,
    /// Whether it is surely there, all of it.
    sure: bool,
    /// How far it may be off, the inner outline's own accuracy left out.
    off: i64,
}

/// The ground beyond everything drawn: as wide a rim as this is enough to find the nearest place in it.
const RIM: i64 = 1_000_000_000;

impl<'a> Judge<'a> {
    /// The distance from something to the nearest ground that neither it nor what lies round it covers.
    pub(crate) fn margin(&self, margin: &'a Margin, env: &Env<'_>) -> PossibleValue {
        let (round, of) = (self.ends(&margin.round, env), self.ends(&margin.of, env));
        let (mut nearest, mut all): (Option<Pair>, _) = (None, OfSeveral::default());
        for own in &round.list {
            let pair = self.margin_round(own, &of);
            all.add(VaryingHeight::of(pair.range), own.sure);
            if nearest.is_none_or(|least| pair.range.low < least.range.low) {
                nearest = Some(pair);
            }
        }
        let mut ways: Alternatives = all.way().into_iter().collect();
        if self.may_be_none(&round) {
            ways.push(Alternative::Empty(round.if_none));
        } else if of.if_none.is_some() && self.may_be_none(&of) {
            ways.push(Alternative::Empty(of.if_none));
        }
        PossibleValue {
            witness: nearest.and_then(|least| least.witness),
            tolerance: nearest.and_then(|least| least.tolerance),
            ..PossibleValue::of(ways, Dimension::Length)
        }
    }

    fn margin_round(&self, own: &End<'_>, of: &Ends<'_>) -> Pair {
        let covers: Vec<Option<Drawn<'a>>> = of.list.iter().map(|end| self.drawn(end)).collect();
        let Some(inner) = self.drawn(own) else {
            return Pair::anywhere();
        };
        let Some(accuracy) = self.relative_tolerance(&inner) else {
            return Pair::anywhere();
        };
        let (mut known, mut all_known) = (Vec::new(), own.zone.is_none());
        for (end, drawn) in of.list.iter().zip(covers) {
            let off = drawn.and_then(|drawn| self.joint_tolerance(&inner, &drawn));
            let (Some(drawn), Some(off)) = (drawn, off) else {
                all_known = false;
                continue;
            };
            known.extend(parts(drawn.figure).map(|figure| Round {
                drawn,
                figure,
                sure: end.sure && end.zone.is_none(),
                off: off.saturating_sub(accuracy),
            }));
        }
        let mut pair = around_all(&inner, accuracy, &known);
        // What is not drawn, or nobody knows how well, may cover any ground.
        if !all_known {
            pair.range.high = NO_HIGH;
        }
        pair
    }

    /// The width of an outline over all.
    pub(crate) fn width(&self, of: &'a Operand, env: &Env<'_>) -> PossibleValue {
        let ends = self.ends(of, env);
        let range = ends.list.first().map(|end| self.across(end));
        let mut ways: Alternatives = range.map(Alternative::amount).into_iter().collect();
        if self.may_be_none(&ends) {
            ways.push(Alternative::Empty(ends.if_none));
        }
        PossibleValue::of(ways, Dimension::Length)
    }

    fn across(&self, end: &End<'_>) -> Interval {
        let drawn = self.drawn(end);
        let off = drawn.and_then(|drawn| self.relative_tolerance(&drawn));
        let (Some(drawn), Some(off)) = (drawn, off) else {
            return Interval::from_low(0);
        };
        let (across, both) = (width(drawn.figure), i128::from(off).saturating_mul(2));
        let high = i128::from(across.high).saturating_add(both);
        let low = i128::from(across.low).saturating_sub(both).max(0);
        Interval {
            low: if end.zone.is_some() { 0 } else { low },
            high,
        }
    }
}

/// The parts of a figure, each by itself.
fn parts(figure: &Figure) -> impl Iterator<Item = Figure> {
    figure.forms.iter().enumerate().map(|(at, form)| Figure {
        forms: vec![form.clone()],
        curved: figure.curved.get(at).cloned().into_iter().collect(),
        ..*figure
    })
}

/// The distance from an outline to the nearest ground outside it that no area covers. Another area can only make it longer, so
/// it is at least the distance for each area alone.
fn around_all(inner: &Drawn<'_>, accuracy: i64, areas: &[Round<'_>]) -> Pair {
    let alone = areas
        .iter()
        .map(|area| (area, around_one(inner, accuracy, area)));
    let surely = alone.clone().filter(|(area, _)| area.sure);
    let best = surely.max_by_key(|(_, range)| range.low);
    let low = best.as_ref().map_or(0, |(_, range)| range.low);
    let range = match areas {
        [] => Interval::exact(0),
        [_] => Interval {
            low,
            high: alone.map(|(_, range)| range.high).fold(0, i128::max),
        },
        _ => {
            let together = together(inner, accuracy, areas);
            let low = low.max(together.low);
            Interval {
                low,
                high: together.high.max(low),
            }
        }
    };
    let taken = best.filter(|(_, best)| best.low > 0 && best.low == range.low);
    Pair {
        range,
        witness: taken
            .as_ref()
            .map(|(area, _)| witness(inner, &area.drawn, margin(inner.figure, &area.figure))),
        tolerance: taken
            .map(|(area, _)| area.off.saturating_add(accuracy))
            .filter(|off| *off > 0),
    }
}

/// The same for one area.
fn around_one(inner: &Drawn<'_>, accuracy: i64, area: &Round<'_>) -> Interval {
    let off = i128::from(area.off.saturating_add(accuracy));
    let gap = margin(inner.figure, &area.figure);
    let sticks_out = || i128::from(farthest(inner.figure, &area.figure).low) > off;
    Interval {
        low: i128::from(gap.low).saturating_sub(off).max(0),
        high: match gap.high == 0 && sticks_out() {
            true => 0,
            false => i128::from(gap.high).saturating_add(off),
        },
    }
}

/// The same for several areas, found by taking them away from the ground around them, to a millimetre or so.
fn together(inner: &Drawn<'_>, accuracy: i64, areas: &[Round<'_>]) -> Interval {
    let Some(ground) = ground_around(inner, accuracy, areas) else {
        return Interval::from_low(0);
    };
    let patch = |figure: &Figure, tolerance: i64, sure: bool| {
        Region::Patch(Patch {
            figure: figure.clone(),
            edge: None,
            wider: (0, 0),
            tolerance,
            sure,
        })
    };
    let each = areas
        .iter()
        .map(|area| patch(&area.figure, area.off, area.sure));
    let own = patch(inner.figure, accuracy, true);
    let covered = Region::Any(each.chain([own]).collect());
    let left = |fit| covered.parts(&ground, Keep::Beyond, fit);
    let (perhaps, surely) = (left(Fit::Outer), left(Fit::Inner));
    let apart = |part: &Figure| (figure_gap(inner.figure, part), part.accuracy.unwrap_or(0));
    let least = perhaps.iter().map(apart);
    let low = least
        .map(|(gap, off)| gap.low.saturating_sub(off))
        .min()
        .unwrap_or(0);
    let most = surely.iter().map(apart);
    let high = most.map(|(gap, off)| gap.high.saturating_add(off)).min();
    Interval {
        low: i128::from(low.saturating_sub(accuracy).max(0)),
        high: high.map_or(NO_HIGH, |high| i128::from(high.saturating_add(accuracy))),
    }
}

/// A rectangle around everything drawn, wherever it truly is, with a rim.
fn ground_around(inner: &Drawn<'_>, accuracy: i64, areas: &[Round<'_>]) -> Option<Figure> {
    let boxed = |figure: &Figure, off: i64| {
        let corners: Vec<Point> = figure.corners().copied().collect();
        let by = figure.spread.saturating_add(off).saturating_add(RIM);
        Some(Bounds::around(&corners)?.wider(by))
    };
    let each = areas.iter().map(|area| boxed(&area.figure, area.off));
    let own = boxed(inner.figure, accuracy);
    let all = each.fold(own, |all, one| Some(all?.join(one?)))?;
    let corner = |x, y| Point { x, y };
    let ring = vec![
        all.low,
        corner(all.high.x, all.low.y),
        all.high,
        corner(all.low.x, all.high.y),
    ];
    Some(Figure::new(vec![Form::Ring(ring)], 0, Some(0)))
}
