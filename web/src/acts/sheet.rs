//! What the bar above the drawing does, and the keys on the drawing.

use rules_core::drawing::Handle;
use rules_core::edit::{Change, handles};
use rules_core::session::{Session, path_of};
use rules_core::text::Node;
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent};

use super::form::{add_drawn, enter_thing, is_drawn_as_ring};
use super::{announce, is_ticked, said};
use crate::browser::redraw;
use crate::hand::{Drawing, Drawn, Hold, being_drawn, with_hand};
use crate::held::with;
use crate::looks::with_looks;
use crate::plan::is_of_lot;
use crate::view::drawing::{focused_part, is_fixed, where_is};
use crate::view::ground::{look_at, zoom};
use crate::view::keyed::element;
use crate::words::t;

/// How much closer a press of the button goes.
const CLOSER: f64 = 1.4;
/// How far an arrow moves something, in metres of the plan: alone, and with Shift.
const STEPS: [f64; 2] = [0.1, 0.01];
/// By how much a bracket turns it, in degrees: alone, and with Shift.
const TURNS: [f64; 2] = [15.0, 1.0];

/// Does an act of the bar. Returns whether to show the page again; `None` if the act is not the bar's.
pub fn act(name: &str, on: &Element) -> Option<bool> {
    match name {
        "zoom-in" => zoom(CLOSER, None),
        "zoom-out" => zoom(1.0 / CLOSER, None),
        "zoom-all" => look_at(None),
        "turn-left" => turn_chosen(TURNS[0]),
        "turn-right" => turn_chosen(-TURNS[0]),
        "shade" => {
            with_looks(|looks| looks.shade = is_ticked(on));
            return Some(true);
        }
        "view" => {
            with_looks(|looks| looks.view = said(on, "view"));
            scroll_up();
            return Some(true);
        }
        "thing-left" => {
            with_looks(|looks| looks.thing = None);
            return Some(true);
        }
        "lot-drawn" => begin_drawing(Drawn::Lot, true),
        "thing-drawn" => {
            let kind = said(on, "kind");
            let ring = is_drawn_as_ring(&kind);
            begin_drawing(Drawn::Kind(kind), ring);
        }
        "draw-done" => finish_drawing(),
        "draw-stop" => {
            with_hand(|hand| hand.hold = None);
            return Some(true);
        }
        _ => return None,
    }
    Some(false)
}

fn scroll_up() {
    if let Some(window) = web_sys::window() {
        window.scroll_to_with_x_and_y(0.0, 0.0);
    }
}

fn turn_chosen(degrees: f64) {
    if let Some(path) = with_looks(|looks| looks.thing.clone()) {
        edit(&turned(path, degrees));
    }
}

fn turned(path: String, degrees: f64) -> Change {
    Change::Turn {
        path,
        degrees,
        about: None,
    }
}

/// Changes the plan, shows it, and says where the thing now lies and what the verdict is.
fn edit(change: &Change) {
    if with(|session| session.edit(change)).is_err() {
        return;
    }
    redraw();
    let moved = focused_part().map(|part| {
        let name = part.get_attribute("aria-label").unwrap_or_default();
        format!("{name}: {} ", where_is(&part).unwrap_or_default())
    });
    let verdict = element("verdict-word").and_then(|word| word.text_content());
    announce(&(moved.unwrap_or_default() + &verdict.unwrap_or_default()));
}

/// From now on each press on the drawing puts a place, until a button of the bar ends it.
fn begin_drawing(what: Drawn, ring: bool) {
    let drawing = Drawing {
        what,
        ring,
        places: Vec::new(),
    };
    with_hand(|hand| hand.hold = Some(Hold::Places(drawing)));
    with_looks(|looks| "sheet".clone_into(&mut looks.view));
    redraw();
    announce(&t("sheet.drawing-now"));
}

fn finish_drawing() {
    let Some(drawing) = being_drawn() else { return };
    with_hand(|hand| hand.hold = None);
    if drawing.is_enough() {
        match drawing.what {
            Drawn::Lot => {
                // Corners that make no lot leave the plan as it is.
                let _ = with(|session| session.draw_lot(&drawing.places));
                with_looks(|looks| "form".clone_into(&mut looks.view));
            }
            Drawn::Kind(kind) => add_drawn(&kind, &drawing.places),
        }
    }
    redraw();
}

/// A key on the drawing.
pub fn key(event: &KeyboardEvent) {
    let target = event.target().and_then(|it| it.dyn_into::<Element>().ok());
    let within = |selector| target.as_ref()?.closest(selector).ok().flatten();
    let done = match (within("[data-handle]"), within("[data-path]")) {
        (Some(ring), _) => pull_by_ring(&ring, event),
        (None, Some(thing)) if being_drawn().is_none() => on_thing(said(&thing, "path"), event),
        _ => false,
    };
    if done {
        event.prevent_default();
    }
}

/// How far an arrow goes, to the east and to the north.
fn arrow(event: &KeyboardEvent) -> Option<[f64; 2]> {
    let way = match event.key().as_str() {
        "ArrowLeft" => [-1.0, 0.0],
        "ArrowRight" => [1.0, 0.0],
        "ArrowUp" => [0.0, 1.0],
        "ArrowDown" => [0.0, -1.0],
        _ => return None,
    };
    let step = STEPS[usize::from(event.shift_key())];
    Some(way.map(|way| way * step))
}

fn pull_by_ring(ring: &Element, event: &KeyboardEvent) -> bool {
    let Some((way, path)) = arrow(event).zip(path_of_rings()) else {
        return false;
    };
    let index = said(ring, "index").parse().unwrap_or(0);
    edit(&pulled(path, (said(ring, "handle"), index), way));
    true
}

/// A thing pulled at a ring of this sort and number.
pub fn pulled(path: String, (what, index): (String, usize), [dx, dy]: [f64; 2]) -> Change {
    Change::Pull {
        path,
        what,
        index,
        dx,
        dy,
    }
}

/// Whose corners have rings on the drawing: the chosen thing's, or the lot's if one of its sides is chosen.
pub fn path_of_rings() -> Option<String> {
    let thing = with_looks(|looks| looks.thing.clone())?;
    let path = with(|session| path_of(session.plan(), &thing));
    Some(match path.is_some_and(|path| is_of_lot(&path)) {
        true => "lot".to_owned(),
        false => thing,
    })
}

/// Whether the key does something to a thing.
fn on_thing(path: String, event: &KeyboardEvent) -> bool {
    let key = event.key();
    let fixed = with(|session| is_fixed(session.plan(), &path));
    let fine = TURNS[usize::from(event.shift_key() || matches!(key.as_str(), "{" | "}"))];
    match (key.as_str(), arrow(event)) {
        (_, Some(_)) if fixed => {}
        (_, Some(way)) if event.alt_key() => pull_by_key(path, way),
        (_, Some([dx, dy])) => edit(&Change::Move { path, dx, dy }),
        ("[" | "{", _) => edit(&turned(path, fine)),
        ("]" | "}", _) => edit(&turned(path, -fine)),
        ("Escape", _) => let_go(),
        ("Enter" | " ", _) => {
            if enter_thing(&path) {
                redraw();
            }
        }
        _ => return false,
    }
    true
}

/// Nothing is chosen any more.
pub fn let_go() {
    with_looks(|looks| (looks.thing, looks.selected) = (None, None));
    redraw();
}

fn pull_by_key(path: String, way: [f64; 2]) {
    if let Some(ring) = with(|session| ring_for_keys(session.plan(), &path)) {
        edit(&pulled(path, (ring.what, ring.index), way));
    }
}

/// The ring by which the keys pull a thing: a rectangle's far corner, else the first.
fn ring_for_keys(plan: &Node, path: &str) -> Option<Handle> {
    let mut all = handles(plan, path);
    let far = |ring: &Handle| ring.what == "corner" && ring.index == 2;
    let at = all.iter().position(far).unwrap_or(0);
    (at < all.len()).then(|| all.swap_remove(at))
}

/// A key anywhere on the page: undoing, and doing again.
pub fn key_of_page(event: &KeyboardEvent) {
    let target = event.target().and_then(|it| it.dyn_into::<Element>().ok());
    let types = |on: Element| on.matches("input[type=text], textarea").unwrap_or(false);
    if !(event.ctrl_key() || event.meta_key()) || target.is_some_and(types) {
        return;
    }
    match (event.key().to_ascii_lowercase().as_str(), event.shift_key()) {
        ("z", false) => with(Session::undo),
        ("y", _) | ("z", true) => with(Session::redo),
        _ => return,
    }
    redraw();
    event.prevent_default();
}
