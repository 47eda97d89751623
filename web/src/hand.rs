//! What somebody's hand is doing on the drawing just now.

use std::cell::RefCell;
use std::collections::BTreeMap;

use rules_core::edit::Change;

/// What is held.
#[derive(Debug, Clone, PartialEq)]
pub enum Hold {
    /// A thing, or one of its rings.
    Thing(Dragged),
    /// The sheet itself; `still` until it moves.
    Sheet {
        /// Where on the screen it was taken hold of.
        from: [f64; 2],
        /// The ground that was seen then.
        view: [f64; 4],
        /// Whether it has not moved yet.
        still: bool,
        /// Whether the map of places was pressed.
        map: bool,
    },
    /// The sheet, with two fingers.
    Fingers {
        /// How far apart they were, in pixels.
        spread: f64,
        /// The ground that was seen then.
        view: [f64; 4],
    },
    /// Nothing: something is being drawn, place by place.
    Places(Drawing),
}

/// A thing that is dragged, or pulled at one of its rings.
#[derive(Debug, Clone, PartialEq)]
pub struct Dragged {
    /// The thing.
    pub path: String,
    /// The sort of the ring and its number, if it is held by one.
    pub ring: Option<(String, usize)>,
    /// Where on the screen it was taken hold of.
    pub at: [f64; 2],
    /// How the screen lay on the ground then. A drag keeps to it, whatever the page does meanwhile.
    pub map: ScreenMap,
    /// Whether it has moved far enough to be meant.
    pub moves: bool,
    /// What the drag comes to so far.
    pub change: Option<Change>,
}

/// Something that is being drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// What.
    pub what: Drawn,
    /// Whether it is drawn as a ring, not as a line.
    pub ring: bool,
    /// The places so far, east and north in millimetres.
    pub places: Vec<[f64; 2]>,
}

impl Drawing {
    /// Whether there are places enough for a ring, or for a line.
    pub fn is_enough(&self) -> bool {
        self.places.len() >= if self.ring { 3 } else { 2 }
    }
}

/// What can be drawn place by place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Drawn {
    /// The lot.
    Lot,
    /// A thing of this kind.
    Kind(String),
}

/// How places of the screen, in pixels, lie on the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScreenMap {
    /// Pixels to a millimetre of ground.
    pub scale: f64,
    /// Where on the screen the plan counts from.
    pub zero: [f64; 2],
}

impl ScreenMap {
    /// A place of the screen, east and north of where the plan counts from, in millimetres.
    pub fn ground(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let [left, bottom] = self.zero;
        [(x - left) / self.scale, (bottom - y) / self.scale]
    }
}

/// The hand.
#[derive(Debug, Default)]
pub struct Hand {
    /// Where each finger is on the screen.
    pub fingers: BTreeMap<i32, [f64; 2]>,
    /// What is held.
    pub hold: Option<Hold>,
    /// Where the pointer is, if that has not been followed yet.
    pub pointer: Option<[f64; 2]>,
    /// The frame in which it will be.
    pub frame: Option<i32>,
}

thread_local! {
    static HAND: RefCell<Hand> = RefCell::default();
}

/// Does something with the hand. Nothing on the page may change meanwhile.
pub fn with_hand<T>(doing: impl FnOnce(&mut Hand) -> T) -> T {
    HAND.with_borrow_mut(doing)
}

/// What is being drawn place by place.
pub fn being_drawn() -> Option<Drawing> {
    with_hand(|hand| match &hand.hold {
        Some(Hold::Places(drawing)) => Some(drawing.clone()),
        _ => None,
    })
}

#[cfg(test)]
mod tests {
    use super::ScreenMap;

    #[test]
    fn north_is_up_on_the_screen() {
        let map = ScreenMap {
            scale: 0.02,
            zero: [100.0, 500.0],
        };
        assert_eq!(map.ground([100.0, 500.0]), [0.0, 0.0]);
        assert_eq!(map.ground([120.0, 480.0]), [1000.0, 1000.0]);
    }
}
