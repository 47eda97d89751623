//! What is read back differs wherever two rule files can differ, and so does what the comparison says.
//!
//! `PAIRS=20000 cargo test --release -p outside-checks --test all read_back` runs more than the usual number.

use std::sync::Arc;

use outside_checks::random_rules::{Spelling, changed, respelled, spoilt};
use rules_core::compare::compare;
use rules_core::ruleset::say::{ReadBack, read_back};
use rules_core::ruleset::{Each, Relief, Requirement, Rule, RuleSet, Selection, Then};
use rules_core::text;

use crate::common::random::{clean, clean_files, judged, pairs, without_lines};

/// A clean file, and the same with one thing changed that is clean as well.
fn pairs_of_files(number: u64) -> Vec<(u64, String, String)> {
    let (files, _) = clean_files(number / 2);
    let mut all = Vec::new();
    for (seed, rules) in files {
        let root = text::read(&rules).expect("a file");
        let tried = (0..8).filter_map(|again| {
            let seed = seed * 8 + again;
            match again % 4 {
                3 => Some(spoilt(seed, &root)),
                _ => changed(seed, &root),
            }
        });
        let good = tried.filter(|other| clean(other).is_some()).take(2);
        all.extend(good.map(|other| (seed, rules.clone(), other)));
    }
    all
}

fn set(text: &str) -> RuleSet {
    clean(text).expect("it was clean before").rule_set
}

/// A rule without what changes nothing: where it stands, lists of one, and "not" before "not".
fn plain_rule(rule: &Rule) -> Rule {
    let relief = |relief: &Relief| Relief {
        when: relief.when.as_ref().map(plain),
        require: plain(&relief.require),
        span: Default::default(),
        ..relief.clone()
    };
    Rule {
        when: rule.when.as_ref().map(plain),
        unless: rule.unless.as_ref().map(plain),
        each: rule.each.as_ref().map(plain_selection),
        require: plain(&rule.require),
        reliefs: rule.reliefs.iter().map(relief).collect(),
        span: Default::default(),
        ..rule.clone()
    }
}

fn plain_selection(selection: &Selection) -> Selection {
    let filter = selection.filter.as_deref();
    Selection {
        filter: filter.map(|filter| Arc::new(plain(filter))),
        ..selection.clone()
    }
}

fn plain(requirement: &Requirement) -> Requirement {
    let all = |members: &[Requirement]| members.iter().map(plain).collect();
    match requirement {
        Requirement::All(members) | Requirement::Any(members) if members.len() == 1 => {
            plain(&members[0])
        }
        Requirement::All(members) => Requirement::All(all(members)),
        Requirement::Any(members) => Requirement::Any(all(members)),
        Requirement::Not(inner) => match plain(inner) {
            Requirement::Not(inner) => *inner,
            inner => Requirement::Not(Box::new(inner)),
        },
        Requirement::Count { of, bounds } => Requirement::Count {
            of: all(of),
            bounds: bounds.clone(),
        },
        Requirement::Each(each) => Requirement::Each(Box::new(Each {
            selection: plain_selection(&each.selection),
            require: plain(&each.require),
            span: each.span,
        })),
        Requirement::Table(table) => {
            let mut table = table.clone();
            for row in &mut table.rows {
                if let Then::Give(given) = &mut row.then {
                    *given = plain(given);
                }
            }
            Requirement::Table(table)
        }
        other => other.clone(),
    }
}

/// Whether two rule sets are the same, wherever their parts stand.
fn same_model(one: &RuleSet, other: &RuleSet) -> bool {
    let rules = |set: &RuleSet| set.rules.iter().map(plain_rule).collect::<Vec<_>>();
    let meanings = |set: &RuleSet| {
        let terms = set.terms.iter();
        terms
            .map(|term| (term.id.clone(), term.meaning.clone()))
            .collect::<Vec<_>>()
    };
    let tables = |set: &RuleSet| {
        let all = set.decisions.iter();
        all.map(|decision| (decision.title.clone(), decision.table.clone()))
            .collect::<Vec<_>>()
    };
    let papers = |set: &RuleSet| {
        let all = set.documents.iter();
        all.map(|paper| (paper.title.clone(), paper.from.clone()))
            .collect::<Vec<_>>()
    };
    rules(one) == rules(other)
        && meanings(one) == meanings(other)
        && tables(one) == tables(other)
        && papers(one) == papers(other)
        && one.in_force == other.in_force
        && one.vocabulary == other.vocabulary
}

#[test]
fn what_is_read_back_differs_wherever_the_rules_do() {
    let pairs = pairs_of_files(pairs() / 2);
    let mut different = 0;
    for (seed, old, new) in &pairs {
        let (old_set, new_set) = (set(old), set(new));
        let said: [ReadBack; 2] = [&old_set, &new_set].map(read_back);
        if said[0] == said[1] {
            assert!(
                same_model(&old_set, &new_set),
                "{seed}: two files are read back in the same words\n{}\n{old}\n---\n{new}",
                said[0].to_text()
            );
        } else {
            different += 1;
        }
    }
    println!(
        "{different} of {} pairs are read back differently",
        pairs.len()
    );
    assert!(
        different * 2 > pairs.len(),
        "{different} of {}",
        pairs.len()
    );
}

#[test]
fn whatever_changes_a_report_is_told_by_the_comparison() {
    let pairs = pairs_of_files(pairs() / 10);
    let mut differ = 0;
    for (seed, old, new) in &pairs {
        let changes = compare(&set(old), &set(new));
        let plans = 0..3;
        let report = |rules: &str, plan| without_lines(judged(seed * 3 + plan, rules));
        let differs = plans
            .into_iter()
            .any(|plan| report(old, plan) != report(new, plan));
        differ += u64::from(differs);
        assert!(
            !(differs && changes.is_empty()),
            "{seed}: the reports differ, and nothing is said to have changed\n{old}\n---\n{new}"
        );
    }
    println!("{differ} of {} pairs give another report", pairs.len());
    assert!(differ > 0);
}

#[test]
fn another_spelling_is_no_change() {
    let (files, _) = clean_files(pairs() / 10);
    for (seed, rules) in &files {
        let other = respelled(*seed, &text::read(rules).expect("a file"), Spelling::Form);
        let changes = compare(&set(rules), &set(&other));
        assert!(
            changes.is_empty(),
            "{seed}: {}\n{rules}\n---\n{other}",
            changes.to_text()
        );
    }
}
