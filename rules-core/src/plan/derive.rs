//! Outlines worked out from other outlines: so far outward, so far inward.

use super::valid;
use super::{Form, Point};

/// How the corners of an outline that lies further out are made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Corners {
    /// Every point of it is equally far from the outline inside it.
    Round,
    /// The sides are made longer until they meet.
    Square,
}

/// Forms and their spread, as in a [`Figure`](super::Figure).
pub type Drawn = (Vec<Form>, i64);

/// Where the angle between two sides is so sharp that a square corner would lie more than ten times as far out.
const SHARPEST: f64 = 0.02;

/// The outline that lies so far outside.
///
/// Square corners change only what has corners: a circle, or a rectangle with rounded corners, has none.
///
/// # Errors
/// A sentence, where the sides would cross or there is no area to begin from.
pub fn outward((forms, spread): &Drawn, by: i64, corners: Corners) -> Result<Drawn, &'static str> {
    if corners == Corners::Round || *spread > 0 {
        return Ok((forms.clone(), spread.saturating_add(by)));
    }
    let moved: Result<Vec<_>, _> = forms.iter().map(|form| ring_outward(form, by)).collect();
    Ok((moved?, 0))
}

/// The outline that lies so far inside: only of one form without hollows.
///
/// # Errors
/// A sentence, where the form has hollows or nothing would be left of it.
pub fn inward((forms, spread): &Drawn, by: i64) -> Result<Drawn, &'static str> {
    let [form] = forms.as_slice() else {
        return Err("It has several parts, so that the outline inside it has to be drawn.");
    };
    if !is_convex(form) {
        return Err("It has hollows, so that the outline inside it has to be drawn.");
    }
    if by <= *spread {
        return Ok((forms.clone(), spread - by));
    }
    let Form::Ring(ring) = form else {
        return Err("It is too narrow: nothing would be left inside.");
    };
    let moved = mitred(ring, spread - by).ok_or("Nothing would be left inside.")?;
    Ok((vec![Form::Ring(moved)], 0))
}

fn ring_outward(form: &Form, by: i64) -> Result<Form, &'static str> {
    let Form::Ring(ring) = form else {
        return Err("A line or a point has no square corners: write `corners: round`.");
    };
    let moved = mitred(ring, by).filter(|moved| valid::crossing(moved).is_none());
    moved
        .map(Form::Ring)
        .ok_or("Its sides would cross, so that the outline has to be drawn.")
}

/// Every side of a ring moved so far outward (inward where negative), the corners where the moved sides meet.
///
/// `None` where a side would turn round, or a corner is too sharp.
fn mitred(ring: &[Point], by: i64) -> Option<Vec<Point>> {
    let before = ring.iter().cycle().skip(ring.len().checked_sub(1)?);
    let after = ring.iter().cycle().skip(1);
    let outside = if valid::area2(ring) > 0 {
        by
    } else {
        by.checked_neg()?
    };
    let corners = before.zip(ring).zip(after);
    let moved: Option<Vec<_>> = corners
        .map(|((before, at), after)| corner(*before, *at, *after, outside))
        .collect();
    moved.filter(|moved| keeps_its_sides(ring, moved))
}

/// Where two sides meet that are both moved to their right.
fn corner(before: Point, at: Point, after: Point, by: i64) -> Option<Point> {
    let (a, b) = (right_of(before, at)?, right_of(at, after)?);
    let sharp = 1.0 + a.0 * b.0 + a.1 * b.1;
    if sharp < SHARPEST {
        return None;
    }
    let reach = by as f64 / sharp;
    Some(Point {
        x: at.x.checked_add(whole((a.0 + b.0) * reach))?,
        y: at.y.checked_add(whole((a.1 + b.1) * reach))?,
    })
}

/// The direction square to the right of a side, one long.
fn right_of(from: Point, to: Point) -> Option<(f64, f64)> {
    let (x, y) = ((to.x - from.x) as f64, (to.y - from.y) as f64);
    let length = (x * x + y * y).sqrt();
    (length > 0.0).then(|| (y / length, -x / length))
}

/// A number of nanometres, rounded to the nearest whole one.
#[expect(
    clippy::cast_possible_truncation,
    reason = "within 20 km of the origin, and a cast beyond stops at the end"
)]
pub(super) fn whole(nanometres: f64) -> i64 {
    nanometres.round() as i64
}

/// Whether each side still goes the way it went.
fn keeps_its_sides(ring: &[Point], moved: &[Point]) -> bool {
    valid::edges(ring)
        .zip(valid::edges(moved))
        .all(|((a, b), (c, d))| {
            let (x, y) = (i128::from(b.x - a.x), i128::from(b.y - a.y));
            x * i128::from(d.x - c.x) + y * i128::from(d.y - c.y) > 0
        })
}

fn is_convex(form: &Form) -> bool {
    match form {
        Form::Point(_) => true,
        Form::Path(points) => points.len() == 2,
        Form::Ring(ring) => {
            let next = ring.iter().cycle().skip(1);
            let after = ring.iter().cycle().skip(2);
            let corners = ring.iter().zip(next).zip(after);
            let turns = corners.map(|((a, b), c)| valid::turn(*a, *b, *c).signum());
            let (mut left, mut right) = (false, false);
            turns.for_each(|turn| {
                left |= turn > 0;
                right |= turn < 0;
            });
            left != right
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const M: i64 = 1_000_000_000;

    fn square(side: i64) -> Drawn {
        let corner = |x, y| Point { x, y };
        let ring = vec![
            corner(0, 0),
            corner(side, 0),
            corner(side, side),
            corner(0, side),
        ];
        (vec![Form::Ring(ring)], 0)
    }

    fn area2(drawn: &Drawn) -> i128 {
        match &drawn.0[0] {
            Form::Ring(ring) => valid::area2(ring).abs(),
            _ => 0,
        }
    }

    #[test]
    fn square_corners_lie_further_out_than_round_ones() {
        let out = outward(&square(4 * M), M, Corners::Square).unwrap();
        assert_eq!((area2(&out), out.1), (2 * 36 * i128::from(M).pow(2), 0));
        let round = outward(&square(4 * M), M, Corners::Round).unwrap();
        assert_eq!(round, (square(4 * M).0, M));
    }

    #[test]
    fn the_direction_of_drawing_does_not_matter() {
        let (mut forms, spread) = square(4 * M);
        if let Form::Ring(ring) = &mut forms[0] {
            ring.reverse();
        }
        let out = outward(&(forms, spread), M, Corners::Square).unwrap();
        assert_eq!(area2(&out), 2 * 36 * i128::from(M).pow(2));
    }

    #[test]
    fn inward_undoes_outward() {
        let out = outward(&square(4 * M), M, Corners::Square).unwrap();
        assert_eq!(inward(&out, M).unwrap(), square(4 * M));
        let round = outward(&square(4 * M), M, Corners::Round).unwrap();
        assert_eq!(inward(&round, M).unwrap(), square(4 * M));
        assert!(inward(&square(4 * M), 2 * M).is_err());
    }

    /// A corner of 60 degrees: the mitre is by / sin 30 degrees = 2 by (plane trigonometry).
    #[test]
    fn a_sharp_corner_reaches_further() {
        let tip = corner(
            Point {
                x: -3 * M,
                y: 5_196_152_423,
            },
            Point { x: 0, y: 0 },
            Point {
                x: 3 * M,
                y: 5_196_152_423,
            },
            M,
        );
        let tip = tip.unwrap();
        assert!(tip.x == 0 && (tip.y + 2 * M).abs() <= 2, "{tip:?}");
    }

    #[test]
    fn hollows_and_narrow_places_are_refused() {
        let at = |x, y| Point { x: x * M, y: y * M };
        let hook = vec![
            at(0, 0),
            at(6, 0),
            at(6, 6),
            at(4, 6),
            at(4, 2),
            at(2, 2),
            at(2, 6),
            at(0, 6),
        ];
        let hook = (vec![Form::Ring(hook)], 0);
        assert!(inward(&hook, M / 10).is_err());
        assert!(outward(&hook, M / 2, Corners::Square).is_ok());
        assert!(outward(&hook, 2 * M, Corners::Square).is_err());
        assert!(outward(&(vec![Form::Point(at(0, 0))], 0), M, Corners::Square).is_err());
    }
}
