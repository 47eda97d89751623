//! What the rules of a set depend on: the amounts they state and the facts they read.

use std::collections::BTreeSet;

use rules_core::ruleset::{Bound, Choice, Requirement, RuleSet, Selection, Value, Which};
use rules_core::vocabulary::{FactId, KindId};

use super::walk::{self, Visitor};

/// Every amount that a rule set states, sorted and without repeats.
pub fn amounts(rules: &RuleSet) -> Vec<i128> {
    let mut cuts = Cuts::default();
    walk::rule_set(rules, &mut cuts);
    let force = rules.rules.iter().filter_map(|rule| rule.in_force.as_ref());
    for force in force {
        cuts.0.extend(force.from.iter().chain(&force.to));
    }
    cuts.0.into_iter().collect()
}

#[derive(Default)]
struct Cuts(BTreeSet<i128>);

impl Visitor for Cuts {
    fn value(&mut self, value: &Value) {
        if let Value::Stated(stated) = value {
            self.0.insert(stated.range.low);
        }
    }

    fn bound(&mut self, bound: &Bound) {
        if let Bound::Is(choices) = bound {
            self.0
                .extend(choices.iter().filter_map(|choice| match choice {
                    Choice::Amount(amount, _) => Some(*amount),
                    _ => None,
                }));
        }
    }
}

/// The facts that something reads.
#[derive(Debug, Default)]
pub struct Reads(pub BTreeSet<FactId>);

impl Visitor for Reads {
    fn value(&mut self, value: &Value) {
        if let Value::Fact(fact) = value {
            self.0.insert(*fact);
        }
    }
}

/// Whether something refers to the thing that a kind's name stands for.
pub struct Speaks<'a> {
    rules: &'a RuleSet,
    kind: KindId,
    /// The kinds whose names stand for things selected inside it.
    own: Vec<KindId>,
    /// Whether anything seen so far refers to it.
    pub found: bool,
}

impl<'a> Speaks<'a> {
    /// Nothing seen so far.
    pub fn of(rules: &'a RuleSet, kind: KindId) -> Self {
        Self {
            rules,
            kind,
            own: Vec::new(),
            found: false,
        }
    }

    fn met(&mut self, kind: Option<KindId>) {
        self.found |= kind == Some(self.kind) && !self.own.contains(&self.kind);
    }
}

impl Visitor for Speaks<'_> {
    fn value(&mut self, value: &Value) {
        if let Value::Fact(fact) = value {
            self.met(Some(self.rules.vocabulary.fact(*fact).kind));
        }
    }

    fn requirement(&mut self, requirement: &Requirement) {
        if let Requirement::Have(paper) = requirement {
            let each = &self.rules.documents[*paper].each;
            self.met(each.as_ref().map(|each| each.kind));
        }
    }

    fn whole(&mut self, kind: KindId) {
        self.met(Some(kind));
    }

    fn enter(&mut self, selection: &Selection) {
        self.own.push(selection.kind);
    }

    fn leave(&mut self) {
        self.own.pop();
    }

    fn which(&mut self, which: &Which) {
        match which {
            Which::Bound(kind) => self.met(Some(*kind)),
            Which::Meant(selection) => self.met(Some(selection.kind)),
            Which::All(_) => {}
        }
    }
}
