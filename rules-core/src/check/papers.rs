//! Which documents are needed, which duties and cautions apply, and what the questions of class come to.

use super::judge::Judge;
use super::scene::{Env, Holder};
use super::{
    Decided, DocumentNeed, Finding, Level, Missing, Need, Outcome, Subject, Truth, missing,
};
use crate::plan::DocumentState;
use crate::ruleset::{
    Decision, Document, DocumentIndex, OnOutcome, Requirement, RowTest, Rule, RuleSet, Table, Then,
};

impl Need {
    fn of(truth: Truth) -> Need {
        match truth {
            Truth::HOLDS => Need::Needed,
            Truth::FAILS | Truth::NOT_APPLICABLE => Need::NotNeeded,
            _ => Need::Perhaps,
        }
    }

    /// The more pressing of two.
    fn or(self, other: Need) -> Need {
        self.min(other)
    }

    /// Needed only so far as something else is.
    fn if_also(self, other: Need) -> Need {
        self.max(other)
    }
}

/// A rule, what was found, and every document that it names in any way.
struct Asking<'f, 'a> {
    finding: &'f Finding<'a>,
    rule: &'a Rule,
    papers: Vec<DocumentIndex>,
}

impl<'f, 'a> Asking<'f, 'a> {
    fn new(finding: &'f Finding<'a>, rule: &'a Rule) -> Self {
        let mut papers = rule.documents.clone();
        papers_in(&rule.require, &mut papers);
        for relief in &rule.reliefs {
            papers_in(&relief.require, &mut papers);
        }
        Asking {
            finding,
            rule,
            papers,
        }
    }
}

impl<'a> Judge<'a> {
    /// Whether each document is needed.
    pub(crate) fn documents(&self, findings: &[Finding<'a>]) -> Vec<DocumentNeed> {
        let rules = self.scene.rules();
        let asking: Vec<Asking<'_, 'a>> = findings
            .iter()
            .filter_map(|finding| Some((finding, rules.rules.get(finding.rule)?)))
            .map(|(finding, rule)| Asking::new(finding, rule))
            .collect();
        rules
            .documents
            .iter()
            .enumerate()
            .map(|(index, document)| self.document(index, document, &asking))
            .collect()
    }

    fn document(
        &self,
        index: DocumentIndex,
        document: &'a Document,
        asking: &[Asking<'_, 'a>],
    ) -> DocumentNeed {
        let mut need = if document.always {
            Need::Needed
        } else {
            Need::NotNeeded
        };
        if let Some(when) = &document.when {
            need = need.or(Need::of(self.truth(when, &Env::EMPTY)));
        }
        let plan = self.scene.plan();
        let state = plan.documents.get(&document.id).copied();
        let state = state.unwrap_or(DocumentState::NotYet);
        let mut calling = Vec::new();
        for Asking {
            finding,
            rule,
            papers,
        } in asking
        {
            let mut own = called_for_by_outcome(&document.on, rule, finding);
            if papers.contains(&index) {
                own = own.or(called_for((index, state), rule, finding));
            }
            if own != Need::NotNeeded {
                calling.push(finding.rule);
            }
            need = need.or(own);
        }
        DocumentNeed {
            document: index,
            need,
            rules: calling,
            state,
        }
    }

    /// The cautions that apply, or may.
    pub(crate) fn cautions(&self) -> Vec<usize> {
        let all = self.scene.rules().cautions.iter().enumerate();
        let applies = |when: &'a Option<Requirement>| {
            when.as_ref()
                .is_none_or(|when| self.truth(when, &Env::EMPTY) != Truth::FAILS)
        };
        all.filter(|(_, caution)| applies(&caution.when))
            .map(|(index, _)| index)
            .collect()
    }

    /// The duties that apply, or may, and whether surely.
    pub(crate) fn duties(&self) -> Vec<(usize, bool)> {
        let all = self.scene.rules().duties.iter().enumerate();
        let truth = |when: &'a Option<Requirement>| {
            when.as_ref()
                .map_or(Truth::HOLDS, |when| self.truth(when, &Env::EMPTY))
        };
        all.map(|(index, duty)| (index, truth(&duty.when)))
            .filter(|(_, truth)| *truth != Truth::FAILS)
            .map(|(index, truth)| (index, truth == Truth::HOLDS))
            .collect()
    }

    /// What the questions of class come to.
    pub(crate) fn decisions(&self) -> Vec<Decided<'a>> {
        let all = self.scene.rules().decisions.iter().enumerate();
        all.flat_map(|(index, decision)| self.decision(index, decision))
            .collect()
    }

    fn decision(&self, index: usize, decision: &'a Decision) -> Vec<Decided<'a>> {
        let Some(selection) = &decision.each else {
            return vec![self.decided(index, decision, Subject::Plan, &Env::EMPTY)];
        };
        let members = self.members(selection, &Env::EMPTY);
        members
            .list
            .into_iter()
            .map(|(holder, sure)| {
                let subject = match holder {
                    Holder::Thing(thing) => Subject::Thing { index: thing, sure },
                    Holder::Unseen(kind) => Subject::Unseen(kind),
                    Holder::Nobody => Subject::Plan,
                };
                let inner = Env::EMPTY;
                self.decided(
                    index,
                    decision,
                    subject,
                    &inner.bind(selection.kind, holder),
                )
            })
            .collect()
    }

    fn decided(
        &self,
        index: usize,
        decision: &'a Decision,
        subject: Subject,
        env: &Env<'_>,
    ) -> Decided<'a> {
        self.scene.take_log();
        let (classes, refer) = self.classes(&decision.table, env);
        let touched = self.scene.take_log();
        let missing = match classes.len() + usize::from(refer) > 1 {
            false => Vec::new(),
            true => missing::of_touched(&self.scene, &touched, false, |scene| {
                let (fewer, _) = self.in_scene(scene).classes(&decision.table, env);
                fewer.len() < classes.len()
            }),
        };
        Decided {
            decision: index,
            subject,
            classes,
            refer,
            missing,
        }
    }

    /// The classes still possible, in the order of the table, and whether the authority may have to say.
    fn classes(&self, table: &'a Table<String>, env: &Env<'_>) -> (Vec<&'a str>, bool) {
        let given = self.rows(table, env, |_, class| Some(class.as_str()), None);
        let refer = given.iter().any(Option::is_none);
        let mut classes: Vec<&str> = Vec::new();
        for class in given.into_iter().flatten() {
            if !classes.contains(&class) {
                classes.push(class);
            }
        }
        (classes, refer)
    }
}

/// Whether a rule calls for a document: by naming it, by requiring it, or by a relief that requires it.
fn called_for(
    (document, state): (DocumentIndex, DocumentState),
    rule: &Rule,
    finding: &Finding<'_>,
) -> Need {
    let applies = match finding.outcome {
        Outcome::NotApplicable => return Need::NotNeeded,
        _ => Need::of(finding.applies),
    };
    let named = if rule.documents.contains(&document) {
        applies
    } else {
        Need::NotNeeded
    };
    let required = applies.if_also(mentions(&rule.require, document));
    let by_relief = rule.reliefs.iter().enumerate().map(|(at, relief)| {
        relieves(at, state, finding).if_also(mentions(&relief.require, document))
    });
    by_relief.fold(named.or(required), Need::or)
}

/// Whether a relief is needed: surely where the rule alone surely fails and the relief is surely open.
///
/// Nobody is sent for a paper that cannot help, as the relief fails for another reason than that it was refused.
fn relieves(at: usize, state: DocumentState, finding: &Finding<'_>) -> Need {
    finding
        .parts
        .iter()
        .filter(|part| part.base.may_be(Level::Fails))
        .filter_map(|part| Some((part, part.reliefs.get(at)?)))
        .filter(|(_, relief)| state == DocumentState::Refused || relief.holds != Truth::FAILS)
        .map(|(part, relief)| {
            let falls_short = if part.base == Truth::FAILS {
                Need::Needed
            } else {
                Need::Perhaps
            };
            falls_short.if_also(Need::of(relief.open))
        })
        .fold(Need::NotNeeded, Need::or)
}

/// Whether a requirement asks for a document: surely where all of it must hold, perhaps where only some must.
fn mentions(requirement: &Requirement, document: DocumentIndex) -> Need {
    let in_list = |list: &[Requirement]| {
        list.iter()
            .map(|member| mentions(member, document))
            .fold(Need::NotNeeded, Need::or)
    };
    let perhaps = |need: Need| need.if_also(Need::Perhaps);
    match requirement {
        Requirement::Have(own) if *own == document => Need::Needed,
        Requirement::All(list) => in_list(list),
        Requirement::Any(list) | Requirement::Count { of: list, .. } => perhaps(in_list(list)),
        Requirement::Not(inner) => perhaps(mentions(inner, document)),
        Requirement::Each(each) => perhaps(mentions(&each.require, document)),
        Requirement::Meets { requirement, .. } => mentions(requirement, document),
        Requirement::Table(table) => perhaps(in_table(table, document)),
        Requirement::Have(_) | Requirement::Test(_) | Requirement::Refer => Need::NotNeeded,
    }
}

/// Every document that a requirement asks for, anywhere.
fn papers_in(requirement: &Requirement, papers: &mut Vec<DocumentIndex>) {
    match requirement {
        Requirement::Have(document) => papers.push(*document),
        Requirement::All(list) | Requirement::Any(list) | Requirement::Count { of: list, .. } => {
            list.iter().for_each(|member| papers_in(member, papers));
        }
        Requirement::Not(inner) => papers_in(inner, papers),
        Requirement::Each(each) => papers_in(&each.require, papers),
        Requirement::Meets { requirement, .. } => papers_in(requirement, papers),
        Requirement::Table(table) => {
            for row in &table.rows {
                if let RowTest::When(when) = &row.test {
                    papers_in(when, papers);
                }
                if let Then::Give(then) = &row.then {
                    papers_in(then, papers);
                }
            }
        }
        Requirement::Test(_) | Requirement::Refer => {}
    }
}

fn in_table(table: &Table<Requirement>, document: DocumentIndex) -> Need {
    let rows = table.rows.iter().flat_map(|row| {
        let when = match &row.test {
            RowTest::When(when) => mentions(when, document),
            _ => Need::NotNeeded,
        };
        let then = match &row.then {
            Then::Give(then) => mentions(then, document),
            Then::Refer => Need::NotNeeded,
        };
        [when, then]
    });
    rows.fold(Need::NotNeeded, Need::or)
}

fn called_for_by_outcome(on: &[OnOutcome], rule: &Rule, finding: &Finding<'_>) -> Need {
    on.iter()
        .filter(|on| on.rule == rule.id)
        .map(|on| {
            let named = on
                .outcomes
                .iter()
                .any(|word| word == finding.outcome.word());
            match named {
                true => Need::Needed,
                false if super::verdict::is_open(finding.outcome) => Need::Perhaps,
                false => Need::NotNeeded,
            }
        })
        .fold(Need::NotNeeded, Need::or)
}

/// What is missing for everything that is open, each thing with the rules that it would help to decide.
pub fn questions(rules: &RuleSet, findings: &[Finding<'_>]) -> Vec<(Missing, Vec<usize>)> {
    let mut all: std::collections::BTreeMap<Missing, Vec<usize>> =
        std::collections::BTreeMap::new();
    for finding in findings
        .iter()
        .filter(|finding| rules.rules.get(finding.rule).is_some())
    {
        for what in &finding.missing {
            all.entry(*what).or_default().push(finding.rule);
        }
    }
    all.into_iter().collect()
}
