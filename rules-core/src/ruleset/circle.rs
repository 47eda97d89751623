//! Duties that wait for each other in a circle, so that none of them can ever begin.

use std::collections::{BTreeMap, BTreeSet};

use super::Duty;

/// What comes before what, by name: for each step those that it waits for.
fn waits(duties: &[Duty]) -> BTreeMap<&str, BTreeSet<&str>> {
    let mut waits: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for duty in duties {
        let own = waits.entry(&duty.id).or_default();
        own.extend(duty.after.iter().map(String::as_str));
        for later in &duty.before {
            waits.entry(later).or_default().insert(&duty.id);
        }
    }
    waits
}

/// For each name, the names that wait for it.
fn waited_for<'d>(waits: &BTreeMap<&'d str, BTreeSet<&'d str>>) -> BTreeMap<&'d str, Vec<&'d str>> {
    let mut later: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for (name, for_these) in waits {
        for earlier in for_these {
            later.entry(earlier).or_default().push(name);
        }
    }
    later
}

/// The same for what can never be done: takes away everything that waits for nothing else, then what waited only for
/// that, and so on.
fn never_done<'d>(
    mut waits: BTreeMap<&'d str, BTreeSet<&'d str>>,
) -> BTreeMap<&'d str, BTreeSet<&'d str>> {
    let mut later = waited_for(&waits);
    let waits_for_nothing = |name: &&&str| waits.get(**name).is_none_or(BTreeSet::is_empty);
    let names = waits.keys().chain(later.keys());
    let mut open: Vec<&str> = names.filter(waits_for_nothing).copied().collect();
    while let Some(done) = open.pop() {
        waits.remove(done);
        for name in later.remove(done).into_iter().flatten() {
            if let Some(left) = waits.get_mut(name) {
                left.remove(done);
                if left.is_empty() {
                    open.push(name);
                }
            }
        }
    }
    waits
}

/// The names of duties and events that wait for each other in a circle, each for the one before it; `None` where all
/// can be done one after the other.
pub fn circle(duties: &[Duty]) -> Option<Vec<&str>> {
    let waits = never_done(waits(duties));
    let (mut way, mut seen) = (Vec::new(), BTreeSet::new());
    let mut here = *waits.keys().next()?;
    while seen.insert(here) {
        way.push(here);
        here = *waits.get(here)?.first()?;
    }
    let mut circle: Vec<&str> = way.into_iter().skip_while(|name| *name != here).collect();
    circle.reverse();
    Some(circle)
}
