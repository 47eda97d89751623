//! Layers: what a file changes in those that it builds on.
//!
//! Edits are made on the texts, before any rule is read, so that a changed rule is read and checked like any other.
//! An edit with a `when` leaves the old part standing where its condition does not hold, and both where it is open.

mod compare;
mod days;
mod parts;
mod terms;

use std::collections::BTreeMap;

use super::lists::as_list;
use crate::faults::Code;
use crate::grammar::{self, Keys};
use crate::ruleset::read::head::files::File;
use crate::text::{Entry, Fault, Faults, Node, Span, meant_or, to_json};
pub(super) use compare::Comparison;
use days::{not, on_days_of_its_file, where_it_counts};
use parts::{add_condition, combined, id_of, text_of};
pub(super) use terms::TermItem;

/// All rules and terms of all files, with the edits made.
pub(super) struct Merged {
    /// The rules, those of the bases first.
    pub rules: Vec<Item>,
    /// The terms, those of the bases first.
    pub terms: Vec<TermItem>,
    /// What has to be compared once it is read.
    pub comparisons: Vec<Comparison>,
    /// Rules that went, and the one that came in their place, if any.
    pub gone: BTreeMap<String, Option<String>>,
    pub faults: Faults,
    pub warnings: Faults,
}

/// A rule as written, and the file that it is from.
#[derive(Clone)]
pub(super) struct Item {
    pub node: Node,
    pub file: usize,
}

/// How a base lets its rule be changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Changes {
    /// It may be made stricter only.
    Minimum,
    /// It may be changed in any way.
    Default,
    /// It may be made laxer only.
    Ceiling,
}

/// In the order of their words.
pub(super) const CHANGES: [Changes; 3] = [Changes::Minimum, Changes::Default, Changes::Ceiling];

/// An edit, and the condition under which it counts.
type Edit<'n> = (&'n Node, Option<&'n Node>);

/// Makes the edits of all files, those of the bases first.
pub(super) fn merge(files: &[File]) -> Merged {
    let mut merged = Merged {
        rules: Vec::new(),
        terms: Vec::new(),
        comparisons: Vec::new(),
        gone: BTreeMap::new(),
        faults: Faults::default(),
        warnings: Faults::default(),
    };
    for (file, place) in files.iter().zip(0..).collect::<Vec<_>>().into_iter().rev() {
        let terms = file.node.get("terms").and_then(Node::as_map);
        for entry in terms.unwrap_or_default() {
            merged.term(entry, (place, &file.node));
        }
        let Some(rules) = file.node.get("rules") else {
            continue;
        };
        if rules.as_list().is_none() && !rules.is_empty() {
            merged
                .fault(
                    Code::NotAList,
                    rules.span,
                    format!(
                        "After `rules`, a list is expected, not {}.",
                        rules.describe()
                    ),
                )
                .help(as_list(rules, "rules"));
        }
        for node in rules.as_list().unwrap_or_default() {
            merged.rule(node, (place, &file.node));
        }
    }
    merged
}

impl Merged {
    fn fault(&mut self, code: Code, span: Span, message: impl Into<String>) -> &mut Fault {
        self.faults.add(code, span, message)
    }

    fn rule(&mut self, node: &Node, (file, whole): (usize, &Node)) {
        let when = || where_it_counts(node, whole);
        if let Some(target) = node.get("withdraws") {
            self.withdraw((node, when().as_ref()), target, file);
        } else if let Some(target) = node.get("adds-to") {
            self.add_relief((node, when().as_ref()), target, file);
        } else if let Some(target) = node.get("replaces") {
            let stays = self.replace((node, when().as_ref()), target, file);
            if stays {
                self.add(node, (file, whole));
            }
        } else {
            if let Some(target) = node.get("tightens") {
                self.tighten(node, target, file);
            }
            self.add(node, (file, whole));
        }
    }

    /// Adds a rule. The main file's `in-force` is checked once for all of its rules, so it is not copied into each.
    fn add(&mut self, node: &Node, (file, whole): (usize, &Node)) {
        let node = match file {
            0 => node.clone(),
            _ => on_days_of_its_file(node, whole),
        };
        self.rules.push(Item { node, file });
    }

    /// The place of the base's rule that an edit names, and the part of it that is meant.
    fn target<'n>(&mut self, target: &'n Node, file: usize) -> Option<(usize, Option<&'n str>)> {
        let Some(name) = target.text() else {
            self.fault(
                Code::NotAWord,
                target.span,
                "The id of a rule is expected here.",
            );
            return None;
        };
        let (rule, part) = name
            .split_once('/')
            .map_or((name, None), |(rule, part)| (rule, Some(part)));
        let found = self
            .rules
            .iter()
            .position(|item| item.file != file && id_of(&item.node) == Some(rule));
        if found.is_none() {
            let others = self.rules.iter().filter(|item| item.file != file);
            let ids = others.filter_map(|item| id_of(&item.node));
            let only = "Only a rule of a file under `builds-on` can be changed.";
            let help = meant_or(rule, ids, only);
            let message = format!("No file that this one builds on has a rule `{rule}`.");
            self.fault(Code::UnknownRule, target.span, message)
                .help(help);
        }
        Some((found?, part))
    }

    /// How a base lets a rule be changed.
    fn changes(&self, place: usize) -> Changes {
        let written = self
            .rules
            .get(place)
            .and_then(|item| text_of(&item.node, "changes"));
        let mut known = grammar::CHANGES.iter().zip(CHANGES);
        let known = known.find(|((word, _), _)| Some(*word) == written);
        known.map_or(Changes::Default, |(_, changes)| changes)
    }

    fn withdraw(&mut self, (node, when): Edit<'_>, target: &Node, file: usize) {
        self.edit_keys(node, &grammar::WITHDRAWAL);
        let Some((place, part)) = self.target(target, file) else {
            return;
        };
        match part {
            Some(part) => self.withdraw_part(when, target, place, part),
            None => self.withdraw_rule(when, target, place),
        }
    }

    fn withdraw_rule(&mut self, when: Option<&Node>, target: &Node, place: usize) {
        if self.changes(place) == Changes::Minimum {
            self.fault(
                Code::Laxer,
                target.span,
                "The base says that this rule is a minimum, so it cannot be withdrawn.",
            )
            .help("Keep it, or make it stricter with `tightens`.");
            return;
        }
        self.stop(place, (when, None), None);
    }

    /// Ends a rule, altogether or where one condition holds and the other does not.
    fn stop(
        &mut self,
        place: usize,
        (when, unless): (Option<&Node>, Option<&Node>),
        by: Option<&str>,
    ) {
        let Some(item) = self.rules.get_mut(place) else {
            return;
        };
        match (when, unless) {
            (None, None) => {
                let gone = self.rules.remove(place);
                let id = id_of(&gone.node).unwrap_or_default().to_owned();
                self.gone.insert(id, by.map(str::to_owned));
            }
            (None, Some(unless)) => add_condition(&mut item.node, "when", unless),
            (Some(when), None) => add_condition(&mut item.node, "unless", when),
            (Some(when), Some(unless)) => {
                let both = combined("all-of", [when.clone(), not(unless)], when.span);
                add_condition(&mut item.node, "unless", &both);
            }
        }
    }

    /// Puts a rule, or a part of one, in the place of a base's. Returns whether it is a rule that now binds.
    fn replace(&mut self, (node, when): Edit<'_>, target: &Node, file: usize) -> bool {
        let Some((place, part)) = self.target(target, file) else {
            return false;
        };
        if let Some(part) = part {
            self.edit_keys(node, &grammar::PART_REPLACED);
            self.replace_part((node, when), target, place, part);
            return false;
        }
        let (id, unless) = (id_of(node), node.get("unless"));
        if (when.is_some() || unless.is_some()) && id == target.text() {
            self.fault(Code::DuplicateId, target.span, "Where this rule does not apply (its `when`, its `unless`, or the days on which it is in force), the base's rule stays: the two need two ids.")
                .help("Give this one an id of its own.");
            return false;
        }
        self.judged_for_others(place, node, target);
        self.compare(place, node, target, false);
        self.stop(place, (when, unless), id);
        true
    }

    /// Asks about a rule that replaces another but covers other things: for the rest, no rule is left.
    fn judged_for_others(&mut self, place: usize, node: &Node, target: &Node) {
        let Some(base) = self.rules.get(place) else {
            return;
        };
        let differs = |key: &&str| base.node.get(key).map(to_json) != node.get(key).map(to_json);
        let Some(key) = ["each", "part-of", "where", "in"]
            .into_iter()
            .find(|key| differs(key))
        else {
            return;
        };
        let message = format!(
            "This is judged for other things than the base's rule (`{key}` differs), and of that rule nothing is left for all others."
        );
        self.warnings
            .add(Code::ReplacesForFewer, target.span, message)
            .help("If the base's rule is to stay for the others, write a `when` or an `unless` here, or a second rule for them.");
    }

    fn tighten(&mut self, node: &Node, target: &Node, file: usize) {
        match self.target(target, file) {
            Some((place, None)) => {
                if self.changes(place) == Changes::Ceiling {
                    self.fault(Code::Stricter, target.span, "The base says that this rule is the most that may be asked, so it cannot be tightened.");
                }
                self.compare(place, node, target, true);
            }
            Some((_, Some(_))) => {
                self.fault(
                    Code::TightensPart,
                    target.span,
                    "Only a whole rule can be tightened.",
                )
                .help("Use `replaces` for a part of it.");
            }
            None => {}
        }
    }

    /// Notes that both rules have to be compared once they are read.
    fn compare(&mut self, place: usize, node: &Node, target: &Node, tightens: bool) {
        let changes = self.changes(place);
        if let (Some(base), Some(id)) = (self.rules.get(place), id_of(node)) {
            self.comparisons.push(Comparison {
                base: base.clone(),
                id: id.to_owned(),
                tightens,
                changes,
                span: target.span,
            });
        }
    }

    fn add_relief(&mut self, (node, when): Edit<'_>, target: &Node, file: usize) {
        self.edit_keys(node, &grammar::ADDITION);
        let Some((place, _)) = self.target(target, file) else {
            return;
        };
        if self.changes(place) == Changes::Minimum {
            self.fault(
                Code::Laxer,
                target.span,
                "The base says that this rule is a minimum, so it can have no further relief.",
            );
            return;
        }
        let Some(relief) = node.get("relief") else {
            return;
        };
        let relief = parts::each_with_condition(relief, when);
        if let Some(item) = self.rules.get_mut(place) {
            parts::add_to_list(&mut item.node, "relief", &relief);
        }
    }

    /// Says what an edit lacks, and which of its keys nobody knows.
    fn edit_keys<const N: usize>(&mut self, node: &Node, declared: &Keys<N>) {
        declared.read(node, &mut self.faults);
    }
}

/// A key with what it says, at the place of that.
fn entry(key: &str, value: Node) -> Entry {
    Entry {
        key: key.to_owned(),
        key_span: value.span,
        value,
    }
}
