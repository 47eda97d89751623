//! One report of what several rule sets make of a plan: each thing said once, with the rule sets that it comes from.
//!
//! Every rule set was judged by itself, and its report is whole. Nothing is judged here anew: the worst of the verdicts
//! holds, and what two reports say in the same words is one entry.

mod alike;
mod governs;
mod merge;
mod names;

use super::rules::count;
use super::scope::scope_report;
use super::second_hand::second_hand;
use super::{
    GoesWith, ReadBySome, Report, RuleSetHead, RuleSetReport, SCHEMA, VerdictWords, authorities,
    disclaimer, drawn, layer_heads, next,
};
use crate::check::{Governed, Verdict};
use crate::plan::Plan;
use crate::ruleset::{RuleSet, language_of};
use crate::words::{Language, Word};

/// What one rule set makes of the plan.
pub(crate) struct JudgedBy<'a> {
    /// The rule set.
    pub rules: &'a RuleSet,
    /// What was found under the editions of it that may govern.
    pub governed: &'a Governed<'a>,
    /// The plan as it reads it.
    pub plan: &'a Plan,
    /// All of it in words.
    pub report: Report,
}

/// Makes one report of those of several rule sets, in their order.
pub(crate) fn together(
    first: JudgedBy<'_>,
    others: Vec<JudgedBy<'_>>,
    read_by_some: Vec<ReadBySome>,
) -> Report {
    let (plan, head) = (first.plan, first.report.plan.clone());
    let judged: Vec<JudgedBy<'_>> = std::iter::once(first).chain(others).collect();
    let sets: Vec<&RuleSet> = judged.iter().map(|one| one.rules).collect();
    let governing: Vec<&RuleSet> = judged.iter().map(|one| one.governed.rules).collect();
    let scope = merge::scope_once(scope_report(&governing, plan));
    let verdict = verdict(&judged).with_matters_open(!scope.open.is_empty());
    let rule_sets = judged.iter().map(own_report).collect();
    let governs = governs::governs(&judged);
    let language = language_of(&governing);
    let (lists, ids) = merge::merged(names::named(judged));
    let (binding, advising): (Vec<_>, Vec<_>) = lists.rules.iter().partition(|rule| rule.binds());
    let mut report = Report {
        schema: SCHEMA.to_owned(),
        language: language.tag().to_owned(),
        plan: head,
        rule_set: joint_head(&governing),
        rule_sets,
        goes_with: goes_with(&sets),
        read_by_some,
        editions: Vec::new(),
        verdict: in_words(verdict, language),
        scope,
        counts: count(binding.into_iter()),
        advice_counts: count(advising.into_iter()),
        as_drawn: drawn::head(&lists.rules),
        rules: lists.rules,
        governs: governs.into_iter().map(|one| ids.of_both(one)).collect(),
        decisions: lists.decisions,
        documents: lists.documents,
        duties: lists.duties,
        cautions: lists.cautions,
        questions: lists.questions,
        next: Vec::new(),
        second_hand: second_hand(&governing),
        disclaimer: disclaimer(&governing),
    };
    report.next = next::steps(&report);
    report
}

/// The worst that any of them comes to.
fn verdict(judged: &[JudgedBy<'_>]) -> Verdict {
    let verdicts = judged.iter().map(|one| one.governed.findings.verdict);
    verdicts.min().unwrap_or(Verdict::NotDecided)
}

fn in_words(verdict: Verdict, language: Language) -> VerdictWords {
    match verdict {
        Verdict::NothingAgainst => VerdictWords {
            word: verdict,
            sentence: Word::NothingAgainstInAll.in_language(language).to_owned(),
        },
        _ => VerdictWords::of(verdict, language),
    }
}

fn own_report(judged: &JudgedBy<'_>) -> RuleSetReport {
    let rules = judged.governed.rules;
    RuleSetReport {
        id: judged.rules.id.clone(),
        title: rules.title.clone(),
        edition: rules.edition.clone(),
        authority: rules.authority.clone(),
        notice: rules.notice.clone(),
        editions: judged.report.editions.clone(),
        verdict: VerdictWords::of(judged.governed.findings.verdict, rules.language),
        counts: judged.report.counts,
    }
}

fn each_once<T: PartialEq>(all: impl Iterator<Item = T>) -> Vec<T> {
    let mut once = Vec::new();
    for one in all {
        if !once.contains(&one) {
            once.push(one);
        }
    }
    once
}

/// The names of all in a row, for a reader who knows of one rule set only.
fn joint_head(sets: &[&RuleSet]) -> RuleSetHead {
    let joined = |name: &dyn Fn(&RuleSet) -> &str| {
        let names: Vec<&str> = sets.iter().map(|rules| name(rules)).collect();
        names.join("; ")
    };
    let notices = each_once(sets.iter().filter_map(|rules| rules.notice.as_deref()));
    let layers = each_once(sets.iter().flat_map(|rules| layer_heads(rules)));
    RuleSetHead {
        id: joined(&|rules| &rules.id),
        title: joined(&|rules| &rules.title),
        edition: joined(&|rules| &rules.edition),
        authority: authorities(sets),
        notice: (!notices.is_empty()).then(|| notices.join(" ")),
        layers,
    }
}

/// The rule sets that belong with these, and are neither one of them nor a file that one of them builds on.
pub(super) fn goes_with(sets: &[&RuleSet]) -> Vec<GoesWith> {
    let layers = || sets.iter().flat_map(|rules| &rules.layers);
    let in_use = |name: &str| layers().any(|layer| layer.id == name);
    let mut all: Vec<GoesWith> = Vec::new();
    for rules in sets {
        let with = rules.about.belongs_with.iter();
        let with: Vec<String> = with.filter(|name| !in_use(name)).cloned().collect();
        match all.iter_mut().find(|one| one.with == with) {
            _ if with.is_empty() => {}
            Some(one) => one.rule_sets.push(rules.id.clone()),
            None => all.push(GoesWith {
                rule_sets: vec![rules.id.clone()],
                with,
            }),
        }
    }
    all
}
