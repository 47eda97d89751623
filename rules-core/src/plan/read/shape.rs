//! How an outline is drawn: points, lists of points, circles, rectangles and the like.

use super::super::figure::Accuracy;
use super::super::{Curved, Form, Point};
use super::context::{Context, guess};
use crate::faults::Code;
use crate::grammar::{self, DRAWN_WAYS, Syntax, keys, may};
use crate::measure::{Corners, EXTENT, Traced};
use crate::quantity::Dimension;
use crate::text::{Entry, Node, Span};
use crate::vocabulary::Shape;

/// The most points of one form; a curve is drawn well with far fewer.
pub(super) const MOST_POINTS: usize = 1000;
/// The ways to make one of others.
const MADE_WAYS: [&str; 4] = ["outward", "inward", "same-as", "parts"];

/// All ways but by its points.
fn ways() -> impl Iterator<Item = &'static str> + Clone {
    DRAWN_WAYS.into_iter().chain(MADE_WAYS)
}

/// An outline without the accuracy of its thing.
#[derive(Clone)]
pub(super) struct Drawn {
    /// As in a [`Figure`](super::super::Figure).
    pub forms: Vec<Form>,
    /// As in a figure.
    pub spread: i64,
    /// How far the forms are from the arcs that they stand for, in nanometres.
    pub off: i64,
    /// How far off it may be, that included; known once the thing's own accuracy is.
    pub accuracy: Accuracy,
    /// As in a figure.
    pub curved: Vec<Option<Curved>>,
    /// Whether it has no corner at all, though its forms have.
    pub smooth: bool,
}

impl Drawn {
    /// What is drawn exactly.
    pub fn new(forms: Vec<Form>, spread: i64) -> Self {
        Drawn {
            forms,
            spread,
            off: 0,
            accuracy: None,
            curved: Vec::new(),
            smooth: false,
        }
    }

    /// For which the true arcs are kept as well.
    pub fn traced(traced: Traced) -> Self {
        let off = traced.off;
        let (form, curved) = traced.area();
        Drawn {
            off,
            curved: curved.map(|curved| vec![Some(curved)]).unwrap_or_default(),
            ..Drawn::new(vec![form], 0)
        }
    }
}

/// The parts of one outline. Their true arcs are kept only where every part has them.
fn together(parts: Vec<Drawn>, spread: i64) -> Drawn {
    let off = parts.iter().map(|part| part.off).max().unwrap_or(0);
    let told = parts
        .iter()
        .all(|part| part.off == 0 || !part.curved.is_empty());
    let arcs = |part: &Drawn| match part.curved.as_slice() {
        [] => vec![None; part.forms.len()],
        curved => curved.to_vec(),
    };
    let curved = match told && off > 0 {
        true => parts.iter().flat_map(arcs).collect(),
        false => Vec::new(),
    };
    let forms = parts.into_iter().flat_map(|part| part.forms).collect();
    Drawn {
        off,
        curved,
        ..Drawn::new(forms, spread)
    }
}

/// An outline as written.
pub(super) enum Outlined {
    /// Drawn by itself.
    Drawn(Drawn),
    /// Worked out from another outline of the same thing.
    From { name: String, span: Span, how: How },
}

/// How an outline is worked out from another.
#[derive(Clone, Copy)]
pub(super) enum How {
    Same,
    Outward(i64, Corners),
    Inward(i64),
}

impl<'a> Context<'a> {
    /// An outline of that shape. `None` where it is at fault.
    pub fn outline(&mut self, shape: Shape, entry: &'a Entry) -> Option<Outlined> {
        let node = &entry.value;
        let Some(entries) = node.as_map() else {
            let form = self.points(shape, entry, node)?;
            return Some(Outlined::Drawn(Drawn::new(vec![form], 0)));
        };
        let is_way = |entry: &&Entry| ways().any(|known| known == entry.key);
        let way = entries.iter().find(is_way);
        match way.map(|way| (way.key.as_str(), way)) {
            Some(("outward" | "inward", _)) => self.moved(node),
            Some(("same-as", way)) => self.same_as(node, way),
            Some((_, way)) => self.one_way(shape, node, way).map(Outlined::Drawn),
            None => {
                self.unknown_way(entries, node.span);
                None
            }
        }
    }

    fn unknown_way(&mut self, entries: &[Entry], span: Span) {
        let first = entries.first();
        let first = first.map_or("nothing", |first| first.key.as_str());
        let message = format!("`{first}` is not a way to draw an outline.");
        let fault = self.faults.add(Code::UnknownWay, span, message);
        fault.help(guess(first, ways(), "The ways are"));
    }

    fn one_way(&mut self, shape: Shape, node: &'a Node, way: &'a Entry) -> Option<Drawn> {
        let known = ways().find(|known| *known == way.key)?;
        self.keys(node, &keys([may(known, Syntax::Any)]).called("an outline"))?;
        if way.key == "parts" {
            return self.parts(shape, way);
        }
        if shape == Shape::Line || (shape == Shape::Point && way.key != "circle") {
            let message = format!("`{}` draws an area, and a line is wanted here.", way.key);
            let fault = self.faults.add(Code::WrongShape, way.key_span, message);
            fault.help("Write the line as a list of points: `[[0, 0], [4, 0]]`.");
            return None;
        }
        self.drawn_as(way)
    }

    fn drawn_as(&mut self, way: &'a Entry) -> Option<Drawn> {
        match way.key.as_str() {
            "circle" => self.circle(&way.value),
            "oval" => self.oval(&way.value),
            "kidney" => self.kidney(&way.value),
            "curved" => self.curved(&way.value),
            "l-shape" => self.l_shape(&way.value),
            "band" => self.band(&way.value),
            _ => self.rectangle(&way.value, way.key == "rounded-rectangle"),
        }
    }

    /// `[x, y]`, or a list of such points.
    fn points(&mut self, shape: Shape, entry: &'a Entry, node: &'a Node) -> Option<Form> {
        let (least, wanted) = match shape {
            Shape::Point => return self.point(node).map(Form::Point),
            Shape::Line => (2, "two points"),
            Shape::Area => (3, "three points"),
        };
        let points = self.point_list(node)?;
        if points.len() < least {
            let (name, number) = (&entry.key, points.len());
            let message = format!("`{name}` needs at least {wanted}; it has {number}.");
            self.faults.add(Code::TooFewPoints, node.span, message);
            return None;
        }
        Some(match shape {
            Shape::Line => Form::Path(points),
            _ => Form::Ring(points),
        })
    }

    fn point_list(&mut self, node: &'a Node) -> Option<Vec<Point>> {
        let items = node.as_list().unwrap_or_default();
        if items.is_empty() || items.iter().any(|item| item.as_list().is_none()) {
            let message = "A list of points is wanted here.";
            let fault = self.faults.add(Code::NotPoints, node.span, message);
            fault.help(match node.text().and_then(sides_of) {
                Some((length, width)) => format!("A rectangle is written with the place of its corner: `{{rectangle: {{at: [0, 0], length: {length}, width: {width}}}}}`, with your own figures after `at`."),
                None => "Write it so: `[[0, 0], [4, 0], [4, 3]]`.".to_owned(),
            });
            return None;
        }
        if items.len() > MOST_POINTS {
            let many = items.len();
            let message =
                format!("There are {many} points here; no more than {MOST_POINTS} are read.");
            self.faults.add(Code::TooManyPoints, node.span, message);
            return None;
        }
        let read: Vec<_> = items.iter().map(|item| self.point(item)).collect();
        read.into_iter().collect()
    }

    /// A place, counted from the plan's own origin.
    pub fn point(&mut self, node: &'a Node) -> Option<Point> {
        let (x, y) = self.place(node)?;
        let near = |at: i128, origin: i128| {
            let from_origin = at.checked_sub(origin).and_then(|at| i64::try_from(at).ok());
            from_origin.filter(|at| at.abs() <= EXTENT)
        };
        let point = near(x, self.origin.0).zip(near(y, self.origin.1));
        if point.is_none() {
            self.faults
                .add(Code::TooFar, node.span, "This place is more than 10 km from the lot's first corner.")
                .help("Look at the figures and the unit again; every thing has to be in the same coordinates.");
        }
        point.map(|(x, y)| Point { x, y })
    }

    /// A place in the file's own coordinates, in nanometres.
    pub fn place(&mut self, node: &'a Node) -> Option<(i128, i128)> {
        let Some([x, y]) = node.as_list() else {
            self.faults
                .add(Code::NotAPoint, node.span, "A point is wanted here.")
                .help("Write how far east and how far north: `[8, 20]`.");
            return None;
        };
        let (x, y) = (
            self.exact("x", x, Dimension::Length),
            self.exact("y", y, Dimension::Length),
        );
        x.zip(y)
    }

    fn circle(&mut self, node: &'a Node) -> Option<Drawn> {
        let [at, radius] = self.keys(node, &grammar::CIRCLE)?;
        let (at, radius) = (
            self.point(&at?.value),
            self.positive("radius", &radius?.value),
        );
        Some(Drawn::new(vec![Form::Point(at?)], radius?))
    }

    fn oval(&mut self, node: &'a Node) -> Option<Drawn> {
        let [from, to, radius] = self.keys(node, &grammar::OVAL)?;
        let (from, to) = (self.point(&from?.value), self.point(&to?.value));
        let (from, to, radius) = (from?, to?, self.positive("radius", &radius?.value)?);
        let form = if from == to {
            Form::Point(from)
        } else {
            Form::Path(vec![from, to])
        };
        Some(Drawn::new(vec![form], radius))
    }

    /// A line with a width: it ends in half circles, so that it is never too small.
    fn band(&mut self, node: &'a Node) -> Option<Drawn> {
        let [along, width] = self.keys(node, &grammar::BAND)?;
        let (form, width) = (
            self.points(Shape::Line, along?, &along?.value),
            self.positive("width", &width?.value),
        );
        let width = width?;
        Some(Drawn::new(vec![form?], width / 2 + width % 2))
    }

    fn rectangle(&mut self, node: &'a Node, rounded: bool) -> Option<Drawn> {
        let ([at, length, width, turned], radius) = match rounded {
            true => {
                let [rest @ .., radius] = self.keys(node, &grammar::ROUNDED)?;
                (rest, Some(radius))
            }
            false => (self.keys(node, &grammar::RECTANGLE)?, None),
        };
        let at = self.point(&at?.value);
        let (length, width) = (
            self.positive("length", &length?.value),
            self.positive("width", &width?.value),
        );
        let turned = match turned {
            Some(turned) => self.angle("turned", &turned.value)?,
            None => 0,
        };
        let (at, length, width) = (at?, length?, width?);
        let radius = match radius {
            Some(radius) => self.corner_radius(radius?, length.min(width))?,
            None => 0,
        };
        let form = rectangle(at, (length, width), radius, turned);
        Some(Drawn::new(vec![form], radius))
    }

    fn corner_radius(&mut self, entry: &'a Entry, narrow: i64) -> Option<i64> {
        let radius = self.positive("corner-radius", &entry.value)?;
        if radius <= narrow / 2 {
            return Some(radius);
        }
        self.faults
            .add(
                Code::TooRound,
                entry.value.span,
                "`corner-radius` is more than half of the rectangle's width.",
            )
            .help("A pool with round ends is an `oval`.");
        None
    }

    fn parts(&mut self, shape: Shape, way: &'a Entry) -> Option<Drawn> {
        let items = way.value.as_list().unwrap_or_default();
        if items.is_empty() {
            self.faults.add(
                Code::NotParts,
                way.value.span,
                "`parts` needs a list of outlines.",
            );
            return None;
        }
        let read: Vec<_> = items
            .iter()
            .map(|item| self.part(shape, way, item))
            .collect();
        let parts: Option<Vec<Drawn>> = read.into_iter().collect();
        let parts = parts?;
        let spread = parts.first().map_or(0, |part| part.spread);
        if parts.iter().any(|part| part.spread != spread) {
            self.faults
                .add(
                    Code::UnlikeParts,
                    way.value.span,
                    "The parts of one outline need the same radius or width.",
                )
                .help("Draw the round part by its points, or make two things of it.");
            return None;
        }
        Some(together(parts, spread))
    }

    fn part(&mut self, shape: Shape, entry: &'a Entry, node: &'a Node) -> Option<Drawn> {
        let way = node.as_map().and_then(|entries| entries.first());
        match way {
            Some(way) if DRAWN_WAYS.contains(&way.key.as_str()) => self.one_way(shape, node, way),
            Some(way) => {
                let message = format!("`{}` is not a way to draw a part of an outline.", way.key);
                self.faults.add(Code::UnknownWay, way.key_span, message);
                None
            }
            None => self
                .points(shape, entry, node)
                .map(|form| Drawn::new(vec![form], 0)),
        }
    }
}

/// The two sides of a rectangle that is written as `8 m x 4 m`.
fn sides_of(text: &str) -> Option<(&str, &str)> {
    let (length, width) = text.split_once(['x', '×'])?;
    let (length, width) = (length.trim(), width.trim());
    let figure = |text: &str| text.starts_with(|c: char| c.is_ascii_digit());
    (figure(length) && figure(width)).then_some((length, width))
}

/// A rectangle drawn from its corner `at`, turned anticlockwise about it; with a radius, the smaller one that a
/// spread of that radius makes into the rounded one. Where the radius takes up a whole side, a line or a point is left.
fn rectangle(at: Point, (length, width): (i64, i64), radius: i64, turned: i128) -> Form {
    let corner = corners_at(at, turned);
    let (far, high) = (length - radius, width - radius);
    match (far > radius, high > radius) {
        (true, true) => Form::Ring(vec![
            corner(radius, radius),
            corner(far, radius),
            corner(far, high),
            corner(radius, high),
        ]),
        (false, false) => Form::Point(corner(radius, radius)),
        _ => Form::Path(vec![corner(radius, radius), corner(far, high)]),
    }
}

/// Gives places by how far along and across they lie from a corner, turned anticlockwise about it.
pub(super) fn corners_at(at: Point, turned: i128) -> impl Fn(i64, i64) -> Point {
    let turn = turned as f64 / 1e9 * std::f64::consts::PI / 180.0;
    let (sin, cos) = if turned == 0 {
        (0.0, 1.0)
    } else {
        (libm::sin(turn), libm::cos(turn))
    };
    move |along, across| {
        let (along, across) = (along as f64, across as f64);
        Point {
            x: at.x.saturating_add(whole(along * cos - across * sin)),
            y: at.y.saturating_add(whole(along * sin + across * cos)),
        }
    }
}

/// A number of nanometres, rounded to the nearest whole one.
#[expect(
    clippy::cast_possible_truncation,
    reason = "within 20 km of the origin, and a cast beyond stops at the end"
)]
fn whole(nanometres: f64) -> i64 {
    nanometres.round() as i64
}
