//! Checkers that are wrong in one way: the checker itself, given rules or a plan that say something else than what is
//! meant, or with its findings bent. What does not catch them is no test.

mod plans;
mod rules;
mod told;

use rules_core::check::{Finding, Findings, Outcome, Truth, Verdict, check};
use rules_core::plan::Plan;
use rules_core::ruleset::{Rule, RuleSet, Value};

use super::property::{Tally, run_with};
use super::sites::{self, Library};
use super::walk::{self, Visitor};
use super::words::Words;
use super::world::{Being, Drawn, World};

macro_rules! faults {
    ($($(#[$said:meta])* $fault:ident,)*) => {
        /// A way of being wrong.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Fault { $($(#[$said])* $fault,)* }

        impl Fault {
            /// All of them.
            pub const ALL: &[Fault] = &[$(Fault::$fault,)*];
        }
    };
}

faults! {
    /// A condition on what changes along a thing is taken as "all along".
    ConditionsAllAlong,
    /// What a rule must keep of what changes along a thing is taken as "anywhere".
    KeptAnywhere,
    /// Of what changes along a thing, only the lowest place counts.
    LowestPlaceOnly,
    /// A distance from the pool that a rule speaks of is taken from the nearest of all pools.
    NearestOfAllPools,
    /// An area of the pool that a rule speaks of is that of all pools.
    AreaOfAllPools,
    /// Of pools that are chosen, any counts, and not only the one that is judged.
    AnyOfTheChosen,
    /// A distance in a term means any thing of its kind, not the one that the term is used for.
    TermLosesItsThing,
    /// What is said of none is said before `when` and `unless` are asked.
    NoneBeforeWhen,
    /// Where there is none, no relief is asked for.
    NoneWithoutReliefs,
    /// A relief holds by absence.
    ReliefByAbsence,
    /// A member of an any-of holds by absence.
    AnyByAbsence,
    /// The paper of one thing will do for all.
    OnePaperForAll,
    /// A paper of which nobody says where it stands is the authority's to give.
    UnsaidIsAuthoritys,
    /// Nothing stands against a plan to which nothing applies.
    VerdictWithoutRule,
    /// If nobody looked for a kind of thing, the checker assumes there is none.
    NotCheckedAsNone,
    /// Only one end's accuracy counts.
    OneEndsAccuracy,
    /// Accuracies add up as if they were independent errors: √(e₁² + e₂²).
    RootOfSquares,
    /// The shift of a source cancels even between two sources.
    ShiftCancelled,
    /// Outlines that overlap as drawn are taken to overlap for sure, however shallow.
    OverlapUntested,
    /// A square-cornered outline is drawn as if its corners were round.
    SquareAsRound,
    /// A thing that is only perhaps meant is left out.
    UnknownIsOut,
    /// A word that is not certain is taken to be the first of those that it may be.
    FirstWordOnly,
    /// The low end of an uncertain limit stands for its high end.
    LimitsLowEnd,
    /// `at-least` and `more-than`, `at-most` and `less-than` are taken for each other.
    AtLeastMoreThan,
    /// An amount just at the edge of a table's row falls on the other side.
    TablesEdge,
    /// `not` leaves its member as it is.
    NotUnmirrored,
    /// A relief that needs the authority's leave counts as holding.
    LeaveHolds,
    /// What is open passes.
    OpenPasses,
    /// A thing stands in a zone only where its first outline does.
    FirstOutlineInZone,
    /// The area of several outlines together, or in a zone, does not feel the shift of a source.
    CoverWithoutShift,
    /// Such an area does not feel how far off its outlines may be.
    CoverAsDrawn,
    /// That the pool lies inside the lot is judged in no report.
    LotUnjudged,
    /// A round edge past the lot's line is not seen.
    RoundEdgeLost,
    /// A hole that is drawn in a fence is not seen.
    HoleUnseen,
    /// The owner's own things past the line are taken as the neighbour's.
    OwnPastTheLine,
    /// A spot is left out where nobody says how far off it is.
    SpotLeftOut,
    /// The lot's boundary does not feel the sources of its own sides.
    SidesOfOneSource,
    /// Who starts from a wall walks through the house behind it.
    ThroughOnesOwnHouse,
    /// Months and days are compared as bare numbers.
    MonthsAsDays,
}

impl Fault {
    /// Those of so many seeds at which it shows, and at which nothing else does.
    pub fn caught(self, cases: u64) -> impl Iterator<Item = u64> {
        let (words, mut library, mut tally) = (Words::new(), Library::default(), Tally::default());
        let mut fails = move |seed, fault| match self.is_of_sites() {
            true => sites::run(seed, &mut library, &mut tally, fault).is_err(),
            false => run_with(seed, &words, &mut tally, fault).is_err(),
        };
        (0..cases).filter(move |seed| fails(*seed, Some(self)) && !fails(*seed, None))
    }

    /// Whether only the second family of cases has what it is wrong about.
    fn is_of_sites(self) -> bool {
        matches!(
            self,
            Fault::HoleUnseen
                | Fault::OwnPastTheLine
                | Fault::SpotLeftOut
                | Fault::SidesOfOneSource
                | Fault::ThroughOnesOwnHouse
                | Fault::MonthsAsDays
        )
    }

    /// The rules whose findings alone are wrong, where those of all others are left as they should be, and all that
    /// follows from them.
    fn touches(self) -> Option<fn(&Rule) -> bool> {
        match self {
            Fault::CoverWithoutShift | Fault::CoverAsDrawn => Some(covers),
            Fault::RoundEdgeLost => Some(|rule| rule.built_in),
            Fault::UnknownIsOut => Some(|_| true),
            _ => None,
        }
    }
}

/// Whether a rule asks for an area that takes several outlines to tell.
fn covers(rule: &Rule) -> bool {
    struct Covers(bool);
    impl Visitor for Covers {
        fn value(&mut self, value: &Value) {
            if let Value::Area(area) = value {
                self.0 |= area.of.parts.len() > 1 || area.within.is_some();
            }
        }
    }
    let mut covers = Covers(false);
    walk::rule(rule, &mut covers);
    covers.0
}

/// The world as a plan tells it that is drawn by a checker that is wrong in this way.
pub fn told(fault: Option<Fault>, world: &World) -> World {
    let mut told = world.clone();
    if fault == Some(Fault::SquareAsRound) {
        told.things.iter_mut().for_each(round_its_corners);
    }
    told
}

/// What lies outside a thing's first outline with square corners gets round ones.
fn round_its_corners(being: &mut Being) {
    let mut outlines = being.outlines.values_mut();
    if let (Some(by), Some(first), Some(second)) =
        (being.wider_by.take(), outlines.next(), outlines.next())
    {
        *second = Drawn {
            spread: by,
            ..first.clone()
        };
    }
}

/// What a checker finds that is wrong in this way; the checker itself where it is wrong in none.
pub fn found<T>(
    fault: Option<Fault>,
    plan: &Plan,
    rules: &RuleSet,
    act: impl FnOnce(&Findings<'_>) -> T,
) -> T {
    let right = || check(plan, rules).expect("not too much work");
    let Some(fault) = fault else {
        return act(&right());
    };
    let (wrong, said) = (rules::wrong(fault, rules), plans::wrong(fault, plan, rules));
    let mut found = check(&said, &wrong).expect("not too much work");
    if let Some(touches) = fault.touches() {
        let right = right();
        for (place, rule) in rules.all_rules().enumerate() {
            if !touches(rule) {
                found.rules[place] = right.rules[place].clone();
            }
        }
        found = Findings {
            rules: found.rules,
            ..right
        };
    }
    bend(fault, &mut found, rules.rules.len());
    act(&found)
}

/// Changes what was found; the rules from a place on are those that are in every rule set.
fn bend(fault: Fault, found: &mut Findings<'_>, built_in: usize) {
    let stands =
        |finding: &Finding| !matches!(finding.outcome, Outcome::Pass | Outcome::NotApplicable);
    match fault {
        Fault::VerdictWithoutRule if !found.rules.iter().any(stands) => {
            found.verdict = Verdict::NothingAgainst;
        }
        Fault::OpenPasses => {
            for finding in &mut found.rules {
                if finding.truth.is_open() {
                    (finding.truth, finding.outcome) = (Truth::HOLDS, Outcome::Pass);
                }
            }
        }
        Fault::LotUnjudged => {
            for finding in &mut found.rules[built_in..] {
                (finding.truth, finding.outcome) = (Truth::NOT_APPLICABLE, Outcome::NotApplicable);
            }
        }
        _ => {}
    }
}
