//! Words of a list that no rule mentions: a lot line along an alley where only front, side and rear lines have rules,
//! or a sliding door where the rules say `door`.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::{either, own};
use crate::ruleset::visit::{Visit, within};
use crate::ruleset::{
    Bound, Choice, Distance, Once, Part, Requirement, RowTest, Rule, RuleSet, Selection, Table,
    Test, Value,
};
use crate::vocabulary::{Answer, FactId, KindId, Matter, Vocabulary};

type Words = BTreeSet<String>;
type Kinds = BTreeSet<KindId>;

/// How a word starts that means the opposite of the rest of it: a neighbour's lot is not the lot.
const CONTRARY: [&str; 2] = ["not", "neighbour"];

/// Questions about words left out: first words of lists that several rules work through, then words like one that a
/// rule names.
pub(super) fn left_out(rules: &RuleSet) -> Vec<String> {
    let named = NamedWords::anywhere(rules);
    let mut told = BTreeSet::new();
    let mut questions = Vec::new();
    for fact in named.facts() {
        let rest = uncovered(rules, fact, &named);
        if !rest.is_empty() {
            told.insert(fact);
            questions.push(say_uncovered(rules, fact, &rest));
        }
    }
    let own = NamedWords::in_own(rules);
    for fact in own.facts().filter(|fact| !told.contains(fact)) {
        questions.extend(like_one(rules, fact, &own, &named));
    }
    questions
}

/// The words of the list that rules set distances for, by the kinds at both ends of the distance.
fn lists_of(
    rules: &RuleSet,
    fact: FactId,
    words: &[String],
) -> BTreeMap<Kinds, BTreeSet<Option<Words>>> {
    let mut lists: BTreeMap<Kinds, BTreeSet<Option<Words>>> = BTreeMap::new();
    for rule in own(rules) {
        let mut distances = Distances::of(fact, words, &rules.vocabulary);
        distances.rule(rule);
        for (kinds, chosen) in distances.found {
            lists.entry(kinds).or_default().insert(chosen);
        }
    }
    lists
}

/// The words of a closed list that no rule mentions, if several rules set distances for different words of it.
fn uncovered(rules: &RuleSet, fact: FactId, named: &NamedWords) -> Words {
    let entry = rules.vocabulary.fact(fact);
    let Answer::Word { words, open: false } = &entry.answer else {
        return Words::new();
    };
    let lists = lists_of(rules, fact, words);
    let shared = |lists: &BTreeSet<Option<Words>>| lists.len() > 1 && !lists.contains(&None);
    if !lists.values().any(shared) {
        return Words::new();
    }
    let covered: Words = lists.into_values().flatten().flatten().flatten().collect();
    let rest = words.iter().filter(|word| !covered.contains(*word));
    rest.filter(|word| !named.has(fact, word) && !is_said(word, rules))
        .cloned()
        .collect()
}

fn say_uncovered(rules: &RuleSet, fact: FactId, rest: &Words) -> String {
    let vocabulary = &rules.vocabulary;
    let kind = vocabulary.kind(vocabulary.fact(fact).kind);
    format!(
        "No rule mentions {} that is {} (`{}`): is it exempt from the rules on the others? If not, add the word to one of them; if so, name it under `on-top`.",
        kind.said,
        either(rest),
        vocabulary.fact_path(fact)
    )
}

/// Words of a fact that contain one that a rule names: a sliding door is a door.
fn like_one(rules: &RuleSet, fact: FactId, own: &NamedWords, named: &NamedWords) -> Option<String> {
    let Answer::Word { words, .. } = &rules.vocabulary.fact(fact).answer else {
        return None;
    };
    let asked = own.words.get(&fact)?;
    let has_one = |word: &str| {
        let parts: Vec<&str> = word.split('-').collect();
        let contrary = parts.first().is_some_and(|first| CONTRARY.contains(first));
        let mut asked = asked.iter().filter(|_| !contrary);
        asked.find(|one| parts.contains(&one.as_str()))
    };
    let like = words
        .iter()
        .filter(|word| !named.has(fact, word) && !is_said(word, rules));
    let like: BTreeMap<&String, Words> = like.fold(BTreeMap::new(), |mut like, word| {
        if let Some(one) = has_one(word) {
            like.entry(one)
                .or_insert_with(Words::new)
                .insert(word.clone());
        }
        like
    });
    (!like.is_empty()).then(|| {
        let pairs = like
            .iter()
            .map(|(one, others)| format!("`{one}` but not {}", either(others)));
        format!(
            "For `{}`, the rules name {}: is that intended?",
            rules.vocabulary.fact_path(fact),
            pairs.collect::<Vec<_>>().join(", ")
        )
    })
}

/// Whether the file's scope covers the word, so that the report mentions it: `on-top` names it, or it is a matter left
/// to others.
fn is_said(word: &str, rules: &RuleSet) -> bool {
    let reach = &rules.reach;
    let matter = Matter::named(word).and_then(|matter| reach.left_out(matter));
    let of_letters =
        |text: &str| format!(" {} ", text.replace(|c: char| !c.is_alphanumeric(), " "));
    let mut texts = reach.on_top.iter();
    matter.is_some() || texts.any(|text| of_letters(text).contains(&of_letters(word)))
}

/// Collects the distances from or to the things that have a fact.
struct Distances<'r> {
    vocabulary: &'r Vocabulary,
    fact: FactId,
    kind: KindId,
    list: &'r [String],
    /// What `each` stands for here, innermost last.
    bound: Vec<&'r Selection>,
    terms: Once,
    /// The kinds at both ends of each distance, and the words it is limited to; `None` if it takes all of them.
    found: Vec<(Kinds, Option<Words>)>,
}

impl<'r> Distances<'r> {
    fn of(fact: FactId, list: &'r [String], vocabulary: &'r Vocabulary) -> Self {
        Self {
            vocabulary,
            fact,
            kind: vocabulary.fact(fact).kind,
            list,
            bound: Vec::new(),
            terms: Once::default(),
            found: Vec::new(),
        }
    }

    fn rule(&mut self, rule: &'r Rule) {
        self.bound.extend(&rule.each);
        self.requirement(&rule.require);
    }

    fn distance(&mut self, distance: &'r Distance) {
        let kind_of = |part: &Part| self.vocabulary.outline(part.outline).kind;
        let ends = [&distance.from, &distance.to].into_iter();
        let parts: Vec<&Part> = ends.flat_map(|end| end.parts.iter()).collect();
        let kinds: Kinds = parts.iter().map(|part| kind_of(part)).collect();
        let own: Vec<_> = parts
            .into_iter()
            .filter(|part| kind_of(part) == self.kind)
            .collect();
        for part in own {
            self.note(kinds.clone(), part.which.selection());
        }
    }

    fn note(&mut self, kinds: Kinds, selection: Option<&Selection>) {
        let bound = self.bound.iter().rev();
        let bound = bound.copied().find(|bound| bound.kind == self.kind);
        let filter = selection.or(bound).and_then(|it| it.filter.as_deref());
        let words = filter.and_then(|filter| chosen(filter, self.fact, self.list));
        self.found.push((kinds, words));
    }
}

impl<'r> Visit<'r> for Distances<'r> {
    fn term<T>(&mut self, said: &'r Arc<T>, go: fn(&mut Self, &'r T)) {
        if self.terms.is_first(said) {
            go(self, said);
        }
    }

    fn value(&mut self, value: &'r Value) {
        match value {
            Value::Distance(distance) => self.distance(distance),
            other => within::value(self, other),
        }
    }

    fn of_each(&mut self, selection: &'r Selection, go: impl FnOnce(&mut Self)) {
        self.bound.push(selection);
        go(self);
        self.bound.pop();
    }

    fn filter(&mut self, _filter: &'r Requirement) {}
}

/// The words of the list that a condition accepts; `None` if it does not mention the fact.
fn chosen(condition: &Requirement, fact: FactId, list: &[String]) -> Option<Words> {
    let each = |members: &[Requirement]| -> Vec<Option<Words>> {
        members.iter().map(|one| chosen(one, fact, list)).collect()
    };
    match condition {
        Requirement::Test(test) if test.value == Value::Fact(fact) => {
            Some(words_of(&test.bounds).map(str::to_owned).collect())
        }
        Requirement::All(members) => {
            let said = each(members).into_iter().flatten();
            said.reduce(|one, other| &one & &other)
        }
        Requirement::Any(members) => {
            let said: Option<Vec<Words>> = each(members).into_iter().collect();
            Some(said?.into_iter().flatten().collect())
        }
        Requirement::Not(inner) => {
            let not = only_of(inner, fact).then(|| chosen(inner, fact, list))??;
            Some(
                list.iter()
                    .filter(|word| !not.contains(*word))
                    .cloned()
                    .collect(),
            )
        }
        Requirement::Meets { requirement, .. } => chosen(requirement, fact, list),
        _ => None,
    }
}

/// Whether a condition tests that fact and nothing else.
fn only_of(condition: &Requirement, fact: FactId) -> bool {
    match condition {
        Requirement::Test(test) => test.value == Value::Fact(fact),
        Requirement::Any(members) => members.iter().all(|one| only_of(one, fact)),
        Requirement::Meets { requirement, .. } => only_of(requirement, fact),
        _ => false,
    }
}

fn words_of(bounds: &[Bound]) -> impl Iterator<Item = &str> {
    let choices = bounds.iter().flat_map(|bound| match bound {
        Bound::Is(choices) => choices.as_slice(),
        _ => &[],
    });
    choices.filter_map(|choice| match choice {
        Choice::Word(word) => Some(word.as_str()),
        _ => None,
    })
}

/// The words that rules name, by fact.
#[derive(Default)]
struct NamedWords {
    words: BTreeMap<FactId, Words>,
    terms: Once,
}

impl NamedWords {
    /// Those in every rule of every file, advice included.
    fn anywhere(rules: &RuleSet) -> Self {
        let mut named = Self::default();
        rules.rules.iter().for_each(|rule| named.rule(rule));
        named
    }

    fn in_own(rules: &RuleSet) -> Self {
        let mut named = Self::default();
        own(rules).for_each(|rule| named.rule(rule));
        named
    }

    fn rule(&mut self, rule: &Rule) {
        let reliefs = rule.reliefs.iter();
        let reliefs = reliefs.flat_map(|relief| relief.when.iter().chain([&relief.require]));
        let conditions = rule.when.iter().chain(&rule.unless);
        rule.each.iter().for_each(|each| self.selection(each));
        let all = conditions.chain([&rule.require]).chain(reliefs);
        all.for_each(|one| self.requirement(one));
    }

    fn facts(&self) -> impl Iterator<Item = FactId> + '_ {
        self.words.keys().copied()
    }

    fn has(&self, fact: FactId, word: &str) -> bool {
        self.words
            .get(&fact)
            .is_some_and(|words| words.contains(word))
    }

    fn note(&mut self, value: &Value, bounds: &[Bound]) {
        if let Value::Fact(fact) = value {
            let words = words_of(bounds).filter(|word| !["yes", "no"].contains(word));
            let words: Words = words.map(str::to_owned).collect();
            if !words.is_empty() {
                self.words.entry(*fact).or_default().extend(words);
            }
        }
    }

    fn rows<T>(&mut self, table: &Table<T>) {
        for row in &table.rows {
            if let (Some(by), RowTest::Bounds(bounds)) = (&table.by, &row.test) {
                self.note(by, bounds);
            }
        }
    }
}

impl<'r> Visit<'r> for NamedWords {
    fn term<T>(&mut self, said: &'r Arc<T>, go: fn(&mut Self, &'r T)) {
        if self.terms.is_first(said) {
            go(self, said);
        }
    }

    fn requirement(&mut self, requirement: &'r Requirement) {
        if let Requirement::Table(table) = requirement {
            self.rows(table);
        }
        within::requirement(self, requirement);
    }

    fn value(&mut self, value: &'r Value) {
        if let Value::Table(table) = value {
            self.rows(table);
        }
        within::value(self, value);
    }

    fn test(&mut self, test: &'r Test) {
        self.note(&test.value, &test.bounds);
        within::test(self, test);
    }
}
