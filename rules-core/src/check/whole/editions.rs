//! The editions of a rule set that may govern a plan, and their joint result.
//!
//! Exactly one edition governs a plan: the newest that is in force for it. Where the deciding day is not known, several may,
//! and the result of each is possible.

use crate::check::judge::Judge;
use crate::check::whole::{judge_of, judged_by};
use crate::check::{Decided, Finding, Findings, Missing, Need, Outcome, TooMuch, Truth, Verdict};
use crate::plan::Plan;
use crate::ruleset::RuleSet;

/// The findings for a plan under the editions that may govern it.
#[derive(Debug, Clone, PartialEq)]
pub struct Governed<'a> {
    /// The newest edition that may govern the plan; the rule set itself where it has only one.
    pub rules: &'a RuleSet,
    /// The findings under its rules, joined with those of the other editions.
    pub findings: Findings<'a>,
    /// The editions that may govern, the newest first; empty where the rule set has only one.
    pub editions: Vec<Edition<'a>>,
    /// Whether it may be that none of them governs yet.
    pub perhaps_none: bool,
}

/// An edition that may govern a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Edition<'a> {
    /// Its rules.
    pub rules: &'a RuleSet,
    /// Whether it surely is in force for the plan.
    pub sure: bool,
    /// The findings if it governs.
    pub findings: Findings<'a>,
}

/// Judges a plan by every edition of a rule set that may govern it.
///
/// # Errors
/// That it would take too long: then there are no findings at all.
pub fn governed<'a>(plan: &'a Plan, rules: &'a RuleSet) -> Result<Governed<'a>, TooMuch> {
    let alone = |findings| Governed {
        rules,
        findings,
        editions: Vec::new(),
        perhaps_none: false,
    };
    if rules.earlier.is_none() {
        return crate::check::check(plan, rules).map(alone);
    }
    let (possible, days) = possible(plan, rules);
    let editions = possible.into_iter().map(|(edition, sure)| {
        let findings = judged_by(&judge_of(plan, edition, None));
        let asked_for = std::ptr::eq(edition, rules);
        Ok(Edition {
            rules: edition,
            sure,
            findings: findings.map_err(|too_much| match asked_for {
                true => too_much,
                false => too_much.in_edition(edition),
            })?,
        })
    });
    let editions: Vec<Edition<'a>> = editions.collect::<Result<_, _>>()?;
    let perhaps_none = !editions.iter().any(|edition| edition.sure);
    match editions.first() {
        None => crate::check::check(plan, rules).map(alone),
        Some(newest) => Ok(Governed {
            rules: newest.rules,
            findings: joined(&editions, perhaps_none, &days),
            perhaps_none,
            editions,
        }),
    }
}

/// The editions that may govern, the newest first, each with whether it is surely in force; and what is missing to tell.
fn possible<'a>(plan: &'a Plan, rules: &'a RuleSet) -> (Vec<(&'a RuleSet, bool)>, Vec<Missing>) {
    let (mut possible, mut missing) = (Vec::new(), Vec::new());
    let all = std::iter::successors(Some(rules), |rules| rules.earlier.as_deref());
    for rules in all {
        let judge: Judge<'a> = judge_of(plan, rules, None);
        let in_force = rules.in_force.as_ref();
        let truth = in_force.map_or(Truth::HOLDS, |it| judge.governs(it));
        let dependencies = judge.scene.take_log();
        let unstated = dependencies
            .iter()
            .filter(|it| it.unstated)
            .map(|it| it.what);
        // The index of a document is only valid in its own edition.
        missing.extend(unstated.filter(|what| !matches!(what, Missing::Document(..))));
        if truth != Truth::FAILS {
            possible.push((rules, truth == Truth::HOLDS));
        }
        if truth == Truth::HOLDS {
            break;
        }
    }
    missing.sort();
    missing.dedup();
    (possible, missing)
}

/// The findings of the newest edition, each joined with the findings under the same rule in the others.
fn joined<'a>(editions: &[Edition<'a>], perhaps_none: bool, days: &[Missing]) -> Findings<'a> {
    let Some((newest, others)) = editions.split_first() else {
        return Findings {
            verdict: Verdict::NotDecided,
            rules: Vec::new(),
            decisions: Vec::new(),
            documents: Vec::new(),
            cautions: Vec::new(),
            duties: Vec::new(),
        };
    };
    let mut all = newest.findings.clone();
    if others.is_empty() && !perhaps_none {
        return all;
    }
    for finding in &mut all.rules {
        join_finding(finding, newest.rules, (others, perhaps_none), days);
    }
    for decided in &mut all.decisions {
        join_decided(decided, newest.rules, others, days);
    }
    for need in &mut all.documents {
        let id = newest.rules.documents.get(need.document).map(|it| &it.id);
        let same = others.iter().all(|other| need_of(other, id) == need.need);
        if !same || perhaps_none && need.need == Need::Needed {
            need.need = Need::Perhaps;
        }
    }
    let same = editions.iter().all(|it| it.findings.verdict == all.verdict);
    if !same || perhaps_none {
        all.verdict = Verdict::NotDecided;
    }
    all
}

fn join_finding(
    finding: &mut Finding,
    rules: &RuleSet,
    (others, perhaps_none): (&[Edition<'_>], bool),
    days: &[Missing],
) {
    let id = rules.rule(finding.rule).map(|rule| rule.id.as_str());
    let of_other = |other: &Edition<'_>| {
        finding_of(other, id.unwrap_or_default())
            .map_or((Truth::NOT_APPLICABLE, Truth::NOT_APPLICABLE), |found| {
                (found.truth, found.as_drawn)
            })
    };
    let none = perhaps_none.then_some((Truth::NOT_APPLICABLE, Truth::NOT_APPLICABLE));
    let own = (finding.truth, finding.as_drawn);
    let (truth, as_drawn) = others
        .iter()
        .map(of_other)
        .chain(none)
        .fold(own, |all, one| (all.0.or_else(one.0), all.1.or_else(one.1)));
    if truth != own.0 {
        finding.missing.extend(days);
        finding.missing.sort();
        finding.missing.dedup();
    }
    (finding.truth, finding.as_drawn) = (truth, as_drawn);
    finding.outcome = Outcome::of(truth, truth, as_drawn);
    if Outcome::decided(truth).is_some() {
        finding.missing.clear();
    }
}

/// The finding under the rule with that id.
fn finding_of<'e, 'a>(edition: &'e Edition<'a>, id: &str) -> Option<&'e Finding> {
    let rule = |finding: &&Finding| {
        let rule = edition.rules.rule(finding.rule);
        rule.is_some_and(|rule| rule.id == id)
    };
    edition.findings.rules.iter().find(rule)
}

fn join_decided<'a>(
    decided: &mut Decided<'a>,
    rules: &RuleSet,
    others: &[Edition<'a>],
    days: &[Missing],
) {
    let id = rules.decisions.get(decided.decision).map(|it| &it.id);
    for other in others {
        let same = other.findings.decisions.iter().find(|it| {
            let theirs = other.rules.decisions.get(it.decision).map(|it| &it.id);
            theirs == id && it.subject == decided.subject && it.at == decided.at
        });
        let Some(same) = same else { continue };
        if same.classes != decided.classes || same.refer != decided.refer {
            decided.missing.extend(days);
        }
        for class in &same.classes {
            if !decided.classes.contains(class) {
                decided.classes.push(class);
            }
        }
        decided.refer |= same.refer;
    }
    decided.missing.sort();
    decided.missing.dedup();
}

fn need_of(edition: &Edition<'_>, id: Option<&String>) -> Need {
    let need = edition.findings.documents.iter().find(|need| {
        let document = edition.rules.documents.get(need.document);
        document.map(|it| &it.id) == id
    });
    need.map_or(Need::NotNeeded, |need| need.need)
}

impl Edition<'_> {
    /// The outcome of the rule with that id if this edition governs; `None` where it has no such rule.
    pub fn outcome(&self, rule: &str) -> Option<Outcome> {
        finding_of(self, rule).map(|finding| finding.outcome)
    }
}
