//! What can be seen of a requirement without any plan: that it can never hold, that it always does, that it asks no more
//! than another.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::Arc;

use crate::ruleset::lint::cells::{cells, everything_keeps, impossible, keeps, stated};
use crate::ruleset::stricter::{bare, same};
use crate::ruleset::{Bound, Once, Requirement, Test, Value, address};
use crate::vocabulary::{FactId, Vocabulary};
use crate::work;

/// What was seen of terms: each is looked at once, however often it is named.
#[derive(Debug, Default)]
pub(crate) struct Seen {
    never: Memo,
    always: Memo,
    lacks_if_none: Memo,
}

/// What was seen, by where the term's requirement is stored.
type Memo = RefCell<BTreeMap<usize, bool>>;

fn once(memo: &Memo, term: &Arc<Requirement>, look: impl FnOnce() -> bool) -> bool {
    let known = memo.borrow().get(&address(term)).copied();
    known.unwrap_or_else(|| {
        let seen = look();
        memo.borrow_mut().insert(address(term), seen);
        seen
    })
}

/// Looks at requirements.
#[derive(Clone, Copy)]
pub(crate) struct Sight<'r> {
    pub vocabulary: &'r Vocabulary,
    pub seen: &'r Seen,
}

impl Sight<'_> {
    /// Whether no plan can meet a requirement.
    pub(crate) fn never(self, requirement: &Requirement) -> bool {
        if work::step_is_too_many() {
            return false;
        }
        match requirement {
            Requirement::Test(test) => {
                impossible(&test.value, &test.bounds, self.vocabulary) || self.counts_none(test)
            }
            Requirement::All(members) => {
                let never = |member| self.never(member) || is_denied(member, members);
                members.iter().any(never) || self.contrary(&tests_in([requirement])).is_some()
            }
            Requirement::Any(members) => members.iter().all(|member| self.never(member)),
            Requirement::Not(inner) => self.always(inner),
            Requirement::Meets { requirement, .. } => {
                once(&self.seen.never, requirement, || self.never(requirement))
            }
            _ => false,
        }
    }

    /// Whether it asks that there be some things of which nothing can be true.
    fn counts_none(self, test: &Test) -> bool {
        let Value::Count(selection) = &test.value else {
            return false;
        };
        let some = test.bounds.iter().any(|bound| match bound {
            Bound::AtLeast(limit) => stated(limit).is_some_and(|it| it.range.low > 0),
            _ => false,
        });
        some && selection
            .filter
            .as_ref()
            .is_some_and(|filter| self.never(filter))
    }

    /// Whether every plan meets a requirement.
    pub(crate) fn always(self, requirement: &Requirement) -> bool {
        if work::step_is_too_many() {
            return false;
        }
        match requirement {
            Requirement::Test(test) => everything_keeps(&test.value, &test.bounds, self.vocabulary),
            Requirement::All(members) => members.iter().all(|member| self.always(member)),
            Requirement::Any(members) => members.iter().any(|member| self.always(member)),
            Requirement::Not(inner) => self.never(inner),
            Requirement::Meets { requirement, .. } => {
                once(&self.seen.always, requirement, || self.always(requirement))
            }
            _ => false,
        }
    }

    /// Whether it speaks of each of some things and does not say what it means that there are none.
    pub(crate) fn lacks_if_none(self, requirement: &Requirement) -> bool {
        let any = |members: &[Requirement]| members.iter().any(|it| self.lacks_if_none(it));
        match requirement {
            Requirement::Each(each) => {
                each.selection.if_none.is_none() || self.lacks_if_none(&each.require)
            }
            Requirement::All(members)
            | Requirement::Any(members)
            | Requirement::Count { of: members, .. } => any(members),
            Requirement::Not(inner) => self.lacks_if_none(inner),
            Requirement::Meets { requirement, .. } => {
                once(&self.seen.lacks_if_none, requirement, || {
                    self.lacks_if_none(requirement)
                })
            }
            Requirement::Table(table) => table.given().any(|given| self.lacks_if_none(given)),
            Requirement::Test(_) | Requirement::Have(_) | Requirement::Refer => false,
        }
    }

    /// Two tests or more that cannot hold together: the value that they are about.
    pub(crate) fn contrary<'t>(self, tests: &[&'t Arc<Test>]) -> Option<&'t Value> {
        let groups = alike(tests).into_iter();
        let first = groups.filter_map(|group| self.first_contrary(&group));
        let first = first.min_by_key(|(at, _)| *at);
        first.map(|(_, value)| value)
    }

    /// Of tests of one value, the first that cannot hold together with those after it.
    fn first_contrary<'t>(self, group: &[(usize, &'t Arc<Test>)]) -> Option<(usize, &'t Value)> {
        (0..group.len().saturating_sub(1)).find_map(|from| {
            let rest = group.get(from..)?;
            let bounds: Vec<&Bound> = rest.iter().flat_map(|(_, test)| &test.bounds).collect();
            let (at, test) = rest.first()?;
            impossible(&test.value, bounds, self.vocabulary).then_some((*at, &test.value))
        })
    }

    /// Whether a test holds wherever these do, as far as constant limits on the same value show it.
    pub(crate) fn implied(self, test: &Test, by: &[&Arc<Test>]) -> bool {
        let given: Vec<&Bound> = by
            .iter()
            .filter(|other| same(&other.value, &test.value))
            .flat_map(|other| &other.bounds)
            .collect();
        if given.is_empty() {
            return false;
        }
        let all: Vec<&Bound> = given.iter().copied().chain(&test.bounds).collect();
        cells(&test.value, &all, self.vocabulary).is_some_and(|cells| {
            let mut kept = cells
                .iter()
                .filter(|cell| given.iter().all(|bound| keeps(cell, bound)));
            kept.all(|cell| test.bounds.iter().all(|bound| keeps(cell, bound)))
        })
    }
}

/// Whether another member is that this one does not hold.
fn is_denied(member: &Requirement, members: &[Requirement]) -> bool {
    work::step_through(members.len());
    matches!(member, Requirement::Not(inner) if members.contains(inner))
}

/// The tests that must all hold for some requirements to hold, those in their terms too; what is no test is left out. A
/// term that is named twice is gone through once.
pub(crate) fn tests_in<'t>(
    requirements: impl IntoIterator<Item = &'t Requirement>,
) -> Vec<&'t Arc<Test>> {
    let (mut tests, mut terms) = (Vec::new(), Once::default());
    for requirement in requirements {
        add_tests(requirement, &mut tests, &mut terms);
    }
    tests
}

fn add_tests<'t>(requirement: &'t Requirement, tests: &mut Vec<&'t Arc<Test>>, terms: &mut Once) {
    work::step(1);
    match requirement {
        Requirement::Test(test) => tests.push(test),
        Requirement::All(members) => members.iter().for_each(|it| add_tests(it, tests, terms)),
        Requirement::Meets { requirement, .. } if terms.is_first(requirement) => {
            add_tests(requirement, tests, terms);
        }
        _ => {}
    }
}

/// Whether a requirement is nothing but tests, all of which must hold.
pub(crate) fn is_all_tests(requirement: &Requirement) -> bool {
    is_tests(requirement, &mut Once::default())
}

fn is_tests(requirement: &Requirement, terms: &mut Once) -> bool {
    match requirement {
        Requirement::Test(_) => true,
        Requirement::All(members) => members.iter().all(|it| is_tests(it, terms)),
        Requirement::Meets { requirement, .. } => {
            !terms.is_first(requirement) || is_tests(requirement, terms)
        }
        _ => false,
    }
}

/// Tests by the value that they are about, each with its place.
pub(crate) fn alike<'t>(tests: &[&'t Arc<Test>]) -> Vec<Vec<(usize, &'t Arc<Test>)>> {
    let mut groups: Vec<Vec<(usize, &Arc<Test>)>> = Vec::new();
    let mut of_fact: BTreeMap<FactId, usize> = BTreeMap::new();
    let mut of_other: Vec<(&Value, usize)> = Vec::new();
    for (at, test) in tests.iter().enumerate() {
        let value = bare(&test.value);
        let next = groups.len();
        let group = match value {
            Value::Fact(fact) => *of_fact.entry(*fact).or_insert(next),
            other => {
                work::step_through(of_other.len());
                let known = of_other.iter().find(|(known, _)| *known == other);
                known.map_or(next, |(_, group)| *group)
            }
        };
        match groups.get_mut(group) {
            Some(group) => group.push((at, test)),
            None => {
                groups.push(vec![(at, test)]);
                if !matches!(value, Value::Fact(_)) {
                    of_other.push((value, next));
                }
            }
        }
    }
    groups
}
