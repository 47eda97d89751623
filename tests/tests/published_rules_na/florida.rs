//! Florida.

use super::Good::{AtLeast, AtMost, LessThan, MoreThan};
use super::{Row, row};

const FL_BILL: &str =
    "Fla. Stat. 515.27(1), https://flsenate.gov/Session/Bill/2025/604/BillText/Filed/HTML";
const FL_FENCE: &str = "Fla. Stat. 515.29, http://poolcaptain.com/4945/residential-swimming-pool-barrier-requirements-florida/";
const FL_CODE: &str =
    "FBC-B 454.2 of 2023, a copy, https://github.com/thexqin/us-building-codes-dataset";
const FL_COUNTY: &str =
    "FBC 424.2.17 as a county has it, http://www.pinellascounty.org/build/swimpool.htm";

pub const FLORIDA: &[Row] = &[
    row(
        "decide act",
        "pool: {depth: {}}",
        MoreThan,
        "24 in",
        FL_CODE,
    )
    .gives("applies", "does-not-apply"),
    row(
        "barrier-height",
        "things: [{id: fence, height-outside: {}}]",
        AtLeast,
        "4 ft",
        FL_FENCE,
    ),
    row(
        "code-gap-below",
        "things: [{id: fence, gap-below: {}}]",
        AtMost,
        "2 in",
        FL_CODE,
    ),
    row(
        "code-gap-below",
        "things: [{id: baby-fence, ground: pool-structure, gap-below: {}}]",
        AtMost,
        "4 in",
        FL_CODE,
    ),
    row(
        "code-openings",
        "things: [{id: fence, opening: {}}]",
        LessThan,
        "4 in",
        FL_CODE,
    ),
    row(
        "code-rails",
        "things: [{id: fence, vertical-gap: 3 in, rail-spacing: {}}]",
        AtLeast,
        "45 in",
        FL_CODE,
    ),
    row(
        "code-rails",
        "things: [{id: fence, vertical-gap: {}}]",
        AtMost,
        "1.75 in",
        FL_CODE,
    ),
    row(
        "code-rails",
        "things: [{id: fence, rail-spacing: 50 in, vertical-gap: {}}]",
        AtMost,
        "4 in",
        FL_CODE,
    ),
    row(
        "code-cut-outs",
        "things: [{id: fence, cut-out: {}}]",
        AtMost,
        "1.75 in",
        FL_CODE,
    ),
    row(
        "code-chain-link",
        "things: [{id: chain, mesh: {}}]",
        AtMost,
        "2.25 in",
        FL_CODE,
    ),
    row(
        "code-chain-link",
        "things: [{id: chain, mesh: 3 in, slats: yes, opening: {}}]",
        AtMost,
        "1.75 in",
        FL_CODE,
    ),
    row(
        "code-lattice",
        "things: [{id: lattice, opening: {}}]",
        AtMost,
        "1.75 in",
        FL_CODE,
    ),
    row(
        "barrier-to-water",
        "things: [{id: baby-fence, pool-face: [[{}, -10], [{}, 10]]}]",
        AtLeast,
        "20 in",
        FL_CODE,
    ),
    row(
        "barrier-to-water",
        "things: [{id: fence, pool-face: [[{}, -10], [{}, 10]]}]",
        AtLeast,
        "20 in",
        FL_COUNTY,
    )
    .gives("pass", "refer"),
    row(
        "gate-gaps",
        "things: [{id: gate, height: {}}]",
        AtLeast,
        "4 ft",
        FL_FENCE,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, gap-below: {}}]",
        AtMost,
        "2 in",
        FL_CODE,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, opening: {}}]",
        LessThan,
        "4 in",
        FL_CODE,
    ),
    row(
        "gate-release",
        "things: [{id: gate, release-above-gate-foot: {}}]",
        AtLeast,
        "54 in",
        FL_CODE,
    )
    .gives("pass", "refer"),
    row(
        "gate-release",
        "things: [{id: gate, release-above-gate-foot: 50 in, opening-near-latch: {}}]",
        AtMost,
        "0.5 in",
        FL_CODE,
    )
    .gives("refer", "fail"),
    row(
        "house-wall",
        "things: [{id: door, alarm-switch-height: {}}]",
        AtLeast,
        "54 in",
        FL_CODE,
    ),
    row(
        "house-wall",
        "things: [{id: window, sill-height: {}}]",
        AtLeast,
        "48 in",
        FL_CODE,
    ),
    row(
        "house-wall",
        "things: [{id: window, screened: no, pass-through: yes, sill-height: {}}]",
        AtLeast,
        "42 in",
        FL_CODE,
    ),
    row(
        "house-wall",
        "{documents: {latch-approval: in-hand}, things: [{id: door, alarm: none, self-closing: yes, self-latching: yes, latch-height: {}}]}",
        AtLeast,
        "54 in",
        FL_CODE,
    ),
    row(
        "pool-wall-height",
        "things: [{id: rim, height-above-finished-grade: {}}]",
        AtLeast,
        "4 ft",
        FL_FENCE,
    ),
    row(
        "gate-release",
        "things: [{id: gate, opening-near-latch: {}}]",
        AtMost,
        "0.5 in",
        FL_CODE,
    ),
    row(
        "ladder",
        "pool: {opening-without-ladder: {}}",
        LessThan,
        "4 in",
        FL_CODE,
    ),
    row(
        "one-feature",
        "{answers: {counts-on-barrier: no}, things: [{id: window, to-pool: no}, {id: door, alarm: none, self-closing: yes, self-latching: yes, latch-height: {}}]}",
        AtLeast,
        "54 in",
        FL_BILL,
    ),
];
