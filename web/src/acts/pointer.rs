//! The pointer and the fingers on the drawing: dragging, shifting the sheet, coming closer.

use js_sys::Function;
use rules_core::edit::Change;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, PointerEvent, WheelEvent};

use super::room;
use super::said;
use super::sheet::{let_go, path_of_rings, pulled};
use crate::browser::{callback, redraw};
use crate::drag::step;
use crate::hand::{Dragged, Hand, Hold, with_hand};
use crate::held::with;
use crate::looks::with_looks;
use crate::view::drawing::{canvas, is_fixed, show_drawing};
use crate::view::ground::{closer, look_at, on_sheet, screen, view, zoom};
use crate::view::keyed::element;

/// How many pixels a hand may tremble, without dragging anything.
const TREMBLES: f64 = 3.0;
/// How much closer a notch of the wheel goes.
const NOTCH: f64 = 1.2;

fn place(event: &PointerEvent) -> [f64; 2] {
    [event.client_x(), event.client_y()].map(f64::from)
}

/// The pointer is pressed on the drawing.
pub fn pressed(event: &PointerEvent) {
    if event.button() > 0 {
        return;
    }
    let at = place(event);
    let fingers = with_hand(|hand| {
        hand.fingers.insert(event.pointer_id(), at);
        let draws = matches!(hand.hold, Some(Hold::Places(_)));
        (!draws).then(|| hand.fingers.values().copied().collect::<Vec<_>>())
    });
    let Some(fingers) = fingers else { return };
    if let Some(canvas) = canvas() {
        // A pointer that is gone by now is captured by nobody.
        let _ = canvas.set_pointer_capture(event.pointer_id());
    }
    let hold = match fingers.as_slice() {
        [one, other] => Some(Hold::Fingers {
            spread: between(*one, *other),
            view: view(),
        }),
        _ => held_at(event, at),
    };
    with_hand(|hand| hand.hold = hold);
}

/// What is taken hold of there.
fn held_at(event: &PointerEvent, at: [f64; 2]) -> Option<Hold> {
    let target = event.target()?.dyn_into::<Element>().ok()?;
    let within = |selector| target.closest(selector).ok().flatten();
    let (path, ring) = match (within("[data-handle]"), within("[data-path]")) {
        (Some(ring), _) => {
            let index = said(&ring, "index").parse().unwrap_or(0);
            (path_of_rings()?, Some((said(&ring, "handle"), index)))
        }
        (None, Some(thing)) => (said(&thing, "path"), None),
        (None, None) => {
            return Some(Hold::Sheet {
                from: at,
                view: view(),
                still: true,
                map: within("[data-map]").is_some(),
            });
        }
    };
    Some(Hold::Thing(Dragged {
        path,
        ring,
        at,
        map: screen()?,
        moves: false,
        change: None,
    }))
}

fn between([x1, y1]: [f64; 2], [x2, y2]: [f64; 2]) -> f64 {
    js_sys::Math::hypot(x2 - x1, y2 - y1).max(1.0)
}

/// The pointer moves over the drawing; it is followed in the next frame.
pub fn moved(event: &PointerEvent, frame: &Function) {
    let (at, id) = (place(event), event.pointer_id());
    let waits = with_hand(|hand| {
        if let Some(finger) = hand.fingers.get_mut(&id) {
            *finger = at;
        }
        let drags = hand.hold.is_some() && !matches!(hand.hold, Some(Hold::Places(_)));
        if drags {
            hand.pointer = Some(at);
        }
        drags && hand.frame.is_none()
    });
    if waits {
        let asked = web_sys::window().and_then(|window| window.request_animation_frame(frame).ok());
        with_hand(|hand| hand.frame = asked);
    }
}

/// What is called in each frame of a drag.
pub fn frame() -> Function {
    callback(follow)
}

/// One frame of a drag: where the pointer is now, and what comes of it.
fn follow() {
    let now = with_hand(|hand| {
        hand.frame = None;
        let pointer = hand.pointer.take()?;
        let fingers: Vec<_> = hand.fingers.values().copied().collect();
        Some((pointer, fingers, hand.hold.clone()?))
    });
    match now {
        Some((at, _, Hold::Thing(dragged))) => drag(dragged, at),
        Some((
            at,
            _,
            Hold::Sheet {
                from, view, still, ..
            },
        )) => {
            if !still || between(from, at) >= TREMBLES {
                shift(from, view, at);
            }
        }
        Some((_, fingers, Hold::Fingers { spread, view })) => {
            if let [one, other] = fingers.as_slice() {
                look_at(Some(closer(view, between(*one, *other) / spread, None)));
            }
        }
        Some((.., Hold::Places(_))) | None => {}
    }
}

fn drag(mut dragged: Dragged, at: [f64; 2]) {
    if !dragged.moves && between(dragged.at, at) < TREMBLES {
        return;
    }
    dragged.moves = true;
    steady(true);
    let movable = dragged.ring.is_some() || !with(|it| is_fixed(it.plan(), &dragged.path));
    let change = change(&dragged, at);
    if movable && step(&change) {
        dragged.change = Some(change);
    }
    with_hand(|hand| hand.hold = Some(Hold::Thing(dragged)));
}

/// What it comes to when something is dragged to a place of the screen.
fn change(dragged: &Dragged, at: [f64; 2]) -> Change {
    let [from, to] = [dragged.at, at].map(|at| dragged.map.ground(at));
    let [dx, dy] = [0, 1].map(|axis| (to[axis] - from[axis]) / 1000.0);
    let path = dragged.path.clone();
    match dragged.ring.clone() {
        Some(ring) => pulled(path, ring, [dx, dy]),
        None => Change::Move { path, dx, dy },
    }
}

fn shift(from: [f64; 2], seen: [f64; 4], at: [f64; 2]) {
    let Some(scale) = screen().map(|map| map.scale) else {
        return;
    };
    let [x, y, width, height] = seen;
    let [right, down] = [0, 1].map(|axis| (at[axis] - from[axis]) / scale);
    with_hand(|hand| {
        if let Some(Hold::Sheet { still, .. }) = &mut hand.hold {
            *still = false;
        }
    });
    look_at(Some([x - right, y - down, width, height]));
}

/// Keeps what stands above the drawing as high as it is while something is dragged, whatever is told there meanwhile.
fn steady(is: bool) {
    let verdict = element("verdict").and_then(|it| it.dyn_into::<HtmlElement>().ok());
    let Some(verdict) = verdict else { return };
    let style = verdict.style();
    let was = style.get_property_value("height").unwrap_or_default();
    if is == was.is_empty() {
        let height = format!("{}px", verdict.get_bounding_client_rect().height());
        // Any element can be given a height.
        let _ = style.set_property("height", if is { &height } else { "" });
    }
}

/// The pointer is let go, or what it did is called off.
pub fn released(event: &PointerEvent) {
    let draws = with_hand(|hand| {
        hand.fingers.remove(&event.pointer_id());
        matches!(hand.hold, Some(Hold::Places(_)))
    });
    if draws {
        return put_place(event);
    }
    if let Some(frame) = with_hand(|hand| hand.frame.take()) {
        if let Some(window) = web_sys::window() {
            // A frame that has come by now has nothing left to do.
            let _ = window.cancel_animation_frame(frame);
        }
        follow();
    }
    let done = with_hand(|hand| {
        hand.pointer = None;
        hand.hold.take()
    });
    steady(false);
    match done {
        Some(Hold::Thing(dragged)) => put_down(dragged),
        Some(Hold::Sheet {
            from,
            still: true,
            map,
            ..
        }) => press_sheet(from, map),
        _ => {}
    }
}

/// The sheet is pressed: its map takes the pool there; elsewhere nothing is chosen any more.
fn press_sheet(at: [f64; 2], map: bool) {
    if !(map && room::pressed(at)) {
        let_go();
    }
}

/// A thing is put where it was dragged to, or only chosen.
fn put_down(dragged: Dragged) {
    let Dragged {
        path,
        moves,
        change,
        ..
    } = dragged;
    if let Some(change) = &change {
        // The last step was possible, so that this is.
        let _ = with(|session| session.edit(change));
    }
    if change.is_some() || !moves {
        with_looks(|looks| looks.thing = Some(path));
        redraw();
    }
}

fn put_place(event: &PointerEvent) {
    let map = screen().filter(|_| event.type_() == "pointerup");
    if let Some(map) = map {
        let at = map.ground(place(event));
        with_hand(|hand| put(hand, at));
        show_drawing();
    }
}

fn put(hand: &mut Hand, at: [f64; 2]) {
    if let Some(Hold::Places(drawing)) = &mut hand.hold {
        drawing.places.push(at);
    }
}

/// The wheel comes closer, with Ctrl.
pub fn wheeled(event: &WheelEvent) {
    if !event.ctrl_key() && !event.meta_key() {
        return;
    }
    event.prevent_default();
    let at = [event.client_x(), event.client_y()].map(f64::from);
    let by = if event.delta_y() < 0.0 {
        NOTCH
    } else {
        1.0 / NOTCH
    };
    zoom(by, screen().map(|map| on_sheet(map.ground(at))));
}

/// What gets the focus on the drawing is chosen.
pub fn focused(target: &Element) {
    let thing = target.closest("[data-path]").ok().flatten();
    let Some(path) = thing.map(|thing| said(&thing, "path")) else {
        return;
    };
    let is_held = with_hand(|hand| hand.hold.is_some());
    let is_chosen = with_looks(|looks| looks.thing.as_ref() == Some(&path));
    if !is_held && !is_chosen {
        with_looks(|looks| looks.thing = Some(path));
        redraw();
    }
}
