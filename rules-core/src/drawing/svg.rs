//! A drawing as values: elements with whole millimetres of ground as coordinates. Written out, they are SVG.

use std::fmt;
use std::ops::{Add, AddAssign};

use serde::{Serialize, Serializer};

use super::place::SheetPoint;
use crate::text::{escaped, one_line};

/// The colour of lines and letters.
pub(super) const INK: &str = "#26251f";

/// An element of a drawing. Its text is SVG.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Element {
    /// The name of its tag.
    pub name: &'static str,
    /// Its attributes, in the order in which they are written. Nothing in a value hides.
    pub attributes: Vec<(&'static str, String)>,
    /// What stands in it.
    pub inner: Inner,
}

/// What stands in an element.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Inner {
    /// Nothing ever.
    Empty,
    /// Letters, in which nothing hides.
    Letters(String),
    /// Other elements, of which there may be none.
    Elements(Vec<Element>),
}

/// Elements side by side.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Svg(Vec<Element>);

/// Begins an element.
pub(super) fn el(name: &'static str) -> Element {
    Element {
        name,
        attributes: Vec::new(),
        inner: Inner::Empty,
    }
}

impl Element {
    /// With an attribute.
    pub(super) fn with(self, name: &'static str, value: impl AsRef<str>) -> Self {
        self.put(name, one_line(value.as_ref()).into_owned())
    }

    /// With an attribute, where there is a value for it.
    pub(super) fn with_some(self, name: &'static str, value: Option<impl AsRef<str>>) -> Self {
        match value {
            Some(value) => self.with(name, value),
            None => self,
        }
    }

    /// With a coordinate or a length on the ground, in millimetres, as an attribute.
    pub(super) fn at(self, name: &'static str, millimetres: f64) -> Self {
        self.put(name, mm(millimetres))
    }

    fn put(mut self, name: &'static str, value: String) -> Self {
        self.attributes.push((name, value));
        self
    }

    /// With the middle and the radius of a circle.
    pub(super) fn round(self, middle: SheetPoint, radius: f64) -> Self {
        let middle = self.at("cx", middle.x).at("cy", middle.y);
        middle.at("r", radius)
    }

    /// With a fill, and a stroke of this colour and width.
    pub(super) fn painted(self, fill: &str, stroke: &str, width: &str) -> Self {
        let filled = self.with("fill", fill);
        filled.with("stroke", stroke).with("stroke-width", width)
    }

    /// With a stroke of the same width at every zoom.
    pub(super) fn unscaled(self) -> Self {
        self.with("vector-effect", "non-scaling-stroke")
    }

    /// With these elements in it.
    pub(super) fn holding(self, inner: Svg) -> Svg {
        self.around(inner).empty()
    }

    /// The same, as one element.
    pub(super) fn around(self, inner: Svg) -> Self {
        let inner = Inner::Elements(inner.0);
        Self { inner, ..self }
    }

    /// With this text in it.
    pub(super) fn saying(self, text: &str) -> Svg {
        let inner = Inner::Letters(one_line(text).into_owned());
        Self { inner, ..self }.empty()
    }

    /// With nothing more in it.
    pub(super) fn empty(self) -> Svg {
        Svg(vec![self])
    }

    /// Its opening tag, without the sign that closes it.
    fn begin(&self, f: &mut impl fmt::Write) -> fmt::Result {
        write!(f, "<{}", self.name)?;
        (self.attributes.iter())
            .try_for_each(|(name, value)| write!(f, " {name}=\"{}\"", escaped(value)))
    }

    /// The text of its opening tag, and of what stands in it, left open for more.
    pub(super) fn opening(&self) -> String {
        let mut text = self.to_string();
        text.truncate(text.len().saturating_sub("</>".len() + self.name.len()));
        text
    }
}

impl fmt::Display for Element {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.begin(f)?;
        match &self.inner {
            Inner::Empty => return f.write_str("/>"),
            Inner::Letters(text) => write!(f, ">{}", escaped(text))?,
            Inner::Elements(elements) => {
                f.write_str(">")?;
                elements.iter().try_for_each(|element| element.fmt(f))?;
            }
        }
        write!(f, "</{}>", self.name)
    }
}

/// As text.
impl Serialize for Element {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl Svg {
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl Add for Svg {
    type Output = Self;

    fn add(mut self, more: Self) -> Self {
        self += more;
        self
    }
}

impl AddAssign for Svg {
    fn add_assign(&mut self, more: Self) {
        self.0.extend(more.0);
    }
}

impl FromIterator<Svg> for Svg {
    fn from_iter<T: IntoIterator<Item = Svg>>(all: T) -> Self {
        Self(all.into_iter().flat_map(|svg| svg.0).collect())
    }
}

/// A straight line in the syntax of a path.
pub(super) fn segment(from: SheetPoint, to: SheetPoint) -> String {
    let [from, to] = [from, to].map(|at| format!("{} {}", mm(at.x), mm(at.y)));
    format!("M{from}L{to}")
}

/// The title that a pointer shows and a screen reader reads out.
pub(super) fn title(text: &str) -> Svg {
    el("title").saying(text)
}

/// Millimetres, rounded to a whole number.
#[expect(
    clippy::cast_possible_truncation,
    reason = "places on a sheet are far below what an i64 holds, and a cast beyond stops at the end"
)]
pub(super) fn mm(millimetres: f64) -> String {
    (millimetres.round() as i64).to_string()
}
