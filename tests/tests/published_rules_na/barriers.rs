//! The model barrier codes.

use super::Good::{AtLeast, AtMost, LessThan, MoreThan};
use super::guideline::GUIDELINE;
use super::{Row, row};

pub const SETS: &[(&str, &[Row])] = &[("barrier-model", MODEL), ("cpsc-guidance", GUIDELINE)];

const COUNTY: &str = "AG105.2 of 2012, http://buildingcodes.rutherfordcountytn.gov/swimmingpools";
const SCAN: &str =
    "AG105.2, early, https://docs.cabarruscounty.us/WebLink/1/doc/1617422/Page127.aspx";
const SURFACE: &str =
    "ISPSC 305.2.1, https://engineerfix.com/how-tall-does-a-fence-need-to-be-around-a-pool";
const RAILS: &str = "ISPSC 305.2.5/.6 of 2018, https://www.thebuildingcodeforum.com/forum/threads/r2-pool-barrier.30545/latest";
const LATCH: &str = "ISPSC 305.3.3, https://www.thebuildingcodeforum.com/forum/threads/looking-for-opinions-on-certain-sections-of-the-barrier-requirements-section-305-of-the-ispsc.32706/latest";
const ON_GROUND: &str = "ISPSC 305.2.10 and 305.5, https://www.thebuildingcodeforum.com/forum/threads/on-ground-pool-barrier-20-set-back-from-water-edge.35119/latest";
const HOUSE: &str =
    "ISPSC 305.4 of 2015, https://www.thebuildingcodeforum.com/forum/goto/post?id=198291";
const SHORE: &str = "ISPSC 305.6 of 2018, https://www.thebuildingcodeforum.com/forum/threads/r2-pool-barrier.30545/latest";
const LADDER: &str =
    "ISPSC 305.5, https://gallatintn.gov/180/Fence-for-Outdoor-Residential-Swimming-P";
const DEPTH: &str = "more than 24 in, https://olathe.municipal.codes/Code/15.22.090";
const APPENDIX: &str =
    "AG105.2 of 2012, a copy, https://github.com/abrightguy/abrightguy.github.io";
const CLEAR: &str = "ISPSC 305.2.9 of 2012, https://www.yorkcounty.gov/219/News-Announcements";
const MEMORY: &str = "from memory";

const MODEL: &[Row] = &[
    row(
        "height",
        "things: [{id: pickets, height-outside: {}}]",
        AtLeast,
        "48 in",
        COUNTY,
    ),
    row(
        "gap-below",
        "things: [{id: pickets, gap-below: {}}]",
        AtMost,
        "2 in",
        SURFACE,
    ),
    row(
        "gap-below",
        "things: [{id: wall, gap-below: {}}]",
        AtMost,
        "4 in",
        SURFACE,
    ),
    row(
        "gap-below",
        "things: [{id: pickets, ground: pool-structure, gap-below: {}}]",
        AtMost,
        "4 in",
        COUNTY,
    ),
    row(
        "gap-below",
        "{answers: {model-text: irc-appendix-g}, things: [{id: wall, gap-below: {}}]}",
        AtMost,
        "2 in",
        COUNTY,
    ),
    row(
        "openings",
        "things: [{id: pickets, opening: {}}]",
        LessThan,
        "4 in",
        COUNTY,
    ),
    row(
        "holes",
        "things: [{id: hole, width: {}}]",
        LessThan,
        "4 in",
        COUNTY,
    ),
    row(
        "rails",
        "things: [{id: pickets, rail-spacing: {}, vertical-gap: 3 in}]",
        AtLeast,
        "45 in",
        RAILS,
    ),
    row(
        "rails",
        "things: [{id: pickets, vertical-gap: {}}]",
        AtMost,
        "1.75 in",
        RAILS,
    ),
    row(
        "rails",
        "things: [{id: ornamental, vertical-gap: {}}]",
        AtMost,
        "4 in",
        RAILS,
    ),
    row(
        "cut-outs",
        "things: [{id: ornamental, cut-out: {}}]",
        AtMost,
        "1.75 in",
        RAILS,
    ),
    row(
        "chain-link",
        "things: [{id: chain, mesh: {}}]",
        AtMost,
        "1.75 in",
        MEMORY,
    ),
    row(
        "chain-link",
        "{answers: {model-text: irc-appendix-g}, things: [{id: chain, mesh: {}}]}",
        AtMost,
        "2.25 in",
        APPENDIX,
    ),
    row(
        "chain-link",
        "{answers: {model-text: irc-appendix-g-early}, things: [{id: chain, mesh: {}}]}",
        AtMost,
        "1.25 in",
        SCAN,
    ),
    row(
        "chain-link",
        "things: [{id: chain, mesh: 3 in, slats: yes, opening: {}}]",
        AtMost,
        "1.75 in",
        SCAN,
    ),
    row(
        "lattice",
        "things: [{id: slatted, opening: {}}]",
        AtMost,
        "1.75 in",
        SCAN,
    ),
    row(
        "mesh-fence-distance",
        "things: [{id: netting, pool-face: [[{}, -10], [{}, 10]]}]",
        AtLeast,
        "20 in",
        MEMORY,
    ),
    row(
        "water-distance",
        "things: [{id: pickets, pool-face: [[{}, -10], [{}, 10]]}]",
        AtLeast,
        "20 in",
        ON_GROUND,
    ),
    row(
        "clear-zone-equipment",
        "things: [{id: pickets, outer-face: [[0, -20], [0, 0]]}, {id: pump, region: [[{}, -10], [5, -10], [5, -8]]}]",
        AtLeast,
        "36 in",
        CLEAR,
    ),
    row(
        "clear-zone-footholds",
        "things: [{id: pickets, outer-face: [[0, -20], [0, 0]]}, {id: bench, region: [[{}, -10], [5, -10], [5, -8]]}]",
        AtLeast,
        "36 in",
        CLEAR,
    ),
    row(
        "gate-height",
        "things: [{id: gate, height: {}}]",
        AtLeast,
        "48 in",
        LATCH,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, gap-below: {}}]",
        AtMost,
        "4 in",
        SURFACE,
    ),
    row(
        "gate-gaps",
        "{answers: {model-text: irc-appendix-g}, things: [{id: gate, gap-below: {}}]}",
        AtMost,
        "2 in",
        COUNTY,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, ground: soft, gap-below: {}}]",
        AtMost,
        "2 in",
        SURFACE,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, opening: {}}]",
        LessThan,
        "4 in",
        COUNTY,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, latch-side: outside, latch-height: {}}]",
        AtLeast,
        "54 in",
        LATCH,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, latch-below-top: {}}]",
        AtLeast,
        "3 in",
        LATCH,
    ),
    row(
        "gate-latch",
        "things: [{id: slot, width: {}}]",
        AtMost,
        "0.5 in",
        LATCH,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, opening-near-latch: {}}]",
        AtMost,
        "0.5 in",
        LATCH,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, latch: [0, 0]}, {id: slot, width: 2 in, line: [[{}, 0], [3, 0]]}]",
        AtMost,
        "18 in",
        LATCH,
    )
    .gives("fail", "pass"),
    row(
        "house-wall",
        "things: [{id: door, alarm-switch-height: {}}]",
        AtLeast,
        "54 in",
        HOUSE,
    ),
    row(
        "house-wall",
        "things: [{id: door, type: window, alarm: none, sill-height: {}}]",
        LessThan,
        "48 in",
        HOUSE,
    )
    .gives("fail", "not-applicable"),
    row(
        "pool-wall-height",
        "things: [{id: rim, height-above-finished-grade: {}}]",
        AtLeast,
        "48 in",
        ON_GROUND,
    ),
    row(
        "ladder",
        "pool: {opening-without-ladder: {}}",
        LessThan,
        "4 in",
        LADDER,
    ),
    // The lake is moved so that its edge lies on y = 0.
    row(
        "shore-ends",
        "things: [{id: side, line: [[10, -20], [10, {}]]}, {id: lake, region: [[-60, 0], [60, 0], [60, 90], [-60, 90]]}]",
        AtLeast,
        "18 in",
        SHORE,
    ),
    row(
        "decide barrier-route",
        "pool: {depth: {}}",
        AtMost,
        "24 in",
        DEPTH,
    )
    .gives("none-by-this-text", "barrier"),
    row(
        "gate-latch",
        "{answers: {model-text: irc-appendix-g}, things: [{id: gate, latch-side: outside, release-above-gate-foot: {}}]}",
        AtLeast,
        "54 in",
        APPENDIX,
    ),
    row(
        "house-inside",
        "things: [{id: door, alarm-switch-height: {}}]",
        AtLeast,
        "54 in",
        HOUSE,
    ),
    row(
        "height",
        "{answers: {model-text: irc-appendix-g}, things: [{id: pickets, height-outside: {}}]}",
        AtLeast,
        "48 in",
        APPENDIX,
    ),
    row(
        "gap-below",
        "{answers: {model-text: irc-appendix-g}, things: [{id: wall, gap-below: 1 in}, {id: pickets, ground: pool-structure, gap-below: {}}]}",
        AtMost,
        "4 in",
        APPENDIX,
    ),
    row(
        "openings",
        "{answers: {model-text: irc-appendix-g}, things: [{id: pickets, opening: {}}]}",
        LessThan,
        "4 in",
        APPENDIX,
    ),
    row(
        "rails",
        "{answers: {model-text: irc-appendix-g}, things: [{id: pickets, rail-spacing: {}, vertical-gap: 3 in}]}",
        AtLeast,
        "45 in",
        APPENDIX,
    ),
    row(
        "rails",
        "{answers: {model-text: irc-appendix-g}, things: [{id: pickets, vertical-gap: {}}]}",
        AtMost,
        "1.75 in",
        APPENDIX,
    ),
    row(
        "rails",
        "{answers: {model-text: irc-appendix-g}, things: [{id: ornamental, vertical-gap: {}}]}",
        AtMost,
        "4 in",
        APPENDIX,
    ),
    row(
        "cut-outs",
        "{answers: {model-text: irc-appendix-g}, things: [{id: ornamental, cut-out: {}}]}",
        AtMost,
        "1.75 in",
        APPENDIX,
    ),
    row(
        "chain-link",
        "{answers: {model-text: irc-appendix-g}, things: [{id: chain, mesh: 3 in, slats: yes, opening: {}}]}",
        AtMost,
        "1.75 in",
        APPENDIX,
    ),
    row(
        "lattice",
        "{answers: {model-text: irc-appendix-g}, things: [{id: slatted, opening: {}}]}",
        AtMost,
        "1.75 in",
        APPENDIX,
    ),
    row(
        "gate-latch",
        "{answers: {model-text: irc-appendix-g}, things: [{id: gate, release-above-gate-foot: 40 in, latch-below-top: {}}]}",
        AtLeast,
        "3 in",
        APPENDIX,
    ),
    row(
        "gate-latch",
        "{answers: {model-text: irc-appendix-g}, things: [{id: gate, release-above-gate-foot: 40 in}, {id: slot, width: {}}]}",
        AtMost,
        "0.5 in",
        APPENDIX,
    ),
    row(
        "house-wall",
        "{answers: {model-text: irc-appendix-g}, things: [{id: door, alarm-switch-height: {}}]}",
        AtLeast,
        "54 in",
        APPENDIX,
    ),
    row(
        "ladder",
        "{answers: {model-text: irc-appendix-g}, pool: {opening-without-ladder: {}}}",
        LessThan,
        "4 in",
        APPENDIX,
    ),
    row(
        "decide barrier-route",
        "{answers: {model-text: irc-appendix-g}, pool: {depth: {}}}",
        MoreThan,
        "24 in",
        APPENDIX,
    )
    .gives("barrier", "none-by-this-text"),
];
