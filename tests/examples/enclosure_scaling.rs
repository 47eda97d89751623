//! Prints how long the widest gap takes as the barrier grows from 50 to 5,000 edges.

use std::time::Instant;

use rules_core::measure::{Goal, Target, Tolerance, View, Wall, widest_way};
use rules_core::plan::{Figure, Form, Point};

fn drawn(form: Form) -> Figure {
    Figure::new(vec![form], 0, Some(0))
}

/// A wavy fence around a circle of 20 m with a gap, and as many edges in a second one around it.
fn fence(edges: usize, radius: f64, gap: f64) -> Figure {
    let turn = std::f64::consts::TAU * (1.0 - gap / (std::f64::consts::TAU * radius));
    let corner = |index: usize| {
        let angle = turn * index as f64 / edges as f64;
        let wave = radius + 0.05 * libm::sin(angle * 40.0);
        Point {
            x: (wave * libm::cos(angle) * 1e9) as i64,
            y: (wave * libm::sin(angle) * 1e9) as i64,
        }
    };
    drawn(Form::Path((0..=edges).map(corner).collect()))
}

fn main() {
    let corner = |x: i64, y: i64| Point {
        x: x * 1_000_000_000,
        y: y * 1_000_000_000,
    };
    let pool = drawn(Form::Ring(vec![
        corner(-3, -2),
        corner(3, -2),
        corner(3, 2),
        corner(-3, 2),
    ]));
    println!(
        "{:>8} {:>12} {:>12} {:>12}",
        "edges", "gap 0.1 m", "gap 2 m", "double"
    );
    for edges in [50, 100, 200, 500, 1000, 2000, 5000] {
        let time = |walls: &[Figure]| {
            let walls: Vec<Wall> = walls
                .iter()
                .map(|figure| Wall {
                    figure,
                    tolerance: Tolerance::default(),
                })
                .collect();
            let start = Target {
                figure: &pool,
                tolerance: Tolerance::default(),
            };
            let times = (0..5).map(|_| {
                let begin = Instant::now();
                let way = widest_way(&walls, &start, &[Goal::FarAway], View::Drawn);
                assert!(way.low <= way.high);
                begin.elapsed().as_secs_f64() * 1e3
            });
            times.fold(f64::INFINITY, f64::min)
        };
        let double = [fence(edges / 2, 20.0, 0.1), fence(edges / 2, 18.0, 0.4)];
        println!(
            "{edges:>8} {:>9.3} ms {:>9.3} ms {:>9.3} ms",
            time(&[fence(edges, 20.0, 0.1)]),
            time(&[fence(edges, 20.0, 2.0)]),
            time(&double)
        );
    }
}
