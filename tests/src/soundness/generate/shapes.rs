//! Random shapes of the size of a site.

use rules_core::plan::{Form, Point};
use rules_core::vocabulary::Shape;

use crate::soundness::random::Random;
use crate::soundness::words::METRE;
use crate::soundness::world::Drawn;

/// A place within a distance of the origin. Every other one is on a half-metre grid, so that shapes touch and distances
/// are whole.
fn place(random: &mut Random, within: i64) -> Point {
    let mut along = || match random.chance(50) {
        true => random.between(-within / METRE * 2, within / METRE * 2) * (METRE / 2),
        false => random.between(-within, within),
    };
    Point {
        x: along(),
        y: along(),
    }
}

fn rectangle(random: &mut Random) -> Vec<(i64, i64)> {
    let (width, depth) = (
        random.between(4, 20) * METRE / 2,
        random.between(4, 20) * METRE / 2,
    );
    vec![(0, 0), (width, 0), (width, depth), (0, depth)]
}

fn bent(random: &mut Random) -> Vec<(i64, i64)> {
    let (width, depth) = (random.between(4, 8) * METRE, random.between(4, 8) * METRE);
    vec![
        (0, 0),
        (width, 0),
        (width, depth),
        (width / 2, depth),
        (width / 2, depth / 2),
        (0, depth / 2),
    ]
}

/// Turned by a random angle half of the time, which takes the corners off any grid.
fn turned(random: &mut Random, corners: Vec<(i64, i64)>) -> Vec<(i64, i64)> {
    if random.chance(50) {
        return corners;
    }
    let (cos, sin) = random.direction();
    let turn = |(x, y): (i64, i64)| {
        let (x, y) = (x as f64, y as f64);
        ((x * cos - y * sin) as i64, (x * sin + y * cos) as i64)
    };
    corners.into_iter().map(turn).collect()
}

fn ring(random: &mut Random, within: i64) -> Form {
    let corners = match random.chance(75) {
        true => rectangle(random),
        false => bent(random),
    };
    let at = place(random, within);
    let corners = turned(random, corners);
    Form::Ring(
        corners
            .into_iter()
            .map(|(x, y)| Point {
                x: at.x + x,
                y: at.y + y,
            })
            .collect(),
    )
}

fn path(random: &mut Random, within: i64) -> Form {
    let start = place(random, within);
    let mut points = vec![start];
    for _ in 0..random.between(1, 2) {
        let step = place(random, 6 * METRE);
        points.push(Point {
            x: start.x + step.x + METRE / 10,
            y: start.y + step.y,
        });
    }
    points.dedup();
    Form::Path(points)
}

/// A random outline somewhere within a distance of the origin.
pub fn scattered(random: &mut Random, shape: Shape, within: i64) -> Drawn {
    let round = random.chance(20);
    let spread = random.between(1, 30) * METRE / 10;
    match shape {
        Shape::Point => Drawn {
            forms: vec![Form::Point(place(random, within))],
            spread: 0,
        },
        Shape::Line => Drawn {
            forms: vec![path(random, within)],
            spread: 0,
        },
        // A round pool is a point with a spread.
        Shape::Area if round => Drawn {
            forms: vec![Form::Point(place(random, within))],
            spread,
        },
        Shape::Area => Drawn {
            forms: vec![ring(random, within)],
            spread: 0,
        },
    }
}

/// A form with each corner moved by its own vector.
pub fn moved(form: &Form, mut by: impl FnMut() -> (i64, i64)) -> Form {
    let mut step = |p: &Point| {
        let (x, y) = by();
        Point {
            x: p.x + x,
            y: p.y + y,
        }
    };
    match form {
        Form::Point(point) => Form::Point(step(point)),
        Form::Path(points) => Form::Path(points.iter().map(step).collect()),
        Form::Ring(points) => Form::Ring(points.iter().map(step).collect()),
    }
}
