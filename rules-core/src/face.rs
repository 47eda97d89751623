//! Reading rules once and judging plans by them: what another program calls.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

use crate::answer::{
    Refusal, Refused, judge_by, plan_apart_from_rules, plan_refused, read_rules_in,
};
use crate::report::{Report, text};
use crate::ruleset::RuleSet;
use crate::several::{RulesText, judge_together_in};
use crate::text::read;

/// Where the texts of rule files come from: those that a rule file builds on, and its earlier editions.
///
/// A closure will do, such as `|name: &str| siting_rulesets::rules(name)`; so will a map from names to texts, and
/// [`NoOthers`] for a rule file that stands alone.
///
/// ```
/// use rules_core::RuleTexts;
///
/// struct Folder {
///     county: String,
/// }
///
/// impl RuleTexts for Folder {
///     fn text(&self, name: &str) -> Option<&str> {
///         (name == "county").then_some(&self.county)
///     }
/// }
/// ```
pub trait RuleTexts {
    /// The text of the rule set of this name; `None` where there is none.
    fn text(&self, name: &str) -> Option<&str>;
}

impl<F: Fn(&str) -> Option<&'static str>> RuleTexts for F {
    fn text(&self, name: &str) -> Option<&str> {
        self(name)
    }
}

impl RuleTexts for BTreeMap<String, String> {
    fn text(&self, name: &str) -> Option<&str> {
        self.get(name).map(String::as_str)
    }
}

/// No rule file but the one that is read.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct NoOthers;

impl RuleTexts for NoOthers {
    fn text(&self, _: &str) -> Option<&str> {
        None
    }
}

/// A rule set that was read. It can be shared between threads, and a clone costs nothing.
///
/// ```
/// # let text = "
/// # ruleset: hazelbrook
/// # title: Hazelbrook, private pools
/// # edition: '2026'
/// # authority: Hazelbrook building office
/// # rules:
/// #   - {id: depth, title: Depth, clause: 's. 5', require: {fact: pool.depth, at-most: 2 m}}
/// # ";
/// # let plan = "{plan: p, title: P, unit: m, lot: {corners: {a: [0, 0], b: [9, 0], c: [9, 9]}}, pool: {id: p, depth: 3 m}}";
/// use rules_core::{NoOthers, Outcome, Rules};
///
/// let rules = Rules::read(text, &NoOthers)?;
/// assert_eq!(rules.title(), "Hazelbrook, private pools");
///
/// let report = rules.judge(plan)?;
/// assert_eq!(report.rules[0].outcome, Outcome::Fail);
/// assert!(report.to_string().contains("Depth")); // for a person at a terminal
/// # Ok::<(), rules_core::Refusal>(())
/// ```
#[derive(Clone)]
pub struct Rules(Arc<Read>);

struct Read {
    set: RuleSet,
    text: String,
    /// The texts of other files that were asked for.
    others: BTreeMap<String, String>,
    slips: Vec<Refused>,
    language: Option<String>,
}

impl Rules {
    /// Reads a rule file and those that it builds on.
    ///
    /// # Errors
    /// All faults of all files.
    pub fn read(text: &str, others: &impl RuleTexts) -> Result<Self, Refusal> {
        Self::read_as(None, text, others)
    }

    /// As [`Rules::read`]; what a file says in several languages is taken in the one of this name (`nb`), and the report
    /// speaks it as far as it can.
    ///
    /// # Errors
    /// All faults of all files.
    pub fn read_in(language: &str, text: &str, others: &impl RuleTexts) -> Result<Self, Refusal> {
        Self::read_as(Some(language), text, others)
    }

    fn read_as(
        language: Option<&str>,
        text: &str,
        others: &impl RuleTexts,
    ) -> Result<Self, Refusal> {
        let asked = RefCell::new(BTreeMap::new());
        let find = |name: &str| {
            let found = others.text(name);
            let mut asked = asked.borrow_mut();
            asked.extend(found.map(|text| (name.to_owned(), text.to_owned())));
            found
        };
        let read = read_rules_in(language, text, &find)?;
        Ok(Self(Arc::new(Read {
            set: read.rule_set,
            text: text.to_owned(),
            slips: read.warnings,
            language: language.map(str::to_owned),
            others: asked.into_inner(),
        })))
    }

    /// The short name under which other rule files build on it.
    pub fn id(&self) -> &str {
        &self.0.set.id
    }

    /// Its title.
    pub fn title(&self) -> &str {
        &self.0.set.title
    }

    /// Its edition.
    pub fn edition(&self) -> &str {
        &self.0.set.edition
    }

    /// The authority that applies it.
    pub fn authority(&self) -> &str {
        &self.0.set.authority
    }

    /// The files in which something looks like a slip but has a meaning.
    pub fn slips(&self) -> &[Refused] {
        &self.0.slips
    }

    /// Judges a plan.
    ///
    /// # Errors
    /// All faults of the plan, or that judging it would take too long.
    pub fn judge(&self, plan: &str) -> Result<Report, Refusal> {
        let document = read(plan).map_err(|faults| plan_refused(plan, faults))?;
        let Read { set, text, .. } = &*self.0;
        let (report, _) = judge_by(
            (&document, plan),
            (set, text),
            &|name| self.other(name),
            None,
        )?;
        Ok(report)
    }

    fn other(&self, name: &str) -> Option<&str> {
        self.0.others.get(name).map(String::as_str)
    }
}

impl fmt::Debug for Rules {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.debug_tuple("Rules").field(&self.id()).finish()
    }
}

/// Reads a plan and a rule file, judges the one by the other, and puts what was found into words.
///
/// # Errors
/// All faults of all texts at once, or that judging would take too long.
pub fn judge(plan: &str, rules: &str, others: &impl RuleTexts) -> Result<Report, Refusal> {
    let rules = Rules::read(rules, others).map_err(|refusal| Refusal {
        plan: plan_apart_from_rules(plan),
        ..refusal
    })?;
    rules.judge(plan)
}

/// Judges a plan by several rule sets and makes one report of all that was found, in the language of the first. What of the
/// plan only some of them know is left out of sight of the others, and the report says so.
///
/// # Errors
/// All faults of the plan, or that judging would take too long; nothing where there is no rule set at all. A word of the
/// plan that two rule sets use for different things must name the one that is meant.
pub fn judge_by_all(plan: &str, rules: &[Rules]) -> Result<Report, Refusal> {
    let finders: Vec<_> = rules
        .iter()
        .map(|one| |name: &str| one.other(name))
        .collect();
    let sets = rules.iter().zip(&finders).map(|(one, bases)| RulesText {
        name: one.id(),
        text: &one.0.text,
        bases,
    });
    let language = rules.first().and_then(|one| one.0.language.as_deref());
    judge_together_in(language, plan, &sets.collect::<Vec<_>>())
}

/// The report for a person at a terminal, in lines of 80 columns.
impl fmt::Display for Report {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(&text::render(self, text::Style::default()))
    }
}
