//! Formulas for water and weight: flood storage, the lift of an empty shell, sagging wires.
//!
//! They put numbers to cautions and are never a design: an engineer decides.

use crate::quantity::{Interval, NO_HIGH, NO_LOW, ONE};

/// The flood storage that a fill takes up, in cubic nanometres: its area times the height of its part below the flood level.
/// A hole gives nothing back, since it is full of water already.
pub fn flood_storage_taken(
    area: Interval,
    ground: Interval,
    fill_top: Interval,
    flood: Interval,
) -> Interval {
    let deep = fill_top.min(flood).sub(ground).max(Interval::exact(0));
    let area = area.max(Interval::exact(0));
    let volume = deep.times(
        crate::quantity::Dimension::Length,
        area,
        crate::quantity::Dimension::Area,
    );
    volume.map_or(Interval::from_low(0), |(volume, _)| volume)
}

/// The mass of a volume of fresh water, at 1000 kg/m³, in milligrams. The water that a hollow shell displaces lifts this mass
/// (Archimedes' principle).
///
/// Compare with the mass of the empty shell. Only mass counts: no friction, no anchors.
pub fn mass_of_water(volume: Interval) -> Interval {
    const CUBIC_NANOMETRES_A_MILLIGRAM: i128 = ONE * ONE;
    let open = |end: i128| end == NO_LOW || end == NO_HIGH;
    let down = |end: i128| end.div_euclid(CUBIC_NANOMETRES_A_MILLIGRAM);
    Interval {
        low: if open(volume.low) {
            volume.low
        } else {
            down(volume.low)
        },
        high: match volume.high {
            high if open(high) => high,
            high => -down(-high),
        },
    }
}

/// The height of a wire between two supports, as a parabola, in nanometres, at a `share` of the span (0 to 1). The sag is how far
/// the wire hangs below the straight line in the middle of the span.
pub fn wire_height(one: Interval, other: Interval, sag: Interval, share: f64) -> Interval {
    let share = share.clamp(0.0, 1.0);
    let at = |one: i128, other: i128, sag: i128| {
        one as f64 * (1.0 - share) + other as f64 * share - 4.0 * sag as f64 * share * (1.0 - share)
    };
    let open = [one, other, sag]
        .iter()
        .any(|end| end.low == NO_LOW || end.high == NO_HIGH);
    match open {
        true => Interval::any(),
        false => Interval {
            low: at(one.low, other.low, sag.high).floor() as i128 - 1,
            high: at(one.high, other.high, sag.low).ceil() as i128 + 1,
        },
    }
}

#[cfg(test)]
#[path = "earth_tests.rs"]
mod tests;
