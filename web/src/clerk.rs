//! For whoever writes a rule file: its faults, what it says in sentences, and what its cases come to.

use rules_core::cases::{Shown, Tried, shown, try_node};
use rules_core::ruleset::say::{Line, Said, read_back as said_back};
use rules_core::text::{self, FaultRow, Faults, Node};
use rules_core::{Refused, RulesRead, read_rules, refusal_to_json};
use serde::Serialize;
use serde_json::{Value, json};
use wasm_bindgen::prelude::wasm_bindgen;

use crate::written::written;

/// A fault and the bundled file in which it stands; `None` for the file that was given.
#[derive(Serialize)]
struct FileRow<'a> {
    file: Option<&'a str>,
    #[serde(flatten)]
    row: FaultRow,
}

/// All that is wrong with a rule file, and what looks like a slip: `{"faults": […], "warnings": […]}`.
#[wasm_bindgen]
pub fn faults(rules: &str) -> String {
    let (faults, warnings) = match read_rules(rules, &|name| siting_rulesets::rules(name)) {
        Ok(read) => (Vec::new(), read.warnings),
        Err(refusal) => (refusal.rules, Vec::new()),
    };
    json!({"faults": rows(&faults), "warnings": rows(&warnings)}).to_string()
}

fn rows(files: &[Refused]) -> Vec<FileRow<'_>> {
    let mut all = Vec::new();
    for file in files {
        let rows = file.faults.rows(&file.text).into_iter();
        all.extend(rows.map(|row| FileRow {
            file: file.name.as_deref(),
            row,
        }));
    }
    all
}

/// What a rule file says, in sentences: `{"title", "groups": [{"title", "rules": [{"id", "title", "clause", "lines"}]}]}`;
/// a line is `{"text", "under": [lines]}`.
#[wasm_bindgen]
pub fn read_back(rules: &str) -> String {
    let read = match read_rules(rules, &|name| siting_rulesets::rules(name)) {
        Ok(read) => read,
        Err(refusal) => return refusal_to_json(&refusal),
    };
    let back = said_back(&read.rule_set);
    let groups: Vec<Value> = (back.groups.iter())
        .filter(|group| !group.said.is_empty())
        .map(|group| json!({"title": group.sort.title(), "rules": group.said.iter().map(said_row).collect::<Vec<_>>()}))
        .collect();
    json!({"title": back.title, "groups": groups}).to_string()
}

fn said_row(said: &Said) -> Value {
    let lines: Vec<Value> = said.lines.iter().map(line_row).collect();
    json!({"id": said.id, "title": said.title, "clause": said.clause, "lines": lines})
}

fn line_row(line: &Line) -> Value {
    let under: Vec<Value> = line.under.iter().map(line_row).collect();
    json!({"text": line.sentence(), "under": under})
}

/// What the cases of a rule file come to: `{"cases": […], "shown": […]}`, or `{"faults": […]}` where the cases
/// themselves are at fault. Without a text of cases, those in the rule file itself are tried.
#[wasm_bindgen]
pub fn try_cases(rules: &str, cases: &str) -> String {
    let read = match read_rules(rules, &|name| siting_rulesets::rules(name)) {
        Ok(read) => read,
        Err(refusal) => return refusal_to_json(&refusal),
    };
    match tried(&read, cases) {
        Ok((tried, shown)) => json!({
            "cases": tried.iter().map(tried_row).collect::<Vec<_>>(),
            "shown": shown.iter().map(shown_row).collect::<Vec<_>>(),
        })
        .to_string(),
        Err(faults) => written(&json!({"faults": faults.rows(cases)})),
    }
}

fn tried(read: &RulesRead, cases: &str) -> Result<(Vec<Tried>, Vec<Shown>), Faults> {
    let own = read.cases.clone().filter(|_| cases.trim().is_empty());
    let node: Node = match own {
        Some(own) => own,
        None => text::read(cases)?,
    };
    let tried = try_node(&read.rule_set, &node)?;
    let shown = shown(&read.rule_set, &tried);
    Ok((tried, shown))
}

fn tried_row(tried: &Tried) -> Value {
    let outcomes: serde_json::Map<String, Value> = tried
        .outcomes
        .iter()
        .map(|(rule, outcome)| (rule.clone(), json!(outcome.word())))
        .collect();
    json!({"case": tried.case, "title": tried.title, "outcomes": outcomes, "wrong": tried.wrong})
}

fn shown_row(shown: &Shown) -> Value {
    json!({"rule": shown.rule, "passing": shown.passing, "failing": shown.failing, "open": shown.open})
}
