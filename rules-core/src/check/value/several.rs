//! One value of each of several things.

use crate::check::judge::possible::Alternative;
use crate::check::value::heights::VaryingHeight;
use crate::quantity::{Interval, NO_HIGH, NO_LOW};

/// The least and the greatest value over some things, so that each of them must keep a limit.
#[derive(Default)]
pub(crate) struct OfSeveral {
    all: Option<VaryingHeight>,
    sure: Option<VaryingHeight>,
    number: usize,
}

impl OfSeveral {
    /// Adds a thing's value; `sure` where the thing is surely meant.
    pub(crate) fn add(&mut self, own: VaryingHeight, sure: bool) {
        let joined = |so_far: Option<VaryingHeight>| {
            Some(so_far.map_or(own, |so_far| VaryingHeight {
                least: so_far.least.min(own.least),
                most: so_far.most.max(own.most),
            }))
        };
        self.all = joined(self.all);
        if sure {
            self.sure = joined(self.sure);
        }
        self.number += 1;
    }

    /// The value from its least to its greatest, where there are any things.
    pub(crate) fn way(&self) -> Option<Alternative> {
        let all = self.all?;
        // A single thing: the value counts only where it is there.
        let sure = if self.number == 1 {
            self.all
        } else {
            self.sure
        };
        Some(Alternative::Amount {
            least: Interval {
                low: all.least.low,
                high: sure.map_or(NO_HIGH, |sure| sure.least.high),
            },
            most: Interval {
                low: sure.map_or(NO_LOW, |sure| sure.most.low),
                high: all.most.high,
            },
        })
    }
}
