//! What a rule leaves unsaid: what holds where there is nothing of what it measures. A fence without a gap below fails "at
//! most 50 mm" as one with too wide a gap does, and a hydrant that nobody has passes "at most 100 m".

use std::collections::BTreeSet;

use crate::faults::Code;
use crate::quantity::Dimension;
use crate::ruleset::lint::allows_none;
use crate::ruleset::lint::slips::conditions;
use crate::ruleset::read::Reader;
use crate::ruleset::types::{Type, of_fact};
use crate::ruleset::{
    Bound, Distance, Each, Once, Part, Requirement, RowTest, Rule, Table, Test, Then, Value,
};
use crate::text::Span;
use crate::vocabulary::{FactId, KindId, Number, Vocabulary};
use crate::work;

/// What may be absent, and a limit on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Absent {
    /// A fact that can be `none`.
    Fact(FactId),
    /// A fact of a kind of which there may be none at all.
    FactOf(FactId, KindId),
    /// The distance to things of which there may be none.
    Distance(KindId),
}

/// What helps only where there is one of a kind.
#[derive(Debug, Clone, Copy)]
enum Help {
    /// What must hold for each of them.
    Each(KindId),
    /// A distance to them.
    Distance(KindId),
}

/// What surrounds a requirement.
#[derive(Clone, Default)]
struct Around {
    /// Facts of which something around says whether there is one.
    facts: BTreeSet<FactId>,
    /// Kinds of which something around says whether there is one.
    kinds: BTreeSet<KindId>,
    /// The terms that were gone through for that.
    terms: Once,
    /// It is one of several that may hold.
    choice: bool,
}

impl Reader<'_> {
    /// Looks for limits on what may be absent, where nothing says what that means.
    pub(crate) fn unsaid_absence(&mut self, rule: &Rule) {
        let mut around = Around::default();
        conditions(rule).for_each(|condition| around.note(condition));
        // What is said of a cover holds of no plan without one.
        let there = around.facts.iter();
        let there = there.filter_map(|fact| of_one_or_none(*fact, &self.vocabulary));
        around.kinds.extend(there.collect::<Vec<_>>());
        rule.unless.iter().for_each(|unless| around.note(unless));
        around
            .kinds
            .extend(rule.each.as_ref().map(|each| each.kind));
        let mut found = Vec::new();
        unsaid(&rule.require, &around, &self.vocabulary, &mut found);
        let mut helps = Vec::new();
        choices(&rule.require, None, &self.vocabulary, &mut helps);
        for relief in &rule.reliefs {
            choices(
                &relief.require,
                Some(Choice::Relief),
                &self.vocabulary,
                &mut helps,
            );
        }
        for (help, span) in helps {
            self.say_no_help(help, span);
        }
        let mut told = BTreeSet::new();
        for (what, span) in found {
            if told.insert(what) {
                self.say_absent(what, span);
            }
        }
    }

    /// What helps only where something is there.
    fn say_no_help(&mut self, help: Help, span: Span) {
        let (Help::Each(kind) | Help::Distance(kind)) = help;
        let kind = &self.vocabulary.kind(kind).name;
        let message =
            format!("Where there is no `{kind}`, this does not hold, so that it is of no help.");
        let how = match help {
            Help::Each(_) => format!(
                "If none is as good, add `if-none: passes` beside its `each: {kind}`; if it is no help, `if-none: fails`."
            ),
            Help::Distance(_) => format!(
                "If none is as good, write `{{kind: {kind}, outline: …, if-none: passes}}` for it in the distance; if it is no help, `if-none: fails`."
            ),
        };
        self.warning(Code::NoneUnsaid, span, message).help(how);
    }

    fn say_absent(&mut self, what: Absent, span: Span) {
        let (message, help) = match what {
            Absent::Fact(fact) => {
                let path = self.vocabulary.fact_path(fact);
                (
                    format!("`{path}` can be `none`, and then this fails."),
                    format!(
                        "If none is as good, write `any-of` with `{{fact: {path}, is: none}}` before it; if there must be one, write `{{not: {{fact: {path}, is: none}}}}` beside it."
                    ),
                )
            }
            Absent::FactOf(fact, kind) => {
                let path = self.vocabulary.fact_path(fact);
                let kind = &self.vocabulary.kind(kind);
                (
                    format!(
                        "`{path}` is asked of {}, and where there is none this fails.",
                        kind.said
                    ),
                    format!(
                        "If none is as good, put `each: {0}` before it; if there must be one, write `{{count: {0}, at-least: 1}}` beside it.",
                        kind.name
                    ),
                )
            }
            Absent::Distance(kind) => {
                let kind = &self.vocabulary.kind(kind);
                (
                    format!(
                        "Where there is no `{}`, no distance is too large: then this is left aside.",
                        kind.name
                    ),
                    format!(
                        "If there must be one, write `{{kind: {0}, if-none: fails}}`, with its outline; if none is as good, `if-none: passes`.",
                        kind.name
                    ),
                )
            }
        };
        self.warning(Code::NoneUnsaid, span, message).help(help);
    }
}

impl Around {
    /// Notes the facts and the kinds of which a condition says something.
    fn note(&mut self, condition: &Requirement) {
        work::step(1);
        match condition {
            Requirement::Test(test) => self.note_value(&test.value),
            Requirement::All(members)
            | Requirement::Any(members)
            | Requirement::Count { of: members, .. } => {
                members.iter().for_each(|member| self.note(member));
            }
            Requirement::Not(inner) => self.note(inner),
            Requirement::Meets { requirement, .. } => {
                if self.terms.is_first(requirement) {
                    self.note(requirement);
                }
            }
            Requirement::Each(each) => self.note(&each.require),
            Requirement::Table(_) | Requirement::Have(_) | Requirement::Refer => {}
        }
    }

    fn note_value(&mut self, value: &Value) {
        match value {
            Value::Fact(fact) => {
                self.facts.insert(*fact);
            }
            Value::Count(selection) => {
                self.kinds.insert(selection.kind);
                if let Some(filter) = &selection.filter {
                    self.note(filter);
                }
            }
            Value::Named { value, .. } => self.note_value(value),
            _ => {}
        }
    }

    fn knowing(&self, note: impl FnOnce(&mut Self)) -> Self {
        let mut inner = self.clone();
        note(&mut inner);
        inner
    }

    fn each(&self, each: &Each) -> Self {
        self.knowing(|around| {
            around.kinds.insert(each.selection.kind);
            if let Some(filter) = &each.selection.filter {
                around.note(filter);
            }
        })
    }

    /// What of its members says, beside the others, whether there is one.
    fn beside(&self, members: &[Requirement], vocabulary: &Vocabulary) -> Self {
        self.knowing(|around| {
            for member in members {
                match member {
                    Requirement::Not(inner) => around.note(inner),
                    Requirement::Test(test) if says_whether(test) => around.note_value(&test.value),
                    Requirement::Test(test) => around.kinds.extend(must_be_there(test, vocabulary)),
                    _ => {}
                }
            }
        })
    }
}

/// The kind of a fact, where there is one or none of it.
fn of_one_or_none(fact: FactId, vocabulary: &Vocabulary) -> Option<KindId> {
    let kind = vocabulary.fact(fact).kind;
    (vocabulary.kind(kind).number == Number::AtMostOne).then_some(kind)
}

/// The kind of which there must be one, as a fact of it must be a word.
fn must_be_there(test: &Test, vocabulary: &Vocabulary) -> Option<KindId> {
    let is = |bound: &Bound| matches!(bound, Bound::Is(_));
    match test.value {
        Value::Fact(fact) if test.bounds.iter().any(is) => of_one_or_none(fact, vocabulary),
        _ => None,
    }
}

/// Whether a test says that there is none, or how many there are.
fn says_whether(test: &Test) -> bool {
    allows_none(&test.bounds) || matches!(test.value, Value::Count(_))
}

fn unsaid(
    requirement: &Requirement,
    around: &Around,
    vocabulary: &Vocabulary,
    found: &mut Vec<(Absent, Span)>,
) {
    work::step_through(around.facts.len());
    let mut all = |members: &[Requirement], around: &Around| {
        for member in members {
            unsaid(member, around, vocabulary, found);
        }
    };
    match requirement {
        Requirement::Test(test) => {
            found.extend(in_test(test, around, vocabulary).map(|what| (what, test.span)))
        }
        Requirement::All(members) => all(members, &around.beside(members, vocabulary)),
        Requirement::Any(members) | Requirement::Count { of: members, .. } => {
            let mut around = around.beside(members, vocabulary);
            around.choice = true;
            all(members, &around);
        }
        Requirement::Each(each) => unsaid(&each.require, &around.each(each), vocabulary, found),
        Requirement::Table(table) => in_rows(table, around, vocabulary, found),
        // Of a `not` there is a check of its own; a term is looked through where it is used alone.
        Requirement::Not(_)
        | Requirement::Meets { .. }
        | Requirement::Have(_)
        | Requirement::Refer => {}
    }
}

/// Why something need not hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Choice {
    /// It is one of several that may hold.
    Member,
    /// It is a relief.
    Relief,
}

/// Looks for what is one of several that may hold, or a relief, and speaks of what may not be there without saying what
/// that means.
fn choices(
    requirement: &Requirement,
    choice: Option<Choice>,
    vocabulary: &Vocabulary,
    found: &mut Vec<(Help, Span)>,
) {
    let mut all = |members: &[Requirement], choice| {
        members
            .iter()
            .for_each(|member| choices(member, choice, vocabulary, found));
    };
    match requirement {
        Requirement::Test(test) if choice.is_some() => {
            let none = Around::default();
            let absent = match &test.value {
                Value::Distance(distance) => in_distance(distance, &none, vocabulary),
                _ => None,
            };
            if let Some(Absent::Distance(kind)) = absent {
                found.push((Help::Distance(kind), test.span));
            }
        }
        Requirement::All(members) => all(members, choice),
        Requirement::Any(members) => all(members, Some(Choice::Member)),
        Requirement::Each(each) => {
            let kind = each.selection.kind;
            // Among the members of an `any-of` it is a fault, which was said.
            let relief = choice == Some(Choice::Relief);
            if relief && each.selection.if_none.is_none() && may_be_absent(kind, vocabulary) {
                found.push((Help::Each(kind), each.span));
            }
            choices(&each.require, choice, vocabulary, found);
        }
        _ => {}
    }
}

fn in_rows(
    table: &Table<Requirement>,
    around: &Around,
    vocabulary: &Vocabulary,
    found: &mut Vec<(Absent, Span)>,
) {
    let mut around = around.clone();
    // Whoever writes a row for each answer has told the cases apart.
    around.choice |= matches!(table.by, Some(Value::Fact(_)));
    for row in &table.rows {
        if let RowTest::When(when) = &row.test {
            around.note(when);
        }
        if let Then::Give(inner) = &row.then {
            unsaid(inner, &around, vocabulary, found);
        }
    }
}

fn in_test(test: &Test, around: &Around, vocabulary: &Vocabulary) -> Option<Absent> {
    let at_most = |bound: &Bound| matches!(bound, Bound::AtMost(_) | Bound::LessThan(_));
    let compares = |bound: &Bound| !matches!(bound, Bound::Is(_));
    match &test.value {
        Value::Fact(fact) if test.bounds.iter().any(compares) => {
            let of_none = of_perhaps_none(*fact, around, vocabulary);
            in_fact(*fact, around, vocabulary).or(of_none)
        }
        Value::Distance(distance) if test.bounds.iter().any(at_most) => {
            in_distance(distance, around, vocabulary)
        }
        _ => None,
    }
}

/// A length, a load and the like that may be none. A day that has not come is no gap in a rule, and what is said of the
/// pool, which is what the plan is about, is hardly ever none.
fn in_fact(id: FactId, around: &Around, vocabulary: &Vocabulary) -> Option<Absent> {
    let fact = vocabulary.fact(id);
    let amount =
        matches!(of_fact(id, vocabulary), Type::Amount(dimension) if dimension != Dimension::Date);
    let of_pool = vocabulary.kind_named("pool") == Some(fact.kind);
    if !amount || of_pool || around.choice || around.facts.contains(&id) {
        return None;
    }
    (fact.none && around.kinds.contains(&fact.kind)).then_some(Absent::Fact(id))
}

/// A limit on a cover and the like, where there need not be one.
fn of_perhaps_none(id: FactId, around: &Around, vocabulary: &Vocabulary) -> Option<Absent> {
    let kind = of_one_or_none(id, vocabulary)?;
    (!around.choice && !around.kinds.contains(&kind)).then_some(Absent::FactOf(id, kind))
}

/// The distance to what may not be there; a line of the lot always is.
fn in_distance(distance: &Distance, around: &Around, vocabulary: &Vocabulary) -> Option<Absent> {
    let absent = |kind: KindId| may_be_absent(kind, vocabulary) && !around.kinds.contains(&kind);
    [&distance.from, &distance.to]
        .into_iter()
        .filter(|end| !end.parts.iter().any(says_if_none))
        .flat_map(|end| end.parts.iter())
        .filter_map(|part| part.which.selection())
        .find_map(|selection| absent(selection.kind).then_some(Absent::Distance(selection.kind)))
}

/// Whether an outline says what it means that there is none; that holds for all that it is named with.
fn says_if_none(part: &Part) -> bool {
    let selection = part.which.selection();
    selection.is_some_and(|selection| selection.if_none.is_some())
}

/// Whether there may be none of a kind: there is always a pool, and a line of the lot.
fn may_be_absent(kind: KindId, vocabulary: &Vocabulary) -> bool {
    let always = ["pool", "lot-line"];
    let mut always = always.iter().filter_map(|name| vocabulary.kind_named(name));
    !always.any(|own| own == kind) && vocabulary.kind(kind).number != Number::One
}
