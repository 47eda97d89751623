//! Wires over the lot and the pool below: heights, and distances in space. They run level, or hang between two supports
//! on level ground or on two terraces.

use rules_core::plan::Point;
use rules_core::quantity::Dimension;

use super::asked::{Got, Measure};
use super::common::convex;
use super::site::{Fact, Site, Thing, drawn};
use super::{pool, shown};
use crate::measured::site::Shape;
use crate::measured::truth::{P, apart, p, part_way, to_shape};
use crate::soundness::evaluate::Undecided;
use crate::soundness::geometry;
use crate::soundness::number::Real;
use crate::soundness::random::Random;
use crate::soundness::words::METRE;

/// The measures asked for.
pub const MEASURES: &[Measure] = &[
    Measure {
        each: None,
        within: None,
        value: "distance: {from: pool.water, to: overhead-line.conductor, measured: in-space}",
        dimension: Dimension::Length,
        of: |world, _| nearest_wire(world, in_space).map(Got::One),
        exact: false,
    },
    Measure {
        each: Some("overhead-line"),
        within: None,
        value: "distance: {from: overhead-line.conductor, to: pool.water, measured: in-space}",
        dimension: Dimension::Length,
        of: |world, wire| in_space(world, &world.things[wire]).map(Got::One),
        exact: false,
    },
    Measure {
        each: None,
        within: None,
        value: "distance: {from: pool.water, to: overhead-line.conductor, measured: plumb}",
        dimension: Dimension::Length,
        of: |world, _| nearest_wire(world, plumb).map(Got::One),
        exact: true,
    },
    Measure {
        each: Some("overhead-line"),
        within: None,
        value: "distance: {from: pool.water, to: overhead-line.conductor, measured: plumb}",
        dimension: Dimension::Length,
        of: |world, wire| lowest(world, &world.things[wire]).map(Got::One),
        exact: false,
    },
];

/// The facts that say how a wire hangs: its heights where its path begins and ends, and its sag.
const HUNG: [&str; 3] = ["height-at-start", "height-at-end", "sag"];

/// One or two wires over level ground, level or hanging.
pub fn draw(random: &mut Random) -> Site {
    let at = (random.between(4, 16) * METRE, random.between(4, 16) * METRE);
    let mut pool = pool(random, at);
    pool.facts.push(rim(random));
    let mut site = Site::new((24 * METRE, 24 * METRE), pool, &shown(&["overhead-line"]));
    for number in 0..random.between(1, 2) {
        let mut place = |x| Point {
            x,
            y: random.between(-20, 260) * METRE / 10,
        };
        let path = Shape::Line(vec![place(-2 * METRE), place(26 * METRE)]);
        let wire = Thing::new("overhead-line", format!("wire-{number}"), random.below(2));
        let wire = wire.drawn("conductor", path);
        site.things.push(match random.below(5) {
            0 | 1 => wire.said("height", level(random)),
            _ => hung(random, wire, 40),
        });
    }
    site
}

/// A wire from one terrace to another with a slope between them, and the pool on one of them.
pub fn draw_on_terraces(random: &mut Random) -> Site {
    let left = random.chance(50);
    let across = random.between(0, 50) * METRE / 10 + if left { 0 } else { 18 * METRE };
    let at = (across, random.between(20, 180) * METRE / 10);
    let mut pool = pool(random, at);
    pool.facts.push(rim(random));
    let kinds = shown(&["overhead-line", "ground-spot"]);
    let mut site = Site::new((27 * METRE, 24 * METRE), pool, &kinds);
    site.level_ground = false;
    let levels = [0, 1].map(|_| random.between(98, 104) * METRE / 2);
    for column in 0..4_i64 {
        for row in 0..3_i64 {
            let place = Point {
                x: column * 9 * METRE,
                y: row * 12 * METRE,
            };
            let spot = Thing::new("ground-spot", format!("spot-{column}-{row}"), 0);
            let level = levels[usize::from(column > 1)];
            let spot = spot.drawn("place", Shape::Spot(place));
            site.things
                .push(spot.said("level", Fact::Length(level, level)));
        }
    }
    let mut place = |from: i64| Point {
        x: random.between(from, from + 80) * METRE / 10,
        y: random.between(5, 235) * METRE / 10,
    };
    let path = Shape::Line(vec![place(5), place(185)]);
    let wire = Thing::new("overhead-line", "wire".to_owned(), 0).drawn("conductor", path);
    site.things.push(hung(random, wire, 60));
    site
}

fn rim(random: &mut Random) -> (&'static str, Fact) {
    let rim = random.between(0, 12) * METRE / 10;
    ("height-above-ground", Fact::Length(rim, rim))
}

/// One height for all of a wire, or the range of its heights.
fn level(random: &mut Random) -> Fact {
    let height = random.between(40, 90) * METRE / 10;
    match random.chance(30) {
        true => {
            let most = height + random.between(1, 20) * METRE / 10;
            Fact::Along((height, height), (most, most))
        }
        false => Fact::Length(height, height),
    }
}

/// Adds the heights of its supports, each at least `least` tenths of a metre, and its sag.
fn hung(random: &mut Random, wire: Thing, least: i64) -> Thing {
    let tenths = |tenths: i64| Fact::Length(tenths * METRE / 10, tenths * METRE / 10);
    let all = [
        random.between(least, 100),
        random.between(least, 100),
        random.between(0, 25),
    ];
    let facts = HUNG.into_iter().zip(all);
    facts.fold(wire, |wire, (name, is)| wire.said(name, tenths(is)))
}

/// The nearest wire to the water.
fn nearest_wire(
    world: &Site,
    far: fn(&Site, &Thing) -> Result<Real, Undecided>,
) -> Result<Real, Undecided> {
    let mut nearest: Option<Real> = None;
    for wire in world.all("overhead-line") {
        let far = far(world, wire)?;
        nearest = Some(match nearest {
            Some(so_far) => so_far.lesser(far).ok_or(Undecided::Tie)?,
            None => far,
        });
    }
    nearest.ok_or(Undecided::NotKnown)
}

fn is_hung(wire: &Thing) -> bool {
    wire.fact("sag").is_some()
}

/// The height of a level wire above the rim, whether or not it crosses the water.
fn plumb(world: &Site, wire: &Thing) -> Result<Real, Undecided> {
    match wire.fact("height") {
        Some(Fact::Length(..)) => lowest(world, wire),
        _ => Err(Undecided::NotKnown),
    }
}

/// The height from the rim straight up to the lowest point of a wire.
fn lowest(world: &Site, wire: &Thing) -> Result<Real, Undecided> {
    let rim = world.pool().length("height-above-ground");
    match is_hung(wire) {
        true => Err(Undecided::NotKnown),
        false => Ok(Real::whole((wire.along("height").0 - rim).max(0).into())),
    }
}

fn in_space(world: &Site, wire: &Thing) -> Result<Real, Undecided> {
    if is_hung(wire) {
        return Hung::of(world, wire)?.to_the_water(world);
    }
    let (height, most) = wire.along("height");
    if height < most {
        return Err(Undecided::NotKnown);
    }
    let rim = world.pool().length("height-above-ground");
    let beside = drawn(wire.shape("conductor"));
    let beside = geometry::nearest(&drawn(world.pool().shape("water")), &beside).0;
    let far = libm::hypot(beside.approximately(), (height - rim).max(0) as f64);
    Ok(Real::about(far, 0.01))
}

/// The level of the ground at a place, from the rows of spots, linear between the columns on both sides.
fn ground(world: &Site, at: Point) -> Result<f64, Undecided> {
    if world.level_ground {
        return Ok(0.0);
    }
    let spots = world.all("ground-spot").step_by(3);
    let columns: Vec<(i64, i64)> = spots
        .map(|spot| (spot.shape("place").corners()[0].x, spot.length("level")))
        .collect();
    let strip = columns
        .windows(2)
        .find(|pair| pair[0].0 <= at.x && at.x <= pair[1].0);
    let strip = strip.ok_or(Undecided::NotKnown)?;
    let share = (at.x - strip[0].0) as f64 / (strip[1].0 - strip[0].0) as f64;
    Ok(strip[0].1 as f64 + share * (strip[1].1 - strip[0].1) as f64)
}

/// A wire that hangs under its own weight.
struct Hung {
    ends: (P, P),
    from: f64,
    to: f64,
    /// The curvature at its lowest point; zero for a straight wire.
    bend: f64,
}

impl Hung {
    fn of(world: &Site, wire: &Thing) -> Result<Hung, Undecided> {
        let line = wire.shape("conductor").corners();
        let height = |at: usize| Ok(ground(world, line[at])? + wire.length(HUNG[at]) as f64);
        let (ends, from, to) = ((p(line[0]), p(line[1])), height(0)?, height(1)?);
        let sag = wire.length("sag") as f64;
        let mut hung = Hung {
            ends,
            from,
            to,
            bend: 0.0,
        };
        // More curvature gives more sag.
        let (mut low, mut high) = (0.0, 10.0 / hung.span());
        for _ in 0..200 {
            hung.bend = f64::midpoint(low, high);
            match hung.sag() < sag {
                true => low = hung.bend,
                false => high = hung.bend,
            }
        }
        Ok(hung)
    }

    fn span(&self) -> f64 {
        apart(self.ends.0, self.ends.1)
    }

    /// The distance from its lowest point to its middle, in radii.
    fn middle(&self) -> f64 {
        let half = libm::sinh(self.span() * self.bend / 2.0);
        libm::asinh((self.to - self.from) * self.bend / (2.0 * half))
    }

    /// Its sag in the middle, below the straight line: `c·cosh(m)·(cosh(L / 2c) − 1)`.
    fn sag(&self) -> f64 {
        let quarter = libm::sinh(self.span() * self.bend / 4.0);
        libm::cosh(self.middle()) * 2.0 * quarter * quarter / self.bend
    }

    /// Its height at a share of its span.
    fn height(&self, share: f64) -> f64 {
        if self.bend * self.span() < 1e-9 {
            return self.from + share * (self.to - self.from);
        }
        let (span, along) = (self.span() * self.bend, share * self.span() * self.bend);
        let lowest = span / 2.0 - self.middle();
        let rise = libm::sinh(along / 2.0) * libm::sinh(along / 2.0 - lowest);
        self.from + 2.0 * rise / self.bend
    }

    /// The distance to the water, which stands at the rim. The horizontal distance to something convex and the height
    /// of a hanging wire are both convex, so ternary search finds the least.
    fn to_the_water(&self, world: &Site) -> Result<Real, Undecided> {
        let water = world.pool().shape("water");
        let grounds = convex(water)?
            .into_iter()
            .map(|corner| ground(world, corner));
        let grounds: Vec<f64> = grounds.collect::<Result<_, _>>()?;
        if grounds.iter().any(|level| *level != grounds[0]) {
            return Err(Undecided::NotKnown);
        }
        let rim = grounds[0] + world.pool().length("height-above-ground") as f64;
        let below = std::cell::Cell::new(false);
        let far = |share: f64| {
            let over = self.height(share) - rim;
            below.set(below.get() || over <= 0.0);
            libm::hypot(
                to_shape(part_way(self.ends.0, self.ends.1, share), water),
                over,
            )
        };
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..200 {
            let (one, two) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
            match far(one) <= far(two) {
                true => high = two,
                false => low = one,
            }
        }
        match below.get() {
            true => Err(Undecided::NotKnown),
            false => Ok(Real::about(far(f64::midpoint(low, high)), 5.0)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn site(heights: (i64, i64), sag: i64, pool: (i64, i64)) -> Site {
        let tenth = METRE / 10;
        let water = super::super::site::rectangle(
            (pool.0 * tenth, pool.1 * tenth),
            (40 * tenth, 30 * tenth),
        );
        let pool = Thing::new("pool", "pool".to_owned(), 0)
            .drawn("water", water)
            .said("height-above-ground", Fact::Length(3 * tenth, 3 * tenth));
        let place = |x: i64| Point { x: x * tenth, y: 0 };
        let length = |tenths: i64| Fact::Length(tenths * tenth, tenths * tenth);
        let wire = Thing::new("overhead-line", "wire".to_owned(), 0)
            .drawn("conductor", Shape::Line(vec![place(0), place(400)]))
            .said(HUNG[0], length(heights.0))
            .said(HUNG[1], length(heights.1))
            .said(HUNG[2], length(sag));
        let mut site = Site::new((40 * METRE, 40 * METRE), pool, &[]);
        site.things.push(wire);
        site
    }

    fn far(site: &Site) -> f64 {
        in_space(site, &site.things[1])
            .expect("a wire over it")
            .approximately()
            / 1e9
    }

    /// `docs/measures/heights.md`: with supports 8 m high and 40 m apart and 1 m of sag, the wire is 6.7 m above a rim
    /// 0.3 m high under the middle.
    #[test]
    fn in_the_middle_it_hangs_lower_by_its_sag() {
        assert!((far(&site((80, 80), 10, (180, -10))) - 6.7).abs() < 1e-6);
        assert!((far(&site((80, 80), 0, (180, -10))) - 7.7).abs() < 1e-6);
        // 4 m to the side: the square root of 6.7² + 4².
        assert!((far(&site((80, 80), 10, (180, 40))) - 7.803_204).abs() < 1e-5);
        // A quarter of the way along, a parabola would be 7.25 m up; the hanging wire differs by only millimetres.
        let hung = Hung::of(
            &site((80, 80), 10, (0, 0)),
            &site((80, 80), 10, (0, 0)).things[1],
        );
        assert!((hung.expect("hung").height(0.25) / 1e9 - 7.25).abs() < 2e-3);
    }
}
