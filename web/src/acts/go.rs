//! Where the focus goes, and what screen readers are told.

use std::cell::RefCell;

use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, ScrollIntoViewOptions, ScrollLogicalPosition};

use crate::view::keyed::{element, visible};

/// A place on the page to go to.
enum Place {
    /// The first existing field of these ids, in the middle of the window.
    Field(Vec<String>),
    /// What matches the selector within the element of this id.
    Within(String, &'static str),
    /// The head of a part of the form, with as little scrolling as possible.
    Head(String),
}

thread_local! {
    /// Where to go once the page is shown.
    static GOES_TO: RefCell<Option<Place>> = const { RefCell::new(None) };
}

/// Goes to the first of these fields that exists.
pub fn go_to_field(ids: Vec<String>) {
    GOES_TO.set(Some(Place::Field(ids)));
}

/// Goes to what matches a selector within the element of this id.
pub fn go_into(id: &str, selector: &'static str) {
    GOES_TO.set(Some(Place::Within(id.to_owned(), selector)));
}

/// Goes to the head of a part of the form.
pub fn go_to_head(part: &str) {
    GOES_TO.set(Some(Place::Head(part.to_owned())));
}

/// Goes where the last act leads, once the page is shown.
pub fn arrive() {
    let (found, block) = match GOES_TO.take() {
        None => return,
        Some(Place::Within(id, selector)) => {
            let outer = element(&id);
            return focus(outer.and_then(|outer| outer.query_selector(selector).ok().flatten()));
        }
        Some(Place::Field(ids)) => {
            let found = ids.iter().find_map(|id| element(id));
            (
                found.map(|found| unfolded(&found)),
                ScrollLogicalPosition::Center,
            )
        }
        Some(Place::Head(part)) => (
            element(&format!("head-{part}")),
            ScrollLogicalPosition::Nearest,
        ),
    };
    if let Some(found) = &found {
        let how = ScrollIntoViewOptions::new();
        how.set_block(block);
        focus(Some(found.clone()));
        found.scroll_into_view_with_scroll_into_view_options(&how);
    }
}

/// The field in what was found, after opening all that is folded about it: in a row of words, the one that is chosen, or
/// else the first.
fn unfolded(found: &Element) -> Element {
    let mut folded = found.closest("details").ok().flatten();
    while let Some(about) = folded {
        // Any element takes an attribute.
        let _ = about.set_attribute("open", "");
        let outer = about.parent_element();
        folded = outer.and_then(|outer| outer.closest("details").ok().flatten());
    }
    let within = |selector| found.query_selector(selector).ok().flatten();
    let is_group = found.get_attribute("role").as_deref() == Some("radiogroup");
    let word = is_group.then(|| within("input:checked").or_else(|| within("input")));
    word.flatten().unwrap_or_else(|| found.clone())
}

/// Gives an element the focus.
pub fn focus(element: Option<Element>) {
    if let Some(element) = element
        .as_ref()
        .and_then(|element| element.dyn_ref::<HtmlElement>())
    {
        // An element that cannot have the focus is only scrolled to.
        let _ = element.focus();
    }
}

/// Tells screen readers something.
pub fn announce(text: &str) {
    if let Some(said) = element("said") {
        said.set_text_content(Some(&visible(text)));
    }
}
