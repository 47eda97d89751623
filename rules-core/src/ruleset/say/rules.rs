//! Rules in sentences.

use super::Said;
use super::head::in_force_line;
use super::lines::Line;
use super::lists::{rests_on, titled};
use super::requirements::{Mode, Sayer};
use crate::quantity::{Unit, show_exactly};
use crate::ruleset::visit::Visit;
use crate::ruleset::words::{
    each_words, if_none_words, kind_noun, narrowed_words, requirement_words,
};
use crate::ruleset::{
    IfNone, Interpretation, Provenance, Relief, Requirement, Rule, RuleSet, Selection, Strength,
};
use crate::text::capitalised;

/// All rules of its files.
pub(super) fn all(rules: &RuleSet) -> Vec<Said> {
    let all = rules.rules.iter();
    all.map(|rule| rule_said(rule, rules)).collect()
}

/// One rule in words.
pub(crate) fn rule_said(rule: &Rule, rules: &RuleSet) -> Said {
    let sayer = Sayer { rules };
    let mut lines = requirement_lines(rule, &sayer);
    let reliefs = rule.reliefs.iter();
    lines.extend(reliefs.map(|relief| relief_line(relief, &sayer)));
    let read = rules.interpretations_of(&rule.id);
    lines.extend(read.map(|one| read_so(one, rules)));
    lines.extend(sentences(rule, rules).into_iter().map(Line::new));
    lines.extend((rule.in_force.iter()).map(|in_force| in_force_line(in_force, rules)));
    lines.extend(rests_on(&rule.cited, rules));
    Said {
        id: rule.id.clone(),
        title: rule.title.clone(),
        clause: Some(rule.clause.clone()),
        lines,
    }
}

/// Where it applies, what must hold, and what it comes to that there is nothing of what it is for.
fn requirement_lines(rule: &Rule, sayer: &Sayer<'_>) -> Vec<Line> {
    let mode = match rule.strength {
        Strength::Must => Mode::Must,
        Strength::Should => Mode::Should,
    };
    let (lead, where_) = led(rule.when.as_ref(), "It applies only where ", sayer);
    let each = rule.each.as_ref();
    let whom = each.map(|each| format!("for {}, ", each_words(each, sayer.rules)));
    let lead = capitalised(&(lead + &whom.unwrap_or_default()));
    let main = sayer.line(&rule.require, mode, true).led_by(&lead);
    let main = sayer.with_tables(main, |found| each.iter().for_each(|it| found.selection(it)));
    let unless = rule.unless.as_ref();
    let unless = unless.map(|unless| sayer.holds(unless).led_by("It does not apply where "));
    let none = each.and_then(|each| none_line(each, each.if_none?, sayer.rules));
    (where_.into_iter().chain([main]).chain(unless).chain(none)).collect()
}

/// A condition as the lead of a sentence (`where …, `), or, where it is a list, as a line of its own.
fn led(when: Option<&Requirement>, alone: &str, sayer: &Sayer<'_>) -> (String, Option<Line>) {
    let Some(when) = when else {
        return (String::new(), None);
    };
    let line = sayer.holds(when);
    match line.under.is_empty() {
        true => {
            let words = requirement_words(when, sayer.rules);
            (format!("where {words}, "), None)
        }
        false => (String::new(), Some(line.led_by(alone))),
    }
}

/// `Where there is no gate, this passes`.
fn none_line(each: &Selection, if_none: IfNone, rules: &RuleSet) -> Option<Line> {
    let noun = kind_noun(each.kind, &rules.vocabulary);
    let narrowed = narrowed_words(each, rules);
    let then = if_none_words(if_none);
    Some(Line::new(format!(
        "Where there is no {noun}{narrowed}, {then}"
    )))
}

fn relief_line(relief: &Relief, sayer: &Sayer<'_>) -> Line {
    let leave = if relief.leave {
        " with the authority's leave"
    } else {
        ""
    };
    let name = relief.id.replace('-', " ");
    let inner = sayer.line(&relief.require, Mode::Holds, true);
    let Some(when) = &relief.when else {
        return inner.led_by(&format!("Instead{leave} ({name}): it is enough that "));
    };
    let condition = sayer.holds(when);
    if condition.under.is_empty() {
        let when = requirement_words(when, sayer.rules);
        return inner.led_by(&format!(
            "Instead{leave} ({name}): where {when}, it is enough that "
        ));
    }
    Line {
        text: format!("Instead{leave} ({name})"),
        under: vec![
            condition.led_by("it is open only where "),
            inner.led_by("it is enough that "),
        ],
    }
}

/// How the authority reads the clause.
fn read_so(one: &Interpretation, rules: &RuleSet) -> Line {
    let since = show_exactly(one.since, Unit::DATE);
    let (id, by, says) = (&one.id, &one.by, sentence(&one.says));
    Line {
        text: format!("How this clause is read (`{id}`; by {by}, since {since}): {says}"),
        under: rests_on(&one.cited, rules).into_iter().collect(),
    }
}

/// What is said of a rule beside what must hold.
fn sentences(rule: &Rule, rules: &RuleSet) -> Vec<String> {
    let papers = rule.documents.iter();
    let papers = papers.filter_map(|paper| rules.documents.get(*paper));
    let papers: Vec<_> = papers
        .map(|paper| titled(&paper.title, &paper.id))
        .collect();
    let layer = rules.layers.get(rule.layer).filter(|_| rule.layer > 0);
    let day = |day| show_exactly(day, Unit::DATE);
    let all = [
        (rule.strength == Strength::Should).then(|| "This is advice and does not bind".to_owned()),
        (!papers.is_empty()).then(|| format!("Papers to go with it: {}", papers.join("; "))),
        (rule.remedy.as_ref()).map(|it| format!("What to do if it fails: {}", sentence(it))),
        (rule.note.as_ref()).map(|note| format!("Note: {}", sentence(note))),
        provenance(rule.provenance).map(str::to_owned),
        (rule.again)
            .map(|again| format!("To be compared with its sources again after {}", day(again))),
        layer.map(|layer| format!("It comes from `{}`", layer.id)),
    ];
    all.into_iter().flatten().collect()
}

/// A text of the file's own, whose full stop the line adds.
pub(super) fn sentence(text: &str) -> &str {
    text.strip_suffix('.').unwrap_or(text)
}

fn provenance(provenance: Provenance) -> Option<&'static str> {
    match provenance {
        Provenance::Confirmed => None,
        Provenance::FromMemory => Some("Its values are from memory and have to be checked"),
        Provenance::Contradicted => Some("Published sources disagree about its values"),
    }
}
