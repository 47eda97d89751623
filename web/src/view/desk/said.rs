//! What the file says, in sentences: that of the entry under the cursor is marked, and each leads to its entry.

use rules_core::hints::{Entry, entries, section_of};
use rules_core::ruleset::say::{Group, Line, Said, Sort};

use super::super::keyed::{El, button, el};
use super::super::prose::prose;
use crate::draft::{File, found_last, rules_held, with_draft};
use crate::words::t;

/// The read-back of the last rules without faults.
pub fn of() -> El {
    let found = found_last();
    let text = rules_held().text;
    let places = entries(&text);
    let here = with_draft(|draft| (draft.file == File::Rules).then(|| draft.entry()).flatten());
    let is_stale = with_draft(|draft| draft.found().rules.is_none());
    let section = el("section").id("desk-said").set("tabindex", "0");
    let section = section.set("aria-labelledby", "desk-said-head");
    let section = section.with(el("h3").id("desk-said-head").with(t("desk.said")));
    let Some(back) = &found.said else {
        return section.with(el("p").class("hint").with(t("desk.said.none")));
    };
    let groups = back.groups.iter().filter(|group| !group.said.is_empty());
    section
        .with(is_stale.then(|| el("p").class("hint").with(t("desk.said.before"))))
        .with(
            el("p")
                .class("row")
                .with(
                    button("sign-print")
                        .id("sign-print")
                        .with(t("desk.sign.print")),
                )
                .with(
                    button("sign-save")
                        .id("sign-save")
                        .with(t("desk.sign.save")),
                ),
        )
        .with(el("p").class("lead").said().with(&back.title))
        .each(back.head.iter().map(sentence))
        .each(groups.map(|group| of_group(group, &places, here.as_ref())))
}

fn of_group(group: &Group, places: &[Entry], here: Option<&Entry>) -> El {
    let said = group.said.iter();
    el("div")
        .with(el("h4").said().with(group.sort.title()))
        .each(said.map(|said| of_entry(said, group.sort, places, here)))
}

fn is_of(entry: &Entry, sort: Sort, id: &str) -> bool {
    entry.section == section_of(sort) && entry.id == id
}

/// Where what is read back of this sort under this id stands in the rules.
pub fn place_of(section: &str, id: &str, text: &str) -> Option<usize> {
    let mut all = entries(text).into_iter();
    let found = all.find(|entry| entry.section == section && entry.id == id);
    found.map(|entry| entry.start)
}

fn of_entry(said: &Said, sort: Sort, places: &[Entry], here: Option<&Entry>) -> El {
    let is_here = here.is_some_and(|entry| is_of(entry, sort, &said.id));
    let stands = places.iter().any(|entry| is_of(entry, sort, &said.id));
    let title = el("span").said().with(&said.title);
    let title = match stands {
        true => el("button")
            .set("type", "button")
            .class("plain")
            .with(title),
        false => el("span").class("named").with(title),
    };
    let entry = el("div").class(if is_here { "entry here" } else { "entry" });
    let entry = entry.id(format!("said-{}-{}", section_of(sort), said.id));
    let entry = match stands {
        true => entry
            .does("said-chosen")
            .set("data-section", section_of(sort))
            .set("data-id", said.id.clone()),
        false => entry,
    };
    let entry = if is_here {
        entry.set("aria-current", "true")
    } else {
        entry
    };
    let clause = said.clause.as_ref();
    entry
        .with(title)
        .with(clause.map(|clause| el("span").class("source").with(format!(" {clause}"))))
        .each(said.lines.iter().map(sentence))
}

fn sentence(line: &Line) -> El {
    let under = (!line.under.is_empty())
        .then(|| el("ul").each(line.under.iter().map(|line| el("li").with(sentence(line)))));
    el("div")
        .class("sentence")
        .with(el("p").said().with(prose(&line.sentence())))
        .with(under)
}
