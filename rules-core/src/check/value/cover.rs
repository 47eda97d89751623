//! The area that several outlines cover together, each place counted once.

use std::collections::BTreeSet;

use crate::check::judge::Judge;
use crate::check::value::distance::Drawn;
use crate::check::value::extent::{Pieces, cut_pieces, rounded_down};
use crate::check::world::env::Env;
use crate::measure::{
    ARC_TOLERANCE, Fit, Keep, Region, Weighted, area_band, length, narrower, weighted_area,
};
use crate::plan::{Figure, Form, Point, SourceIndex, ThingIndex};
use crate::quantity::{Interval, NO_HIGH, ONE};
use crate::ruleset::{Operand, Part, Zone};

/// The weight of an area that counts in full, in millionths.
const IN_FULL: u32 = 1_000_000;

/// An outline that covers an area.
struct Covering<'a> {
    drawn: Drawn<'a>,
    sure: bool,
    weight: u32,
    pieces: Pieces,
    /// The area that it covers by itself, where all of it counts. Gains at one corner may then cancel losses at another.
    alone: Option<(i128, i128)>,
}

/// Things that shift together: all of one source, or one thing without a source.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Frame {
    Source(SourceIndex),
    Thing(ThingIndex),
}

/// The part of an outline that is surely covered.
struct Within {
    frame: Frame,
    weight: u32,
    /// That part relative to others of its source, which shift together with it.
    pieces: Vec<Figure>,
    /// That part relative to all others.
    shifted: Vec<Figure>,
    /// The area that cutting may have added.
    slack: i128,
}

fn weighted(pieces: &[Figure], millionths: u32) -> impl Iterator<Item = Weighted<'_>> {
    let each = pieces.iter();
    each.map(move |figure| Weighted { figure, millionths })
}

/// Areas that were cut or narrowed are rounded to this many square nanometres (10 mm²). Their corners are rounded too, so a
/// finer figure could grow as the plan gets less exact.
const AREA_STEP: i128 = 10_000_000_000_000;

/// The area that some pieces surely cover together.
fn total<'w>(all: impl Iterator<Item = (&'w Within, &'w Vec<Figure>)>) -> i128 {
    let (mut items, mut slack) = (Vec::new(), 0_i128);
    for (one, pieces) in all {
        items.extend(weighted(pieces, one.weight));
        slack = slack.saturating_add(one.slack);
    }
    rounded_down(weighted_area(&items).low, slack, AREA_STEP)
}

/// An area with its slack added, rounded up.
fn rounded_up(area: i128, slack: i128) -> i128 {
    rounded_down(-area, slack, AREA_STEP).saturating_neg()
}

/// The part of a piece that is deeper within an area than `by`.
fn deeper(area: &Figure, piece: &Figure, by: i64) -> Vec<Figure> {
    let whole = area.forms == piece.forms && area.curved.is_empty();
    match narrower(area, by).filter(|_| whole) {
        Some(left) => left.into_iter().collect(),
        None => Region::of(area.clone(), by).parts(piece, Keep::Within, Fit::Inner),
    }
}

impl<'a> Judge<'a> {
    /// The area that outlines cover together within a zone, each place counted once.
    pub(crate) fn covered(
        &self,
        of: &'a Operand,
        zone: Option<&'a Zone>,
        env: &Env<'_>,
    ) -> Interval {
        let (mut all, mut endless) = (Vec::new(), false);
        for part in of.parts.iter() {
            for (end, drawn) in self.drawn_ends(part, env) {
                match drawn {
                    Some(drawn) => {
                        let pieces = self.pieces(zone, &drawn, env);
                        let weight = weight(part);
                        all.push(Covering {
                            alone: self.alone(&drawn, &pieces, weight),
                            pieces,
                            drawn,
                            sure: end.sure,
                            weight,
                        });
                    }
                    None => endless = true,
                }
            }
        }
        let high = match endless {
            true => NO_HIGH,
            false => self.perhaps_covered(&all),
        };
        Interval {
            low: self.surely_covered(&all),
            high,
        }
    }

    /// The most that may be covered: everything as drawn plus the tolerance along each edge; but no more than all outlines
    /// have by themselves.
    fn perhaps_covered(&self, all: &[Covering<'a>]) -> i128 {
        let shift_apart = self.shift_apart(all);
        let slack = all.iter().map(|one| {
            let shift = match shift_apart {
                true => self.shift_slack(one),
                false => 0,
            };
            let by_cutting = cut_slack(&one.pieces.outer, one.drawn.figure);
            let slack = self.edge_slack(one).saturating_add(shift);
            by_weight(slack.saturating_add(by_cutting), one.weight)
        });
        let slack = slack.fold(0, i128::saturating_add);
        let outer = all.iter();
        let outer = outer.flat_map(|one| weighted(&one.pieces.outer, one.weight));
        let together = weighted_area(&outer.collect::<Vec<_>>()).high;
        let apart = all
            .iter()
            .map(|one| one.alone.map_or(NO_HIGH, |alone| alone.1));
        rounded_up(together, slack).min(apart.fold(0, i128::saturating_add))
    }

    /// The area of one outline by itself; `None` where it has several parts, or where only its part in a zone counts.
    fn alone(&self, drawn: &Drawn<'a>, pieces: &Pieces, weight: u32) -> Option<(i128, i128)> {
        let whole = |left: &[Figure]| matches!(left, [only] if only.forms == drawn.figure.forms);
        if drawn.figure.forms.len() > 1 || !whole(&pieces.inner) || !whole(&pieces.outer) {
            return None;
        }
        let area = weighted_area(&weighted(&pieces.inner, weight).collect::<Vec<_>>());
        let slack = self.slack(drawn.figure, self.relative_tolerance(drawn), form_slack);
        let slack = by_weight(slack, weight);
        let low = area.low.saturating_sub(slack).max(0);
        Some((low, area.high.saturating_add(slack)))
    }

    /// The least that is covered: the parts of the outlines that are covered wherever the outlines truly are.
    ///
    /// More outlines only add to it, so the greatest of several estimates counts: each outline by itself, whose area is known
    /// better; those that were not cut, which are not rounded; those of one source, which shift together; and all.
    fn surely_covered(&self, all: &[Covering<'a>]) -> i128 {
        let sure: Vec<&Covering<'a>> = all.iter().filter(|one| one.sure).collect();
        let alone = sure.iter().filter_map(|one| Some(one.alone?.0));
        let alone = alone.max().unwrap_or(0);
        if matches!(sure.as_slice(), [only] if only.alone.is_some_and(|(low, high)| low == high)) {
            return alone;
        }
        let shift_apart = self.shift_apart(all);
        let within = sure.iter().map(|one| self.surely_within(one, shift_apart));
        let within: Vec<Within> = within.collect();
        // Where nothing was cut, the uncut ones are all of them.
        let some_cut = within.iter().any(|one| one.slack > 0);
        let uncut = within.iter().filter(|one| some_cut && one.slack == 0);
        if !shift_apart {
            let uncut = total(uncut.map(|one| (one, &one.pieces)));
            return alone
                .max(uncut)
                .max(total(within.iter().map(|one| (one, &one.pieces))));
        }
        let uncut = total(uncut.map(|one| (one, &one.shifted)));
        let mut frames: Vec<Frame> = within.iter().map(|one| one.frame).collect();
        frames.sort_unstable();
        frames.dedup();
        let together = frames.iter().map(|frame| {
            let own = within.iter().filter(|one| one.frame == *frame);
            total(own.map(|one| (one, &one.pieces)))
        });
        let best = together.fold(alone.max(uncut), i128::max);
        best.max(total(within.iter().map(|one| (one, &one.shifted))))
    }

    /// Whether some of these shift independently of others.
    fn shift_apart(&self, all: &[Covering<'a>]) -> bool {
        let plan = self.scene.plan();
        let first = all.first();
        first.is_some_and(|first| {
            let first = first.drawn.index;
            let mut others = all.iter().map(|one| one.drawn.index);
            !self.scene.as_drawn && others.any(|other| !plan.shift_together(first, other))
        })
    }

    /// The part of an outline that is covered wherever its tolerance puts it.
    fn surely_within(&self, one: &Covering<'a>, shift_apart: bool) -> Within {
        let (area, inner) = (one.drawn.figure, &one.pieces.inner);
        let narrowed = |off: Option<i64>, pieces: &[Figure], area: Option<&Figure>| match off {
            Some(0) => pieces.to_vec(),
            Some(off) => {
                let each = pieces.iter();
                each.flat_map(|piece| deeper(area.unwrap_or(piece), piece, off))
                    .collect()
            }
            None => Vec::new(),
        };
        let off = self.relative_tolerance(&one.drawn);
        let shift = self.scene.plan().shift_of(one.drawn.thing);
        let pieces = narrowed(off, inner, Some(area));
        let shifted = match shift_apart {
            true => narrowed(shift, &pieces, None),
            false => Vec::new(),
        };
        let slack = |pieces: &[Figure], unmoved: i128| {
            by_weight(cut_slack(pieces, area).saturating_add(unmoved), one.weight)
        };
        let first = unmoved_slack(&pieces, inner, off);
        let then = unmoved_slack(&shifted, &pieces, shift).saturating_add(first);
        Within {
            frame: match one.drawn.thing.source {
                Some(source) => Frame::Source(source),
                None => Frame::Thing(one.drawn.index),
            },
            weight: one.weight,
            slack: slack(&pieces, first).max(slack(&shifted, then)),
            pieces,
            shifted,
        }
    }

    /// How much an outline may add to a total because of its edge's tolerance. Losses at one corner do not cancel gains at
    /// another, since another outline may already cover the ground that is lost.
    fn edge_slack(&self, one: &Covering<'a>) -> i128 {
        let off = self.relative_tolerance(&one.drawn);
        let whole = self.slack(one.drawn.figure, off, tube);
        if one.alone.is_some() {
            return whole;
        }
        let cut = one.pieces.outer.iter();
        let cut = cut.map(|piece| self.slack(piece, off, tube));
        whole.min(cut.fold(0, i128::saturating_add))
    }

    /// How much an outline may add because it may be shifted relative to others.
    fn shift_slack(&self, one: &Covering<'a>) -> i128 {
        let shift = self.scene.plan().shift_of(one.drawn.thing);
        let pieces = one.pieces.outer.iter();
        let each = pieces.map(|piece| self.slack(piece, shift, tube));
        each.fold(0, i128::saturating_add)
    }

    fn slack(&self, figure: &Figure, off: Option<i64>, of: fn(&Form, i64, i64) -> i128) -> i128 {
        let Some(off) = off else {
            return NO_HIGH;
        };
        let forms = figure.forms.iter();
        let each = forms.map(|form| of(form, figure.spread, off));
        each.fold(0, i128::saturating_add)
    }
}

/// How much cutting may change an area: the corners of each cut piece are rounded to nanometres. A curve is cut as a polygon
/// within it or around it, which is on the safe side already.
fn cut_slack(pieces: &[Figure], whole: &Figure) -> i128 {
    cut_pieces(pieces, whole)
        .flat_map(|(piece, off)| {
            let corners = off % ARC_TOLERANCE;
            let slack = move |form| form_slack(form, piece.spread, corners);
            piece.forms.iter().map(slack)
        })
        .fold(0, i128::saturating_add)
}

/// By how much pieces may be too large that should have been narrowed by `by`, but where the grid of cutting was too coarse:
/// they have no new corner.
fn unmoved_slack(pieces: &[Figure], before: &[Figure], by: Option<i64>) -> i128 {
    let by = by.unwrap_or(0);
    let is_unmoved = |piece: &&Figure| {
        let mut own = before.iter().filter(|own| own.spread == piece.spread);
        own.any(|own| {
            let there: BTreeSet<&Point> = own.corners().collect();
            let mut left = piece.corners();
            left.all(|corner| there.contains(corner))
        })
    };
    let slack = |piece: &Figure| {
        let forms = piece.forms.iter();
        let each = forms.map(|form| form_slack(form, piece.spread, by));
        each.fold(0, i128::saturating_add)
    };
    let unmoved = pieces.iter().filter(|piece| by > 0 && is_unmoved(piece));
    unmoved.map(slack).fold(0, i128::saturating_add)
}

fn weight(part: &Part) -> u32 {
    let counted = part
        .counted
        .map(|counted| counted / (ONE / i128::from(IN_FULL)));
    counted
        .and_then(|millionths| u32::try_from(millionths).ok())
        .unwrap_or(IN_FULL)
}

/// A slack in area times a weight, rounded up.
fn by_weight(slack: i128, millionths: u32) -> i128 {
    if slack == NO_HIGH && millionths > 0 {
        return NO_HIGH;
    }
    let (millionths, whole) = (i128::from(millionths), i128::from(IN_FULL));
    let counted = slack.saturating_mul(millionths);
    counted.div_euclid(whole) + i128::from(counted.rem_euclid(whole) > 0)
}

/// The uncertain area along one whole boundary: from its corners where its sides are straight, from its length where it has
/// arcs.
fn form_slack(form: &Form, spread: i64, accuracy: i64) -> i128 {
    let band = match form {
        Form::Ring(ring) if spread == 0 => area_band(ring, &vec![Some(accuracy); ring.len()]),
        _ => None,
    };
    band.unwrap_or_else(|| tube(form, spread, accuracy))
}

/// The area of all places no farther from a boundary than its accuracy.
fn tube(form: &Form, spread: i64, accuracy: i64) -> i128 {
    if accuracy == 0 {
        return 0;
    }
    let (e, r) = (i128::from(accuracy), i128::from(spread));
    let sides = if matches!(form, Form::Path(_)) { 2 } else { 1 };
    // The length of the boundary is the form's own, once or twice, plus a circle with the spread as radius; 22/7 and 44/7 are
    // just above π and 2π.
    let round = i128::from(length(form).high)
        .saturating_mul(sides)
        .saturating_add(r * 44 / 7 + 1);
    round.saturating_mul(e).saturating_add(e * e * 22 / 7 + 1)
}
