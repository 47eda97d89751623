//! The sound level of machines at a place outdoors.
//!
//! The level of one machine is its sound power level minus the loss by spreading, plus a gain for each hard surface that
//! reflects the sound: Lp = Lw − 20·lg(r / 1 m) − 11 + 3·s decibels, with the constants as ISO 9613-2 rounds them (at most
//! 2.5 % of the energy). The ground is one of the surfaces. The energies of several machines add up.

use crate::quantity::{Interval, NO_HIGH, NO_LOW};

const MICRO: f64 = 1e6;
const METRE: f64 = 1e9;
const ONE: f64 = 1e9;
/// The loss by spreading over a whole sphere at one metre, in decibels.
const SPHERE: f64 = 11.0;
/// The gain for each reflecting surface, in decibels.
const SURFACE: f64 = 3.0;
/// A margin of a millionth of a decibel, a thousand times the error of the logarithm in its last digits.
const ROUNDING: f64 = 1.0;

/// Nearer than this, in nanometres, the formula is too simple: it only shows that a machine is no quieter than at this distance.
const CLOSE: i128 = 1_000_000_000;

/// The level of one machine, in millionths of a decibel. There is no low end where its distance has no upper bound, and no high
/// end where it may be right at the place. Nearer than a metre the low end is the level at one metre.
///
/// The power is in millionths of a decibel, the distance in nanometres, the number of reflecting surfaces besides the ground in
/// billionths.
pub fn level(power: Interval, distance: Interval, surfaces: Interval) -> Interval {
    let farthest = distance.greatest().map(|far| far.max(CLOSE));
    let low = one(power.least(), farthest, surfaces.least());
    let high = one(power.greatest(), distance.least(), surfaces.greatest());
    Interval {
        low: low.map_or(NO_LOW, |low| (low - ROUNDING).floor() as i128),
        high: high.map_or(NO_HIGH, |high| (high + ROUNDING).ceil() as i128),
    }
}

fn one(power: Option<i128>, distance: Option<i128>, surfaces: Option<i128>) -> Option<f64> {
    let (power, distance, surfaces) = (power? as f64, distance? as f64, surfaces? as f64);
    let spread = 20.0 * libm::log10(distance / METRE) + SPHERE;
    let thrown_back = SURFACE * (1.0 + surfaces / ONE);
    (distance > 0.0).then_some(power + (thrown_back - spread) * MICRO)
}

/// The level of several machines together, in millionths of a decibel: their energies add up.
///
/// Levels below 0 decibels, which nobody hears, count as 0, and so does silence.
pub fn together(levels: &[Interval]) -> Interval {
    let sum = |end: fn(Interval) -> Option<i128>| {
        let energies = levels.iter().filter_map(|level| end(*level));
        let energy: f64 = energies
            .map(|level| libm::pow(10.0, level as f64 / MICRO / 10.0))
            .sum();
        10.0 * libm::log10(energy.max(1.0)) * MICRO
    };
    let endless = levels.iter().any(|level| level.high == NO_HIGH);
    Interval {
        low: ((sum(Interval::least) - ROUNDING).floor() as i128).max(0),
        high: match endless {
            true => NO_HIGH,
            false => match sum(Interval::greatest) {
                silence if silence <= 0.0 => 0,
                level => (level + ROUNDING).ceil() as i128,
            },
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::figure::random::Dice;

    const M: i128 = 1_000_000_000;

    fn exactly(power: i128, metres: i128, surfaces: i128) -> Interval {
        let exact = Interval::exact;
        level(
            exact(power * 1_000_000),
            exact(metres * M),
            exact(surfaces * M),
        )
    }

    fn decibels(level: Interval) -> f64 {
        assert!(level.high - level.low <= 4, "{level:?}");
        level.low as f64 / MICRO
    }

    /// ISO 9613-2, 7.1 and table of the solid angle index, from memory: 11 dB at 1 m in the open, 3, 6 and 9 dB less
    /// over ground, at a wall on the ground and in a corner. Double the distance: 6 dB.
    #[test]
    fn spreading_and_reflection_as_published() {
        for (surfaces, at_1_m) in [(0, -8.0), (1, -5.0), (2, -2.0)] {
            assert!((decibels(exactly(0, 1, surfaces)) - at_1_m).abs() < 1e-5);
        }
        assert!((decibels(exactly(65, 10, 0)) - 37.0).abs() < 1e-5);
        let doubled = decibels(exactly(65, 5, 0)) - decibels(exactly(65, 10, 0));
        assert!((doubled - 6.0206).abs() < 1e-4);
    }

    /// The table by distance and directivity in a heat pump maker's planning manual of February 2022, p. 99, rounded
    /// there to half decibels; and its example: 67 dB at a wall gives 42 dB at 10 m and 36 dB at 20 m.
    #[test]
    fn the_table_of_a_planning_manual() {
        let table = [
            (1, 8.0),
            (2, 14.0),
            (4, 20.0),
            (5, 22.0),
            (6, 23.5),
            (8, 26.0),
            (10, 28.0),
            (12, 29.5),
            (15, 31.5),
        ];
        for (metres, less) in table {
            for surfaces in [0, 1, 2] {
                let expected = 3.0 * surfaces as f64 - less;
                assert!(
                    (decibels(exactly(0, metres, surfaces)) - expected).abs() < 0.15,
                    "{metres} m"
                );
            }
        }
        assert!((decibels(exactly(67, 10, 1)) - 42.0).abs() < 0.1);
        assert!((decibels(exactly(67, 20, 1)) - 36.0).abs() < 0.1);
    }

    /// Two equal levels add 10·lg 2 = 3.01 dB; a level 10 dB lower adds 0.41 dB (as in any table for adding levels).
    #[test]
    fn energies_add() {
        let level = |decibels: i128| Interval::exact(decibels * 1_000_000);
        let sum = |levels: &[i128]| {
            decibels(together(
                &levels.iter().map(|l| level(*l)).collect::<Vec<_>>(),
            ))
        };
        assert!((sum(&[50, 50]) - 53.0103).abs() < 1e-4);
        assert!((sum(&[50, 40]) - 50.4139).abs() < 1e-4);
        assert!((sum(&[50]) - 50.0).abs() < 1e-4);
        assert_eq!(together(&[]), Interval::exact(0));
        assert_eq!(together(&[Interval::from_low(0)]).high, NO_HIGH);
        let perhaps = Interval {
            low: NO_LOW,
            high: 40_000_000,
        };
        assert!((together(&[level(50), perhaps]).low - 50_000_000).abs() < 4);
    }

    #[test]
    fn a_machine_at_the_place_or_anywhere_has_no_bound() {
        let (power, none) = (Interval::exact(60_000_000), Interval::exact(0));
        let near = level(power, Interval { low: 0, high: M }, none);
        assert_eq!(near.high, NO_HIGH);
        assert!((near.low - 52_000_000).abs() < 4);
        let at_it = level(power, Interval::exact(0), none);
        assert_eq!(at_it, near, "it is no quieter there than a metre away");
        let far = level(power, Interval::from_low(M), none);
        assert_eq!(far.low, NO_LOW);
    }

    /// Exact machines are drawn first, then intervals around them; their squared pressures are added up.
    #[test]
    fn the_interval_contains_every_world() {
        let mut dice = Dice::new(41);
        for _ in 0..2_000 {
            let count = dice.from(1, 4);
            let (mut levels, mut squared) = (Vec::new(), 0.0);
            for _ in 0..count {
                let mut pick = |least: i64, most: i64, off: i64| {
                    let truth = dice.from(least, most);
                    let (below, above) = (dice.from(0, off), dice.from(0, off));
                    let low = i128::from((truth - below).max(least));
                    let high = i128::from(truth + above);
                    (truth as f64, Interval { low, high })
                };
                let (power, powers) = pick(30_000_000, 90_000_000, 3_000_000);
                let (far, fars) = pick(100_000_000, 60_000_000_000, 2_000_000_000);
                let (surfaces, many) = pick(0, 3_000_000_000, 1_000_000_000);
                levels.push(level(powers, fars, many));
                // Bels to pressures: 10^(Lw/10) spread over the part of a sphere, with the published constants.
                let gain = libm::pow(
                    10.0,
                    (power / 1e6 - 11.0 + 3.0 + 3.0 * surfaces / 1e9) / 10.0,
                );
                squared += gain / (far / 1e9) / (far / 1e9);
            }
            let truth = (10.0 * libm::log10(squared)).max(0.0) * 1e6;
            let all = together(&levels);
            assert!(
                all.low as f64 <= truth && truth <= all.high as f64,
                "{truth} {all:?}"
            );
        }
    }
}
