//! What a click on the page, or a change in a field, does.

mod desk;
mod form;
mod go;
pub mod menu;
mod parts;
pub mod pointer;
mod result;
pub mod room;
pub mod sheet;

use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlInputElement, KeyboardEvent};

pub use desk::{show_page_to_sign, wire_desk};

use crate::browser::redraw;
pub use go::{announce, arrive};

/// What an element says of itself under a key.
fn said(on: &Element, key: &str) -> String {
    on.get_attribute(&format!("data-{key}")).unwrap_or_default()
}

fn is_ticked(field: &Element) -> bool {
    field
        .dyn_ref::<HtmlInputElement>()
        .is_some_and(HtmlInputElement::checked)
}

/// Somebody pressed something on the page or changed a field: runs the act that belongs to it, if there is one.
pub fn acted(event: &Event) {
    let target = event.target().and_then(|it| it.dyn_into::<Element>().ok());
    let Some(target) = target else { return };
    let changes = event.type_() == "change";
    if !changes {
        menu::close_menu(&target);
    }
    if let Ok(Some(on)) = target.closest("[data-do]") {
        let is_field = on.matches("input, select, textarea").unwrap_or(false);
        if is_field == changes && act(&said(&on, "do"), &on, event) {
            redraw();
        }
    }
}

/// Enter in a field says that it is filled in.
pub fn entered(event: &KeyboardEvent) {
    let field = event
        .target()
        .and_then(|it| it.dyn_into::<HtmlInputElement>().ok());
    let Some(field) = field.filter(|field| field.type_() != "checkbox") else {
        return;
    };
    if event.key() == "Enter" && field.has_attribute("data-do") {
        // A field that was left and entered again tells of its change.
        let _ = field.blur().and_then(|()| field.focus());
    }
}

/// Does an element's act. Returns whether to show the page again.
fn act(name: &str, on: &Element, event: &Event) -> bool {
    let done = result::act(name, on)
        .or_else(|| form::act(name, on))
        .or_else(|| desk::act(name, on))
        .or_else(|| sheet::act(name, on))
        .or_else(|| room::act(name, on))
        .or_else(|| menu::act(name, on));
    if on.tag_name() == "SUMMARY" {
        // The view says what is open.
        event.prevent_default();
    }
    done.unwrap_or(false)
}
