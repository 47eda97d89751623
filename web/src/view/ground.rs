//! The part of the ground that is looked at, as the viewBox of the drawing.

use std::cell::Cell;

use wasm_bindgen::JsCast;
use web_sys::{Element, SvgGraphicsElement};

use super::keyed::element;
use crate::hand::ScreenMap;

/// The ground that is drawn: left, top, width and height, in the drawing's own millimetres.
pub type View = [f64; 4];

/// What is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ground {
    /// All of it.
    pub whole: View,
    /// Where the plan counts from, in the drawing's own millimetres.
    pub zero: [f64; 2],
}

/// Forty metres of nothing, to draw a lot on.
pub const EMPTY: Ground = Ground {
    whole: [-2000.0, -42000.0, 44000.0, 44000.0],
    zero: [0.0; 2],
};

thread_local! {
    static DRAWN: Cell<Ground> = const { Cell::new(EMPTY) };
    /// The part that is looked at; `None` for all of it.
    static VIEW: Cell<Option<View>> = const { Cell::new(None) };
}

/// Keeps what is drawn.
pub fn set_drawn(ground: Ground) {
    DRAWN.set(ground);
}

/// What is drawn.
pub fn drawn() -> Ground {
    DRAWN.get()
}

/// The part that is looked at.
pub fn view() -> View {
    VIEW.get().unwrap_or_else(|| DRAWN.get().whole)
}

/// Looks at that part, or at all of it.
pub fn look_at(part: Option<View>) {
    VIEW.set(part);
    if let Some(drawing) = drawing() {
        // Any element takes an attribute.
        let _ = drawing.set_attribute("viewBox", &numbers(&view()));
    }
}

/// Numbers as an attribute lists them.
pub fn numbers(all: &[f64]) -> String {
    all.iter().map(f64::to_string).collect::<Vec<_>>().join(" ")
}

/// Looks closer about a place of the drawing, or about the middle of what is looked at.
pub fn zoom(by: f64, about: Option<[f64; 2]>) {
    look_at(Some(closer(view(), by, about)));
}

/// A view made smaller about a place, or about its middle.
pub fn closer([x, y, width, height]: View, by: f64, about: Option<[f64; 2]>) -> View {
    let [left, top] = about.unwrap_or([x + width / 2.0, y + height / 2.0]);
    [
        left - (left - x) / by,
        top - (top - y) / by,
        width / by,
        height / by,
    ]
}

/// A place of the plan on the drawing.
pub fn on_sheet([east, north]: [f64; 2]) -> [f64; 2] {
    let [left, top] = DRAWN.get().zero;
    [left + east, top - north]
}

/// The drawing on the page.
pub fn drawing() -> Option<Element> {
    element("drawing")
}

/// How the screen lies on the ground now.
pub fn screen() -> Option<ScreenMap> {
    let drawing: SvgGraphicsElement = drawing()?.dyn_into().ok()?;
    let matrix = drawing.get_screen_ctm()?;
    let [scale, left, top] = [matrix.a(), matrix.e(), matrix.f()].map(f64::from);
    let [x, y] = DRAWN.get().zero;
    let zero = [left + x * scale, top + y * scale];
    Some(ScreenMap { scale, zero })
}

#[cfg(test)]
mod tests {
    use super::{closer, numbers};

    #[test]
    fn the_place_looked_at_stays() {
        let view = [0.0, 0.0, 4000.0, 2000.0];
        assert_eq!(closer(view, 2.0, None), [1000.0, 500.0, 2000.0, 1000.0]);
        assert_eq!(
            closer(view, 2.0, Some([0.0; 2])),
            [0.0, 0.0, 2000.0, 1000.0]
        );
        assert_eq!(numbers(&[-1.0, 0.5]), "-1 0.5");
    }
}
