//! Which terms a rule names.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::visit::{Visit, within};
use super::{Once, Operand, Requirement, Rule, Selection, Value, Zone};

/// The names of the terms on which a rule rests, and of those that they name in turn.
pub(super) fn terms_named(rule: &Rule) -> BTreeSet<&str> {
    let mut terms = Terms::default();
    let conditions = rule.when.iter().chain(&rule.unless);
    let reliefs = rule.reliefs.iter();
    let reliefs = reliefs.flat_map(|relief| relief.when.iter().chain([&relief.require]));
    let requirements = conditions.chain([&rule.require]).chain(reliefs);
    requirements.for_each(|one| terms.requirement(one));
    rule.each.iter().for_each(|each| terms.selection(each));
    terms.named
}

#[derive(Default)]
struct Terms<'r> {
    named: BTreeSet<&'r str>,
    seen: Once,
}

impl<'r> Visit<'r> for Terms<'r> {
    fn term<T>(&mut self, said: &'r Arc<T>, go: fn(&mut Self, &'r T)) {
        if self.seen.is_first(said) {
            go(self, said);
        }
    }

    fn requirement(&mut self, requirement: &'r Requirement) {
        if let Requirement::Meets { term, .. } = requirement {
            self.named.insert(&term.name);
        }
        within::requirement(self, requirement);
    }

    fn value(&mut self, value: &'r Value) {
        if let Value::Named { term, .. } = value {
            self.named.insert(&term.name);
        }
        within::value(self, value);
    }

    fn operand(&mut self, operand: &'r Operand) {
        self.named.extend(operand.term.as_deref());
        operand.parts.iter().for_each(|part| self.part(part));
    }

    fn selection(&mut self, selection: &'r Selection) {
        self.named.extend(selection.term.as_deref());
        within::selection(self, selection);
    }

    fn zone(&mut self, zone: &'r Zone) {
        if let Zone::Named { term, .. } = zone {
            self.named.insert(&term.name);
        }
        within::zone(self, zone);
    }
}
