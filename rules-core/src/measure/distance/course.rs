//! The least distance between outlines with round sides, taken from the arcs themselves.
//!
//! The middle and the radius of an arc are whole nanometres, so the distance from a place to it is a root less a whole
//! number, decided like any other. Only whether two courses meet at all is partly left to floats: with arcs the places in
//! common are no whole numbers. Where the floats cannot say, the answer is "perhaps", and the least distance is 0.

use crate::measure::distance::crossings::{Meeting, meeting};
use crate::measure::distance::{Gap, distance, from_point};
use crate::measure::figure::chain::{Bounds, Chain, Edge};
use crate::measure::figure::exact::{
    Span, Vector, floats_between, from_line, part_way, root, turn,
};
use crate::measure::figure::inside::{Side, side};
use crate::plan::figure::{Arc, Course, Curved, Figure, Form, Point};
use crate::work;

/// Places found in floats are good to this, in nanometres, where courses cross each other at an open angle.
pub(super) const NEAR: f64 = 8.0;

/// More pairs of courses than these are first narrowed down to those near enough.
const MANY: usize = 2_000;

/// The least distance between the forms of two figures, whatever they are widened by.
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

/// The places of an arc of which one lies farthest from something convex, if no end does: where the arc runs along one of its
/// sides, or about one of its corners.
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

/// One form, and its true courses.
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

    /// No farther than this is the other, as the corners have it.
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

    /// A place of another outline, where it lies in this area. Of two that do not meet, either all of one is in the other
    /// or none.
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

/// The nearer of two, and the least that either leaves possible.
pub(super) fn nearer(one: Gap, other: Gap) -> Gap {
    let low = one.low.min(other.low);
    let nearest = if other.high < one.high { other } else { one };
    Gap { low, ..nearest }
}

/// Whether a place that is on no course lies in the area: within the straight lines from end to end, and each arc adds or
/// takes away what lies between it and its own line.
fn curved_holds(curved: &Curved, place: Point) -> bool {
    let ends: Vec<Point> = curved.courses.iter().map(|course| course.from).collect();
    let against_clock = crate::measure::area::signed_area2(&ends) > 0;
    let rounded = |course: &&Course| {
        course
            .arc
            .is_some_and(|arc| beside_line(course, &arc, place))
    };
    let odd = curved.courses.iter().filter(rounded).count() % 2 == 1;
    let on_line = |course: &&Course| edge_of(course).holds(place);
    let within = match side(&ends, place) {
        Side::Inside => true,
        Side::Outside => false,
        // On the line from end to end of an arc: counted as on the arc's side of it, which is out where it stands out.
        Side::On => curved
            .courses
            .iter()
            .find(on_line)
            .and_then(|course| course.arc)
            .is_some_and(|arc| arc.left != against_clock),
    };
    within != odd
}

/// Whether a place lies between an arc and the straight line of its ends, that line included.
fn beside_line(course: &Course, arc: &Arc, place: Point) -> bool {
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

/// A box around a course. No more than half a circle stands out by no more than c² / 4r, c from end to end.
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

/// The least distance between two courses: nothing where they meet; else it is at an end of one of them, or on the line
/// that stands upright on both.
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

/// From a place to a course, exactly.
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
        return Gap::new(less(far, arc.radius), place, on_arc(&arc, ray));
    }
    let end = |end| from_point(place, &Edge { a: end, b: end });
    nearer(end(course.from), end(course.to))
}

/// A length less a whole number, as a distance.
fn less(length: Span, radius: i64) -> Span {
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

/// The place of a circle in that direction from its middle.
pub(crate) fn on_arc(arc: &Arc, ray: Vector) -> Point {
    let (x, y) = ray.floats();
    let share = arc.radius as f64 / (x * x + y * y).sqrt();
    part_way(arc.middle, moved(arc.middle, ray), share)
}

/// Whether an arc has a place in that direction from its middle, ends included.
pub(crate) fn faces(course: &Course, arc: &Arc, ray: Vector) -> bool {
    let (from, to) = rays(course, arc);
    from.cross(ray) >= 0 && ray.cross(to) >= 0
}

/// The directions of an arc's ends from its middle, anticlockwise.
pub(super) fn rays(course: &Course, arc: &Arc) -> (Vector, Vector) {
    let ends = [course.from, course.to].map(|end| Vector::between(arc.middle, end));
    match (arc.left, ends) {
        (true, [from, to]) | (false, [to, from]) => (from, to),
    }
}

/// From an arc to a straight course outside its circle, along the line upright on it.
fn from_edge((course, arc): (&Course, &Arc), edge: Edge) -> Option<Gap> {
    let line = Vector::between(edge.a, edge.b);
    let off = Vector::between(edge.a, arc.middle);
    let (along, squared) = (line.dot(off), line.squared());
    let beside = along > 0 && along.unsigned_abs() < squared;
    let cross = line.cross(off);
    // Upright on the line, away from the middle's side of it.
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
    Some(Gap::new(less(far, arc.radius), on_arc(arc, ray), foot))
}

/// Between two arcs, along the line through both middles: beside each other, or one circle within the other.
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
        ((ray, back), less(far, near.saturating_add(wide)))
    } else if far.high <= near.saturating_sub(wide) {
        ((ray, ray), less(far, near.saturating_sub(wide)))
    } else if far.high <= wide.saturating_sub(near) {
        ((back, back), less(far, wide.saturating_sub(near)))
    } else {
        return None;
    };
    (faces(one.0, one.1, rays.0) && faces(other.0, other.1, rays.1))
        .then(|| Gap::new(apart, on_arc(one.1, rays.0), on_arc(other.1, rays.1)))
}

/// Arcs about one middle are the difference of their radii apart where they face the same way; else their ends decide.
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
