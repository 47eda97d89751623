//! The least distance between outlines with round sides, taken from the arcs themselves.
//!
//! The centre and the radius of an arc are whole nanometres, so the distance from a place to it is a root minus a whole
//! number, which is decided like any other. Only whether two courses meet is partly left to floats, since the points where
//! arcs meet are not whole numbers. Where the floats cannot decide, the answer is "perhaps", and the least distance is 0.

use crate::measure::distance::crossings::{Meeting, meeting};
use crate::measure::distance::{Gap, distance, from_point};
use crate::measure::figure::chain::{Bounds, Chain, Edge};
use crate::measure::figure::exact::{
    Span, Vector, floats_between, from_line, part_way, root, turn,
};
use crate::measure::figure::inside::{Side, side};
use crate::plan::figure::{Arc, Course, Curved, Figure, Form, Point};
use crate::work;

/// The error of places found in floats, in nanometres, where courses do not cross at an acute angle.
pub(super) const NEAR: f64 = 8.0;

/// With more pairs of courses than this, those too far away are left out first.
const MANY: usize = 2_000;

/// The least distance between the forms of two figures, without their spreads.
pub(crate) fn courses_gap(a: &Figure, b: &Figure) -> Gap {
    let mut least: Option<Gap> = None;
    for one in outlines(a) {
        for other in outlines(b) {
            let gap = one.gap(&other);
            least = Some(least.map_or(gap, |least| nearer(least, gap)));
        }
    }
    least.unwrap_or_else(Gap::unknown)
}

/// The places of an arc that may be farthest from something convex, besides its ends: where the arc is parallel to a side, or
/// opposite a corner.
pub(crate) fn outermost<'a>(
    course: &'a Course,
    arc: &'a Arc,
    convex: &'a Form,
) -> impl Iterator<Item = Point> + 'a {
    let rays = Chain::of(convex).edges().flat_map(move |edge| {
        let Vector { x, y } = Vector::between(edge.a, edge.b);
        let upright = [Vector { x: y, y: -x }, Vector { x: -y, y: x }];
        let [one, other] = upright;
        [one, other, Vector::between(edge.b, arc.middle)]
    });
    rays.filter(|ray| ray.squared() > 0 && faces(course, arc, *ray))
        .map(|ray| on_arc(arc, ray))
}

/// One form with its true courses.
struct Outline<'a> {
    form: &'a Form,
    curved: Option<&'a Curved>,
    courses: Vec<(Course, Bounds)>,
}

fn outlines(figure: &Figure) -> Vec<Outline<'_>> {
    let curved = |at| figure.curved.get(at).and_then(Option::as_ref);
    let forms = figure.forms.iter().enumerate();
    forms
        .map(|(at, form)| Outline::of(form, curved(at)))
        .collect()
}

impl<'a> Outline<'a> {
    fn of(form: &'a Form, curved: Option<&'a Curved>) -> Self {
        let courses: Vec<Course> = match curved {
            Some(curved) => curved.courses.clone(),
            None => Chain::of(form).edges().map(straight).collect(),
        };
        Outline {
            form,
            curved,
            courses: courses
                .into_iter()
                .map(|course| (course, bounds(&course)))
                .collect(),
        }
    }

    fn gap(&self, other: &Self) -> Gap {
        let lines = self.between_courses(other);
        if lines.high == 0 {
            return lines;
        }
        let held = self.holds_some(other).or_else(|| other.holds_some(self));
        held.map_or(lines, Gap::touching)
    }

    fn between_courses(&self, other: &Self) -> Gap {
        let pairs = self.courses.len().saturating_mul(other.courses.len());
        work::corners(pairs.min(MANY) * 4 + self.courses.len() + other.courses.len());
        let many = pairs > MANY;
        let reach = if many {
            self.reach(other)
        } else {
            f64::INFINITY
        };
        let (ours, theirs) = (self.near(other, reach), other.near(self, reach));
        let mut least: Option<Gap> = None;
        for (one, around) in ours {
            for (course, bounds) in &theirs {
                let reach = least.map_or(f64::INFINITY, |least| least.high as f64 + 1.0);
                if around.apart(bounds) > reach * reach {
                    continue;
                }
                let gap = course_gap(one, course);
                least = Some(least.map_or(gap, |least| nearer(least, gap)));
            }
        }
        least.unwrap_or_else(Gap::unknown)
    }

    /// An upper bound for the distance to the other, from their corners.
    fn reach(&self, other: &Self) -> f64 {
        let off = |outline: &Self| outline.curved.map_or(0, |curved| curved.off);
        let corners = distance(self.form, other.form).high;
        corners.saturating_add(off(self)).saturating_add(off(other)) as f64 + 4.0
    }

    /// The courses that may be within reach of the other.
    fn near(&self, other: &Self, reach: f64) -> Vec<&(Course, Bounds)> {
        let all = other.courses.iter().map(|(_, bounds)| *bounds);
        let Some(all) = all.reduce(Bounds::join) else {
            return Vec::new();
        };
        let courses = self.courses.iter();
        courses
            .filter(|(_, bounds)| bounds.apart(&all) <= reach * reach)
            .collect()
    }

    /// A place of another outline, if it is in this area. If two outlines do not meet, either all of one is in the other or none.
    fn holds_some(&self, inner: &Self) -> Option<Point> {
        let place = inner.courses.first()?.0.to;
        self.holds(place).then_some(place)
    }

    fn holds(&self, place: Point) -> bool {
        match (self.curved, self.form) {
            (Some(curved), _) => curved_holds(curved, place),
            (None, Form::Ring(ring)) => side(ring, place) != Side::Outside,
            (None, Form::Point(_) | Form::Path(_)) => false,
        }
    }
}

/// The nearer of two distances, with the lesser of both lower bounds.
pub(super) fn nearer(one: Gap, other: Gap) -> Gap {
    let low = one.low.min(other.low);
    let nearest = if other.high < one.high { other } else { one };
    Gap { low, ..nearest }
}

/// Whether a place that is on no course is in the area: the polygon of the courses' ends, to which each arc adds, or from which
/// it takes, the segment between it and its chord.
fn curved_holds(curved: &Curved, place: Point) -> bool {
    let ends: Vec<Point> = curved.courses.iter().map(|course| course.from).collect();
    let against_clock = crate::measure::figure::size::signed_area2(&ends) > 0;
    let rounded = |course: &&Course| {
        course
            .arc
            .is_some_and(|arc| in_segment(course, &arc, place))
    };
    let odd = curved.courses.iter().filter(rounded).count() % 2 == 1;
    let on_line = |course: &&Course| edge_of(course).holds(place);
    let within = match side(&ends, place) {
        Side::Inside => true,
        Side::Outside => false,
        // On the chord of an arc: counts as on the arc's side of the chord, which is outside where the arc bulges out.
        Side::On => curved
            .courses
            .iter()
            .find(on_line)
            .and_then(|course| course.arc)
            .is_some_and(|arc| arc.left != against_clock),
    };
    within != odd
}

/// Whether a place is in the segment between an arc and its chord, the chord included.
fn in_segment(course: &Course, arc: &Arc, place: Point) -> bool {
    let turned = turn(course.from, course.to, place);
    let outward = match arc.left {
        true => turned.is_le(),
        false => turned.is_ge(),
    };
    let reach = u128::from(arc.radius.unsigned_abs());
    outward && Vector::between(arc.middle, place).squared() < reach * reach
}

pub(super) fn straight(edge: Edge) -> Course {
    Course {
        from: edge.a,
        to: edge.b,
        arc: None,
    }
}

pub(super) fn edge_of(course: &Course) -> Edge {
    Edge {
        a: course.from,
        b: course.to,
    }
}

/// A box around a course. An arc of at most half a circle bulges by no more than c² / 4r, where c is its chord.
fn bounds(course: &Course) -> Bounds {
    let around = edge_of(course).bounds();
    let Some(arc) = course.arc else { return around };
    let (x, y) = floats_between(course.from, course.to);
    let by = ((x * x + y * y) / (4.0 * arc.radius as f64)).ceil() as i64 + 4;
    let moved = |at: Point, by: i64| Point {
        x: at.x.saturating_add(by),
        y: at.y.saturating_add(by),
    };
    Bounds {
        low: moved(around.low, -by),
        high: moved(around.high, by),
    }
}

/// The least distance between two courses: 0 where they meet. Otherwise it is at an end of one of them, or along a line that is
/// perpendicular to both.
fn course_gap(one: &Course, other: &Course) -> Gap {
    let meeting = meeting(one, other);
    if let Meeting::At(place) = meeting {
        return Gap::touching(place);
    }
    let ends = [
        to_course(one.from, other),
        to_course(one.to, other),
        to_course(other.from, one).swapped(),
        to_course(other.to, one).swapped(),
    ];
    let upright = match (one.arc, other.arc) {
        (Some(arc), Some(against)) => between_arcs((one, &arc), (other, &against)),
        (Some(arc), None) => from_edge((one, &arc), edge_of(other)),
        (None, Some(arc)) => from_edge((other, &arc), edge_of(one)).map(Gap::swapped),
        (None, None) => None,
    };
    let [first, rest @ ..] = ends;
    let gap = rest.into_iter().chain(upright).fold(first, nearer);
    match meeting {
        Meeting::Perhaps => Gap { low: 0, ..gap },
        Meeting::At(_) | Meeting::Nowhere => gap,
    }
}

/// The distance from a place to a course, exactly.
fn to_course(place: Point, course: &Course) -> Gap {
    let Some(arc) = course.arc else {
        return from_point(place, &edge_of(course));
    };
    let ray = Vector::between(arc.middle, place);
    if ray.squared() == 0 {
        return Gap::new(Span::exactly(arc.radius), place, course.from);
    }
    if faces(course, &arc, ray) {
        let far = root(ray.squared());
        return Gap::new(difference(far, arc.radius), place, on_arc(&arc, ray));
    }
    let end = |end| from_point(place, &Edge { a: end, b: end });
    nearer(end(course.from), end(course.to))
}

/// The difference between a length and a whole number, as a distance.
fn difference(length: Span, radius: i64) -> Span {
    let (low, high) = (
        length.low.saturating_sub(radius),
        length.high.saturating_sub(radius),
    );
    match low >= 0 {
        true => Span { low, high },
        false => Span {
            low: high.saturating_neg(),
            high: low.saturating_neg(),
        },
    }
}

/// The place on a circle in a direction from its centre.
pub(crate) fn on_arc(arc: &Arc, ray: Vector) -> Point {
    let (x, y) = ray.floats();
    let share = arc.radius as f64 / (x * x + y * y).sqrt();
    part_way(arc.middle, moved(arc.middle, ray), share)
}

/// Whether an arc has a place in a direction from its centre, ends included.
pub(crate) fn faces(course: &Course, arc: &Arc, ray: Vector) -> bool {
    let (from, to) = rays(course, arc);
    from.cross(ray) >= 0 && ray.cross(to) >= 0
}

/// The directions of an arc's ends from its centre, anticlockwise.
pub(super) fn rays(course: &Course, arc: &Arc) -> (Vector, Vector) {
    let ends = [course.from, course.to].map(|end| Vector::between(arc.middle, end));
    match (arc.left, ends) {
        (true, [from, to]) | (false, [to, from]) => (from, to),
    }
}

/// The distance from an arc to a straight course outside its circle, along the perpendicular to the course.
fn from_edge((course, arc): (&Course, &Arc), edge: Edge) -> Option<Gap> {
    let line = Vector::between(edge.a, edge.b);
    let off = Vector::between(edge.a, arc.middle);
    let (along, squared) = (line.dot(off), line.squared());
    let beside = along > 0 && along.unsigned_abs() < squared;
    let cross = line.cross(off);
    // Perpendicular to the line, from the centre towards it.
    let ray = match cross > 0 {
        true => Vector {
            x: line.y,
            y: -line.x,
        },
        false => Vector {
            x: -line.y,
            y: line.x,
        },
    };
    if !beside || !faces(course, arc, ray) {
        return None;
    }
    let far = from_line(cross, squared);
    if far.low < arc.radius {
        return None;
    }
    let foot = part_way(edge.a, edge.b, along as f64 / squared as f64);
    Some(Gap::new(
        difference(far, arc.radius),
        on_arc(arc, ray),
        foot,
    ))
}

/// The distance between two arcs along the line through both centres: with the circles side by side, or one within the other.
fn between_arcs(one: (&Course, &Arc), other: (&Course, &Arc)) -> Option<Gap> {
    let ray = Vector::between(one.1.middle, other.1.middle);
    if (ray.x, ray.y) == (0, 0) {
        return concentric(one, other);
    }
    let back = Vector {
        x: -ray.x,
        y: -ray.y,
    };
    let (far, near, wide) = (root(ray.squared()), one.1.radius, other.1.radius);
    let (rays, apart) = if far.low >= near.saturating_add(wide) {
        ((ray, back), difference(far, near.saturating_add(wide)))
    } else if far.high <= near.saturating_sub(wide) {
        ((ray, ray), difference(far, near.saturating_sub(wide)))
    } else if far.high <= wide.saturating_sub(near) {
        ((back, back), difference(far, wide.saturating_sub(near)))
    } else {
        return None;
    };
    (faces(one.0, one.1, rays.0) && faces(other.0, other.1, rays.1))
        .then(|| Gap::new(apart, on_arc(one.1, rays.0), on_arc(other.1, rays.1)))
}

/// The distance between arcs with the same centre: the difference of their radii, where they have a direction in common;
/// otherwise their ends decide.
fn concentric(one: (&Course, &Arc), other: (&Course, &Arc)) -> Option<Gap> {
    let common = |(course, arc): (&Course, &Arc), (against, circle): (&Course, &Arc)| {
        let (from, to) = rays(course, arc);
        [from, to]
            .into_iter()
            .find(|ray| faces(against, circle, *ray))
    };
    let ray = common(one, other).or_else(|| common(other, one))?;
    let apart = one.1.radius.saturating_sub(other.1.radius).saturating_abs();
    Some(Gap::new(
        Span::exactly(apart),
        on_arc(one.1, ray),
        on_arc(other.1, ray),
    ))
}

pub(super) fn moved(from: Point, by: Vector) -> Point {
    Point {
        x: from.x.saturating_add(by.x),
        y: from.y.saturating_add(by.y),
    }
}

#[cfg(test)]
#[path = "course_tests.rs"]
mod tests;
