//! What the cases come to, which clauses none touches, and cases made for the writer.

use rules_core::cases::{Shown, Tried};

use super::super::keyed::{El, button, el};
use super::super::prose::prose;
use crate::clerk::{Cases, Found};
use crate::draft::{rules_held, with_draft};
use crate::words::{count, t};

/// The cases of the rules in the field; nothing while the rules are at fault.
pub fn of(found: &Found) -> El {
    let section = el("section")
        .id("desk-cases")
        .with(el("h3").with(t("desk.cases")));
    if found.rules.is_none() {
        return section.with(el("p").class("hint").with(t("desk.cases.first")));
    }
    let Cases {
        tried,
        shown,
        faults,
    } = &found.cases;
    if tried.is_empty() {
        let key = if faults.is_empty() {
            "desk.no-cases"
        } else {
            "desk.cases.faults"
        };
        return section.with(el("p").with(t(key)));
    }
    let bad = tried.iter().filter(|case| !case.wrong.is_empty()).count();
    section
        .with(
            el("p")
                .id("desk-counts")
                .class("row")
                .with((bad > 0).then(|| badge("bad", count("desk.cases.bad", bad))))
                .with(badge("good", count("desk.cases.good", tried.len() - bad))),
        )
        .with(el("ul").each(tried.iter().map(of_case)))
        .with(untouched(shown))
        .with(made())
}

fn badge(class: &'static str, said: String) -> El {
    el("span").class(class).with(said)
}

fn of_case(case: &Tried) -> El {
    let is_good = case.wrong.is_empty();
    let mark = if is_good { "✓ " } else { "× " };
    let sign = el("span")
        .class("sign")
        .set("aria-hidden", "true")
        .with(mark);
    let title = to_entry("cases", &case.case).with(if case.title.is_empty() {
        &case.case
    } else {
        &case.title
    });
    let wrong = case.wrong.iter();
    el("li")
        .id(format!("case-{}", case.case))
        .class(if is_good { "good" } else { "bad" })
        .with(sign)
        .with(title)
        .with(is_good.then(|| {
            el("span")
                .class("hint")
                .with(format!(" {}", t("desk.as-expected")))
        }))
        .each(wrong.map(|wrong| el("p").said().with(prose(wrong))))
}

/// The clauses that no case touches.
fn untouched(shown: &[Shown]) -> Option<El> {
    let all = shown.iter().filter(|one| one.lacking().len() == 3);
    let all: Vec<El> = all.map(of_clause).collect();
    (!all.is_empty()).then(|| {
        el("div")
            .id("desk-untouched")
            .with(el("h4").with(t("desk.cases.untouched")))
            .with(el("ul").each(all))
    })
}

/// A button that leads to an entry of the file.
fn to_entry(section: &'static str, id: &str) -> El {
    button("said-chosen")
        .class("plain")
        .set("data-section", section)
        .set("data-id", id.to_owned())
}

fn of_clause(one: &Shown) -> El {
    let rule = to_entry("rules", &one.rule).with(&one.clause);
    el("li")
        .class("odd")
        .with(rule)
        .with(" ")
        .with(el("span").class("hint").with(&one.rule))
}

/// Cases on each side of each limit, as text to add.
fn made() -> El {
    let made = with_draft(|draft| draft.made.clone());
    let part = el("div").id("desk-made");
    let Some(made) = made else {
        return part.with(
            button("cases-made")
                .id("cases-make")
                .with(t("desk.cases.make")),
        );
    };
    let has_place = !rules_held().cases.trim().is_empty() || rules_held().text.contains("\ncases:");
    part.with(el("h4").with(t("desk.cases.made")))
        .with(el("p").class("hint").with(t("desk.cases.made-what")))
        .with(
            el("pre")
                .class("told")
                .set("tabindex", "0")
                .set("aria-label", t("desk.cases.made"))
                .said()
                .with(made),
        )
        .with(
            el("p")
                .class("row")
                .with(has_place.then(|| {
                    button("cases-added")
                        .id("cases-add")
                        .with(t("desk.cases.add"))
                }))
                .with(
                    button("cases-left")
                        .id("cases-leave")
                        .with(t("desk.cases.leave")),
                ),
        )
}
