//! What is typed into the field, key by key, and where the cursor and the pointer go.

use std::cell::Cell;

use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, Event, HtmlTextAreaElement, KeyboardEvent, MouseEvent};

use super::cursor::{cursor_of, insert, place, show};
use super::{ask_for_offers, take_offer};
use crate::browser::{listen, listen_within, redraw};
use crate::draft::{Offers, take_typed, with_draft};
use crate::view::desk::{MOST_SHOWN, field, show_lines};
use crate::view::keyed::{document, element};

/// How long nobody types before the text is read, in milliseconds.
const PAUSE: i32 = 300;

/// Listens to the field.
pub fn wire_desk() {
    let (Some(desk), Some(page), Some(window)) = (element("desk"), document(), web_sys::window())
    else {
        return;
    };
    for name in [
        "input",
        "keydown",
        "scroll",
        "mousemove",
        "mouseout",
        "mousedown",
        "focusout",
    ] {
        listen_within(&desk, name, |event: Event| at_desk(&event));
    }
    listen(&page, "selectionchange", |_: Event| moved());
    listen(&window, "pagehide", |_: Event| take());
}

fn at_desk(event: &Event) {
    let Some(on) = event.target().and_then(|on| on.dyn_into::<Element>().ok()) else {
        return;
    };
    let name = event.type_();
    if name == "mousedown" {
        // A press on an offer leaves the cursor where it is.
        if on.closest("#offers").ok().flatten().is_some() {
            event.prevent_default();
        }
        return;
    }
    let Ok(field) = on.dyn_into::<HtmlTextAreaElement>() else {
        return;
    };
    match (
        name.as_str(),
        event.dyn_ref::<KeyboardEvent>(),
        event.dyn_ref::<MouseEvent>(),
    ) {
        ("input", ..) => typed(&field),
        ("keydown", Some(key), _) => pressed(&field, key),
        ("scroll", ..) => place(),
        ("mousemove", _, Some(mouse)) => over(&field, mouse),
        ("mouseout", ..) => over_nothing(),
        ("focusout", ..) => left(),
        _ => {}
    }
}

/// Takes what stands in the field, and reads it once nobody types any more.
pub fn typed(field: &HtmlTextAreaElement) {
    let text = field.value();
    with_draft(|draft| {
        draft.at = cursor_of(field, &text);
        draft.text = text;
        draft.is_typing = true;
        draft.over = None;
        let hints = draft.hints_at(draft.at);
        let is_word = hints.from < draft.at && !hints.offers.is_empty();
        draft.offers = is_word.then_some(Offers {
            hints,
            chosen: None,
        });
    });
    show_lines();
    show();
    wait();
}

thread_local! {
    static WAITING: Cell<Option<i32>> = const { Cell::new(None) };
}

fn wait() {
    let Some(window) = web_sys::window() else {
        return;
    };
    if let Some(waiting) = WAITING.take() {
        window.clear_timeout_with_handle(waiting);
    }
    let later = Closure::once_into_js(take);
    let waiting =
        window.set_timeout_with_callback_and_timeout_and_arguments_0(later.unchecked_ref(), PAUSE);
    WAITING.set(waiting.ok());
}

/// Takes over what was typed, and shows what comes of it.
fn take() {
    WAITING.set(None);
    if with_draft(|draft| draft.is_typing) {
        take_typed();
        redraw();
    }
}

/// The cursor went somewhere else.
fn moved() {
    let Some(field) = field() else { return };
    let active = document().and_then(|page| page.active_element());
    if active.as_ref() != Some(field.as_ref()) {
        return;
    }
    let is_new = with_draft(|draft| {
        let at = cursor_of(&field, &draft.text);
        let is_new = at != draft.at;
        draft.at = at;
        if is_new {
            draft.over = None;
            draft.offers = None;
        }
        is_new
    });
    if is_new {
        show();
    }
}

/// The field is left: what was typed is taken over before anything else is done with it.
fn left() {
    close();
    take();
}

fn close() {
    let was = with_draft(|draft| draft.offers.take());
    if was.is_some() {
        show();
    }
}

fn pressed(field: &HtmlTextAreaElement, key: &KeyboardEvent) {
    if key.is_composing() {
        return;
    }
    let (is_open, chosen, many) = with_draft(|draft| match &draft.offers {
        Some(offers) => (
            true,
            offers.chosen,
            offers.hints.offers.len().min(MOST_SHOWN),
        ),
        None => (false, None, 0),
    });
    let is_bare = !key.ctrl_key() && !key.alt_key() && !key.meta_key() && !key.shift_key();
    match (key.key().as_str(), is_open, chosen) {
        (" ", ..) if key.ctrl_key() => ask_for_offers(),
        ("ArrowDown", true, _) if is_bare => choose(chosen.map_or(0, |at| (at + 1) % many)),
        ("ArrowUp", true, Some(at)) if is_bare => choose((at + many - 1) % many),
        ("Enter", true, Some(at)) if is_bare => take_offer(at),
        ("Escape", true, _) => close(),
        ("Enter", ..) if is_bare => new_line(field),
        _ => return,
    }
    key.prevent_default();
}

fn choose(number: usize) {
    with_draft(|draft| {
        if let Some(offers) = &mut draft.offers {
            offers.chosen = Some(number);
        }
    });
    show();
}

/// A new line that begins where the one before it does, or a step further in after a colon.
fn new_line(field: &HtmlTextAreaElement) {
    let (from, to, text) = with_draft(|draft| {
        let start = field.selection_start().ok().flatten().unwrap_or(0);
        let from = super::cursor::byte_at(&draft.text, start);
        let before = draft.text.get(..from).unwrap_or_default();
        let line = before.rsplit('\n').next().unwrap_or_default();
        (
            from,
            cursor_of(field, &draft.text),
            format!("\n{}", beginning(line)),
        )
    });
    insert(from, to, &text);
}

/// The spaces with which the line after this one begins.
fn beginning(line: &str) -> String {
    let inner = line.trim_start_matches([' ', '-']);
    let column = line.len() - inner.len();
    let column = match (inner.is_empty(), inner.ends_with(':')) {
        (true, _) => line.len() - line.trim_start_matches(' ').len(),
        (_, true) => column + 2,
        _ => column,
    };
    " ".repeat(column)
}

/// The pointer is over a word.
fn over(field: &HtmlTextAreaElement, mouse: &MouseEvent) {
    let at = place_under(mouse);
    let is_new = with_draft(|draft| {
        let at = at.and_then(|(row, column)| byte_in(&draft.text, row, column));
        let is_open = draft.offers.is_some();
        let is_new = at != draft.over && !is_open && !draft.is_typing;
        if is_new {
            draft.over = at;
        }
        is_new
    });
    if is_new && field.is_connected() {
        show();
    }
}

fn over_nothing() {
    if with_draft(|draft| draft.over.take()).is_some() {
        show();
    }
}

/// The row and the column that a pointer is over.
fn place_under(mouse: &MouseEvent) -> Option<(usize, usize)> {
    let ruler = element("desk-ruler")?.get_bounding_client_rect();
    let down = (f64::from(mouse.client_y()) - ruler.top()) / ruler.height();
    let right = (f64::from(mouse.client_x()) - ruler.left()) / (ruler.width() / 10.0);
    (down >= 0.0 && right >= 0.0).then_some((down as usize, right as usize))
}

/// The first byte of the word at a row and column; none beside the text.
fn byte_in(text: &str, row: usize, column: usize) -> Option<usize> {
    let line = text.split('\n').nth(row)?;
    let begin: usize = text.split('\n').take(row).map(|line| line.len() + 1).sum();
    let (at, letter) = line.char_indices().nth(column)?;
    let is_part = |c: char| c.is_alphanumeric() || matches!(c, '-' | '.' | '_');
    let before = line.get(..at)?.trim_end_matches(is_part);
    is_part(letter).then_some(begin + before.len())
}

#[cfg(test)]
mod tests {
    use super::{beginning, byte_in};

    #[test]
    fn a_new_line_begins_where_it_can_go_on() {
        for (line, spaces) in [
            ("rules:", 2),
            ("  - id: a", 4),
            ("    require:", 6),
            ("    title: A", 4),
            ("  - ", 2),
            ("", 0),
        ] {
            assert_eq!(beginning(line).len(), spaces, "{line}");
        }
    }

    #[test]
    fn the_word_under_the_pointer_is_found() {
        let text = "a: b\n  gate.width: wide";
        assert_eq!(byte_in(text, 1, 5), Some(7));
        assert_eq!(byte_in(text, 1, 12), None);
        assert_eq!(byte_in(text, 0, 40), None);
        assert_eq!(byte_in(text, 7, 0), None);
    }
}
