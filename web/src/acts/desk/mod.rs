//! What a click at the rule writer's desk does.

mod cursor;
mod files;
mod typing;

use std::cell::Cell;

use rules_core::text::Lines;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, HtmlSelectElement};

use super::{announce, said};
use crate::browser::{Kind, hand_out};
use crate::clerk;
use crate::compared::{Opened, with_comparing};
use crate::draft::{File, Offers, found_now, refresh, rules_held, text_held, with_draft};
use crate::held::own_rules;
use crate::view::desk::{field, file_name, place_of};
use crate::view::keyed::element;
use crate::words::{count, t};
use cursor::{go_to_byte, insert};
use files::open_files;

pub use typing::wire_desk;

thread_local! {
    /// Whether the page to sign is to be printed.
    static SIGNS: Cell<bool> = const { Cell::new(false) };
}

/// Does an act of the desk. Returns whether to show the page again; `None` if the act is not the desk's.
pub fn act(name: &str, on: &Element) -> Option<bool> {
    let said = |key| said(on, key);
    with_draft(|draft| draft.note = None);
    match name {
        "desk-example" => drop(crate::files::open_home("eldermere", false)),
        "desk-open" => press("rules-file"),
        "plans-open" => press("plan-files"),
        "compare-open" => press("compare-file"),
        "desk-save" => save(),
        "rules-file" => open_files(on, take_rules),
        "compare-file" => open_files(on, |files| {
            with_comparing(|comparing| comparing.opened = files.into_iter().next());
        }),
        "plan-files" => open_files(on, take_plans),
        "desk-file" => choose_file(&said("file")),
        "line-shown" => {
            choose_file(&said("file"));
            show_line(&said("line"), &said("column"), &said("word"));
        }
        "said-chosen" => show_entry(&said("section"), &said("id")),
        "offer-taken" => {
            take_offer(said("n").parse().unwrap_or(0));
            return Some(false);
        }
        "offers-asked" => {
            ask_for_offers();
            return Some(false);
        }
        "cases-made" => make_cases(),
        "cases-added" => add_cases(),
        "cases-left" => with_draft(|draft| draft.made = None),
        "sign-save" => save_page_to_sign(),
        "sign-print" => print(),
        "compare-with" => choose_in_force(on),
        "plan-closed" => close_plan(said("n").parse().ok()?),
        _ => return None,
    }
    Some(true)
}

/// Presses a field for files, which is itself unseen.
fn press(id: &str) {
    if let Some(field) = element(id).and_then(|field| field.dyn_into::<HtmlElement>().ok()) {
        field.click();
    }
}

fn save() {
    let file = with_draft(|draft| draft.file);
    hand_out(&file_name(file), &text_held(file), Kind::Yaml);
}

fn take_rules(files: Vec<Opened>) {
    for file in files {
        own_rules(&file.text, "");
    }
    with_draft(|draft| {
        draft.file = File::Rules;
        draft.is_typing = false;
    });
}

fn take_plans(files: Vec<Opened>) {
    with_comparing(|comparing| {
        for file in files {
            comparing.plans.retain(|plan| plan.name != file.name);
            comparing.plans.push(file);
        }
    });
}

fn close_plan(number: usize) {
    with_comparing(|comparing| {
        if number < comparing.plans.len() {
            comparing.plans.remove(number);
        }
    });
}

fn choose_in_force(on: &Element) {
    let value = on
        .dyn_ref::<HtmlSelectElement>()
        .map(HtmlSelectElement::value);
    let value = value.unwrap_or_default();
    with_comparing(|comparing| {
        if value != "opened" {
            comparing.opened = None;
            comparing.bundled = (!value.is_empty()).then_some(value);
        }
    });
}

/// Puts the other of the two texts into the field.
fn choose_file(id: &str) {
    let file = match id {
        "file-cases" => File::Cases,
        _ => File::Rules,
    };
    let other = with_draft(|draft| {
        let other = draft.file != file;
        draft.file = file;
        draft.is_typing &= !other;
        other
    });
    if other {
        show_now();
    }
}

/// Puts the text that the page holds into the field at once, so that the cursor can go into it.
fn show_now() {
    refresh();
    let text = with_draft(|draft| draft.text.clone());
    if let Some(field) = field() {
        field.set_value(&text);
    }
}

fn show_line(line: &str, column: &str, word: &str) {
    let number = |text: &str| text.parse::<usize>().unwrap_or(1);
    let (start, end) = with_draft(|draft| {
        let lines = Lines::new(&draft.text);
        let line = number(line).max(1);
        let text = lines.line_text(line);
        let before = text.chars().take(number(column).saturating_sub(1));
        let start = lines.start(line) + before.map(char::len_utf8).sum::<usize>();
        (start, start + word.len())
    });
    go_to_byte(start, end);
}

/// Puts the cursor at an entry of the file, which may be a case that stands in a text of its own.
fn show_entry(section: &str, id: &str) {
    let rules = rules_held();
    let apart = section == "cases" && !rules.cases.trim().is_empty();
    choose_file(if apart { "file-cases" } else { "file-rules" });
    let place = with_draft(|draft| place_of(section, id, &draft.text));
    if let Some(place) = place {
        go_to_byte(place, place);
    }
}

/// Opens the list of what may be written at the cursor, and chooses the first.
pub fn ask_for_offers() {
    let many = with_draft(|draft| {
        let hints = draft.hints_at(draft.at);
        let many = hints.offers.len();
        let chosen = (many > 0).then_some(0);
        draft.offers = (many > 0).then_some(Offers { hints, chosen });
        many
    });
    announce(&match many {
        0 => t("desk.offers.none"),
        many => count("desk.offers.many", many),
    });
    if let Some(field) = field() {
        // A field that is on the page can have the focus.
        let _ = field.focus();
    }
    cursor::show();
}

/// Writes an offer in place of the word at the cursor.
pub fn take_offer(number: usize) {
    let taken = with_draft(|draft| {
        let offers = draft.offers.take()?;
        let offer = offers.hints.offers.get(number)?;
        Some((offers.hints.from, offers.hints.to, offer.writes.clone()))
    });
    if let Some((from, to, writes)) = taken {
        insert(from, to, &writes);
    }
    cursor::show();
}

fn make_cases() {
    let found = found_now();
    let made = found
        .rules
        .as_ref()
        .and_then(|read| clerk::made(read, &rules_held().cases));
    with_draft(|draft| {
        draft.note = made.is_none().then(|| t("desk.cases.none-made"));
        draft.made = made;
    });
}

/// Puts the cases that were made at the end of the cases.
fn add_cases() {
    let Some(made) = with_draft(|draft| draft.made.take()) else {
        return;
    };
    let rules = rules_held();
    match rules.cases.trim().is_empty() {
        true => own_rules(&clerk::with_cases(&rules.text, &made), ""),
        false => own_rules(&rules.text, &clerk::with_cases(&rules.cases, &made)),
    }
    with_draft(|draft| draft.is_typing = false);
    announce(&t("desk.cases.are-added"));
}

fn page_to_sign() -> Option<String> {
    let found = found_now();
    let back = found.said.as_ref()?;
    Some(String::from(back.to_page()))
}

fn save_page_to_sign() {
    match page_to_sign() {
        Some(page) => {
            let name = file_name(File::Rules).replace(".yaml", "-to-sign.html");
            hand_out(&name, &page, Kind::Page);
        }
        None => with_draft(|draft| draft.note = Some(t("desk.mend-first"))),
    }
}

fn print() {
    match page_to_sign() {
        Some(_) => {
            SIGNS.set(true);
            if let Some(window) = web_sys::window() {
                // A browser without a printer prints nothing.
                let _ = window.print();
            }
        }
        None => with_draft(|draft| draft.note = Some(t("desk.mend-first"))),
    }
}

/// Puts the page to sign where only a printer sees it, where that is what is to be printed. Returns whether it is.
pub fn show_page_to_sign() -> bool {
    let page = SIGNS.take().then(page_to_sign).flatten();
    page.is_some_and(|page| cursor::put_page("print", &page).is_some())
}
