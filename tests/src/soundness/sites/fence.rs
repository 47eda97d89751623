//! A fence round the pool, with gaps, gates and holes.

use rules_core::plan::{Form, Point};
use rules_core::quantity::Dimension;

use super::asked::{Got, Measure};
use super::site::{Fact, Site, Thing, drawn};
use super::{pool, shown};
use crate::measured::site::Shape;
use crate::soundness::evaluate::Undecided;
use crate::soundness::geometry;
use crate::soundness::number::Real;
use crate::soundness::random::Random;
use crate::soundness::words::METRE;
use crate::soundness::world::Drawn;

/// The measures asked for.
pub const MEASURES: &[Measure] = &[Measure {
    each: None,
    within: None,
    value: "enclosure: {of: pool.water, from: [street, neighbour-lot], made-of: [barrier-stretch, gate]}",
    dimension: Dimension::Length,
    of: |world, _| widest_gap(world).map(Got::One),
    exact: true,
}];

/// What happens along a side of the fence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Break {
    Gap,
    Gate,
    Joint,
}

/// A pool in the middle of a ring of fence runs and gates, in order.
pub fn draw(random: &mut Random) -> Site {
    let at = (
        random.between(8, 12) * METRE,
        random.between(10, 14) * METRE,
    );
    let pool = pool(random, at);
    let (low, high) = (
        Point {
            x: at.0 - random.between(4, 6) * METRE,
            y: at.1 - random.between(4, 6) * METRE,
        },
        Point {
            x: at.0 + random.between(8, 10) * METRE,
            y: at.1 + random.between(7, 10) * METRE,
        },
    );
    let corners = [
        low,
        Point { x: high.x, ..low },
        high,
        Point { x: low.x, ..high },
    ];
    let kinds = ["barrier-stretch", "gate", "barrier-opening"];
    let mut site = Site::new((30 * METRE, 36 * METRE), pool, &shown(&kinds));
    let source = random.below(2);
    let mut ring = Ring {
        random,
        source,
        things: Vec::new(),
        run: vec![corners[0]],
    };
    for side in 0..4 {
        ring.side(corners[side], corners[(side + 1) % 4]);
    }
    site.things.extend(ring.closed());
    holes(random, &mut site, source);
    site
}

struct Ring<'a> {
    random: &'a mut Random,
    source: usize,
    things: Vec<Thing>,
    /// The current run.
    run: Vec<Point>,
}

impl Ring<'_> {
    fn side(&mut self, from: Point, to: Point) {
        let start = self.random.between(30, 42);
        let kind = *self.random.pick(&[
            None,
            None,
            Some(Break::Gap),
            Some(Break::Gate),
            Some(Break::Joint),
        ]);
        if let Some(kind) = kind {
            let width = match kind {
                Break::Gap => self.random.between(1, 60) * METRE / 100,
                Break::Gate => self.random.between(8, 14) * METRE / 10,
                Break::Joint => 0,
            };
            let hinge = part_way(from, to, start);
            let latch = farther(hinge, to, width);
            self.run.push(hinge);
            self.finish();
            if kind == Break::Gate {
                let gate = Thing::new("gate", format!("gate-{}", self.things.len()), self.source);
                let line = Shape::Line(vec![hinge, latch]);
                self.things.push(gate.drawn("line", line));
            }
            self.run.push(latch);
        }
        self.run.push(to);
    }

    fn finish(&mut self) {
        let line = std::mem::take(&mut self.run);
        let id = format!("run-{}", self.things.len());
        let run = Thing::new("barrier-stretch", id, self.source);
        self.things.push(run.drawn("line", Shape::Line(line)));
    }

    /// Closes the ring: the current run ends where the first begins.
    fn closed(mut self) -> Vec<Thing> {
        self.finish();
        self.things
    }
}

fn part_way(from: Point, to: Point, hundredths: i64) -> Point {
    Point {
        x: from.x + (to.x - from.x) / 100 * hundredths,
        y: from.y + (to.y - from.y) / 100 * hundredths,
    }
}

/// A place some distance from another, towards a third that lies straight along an axis.
fn farther(from: Point, to: Point, by: i64) -> Point {
    Point {
        x: from.x + (to.x - from.x).signum() * by,
        y: from.y + (to.y - from.y).signum() * by,
    }
}

/// Holes in some runs, no wider than they are long.
fn holes(random: &mut Random, site: &mut Site, fence: usize) {
    let mut all = Vec::new();
    for run in site.all("barrier-stretch") {
        let line = run.shape("line").corners();
        for side in line.windows(2) {
            if all.len() == 2 || !random.chance(18) {
                continue;
            }
            let long = random.between(10, 90) * METRE / 100;
            let from = part_way(side[0], side[1], 70);
            let width = random.between(1, 100) * long / 100;
            let source = if random.chance(80) {
                fence
            } else {
                random.below(2)
            };
            let mut hole = Thing::new("barrier-opening", format!("hole-{}", all.len()), source);
            hole.part_of = random.chance(30).then(|| run.id.clone());
            let line = Shape::Line(vec![from, farther(from, side[1], long)]);
            all.push(
                hole.drawn("line", line)
                    .said("width", Fact::Length(width, width)),
            );
        }
    }
    site.things.extend(all);
}

/// The widest of the gaps between neighbouring pieces and of the holes. Not worked out here if a shorter way round
/// leaves out a piece.
fn widest_gap(world: &Site) -> Result<Real, Undecided> {
    let is_piece = |thing: &&Thing| ["barrier-stretch", "gate"].contains(&thing.kind);
    let pieces: Vec<&[Point]> = world
        .things
        .iter()
        .filter(is_piece)
        .map(|piece| piece.shape("line").corners())
        .collect();
    let mut widest = Real::whole(0);
    for (at, piece) in pieces.iter().enumerate() {
        let next = pieces[(at + 1) % pieces.len()];
        let gap = apart(&piece[piece.len() - 2..], &next[..2]);
        widest = widest.greater(gap).ok_or(Undecided::Tie)?;
    }
    for (at, piece) in pieces.iter().enumerate() {
        for other in pieces.iter().skip(at + 2) {
            let beside = at == 0 && std::ptr::eq(*other, pieces[pieces.len() - 1]);
            if !beside && apart(piece, other).floor() < widest.floor() {
                return Err(Undecided::NotKnown);
            }
        }
    }
    for hole in world.all("barrier-opening") {
        // Nothing wider than the length of the hole passes.
        let width = Real::whole(hole.length("width").into());
        let passes = width
            .lesser(long(hole.shape("line")))
            .ok_or(Undecided::Tie)?;
        widest = widest.greater(passes).ok_or(Undecided::Tie)?;
    }
    Ok(widest)
}

/// How long a straight line is.
fn long(line: &Shape) -> Real {
    let end = |at: Point| drawn(&Shape::Spot(at));
    let ends = line.corners();
    geometry::nearest(&end(ends[0]), &end(ends[1])).0
}

fn apart(one: &[Point], other: &[Point]) -> Real {
    let line = |points: &[Point]| Drawn {
        forms: vec![Form::Path(points.to_vec())],
        ..drawn(&Shape::Spot(points[0]))
    };
    geometry::nearest(&line(one), &line(other)).0
}
