//! What is missing, as questions that a person can answer.

use std::collections::{BTreeMap, BTreeSet};

use super::context::ReportContext;
use super::inexact::FactOf;
use super::model::{MissingReport, Question};
use super::readings::About;
use crate::check::{self, Finding, Missing, Outcome};
use crate::plan::ThingIndex;
use crate::ruleset::Rule;
use crate::text::capitalised;
use crate::vocabulary::{FactId, KindId, Number, OutlineId};

impl ReportContext<'_> {
    pub(super) fn all_missing(&self, missing: &[Missing]) -> Vec<MissingReport> {
        missing.iter().map(|one| self.missing(*one)).collect()
    }

    /// Everything still needed to decide a part: first what nobody stated, then what is stated too roughly.
    pub(super) fn all_missing_of(&self, about: About<'_>) -> Vec<MissingReport> {
        let inexact = self.inexact(about);
        let inexact = inexact.into_iter().map(|one| self.missing_exactness(one));
        let missing = self.all_missing(&about.part.missing);
        missing.into_iter().chain(inexact).collect()
    }

    /// The same for all parts of a rule, each once.
    pub(super) fn all_missing_under(&self, rule: &Rule, finding: &Finding) -> Vec<MissingReport> {
        let inexact = self.inexact_under(rule, finding).into_iter();
        let inexact = inexact.map(|one| self.missing_exactness(one));
        let missing = self.all_missing(&finding.missing);
        missing.into_iter().chain(inexact).collect()
    }

    fn inexact_under(&self, rule: &Rule, finding: &Finding) -> BTreeSet<FactOf> {
        if Outcome::decided(finding.truth).is_some() {
            return BTreeSet::new();
        }
        let parts = finding.parts.iter();
        let of_parts = parts.flat_map(|part| self.inexact(About { rule, part }));
        of_parts.collect()
    }

    pub(super) fn missing(&self, missing: Missing) -> MissingReport {
        match missing {
            Missing::Fact(thing, fact) => self.missing_fact(thing, fact),
            Missing::FactOfUnseen(kind, fact) => self.missing_fact_of_unseen(kind, fact),
            Missing::Outline(thing, outline) => self.missing_outline(thing, outline),
            Missing::Inventory(kind) => self.missing_inventory(kind),
            Missing::Accuracy(thing) => self.missing_accuracy(thing),
            Missing::Whole(thing, kind) => self.missing_whole(thing, kind),
            Missing::Document(document, thing) => self.missing_document(document, thing),
        }
    }

    fn missing_fact(&self, thing: ThingIndex, fact: FactId) -> MissingReport {
        let vocabulary = &self.rules.vocabulary;
        let known = vocabulary.fact(fact);
        let many = vocabulary.kind(known.kind).number == Number::Many;
        let lead = if many {
            format!("{}: ", capitalised(&self.thing_words(thing)))
        } else {
            String::new()
        };
        MissingReport {
            kind: "fact".to_owned(),
            name: vocabulary.fact_path(fact),
            subject: self.id_of(thing),
            question: format!("{lead}{}", lowered_after(&lead, &known.ask)),
            how: said(&known.how),
        }
    }

    fn missing_fact_of_unseen(&self, kind: KindId, fact: FactId) -> MissingReport {
        let vocabulary = &self.rules.vocabulary;
        let known = vocabulary.fact(fact);
        let lead = format!("If there is {}: ", vocabulary.kind(kind).said);
        let (question, how) = match self.of_no_pool(kind) {
            Some(thing) => (
                format!("Which pool is {} for?", self.thing_words(thing)),
                Some("Write the id of that pool as its `part-of`.".to_owned()),
            ),
            None => (
                format!("{lead}{}", lowered_after(&lead, &known.ask)),
                said(&known.how),
            ),
        };
        MissingReport {
            kind: "fact".to_owned(),
            name: vocabulary.fact_path(fact),
            subject: None,
            question,
            how,
        }
    }

    /// A thing, of a kind of which each pool has one, that may be any pool's.
    fn of_no_pool(&self, kind: KindId) -> Option<ThingIndex> {
        let one_each = self.rules.vocabulary.kind(kind).number != Number::Many;
        let mut things = self.plan.things.iter();
        things
            .position(|thing| thing.kind == kind && thing.part_of.is_none())
            .filter(|_| one_each && self.several_pools())
    }

    fn missing_whole(&self, thing: ThingIndex, kind: KindId) -> MissingReport {
        let part = self.thing(thing).map(|thing| self.kind_name(thing.kind));
        let (part, whole) = (part.unwrap_or_default(), self.noun(kind));
        MissingReport {
            kind: "fact".to_owned(),
            name: format!("{part}.part-of"),
            subject: self.id_of(thing),
            question: format!("Which {whole} is {} part of?", self.thing_words(thing)),
            how: Some(format!("Write the id of that {whole} as its `part-of`.")),
        }
    }

    fn missing_outline(&self, thing: ThingIndex, outline: OutlineId) -> MissingReport {
        let known = self.rules.vocabulary.outline(outline);
        let several = known.its && known.said.ends_with('s');
        let are = if several { "are" } else { "is" };
        let known_thing = self.thing(thing);
        let in_part = known_thing.is_some_and(|thing| thing.outlines.contains_key(&outline));
        let how = match in_part {
            true => "Only part of it is on the plan: measure and draw the rest, too.",
            false => "Measure it, and draw it on the plan.",
        };
        MissingReport {
            kind: "outline".to_owned(),
            name: self.rules.vocabulary.outline_path(outline),
            subject: self.id_of(thing),
            question: format!("Where {are} {}?", self.outline_words(thing, outline)),
            how: Some(how.to_owned()),
        }
    }

    fn missing_inventory(&self, kind: KindId) -> MissingReport {
        let known = self.rules.vocabulary.kind(kind);
        MissingReport {
            kind: "inventory".to_owned(),
            name: known.name.clone(),
            subject: None,
            question: known.ask.clone(),
            how: Some(format!(
                "Look for {}, draw what there is, and state in the plan's inventory how far you looked, or that there \
                 are none.",
                self.nouns(kind)
            )),
        }
    }

    fn missing_accuracy(&self, thing: ThingIndex) -> MissingReport {
        let (question, how) = self.ask_for_accuracy(thing);
        MissingReport {
            kind: "accuracy".to_owned(),
            name: "accuracy".to_owned(),
            subject: self.id_of(thing),
            question,
            how: Some(how.to_owned()),
        }
    }

    /// What is not known of a thing's place: how far off it is, or how far all may be shifted that comes with it.
    fn ask_for_accuracy(&self, thing: ThingIndex) -> (String, &'static str) {
        let own = self.plan.things.get(thing);
        let accurate = own.is_some_and(|own| {
            let mut figures = own.outlines.values();
            !own.outlines.is_empty() && figures.all(|figure| figure.accuracy.is_some())
        });
        let source = own.and_then(|own| self.plan.sources.get(own.source?));
        match source {
            Some(source) if accurate && source.shift.is_none() => (
                format!(
                    "How far may all that comes from the source `{}` be shifted?",
                    source.id
                ),
                "Ask whoever drew or surveyed it, and write it as the `shift` of that source.",
            ),
            None if accurate => (
                format!(
                    "Where does the position of {} come from?",
                    self.thing_words(thing)
                ),
                "Name one of the plan's sources: it says how far all that comes from there may be shifted.",
            ),
            _ => (
                format!(
                    "How far off may the position of {} be?",
                    self.thing_words(thing)
                ),
                "Ask whoever drew or surveyed it; where nobody can say, have it surveyed.",
            ),
        }
    }

    fn missing_document(&self, index: usize, thing: Option<ThingIndex>) -> MissingReport {
        let document = self.rules.documents.get(index);
        let title = document.map_or("the document", |document| document.title.as_str());
        let from = document.and_then(|document| document.from.as_ref());
        let from = from.map(|from| format!(" from {from}")).unwrap_or_default();
        let whose = thing.map(|thing| format!(" for {}", self.thing_words(thing)));
        let whose = whose.unwrap_or_default();
        MissingReport {
            kind: "document".to_owned(),
            name: document.map_or_else(String::new, |document| document.id.clone()),
            subject: thing.and_then(|thing| self.id_of(thing)),
            question: format!("Can you get this document{from}{whose}: {title}?"),
            how: None,
        }
    }

    pub(super) fn id_of(&self, thing: ThingIndex) -> Option<String> {
        self.thing(thing).map(|thing| thing.id.clone())
    }

    /// All that is missing, each once, with the rules that are open for want of it; what helps most first.
    pub(super) fn questions(&self) -> Vec<Question> {
        let found = check::questions(self.rules, &self.findings.rules);
        let mut questions: Vec<Question> = found
            .into_iter()
            .map(|(missing, rules)| Question {
                missing: self.missing(missing),
                rules: self.rule_ids(&rules),
                rule_sets: Vec::new(),
            })
            .collect();
        // The sort is stable: among equals, the order of the plan stays.
        questions.extend(self.questions_of_exactness());
        questions.sort_by_key(|question| std::cmp::Reverse(question.rules.len()));
        questions
    }

    fn questions_of_exactness(&self) -> Vec<Question> {
        let mut all: BTreeMap<FactOf, Vec<usize>> = BTreeMap::new();
        for finding in &self.findings.rules {
            let rule = self.rules.rule(finding.rule);
            let inexact = rule.map(|rule| self.inexact_under(rule, finding));
            for one in inexact.into_iter().flatten() {
                all.entry(one).or_default().push(finding.rule);
            }
        }
        let questions = all.into_iter().map(|(one, rules)| Question {
            missing: self.missing_exactness(one),
            rules: self.rule_ids(&rules),
            rule_sets: Vec::new(),
        });
        questions.collect()
    }

    /// The ids of these rules.
    pub(super) fn rule_ids(&self, rules: &[usize]) -> Vec<String> {
        let rules = rules.iter().filter_map(|rule| self.rules.rule(*rule));
        rules.map(|rule| rule.id.clone()).collect()
    }
}

/// The text, unless there is none.
pub(super) fn said(text: &str) -> Option<String> {
    (!text.is_empty()).then(|| text.to_owned())
}

/// A question keeps its capital at the beginning, and loses it behind a lead.
pub(super) fn lowered_after(lead: &str, question: &str) -> String {
    let mut rest = question.chars();
    match rest.next() {
        Some(first) if !lead.is_empty() => format!("{}{}", first.to_lowercase(), rest.as_str()),
        _ => question.to_owned(),
    }
}
