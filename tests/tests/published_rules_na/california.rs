//! California.

use super::Good::{AtLeast, AtMost, LessThan, MoreThan};
use super::{Row, row};

const CA_SCOPE: &str = "HSC 115921(a), https://leginfo.legislature.ca.gov/faces/codes_displaySection.xhtml?lawCode=HSC&sectionNum=115921.";
const CA_FENCE: &str =
    "HSC 115923, https://california.public.law/codes/ca_health_and_safety_code_section_115923";
const CA_LIST: &str = "HSC 115922, https://legiscan.com/CA/text/SB442/2017";

const CA_CODE: &str = "HSC 115928, a copy, https://github.com/thexqin/us-building-codes-dataset";

pub const CALIFORNIA: &[Row] = &[
    row(
        "decide act",
        "pool: {depth: {}}",
        MoreThan,
        "18 in",
        CA_SCOPE,
    )
    .gives("applies", "does-not-apply"),
    row(
        "enclosure-height",
        "things: [{id: fence, height-outside: {}}]",
        AtLeast,
        "60 in",
        CA_FENCE,
    ),
    row(
        "enclosure-gap-below",
        "things: [{id: fence, gap-below: {}}]",
        AtMost,
        "2 in",
        CA_FENCE,
    ),
    row(
        "enclosure-openings",
        "things: [{id: fence, opening: {}}]",
        LessThan,
        "4 in",
        CA_FENCE,
    ),
    row(
        "enclosure-gate-gaps",
        "things: [{id: gate, height: {}}]",
        AtLeast,
        "60 in",
        CA_FENCE,
    ),
    row(
        "enclosure-gate-gaps",
        "things: [{id: gate, gap-below: {}}]",
        AtMost,
        "2 in",
        CA_FENCE,
    ),
    row(
        "enclosure-gate-gaps",
        "things: [{id: gate, opening: {}}]",
        LessThan,
        "4 in",
        CA_FENCE,
    ),
    row(
        "enclosure-latch",
        "things: [{id: gate, latch-height: {}}]",
        AtLeast,
        "60 in",
        CA_FENCE,
    ),
    row(
        "two-features",
        "things: [{id: gate, latch-height: {}}]",
        AtLeast,
        "60 in",
        CA_FENCE,
    ),
    row(
        "two-features",
        "things: [{id: door, alarm: none, self-closing: yes, self-latching: yes, latch-height: {}}]",
        AtLeast,
        "54 in",
        CA_LIST,
    ),
    row(
        "suction-apart",
        "answers: {suction-apart: {}}",
        AtLeast,
        "3 ft",
        CA_CODE,
    ),
];
