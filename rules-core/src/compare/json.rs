//! The comparison as JSON, for another program.

use serde_json::{Value, json};

use super::{Change, Changed, Changes, PlanCompared};
use crate::ruleset::say::{Line, Said, Sort};

/// What changes, and what becomes of each plan, as
/// `{"same", "head", "changes": [{"sort", "added", "removed", "renamed", "changed"}], "plans": […]}`. Each plan stands with the
/// name of its file.
pub fn to_json(changes: &Changes, plans: &[(String, PlanCompared)]) -> String {
    let head = changes.head.as_ref();
    let head = head.map(|(then, now)| json!({"then": lines(then), "now": lines(now)}));
    let groups: Vec<Value> = changes.groups.iter().map(group).collect();
    let each_plan = plans.iter().map(|(file, plan)| of_plan(file, plan));
    let counted = |is: fn(&PlanCompared) -> bool| plans.iter().filter(|(_, plan)| is(plan)).count();
    let whole = json!({
        "same": changes.is_empty(),
        "head": head,
        "changes": groups,
        "summary": {
            "plans": plans.len(),
            "newly-fail": counted(PlanCompared::newly_fails),
            "no-longer-fail": counted(PlanCompared::no_longer_fails),
            "as-before": counted(PlanCompared::is_same),
        },
        "plans": each_plan.collect::<Vec<Value>>(),
    });
    format!("{whole:#}\n")
}

fn group((sort, changed): &(Sort, Changed)) -> Value {
    let all = |list: &[Said]| list.iter().map(said).collect::<Vec<_>>();
    let renamed = changed.renamed.iter();
    let renamed = renamed.map(|(then, now)| json!({"then": said(then), "now": said(now)}));
    json!({
        "sort": sort.word(),
        "added": all(&changed.added),
        "removed": all(&changed.removed),
        "renamed": renamed.collect::<Vec<_>>(),
        "changed": changed.changed.iter().map(change).collect::<Vec<_>>(),
    })
}

fn change(change: &Change) -> Value {
    let effect = change.effect.as_ref();
    let effect = effect.map(|effect| json!({"word": effect.word, "sentence": effect.sentence}));
    json!({"then": said(&change.then), "now": said(&change.now), "effect": effect})
}

fn said(said: &Said) -> Value {
    json!({"id": said.id, "title": said.title, "clause": said.clause, "lines": lines(&said.lines)})
}

fn lines(all: &[Line]) -> Vec<Value> {
    let line = |line: &Line| json!({"text": line.sentence(), "under": lines(&line.under)});
    all.iter().map(line).collect()
}

fn of_plan(file: &str, plan: &PlanCompared) -> Value {
    let told = |told: &Option<super::Told>| {
        let told = told.as_ref()?;
        Some(json!({
            "outcome": told.outcome.word(),
            "sentence": told.sentence,
            "measured": told.measured,
        }))
    };
    let rules = plan.rules.iter().map(|rule| {
        let (then, now) = &rule.outcomes;
        json!({"id": rule.id, "title": rule.title, "then": told(then), "now": told(now)})
    });
    let lists = plan.lists.iter().map(|(sort, list)| {
        let list = list.iter();
        let list = list.map(|one| json!({"id": one.id, "then": one.then, "now": one.now}));
        json!({"sort": sort.word(), "entries": list.collect::<Vec<_>>()})
    });
    json!({
        "file": file,
        "title": plan.title,
        "then": plan.verdict.0,
        "now": plan.verdict.1,
        "newly-fails": plan.newly_fails(),
        "rules": rules.collect::<Vec<_>>(),
        "lists": lists.collect::<Vec<_>>(),
    })
}
