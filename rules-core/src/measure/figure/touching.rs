//! Axis-aligned rectangles around figures, and finding those that touch without trying every pair.

use crate::measure::figure::chain::{Bounds, Chain};
use crate::plan::figure::Figure;
use crate::work;

/// An axis-aligned rectangle, in any unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rectangle {
    across: [f64; 2],
    up: [f64; 2],
}

impl Rectangle {
    pub(crate) fn of((x, y): (f64, f64), (to_x, to_y): (f64, f64)) -> Self {
        Rectangle {
            across: [x.min(to_x), x.max(to_x)],
            up: [y.min(to_y), y.max(to_y)],
        }
    }

    /// The rectangle around a figure with its spread, in nanometres; `None` for a figure with arcs, which may bulge beyond its
    /// corners.
    pub fn around(figure: &Figure) -> Option<Self> {
        let forms = figure.forms.iter().filter(|_| figure.curved.is_empty());
        let bounds = forms.filter_map(|form| Bounds::around(Chain::of(form).points));
        let Bounds { low, high } = bounds.reduce(Bounds::join)?;
        let plain = Self::of((low.x as f64, low.y as f64), (high.x as f64, high.y as f64));
        Some(plain.wider(figure.spread))
    }

    /// The same, widened on each side.
    #[must_use]
    pub fn wider(self, by: i64) -> Self {
        let wider = |[from, to]: [f64; 2]| [from - by as f64, to + by as f64];
        Rectangle {
            across: wider(self.across),
            up: wider(self.up),
        }
    }

    /// The approximate distance between two; 0 where they touch.
    pub fn apart(&self, other: &Self) -> f64 {
        let gap = |one: [f64; 2], two: [f64; 2]| (two[0] - one[1]).max(one[0] - two[1]).max(0.0);
        let (x, y) = (gap(self.across, other.across), gap(self.up, other.up));
        (x * x + y * y).sqrt()
    }
}

/// Calls a visitor with the indices of each pair of rectangles that touch, until it returns `false`. Gives `false` if that
/// happened, or if no steps are left.
///
/// The rectangles are visited from left to right, and each is compared with those that begin before it ends.
pub(crate) fn touching(all: &[Rectangle], mut visit: impl FnMut(usize, usize) -> bool) -> bool {
    let mut order: Vec<(usize, &Rectangle)> = all.iter().enumerate().collect();
    order.sort_by(|(_, one), (_, other)| one.across[0].total_cmp(&other.across[0]));
    for (place, (index, own)) in order.iter().enumerate() {
        let after = order.iter().skip(place + 1);
        let beside = after.take_while(|(_, other)| other.across[0] <= own.across[1]);
        let mut tried = 0;
        for (other, against) in beside {
            tried += 1;
            if own.up[0] <= against.up[1] && against.up[0] <= own.up[1] && !visit(*index, *other) {
                return false;
            }
        }
        work::corners(1 + tried);
        if work::is_spent() {
            return false;
        }
    }
    true
}
