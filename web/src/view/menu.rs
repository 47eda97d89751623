//! The menu, and the boxes that it opens.

use super::boxes::{notice, open_box};
use super::keyed::{El, button, el, show};
use crate::held::with;
use crate::looks::{Looks, with_looks};
use crate::words::{languages, t, tongue};

/// Shows the menu.
pub fn show_menu() {
    let looks = with_looks(|looks| looks.clone());
    show("menu", menu(&looks));
}

fn item(act: &'static str) -> El {
    button(act)
        .id(format!("menu-{act}"))
        .with(t(&format!("menu.{act}")))
}

fn truth(is: bool) -> &'static str {
    if is { "true" } else { "false" }
}

fn menu(looks: &Looks) -> El {
    let (undo, redo) = with(|session| (session.can_undo(), session.can_redo()));
    let rest = el("div")
        .id("menu-rest")
        .set("data-open", truth(looks.menu))
        .each(["example", "open", "save", "share", "print"].map(item))
        .with(item("desk").set("aria-pressed", truth(looks.desk)))
        .with(item("anew"))
        .with(language());
    el("nav")
        .set("aria-label", t("menu.label"))
        .with(item("undo").is("disabled", !undo))
        .with(item("redo").is("disabled", !redo))
        .with(
            button("menu-more")
                .id("menu-more")
                .with(t("menu.more"))
                .set("aria-expanded", truth(looks.menu)),
        )
        .with(rest)
        .with(file())
}

fn language() -> El {
    let now = tongue();
    let option = |(code, name): (&'static str, String)| {
        el("option")
            .set("value", code)
            .set("lang", code)
            .is("selected", now == code)
            .with(name)
    };
    let select = el("select").id("language").does("language");
    el("label")
        .class("language")
        .with(el("span").class("hidden").with(t("menu.language")))
        .with(select.each(languages().map(option)))
}

/// The hidden field that opens a plan's file; the menu's button presses it.
fn file() -> El {
    el("input")
        .set("type", "file")
        .id("file")
        .is("hidden", true)
        .does("file-chosen")
        .set("accept", ".yaml,.yml,.json")
        .set("aria-label", t("menu.open"))
        .set("tabindex", "-1")
}

fn head(key: &str) -> El {
    el("h2").id("box-head").with(t(key))
}

/// Shows the link that holds the plan.
pub fn show_link(link: &str, from_disk: bool) {
    let field = el("textarea")
        .id("link")
        .is("readonly", true)
        .set("rows", "4")
        .with(link);
    let copy = button("link-copied").id("link-copy").with(t("share.copy"));
    let hint = if from_disk {
        "share.file"
    } else {
        "share.sent"
    };
    open_box(vec![
        head("share.head"),
        el("p").with(t("share.what")),
        el("label")
            .class("ask")
            .set("for", "link")
            .with(t("share.link")),
        field,
        el("p").class("hint").with(t(hint)),
        copy.class("add"),
    ]);
}

/// Asks whether the plan may be taken away.
pub fn ask_to_begin_anew() {
    let sure = button("anew-sure").id("anew-sure").with(t("anew.sure"));
    open_box(vec![
        head("anew.head"),
        el("p").with(t("anew.what")),
        sure.class("add danger"),
    ]);
}

/// Says that nothing is kept, and offers a file.
pub fn tell_nothing_is_kept() {
    let save = button("save").id("keep-save").with(t("menu.save"));
    notice(&t("keep.refused"), vec![save.class("plain")]);
}

/// Offers the plan that another window had kept, under its name.
pub fn offer_aside(key: &str) {
    let offer = |act: &'static str| {
        let button = button(act).id(act).with(t(&format!("keep.{act}")));
        button.class("plain").set("data-key", key.to_owned())
    };
    notice(
        &t("keep.other"),
        ["aside-open", "aside-forget"].map(offer).into(),
    );
}
