//! Rules in sentences.

use super::Said;
use super::head::in_force_line;
use super::lines::Line;
use super::lists::{rests_on, titled};
use super::requirements::{Mode, Sayer};
use crate::quantity::{Unit, show_exactly};
use crate::ruleset::pieces;
use crate::ruleset::visit::Visit;
use crate::ruleset::words::{
    each_words, kind_noun, listed, narrowed_words, of_the_pool, requirement_words, without_stop,
};
use crate::ruleset::{
    Enclosure, IfNone, Interpretation, Part, Provenance, Relief, Requirement, Rule, RuleSet,
    Selection, Strength,
};
use crate::text::capitalised;
use crate::vocabulary::Role;

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
    lines.extend(what_opens(rule, rules).map(Line::new));
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

/// What a rule on gaps in a barrier makes of gates and doors; `None` for other rules.
fn what_opens(rule: &Rule, rules: &RuleSet) -> Option<String> {
    let reliefs = rule.reliefs.iter().map(|relief| &relief.require);
    let asked = [&rule.require].into_iter().chain(reliefs);
    let all: Vec<&Enclosure> = asked.flat_map(pieces::enclosures).collect();
    let building = rules.vocabulary.with_role(Role::Building);
    let is_wall = |part: &Part| Some(rules.vocabulary.outline(part.outline).kind) == building;
    let walls = all.iter().any(|one| one.made_of.parts.iter().any(is_wall));
    let from_house = all
        .iter()
        .any(|one| one.from.iter().any(|word| word == "dwelling"));
    let said = [
        Some("A gate, or a door in a fence, is taken as shut"),
        walls.then_some(
            "A door of a shed, a garage or another building is a gap, unless it closes and latches by itself",
        ),
        walls.then_some("A carport closes nothing off"),
        from_house.then_some(
            "On the way from the dwelling each of its doors is a gap, even one that is fixed shut",
        ),
        (walls && !from_house).then_some("A door of the dwelling is no gap, as people may come from there"),
    ];
    let said: Vec<&str> = said.into_iter().flatten().collect();
    (!all.is_empty()).then(|| said.join(". "))
}

/// Where it applies, what must hold, and what it comes to that there is nothing of what it is for.
fn requirement_lines(rule: &Rule, sayer: &Sayer<'_>) -> Vec<Line> {
    let mode = match rule.strength {
        Strength::Must => Mode::Must,
        Strength::Should => Mode::Should,
    };
    let each = rule.each.as_ref();
    let (lead, where_) = led(rule, sayer);
    let lead = capitalised(&lead);
    let main = sayer.line(&rule.require, mode, true).led_by(&lead);
    let main = sayer.with_tables(main, |found| each.iter().for_each(|it| found.selection(it)));
    let unless = rule.unless.as_ref();
    let unless = unless.map(|unless| {
        let whom = to_a_pool(rule, unless, sayer.rules);
        let lead = format!("It does not apply {whom}where ");
        sayer.holds(unless).led_by(&lead)
    });
    let none = each.and_then(|each| none_line(each, each.if_none?, sayer.rules));
    (where_.into_iter().chain([main]).chain(unless).chain(none)).collect()
}

/// How a rule's sentence begins: `for each pool and each gate, `. A condition that is a list gets its own line.
fn led(rule: &Rule, sayer: &Sayer<'_>) -> (String, Option<Line>) {
    let rules = sayer.rules;
    let each = rule.each.as_ref().map(|each| each_words(each, rules));
    let pool = rule.about_pool.then(|| "each pool".to_owned());
    let whom = |list: [Option<String>; 2]| {
        let list: Vec<String> = list.into_iter().flatten().collect();
        match list.is_empty() {
            true => String::new(),
            false => format!("for {}, ", listed(&list, "and")),
        }
    };
    let Some(when) = rule.when.as_ref() else {
        return (whom([pool, each]), None);
    };
    let line = sayer.holds(when);
    let of_it = to_a_pool(rule, when, rules);
    if !line.under.is_empty() {
        let alone = line.led_by(&format!("It applies only {of_it}where "));
        let such = (!of_it.is_empty()).then(|| "each such pool".to_owned());
        return (whom([such.or(pool), each]), Some(alone));
    }
    let words = requirement_words(when, rules);
    let lead = match (of_it.is_empty(), each) {
        (true, each) => format!("where {words}, {}", whom([pool, each])),
        (false, None) => format!("for each pool where {words}, "),
        (false, Some(each)) => format!("for each pool where {words}, and for {each}, "),
    };
    (lead, None)
}

/// `to a pool ` if a rule that is judged for each pool has a condition on the pool.
fn to_a_pool(rule: &Rule, condition: &Requirement, rules: &RuleSet) -> &'static str {
    match rule.about_pool && of_the_pool(condition, rules) {
        true => "to a pool ",
        false => "",
    }
}

/// `Where there is no gate, this passes`.
fn none_line(each: &Selection, if_none: IfNone, rules: &RuleSet) -> Option<Line> {
    let noun = kind_noun(each.kind, &rules.vocabulary);
    let narrowed = narrowed_words(each, rules);
    let then = match if_none {
        IfNone::Passes => "the rule passes",
        IfNone::Fails => "the rule fails",
        IfNone::Refer => "the authority decides",
    };
    Some(Line::new(format!(
        "Where there is no {noun}{narrowed}, {then}"
    )))
}

fn relief_line(relief: &Relief, sayer: &Sayer<'_>) -> Line {
    let leave = match relief.leave {
        true => " with the authority's leave",
        false => "",
    };
    let lead = format!("Instead{leave} ({})", relief.id.replace('-', " "));
    let inner = sayer.line(&relief.require, Mode::Holds, true);
    let Some(when) = &relief.when else {
        return inner.led_by(&format!("{lead}: it is enough that "));
    };
    let condition = sayer.holds(when);
    if condition.under.is_empty() {
        let when = requirement_words(when, sayer.rules);
        return inner.led_by(&format!("{lead}: where {when}, it is enough that "));
    }
    Line {
        text: lead,
        under: vec![
            condition.led_by("it is allowed only where "),
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
    without_stop(text)
}

fn provenance(provenance: Provenance) -> Option<&'static str> {
    match provenance {
        Provenance::Confirmed => None,
        Provenance::FromMemory => Some("Its values are from memory and have to be checked"),
        Provenance::Contradicted => Some("Published sources disagree about its values"),
    }
}
