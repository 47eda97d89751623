//! What findings come to, as far as it matters.

use rules_core::check::{Level, Truth};

use super::evaluate::Judgement;

/// What a judgement or a set of them comes to, `holds` and `not applicable` being one class.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Classes(u8);

impl Classes {
    /// Of all that is possible.
    pub fn of(truth: Truth) -> Self {
        let fine = truth.may_be(Level::Holds) || truth.may_not_apply();
        let fails = truth.may_be(Level::Fails);
        let authority = truth.may_be(Level::Authority);
        Self(u8::from(fine) | u8::from(fails) << 1 | u8::from(authority) << 2)
    }

    /// Of one judgement.
    pub fn of_one(judgement: Judgement) -> Self {
        Self(match judgement {
            Judgement::NotApplicable | Judgement::Applies(Level::Holds) => 1,
            Judgement::Applies(Level::Fails) => 2,
            Judgement::Applies(Level::Authority) => 4,
        })
    }

    /// Whether all of it is possible there.
    pub fn within(self, other: Self) -> bool {
        self.0 & !other.0 == 0
    }

    /// Both together.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether it is decided.
    pub fn one(self) -> bool {
        self.0.count_ones() == 1
    }
}
