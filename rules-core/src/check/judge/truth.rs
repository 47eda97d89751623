//! What a requirement may turn out to be, over all possible worlds.

/// What a requirement is in one world.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// It does not hold.
    Fails,
    /// The authority decides.
    Authority,
    /// It holds.
    Holds,
}

/// The levels that are still possible, and whether it may be that there is nothing to speak about.
///
/// Where there is nothing to speak about, a requirement neither holds nor fails: beside others it is left out, and a rule
/// that comes to nothing else does not apply.
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
    /// Surely the authority's to decide.
    pub const AUTHORITY: Truth = Truth(2);
    /// Surely holds.
    pub const HOLDS: Truth = Truth(4);
    /// May hold or not.
    pub const OPEN: Truth = Truth(5);
    /// There surely is nothing to speak about; of a rule: it surely does not apply.
    pub const NOT_APPLICABLE: Truth = Truth(8);

    /// Just this level.
    pub fn of(level: Level) -> Truth {
        match level {
            Level::Fails => Truth::FAILS,
            Level::Authority => Truth::AUTHORITY,
            Level::Holds => Truth::HOLDS,
        }
    }

    /// What a comparison gives that can come out true or false.
    pub fn of_comparison(can_be_true: bool, can_be_false: bool) -> Truth {
        Truth(
            if can_be_true { Truth::HOLDS.0 } else { 0 }
                | if can_be_false { Truth::FAILS.0 } else { 0 },
        )
    }

    /// Either of two sets.
    #[must_use]
    pub fn or_else(self, other: Truth) -> Truth {
        Truth(self.0 | other.0)
    }

    /// What both sets have.
    #[must_use]
    pub(crate) fn meet(self, other: Truth) -> Truth {
        Truth(self.0 & other.0)
    }

    /// Each that is possible, by itself.
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

    /// Both must hold; what has nothing to speak about is left out.
    #[must_use]
    pub fn and(self, other: Truth) -> Truth {
        self.lift(other, Level::min)
    }

    /// One must hold; what has nothing to speak about is left out.
    #[must_use]
    pub fn or(self, other: Truth) -> Truth {
        self.lift(other, Level::max)
    }

    /// It must not hold; what is the authority's stays the authority's.
    #[must_use]
    pub fn negated(self) -> Truth {
        self.levels()
            .map(|level| Truth::of(level.mirrored()))
            .fold(self.absent(), Truth::or_else)
    }

    /// The same where having nothing to speak about comes to something else.
    #[must_use]
    pub fn absent_as(self, other: Truth) -> Truth {
        match self.may_not_apply() {
            true => self.applied().or_else(other),
            false => self,
        }
    }

    /// What a rule comes to where the authority says whether it applies: what holds anyway holds, the rest is the
    /// authority's.
    #[must_use]
    pub(crate) fn if_the_authority_says(self) -> Truth {
        self.absent().or_else(self.applied().or(Truth::AUTHORITY))
    }

    /// Just that there may be nothing to speak about, where there may.
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

    /// At least `wanted` of the members hold: the `wanted`-th largest of them. A member that has nothing to speak about
    /// does not hold; where none has, neither has this.
    pub fn at_least(wanted: usize, members: &[Truth]) -> Truth {
        // Possible tallies of members that hold, and of members that hold or are the authority's, capped at `wanted`;
        // and whether any member spoke about anything.
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

    /// What a tally may be after one more member.
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
    fn what_has_nothing_to_speak_about_is_left_out() {
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
    fn fewer_possibilities_never_give_more() {
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
        // Two of three, as the or of three ands, treats each member as if it could differ between the ands, so it
        // may allow more; the exact set, by trying every world, is what counting must give.
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
