//! Lots on which a pool is to be placed: the same seed gives the same lot. The data is invented.

use std::fmt::Write as _;

use crate::random_plans::Random;

/// A place in millimetres, to the east and to the north.
pub type At = [i64; 2];

/// The pool's water, where it is drawn.
#[derive(Debug, Clone)]
enum Water {
    /// By its corners.
    Corners(Vec<At>),
    /// A circle, by its middle and its radius.
    Round(At, i64),
}

/// A lot, what stands on it, a pool and the rules.
#[derive(Debug, Clone)]
pub struct Case {
    /// What is special about it.
    pub name: String,
    /// The rule file.
    pub rules: String,
    /// The box around the lot.
    pub lot: [At; 2],
    /// The middle of the pool, where it is drawn.
    pub middle: At,
    water: Water,
    /// A second pool, which stays.
    other_pool: Option<At>,
    accuracy: i64,
    /// The plan's text about the lot, and about the things on it.
    corners: Vec<At>,
    things: String,
}

impl Case {
    /// The case of a seed.
    pub fn new(seed: u64) -> Case {
        let mut random = Random::new(seed);
        let (width, depth) = (
            random.within(15, 26) * 1000 + random.within(0, 9) * 100,
            random.within(20, 34) * 1000 + random.within(0, 9) * 100,
        );
        let (corners, lot_name) = lot(&mut random, width, depth);
        let (things, things_name) = things(&mut random, width, depth);
        let (water, water_name) = water(&mut random);
        let several = random.once_in(6);
        let accuracy = if random.once_in(3) { 20 } else { 0 };
        Case {
            name: format!("{seed}: {lot_name}, {things_name}, {water_name}"),
            rules: rules(&mut random),
            lot: [[0, 0], [width, depth]],
            middle: [5000, 5000],
            water,
            other_pool: several.then_some([width / 2, depth - 6000]),
            accuracy,
            corners,
            things,
        }
    }

    /// The plan with the pool turned anticlockwise about its middle by so many right angles, and then moved.
    pub fn plan(&self, quarters: u32, way: At) -> String {
        let source = format!(
            "[{{id: survey, by: survey, accuracy: {} mm, shift: 0 mm}}]",
            self.accuracy
        );
        let name = |index: usize| format!("c{index}");
        let mut corners = String::new();
        let mut sides = String::new();
        for (index, at) in self.corners.iter().enumerate() {
            let to = name((index + 1) % self.corners.len());
            let (from, faces) = (name(index), if index == 0 { "front" } else { "side" });
            let _ = write!(corners, "{from}: {}, ", metres(*at));
            let _ = write!(
                sides,
                "{{id: s{index}, from: {from}, to: {to}, faces: {faces}}}, "
            );
        }
        let pool = |id: &str, water: &str| format!("{{id: {id}, source: survey, water: {water}}}");
        let mut pools = pool("pool", &self.water_at(quarters, way));
        if let Some(at) = self.other_pool {
            let round = format!("{{circle: {{at: {}, radius: 0.6}}}}", metres(at));
            let _ = write!(pools, ", {}", pool("plunge", &round));
        }
        format!(
            "plan: p\ntitle: P\nunit: m\nsources: {source}\n\
             lot: {{source: survey, corners: {{{corners}}}, sides: [{sides}]}}\n\
             pool: [{pools}]\nthings:\n{}inventory: {{building: all-shown, tree: all-shown}}\n",
            self.things
        )
    }

    fn water_at(&self, quarters: u32, way: At) -> String {
        let moved = |at: At| metres([at[0] + way[0], at[1] + way[1]]);
        match &self.water {
            Water::Round(at, radius) => {
                let radius = decimal(*radius);
                format!("{{circle: {{at: {}, radius: {radius}}}}}", moved(*at))
            }
            Water::Corners(corners) => {
                let turned = corners.iter().map(|at| moved(self.turned(*at, quarters)));
                format!("[{}]", turned.collect::<Vec<_>>().join(", "))
            }
        }
    }

    fn turned(&self, at: At, quarters: u32) -> At {
        let (x, y) = (at[0] - self.middle[0], at[1] - self.middle[1]);
        let (x, y) = (0..quarters).fold((x, y), |(x, y), _| (-y, x));
        [self.middle[0] + x, self.middle[1] + y]
    }
}

fn decimal(millimetres: i64) -> String {
    let sign = if millimetres < 0 { "-" } else { "" };
    let size = millimetres.abs();
    format!("{sign}{}.{:03}", size / 1000, size % 1000)
}

fn metres(at: At) -> String {
    format!("[{}, {}]", decimal(at[0]), decimal(at[1]))
}

/// The lot's corners, anticlockwise from the south-west.
fn lot(random: &mut Random, width: i64, depth: i64) -> (Vec<At>, &'static str) {
    let cut = random.within(3, 6) * 1000;
    match random.within(0, 4) {
        0 => (
            vec![[0, 0], [width, 0], [width, depth], [0, depth]],
            "plain lot",
        ),
        1 => (
            vec![
                [0, 0],
                [width, 0],
                [width, depth - cut],
                [width - cut, depth - cut],
                [width - cut, depth],
                [0, depth],
            ],
            "concave lot",
        ),
        2 => (
            vec![
                [0, 0],
                [width, 0],
                [width, depth],
                [width / 2, depth - cut],
                [0, depth],
            ],
            "lot with a dent",
        ),
        3 => (
            vec![
                [width - cut, 0],
                [width, 0],
                [width, depth],
                [0, depth],
                [0, cut],
                [width - cut, cut],
            ],
            "flag lot",
        ),
        _ => (
            vec![
                [0, 0],
                [width - cut, 0],
                [width, depth],
                [cut / 2, depth - cut / 2],
            ],
            "askew lot",
        ),
    }
}

/// What stands on the lot.
fn things(random: &mut Random, width: i64, depth: i64) -> (String, &'static str) {
    let (x, y) = (
        random.within(2, width / 2000) * 1000,
        random.within(6, 9) * 1000,
    );
    let house = |id: &str, x: i64, y: i64, length: i64, across: i64| {
        format!(
            "  - {{kind: building, id: {id}, source: survey, wall: {{rectangle: {{at: {}, length: {}, width: {}}}}}}}\n",
            metres([x, y]),
            decimal(length),
            decimal(across)
        )
    };
    let tree = |id: &str, x: i64, y: i64| {
        format!(
            "  - {{kind: tree, id: {id}, source: survey, stem: {{circle: {{at: {}, radius: 0.3}}}}}}\n",
            metres([x, y])
        )
    };
    let oak = tree(
        "oak",
        random.within(2000, width - 2000),
        random.within(2000, depth - 2000),
    );
    match random.within(0, 4) {
        0 => (
            format!("{oak}{}", house("house", x, y, 7000, 6000)),
            "a house and a tree",
        ),
        1 => {
            let wings = [
                house("west-wing", x, y, 1500, 8000),
                house("east-wing", x + 8500, y, 1500, 8000),
                house("rear-wing", x + 1500, y + 6500, 7000, 1500),
            ];
            (
                format!("{oak}{}", wings.concat()),
                "a house round a court, open to the front",
            )
        }
        2 => {
            let wings = [
                house("west-wing", x, y, 800, 9600),
                house("east-wing", x + 8800, y, 800, 9600),
                house("rear-wing", x + 800, y + 8800, 8000, 800),
                house("front-wing", x + 800, y, 8000, 800),
            ];
            (
                format!("{oak}{}", wings.concat()),
                "a house round a closed court",
            )
        }
        3 => {
            let trees = (0..5).map(|at| {
                tree(
                    &format!("tree-{at}"),
                    2500 + (width - 5000) * at / 4,
                    depth / 2 + (at % 2) * 3000,
                )
            });
            (
                format!("{oak}{}", trees.collect::<String>()),
                "islands of trees",
            )
        }
        _ => (
            format!(
                "{oak}{}",
                house("hall", 1000, depth / 2, width - 2000, 3000)
            ),
            "a hall across the lot",
        ),
    }
}

/// The pool, with its middle at 5 m east and 5 m north.
fn water(random: &mut Random) -> (Water, &'static str) {
    let half = |random: &mut Random, low, high| random.within(low, high) * 100;
    let (a, b) = (half(random, 10, 22), half(random, 18, 45));
    let (west, east, south, north) = (5000 - a, 5000 + a, 5000 - b, 5000 + b);
    match random.within(0, 3) {
        0 => (Water::Round([5000, 5000], a), "a round pool"),
        1 => (
            Water::Corners(vec![
                [west, south],
                [east, south],
                [east, 5000],
                [5000, 5000],
                [5000, north],
                [west, north],
            ]),
            "a pool with a notch",
        ),
        2 => (
            Water::Corners(vec![
                [west, south],
                [east, south],
                [east, north],
                [west, north],
            ]),
            "a rectangular pool",
        ),
        _ => {
            let long = b * 2;
            (
                Water::Corners(vec![
                    [west, 5000 - long],
                    [east, 5000 - long],
                    [east, 5000 + long],
                    [west, 5000 + long],
                ]),
                "a lap pool, which may fit one way only",
            )
        }
    }
}

/// Each of the rules asks for at least so much; sometimes far too much.
fn rules(random: &mut Random) -> String {
    let most = if random.once_in(8) { 9000 } else { 2400 };
    let mut limit = |low: i64| random.within(low, most);
    let (sides, front, houses, trees) = (limit(300), limit(600), limit(300), limit(200));
    let rule = |id: &str, each: &str, to: &str, limit: i64| {
        format!(
            "  - {{id: {id}, title: Title of {id}, clause: \"1\", each: {each}, require: {{distance: {{from: pool.water, to: {to}}}, at-least: {limit} mm}}}}\n"
        )
    };
    let front_only = "{kind: lot-line, where: {fact: lot-line.faces, is: front}}";
    format!(
        "ruleset: r\ntitle: T\nedition: \"1\"\nauthority: Nobody\nnotice: A test\nrules:\n{}{}{}{}",
        rule("lines", "lot-line", "lot-line", sides),
        rule("front", front_only, "lot-line", front),
        rule("houses", "building", "building.wall", houses),
        rule("trees", "tree", "tree.stem", trees)
    )
}
