//! Joining the walls link by link until they close around a point.

use std::cmp::Ordering;

use super::super::distance::distance;
use super::edges::Edges;
use super::links::{Link, links, window};
use super::{Opening, Target};
use crate::measure::figure::chain::{Chain, Edge};
use crate::measure::figure::exact::{Span, turn};
use crate::measure::figure::inside::{Place, contains};
use crate::plan::figure::{Form, Point};
use crate::work;

/// A closed curve that separates some points from others, with the longest of its links.
#[derive(Debug, Clone, Copy)]
pub(super) struct Event {
    pub width: Span,
    pub opening: Opening,
    /// The points that it goes around, one bit each.
    around: u128,
}

impl Event {
    fn goes_around(&self, index: usize) -> bool {
        self.around >> index & 1 == 1
    }
}

/// The first curve that separates one point from another.
pub(super) fn first_between(events: &[Event], one: usize, other: usize) -> Option<&Event> {
    events
        .iter()
        .find(|event| event.goes_around(one) != event.goes_around(other))
}

/// The class of a point and whether it is a goal. Points of one class are not separated yet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Cell {
    class: usize,
    goal: bool,
}

impl Cell {
    /// The first `starts` points are at the start, the rest at the goal; none is separated from another yet.
    fn of(index: usize, starts: usize) -> Cell {
        Cell {
            class: 0,
            goal: index >= starts,
        }
    }
}

/// The walls as they are joined.
pub(super) struct Growth<'a> {
    edges: &'a Edges<'a>,
    points: &'a [Option<Point>],
    cells: Vec<Cell>,
    /// The places that curves may not enter, and which edges do enter them.
    closed_to: Option<&'a [&'a Target<'a>]>,
    entering: Vec<bool>,
    trees: Vec<(usize, u128)>,
    events: Vec<Event>,
}

impl<'a> Growth<'a> {
    pub fn new(
        edges: &'a Edges<'a>,
        points: &'a [Option<Point>],
        starts: usize,
        closed_to: Option<&'a [&'a Target<'a>]>,
    ) -> Self {
        let mut growth = Growth {
            edges,
            points,
            cells: (0..points.len())
                .map(|index| Cell::of(index, starts))
                .collect(),
            closed_to,
            entering: Vec::new(),
            trees: (0..edges.pieces.len()).map(|index| (index, 0)).collect(),
            events: Vec::new(),
        };
        let pieces = edges.pieces.iter();
        growth.entering = pieces
            .map(|piece| growth.enters(piece.edge.a, piece.edge.b))
            .collect();
        growth
    }

    /// All curves up to a width that separate points, until every goal is separated from every start.
    pub fn run(mut self, cap: i64) -> Vec<Event> {
        for (index, piece) in self.edges.pieces.iter().enumerate() {
            let Some(next) = piece.next else { continue };
            let at = piece.edge.b;
            self.take(&Link {
                width: Span::exactly(0),
                edges: (index, next),
                feet: (at, at),
            });
        }
        let mut above = -1;
        while !self.done() && above < cap && !work::is_spent() {
            for link in links(self.edges, above).iter() {
                if self.done() || link.width.low > cap || work::step_is_too_many() {
                    break;
                }
                self.take(link);
            }
            above = window(above);
        }
        self.events
    }

    fn done(&self) -> bool {
        let starts = self.cells.iter().filter(|cell| !cell.goal);
        let mut starts = starts.map(|cell| cell.class);
        !starts.any(|class| {
            self.cells
                .iter()
                .any(|cell| cell.goal && cell.class == class)
        })
    }

    fn enters(&self, from: Point, to: Point) -> bool {
        let Some(places) = self.closed_to else {
            return false;
        };
        let line = if from == to {
            Form::Point(from)
        } else {
            Form::Path(vec![from, to])
        };
        let forms = places.iter().flat_map(|place| &place.figure.forms);
        let mut rings = forms.filter_map(|form| match form {
            Form::Ring(ring) => Some(ring),
            _ => None,
        });
        rings.any(|ring| {
            // Running along the border is not entering: that takes a point in the interior.
            !matches!(
                contains(ring, &line),
                Place::Outside | Place::OutsideTouching
            ) && !runs_along(ring, &line)
        }) || self.comes_near(&line)
    }

    /// A round place is entered by anything nearer than its spread, a line by anything that meets it other than at its ends.
    fn comes_near(&self, line: &Form) -> bool {
        let places = self.closed_to.unwrap_or_default();
        places.iter().any(|place| {
            let spread = place.figure.spread;
            place.figure.forms.iter().any(|form| match (spread, form) {
                (0, Form::Ring(_)) => false,
                (0, Form::Path(points)) => meets_inside(points, line),
                (0, Form::Point(_)) => distance(form, line).high == 0,
                _ => distance(form, line).high < spread,
            })
        })
    }

    fn take(&mut self, link: &Link) {
        let (i, j) = link.edges;
        let barred = |index: usize| self.entering.get(index).copied().unwrap_or(false);
        if barred(i)
            || barred(j)
            || (link.feet.0 != link.feet.1 && self.enters(link.feet.0, link.feet.1))
        {
            return;
        }
        let (Some(one), Some(other)) = (self.edges.pieces.get(i), self.edges.pieces.get(j)) else {
            return;
        };
        let crossed = self.crossings(&[one.edge.a, link.feet.0, link.feet.1, other.edge.a]);
        let ((root, here), (against, there)) = (self.root(i), self.root(j));
        let around = here ^ there ^ crossed;
        if root != against {
            if let Some(tree) = self.trees.get_mut(against) {
                *tree = (root, around);
            }
        } else if self.separates(around) {
            self.events.push(Event {
                width: link.width,
                opening: Opening {
                    from: link.feet.0,
                    to: link.feet.1,
                    walls: (one.wall, other.wall),
                },
                around,
            });
        }
    }

    /// The root of an edge's tree, and the rays crossed on the path from the root.
    fn root(&mut self, index: usize) -> (usize, u128) {
        let (mut at, mut crossed) = (index, 0);
        while let Some(&(parent, own)) = self.trees.get(at).filter(|tree| tree.0 != at) {
            // Path halving: each step makes an edge skip its parent, so later paths are short.
            if let Some(&(above, further)) = self.trees.get(parent).filter(|tree| tree.0 != parent)
                && let Some(tree) = self.trees.get_mut(at)
            {
                *tree = (above, own ^ further);
                crossed ^= own ^ further;
                at = above;
            } else {
                crossed ^= own;
                at = parent;
            }
        }
        (at, crossed)
    }

    /// Whether a curve separates points that none before it did; if so, they are in different classes from now on.
    fn separates(&mut self, around: u128) -> bool {
        if around == 0 {
            return false;
        }
        let inside = |index: usize| around >> index & 1 == 1;
        let mut split = std::collections::BTreeMap::new();
        for (index, cell) in self.cells.iter().enumerate() {
            let next = split.len();
            split.entry((cell.class, inside(index))).or_insert(next);
        }
        let classes = self
            .cells
            .iter()
            .map(|cell| cell.class)
            .collect::<std::collections::BTreeSet<_>>();
        if classes.len() == split.len() {
            return false;
        }
        for (index, cell) in self.cells.iter_mut().enumerate() {
            if let Some(class) = split.get(&(cell.class, inside(index))) {
                cell.class = *class;
            }
        }
        true
    }

    /// The points whose rays to the north a line crosses an odd number of times.
    fn crossings(&self, line: &[Point]) -> u128 {
        let mut crossed = 0;
        let steps = line.iter().zip(line.iter().skip(1));
        for (from, to) in steps.filter(|(from, to)| from != to) {
            for (index, point) in self.points.iter().enumerate() {
                let odd = point.is_some_and(|point| crosses_ray(*from, *to, point));
                crossed ^= u128::from(odd) << index;
            }
        }
        crossed
    }
}

/// Whether a straight piece crosses the ray from a point to the north. An end on the ray counts as west of it, so that two
/// pieces that meet there count once.
fn crosses_ray(from: Point, to: Point, point: Point) -> bool {
    let west = |p: Point| p.x <= point.x;
    if west(from) == west(to) || (from.y < point.y && to.y < point.y) {
        return false;
    }
    let (left, right) = if west(from) { (from, to) } else { (to, from) };
    turn(left, right, point) == Ordering::Less
}

/// Whether a straight piece meets a line anywhere but at the line's two ends.
fn meets_inside(points: &[Point], line: &Form) -> bool {
    let piece = match line {
        Form::Path(ends) => match ends.as_slice() {
            [a, b] => Edge { a: *a, b: *b },
            _ => return true,
        },
        Form::Point(at) => Edge { a: *at, b: *at },
        Form::Ring(_) => return true,
    };
    let is_end = |point: &Point| points.first() == Some(point) || points.last() == Some(point);
    let chain = Chain {
        points,
        closed: false,
    };
    let inner = points.iter().filter(|point| !is_end(point));
    let on_line = |point: Point| !is_end(&point) && chain.edges().any(|edge| edge.holds(point));
    chain.edges().any(|edge| edge.crosses(&piece))
        || on_line(piece.a)
        || on_line(piece.b)
        || inner.into_iter().any(|point| piece.holds(*point))
        || points
            .iter()
            .filter(|point| is_end(point))
            .all(|point| piece.holds(*point))
}

/// Whether a straight piece runs along the border of an area.
fn runs_along(ring: &[Point], line: &Form) -> bool {
    let Form::Path(points) = line else {
        return contains(ring, line) == Place::WithinTouching;
    };
    let [from, to] = points.as_slice() else {
        return false;
    };
    Chain::ring(ring)
        .edges()
        .any(|edge| edge.holds(*from) && edge.holds(*to))
}
