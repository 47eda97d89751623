//! A plan as stated, and the worlds that it may stand for.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use rules_core::plan::Point;

pub use super::drawn::{Shape, metres, point};
use crate::soundness::random::Random;

/// One metre in nanometres.
pub const M: i64 = 1_000_000_000;
/// One millimetre in nanometres.
pub const MM: i64 = 1_000_000;

/// A fact of a thing.
#[derive(Debug, Clone, PartialEq)]
pub enum Fact {
    /// A length and its tolerance, in nanometres.
    Length(i64, i64),
    /// From one length at its first end to another at its last.
    Varying(i64, i64),
    /// A level and its tolerance, in millionths of a decibel.
    Level(i64, i64),
    /// As written.
    Word(String),
    /// One of these words; the first, if nothing is left open.
    OneOf(Vec<&'static str>),
}

impl Fact {
    fn text(&self) -> String {
        let decibels = |level: i64| format!("{}.{:06}", level / 1_000_000, level % 1_000_000);
        match self {
            Fact::Length(is, 0) => format!("{} m", metres(*is)),
            Fact::Length(is, off) => format!("{} m ± {} m", metres(*is), metres(*off)),
            Fact::Varying(from, to) => {
                let (low, high) = (from.min(to), from.max(to));
                format!("{{from: {} m, to: {} m}}", metres(*low), metres(*high))
            }
            Fact::Level(is, 0) => format!("{} dB", decibels(*is)),
            Fact::Level(is, off) => format!("{} dB ± {} dB", decibels(*is), decibels(*off)),
            Fact::Word(word) => word.clone(),
            Fact::OneOf(words) => format!("{{one-of: [{}]}}", words.join(", ")),
        }
    }

    fn moved(&self, random: &mut Random) -> Fact {
        let mut near = |is: i64, off: i64| match random.below(4) {
            0 => is - off,
            1 => is + off,
            _ => is + random.between(-off, off),
        };
        match self {
            Fact::Length(is, off) => Fact::Length(near(*is, *off), *off),
            Fact::Level(is, off) => Fact::Level(near(*is, *off), *off),
            Fact::OneOf(words) => Fact::Word((*random.pick(words)).to_owned()),
            other => other.clone(),
        }
    }

    fn exact(&self) -> Fact {
        match self {
            Fact::Length(is, _) => Fact::Length(*is, 0),
            Fact::Level(is, _) => Fact::Level(*is, 0),
            Fact::OneOf(words) => Fact::Word(words[0].to_owned()),
            other => other.clone(),
        }
    }
}

/// A thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Of which kind.
    pub kind: &'static str,
    /// Its name.
    pub id: String,
    /// Its source, as a place in the site's list.
    pub source: usize,
    /// How far off it may be within its source, in nanometres.
    pub off: i64,
    /// Its outlines.
    pub outlines: Vec<(&'static str, Shape)>,
    /// Its facts.
    pub facts: Vec<(&'static str, Fact)>,
}

impl Item {
    /// A thing from a source, accurate to a number of nanometres.
    pub fn new(kind: &'static str, source: usize, off: i64) -> Item {
        Item {
            kind,
            id: kind.to_owned(),
            source,
            off,
            outlines: Vec::new(),
            facts: Vec::new(),
        }
    }

    /// The same under another name.
    pub fn named(mut self, id: &str) -> Item {
        id.clone_into(&mut self.id);
        self
    }

    /// With an outline.
    pub fn drawn(mut self, outline: &'static str, shape: Shape) -> Item {
        self.outlines.push((outline, shape));
        self
    }

    /// With a fact.
    pub fn said(mut self, name: &'static str, fact: Fact) -> Item {
        self.facts.push((name, fact));
        self
    }

    /// An outline of it.
    pub fn shape(&self, outline: &str) -> &Shape {
        let found = self.outlines.iter().find(|(name, _)| *name == outline);
        &found
            .unwrap_or_else(|| panic!("{} has no {outline}", self.id))
            .1
    }

    /// A fact of it that is a length or a level.
    pub fn amount(&self, fact: &str) -> f64 {
        match self.facts.iter().find(|(name, _)| *name == fact) {
            Some((_, Fact::Length(is, _) | Fact::Level(is, _))) => *is as f64,
            found => panic!("{} has no amount {fact}: {found:?}", self.id),
        }
    }

    /// Whether a fact of it is this word.
    pub fn is(&self, fact: &str, word: &str) -> bool {
        let is = |said: &Fact| matches!(said, Fact::Word(said) if said == word);
        self.facts
            .iter()
            .any(|(name, said)| *name == fact && is(said))
    }

    fn text(&self, indent: &str) -> String {
        let mut text = String::new();
        let _ = writeln!(text, "{indent}id: {}", self.id);
        let _ = writeln!(text, "{indent}source: s{}", self.source);
        let _ = writeln!(text, "{indent}accuracy: {} m", metres(self.off));
        for (name, shape) in &self.outlines {
            let _ = writeln!(text, "{indent}{name}: {}", shape.text());
        }
        for (name, fact) in &self.facts {
            let _ = writeln!(text, "{indent}{name}: {}", fact.text());
        }
        text
    }
}

/// A plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// Front left, front right, rear right, rear left.
    pub lot: [Point; 4],
    /// How far off the lot's corners may be.
    pub lot_off: i64,
    /// How far each source may be shifted as a whole; the first is the lot's.
    pub shifts: Vec<i64>,
    /// The pool first, then everything else.
    pub items: Vec<Item>,
}

/// How everything on a site moves in one world.
struct Moves<'r> {
    random: &'r mut Random,
    shifts: Vec<(i64, i64)>,
    /// Where the corners at each place have moved to.
    gone: BTreeMap<Point, Point>,
    together: bool,
}

impl Site {
    /// The pool.
    pub fn pool(&self) -> &Item {
        &self.items[0]
    }

    /// The first thing of a kind.
    pub fn first(&self, kind: &str) -> &Item {
        let found = self.items.iter().find(|item| item.kind == kind);
        found.unwrap_or_else(|| panic!("no {kind}"))
    }

    /// All things of a kind.
    pub fn all<'s>(&'s self, kind: &'s str) -> impl Iterator<Item = &'s Item> {
        self.items.iter().filter(move |item| item.kind == kind)
    }

    /// The plan as text.
    pub fn text(&self) -> String {
        let mut text = String::from("plan: tried\ntitle: Tried\nunit: m\nsources:\n");
        for (index, shift) in self.shifts.iter().enumerate() {
            let off = if index == 0 { self.lot_off } else { 0 };
            let _ = writeln!(
                text,
                "  - {{id: s{index}, by: survey, accuracy: {} m, shift: {} m}}",
                metres(off),
                metres(*shift)
            );
        }
        let corners: Vec<String> = ["a", "b", "c", "d"]
            .iter()
            .zip(self.lot)
            .map(|(name, at)| format!("{name}: {}", point(at)))
            .collect();
        let _ = writeln!(
            text,
            "lot:\n  source: s0\n  level-ground: yes\n  corners: {{{}}}\n  sides:",
            corners.join(", ")
        );
        for (faces, from, to, beyond) in [
            ("front", "a", "b", "road"),
            ("side", "b", "c", "neighbour-lot"),
            ("rear", "c", "d", "neighbour-lot"),
            ("side", "d", "a", "neighbour-lot"),
        ] {
            let _ = writeln!(
                text,
                "    - {{id: {faces}-{from}, from: {from}, to: {to}, faces: {faces}, beyond: {beyond}}}"
            );
        }
        let (pool, rest) = self.items.split_first().expect("a site has a pool");
        let _ = write!(text, "pool:\n{}", pool.text("  "));
        if !rest.is_empty() {
            text.push_str("things:\n");
        }
        for item in rest {
            let _ = write!(text, "  - kind: {}\n{}", item.kind, item.text("    "));
        }
        text.push_str("inventory:\n");
        for kind in [
            "barrier-opening",
            "barrier-stretch",
            "building",
            "cliff",
            "deck",
            "equipment",
            "gate",
            "mesh-fence",
            "open-water",
            "overhead-line",
            "pool-enclosure",
            "retaining-wall",
            "road",
            "screen-enclosure",
            "tree",
            "wall-opening",
            "well",
        ] {
            let _ = writeln!(text, "  {kind}: all-shown");
        }
        text
    }

    /// The same plan with no inaccuracy.
    pub fn exact(&self) -> Site {
        let exact = |item: &Item| Item {
            off: 0,
            facts: item
                .facts
                .iter()
                .map(|(name, fact)| (*name, fact.exact()))
                .collect(),
            ..item.clone()
        };
        Site {
            lot_off: 0,
            shifts: vec![0; self.shifts.len()],
            items: self.items.iter().map(exact).collect(),
            ..self.clone()
        }
    }

    /// One of its worlds: every corner moved by no more than it may be off, and every source shifted as a whole.
    pub fn world(&self, random: &mut Random) -> Site {
        let together = random.chance(60);
        let shifts = self
            .shifts
            .iter()
            .map(|shift| step(random, *shift))
            .collect();
        let mut moves = Moves {
            random,
            shifts,
            gone: BTreeMap::new(),
            together,
        };
        let whole = step(moves.random, self.lot_off);
        let lot = self.lot.map(|at| moves.corner(at, 0, self.lot_off, whole));
        let items = self.items.iter().map(|item| moves.item(item)).collect();
        Site {
            lot,
            items,
            ..self.clone()
        }
    }
}

impl Moves<'_> {
    fn corner(&mut self, at: Point, source: usize, off: i64, whole: (i64, i64)) -> Point {
        if let Some(gone) = self.gone.get(&at) {
            return *gone;
        }
        let (x, y) = if self.together {
            whole
        } else {
            step(self.random, off)
        };
        let (sx, sy) = self.shifts[source];
        let gone = Point {
            x: at.x + x + sx,
            y: at.y + y + sy,
        };
        self.gone.insert(at, gone);
        gone
    }

    fn item(&mut self, item: &Item) -> Item {
        let whole = step(self.random, item.off);
        let mut moved = item.clone();
        for (_, shape) in &mut moved.outlines {
            match shape {
                Shape::Spot(at) => *at = self.corner(*at, item.source, item.off, whole),
                Shape::Line(list) | Shape::Area(list) => {
                    for at in list {
                        *at = self.corner(*at, item.source, item.off, whole);
                    }
                }
                // An arc that keeps its form moves as a whole.
                Shape::Curved(list, _) => {
                    let before = std::mem::replace(&mut self.together, true);
                    for at in list {
                        *at = self.corner(*at, item.source, item.off, whole);
                    }
                    self.together = before;
                }
                // The rest of the accuracy changes the radius.
                Shape::Round(list, radius) => {
                    let share = self.random.between(0, item.off);
                    let whole = step(self.random, share);
                    for at in list {
                        *at = self.corner(*at, item.source, share, whole);
                    }
                    *radius += self.random.between(share - item.off, item.off - share);
                }
            }
        }
        moved.facts = item
            .facts
            .iter()
            .map(|(name, fact)| (*name, fact.moved(self.random)))
            .collect();
        moved
    }
}

/// A step of at most a number of nanometres, often exactly that.
pub fn step(random: &mut Random, most: i64) -> (i64, i64) {
    let (x, y) = random.direction();
    let far = match random.chance(70) {
        true => most,
        false => random.between(0, most),
    };
    // Rounded towards zero, and a nanometre less to allow for rounding the direction.
    let far = (far - 1).max(0) as f64;
    ((x * far) as i64, (y * far) as i64)
}
