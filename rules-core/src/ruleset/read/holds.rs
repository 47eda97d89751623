//! What can be seen of a requirement without any plan: that it can never hold, that it always does, that it asks no more
//! than another.

use super::coverage::{cells, impossible, keeps};
use super::layers::same;
use crate::ruleset::{Bound, Requirement, Test, Value};
use crate::vocabulary::Vocabulary;

/// The tests that must all hold for a requirement to hold, those in its terms too; what is no test is left out.
pub(super) fn tests_in(requirement: &Requirement) -> Vec<&Test> {
    match requirement {
        Requirement::Test(test) => vec![test],
        Requirement::All(members) => members.iter().flat_map(tests_in).collect(),
        Requirement::Meets { requirement, .. } => tests_in(requirement),
        _ => Vec::new(),
    }
}

/// Whether a requirement is nothing but tests, all of which must hold.
pub(super) fn is_all_tests(requirement: &Requirement) -> bool {
    match requirement {
        Requirement::Test(_) => true,
        Requirement::All(members) => members.iter().all(is_all_tests),
        Requirement::Meets { requirement, .. } => is_all_tests(requirement),
        _ => false,
    }
}

/// Two tests or more that cannot hold together: the value that they are about.
pub(super) fn contrary<'t>(tests: &[&'t Test], vocabulary: &Vocabulary) -> Option<&'t Value> {
    tests.iter().enumerate().find_map(|(at, test)| {
        let others = tests.get(at + 1..).unwrap_or_default();
        let alike: Vec<_> = others
            .iter()
            .filter(|other| same(&other.value, &test.value))
            .collect();
        if alike.is_empty() {
            return None;
        }
        let bounds = alike.iter().flat_map(|other| &other.bounds);
        let all: Vec<Bound> = test.bounds.iter().chain(bounds).cloned().collect();
        impossible(&test.value, &all, vocabulary).then_some(&test.value)
    })
}

/// Whether no plan can meet a requirement.
pub(super) fn never(requirement: &Requirement, vocabulary: &Vocabulary) -> bool {
    let is_never = |member: &Requirement| never(member, vocabulary);
    match requirement {
        Requirement::Test(test) => {
            impossible(&test.value, &test.bounds, vocabulary) || counts_none(test, vocabulary)
        }
        Requirement::All(members) => {
            let denied = |member: &Requirement| matches!(member, Requirement::Not(inner) if members.contains(inner));
            members
                .iter()
                .any(|member| is_never(member) || denied(member))
                || contrary(&tests_in(requirement), vocabulary).is_some()
        }
        Requirement::Any(members) => members.iter().all(is_never),
        Requirement::Not(inner) => always(inner, vocabulary),
        Requirement::Meets { requirement, .. } => is_never(requirement),
        _ => false,
    }
}

/// Whether it asks that there be some things of which nothing can be true.
fn counts_none(test: &Test, vocabulary: &Vocabulary) -> bool {
    let Value::Count(selection) = &test.value else {
        return false;
    };
    let some = test.bounds.iter().any(|bound| match bound {
        Bound::AtLeast(limit) => super::coverage::stated(limit).is_some_and(|it| it.range.low > 0),
        _ => false,
    });
    some && selection
        .filter
        .as_ref()
        .is_some_and(|filter| never(filter, vocabulary))
}

/// Whether every plan meets a requirement.
pub(super) fn always(requirement: &Requirement, vocabulary: &Vocabulary) -> bool {
    let is_always = |member: &Requirement| always(member, vocabulary);
    match requirement {
        Requirement::Test(test) => {
            let bounds: Vec<_> = test.bounds.iter().collect();
            cells(&test.value, &bounds, vocabulary).is_some_and(|cells| {
                cells
                    .iter()
                    .all(|cell| bounds.iter().all(|bound| keeps(cell, bound)))
            })
        }
        Requirement::All(members) => members.iter().all(is_always),
        Requirement::Any(members) => members.iter().any(is_always),
        Requirement::Not(inner) => never(inner, vocabulary),
        Requirement::Meets { requirement, .. } => is_always(requirement),
        _ => false,
    }
}

/// Whether a test holds wherever these do, as far as constant limits on the same value show it.
pub(super) fn implied(test: &Test, by: &[&Test], vocabulary: &Vocabulary) -> bool {
    let given: Vec<&Bound> = by
        .iter()
        .filter(|other| same(&other.value, &test.value))
        .flat_map(|other| &other.bounds)
        .collect();
    if given.is_empty() {
        return false;
    }
    let all: Vec<&Bound> = given.iter().copied().chain(&test.bounds).collect();
    cells(&test.value, &all, vocabulary).is_some_and(|cells| {
        let mut kept = cells
            .iter()
            .filter(|cell| given.iter().all(|bound| keeps(cell, bound)));
        kept.all(|cell| test.bounds.iter().all(|bound| keeps(cell, bound)))
    })
}
