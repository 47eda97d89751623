//! What a rule comes to as drawn, which is told before what it comes to for sure.

use super::context::ReportContext;
use super::figures::{smaller, unit_of};
use super::model::{AsDrawnReport, RuleReport};
use super::readings::About;
use crate::check::{Finding, Missing, Outcome, Part, Reading, Truth};
use crate::ruleset::{Measured, Value};

/// What a part comes to as drawn, in two words or three.
pub(super) fn as_drawn_words(as_drawn: Truth) -> &'static str {
    match Outcome::decided(as_drawn) {
        Some(Outcome::Fail) => "it fails as drawn",
        Some(Outcome::Refer) => "as drawn it is for the authority to decide",
        Some(Outcome::NotApplicable) => "the rule does not apply as drawn",
        _ => "it passes as drawn",
    }
}

/// Whether it fails as drawn wherever it applies, and that is not sure.
pub(super) fn may_only_fail_as_drawn(part: &Part) -> bool {
    part.outcome == Outcome::Unknown && part.as_drawn.applied() == Truth::FAILS
}

/// What a rule comes to as drawn.
pub(super) fn outcome_as_drawn(finding: &Finding) -> Option<Outcome> {
    Outcome::decided(match Outcome::decided(finding.truth) {
        Some(_) => finding.truth,
        None => finding.as_drawn,
    })
}

impl ReportContext<'_> {
    /// What would make it sure what a part comes to that only the plan's accuracy leaves open.
    pub(super) fn what_makes_sure(&self, about: About<'_>) -> String {
        let unstated = |missing: &Missing| matches!(missing, Missing::Accuracy(_));
        if !about.part.missing.iter().any(unstated) {
            return "The accuracy of the plan leaves it open.".to_owned();
        }
        let until = "It is not sure until somebody says how far off the drawing may be";
        match (enough_for(about.part), fails_as_drawn(about.part)) {
            (Some(enough), true) => format!("{until}: {} settles it.", enough.or_better()),
            (Some(enough), false) => format!(
                "It is sure as soon as distances on the drawing are good to {}.",
                enough.either_way()
            ),
            (None, _) => format!("{until}."),
        }
    }
}

/// Whether a part fails as drawn, and that is not sure.
pub(super) fn fails_as_drawn(part: &Part) -> bool {
    part.outcome == Outcome::Marginal && Outcome::decided(part.as_drawn) == Some(Outcome::Fail)
}

/// How good distances must be to settle a part that turns on one of them.
fn enough_for(part: &Part) -> Option<Enough> {
    let mut open = part.readings.iter().filter(|one| one.truth.is_open());
    match (open.next(), open.next()) {
        (Some(only), None) => Enough::of(only),
        _ => None,
    }
}

/// How far off both ends of a distance together may be to settle what it comes to.
pub(super) struct Enough {
    /// How large it is, without its sign: `2 m`.
    size: String,
    /// Whether just so much is enough; otherwise it must be less.
    is_limit: bool,
}

impl Enough {
    /// That of a distance on the plan that does not lie just at its limit as drawn.
    pub(super) fn of(reading: &Reading) -> Option<Self> {
        is_on_the_plan(reading.value())
            .then(|| Self::beside(reading))
            .flatten()
    }

    /// The same of any reading that is off by no more than both of its ends are together.
    pub(super) fn beside(reading: &Reading) -> Option<Self> {
        let unit = unit_of(reading.unit, reading.dimension);
        let (drawn, limit) = (reading.drawn?, reading.limit?);
        let gap = gap_as_drawn(reading).filter(|gap| *gap > 0)?;
        // What holds just at the limit holds as far as there; what fails does not fail there yet.
        let relation = reading.bound().relation();
        let at_limit = relation.judge(limit, limit).can_be_true;
        let is_limit = relation.judge(drawn, limit).can_be_true == at_limit;
        Some(Enough {
            size: smaller(gap, unit),
            is_limit,
        })
    }

    /// `2 m or less`, `less than 2 m`.
    pub(super) fn or_less(&self) -> String {
        match self.is_limit {
            true => format!("{} or less", self.size),
            false => format!("less than {}", self.size),
        }
    }

    /// With its sign: `± 2 m`, `less than ± 2 m`.
    fn either_way(&self) -> String {
        match self.is_limit {
            true => format!("± {}", self.size),
            false => format!("less than ± {}", self.size),
        }
    }

    /// `± 2 m or better`, `less than ± 2 m`.
    pub(super) fn or_better(&self) -> String {
        match self.is_limit {
            true => format!("± {} or better", self.size),
            false => self.either_way(),
        }
    }
}

/// Whether a value is a distance that is off by no more than both of its ends are together.
fn is_on_the_plan(value: &Value) -> bool {
    match value {
        Value::Distance(distance) => distance.how == Measured::Level,
        Value::Named { value, .. } => is_on_the_plan(value),
        _ => false,
    }
}

/// How far a reading lies from its limit as drawn; nothing where the limit's own range reaches it.
pub(super) fn gap_as_drawn(reading: &Reading) -> Option<i128> {
    let (drawn, limit) = (reading.drawn?, reading.limit?);
    let below = limit.low.checked_sub(drawn.high)?;
    let above = drawn.low.checked_sub(limit.high)?;
    Some(below.max(above).max(0))
}

/// The binding rules that fail as drawn.
pub(super) fn head(rules: &[RuleReport]) -> Option<AsDrawnReport> {
    let failing = rules
        .iter()
        .filter(|rule| rule.binds() && rule.as_drawn == Some(Outcome::Fail));
    let failing: Vec<&RuleReport> = failing.collect();
    let open = failing.iter().filter(|rule| rule.outcome != Outcome::Fail);
    let open: Vec<&RuleReport> = open.copied().collect();
    let ids = |rules: &[&RuleReport]| rules.iter().map(|rule| rule.id.clone()).collect();
    (!failing.is_empty()).then(|| AsDrawnReport {
        sentence: head_sentence(failing.len(), &open),
        fail: ids(&failing),
        not_sure: ids(&open),
    })
}

/// `As drawn, 2 rules fail; one of them is not sure: Pool to the house.`
fn head_sentence(all: usize, open: &[&RuleReport]) -> String {
    let titles: Vec<&str> = open.iter().map(|rule| rule.title.as_str()).collect();
    let fail = match all {
        1 => "1 rule fails".to_owned(),
        more => format!("{more} rules fail"),
    };
    let not_sure = match open.len() {
        0 => return format!("As drawn, {fail}."),
        some if some == all => "which is not sure".to_owned(),
        1 => "of which 1 is not sure".to_owned(),
        some => format!("of which {some} are not sure"),
    };
    format!("As drawn, {fail}, {not_sure}: {}.", titles.join("; "))
}
