//! Arcs as runs of corners, how far these are from the true arcs, and the true arcs themselves.
//!
//! Distances are taken from the arcs, everything else from the corners. No number of corners is the same as an arc, so with
//! them comes the greatest distance of any place of the arc from the run of corners, rounding included. Whoever measures the
//! corners allows for it like any other inaccuracy, so no area or zone can be wrong because of it.

use std::f64::consts::PI;

use crate::plan::figure::{Arc, Course, Curved, Form, Point};

/// How near the corners are to their arc, in nanometres, unless there would be too many: a tenth of a millimetre.
const FINE: f64 = 100_000.0;
/// The rounding of a corner, a centre and a radius to whole nanometres, and of the floats before.
const ROUNDED: i64 = 4;
/// The greatest radius that is computed to the nanometre, in nanometres. Flatter arcs bulge by less than 1.3 mm in 100 m.
const WIDEST: f64 = 1e15;

/// A line with arcs, traced as corners and as its true courses.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Traced {
    /// The corners.
    pub corners: Vec<Point>,
    /// The greatest distance between the line through the corners and the arcs, in nanometres.
    pub off: i64,
    /// The courses so far; `None` where one of them is too flat to compute.
    courses: Option<Vec<Course>>,
}

impl Traced {
    /// A line without any corner yet.
    pub fn new() -> Self {
        Traced {
            corners: Vec::new(),
            off: 0,
            courses: Some(Vec::new()),
        }
    }

    /// The area that the corners surround, and its true outline.
    pub fn area(self) -> (Form, Option<Curved>) {
        let off = self.off;
        let curved = self.courses.map(|courses| Curved { courses, off });
        (
            Form::Ring(self.corners),
            curved.filter(|curved| curved.off > 0),
        )
    }

    fn course(&mut self, from: Point, to: Point, arc: Option<Arc>) {
        self.courses
            .iter_mut()
            .for_each(|courses| courses.push(Course { from, to, arc }));
    }

    /// Adds an arc of less than a whole circle, in two parts where it is more than half of one. `arc` is `None` where it is too
    /// flat.
    fn round(&mut self, ends: (Point, Point), top: Point, arc: Option<Arc>, more_than_half: bool) {
        if arc.is_none() {
            self.courses = None;
        }
        if more_than_half {
            self.course(ends.0, top, arc);
            self.course(top, ends.1, arc);
        } else {
            self.course(ends.0, ends.1, arc);
        }
    }

    /// Adds an arc between two places. `bulge` is how far its middle is from the chord: to the right of the direction of
    /// travel, or to the left if negative. The last place is left to whatever follows. `most` is the most corners to use.
    pub fn bulge(&mut self, (from, to): (Point, Point), bulge: i64, most: usize) {
        let (x, y) = crate::measure::figure::exact::floats_between(from, to);
        let chord = (x * x + y * y).sqrt();
        let high = bulge.unsigned_abs() as f64;
        if chord <= 0.0 || high <= 0.0 {
            self.corners.push(from);
            self.course(from, to, None);
            return;
        }
        let radius = (chord * chord / 4.0 + high * high) / (2.0 * high);
        let half = 2.0 * libm::atan2(high, chord / 2.0);
        let steps = steps(radius, half, most);
        let side = if bulge > 0 { 1.0 } else { -1.0 };
        let along = (x / chord, y / chord);
        let out = (along.1 * side, -along.0 * side);
        self.corners.push(from);
        for step in 1..steps {
            let angle = half * (2.0 * f64::from(step) / f64::from(steps) - 1.0);
            let ahead = chord / 2.0 + radius * libm::sin(angle);
            // The height over the chord, computed without the difference of two large numbers.
            let sine = libm::sin(angle / 2.0);
            let over = high - 2.0 * radius * sine * sine;
            self.corners.push(moved(
                from,
                (
                    along.0 * ahead + out.0 * over,
                    along.1 * ahead + out.1 * over,
                ),
            ));
        }
        self.note(radius, half, steps);
        let place = |over: f64| {
            let ahead = chord / 2.0;
            moved(
                from,
                (
                    along.0 * ahead + out.0 * over,
                    along.1 * ahead + out.1 * over,
                ),
            )
        };
        let whole = radius.round();
        let arc = (radius <= WIDEST).then(|| Arc {
            middle: place(high - whole),
            radius: whole as i64,
            left: bulge > 0,
        });
        self.round((from, to), place(high), arc, high > chord / 2.0);
    }

    fn note(&mut self, radius: f64, half: f64, steps: u32) {
        // 1 − cos x is at most x²/2.
        let part = half / f64::from(steps);
        let off = (radius * part * part / 2.0).ceil() as i64;
        self.off = self.off.max(off.saturating_add(ROUNDED));
    }
}

impl Default for Traced {
    fn default() -> Self {
        Traced::new()
    }
}

/// The number of straight pieces for an arc, given the angle `half` to either side of its middle.
fn steps(radius: f64, half: f64, most: usize) -> u32 {
    let most = u32::try_from(most).unwrap_or(u32::MAX).max(4);
    let wanted = half * (radius / (2.0 * FINE)).sqrt();
    (wanted.ceil().clamp(2.0, f64::from(most))) as u32
}

fn moved(from: Point, (x, y): (f64, f64)) -> Point {
    Point {
        x: from.x.saturating_add(x.round() as i64),
        y: from.y.saturating_add(y.round() as i64),
    }
}

/// A kidney: two round ends, a concave arc between them in front, and a back that is straight or bulges out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kidney {
    /// The centres of the two ends.
    pub ends: (Point, Point),
    /// The radius of both ends, in nanometres.
    pub radius: i64,
    /// The depth of the hollow in front, which is to the left of the direction from the first end to the second.
    pub hollow: i64,
    /// How far the back bulges out; 0 where it is straight.
    pub back: i64,
}

/// An arc about a centre: from an angle, sweeping anticlockwise where the sweep is positive.
struct About {
    middle: (f64, f64),
    radius: f64,
    from: f64,
    sweep: f64,
}

impl About {
    /// The place at a share of the arc; 1 is its end.
    fn at(&self, share: f64) -> (f64, f64) {
        let angle = self.from + self.sweep * share;
        (
            self.middle.0 + self.radius * libm::cos(angle),
            self.middle.1 + self.radius * libm::sin(angle),
        )
    }
}

impl Kidney {
    /// The outline, anticlockwise. `None` where the measures do not make a kidney: where the hollow or the back's bulge is half
    /// the distance of the ends or more, or where the hollow is so deep and wide that no arc fits between the ends.
    pub fn outline(&self, most: usize) -> Option<Traced> {
        let (x, y) = crate::measure::figure::exact::floats_between(self.ends.0, self.ends.1);
        let long = (x * x + y * y).sqrt();
        let (half, radius) = (long / 2.0, self.radius as f64);
        let (hollow, back) = (self.hollow as f64, self.back as f64);
        let fits = radius > 0.0 && hollow > 0.0 && hollow < half && (0.0..half).contains(&back);
        // All arcs meet the round ends without a corner: their centres are on the kidney's axis of symmetry.
        let far = (half * half + hollow * hollow) / (2.0 * hollow);
        if !fits || far <= radius || hollow >= 2.0 * radius + back {
            return None;
        }
        let front = far - hollow;
        let turn = libm::atan2(front, half);
        let (behind, tilt) = match back > 0.0 {
            true => {
                let far = (half * half + back * back) / (2.0 * back);
                (far - back, libm::atan2(far - back, half))
            }
            false => (0.0, PI / 2.0),
        };
        let arc = |middle, radius, from, sweep| About {
            middle,
            radius,
            from,
            sweep,
        };
        let mut arcs = vec![
            arc((long, 0.0), radius, -tilt, PI - turn + tilt),
            arc((half, front), far - radius, -turn, 2.0 * turn - PI),
            arc((0.0, 0.0), radius, turn, PI + tilt - turn),
        ];
        if back > 0.0 {
            let wide = (half * half + behind * behind).sqrt() + radius;
            arcs.push(arc((half, behind), wide, PI + tilt, PI - 2.0 * tilt));
        }
        Some(self.trace(&arcs, (x / long, y / long), most))
    }

    /// Traces each arc without its last corner, which is the first of the next. A straight back needs both of its ends.
    fn trace(&self, arcs: &[About], along: (f64, f64), most: usize) -> Traced {
        let mut traced = Traced::new();
        let place = |(ahead, left): (f64, f64)| {
            let east = along.0 * ahead - along.1 * left;
            let north = along.1 * ahead + along.0 * left;
            moved(self.ends.0, (east, north))
        };
        for (at, arc) in arcs.iter().enumerate() {
            let half = arc.sweep.abs() / 2.0;
            let steps = steps(arc.radius, half, most / arcs.len());
            let closes = at == 2 && arcs.len() == 3;
            let corners = 0..steps + u32::from(closes);
            let share = |step| f64::from(step) / f64::from(steps);
            let corners = corners.map(|step| place(arc.at(share(step))));
            traced.corners.extend(corners);
            traced.note(arc.radius, half, steps);
            let next = arcs.get(at + 1).or(arcs.first()).filter(|_| !closes);
            let end = next.map_or(arc.at(1.0), |next| next.at(0.0));
            let round = (arc.radius <= WIDEST).then(|| Arc {
                middle: place(arc.middle),
                radius: arc.radius.round() as i64,
                left: arc.sweep > 0.0,
            });
            let ends = (place(arc.at(0.0)), place(end));
            traced.round(ends, place(arc.at(0.5)), round, 2.0 * half > PI);
            if closes && let Some(first) = arcs.first() {
                traced.course(ends.1, place(first.at(0.0)), None);
            }
        }
        traced
    }
}

#[cfg(test)]
#[path = "arc_tests.rs"]
mod tests;
