use super::*;
use crate::measure::figure::direction::distance;
use crate::measure::figure::random::Dice;

const M: i64 = 1_000_000_000;
const MM: i64 = 1_000_000;

fn points(points: &[(i64, i64)]) -> Vec<Point> {
    points
        .iter()
        .map(|(x, y)| Point { x: x * M, y: y * M })
        .collect()
}

fn figure(form: Form) -> Figure {
    Figure::new(vec![form], 0, Some(0))
}

fn spot(at: (i64, i64)) -> Figure {
    figure(Form::Point(points(&[at])[0]))
}

fn between(
    from: &Figure,
    to: &Figure,
    off: i64,
    walls: &[(Form, i64)],
) -> (Option<i64>, Option<i64>) {
    let figures: Vec<(Figure, i64)> = walls
        .iter()
        .map(|(form, off)| (figure(form.clone()), *off))
        .collect();
    let hurdles: Vec<Hurdle> = figures
        .iter()
        .map(|(figure, off)| Hurdle {
            figure,
            off: *off,
            own: [false; 2],
        })
        .collect();
    let (from, to) = (Stand { figure: from, off }, Stand { figure: to, off });
    let solids: Vec<Hurdle> = hurdles
        .iter()
        .filter(|hurdle| matches!(hurdle.figure.forms[0], Form::Ring(_)))
        .copied()
        .collect();
    (
        least_way(&from, &to, &solids),
        way_round(&from, &to, &hurdles).map(|walk| walk.length),
    )
}

fn length(from: (i64, i64), to: (i64, i64), walls: &[Form]) -> (Option<i64>, Option<i64>) {
    let walls: Vec<(Form, i64)> = walls.iter().map(|wall| (wall.clone(), 0)).collect();
    between(&spot(from), &spot(to), 0, &walls)
}

/// No more than 0.1 mm above.
fn near(found: Option<i64>, metres: i64) {
    let over = found.unwrap() - metres * M;
    assert!((-100_000..100_000).contains(&over), "{found:?}");
}

/// Round a wall of 4 m across the route: 5 + 5 m (3-4-5) instead of 6 m; round a house 5 + 3 + 5 m.
#[test]
fn round_a_wall_by_hand() {
    let wall = Form::Path(points(&[(3, -9), (3, 4)]));
    assert_eq!(length((0, 0), (6, 0), &[]), (None, Some(6 * M)));
    near(length((0, 0), (6, 0), &[wall]).1, 10);
    let house = Form::Ring(points(&[(3, -9), (6, -9), (6, 4), (3, 4)]));
    let (low, high) = length((0, 0), (9, 0), std::slice::from_ref(&house));
    near(low, 13);
    near(high, 13);
    assert!(low <= Some(13 * M) && high >= Some(13 * M));
    // Along its edge.
    assert_eq!(length((0, 4), (9, 4), &[house]), (None, Some(9 * M)));
    let ring = Form::Path(points(&[(-2, -2), (2, -2), (2, 2), (-2, 2), (-2, -2)]));
    assert_eq!(length((0, 0), (6, 0), &[ring]).1, None, "fenced in");
    let hut = [Form::Ring(points(&[(-2, -2), (2, -2), (2, 2)]))];
    assert_eq!(length((1, 0), (6, 0), &hut), (None, None), "walled in");
}

/// To a pool 2 m wide behind the house of the example: 5 + 3 m to the far corner at (6, 4), then 3-4-5 to its corner at
/// (9, 0). And to a round pool with its middle there and a radius of 2 m: 2 m less.
#[test]
fn a_route_ends_at_the_nearest_place_of_an_outline() {
    let house = [(Form::Ring(points(&[(3, -9), (6, -9), (6, 4), (3, 4)])), 0)];
    let pool = figure(Form::Ring(points(&[(9, 0), (9, -3), (14, -3), (14, 0)])));
    let (low, high) = between(&spot((0, 0)), &pool, 0, &house);
    near(low, 13);
    near(high, 13);
    let round = Figure {
        spread: 2 * M,
        ..spot((9, 0))
    };
    let (low, high) = between(&spot((0, 0)), &round, 0, &house);
    near(low, 11);
    near(high, 11);
}

/// Ends and house each off by 100 mm. The least route is in the world where the house is smaller all round: it is less than
/// 0.8 m shorter than 5 + 3 + 5 m. The route that is always free is less than 1 m longer.
#[test]
fn tolerances_widen_the_interval() {
    let house = [(
        Form::Ring(points(&[(3, -9), (6, -9), (6, 4), (3, 4)])),
        100 * MM,
    )];
    let (low, high) = between(&spot((0, 0)), &spot((9, 0)), 100 * MM, &house);
    let (low, high) = (low.unwrap(), high.unwrap());
    assert!((12_200 * MM..13_000 * MM).contains(&low), "{low}");
    assert!((13_000 * MM..14_000 * MM).contains(&high), "{high}");
    // An end on a wall with a tolerance may be inside it: no route is free in every world.
    assert_eq!(
        between(&spot((3, 0)), &spot((0, 0)), 100 * MM, &house).1,
        None
    );
}

/// An L: the notch is not closed, and the way out goes round the tip of the arm.
#[test]
fn round_a_house_with_a_corner_pointing_in() {
    let house = Form::Ring(points(&[(0, 0), (8, 0), (8, 2), (2, 2), (2, 8), (0, 8)]));
    // From (5, 5) in the notch over (8, 2) and (8, 0): 3√2 + 2 + 4 m.
    let (low, high) = length((5, 5), (4, 0), &[house]);
    let hand = ((3.0 * 2.0_f64.sqrt() + 2.0 + 4.0) * 1e9) as i64;
    assert!(
        (0..100_000).contains(&(hand - low.unwrap())),
        "{low:?} {hand}"
    );
    assert!(
        (0..100_000).contains(&(high.unwrap() - hand)),
        "{high:?} {hand}"
    );
}

/// A route is never shorter than the straight line, is straight where nothing is in the way, and is as long in reverse.
#[test]
fn routes_are_no_shorter_than_straight_and_as_long_in_reverse() {
    let mut dice = Dice::new(31);
    let mut round = 0;
    for _ in 0..2_000 {
        let walls: Vec<(Form, i64)> = (0..dice.from(0, 4))
            .map(|_| (Form::Path(vec![dice.point(9 * M), dice.point(9 * M)]), 0))
            .collect();
        let (a, b) = (dice.point(9 * M), dice.point(9 * M));
        let ends = [a, b].map(|at| figure(Form::Point(at)));
        let found = between(&ends[0], &ends[1], 0, &walls)
            .1
            .expect("walls that do not close leave a way");
        let straight = distance(a, b);
        assert!(found as f64 >= straight - 1.0);
        let clear = walls.iter().all(|(wall, _)| !matches!(wall, Form::Path(p) if (Edge { a, b }).crosses(&Edge { a: p[0], b: p[1] })));
        assert!(!clear || (found as f64) < straight + 2.0);
        let back = between(&ends[1], &ends[0], 0, &walls).1.unwrap();
        assert!((back - found).abs() <= 10_000, "{back} {found}");
        round += i32::from(!clear);
    }
    assert!(round > 300);
}

/// American High School Mathematics Examination of 1996, problem 20: from (0, 0) to (12, 16), not through the circle of
/// radius 5 about (6, 8), it is 10√3 + 5π/3. With 90 corners on the circle it is a little less, with 90 sides that touch it
/// a little more.
#[test]
fn round_a_circle_as_published() {
    let published = (10.0 * 3.0_f64.sqrt() + 5.0 * std::f64::consts::PI / 3.0) * 1e9;
    let round = |radius: f64| {
        let corner = |step: i32| {
            let angle = f64::from(step) * std::f64::consts::PI / 45.0;
            Point {
                x: 6 * M + (radius * libm::cos(angle)) as i64,
                y: 8 * M + (radius * libm::sin(angle)) as i64,
            }
        };
        Form::Ring((0..90).map(corner).collect())
    };
    let touching = 5e9 / libm::cos(std::f64::consts::PI / 90.0);
    let low = length((0, 0), (12, 16), &[round(5e9)]).0.unwrap() as f64;
    let high = length((0, 0), (12, 16), &[round(touching + 2.0)])
        .1
        .unwrap() as f64;
    assert!(low < published && published < high);
    assert!(high - low < 1e7, "{low} {high}");
}
