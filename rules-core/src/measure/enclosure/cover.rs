//! Covering a place with discs.

use super::edges::Edges;
use super::{Opening, Target};
use crate::measure::figure::chain::{Chain, Edge};
use crate::measure::figure::exact::{Span, Vector, part_way, root};
use crate::plan::figure::{Form, Point};

/// A disc around a point of a place.
#[derive(Debug, Clone)]
pub(super) struct Ball {
    /// Its centre, on the place's line; `None` is far away.
    pub at: Option<Point>,
    /// Its radius, which covers its part of the place.
    pub reach: i64,
    /// The distance of its centre from the walls.
    pub room: Span,
    /// Where the nearest wall is.
    pub opening: Option<Opening>,
    /// The part of the place that it covers.
    run: Vec<Point>,
}

impl Ball {
    pub const FAR: Ball = Ball {
        at: None,
        reach: 0,
        room: Span {
            low: i64::MAX,
            high: i64::MAX,
        },
        opening: None,
        run: Vec::new(),
    };

    fn new(edges: &Edges, place: &Target, run: Vec<Point>) -> Option<Ball> {
        let at = middle(&run)?;
        let far = run
            .iter()
            .map(|p| root(Vector::between(at, *p).squared()).high);
        let own = far.max()?.saturating_add(place.figure.spread);
        let (room, opening) = edges.room(at, place.tolerance);
        Some(Ball {
            at: Some(at),
            reach: own,
            room,
            opening,
            run,
        })
    }
}

/// Discs that together cover the border of a place.
pub(super) fn cover(edges: &Edges, place: &Target, most: usize) -> Vec<Ball> {
    let each = most.div_ceil(place.figure.forms.len().max(1)).max(1);
    let runs = place.figure.forms.iter().flat_map(|form| runs(form, each));
    runs.filter_map(|run| Ball::new(edges, place, run))
        .collect()
}

/// A form's line, split at corners into at most `most` runs.
fn runs(form: &Form, most: usize) -> Vec<Vec<Point>> {
    let chain = Chain::of(form);
    if let Form::Point(point) = form {
        return vec![vec![*point]];
    }
    let edges: Vec<Edge> = chain.edges().collect();
    edges
        .chunks(edges.len().div_ceil(most).max(1))
        .map(|chunk| {
            let first = chunk.first().map(|edge| edge.a);
            first
                .into_iter()
                .chain(chunk.iter().map(|edge| edge.b))
                .collect()
        })
        .collect()
}

/// The middle of a straight run, or the middle corner of one with several edges.
fn middle(run: &[Point]) -> Option<Point> {
    match run {
        [a, b] => Some(part_way(*a, *b, 0.5)),
        _ => run.get(run.len() / 2).copied(),
    }
}

/// The same discs, with the chosen ones split into two.
pub(super) fn halve(
    edges: &Edges,
    place: &Target,
    balls: &[Ball],
    asked: impl Fn(usize) -> bool,
) -> Vec<Ball> {
    let mut halved = Vec::new();
    for (index, ball) in balls.iter().enumerate() {
        match asked(index) {
            true => halved.extend(
                halves(&ball.run)
                    .into_iter()
                    .filter_map(|run| Ball::new(edges, place, run)),
            ),
            false => halved.push(ball.clone()),
        }
    }
    halved
}

fn halves(run: &[Point]) -> Vec<Vec<Point>> {
    match run {
        [] | [_] => vec![run.to_vec()],
        [a, b] => {
            let middle = part_way(*a, *b, 0.5);
            vec![vec![*a, middle], vec![middle, *b]]
        }
        _ => {
            let middle = run.len() / 2;
            let end = run.iter().take(middle + 1).copied().collect();
            vec![end, run.iter().skip(middle).copied().collect()]
        }
    }
}
