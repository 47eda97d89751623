//! What the library finds in what somebody writes at the desk: faults, sentences, and what the cases come to.

use std::rc::Rc;

use rules_core::asked::unasked;
use rules_core::cases::{Shown, Tried, shown, try_node, unexercised};
use rules_core::edges::made_to_text;
use rules_core::ruleset::say::{ReadBack, read_back};
use rules_core::text::{self, FaultRow, Faults, Node};
use rules_core::{Refused, RulesRead};

use crate::rules::rules_of;

/// A fault and the bundled file in which it stands; `None` for the file that was given.
#[derive(Debug, Clone)]
pub struct FileRow {
    /// The bundled file.
    pub file: Option<String>,
    /// What is wrong.
    pub row: FaultRow,
}

/// What is found in a rule file and its cases.
#[derive(Debug, Default)]
pub struct Found {
    /// What is wrong with the rules.
    pub faults: Vec<FileRow>,
    /// What looks like a slip.
    pub slips: Vec<FileRow>,
    /// What nobody is asked about, in sentences.
    pub unasked: Vec<String>,
    /// The rules; none where they are at fault.
    pub rules: Option<Rc<RulesRead>>,
    /// What they say; none where they are at fault.
    pub said: Option<ReadBack>,
    /// What its cases come to.
    pub cases: Cases,
}

/// What the cases of a rule file come to.
#[derive(Debug, Default)]
pub struct Cases {
    /// Each of them.
    pub tried: Vec<Tried>,
    /// What they have shown of each rule.
    pub shown: Vec<Shown>,
    /// What is wrong with the text of the cases.
    pub faults: Vec<FaultRow>,
}

/// Reads a rule file and tries its cases; where there is no text of cases, those in the file itself.
pub fn found(rules: &str, cases: &str) -> Found {
    if rules.trim().is_empty() {
        return Found::default();
    }
    let read = match rules_of(rules) {
        Ok(read) => read,
        Err(refusal) => {
            return Found {
                faults: rows(&refusal.rules, |file| &file.faults),
                slips: rows(&refusal.rules, |file| &file.slips),
                ..Found::default()
            };
        }
    };
    let tried = tried(&read, rules, cases);
    let mut slips = rows(&read.warnings, |file| &file.faults);
    if !tried.tried.is_empty() {
        let untried = unexercised(&read.rule_set, &tried.tried).rows(rules);
        slips.extend(untried.into_iter().map(|row| FileRow { file: None, row }));
    }
    Found {
        slips,
        unasked: unasked(&read.rule_set),
        said: Some(read_back(&read.rule_set)),
        cases: tried,
        faults: Vec::new(),
        rules: Some(read),
    }
}

/// What is wrong with files, each fault with its place.
pub fn rows(files: &[Refused], of: impl Fn(&Refused) -> &Faults) -> Vec<FileRow> {
    let rows = |file: &Refused| {
        let name = file.name.clone();
        let rows = of(file).rows(&file.text).into_iter();
        rows.map(move |row| FileRow {
            file: name.clone(),
            row,
        })
    };
    files.iter().flat_map(rows).collect()
}

/// The cases of a text, or those in the rule file itself.
fn cases_of(read: &RulesRead, cases: &str) -> Option<Result<Node, Faults>> {
    match cases.trim().is_empty() {
        true => read.cases.clone().map(Ok),
        false => Some(text::read(cases)),
    }
}

fn tried(read: &RulesRead, rules: &str, cases: &str) -> Cases {
    let Some(node) = cases_of(read, cases) else {
        return Cases::default();
    };
    match node.and_then(|node| try_node(&read.rule_set, &node)) {
        Ok(tried) => Cases {
            shown: shown(&read.rule_set, &tried),
            tried,
            faults: Vec::new(),
        },
        Err(faults) => Cases {
            faults: faults.rows(if cases.trim().is_empty() {
                rules
            } else {
                cases
            }),
            ..Cases::default()
        },
    }
}

/// A case on each side of each limit, to be put under `cases`; none where there are no cases to make them from.
pub fn made(read: &RulesRead, cases: &str) -> Option<String> {
    let node = cases_of(read, cases)?.ok()?;
    let text = made_to_text(&read.rule_set, &node).ok()?;
    Some(String::from(text))
}

/// A text with cases made for it at the end of those under `cases`, which stand last in it.
pub fn with_cases(text: &str, made: &str) -> String {
    let place = rules_core::hints::end_of_section(text, "cases");
    let (before, after) = text
        .split_at_checked(place.unwrap_or(text.len()))
        .unwrap_or((text, ""));
    format!(
        "{}\n{}\n{}",
        before.trim_end(),
        made.trim_end(),
        after.trim_start_matches('\n')
    )
}
