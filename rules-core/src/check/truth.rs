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

/// The levels that are still possible; `not applicable` beside them for a whole rule.
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
    /// The rule surely does not apply.
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

    /// Both must hold.
    #[must_use]
    pub fn and(self, other: Truth) -> Truth {
        self.lift(other, Level::min)
    }

    /// One must hold.
    #[must_use]
    pub fn or(self, other: Truth) -> Truth {
        self.lift(other, Level::max)
    }

    /// It must not hold; what is the authority's stays the authority's.
    #[must_use]
    pub fn negated(self) -> Truth {
        self.levels()
            .map(|level| Truth::of(level.mirrored()))
            .fold(Truth::NONE, Truth::or_else)
    }

    fn lift(self, other: Truth, operation: fn(Level, Level) -> Level) -> Truth {
        let mut result = Truth::NONE;
        for a in self.levels() {
            for b in other.levels() {
                result = result.or_else(Truth::of(operation(a, b)));
            }
        }
        result
    }

    /// At least `wanted` of the members hold: the `wanted`-th largest of them.
    pub fn at_least(wanted: usize, members: &[Truth]) -> Truth {
        // Possible pairs of (members that hold, members that hold or are the authority's), capped at `wanted`.
        let mut tallies = std::collections::BTreeSet::from([(0_usize, 0_usize)]);
        for member in members {
            tallies = tallies
                .iter()
                .flat_map(|&(holds, either)| {
                    member.levels().map(move |level| {
                        let more_hold = usize::from(level == Level::Holds);
                        let more_either = usize::from(level != Level::Fails);
                        (
                            (holds + more_hold).min(wanted),
                            (either + more_either).min(wanted),
                        )
                    })
                })
                .collect();
        }
        tallies
            .into_iter()
            .map(
                |(holds, either)| match (holds >= wanted, either >= wanted) {
                    (true, _) => Truth::HOLDS,
                    (false, true) => Truth::AUTHORITY,
                    (false, false) => Truth::FAILS,
                },
            )
            .fold(Truth::NONE, Truth::or_else)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all() -> impl Iterator<Item = Truth> {
        (1..8).map(Truth)
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
