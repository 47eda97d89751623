//! Judgements grouped into the classes that matter.

use rules_core::check::{Level, Truth};

use super::evaluate::Judgement;

/// The class of a judgement or of a set of them; `holds` and `not applicable` count as one class.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Classes(u8);

impl Classes {
    /// The class of a set of possible judgements.
    pub fn of(truth: Truth) -> Self {
        let fine = truth.may_be(Level::Holds) || truth.may_not_apply();
        let fails = truth.may_be(Level::Fails);
        let authority = truth.may_be(Level::Authority);
        Self(u8::from(fine) | u8::from(fails) << 1 | u8::from(authority) << 2)
    }

    /// The class of one judgement.
    pub fn of_one(judgement: Judgement) -> Self {
        Self(match judgement {
            Judgement::NotApplicable | Judgement::Applies(Level::Holds) => 1,
            Judgement::Applies(Level::Fails) => 2,
            Judgement::Applies(Level::Authority) => 4,
        })
    }

    /// Whether the other one allows everything that this one does.
    pub fn within(self, other: Self) -> bool {
        self.0 & !other.0 == 0
    }

    /// The union of the two.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether it holds a single class.
    pub fn one(self) -> bool {
        self.0.count_ones() == 1
    }
}
