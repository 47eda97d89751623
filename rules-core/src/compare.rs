//! What a new edition of a rule set changes: which rules, papers, steps and so on, in words, and which plans come out
//! differently.
//!
//! What both say in words is compared, so that another order, another spelling or another unit of the same length
//! written the same way is no change.

#[cfg(test)]
mod compare_tests;
mod effect;
mod json;
mod plans;
mod words;

use std::collections::BTreeMap;

use crate::ruleset::RuleSet;
use crate::ruleset::say::{Group, Line, Said, Sort, read_back};
pub use effect::Effect;
pub use json::to_json;
pub use plans::{ListCompared, Outcomes, PlanCompared, RuleCompared, Told, compare_plan, summary};

/// What changes from one rule set to another.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Changes {
    /// What they say of themselves, as it was and as it is, where that differs.
    pub head: Option<(Vec<Line>, Vec<Line>)>,
    /// What changed of each sort; only sorts of which something changed.
    pub groups: Vec<(Sort, Changed)>,
}

/// What was added, removed, renamed and changed of one sort.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Changed {
    /// What only the new one has.
    pub added: Vec<Said>,
    /// What only the old one has.
    pub removed: Vec<Said>,
    /// What both say in the same sentences under another short name: as it was, and as it is.
    pub renamed: Vec<(Said, Said)>,
    /// What both have and say differently, or mean differently because a term changed.
    pub changed: Vec<Change>,
}

/// What both have, and how it changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// As it was.
    pub then: Said,
    /// As it is.
    pub now: Said,
    /// What that means, of a rule.
    pub effect: Option<Effect>,
}

impl Changed {
    /// Whether nothing changed.
    pub fn is_empty(&self) -> bool {
        self == &Self::default()
    }

    fn of(old: &[Said], new: &[Said]) -> Self {
        let mut before: BTreeMap<&str, &Said> =
            old.iter().map(|said| (said.id.as_str(), said)).collect();
        let mut changes = Self::default();
        for now in new {
            match before.remove(now.id.as_str()) {
                None => changes.added.push(now.clone()),
                Some(then) if then != now => changes.changed.push(Change::of(then, now)),
                Some(_) => {}
            }
        }
        let gone = old
            .iter()
            .filter(|said| before.contains_key(said.id.as_str()));
        changes.removed.extend(gone.cloned());
        changes.find_renamed();
        changes
    }

    /// What went and came back under another name, saying the same.
    fn find_renamed(&mut self) {
        for then in std::mem::take(&mut self.removed) {
            let mut added = self.added.iter();
            match added.position(|now| says_the_same(&then, now)) {
                Some(place) => self.renamed.push((then, self.added.remove(place))),
                None => self.removed.push(then),
            }
        }
    }
}

impl Change {
    fn of(then: &Said, now: &Said) -> Self {
        Self {
            then: then.clone(),
            now: now.clone(),
            effect: None,
        }
    }
}

/// Whether they differ in their short names, and perhaps in title and clause, only.
fn says_the_same(then: &Said, now: &Said) -> bool {
    !then.lines.is_empty() && then.lines == now.lines
}

impl Changes {
    /// The name that a rule had, where it has another one now and says the same.
    fn former<'s>(&'s self, id: &'s str) -> &'s str {
        let groups = self.groups.iter().filter(|(sort, _)| *sort == Sort::Rules);
        let mut renamed = groups.flat_map(|(_, changed)| &changed.renamed);
        let found = renamed.find(|(_, now)| now.id == id);
        found.map_or(id, |(then, _)| &then.id)
    }

    /// Whether nothing changed.
    pub fn is_empty(&self) -> bool {
        self == &Self::default()
    }
}

/// Compares two rule sets.
pub fn compare(old: &RuleSet, new: &RuleSet) -> Changes {
    let (before, now) = (read_back(old), read_back(new));
    let head = before.title != now.title || before.head != now.head;
    let titled = |title: String, head: Vec<Line>| [vec![Line::new(title)], head].concat();
    let changed = |group: &Group| {
        let changed = Changed::of(before.group(group.sort), &group.said);
        match group.sort {
            Sort::Rules => effect::told(
                changed,
                (old, before.group(Sort::Rules)),
                (new, &group.said),
            ),
            _ => changed,
        }
    };
    let groups = now.groups.iter().map(|group| (group.sort, changed(group)));
    Changes {
        groups: groups.filter(|(_, changed)| !changed.is_empty()).collect(),
        head: head.then(|| {
            let then = titled(before.title.clone(), before.head.clone());
            (then, titled(now.title.clone(), now.head.clone()))
        }),
    }
}
