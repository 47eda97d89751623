//! The possible values of something that a rule measures.

use std::borrow::Cow;
use std::sync::Arc;

use smallvec::{SmallVec, smallvec};

use crate::check::Witness;
use crate::check::judge::Role;
use crate::check::world::dependency::Thresholds;
use crate::plan::Words;
use crate::quantity::{Dimension, Interval, Unit};
use crate::ruleset::IfNone;

/// The possible values of something: one or more alternatives, each an interval of amounts, a word, or something else.
///
/// The alternatives are not joined into one interval, because a table's rows may give limits far apart.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct PossibleValue {
    pub(crate) ways: Alternatives,
    pub(crate) dimension: Dimension,
    pub(crate) unit: Option<Unit>,
    pub(crate) witness: Option<Witness>,
    pub(crate) tolerance: Option<i64>,
}

/// One alternative.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Alternative {
    /// An amount; `least` and `most` differ where it varies along its thing.
    Amount { least: Interval, most: Interval },
    /// A word.
    Words(Arc<Words>),
    /// The value is "none".
    Nothing,
    /// The authority decides.
    Refer,
    /// There is nothing to measure. The rule may say what follows from that.
    Empty(Option<IfNone>),
    /// The distance to something that is not there, if the rule does not say what that means: it is more than any limit.
    Far,
    /// The largest of no things, if the rule does not say what that means: it is never above a limit.
    Least,
    /// There is no outline whose area or length could be taken.
    Bare,
}

/// There is mostly one alternative, and sometimes a second for "nothing there".
pub(crate) type Alternatives = SmallVec<[Alternative; 2]>;

/// With more alternatives than this, their amounts are joined into one interval.
const MOST_WAYS: usize = 16;

impl Alternative {
    pub(crate) fn amount(range: Interval) -> Alternative {
        Alternative::Amount {
            least: range,
            most: range,
        }
    }

    /// The alternative for a role. An outline that is not there covers nothing in a condition; a requirement on it does not
    /// apply.
    pub(crate) fn for_role(&self, role: Role) -> Cow<'_, Alternative> {
        match (self, role) {
            (Alternative::Bare, Role::Required) => Cow::Owned(Alternative::Empty(None)),
            (Alternative::Bare, Role::Condition) => {
                Cow::Owned(Alternative::amount(Interval::exact(0)))
            }
            _ => Cow::Borrowed(self),
        }
    }

    pub(crate) fn range(&self) -> Option<Interval> {
        match self {
            Alternative::Amount { least, most } => Some(least.hull(*most)),
            _ => None,
        }
    }
}

impl PossibleValue {
    pub(crate) fn of(ways: impl Into<Alternatives>, dimension: Dimension) -> PossibleValue {
        PossibleValue {
            ways: ways.into(),
            dimension,
            unit: None,
            witness: None,
            tolerance: None,
        }
    }

    pub(crate) fn amount(range: Interval, dimension: Dimension) -> PossibleValue {
        PossibleValue::of(
            smallvec![Alternative::amount(range)] as Alternatives,
            dimension,
        )
    }

    /// All its amounts as one interval.
    pub(crate) fn range(&self) -> Option<Interval> {
        self.ways
            .iter()
            .filter_map(Alternative::range)
            .reduce(Interval::hull)
    }

    /// Whether it changes along its thing.
    pub(crate) fn changes(&self) -> bool {
        let changes =
            |way: &Alternative| matches!(way, Alternative::Amount { least, most } if least != most);
        self.ways.iter().any(changes)
    }

    pub(crate) fn may_be_nothing(&self) -> bool {
        self.ways.contains(&Alternative::Nothing)
    }

    pub(crate) fn may_refer(&self) -> bool {
        self.ways.contains(&Alternative::Refer)
    }

    /// The ends of its intervals, at which a comparison with it changes.
    pub(crate) fn ends(&self) -> Thresholds {
        self.ways
            .iter()
            .filter_map(Alternative::range)
            .flat_map(|range| [range.least(), range.greatest()])
            .flatten()
            .collect()
    }

    /// Joins the amounts where there are too many alternatives.
    pub(crate) fn limited(mut self) -> PossibleValue {
        self.ways.dedup();
        if self.ways.len() > MOST_WAYS {
            let joined = self.range().map(Alternative::amount);
            self.ways.retain(|way| way.range().is_none());
            self.ways.dedup();
            self.ways.extend(joined);
        }
        self
    }
}
