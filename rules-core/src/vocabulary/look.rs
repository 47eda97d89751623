//! How an outline is drawn: the line styles of a site plan.
//!
//! The signs are those that surveyors' sheets commonly use (common practice, no source): a boundary in a long dash with
//! two dots, a fence with crosses, a buried line broken by the letter of what it carries. Everything is ink on white; a
//! page can add colours through the classes.

use super::Shape;

/// The marks along a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// Nothing.
    None,
    /// Crosses, as on a fence.
    Crosses,
    /// Small rings, as of poles.
    Rings,
    /// Arrowheads in the direction of flow.
    Arrows,
    /// Short strokes across.
    Strokes,
    /// The first letter of its fact `type`.
    Letter,
}

/// The place of something in the drawing order: later layers lie on top.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// Areas of the ground.
    Ground,
    /// Lines across the ground.
    Lines,
    /// Things that stand on it.
    Standing,
    /// The barrier.
    Barrier,
    /// The pool.
    Pool,
}

/// How something is drawn. Widths and dashes are in screen points, at any scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// Its layer.
    pub layer: Layer,
    /// Its fill: a colour, or a pattern of the drawing.
    pub fill: &'static str,
    /// The colour of its line.
    pub stroke: &'static str,
    /// The width of its line.
    pub width: &'static str,
    /// The dashes of its line and the gaps between them.
    pub dash: Option<&'static str>,
    /// The marks along its line.
    pub mark: Mark,
}

const INK: &str = "#26251f";
const SOFT: &str = "#77736a";
pub(super) const NONE: &str = "none";

pub(super) const fn look(layer: Layer, fill: &'static str, width: &'static str) -> Look {
    Look {
        layer,
        fill,
        stroke: INK,
        width,
        dash: None,
        mark: Mark::None,
    }
}

impl Look {
    pub(super) const fn dashed(mut self, dash: &'static str) -> Self {
        self.dash = Some(dash);
        self
    }

    pub(super) const fn marked(mut self, mark: Mark) -> Self {
        self.mark = mark;
        self
    }

    pub(super) const fn soft(mut self) -> Self {
        self.stroke = SOFT;
        self
    }

    /// The default look of a shape.
    pub fn of_shape(shape: Shape) -> Self {
        match shape {
            Shape::Area => look(Layer::Ground, NONE, "1"),
            Shape::Line => look(Layer::Lines, NONE, "1.1"),
            Shape::Point => look(Layer::Standing, "#ffffff", "1.1"),
        }
    }
}
