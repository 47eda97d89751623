//! What can be said of a requirement only when all of it is read.

pub(super) mod absent;
pub(super) mod cells;
pub(super) mod coverage;
pub(super) mod doubtful;
pub(super) mod holds;
pub(super) mod idle;
pub(super) mod jumps;
pub(super) mod slips;
pub(super) mod unused;
mod whose;

use crate::faults::Code;
use crate::quantity::show_exactly;
use crate::ruleset::lint::cells::{Cell, cells, keeps, stated};
use crate::ruleset::lint::holds::tests_in;
use crate::ruleset::read::Reader;
use crate::ruleset::{Bound, Choice, Requirement, Test, Value};
use crate::text::Span;
use crate::vocabulary::{FactId, Vocabulary};

/// Whether all members are combinations that test one and the same fact, and no two can hold together: a table in
/// disguise.
pub(crate) fn guards_one_fact(members: &[Requirement], vocabulary: &Vocabulary) -> bool {
    let alls: Option<Vec<&[Requirement]>> = members
        .iter()
        .map(|member| match member {
            Requirement::All(all) if all.len() > 1 => Some(all.as_slice()),
            _ => None,
        })
        .collect();
    let Some([first, rest @ ..]) = alls.as_deref() else {
        return false;
    };
    !rest.is_empty() && tests(first).any(|test| apart(test, rest, vocabulary))
}

fn tests(all: &[Requirement]) -> impl Iterator<Item = &Test> {
    all.iter().filter_map(|member| match member {
        Requirement::Test(test) if matches!(test.value, Value::Fact(_)) => Some(&**test),
        _ => None,
    })
}

/// Whether each of the others tests the same fact, and no value keeps the bounds of two.
fn apart(test: &Test, others: &[&[Requirement]], vocabulary: &Vocabulary) -> bool {
    let mut groups = vec![&test.bounds];
    for all in others {
        let Some(same) = tests(all).find(|other| other.value == test.value) else {
            return false;
        };
        groups.push(&same.bounds);
    }
    let bounds: Vec<&Bound> = groups.iter().flat_map(|group| group.iter()).collect();
    let kept = |cell: &Cell| {
        groups
            .iter()
            .filter(|group| group.iter().all(|bound| keeps(cell, bound)))
            .count()
    };
    cells(&test.value, &bounds, vocabulary)
        .is_some_and(|cells| cells.iter().all(|cell| kept(cell) < 2))
}

impl Reader<'_> {
    /// Looks through a requirement, but not into the terms that it names: they are looked through themselves.
    pub(crate) fn lint(&mut self, requirement: &Requirement, root: Span) {
        self.never_holds(requirement, root);
        let mut found = Vec::new();
        unproven(requirement, &[], &self.vocabulary, &mut found);
        for (fact, span) in found {
            let path = self.vocabulary.fact_path(fact);
            let none = format!("{{fact: {path}, is: none}}");
            let (there, or_none) = match turned(requirement, span, &path) {
                Some(turned) => (turned.clone(), format!("{{any-of: [{none}, {turned}]}}")),
                None => (
                    format!("[{{not: {none}}}, {{not: …}}]"),
                    format!("{{any-of: [{none}, {{not: …}}]}}"),
                ),
            };
            self.fault(Code::NotOfNone, span, format!("`{path}` can be `none`, and nothing says whether this holds then."))
                .help(format!("In place of the whole `not`, write `{there}` if there must be one, or `{or_none}` if none will do as well."));
        }
    }
}

impl Reader<'_> {
    /// Says where the parts of a requirement rule each other out; that bounds of one value do is a fault of its own.
    fn never_holds(&mut self, requirement: &Requirement, root: Span) {
        let (vocabulary, sight) = (&self.vocabulary, self.sight());
        let message = match requirement {
            Requirement::All(members) if members.iter().any(|it| sight.never(it)) => return,
            Requirement::All(_) => match sight.contrary(&tests_in([requirement])) {
                Some(Value::Fact(fact)) => format!(
                    "No plan can keep all of this: `{}` cannot be both.",
                    vocabulary.fact_path(*fact)
                ),
                _ => "No plan can keep all of this: one part of it rules out another.".to_owned(),
            },
            _ => "No plan can keep this.".to_owned(),
        };
        use Requirement::{All, Any, Not};
        let own = matches!(requirement, All(_) | Any(_) | Not(_));
        if own && sight.never(requirement) {
            self.warning(Code::NeverHolds, root, message)
                .help("Is one of the limits the wrong way round, or is `any-of` meant?");
        }
    }
}

/// A test at a place that stands alone in a `not`, written without the `not`, with its one limit turned round.
fn turned(requirement: &Requirement, span: Span, path: &str) -> Option<String> {
    match requirement {
        Requirement::All(members) | Requirement::Any(members) => {
            members.iter().find_map(|member| turned(member, span, path))
        }
        Requirement::Each(each) => turned(&each.require, span, path),
        Requirement::Not(inner) => match &**inner {
            Requirement::Test(test) if test.span == span => {
                let (key, limit) = match test.bounds.as_slice() {
                    [Bound::AtLeast(limit)] => ("less-than", limit),
                    [Bound::LessThan(limit)] => ("at-least", limit),
                    [Bound::AtMost(limit)] => ("more-than", limit),
                    [Bound::MoreThan(limit)] => ("at-most", limit),
                    _ => return None,
                };
                let limit = stated(limit)?;
                let limit = show_exactly(limit.range.low, limit.unit);
                Some(format!("{{fact: {path}, {key}: {limit}}}"))
            }
            _ => None,
        },
        _ => None,
    }
}

/// The facts under a `not` that may be none, with nothing beside the `not` that speaks of that.
fn unproven(
    requirement: &Requirement,
    proven: &[FactId],
    vocabulary: &Vocabulary,
    found: &mut Vec<(FactId, Span)>,
) {
    match requirement {
        Requirement::All(members) | Requirement::Any(members) => {
            let all = matches!(requirement, Requirement::All(_));
            let spoken = members.iter().filter_map(|member| speaks_of(member, all));
            let proven: Vec<_> = proven.iter().copied().chain(spoken).collect();
            members
                .iter()
                .for_each(|member| unproven(member, &proven, vocabulary, found));
        }
        Requirement::Count { of, .. } => of
            .iter()
            .for_each(|member| unproven(member, proven, vocabulary, found)),
        Requirement::Each(each) => unproven(&each.require, proven, vocabulary, found),
        Requirement::Not(inner) => {
            let mut tested = Vec::new();
            facts_tested(inner, &mut tested);
            tested.retain(|(fact, _)| vocabulary.fact(*fact).none && !proven.contains(fact));
            found.extend(tested);
        }
        Requirement::Table(table) => {
            for inner in table.given() {
                unproven(inner, proven, vocabulary, found);
            }
        }
        Requirement::Test(_)
        | Requirement::Meets { .. }
        | Requirement::Have(_)
        | Requirement::Refer => {}
    }
}

/// The fact whose absence this member deals with. If all members must hold, any test of the fact will do, because it fails
/// where there is none.
fn speaks_of(member: &Requirement, all: bool) -> Option<FactId> {
    let test = match member {
        Requirement::Test(test) if all || allows_none(&test.bounds) => test,
        Requirement::Not(inner) => match &**inner {
            Requirement::Test(test) if allows_none(&test.bounds) => test,
            _ => return None,
        },
        _ => return None,
    };
    match test.value {
        Value::Fact(fact) => Some(fact),
        _ => None,
    }
}

pub(crate) fn allows_none(bounds: &[Bound]) -> bool {
    bounds
        .iter()
        .any(|bound| matches!(bound, Bound::Is(choices) if choices.contains(&Choice::None)))
}

fn facts_tested(requirement: &Requirement, found: &mut Vec<(FactId, Span)>) {
    match requirement {
        Requirement::Test(test) => {
            if let (Value::Fact(fact), false) = (&test.value, allows_none(&test.bounds)) {
                found.push((*fact, test.span));
            }
        }
        Requirement::All(members)
        | Requirement::Any(members)
        | Requirement::Count { of: members, .. } => {
            members
                .iter()
                .for_each(|member| facts_tested(member, found));
        }
        Requirement::Not(inner) => facts_tested(inner, found),
        Requirement::Each(each) => facts_tested(&each.require, found),
        _ => {}
    }
}
