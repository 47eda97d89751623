//! An outline of a kind: what is drawn, and how high it lies.

use super::{FactId, Height, KindId, Level, Look};

/// An outline of a kind, as its place in the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct OutlineId(pub u16);

/// The start of an outline's name that needs its thing.
const ITS: &str = "its ";

/// What an outline is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// A single place.
    Point,
    /// A line.
    Line,
    /// An area.
    Area,
}

/// An outline that a kind can have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outline {
    /// Whose it is.
    pub kind: KindId,
    /// Its name in files: `water`.
    pub name: String,
    /// Its name in sentences: `the water's edge`.
    pub said: String,
    /// Whether that name needs its thing, as `its top` does.
    pub its: bool,
    /// What is drawn.
    pub shape: Shape,
    /// Whether a thing may be without it (a pool without a deck), so that `none` is allowed.
    pub none: bool,
    /// Outlines of the same kind that contain it however they are drawn. Outside them it cannot be.
    pub within: Vec<OutlineId>,
    /// Whether it is not part of the thing itself (the area inside the barrier).
    pub beside: bool,
    /// Whether it blocks a person on foot. Gates, doors and windows count as closed.
    pub bars_the_way: bool,
    /// Whether it lets nothing through, not even a cord: the wall of a house.
    pub solid: bool,
    /// How high it lies, and how it is drawn.
    pub lie: Lie,
}

/// How high an outline lies, and how it is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Lie {
    /// Its lowest and its highest point above the ground; everything between belongs to the thing. `None` if only a
    /// `height` fact of its kind could tell.
    pub extent: Option<(Height<FactId>, Height<FactId>)>,
    /// The fact that states its level.
    pub level: Option<Level<FactId>>,
    /// Whether its level is that of its lowest point, as for a hole.
    pub lowest: bool,
    /// How it is drawn; `None` for the default of its shape.
    pub look: Option<Look>,
}

impl Outline {
    /// An outline that every thing of its kind has, with everything else left at its default.
    pub fn new(kind: KindId, name: &str, said: &str, shape: Shape) -> Self {
        Self {
            kind,
            name: name.to_owned(),
            said: said.to_owned(),
            its: said.starts_with(ITS),
            shape,
            none: false,
            within: Vec::new(),
            beside: false,
            bars_the_way: false,
            solid: false,
            lie: Lie::default(),
        }
    }
}
