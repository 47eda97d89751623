//! Checkers with one fault: the real checker, given wrong rules or a wrong plan, or with its findings changed. A test
//! that does not catch them is worth nothing.

mod plans;
mod rules;
mod spaces;
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
        /// A fault.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Fault { $($(#[$said])* $fault,)* }

        impl Fault {
            /// All of them.
            pub const ALL: &[Fault] = &[$(Fault::$fault,)*];
        }
    };
}

faults! {
    /// A condition on a varying fact is taken as "all along".
    ConditionsAllAlong,
    /// A requirement on a varying fact is taken as "anywhere".
    KeptAnywhere,
    /// Only the lowest place of a varying fact counts.
    LowestPlaceOnly,
    /// A distance from the pool being judged is measured from the nearest of all pools.
    NearestOfAllPools,
    /// The area of the pool being judged is the area of all pools.
    AreaOfAllPools,
    /// Of chosen pools, any counts, not only the one being judged.
    AnyOfTheChosen,
    /// A distance in a term means any thing of the kind, not the one that the term is used for.
    TermLosesItsThing,
    /// The parts of one thing are those of all.
    PartsOfAll,
    /// `if-none` is applied before `when` and `unless` are checked.
    NoneBeforeWhen,
    /// If there is none, no relief is tried.
    NoneWithoutReliefs,
    /// A relief about something absent holds.
    ReliefByAbsence,
    /// A member of an any-of about something absent holds.
    AnyByAbsence,
    /// The paper for one thing counts for all.
    OnePaperForAll,
    /// A paper of unstated status counts as up to the authority.
    UnsaidIsAuthoritys,
    /// A plan that no rule applies to passes.
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
    /// A thing that is only perhaps selected is left out.
    UnknownIsOut,
    /// An uncertain word is taken to be the first of its possible words.
    FirstWordOnly,
    /// The low end of an uncertain limit stands for its high end.
    LimitsLowEnd,
    /// `at-least` and `more-than` are swapped, and so are `at-most` and `less-than`.
    AtLeastMoreThan,
    /// An amount just at the edge of a table's row falls on the other side.
    TablesEdge,
    /// `not` does nothing.
    NotUnmirrored,
    /// A relief that needs the authority's leave counts as holding.
    LeaveHolds,
    /// Open findings pass.
    OpenPasses,
    /// A thing stands in a zone only where its first outline does.
    FirstOutlineInZone,
    /// The area of several outlines together, or in a zone, ignores the shift of a source.
    CoverWithoutShift,
    /// Such an area ignores the accuracy of its outlines.
    CoverAsDrawn,
    /// Whether the pool lies inside the lot is not judged.
    LotUnjudged,
    /// A round edge beyond the lot line is not noticed.
    RoundEdgeLost,
    /// A hole drawn in a fence is not noticed.
    HoleUnseen,
    /// The owner's things beyond the line are taken for the neighbour's.
    OwnPastTheLine,
    /// A spot of unstated accuracy is left out.
    SpotLeftOut,
    /// The lot's boundary ignores the sources of its sides.
    SidesOfOneSource,
    /// A person starting from a wall walks through the house behind it.
    ThroughOnesOwnHouse,
    /// Months and days are compared as bare numbers.
    MonthsAsDays,
    /// Of several areas that something may lie in, only the first counts.
    FirstAreaOnly,
    /// What lies in an area is judged by the area as drawn.
    AreaAsDrawn,
    /// A gap that varies along a fence is taken at its narrowest place.
    GapAtItsNarrowest,
    /// The way in passes only the house, not the shed beside it.
    ShedUnseen,
    /// A band of uncertain width is taken at its narrowest.
    BandAtItsNarrowest,
    /// A wire runs straight from support to support.
    WireWithoutSag,
    /// A wire is as high all along as at its first support.
    WireLevelFromItsStart,
}

impl Fault {
    /// The seeds, of this many, that show it and nothing else.
    pub fn caught(self, cases: u64) -> impl Iterator<Item = u64> {
        let (words, mut library, mut tally) = (Words::new(), Library::default(), Tally::default());
        let mut fails = move |seed, fault| match self.is_of_sites() {
            true => sites::run(seed, &mut library, &mut tally, fault).is_err(),
            false => run_with(seed, &words, &mut tally, fault).is_err(),
        };
        (0..cases).filter(move |seed| fails(*seed, Some(self)) && !fails(*seed, None))
    }

    /// Whether only the second family of cases can show it.
    fn is_of_sites(self) -> bool {
        matches!(
            self,
            Fault::HoleUnseen
                | Fault::OwnPastTheLine
                | Fault::SpotLeftOut
                | Fault::SidesOfOneSource
                | Fault::ThroughOnesOwnHouse
                | Fault::MonthsAsDays
                | Fault::FirstAreaOnly
                | Fault::AreaAsDrawn
                | Fault::GapAtItsNarrowest
                | Fault::ShedUnseen
                | Fault::BandAtItsNarrowest
                | Fault::WireWithoutSag
                | Fault::WireLevelFromItsStart
        )
    }

    /// For a fault that changes the findings of some rules only, which rules those are; other findings, and what
    /// follows from them, stay correct.
    fn touches(self) -> Option<fn(&Rule) -> bool> {
        match self {
            Fault::CoverWithoutShift | Fault::CoverAsDrawn => Some(covers),
            Fault::RoundEdgeLost => Some(|rule| rule.built_in),
            Fault::UnknownIsOut => Some(|_| true),
            _ => None,
        }
    }
}

/// Whether a rule asks for an area that needs several outlines.
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

/// The world that a plan for a checker with this fault is made from.
pub fn told(fault: Option<Fault>, world: &World) -> World {
    let mut told = world.clone();
    if fault == Some(Fault::SquareAsRound) {
        told.things.iter_mut().for_each(round_its_corners);
    }
    told
}

/// Rounds the square corners of a derived second outline.
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

/// The findings of a checker with this fault, or of the real checker if there is none.
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

/// Changes the findings. Rules from place `built_in` on are the built-in ones.
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
