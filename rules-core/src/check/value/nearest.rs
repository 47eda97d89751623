//! Leaving out pairs of outlines that are too far apart to be the nearest, before anything is measured.

use crate::check::judge::Judge;
use crate::check::value::distance::{End, EndList, Ends};
use crate::check::world::env::{Env, Referent};
use crate::measure::Rectangle;
use crate::quantity::NO_HIGH;
use crate::ruleset::{Distance, Measured};
use crate::work;

/// With fewer pairs than this, all are measured.
pub(crate) const FEW: usize = 16;
/// The greatest error of a distance between rectangles, in nanometres: it is computed in floats.
pub(crate) const MARGIN: f64 = 1000.0;

/// The pairs of two lists of outlines, without those that are surely not the nearest.
pub(crate) struct PrunedPairs {
    from: Vec<Option<EndBox>>,
    to: Vec<Option<EndBox>>,
    /// A distance, in nanometres, that some pair surely does not exceed.
    most: f64,
}

/// A box that holds an outline wherever it may be.
#[derive(Clone, Copy)]
pub(crate) struct EndBox {
    pub(crate) rectangle: Rectangle,
    sure: bool,
}

impl PrunedPairs {
    const ALL: PrunedPairs = PrunedPairs {
        from: Vec::new(),
        to: Vec::new(),
        most: f64::INFINITY,
    };

    /// Whether a pair, by its indices in the two lists, is surely farther apart than another.
    pub(crate) fn leaves_out(&self, one: usize, other: usize) -> bool {
        self.least(one, other)
            .is_some_and(|least| least > self.most)
    }

    fn least(&self, one: usize, other: usize) -> Option<f64> {
        let (one, other) = (self.from.get(one)?.as_ref()?, self.to.get(other)?.as_ref()?);
        Some(one.rectangle.apart(&other.rectangle) - MARGIN)
    }

    /// The pair with the nearest rectangles among those surely meant.
    fn nearest(&self) -> Option<(usize, usize)> {
        let sure = |all: &[Option<EndBox>], at: usize| {
            all.get(at).copied().flatten().is_some_and(|it| it.sure)
        };
        let mut best: Option<(f64, (usize, usize))> = None;
        for one in (0..self.from.len()).filter(|one| sure(&self.from, *one)) {
            work::corners(self.to.len());
            for other in (0..self.to.len()).filter(|other| sure(&self.to, *other)) {
                let least = self.least(one, other)?;
                if best.is_none_or(|(so_far, _)| least < so_far) {
                    best = Some((least, (one, other)));
                }
            }
        }
        best.map(|(_, pair)| pair)
    }
}

impl<'a> Judge<'a> {
    /// The pairs of two lists that may be the nearest. Tape readings are not in the drawing, so with any of them all pairs stay.
    pub(crate) fn pruned_pairs(
        &self,
        distance: &'a Distance,
        (from, to): (&Ends<'_>, &Ends<'_>),
        env: &Env<'_>,
    ) -> PrunedPairs {
        let on_the_plan = matches!(distance.how, Measured::Level | Measured::Walking);
        let many = from.list.len().saturating_mul(to.list.len()) >= FEW;
        let taped = !self.scene.plan().measured.is_empty();
        if !many || !on_the_plan || taped {
            return PrunedPairs::ALL;
        }
        let boxes = |list: &EndList<'_>| list.iter().map(|end| self.end_box(end)).collect();
        let pairs = PrunedPairs {
            from: boxes(&from.list),
            to: boxes(&to.list),
            ..PrunedPairs::ALL
        };
        let nearest = pairs.nearest();
        let nearest =
            nearest.and_then(|(one, other)| Some((from.list.get(one)?, to.list.get(other)?)));
        let most = nearest.map_or(NO_HIGH, |(one, other)| {
            self.between(distance.how, one, other, env).range.high
        });
        match most {
            NO_HIGH => PrunedPairs::ALL,
            most => PrunedPairs {
                most: most as f64,
                ..pairs
            },
        }
    }

    /// A box around an outline with its tolerance; `None` where that is unknown, or where its distances are not simply the drawn
    /// ones.
    pub(crate) fn end_box(&self, end: &End<'_>) -> Option<EndBox> {
        let (Referent::Thing(index), None) = (end.referent, end.zone) else {
            return None;
        };
        self.scene.base.note_read(index);
        let rectangle = self.scene.base.rectangle(index, end.outline)?;
        let drawn = self.scene.as_drawn;
        Some(EndBox {
            rectangle: if drawn {
                rectangle.drawn
            } else {
                rectangle.known?
            },
            sure: end.sure,
        })
    }
}
