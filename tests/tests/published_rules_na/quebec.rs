//! Quebec.

use super::Good::{AtLeast, AtMost, LessThan};
use super::{Row, row};

const MEMORY: &str = "from memory";
const QC_SCOPE: &str = "S-3.1.02, r. 1, s. 1, https://www.legisquebec.gouv.qc.ca/en/version/cr/S-3.1.02,%20r.%201?code=se:1&history=20240318";
const QC_FENCE: &str = "S-3.1.02, r. 1, s. 4, http://legisquebec.gouv.qc.ca/en/showversion/cr/S-3.1.02,%20r.%201?code=se:4&pointInTime=20180719";
const QC_PRESS: &str = "amendment of 2021, https://montreal.ctvnews.ca/quebec-residential-pool-owners-must-comply-with-strengthened-safety-regulations-1.5436653";

const QC_TOWN: &str = "S-3.1.02, r. 1, s. 6, https://mascouche.ca/services/reglements-et-permis/reglement-sur-la-securite-des-piscines-residentielles";
const QC_NEWS: &str = "amendment of 2021 as a news report has it, https://montreal.ctvnews.ca/is-your-pool-up-to-code-here-s-a-review-of-quebec-s-rules-1.6414568";
const QC_SELLER: &str = "amendment of 2021 as a seller repeats it, https://clotureslestrie.com/maille-frost-legale-30mm-piscines/";
const QC_FORM: &str =
    "a town's form for a permit (Thetford Mines) as an outside reader quotes it, address withheld";

pub const QUEBEC: &[Row] = &[
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
        "chain-link",
        "things: [{id: chain, mesh: 60 mm, slats: yes, opening: {}}]",
        AtMost,
        "30 mm",
        QC_FORM,
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
