//! Deliberate faults, for testing the tests.
//!
//! A property that no fault can break proves nothing. So that the property of soundness can be seen to catch the
//! faults that would hurt most, each of them can be switched on, one at a time and for the current thread only, where
//! the feature `mutants` is on. Without the feature (in every program that people use) no fault is ever on, and the
//! compiler drops the places that ask.

/// A fault that the tests of soundness must catch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mutant {
    /// A kind of thing that nobody looked for is taken as not there.
    NotCheckedAsNone,
    /// Only one end's accuracy counts.
    OneEndsAccuracy,
    /// Accuracies add up as if they were independent errors: √(e₁² + e₂²).
    RootOfSquares,
    /// What is open passes.
    OpenPasses,
    /// The low end of an uncertain limit stands for its high end.
    LimitsLowEnd,
    /// A thing that is only perhaps meant is left out.
    UnknownIsOut,
    /// The nearest of a set is no farther than one that is only perhaps in it.
    NearestOfPerhaps,
    /// `not` leaves its member as it is.
    NotUnmirrored,
    /// `at-least` and `more-than` are taken for each other.
    AtLeastMoreThan,
    /// An amount just at the edge of a table's row falls on the other side.
    TablesEdge,
    /// Outlines that overlap as drawn are taken to overlap for sure, however shallow.
    OverlapUntested,
    /// The shift of a source cancels even between two sources.
    ShiftCancelled,
    /// A square-cornered outline is measured as if its corners were round.
    SquareAsRound,
    /// A relief that needs the authority's leave counts as holding.
    LeaveHolds,
}

impl Mutant {
    /// All of them.
    pub const ALL: [Mutant; 14] = [
        Mutant::NotCheckedAsNone,
        Mutant::OneEndsAccuracy,
        Mutant::RootOfSquares,
        Mutant::OpenPasses,
        Mutant::LimitsLowEnd,
        Mutant::UnknownIsOut,
        Mutant::NearestOfPerhaps,
        Mutant::NotUnmirrored,
        Mutant::AtLeastMoreThan,
        Mutant::TablesEdge,
        Mutant::OverlapUntested,
        Mutant::ShiftCancelled,
        Mutant::SquareAsRound,
        Mutant::LeaveHolds,
    ];
}

#[cfg(feature = "mutants")]
mod switch {
    use super::Mutant;
    use std::cell::Cell;

    thread_local! {
        static ON: Cell<Option<Mutant>> = const { Cell::new(None) };
    }

    /// Whether this fault is on.
    pub fn is_on(mutant: Mutant) -> bool {
        ON.get() == Some(mutant)
    }

    /// Does something with a fault switched on. It is switched off again even where that panics: another test may run on
    /// the same thread.
    pub fn with<T>(mutant: Mutant, act: impl FnOnce() -> T) -> T {
        let _before = Before(ON.replace(Some(mutant)));
        act()
    }

    /// Puts back what was on before.
    struct Before(Option<Mutant>);

    impl Drop for Before {
        fn drop(&mut self) {
            ON.set(self.0);
        }
    }
}

#[cfg(feature = "mutants")]
pub use switch::{is_on, with};

/// Whether this fault is on: never.
#[cfg(not(feature = "mutants"))]
pub const fn is_on(_: Mutant) -> bool {
    false
}
