//! What can be asked of a plan that is edited.

use super::lot::Side;

/// Why a document was not changed, in a sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wrong(pub String);

/// What came of a change beside the changed document.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Changed {
    /// The id of what was drawn anew.
    pub id: Option<String>,
    /// By how much the last side of a lot misses its first corner, in nanometres.
    pub closing: Option<i128>,
}

/// A change. `path` names a thing by its id (`pool` the pool, `lot` the lot), and after a `:` one of its outlines.
/// Places and ways are to the east and to the north, in metres of the file's own coordinates.
///
/// Tests write these as JSON, so the compiler cannot see which ones are used; `tests/tests/dead_code.rs` checks that all are.
#[derive(Debug, Clone, PartialEq, serde::Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Change {
    /// Moves all that is drawn of a thing, and of what is part of it.
    #[serde(rename_all = "kebab-case")]
    Move {
        /// What.
        path: String,
        /// To the east.
        dx: f64,
        /// To the north.
        dy: f64,
    },
    /// Turns it anticlockwise, about its middle where no place is given.
    Turn {
        /// What.
        path: String,
        /// By how much.
        degrees: f64,
        /// About this place.
        about: Option<[f64; 2]>,
    },
    /// Pulls it at one of its handles (see [`handles`](crate::edit::handles)).
    Pull {
        /// What.
        path: String,
        /// Which sort of handle.
        what: String,
        /// Which of them.
        index: usize,
        /// To the east.
        dx: f64,
        /// To the north.
        dy: f64,
    },
    /// Draws the lot anew.
    Lot(Lot),
    /// Draws something new.
    Add(Add),
}

/// How the lot is drawn anew.
#[derive(Debug, Clone, PartialEq, Eq, serde::Deserialize)]
#[serde(untagged)]
pub enum Lot {
    /// A rectangle.
    Size {
        /// Along the road, as typed.
        width: String,
        /// From the road to the rear, as typed.
        depth: String,
    },
    /// Side by side.
    Sides {
        /// The sides, the first along the road from left to right.
        sides: Vec<Side>,
    },
    /// Corner by corner.
    Corners {
        /// The corners in the order in which one walks round the lot, east and north, as typed.
        corners: Vec<[String; 2]>,
    },
}

/// Something new.
#[derive(Debug, Clone, PartialEq, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Add {
    /// Its kind; `pool` for the pool itself.
    pub kind: String,
    /// Its outline that is drawn; none where it is nowhere.
    pub outline: Option<String>,
    /// `point`, `line` or `area`.
    pub shape: Option<String>,
    /// Its middle; the middle of the lot where that is not said.
    pub at: Option<[f64; 2]>,
    /// Its length and width as typed.
    pub size: Option<[String; 2]>,
}
