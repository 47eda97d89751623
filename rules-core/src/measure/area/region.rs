//! Figures as polygons with straight sides, in metres from a local origin, for cutting and joining.
//!
//! Where a figure has arcs, its polygon is within it or around it, and the caller says which.

use std::f64::consts::PI;

use geo::{Coord, LineString, MultiPolygon, Polygon};

use crate::measure::area::joining::{joined, shared};
use crate::measure::distance::search::nearly;
use crate::measure::figure::chain::{Bounds, Chain, Edge};
use crate::measure::figure::exact::Vector;
use crate::measure::figure::size::{area2, signed_area2};
use crate::measure::outline::valid::is_sound;
use crate::plan::figure::{Figure, Form, Point};

/// How far a polygon may be from its arc, in nanometres: one millimetre.
pub const ARC_TOLERANCE: i64 = 1_000_000;

const METRE: f64 = 1e9;

/// Whether a polygon stays within or around the true figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fit {
    /// Within the true figure: everything in it is surely in the figure.
    Inner,
    /// Around the true figure: everything outside it is surely outside the figure.
    Outer,
}

impl Fit {
    pub(crate) fn opposite(self) -> Fit {
        match self {
            Fit::Inner => Fit::Outer,
            Fit::Outer => Fit::Inner,
        }
    }
}

/// A local origin, so that cutting keeps all its digits for the figures at hand.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Local {
    origin: Point,
    /// The greater side of the box around everything, in metres.
    pub extent: f64,
}

impl Local {
    pub fn around(figures: &[&Figure]) -> Option<Self> {
        let boxed = figures.iter().filter_map(|figure| {
            let all = figure
                .forms
                .iter()
                .filter_map(|form| Bounds::around(Chain::of(form).points));
            all.reduce(Bounds::join)
                .map(|bounds| (bounds, figure.spread))
        });
        let (bounds, spread) = boxed.reduce(|a, b| (a.0.join(b.0), a.1.max(b.1)))?;
        let across = Vector::between(bounds.low, bounds.high);
        let extent = across
            .x
            .max(across.y)
            .saturating_add(spread.saturating_mul(2)) as f64
            / METRE;
        Some(Local {
            origin: crate::measure::figure::exact::part_way(bounds.low, bounds.high, 0.5),
            extent,
        })
    }

    pub fn metres(&self, point: Point) -> Coord {
        let (x, y) = Vector::between(self.origin, point).floats();
        Coord {
            x: x / METRE,
            y: y / METRE,
        }
    }

    pub fn point(&self, at: Coord) -> Point {
        Point {
            x: self.origin.x.saturating_add((at.x * METRE).round() as i64),
            y: self.origin.y.saturating_add((at.y * METRE).round() as i64),
        }
    }

    /// How far joining and cutting may move a corner, in metres: they work on a grid over the whole extent.
    pub fn grid(&self) -> f64 {
        self.extent / f64::from(1 << 29) + 1e-9
    }

    /// The area of a figure as one or more polygons, with the fit asked for. Lines without a spread have none.
    pub fn polygons(&self, figure: &Figure, fit: Fit) -> MultiPolygon {
        match is_dense(figure) {
            true => self.fitted(&thinned(figure, fit), fit, Self::outside),
            false => self.fitted(figure, fit, Self::border),
        }
    }

    fn fitted(
        &self,
        figure: &Figure,
        fit: Fit,
        border: fn(&Self, Chain, i64, Fit) -> Vec<Polygon>,
    ) -> MultiPolygon {
        let mut parts: Vec<Polygon> = figure
            .forms
            .iter()
            .filter_map(|form| self.ring(form))
            .collect();
        if figure.spread > 0 {
            parts.extend(
                figure
                    .forms
                    .iter()
                    .flat_map(|form| border(self, Chain::of(form), figure.spread, fit)),
            );
        }
        match parts.as_slice() {
            [] => MultiPolygon(Vec::new()),
            [_] => MultiPolygon(parts),
            _ => joined(&parts),
        }
    }

    fn ring(&self, form: &Form) -> Option<Polygon> {
        let Form::Ring(points) = form else {
            return None;
        };
        let area = signed_area2(points);
        let mut corners: Vec<Coord> = points.iter().map(|p| self.metres(*p)).collect();
        if area < 0 {
            corners.reverse();
        }
        (area != 0).then(|| polygon(corners))
    }

    /// A rectangle along each edge and a disc on each corner.
    fn border(&self, chain: Chain, spread: i64, fit: Fit) -> Vec<Polygon> {
        let radius = spread as f64 / METRE;
        let strips = chain.edges().filter_map(|edge| self.strip(edge, radius));
        let disc = disc(radius, fit);
        let discs = chain.points.iter().map(|p| {
            let at = self.metres(*p);
            polygon(
                disc.iter()
                    .map(|c| Coord {
                        x: at.x + c.x,
                        y: at.y + c.y,
                    })
                    .collect(),
            )
        });
        strips.chain(discs).collect()
    }

    /// The same for a ring with many corners: only outside the ring, and at a convex corner only the wedge between the strips
    /// beside it. All the wedges together have hardly more corners than one disc.
    fn outside(&self, chain: Chain, spread: i64, fit: Fit) -> Vec<Polygon> {
        if !chain.closed {
            return self.border(chain, spread, fit);
        }
        let radius = spread as f64 / METRE;
        let out = if signed_area2(chain.points) < 0 {
            -1.0
        } else {
            1.0
        };
        let normal = |edge: &Edge| {
            let (x, y) = Vector::between(edge.a, edge.b).floats();
            let length = (x * x + y * y).sqrt();
            (y / length * out, -x / length * out)
        };
        let edges: Vec<Edge> = chain.edges().filter(|edge| edge.a != edge.b).collect();
        let next = edges.iter().cycle().skip(1);
        let pairs = edges.iter().zip(next);
        let pieces = pairs.flat_map(|(edge, next)| {
            let (here, there) = (normal(edge), normal(next));
            let (a, b) = (self.metres(edge.a), self.metres(edge.b));
            let far = |at: Coord, (x, y): (f64, f64)| Coord {
                x: at.x + x * radius,
                y: at.y + y * radius,
            };
            let strip = vec![a, far(a, here), far(b, here), b];
            [Some(strip), wedge(b, (here, there), (radius, out), fit)]
        });
        let turned = |mut corners: Vec<Coord>| {
            if out < 0.0 {
                corners.reverse();
            }
            polygon(corners)
        };
        pieces.flatten().map(turned).collect()
    }

    fn strip(&self, edge: Edge, radius: f64) -> Option<Polygon> {
        let (x, y) = Vector::between(edge.a, edge.b).floats();
        let length = (x * x + y * y).sqrt();
        let (a, b) = (self.metres(edge.a), self.metres(edge.b));
        let (x, y) = (x / length * radius, y / length * radius);
        (length > 0.0).then(|| {
            polygon(vec![
                Coord {
                    x: a.x + y,
                    y: a.y - x,
                },
                Coord {
                    x: b.x + y,
                    y: b.y - x,
                },
                Coord {
                    x: b.x - y,
                    y: b.y + x,
                },
                Coord {
                    x: a.x - y,
                    y: a.y + x,
                },
            ])
        })
    }
}

/// A unit vector.
type Direction = (f64, f64);

/// The wedge of a circle at a corner between two directions, anticlockwise where `out` is positive; `None` at a corner that
/// points in.
fn wedge(
    at: Coord,
    (here, there): (Direction, Direction),
    (radius, out): (f64, f64),
    fit: Fit,
) -> Option<Vec<Coord>> {
    let cross = here.0 * there.1 - here.1 * there.0;
    let turn = libm::atan2(cross, here.0 * there.0 + here.1 * there.1);
    if turn * out <= 0.0 {
        return None;
    }
    let steps = (turn.abs() / (2.0 * PI) * sides(radius)).ceil().max(1.0);
    let step = turn / steps;
    let spoke = |angle: f64, reach: f64| {
        let (sin, cos) = (libm::sin(angle) * reach, libm::cos(angle) * reach);
        Coord {
            x: at.x + here.0 * cos - here.1 * sin,
            y: at.y + here.0 * sin + here.1 * cos,
        }
    };
    let mut corners = vec![at, spoke(0.0, radius)];
    let steps = steps as u32;
    match fit {
        Fit::Inner => corners.extend((1..steps).map(|n| spoke(step * f64::from(n), radius))),
        Fit::Outer => {
            let reach = radius / libm::cos(step / 2.0);
            corners.extend((0..steps).map(|n| spoke(step * (f64::from(n) + 0.5), reach)));
        }
    }
    corners.push(Coord {
        x: at.x + there.0 * radius,
        y: at.y + there.1 * radius,
    });
    Some(corners)
}

/// A ring with more corners than this has them in place of arcs.
const DENSE: usize = 60;
/// The most corners in a row to leave out.
const RUN: usize = 40;

/// Whether a figure has a spread, and so many corners that a disc on each would take long.
pub(crate) fn is_dense(figure: &Figure) -> bool {
    let dense = |form: &Form| matches!(form, Form::Ring(ring) if ring.len() > DENSE);
    figure.spread > 0 && figure.forms.iter().any(dense)
}

/// The same figure with fewer corners, each side no farther than the tolerance from it. The spread is changed by the
/// tolerance, so that the result stays around the figure or within it.
fn thinned(figure: &Figure, fit: Fit) -> Figure {
    if fit == Fit::Inner && figure.spread < ARC_TOLERANCE {
        return Figure {
            spread: 0,
            ..figure.clone()
        };
    }
    let thin = |form: &Form| match form {
        Form::Ring(ring) => {
            let thin = fewer(ring);
            match is_sound(&thin) {
                true => Form::Ring(thin),
                false => form.clone(),
            }
        }
        other => other.clone(),
    };
    Figure::new(
        figure.forms.iter().map(thin).collect(),
        match fit {
            Fit::Outer => figure.spread.saturating_add(ARC_TOLERANCE),
            Fit::Inner => figure.spread.saturating_sub(ARC_TOLERANCE),
        },
        figure.accuracy,
    )
}

/// A ring with fewer corners. None that is left out is farther than the tolerance from the side in its place.
fn fewer(ring: &[Point]) -> Vec<Point> {
    const NEAR: f64 = ARC_TOLERANCE as f64 - 1.0;
    let mut kept: Vec<Point> = ring.first().copied().into_iter().collect();
    let (mut from, mut left) = (kept.first().copied(), ring.get(1..).unwrap_or_default());
    while let Some(a) = from {
        let spans = |count: &usize| {
            let between = left.get(..*count - 1).unwrap_or_default();
            let end = left.get(*count - 1).map(|b| Edge { a, b: *b });
            let near = |edge: Edge| between.iter().all(|p| nearly(&edge, *p) <= NEAR * NEAR);
            end.is_some_and(near)
        };
        let most = left.len().min(RUN);
        let Some(count) = (1..=most).take_while(spans).last() else {
            break;
        };
        from = left.get(count - 1).copied();
        kept.extend(from);
        left = left.get(count..).unwrap_or_default();
    }
    kept
}

pub(crate) fn polygon(corners: Vec<Coord>) -> Polygon {
    Polygon::new(LineString(corners), Vec::new())
}

/// The number of sides that is near enough to a circle: the sagitta of one is about r·(π/n)²/2.
fn sides(radius: f64) -> f64 {
    (PI * (radius / (2.0 * ARC_TOLERANCE as f64 / METRE)).sqrt())
        .ceil()
        .clamp(16.0, 720.0)
}

/// The corners of a regular polygon within or around a circle.
fn disc(radius: f64, fit: Fit) -> Vec<Coord> {
    let sides = sides(radius);
    let reach = match fit {
        Fit::Inner => radius,
        Fit::Outer => radius / libm::cos(PI / sides),
    };
    let corner = |n: u32| {
        let angle = 2.0 * PI * f64::from(n) / sides;
        Coord {
            x: reach * libm::cos(angle),
            y: reach * libm::sin(angle),
        }
    };
    (0..sides as u32).map(corner).collect()
}

/// The rings of some polygons in whole nanometres; a polygon with holes is cut into pieces without.
pub(crate) fn rings(local: &Local, polygons: MultiPolygon) -> Vec<Form> {
    let mut open = polygons.0;
    let mut done: Vec<Vec<Point>> = Vec::new();
    // Each cut removes a hole; the cap only guards against a polygon that does not get simpler.
    for _ in 0..100_000 {
        let Some(next) = open.pop() else { break };
        match halves(&next) {
            Some(cut) => open.extend(cut),
            None => done.extend(ring_of(local, next.exterior())),
        }
    }
    done.sort_unstable();
    done.into_iter().map(Form::Ring).collect()
}

fn ring_of(local: &Local, line: &LineString) -> Option<Vec<Point>> {
    let mut points: Vec<Point> = line.0.iter().map(|c| local.point(*c)).collect();
    points.dedup();
    if points.first() == points.last() {
        points.pop();
    }
    (area2(&points) > 0).then_some(points)
}

/// The parts to the left and to the right of the middle of a polygon's first hole.
fn halves(whole: &Polygon) -> Option<Vec<Polygon>> {
    use geo::BoundingRect;
    let hole = whole.interiors().first()?.bounding_rect()?;
    let all = whole.bounding_rect()?;
    let middle = f64::midpoint(hole.min().x, hole.max().x);
    let (low, high) = (all.min().y - 1.0, all.max().y + 1.0);
    let side = |from: f64, to: f64| {
        let corner = |x, y| Coord { x, y };
        let half = polygon(vec![
            corner(from, low),
            corner(to, low),
            corner(to, high),
            corner(from, high),
        ]);
        shared(
            &MultiPolygon(vec![whole.clone()]),
            &MultiPolygon(vec![half]),
        )
        .0
    };
    Some(
        [
            side(all.min().x - 1.0, middle),
            side(middle, all.max().x + 1.0),
        ]
        .concat(),
    )
}
