//! Steps in words.

use super::nouns::listed;
use super::values::stated_words;
use crate::ruleset::Duty;
use crate::text::capitalised;

/// `Notify the neighbours in writing, at least 14 days before: apply.`
pub fn duty_sentence(duty: &Duty, sure: bool) -> String {
    let steps = |steps: &[String]| {
        let steps: Vec<String> = steps.iter().map(|step| step.replace('-', " ")).collect();
        listed(&steps, "and")
    };
    let mut text = duty.what.trim_end_matches('.').to_owned();
    let by = duty.by.as_ref().map(stated_words);
    let lead = by.map(|by| format!("at least {by} ")).unwrap_or_default();
    if !duty.before.is_empty() {
        text.push_str(&format!(", {lead}before: {}", steps(&duty.before)));
    }
    if !duty.after.is_empty() {
        let lead = if duty.before.is_empty() {
            lead.as_str()
        } else {
            ""
        };
        text.push_str(&format!(", {lead}after: {}", steps(&duty.after)));
    }
    let rest = [
        duty.who.as_ref().map(|who| format!("by {who}")),
        duty.within.as_ref().map(
            |span| match duty.after.is_empty() && !duty.before.is_empty() {
                true => format!("no more than {} ahead", stated_words(span)),
                false => format!("within {}", stated_words(span)),
            },
        ),
        duty.takes
            .as_ref()
            .map(|span| format!("takes {}", stated_words(span))),
        duty.every
            .as_ref()
            .map(|span| format!("again every {}", stated_words(span))),
        (!sure).then(|| "if it applies".to_owned()),
    ];
    for one in rest.into_iter().flatten() {
        text.push_str(&format!("; {one}"));
    }
    format!("{}.", capitalised(&text))
}
