//! The rule writer's desk: the text with its faults at their lines, and beside it what it says, what its cases come to,
//! and how it differs from the rules in force.

mod cases;
mod compare;
mod faults;
mod offers;
mod said;
mod text;

use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, HtmlTextAreaElement};

use super::keyed::{El, button, el, element, show, show_within};
use super::verdict_line;
use crate::clerk::Found;
use crate::compared::with_comparing;
use crate::draft::{File, found_now, refresh, rules_held, with_draft};
use crate::held::with;
use crate::judged::with_judged;
use crate::looks::with_looks;
use crate::sets::heads;
use crate::words::t;

pub use offers::MOST_SHOWN;
pub use said::place_of;

const DESK: &str = "desk-parts";

/// Shows the desk, where it is open.
pub fn show_desk() {
    let is_open = with_looks(|looks| looks.desk);
    if let Some(desk) = element("desk").and_then(|desk| desk.dyn_into::<HtmlElement>().ok()) {
        desk.set_hidden(!is_open);
    }
    if let Some(body) = super::keyed::document().and_then(|page| page.body()) {
        // Any element takes an attribute.
        let _ = body.set_attribute("data-desk", if is_open { "true" } else { "false" });
    }
    if !is_open {
        return;
    }
    refresh();
    let found = found_now();
    show(DESK, whole(&found));
    fill_in();
}

/// The field in which the text is written.
pub fn field() -> Option<HtmlTextAreaElement> {
    element("rules-text")?.dyn_into().ok()
}

/// Puts the text into the field, where another stands there.
fn fill_in() {
    let text = with_draft(|draft| draft.text.clone());
    if let Some(field) = field().filter(|field| field.value() != text) {
        field.set_value(&text);
    }
}

/// Shows anew what follows the cursor: the list, the help and the marked sentence.
pub fn show_cursor() {
    show_within(DESK, offers::list());
    show_within(DESK, offers::field());
    show_within(DESK, offers::help());
    show_within(DESK, said::of());
}

/// Shows anew the lines about the text, while somebody types.
pub fn show_lines() {
    let found = with_draft(|draft| (!draft.is_typing).then(|| draft.found()));
    show_within(DESK, text::gutter(found.as_deref()));
    show_within(DESK, text::marks(found.as_deref()));
}

fn whole(found: &Found) -> El {
    let columns = el("div").class("desk-columns");
    el("div").with(head()).with(
        columns
            .with(
                el("div")
                    .class("desk-left")
                    .with(text::of(found))
                    .with(faults::of(found))
                    .with(offers::help())
                    .with(compare::of(found)),
            )
            .with(
                el("div")
                    .class("desk-right")
                    .with(said::of())
                    .with(on_plan())
                    .with(cases::of(found)),
            ),
    )
}

fn file_field(act: &'static str, id: &'static str, key: &str) -> El {
    el("input")
        .set("type", "file")
        .id(id)
        .is("hidden", true)
        .does(act)
        .set("accept", ".yaml,.yml")
        .set("aria-label", t(key))
        .set("tabindex", "-1")
}

fn option(value: &str, said: impl Into<String>, chosen: bool) -> El {
    let option = el("option").set("value", value.to_owned());
    option.is("selected", chosen).with(said.into())
}

/// All bundled rule sets, to choose from.
fn bundled(chosen: Option<&str>) -> Vec<El> {
    let one = |head: &crate::sets::Head| option(head.id, &head.title, chosen == Some(head.id));
    heads(|heads| heads.iter().map(one).collect())
}

fn head() -> El {
    let rules = rules_held();
    let is_own = rules.id.is_none() && !rules.text.is_empty();
    let select = el("select").id("desk-from").does("rules-chosen");
    let select = select
        .with(option("", t("where.choose"), rules.text.is_empty()))
        .each(bundled(rules.id.as_deref()))
        .with(is_own.then(|| option("own", t("where.own"), true)));
    let note = with_draft(|draft| draft.note.clone());
    el("div")
        .id("desk-head-row")
        .with(el("h2").id("desk-head").with(t("desk.head")))
        .with(el("p").class("lead").with(t("desk.lead")))
        .with(
            el("div")
                .class("row")
                .with(
                    el("label")
                        .class("ask")
                        .set("for", "desk-from")
                        .with(t("desk.from")),
                )
                .with(select)
                .with(button("desk-open").id("desk-open").with(t("desk.open")))
                .with(button("desk-save").id("desk-save").with(t("desk.save")))
                .with(button("desk").id("desk-back").with(t("desk.back")))
                .with(file_field("rules-file", "rules-file", "desk.open")),
        )
        .with(el("p").id("desk-note").set("role", "alert").with(note))
}

fn on_plan() -> El {
    let (title, is_whole) = with(|session| {
        let plan = session.plan();
        let text = |key: &str| {
            plan.get(key)
                .and_then(|node| node.text())
                .map(str::to_owned)
        };
        let has = |key| plan.get(key).is_some_and(|part| !part.is_empty());
        let title = text("title").or_else(|| text("plan")).unwrap_or_default();
        (title, has("lot") && has("pool"))
    });
    let verdict = with_judged(verdict_line);
    let example = || {
        button("desk-example")
            .id("desk-example")
            .with(t("desk.example"))
            .class("plain")
    };
    el("section")
        .id("desk-plan")
        .with(el("h3").with(crate::words::fill("desk.plan", &[("plan", &title)])))
        .with(el("p").id("desk-verdict").with(verdict))
        .with((!is_whole).then(example))
}

/// The name under which a text of the desk is saved.
pub fn file_name(file: File) -> String {
    let name = with(|session| session.rule_set());
    let name = name.unwrap_or_else(|| "rules".to_owned());
    match file {
        File::Rules => format!("{name}.yaml"),
        File::Cases => format!("{name}-cases.yaml"),
    }
}

/// Whether the plans that were opened, or the rules in force, are shown.
fn compares() -> bool {
    with_comparing(|comparing| comparing != &crate::compared::Comparing::default())
}
