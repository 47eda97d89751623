//! Terms, decisions, questions, things of a rule set's own, and sources in sentences.

use super::Said;
use super::lines::Line;
use super::requirements::{Mode, Sayer, row_test_words};
use super::rules::sentence;
use super::tables;
use crate::grammar::GRADES;
use crate::quantity::{Unit, show_exactly};
use crate::ruleset::visit::Visit;
use crate::ruleset::words::{
    each_words, in_quotes, kind_noun, listed, operand_words, selection_words, spaced, value_words,
    whose_words, zone_words,
};
use crate::ruleset::{Cited, Decision, Meaning, Question, RuleSet, Source, Term, Then, Value};
use crate::text::capitalised;
use crate::vocabulary::{Answer, Fact, Kind, KindId, Number, Outline, Shape, Vocabulary};

/// An entry without a clause.
pub(super) fn entry(id: &str, title: &str, lines: Vec<Line>) -> Said {
    Said {
        id: id.to_owned(),
        title: title.to_owned(),
        clause: None,
        lines,
    }
}

/// A title, and the short name beside it, which alone is its own.
pub(super) fn titled(title: &str, id: &str) -> String {
    format!("{} (`{id}`)", sentence(title))
}

/// Where something was read.
pub(super) fn rests_on(cited: &[Cited], rules: &RuleSet) -> Option<Line> {
    let one = |cited: &Cited| {
        let source = rules.sources.get(cited.source)?;
        let clause = cited.clause.as_ref().map(|clause| format!(", {clause}"));
        let value = cited.value.as_ref().map(|value| format!(" (for {value})"));
        Some(format!(
            "{}{}{}",
            titled(&source.title, &source.id),
            clause.unwrap_or_default(),
            value.unwrap_or_default()
        ))
    };
    let all: Vec<String> = cited.iter().filter_map(one).collect();
    (!all.is_empty()).then(|| Line::new(format!("It rests on {}", all.join("; "))))
}

/// The defined terms.
pub(super) fn terms(rules: &RuleSet) -> Vec<Said> {
    rules
        .terms
        .iter()
        .map(|term| term_said(term, rules))
        .collect()
}

fn term_said(term: &Term, rules: &RuleSet) -> Said {
    let mut lines = vec![meaning(term, &Sayer { rules })];
    lines.extend(rests_on(&term.cited, rules));
    entry(&term.id, &capitalised(&term.id.replace('-', " ")), lines)
}

fn meaning(term: &Term, sayer: &Sayer<'_>) -> Line {
    let rules = sayer.rules;
    let named = |words: String| Line::new(format!("This means {words}"));
    match &term.meaning {
        Meaning::Value(Value::Table(table)) => {
            let list = Line {
                under: tables::rows(table, rules),
                ..named("what the first of these that applies gives".to_owned())
            };
            sayer.with_tables(list, |found| {
                table.by.iter().for_each(|by| found.value(by));
            })
        }
        Meaning::Value(value) => {
            sayer.with_tables(named(value_words(value, rules)), |found| found.value(value))
        }
        Meaning::Outlines(operand) => {
            let nearest = match operand.parts.len() {
                0 | 1 => "",
                _ => "; a distance is measured from whichever is nearest",
            };
            let line = named(operand_words(operand, "or", rules) + nearest);
            sayer.with_tables(line, |found| found.operand(operand))
        }
        Meaning::Things(things) => {
            let line = named(format!("each {}", selection_words(things, rules)));
            sayer.with_tables(line, |found| found.selection(things))
        }
        Meaning::Zone(zone) => {
            let line = named(format!("what lies {}", zone_words(zone, rules)));
            sayer.with_tables(line, |found| found.zone(zone))
        }
        Meaning::Requirement(requirement) => {
            let whose = whose_words(requirement, rules);
            let lead = format!("{} holds {whose}where ", in_quotes(&term.id));
            sayer.line(requirement, Mode::Holds, true).led_by(&lead)
        }
    }
}

/// The decisions, in their order.
pub(super) fn decisions(rules: &RuleSet) -> Vec<Said> {
    let all = rules.decisions.iter();
    all.map(|decision| decision_said(decision, &Sayer { rules }))
        .collect()
}

fn decision_said(decision: &Decision, sayer: &Sayer<'_>) -> Said {
    let rules = sayer.rules;
    let by = decision.table.by.as_ref();
    let rows = decision.table.rows.iter().map(|row| {
        let test = row_test_words(&row.test, by, rules);
        let class = match &row.then {
            Then::Give(class) => format!("the answer is “{}”", spaced(class)),
            Then::Refer => "the authority decides".to_owned(),
        };
        let line = Line::new(format!("{test}, {class}"));
        sayer.with_tables(line, |found| found.row_test(&row.test))
    });
    let each = decision.each.as_ref();
    let pool = decision.about_pool.then(|| "each pool".to_owned());
    let each = each.map(|each| each_words(each, rules));
    let whom: Vec<String> = pool.into_iter().chain(each).collect();
    let each = match whom.is_empty() {
        true => String::new(),
        false => format!("for {}, ", listed(&whom, "and for")),
    };
    let head = Line {
        text: capitalised(&format!("{each}the first of these that applies decides")),
        under: rows.collect(),
    };
    let head = sayer.with_tables(head, |found| {
        decision.each.iter().for_each(|each| found.selection(each));
        by.into_iter().for_each(|by| found.value(by));
    });
    Said {
        id: decision.id.clone(),
        title: decision.title.clone(),
        clause: decision.clause.clone(),
        lines: [head]
            .into_iter()
            .chain(rests_on(&decision.cited, rules))
            .collect(),
    }
}

/// Its own questions, each with the answers that it may have.
pub(super) fn questions(rules: &RuleSet) -> Vec<Said> {
    let all = rules.questions.iter();
    all.map(|question| question_said(question, rules)).collect()
}

fn question_said(question: &Question, rules: &RuleSet) -> Said {
    let answers = rules.vocabulary.with_role(crate::vocabulary::Role::Answers);
    let fact = answers.and_then(|kind| rules.vocabulary.fact_named(kind, &question.id));
    let fact = fact.map(|fact| rules.vocabulary.fact(fact));
    let answer = fact.map(|fact| Line::new(format!("The answer is {}", answer_words(fact))));
    let called = fact.filter(|fact| !fact.said.ends_with(&format!("\"{}\"", fact.ask)));
    let called = called.map(|fact| Line::new(format!("Sentences call it {}", fact.phrase())));
    let how = fact.filter(|fact| !fact.how.is_empty());
    let how = how.map(|fact| Line::new(format!("How it is found: {}", sentence(&fact.how))));
    let matter = fact.and_then(|fact| fact.matter);
    let matter = matter.map(|matter| Line::new(format!("It belongs to: {}", matter.said())));
    let lines = answer.into_iter().chain(called).chain(how).chain(matter);
    let lines = lines.chain(rests_on(&question.cited, rules)).collect();
    entry(&question.id, &question.ask, lines)
}

/// `yes or no`, `a length of at least 0 m, or none`.
fn answer_words(fact: &Fact) -> String {
    let what = match &fact.answer {
        Answer::YesNo => "yes or no".to_owned(),
        Answer::Word { words, open } => {
            let mut words = words.clone();
            words.extend(open.then(|| "another word".to_owned()));
            listed(&words, "or")
        }
        Answer::Amount {
            dimension,
            least,
            most,
        } => {
            let shown = |amount: &i128| show_exactly(*amount, Unit::usual(*dimension));
            let least = least
                .as_ref()
                .map(|it| format!("no less than {}", shown(it)));
            let most = most
                .as_ref()
                .map(|it| format!("no more than {}", shown(it)));
            let ends: Vec<String> = least.into_iter().chain(most).collect();
            let ends = match ends.is_empty() {
                true => String::new(),
                false => format!(" of {}", listed(&ends, "and")),
            };
            format!("{}{ends}", dimension.words())
        }
    };
    let varies = if fact.varies {
        "; it may change along the thing"
    } else {
        ""
    };
    let none = if fact.none { ", or none" } else { "" };
    format!("{what}{none}{varies}")
}

/// Kinds, outlines and facts that the program does not know by itself.
pub(super) fn kinds(rules: &RuleSet) -> Vec<Said> {
    let (all, ours) = (&rules.vocabulary, Vocabulary::standard());
    let kinds = all.kinds();
    let own = kinds.filter_map(|(id, kind)| kind_said((id, kind), all, &ours));
    own.collect()
}

/// A kind of a file's own, or one of the program's with what the file adds to it.
fn kind_said((id, kind): (KindId, &Kind), all: &Vocabulary, ours: &Vocabulary) -> Option<Said> {
    let known = ours.kind_named(&kind.name);
    if known.is_some() && kind.role == Some(crate::vocabulary::Role::Answers) {
        return None;
    }
    let count = known.map(|known| ours.kind(known));
    let outlines = kind
        .outlines
        .iter()
        .skip(count.map_or(0, |it| it.outlines.len()));
    let outlines = outlines.map(|one| outline_line(all.outline(*one)));
    let facts = kind.facts.iter().skip(count.map_or(0, |it| it.facts.len()));
    let facts = facts.map(|one| fact_line(all.fact(*one)));
    let number = known.is_none().then(|| Line::new(number_words(kind)));
    let lines: Vec<Line> = number.into_iter().chain(outlines).chain(facts).collect();
    let noun = kind_noun(id, all);
    (!lines.is_empty()).then(|| entry(&kind.name, &capitalised(noun), lines))
}

fn number_words(kind: &Kind) -> String {
    let number = match kind.number {
        Number::One => "there is just one",
        Number::AtMostOne => "there is one or none",
        Number::Many => "there may be any number",
    };
    let matter = kind
        .matter
        .map(|matter| format!("; it belongs to: {}", matter.said()));
    let ask = sentence(&kind.ask);
    let end = if ask.ends_with('?') { "" } else { "." };
    let number = capitalised(number);
    format!("{ask}{end} {number}{}", matter.unwrap_or_default())
}

fn outline_line(outline: &Outline) -> Line {
    let shape = match outline.shape {
        Shape::Point => "a place",
        Shape::Line => "a line",
        Shape::Area => "an area",
    };
    let none = if outline.none { ", or none" } else { "" };
    Line::new(format!(
        "It has {} (`{}`): {shape}{none}",
        outline.said, outline.name
    ))
}

fn fact_line(fact: &Fact) -> Line {
    let how = match fact.how.is_empty() {
        true => String::new(),
        false => format!(". {}", sentence(&fact.how)),
    };
    Line::new(format!(
        "{} ({}, `{}`): {}{how}",
        fact.ask,
        fact.phrase(),
        fact.name,
        answer_words(fact)
    ))
}

/// The sources, each with what it is worth.
pub(super) fn sources(rules: &RuleSet) -> Vec<Said> {
    rules.sources.iter().map(source_said).collect()
}

fn source_said(source: &Source) -> Said {
    let day = |day: i128| show_exactly(day, Unit::DATE);
    let meaning = GRADES.iter().find(|(word, _)| *word == source.grade.word());
    let lines = [
        meaning.map(|(_, meaning)| sentence(meaning).to_owned()),
        source.at.as_ref().map(|at| format!("Address: {at}")),
        source.read.map(|read| format!("Read on {}", day(read))),
        source
            .again
            .map(|again| format!("To be read again after {}", day(again))),
        source
            .note
            .as_ref()
            .map(|note| format!("Note: {}", sentence(note))),
    ];
    let lines = lines.into_iter().flatten().map(Line::new).collect();
    entry(&source.id, sentence(&source.title), lines)
}
