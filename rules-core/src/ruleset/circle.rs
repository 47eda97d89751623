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

/// The names of duties and events that wait for each other in a circle, each for the one before it; `None` where all
/// can be done one after the other.
pub fn circle(duties: &[Duty]) -> Option<Vec<&str>> {
    let mut waits = waits(duties);
    // What waits for nothing that is left can be done; what is left in the end cannot.
    loop {
        let names: BTreeSet<&str> = waits.keys().copied().collect();
        let before = waits.len();
        waits.retain(|_, for_these| for_these.iter().any(|name| names.contains(name)));
        if waits.is_empty() {
            return None;
        }
        if waits.len() == before {
            break;
        }
    }
    let mut way: Vec<&str> = Vec::new();
    let mut here = *waits.keys().next()?;
    while !way.contains(&here) {
        way.push(here);
        here = *waits
            .get(here)?
            .iter()
            .find(|name| waits.contains_key(*name))?;
    }
    let mut circle: Vec<&str> = way.into_iter().skip_while(|name| *name != here).collect();
    circle.reverse();
    Some(circle)
}
