//! What many of the plans share: a lot, a pool, and things of random sources.

use rules_core::plan::Point;

use super::site::{Item, M, MM, Shape, Site};
use crate::soundness::random::Random;

/// The accuracy of a drawing, in nanometres.
pub fn off(random: &mut Random) -> i64 {
    *random.pick(&[0, 5 * MM, 50 * MM, 200 * MM])
}

/// A place between two others.
pub fn place(random: &mut Random, x: (i64, i64), y: (i64, i64)) -> Point {
    Point {
        x: random.between(x.0 * M, x.1 * M),
        y: random.between(y.0 * M, y.1 * M),
    }
}

/// A rectangle around a place, turned by up to a number of degrees.
pub fn rectangle(
    random: &mut Random,
    at: Point,
    long: (i64, i64),
    wide: (i64, i64),
    turn: i64,
) -> Vec<Point> {
    let angle =
        random.between(-turn * 1000, turn * 1000) as f64 / 1000.0 * std::f64::consts::PI / 180.0;
    let (cos, sin) = (libm::cos(angle), libm::sin(angle));
    let (u, v) = (
        random.between(long.0 * M, long.1 * M) as f64 / 2.0,
        random.between(wide.0 * M, wide.1 * M) as f64 / 2.0,
    );
    [(-u, -v), (u, -v), (u, v), (-u, v)]
        .map(|(x, y)| Point {
            x: at.x + (x * cos - y * sin) as i64,
            y: at.y + (x * sin + y * cos) as i64,
        })
        .to_vec()
}

/// Water: a rectangle, a circle or an oval.
pub fn water(random: &mut Random, at: Point) -> Shape {
    match random.below(4) {
        0 => Shape::Round(vec![at], random.between(M, 3 * M)),
        1 => {
            let (x, y) = random.direction();
            let to = Point {
                x: at.x + (x * 3e9) as i64,
                y: at.y + (y * 3e9) as i64,
            };
            Shape::Round(vec![at, to], random.between(M, 2 * M))
        }
        _ => Shape::Area(rectangle(random, at, (4, 10), (3, 5), 45)),
    }
}

/// A lot of about 30 by 40 m with a pool; `sources` of things.
pub fn site(random: &mut Random, water: Shape) -> Site {
    let mut corner = |x: i64, y: i64| Point {
        x: x * M + random.between(-M, M),
        y: y * M + random.between(-M, M),
    };
    let lot = [corner(0, 0), corner(30, 0), corner(30, 40), corner(0, 40)];
    let shifts = (0..3)
        .map(|_| *random.pick(&[0, 0, 100 * MM, 300 * MM]))
        .collect();
    let own = random.below(2);
    let pool = Item::new("pool", own, off(random)).drawn("water", water);
    Site {
        lot,
        lot_off: off(random),
        shifts,
        items: vec![pool],
    }
}

pub fn pool_at(random: &mut Random, x: (i64, i64), y: (i64, i64)) -> Site {
    let at = place(random, x, y);
    let shape = water(random, at);
    site(random, shape)
}

/// A thing of a random source.
pub fn item(random: &mut Random, kind: &'static str) -> Item {
    Item::new(kind, random.below(3), off(random))
}
