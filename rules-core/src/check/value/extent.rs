//! Areas and lengths of things.

use crate::check::judge::Judge;
use crate::check::judge::possible::{Alternative, Alternatives, PossibleValue};
use crate::check::value::distance::{Drawn, End};
use crate::check::world::env::Env;
use crate::measure::{ARC_TOLERANCE, Fit, Keep, Region, Span, perimeter};
use crate::plan::{Figure, Form};
use crate::quantity::{Dimension, Interval, NO_HIGH};
use crate::ruleset::{Area, Operand, Part, ShareOf, Zone};

impl<'a> Judge<'a> {
    /// The area that outlines cover together, or their share of something.
    pub(crate) fn area(&self, area: &'a Area, env: &Env<'_>) -> PossibleValue {
        let covered = self.covered(&area.of, area.within.as_deref(), env);
        let found = match &area.share_of {
            None => PossibleValue::amount(covered, Dimension::Area),
            Some(base) => self.share(covered, base, env),
        };
        self.or_bare(&area.of, found, env)
    }

    /// Adds the alternative for "no such outline", where there may be none. All things of a kind together cover nothing where
    /// there are none of them; an outline of one thing that is not there has no area at all.
    fn or_bare(&self, of: &'a Operand, found: PossibleValue, env: &Env<'_>) -> PossibleValue {
        let ends = self.ends(of, env);
        let of_all = of.parts.iter().any(|part| part.which.selection().is_some());
        let none = match ends.if_none {
            None if of_all => return found,
            None => Alternative::Bare,
            said => Alternative::Empty(said),
        };
        let ways = match (ends.list.is_empty(), self.may_be_none(&ends)) {
            (_, false) => return found,
            (true, _) => Alternatives::from_iter([none]),
            (false, _) => found.ways.iter().cloned().chain([none]).collect(),
        };
        PossibleValue { ways, ..found }
    }

    fn share(&self, covered: Interval, base: &'a ShareOf, env: &Env<'_>) -> PossibleValue {
        let base = match base {
            ShareOf::Outlines(of) => Some(self.covered(of, None, env)),
            ShareOf::Value(value) => self.value(value, env, &[]).range(),
        };
        match base {
            Some(base) => PossibleValue::amount(covered.divide(base), Dimension::Number),
            None => PossibleValue::of(vec![Alternative::Nothing], Dimension::Number),
        }
    }

    pub(crate) fn drawn_ends<'e>(
        &self,
        part: &'a Part,
        env: &Env<'e>,
    ) -> Vec<(End<'e>, Option<Drawn<'a>>)>
    where
        'a: 'e,
    {
        let ends = self.part_ends(part, env);
        ends.into_iter()
            .map(|end| (end, self.drawn(&end)))
            .collect()
    }

    /// The part of an outline in a zone.
    pub(crate) fn pieces(
        &self,
        zone: Option<&'a Zone>,
        drawn: &Drawn<'a>,
        env: &Env<'_>,
    ) -> Pieces {
        let whole = || vec![drawn.figure.clone()];
        let Some(zone) = zone else {
            return Pieces {
                inner: whole(),
                outer: whole(),
            };
        };
        let region = self.region(zone, drawn, env);
        let cut = |fit| {
            let parts = region.parts(drawn.figure, Keep::Within, fit);
            // If one of the parts is the whole figure, the others add nothing.
            match parts.iter().any(|part| part == drawn.figure) {
                true => whole(),
                false => parts,
            }
        };
        Pieces {
            inner: cut(Fit::Inner),
            outer: cut(Fit::Outer),
        }
    }

    /// The total length of lines.
    pub(crate) fn length(
        &self,
        of: &'a Operand,
        zone: Option<&'a Zone>,
        env: &Env<'_>,
    ) -> PossibleValue {
        let (mut low, mut high) = (0_i128, 0_i128);
        for part in of.parts.iter() {
            for (end, drawn) in self.drawn_ends(part, env) {
                let own = drawn.and_then(|drawn| self.line_length(zone, &drawn, env));
                low = low.saturating_add(own.filter(|_| end.sure).map_or(0, |own| own.low));
                high = own.map_or(NO_HIGH, |own| high.saturating_add(own.high));
            }
        }
        let found = PossibleValue::amount(Interval { low, high }, Dimension::Length);
        self.or_bare(of, found, env)
    }

    fn line_length(
        &self,
        zone: Option<&'a Zone>,
        drawn: &Drawn<'a>,
        env: &Env<'_>,
    ) -> Option<Interval> {
        // Arcs are measured as arcs.
        let corners = drawn.figure.corners_off();
        let accuracy = self
            .relative_tolerance(drawn)?
            .saturating_sub(corners)
            .max(0);
        let slack = length_slack(drawn.figure, accuracy);
        let whole = |figures: &[Figure]| matches!(figures, [only] if only == drawn.figure);
        if let Some(zone) = zone.filter(|_| !drawn.figure.has_area()) {
            let region = self.region(zone, drawn, env);
            return Some(length_in(&region, drawn.figure, slack));
        }
        let pieces = self.pieces(zone, drawn, env);
        // A smaller area may have a longer perimeter, so once an area is cut nothing is known of it.
        if drawn.figure.has_area() && !(whole(&pieces.inner) && whole(&pieces.outer)) {
            return pieces.outer.is_empty().then_some(Interval::exact(0));
        }
        Some(pieces.length(drawn.figure, slack))
    }
}

/// The length of the part of a line in a zone. Where areas overlap, each place counts once. Cutting more often makes the result
/// less exact, so it is also bounded by the areas one by one: no less than in any one, no more than in all added up.
fn length_in(region: &Region, line: &Figure, slack: i128) -> Interval {
    let once = |region: &Region| {
        let cut = |fit| region.parts_once(line, Keep::Within, fit);
        let pieces = Pieces {
            inner: cut(Fit::Inner),
            outer: cut(Fit::Outer),
        };
        pieces.length(line, slack)
    };
    let together = once(region);
    let Region::Any(areas) = region else {
        return together;
    };
    let each: Vec<Interval> = areas.iter().map(once).collect();
    let added = each.iter().map(|own| own.high);
    Interval {
        low: each.iter().map(|own| own.low).fold(together.low, i128::max),
        high: together.high.min(added.fold(0, i128::saturating_add)),
    }
}

impl Pieces {
    /// The length of the pieces of a line together, plus or minus `slack`.
    fn length(&self, line: &Figure, slack: i128) -> Interval {
        let total = |pieces: &[Figure], end: fn(Span) -> i64| -> i128 {
            let spans = pieces.iter().map(perimeter);
            spans.map(|span| i128::from(end(span))).sum()
        };
        let low = total(&self.inner, |span| span.low);
        let high = total(&self.outer, |span| span.high);
        let (less, more) = (cutting(&self.inner, line), cutting(&self.outer, line));
        Interval {
            low: rounded_down(low, less, LENGTH_STEP)
                .saturating_sub(slack)
                .max(0),
            high: rounded_down(-high, more, LENGTH_STEP)
                .saturating_sub(slack)
                .saturating_neg(),
        }
    }
}

/// Lengths that were cut are rounded to this many nanometres (0.1 µm). A finer figure could change as the plan gets less
/// exact.
const LENGTH_STEP: i128 = 100;

/// An amount that may be too large by `off`, rounded down to whole steps where it was cut at all.
pub(crate) fn rounded_down(amount: i128, off: i128, step: i128) -> i128 {
    let least = amount.saturating_sub(off);
    match off {
        0 => least,
        _ => least.saturating_sub(least.rem_euclid(step)),
    }
}

/// How much a length may change: each corner may move by the accuracy, and each side has two corners. An arc's bulge may be
/// off by twice the accuracy, which changes its length by at most 2π times that; the same goes for a radius.
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

/// How much cutting may change a length, in nanometres: both ends of each cut piece are rounded.
fn cutting(pieces: &[Figure], whole: &Figure) -> i128 {
    let cut = cut_pieces(pieces, whole);
    cut.map(|(_, off)| 2 * i128::from(off)).sum()
}

/// The pieces that are not the whole figure, each with how far cutting may have moved its corners.
pub(crate) fn cut_pieces<'p>(
    pieces: &'p [Figure],
    whole: &'p Figure,
) -> impl Iterator<Item = (&'p Figure, i64)> {
    /// How far cutting may move a corner, where the figure's own accuracy is unknown.
    const ROUNDING: i64 = ARC_TOLERANCE + 10;
    let off = |piece: &Figure| match piece.accuracy.zip(whole.accuracy) {
        Some((piece, whole)) => piece.saturating_sub(whole),
        None => ROUNDING,
    };
    let cut = pieces.iter().filter(|piece| piece.forms != whole.forms);
    cut.map(move |piece| (piece, off(piece)))
}

/// The part of an outline in a zone: what is surely in it, and all that may be.
pub(crate) struct Pieces {
    pub(crate) inner: Vec<Figure>,
    pub(crate) outer: Vec<Figure>,
}
