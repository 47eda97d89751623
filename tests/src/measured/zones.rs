//! What lies in a zone: between lines, at a corner, around something, or not.

use rules_core::plan::Point;

use super::property::Measure;
use super::scenes::{item, off, place, rectangle, site};
use super::site::{Fact, Item, M, MM, Shape, Site};
use super::truth::{
    P, against_the_clock, all, apart, between, cross, cut_to, distance, in_disc, left_of,
    near_along, p, part_way, pieces, to_shape, twice_area,
};
use crate::soundness::random::Random;

/// The floats of the true values are accurate to a square millimetre.
const FINE: f64 = 1e12;
/// Areas are cut on a grid, and a millimetre is allowed for arcs: a few square decimetres at most.
const CUT: f64 = 3e13;
const ARC: f64 = 5e16;

/// The measures of this file.
pub const MEASURES: &[Measure] = &[
    Measure {
        name: "area in a rear yard",
        rule: "    require: {area: {of: pool.water, in: {between: [{kind: lot-line, where: {fact: lot-line.faces, is: rear}}, building.rear-wall]}}, at-most: LIMIT}",
        limits: ["0 m2", "10 m2", "20 m2"],
        draw: behind_a_house,
        truth: |site| Some(twice_area(&behind(site)) / 2.0),
        fine: FINE,
        exact: CUT,
        reach: 5.0,
    },
    Measure {
        name: "area not in a rear yard",
        rule: "    require: {area: {of: pool.water, in: {not: {between: [{kind: lot-line, where: {fact: lot-line.faces, is: rear}}, building.rear-wall]}}}, at-most: LIMIT}",
        limits: ["0 m2", "10 m2", "20 m2"],
        draw: behind_a_house,
        truth: |site| Some((twice_area(&water(site)) - twice_area(&behind(site))) / 2.0),
        fine: FINE,
        exact: CUT,
        reach: 5.0,
    },
    Measure {
        name: "area in a sight triangle",
        rule: "    require: {area: {of: pool.water, in: {corner: {of: [road.centreline, road.centreline], legs: 15 m}}}, at-most: LIMIT}",
        limits: ["0 m2", "10 m2", "20 m2"],
        draw: at_a_corner,
        truth: |site| Some(twice_area(&cut_to(&water(site), &sight_triangle(site))) / 2.0),
        fine: FINE,
        exact: CUT,
        reach: 2.0,
    },
    Measure {
        name: "area around a place",
        rule: "    require: {area: {of: pool.water, in: {around: well.casing, by: 4 m}}, at-most: LIMIT}",
        limits: ["0 m2", "10 m2", "20 m2"],
        draw: around_a_well,
        truth: |site| Some(in_disc(&water(site), spot(site, "well", "casing"), 4e9)),
        fine: FINE,
        exact: ARC,
        reach: 5.0,
    },
    Measure {
        name: "area not around a place",
        rule: "    require: {area: {of: pool.water, in: {not: {around: well.casing, by: 4 m}}}, at-most: LIMIT}",
        limits: ["0 m2", "10 m2", "20 m2"],
        draw: around_a_well,
        truth: |site| {
            let within = in_disc(&water(site), spot(site, "well", "casing"), 4e9);
            Some(twice_area(&water(site)) / 2.0 - within)
        },
        fine: FINE,
        exact: ARC,
        reach: 5.0,
    },
    Measure {
        name: "area over roots",
        rule: "    each: {kind: tree}\n    require: {area: {of: pool.water, in: {around: tree.stem, by: {product: [12, tree.stem-diameter]}}}, at-most: LIMIT}",
        limits: ["0 m2", "10 m2", "20 m2"],
        draw: beside_a_tree,
        truth: |site| {
            let by = 12.0 * site.first("tree").amount("stem-diameter");
            Some(in_disc(&water(site), spot(site, "tree", "stem"), by))
        },
        fine: FINE,
        exact: ARC,
        reach: 5.0,
    },
    Measure {
        name: "length around an area",
        rule: "    require: {length: {of: barrier-stretch.line, in: {around: pool.water, by: 2 m}}, at-most: LIMIT}",
        limits: ["2 m", "5 m", "15 ft"],
        draw: beside_a_fence,
        truth: |site| {
            let pool = site.pool().shape("water");
            let near = |(a, b): (P, P)| {
                near_along((a, b), 2e9, |at| to_shape(at, pool))
                    .map_or(0.0, |(s, t)| (t - s) * apart(a, b))
            };
            Some(
                pieces(site.first("barrier-stretch").shape("line"))
                    .into_iter()
                    .map(near)
                    .sum(),
            )
        },
        fine: 1000.0,
        // A millimetre off the arc shifts the entry of a nearly tangent line by some centimetres.
        exact: 2e8,
        reach: 5.0,
    },
    Measure {
        name: "distance to what lies in a zone",
        rule: "    each: {kind: overhead-line, in: {around: pool.inside-face, by: 3 m}}\n    require: {distance: {from: pool.water, to: overhead-line.conductor}, at-least: LIMIT}",
        limits: ["1 m", "2 m", "10 ft"],
        draw: beside_a_wire,
        truth: |site| {
            let (pool, wire) = (
                site.pool(),
                all(site.first("overhead-line").shape("conductor").corners()),
            );
            let face = pool.shape("inside-face");
            let (s, t) = near_along((wire[0], wire[1]), 3e9, |at| to_shape(at, face))?;
            let left = (part_way(wire[0], wire[1], s), part_way(wire[0], wire[1], t));
            let over = [left.0, left.1]
                .iter()
                .any(|at| to_shape(*at, pool.shape("water")) == 0.0);
            Some(if over {
                0.0
            } else {
                between(&pieces(pool.shape("water")), &[left])
            })
        },
        fine: 1000.0,
        exact: 2e8,
        reach: 2.0,
    },
];

/// There is no upper bound on the distance from things in one zone to things in another.
pub const LOOSE: &[Measure] = &[Measure {
    name: "distance between what lies in two zones",
    rule: "    require: {distance: {from: {kind: barrier-stretch, outline: line, in: {around: pool.water, by: 2 m}}, to: {kind: overhead-line, outline: conductor, in: {around: pool.water, by: 3 m}}}, at-most: LIMIT}",
    limits: ["1 m", "2 m", "10 ft"],
    draw: between_a_fence_and_a_wire,
    truth: |site| {
        let water = site.pool().shape("water");
        let left = |line: &Shape, by: f64| {
            let line = all(line.corners());
            let (s, t) = near_along((line[0], line[1]), by, |at| to_shape(at, water))?;
            Some((part_way(line[0], line[1], s), part_way(line[0], line[1], t)))
        };
        let fence = left(site.first("barrier-stretch").shape("line"), 2e9)?;
        let wire = left(site.first("overhead-line").shape("conductor"), 3e9)?;
        Some(between(&[fence], &[wire]))
    },
    fine: 1000.0,
    exact: f64::INFINITY,
    reach: 0.0,
}];

/// How many things lie in a zone.
pub const COUNTS: &[Measure] = &[
    Measure {
        name: "count around",
        rule: "    require: {count: {kind: tree, in: {around: pool.water, by: 3 m}}, at-most: LIMIT}",
        limits: ["0", "1", "2"],
        draw: beside_trees,
        truth: |site| {
            let water = site.pool().shape("water");
            let near = |tree: &&Item| distance(tree.shape("canopy"), water) <= 3e9;
            Some(1e9 * site.all("tree").filter(near).count() as f64)
        },
        fine: 0.0,
        exact: 0.0,
        reach: 5.0,
    },
    Measure {
        name: "count in a yard",
        rule: "    require: {count: {kind: tree, in: {between: [{kind: lot-line, where: {fact: lot-line.faces, is: rear}}, building.rear-wall]}}, at-most: LIMIT}",
        limits: ["0", "1", "2"],
        draw: trees_behind_a_house,
        truth: |site| {
            let (a, b) = rear_wall(site);
            let lot = all(&site.lot);
            let is_in = |tree: &&Item| {
                let behind = left_of(&crown(tree), (a, b));
                twice_area(&cut_to(&behind, &lot)) > 0.0
            };
            Some(1e9 * site.all("tree").filter(is_in).count() as f64)
        },
        fine: 0.0,
        exact: 0.0,
        reach: 5.0,
    },
    Measure {
        name: "count in a sight triangle",
        rule: "    require: {count: {kind: tree, in: {corner: {of: [road.centreline, road.centreline], legs: 15 m}}}, at-most: LIMIT}",
        limits: ["0", "1", "2"],
        draw: trees_at_a_corner,
        truth: |site| {
            let ring = sight_triangle(site);
            let is_in = |tree: &&Item| twice_area(&cut_to(&crown(tree), &ring)) > 0.0;
            Some(1e9 * site.all("tree").filter(is_in).count() as f64)
        },
        fine: 0.0,
        exact: 0.0,
        reach: 2.0,
    },
];

fn crown(tree: &Item) -> Vec<P> {
    against_the_clock(all(tree.shape("canopy").corners()))
}

fn water(site: &Site) -> Vec<P> {
    against_the_clock(all(site.pool().shape("water").corners()))
}

fn spot(site: &Site, kind: &str, outline: &str) -> P {
    p(site.first(kind).shape(outline).corners()[0])
}

/// The rear wall, in the direction that has the rear on the left.
fn rear_wall(site: &Site) -> (P, P) {
    let line = all(site.first("building").shape("rear-wall").corners());
    (line[0], line[1])
}

/// The part of the pool on the lot and behind the extended line of the rear wall.
fn behind(site: &Site) -> Vec<P> {
    cut_to(&left_of(&water(site), rear_wall(site)), &all(&site.lot))
}

/// The sight triangle at the crossing of two centrelines, on the lot's side.
fn sight_triangle(site: &Site) -> Vec<P> {
    let lines: Vec<Vec<P>> = site
        .all("road")
        .map(|road| all(road.shape("centreline").corners()))
        .collect();
    let ((a, b), (c, d)) = ((lines[0][0], lines[0][1]), (lines[1][0], lines[1][1]));
    let (u, v) = ((b.0 - a.0, b.1 - a.1), (d.0 - c.0, d.1 - c.1));
    let at = part_way(a, b, cross((c.0 - a.0, c.1 - a.1), v) / cross(u, v));
    // The lot lies west of one and north of the other, towards the first end of one and the last end of the other.
    let leg = |end: P| part_way(at, end, 15e9 / apart(at, end));
    against_the_clock(vec![at, leg(a), leg(d)])
}

fn rectangular(random: &mut Random, x: (i64, i64), y: (i64, i64)) -> Site {
    let at = place(random, x, y);
    let ring = rectangle(random, at, (4, 10), (3, 5), 45);
    site(random, Shape::Area(ring))
}

fn house(random: &mut Random) -> Item {
    let at = place(random, (11, 19), (11, 15));
    let ring = rectangle(random, at, (8, 12), (6, 10), 8);
    // From left to right, so that the ground behind it is on the left.
    let rear = vec![ring[3], ring[2]];
    item(random, "building")
        .drawn("wall", Shape::Area(ring))
        .drawn("rear-wall", Shape::Line(rear))
}

fn behind_a_house(random: &mut Random) -> Site {
    let mut site = rectangular(random, (2, 28), (16, 40));
    site.items.push(house(random));
    site
}

fn roads(random: &mut Random) -> [Item; 2] {
    let (level, upright) = (
        random.between(-5 * M, -3 * M),
        random.between(33 * M, 35 * M),
    );
    let mut sway = || random.between(-4 * M, 4 * M);
    let along = vec![
        Point {
            x: -30 * M,
            y: level + sway(),
        },
        Point {
            x: 60 * M,
            y: level + sway(),
        },
    ];
    let across = vec![
        Point {
            x: upright + sway(),
            y: -40 * M,
        },
        Point {
            x: upright + sway(),
            y: 70 * M,
        },
    ];
    [along, across].map(|line| item(random, "road").drawn("centreline", Shape::Line(line)))
}

fn named(list: impl IntoIterator<Item = Item>) -> impl Iterator<Item = Item> {
    list.into_iter().enumerate().map(|(index, item)| {
        let id = format!("{}-{index}", item.kind);
        item.named(&id)
    })
}

fn at_a_corner(random: &mut Random) -> Site {
    let mut site = rectangular(random, (22, 32), (-2, 8));
    site.items.extend(named(roads(random)));
    site
}

fn around_a_well(random: &mut Random) -> Site {
    let mut site = rectangular(random, (12, 18), (16, 24));
    let at = place(random, (8, 22), (12, 28));
    site.items
        .push(item(random, "well").drawn("casing", Shape::Spot(at)));
    site
}

fn tree(random: &mut Random, x: (i64, i64), y: (i64, i64)) -> Item {
    let at = place(random, x, y);
    let crown = Shape::Area(rectangle(random, at, (2, 4), (2, 4), 45));
    item(random, "tree")
        .drawn("stem", Shape::Spot(at))
        .drawn("root-zone", crown.clone())
        .drawn("canopy", crown)
}

fn beside_a_tree(random: &mut Random) -> Site {
    let mut site = rectangular(random, (12, 18), (16, 24));
    let thick = Fact::Length(
        random.between(200 * MM, 600 * MM),
        *random.pick(&[0, 10 * MM, 50 * MM]),
    );
    site.items
        .push(tree(random, (8, 22), (12, 28)).said("stem-diameter", thick));
    site
}

fn beside_a_fence(random: &mut Random) -> Site {
    let mut site = rectangular(random, (12, 18), (16, 24));
    let mut corner = |x: (i64, i64)| place(random, x, (12, 28));
    let line = vec![corner((4, 10)), corner((14, 20)), corner((22, 28))];
    site.items
        .push(item(random, "barrier-stretch").drawn("line", Shape::Line(line)));
    site
}

fn beside_a_wire(random: &mut Random) -> Site {
    let at = place(random, (12, 18), (16, 24));
    let face = rectangle(random, at, (5, 9), (4, 6), 45);
    // The water's edge lies within the inside face, half way to its middle.
    let inner = face
        .iter()
        .map(|corner| Point {
            x: corner.x.midpoint(at.x),
            y: corner.y.midpoint(at.y),
        })
        .collect();
    let mut site = site(random, Shape::Area(inner));
    site.items[0]
        .outlines
        .push(("inside-face", Shape::Area(face)));
    let line = vec![
        place(random, (-8, 6), (10, 30)),
        place(random, (24, 38), (10, 30)),
    ];
    site.items.push(wire(random, line));
    site
}

fn between_a_fence_and_a_wire(random: &mut Random) -> Site {
    let mut site = rectangular(random, (12, 18), (16, 24));
    let mut across = |y: (i64, i64)| vec![place(random, (2, 10), y), place(random, (20, 28), y)];
    let (fence, conductor) = (across((12, 28)), across((12, 28)));
    site.items
        .push(item(random, "barrier-stretch").drawn("line", Shape::Line(fence)));
    site.items.push(wire(random, conductor));
    site
}

fn wire(random: &mut Random, line: Vec<Point>) -> Item {
    item(random, "overhead-line")
        .drawn("path", Shape::Line(line.clone()))
        .drawn("conductor", Shape::Line(line))
}

fn trees(random: &mut Random, x: (i64, i64), y: (i64, i64)) -> Vec<Item> {
    let many = random.between(1, 4);
    named((0..many).map(|_| tree(random, x, y))).collect()
}

fn beside_trees(random: &mut Random) -> Site {
    let mut site = rectangular(random, (12, 18), (16, 24));
    site.items.extend(trees(random, (6, 24), (12, 28)));
    site
}

fn trees_behind_a_house(random: &mut Random) -> Site {
    let mut site = behind_a_house(random);
    site.items.extend(trees(random, (-1, 31), (10, 42)));
    site
}

fn trees_at_a_corner(random: &mut Random) -> Site {
    let mut site = at_a_corner(random);
    site.items.extend(trees(random, (20, 36), (-6, 12)));
    site.items[0].off = off(random);
    site
}
