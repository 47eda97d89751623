//! A site as a plan states it, in the program's own words. A world is a site with everything stated exactly.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use rules_core::plan::{Form, Point};

use crate::measured::site::{Shape, metres, point};
use crate::soundness::world::Drawn;

/// A span of time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// How many.
    pub count: i64,
    /// Whether it is in months; else in days.
    pub months: bool,
}

impl Span {
    /// As written in files.
    pub fn text(self) -> String {
        let unit = if self.months { "months" } else { "days" };
        format!("{} {unit}", self.count)
    }
}

/// A fact of a thing.
#[derive(Debug, Clone, PartialEq)]
pub enum Fact {
    /// A length between two, in nanometres.
    Length(i64, i64),
    /// It varies along the thing, from a length between two up to one between two others.
    Along((i64, i64), (i64, i64)),
    /// One of these words.
    Word(Vec<&'static str>),
    /// One of these spans.
    Time(Vec<Span>),
}

impl Fact {
    fn text(&self) -> String {
        match self {
            Fact::Length(low, high) => between((*low, *high)),
            Fact::Along(least, most) => {
                format!("{{from: {}, to: {}}}", between(*least), between(*most))
            }
            Fact::Word(words) => one_of(words.iter().map(|word| (*word).to_owned()).collect()),
            Fact::Time(spans) => one_of(spans.iter().map(|span| span.text()).collect()),
        }
    }
}

fn between((low, high): (i64, i64)) -> String {
    match low == high {
        true => format!("{} m", metres(low)),
        false => format!("{} m .. {} m", metres(low), metres(high)),
    }
}

fn one_of(choices: Vec<String>) -> String {
    match &choices[..] {
        [one] => one.clone(),
        all => format!("{{one-of: [{}]}}", all.join(", ")),
    }
}

/// A thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Thing {
    /// Of which kind.
    pub kind: &'static str,
    /// Its name.
    pub id: String,
    /// The thing that it is part of.
    pub part_of: Option<String>,
    /// Its source, as a place in the site's list; `None` if not stated.
    pub source: Option<usize>,
    /// How far off it may be within its source; `None` if not stated.
    pub accuracy: Option<i64>,
    /// Its outlines.
    pub outlines: Vec<(&'static str, Shape)>,
    /// What is said of it.
    pub facts: Vec<(&'static str, Fact)>,
}

impl Thing {
    /// A thing from a source, drawn exactly.
    pub fn new(kind: &'static str, id: String, source: usize) -> Thing {
        Thing {
            kind,
            id,
            part_of: None,
            source: Some(source),
            accuracy: Some(0),
            outlines: Vec::new(),
            facts: Vec::new(),
        }
    }

    /// With an outline.
    pub fn drawn(mut self, outline: &'static str, shape: Shape) -> Thing {
        self.outlines.push((outline, shape));
        self
    }

    /// With a fact.
    pub fn said(mut self, name: &'static str, fact: Fact) -> Thing {
        self.facts.push((name, fact));
        self
    }

    /// An outline of it.
    pub fn shape(&self, outline: &str) -> &Shape {
        let mut all = self.outlines.iter();
        let found = all.find(|(name, _)| *name == outline);
        &found
            .unwrap_or_else(|| panic!("{} has no {outline}", self.id))
            .1
    }

    /// A fact of it.
    pub fn fact(&self, name: &str) -> Option<&Fact> {
        let mut all = self.facts.iter();
        all.find(|(own, _)| *own == name).map(|(_, fact)| fact)
    }

    /// A fact of it that is a length, in a world.
    pub fn length(&self, name: &str) -> i64 {
        match self.fact(name) {
            Some(Fact::Length(is, _)) => *is,
            found => panic!("{} has no length {name}: {found:?}", self.id),
        }
    }

    /// The least and the greatest value of a fact along the thing, in a world.
    pub fn along(&self, name: &str) -> (i64, i64) {
        match self.fact(name) {
            Some(Fact::Along((least, _), (most, _))) => (*least, *most),
            _ => (self.length(name), self.length(name)),
        }
    }

    /// Whether a fact of it is this word, in a world.
    pub fn is(&self, name: &str, word: &str) -> bool {
        matches!(self.fact(name), Some(Fact::Word(words)) if words[0] == word)
    }

    fn text(&self, indent: &str) -> String {
        let mut text = format!("{indent}id: {}\n", self.id);
        if let Some(whole) = &self.part_of {
            let _ = writeln!(text, "{indent}part-of: {whole}");
        }
        text += &whereabouts(self.source, self.accuracy, |line| {
            format!("{indent}{line}\n")
        });
        for (name, shape) in &self.outlines {
            let _ = writeln!(text, "{indent}{name}: {}", shape.text());
        }
        for (name, fact) in &self.facts {
            let _ = writeln!(text, "{indent}{name}: {}", fact.text());
        }
        text
    }
}

fn whereabouts(
    source: Option<usize>,
    accuracy: Option<i64>,
    line: impl Fn(String) -> String,
) -> String {
    let source = source.map(|source| line(format!("source: s{source}")));
    let accuracy = accuracy.map(|off| line(format!("accuracy: {} m", metres(off))));
    [source, accuracy].into_iter().flatten().collect()
}

/// Where a side of the lot comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Side {
    /// Its source.
    pub source: usize,
    /// How far off its ends may be within its source; `None` if not stated.
    pub accuracy: Option<i64>,
}

/// A plan, or a world.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// How far each source may be shifted as a whole; `None` if not stated.
    pub shifts: Vec<Option<i64>>,
    /// The lot's corners: front left, front right, rear right, rear left.
    pub corners: [Point; 4],
    /// Where its sides come from: front, right, rear, left. The lot itself comes from the first source.
    pub sides: [Side; 4],
    /// The pool first, then everything else.
    pub things: Vec<Thing>,
    /// The kinds whose things are all shown. For every other kind, nobody has looked.
    pub shown: BTreeSet<&'static str>,
    /// Whether the ground is level.
    pub level_ground: bool,
    /// The month in which the pool's time begins, counted from a January two years after a leap year. No plan states
    /// it.
    pub begins: usize,
}

/// Its sides: name, what they face, their corners, and what lies beyond.
pub const SIDES: [(&str, &str, &str, &str); 4] = [
    ("front", "a", "b", "road"),
    ("side", "b", "c", "neighbour-lot"),
    ("rear", "c", "d", "neighbour-lot"),
    ("side", "d", "a", "neighbour-lot"),
];

/// How many sources every plan names.
pub const SOURCES: usize = 3;

impl Site {
    /// A lot of a size in metres with its front left corner at the origin, and a pool.
    pub fn new((width, depth): (i64, i64), pool: Thing, shown: &[&'static str]) -> Site {
        let corner = |x, y| Point { x, y };
        Site {
            shifts: vec![Some(0); SOURCES],
            corners: [
                corner(0, 0),
                corner(width, 0),
                corner(width, depth),
                corner(0, depth),
            ],
            sides: [Side {
                source: 0,
                accuracy: Some(0),
            }; 4],
            things: vec![pool],
            shown: shown.iter().copied().collect(),
            level_ground: true,
            begins: 0,
        }
    }

    /// The pool.
    pub fn pool(&self) -> &Thing {
        &self.things[0]
    }

    /// All things of a kind.
    pub fn all<'s>(&'s self, kind: &'s str) -> impl Iterator<Item = &'s Thing> {
        self.things.iter().filter(move |thing| thing.kind == kind)
    }

    /// Its sides as lines.
    pub fn lines(&self) -> [Shape; 4] {
        [0, 1, 2, 3].map(|side| Shape::Line(vec![self.corners[side], self.corners[(side + 1) % 4]]))
    }

    /// The plan as text.
    pub fn text(&self) -> String {
        let mut text = String::from("plan: tried\ntitle: Tried\nunit: m\nsources:\n");
        for (source, shift) in self.shifts.iter().enumerate() {
            let shift = shift.map_or(String::new(), |shift| {
                format!(", shift: {} m", metres(shift))
            });
            let _ = writeln!(text, "  - {{id: s{source}, by: survey{shift}}}");
        }
        text += &self.lot_text();
        for (number, thing) in self.things.iter().enumerate() {
            text += &match number {
                0 => format!("pool:\n{}", thing.text("  ")),
                1 => format!("things:\n  - kind: {}\n{}", thing.kind, thing.text("    ")),
                _ => format!("  - kind: {}\n{}", thing.kind, thing.text("    ")),
            };
        }
        let shown: Vec<String> = self
            .shown
            .iter()
            .map(|kind| format!("{kind}: all-shown"))
            .collect();
        let _ = writeln!(text, "inventory: {{{}}}", shown.join(", "));
        text
    }

    fn lot_text(&self) -> String {
        let corners = ["a", "b", "c", "d"].iter().zip(self.corners);
        let corners: Vec<String> = corners
            .map(|(name, at)| format!("{name}: {}", point(at)))
            .collect();
        let mut text = format!(
            "lot:\n  source: s0\n  level-ground: {}\n  corners: {{{}}}\n  sides:\n",
            if self.level_ground { "yes" } else { "no" },
            corners.join(", ")
        );
        for ((faces, from, to, beyond), side) in SIDES.iter().zip(self.sides) {
            let own = whereabouts(Some(side.source), side.accuracy, |line| format!(", {line}"));
            let _ = writeln!(
                text,
                "    - {{id: {faces}-{from}, from: {from}, to: {to}, faces: {faces}, beyond: {beyond}{own}}}"
            );
        }
        text
    }
}

/// A shape in the form that the second evaluator takes.
pub fn drawn(shape: &Shape) -> Drawn {
    let form = match shape {
        Shape::Spot(at) => Form::Point(*at),
        Shape::Line(list) => Form::Path(list.clone()),
        Shape::Area(list) | Shape::Curved(list, _) | Shape::Round(list, _) => {
            Form::Ring(list.clone())
        }
    };
    Drawn {
        forms: vec![form],
        spread: 0,
    }
}

/// A rectangle between two corners.
pub fn rectangle((x, y): (i64, i64), (width, depth): (i64, i64)) -> Shape {
    let corner = |x, y| Point { x, y };
    Shape::Area(vec![
        corner(x, y),
        corner(x + width, y),
        corner(x + width, y + depth),
        corner(x, y + depth),
    ])
}

/// The corners of a shape, to be moved.
pub fn corners_of(shape: &mut Shape) -> &mut [Point] {
    match shape {
        Shape::Spot(at) => std::slice::from_mut(at),
        Shape::Line(list) | Shape::Area(list) | Shape::Curved(list, _) | Shape::Round(list, _) => {
            list
        }
    }
}
