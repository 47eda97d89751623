//! Steps in words.

use super::nouns::{in_quotes, listed, without_stop};
use super::values::stated_words;
use crate::ruleset::Duty;
use crate::text::capitalised;

/// Days and moments of every site, as they follow `before` or `after`.
const MOMENTS: [(&str, &str); 19] = [
    ("applied", "the application"),
    ("apply", "the application"),
    ("barrier", "the barrier is up"),
    ("build", "building"),
    ("complete", "the application is complete"),
    ("dig", "digging"),
    ("excavation", "digging"),
    ("fence", "the fence is up"),
    ("fill", "the pool is filled"),
    ("filled", "the pool is filled"),
    ("final-inspection", "the final inspection"),
    ("inspection", "the inspection"),
    ("notified", "the neighbours are notified"),
    ("permit", "the permit"),
    ("permit-issued", "the permit is issued"),
    ("registered", "the pool is registered"),
    ("sale", "the sale"),
    ("use", "the pool is used"),
    ("works-started", "the works start"),
];

/// What comes before or after a step: `the pool is filled`, `the step “pour”`.
fn moment_words(step: &String) -> String {
    let known = MOMENTS.iter().find(|(id, _)| id == step);
    known.map_or_else(
        || format!("the step {}", in_quotes(step)),
        |(_, words)| (*words).to_owned(),
    )
}

/// `Notify the neighbours in writing, at least 14 days before the application.`
pub fn duty_sentence(duty: &Duty, sure: bool) -> String {
    let steps = |steps: &[String]| {
        let mut named: Vec<String> = steps.iter().map(moment_words).collect();
        named.dedup();
        listed(&named, "and")
    };
    let mut text = without_stop(&duty.what).to_owned();
    let by = duty.by.as_ref().map(stated_words);
    let lead = by.map(|by| format!("at least {by} ")).unwrap_or_default();
    if !duty.before.is_empty() {
        text.push_str(&format!(", {lead}before {}", steps(&duty.before)));
    }
    if !duty.after.is_empty() {
        let lead = if duty.before.is_empty() {
            lead.as_str()
        } else {
            ""
        };
        text.push_str(&format!(", {lead}after {}", steps(&duty.after)));
    }
    let rest = [
        duty.who.as_ref().map(|who| format!("done by {who}")),
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
    let stop = if text.ends_with('.') { "" } else { "." };
    format!("{}{stop}", capitalised(&text))
}
