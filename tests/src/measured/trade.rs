//! Enclosure by a barrier, and noise.

use rules_core::plan::Point;

use super::property::Measure;
use super::scenes::{item, off, place, rectangle, site};
use super::site::{Fact, Item, M, MM, Shape, Site};
use super::truth::{P, all, distance, meets, p, pieces, sides, to_segment, within};
use crate::soundness::random::Random;

/// The measures of this file.
pub const MEASURES: &[Measure] = &[
    Measure {
        name: "enclosure, one fence",
        rule: "    require: {enclosure: {of: pool.water, from: [street, neighbour-lot], made-of: barrier-stretch}, less-than: LIMIT}",
        limits: ["100 mm", "4 in", "200 mm"],
        draw: one_fence,
        truth: |site| {
            let line = pieces(site.first("barrier-stretch").shape("line"));
            Some(gap(line[0], line[line.len() - 1]))
        },
        fine: 10.0,
        exact: 3000.0,
        reach: 10.0,
    },
    Measure {
        name: "enclosure, fences and a gate",
        rule: "    require: {enclosure: {of: pool.water, from: [street, neighbour-lot], made-of: barrier-stretch}, less-than: LIMIT}",
        limits: ["100 mm", "4 in", "200 mm"],
        draw: fences_and_a_gate,
        truth: |site| {
            let lines: Vec<_> = site
                .all("barrier-stretch")
                .map(|item| pieces(item.shape("line")))
                .collect();
            let gate = pieces(site.first("gate").shape("line"))[0];
            // The first stretch runs to the gate, the gate to the second stretch, and the second stretch back to the
            // first.
            let (first, second) = (&lines[0], &lines[1]);
            let joints = [
                gap(first[first.len() - 1], gate),
                gap(gate, second[0]),
                gap(second[second.len() - 1], first[0]),
            ];
            Some(joints.into_iter().fold(0.0, f64::max))
        },
        fine: 10.0,
        exact: 3000.0,
        reach: 5.0,
    },
    Measure {
        name: "enclosure, a fence on the water's edge",
        rule: "    require: {enclosure: {of: pool.water, from: [street, neighbour-lot], made-of: barrier-stretch}, less-than: LIMIT}",
        limits: ["100 mm", "4 in", "200 mm"],
        draw: a_fence_on_the_edge,
        truth: |site| {
            // Where the pool reaches beyond the fence, a disc fits around its farthest corner.
            let fence = all(site.first("barrier-stretch").shape("line").corners());
            let out = site.pool().shape("water").corners().iter().map(|at| p(*at));
            let out = out.filter(|at| !within(&fence, *at));
            let far = out.map(|at| to_segments(at, &sides(&fence)));
            Some(2.0 * far.fold(0.0, f64::max))
        },
        fine: 3000.0,
        exact: 3000.0,
        reach: 1.0,
    },
    Measure {
        name: "noise",
        rule: "    require: {sound: {from: equipment, at: wall-opening, during: day}, at-most: LIMIT}",
        limits: ["40 dB", "45 dB", "50 dB"],
        draw: two_machines,
        truth: |site| {
            let window = site.first("wall-opening").shape("line");
            let level = |machine: &Item| {
                let far = distance(machine.shape("region"), window) / 1e9;
                let surfaces = if machine.id == "equipment-1" {
                    1.0
                } else {
                    0.0
                };
                machine.amount("sound-power") / 1e6 - 20.0 * libm::log10(far) - 11.0
                    + 3.0 * (1.0 + surfaces)
            };
            let energy: f64 = site
                .all("equipment")
                .filter(|machine| !machine.is("runs", "night"))
                .map(|machine| libm::pow(10.0, level(machine) / 10.0))
                .sum();
            Some((1e7 * libm::log10(energy)).max(0.0))
        },
        fine: 3.0,
        exact: 10.0,
        reach: 20.0,
    },
];

type Piece = (P, P);

fn to_segments(at: P, all: &[Piece]) -> f64 {
    let far = all.iter().map(|piece| to_segment(at, *piece));
    far.fold(f64::INFINITY, f64::min)
}

fn gap(one: Piece, other: Piece) -> f64 {
    if meets(one, other) {
        0.0
    } else {
        super::truth::between(&[one], &[other])
    }
}

fn pool(random: &mut Random) -> Site {
    let ring = rectangle(
        random,
        Point {
            x: 15 * M,
            y: 20 * M,
        },
        (4, 6),
        (3, 4),
        10,
    );
    let mut site = site(random, Shape::Area(ring));
    site.items[0].off = off(random);
    site
}

/// A corner of a 12 by 10 m fence around the pool.
fn corner(random: &mut Random, x: i64, y: i64) -> Point {
    let mut near = |at: i64| at * M + random.between(-300 * MM, 300 * MM);
    Point {
        x: near(15 + x),
        y: near(20 + y),
    }
}

fn one_fence(random: &mut Random) -> Site {
    let mut site = pool(random);
    let corners = [(6, -5), (6, 5), (-6, 5), (-6, -5)].map(|(x, y)| corner(random, x, y));
    // The gap is at the front, along the line from the last corner to the first.
    let (from, to) = (corners[3], corners[0]);
    let long = (to.x - from.x) as f64;
    let start = random.between(3 * M, 8 * M) as f64 / long;
    let end = start + *random.pick(&[60, 95, 99, 101, 140, 300]) as f64 * MM as f64 / long;
    let on = |share: f64| Point {
        x: from.x + ((to.x - from.x) as f64 * share) as i64,
        y: from.y + ((to.y - from.y) as f64 * share) as i64,
    };
    let mut line = vec![on(end)];
    line.extend(corners);
    line.push(on(start));
    site.items
        .push(item(random, "barrier-stretch").drawn("line", Shape::Line(line)));
    site
}

/// A fence all round, a millimetre out from the water.
fn a_fence_on_the_edge(random: &mut Random) -> Site {
    let mut site = pool(random);
    let water = site.pool().shape("water").corners().to_vec();
    let middle = Point {
        x: water[0].x.midpoint(water[2].x),
        y: water[0].y.midpoint(water[2].y),
    };
    let out = |at: &Point| Point {
        x: at.x + MM * (at.x - middle.x).signum(),
        y: at.y + MM * (at.y - middle.y).signum(),
    };
    let mut line: Vec<Point> = water.iter().map(out).collect();
    line.push(line[0]);
    site.items
        .push(item(random, "barrier-stretch").drawn("line", Shape::Line(line)));
    site
}

fn fences_and_a_gate(random: &mut Random) -> Site {
    let mut site = pool(random);
    let [a, b, c, d] = [(6, -5), (6, 5), (-6, 5), (-6, -5)].map(|(x, y)| corner(random, x, y));
    // A gate about a metre wide at the front, a little short of its posts.
    let mut joint = || *random.pick(&[0, 10, 40, 99, 101, 150]) * MM;
    let (x, level) = (15 * M, d.y.midpoint(a.y));
    let at = |x: i64| Point { x, y: level };
    let (left, right) = (at(x - M), at(x));
    let (hinge, latch) = (at(x - M + joint()), at(x - joint()));
    let behind = Point {
        x: c.x,
        y: c.y - joint(),
    };
    // The first stretch from the rear round the left side to the gate, the second from the gate to the rear.
    let first = vec![behind, d, left];
    let second = vec![right, a, b, c];
    let source = random.below(3);
    let off = off(random);
    let stretch = |id: &str, line| {
        Item::new("barrier-stretch", source, off)
            .named(id)
            .drawn("line", Shape::Line(line))
    };
    site.items.push(stretch("left", first));
    site.items.push(stretch("right", second));
    let part_of = Fact::Word("left".to_owned());
    let gate = Item::new("gate", source, off)
        .drawn("line", Shape::Line(vec![hinge, latch]))
        .said("part-of", part_of);
    site.items.push(gate);
    site
}

fn two_machines(random: &mut Random) -> Site {
    let mut site = pool(random);
    let window = vec![
        Point {
            x: 36 * M,
            y: 14 * M,
        },
        Point {
            x: 36 * M,
            y: 15 * M,
        },
    ];
    site.items
        .push(item(random, "wall-opening").drawn("line", Shape::Line(window)));
    for index in 0..2 {
        let at = place(random, (5, 30), (5, 35));
        let ring = rectangle(random, at, (1, 2), (1, 2), 45);
        let power = Fact::Level(
            random.between(50_000_000, 70_000_000),
            *random.pick(&[0, 500_000, 2_000_000]),
        );
        let runs = match index {
            0 => vec!["always"],
            _ => random
                .pick(&[vec!["always"], vec!["day", "night"], vec!["night", "day"]])
                .clone(),
        };
        let machine = item(random, "equipment")
            .named(&format!("equipment-{index}"))
            .drawn("region", Shape::Area(ring))
            .said("sound-power", power)
            .said("reflecting-surfaces", Fact::Word(index.to_string()))
            .said("runs", Fact::OneOf(runs));
        site.items.push(machine);
    }
    site
}
