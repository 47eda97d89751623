//! One answer or one paper that exempts every pool on a plan, though it was given for one of them.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::{either, own};
use crate::ruleset::visit::Visit;
use crate::ruleset::{DocumentIndex, Once, Rule, RuleSet};
use crate::vocabulary::{FactId, Role};

/// Words by which a question asks about an older pool.
const BEFORE: [&str; 4] = ["lawfully", "built before", "was built", "already"];

/// The file's own rules that are judged for each pool separately.
fn of_pools(rules: &RuleSet) -> impl Iterator<Item = &Rule> {
    let pool = rules.vocabulary.with_role(Role::Pool);
    let each = move |rule: &Rule| rule.each.as_ref().map(|each| each.kind);
    own(rules).filter(move |rule| rule.about_pool || (pool.is_some() && each(rule) == pool))
}

/// Questions about an older pool whose answer lifts a rule that is judged for each pool.
pub(super) fn one_answer(rules: &RuleSet) -> Vec<String> {
    let vocabulary = &rules.vocabulary;
    let mut told = BTreeSet::new();
    let mut questions = Vec::new();
    for rule in of_pools(rules) {
        let mut read = FactsAndPapers::default();
        let reliefs = rule.reliefs.iter();
        let reliefs = reliefs.flat_map(|relief| relief.when.iter().chain([&relief.require]));
        let frees = rule.when.iter().chain(&rule.unless).chain(reliefs);
        frees.for_each(|one| read.requirement(one));
        for id in read.facts {
            let fact = vocabulary.fact(id);
            let answer = vocabulary.with_role(Role::Answers) == Some(fact.kind);
            let before = BEFORE.iter().any(|word| fact.ask.contains(word));
            let of_one = before && fact.ask.contains("the pool");
            if answer && of_one && told.insert(id) {
                questions.push(format!(
                    "One answer to `{0}` holds for every pool on the plan, also for a new one beside an old one: should each pool \
                     have its own? Then add `{0}` to the kind `pool`, and ask for `pool.{0}` in the rule `{1}`.",
                    fact.name, rule.id
                ));
            }
        }
    }
    questions
}

/// Papers for a rule that is judged for each pool, if nothing says whether each pool needs its own.
pub(super) fn one_paper(rules: &RuleSet) -> Option<String> {
    let papers: BTreeSet<DocumentIndex> = of_pools(rules).flat_map(papers_of).collect();
    let documents = papers.into_iter().filter_map(|it| rules.documents.get(it));
    let one = documents.filter(|it| it.each.is_none() && !it.one_for_all);
    let ids: Vec<&String> = one.map(|document| &document.id).collect();
    (!ids.is_empty()).then(|| {
        format!(
            "One {} is enough for every pool on the plan together: if each pool needs one of its own, add `each: pool` to \
             the document; if one is meant, add `one-for-all: yes`.",
            either(ids)
        )
    })
}

/// The papers that a rule's requirement and reliefs ask for.
fn papers_of(rule: &Rule) -> BTreeSet<DocumentIndex> {
    let mut read = FactsAndPapers::default();
    let reliefs = rule.reliefs.iter().map(|relief| &relief.require);
    let all = [&rule.require].into_iter().chain(reliefs);
    all.for_each(|one| read.requirement(one));
    read.papers
}

#[derive(Default)]
struct FactsAndPapers {
    facts: BTreeSet<FactId>,
    papers: BTreeSet<DocumentIndex>,
    terms: Once,
}

impl<'r> Visit<'r> for FactsAndPapers {
    fn term<T>(&mut self, said: &'r Arc<T>, go: fn(&mut Self, &'r T)) {
        if self.terms.is_first(said) {
            go(self, said);
        }
    }

    fn fact(&mut self, fact: FactId) {
        self.facts.insert(fact);
    }

    fn paper(&mut self, paper: DocumentIndex) {
        self.papers.insert(paper);
    }
}
