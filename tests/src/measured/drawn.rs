//! How an outline is drawn, and how that is written in a plan's file.

use rules_core::plan::Point;

/// How an outline is drawn.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// A place.
    Spot(Point),
    /// A line.
    Line(Vec<Point>),
    /// An area with straight sides.
    Area(Vec<Point>),
    /// An area, anticlockwise, whose first side bulges out by this much at its middle, or in if negative.
    Curved(Vec<Point>, i64),
    /// Everything within a number of nanometres of a place, or of a straight line between two: a circle or an oval.
    Round(Vec<Point>, i64),
}

impl Shape {
    /// The corners as drawn.
    pub fn corners(&self) -> &[Point] {
        match self {
            Shape::Spot(at) => std::slice::from_ref(at),
            Shape::Line(list)
            | Shape::Area(list)
            | Shape::Round(list, _)
            | Shape::Curved(list, _) => list,
        }
    }

    /// How far it reaches beyond its corners.
    pub fn radius(&self) -> i64 {
        match self {
            Shape::Round(_, radius) => *radius,
            _ => 0,
        }
    }

    /// As written in a plan's file.
    pub fn text(&self) -> String {
        match self {
            Shape::Spot(at) => point(*at),
            Shape::Line(list) | Shape::Area(list) => points(list),
            Shape::Curved(list, rise) => {
                let (first, rest) = list.split_first().expect("an area has corners");
                let (way, by) = if *rise < 0 {
                    ("in", -rise)
                } else {
                    ("out", *rise)
                };
                let rest = points(rest);
                format!(
                    "{{curved: [{}, {{{way}: {}}}, {}}}",
                    point(*first),
                    metres(by),
                    &rest[1..]
                )
            }
            Shape::Round(list, radius) => match list.as_slice() {
                [at] => format!(
                    "{{circle: {{at: {}, radius: {}}}}}",
                    point(*at),
                    metres(*radius)
                ),
                [from, to, ..] => format!(
                    "{{oval: {{from: {}, to: {}, radius: {}}}}}",
                    point(*from),
                    point(*to),
                    metres(*radius)
                ),
                [] => String::new(),
            },
        }
    }
}

/// Nanometres written in metres, without a unit.
pub fn metres(nanometres: i64) -> String {
    let sign = if nanometres < 0 { "-" } else { "" };
    let size = nanometres.unsigned_abs();
    format!("{sign}{}.{:09}", size / 1_000_000_000, size % 1_000_000_000)
}

/// A place, as written in a plan's file.
pub fn point(at: Point) -> String {
    format!("[{}, {}]", metres(at.x), metres(at.y))
}

pub(super) fn points(list: &[Point]) -> String {
    let all: Vec<String> = list.iter().map(|at| point(*at)).collect();
    format!("[{}]", all.join(", "))
}
