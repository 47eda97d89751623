//! Fences drawn a little wrong: every true fence lies within the bounds, and a better drawing narrows them.

use rules_core::measure::View;
use rules_core::plan::{Figure, Form, Point};

use crate::common::Dice;

use super::{figure, points, way_out};

const MM: i64 = 1_000_000;

/// Runs of fence around a pool, with joints, gaps, crossings and doublings.
fn fences(dice: &mut Dice) -> Vec<Figure> {
    let corners = [(0, 0), (6000, 0), (6000, 5000), (0, 5000)];
    let mut walls = Vec::new();
    for index in 0..4 {
        let (a, b) = (corners[index], corners[(index + 1) % 4]);
        let off = |dice: &mut Dice| [0, 0, dice.whole(-150, 150)][dice.whole(0, 2) as usize];
        let mut line = vec![(a.0 + off(dice), a.1 + off(dice))];
        if dice.whole(0, 1) == 1 {
            line.push((
                (a.0 + b.0) / 2 + dice.whole(-300, 300),
                (a.1 + b.1) / 2 + dice.whole(-300, 300),
            ));
        }
        line.push((b.0 + off(dice), b.1 + off(dice)));
        walls.push(line);
    }
    for _ in 0..dice.whole(0, 3) {
        let start = (dice.whole(-500, 6500), dice.whole(-500, 5500));
        walls.push(vec![
            start,
            (
                start.0 + dice.whole(-900, 900),
                start.1 + dice.whole(-900, 900),
            ),
        ]);
    }
    walls
        .iter()
        .map(|line| figure(Form::Path(points(line, MM))))
        .collect()
}

/// The same, every corner elsewhere by at most so much; what is written at one point stays at one.
fn moved(dice: &mut Dice, walls: &[Figure], by: i64) -> Vec<Figure> {
    let mut places = std::collections::BTreeMap::new();
    let mut place = |point: &Point| {
        *places.entry(*point).or_insert_with(|| {
            // Within a circle: 5/7 is less than the root of a half.
            let far = by * 5 / 7;
            Point {
                x: point.x + dice.whole(-far, far),
                y: point.y + dice.whole(-far, far),
            }
        })
    };
    let mut lines = Vec::new();
    for wall in walls {
        let Form::Path(line) = &wall.forms[0] else {
            continue;
        };
        lines.push(figure(Form::Path(line.iter().map(&mut place).collect())));
    }
    lines
}

#[test]
fn the_truth_lies_within_the_bounds_and_a_better_drawing_narrows_them() {
    let mut dice = Dice::new(9);
    let pool = figure(Form::Ring(points(
        &[(1500, 1500), (4500, 1500), (4500, 3500), (1500, 3500)],
        MM,
    )));
    let (mut decided, mut moves) = (0, 0);
    for round in 0..2000 {
        let mut walls = fences(&mut dice);
        let mut off = dice.whole(1, 60) * MM;
        let bounds = |walls: &[Figure], off: i64| {
            let low = way_out(walls, &pool, &[], off, View::Narrowest).low;
            (low, way_out(walls, &pool, &[], off, View::Widest).high)
        };
        let mut now = bounds(&walls, off);
        for step in 0..3 {
            let by = if step == 2 { off } else { dice.whole(0, off) };
            walls = moved(&mut dice, &walls, by);
            off -= by;
            let next = bounds(&walls, off);
            // The way capped by the room around the pool is known to the micrometre only.
            assert!(
                next.0 >= now.0 - 2_000 && next.1 <= now.1.saturating_add(2_000),
                "{round} {step}: {now:?} then {next:?} {walls:?}"
            );
            moves += usize::from(next != now);
            now = next;
        }
        let drawn = way_out(&walls, &pool, &[], 0, View::Drawn);
        assert!(
            now.0 <= drawn.low && drawn.high <= now.1,
            "{round}: {now:?} {drawn:?}"
        );
        decided += usize::from(now.1 - now.0 < MM);
    }
    assert!(decided > 1800 && moves > 3000, "{decided} {moves}");
}
