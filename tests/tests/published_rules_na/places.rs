//! States and a province.

use super::Good::{AtLeast, AtMost, LessThan, MoreThan};
use super::{Row, row};

pub const SETS: &[(&str, &[Row])] = &[
    ("california", CALIFORNIA),
    ("florida", FLORIDA),
    ("arizona", ARIZONA),
    ("new-york", NEW_YORK),
    ("quebec", QUEBEC),
];

const MEMORY: &str = "from memory";
const CA_SCOPE: &str = "HSC 115921(a), https://leginfo.legislature.ca.gov/faces/codes_displaySection.xhtml?lawCode=HSC&sectionNum=115921.";
const CA_FENCE: &str =
    "HSC 115923, https://california.public.law/codes/ca_health_and_safety_code_section_115923";
const CA_LIST: &str = "HSC 115922, https://legiscan.com/CA/text/SB442/2017";

const CA_CODE: &str = "HSC 115928, a copy, https://github.com/thexqin/us-building-codes-dataset";

const CALIFORNIA: &[Row] = &[
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

const FL_BILL: &str =
    "Fla. Stat. 515.27(1), https://flsenate.gov/Session/Bill/2025/604/BillText/Filed/HTML";
const FL_FENCE: &str = "Fla. Stat. 515.29, http://poolcaptain.com/4945/residential-swimming-pool-barrier-requirements-florida/";
const FL_CODE: &str =
    "FBC-B 454.2 of 2023, a copy, https://github.com/thexqin/us-building-codes-dataset";
const FL_COUNTY: &str =
    "FBC 424.2.17 as a county has it, http://www.pinellascounty.org/build/swimpool.htm";

const FLORIDA: &[Row] = &[
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

const AZ_LAW: &str =
    "ARS 36-1681, https://poolsafefencing.com/blog/arizona-pool-fence-laws-a-comprehensive-guide/";
const AZ_COPY: &str = "ARS 36-1681, https://movephoenix.com/residential-pool-safety/";

const ARIZONA: &[Row] = &[
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

const NY_CODE: &str =
    "RCNYS R328 of 2025, a copy, https://github.com/thexqin/us-building-codes-dataset";
const NY_TOWN: &str =
    "a town's handout, https://townofmendon.org/2021/03/pool-information-and-regulations/";
const NY_LAW: &str = "Executive Law 378(14)(a), https://legiscan.com/NY/text/A09888/id/2998779/New_York-2023-A09888-Amended.html";

const NEW_YORK: &[Row] = &[
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

const QC_SCOPE: &str = "S-3.1.02, r. 1, s. 1, https://www.legisquebec.gouv.qc.ca/en/version/cr/S-3.1.02,%20r.%201?code=se:1&history=20240318";
const QC_FENCE: &str = "S-3.1.02, r. 1, s. 4, http://legisquebec.gouv.qc.ca/en/showversion/cr/S-3.1.02,%20r.%201?code=se:4&pointInTime=20180719";
const QC_PRESS: &str = "amendment of 2021, https://montreal.ctvnews.ca/quebec-residential-pool-owners-must-comply-with-strengthened-safety-regulations-1.5436653";

const QC_TOWN: &str = "S-3.1.02, r. 1, s. 6, https://mascouche.ca/services/reglements-et-permis/reglement-sur-la-securite-des-piscines-residentielles";
const QC_NEWS: &str = "amendment of 2021 as a news report has it, https://montreal.ctvnews.ca/is-your-pool-up-to-code-here-s-a-review-of-quebec-s-rules-1.6414568";
const QC_SELLER: &str = "amendment of 2021 as a seller repeats it, https://clotureslestrie.com/maille-frost-legale-30mm-piscines/";

const QUEBEC: &[Row] = &[
    row(
        "decide scope",
        "pool: {depth: {}}",
        AtLeast,
        "60 cm",
        QC_SCOPE,
    )
    .gives("applies", "does-not-apply"),
    row(
        "decide scope",
        "pool: {construction: spa, volume: {}}",
        AtMost,
        "2000 l",
        QC_SCOPE,
    )
    .gives("does-not-apply", "applies"),
    row(
        "height",
        "things: [{id: fence, height-outside: {}}]",
        AtLeast,
        "1.2 m",
        QC_FENCE,
    ),
    row(
        "openings",
        "things: [{id: fence, opening: {}}]",
        LessThan,
        "10 cm",
        QC_FENCE,
    ),
    row(
        "openings",
        "things: [{id: fence, gap-below: {}}]",
        LessThan,
        "10 cm",
        QC_FENCE,
    ),
    row(
        "chain-link",
        "things: [{id: chain, mesh: {}}]",
        AtMost,
        "30 mm",
        QC_PRESS,
    ),
    row(
        "house-wall",
        "things: [{id: window, height-above-ground: {}}]",
        AtLeast,
        "3 m",
        QC_NEWS,
    ),
    row(
        "gate-latch",
        "things: [{id: gate, latch-height: {}}]",
        AtLeast,
        "1.5 m",
        MEMORY,
    ),
    row(
        "equipment-near-enclosure",
        "things: [{id: fence, outer-face: [[0, -6], [0, 6]]}, {id: pump, region: [[{}, 0], [2, 0], [2, 1]]}]",
        AtLeast,
        "1 m",
        QC_PRESS,
    ),
    row(
        "structures-near-enclosure",
        "things: [{id: fence, outer-face: [[0, -6], [0, 6]]}, {id: bench, region: [[{}, 0], [2, 0], [2, 1]]}]",
        AtLeast,
        "1 m",
        QC_PRESS,
    ),
    row(
        "pool-wall",
        "pool: {construction: above-ground, wall-is-barrier: yes, height-above-ground: {}}",
        AtLeast,
        "1.2 m",
        QC_TOWN,
    ),
    row(
        "pool-wall",
        "pool: {construction: portable, wall-is-barrier: yes, height-above-ground: {}}",
        AtLeast,
        "1.4 m",
        QC_TOWN,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, height: {}}]",
        AtLeast,
        "1.2 m",
        QC_FENCE,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, gap-below: {}}]",
        LessThan,
        "10 cm",
        QC_FENCE,
    ),
    row(
        "gate-gaps",
        "things: [{id: gate, opening: {}}]",
        LessThan,
        "10 cm",
        QC_FENCE,
    ),
    row(
        "house-wall",
        "things: [{id: window, height-above-ground: 1 m, opens-by: {}}]",
        AtMost,
        "10 cm",
        QC_NEWS,
    ),
    row(
        "windows-near",
        "things: [{id: kitchen, height-above-ground: {}, line: [[3.2, -4], [3.2, -3]]}]",
        AtLeast,
        "3 m",
        QC_SELLER,
    ),
    row(
        "windows-near",
        "things: [{id: kitchen, opens-by: {}, line: [[3.2, -4], [3.2, -3]]}]",
        AtMost,
        "10 cm",
        QC_SELLER,
    ),
    row(
        "windows-near",
        "things: [{id: fence, outer-face: [[0, -6], [0, 6]]}, {id: kitchen, line: [[{}, 3], [{}, 4]]}]",
        AtLeast,
        "1 m",
        QC_SELLER,
    ),
];
