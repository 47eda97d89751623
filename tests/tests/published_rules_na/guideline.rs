//! The consumer agency's guideline.

use super::Good::{AtLeast, AtMost, LessThan};
use super::{Row, row};

const MEMORY: &str = "from memory";
const OSCEOLA: &str = "CPSC 362, http://www.swimsafeosceola.com/PoolBarriers.html";
const TALLER: &str =
    "CPSC 362, http://dreambox-zone.info/comfort-pool-fence/large-space-pool-fence-regulations/";
const MOMS: &str = "CPSC 362, older, https://momsteam.com/sports/swimming/safety/swimming-pool-guidelines?page=0%2C3";
const PICKETS: &str = "CPSC 362, https://hinarratives.com/reference/pools-spas/";

pub const GUIDELINE: &[Row] = &[
    row(
        "height",
        "things: [{id: pickets, height-outside: {}}]",
        AtLeast,
        "48 in",
        OSCEOLA,
    ),
    row(
        "preferred-height",
        "things: [{id: pickets, height-outside: {}}]",
        AtLeast,
        "5 ft",
        TALLER,
    ),
    row(
        "gap-below",
        "{answers: {cpsc-printing: older}, things: [{id: pickets, gap-below: {}}]}",
        AtMost,
        "4 in",
        OSCEOLA,
    ),
    row(
        "gap-below",
        "things: [{id: pickets, gap-below: {}}]",
        AtMost,
        "2 in",
        MEMORY,
    ),
    row(
        "gap-below",
        "things: [{id: chain, gap-below: {}}]",
        AtMost,
        "4 in",
        MEMORY,
    ),
    row(
        "openings",
        "things: [{id: pickets, opening: {}}]",
        LessThan,
        "4 in",
        OSCEOLA,
    ),
    row(
        "rails",
        "things: [{id: pickets, rail-spacing: {}, vertical-gap: 3 in}]",
        AtLeast,
        "45 in",
        PICKETS,
    ),
    row(
        "rails",
        "things: [{id: pickets, vertical-gap: {}}]",
        AtMost,
        "1.75 in",
        MEMORY,
    ),
    row(
        "rails",
        "things: [{id: ornamental, vertical-gap: {}}]",
        AtMost,
        "4 in",
        PICKETS,
    ),
    row(
        "chain-link",
        "{answers: {cpsc-printing: older}, things: [{id: chain, mesh: {}}]}",
        AtMost,
        "1.25 in",
        MOMS,
    ),
    row(
        "chain-link",
        "things: [{id: chain, mesh: {}}]",
        AtMost,
        "1.75 in",
        MEMORY,
    ),
    row(
        "lattice",
        "things: [{id: slatted, opening: {}}]",
        AtMost,
        "1.75 in",
        MOMS,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, latch-side: outside, latch-height: {}}]",
        AtLeast,
        "54 in",
        MOMS,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, latch-below-top: {}}]",
        AtLeast,
        "3 in",
        OSCEOLA,
    ),
    row(
        "gate-latch",
        "things: [{id: slot, width: {}}]",
        AtMost,
        "0.5 in",
        OSCEOLA,
    ),
    row(
        "door-alarm",
        "things: [{id: door, alarm-switch-height: {}}]",
        AtLeast,
        "54 in",
        MOMS,
    ),
];
