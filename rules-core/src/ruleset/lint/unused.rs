//! Where things that a term names were probably forgotten, as nothing uses the term.

use std::sync::Arc;

use crate::ruleset::visit::{Visit, within};
use crate::ruleset::{Enclosure, Once, Part, Rule, RuleSet, Value};
use crate::vocabulary::{KindId, Vocabulary};

/// What to do about a term for things of a kind that no rule uses, where a rule shows it.
pub(crate) fn forgotten(name: &str, kind: KindId, rules: &RuleSet) -> Option<String> {
    let own = || rules.rules.iter().filter(|rule| rule.layer == 0);
    let all = own().find(|rule| rule.each.is_none() && takes_all(rule, kind));
    let kind_name = &rules.vocabulary.kind(kind).name;
    if let Some(rule) = all {
        return Some(format!(
            "The rule `{}` takes all things of the kind `{kind_name}` together: is `each: {name}` missing there? If not, take the term out.",
            rule.id
        ));
    }
    let rule = own().find(|rule| has_openings_only(rule, &rules.vocabulary))?;
    (!rules.vocabulary.kind(kind).opens).then(|| {
        format!(
            "The barrier in the rule `{}` is made of openings such as gates alone: is `{name}` missing under `made-of`? If not, take the term out.",
            rule.id
        )
    })
}

fn takes_all(rule: &Rule, kind: KindId) -> bool {
    let mut seen = Seen::default();
    seen.requirement(&rule.require);
    let of_kind = |part: &&Part| {
        part.which
            .selection()
            .is_some_and(|it| it.kind == kind && it.is_all())
    };
    seen.parts.iter().any(of_kind)
}

fn has_openings_only(rule: &Rule, vocabulary: &Vocabulary) -> bool {
    let mut seen = Seen::default();
    seen.requirement(&rule.require);
    let opens = |part: &Part| vocabulary.kind(vocabulary.outline(part.outline).kind).opens;
    let mut barriers = seen.barriers.iter();
    barriers.any(|barrier| barrier.made_of.parts.iter().all(opens))
}

/// The outlines and the barriers of which a requirement speaks.
#[derive(Default)]
struct Seen<'r> {
    parts: Vec<&'r Part>,
    barriers: Vec<&'r Enclosure>,
    terms: Once,
}

impl<'r> Visit<'r> for Seen<'r> {
    fn term<T>(&mut self, said: &'r Arc<T>, go: fn(&mut Self, &'r T)) {
        if self.terms.is_first(said) {
            go(self, said);
        }
    }

    fn value(&mut self, value: &'r Value) {
        if let Value::Enclosure(barrier) = value {
            self.barriers.push(barrier);
        }
        within::value(self, value);
    }

    fn part(&mut self, part: &'r Part) {
        self.parts.push(part);
        within::part(self, part);
    }
}
