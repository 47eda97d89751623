//! Where one rule is stricter or laxer than another, in words.

use super::{Case, Difference, Way};
use crate::ruleset::words::{bounds_words, listed, requirement_words, value_words, verb_after};
use crate::ruleset::{RowTest, RuleSet};

/// Where a rule differs from another and which way, as in `stricter in its limit: …; laxer in …`; empty if both mean
/// the same. The rule sets are the old rule's and the new one's.
pub(crate) fn ways_words(all: &[Difference<'_>], then: &RuleSet, now: &RuleSet) -> String {
    let told = |way, lead: &str| {
        let cases = all.iter().filter(|one| one.way == way);
        let cases: Vec<String> = cases.map(|one| case_words(one, then, now)).collect();
        (!cases.is_empty()).then(|| format!("{lead} {}", listed(&cases, "and")))
    };
    let unseen = told(Way::Changed, "changed")
        .map(|told| format!("{told}, and which is stricter cannot be seen from the two texts"));
    let ways = [
        told(Way::Stricter, "stricter"),
        told(Way::Laxer, "laxer"),
        unseen,
    ];
    ways.into_iter().flatten().collect::<Vec<_>>().join("; ")
}

/// In which cases, in words.
fn case_words(one: &Difference<'_>, then: &RuleSet, now: &RuleSet) -> String {
    match one.case {
        Case::All => "in what it asks".to_owned(),
        Case::Limit(old, new) => match (bounds_words(new, now), bounds_words(old, then)) {
            // Both use the same term, and the term has changed.
            (new, old) if new == old => format!("in its limit ({new}, which has changed)"),
            (new, old) => format!("in its limit ({new} instead of {old})"),
        },
        Case::Row(RowTest::Bounds(bounds), by) => {
            let by = by.map_or_else(|| "it".to_owned(), |by| value_words(by, now));
            let is = verb_after(&by, "is");
            format!("where {by}{is} {}", bounds_words(bounds, now))
        }
        Case::Row(RowTest::When(when), _) => format!("where {}", requirement_words(when, now)),
        Case::Row(RowTest::Otherwise, _) => "in all cases for which no row is written".to_owned(),
        Case::Member(member) => {
            let rules = if one.span.is_some() { now } else { then };
            format!("in this: {}", requirement_words(member, rules))
        }
        Case::Applies(by) => format!("in where it applies, by {by}"),
        Case::Relief(relief) => format!("in the relief “{}”", relief.id.replace('-', " ")),
        Case::Strength => "in whether it binds".to_owned(),
    }
}
