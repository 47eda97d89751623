//! Seeded forms for the tests: ordinary, touching, nested, flat and tiny ones.

use crate::plan::figure::{Form, Point};

pub(crate) struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 11
    }

    /// From `low` to `high`, both included.
    pub fn from(&mut self, low: i64, high: i64) -> i64 {
        low + (self.next() % (high - low + 1) as u64) as i64
    }

    pub fn point(&mut self, reach: i64) -> Point {
        Point {
            x: self.from(-reach, reach),
            y: self.from(-reach, reach),
        }
    }

    /// A ring without self-crossing: corners sorted around a middle, so it is star-shaped.
    pub fn ring(&mut self, reach: i64) -> Vec<Point> {
        loop {
            let middle = self.point(reach);
            let size = self.from(3, reach.max(4));
            let count = self.from(3, 12);
            let mut spokes: Vec<Point> = (0..count)
                .map(|_| self.point(size))
                .filter(|p| (p.x, p.y) != (0, 0))
                .collect();
            spokes.sort_by(|a, b| half(a).cmp(&half(b)).then(0.cmp(&cross(a, b))));
            spokes.dedup_by(|a, b| half(a) == half(b) && cross(a, b) == 0);
            let wide = spokes.len() >= 3
                && (0..spokes.len())
                    .all(|i| cross(&spokes[i], &spokes[(i + 1) % spokes.len()]) > 0);
            if wide {
                return spokes
                    .iter()
                    .map(|p| Point {
                        x: p.x + middle.x,
                        y: p.y + middle.y,
                    })
                    .collect();
            }
        }
    }

    pub fn form(&mut self, reach: i64) -> Form {
        match self.from(0, 5) {
            0 => Form::Point(self.point(reach)),
            1 | 2 => {
                let count = self.from(2, 9);
                Form::Path((0..count).map(|_| self.point(reach)).collect())
            }
            _ => Form::Ring(self.ring(reach)),
        }
    }
}

fn half(p: &Point) -> bool {
    p.y < 0 || p.y == 0 && p.x < 0
}

fn cross(a: &Point, b: &Point) -> i128 {
    i128::from(a.x) * i128::from(b.y) - i128::from(a.y) * i128::from(b.x)
}

pub(crate) fn moved(form: &Form, by: impl Fn(Point) -> Point) -> Form {
    match form {
        Form::Point(p) => Form::Point(by(*p)),
        Form::Path(points) => Form::Path(points.iter().map(|p| by(*p)).collect()),
        Form::Ring(points) => Form::Ring(points.iter().map(|p| by(*p)).collect()),
    }
}
