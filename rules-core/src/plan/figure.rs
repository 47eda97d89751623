//! What is drawn: points, lines and areas, in whole nanometres.

/// A place on the plan, in nanometres east and north of the plan's own origin, which lies near the lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Point {
    /// To the east.
    pub x: i64,
    /// To the north.
    pub y: i64,
}

/// One drawn form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Form {
    /// A single place.
    Point(Point),
    /// A line of at least two points.
    Path(Vec<Point>),
    /// An area: at least three corners, in either direction, the first not repeated at the end.
    Ring(Vec<Point>),
}

/// How far off a drawn thing may be, in nanometres; `None` where nobody knows.
pub type Accuracy = Option<i64>;

/// An outline: every place within `spread` of one of its forms.
///
/// A circle is a point with a spread, a rounded rectangle a smaller rectangle with one; so a distance is always
/// computed from the forms and the spread, never from a circle made of corners.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// The forms; never empty.
    pub forms: Vec<Form>,
    /// How far the outline reaches beyond its forms, in nanometres; never negative.
    pub spread: i64,
    /// How far off it may be.
    pub accuracy: Accuracy,
}
