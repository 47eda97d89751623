//! Several reports made one: what two of them say in the same words is one entry, with the names of both.

use std::collections::BTreeMap;

use crate::report::{
    AskReport, CautionReport, DecisionReport, DocumentReport, DutyReport, GovernsReport,
    LimitReport, Question, Report, RuleReport, ScopeReport,
};
use crate::ruleset::with_name;

/// What is listed in the report of all.
pub(super) struct Lists {
    pub rules: Vec<RuleReport>,
    pub decisions: Vec<DecisionReport>,
    pub documents: Vec<DocumentReport>,
    pub duties: Vec<DutyReport>,
    pub cautions: Vec<CautionReport>,
    pub questions: Vec<Question>,
}

/// The lists of all reports made one, and under which id each rule stands there.
pub(super) fn merged(mut reports: Vec<(String, Report)>) -> (Lists, Ids) {
    let (mut rules, ids) = one_list(take(&mut reports, |report| &mut report.rules), RULES);
    for (rule_set, report) in &mut reports {
        let asked = report.questions.iter_mut().map(|one| &mut one.rules);
        let papers = report.documents.iter_mut().map(|one| &mut one.rules);
        asked
            .chain(papers)
            .for_each(|rules| ids.put_in(rule_set, rules));
    }
    let (documents, papers) = one_list(take(&mut reports, |it| &mut it.documents), PAPERS);
    for rule in &mut rules {
        let rule_set = rule.rule_sets.first().cloned().unwrap_or_default();
        papers.put_in(&rule_set, &mut rule.documents);
    }
    let (mut questions, _) = one_list(take(&mut reports, |it| &mut it.questions), QUESTIONS);
    questions.sort_by_key(|question| std::cmp::Reverse(question.rules.len()));
    let (mut cautions, _) = one_list(take(&mut reports, |it| &mut it.cautions), CAUTIONS);
    // The program's own stand last; the sort is stable.
    cautions.sort_by_key(|caution| caution.by);
    let (mut duties, steps) = one_list(take(&mut reports, |it| &mut it.duties), DUTIES);
    for duty in &mut duties {
        let rule_set = duty.rule_sets.first().cloned().unwrap_or_default();
        steps.put_in(&rule_set, &mut duty.before);
        steps.put_in(&rule_set, &mut duty.after);
    }
    let (decisions, _) = one_list(take(&mut reports, |it| &mut it.decisions), DECISIONS);
    let lists = Lists {
        rules,
        decisions,
        documents,
        duties,
        cautions,
        questions,
    };
    (lists, ids)
}

/// Takes one list out of each report.
fn take<T>(
    reports: &mut [(String, Report)],
    list: impl Fn(&mut Report) -> &mut Vec<T>,
) -> Vec<(String, Vec<T>)> {
    let each = reports.iter_mut();
    each.map(|(id, report)| (id.clone(), std::mem::take(list(report))))
        .collect()
}

/// Under which id each entry of each rule set stands in the report of all.
pub(super) struct Ids(BTreeMap<(String, String), String>);

impl Ids {
    fn of(&self, rule_set: &str, id: &str) -> String {
        let known = self.0.get(&(rule_set.to_owned(), id.to_owned()));
        known.cloned().unwrap_or_else(|| id.to_owned())
    }

    fn put_in(&self, rule_set: &str, ids: &mut [String]) {
        ids.iter_mut().for_each(|id| *id = self.of(rule_set, id));
    }

    pub(super) fn of_both(&self, governs: GovernsReport) -> GovernsReport {
        let limit = |limit: LimitReport| LimitReport {
            rule: self.of(&limit.rule_set, &limit.rule),
            ..limit
        };
        GovernsReport {
            governs: limit(governs.governs),
            over: limit(governs.over),
            ..governs
        }
    }
}

/// How the entries of a list are made one.
struct How<T> {
    /// The id of one; none where it has none.
    id: fn(&mut T) -> Option<&mut String>,
    rule_sets: fn(&mut T) -> &mut Vec<String>,
    /// Whether two of different rule sets are said once.
    same: fn(&T, &T) -> bool,
    /// What of the second is added to the first.
    add: fn(&mut T, T),
}

const RULES: How<RuleReport> = How {
    id: |it| Some(&mut it.id),
    rule_sets: |it| &mut it.rule_sets,
    same: |one, other| one == other,
    add: |_, _| {},
};

const DECISIONS: How<DecisionReport> = How {
    id: |it| Some(&mut it.id),
    rule_sets: |it| &mut it.rule_sets,
    same: |one, other| one == other,
    add: |_, _| {},
};

/// Two that anybody would take for the same piece of paper, and that stand alike.
const PAPERS: How<DocumentReport> = How {
    id: |it| Some(&mut it.id),
    rule_sets: |it| &mut it.rule_sets,
    same: |one, other| {
        (&one.title, &one.subject, &one.from, &one.form)
            == (&other.title, &other.subject, &other.from, &other.form)
            && (one.state, one.discretion) == (other.state, other.discretion)
    },
    add: |one, other| {
        if other.need < one.need {
            one.need = other.need;
            one.sentence = other.sentence;
        }
        add_new(&mut one.rules, other.rules);
    },
};

const DUTIES: How<DutyReport> = How {
    id: |it| Some(&mut it.id),
    rule_sets: |it| &mut it.rule_sets,
    same: |one, other| one.sentence == other.sentence,
    add: |_, _| {},
};

const CAUTIONS: How<CautionReport> = How {
    id: |it| Some(&mut it.id),
    rule_sets: |it| &mut it.rule_sets,
    same: |one, other| one.says == other.says,
    add: |_, _| {},
};

const QUESTIONS: How<Question> = How {
    id: |_| None,
    rule_sets: |it| &mut it.rule_sets,
    same: |one, other| one.missing == other.missing,
    add: |one, other| add_new(&mut one.rules, other.rules),
};

fn add_new(list: &mut Vec<String>, more: Vec<String>) {
    for one in more {
        if !list.contains(&one) {
            list.push(one);
        }
    }
}

/// An entry, the rule sets that it comes from, and its id in each of them.
struct Said<T> {
    entry: T,
    by: Vec<(String, String)>,
}

fn one_list<T>(lists: Vec<(String, Vec<T>)>, how: How<T>) -> (Vec<T>, Ids) {
    let mut all: Vec<Said<T>> = Vec::new();
    for (rule_set, list) in lists {
        for mut entry in list {
            let id = (how.id)(&mut entry).cloned().unwrap_or_default();
            let by = (rule_set.clone(), id);
            let others = |said: &&mut Said<T>| said.by.iter().all(|(set, _)| *set != rule_set);
            let mut said = all.iter_mut().filter(others);
            match said.find(|said| (how.same)(&said.entry, &entry)) {
                Some(said) => {
                    (how.add)(&mut said.entry, entry);
                    said.by.push(by);
                }
                None => all.push(Said {
                    entry,
                    by: vec![by],
                }),
            }
        }
    }
    with_names(all, &how)
}

/// Gives each entry the names of its rule sets, before its id too where another rule set has another thing of that id.
fn with_names<T>(all: Vec<Said<T>>, how: &How<T>) -> (Vec<T>, Ids) {
    let mut sets_of: BTreeMap<String, Vec<Vec<String>>> = BTreeMap::new();
    for said in &all {
        let id = said.by.first().map(|(_, id)| id.clone());
        let sets = said.by.iter().map(|(set, _)| set.clone()).collect();
        sets_of
            .entry(id.unwrap_or_default())
            .or_default()
            .push(sets);
    }
    let mut ids = BTreeMap::new();
    let entries = all.into_iter().map(|said| {
        let (mut entry, by) = (said.entry, said.by);
        let (first, own) = by.first().cloned().unwrap_or_default();
        let anothers = |sets: &Vec<String>| by.iter().all(|(set, _)| !sets.contains(set));
        let taken = sets_of
            .get(&own)
            .is_some_and(|all| all.iter().any(anothers));
        if let (true, Some(id)) = (taken, (how.id)(&mut entry)) {
            *id = with_name(&first, &own);
        }
        if let Some(id) = (how.id)(&mut entry) {
            ids.extend(by.iter().cloned().map(|key| (key, id.clone())));
        }
        let sets = by.into_iter().map(|(set, _)| set);
        (how.rule_sets)(&mut entry).extend(sets);
        entry
    });
    (entries.collect(), Ids(ids))
}

/// What several rule sets say in the same words of what they leave out is said once.
pub(super) fn scope_once(mut scope: ScopeReport) -> ScopeReport {
    for matter in &mut scope.open {
        let said = std::mem::take(&mut matter.ask);
        for ask in said {
            let same = |other: &&mut AskReport| (&other.who, &other.why) == (&ask.who, &ask.why);
            match matter.ask.iter_mut().find(same) {
                Some(other) => also(&mut other.rule_set, ask.rule_set),
                None => matter.ask.push(ask),
            }
        }
    }
    let said = std::mem::take(&mut scope.on_top);
    for top in said {
        match scope.on_top.iter_mut().find(|it| it.says == top.says) {
            Some(other) => other.rule_set = format!("{}, {}", other.rule_set, top.rule_set),
            None => scope.on_top.push(top),
        }
    }
    scope
}

fn also(named: &mut Option<String>, more: Option<String>) {
    if let (Some(named), Some(more)) = (named, more) {
        *named = format!("{named}, {more}");
    }
}
