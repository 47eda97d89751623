//! Which edition of the rule set governs the plan, and what each that may comes to.

use super::context::Texts;
use super::model::{EditionReport, EditionRule, Report, RuleReport, VerdictWords};
use super::report;
use crate::check::{Edition, Governed, Need, Outcome};
use crate::plan::Plan;
use crate::ruleset::words::{in_force_words, listed};

/// Puts into words what a plan comes to under the editions that may govern it. `texts` are the plan's and those of the
/// newest of these editions.
pub fn governed_report<'a>(
    governed: &'a Governed<'a>,
    plan: &'a Plan,
    texts: &Texts<'a>,
) -> Report {
    let mut report = report(&governed.findings, plan, governed.rules, texts);
    let Some((newest, others)) = governed.editions.split_first() else {
        return report;
    };
    for rule in &mut report.rules {
        say_what_differs(rule, newest, others);
    }
    let all = governed.editions.iter();
    report.editions = all.map(|edition| edition_report(edition, newest)).collect();
    report
}

/// A rule that comes out differently under another edition says so, instead of what one edition alone would say.
fn say_what_differs(rule: &mut RuleReport, newest: &Edition<'_>, others: &[Edition<'_>]) {
    let own = newest.outcome(&rule.id).unwrap_or(rule.outcome);
    let outcome =
        |edition: &Edition<'_>| edition.outcome(&rule.id).unwrap_or(Outcome::NotApplicable);
    if others.iter().all(|edition| outcome(edition) == own) {
        return;
    }
    let under = |edition: &Edition<'_>| {
        format!(
            "under edition {} it {}",
            edition.rules.edition,
            comes_to(outcome(edition))
        )
    };
    let each: Vec<String> = std::iter::once(newest).chain(others).map(under).collect();
    rule.sentence = format!("This depends on the edition: {}.", listed(&each, "and"));
}

fn comes_to(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Fail => "fails",
        Outcome::Unknown => "depends on a missing answer",
        Outcome::Marginal => "is too close to call",
        Outcome::Refer => "is for the authority",
        Outcome::Pass => "passes",
        Outcome::NotApplicable => "does not apply",
    }
}

fn edition_report(edition: &Edition<'_>, newest: &Edition<'_>) -> EditionReport {
    let rules = edition.rules;
    let in_force = rules.in_force.as_ref();
    EditionReport {
        id: rules.id.clone(),
        title: rules.title.clone(),
        edition: rules.edition.clone(),
        sure: edition.sure,
        in_force: in_force.map(|in_force| in_force_words(in_force, rules)),
        verdict: VerdictWords::of(edition.findings.verdict, rules.language),
        otherwise: otherwise(edition, newest),
        documents: only_its_documents(edition, newest),
    }
}

/// The rules that come out differently under the newest edition.
fn otherwise(edition: &Edition<'_>, newest: &Edition<'_>) -> Vec<EditionRule> {
    let findings = edition.findings.rules.iter();
    let rules = findings.filter_map(|found| {
        let rule = edition.rules.rule(found.rule)?;
        let there = newest.outcome(&rule.id);
        let differs = there.unwrap_or(Outcome::NotApplicable) != found.outcome;
        differs.then(|| EditionRule {
            id: rule.id.clone(),
            title: rule.title.clone(),
            clause: rule.clause.clone(),
            outcome: found.outcome,
        })
    });
    rules.collect()
}

fn only_its_documents(edition: &Edition<'_>, newest: &Edition<'_>) -> Vec<String> {
    let needed = edition.findings.documents.iter();
    let needed = needed.filter(|need| need.need != Need::NotNeeded);
    let documents = needed.filter_map(|need| edition.rules.documents.get(need.document));
    let known = |id: &str| newest.rules.documents.iter().any(|it| it.id == id);
    documents
        .filter(|document| !known(&document.id))
        .map(|document| document.title.clone())
        .collect()
}
