//! New York.

use super::Good::{AtLeast, AtMost, LessThan, MoreThan};
use super::{Row, row};

const NY_CODE: &str =
    "RCNYS R328 of 2025, a copy, https://github.com/thexqin/us-building-codes-dataset";
const NY_TOWN: &str =
    "a town's handout, https://townofmendon.org/2021/03/pool-information-and-regulations/";
const NY_LAW: &str = "Executive Law 378(14)(a), https://legiscan.com/NY/text/A09888/id/2998779/New_York-2023-A09888-Amended.html";

pub const NEW_YORK: &[Row] = &[
    row(
        "decide scope",
        "pool: {depth: {}}",
        MoreThan,
        "24 in",
        NY_CODE,
    )
    .gives("apply", "do-not-apply"),
    row(
        "height",
        "things: [{id: fence, height-outside: {}}]",
        AtLeast,
        "48 in",
        NY_CODE,
    ),
    row(
        "gap-below",
        "things: [{id: fence, gap-below: {}}]",
        AtMost,
        "2 in",
        NY_CODE,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, height: {}}]",
        AtLeast,
        "48 in",
        NY_CODE,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, gap-below: {}}]",
        AtMost,
        "2 in",
        NY_CODE,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, opening: {}}]",
        LessThan,
        "4 in",
        NY_TOWN,
    ),
    row(
        "openings",
        "things: [{id: fence, opening: {}}]",
        LessThan,
        "4 in",
        NY_TOWN,
    ),
    row(
        "rails",
        "things: [{id: pickets, vertical-gap: 3 in, rail-spacing: {}}]",
        AtLeast,
        "45 in",
        NY_CODE,
    ),
    row(
        "rails",
        "things: [{id: pickets, vertical-gap: {}}]",
        AtMost,
        "1.75 in",
        NY_CODE,
    ),
    row(
        "rails",
        "things: [{id: pickets, rail-spacing: 50 in, vertical-gap: {}}]",
        AtMost,
        "4 in",
        NY_CODE,
    ),
    row(
        "cut-outs",
        "things: [{id: pickets, cut-out: {}}]",
        AtMost,
        "1.75 in",
        NY_CODE,
    ),
    row(
        "chain-link",
        "things: [{id: fence, mesh: {}}]",
        AtMost,
        "1.75 in",
        NY_CODE,
    )
    .gives("pass", "refer"),
    row(
        "chain-link",
        "{answers: {code-text: '2020'}, things: [{id: fence, mesh: {}}]}",
        AtMost,
        "2.25 in",
        NY_TOWN,
    ),
    row(
        "chain-link",
        "things: [{id: fence, mesh: 3 in, slats: yes, opening: {}}]",
        AtMost,
        "1.75 in",
        NY_CODE,
    ),
    row(
        "lattice",
        "things: [{id: lattice, opening: {}}]",
        AtMost,
        "1.75 in",
        NY_CODE,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, latch-side: outside, latch-height: {}}]",
        AtLeast,
        "54 in",
        NY_CODE,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, latch-side: outside, self-locking: yes, latch-height: {}}]",
        AtMost,
        "54 in",
        NY_CODE,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, latch-below-top: {}}]",
        AtLeast,
        "3 in",
        NY_CODE,
    ),
    row(
        "gate-latch",
        "{answers: {code-text: '2020'}, things: [{id: gate, latch-height: {}}]}",
        AtLeast,
        "40 in",
        NY_LAW,
    ),
    row(
        "house-wall",
        "things: [{id: door, alarm-switch-height: {}}]",
        AtLeast,
        "54 in",
        NY_CODE,
    ),
    row(
        "house-wall",
        "things: [{id: window, latch-height: {}}]",
        AtLeast,
        "48 in",
        NY_CODE,
    ),
    row(
        "house-wall",
        "things: [{id: window, opens-by: {}}]",
        LessThan,
        "4 in",
        NY_CODE,
    ),
    row(
        "house-wall",
        "things: [{id: door, to-pool: no}, {id: window, opens-by: 10 in, sill-height: {}}]",
        LessThan,
        "48 in",
        NY_CODE,
    )
    .gives("fail", "not-applicable"),
    row(
        "house-wall",
        "things: [{id: door, to-pool: no}, {id: window, opens-by: 10 in, sill-outside: {}}]",
        LessThan,
        "72 in",
        NY_CODE,
    )
    .gives("fail", "not-applicable"),
    row(
        "pool-wall-height",
        "things: [{id: rim, height-above-finished-grade: {}}]",
        AtLeast,
        "48 in",
        NY_CODE,
    ),
    row(
        "ladder",
        "pool: {opening-without-ladder: {}}",
        LessThan,
        "4 in",
        NY_CODE,
    ),
    row(
        "temporary-fence",
        "things: [{id: hoarding, height: {}}]",
        AtLeast,
        "48 in",
        NY_CODE,
    ),
    row(
        "wires-within-ten-feet",
        "things: [{id: drop, path: [[{}, -60], [{}, 60]]}]",
        AtLeast,
        "10 ft",
        NY_TOWN,
    ),
    row(
        "above-ground-to-house",
        "things: [{id: house, wall: [[{}, -50], [40, -50], [40, 40], [{}, 40]]}]",
        AtLeast,
        "10 ft",
        NY_TOWN,
    ),
];
