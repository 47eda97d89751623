use super::*;
use crate::plan::figure::Form;

const MM: i64 = 1_000_000;

fn path(points: &[(i64, i64)]) -> Figure {
    Figure::new(vec![Form::Path(at(points))], 0, Some(0))
}

fn ring(points: &[(i64, i64)]) -> Figure {
    Figure {
        forms: vec![Form::Ring(at(points))],
        ..path(points)
    }
}

fn at(points: &[(i64, i64)]) -> Vec<Point> {
    let scale = |&(x, y): &(i64, i64)| Point {
        x: x * MM,
        y: y * MM,
    };
    points.iter().map(scale).collect()
}

fn way(walls: &[Figure], pool: &Figure, off: i64, view: View) -> WayOut {
    let tolerance = Tolerance {
        accuracy: off * MM,
        ..Tolerance::default()
    };
    let walls: Vec<Wall> = walls
        .iter()
        .map(|figure| Wall { figure, tolerance })
        .collect();
    let start = Target {
        figure: pool,
        tolerance: Tolerance::default(),
    };
    widest_way(&walls, &start, &[Goal::FarAway], view)
}

#[test]
fn a_gap_in_a_fence_is_as_wide_as_drawn() {
    let pool = ring(&[(2000, 2000), (6000, 2000), (6000, 5000), (2000, 5000)]);
    let fence = path(&[(0, 0), (10_000, 0), (10_000, 8000), (0, 8000), (0, 99)]);
    let drawn = way(std::slice::from_ref(&fence), &pool, 0, View::Drawn);
    assert_eq!((drawn.low, drawn.high), (99 * MM, 99 * MM));
    assert_eq!(
        way(std::slice::from_ref(&fence), &pool, 1, View::Widest).high,
        101 * MM
    );
    assert_eq!(
        way(std::slice::from_ref(&fence), &pool, 1, View::Narrowest).low,
        97 * MM
    );
    assert_eq!(way(&[], &pool, 0, View::Drawn).high, i64::MAX);
    let closed = ring(&[(0, 0), (10_000, 0), (10_000, 8000), (0, 8000)]);
    assert_eq!(way(&[closed], &pool, 20, View::Widest), CLOSED);
}
