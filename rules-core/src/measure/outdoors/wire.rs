//! The distance to a wire that sags between two supports.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use crate::measure::Span;
use crate::measure::distance::space::in_space;
use crate::measure::distance::{Gap, figure_gap};
use crate::measure::figure::direction::distance;
use crate::measure::figure::exact::{floats_between, part_way};
use crate::measure::ground::earth::wire_height;
use crate::plan::figure::{Figure, Form, Point};
use crate::quantity::{Interval, NO_HIGH, NO_LOW};

/// The number of pieces into which a span is split at first.
const PIECES: u32 = 16;
/// The most times that a piece is split further.
const PATIENCE: usize = 160;
/// The precision to which a distance is bounded, in nanometres.
const FINE: i128 = 1_000_000;
/// The greatest factor between a parabola's sag and the wire's that the bound here can handle.
const MOST_UNEVEN: f64 = 1.5;

/// A wire that hangs between two supports.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wire {
    ends: [Point; 2],
    heights: [Interval; 2],
    sag: Interval,
}

impl Wire {
    /// A wire from support to support, with its heights there and its sag, which is how far it hangs below the straight line
    /// between them in the middle of the span. The supports are off by no more than `off` nanometres.
    ///
    /// A wire hangs as a catenary, which is nearly a parabola; the difference is added to the sag. `None` where the line is not
    /// a single span, where a height or the sag is unknown, and where the wire hangs too steeply.
    pub fn hung(line: &Form, heights: [Interval; 2], sag: Interval, off: i64) -> Option<Wire> {
        let Form::Path(points) = line else {
            return None;
        };
        let [from, to] = points[..] else {
            return None;
        };
        let known = |range: &Interval| range.low > NO_LOW / 4 && range.high < NO_HIGH / 4;
        if sag.low < 0 || !heights.iter().chain([&sag]).all(known) {
            return None;
        }
        let span = distance(from, to) - 2.0 * off as f64;
        let [one, other] = heights;
        let climb = one.sub(other).high.max(other.sub(one).high);
        let uneven = unevenness(climb as f64 / span, sag.high as f64 / span)?;
        Some(Wire {
            ends: [from, to],
            heights,
            sag: Interval {
                low: (sag.low as f64 / uneven).floor() as i128,
                high: (sag.high as f64 * uneven).ceil() as i128,
            },
        })
    }

    /// Its possible heights between two shares of the span (0 to 1).
    pub fn between(&self, from: f64, to: f64) -> Interval {
        let [one, other] = self.heights;
        let at = |share| wire_height(one, other, self.sag, share);
        let (here, there) = (at(from), at(to));
        let (fall, sag) = ((one.low - other.low) as f64, self.sag.high as f64);
        let lowest = match sag > 0.0 {
            true => at((0.5 + fall / (8.0 * sag)).clamp(from, to)).low,
            false => here.low,
        };
        // It hangs down between any two places, so it is highest at one of the two.
        Interval {
            low: lowest.min(here.low).min(there.low),
            high: here.high.max(there.high),
        }
    }

    /// The share of the span that a piece of its line covers.
    pub fn share_of(&self, piece: &Form) -> Option<(f64, f64)> {
        let Form::Path(points) = piece else {
            return None;
        };
        let [from, to] = self.ends;
        let (x, y) = floats_between(from, to);
        let share = |at: &Point| {
            let (u, v) = floats_between(from, *at);
            ((u * x + v * y) / (x * x + y * y)).clamp(0.0, 1.0)
        };
        let (one, other) = (share(points.first()?), share(points.last()?));
        Some((one.min(other), one.max(other)))
    }

    /// The straight distance in space from some parts of the wire, each from share to share of the span, to something else;
    /// also gives the nearest places on the plan. The tolerance of both together on the plan is `off` nanometres; `rise` gives
    /// the difference in height for a range of heights of the wire.
    pub fn nearest(
        &self,
        parts: &[(f64, f64)],
        other: &Figure,
        off: i64,
        rise: impl Fn(Interval) -> Interval,
    ) -> (Interval, Gap) {
        let pair = Pair {
            wire: self,
            other,
            off,
            rise: &rise,
        };
        let mut open: BinaryHeap<Reverse<Piece>> = BinaryHeap::new();
        let mut best = (NO_HIGH, Gap::unknown());
        for (from, to) in parts {
            let step = (to - from) / f64::from(PIECES);
            for piece in 0..PIECES {
                let start = from + f64::from(piece) * step;
                pair.add_piece(start, start + step, &mut open, &mut best);
            }
        }
        let mut turns = 0;
        while let Some(Reverse(piece)) = open.pop() {
            turns += 1;
            if best.0 - piece.low <= FINE || turns > PATIENCE {
                let low = piece.low.min(best.0);
                return (Interval { low, high: best.0 }, best.1);
            }
            let middle = f64::midpoint(piece.from(), piece.to());
            pair.add_piece(piece.from(), middle, &mut open, &mut best);
            pair.add_piece(middle, piece.to(), &mut open, &mut best);
        }
        (Interval::exact(best.0), best.1)
    }

    fn at(&self, share: f64) -> Point {
        let [from, to] = self.ends;
        part_way(from, to, share)
    }
}

/// A piece of the span, with a lower bound for its distance.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Piece {
    low: i128,
    /// The bits of its ends: shares from 0 to 1 sort like their bits.
    ends: (u64, u64),
}

impl Piece {
    fn from(&self) -> f64 {
        f64::from_bits(self.ends.0)
    }

    fn to(&self) -> f64 {
        f64::from_bits(self.ends.1)
    }
}

/// A wire and the thing to which its distance is measured.
struct Pair<'s, R> {
    wire: &'s Wire,
    other: &'s Figure,
    off: i64,
    rise: &'s R,
}

impl<R: Fn(Interval) -> Interval> Pair<'_, R> {
    /// Adds a piece with its lower bound, and keeps the distance of its middle if that is the best so far.
    fn add_piece(
        &self,
        from: f64,
        to: f64,
        open: &mut BinaryHeap<Reverse<Piece>>,
        best: &mut (i128, Gap),
    ) {
        let line = Form::Path(vec![self.wire.at(from), self.wire.at(to)]);
        let low = self.straight(line, self.wire.between(from, to)).0.low;
        let ends = (from.to_bits(), to.to_bits());
        open.push(Reverse(Piece { low, ends }));
        let middle = self.place(f64::midpoint(from, to));
        if middle.0 < best.0 {
            *best = middle;
        }
    }

    /// An upper bound for the distance at one place.
    fn place(&self, share: f64) -> (i128, Gap) {
        let heights = self.wire.between(share, share);
        let (range, gap) = self.straight(Form::Point(self.wire.at(share)), heights);
        (range.high, gap)
    }

    fn straight(&self, form: Form, heights: Interval) -> (Interval, Gap) {
        let own = Figure::new(vec![form], 0, None);
        let gap = figure_gap(&own, self.other);
        // The place on the wire is rounded to the nanometre.
        let off = self.off.saturating_add(2);
        let plan = Span {
            low: gap.low.saturating_sub(off).max(0),
            high: gap.high.saturating_add(off),
        };
        let rise = (self.rise)(heights);
        let end = |end: i128| i64::try_from(end.max(0)).unwrap_or(i64::MAX);
        let slant = in_space(
            plan,
            Span {
                low: end(rise.low),
                high: end(rise.high),
            },
        );
        let high = match rise.high == NO_HIGH {
            true => NO_HIGH,
            false => i128::from(slant.high),
        };
        (
            Interval {
                low: i128::from(slant.low),
                high,
            },
            gap,
        )
    }
}

/// The factor, above 1, by which the sag of a hanging wire may differ from a parabola's, from the slope of its chord and its
/// sag as shares of the span.
///
/// The curvature of a wire that hangs by its own weight is proportional to the root of 1 + slope². If that varies by no more
/// than a factor R over the span, the wire lies between the parabolas with the sag divided by R and multiplied by R, and its
/// slope differs from the chord's by no more than 4·R times the sag. The first guess of R is lowered to what it allows.
fn unevenness(chord: f64, sag: f64) -> Option<f64> {
    let root = |slope: f64| (1.0 + slope * slope).sqrt();
    let allowed = |guess: f64| {
        let off = 4.0 * guess * sag;
        root(chord + off) / root((chord - off).max(0.0))
    };
    let mut factor = MOST_UNEVEN;
    if !(sag.is_finite() && chord.is_finite() && sag >= 0.0 && allowed(factor) <= factor) {
        return None;
    }
    for _ in 0..4 {
        factor = allowed(factor);
    }
    Some(factor * (1.0 + 1e-12))
}

#[cfg(test)]
#[path = "wire_tests.rs"]
mod tests;
