//! The width of the widest gap on any way from one place to others, past walls.
//!
//! # What is measured
//!
//! A *way* is a curve from any point of the start to any point of a goal. Its *width* is twice the least distance that it
//! keeps from all walls: the width of the widest disc that can be pushed along it. The answer `G` is the width of the widest
//! way: 0 where the walls close every way, unlimited where there is no wall in between.
//!
//! # Why it is the widest gap
//!
//! A disc of width `w` passes if and only if there is no closed curve around the start (or around the goal) that is made of
//! pieces of walls and of straight links of length at most `w` between walls. The reason: the centre of the disc cannot enter
//! the walls widened by `w/2`. These are closed sets in the plane, and such sets separate two points exactly when one
//! connected part of them does (Janiszewski's theorem). Two widened walls touch exactly when a link of length at most `w`
//! joins them. So the greatest least width over all ways equals the least longest link over all closed curves. This is the
//! bottleneck form of "maximum flow equals minimum cut" (Edmonds and Fulkerson, *Bottleneck extrema*, Journal of
//! Combinatorial Theory 8, 1970 — from memory). It is found as in Kruskal's algorithm: links are taken in order of length,
//! and the first that closes a curve around one of two points but not around the other separates them at that width.
//!
//! - Of all links between two straight edges the shortest is enough. The links of length at most `w` between two convex
//!   things form a convex family, so any of them can be slid into any other. A point that the sliding link sweeps over is
//!   within `w/2` of one of the edges, where the disc does not fit anyway. Therefore every answer is capped by twice the
//!   distance of its two points from the walls.
//! - A link is left out when another edge with the same tolerance comes inside the disc on it: the two links by way of that
//!   edge are shorter, and everything in between is, again, within `w/2` of a wall.
//! - A closed curve goes around a point if it crosses the ray from the point to the north an odd number of times. Each edge
//!   and link carries these parities for all points at once, one bit each.
//!
//! # Places that are areas
//!
//! The answer for all points of a place follows from a few of them. From a point `p` the width changes by at most `2r` over
//! the disc of radius `r` around it, and not at all while it stays below `2(c(p) − r)`, where `c` is the distance from the
//! walls: a disc of that width slides freely from `p` to any point of the disc. Only the border of the start matters, because
//! the part of a way after it last leaves the start is as wide as the whole way. Closed curves that do not enter either place
//! decide the rest (a pool's own wall runs along the water's edge). Where neither decides it, the discs are split a few times,
//! and the answer stays an interval.
//!
//! # Tolerances
//!
//! If every point of each wall may be `e` from where it is drawn, the answer changes by at most `2e` (distance is
//! 1-Lipschitz; so is its least value over a way, and so is the greatest over all ways). Here this is done link by link: a
//! link between walls with tolerances `e₁` and `e₂` is `d ± (e₁ + e₂)` long. Walls that share a drawn point, or surely cross,
//! stay joined in every world, and so does a single drawn line. If the start is within `e` of a wall, part of the start may be
//! on the other side of it, where there is room for a disc of at most `2e`.

mod cover;
mod edges;
mod links;
mod parity;

#[cfg(test)]
mod tests;

use cover::Ball;
use edges::Edges;
use parity::{Event, Growth};

use super::distance::between_lines;
use crate::measure::figure::chain::Chain;
use crate::measure::figure::exact::Span;
use crate::plan::figure::{Figure, Point};

/// The tolerance of something: within its frame, and of its whole frame relative to others.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Tolerance {
    /// How far off it may be within its frame, in nanometres.
    pub accuracy: i64,
    /// How far its frame may be shifted, in nanometres.
    pub shift: i64,
    /// Its frame. Between two things of one frame the shift cancels out.
    pub frame: Option<usize>,
}

impl Tolerance {
    /// The tolerance of a distance between two things.
    pub fn against(self, other: Tolerance) -> i64 {
        let own = self.accuracy.saturating_add(other.accuracy);
        match self.frame.is_some() && self.frame == other.frame {
            true => own,
            false => own.saturating_add(self.shift).saturating_add(other.shift),
        }
    }
}

/// Something that nobody gets through: every place within its spread of one of its lines.
#[derive(Debug, Clone, Copy)]
pub struct Wall<'a> {
    /// The figure as drawn. Of an area only the border counts, which encloses everything in it.
    pub figure: &'a Figure,
    /// Its tolerance.
    pub tolerance: Tolerance,
}

/// A place where ways start or end.
#[derive(Debug, Clone, Copy)]
pub struct Target<'a> {
    /// The figure as drawn.
    pub figure: &'a Figure,
    /// Its tolerance.
    pub tolerance: Tolerance,
}

/// Where the ways lead.
#[derive(Debug, Clone, Copy)]
pub enum Goal<'a> {
    /// Far away from everything.
    FarAway,
    /// Any point of this.
    At(Target<'a>),
}

/// Which of the possible plans is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum View {
    /// Everything where it is drawn.
    Drawn,
    /// For the answer's `high`: no possible plan has a wider gap.
    Widest,
    /// For the answer's `low`: no possible plan has a narrower gap.
    Narrowest,
}

/// The widest gap on any way out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WayOut {
    /// The least width, in nanometres.
    pub low: i64,
    /// The greatest width, in nanometres; `i64::MAX` where nothing stands in the way.
    pub high: i64,
    /// Where it is; `None` where the walls are closed or nothing stands in the way.
    pub opening: Option<Opening>,
}

/// A gap between two walls, or between two parts of one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Opening {
    /// The place on the first wall.
    pub from: Point,
    /// The place on the second wall.
    pub to: Point,
    /// The indices of the two walls.
    pub walls: (usize, usize),
}

/// How often the discs are split at most.
const ROUNDS: usize = 24;
/// A disc of this radius or less, in nanometres, is not split further, nor is one that can change the answer by no more.
const SMALL: i64 = 1_000;
/// The most discs that cover the start, and each goal, before they are split.
const START_BALLS: usize = 16;
const GOAL_BALLS: usize = 4;
/// The most discs, unless the places have more parts than this.
const MOST_BALLS: usize = 120;
/// The number of points of the start, and of a goal, that have a bit each.
const BITS: usize = 64;

/// The widest gap on any way from the start to any of the goals. There is no way from or to a place without points.
pub fn widest_way(walls: &[Wall], start: &Target, goals: &[Goal], view: View) -> WayOut {
    let edges = Edges::new(walls, view);
    let ways = goals.iter().map(|goal| to_one(&edges, start, goal));
    let widest = ways.reduce(wider).unwrap_or(CLOSED);
    WayOut {
        opening: widest.opening.filter(|_| widest.high > 0),
        ..widest
    }
}

const CLOSED: WayOut = WayOut {
    low: 0,
    high: 0,
    opening: None,
};

fn wider(one: WayOut, other: WayOut) -> WayOut {
    let first = (one.high, one.low) >= (other.high, other.low);
    WayOut {
        low: one.low.max(other.low),
        high: one.high.max(other.high),
        opening: if first { one.opening } else { other.opening },
    }
}

/// The width of the ways from one disc to another (or far away), as far as it is known.
#[derive(Debug, Clone, Copy)]
struct Between {
    way: WayOut,
    /// Which disc at the start, and whether it has to be split to know the width better.
    from: (usize, bool),
    /// The same at the goal.
    to: (usize, bool),
}

fn to_one(edges: &Edges, start: &Target, goal: &Goal) -> WayOut {
    let mut from = cover::cover(edges, start, START_BALLS);
    let mut to = match goal {
        Goal::FarAway => vec![Ball::FAR],
        Goal::At(target) => cover::cover(edges, target, GOAL_BALLS),
    };
    if from.is_empty() || to.is_empty() {
        return CLOSED;
    }
    let mut best = whole_separated(edges, start, goal, (&from, &to));
    for _ in 0..ROUNDS {
        let found = all_between(edges, &from, &to);
        let ways = found.iter().map(|between| between.way);
        best = tighter(best, ways.reduce(wider).unwrap_or(CLOSED));
        if edges.view == View::Narrowest {
            break;
        }
        let open = |of: fn(&Between) -> (usize, bool), balls: &[Ball], index: usize| {
            let small = balls.get(index).is_none_or(|ball| ball.reach <= SMALL);
            let vague = |between: &&Between| {
                of(between) == (index, true) && between.way.high > best.low.saturating_add(SMALL)
            };
            !small && found.iter().any(|between| vague(&between))
        };
        let next_from = cover::halve(edges, start, &from, |index| open(|b| b.from, &from, index));
        let next_to = match goal {
            Goal::FarAway => to.clone(),
            Goal::At(target) => {
                cover::halve(edges, target, &to, |index| open(|b| b.to, &to, index))
            }
        };
        let (before, after) = (from.len() + to.len(), next_from.len() + next_to.len());
        if after == before || after > MOST_BALLS {
            break;
        }
        (from, to) = (next_from, next_to);
    }
    best
}

/// The tighter of two bounds, both of which hold.
fn tighter(one: WayOut, other: WayOut) -> WayOut {
    let low = one.low.max(other.low);
    WayOut {
        low,
        high: one.high.min(other.high).max(low),
        opening: if one.high <= other.high {
            one.opening.or(other.opening)
        } else {
            other.opening.or(one.opening)
        },
    }
}

/// The widths from each disc at the start to each at the goal.
fn all_between(edges: &Edges, from: &[Ball], to: &[Ball]) -> Vec<Between> {
    let mut found = Vec::new();
    for (own, starts) in from.chunks(BITS).enumerate() {
        for (others, ends) in to.chunks(BITS).enumerate() {
            let some = some_between(edges, starts, ends);
            found.extend(some.into_iter().map(|between| Between {
                from: (between.from.0 + own * BITS, between.from.1),
                to: (between.to.0 + others * BITS, between.to.1),
                ..between
            }));
        }
    }
    found
}

fn some_between(edges: &Edges, from: &[Ball], to: &[Ball]) -> Vec<Between> {
    let points: Vec<Option<Point>> = from.iter().chain(to).map(|ball| ball.at).collect();
    // Wider than this, no disc fits at one of the two places, whatever the walls do.
    let room = |balls: &[Ball]| balls.iter().map(|ball| ball.room.high).max().unwrap_or(0);
    let cap = twice(room(from).min(room(to)));
    let events = Growth::new(edges, &points, from.len(), None).run(cap);
    let mut found = Vec::new();
    for (i, one) in from.iter().enumerate() {
        for (j, other) in to.iter().enumerate() {
            let event = parity::first_between(&events, i, from.len() + j);
            found.push(between((i, one), (j, other), event));
        }
    }
    found
}

/// The width between the centres of two discs, extended to all their other points.
fn between((i, one): (usize, &Ball), (j, other): (usize, &Ball), event: Option<&Event>) -> Between {
    let link = event.map_or(Span::exactly(i64::MAX), |event| event.width);
    let room = |pick: fn(&Ball) -> i64| twice(pick(one).min(pick(other)));
    let low = link.low.min(room(|ball| ball.room.low)).max(0);
    let settles = |ball: &Ball| {
        ball.at.is_none() || link.high < twice(ball.room.low.saturating_sub(ball.reach))
    };
    let vague = (!settles(one), !settles(other));
    let most = room(|ball| ball.room.high.saturating_add(ball.reach)).max(0);
    let high = match vague {
        (false, false) => link.high.min(most),
        _ => most,
    };
    let nearest = if one.room.high <= other.room.high {
        one
    } else {
        other
    };
    let opening = match event {
        Some(event) if event.width.low <= room(|ball| ball.room.high) => Some(event.opening),
        _ => nearest.opening,
    };
    Between {
        way: WayOut {
            low,
            high: high.max(low),
            opening: opening.filter(|_| high > 0),
        },
        from: (i, vague.0),
        to: (j, vague.1),
    }
}

/// The least width at which a closed curve that enters neither place separates all of one from all of the other.
fn whole_separated(
    edges: &Edges,
    start: &Target,
    goal: &Goal,
    balls: (&[Ball], &[Ball]),
) -> WayOut {
    let unknown = WayOut {
        low: 0,
        high: i64::MAX,
        opening: None,
    };
    let (Some(from), Some(to)) = (balls.0.first(), balls.1.first()) else {
        return unknown;
    };
    let places: Vec<&Target> = match goal {
        Goal::FarAway => vec![start],
        Goal::At(target) => vec![start, target],
    };
    let points = [from.at, to.at];
    let room = |balls: &[Ball]| {
        let most = balls
            .iter()
            .map(|ball| ball.room.high.saturating_add(ball.reach));
        most.max().unwrap_or(0)
    };
    let cap = twice(room(balls.0).min(room(balls.1)));
    let events = Growth::new(edges, &points, 1, Some(&places)).run(cap);
    let Some(event) = parity::first_between(&events, 0, 1) else {
        return unknown;
    };
    let beside = places
        .iter()
        .map(|place| beside(edges, place))
        .max()
        .unwrap_or(0);
    WayOut {
        low: 0,
        high: event.width.high.max(beside),
        opening: (event.width.high > 0).then_some(event.opening),
    }
}

/// The widest disc that fits on the wrong side of a wall that may run across a place.
fn beside(edges: &Edges, place: &Target) -> i64 {
    if edges.view != View::Widest {
        return 0;
    }
    let near = edges.walls.iter().filter_map(|wall| {
        let tolerance = wall.tolerance.against(place.tolerance);
        let spread = wall.figure.spread.saturating_add(place.figure.spread);
        (border_gap(wall.figure, place.figure) <= tolerance.saturating_add(spread))
            .then_some(twice(tolerance))
    });
    near.max().unwrap_or(0)
}

/// The distance between the lines of two figures; areas do not count as filled.
fn border_gap(one: &Figure, other: &Figure) -> i64 {
    let pairs = one
        .forms
        .iter()
        .flat_map(|form| other.forms.iter().map(move |against| (form, against)));
    let gaps = pairs.map(|(form, against)| between_lines(Chain::of(form), Chain::of(against)).low);
    gaps.min().unwrap_or(i64::MAX)
}

fn twice(length: i64) -> i64 {
    length.saturating_mul(2)
}
