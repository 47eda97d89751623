//! Mazes with walls full, missing or with a gap, against a flood over a raster that shares no code with the program.
//!
//! All walls lie on lines of a lattice and end on its points, so the distance from a lattice point to the walls is
//! that to the nearest lattice point of a wall. A way along neighbouring lattice points keeps within 0.71 of any
//! curve, so the two widths differ by 1.42 at most; gaps differ by 4.

use rules_core::measure::View;
use rules_core::plan::{Figure, Form};

use crate::common::Dice;

use super::{figure, points, way_out};

const CELL: i64 = 32;
const CELLS: i64 = 5;
const PAD: i64 = 70;
const SIZE: i64 = CELLS * CELL + 2 * PAD;
const ROUGH: f64 = 1.5;

type Segment = ((i64, i64), (i64, i64));

/// Between two corners of the lattice: a wall, none, or a wall with a gap.
fn side(dice: &mut Dice, at: (i64, i64), along: (i64, i64), open: i64, walls: &mut Vec<Segment>) {
    let place = |far: i64| {
        (
            PAD + at.0 * CELL + along.0 * far,
            PAD + at.1 * CELL + along.1 * far,
        )
    };
    match dice.whole(0, 99) {
        chance if chance < open => {}
        chance if chance < 60 => {
            let width = 4 * dice.whole(1, 7);
            let start = dice.whole(0, CELL - width);
            if start > 0 {
                walls.push((place(0), place(start)));
            }
            if start + width < CELL {
                walls.push((place(start + width), place(CELL)));
            }
        }
        _ => walls.push((place(0), place(CELL))),
    }
}

fn maze(dice: &mut Dice) -> Vec<Segment> {
    let mut walls = Vec::new();
    let open = dice.whole(0, 25);
    for i in 0..=CELLS {
        for j in 0..CELLS {
            side(dice, (i, j), (0, 1), open, &mut walls);
            side(dice, (j, i), (1, 0), open, &mut walls);
        }
    }
    walls
}

/// The square of the distance of every lattice point from the nearest wall: along columns, then along rows.
fn squares(walls: &[Segment]) -> Vec<i64> {
    let size = SIZE as usize;
    let far = 4 * SIZE * SIZE;
    let mut wall = vec![false; size * size];
    for ((x, y), (u, v)) in walls {
        for a in *x..=*u {
            for b in *y..=*v {
                wall[b as usize * size + a as usize] = true;
            }
        }
    }
    let mut down = vec![far; size * size];
    for x in 0..size {
        for order in [(0..size).collect::<Vec<_>>(), (0..size).rev().collect()] {
            let mut last = None;
            for y in order {
                last = if wall[y * size + x] { Some(y) } else { last };
                let apart = last.map_or(far, |last: usize| (last.abs_diff(y) as i64).pow(2));
                down[y * size + x] = down[y * size + x].min(apart);
            }
        }
    }
    rows(&down, size)
}

/// The lower envelope of the parabolas of one row at a time.
fn rows(down: &[i64], size: usize) -> Vec<i64> {
    let mut all = Vec::with_capacity(down.len());
    for row in down.chunks(size) {
        let mut hull: Vec<(usize, f64)> = Vec::new();
        for q in 0..size {
            let meet = |p: usize| {
                ((row[q] + (q * q) as i64) - (row[p] + (p * p) as i64)) as f64
                    / (2.0 * (q as f64 - p as f64))
            };
            while let Some(&(p, from)) = hull.last() {
                if meet(p) > from {
                    break;
                }
                hull.pop();
            }
            let from = hull.last().map_or(f64::NEG_INFINITY, |&(p, _)| meet(p));
            hull.push((q, from));
        }
        let mut at = 0;
        for x in 0..size {
            while at + 1 < hull.len() && hull[at + 1].1 < x as f64 {
                at += 1;
            }
            let p = hull[at].0;
            all.push(row[p] + (x.abs_diff(p) as i64).pow(2));
        }
    }
    all
}

/// The widest way from the pool to the edge of the raster: always on from the roomiest point reached.
fn flood(squares: &[i64], pool: (i64, i64, i64)) -> f64 {
    let size = SIZE as usize;
    let mut open = std::collections::BinaryHeap::new();
    let mut seen = vec![false; squares.len()];
    for y in pool.1..=pool.1 + pool.2 {
        for x in pool.0..=pool.0 + pool.2 {
            let at = y as usize * size + x as usize;
            seen[at] = true;
            open.push((squares[at], at));
        }
    }
    while let Some((room, at)) = open.pop() {
        let (x, y) = (at % size, at / size);
        if x == 0 || y == 0 || x + 1 == size || y + 1 == size {
            return 2.0 * (room as f64).sqrt();
        }
        for next in [
            at - size - 1,
            at - size,
            at - size + 1,
            at - 1,
            at + 1,
            at + size - 1,
            at + size,
            at + size + 1,
        ] {
            if !seen[next] {
                seen[next] = true;
                open.push((room.min(squares[next]), next));
            }
        }
    }
    0.0
}

/// The maze turned by the angle of a 3-4-5 triangle, five times as large.
fn turned((x, y): (i64, i64)) -> (i64, i64) {
    (4 * x - 3 * y, 3 * x + 4 * y)
}

#[test]
fn mazes_agree_with_a_flood_over_a_raster() {
    const UNIT: i64 = 2_000_000;
    let mut dice = Dice::new(4);
    let (mut closed, mut narrow) = (0, 0);
    for round in 0..2000 {
        let walls = maze(&mut dice);
        let (side, corner) = (4 * dice.whole(1, 6), PAD + 2 * CELL);
        let pool = (
            corner + dice.whole(1, CELL - side - 1),
            corner + dice.whole(1, CELL - side - 1),
            side,
        );
        let rough = flood(&squares(&walls), pool);
        let line = |(a, b): &Segment| figure(Form::Path(points(&[turned(*a), turned(*b)], UNIT)));
        let lines: Vec<Figure> = walls.iter().map(line).collect();
        let square = [(0, 0), (side, 0), (side, side), (0, side)]
            .map(|(x, y)| turned((pool.0 + x, pool.1 + y)));
        let water = figure(Form::Ring(points(&square, UNIT)));
        let way = way_out(&lines, &water, &[], 0, View::Drawn);
        let (low, high) = (
            way.low as f64 / (5 * UNIT) as f64,
            way.high as f64 / (5 * UNIT) as f64,
        );
        assert!(
            low <= rough + ROUGH && high >= rough - ROUGH && high - low < ROUGH,
            "maze {round}: {low} to {high}, raster {rough}, pool {pool:?}, walls {walls:?}"
        );
        closed += usize::from(way.high == 0);
        narrow += usize::from(way.high > 0 && rough < 27.0);
    }
    assert!(
        closed > 20 && narrow > 500,
        "{closed} closed, {narrow} narrow"
    );
}
