//! The verdict on the whole plan.

use std::collections::{BTreeMap, BTreeSet};

use crate::check::judge::Judge;
use crate::check::rule::finding::truth_in;
use crate::check::world::dependency::Dependency;
use crate::check::world::scene::Scene;
use crate::check::world::seen::Key;
use crate::check::world::split;
use crate::check::{Finding, Truth, Verdict};
use crate::ruleset::{RuleSet, Strength};

/// The verdict of all binding rules together.
pub(crate) fn verdict<'a>(
    judge: &Judge<'a>,
    rules: &'a RuleSet,
    found: &[(Finding, Vec<Dependency>)],
) -> Verdict {
    let binding = || {
        found.iter().filter(|(finding, _)| {
            rules
                .rule(finding.rule)
                .is_some_and(|rule| rule.strength == Strength::Must)
        })
    };
    let judged = binding().filter_map(|(finding, _)| Some((finding, rules.rule(finding.rule)?)));
    let verdict = Verdict::of(judged);
    let open: Vec<&(Finding, Vec<Dependency>)> = binding()
        .filter(|(finding, _)| finding.truth.is_open())
        .collect();
    match verdict {
        Verdict::NotDecided if open.len() > 1 && fails_either_way(judge, rules, &open) => {
            Verdict::DoesNotComply
        }
        other => other,
    }
}

/// Whether some rule fails whatever the answers are to the questions that several open rules share. If one rule fails in zone
/// A and another in zone B, the plan fails even though the zone is unknown.
fn fails_either_way<'a>(
    judge: &Judge<'a>,
    rules: &'a RuleSet,
    open: &[&(Finding, Vec<Dependency>)],
) -> bool {
    let shared = shared(&judge.scene, open);
    if shared.is_empty() {
        return false;
    }
    let Some(scenes) = split::scenes(&judge.scene, &shared) else {
        return false;
    };
    scenes.into_iter().all(|scene| {
        open.iter()
            .filter_map(|(finding, _)| rules.rule(finding.rule))
            .any(|rule| truth_in(judge, scene.clone(), rule) == Truth::FAILS)
    })
}

/// The uncertain facts that more than one open rule depends on.
fn shared(scene: &Scene<'_>, open: &[&(Finding, Vec<Dependency>)]) -> Vec<(Key, BTreeSet<i128>)> {
    let mut all: BTreeMap<Key, (usize, BTreeSet<i128>)> = BTreeMap::new();
    for (_, dependencies) in open {
        for (key, (_, thresholds)) in split::named(dependencies) {
            let entry = all.entry(key).or_default();
            entry.0 += 1;
            entry.1.extend(thresholds);
        }
    }
    all.into_iter()
        .filter(|(_, (rules, _))| *rules > 1)
        .map(|(key, (_, thresholds))| (scene.at_one_place(key), thresholds))
        .collect()
}
