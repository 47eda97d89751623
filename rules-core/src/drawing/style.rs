//! How each kind is drawn: the pens of a site plan, one row to a kind or to one of its outlines.
//!
//! A kind that a rule set adds, or that is not here, is drawn by its shape. The signs are those that surveyors' sheets
//! commonly use (common practice, no source): a boundary in a long dash with two dots, a fence with crosses, a buried
//! line broken by the letter of what it carries. All of it is ink on white; a page may give colours by the classes.

use crate::vocabulary::Shape;

/// What is set along a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Mark {
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

/// Where in the order of drawing a kind comes: what is later lies on top.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Layer {
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
#[derive(Debug, Clone, Copy)]
pub(super) struct Look {
    pub layer: Layer,
    pub fill: &'static str,
    pub stroke: &'static str,
    pub width: &'static str,
    pub dash: Option<&'static str>,
    pub mark: Mark,
}

const INK: &str = "#26251f";
const SOFT: &str = "#77736a";
const NONE: &str = "none";

const fn look(layer: Layer, fill: &'static str, width: &'static str) -> Look {
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
    const fn dashed(mut self, dash: &'static str) -> Self {
        self.dash = Some(dash);
        self
    }

    const fn marked(mut self, mark: Mark) -> Self {
        self.mark = mark;
        self
    }

    const fn soft(mut self) -> Self {
        self.stroke = SOFT;
        self
    }
}

/// Kind, outline (none: all others of it), look.
const LOOKS: &[(&str, Option<&str>, Look)] = &[
    ("pool", Some("water"), look(Layer::Pool, "#cfe1e8", "1.8")),
    ("pool", Some("inside-face"), look(Layer::Pool, NONE, "0.8")),
    ("pool", Some("coping"), look(Layer::Pool, NONE, "0.8")),
    (
        "pool",
        Some("shell"),
        look(Layer::Pool, NONE, "0.9").dashed("3 2"),
    ),
    (
        "pool",
        Some("deck"),
        look(Layer::Ground, NONE, "0.8").dashed("9 3").soft(),
    ),
    (
        "pool",
        Some("excavation"),
        look(Layer::Ground, NONE, "1").dashed("2 3").soft(),
    ),
    (
        "pool",
        None,
        look(Layer::Ground, NONE, "0.8").dashed("4 3").soft(),
    ),
    (
        "building",
        Some("wall"),
        look(Layer::Standing, "#d8d4ca", "1.6"),
    ),
    (
        "building",
        Some("roof"),
        look(Layer::Standing, NONE, "0.8").dashed("6 3"),
    ),
    (
        "building",
        None,
        look(Layer::Standing, NONE, "0.7").dashed("2 2").soft(),
    ),
    ("wall-opening", None, look(Layer::Barrier, NONE, "4").soft()),
    ("deck", None, look(Layer::Ground, "#f1eee5", "0.9")),
    ("driveway", None, look(Layer::Ground, "#efece4", "0.9")),
    (
        "road",
        Some("centreline"),
        look(Layer::Lines, NONE, "0.9").dashed("18 4 4 4"),
    ),
    ("road", None, look(Layer::Lines, NONE, "0.9")),
    (
        "railway",
        None,
        look(Layer::Lines, NONE, "1.2").marked(Mark::Strokes),
    ),
    (
        "overhead-line",
        Some("path"),
        look(Layer::Lines, NONE, "1")
            .dashed("12 4")
            .marked(Mark::Rings),
    ),
    (
        "overhead-line",
        None,
        look(Layer::Lines, NONE, "0.7").dashed("2 3").soft(),
    ),
    (
        "buried-service",
        None,
        look(Layer::Lines, NONE, "1")
            .dashed("8 3 2 3")
            .marked(Mark::Letter),
    ),
    (
        "septic-part",
        None,
        look(Layer::Ground, "#f2eee0", "1").dashed("5 3"),
    ),
    (
        "easement",
        None,
        look(Layer::Ground, "url(#siting-easement)", "0.9").dashed("11 3 2 3"),
    ),
    (
        "flood-area",
        None,
        look(Layer::Ground, "url(#siting-flood)", "0.9").dashed("7 4"),
    ),
    (
        "open-water",
        None,
        look(Layer::Ground, "url(#siting-flood)", "1.2"),
    ),
    ("shoreline", None, look(Layer::Lines, NONE, "1.4")),
    (
        "top-of-bank",
        None,
        look(Layer::Lines, NONE, "1").marked(Mark::Strokes),
    ),
    (
        "drainage-path",
        None,
        look(Layer::Lines, NONE, "0.9")
            .dashed("6 4")
            .marked(Mark::Arrows),
    ),
    (
        "tree",
        Some("stem"),
        look(Layer::Standing, "#ffffff", "1.2"),
    ),
    (
        "tree",
        None,
        look(Layer::Ground, NONE, "0.8").dashed("1.5 3"),
    ),
    ("retaining-wall", None, look(Layer::Standing, NONE, "2.6")),
    (
        "slope",
        None,
        look(Layer::Lines, NONE, "0.8").marked(Mark::Strokes),
    ),
    (
        "cliff",
        None,
        look(Layer::Lines, NONE, "1.4").marked(Mark::Strokes),
    ),
    ("equipment", None, look(Layer::Standing, "#e4e0d6", "1.1")),
    (
        "barrier-stretch",
        Some("line"),
        look(Layer::Barrier, NONE, "1.1").marked(Mark::Crosses),
    ),
    (
        "barrier-stretch",
        None,
        look(Layer::Barrier, NONE, "0.6").soft(),
    ),
    (
        "mesh-fence",
        None,
        look(Layer::Barrier, NONE, "1")
            .dashed("4 2")
            .marked(Mark::Crosses),
    ),
    (
        "temporary-fence",
        None,
        look(Layer::Barrier, NONE, "1")
            .dashed("8 4")
            .marked(Mark::Crosses),
    ),
    ("gate", Some("line"), look(Layer::Barrier, NONE, "2.6")),
    (
        "gate",
        None,
        look(Layer::Barrier, NONE, "0.7").dashed("3 2"),
    ),
    ("pool-wall-stretch", None, look(Layer::Barrier, NONE, "2.2")),
];

/// How an outline of a kind is drawn.
pub(super) fn of(kind: &str, outline: &str, shape: Shape) -> Look {
    let row = LOOKS
        .iter()
        .find(|(own, name, _)| *own == kind && name.is_none_or(|name| name == outline));
    row.map_or_else(|| by_shape(shape), |row| row.2)
}

fn by_shape(shape: Shape) -> Look {
    match shape {
        Shape::Area => look(Layer::Ground, NONE, "1"),
        Shape::Line => look(Layer::Lines, NONE, "1.1"),
        Shape::Point => look(Layer::Standing, "#ffffff", "1.1"),
    }
}

/// The kinds that the sheet itself is made of, by their names.
pub(super) const LOT: &str = "lot";
/// Its sides.
pub(super) const LOT_LINE: &str = "lot-line";
/// What is to be built.
pub(super) const POOL: &str = "pool";
/// Who supplied a line of the lot so that it may be called a boundary.
pub(super) const SURE_SOURCES: [&str; 3] = ["survey", "plat", "deed"];

/// Whether a kind opens, so that posts stand at its ends.
pub(super) fn opens(kind: &str) -> bool {
    ["gate", "wall-opening", "barrier-opening"].contains(&kind)
}
