//! What is to be done, and when.

use js_sys::{Date, Object, Reflect};
use rules_core::report::DutyReport;
use rules_core::steps::{Step, day};
use wasm_bindgen::JsValue;

use super::keyed::{El, el};
use super::marks::origin;
use super::papers::{aside, section};
use super::prose::prose;
use crate::check::Answered;
use crate::looks::with_looks;
use crate::words::{fill, t, tongue};

/// The duties in time, with their days once somebody has said when they want to begin.
pub fn steps(good: &Answered) -> Option<El> {
    let duties = good.report.duties.as_slice();
    let start = with_looks(|looks| looks.start.clone());
    let field = el("input")
        .set("type", "date")
        .id("start")
        .does("start-chosen")
        .set("value", start.clone().unwrap_or_default());
    let ask = el("label")
        .class("ask")
        .set("for", "start")
        .with(t("papers.start"));
    let undated = || {
        let duty = |duty: &DutyReport| {
            el("li")
                .said()
                .with(prose(&duty.sentence))
                .with(origin(duty.mark.as_ref()))
        };
        el("ol").class("steps").each(duties.iter().map(duty))
    };
    let part = || {
        section("steps", "papers.steps")
            .with(el("div").class("question").with(ask).with(field))
            .with(
                start
                    .and_then(|start| dated(good, &start))
                    .unwrap_or_else(undated),
            )
    };
    (!duties.is_empty()).then(part)
}

fn dated(good: &Answered, start: &str) -> Option<El> {
    match day(start) {
        Ok(start) => {
            let steps = good.steps(start)?.steps;
            Some(el("ol").class("steps").each(steps.iter().map(step)))
        }
        Err(wrong) => Some(el("p").class("wrong").said().with(wrong)),
    }
}

fn step(step: &Step) -> El {
    let who = step
        .who
        .as_ref()
        .map(|who| aside(fill("papers.by", &[("who", who)])));
    let days = el("span").class("days").with(span(step));
    el("li").with(days).with(" ").with(&step.what).with(who)
}

fn span(step: &Step) -> String {
    let [earliest, done] = [&step.earliest, &step.done].map(|text| day_said(text));
    if step.earliest == step.done {
        earliest
    } else {
        format!("{earliest} – {done}")
    }
}

/// A day as people write it in the page's language.
fn day_said(text: &str) -> String {
    let date = Date::new(&JsValue::from_str(&format!("{text}T00:00:00")));
    if date.get_time().is_nan() {
        return text.to_owned();
    }
    let how = Object::new();
    for (part, length) in [("day", "numeric"), ("month", "short"), ("year", "numeric")] {
        // A new object takes any value.
        let _ = Reflect::set(&how, &part.into(), &length.into());
    }
    date.to_locale_date_string(&tongue(), &how).into()
}
