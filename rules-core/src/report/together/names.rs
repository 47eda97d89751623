//! What a plan would write for what is missing: with the name of the rule set where several use the word for different
//! things.

use std::collections::BTreeMap;

use super::JudgedBy;
use crate::report::{MissingReport, Report};
use crate::ruleset::{Meant, PAPERS, RuleSet, clashes, with_name};

/// The reports, each with the short name of its rule set, in which each name stands for one thing only.
pub(super) fn named(judged: Vec<JudgedBy<'_>>) -> Vec<(String, Report)> {
    let sets: Vec<&RuleSet> = judged.iter().map(|one| one.rules).collect();
    let clashes = clashes(&sets);
    let reports = judged.into_iter().map(|one| {
        let (id, mut report) = (one.rules.id.clone(), one.report);
        let words = Words {
            rule_set: &id,
            clashes: &clashes,
        };
        words.name_all(&mut report);
        (id, report)
    });
    reports.collect()
}

struct Words<'w> {
    rule_set: &'w str,
    clashes: &'w BTreeMap<String, Vec<Meant<'w>>>,
}

impl Words<'_> {
    fn name_all(&self, report: &mut Report) {
        let parts = |rule: &mut crate::report::RuleReport| {
            rule.parts
                .iter_mut()
                .for_each(|part| self.name_each(&mut part.missing));
            self.name_each(&mut rule.missing);
            rule.documents
                .iter_mut()
                .for_each(|paper| self.name_paper(paper));
        };
        report.rules.iter_mut().for_each(parts);
        for decision in &mut report.decisions {
            self.name_each(&mut decision.missing);
        }
        for question in &mut report.questions {
            self.name(&mut question.missing);
        }
        for document in &mut report.documents {
            self.name_paper(&mut document.id);
        }
    }

    fn name_each(&self, missing: &mut [MissingReport]) {
        missing.iter_mut().for_each(|one| self.name(one));
    }

    /// `answers.in-flood-area` becomes `answers.my-town/in-flood-area`.
    fn name(&self, missing: &mut MissingReport) {
        if missing.kind == "document" {
            self.name_paper(&mut missing.name);
        } else if self.clashes.contains_key(&missing.name) {
            missing.name = match missing.name.split_once('.') {
                Some((kind, word)) => format!("{kind}.{}", with_name(self.rule_set, word)),
                None => with_name(self.rule_set, &missing.name),
            };
        }
    }

    fn name_paper(&self, paper: &mut String) {
        if self.clashes.contains_key(&format!("{PAPERS}.{paper}")) {
            *paper = with_name(self.rule_set, paper);
        }
    }
}
