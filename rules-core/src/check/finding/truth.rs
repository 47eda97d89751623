//! The possible results of a requirement, over all possible worlds.

/// The result of a requirement in one world.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// It does not hold.
    Fails,
    /// The authority decides.
    Authority,
    /// It holds.
    Holds,
}

/// The levels that are still possible, and whether the requirement may not apply.
///
/// A requirement does not apply where there is nothing for it to be about. It then neither holds nor fails: among others it is
/// left out, and a rule with no other result does not apply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Truth(u8);

const LEVELS: [Level; 3] = [Level::Fails, Level::Authority, Level::Holds];

impl Level {
    fn mirrored(self) -> Level {
        match self {
            Level::Fails => Level::Holds,
            Level::Authority => Level::Authority,
            Level::Holds => Level::Fails,
        }
    }
}

impl Truth {
    /// No world at all: the start of a union.
    pub const NONE: Truth = Truth(0);
    /// Surely does not hold.
    pub const FAILS: Truth = Truth(1);
    /// The authority surely decides.
    pub const AUTHORITY: Truth = Truth(2);
    /// Surely holds.
    pub const HOLDS: Truth = Truth(4);
    /// May hold or not.
    pub const OPEN: Truth = Truth(5);
    /// Surely does not apply: there is nothing for it to be about.
    pub const NOT_APPLICABLE: Truth = Truth(8);

    /// Just this level.
    pub fn of(level: Level) -> Truth {
        match level {
            Level::Fails => Truth::FAILS,
            Level::Authority => Truth::AUTHORITY,
            Level::Holds => Truth::HOLDS,
        }
    }

    /// The truth of a comparison that can come out true, false or either.
    pub fn of_comparison(can_be_true: bool, can_be_false: bool) -> Truth {
        Truth(
            if can_be_true { Truth::HOLDS.0 } else { 0 }
                | if can_be_false { Truth::FAILS.0 } else { 0 },
        )
    }

    /// Everything possible in either of two sets.
    #[must_use]
    pub fn or_else(self, other: Truth) -> Truth {
        Truth(self.0 | other.0)
    }

    /// Everything possible in both sets.
    #[must_use]
    pub(crate) fn meet(self, other: Truth) -> Truth {
        Truth(self.0 & other.0)
    }

    /// Each possible result by itself.
    pub(crate) fn each(self) -> impl Iterator<Item = Truth> {
        (0..4)
            .map(|bit| Truth(1 << bit))
            .filter(move |one| one.within(self))
    }

    /// Whether everything possible here is possible there.
    pub fn within(self, other: Truth) -> bool {
        self.0 & !other.0 == 0
    }

    /// Whether this level is possible.
    pub fn may_be(self, level: Level) -> bool {
        Truth::of(level).within(self)
    }

    /// Whether it may be that the rule does not apply.
    pub fn may_not_apply(self) -> bool {
        Truth::NOT_APPLICABLE.within(self)
    }

    /// Whether no world is left.
    pub fn is_none(self) -> bool {
        self.0 == 0
    }

    /// Whether more than one level is possible.
    pub fn is_open(self) -> bool {
        self.0.count_ones() > 1
    }

    /// The levels without `not applicable`.
    #[must_use]
    pub fn applied(self) -> Truth {
        Truth(self.0 & 7)
    }

    fn levels(self) -> impl Iterator<Item = Level> {
        LEVELS.into_iter().filter(move |level| self.may_be(*level))
    }

    /// Both must hold; one that does not apply is left out.
    #[must_use]
    pub fn and(self, other: Truth) -> Truth {
        self.lift(other, Level::min)
    }

    /// One must hold; one that does not apply is left out.
    #[must_use]
    pub fn or(self, other: Truth) -> Truth {
        self.lift(other, Level::max)
    }

    /// The opposite; what the authority decides it still decides.
    #[must_use]
    pub fn negated(self) -> Truth {
        self.levels()
            .map(|level| Truth::of(level.mirrored()))
            .fold(self.absent(), Truth::or_else)
    }

    /// The same with "does not apply" replaced by something else.
    #[must_use]
    pub fn absent_as(self, other: Truth) -> Truth {
        match self.may_not_apply() {
            true => self.applied().or_else(other),
            false => self,
        }
    }

    /// The truth of a rule where the authority says whether it applies: what holds anyway holds, and the authority decides
    /// the rest.
    #[must_use]
    pub(crate) fn if_the_authority_says(self) -> Truth {
        self.absent().or_else(self.applied().or(Truth::AUTHORITY))
    }

    /// Only "does not apply", where that is possible.
    fn absent(self) -> Truth {
        Truth(self.0 & Truth::NOT_APPLICABLE.0)
    }

    fn lift(self, other: Truth, operation: fn(Level, Level) -> Level) -> Truth {
        let mut result = Truth::NONE;
        for a in self.levels() {
            for b in other.levels() {
                result = result.or_else(Truth::of(operation(a, b)));
            }
        }
        let left_out = |one: Truth, beside: Truth| match beside.may_not_apply() {
            true => one,
            false => Truth::NONE,
        };
        result
            .or_else(left_out(self, other))
            .or_else(left_out(other, self))
    }

    /// At least `wanted` of the members hold: the `wanted`-th largest of them. A member that does not apply does not hold;
    /// where none applies, neither does this.
    pub fn at_least(wanted: usize, members: &[Truth]) -> Truth {
        // The possible tallies of members that hold, and of members that hold or are left to the authority, capped at
        // `wanted`; and whether any member applied.
        let mut tallies = std::collections::BTreeSet::from([(0_usize, 0_usize, false)]);
        for member in members {
            tallies = tallies
                .iter()
                .flat_map(|&tally| member.tallied(tally, wanted))
                .collect();
        }
        let came_to = |(holds, either, spoke)| match (spoke || members.is_empty(), holds, either) {
            (false, ..) => Truth::NOT_APPLICABLE,
            (true, holds, _) if holds >= wanted => Truth::HOLDS,
            (true, _, either) if either >= wanted => Truth::AUTHORITY,
            _ => Truth::FAILS,
        };
        tallies
            .into_iter()
            .map(came_to)
            .fold(Truth::NONE, Truth::or_else)
    }

    /// The possible tallies after one more member.
    fn tallied(
        self,
        (holds, either, spoke): (usize, usize, bool),
        wanted: usize,
    ) -> Vec<(usize, usize, bool)> {
        let with = |level: Level| {
            (
                (holds + usize::from(level == Level::Holds)).min(wanted),
                (either + usize::from(level != Level::Fails)).min(wanted),
                true,
            )
        };
        let without = self.may_not_apply().then_some((holds, either, spoke));
        self.levels().map(with).chain(without).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all() -> impl Iterator<Item = Truth> {
        (1..16).map(Truth)
    }

    #[test]
    fn de_morgan_and_associativity_hold_for_every_set() {
        for a in all() {
            assert_eq!(a.negated().negated(), a);
            for b in all() {
                assert_eq!(a.and(b).negated(), a.negated().or(b.negated()));
                assert_eq!(a.and(b), b.and(a));
                for c in all() {
                    assert_eq!(a.and(b).and(c), a.and(b.and(c)));
                    assert_eq!(a.or(b).or(c), a.or(b.or(c)));
                }
            }
        }
    }

    #[test]
    fn what_does_not_apply_is_left_out() {
        let nothing = Truth::NOT_APPLICABLE;
        for a in all() {
            assert_eq!((a.and(nothing), a.or(nothing)), (a, a));
        }
        assert_eq!(nothing.negated(), nothing);
        assert_eq!(nothing.absent_as(Truth::FAILS), Truth::FAILS);
        let none_but_one = [nothing, Truth::HOLDS];
        assert_eq!(Truth::at_least(2, &none_but_one), Truth::FAILS);
        assert_eq!(Truth::at_least(1, &[nothing, nothing]), nothing);
    }

    #[test]
    fn fewer_possible_inputs_never_give_more_results() {
        for a in all() {
            for smaller in all().filter(|s| s.within(a)) {
                assert!(smaller.negated().within(a.negated()));
                for b in all() {
                    assert!(smaller.and(b).within(a.and(b)));
                    assert!(smaller.or(b).within(a.or(b)));
                    assert!(
                        Truth::at_least(2, &[smaller, b, b]).within(Truth::at_least(2, &[a, b, b]))
                    );
                }
            }
        }
    }

    #[test]
    fn counting_one_is_any_of_and_counting_all_is_all_of() {
        for a in all() {
            for b in all() {
                for c in all() {
                    let members = [a, b, c];
                    assert_eq!(Truth::at_least(1, &members), a.or(b).or(c));
                    if members.iter().any(|member| member.may_not_apply()) {
                        continue;
                    }
                    assert_eq!(Truth::at_least(3, &members), a.and(b).and(c));
                    assert_eq!(
                        Truth::at_least(2, &members),
                        a.and(b).or(a.and(c)).or(b.and(c)).within_or(&members)
                    );
                }
            }
        }
    }

    impl Truth {
        // Two of three, written as the or of three ands, treats each member as if it could differ between the ands, so it
        // may allow more. Counting must give the exact set, which is found by trying every world.
        fn within_or(self, members: &[Truth; 3]) -> Truth {
            let mut exact = Truth::NONE;
            for a in members[0].levels() {
                for b in members[1].levels() {
                    for c in members[2].levels() {
                        let mut sorted = [a, b, c];
                        sorted.sort();
                        exact = exact.or_else(Truth::of(sorted[1]));
                    }
                }
            }
            assert!(exact.within(self));
            exact
        }
    }
}
