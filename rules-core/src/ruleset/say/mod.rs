//! The read-back: what a rule file really says, rule by rule, in plain sentences, with an example on each side of each
//! limit, so that whoever wrote it sees whether it is what they meant.

mod examples;
mod lines;
mod render;
mod requirements;

#[cfg(test)]
mod say_tests;

use super::words::{
    bounds_words, each_words, in_force_words, operand_words, requirement_words, selection_words,
    value_words, zone_words,
};
use super::{
    Decision, IfNone, InForce, Meaning, Provenance, Relief, Rule, RuleSet, Selection, Strength,
    Term, Then,
};
use crate::text::capitalised;
pub use examples::{Sides, sides};
pub use lines::Line;
use lines::lower;
use requirements::{Mode, Sayer, row_test_words};

/// A rule set, read back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadBack {
    /// The rule set's title and edition.
    pub title: String,
    /// When it is in force, and which edition is before it.
    pub head: Vec<Line>,
    /// The defined terms.
    pub terms: Vec<Said>,
    /// The rules, in their order.
    pub rules: Vec<Said>,
    /// The decisions, in their order.
    pub decisions: Vec<Said>,
}

/// One rule, decision or term in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// Its id in the rule set.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The clause that it stands for.
    pub clause: Option<String>,
    /// What it says.
    pub lines: Vec<Line>,
}

/// Reads a rule set back.
pub fn read_back(rules: &RuleSet) -> ReadBack {
    ReadBack {
        title: format!("{}, edition {}", rules.title, rules.edition),
        head: head_lines(rules),
        terms: rules
            .terms
            .iter()
            .map(|term| term_said(term, rules))
            .collect(),
        rules: rules
            .rules
            .iter()
            .map(|rule| rule_said(rule, rules))
            .collect(),
        decisions: rules
            .decisions
            .iter()
            .map(|decision| decision_said(decision, rules))
            .collect(),
    }
}

/// One rule in words.
pub fn rule_said(rule: &Rule, rules: &RuleSet) -> Said {
    let mode = match rule.strength {
        Strength::Must => Mode::Must,
        Strength::Should => Mode::Should,
    };
    let sayer = Sayer { rules };
    let main = sayer.line(&rule.require, mode, true);
    let mut lines = vec![main.led_by(&lead(rule, rules))];
    if let Some(unless) = &rule.unless {
        lines.push(Line::new(format!(
            "It does not apply where {}",
            requirement_words(unless, rules)
        )));
    }
    lines.extend(
        rule.each
            .as_ref()
            .and_then(|each| if_none_line(each.if_none)),
    );
    lines.extend(
        rule.reliefs
            .iter()
            .map(|relief| relief_line(relief, &sayer)),
    );
    lines.extend(papers_line(rule, rules));
    lines.extend(
        rule.in_force
            .as_ref()
            .map(|in_force| in_force_line(in_force, rules)),
    );
    lines.extend(provenance_line(rule.provenance));
    Said {
        id: rule.id.clone(),
        title: rule.title.clone(),
        clause: Some(rule.clause.clone()),
        lines,
    }
}

/// `Where … holds, for each gate,`: what stands before the requirement. That a rule is for each pool goes without saying.
fn lead(rule: &Rule, rules: &RuleSet) -> String {
    let when = rule
        .when
        .as_ref()
        .map(|when| format!("where {}, ", requirement_words(when, rules)));
    let each = rule.each.as_ref().map(|each| subject(each, rules));
    capitalised(&(when.unwrap_or_default() + &each.unwrap_or_default()))
}

fn subject(each: &Selection, rules: &RuleSet) -> String {
    let pool = rules.vocabulary.kind_named("pool") == Some(each.kind);
    match (&each.filter, &each.zone) {
        (None, None) if pool => String::new(),
        (Some(filter), None) if pool && each.term.is_none() => {
            format!("where {}, ", requirement_words(filter, rules))
        }
        _ => format!("for {}, ", each_words(each, rules)),
    }
}

fn if_none_line(if_none: Option<IfNone>) -> Option<Line> {
    Some(Line::new(format!(
        "If there is none, {}",
        if_none_words(if_none?)
    )))
}

pub(super) fn if_none_words(if_none: IfNone) -> &'static str {
    match if_none {
        IfNone::Passes => "this passes",
        IfNone::Fails => "this fails",
        IfNone::Refer => "the authority decides",
    }
}

fn relief_line(relief: &Relief, sayer: &Sayer<'_>) -> Line {
    let when = relief
        .when
        .as_ref()
        .map(|when| format!("where {}, ", requirement_words(when, sayer.rules)));
    let leave = if relief.leave {
        " with the authority's leave"
    } else {
        ""
    };
    let inner = sayer.line(&relief.require, Mode::Holds, true);
    let name = relief.id.replace('-', " ");
    inner.led_by(&format!(
        "Instead{leave} ({name}): {}it is enough that ",
        when.unwrap_or_default()
    ))
}

fn papers_line(rule: &Rule, rules: &RuleSet) -> Option<Line> {
    let titles = rule
        .documents
        .iter()
        .filter_map(|document| rules.documents.get(*document));
    let titles: Vec<_> = titles.map(|document| document.title.clone()).collect();
    (!titles.is_empty()).then(|| Line::new(format!("Papers to go with it: {}", titles.join("; "))))
}

fn in_force_line(in_force: &InForce, rules: &RuleSet) -> Line {
    Line::new(format!("In force {}", in_force_words(in_force, rules)))
}

/// When the rule set is in force, and what holds for plans that it does not govern yet.
fn head_lines(rules: &RuleSet) -> Vec<Line> {
    let in_force = rules.in_force.as_ref();
    let earlier = rules.earlier.as_ref().map(|earlier| {
        Line::new(format!(
            "For a plan that it does not govern yet, the edition {} holds (`{}`)",
            earlier.edition, earlier.id
        ))
    });
    let in_force = in_force.map(|in_force| in_force_line(in_force, rules));
    in_force.into_iter().chain(earlier).collect()
}

fn provenance_line(provenance: Provenance) -> Option<Line> {
    match provenance {
        Provenance::Confirmed => None,
        Provenance::FromMemory => Some(Line::new(
            "Its values are from memory and have to be checked",
        )),
        Provenance::Contradicted => Some(Line::new("Published sources disagree about its values")),
    }
}

/// One decision in words.
fn decision_said(decision: &Decision, rules: &RuleSet) -> Said {
    let rows = decision.table.rows.iter().map(|row| {
        let test = row_test_words(&row.test, decision.table.by.as_ref(), rules);
        let class = match &row.then {
            Then::Give(class) => class.replace('-', " "),
            Then::Refer => "the authority decides".to_owned(),
        };
        Line::new(format!("{}: {class}", capitalised(&test)))
    });
    let each = decision
        .each
        .as_ref()
        .map_or_else(String::new, |each| subject(each, rules));
    let head = Line {
        text: capitalised(&format!("{each}the first of these that applies decides")),
        under: rows.collect(),
    };
    Said {
        id: decision.id.clone(),
        title: decision.title.clone(),
        clause: decision.clause.clone(),
        lines: vec![head],
    }
}

/// One term in words.
fn term_said(term: &Term, rules: &RuleSet) -> Said {
    let named = |words: String| Line::new(format!("This means {words}"));
    let line = match &term.meaning {
        Meaning::Value(value) => named(value_words(value, rules)),
        Meaning::Outlines(operand) => named(operand_words(operand, "or", rules)),
        Meaning::Things(things) => named(format!("each {}", selection_words(things, rules))),
        Meaning::Zone(zone) => named(format!("what lies {}", zone_words(zone, rules))),
        Meaning::Requirement(requirement) => {
            let inner = Sayer { rules }.line(requirement, Mode::Holds, true);
            inner.led_by("This is met where ")
        }
    };
    Said {
        id: term.id.clone(),
        title: capitalised(&term.id.replace('-', " ")),
        clause: None,
        lines: vec![line],
    }
}

/// All bounds of a value, for the rows of a table.
fn bounds_of_row(bounds: &[super::Bound], by: Option<&super::Value>, rules: &RuleSet) -> String {
    let by_words = by.map_or_else(|| "it".to_owned(), |by| value_words(by, rules));
    let is = if by_words.ends_with(" is") {
        ":"
    } else {
        " is"
    };
    format!(
        "where {}{is} {}",
        lower(&by_words),
        bounds_words(bounds, by, rules)
    )
}
