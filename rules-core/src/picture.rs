//! A plan's drawing, and below it what was found about the plan.

use crate::Refusal;
use crate::answer::{judge_by, plan_refused, read_rules};
use crate::check::Outcome;
use crate::drawing::{Hatch, Options, Overlay};
use crate::report::text::wrap;
use crate::report::{Report, RuleReport};
use crate::text;
use crate::unknown_keys::hide_unknown_keys;

/// Finds the text of a rule set that another builds on, by its name.
type Bases<'b, 't> = &'b dyn Fn(&str) -> Option<&'t str>;

/// A rule set with no rule of its own, for a plan that is only to be drawn.
const NO_RULES: &str = "ruleset: no-rules\ntitle: No rules\nedition: none\nauthority: nobody\n";
/// The most findings to write below the drawing.
const MOST: usize = 12;
/// How many letters of a line fit below the drawing.
const WIDE: usize = 120;

/// A plan as SVG. With a rule set, the distances of the rules that fail or are too close to call are drawn, and the findings
/// stand below; without one, what the plan holds for a rule set of its own is left out.
///
/// # Errors
/// All faults of the texts, or that judging would take too long.
pub fn picture<'t>(
    plan_text: &str,
    rules: Option<(&'t str, Bases<'_, 't>)>,
) -> Result<String, Refusal> {
    let none = |_: &str| None;
    let (rules_text, bases) = rules.unwrap_or((NO_RULES, &none));
    let read = read_rules(rules_text, bases)?.rule_set;
    let mut document = text::read(plan_text).map_err(|it| plan_refused(plan_text, it))?;
    if rules.is_none() {
        hide_unknown_keys(&mut document, &read.vocabulary);
    }
    let judged = |options: Option<&Options>| {
        judge_by((&document, plan_text), (&read, rules_text), bases, options)
    };
    let mut options = Options::default();
    if rules.is_some() {
        let (report, _) = judged(None)?;
        options.overlay = Overlay {
            legend: lines(&report),
            ..Overlay::default()
        };
    }
    let (_, drawing) = judged(Some(&options))?;
    Ok(drawing.map_or_else(String::new, |drawing| drawing.svg()))
}

/// The findings, those that fail first.
fn lines(report: &Report) -> Vec<(Option<Hatch>, String)> {
    const ORDER: [(Outcome, &str); 4] = [
        (Outcome::Fail, "Fails"),
        (Outcome::Marginal, "Too close to call"),
        (Outcome::Refer, "For the authority"),
        (Outcome::Unknown, "Open"),
    ];
    let head = &report.rule_set;
    let head = format!(
        "Under {}, edition {}: {}",
        head.title, head.edition, report.verdict.sentence
    );
    let binding = report.rules.iter().filter(|rule| rule.binds());
    let binding: Vec<&RuleReport> = binding.collect();
    let found = ORDER.iter().flat_map(|(outcome, word)| {
        let rules = binding.iter().filter(|rule| rule.outcome == *outcome);
        rules
            .map(|rule| format!("{word}: {}", said(rule)))
            .collect::<Vec<_>>()
    });
    let found: Vec<String> = found.collect();
    let more = match found.len() {
        many if many > MOST => Some(format!("… and {} more.", many - MOST)),
        _ => None,
    };
    let all = [head]
        .into_iter()
        .chain(found.into_iter().take(MOST))
        .chain(more);
    let all = all.chain([report.disclaimer.clone()]);
    let lines = all.flat_map(|line| wrap(&line, WIDE));
    lines.map(|line| (None, line)).collect()
}

fn said(rule: &RuleReport) -> String {
    let deciding = rule.deciding.and_then(|at| rule.parts.get(at));
    match deciding.map(|part| part.brief.as_str()) {
        Some(brief) if !brief.is_empty() => format!("{}: {brief}", rule.title),
        _ => rule.title.clone(),
    }
}
