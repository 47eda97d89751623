//! What digging, water and wind of branches do: lines of influence, root protection, flood, uplift, a sagging wire.
//!
//! Cautions with numbers, never a design: an engineer decides.

use crate::measure::figure::exact::Span;
use crate::quantity::{Interval, NO_HIGH, NO_LOW, ONE, Rounding};

/// How far a hole must stay from something in the ground so that a line falling away from that thing's foot, at a slope
/// of `run` to one, does not meet the hole: the hole's depth below that foot times the run, or nothing where the hole is
/// the shallower. All levels in one datum, in nanometres; the run in billionths (1:1 is one billion).
pub fn influence(foot: Interval, bottom: Interval, run: Interval) -> Interval {
    let below = foot.sub(bottom).max(Interval::exact(0));
    let product = below.times(
        crate::quantity::Dimension::Length,
        run.max(Interval::exact(0)),
        crate::quantity::Dimension::Number,
    );
    product.map_or(Interval::from_low(0), |(reach, _)| reach)
}

/// The radius of the ground that a tree's roots need: twelve times the stem's diameter at 1.5 m above the ground, no more
/// than 15 m (BS 5837, 4.6.1, from memory). Of several stems, the root of the sum of their squares counts.
pub fn root_protection(stems: &[Interval]) -> Interval {
    const TIMES: f64 = 12.0;
    const MOST: i128 = 15_000_000_000;
    let sum = |end: fn(&Interval) -> i128| {
        let squares = stems
            .iter()
            .map(|stem| end(stem).max(0) as f64)
            .map(|d| d * d);
        TIMES * squares.sum::<f64>().sqrt()
    };
    Interval {
        low: (sum(|stem| stem.low).floor() as i128 - 1).clamp(0, MOST),
        high: (sum(|stem| stem.high).ceil() as i128 + 1).clamp(0, MOST),
    }
}

/// By how much a rim stands over a flood level: negative where the flood comes over it. One datum for both.
pub fn freeboard(rim: Interval, flood: Interval) -> Interval {
    rim.sub(flood)
}

/// The room that filling takes from a flood, in cubic nanometres: the area filled times the height of the fill, but no
/// more of it than lies under the flood. A hole gives nothing back: it stands full of water already.
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

/// The force with which groundwater lifts an empty shell, in newtons: ρ·g·V of what lies below the water, with fresh
/// water of 1000 kg/m³ and g = 9.80665 m/s². The area in square nanometres, the levels in nanometres.
///
/// Compare with the weight of the empty shell. Nothing is counted on but weight: no friction, no anchors.
pub fn uplift(area: Interval, underside: Interval, groundwater: Interval) -> Interval {
    const DENSITY_TIMES_G: i128 = 9_806_650; // millinewtons a cubic metre
    let volume = flood_storage_taken(area, underside, groundwater, groundwater);
    let force = |cubic: i128, rounding: Rounding| {
        if cubic == NO_HIGH {
            return NO_HIGH;
        }
        let (cubic_mm, rest) = (cubic / ONE / ONE, cubic % (ONE * ONE));
        let up = i128::from(rounding == Rounding::Up);
        // 1e9 cubic millimetres a cubic metre, 1000 millinewtons a newton.
        let scaled = (cubic_mm + i128::from(rest > 0) * up).saturating_mul(DENSITY_TIMES_G);
        scaled.div_euclid(ONE * 1000) + i128::from(scaled.rem_euclid(ONE * 1000) > 0) * up
    };
    Interval {
        low: force(volume.low, Rounding::Down),
        high: force(volume.high, Rounding::Up),
    }
}

/// The mass of so much fresh water, of 1000 kg/m³, in milligrams: what a hollow shell pushes aside lifts it by as much
/// (Archimedes' principle).
///
/// Compare with the mass of the empty shell. Nothing is counted on but that: no friction, no anchors.
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

/// The height of a wire between two supports, as a parabola, in nanometres: `share` of the way (0 to 1) from the one to the
/// other, where the sag is how far the wire hangs below the straight line in the middle of the span.
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

/// The least height of a wire between two supports, and what share of the way from the one it lies.
///
/// With supports of heights a and b and a sag s the lowest place is at ½ + (a − b)/(8 s) of the span, if that is between
/// the supports; else it is the lower support.
pub fn lowest_of_wire(one: Interval, other: Interval, sag: Interval) -> (Interval, f64) {
    let lowest_share = |a: f64, b: f64, s: f64| match s > 0.0 {
        true => (0.5 + (a - b) / (8.0 * s)).clamp(0.0, 1.0),
        false if a <= b => 0.0,
        false => 1.0,
    };
    let at = |a: i128, b: i128, s: i128| {
        let share = lowest_share(a as f64, b as f64, s as f64);
        (
            share,
            wire_height(
                Interval::exact(a),
                Interval::exact(b),
                Interval::exact(s),
                share,
            ),
        )
    };
    // The lowest place of a wire falls with its supports and with its sag, so the ends of the intervals suffice.
    let (low, high) = (
        at(one.low, other.low, sag.high),
        at(one.high, other.high, sag.low),
    );
    let range = Interval {
        low: low.1.low,
        high: high.1.high,
    };
    (range, f64::midpoint(low.0, high.0))
}

/// How near the tip of a lifting machine may come to an overhead wire, seen from the side: the level distance from where
/// it stands less its reach, and the height of the wire over the load. Zero where it may touch.
pub fn lifting_clearance(level: Span, reach: i64, tip: i64, wire: Interval) -> Span {
    let along = Span {
        low: level.low.saturating_sub(reach).max(0),
        high: level.high.saturating_sub(reach).max(0),
    };
    // The tip may be anywhere from the ground to its greatest height.
    let narrow =
        |end: i128| i64::try_from(end).unwrap_or(if end < 0 { i64::MIN } else { i64::MAX });
    let over = Span {
        low: narrow(wire.low).saturating_sub(tip).max(0),
        high: narrow(wire.high).saturating_sub(tip).max(0),
    };
    crate::measure::distance::space::in_space(along, over)
}

/// How high a load must be lifted to pass over a wire with some room below it, measured at the load's underside.
/// In nanometres over the ground.
pub fn lift_over(wire: Interval, room: Interval) -> Interval {
    wire.add(room)
}

/// So many steps of no more than `step` lead to a depth.
pub fn steps_to(depth: i64, step: i64) -> Option<i64> {
    (step > 0 && depth >= 0).then(|| depth.div_euclid(step) + i64::from(depth.rem_euclid(step) > 0))
}

/// The fall of a pipe or of the ground along a length, as a share in billionths.
pub fn fall(from: Interval, to: Interval, length: Interval) -> Interval {
    from.sub(to).divide(length)
}

/// The heat that a heat pump gives, in microwatts: the power that it takes times its coefficient of performance (billionths).
pub fn heat(power: Interval, performance: Interval) -> Interval {
    let product = power.times(
        crate::quantity::Dimension::Power,
        performance,
        crate::quantity::Dimension::Number,
    );
    product.map_or(Interval::from_low(0), |(heat, _)| heat)
}

#[cfg(test)]
#[path = "earth_tests.rs"]
mod tests;
