//! Faults that make a form unfit to be measured.

use std::collections::BTreeSet;
use std::fmt;

use crate::measure::area::area2;
use crate::measure::distance::in_common;
use crate::measure::figure::chain::{Bounds, Edge, points};
use crate::measure::figure::exact::{Vector, turn};
use crate::plan::figure::{Form, Point};

/// The greatest distance of a coordinate from the origin, in nanometres: 10 km.
pub const EXTENT: i64 = 10_000_000_000_000;

/// The most places to report where a ring meets itself.
const CROSSINGS: usize = 20;

/// What is wrong with a form. Corners and sides count from 1; side 3 runs from corner 3 to the next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FormFault {
    /// A line with fewer than two different points, or an area with fewer than three.
    TooFewPoints {
        /// The number of different points.
        have: usize,
        /// The number of points needed.
        need: usize,
    },
    /// Two consecutive points are the same; in an area also the last and the first.
    Repeated {
        /// The second of the two.
        corner: usize,
        /// Where.
        at: Point,
    },
    /// All corners of an area lie on one line.
    NoArea,
    /// An area's line goes back along itself at a corner.
    Spike {
        /// At which corner.
        corner: usize,
        /// Where.
        at: Point,
    },
    /// Two sides of an area meet at a place that is not a corner of both.
    MeetsItself {
        /// The first side.
        side: usize,
        /// The other side.
        other: usize,
        /// Where, to the nearest nanometre.
        at: Point,
    },
    /// A point lies more than 10 km from the origin.
    TooFar {
        /// Which.
        corner: usize,
    },
}

/// A length in metres, as short as it can be written.
pub(crate) fn metres(nanometres: i64) -> String {
    let (sign, size) = (
        if nanometres < 0 { "-" } else { "" },
        nanometres.unsigned_abs(),
    );
    let text = format!("{sign}{}.{:09}", size / 1_000_000_000, size % 1_000_000_000);
    format!("{} m", text.trim_end_matches('0').trim_end_matches('.'))
}

impl fmt::Display for FormFault {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let place = |p: &Point| format!("({}, {})", metres(p.x), metres(p.y));
        match self {
            FormFault::TooFewPoints { have, need } => {
                write!(
                    f,
                    "it has {have} different points and needs at least {need}"
                )
            }
            FormFault::Repeated { corner, at } => {
                write!(
                    f,
                    "point {corner} at {} is the same as the one before it; write it once",
                    place(at)
                )
            }
            FormFault::NoArea => f.write_str("all its corners lie on one line, so it has no area"),
            FormFault::Spike { corner, at } => {
                write!(
                    f,
                    "at corner {corner}, {}, the line goes back along itself",
                    place(at)
                )
            }
            FormFault::MeetsItself { side, other, at } => write!(
                f,
                "side {side} and side {other} meet at {}; an outline may not cross or touch itself (are the corners in order?)",
                place(at)
            ),
            FormFault::TooFar { corner } => {
                write!(
                    f,
                    "point {corner} is more than 10 km from the origin; use coordinates from a place near the lot"
                )
            }
        }
    }
}

impl std::error::Error for FormFault {}

/// All faults of a form; none when it may be measured.
///
/// A path may cross, touch or retrace itself: its distances and its length still mean something.
pub fn validate(form: &Form) -> Vec<FormFault> {
    let all = points(form);
    let far = |p: &Point| p.x.unsigned_abs().max(p.y.unsigned_abs()) > EXTENT.unsigned_abs();
    let mut faults: Vec<FormFault> = all
        .iter()
        .enumerate()
        .filter(|(_, p)| far(p))
        .map(|(at, _)| FormFault::TooFar { corner: at + 1 })
        .collect();
    let need = match form {
        Form::Point(_) => return faults,
        Form::Path(_) => 2,
        Form::Ring(_) => 3,
    };
    let ring = need == 3;
    faults.extend(repeats(all, ring));
    let have = all.iter().collect::<BTreeSet<_>>().len();
    if have < need {
        faults.push(FormFault::TooFewPoints { have, need });
    } else if ring {
        faults.extend(ring_faults(all));
    }
    faults
}

fn repeats(all: &[Point], ring: bool) -> Vec<FormFault> {
    let fault = |(corner, at): (usize, &Point)| FormFault::Repeated { corner, at: *at };
    let follow = all
        .iter()
        .zip(all.iter().skip(1))
        .enumerate()
        .filter(|(_, (a, b))| a == b);
    let mut faults: Vec<_> = follow.map(|(at, (_, b))| fault((at + 2, b))).collect();
    if let (true, Some(first), Some(last)) = (ring && all.len() > 1, all.first(), all.last())
        && first == last
    {
        faults.push(FormFault::Repeated {
            corner: 1,
            at: *first,
        });
    }
    faults
}

/// A side with its number and the corner it starts from, repeated points left out.
#[derive(Clone, Copy)]
struct Numbered {
    number: usize,
    edge: Edge,
    bounds: Bounds,
    /// Its index among the sides, for finding its neighbours.
    place: usize,
}

fn ring_faults(all: &[Point]) -> Vec<FormFault> {
    if is_flat(all) {
        return vec![FormFault::NoArea];
    }
    let sides = sides(all);
    let mut faults: Vec<FormFault> = spikes(&sides).collect();
    faults.extend(crossings(sides));
    if faults.is_empty() && area2(all) == 0 {
        faults.push(FormFault::NoArea);
    }
    faults
}

fn is_flat(all: &[Point]) -> bool {
    let Some(first) = all.first() else {
        return true;
    };
    let Some(other) = all.iter().find(|p| *p != first) else {
        return true;
    };
    all.iter().all(|p| turn(*first, *other, *p).is_eq())
}

fn sides(all: &[Point]) -> Vec<Numbered> {
    let next = all.iter().cycle().skip(1);
    let drawn = all
        .iter()
        .zip(next)
        .enumerate()
        .filter(|(_, (a, b))| a != b);
    drawn
        .enumerate()
        .map(|(place, (at, (a, b)))| Numbered {
            number: at + 1,
            edge: Edge { a: *a, b: *b },
            bounds: Bounds::of(*a, *b),
            place,
        })
        .collect()
}

fn spikes(sides: &[Numbered]) -> impl Iterator<Item = FormFault> {
    let next = sides.iter().cycle().skip(1);
    sides
        .iter()
        .zip(next)
        .filter(|(one, other)| goes_back(&one.edge, &other.edge))
        .map(|(_, other)| FormFault::Spike {
            corner: other.number,
            at: other.edge.a,
        })
}

fn goes_back(one: &Edge, other: &Edge) -> bool {
    let (before, after) = (
        Vector::between(one.a, one.b),
        Vector::between(other.a, other.b),
    );
    before.cross(after) == 0 && before.dot(after) < 0
}

/// Sides that meet without being neighbours, found from left to right: each is compared with those that begin before it ends.
fn crossings(mut sides: Vec<Numbered>) -> Vec<FormFault> {
    let count = sides.len();
    sides.sort_by_key(|side| (side.bounds.low.x, side.place));
    let mut found = Vec::new();
    for (at, one) in sides.iter().enumerate() {
        let near = sides
            .iter()
            .skip(at + 1)
            .take_while(|other| other.bounds.low.x <= one.bounds.high.x);
        for other in near {
            let apart = one.place.abs_diff(other.place);
            let neighbours = apart == 1 || apart + 1 == count;
            if !neighbours && one.bounds.touches(&other.bounds) && one.edge.meets(&other.edge) {
                found.push(meeting(one, other));
            }
        }
        if found.len() >= CROSSINGS {
            break;
        }
    }
    found.sort_unstable();
    found.dedup();
    found.truncate(CROSSINGS);
    found
        .into_iter()
        .map(|(side, other, at)| FormFault::MeetsItself { side, other, at })
        .collect()
}

fn meeting(one: &Numbered, other: &Numbered) -> (usize, usize, Point) {
    let (first, second) = if one.number < other.number {
        (one, other)
    } else {
        (other, one)
    };
    (
        first.number,
        second.number,
        in_common(&first.edge, &second.edge),
    )
}
