//! What stands about the drawing: the bar above it, the words below it, and the way to the other views.

use super::keyed::{El, button, document, el, element, show};
use crate::hand::being_drawn;
use crate::held::with;
use crate::looks::{Looks, with_looks};
use crate::plan::{is_of_lot, name_by_id};
use crate::sets::heads;
use crate::words::t;
use rules_core::session::path_of;

/// Shows them, and the words that stand in the page itself.
pub fn show_sheet() {
    let looks = with_looks(|looks| looks.clone());
    words();
    show("views", views(&looks));
    show("sheet-bar", bar(&looks));
    show("sheet-foot", foot());
    if let Some(body) = document().and_then(|page| page.body()) {
        // Any element takes an attribute.
        let _ = body.set_attribute("data-view", &looks.view);
        let _ = body.set_attribute("data-room", &looks.room.to_string());
    }
}

/// Where the page itself holds words, and which.
const WORDS: [(&str, &str); 5] = [
    ("name", "name"),
    ("skip", "skip"),
    ("sheet-head", "view.sheet"),
    ("form-head", "view.form"),
    ("result-head", "view.result"),
];

fn words() {
    if let Some(page) = document() {
        page.set_title(&t("title"));
    }
    for (id, key) in WORDS {
        if let Some(element) = element(id) {
            element.set_text_content(Some(&t(key)));
        }
    }
}

fn views(looks: &Looks) -> El {
    let one = |view: &'static str| {
        let button = button("view")
            .id(format!("view-{view}"))
            .with(t(&format!("view.{view}")));
        button
            .set("data-view", view)
            .set_if("aria-current", looks.view == view, "true")
    };
    el("nav")
        .set("aria-label", t("view.label"))
        .each(["form", "sheet", "result"].map(one))
}

fn of_bar(act: &'static str, key: &str) -> El {
    button(act).id(format!("sheet-{act}")).with(t(key))
}

fn row(class: &'static str, key: &str) -> El {
    el("div")
        .class(class)
        .set("role", "group")
        .set("aria-label", t(key))
}

fn bar(looks: &Looks) -> El {
    let shade = el("input")
        .set("type", "checkbox")
        .id("shade")
        .does("shade")
        .is("checked", looks.shade);
    let look = row("row", "sheet.look")
        .with(of_bar("zoom-in", "sheet.closer"))
        .with(of_bar("zoom-out", "sheet.further"))
        .with(of_bar("zoom-all", "sheet.all"))
        .with(el("label").class("tick").with(shade).with(t("sheet.shade")))
        .with(
            of_bar("room", "room.ask")
                .set("aria-controls", "room")
                .set("aria-expanded", looks.room.to_string()),
        );
    let drawing_now = || {
        row("row drawing-now", "sheet.drawing-now")
            .with(el("span").with(t("sheet.drawing-now")))
            .with(of_bar("draw-done", "sheet.draw-done"))
            .with(of_bar("draw-stop", "sheet.draw-stop"))
    };
    el("div")
        .with(look)
        .with(being_drawn().map(|_| drawing_now()))
        .with(looks.thing.as_deref().and_then(chosen))
}

/// What can be done with the chosen thing.
fn chosen(id: &str) -> Option<El> {
    let (path, name) = with(|session| {
        let path = path_of(session.plan(), id)?;
        Some((path, name_by_id(session.plan(), id)))
    })?;
    let gone = || {
        of_bar("thing-gone", "sheet.remove")
            .set("data-path", path.clone())
            .set("data-id", id.to_owned())
    };
    let row = row("row chosen", "sheet.chosen")
        .with(el("strong").with(name))
        .with(of_bar("turn-left", "sheet.turn-left"))
        .with(of_bar("turn-right", "sheet.turn-right"))
        .with((!is_of_lot(&path)).then(gone))
        .with(of_bar("thing-left", "sheet.leave"));
    Some(row)
}

fn foot() -> El {
    let (plan, rules) = with(|session| {
        let text = |key| Some(session.plan().get(key)?.text()?.to_owned());
        let plan: Option<String> = text("title").or_else(|| text("plan"));
        (plan.unwrap_or_default(), session.rules().clone())
    });
    let named = heads(|heads| {
        let mut heads = heads.iter();
        let head = heads.find(|head| rules.id.as_deref() == Some(head.id));
        head.map(|head| head.title.clone())
    });
    let rules = named.unwrap_or_else(|| match rules.text.is_empty() {
        true => "–".to_owned(),
        false => t("where.own"),
    });
    let row = |key, text: String| {
        el("div")
            .with(el("dt").with(t(key)))
            .with(el("dd").with(text))
    };
    let block = el("dl")
        .class("title-block")
        .with(row("foot.plan", plan))
        .with(row("foot.rules", rules))
        .with(row("foot.not", t("foot.not-a-survey")));
    let keys = el("details")
        .class("about")
        .id("keys")
        .with(el("summary").with(t("sheet.keys")))
        .with(el("p").with(t("sheet.keys-text")));
    el("div").with(block).with(keys)
}
