//! Rules for each of some things that count the parts of all of them: the doors of every building, where those of its own
//! may be meant.

use crate::faults::Code;
use crate::ruleset::read::Reader;
use crate::ruleset::visit::{Visit, within};
use crate::ruleset::{Bound, Choice, Once, Part, Requirement, Rule, Selection, Test, Value, Which};
use crate::text::Span;
use crate::vocabulary::{Answer, FactId, KindId, Vocabulary};

impl Reader<'_> {
    /// Asks whose parts are meant, where a rule for each building, say, counts the doors of all buildings.
    pub(crate) fn parts_of_all(&mut self, rule: &Rule) {
        let mut taken = Taken {
            vocabulary: &self.vocabulary,
            bound: Vec::new(),
            at: rule.span,
            found: Vec::new(),
            terms: Once::default(),
        };
        rule.each.iter().for_each(|each| taken.selection(each));
        taken.bound.extend(rule.each.iter().map(|each| each.kind));
        taken.requirement(&rule.require);
        let reliefs = rule.reliefs.iter();
        reliefs.for_each(|relief| taken.requirement(&relief.require));
        for (kind, whole, span) in taken.found {
            let [kind, whole] = [kind, whole].map(|it| self.vocabulary.kind(it).name.clone());
            let message = format!("This takes each `{kind}` of every `{whole}` on the plan.");
            self.warning(Code::PartsOfAll, span, message).help(format!(
                "For those of the `{whole}` that is judged, write `{{kind: {kind}, part-of: {whole}}}`."
            ));
        }
    }
}

/// What is counted, or taken one by one.
struct Taken<'v> {
    vocabulary: &'v Vocabulary,
    /// The kinds of which one thing is meant.
    bound: Vec<KindId>,
    /// Where what is gone through stands.
    at: Span,
    /// The parts, the whole of which one is meant, and where.
    found: Vec<(KindId, KindId, Span)>,
    terms: Once,
}

impl Taken<'_> {
    fn take(&mut self, selection: &Selection) {
        let whole = self.vocabulary.kind(selection.kind).part_of;
        let whole = whole.and_then(|name| self.vocabulary.kind_named(name));
        let whole = whole.filter(|whole| self.bound.contains(whole));
        let is_bare = selection.part_of.is_none() && selection.zone.is_none();
        let Some(whole) = whole.filter(|_| is_bare) else {
            return;
        };
        let mut said = Said {
            vocabulary: self.vocabulary,
            of: whole,
            whose: false,
            terms: Once::default(),
        };
        said.selection(selection);
        if !said.whose {
            self.found.push((selection.kind, whole, self.at));
        }
    }
}

impl<'r> Visit<'r> for Taken<'_> {
    fn term<T>(&mut self, said: &'r std::sync::Arc<T>, go: fn(&mut Self, &'r T)) {
        if self.terms.is_first(said) {
            go(self, said);
        }
    }

    fn test(&mut self, test: &'r Test) {
        let before = std::mem::replace(&mut self.at, test.span);
        within::test(self, test);
        self.at = before;
    }

    fn requirement(&mut self, requirement: &'r Requirement) {
        let before = self.at;
        if let Requirement::Each(each) = requirement {
            self.at = each.span;
            self.take(&each.selection);
        }
        within::requirement(self, requirement);
        self.at = before;
    }

    fn value(&mut self, value: &'r Value) {
        if let Value::Count(of) | Value::Over { of, .. } = value {
            self.take(of);
        }
        within::value(self, value);
    }

    fn of_each(&mut self, selection: &'r Selection, go: impl FnOnce(&mut Self)) {
        self.bound.push(selection.kind);
        go(self);
        self.bound.pop();
    }
}

/// Whether a condition says whose the things are: it speaks of the whole that is judged, or says that they are part of
/// something else.
struct Said<'v> {
    vocabulary: &'v Vocabulary,
    of: KindId,
    whose: bool,
    terms: Once,
}

impl Said<'_> {
    /// Whether a fact that may name the whole is to be something else: a window `in: neighbour-building`.
    fn is_of_another(&self, test: &Test) -> bool {
        let name = self.vocabulary.kind(self.of).name.as_str();
        let Value::Fact(fact) = test.value else {
            return false;
        };
        let named = match &self.vocabulary.fact(fact).answer {
            Answer::Word { words, .. } => words.iter().any(|word| word == name),
            _ => false,
        };
        let other = |choice: &Choice| !matches!(choice, Choice::Word(word) if word == name);
        let others =
            |bound: &Bound| matches!(bound, Bound::Is(choices) if choices.iter().all(other));
        named && test.bounds.iter().any(others)
    }
}

impl<'r> Visit<'r> for Said<'_> {
    fn term<T>(&mut self, said: &'r std::sync::Arc<T>, go: fn(&mut Self, &'r T)) {
        if self.terms.is_first(said) {
            go(self, said);
        }
    }

    fn test(&mut self, test: &'r Test) {
        self.whose |= self.is_of_another(test);
        within::test(self, test);
    }

    fn fact(&mut self, fact: FactId) {
        self.whose |= self.vocabulary.fact(fact).kind == self.of;
    }

    fn part(&mut self, part: &'r Part) {
        self.whose |= matches!(part.which, Which::Bound(kind) if kind == self.of);
        within::part(self, part);
    }
}
