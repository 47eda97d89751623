//! How large and how long things may be, and what is not measured yet.

use super::distance::{Drawn, End};
use super::judge::Judge;
use super::scene::Env;
use super::value::{Val, Way};
use crate::measure::{
    ARC_TOLERANCE, Fit, Keep, Weighted, area_band, length, perimeter, weighted_area,
};
use crate::plan::{Figure, Form};
use crate::quantity::{Dimension, Interval, NO_HIGH, ONE};
use crate::ruleset::{Area, Operand, Part, ShareOf, Zone};

/// How much something counts in full, in millionths.
const IN_FULL: u32 = 1_000_000;

impl<'a> Judge<'a> {
    /// The area that outlines cover together, or their share of something.
    pub(crate) fn area(&self, area: &'a Area, env: &Env<'_>) -> Val {
        let covered = self.covered(&area.of, area.within.as_deref(), env);
        match &area.share_of {
            None => Val::amount(covered, Dimension::Area),
            Some(base) => self.share(covered, base, env),
        }
    }

    fn share(&self, covered: Interval, base: &'a ShareOf, env: &Env<'_>) -> Val {
        let base = match base {
            ShareOf::Outlines(of) => Some(self.covered(of, None, env)),
            ShareOf::Value(value) => self.value(value, env, &[]).range(),
        };
        match base {
            Some(base) => Val::amount(covered.divide(base), Dimension::Number),
            None => Val::of(vec![Way::Nothing], Dimension::Number),
        }
    }

    /// What outlines cover together, each place once; only what lies in a zone.
    pub(crate) fn covered(
        &self,
        of: &'a Operand,
        zone: Option<&'a Zone>,
        env: &Env<'_>,
    ) -> Interval {
        let mut sure = Vec::new();
        let mut perhaps = Vec::new();
        let (mut below, mut above, mut endless) = (0_i128, 0_i128, false);
        for part in of.parts.iter() {
            for (end, drawn) in self.drawn_ends(part, env) {
                let Some(drawn) = drawn else {
                    endless = true;
                    continue;
                };
                let pieces = self.pieces(zone, &drawn, env);
                let weight = weight(part);
                let own = self.area_slack(&drawn);
                let off = |cut: &[Figure]| {
                    let by_cutting = cut_slack(cut, drawn.figure);
                    by_weight(own.saturating_add(by_cutting), weight)
                };
                if !pieces.outer.is_empty() {
                    above = above.saturating_add(off(&pieces.outer));
                }
                if end.sure {
                    below = below.saturating_add(off(&pieces.inner));
                    sure.extend(pieces.inner.into_iter().map(|figure| (figure, weight)));
                }
                perhaps.extend(pieces.outer.into_iter().map(|figure| (figure, weight)));
            }
        }
        let total = |list: &[(Figure, u32)]| {
            let items: Vec<Weighted<'_>> = list
                .iter()
                .map(|(figure, millionths)| Weighted {
                    figure,
                    millionths: *millionths,
                })
                .collect();
            weighted_area(&items)
        };
        let low = total(&sure).low.saturating_sub(below).max(0);
        let high = if endless {
            NO_HIGH
        } else {
            total(&perhaps).high.saturating_add(above)
        };
        Interval { low, high }
    }

    fn drawn_ends<'e>(&self, part: &'a Part, env: &Env<'e>) -> Vec<(End<'e>, Option<Drawn<'a>>)>
    where
        'a: 'e,
    {
        let ends = self.part_ends(part, env);
        ends.into_iter()
            .map(|end| (end, self.drawn(&end)))
            .collect()
    }

    /// What a zone leaves of an outline.
    fn pieces(&self, zone: Option<&'a Zone>, drawn: &Drawn<'a>, env: &Env<'_>) -> Pieces {
        let whole = || vec![drawn.figure.clone()];
        let Some(zone) = zone else {
            return Pieces {
                inner: whole(),
                outer: whole(),
            };
        };
        let region = self.region(zone, drawn, env);
        let cut = |fit| region.parts(drawn.figure, Keep::Within, fit);
        Pieces {
            inner: cut(Fit::Inner),
            outer: cut(Fit::Outer),
        }
    }

    /// By how much an area may be off because its outline is.
    fn area_slack(&self, drawn: &Drawn<'a>) -> i128 {
        if self.scene.as_drawn {
            return 0;
        }
        let Some(accuracy) = drawn.figure.accuracy else {
            return NO_HIGH;
        };
        drawn
            .figure
            .forms
            .iter()
            .map(|form| form_slack(form, drawn.figure.spread, accuracy))
            .fold(0, i128::saturating_add)
    }

    /// How long lines are.
    pub(crate) fn length(&self, of: &'a Operand, zone: Option<&'a Zone>, env: &Env<'_>) -> Val {
        let (mut low, mut high) = (0_i128, 0_i128);
        for part in of.parts.iter() {
            for (end, drawn) in self.drawn_ends(part, env) {
                let own = drawn.and_then(|drawn| self.line_length(zone, &drawn, env));
                low = low.saturating_add(own.filter(|_| end.sure).map_or(0, |own| own.low));
                high = own.map_or(NO_HIGH, |own| high.saturating_add(own.high));
            }
        }
        Val::amount(Interval { low, high }, Dimension::Length)
    }

    fn line_length(
        &self,
        zone: Option<&'a Zone>,
        drawn: &Drawn<'a>,
        env: &Env<'_>,
    ) -> Option<Interval> {
        let total = |figures: &[Figure]| {
            let spans = figures.iter().map(perimeter);
            spans.fold((0_i128, 0_i128), |sum, span| {
                (sum.0 + i128::from(span.low), sum.1 + i128::from(span.high))
            })
        };
        let accuracy = match self.scene.as_drawn {
            true => 0,
            false => drawn.figure.true_accuracy()?,
        };
        let slack = length_slack(drawn.figure, accuracy);
        let pieces = self.pieces(zone, drawn, env);
        // Less of an area may have the longer way round: once it is cut, nothing is known.
        let whole = |figures: &[Figure]| matches!(figures, [only] if only == drawn.figure);
        if is_area(drawn.figure) && !(whole(&pieces.inner) && whole(&pieces.outer)) {
            return pieces.outer.is_empty().then_some(Interval::exact(0));
        }
        let (low, high) = (total(&pieces.inner).0, total(&pieces.outer).1);
        let low_slack = slack.saturating_add(cutting(&pieces.inner, drawn.figure));
        let high_slack = slack.saturating_add(cutting(&pieces.outer, drawn.figure));
        Some(Interval {
            low: low.saturating_sub(low_slack).max(0),
            high: high.saturating_add(high_slack),
        })
    }
}

/// By how much a length may change: each corner may move by the accuracy, and each side has two. An arc's rise may be off
/// by twice that, which makes no more than 2 π of it; so may a radius, all round.
fn length_slack(figure: &Figure, accuracy: i64) -> i128 {
    let corners = |form: &Form| match form {
        Form::Point(_) => 0,
        Form::Path(points) if figure.spread > 0 => 2 * points.len(),
        Form::Path(points) | Form::Ring(points) => points.len(),
    };
    let forms = figure.forms.iter().enumerate();
    let moves = forms.map(|(at, form)| match figure.curved.get(at) {
        Some(Some(curved)) => {
            let arcs = curved.courses.iter().filter(|course| course.arc.is_some());
            2 * curved.courses.len() + 7 * arcs.count()
        }
        _ => 2 * corners(form),
    });
    let round = if figure.spread > 0 {
        7 * figure.forms.len()
    } else {
        0
    };
    let moves = i128::try_from(moves.sum::<usize>() + round).unwrap_or(NO_HIGH);
    i128::from(accuracy).saturating_mul(moves)
}

fn is_area(figure: &Figure) -> bool {
    figure.spread > 0
        || figure
            .forms
            .iter()
            .any(|form| matches!(form, Form::Ring(_)))
}

/// By how much cutting may change a length, in nanometres: both ends of each cut piece are rounded.
fn cutting(pieces: &[Figure], whole: &Figure) -> i128 {
    let cut = cut_pieces(pieces, whole);
    cut.map(|(_, off)| 2 * i128::from(off)).sum()
}

/// By how much cutting may change an area: the corners of each cut piece are rounded to nanometres. That a curve is cut as
/// a ring within it or around it, up to a whole tolerance off, is on the sure side already.
fn cut_slack(pieces: &[Figure], whole: &Figure) -> i128 {
    cut_pieces(pieces, whole)
        .flat_map(|(piece, off)| {
            let corners = off % ARC_TOLERANCE;
            let slack = move |form| form_slack(form, piece.spread, corners);
            piece.forms.iter().map(slack)
        })
        .fold(0, i128::saturating_add)
}

/// The pieces that are not the whole, each with what its corners may be off by from cutting.
fn cut_pieces<'p>(
    pieces: &'p [Figure],
    whole: &'p Figure,
) -> impl Iterator<Item = (&'p Figure, i64)> {
    /// What a cut may be off by where the whole's own accuracy is not known.
    const ROUNDING: i64 = ARC_TOLERANCE + 10;
    let off = |piece: &Figure| match piece.accuracy.zip(whole.accuracy) {
        Some((piece, whole)) => piece.saturating_sub(whole),
        None => ROUNDING,
    };
    let cut = pieces.iter().filter(|piece| piece.forms != whole.forms);
    cut.map(move |piece| (piece, off(piece)))
}

/// What a zone leaves of an outline: what surely is in it, and all that may be.
struct Pieces {
    inner: Vec<Figure>,
    outer: Vec<Figure>,
}

fn weight(part: &Part) -> u32 {
    let counted = part
        .counted
        .map(|counted| counted / (ONE / i128::from(IN_FULL)));
    counted
        .and_then(|millionths| u32::try_from(millionths).ok())
        .unwrap_or(IN_FULL)
}

/// What an area may be off by, where it counts only in part; rounded up.
fn by_weight(slack: i128, millionths: u32) -> i128 {
    if slack == NO_HIGH {
        return NO_HIGH;
    }
    let (millionths, whole) = (i128::from(millionths), i128::from(IN_FULL));
    let counted = slack.saturating_mul(millionths);
    counted.div_euclid(whole) + i128::from(counted.rem_euclid(whole) > 0)
}

/// The band that a boundary's accuracy makes: for straight sides by its corners, with arcs by its length.
fn form_slack(form: &Form, spread: i64, accuracy: i64) -> i128 {
    let band = match form {
        Form::Ring(ring) if spread == 0 => area_band(ring, &vec![Some(accuracy); ring.len()]),
        _ => None,
    };
    band.unwrap_or_else(|| {
        let (e, r) = (i128::from(accuracy), i128::from(spread));
        let sides = if matches!(form, Form::Path(_)) { 2 } else { 1 };
        // The way round is the form's own, once or twice, and a circle of the spread; 22/7 and 2 · 22/7 are above π and 2 π.
        let round = i128::from(length(form).high)
            .saturating_mul(sides)
            .saturating_add(r * 44 / 7 + 1);
        round.saturating_mul(e).saturating_add(e * e * 22 / 7 + 1)
    })
}
