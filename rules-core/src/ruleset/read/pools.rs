//! Every rule is silently judged for each pool.
//!
//! A plan can have several pools (a spa, a paddling pool), and a rule says `pool.depth` without an `each`. Where a rule
//! does so, it gets the `each` that its writer meant; where it has an `each` of its own, its requirement gets one.

use super::Reader;
use super::names::all_of;
use crate::quantity::{Dimension, Interval, ONE, Unit};
use crate::ruleset::{Bound, Each, Operand, Requirement, Selection, Stated, Test, Value, Which};
use crate::text::{Node, Span};
use crate::vocabulary::{KindId, Number};

/// What the name of a pool stands for where no `each` names one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Silent {
    /// All pools; none of them is meant, so a fact of it is a fault.
    #[default]
    All,
    /// All pools where it is measured from, the one that is judged where a fact of it is named.
    OneInFacts,
    /// The one that is judged.
    One,
}

impl<'a> Reader<'a> {
    /// The kind of which every rule is silently judged for each.
    fn pool(&self) -> Option<KindId> {
        let kind = self.vocabulary.kind_named("pool")?;
        (self.vocabulary.kind(kind).number == Number::Many).then_some(kind)
    }

    /// Whether a name that stands for all of a kind silently means one pool here; if so, it is noted.
    pub(super) fn silently_one(&mut self, selection: &Selection, least: Silent) -> bool {
        let silent = self.around.silent;
        let allowed =
            silent == Silent::One || silent == Silent::OneInFacts && least == Silent::OneInFacts;
        let whole =
            selection.filter.is_none() && selection.term.is_none() && selection.zone.is_none();
        let is = allowed && whole && self.pool() == Some(selection.kind);
        self.spoke_of_pool |= is;
        is
    }

    /// Reads something, and says whether it speaks of a pool that is not named.
    pub(super) fn with_silent<T>(
        &mut self,
        silent: Silent,
        read: impl FnOnce(&mut Self) -> T,
    ) -> (T, bool) {
        let outer = std::mem::replace(&mut self.around.silent, silent);
        let spoke = std::mem::take(&mut self.spoke_of_pool);
        let result = read(self);
        self.around.silent = outer;
        let speaks = std::mem::replace(&mut self.spoke_of_pool, spoke);
        (result, speaks)
    }

    /// Reads something in which all pools are measured from, though one of them may be judged.
    pub(super) fn of_all_pools<T>(&mut self, read: impl FnOnce(&mut Self) -> T) -> T {
        let outer = self.around.silent;
        if outer == Silent::One {
            self.around.silent = Silent::OneInFacts;
        }
        let result = read(self);
        self.around.silent = outer;
        result
    }

    /// Notes that a term was used that speaks of a pool; a fault where none is judged.
    pub(super) fn use_pool_term(&mut self, name: &str, span: Span) -> Option<()> {
        if self
            .around
            .bound
            .iter()
            .any(|bound| Some(bound.kind) == self.pool())
        {
            return Some(());
        }
        if self.around.silent == Silent::All {
            self.fault(
                "say-each",
                span,
                format!("`{name}` speaks of one pool, and here none is meant."),
            )
            .help("Use it in what is required, or in `when`.");
            return None;
        }
        self.spoke_of_pool = true;
        Some(())
    }

    /// An operand of a term, where all pools are meant.
    pub(super) fn for_these_pools(&mut self, mut operand: Operand) -> Operand {
        let Some(pool) = self.pool() else {
            return operand;
        };
        let bound = self.around.bound.iter().any(|bound| bound.kind == pool);
        for part in &mut operand.parts {
            if part.which != Which::Bound(pool) || bound {
                continue;
            }
            if self.around.silent == Silent::One {
                self.spoke_of_pool = true;
            } else {
                part.which = Which::All(all_of(pool));
            }
        }
        operand
    }

    /// All pools of which a condition holds.
    pub(super) fn pools(&self, filter: Option<Requirement>) -> Option<Selection> {
        Some(Selection {
            filter: filter.map(Box::new),
            ..all_of(self.pool()?)
        })
    }

    /// A requirement for each pool of which a condition holds; where it holds of none, nothing is required.
    pub(super) fn for_each_pool(
        &self,
        filter: Option<Requirement>,
        require: Requirement,
        span: Span,
    ) -> Option<Requirement> {
        let selection = self.pools(filter)?;
        Some(Requirement::Each(Box::new(Each {
            selection,
            require,
            span,
        })))
    }

    /// A condition of something that is not judged pool by pool: it holds if it does for any pool.
    pub(super) fn condition(&mut self, node: &'a Node) -> Option<Requirement> {
        let (read, speaks) = self.with_silent(Silent::One, |reader| reader.whole_requirement(node));
        let condition = read?;
        if !speaks {
            return Some(condition);
        }
        let pools = self.pools(Some(condition))?;
        Some(Requirement::Test(Box::new(Test {
            value: Value::Count(pools),
            bounds: vec![Bound::AtLeast(Value::Stated(one()))],
            span: self.place(node.span),
        })))
    }
}

fn one() -> Stated {
    Stated {
        range: Interval::exact(ONE),
        dimension: Dimension::Number,
        unit: Unit::usual(Dimension::Number),
    }
}
