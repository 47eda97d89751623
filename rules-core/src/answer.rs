//! The whole way from two texts to a report: what the command and the form both call.

use std::borrow::Cow;
use std::fmt;

use serde::Serialize;

use crate::check::Governed;
use crate::drawing::{Drawing, Options, drawing};
use crate::named::{read_alone, said_twice};
use crate::plan::Plan;
use crate::report::{Report, Texts, governed_report};
use crate::ruleset::RuleSet;
use crate::steps::{Steps, steps};
use crate::text::{self, FaultRow, Faults, Node, plain_json};
use crate::vocabulary::Vocabulary;
use crate::{check, plan, ruleset};

/// What cannot be judged, because something is wrong with a text.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
#[cfg_attr(not(feature = "inside"), non_exhaustive)]
pub struct Refusal {
    /// The plan, where it is at fault.
    pub plan: Option<Refused>,
    /// The rule files that are at fault.
    pub rules: Vec<Refused>,
}

/// A text and what is wrong with it.
#[derive(Debug, Clone, PartialEq, Eq)]
#[cfg_attr(not(feature = "inside"), non_exhaustive)]
pub struct Refused {
    /// The name under which another rule file builds on it; `None` for the plan and for the rule file asked for.
    pub name: Option<String>,
    /// The text.
    pub text: String,
    /// What is wrong.
    pub faults: Faults,
    /// What looks like a slip besides.
    pub slips: Faults,
}

/// A rule set that was read, and what its writer may want to look at again.
#[derive(Debug, Clone, PartialEq)]
pub struct RulesRead {
    /// The rules.
    pub rule_set: RuleSet,
    /// Its cases, where its own file has them.
    pub cases: Option<Node>,
    /// The files with what looks like a slip in them but has a meaning.
    pub warnings: Vec<Refused>,
}

/// Reads a rule set and keeps the texts of its files beside what is to be said of them.
///
/// # Errors
/// All faults of all its files.
pub fn read_rules<'t>(
    rules_text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
) -> Result<RulesRead, Refusal> {
    read_rules_in(None, rules_text, bases)
}

/// As [`read_rules`], with texts that a file writes in several languages read in the one of this name (`nb`), where they
/// have it.
///
/// # Errors
/// All faults of all its files.
pub fn read_rules_in<'t>(
    language: Option<&str>,
    rules_text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
) -> Result<RulesRead, Refusal> {
    let read = ruleset::read_in(language, rules_text, bases, Vocabulary::standard());
    let read = read.map_err(|refused| Refusal {
        plan: None,
        rules: with_texts(refused, rules_text, bases),
    })?;
    Ok(RulesRead {
        rule_set: read.rule_set,
        cases: read.cases,
        warnings: with_texts(read.warnings, rules_text, bases),
    })
}

/// Reads a plan and a rule set, judges the one by the other, and puts what was found into words.
///
/// `bases` finds the text of a rule set that this one builds on, by its name.
///
/// # Errors
/// All faults of all texts, or that judging would take too long. Where the rules are refused, the plan's words that they
/// might have explained are not held against it.
pub fn judge_texts<'t>(
    plan_text: &str,
    rules_text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
) -> Result<Report, Refusal> {
    judge_texts_in(None, plan_text, rules_text, bases)
}

/// As [`judge_texts`], in the language of this name (`nb`) as far as there are words in it.
///
/// # Errors
/// As [`judge_texts`].
pub(crate) fn judge_texts_in<'t>(
    language: Option<&str>,
    plan_text: &str,
    rules_text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
) -> Result<Report, Refusal> {
    let (plan, rules) = read_both(language, plan_text, rules_text, bases)?;
    let (report, _) = judged(&plan, (&rules, rules_text), plan_text, bases, None)?;
    Ok(report)
}

/// As [`judge_texts`], by rules and from a document that were read before, and draws the plan if that is wanted: the report
/// and the drawing. The text is the one that the document was read from, whatever was changed in it since.
///
/// # Errors
/// All faults of the plan, or that judging it would take too long.
pub fn judge_by<'t>(
    (plan, plan_text): (&Node, &str),
    rules: (&RuleSet, &'t str),
    bases: &dyn Fn(&str) -> Option<&'t str>,
    options: Option<&Options>,
) -> Result<(Report, Option<Drawing>), Refusal> {
    let plan = plan_of((plan, plan_text), rules.0)?;
    judged(&plan, rules, plan_text, bases, options)
}

/// Judges by the edition that governs the plan.
fn judged<'t>(
    plan: &Plan,
    (rules, rules_text): (&RuleSet, &'t str),
    plan_text: &str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
    options: Option<&Options>,
) -> Result<(Report, Option<Drawing>), Refusal> {
    let governed = governed(plan, (rules, rules_text), bases)?;
    let texts = Texts {
        plan: Some(plan_text),
        layers: layers_of(governed.rules, (rules, rules_text), bases),
    };
    let report = governed_report(&governed, plan, &texts);
    let draw = |options| {
        drawing(
            plan,
            governed.rules,
            &governed.findings,
            &report.rules,
            options,
        )
    };
    let drawn = options.map(draw);
    Ok((report, drawn))
}

/// What is found under the editions that may govern, or that judging would take too long.
pub(crate) fn governed<'a, 't>(
    plan: &'a Plan,
    (rules, rules_text): (&'a RuleSet, &'t str),
    bases: &dyn Fn(&str) -> Option<&'t str>,
) -> Result<Governed<'a>, Refusal> {
    check::governed(plan, rules).map_err(|too_much| {
        let name = too_much.file.as_deref();
        let text = name.map_or(Some(rules_text), bases).unwrap_or_default();
        let faults = Faults {
            list: vec![*too_much.fault],
        };
        Refusal {
            plan: None,
            rules: vec![Refused::new(too_much.file, text, faults)],
        }
    })
}

/// Reads a plan and a rule set, and puts the steps that the rule set asks for in their order, from a day on (as a number
/// of days since 1970-01-01).
///
/// # Errors
/// All faults of all texts, or that judging would take too long.
pub fn steps_texts<'t>(
    plan_text: &str,
    rules_text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
    start: i128,
) -> Result<Steps, Refusal> {
    let (plan, rules) = read_both(None, plan_text, rules_text, bases)?;
    steps_of(&plan, (&rules, rules_text), bases, start)
}

/// The same for a document that was read before, and for rules that were, as [`judge_by`] takes them.
///
/// # Errors
/// As for [`judge_by`].
pub fn steps_by<'t>(
    plan: (&Node, &str),
    rules: (&RuleSet, &'t str),
    bases: &dyn Fn(&str) -> Option<&'t str>,
    start: i128,
) -> Result<Steps, Refusal> {
    let plan = plan_of(plan, rules.0)?;
    steps_of(&plan, rules, bases, start)
}

fn steps_of<'t>(
    plan: &Plan,
    rules: (&RuleSet, &'t str),
    bases: &dyn Fn(&str) -> Option<&'t str>,
    start: i128,
) -> Result<Steps, Refusal> {
    let governed = governed(plan, rules, bases)?;
    Ok(steps(governed.rules, &governed.findings, start))
}

/// The plan and the rules of two texts.
fn read_both<'t>(
    language: Option<&str>,
    plan_text: &str,
    rules_text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
) -> Result<(Plan, RuleSet), Refusal> {
    let rules = read_rules_in(language, rules_text, bases).map_err(|refusal| Refusal {
        plan: plan_apart_from_rules(plan_text),
        ..refusal
    })?;
    let rules = rules.rule_set;
    Ok((read_plan(plan_text, &rules)?, rules))
}

/// The plan of a text, under rules that were read.
fn read_plan(text: &str, rules: &RuleSet) -> Result<Plan, Refusal> {
    let document = text::read(text).map_err(|faults| plan_refused(text, faults))?;
    plan_of((&document, text), rules)
}

/// What is wrong with a plan alone.
pub fn plan_refused(text: &str, faults: Faults) -> Refusal {
    Refusal {
        plan: Some(Refused::new(None, text, faults)),
        rules: Vec::new(),
    }
}

pub(crate) fn plan_of((document, text): (&Node, &str), rules: &RuleSet) -> Result<Plan, Refusal> {
    let refused = |faults| plan_refused(text, faults);
    let document = read_alone(document, &rules.id);
    let plan = plan::read_document(&document, &rules.vocabulary).map_err(refused)?;
    let mut faults = match &document {
        Cow::Owned(named) => said_twice(named),
        Cow::Borrowed(_) => Faults::default(),
    };
    faults.list.extend(check::contradictions(&plan, rules).list);
    faults.list.extend(check::unsaid_papers(&plan, rules).list);
    match faults.is_empty() {
        true => Ok(plan),
        false => Err(refused(faults)),
    }
}

/// What is wrong with the plan whatever the rules may add to the vocabulary.
pub(crate) fn plan_apart_from_rules(text: &str) -> Option<Refused> {
    let mut faults = plan::read(text, &Vocabulary::standard()).err()?;
    faults.list.retain(|fault| !fault.code.rules_may_explain());
    (!faults.is_empty()).then(|| Refused::new(None, text, faults))
}

fn with_texts<'t>(
    refused: Vec<ruleset::FileFaults>,
    rules_text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
) -> Vec<Refused> {
    let with_text = |file: ruleset::FileFaults| {
        let text = match &file.name {
            Some(name) => bases(name).unwrap_or_default(),
            None => rules_text,
        };
        Refused {
            slips: file.slips,
            ..Refused::new(file.name, text, file.faults)
        }
    };
    refused.into_iter().map(with_text).collect()
}

/// The texts of the files of the edition that governs, of a rule set that was read from a text.
pub(crate) fn layers_of<'t>(
    governing: &RuleSet,
    (rules, rules_text): (&RuleSet, &'t str),
    bases: &dyn Fn(&str) -> Option<&'t str>,
) -> Vec<Option<&'t str>> {
    let earlier = match std::ptr::eq(governing, rules) {
        true => None,
        false => bases(&governing.id),
    };
    layer_texts(governing, earlier.unwrap_or(rules_text), bases)
}

/// The texts of a rule set's files: its own first, then those that it builds on.
fn layer_texts<'t>(
    rules: &RuleSet,
    rules_text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
) -> Vec<Option<&'t str>> {
    let below = rules.layers.iter().skip(1).map(|layer| bases(&layer.id));
    std::iter::once(Some(rules_text)).chain(below).collect()
}

impl Refused {
    /// What is wrong, each fault with its line and column, as another program wants it.
    pub fn rows(&self) -> Vec<FaultRow> {
        self.faults.rows(&self.text)
    }

    /// A text and what is wrong with it.
    pub fn new(name: Option<String>, text: &str, faults: Faults) -> Self {
        Self {
            name,
            text: text.to_owned(),
            faults,
            slips: Faults::default(),
        }
    }
}

impl Refusal {
    /// What looks like a slip beside the faults, laid out for a person; empty where nothing does.
    pub fn show_slips(&self, rules_name: &str) -> String {
        let files = self.rules.iter().filter(|file| !file.slips.is_empty());
        let shown = files.map(|file| {
            let name = file.name.as_deref().unwrap_or(rules_name);
            file.slips.show(name, &file.text)
        });
        shown.collect::<Vec<_>>().join("\n")
    }

    /// All faults laid out for a person, under the names that the person knows the two files by.
    pub fn show(&self, plan_name: &str, rules_name: &str) -> String {
        let plan = self.plan.iter().map(|file| (plan_name, file));
        let rules = self.rules.iter();
        let rules = rules.map(|file| (file.name.as_deref().unwrap_or(rules_name), file));
        let rules = rules.filter(|(_, file)| !file.faults.is_empty());
        let shown = plan
            .chain(rules)
            .map(|(name, file)| file.faults.show(name, &file.text));
        shown.collect::<Vec<_>>().join("\n")
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(&self.show("the plan", "the rule file"))
    }
}

impl std::error::Error for Refusal {}

/// What another program gets: the report, or what is wrong with the texts.
#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
enum Answer<'a> {
    Report(&'a Report),
    Steps(&'a Steps),
    Refused {
        plan: Vec<FaultRow>,
        rules: Vec<RefusedFile<'a>>,
    },
}

#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
struct RefusedFile<'a> {
    file: Option<&'a str>,
    faults: Vec<FaultRow>,
}

/// The answer as JSON: `{"report": …}`, or `{"refused": {"plan": […], "rules": […]}}`; the same bytes everywhere.
pub fn to_json(answer: &Result<Report, Refusal>) -> String {
    written(&match answer {
        Ok(report) => Answer::Report(report),
        Err(refusal) => refused(refusal),
    })
}

/// The steps as JSON: `{"steps": …}`, or what is wrong with the texts, as [`to_json`] says it.
pub fn steps_to_json(answer: &Result<Steps, Refusal>) -> String {
    written(&match answer {
        Ok(steps) => Answer::Steps(steps),
        Err(refusal) => refused(refusal),
    })
}

/// What is wrong with the texts, as JSON, as [`to_json`] says it.
pub fn refusal_to_json(refusal: &Refusal) -> String {
    written(&refused(refusal))
}

fn refused(refusal: &Refusal) -> Answer<'_> {
    let plan = refusal.plan.iter();
    let rules = refusal.rules.iter();
    let rules = rules.filter(|file| !file.faults.is_empty());
    let rules = rules.map(|file| RefusedFile {
        file: file.name.as_deref(),
        faults: file.rows(),
    });
    Answer::Refused {
        plan: plan.flat_map(Refused::rows).collect(),
        rules: rules.collect(),
    }
}

fn written(answer: &Answer<'_>) -> String {
    // Text, numbers and lists of them can always be written.
    let json = serde_json::to_string_pretty(answer).unwrap_or_default();
    plain_json(json + "\n")
}
