//! The values that a fact can still have, as a judgement sees them.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::plan::{Possible, Words};
use crate::quantity::{Dimension, Interval, Unit};
use crate::vocabulary::Answer;

/// The values that a fact can still have.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct FactView {
    pub(crate) none: bool,
    pub(crate) amount: Option<AmountView>,
    pub(crate) words: Option<Arc<Words>>,
}

/// The values that an amount can still have at its lowest and at its highest place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct AmountView {
    pub(crate) least: Interval,
    pub(crate) most: Interval,
    pub(crate) dimension: Dimension,
    pub(crate) unit: Option<Unit>,
}

impl FactView {
    pub(crate) const NONE: FactView = FactView {
        none: true,
        amount: None,
        words: None,
    };

    /// The values stated for a fact; as drawn, every ± is taken as 0.
    pub(crate) fn of_stated(possible: &Possible, as_drawn: bool) -> FactView {
        let amount = possible.amount.as_ref().map(|amount| {
            let most = amount.most.unwrap_or(amount.least);
            let (least, most) = match amount.drawn {
                Some((least, most)) if as_drawn => (Interval::exact(least), Interval::exact(most)),
                _ => (amount.least, most),
            };
            AmountView {
                least,
                most,
                dimension: amount.dimension,
                unit: amount.unit,
            }
        });
        FactView {
            none: possible.none,
            amount,
            words: possible.words.clone(),
        }
    }

    /// Its values at the lowest and the highest place along its thing; `None` where it is the same all along.
    pub(crate) fn along(&self) -> Option<(Interval, Interval)> {
        let amount = self.amount?;
        (amount.least != amount.most).then_some((amount.least, amount.most))
    }

    /// The same at one place, where its value is in this range.
    pub(crate) fn between(&self, range: Interval) -> FactView {
        let amount = self.amount.map(|amount| AmountView {
            least: range,
            most: range,
            ..amount
        });
        FactView {
            amount,
            ..self.clone()
        }
    }

    /// Splits a fact at the amounts that it is compared with, or into its possible words.
    pub(crate) fn cells(&self, thresholds: &BTreeSet<i128>) -> Option<Vec<FactView>> {
        let mut cells = Vec::new();
        if self.none {
            cells.push(FactView::NONE);
        }
        if let Some(amount) = &self.amount {
            cells.extend(
                pieces(amount, thresholds)
                    .into_iter()
                    .map(FactView::of_amount),
            );
        }
        match self.words.as_deref() {
            Some(Words::OneOf(words)) => {
                cells.extend(words.iter().map(|word| FactView::of_word(word)))
            }
            Some(Words::Any) => return None,
            None => {}
        }
        Some(cells)
    }

    fn of_amount(amount: AmountView) -> FactView {
        FactView {
            none: false,
            amount: Some(amount),
            words: None,
        }
    }

    fn of_word(word: &str) -> FactView {
        FactView {
            none: false,
            amount: None,
            words: Some(Arc::new(Words::OneOf(BTreeSet::from([word.to_owned()])))),
        }
    }

    pub(crate) fn is_certain(&self) -> bool {
        let amount = self
            .amount
            .as_ref()
            .is_none_or(|a| a.least.is_exact() && a.most.is_exact());
        let words = match self.words.as_deref() {
            None => true,
            Some(Words::OneOf(set)) => set.len() < 2,
            Some(Words::Any) => false,
        };
        let ways = usize::from(self.none)
            + usize::from(self.amount.is_some())
            + usize::from(self.words.is_some());
        amount && words && ways == 1
    }
}

/// All values that a fact can have, by the kind of its answer.
pub(crate) fn all_that_is_possible(answer: &Answer, none: bool) -> FactView {
    let (amount, words) = match answer {
        Answer::Amount { dimension, .. } => {
            let range = answer.possible();
            (
                Some(AmountView {
                    least: range,
                    most: range,
                    dimension: *dimension,
                    unit: None,
                }),
                None,
            )
        }
        Answer::Word { open: true, .. } => (None, Some(Words::Any)),
        Answer::Word { words, open: false } => {
            (None, Some(Words::OneOf(words.iter().cloned().collect())))
        }
        Answer::YesNo => (
            None,
            Some(Words::OneOf(["no", "yes"].map(str::to_owned).into())),
        ),
    };
    FactView {
        none,
        amount,
        words: words.map(Arc::new),
    }
}

/// Splits an amount below, at and above each threshold. One that changes along its thing is split by its lowest and by its
/// highest value.
fn pieces(amount: &AmountView, thresholds: &BTreeSet<i128>) -> Vec<AmountView> {
    let of = |least: Interval, most: Interval| AmountView {
        least,
        most,
        ..*amount
    };
    let lowest = cut(amount.least, thresholds);
    if amount.least == amount.most {
        return lowest.into_iter().map(|range| of(range, range)).collect();
    }
    let highest = cut(amount.most, thresholds);
    let pair = |least: Interval| {
        let above = highest.iter().filter(move |most| most.high >= least.low);
        above.map(move |most| of(least, *most))
    };
    lowest.iter().copied().flat_map(pair).collect()
}

/// Splits an interval below, at and above each threshold.
fn cut(range: Interval, thresholds: &BTreeSet<i128>) -> Vec<Interval> {
    let mut pieces = Vec::new();
    let mut low = range.low;
    for &cut in thresholds.iter().filter(|cut| range.contains(**cut)) {
        if low < cut {
            pieces.push(Interval {
                low,
                high: cut.saturating_sub(1),
            });
        }
        pieces.push(Interval::exact(cut));
        low = cut.saturating_add(1);
    }
    if low <= range.high {
        pieces.push(Interval { low, ..range });
    }
    pieces
}
