use super::*;
use crate::measure::figure::random::Dice;
use crate::measure::{Kidney, Traced, figure_gap};

const M: i64 = 1_000_000_000;

fn at(x: i64, y: i64) -> Point {
    Point { x, y }
}

/// A ring of corners, each with the bulge to the right of the side after it.
fn ring(corners: &[(Point, i64)]) -> Figure {
    let mut traced = Traced::new();
    let next = corners.iter().cycle().skip(1);
    for ((from, rise), (to, _)) in corners.iter().zip(next) {
        traced.bulge((*from, *to), *rise, 400);
    }
    drawn(traced)
}

/// A random ring whose sides bulge out or in by up to a fifth of their length, and its corners and bulges.
fn any_ring(dice: &mut Dice) -> (Figure, Vec<(Point, i64)>) {
    let corners = dice.ring(5 * M);
    let ends = corners.iter().zip(corners.iter().cycle().skip(1));
    let sides: Vec<(Point, i64)> = ends
        .map(|(from, to)| {
            let long = (Vector::between(*from, *to).squared() as f64).sqrt() as i64;
            (*from, dice.from(-long / 5, long / 5))
        })
        .collect();
    (ring(&sides), sides)
}

fn drawn(traced: Traced) -> Figure {
    let off = traced.off;
    let (form, curved) = traced.area();
    Figure {
        curved: vec![curved],
        ..Figure::new(vec![form], 0, Some(off))
    }
}

fn plain(form: Form) -> Figure {
    Figure::new(vec![form], 0, Some(0))
}

/// A side 8 m long that bulges by 1 m in the middle: its radius is (4² + 1²) / 2 = 8.5 m.
fn bay() -> Figure {
    ring(&[
        (at(0, 0), 0),
        (at(8 * M, 0), 0),
        (at(8 * M, 4 * M), M),
        (at(0, 4 * M), 0),
    ])
}

#[test]
fn an_arc_is_an_arc_and_not_its_corners() {
    let line = |y| plain(Form::Path(vec![at(-50 * M, y), at(50 * M, y)]));
    let place = |x, y| plain(Form::Point(at(x, y)));
    // To the top of the arc: exactly 3 m, and a nanometre less and more.
    for by in [-1, 0, 1] {
        let gap = figure_gap(&bay(), &line(8 * M + by));
        assert_eq!(gap.span(), Span::exactly(3 * M + by));
        assert_eq!((gap.from, gap.to.y), (at(4 * M, 5 * M), 8 * M + by));
    }
    // The arc's centre is at (4, -3.5) m. By hand, with a 3-4-5 triangle.
    let beside = figure_gap(&bay(), &place(4 * M + 6 * M, -M * 7 / 2 + 8 * M + 4 * M));
    let far = (36.0_f64 + 144.0).sqrt() - 8.5;
    assert!((beside.low as f64 / 1e9 - far).abs() < 2e-9, "{beside:?}");
    // Within, on the arc, and a nanometre off it.
    assert_eq!(figure_gap(&bay(), &place(4 * M, 4 * M + M / 2)).high, 0);
    assert_eq!(figure_gap(&bay(), &place(4 * M, 5 * M)).high, 0);
    assert_eq!(
        figure_gap(&bay(), &place(4 * M, 5 * M + 1)).span(),
        Span::exactly(1)
    );
    assert_eq!(figure_gap(&bay(), &line(5 * M)).high, 0, "it touches");
    assert_eq!(figure_gap(&bay(), &line(5 * M - 1)).high, 0);
    // On the chord of the arc, which is not a side.
    assert_eq!(figure_gap(&bay(), &place(4 * M, 4 * M)).high, 0);
    let dented = ring(&[
        (at(0, 0), 0),
        (at(8 * M, 0), 0),
        (at(8 * M, 4 * M), -M),
        (at(0, 4 * M), 0),
    ]);
    let inside = figure_gap(&dented, &place(4 * M, 4 * M));
    assert_eq!(
        inside.span(),
        Span::exactly(M),
        "the dent is not of the pool"
    );
}

/// Ends of radius 2 m about (0, 0) and (4, 0) m, dented by 0.5 m: a radius of 2.25 m about (2, 3.75) m.
#[test]
fn a_kidney_is_exact() {
    let kidney = Kidney {
        ends: (at(0, 0), at(4 * M, 0)),
        radius: 2 * M,
        hollow: M / 2,
        back: 0,
    };
    let figure = drawn(kidney.outline(1000).unwrap());
    let gap = |x, y| figure_gap(&figure, &plain(Form::Point(at(x, y)))).span();
    // 3 m west and 4 m south of an end's centre: 5 - 2.
    assert_eq!(gap(-3 * M, -4 * M), Span::exactly(3 * M));
    assert_eq!(gap(2 * M, M * 5 / 2), Span::exactly(M), "from the waist");
    assert_eq!(
        gap(2 * M, M * 15 / 4),
        Span::exactly(M * 9 / 4),
        "all round the dent's middle"
    );
    assert_eq!(
        gap(2 * M, -3 * M),
        Span::exactly(M),
        "from the straight back"
    );
    assert_eq!(gap(2 * M, M), Span::exactly(0));
    let wire = plain(Form::Path(vec![at(-2 * M - 7, -M), at(-2 * M - 7, M)]));
    assert_eq!(figure_gap(&figure, &wire).span(), Span::exactly(7));
    // Widened by 300 mm with round corners.
    let coping = Figure {
        spread: 300_000_000,
        ..figure.clone()
    };
    let gap = figure_gap(&coping, &plain(Form::Point(at(-3 * M, -4 * M))));
    assert_eq!(gap.span(), Span::exactly(2_700_000_000));
}

/// Two round pools of four arcs each are circles: their distance is that of their centres minus both radii.
#[test]
fn arcs_against_arcs() {
    let disc = |x: i64, y: i64, r: i64| {
        let corner = |dx: i64, dy: i64| at(x + dx * r, y + dy * r);
        let arc = |from: Point, to: Point| Course {
            from,
            to,
            arc: Some(Arc {
                middle: at(x, y),
                radius: r,
                left: true,
            }),
        };
        let [e, n, w, s] = [corner(1, 0), corner(0, 1), corner(-1, 0), corner(0, -1)];
        Figure {
            curved: vec![Some(Curved {
                courses: vec![arc(e, n), arc(n, w), arc(w, s), arc(s, e)],
                off: 0,
            })],
            ..plain(Form::Ring(vec![e, n, w, s]))
        }
    };
    let gap = |a: &Figure, b: &Figure| figure_gap(a, b).span();
    let pool = disc(0, 0, 2 * M);
    assert_eq!(gap(&pool, &disc(3 * M, 4 * M, 2 * M)), Span::exactly(M));
    assert_eq!(
        gap(&pool, &disc(3 * M, 4 * M, 3 * M)),
        Span::exactly(0),
        "they touch"
    );
    assert_eq!(
        gap(&pool, &disc(3 * M, 4 * M, 3 * M + 1)),
        Span::exactly(0),
        "they cross"
    );
    assert_eq!(gap(&pool, &disc(3 * M, 4 * M, 3 * M - 1)), Span::exactly(1));
    assert_eq!(
        gap(&pool, &disc(0, M / 2, M)),
        Span::exactly(0),
        "one holds the other"
    );
    // As areas the one contains the other; as lines alone they are half a metre apart.
    let lines = |a: &Figure, b: &Figure| outlines(a)[0].between_courses(&outlines(b)[0]).span();
    assert_eq!(lines(&pool, &disc(0, M / 2, M)), Span::exactly(M / 2));
    assert_eq!(lines(&disc(0, M / 2, M), &pool), Span::exactly(M / 2));
    assert_eq!(
        lines(&pool, &disc(0, 0, M)),
        Span::exactly(M),
        "about one middle"
    );
}

/// A place along a course in floats, in metres.
fn walked(course: &Course, share: f64) -> (f64, f64) {
    let f = |p: Point| (p.x as f64, p.y as f64);
    let (a, b) = (f(course.from), f(course.to));
    let Some(arc) = course.arc else {
        return (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share);
    };
    let (m, r) = (f(arc.middle), arc.radius as f64);
    let angle = |p: (f64, f64)| libm::atan2(p.1 - m.1, p.0 - m.0);
    let whole = 2.0 * std::f64::consts::PI;
    let mut sweep = (angle(b) - angle(a)).rem_euclid(whole);
    if !arc.left {
        sweep -= whole;
    }
    let turned = angle(a) + sweep * share;
    (m.0 + r * libm::cos(turned), m.1 + r * libm::sin(turned))
}

fn apart(p: (f64, f64), q: (f64, f64)) -> f64 {
    ((p.0 - q.0) * (p.0 - q.0) + (p.1 - q.1) * (p.1 - q.1)).sqrt()
}

/// The least distance of two courses, searched along both in ever smaller steps.
fn searched(one: &Course, other: &Course) -> f64 {
    let distance = |s: f64, t: f64| apart(walked(one, s), walked(other, t));
    let (mut best, mut at) = (f64::INFINITY, (0.0, 0.0));
    let mut step = 1.0 / 24.0;
    let look = |s: f64, t: f64, best: &mut f64, at: &mut (f64, f64)| {
        let (s, t) = (s.clamp(0.0, 1.0), t.clamp(0.0, 1.0));
        let far = distance(s, t);
        if far < *best {
            (*best, *at) = (far, (s, t));
        }
    };
    for i in 0..=24 {
        for j in 0..=24 {
            look(f64::from(i) * step, f64::from(j) * step, &mut best, &mut at);
        }
    }
    while step > 1e-13 {
        let before = at;
        for i in -2..=2 {
            for j in -2..=2 {
                let (s, t) = (
                    before.0 + f64::from(i) * step,
                    before.1 + f64::from(j) * step,
                );
                look(s, t, &mut best, &mut at);
            }
        }
        if at == before {
            step /= 2.0;
        }
    }
    best
}

/// 2,000 pairs of random courses: never farther than a search along both finds, and equal where the search ends well.
#[test]
fn courses_are_as_far_apart_as_a_search_finds() {
    let mut dice = Dice::new(4711);
    let (mut met, mut near, mut perhaps) = (0, 0, 0);
    for _ in 0..2_000 {
        let mut course = || {
            let (from, to) = (dice.point(5 * M), dice.point(5 * M));
            let long = Vector::between(from, to).squared() as f64;
            let most = (long.sqrt() * 0.49) as i64;
            let rise = dice.from(-most, most);
            let mut traced = Traced::new();
            traced.bulge((from, to), if dice.from(0, 3) == 0 { 0 } else { rise }, 9);
            traced.bulge((to, from), 1_000_000, 9);
            traced.area().1.unwrap().courses[0]
        };
        let (one, other) = (course(), course());
        let gap = course_gap(&one, &other);
        let found = searched(&one, &other);
        let box_apart = bounds(&one).apart(&bounds(&other)).sqrt();
        assert!(box_apart <= found + 1.0, "{box_apart} {found}");
        assert!(
            gap.low as f64 <= found + 2.0,
            "{gap:?} {found} {one:?} {other:?}"
        );
        // The search may end in a local minimum, but it never gives less than the true distance.
        near += i32::from(gap.high as f64 >= found - 2.0 && gap.high > 0);
        met += i32::from(gap.high == 0);
        perhaps += i32::from(gap.low < gap.high - 1);
        let on = |place: Point, course: &Course| to_course(place, course).high <= 2;
        assert!(on(gap.from, &one) || perhaps > 0, "{gap:?}");
        assert!(on(gap.to, &other) || perhaps > 0, "{gap:?}");
    }
    assert!(met > 300 && near > 900, "{met} {near}");
    assert!(met + near > 1_980 && perhaps < 5, "{met} {near} {perhaps}");
}

/// Whether places are within, against a fine polygon, except too near to its line.
#[test]
fn a_curved_area_holds_what_a_fine_polygon_holds() {
    let mut dice = Dice::new(99);
    let (mut inside, mut tried) = (0, 0);
    while tried < 2_000 {
        let (figure, sides) = any_ring(&mut dice);
        let Form::Ring(fine) = &figure.forms[0] else {
            panic!()
        };
        if !crate::measure::outline::valid::is_sound(fine) {
            continue;
        }
        let curved = figure.curved[0].as_ref().unwrap();
        for _ in 0..10 {
            let place = dice.point(6 * M);
            let line = crate::measure::distance::to_line(place, Chain::ring(fine));
            if line.low <= curved.off {
                continue;
            }
            let within = side(fine, place) == Side::Inside;
            assert_eq!(curved_holds(curved, place), within, "{place:?} {sides:?}");
            inside += i32::from(within);
            tried += 1;
        }
    }
    assert!(inside > 100, "{inside}");
}

/// The farthest place of a round side, exactly; and against the corners for 2,000 random pools.
#[test]
fn the_farthest_place_of_an_arc() {
    use crate::measure::{farthest, farthest_of_arcs};
    // From a place 20 m south, through the centre of the bay's circle and 8.5 m on.
    let place = plain(Form::Point(at(4 * M, -M * 47 / 2)));
    let gap = farthest_of_arcs(&bay(), &place).unwrap();
    assert!(gap.low <= 28_500_000_000 && gap.high >= 28_500_000_000 && gap.high - gap.low <= 5);
    assert_eq!(gap.from, at(4 * M, 5 * M));
    let mut dice = Dice::new(5);
    let mut tried = 0;
    while tried < 2_000 {
        let (figure, sides) = any_ring(&mut dice);
        let b = match dice.from(0, 2) {
            0 => plain(Form::Point(dice.point(9 * M))),
            1 => plain(Form::Path(vec![dice.point(9 * M), dice.point(9 * M)])),
            _ => plain(Form::Ring(vec![
                at(9 * M, 0),
                at(12 * M, 0),
                at(12 * M, 4 * M),
            ])),
        };
        let Some(gap) = farthest_of_arcs(&figure, &b) else {
            continue;
        };
        let corners = farthest(&figure, &b);
        let off = figure.curved[0].as_ref().unwrap().off;
        assert!(
            corners.low - off <= gap.high && gap.low <= corners.high + off,
            "{gap:?} {corners:?} {sides:?} {b:?}"
        );
        assert!(
            gap.low >= corners.low - 8,
            "no nearer than a corner of it: {gap:?} {corners:?} {sides:?} {b:?}"
        );
        assert!(gap.high - gap.low <= 5, "{gap:?}");
        tried += 1;
    }
}

/// With many courses only those within reach are compared; the distance is the same as over all pairs.
#[test]
fn the_distance_of_many_courses_is_that_of_all_pairs() {
    let mut dice = Dice::new(31);
    let mut bumpy = |x: i64, y: i64| {
        let corners: Vec<(Point, i64)> = (0..90)
            .map(|step| {
                let angle = f64::from(step) / 90.0 * 2.0 * std::f64::consts::PI;
                let far = 8.0 + dice.from(0, 900) as f64 / 1000.0;
                let (cos, sin) = (libm::cos(angle) * far, libm::sin(angle) * far);
                let metres = |length: f64| (length * 1e9) as i64;
                (
                    at(x + metres(cos), y + metres(sin)),
                    dice.from(-40, 40) * M / 1000,
                )
            })
            .collect();
        ring(&corners)
    };
    for away in [15, 16, 17, 18, 25, 60] {
        let (a, b) = (bumpy(0, 0), bumpy(away * M, 3 * M));
        let (one, other) = (&outlines(&a)[0], &outlines(&b)[0]);
        assert!(one.courses.len() * other.courses.len() > MANY);
        let each = one.courses.iter().flat_map(|(course, _)| {
            let others = other.courses.iter();
            others.map(move |(against, _)| course_gap(course, against))
        });
        let all = each.reduce(nearer).unwrap();
        assert_eq!(one.between_courses(other).span(), all.span(), "{away}");
        let looked_at = one.near(other, one.reach(other)).len();
        assert!(looked_at < 60 || all.high == 0, "{away}: {looked_at}");
    }
}
