//! One plan under several rule sets: each reads and judges the plan by itself, and their reports are merged into one.

mod sight;

#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use crate::answer::{
    Refusal, Refused, governed, judge_texts_in, layers_of, plan_apart_from_rules, plan_of,
    plan_refused, read_rules_in, steps_texts,
};
use crate::check::Governed;
use crate::faults::Code;
use crate::named::said_twice;
use crate::plan::Plan;
use crate::report::{JudgedBy, ReadBySome, Report, Texts, governed_report, together};
use crate::ruleset::RuleSet;
use crate::steps::{Steps, steps_of_several};
use crate::text::{self, Fault, Faults, Node, Span};

/// The text of a rule set, the name that a person knows it by, and a way to find the files it builds on.
#[derive(Clone, Copy)]
pub struct RulesText<'t> {
    /// The name of the file, or of the rule set.
    pub name: &'t str,
    /// The text.
    pub text: &'t str,
    /// Finds the text of a rule set that this one builds on, by name.
    pub bases: &'t dyn Fn(&str) -> Option<&'t str>,
}

/// Reads a plan and several rule sets, judges the plan by each, and makes one report of all the findings. With one rule
/// set it is the report of [`judge_texts`](crate::answer::judge_texts). A text given twice counts once.
///
/// Parts of the plan that only some of the rule sets know are hidden from the others, and the report says so.
///
/// Titles, questions, remedies and other texts for people are in the language of this name (`nb`) where the rule files
/// have them in it, and so are the report's own words where it has them.
///
/// # Errors
/// All faults of all texts, each reported once, or that judging would take too long; empty if no rule set is given. A
/// word of the plan that two rule sets use for different things must name the one that is meant.
pub fn judge_together_in(
    language: Option<&str>,
    plan_text: &str,
    sets: &[RulesText<'_>],
) -> Result<Report, Refusal> {
    let sets = each_once(sets);
    if let [only] = sets.as_slice() {
        return judge_texts_in(language, plan_text, only.text, only.bases);
    }
    let read = all_read(language, plan_text, &sets)?;
    let judged = governed_by_all(&read.plans, &read.rules, &sets)?;
    let parts = judged.iter().zip(&read.plans);
    let parts = parts.zip(read.rules.iter().zip(&sets));
    let mut parts = parts.map(|((governed, plan), (rules, set))| JudgedBy {
        rules,
        governed,
        plan,
        report: report_of(governed, (plan, plan_text), (rules, set)),
    });
    let first = parts.next().ok_or_else(Refusal::default)?;
    Ok(together(first, parts.collect(), read.read_by))
}

/// Reads a plan and several rule sets, and puts all the steps they ask for in one order, starting on a day (as a number
/// of days since 1970-01-01).
///
/// # Errors
/// As [`judge_together_in`]; or that steps of different rule sets wait for each other.
pub fn steps_together(
    plan_text: &str,
    sets: &[RulesText<'_>],
    start: i128,
) -> Result<Steps, Refusal> {
    let sets = each_once(sets);
    if let [only] = sets.as_slice() {
        return steps_texts(plan_text, only.text, only.bases, start);
    }
    let read = all_read(None, plan_text, &sets)?;
    let judged = governed_by_all(&read.plans, &read.rules, &sets)?;
    let all = judged.iter().map(|one| (one.rules, &one.findings));
    let all: Vec<_> = all.collect();
    steps_of_several(&all, start).ok_or_else(|| Refusal {
        plan: None,
        rules: sets.last().map(in_a_circle).into_iter().collect(),
    })
}

fn in_a_circle(set: &RulesText<'_>) -> Refused {
    let mut faults = Faults::default();
    faults
        .add_whole(
            Code::CircleOfSteps,
            "Steps of these rule sets wait for each other in a circle, so that none of them can begin.",
        )
        .help("Ask for the steps of each rule set by itself, and ask the authorities which comes first.");
    Refused::new(Some(set.name.to_owned()), set.text, faults)
}

/// What was read from all the texts.
struct AllRead {
    rules: Vec<RuleSet>,
    /// The plan as each rule set reads it.
    plans: Vec<Plan>,
    read_by: Vec<ReadBySome>,
}

fn all_read(
    language: Option<&str>,
    plan_text: &str,
    sets: &[RulesText<'_>],
) -> Result<AllRead, Refusal> {
    let rules = rules_of_all(language, plan_text, sets)?;
    let document = text::read(plan_text).map_err(|faults| plan_refused(plan_text, faults))?;
    let (plans, read_by) = plans_of_all((&document, plan_text), &rules)?;
    Ok(AllRead {
        rules,
        plans,
        read_by,
    })
}

fn each_once<'t>(sets: &[RulesText<'t>]) -> Vec<RulesText<'t>> {
    let mut once: Vec<RulesText<'t>> = Vec::new();
    for set in sets {
        if once.iter().all(|other| other.text != set.text) {
            once.push(*set);
        }
    }
    once
}

fn report_of(
    governed: &Governed<'_>,
    (plan, plan_text): (&Plan, &str),
    (rules, set): (&RuleSet, &RulesText<'_>),
) -> Report {
    let texts = Texts {
        plan: Some(plan_text),
        layers: layers_of(governed.rules, (rules, set.text), set.bases),
    };
    governed_report(governed, plan, &texts)
}

/// The rule sets of all texts.
fn rules_of_all(
    language: Option<&str>,
    plan_text: &str,
    sets: &[RulesText<'_>],
) -> Result<Vec<RuleSet>, Refusal> {
    let mut refusal = Refusal::default();
    let mut all: Vec<RuleSet> = Vec::new();
    for set in sets {
        match read_rules_in(language, set.text, set.bases) {
            Ok(read) if all.iter().any(|other| other.id == read.rule_set.id) => {
                refusal.rules.push(same_id(&read.rule_set, set));
            }
            Ok(read) => all.push(read.rule_set),
            Err(refused) => add(&mut refusal.rules, refused, set),
        }
    }
    if refusal.rules.is_empty() {
        return Ok(all);
    }
    refusal.plan = plan_apart_from_rules(plan_text);
    Err(refusal)
}

fn same_id(rules: &RuleSet, set: &RulesText<'_>) -> Refused {
    let mut faults = Faults::default();
    let message = format!("Another of these rule sets is called `{}`, too.", rules.id);
    faults
        .add_whole(Code::SameRuleSet, message)
        .help("Give one of them another `ruleset` name: what a plan says for one must not be taken for the other.");
    Refused::new(Some(set.name.to_owned()), set.text, faults)
}

/// Adds the faulty files of one rule set, each by name and none twice.
fn add(files: &mut Vec<Refused>, refused: Refusal, set: &RulesText<'_>) {
    for file in refused.rules {
        let name = file.name.clone().unwrap_or_else(|| set.name.to_owned());
        let file = Refused {
            name: Some(name),
            ..file
        };
        if !files.contains(&file) {
            files.push(file);
        }
    }
}

/// The plan as each rule set reads it, and the parts that only some of them read, with those rule sets' short names.
fn plans_of_all(
    (document, text): (&Node, &str),
    rules: &[RuleSet],
) -> Result<(Vec<Plan>, Vec<ReadBySome>), Refusal> {
    let sights = sight::sights(document, rules);
    let mut merged = MergedFaults::default();
    merged.add(sight::refuse_clashes(document, rules));
    let mut plans = Vec::new();
    for (sight, rules) in sights.iter().zip(rules) {
        merged.add(said_twice(sight));
        match plan_of((sight, text), rules) {
            Ok(plan) => plans.push(plan),
            Err(refusal) => merged.add(refusal.plan.map(|plan| plan.faults).unwrap_or_default()),
        }
    }
    let faults = merged.faults();
    if !faults.is_empty() {
        return Err(plan_refused(text, faults));
    }
    let id = |place: usize| Some(rules.get(place)?.id.clone());
    let read_by = sight::read_by_some(document, &sights).into_iter();
    let read_by = read_by.map(|(readers, parts)| ReadBySome {
        rule_sets: readers.into_iter().filter_map(id).collect(),
        parts,
    });
    Ok((plans, read_by.collect()))
}

/// The faults of a plan under several rule sets, each once, with the most helpful help.
#[derive(Default)]
struct MergedFaults(BTreeMap<(Option<Span>, Code), Fault>);

impl MergedFaults {
    fn add(&mut self, faults: Faults) {
        let said = |fault: &Fault| {
            let help = fault.help.as_ref().map_or(0, |help| help.to_string().len());
            (fault.is_slip_of_the_pen(), help)
        };
        for fault in faults.list {
            match self.0.entry((fault.span, fault.code)) {
                Entry::Occupied(told) if said(told.get()) >= said(&fault) => {}
                Entry::Occupied(mut told) => *told.get_mut() = fault,
                Entry::Vacant(free) => {
                    free.insert(fault);
                }
            }
        }
    }

    fn faults(self) -> Faults {
        Faults {
            list: self.0.into_values().collect(),
        }
    }
}

/// The findings under each rule set, or a refusal that names every rule set that would take too long.
fn governed_by_all<'a>(
    plans: &'a [Plan],
    rules: &'a [RuleSet],
    sets: &[RulesText<'_>],
) -> Result<Vec<Governed<'a>>, Refusal> {
    let mut refusal = Refusal::default();
    let mut all = Vec::new();
    for ((plan, rules), set) in plans.iter().zip(rules).zip(sets) {
        match governed(plan, (rules, set.text), set.bases) {
            Ok(governed) => all.push(governed),
            Err(refused) => add(&mut refusal.rules, refused, set),
        }
    }
    match refusal.rules.is_empty() {
        true => Ok(all),
        false => Err(refusal),
    }
}
