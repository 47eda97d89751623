//! The rules beside those in force, and what both make of the plans that are open.

use super::super::keyed::{El, button, el};
use super::super::prose::told;
use super::{bundled, compares, file_field, option};
use crate::clerk::Found;
use crate::compared::{Compared, OfPlan, compared, on_the_sheet, with_comparing};
use crate::draft::rules_held;
use crate::words::{fill, t};

/// The choice of the rules in force and of the plans, and what comes of it.
pub fn of(found: &Found) -> El {
    let section = el("section").id("desk-compare");
    let section = section.with(el("h3").with(t("desk.compare")));
    let section = section
        .with(el("p").class("hint").with(t("desk.compare.what")))
        .with(in_force())
        .with(plans());
    let came = found
        .rules
        .as_ref()
        .and_then(|read| compared(read, &rules_held().text));
    let none = || el("p").class("hint").with(t("desk.mend-first"));
    section
        .with((found.rules.is_none() && compares()).then(none))
        .with(came.map(|came| result(&came)))
}

fn in_force() -> El {
    let (bundled_id, opened) = with_comparing(|comparing| {
        let opened = comparing.opened.as_ref().map(|file| file.name.clone());
        (comparing.bundled.clone(), opened)
    });
    let is_open = opened.is_some();
    let none = bundled_id.is_none() && !is_open;
    let chosen = bundled_id.as_deref().filter(|_| !is_open);
    el("div")
        .class("row")
        .with(
            el("label")
                .class("ask")
                .set("for", "compare-with")
                .with(t("desk.compare.with")),
        )
        .with(
            el("select")
                .id("compare-with")
                .does("compare-with")
                .with(option("", t("where.choose"), none))
                .with(opened.map(|name| option("opened", name, true)))
                .each(bundled(chosen)),
        )
        .with(
            button("compare-open")
                .id("compare-open")
                .with(t("desk.compare.open")),
        )
        .with(file_field(
            "compare-file",
            "compare-file",
            "desk.compare.open",
        ))
}

fn plans() -> El {
    let opened = with_comparing(|comparing| {
        let names = comparing.plans.iter().map(|plan| plan.name.clone());
        names.collect::<Vec<_>>()
    });
    let sheet = on_the_sheet().map(|plan| el("li").with(plan.name));
    let none = sheet.is_none() && opened.is_empty();
    let files = opened.iter().enumerate().map(|(number, name)| {
        let close = button("plan-closed")
            .class("plain")
            .id(format!("plan-close-{number}"))
            .set("data-n", number.to_string())
            .set(
                "aria-label",
                fill("desk.compare.close-plan", &[("plan", name)]),
            )
            .with(t("desk.compare.close"));
        el("li").with(name).with(" ").with(close)
    });
    let field = file_field("plan-files", "plan-files", "desk.compare.plans-open");
    el("div")
        .id("compare-plans")
        .with(el("h4").with(t("desk.compare.plans")))
        .with(none.then(|| el("p").class("hint").with(t("desk.compare.no-plans"))))
        .with(el("ul").with(sheet).each(files))
        .with(
            button("plans-open")
                .id("plans-open")
                .with(t("desk.compare.plans-open")),
        )
        .with(field.is("multiple", true))
}

fn result(came: &Compared) -> El {
    let faults = came.faults.iter();
    let faults = faults.map(|one| {
        let line = one
            .row
            .line
            .map(|line| fill("desk.line", &[("n", &line.to_string())]));
        let message = told(&one.row.message, one.row.help.as_deref());
        el("li").class("fault").with(line).with(" ").with(message)
    });
    let bad = !came.faults.is_empty();
    let sum = (!came.summary.is_empty()).then(|| {
        el("p")
            .id("compare-summary")
            .class("told")
            .said()
            .with(&came.summary)
    });
    el("div")
        .id("compare-result")
        .with(bad.then(|| el("p").with(t("desk.compare.faults"))))
        .with(bad.then(|| el("ul").each(faults)))
        .with(sum)
        .with((!bad).then(|| el("h4").with(t("desk.compare.says"))))
        .with((!bad).then(|| pre("compare-changes", &came.changes)))
        .each(came.plans.iter().enumerate().map(of_plan))
}

fn pre(id: impl Into<String>, text: &str) -> El {
    el("pre").class("told").id(id.into()).said().with(text)
}

fn of_plan((number, plan): (usize, &OfPlan)) -> El {
    let left_out = !plan.left_out.is_empty();
    let faults = plan.faults.iter().map(|row| {
        el("li")
            .class("fault")
            .with(told(&row.message, row.help.as_deref()))
    });
    let bad = !plan.faults.is_empty();
    let mark = if plan.fails || bad { "× " } else { "" };
    el("details")
        .class("about")
        .id(format!("compared-{number}"))
        .is("open", plan.fails)
        .with(el("summary").with(mark).with(&plan.name))
        .with(bad.then(|| el("ul").each(faults)))
        .with((!bad).then(|| pre(format!("compared-told-{number}"), &plan.told)))
        .with(left_out.then(|| {
            let what = plan.left_out.join(", ");
            el("p")
                .class("hint")
                .with(fill("desk.compare.left-out", &[("what", &what)]))
        }))
}
