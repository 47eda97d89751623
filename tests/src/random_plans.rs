//! Random plans as text: the same seed gives the same text on every machine, native or in the browser.
//!
//! They are written as people write: in metres or in feet, exact or give or take, with things left out. The data is
//! invented.

pub mod measures;

use std::fmt::Write as _;

/// A small generator of random numbers (a 64-bit xorshift, as in Marsaglia 2003, "Xorshift RNGs").
pub struct Random(u64);

impl Random {
    /// The generator of a seed.
    pub fn new(seed: u64) -> Self {
        Random(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    /// A whole number from `low` to `high`, both included.
    pub fn within(&mut self, low: i64, high: i64) -> i64 {
        let size = u64::try_from(high - low + 1).unwrap_or(1);
        low + i64::try_from(self.next() % size).unwrap_or(0)
    }

    /// True once in `times` times, on average.
    pub fn once_in(&mut self, times: i64) -> bool {
        self.within(1, times) == 1
    }

    /// One of these.
    pub fn pick<'t>(&mut self, list: &[&'t str]) -> &'t str {
        let last = i64::try_from(list.len()).unwrap_or(1) - 1;
        let at = usize::try_from(self.within(0, last)).unwrap_or(0);
        list.get(at).copied().unwrap_or("")
    }

    /// A length between two numbers of millimetres, written in one of the ways people do.
    fn length(&mut self, low: i64, high: i64) -> String {
        match self.once_in(5) {
            true => format!("{} mm ± {} mm", self.within(low, high), self.within(1, 60)),
            false => self.drawn(low, high),
        }
    }

    /// The same without a ±, because drawn things get their accuracy from their source.
    fn drawn(&mut self, low: i64, high: i64) -> String {
        let millimetres = self.within(low, high);
        match self.within(0, 3) {
            0 => format!("{millimetres} mm"),
            1 => format!("{}.{:03} m", millimetres / 1000, millimetres % 1000),
            2 => format!("{} in", millimetres * 10 / 254),
            _ => {
                let inches = millimetres * 10 / 254;
                format!("{} ft {} in", inches / 12, inches % 12)
            }
        }
    }

    /// A place within ranges in millimetres, written in metres.
    fn place(&mut self, x: (i64, i64), y: (i64, i64)) -> (String, String) {
        let metres = |millimetres: i64| {
            let sign = if millimetres < 0 { "-" } else { "" };
            let size = millimetres.unsigned_abs();
            format!("{sign}{}.{:03}", size / 1000, size % 1000)
        };
        let (x, y) = (self.within(x.0, x.1), self.within(y.0, y.1));
        (metres(x), metres(y))
    }
}

/// The text of a random plan.
pub fn plan(seed: u64) -> String {
    let mut random = Random::new(seed);
    let mut text = format!("plan: random-{seed}\ntitle: Random plan {seed}\nunit: m\n");
    sources(&mut random, &mut text);
    lot(&mut random, &mut text);
    pool(&mut random, &mut text);
    things(&mut random, &mut text);
    inventory(&mut random, &mut text);
    text
}

fn sources(random: &mut Random, text: &mut String) {
    let (fine, coarse, shift) = (
        random.within(0, 60),
        random.within(100, 900),
        random.within(0, 900),
    );
    let _ = writeln!(
        text,
        "sources:\n  - {{id: survey, by: survey, accuracy: {fine} mm, shift: 0 mm}}"
    );
    let _ = writeln!(
        text,
        "  - {{id: town-map, by: map, accuracy: {coarse} mm, shift: {shift} mm}}"
    );
    if random.once_in(2) {
        let _ = writeln!(
            text,
            "dates: {{applied: 20{:02}-{:02}-{:02}}}",
            random.within(20, 29),
            random.within(1, 12),
            random.within(1, 28)
        );
    }
    let role = random.pick(&["owner-occupier", "licensed-contractor"]);
    if random.once_in(2) {
        let _ = writeln!(text, "applicant: {{role: {role}}}");
    }
}

fn lot(random: &mut Random, text: &mut String) {
    let (w, d, slant) = (
        random.within(18, 40),
        random.within(25, 60),
        random.within(-3, 3),
    );
    let source = random.pick(&["survey", "survey", "town-map"]);
    let _ = writeln!(
        text,
        "lot:\n  source: {source}\n  corners: {{a: [0, 0], b: [{w}, 0], c: [{}, {d}], d: [{slant}, {d}]}}",
        w + slant
    );
    let street = random.pick(&["side", "side", "street-side"]);
    let _ = writeln!(text, "  sides:");
    for (id, from, to, faces, beyond) in [
        ("front", "a", "b", "front", "road"),
        (
            "right",
            "b",
            "c",
            street,
            if street == "side" {
                "neighbour-lot"
            } else {
                "road"
            },
        ),
        ("rear", "c", "d", "rear", "neighbour-lot"),
        ("left", "d", "a", "side", "neighbour-lot"),
    ] {
        let faces = if random.once_in(12) {
            String::new()
        } else {
            format!(", faces: {faces}")
        };
        let _ = writeln!(
            text,
            "    - {{id: {id}, from: {from}, to: {to}{faces}, beyond: {beyond}}}"
        );
    }
}

fn pool(random: &mut Random, text: &mut String) {
    let (x, y) = random.place((1_000, 22_000), (1_000, 45_000));
    let (length, width, turned) = (
        random.drawn(3_000, 10_000),
        random.drawn(2_000, 5_000),
        random.within(0, 89),
    );
    let _ = writeln!(
        text,
        "pool:\n  id: pool\n  source: survey\n  accuracy: {} mm",
        random.within(0, 80)
    );
    let shape = random.within(0, 3);
    let _ = match shape {
        0 => writeln!(
            text,
            "  water: {{circle: {{at: [{x}, {y}], radius: {width}}}}}"
        ),
        _ => writeln!(
            text,
            "  water: {{rectangle: {{at: [{x}, {y}], length: {length}, width: {width}, turned: {turned} deg}}}}"
        ),
    };
    let corners = if shape == 0 {
        "round"
    } else {
        random.pick(&["round", "square"])
    };
    let _ = writeln!(
        text,
        "  coping: {{outward: {}, from: water, corners: {corners}}}",
        random.drawn(200, 500)
    );
    let _ = writeln!(
        text,
        "  shell: {{outward: {}, from: water, corners: {corners}}}",
        random.drawn(150, 300)
    );
    let _ = writeln!(
        text,
        "  excavation: {{outward: {}, from: shell, corners: round}}",
        random.drawn(300, 1_200)
    );
    for (fact, low, high) in [("depth", 300, 2_500), ("excavation-depth", 500, 3_000)] {
        if !random.once_in(5) {
            let _ = writeln!(text, "  {fact}: {}", random.length(low, high));
        }
    }
    if random.once_in(2) {
        let _ = writeln!(
            text,
            "  construction: {}",
            random.pick(&["in-ground", "on-ground", "above-ground"])
        );
    }
    if random.once_in(2) {
        let _ = writeln!(text, "  standing-time: {} months", random.within(1, 36));
    }
}

fn things(random: &mut Random, text: &mut String) {
    let _ = writeln!(text, "things:");
    building(random, text);
    for index in 0..random.within(0, 3) {
        line(random, text, index);
    }
    for index in 0..random.within(0, 5) {
        stretch(random, text, index);
    }
    for index in 0..random.within(0, 2) {
        gate(random, text, index);
    }
    for index in 0..random.within(0, 3) {
        let (x, y) = random.place((-10_000, 40_000), (-10_000, 60_000));
        let _ = writeln!(
            text,
            "  - {{kind: well, id: well-{index}, source: town-map, casing: [{x}, {y}]}}"
        );
    }
}

fn building(random: &mut Random, text: &mut String) {
    let (x, y) = (random.within(2, 6), random.within(5, 9));
    let (w, d) = (random.within(7, 13), random.within(6, 10));
    let wall = format!(
        "[[{x}, {y}], [{}, {y}], [{}, {}], [{x}, {}]]",
        x + w,
        x + w,
        y + d,
        y + d
    );
    let _ = writeln!(
        text,
        "  - kind: building\n    id: house\n    source: survey\n    wall: {wall}\n    footing: {wall}\n    use: dwelling"
    );
    if !random.once_in(4) {
        let _ = writeln!(text, "    footing-depth: {}", random.length(400, 2_500));
    }
}

fn line(random: &mut Random, text: &mut String, index: i64) {
    let (from, to) = (
        random.place((-20_000, 0), (-5_000, 60_000)),
        random.place((30_000, 60_000), (-5_000, 60_000)),
    );
    let path = format!("[[{}, {}], [{}, {}]]", from.0, from.1, to.0, to.1);
    let kind = random.pick(&["overhead-line", "buried-service"]);
    let _ = writeln!(
        text,
        "  - kind: {kind}\n    id: line-{index}\n    source: town-map\n    path: {path}"
    );
    if kind == "overhead-line" {
        let height = match random.within(0, 2) {
            0 => format!(
                "{{from: {}, to: {}}}",
                random.length(4_000, 5_000),
                random.length(5_100, 9_000)
            ),
            1 => format!("{} m .. {} m", random.within(4, 6), random.within(7, 10)),
            _ => random.length(4_000, 12_000),
        };
        let _ = writeln!(text, "    conductor: {path}\n    height: {height}");
        if !random.once_in(3) {
            let _ = writeln!(
                text,
                "    voltage: {} V",
                random.pick(&["230", "400", "750", "751", "11000", "20000"])
            );
        }
    } else if !random.once_in(3) {
        let _ = writeln!(text, "    depth: {}", random.length(300, 2_000));
    }
}

fn stretch(random: &mut Random, text: &mut String, index: i64) {
    let (from, to) = (
        random.place((0, 30_000), (0, 50_000)),
        random.place((0, 30_000), (0, 50_000)),
    );
    let _ = writeln!(
        text,
        "  - kind: barrier-stretch\n    id: fence-{index}\n    source: survey\n    line: [[{}, {}], [{}, {}]]\n    type: {}",
        from.0,
        from.1,
        to.0,
        to.1,
        random.pick(&["picket", "chain-link", "solid", "hedge"]),
    );
    for (fact, low, high) in [
        ("height-outside", 1_000, 1_500),
        ("gap-below", 20, 150),
        ("vertical-gap", 20, 150),
    ] {
        if !random.once_in(4) {
            let _ = writeln!(text, "    {fact}: {}", random.length(low, high));
        }
    }
    if random.once_in(2) {
        let _ = writeln!(text, "    ground: {}", random.pick(&["soft", "solid"]));
    }
}

fn gate(random: &mut Random, text: &mut String, index: i64) {
    let _ = writeln!(
        text,
        "  - kind: gate\n    id: gate-{index}\n    source: survey"
    );
    for (fact, low, high) in [("latch-height", 1_000, 1_700), ("latch-below-top", 50, 150)] {
        if !random.once_in(3) {
            let _ = writeln!(text, "    {fact}: {}", random.length(low, high));
        }
    }
    for fact in ["self-closing", "self-latching"] {
        if !random.once_in(3) {
            let _ = writeln!(text, "    {fact}: {}", random.pick(&["yes", "no"]));
        }
    }
}

fn inventory(random: &mut Random, text: &mut String) {
    let _ = writeln!(text, "inventory:");
    for kind in [
        "building",
        "overhead-line",
        "buried-service",
        "barrier-stretch",
        "gate",
        "well",
    ] {
        let looked = match random.within(0, 3) {
            0 => "not-checked".to_owned(),
            1 => format!("{{all-shown: {{within: {} m}}}}", random.within(0, 60)),
            _ => "all-shown".to_owned(),
        };
        let _ = writeln!(text, "  {kind}: {looked}");
    }
    for kind in [
        "septic-part",
        "easement",
        "drainage-path",
        "flood-area",
        "railway",
    ] {
        if random.once_in(2) {
            let _ = writeln!(text, "  {kind}: none");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_seed_gives_the_same_text() {
        assert_eq!(plan(7), plan(7));
        assert_ne!(plan(7), plan(8));
    }
}
