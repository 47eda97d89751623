//! The page as a whole: shown after each change, and its drawing wired to the hand and the keys.

use std::cell::Cell;

use js_sys::Function;
use rules_core::edit::Change;
use rules_core::text::Node;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::wasm_bindgen;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, Event, HtmlElement, ResizeObserver};

use crate::acts::menu::take_link;
use crate::acts::{self, acted, arrive, entered, pointer, sheet, show_page_to_sign, wire_desk};
use crate::browser::{LOOK, callback, listen, redraw, when_idle};
use crate::drag;
use crate::hand::with_hand;
use crate::held::with;
use crate::judged::{is_judged, judge};
use crate::keep::restore;
use crate::looks::with_looks;
use crate::plan::pools;
use crate::room::{FOUND, seek};
use crate::rules::speak;
use crate::view;
use crate::view::drawing::{canvas, options};
use crate::view::keyed::{document, element};
use crate::view::print::show_print;
use crate::windows::{keep_and_tell, watch};
use crate::words::tongue;

/// Begins with what was kept; then with the plan in the address, if one stands there.
#[wasm_bindgen]
pub fn open_page() {
    restore();
    wire();
    if let Some(opening) = element("opening") {
        opening.remove();
    }
    show();
    if let Some(clock) = web_sys::window().and_then(|window| window.performance()) {
        // A browser that keeps no such marks opens the page all the same.
        let _ = clock.mark("verdict shown");
    }
    watch();
    spawn_local(async {
        take_link().await;
        if let Some(body) = document().and_then(|page| page.body()) {
            // Any element takes an attribute.
            let _ = body.set_attribute("data-ready", "true");
        }
    });
}

/// Keeps the plan and shows it, after it was changed.
fn changed() {
    keep_and_tell();
    show();
    arrive();
}

/// Judges the plan and shows the page.
fn show() {
    let language = with_looks(|looks| looks.language.clone());
    speak(language.as_deref().unwrap_or("en"));
    if let Some(root) = document().and_then(|page| page.document_element()) {
        // Any element takes an attribute.
        let _ = root.set_attribute("lang", &tongue());
    }
    drag::begin_anew();
    judge(&options());
    seek();
    view::menu::show_menu();
    view::show_sheet();
    view::room::show_room();
    view::show_form();
    view::show_result();
    view::drawing::show_drawing();
    view::show_desk();
    warm_up_later();
}

/// Listens to everything that a person does.
fn wire() {
    let (Some(page), Some(window)) = (document(), web_sys::window()) else {
        return;
    };
    listen(&page, LOOK, |_: Event| changed());
    listen(&page, FOUND, |_: Event| acts::room::found());
    for name in ["click", "change"] {
        listen(&page, name, |event: Event| acted(&event));
    }
    listen(&page, "keydown", |event| {
        entered(&event);
        sheet::key_of_page(&event);
    });
    listen(&window, "hashchange", |_: Event| spawn_local(take_link()));
    listen(&window, "beforeprint", |_: Event| {
        if !show_page_to_sign() {
            show_print();
        }
    });
    wire_desk();
    if let Some(canvas) = canvas() {
        wire_drawing(&canvas);
    }
}

fn wire_drawing(canvas: &HtmlElement) {
    let frame = pointer::frame();
    listen(canvas, "pointerdown", |event| pointer::pressed(&event));
    listen(canvas, "pointermove", move |event| {
        pointer::moved(&event, &frame);
    });
    for name in ["pointerup", "pointercancel"] {
        listen(canvas, name, |event| pointer::released(&event));
    }
    listen(canvas, "wheel", |event| pointer::wheeled(&event));
    listen(canvas, "keydown", |event| sheet::key(&event));
    listen(canvas, "focusin", |event: Event| {
        let target = event.target().and_then(|it| it.dyn_into::<Element>().ok());
        if let Some(target) = target {
            pointer::focused(&target);
        }
    });
    if let Ok(observer) = ResizeObserver::new(&redrawing_at_width()) {
        observer.observe(canvas);
    }
}

/// Redraws the page when the drawing's width has changed.
fn redrawing_at_width() -> Function {
    let width = || canvas().map_or(0, |canvas| canvas.client_width());
    let known = Cell::new(width());
    callback(move || {
        let is_held = with_hand(|hand| hand.hold.is_some());
        let width = width();
        if !is_held && width != known.replace(width) && width > 0 {
            redraw();
        }
    })
}

thread_local! {
    /// How many steps are still to be taken until a browser has sped up what each of them calls.
    static COLD: Cell<u32> = const { Cell::new(200) };
    static WARM_UP: Function = callback(warm_up);
    static WAITS: Cell<bool> = const { Cell::new(false) };
}

fn warm_up_later() {
    if !WAITS.replace(true) {
        WARM_UP.with(when_idle);
    }
}

/// A step of a drag that goes nowhere, taken while nobody waits.
fn warm_up() {
    WAITS.set(false);
    let pool = with(|session| {
        let pools = pools(session.plan());
        let id = pools.first().map(|(_, pool)| pool.get("id"))?;
        Some(id.and_then(Node::text).unwrap_or("pool").to_owned())
    });
    let Some(path) = pool.filter(|_| is_judged()) else {
        return;
    };
    drag::warm_up(&Change::Move {
        path,
        dx: 1e-6,
        dy: 0.0,
    });
    let cold = COLD.get();
    COLD.set(cold.saturating_sub(1));
    if cold > 0 {
        warm_up_later();
    }
}
