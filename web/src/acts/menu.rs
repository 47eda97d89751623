//! What the menu does, and the boxes and notices that it opens: with the plan as a whole.

use rules_core::session::Session;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Element, File, HtmlElement, HtmlInputElement, HtmlTextAreaElement};

use super::{announce, said};
use crate::browser::{Kind, hand_out, redraw};
use crate::files::{file, file_name, link, open_home, open_link, open_plan};
use crate::held::{begin_anew, with};
use crate::keep::{forget_aside, open_aside};
use crate::link::{from_fragment, to_fragment};
use crate::looks::{Looks, with_looks};
use crate::view::boxes::{close_box, notice, put_notice_away};
use crate::view::keyed::element;
use crate::view::menu::{ask_to_begin_anew, show_link};
use crate::view::print::{show_print_box, with_print};
use crate::words::{fill, t};

/// The rule set whose home is the example.
const EXAMPLE: &str = "eldermere";
/// More bytes than anybody's plan or rules; what is larger was not meant for this page.
pub const LARGEST: f64 = 4e6;

/// Does an act of the menu. Returns whether to show the page again; `None` if the act is not the menu's.
pub fn act(name: &str, on: &Element) -> Option<bool> {
    let changed = change(name, on);
    if changed.is_some() {
        return changed;
    }
    match name {
        "open" => press("file"),
        "file-chosen" => take_file(on),
        "save" => save(),
        "share" => spawn_local(share()),
        "link-copied" => spawn_local(copy_link()),
        "print" => show_print_box(),
        "print-picked" => pick_for_print(on),
        "print-now" => print_now(),
        "anew" => ask_to_begin_anew(),
        "box-closed" => close_box(),
        "notice-read" => put_notice_away(),
        "aside-forget" => {
            forget_aside(&said(on, "key"));
            put_notice_away();
        }
        _ => return None,
    }
    Some(false)
}

/// Does what changes the plan, or what is shown.
fn change(name: &str, on: &Element) -> Option<bool> {
    match name {
        "undo" => with(Session::undo),
        "redo" => with(Session::redo),
        "menu-more" => with_looks(|looks| looks.menu = !looks.menu),
        "desk" => with_looks(|looks| looks.desk = !looks.desk),
        "desk-opened" => with_looks(|looks| looks.desk = true),
        "language" => with_looks(|looks| looks.language = value_of(on)),
        "example" => {
            open_home(EXAMPLE, true);
            with_looks(|looks| looks.desk = false);
            choose_nothing(None);
        }
        "anew-sure" => {
            close_box();
            begin_anew();
            choose_nothing(Some("where"));
        }
        "aside-open" => {
            let key = said(on, "key");
            if open_aside(&key) {
                forget_aside(&key);
            }
            put_notice_away();
            choose_nothing(None);
        }
        _ => return None,
    }
    Some(true)
}

fn value_of(field: &Element) -> Option<String> {
    let select = field.dyn_ref::<web_sys::HtmlSelectElement>();
    select.map(web_sys::HtmlSelectElement::value)
}

/// Nothing is chosen in a plan that has just come, and this part of the form is open.
fn choose_nothing(open: Option<&str>) {
    with_looks(|looks: &mut Looks| {
        (looks.thing, looks.selected) = (None, None);
        looks.open = open.map(str::to_owned);
    });
}

/// Whatever was chosen in it, the list of a narrow page has served.
pub fn close_menu(pressed: &Element) {
    if matches!(pressed.closest("#menu-rest button"), Ok(Some(_))) {
        with_looks(|looks| looks.menu = false);
    }
}

/// Presses an element, as a person would.
fn press(id: &str) {
    if let Some(found) = element(id).and_then(|found| found.dyn_into::<HtmlElement>().ok()) {
        found.click();
    }
}

fn take_file(field: &Element) {
    let Some(field) = field.dyn_ref::<HtmlInputElement>() else {
        return;
    };
    if let Some(file) = field.files().and_then(|files| files.item(0)) {
        let field = field.clone();
        spawn_local(async move {
            if let Some(text) = read_file(&file).await {
                field.set_value("");
                open_text(&text, &file.name());
            }
        });
    }
}

/// The text of a file, unless it is too large, which is said.
async fn read_file(file: &File) -> Option<String> {
    if file.size() > LARGEST {
        notice(&fill("open.large", &[("name", &file.name())]), Vec::new());
        return None;
    }
    JsFuture::from(file.text()).await.ok()?.as_string()
}

/// Opens the text of a plan, or says what is wrong with it.
fn open_text(text: &str, name: &str) {
    match open_plan(text) {
        Ok(unknown) if unknown.is_empty() => put_notice_away(),
        Ok(unknown) => {
            let rules = unknown.join(", ");
            notice(&fill("open.no-rules", &[("rules", &rules)]), Vec::new());
        }
        Err(faults) => {
            let why = faults.first().map(|fault| {
                let line = fault.line.unwrap_or(1).to_string();
                let place = fill("desk.line", &[("n", &line)]);
                let help = fault.help.as_deref().unwrap_or_default();
                format!("{place}: {} {help}", fault.message)
            });
            let why = why.unwrap_or_default();
            let said = fill("open.refused", &[("name", name), ("why", &why)]);
            return notice(&said, Vec::new());
        }
    }
    choose_nothing(None);
    redraw();
    announce(&fill("open.opened", &[("name", name)]));
}

fn save() {
    hand_out(&file_name(), &file(), Kind::Yaml);
    announce(&t("save.done"));
}

async fn share() {
    let Some(place) = web_sys::window().map(|window| window.location()) else {
        return;
    };
    let address = place.href().unwrap_or_default();
    let address = address.split('#').next().unwrap_or_default();
    if let Ok(fragment) = to_fragment(&link()).await {
        let from_disk = place.protocol().is_ok_and(|protocol| protocol == "file:");
        show_link(&format!("{address}{fragment}"), from_disk);
        select_link();
    }
}

fn select_link() -> Option<String> {
    let field: HtmlTextAreaElement = element("link")?.dyn_into().ok()?;
    field.select();
    Some(field.value())
}

async fn copy_link() {
    let Some(link) = select_link() else { return };
    let copied = match clipboard() {
        Some(clipboard) => JsFuture::from(clipboard.write_text(&link)).await.is_ok(),
        None => false,
    };
    if !copied {
        copy_selected();
    }
    announce(&t("share.copied"));
}

/// A page that did not come by a safe way has none.
fn clipboard() -> Option<web_sys::Clipboard> {
    let clipboard = web_sys::window()?.navigator().clipboard();
    (!JsValue::is_undefined(&clipboard)).then_some(clipboard)
}

/// The way of older browsers.
fn copy_selected() {
    let page = crate::view::keyed::document();
    if let Some(page) = page.and_then(|page| page.dyn_into::<web_sys::HtmlDocument>().ok()) {
        // Where this fails, too, the link is selected, and a person copies it.
        let _ = page.exec_command("copy");
    }
}

fn pick_for_print(on: &Element) {
    let Some(value) = value_of(on) else { return };
    with_print(|print| match said(on, "key").as_str() {
        "paper" => print.paper = value,
        "lying" => print.lying = value == "true",
        _ => print.scale = value.parse().unwrap_or(print.scale),
    });
    show_print_box();
}

fn print_now() {
    close_box();
    if let Some(window) = web_sys::window() {
        // A browser that cannot print does nothing.
        let _ = window.print();
    }
}

/// Opens the plan in the address, if one stands there, and takes it out of the address.
pub async fn take_link() {
    let Some(window) = web_sys::window() else {
        return;
    };
    let fragment = window.location().hash().unwrap_or_default();
    let Some(held) = from_fragment(&fragment).await else {
        return;
    };
    forget_fragment(&window);
    match held {
        Err(key) => notice(&t(key), Vec::new()),
        Ok(held) => open_held(&held),
    }
}

fn forget_fragment(window: &web_sys::Window) {
    let place = window.location();
    let address = place.pathname().unwrap_or_default() + &place.search().unwrap_or_default();
    if let Ok(history) = window.history() {
        // An address that stays as it was opens the same plan again on a reload.
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&address));
    }
}

fn open_held(held: &str) {
    let said = open_link(held);
    if said == "broken" {
        return notice(&t("link.broken"), Vec::new());
    }
    if let Some(rules) = said.strip_prefix("missing ") {
        notice(&fill("link.no-rules", &[("rules", rules)]), Vec::new());
    }
    choose_nothing(None);
    redraw();
}
