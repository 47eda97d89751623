//! What stands over the page: a notice at its head, or a box above all of it.

use wasm_bindgen::JsCast;
use web_sys::HtmlDialogElement;

use super::keyed::{El, button, el, element, show};
use crate::words::t;

/// Something that the person must know, with what can be done about it, until it is put away.
pub fn notice(text: &str, buttons: Vec<El>) {
    let away = button("notice-read")
        .id("notice-read")
        .with(t("notice.read"));
    let buttons = buttons.into_iter().chain([away.class("plain")]);
    let said = buttons.fold(el("p").with(text), |said, button| {
        said.with(" ").with(button)
    });
    show("notice", el("div").with(said));
}

/// Puts the notice away.
pub fn put_notice_away() {
    show("notice", el("div"));
}

fn dialog() -> Option<HtmlDialogElement> {
    element("box")?.dyn_into().ok()
}

/// Opens a box over the page, or shows something else in it.
pub fn open_box(content: Vec<El>) {
    let close = button("box-closed").id("box-close").with(t("box.close"));
    let row = el("p").class("row").with(close);
    show("box", el("dialog").each(content).with(row));
    if let Some(dialog) = dialog().filter(|dialog| !dialog.open()) {
        // It is in the page and closed, so that it opens.
        let _ = dialog.show_modal();
    }
}

/// Closes the box.
pub fn close_box() {
    if let Some(dialog) = dialog() {
        dialog.close();
    }
}
