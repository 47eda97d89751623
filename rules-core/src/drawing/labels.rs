//! Lettering, placed so that no text covers another.

use super::place::{Frame, SheetPoint};
use super::sheet::Sheet;
use super::svg::{INK, Svg, el, mm};

/// A text on the sheet.
#[derive(Debug, Clone)]
pub(super) struct Label {
    pub text: String,
    /// The middle of it.
    pub at: SheetPoint,
    /// In degrees, clockwise.
    pub angle: f64,
    pub class: &'static str,
}

/// What is written so far, and the room it takes.
#[derive(Default)]
pub(super) struct Lettering {
    taken: Vec<Frame>,
    written: Svg,
}

/// The average width of a letter, as a share of its height (from memory, for a plain sans-serif).
const WIDE: f64 = 0.55;

impl Lettering {
    /// Keeps a box free.
    pub fn keep_free(&mut self, frame: Frame) {
        self.taken.push(frame);
    }

    /// Writes the label at the first place that has room. If none has and it must be shown, it goes to the first place.
    pub fn place(&mut self, places: &[Label], must: bool, sheet: &Sheet<'_>) {
        let free = |label: &&Label| {
            let frame = boxed(label, sheet);
            let inside = sheet.frame.holds(frame.low) && sheet.frame.holds(frame.high);
            inside && self.taken.iter().all(|taken| !taken.meets(frame))
        };
        let found = places.iter().find(free);
        let Some(label) = found.or_else(|| places.first().filter(|_| must)) else {
            return;
        };
        self.taken.push(boxed(label, sheet));
        self.written += written(label, sheet);
    }

    /// Everything written.
    pub fn svg(self, sheet: &Sheet<'_>) -> Svg {
        let size = sheet.points(sheet.lettering());
        el("g")
            .with("class", "lettering")
            .with("pointer-events", "none")
            .with("aria-hidden", "true")
            .at("font-size", size)
            .with("text-anchor", "middle")
            .with("font-family", "system-ui, sans-serif")
            .with("fill", INK)
            .with("stroke", "#ffffff")
            .at("stroke-width", size * 0.28)
            .with("stroke-linejoin", "round")
            .with("paint-order", "stroke")
            .holding(self.written)
    }
}

/// How wide a text is, in millimetres of ground.
pub(super) fn width_of(text: &str, sheet: &Sheet<'_>) -> f64 {
    sheet.points(sheet.lettering()) * WIDE * text.chars().count() as f64
}

/// The box around a text as it is turned.
fn boxed(label: &Label, sheet: &Sheet<'_>) -> Frame {
    let (wide, high) = (
        width_of(&label.text, sheet) / 2.0,
        sheet.points(sheet.lettering()) * 0.6,
    );
    let turn = label.angle.to_radians();
    let (sin, cos) = (libm::sin(turn).abs(), libm::cos(turn).abs());
    let point = Frame {
        low: label.at,
        high: label.at,
    };
    let (x, y) = (wide * cos + high * sin, wide * sin + high * cos);
    point.resized(2.0 * x, 2.0 * y)
}

fn written(label: &Label, sheet: &Sheet<'_>) -> Svg {
    let size = sheet.points(sheet.lettering());
    let (x, y) = (mm(label.at.x), mm(label.at.y));
    let turned = (label.angle.round() != 0.0)
        .then(|| format!("rotate({} {x} {y})", (label.angle * 10.0).round() / 10.0));
    el("text")
        .with("class", label.class)
        .with("x", &x)
        .with("y", &y)
        // Down from the middle of the letters to their baseline.
        .at("dy", size * 0.35)
        .with_some("transform", turned)
        .saying(&label.text)
}
