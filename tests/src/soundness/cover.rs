//! Containment: overlaps, and the area that outlines made of rings cover together, counting each place once.

use rules_core::plan::{Form, Point};

use super::geometry;
use super::number::Real;
use super::world::Drawn;

/// The accuracy of areas in floats, in square nanometres: a square millimetre.
pub const FINE: f64 = 1e12;

/// Whether two outlines share more than a line; `None` where they only touch.
pub fn overlap(a: &Drawn, b: &Drawn) -> Option<bool> {
    let apart = geometry::nearest(a, b).0;
    if apart.compared(Real::whole(0)) == Some(std::cmp::Ordering::Greater) {
        return Some(false);
    }
    let bare = |of: &Drawn| Drawn {
        forms: of.forms.clone(),
        spread: 0,
    };
    let reach = Real::whole(i128::from(a.spread) + i128::from(b.spread));
    let middles = geometry::nearest(&bare(a), &bare(b)).0;
    let deep = middles.compared(reach) == Some(std::cmp::Ordering::Less)
        || a.forms
            .iter()
            .any(|one| b.forms.iter().any(|two| deep(one, two)));
    deep.then_some(true)
}

/// Whether two forms share more than a line, judging by corners and crossings.
fn deep(a: &Form, b: &Form) -> bool {
    let within = |outer: &Form, inner: &Form| match outer {
        Form::Ring(ring) => geometry::corners(inner)
            .iter()
            .any(|corner| geometry::deep_in_ring(ring, *corner)),
        _ => false,
    };
    let (of_a, of_b) = (geometry::edges(a), geometry::edges(b));
    let crossing = of_a
        .iter()
        .any(|one| of_b.iter().any(|two| geometry::cross(*one, *two)));
    let area = matches!(a, Form::Ring(_)) || matches!(b, Form::Ring(_));
    within(a, b) || within(b, a) || area && crossing
}

/// Whether an outline lies wholly within a ring; `None` if it touches the line or comes too close to tell.
pub fn inside(of: &Drawn, ring: &[Point]) -> Option<bool> {
    let line = Drawn {
        forms: vec![Form::Path(
            ring.iter().chain(ring.first()).copied().collect(),
        )],
        spread: 0,
    };
    let bare = Drawn {
        forms: of.forms.clone(),
        spread: 0,
    };
    let to_line = geometry::nearest(&bare, &line).0;
    let all_in = bare
        .forms
        .iter()
        .flat_map(geometry::corners)
        .all(|corner| geometry::in_ring(ring, *corner));
    let clear = to_line.compared(Real::whole(i128::from(of.spread)));
    match (all_in, clear) {
        (true, Some(std::cmp::Ordering::Greater)) => Some(true),
        (true, Some(std::cmp::Ordering::Less)) if of.spread > 0 => Some(false),
        (false, _) if has_corner_out(&bare, ring) => Some(false),
        (_, Some(std::cmp::Ordering::Less)) if of.spread > 0 => Some(false),
        _ if crosses(&bare, ring) => Some(false),
        _ => None,
    }
}

fn has_corner_out(of: &Drawn, ring: &[Point]) -> bool {
    let mut corners = of.forms.iter().flat_map(geometry::corners);
    corners.any(|corner| !geometry::in_ring(ring, *corner))
}

fn crosses(of: &Drawn, ring: &[Point]) -> bool {
    let sides = geometry::edges(&Form::Ring(ring.to_vec()));
    let mut own = of.forms.iter().flat_map(geometry::edges);
    own.any(|edge| sides.iter().any(|side| geometry::cross(edge, *side)))
}

/// A ring as floats.
type Ring = Vec<(f64, f64)>;

/// The number of corners for a circle.
const CORNERS: usize = 64;

/// The rings of outlines. A circle becomes a polygon inside it or, if `around`, outside it.
fn rings(of: &[&Drawn], around: bool) -> Option<Vec<Ring>> {
    let mut all = Vec::new();
    for drawn in of {
        for form in &drawn.forms {
            all.push(match form {
                Form::Ring(points) if drawn.spread == 0 => {
                    points.iter().map(|p| (p.x as f64, p.y as f64)).collect()
                }
                Form::Point(middle) => circle(*middle, drawn.spread as f64, around),
                _ => return None,
            });
        }
    }
    Some(all)
}

fn circle(middle: Point, radius: f64, around: bool) -> Ring {
    let step = std::f64::consts::TAU / CORNERS as f64;
    let far = match around {
        true => radius / libm::cos(step / 2.0),
        false => radius,
    };
    let corner = |at: usize| {
        let angle = step * at as f64;
        let (x, y) = (far * libm::cos(angle), far * libm::sin(angle));
        (middle.x as f64 + x, middle.y as f64 + y)
    };
    (0..CORNERS).map(corner).collect()
}

/// The area that outlines cover together, in square nanometres; with `within`, only the part inside any of some others
/// (or inside none of them). `None` if one of them is not made of rings or, where there are others, of circles.
pub fn area(of: &[&Drawn], within: Option<(&[&Drawn], bool)>) -> Option<Real> {
    let is_round = |drawn: &&Drawn| drawn.spread > 0;
    let Some((zone, inside)) = within else {
        let round = of.iter().any(is_round);
        return (!round)
            .then(|| rings(of, false).map(|own| Real::about(covered(&own, None), FINE)))?;
    };
    if zone.iter().any(is_round) {
        return None;
    }
    if let (false, [Drawn { forms, .. }]) = (inside, zone)
        && let [Form::Ring(zone)] = &forms[..]
        && of
            .iter()
            .all(|drawn| self::inside(drawn, zone) == Some(true))
    {
        return Some(Real::whole(0));
    }
    let zone = rings(zone, false)?;
    let found = |around| Some(covered(&rings(of, around)?, Some((&zone, inside))));
    let (least, most) = (found(false)?, found(true)?);
    Some(Real::about(
        least.midpoint(most),
        (most - least) / 2.0 + FINE,
    ))
}

/// The same for rings.
fn covered(own: &[Ring], within: Option<(&[Ring], bool)>) -> f64 {
    let zone = within.map_or(&[][..], |(zone, _)| zone);
    let all: Vec<&Ring> = own.iter().chain(zone).collect();
    let mut cuts = breaks(&all);
    cuts.sort_by(f64::total_cmp);
    cuts.dedup();
    let mut sum = 0.0;
    for pair in cuts.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        let x = from.midpoint(to);
        let covered = spans(own, x);
        let shared = length(&both(&covered, &spans(zone, x)));
        let long = match within {
            None => length(&covered),
            Some((_, true)) => shared,
            Some((_, false)) => length(&covered) - shared,
        };
        sum += long * (to - from);
    }
    sum
}

fn sides(ring: &Ring) -> impl Iterator<Item = ((f64, f64), (f64, f64))> + '_ {
    let next = ring.iter().copied().cycle().skip(1);
    ring.iter().copied().zip(next)
}

/// The x coordinates where the cross-section changes: at each corner, and wherever two sides cross.
fn breaks(all: &[&Ring]) -> Vec<f64> {
    let mut cuts: Vec<f64> = all
        .iter()
        .flat_map(|ring| ring.iter().map(|p| p.0))
        .collect();
    let sides: Vec<_> = all.iter().flat_map(|ring| sides(ring)).collect();
    for (place, (a, b)) in sides.iter().enumerate() {
        for (c, d) in &sides[place + 1..] {
            let (u, v) = ((b.0 - a.0, b.1 - a.1), (d.0 - c.0, d.1 - c.1));
            let across = u.0 * v.1 - u.1 * v.0;
            if across == 0.0 {
                continue;
            }
            let way = (c.0 - a.0, c.1 - a.1);
            let share = (way.0 * v.1 - way.1 * v.0) / across;
            let other = (way.0 * u.1 - way.1 * u.0) / across;
            if (0.0..=1.0).contains(&share) && (0.0..=1.0).contains(&other) {
                cuts.push(a.0 + share * u.0);
            }
        }
    }
    cuts
}

/// The spans of the line at `x` that rings cover, sorted and without overlaps.
fn spans(rings: &[Ring], x: f64) -> Vec<(f64, f64)> {
    let mut all = Vec::new();
    for ring in rings {
        let mut at: Vec<f64> = sides(ring)
            .filter(|(a, b)| (a.0 < x) != (b.0 < x))
            .map(|(a, b)| a.1 + (b.1 - a.1) * (x - a.0) / (b.0 - a.0))
            .collect();
        at.sort_by(f64::total_cmp);
        all.extend(at.chunks_exact(2).map(|pair| (pair[0], pair[1])));
    }
    all.sort_by(|a: &(f64, f64), b| a.0.total_cmp(&b.0));
    let mut joined: Vec<(f64, f64)> = Vec::new();
    for (from, to) in all {
        match joined.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(to),
            _ => joined.push((from, to)),
        }
    }
    joined
}

fn both(a: &[(f64, f64)], b: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let pairs = a.iter().flat_map(|one| b.iter().map(move |two| (one, two)));
    pairs
        .map(|(one, two)| (one.0.max(two.0), one.1.min(two.1)))
        .filter(|(from, to)| from < to)
        .collect()
}

fn length(spans: &[(f64, f64)]) -> f64 {
    spans.iter().map(|(from, to)| to - from).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    const M: i64 = 1_000_000_000;

    fn ring(corners: &[(i64, i64)]) -> Drawn {
        let points = corners.iter().map(|&(x, y)| Point { x: x * M, y: y * M });
        Drawn {
            forms: vec![Form::Ring(points.collect())],
            spread: 0,
        }
    }

    fn disc(x: i64, y: i64, radius: i64) -> Drawn {
        Drawn {
            forms: vec![Form::Point(Point { x: x * M, y: y * M })],
            spread: radius * M,
        }
    }

    const SQUARE: [(i64, i64); 4] = [(0, 0), (10, 0), (10, 10), (0, 10)];

    #[test]
    fn two_squares_that_share_a_quarter_cover_seven_quarters() {
        let (one, two) = (ring(&SQUARE), ring(&[(5, 5), (15, 5), (15, 15), (5, 15)]));
        let near = |found: Option<Real>, square_metres: i128| {
            let wanted = Real::whole(square_metres * i128::from(M).pow(2));
            assert!(found.expect("rings").near(wanted, 0), "{found:?}");
        };
        near(area(&[&one, &two], None), 175);
        near(area(&[&one], Some((&[&two], true))), 25);
        near(area(&[&one], Some((&[&two], false))), 75);
        near(area(&[&one, &one], None), 100);
        // A triangle across the square: half of 10 by 10.
        near(
            area(&[&ring(&[(0, 0), (20, 0), (0, 20)])], Some((&[&one], true))),
            100,
        );
        near(
            area(&[&ring(&[(0, 0), (10, 0), (0, 10)])], Some((&[&one], true))),
            50,
        );
        assert_eq!(area(&[&disc(0, 0, 1)], None), None);
    }

    #[test]
    fn of_a_circle_half_lies_on_the_other_side_of_a_line_through_its_middle() {
        let square = ring(&SQUARE);
        let out = |of: &Drawn| area(&[of], Some((&[&square], false))).expect("a circle");
        let half = std::f64::consts::FRAC_PI_2 * 4e18;
        assert!(out(&disc(0, 5, 2)).near(Real::about(half, 1e16), 0));
        assert_eq!(out(&disc(5, 5, 2)), Real::whole(0));
        assert_eq!(
            out(&disc(1, 5, 2)).compared(Real::whole(0)),
            Some(std::cmp::Ordering::Greater)
        );
    }

    #[test]
    fn touching_is_neither_in_nor_out() {
        let square = ring(&SQUARE);
        assert_eq!(overlap(&square, &ring(&[(10, 0), (12, 0), (12, 5)])), None);
        assert_eq!(
            overlap(&square, &ring(&[(9, 1), (12, 1), (12, 5)])),
            Some(true)
        );
        assert_eq!(
            overlap(&square, &ring(&[(11, 0), (12, 0), (12, 5)])),
            Some(false)
        );
        assert_eq!(overlap(&square, &disc(12, 5, 2)), None);
        assert_eq!(overlap(&square, &disc(12, 5, 3)), Some(true));
        assert_eq!(overlap(&square, &disc(5, 5, 1)), Some(true));
        let Form::Ring(corners) = &square.forms[0] else {
            panic!("a ring")
        };
        assert_eq!(inside(&disc(5, 5, 4), corners), Some(true));
        assert_eq!(inside(&disc(5, 5, 5), corners), None);
        assert_eq!(inside(&disc(5, 5, 6), corners), Some(false));
        assert_eq!(
            inside(&ring(&[(1, 1), (2, 1), (2, 2)]), corners),
            Some(true)
        );
        assert_eq!(inside(&ring(&[(0, 0), (2, 1), (2, 2)]), corners), None);
        assert_eq!(
            inside(&ring(&[(1, 1), (12, 1), (2, 2)]), corners),
            Some(false)
        );
    }
}
