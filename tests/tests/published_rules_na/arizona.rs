//! Arizona.

use super::Good::{AtLeast, AtMost, LessThan, MoreThan};
use super::{Row, row};

const AZ_LAW: &str =
    "ARS 36-1681, https://poolsafefencing.com/blog/arizona-pool-fence-laws-a-comprehensive-guide/";
const AZ_COPY: &str = "ARS 36-1681, https://movephoenix.com/residential-pool-safety/";

pub const ARIZONA: &[Row] = &[
    row(
        "decide statute",
        "pool: {depth: {}}",
        AtLeast,
        "18 in",
        AZ_LAW,
    )
    .gives("applies", "does-not-apply"),
    row(
        "decide statute",
        "pool: {greatest-width: {}}",
        MoreThan,
        "8 ft",
        AZ_LAW,
    )
    .gives("applies", "does-not-apply"),
    row(
        "height",
        "things: [{id: fence, height-outside: {}}]",
        AtLeast,
        "5 ft",
        AZ_LAW,
    ),
    row(
        "openings",
        "things: [{id: fence, opening: {}}]",
        LessThan,
        "4 in",
        AZ_LAW,
    ),
    row(
        "openings",
        "things: [{id: fence, gap-below: {}}]",
        LessThan,
        "4 in",
        AZ_LAW,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, height: {}}]",
        AtLeast,
        "5 ft",
        AZ_LAW,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, gap-below: {}}]",
        LessThan,
        "4 in",
        AZ_LAW,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, opening: {}}]",
        LessThan,
        "4 in",
        AZ_LAW,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, opening-near-latch: {}}]",
        AtMost,
        "0.5 in",
        AZ_COPY,
    ),
    row(
        "rails",
        "things: [{id: fence, vertical-gap: 3 in, rail-spacing: {}}]",
        AtLeast,
        "45 in",
        AZ_LAW,
    ),
    row(
        "rails",
        "things: [{id: fence, vertical-gap: {}}]",
        AtMost,
        "1.75 in",
        AZ_LAW,
    ),
    row(
        "wire-mesh",
        "things: [{id: chain, mesh: {}}]",
        AtMost,
        "1.75 in",
        AZ_LAW,
    ),
    row(
        "to-water",
        "things: [{id: fence, pool-face: [[{}, -10], [{}, 10]]}]",
        AtLeast,
        "20 in",
        AZ_COPY,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, latch-side: outside, latch-height: {}}]",
        AtLeast,
        "54 in",
        AZ_COPY,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, latch-below-top: {}}]",
        AtLeast,
        "5 in",
        AZ_COPY,
    ),
    row(
        "gate-latch",
        "things: [{id: slot, width: {}}]",
        AtMost,
        "0.5 in",
        AZ_COPY,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, latch: [0, 0]}, {id: slot, width: 2 in, line: [[{}, 0], [3, 0]]}]",
        AtMost,
        "24 in",
        AZ_COPY,
    )
    .gives("fail", "pass"),
    row(
        "house-wall",
        "things: [{id: door, self-latching: no, inner-barrier-height: {}}]",
        AtLeast,
        "4 ft",
        AZ_COPY,
    ),
    row(
        "house-wall",
        "things: [{id: window, opens-by: {}}]",
        AtMost,
        "4 in",
        AZ_COPY,
    ),
    row(
        "house-wall",
        "things: [{id: door, latch-height: {}}]",
        AtLeast,
        "54 in",
        AZ_COPY,
    ),
    row(
        "house-wall",
        "things: [{id: window, rescue: yes, self-latching: yes, latch-height: {}}]",
        AtLeast,
        "54 in",
        AZ_COPY,
    ),
    row(
        "from-home",
        "things: [{id: door, self-latching: no, inner-barrier-height: {}}]",
        AtLeast,
        "4 ft",
        AZ_COPY,
    ),
];
