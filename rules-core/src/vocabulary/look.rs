//! How an outline is drawn: the pens of a site plan.
//!
//! The signs are those that surveyors' sheets commonly use (common practice, no source): a boundary in a long dash with
//! two dots, a fence with crosses, a buried line broken by the letter of what it carries. All of it is ink on white; a
//! page may give colours by the classes.

use super::Shape;

/// What is set along a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// Nothing.
    None,
    /// Crosses, as on a fence.
    Crosses,
    /// Small rings, as of poles.
    Rings,
    /// Heads of arrows, the way that water runs.
    Arrows,
    /// Short strokes across.
    Strokes,
    /// The first letter of its fact `type`.
    Letter,
}

/// Where in the order of drawing something comes: what is later lies on top.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// Areas of the ground.
    Ground,
    /// What runs across it.
    Lines,
    /// What stands on it.
    Standing,
    /// What encloses.
    Barrier,
    /// The pool.
    Pool,
}

/// How something is drawn. Widths and dashes are in points of the screen, whatever the scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// Over or under what.
    pub layer: Layer,
    /// What fills it: a colour, or a pattern of the drawing.
    pub fill: &'static str,
    /// The colour of its line.
    pub stroke: &'static str,
    /// The width of its line.
    pub width: &'static str,
    /// The dashes of its line and the gaps between them.
    pub dash: Option<&'static str>,
    /// What is set along its line.
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

    /// How something is drawn of which only the shape is known.
    pub fn of_shape(shape: Shape) -> Self {
        match shape {
            Shape::Area => look(Layer::Ground, NONE, "1"),
            Shape::Line => look(Layer::Lines, NONE, "1.1"),
            Shape::Point => look(Layer::Standing, "#ffffff", "1.1"),
        }
    }
}
