//! Whether two figures overlap so deeply that they do so in spite of any inaccuracy.

use crate::measure::distance::{between_lines, in_common, to_line};
use crate::measure::figure::chain::{Bounds, Chain, points};
use crate::measure::figure::exact::{Vector, part_way};
use crate::measure::figure::inside::{Side, side};
use crate::plan::figure::{Figure, Form, Point};

/// The number of places to try first, and how many of the best to improve.
const SEEDS: usize = 400;
const IMPROVED: usize = 6;
/// How often boxes that may contain a place are halved.
const HALVED: usize = 300;
/// The rounding of two depths and of the middle of a box together, in nanometres.
const ROUNDED: i64 = 8;

/// A place deeper than `e1` in `a` and deeper than `e2` in `b`, if one is found. The figures then overlap in every world in
/// which `a` is off by at most `e1` and `b` by at most `e2`.
///
/// A place that is returned is proven in whole numbers. `None` proves nothing.
pub fn deepest_common(a: &Figure, e1: i64, b: &Figure, e2: i64) -> Option<Point> {
    // A score of `floor` or less need not be exact.
    let score = |p: Point, floor: i64| match depth_in(a, p).saturating_sub(e1) {
        one if one <= floor => one,
        one => one.min(depth_in(b, p).saturating_sub(e2)),
    };
    let common = common(inner_box(a, e1)?, inner_box(b, e2)?)?;
    if let Some(settled) = settle(common, &score) {
        return settled;
    }
    let seeds = seeds(a, b).into_iter();
    let mut seeds: Vec<(i64, Point)> = seeds.map(|p| (score(p, i64::MIN), p)).collect();
    seeds.sort_unstable_by(|p, q| q.cmp(p));
    seeds.dedup();
    let step = size(a).min(size(b)) / 2;
    let best = seeds
        .into_iter()
        .take(IMPROVED)
        .map(|seed| climb(seed, step, &score));
    best.into_iter()
        .find(|(score, _)| *score > 0)
        .map(|(_, at)| at)
}

/// A box around all places that may be this deep in a figure; `None` where there can be none.
fn inner_box(figure: &Figure, deep: i64) -> Option<Bounds> {
    let all = bounds(figure)?;
    let inwards = deep.saturating_sub(figure.spread);
    let moved = |p: Point, by: i64| Point {
        x: p.x.saturating_add(by),
        y: p.y.saturating_add(by),
    };
    let inner = Bounds {
        low: moved(all.low, inwards),
        high: moved(all.high, inwards.saturating_neg()),
    };
    (inner.low.x <= inner.high.x && inner.low.y <= inner.high.y).then_some(inner)
}

fn common(one: Bounds, other: Bounds) -> Option<Bounds> {
    let low = Point {
        x: one.low.x.max(other.low.x),
        y: one.low.y.max(other.low.y),
    };
    let high = Point {
        x: one.high.x.min(other.high.x),
        y: one.high.y.min(other.high.y),
    };
    one.touches(&other).then_some(Bounds { low, high })
}

/// Halves a box again and again until a deep place is found, or until no part is left that could contain one: a depth
/// changes by no more than the distance moved. `None` where that takes too long.
fn settle(all: Bounds, score: &impl Fn(Point, i64) -> i64) -> Option<Option<Point>> {
    let mut open = vec![all];
    for _ in 0..HALVED {
        let Some(part) = open.pop() else {
            return Some(None);
        };
        let (middle, away) = (part_way(part.low, part.high, 0.5), half_across(&part));
        match score(middle, away.saturating_neg()) {
            deep if deep > 0 => return Some(Some(middle)),
            shallow if shallow <= away.saturating_neg() => {}
            _ => open.extend(halves(&part, middle)),
        }
    }
    None
}

/// The distance from the middle of a box to its corners, plus the rounding of a depth.
fn half_across(part: &Bounds) -> i64 {
    let across = Vector::between(part.low, part.high);
    let (x, y) = (across.x as f64, across.y as f64);
    ((x * x + y * y).sqrt() / 2.0).ceil() as i64 + ROUNDED
}

fn halves(part: &Bounds, middle: Point) -> [Bounds; 2] {
    let across = Vector::between(part.low, part.high);
    let (high, low) = match across.x > across.y {
        true => ((middle.x, part.high.y), (middle.x, part.low.y)),
        false => ((part.high.x, middle.y), (part.low.x, middle.y)),
    };
    let point = |(x, y)| Point { x, y };
    [
        Bounds {
            high: point(high),
            ..*part
        },
        Bounds {
            low: point(low),
            ..*part
        },
    ]
}

/// How deep a place surely is within a figure, in nanometres; negative outside. With several forms, the deepest counts.
pub fn depth_in(figure: &Figure, point: Point) -> i64 {
    let deep = figure.forms.iter().map(|form| {
        let away = to_line(point, Chain::of(form));
        match form {
            Form::Ring(ring) if side(ring, point) == Side::Inside => {
                away.low.saturating_add(figure.spread)
            }
            _ => figure.spread.saturating_sub(away.high),
        }
    });
    deep.max().unwrap_or(i64::MIN)
}

fn bounds(figure: &Figure) -> Option<Bounds> {
    let forms = figure.forms.iter();
    forms
        .filter_map(|form| Bounds::around(points(form)))
        .reduce(Bounds::join)
}

fn size(figure: &Figure) -> i64 {
    let all = bounds(figure);
    all.map_or(0, |all| all.size())
        .saturating_add(figure.spread)
}

/// Places to try: corners, crossings, middles, and the points halfway between any two of these.
fn seeds(a: &Figure, b: &Figure) -> Vec<Point> {
    let corners: Vec<Point> = a
        .forms
        .iter()
        .chain(&b.forms)
        .flat_map(|form| points(form).iter().copied())
        .collect();
    let mut found: Vec<Point> = crossings(a, b).into_iter().take(SEEDS / 10).collect();
    found.extend(nearest_places(a, b));
    let within = corners
        .iter()
        .copied()
        .filter(|p| depth_in(a, *p) >= 0 && depth_in(b, *p) >= 0);
    found.extend(within.take(SEEDS / 10));
    let firsts: Vec<Point> = found.iter().copied().take(28).collect();
    for (at, p) in firsts.iter().enumerate() {
        found.extend(firsts.iter().skip(at + 1).map(|q| part_way(*p, *q, 0.5)));
    }
    found.extend(
        [a, b]
            .into_iter()
            .flat_map(|figure| figure.forms.iter().filter_map(|form| mean(points(form)))),
    );
    found.truncate(SEEDS + 2 * SEEDS);
    found
}

fn mean(points: &[Point]) -> Option<Point> {
    let bounds = Bounds::around(points)?;
    Some(part_way(bounds.low, bounds.high, 0.5))
}

fn nearest_places(a: &Figure, b: &Figure) -> [Point; 3] {
    let gap = crate::measure::distance::figure_gap(a, b);
    [gap.from, gap.to, part_way(gap.from, gap.to, 0.5)]
}

fn crossings(a: &Figure, b: &Figure) -> Vec<Point> {
    let mut found = Vec::new();
    for (one, other) in a
        .forms
        .iter()
        .flat_map(|one| b.forms.iter().map(move |other| (one, other)))
    {
        let (one, other) = (Chain::of(one), Chain::of(other));
        if between_lines(one, other).high > 0 {
            continue;
        }
        for edge in one.edges() {
            let bounds = edge.bounds();
            let against = other
                .edges()
                .filter(|against| bounds.touches(&against.bounds()) && edge.meets(against));
            found.extend(against.map(|against| in_common(&edge, &against)));
            if found.len() >= SEEDS {
                return found;
            }
        }
    }
    found
}

/// Climbs uphill in ever smaller steps, until deep enough or until the steps are 0.
fn climb(seed: (i64, Point), step: i64, score: &impl Fn(Point, i64) -> i64) -> (i64, Point) {
    const AROUND: [(i64, i64); 8] = [
        (1, 0),
        (1, 1),
        (0, 1),
        (-1, 1),
        (-1, 0),
        (-1, -1),
        (0, -1),
        (1, -1),
    ];
    let (mut best, mut step, mut turns) = (seed, step, 0);
    while step > 0 && best.0 <= 0 && turns < 200 {
        turns += 1;
        let next = AROUND.map(|(x, y)| {
            let moved = Vector {
                x: x.saturating_mul(step),
                y: y.saturating_mul(step),
            };
            let at = Point {
                x: best.1.x.saturating_add(moved.x),
                y: best.1.y.saturating_add(moved.y),
            };
            (score(at, best.0), at)
        });
        match next.into_iter().max_by_key(|(score, _)| *score) {
            Some(found) if found.0 > best.0 => best = found,
            _ => step /= 2,
        }
    }
    best
}
