//! The cursor in the field, and text put in there.

use wasm_bindgen::JsCast;
use web_sys::{
    Document, DomParser, HtmlDocument, HtmlElement, HtmlTextAreaElement, Node, SupportedType,
};

use crate::draft::with_draft;
use crate::view::desk::{field, show_cursor};
use crate::view::keyed::{document, element};

/// The byte at so many of JavaScript's units.
pub fn byte_at(text: &str, units: u32) -> usize {
    let mut left = units as usize;
    let mut letters = text.char_indices();
    let found = letters.find(|(_, letter)| {
        let is_there = left == 0;
        left = left.saturating_sub(letter.len_utf16());
        is_there
    });
    found.map_or(text.len(), |(at, _)| at)
}

/// How many of JavaScript's units stand before a byte.
pub fn units_to(text: &str, byte: usize) -> u32 {
    let before = text.get(..byte).unwrap_or(text);
    u32::try_from(before.encode_utf16().count()).unwrap_or(u32::MAX)
}

/// Where the cursor of a field is, as a byte of its text.
pub fn cursor_of(field: &HtmlTextAreaElement, text: &str) -> usize {
    let units = field.selection_end().ok().flatten().unwrap_or(0);
    byte_at(text, units)
}

/// Chooses what stands between two bytes, and brings it into sight.
pub fn go_to_byte(start: usize, end: usize) {
    let Some(field) = field() else { return };
    let (from, to, line, lines) = with_draft(|draft| {
        draft.at = end;
        draft.offers = None;
        let before = draft.text.get(..start).unwrap_or_default();
        let line = before.matches('\n').count();
        let lines = draft.text.matches('\n').count() + 1;
        (
            units_to(&draft.text, start),
            units_to(&draft.text, end),
            line,
            lines,
        )
    });
    // A field that is on the page takes both.
    let _ = field.focus();
    let _ = field.set_selection_range(from, to);
    let height = f64::from(field.scroll_height()) / lines as f64;
    let top = height * line as f64 - f64::from(field.client_height()) / 3.0;
    field.set_scroll_top(top.max(0.0) as i32);
    field.set_scroll_left(0);
    place();
}

/// Writes a text in place of what stands between two bytes, as if it were typed: it can be taken back with the keyboard.
pub fn insert(from: usize, to: usize, text: &str) {
    let Some(field) = field() else { return };
    let (start, end) = with_draft(|draft| (units_to(&draft.text, from), units_to(&draft.text, to)));
    let _ = field.focus();
    let _ = field.set_selection_range(start, end);
    let page = document().and_then(|page| page.dyn_into::<HtmlDocument>().ok());
    let typed = page.is_some_and(|page| {
        let typed = page.exec_command_with_show_ui_and_value("insertText", false, text);
        typed.unwrap_or(false)
    });
    if !typed {
        let _ = field.set_range_text_with_start_and_end_and_mode(text, start, end, "end");
        super::typing::typed(&field);
    }
}

/// Tells the styles in which line and column the cursor is, and how far the field is scrolled.
pub fn place() {
    let (Some(field), Some(editor)) = (field(), editor()) else {
        return;
    };
    let (row, column, tall) = with_draft(|draft| {
        let from = draft
            .offers
            .as_ref()
            .map_or(draft.at, |offers| offers.hints.from);
        let before = draft.text.get(..from).unwrap_or_default();
        let line = before.rsplit('\n').next().unwrap_or_default();
        let lines = draft.text.matches('\n').count() + 1;
        (before.matches('\n').count(), line.chars().count(), lines)
    });
    let (x, y) = (field.scroll_left(), field.scroll_top());
    let line = f64::from(field.scroll_height()) / tall as f64;
    let below = line * row as f64 - f64::from(y) > f64::from(field.client_height()) * 0.6;
    let set = |name: &str, value: String| {
        // The names are valid.
        let _ = editor.style().set_property(name, &value);
    };
    set("--row", row.to_string());
    set("--column", column.to_string());
    set("--x", format!("{x}px"));
    set("--y", format!("{y}px"));
    let _ = editor.set_attribute("data-above", if below { "true" } else { "false" });
    if let Some(gutter) = element("gutter") {
        gutter.set_scroll_top(y);
    }
}

fn editor() -> Option<HtmlElement> {
    element("desk-editor")?.dyn_into().ok()
}

/// Shows what follows the cursor, and brings the marked sentence and the chosen offer into sight.
pub fn show() {
    show_cursor();
    place();
    into_sight("offers", "[aria-selected=true]");
    into_sight("desk-said", ".here");
}

/// Scrolls an element, and nothing about it, until a part of it is seen.
fn into_sight(id: &str, selector: &str) {
    let Some(outer) = element(id) else { return };
    let Some(part) = outer.query_selector(selector).ok().flatten() else {
        return;
    };
    let (outer_box, part_box) = (
        outer.get_bounding_client_rect(),
        part.get_bounding_client_rect(),
    );
    let above = part_box.top() - outer_box.top();
    let below = part_box.bottom() - outer_box.bottom();
    let by = match (above < 0.0, below > 0.0) {
        (true, _) => above,
        (_, true) => below.min(above),
        _ => 0.0,
    };
    outer.set_scroll_top(outer.scroll_top() + by as i32);
}

/// Puts the body of a page that the library wrote into the element of this id.
pub fn put_page(id: &str, page: &str) -> Option<()> {
    let outer = element(id)?;
    // The page has styles of its own for paper; it lets no others in.
    let (head, rest) = page.split_once("<style>")?;
    let (_, body) = rest.split_once("</style>")?;
    let page = format!("{head}{body}");
    let parsed = DomParser::new().ok()?;
    let parsed: Document = parsed
        .parse_from_string(&page, SupportedType::TextHtml)
        .ok()?;
    let body = parsed.body()?;
    outer.set_text_content(None);
    while let Some(first) = body.first_child() {
        let node: Node = first;
        outer.append_child(&node).ok()?;
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::{byte_at, units_to};

    #[test]
    fn units_are_counted_as_browsers_count_them() {
        let text = "aé😀b";
        for (units, byte) in [(0, 0), (1, 1), (2, 3), (4, 7), (5, 8)] {
            assert_eq!(byte_at(text, units), byte, "{units}");
            assert_eq!(units_to(text, byte), units, "{byte}");
        }
        assert_eq!(byte_at(text, 99), text.len());
    }
}
