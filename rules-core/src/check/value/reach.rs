//! Pairs of outlines too far apart to be the nearest of many: left out before anything is measured.

use crate::check::judge::Judge;
use crate::check::value::distance::{End, EndList, Ends};
use crate::check::world::env::{Env, Referent};
use crate::measure::Rectangle;
use crate::quantity::NO_HIGH;
use crate::ruleset::{Distance, Measured, Places};
use crate::work;

/// With fewer pairs than this all are measured.
pub(crate) const FEW: usize = 16;
/// Floats tell how far rectangles are apart; by so many nanometres they may be wrong.
pub(crate) const MARGIN: f64 = 1000.0;

/// Which pairs may be the nearest.
pub(crate) struct Reach {
    from: Vec<Option<Around>>,
    to: Vec<Option<Around>>,
    /// Some pair is surely no farther apart, in nanometres.
    most: f64,
}

/// All places where an outline may be.
#[derive(Clone, Copy)]
pub(crate) struct Around {
    pub(crate) rectangle: Rectangle,
    sure: bool,
}

impl Reach {
    const ENDLESS: Reach = Reach {
        from: Vec::new(),
        to: Vec::new(),
        most: f64::INFINITY,
    };

    /// Whether a pair, by its places in the two lists, is surely farther apart than another.
    pub(crate) fn leaves_out(&self, one: usize, other: usize) -> bool {
        self.least(one, other)
            .is_some_and(|least| least > self.most)
    }

    fn least(&self, one: usize, other: usize) -> Option<f64> {
        let (one, other) = (self.from.get(one)?.as_ref()?, self.to.get(other)?.as_ref()?);
        Some(one.rectangle.apart(&other.rectangle) - MARGIN)
    }

    /// The pair of which both surely are meant and whose rectangles are nearest.
    fn nearest(&self) -> Option<(usize, usize)> {
        let sure = |all: &[Option<Around>], at: usize| {
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
    /// Which pairs of two lists may be the nearest. What a tape says is not drawn, so where there is any, all pairs are.
    pub(crate) fn reach(
        &self,
        distance: &'a Distance,
        (from, to): (&Ends<'_>, &Ends<'_>),
        env: &Env<'_>,
    ) -> Reach {
        let on_the_plan = matches!(distance.how, Measured::Level | Measured::Walking);
        let many = from.list.len().saturating_mul(to.list.len()) >= FEW;
        let taped = !self.scene.plan().measured.is_empty();
        if !many || !on_the_plan || taped || distance.places != Places::Nearest {
            return Reach::ENDLESS;
        }
        let around = |list: &EndList<'_>| list.iter().map(|end| self.around(end)).collect();
        let reach = Reach {
            from: around(&from.list),
            to: around(&to.list),
            ..Reach::ENDLESS
        };
        let nearest = reach.nearest();
        let nearest =
            nearest.and_then(|(one, other)| Some((from.list.get(one)?, to.list.get(other)?)));
        let most = nearest.map_or(NO_HIGH, |(one, other)| {
            self.between(distance, one, other, env).range.high
        });
        match most {
            NO_HIGH => Reach::ENDLESS,
            most => Reach {
                most: most as f64,
                ..reach
            },
        }
    }

    /// All places where an outline may be; `None` where nobody knows, or where its distance is not simply what is drawn.
    pub(crate) fn around(&self, end: &End<'_>) -> Option<Around> {
        let (Referent::Thing(index), None) = (end.referent, end.zone) else {
            return None;
        };
        self.scene.base.look_at(index);
        let rectangle = self.scene.base.rectangle(index, end.outline)?;
        let drawn = self.scene.as_drawn;
        Some(Around {
            rectangle: if drawn {
                rectangle.drawn
            } else {
                rectangle.known?
            },
            sure: end.sure,
        })
    }
}
