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

impl Form {
    /// Its points, in the order in which they are drawn.
    pub fn points(&self) -> &[Point] {
        match self {
            Form::Point(point) => std::slice::from_ref(point),
            Form::Path(points) | Form::Ring(points) => points,
        }
    }
}

/// How far off a drawn thing may be, in nanometres; `None` where nobody knows.
pub type Accuracy = Option<i64>;

/// A round side: part of a circle, no more than half of it. Its middle and radius are whole nanometres, like any other
/// place that is worked out while a plan is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Arc {
    /// The middle of the circle.
    pub middle: Point,
    /// Its radius, in nanometres.
    pub radius: i64,
    /// Whether it goes anticlockwise.
    pub left: bool,
}

/// A piece of an outline, straight or round: a course, as surveyors call it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Course {
    /// Where it begins.
    pub from: Point,
    /// Where it ends, which is where the next one begins.
    pub to: Point,
    /// What makes it round.
    pub arc: Option<Arc>,
}

/// The true outline of an area that has round sides: its courses, all the way round.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Curved {
    /// The courses, in the order of the corners.
    pub courses: Vec<Course>,
    /// How far the corners that stand for them lie from them at most, in nanometres.
    pub off: i64,
}

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
    /// How far off the forms may be; where corners stand for arcs, that they do is counted in.
    pub accuracy: Accuracy,
    /// The true outline, for each form in its place; empty where no form has arcs. Whoever changes a form leaves them out.
    pub curved: Vec<Option<Curved>>,
}

impl Figure {
    /// An outline without arcs.
    pub fn new(forms: Vec<Form>, spread: i64, accuracy: Accuracy) -> Self {
        Figure {
            forms,
            spread,
            accuracy,
            curved: Vec::new(),
        }
    }

    /// The corners of all its forms.
    pub fn corners(&self) -> impl Iterator<Item = &Point> {
        self.forms.iter().flat_map(Form::points)
    }

    /// Whether it is an area, all or in part.
    pub fn has_area(&self) -> bool {
        let ring = |form: &Form| matches!(form, Form::Ring(_));
        self.spread > 0 || self.forms.iter().any(ring)
    }

    /// How far off the true outline may be.
    pub fn true_accuracy(&self) -> Accuracy {
        let corners = self.corners_off();
        self.accuracy
            .map(|accuracy| accuracy.saturating_sub(corners))
    }

    /// How far its corners may lie from the arcs that they stand for, in nanometres.
    pub fn corners_off(&self) -> i64 {
        let curved = self.curved.iter().flatten();
        curved.map(|curved| curved.off).max().unwrap_or(0)
    }
}
