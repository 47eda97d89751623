//! The result for the plan as it now is, and for the last plan that could be judged.

use std::cell::RefCell;

use rules_core::drawing::Options;
use rules_core::{FaultRow, Refusal, Refused};

use crate::check::{Answered, answered};
use crate::held::with;

/// What is needed before anything can be judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum First {
    /// Rules.
    Rules,
    /// A lot.
    Lot,
    /// A pool.
    Pool,
}

impl First {
    /// The part of the form where it is entered.
    pub fn part(self) -> &'static str {
        match self {
            Self::Rules => "where",
            Self::Lot => "lot",
            Self::Pool => "pool",
        }
    }

    fn now() -> Option<Self> {
        with(|session| {
            let has = |key| session.plan().get(key).is_some_and(|node| !node.is_empty());
            match (session.rules().text.is_empty(), has("lot"), has("pool")) {
                (true, ..) => Some(Self::Rules),
                (_, false, _) => Some(Self::Lot),
                (.., false) => Some(Self::Pool),
                _ => None,
            }
        })
    }
}

/// The result for the plan.
#[derive(Debug, Default)]
pub struct Judged {
    /// The last plan that could be judged, so that a typing error does not wipe the result away.
    good: Option<Answered>,
    first: Option<First>,
    refused: bool,
    faults: Vec<FaultRow>,
    are_rules_refused: bool,
}

impl Judged {
    /// The result that is shown: for the plan as it is, or for the one before an entry that cannot be read.
    pub fn shown(&self) -> Option<&Answered> {
        let fresh = self.first.is_none() && !self.refused;
        self.good.as_ref().filter(|_| fresh || self.is_stale())
    }

    /// Whether it is the result for the plan before an entry that cannot be read.
    pub fn is_stale(&self) -> bool {
        let by_these = |good: &Answered| with(|session| good.rules_text == session.rules().text);
        !self.faults.is_empty() && self.good.as_ref().is_some_and(by_these)
    }

    /// What is needed first.
    pub fn first(&self) -> Option<First> {
        self.first
    }

    /// What is wrong with the plan.
    pub fn faults(&self) -> &[FaultRow] {
        &self.faults
    }

    /// Whether the rules cannot be read.
    pub fn are_rules_refused(&self) -> bool {
        self.are_rules_refused
    }

    /// Takes what came of the plan.
    fn take(&mut self, first: Option<First>, answer: Option<Result<Answered, Refusal>>) {
        let (good, refusal) = match answer {
            Some(Ok(good)) => (Some(good), None),
            Some(Err(refusal)) => (None, Some(refusal)),
            None => (None, None),
        };
        let files = refusal.iter().flat_map(|refusal| &refusal.rules);
        let plan = refusal.as_ref().and_then(|refusal| refusal.plan.as_ref());
        *self = Self {
            first,
            refused: refusal.is_some(),
            faults: plan.map(Refused::rows).unwrap_or_default(),
            are_rules_refused: files.into_iter().any(|file| !file.faults.is_empty()),
            good: good.or_else(|| self.good.take()),
        };
    }
}

thread_local! {
    static JUDGED: RefCell<Judged> = RefCell::default();
}

/// Does something with the result.
pub fn with_judged<T>(doing: impl FnOnce(&Judged) -> T) -> T {
    JUDGED.with_borrow(doing)
}

/// Forgets the results so far.
pub fn forget_judged() {
    JUDGED.take();
}

/// Judges the current plan, and draws it like this.
pub fn judge(options: &Options) {
    let first = First::now();
    let answer = first.is_none().then(|| answered(options));
    JUDGED.with_borrow_mut(|judged| judged.take(first, answer));
}

/// Whether the plan could be judged as it is.
pub fn is_judged() -> bool {
    with_judged(|judged| judged.shown().is_some() && !judged.is_stale())
}

/// The rule set's title, edition and authority; empty if no plan was judged.
pub fn rules_in_words() -> String {
    let said = |good: &Answered| {
        let set = &good.report.rule_set;
        format!("{}, {} · {}", set.title, set.edition, set.authority)
    };
    with_judged(|judged| judged.shown().map(said).unwrap_or_default())
}
