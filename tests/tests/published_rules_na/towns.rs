//! Cities, towns and a province that came later, and the states that adopt the model code.

use super::Good::{AtLeast, AtMost, LessThan, MoreThan};
use super::{Row, row};

pub const SETS: &[(&str, &[Row])] = &[
    ("north-carolina", NORTH_CAROLINA),
    ("texas-shady-shores", SHADY_SHORES),
    ("texas-houston", HOUSTON),
    ("texas-azle", AZLE),
    ("ontario-haldimand", HALDIMAND),
    ("ontario-ottawa", OTTAWA),
    ("ontario-whitewater-region", WHITEWATER),
    ("british-columbia-abbotsford", ABBOTSFORD),
    ("new-brunswick", NEW_BRUNSWICK),
    ("quebec-chateauguay", CHATEAUGUAY),
    ("us-adoptions", ADOPTIONS),
];

const NC_COUNTY: &str =
    "15A NCAC 18A .1950, http://nc-wilsoncounty.civicplus.com/413/Other-Requirements";

const RALEIGH: &str = "AV105.2 of 2018 as Raleigh has it, https://raleighnc.gov/permits/services/abcs-installing-pool-or-spa";
const MOREHEAD: &str = "AV105.2 of 2018 as Morehead City has it, https://www.moreheadcitync.org/498/Swimming-Pool-Installation-Inspection-Gu";
const WAKE: &str = "Wake County, https://housewake.org/departments-government/planning-development-inspections/inspections-permits/install-swimming-pool-or-hot-tub";

const NORTH_CAROLINA: &[Row] = &[
    row("height", "things: [{id: fence, height-outside: {}}]", AtLeast, "48 in", RALEIGH),
    row("gap-below", "things: [{id: fence, gap-below: {}}]", AtMost, "2 in", RALEIGH),
    row("gap-below", "things: [{id: fence, ground: pool-structure, gap-below: {}}]", AtMost, "4 in", RALEIGH),
    row("gap-below", "things: [{id: fence, ground: solid, gap-below: {}}]", AtMost, "4 in", MOREHEAD).gives("refer", "fail"),
    row("openings", "things: [{id: fence, opening: {}}]", LessThan, "4 in", MOREHEAD),
    row("rails", "things: [{id: fence, rail-spacing: {}}]", AtLeast, "45 in", MOREHEAD),
    row("rails", "things: [{id: fence, rail-spacing: 44 in, rail-side: pool, vertical-gap: {}}]", AtMost, "1.75 in", MOREHEAD),
    row("rails", "things: [{id: fence, vertical-gap: {}}]", AtMost, "4 in", RALEIGH),
    row("cut-outs", "things: [{id: fence, cut-out: {}}]", AtMost, "1.75 in", RALEIGH),
    row("decide permit", "pool: {depth: {}}", MoreThan, "24 in", WAKE).gives("building-and-electrical", "ask-the-inspection-department"),
    row("septic", "things: [{id: tank, region: [[{}, -10], [30, -10], [30, -5], [{}, -5]]}]", AtLeast, "15 ft", NC_COUNTY),
    row("septic-cut", "things: [{id: tank, region: [[{}, -10], [30, -10], [30, -5], [{}, -5]]}]", AtLeast, "15 ft", NC_COUNTY),
    row("septic-cut", "{pool: {excavation-depth: {}}, things: [{id: tank, region: [[10, -10], [30, -10], [30, -5], [10, -5]]}]}", AtLeast, "2 ft", NC_COUNTY).gives("fail", "not-applicable"),
];

const SHADY: &str =
    "the town's page, https://www.shady-shores.com/1104/Swimming-Pools-Hot-Tubs-Spas";

const SHADY_SHORES: &[Row] = &[
    // The house ends at 29 ft and the lot at 60 ft.
    row(
        "lines",
        "pool: {shell: [[-20, 35], [0, 35], [0, {}], [-20, {}]]}",
        AtMost,
        "55 ft",
        SHADY,
    ),
    row(
        "lines",
        "pool: {construction: above-ground, shell: [[-20, 35], [0, 35], [0, {}], [-20, {}]]}",
        AtMost,
        "57 ft",
        SHADY,
    ),
    row(
        "foundation",
        "pool: {excavation-depth: 4 ft, excavation: [[-20, {}], [0, {}], [0, 55], [-20, 55]]}",
        AtLeast,
        "34 ft",
        SHADY,
    ),
    row(
        "foundation",
        "pool: {excavation-depth: {}}",
        AtMost,
        "6 ft",
        SHADY,
    ),
    row(
        "above-ground-to-foundation",
        "pool: {construction: above-ground, shell: [[-20, {}], [0, {}], [0, 55], [-20, 55]]}",
        AtLeast,
        "32 ft",
        SHADY,
    ),
    row(
        "above-ground-other-lines",
        "{pool: {construction: above-ground, shell: [[-20, 35], [0, 35], [0, {}], [-20, {}]]}, lot: {sides: [{id: street, from: a, to: b, faces: rear, beyond: road}, {id: east, from: b, to: c, faces: side, beyond: neighbour-lot}, {id: rear, from: c, to: d, faces: front, beyond: neighbour-lot}, {id: west, from: d, to: a, faces: side, beyond: neighbour-lot}]}}",
        AtMost,
        "57 ft",
        SHADY,
    ),
    row(
        "equipment-to-window",
        "things: [{id: pump, region: [[10, {}], [12, {}], [12, 45], [10, 45]]}]",
        AtLeast,
        "39 ft",
        SHADY,
    ),
];

const HOUSTON_CODE: &str = "s. 43-33, http://houston-tx.elaws.us/code/coor_ch43_artii_sec43-33";

const HOUSTON: &[Row] = &[
    row(
        "height",
        "things: [{id: fence, height-outside: {}}]",
        AtLeast,
        "4 ft",
        HOUSTON_CODE,
    ),
    row(
        "openings",
        "things: [{id: fence, opening: {}}]",
        AtMost,
        "4 in",
        HOUSTON_CODE,
    ),
    row(
        "gates",
        "things: [{id: gate, latch-height: {}}]",
        AtLeast,
        "3 ft",
        HOUSTON_CODE,
    ),
    row(
        "doors",
        "things: [{id: shed-door, latch-height: {}}]",
        AtLeast,
        "6 ft",
        HOUSTON_CODE,
    ),
];

const AZLE_PAGE: &str = "the city's page, https://cityofazle.org/162/Swimming-Pools";

const AZLE: &[Row] = &[
    row(
        "height",
        "things: [{id: fence, height-outside: {}}]",
        AtLeast,
        "4 ft",
        AZLE_PAGE,
    ),
    row(
        "gaps",
        "things: [{id: fence, opening: {}}]",
        AtMost,
        "4 in",
        AZLE_PAGE,
    ),
    row(
        "gaps",
        "things: [{id: fence, gap-below: {}}]",
        AtMost,
        "4 in",
        AZLE_PAGE,
    ),
    // The house ends at 29 ft and the lot at 60 ft.
    row(
        "lines",
        "pool: {water: [[-20, 35], [0, 35], [0, {}], [-20, {}]]}",
        AtMost,
        "55 ft",
        AZLE_PAGE,
    ),
    row("foundation", "pool: {depth: {}}", AtMost, "6 ft", AZLE_PAGE),
    row(
        "decide permit",
        "pool: {depth: {}}",
        LessThan,
        "24 in",
        AZLE_PAGE,
    )
    .gives("none", "permit"),
];

const HALDIMAND_BY_LAW: &str = "by-law ss. 1 and 18 to 22, https://haldimandcounty.ca/government-administration/by-laws-and-policies/by-law-directory/swimming-pool-enclosure-by-law";

const HALDIMAND: &[Row] = &[
    row("height", "things: [{id: fence, height-outside: {}}]", AtLeast, "1.2 m", HALDIMAND_BY_LAW),
    row("height", "{pool: {construction: above-ground, height-above-ground: 1 m, depth: {}}, things: [{id: fence, height-outside: 1 m}]}", AtLeast, "450 mm", HALDIMAND_BY_LAW).gives("fail", "not-applicable"),
    row("height", "{pool: {construction: above-ground, height-above-ground: {}}, things: [{id: fence, height-outside: 1 m}]}", AtLeast, "600 mm", HALDIMAND_BY_LAW).gives("fail", "not-applicable"),
    row("gap-below", "things: [{id: fence, gap-below: {}}]", AtMost, "50 mm", HALDIMAND_BY_LAW),
    row("footholds", "things: [{id: fence, outer-face: [[0, -6], [0, 6]]}, {id: bench, region: [[{}, 0], [2, 0], [2, 1]]}]", AtLeast, "1.2 m", HALDIMAND_BY_LAW),
    row("water-to-structures", "things: [{id: fence, pool-face: [[{}, -6], [{}, 6]]}]", AtLeast, "900 mm", HALDIMAND_BY_LAW),
];

const OTTAWA_PAGE: &str =
    "by-law 2013-39 as a firm tells it, https://mlpoolservices.ca/ottawa-city-by-laws/";
const OTTAWA_CITY: &str = "the city's page, https://ottawa.ca/en/planning-development-and-construction/building-and-renovating/pool-enclosures/pool-enclosures-pool-hot-tub-pond";

const OTTAWA: &[Row] = &[
    row(
        "decide applies",
        "pool: {depth: {}}",
        AtLeast,
        "600 mm",
        OTTAWA_CITY,
    )
    .gives("applies", "does-not-apply"),
    row(
        "height",
        "things: [{id: fence, height-outside: {}}]",
        AtLeast,
        "1.5 m",
        OTTAWA_PAGE,
    ),
    row(
        "openings",
        "things: [{id: fence, opening: {}}]",
        LessThan,
        "100 mm",
        OTTAWA_PAGE,
    ),
    row(
        "openings",
        "things: [{id: fence, gap-below: {}}]",
        LessThan,
        "100 mm",
        OTTAWA_PAGE,
    ),
    row(
        "chain-link",
        "things: [{id: fence, mesh: {}}]",
        AtMost,
        "38 mm",
        OTTAWA_PAGE,
    ),
    row(
        "to-water",
        "things: [{id: fence, pool-face: [[{}, -6], [{}, 6]]}]",
        AtLeast,
        "1 m",
        OTTAWA_PAGE,
    ),
    row(
        "gates",
        "things: [{id: gate, lock-above-foot: {}}]",
        AtLeast,
        "1.35 m",
        OTTAWA_PAGE,
    ),
    // The pool ends on x = 0; a deck 5 m deep.
    row(
        "drainage",
        "{pool: {deck: none}, lot: {corners: {a: [-20, -20], b: [{}, -20], c: [{}, 20], d: [-20, 20]}}}",
        AtLeast,
        "4 ft",
        OTTAWA_CITY,
    ),
    row(
        "decide deck-permit",
        "things: [{id: deck, region: [[0, 10], [{}, 10], [{}, 15], [0, 15]]}]",
        AtMost,
        "2 m",
        OTTAWA_CITY,
    )
    .gives("none-of-its-own", "building-permit"),
];

const WHITEWATER_PAGE: &str =
    "by-law 02-06-72, http://www.whitewaterregion.ca/departments/swimming-pools.php";

const WHITEWATER: &[Row] = &[
    row(
        "height",
        "{pool: {depth: {}}, things: [{id: fence, height-outside: 4 ft}]}",
        MoreThan,
        "18 in",
        WHITEWATER_PAGE,
    )
    .gives("fail", "not-applicable"),
    row(
        "height",
        "things: [{id: fence, height-outside: {}}]",
        AtLeast,
        "5 ft",
        WHITEWATER_PAGE,
    ),
    row(
        "openings",
        "things: [{id: fence, opening: {}}]",
        AtMost,
        "2 in",
        WHITEWATER_PAGE,
    ),
    row(
        "chain-link",
        "things: [{id: chain, diamond: {}}]",
        AtMost,
        "2 in",
        WHITEWATER_PAGE,
    ),
    row(
        "to-water",
        "things: [{id: fence, pool-face: [[{}, -20], [{}, 20]]}]",
        AtLeast,
        "4 ft",
        WHITEWATER_PAGE,
    ),
];

const ABBOTSFORD_BYLAW: &str =
    "bylaw 375-97 s. 3(1), https://laws.abbotsford.ca/civix/document/id/coa/coabylaws/1997b375";

const ABBOTSFORD: &[Row] = &[
    row(
        "height",
        "things: [{id: fence, height-outside: {}}]",
        AtLeast,
        "1200 mm",
        ABBOTSFORD_BYLAW,
    ),
    row(
        "openings",
        "things: [{id: fence, opening: {}}]",
        AtMost,
        "100 mm",
        ABBOTSFORD_BYLAW,
    ),
    row(
        "gates",
        "things: [{id: gate, spring-lock-height: {}}]",
        AtLeast,
        "1050 mm",
        ABBOTSFORD_BYLAW,
    ),
];

const NB_LAW: &str = "regulation 81-126 s. 16.1, http://laws.gnb.ca/fr/version/rc/81-126?code=se:16_1&historique=20150919";

const NB_WATERS: &str = "regulation 90-80, the province's guide, https://www2.gnb.ca/content/gnb/en/departments/elg/environment/content/land_waste/content/reference_manual/watercourse_and_wetlandalteration.html";
const NB_WATERSHEDS: &str =
    "regulation 2001-83, protected area B, http://laws.gnb.ca/en/showdoc/cr/2001-83";

const NEW_BRUNSWICK: &[Row] = &[
    row(
        "height",
        "things: [{id: fence, height-outside: {}}]",
        AtLeast,
        "1.6 m",
        NB_LAW,
    ),
    row(
        "to-water",
        "things: [{id: fence, pool-face: [[{}, -6], [{}, 6]]}]",
        AtLeast,
        "1.25 m",
        NB_LAW,
    ),
    row(
        "footholds",
        "things: [{id: fence, outer-face: [[0, -6], [0, 6]]}, {id: mound, region: [[{}, 0], [2, 0], [2, 1]]}]",
        AtLeast,
        "1.25 m",
        NB_LAW,
    ),
    row(
        "chain-link",
        "things: [{id: fence, mesh: {}}]",
        AtMost,
        "4 cm",
        NB_LAW,
    ),
    row(
        "wall-doors",
        "things: [{id: door, latch-height: {}}]",
        AtLeast,
        "1.6 m",
        NB_LAW,
    ),
    row(
        "watercourse",
        "{answers: {protected-watershed: no}, things: [{id: brook, line: [[{}, -60], [{}, 60]]}]}",
        AtLeast,
        "30 m",
        NB_WATERS,
    ),
    row(
        "protected-watershed",
        "things: [{id: brook, line: [[{}, -60], [{}, 60]]}]",
        MoreThan,
        "75 m",
        NB_WATERSHEDS,
    ),
];

const COPY: &str = "the state's code, a copy, https://github.com/thexqin/us-building-codes-dataset";
const VIRGINIA: &str = "a county's sheet, https://docslib.org/doc/download/642766/requirements-for-outdoor-residential-swimming-pools";

const TENNESSEE: &str = "Tenn. Code 68-14-802, https://getpocketlaw.com/law/state_tennessee/section-68-14-802-part-definitions_6292c44dd1ea";
const NEW_JERSEY: &str =
    "a New Jersey township's page, https://www.plumsted.org/construction/pages/pools";

const ADOPTIONS: &[Row] = &[
    row("tennessee-alarm", "{answers: {state: tennessee, splash-alarm: no}, pool: {depth: {}}}", MoreThan, "36 in", TENNESSEE).gives("fail", "not-applicable"),
    row("decide permit", "{answers: {state: new-jersey}, pool: {depth: {}}}", AtLeast, "24 in", NEW_JERSEY).gives("construction-permit", "ask-the-building-department"),
    row("decide permit", "pool: {depth: {}}", LessThan, "24 in", COPY).gives("none-by-the-state", "ask-the-building-department"),
    row("decide permit", "{answers: {state: connecticut}, pool: {depth: {}}}", AtMost, "24 in", COPY).gives("none-by-the-state", "ask-the-building-department"),
    row("decide permit", "{answers: {state: virginia}, pool: {depth: {}, water: [[-10, -5], [0, -5], [0, 10], [-10, 10]]}}", LessThan, "24 in", VIRGINIA).gives("none-by-the-state", "ask-the-building-department"),
];

const CHATEAUGUAY_PAGE: &str = "the town's page, https://ville.chateauguay.qc.ca/reglements-municipaux/piscine-installation-piscine-creusee-hors-terre-demontable-ou-gonflable/";

const CHATEAUGUAY: &[Row] = &[
    row(
        "lines",
        "pool: {depth: {}, water: [[0, 10], [6, 10], [6, 19], [0, 19]]}",
        AtLeast,
        "45 cm",
        CHATEAUGUAY_PAGE,
    )
    .gives("fail", "not-applicable"),
    // The lot ends at 20 m and the house at 8 m.
    row(
        "lines",
        "pool: {water: [[0, 10], [6, 10], [6, {}], [0, {}]]}",
        AtMost,
        "18.5 m",
        CHATEAUGUAY_PAGE,
    ),
    row(
        "foundation",
        "pool: {depth: 1 m, water: [[0, {}], [6, {}], [6, 18], [0, 18]]}",
        AtLeast,
        "9.5 m",
        CHATEAUGUAY_PAGE,
    ),
    row(
        "foundation",
        "pool: {depth: {}}",
        AtMost,
        "2 m",
        CHATEAUGUAY_PAGE,
    ),
    row(
        "wires",
        "things: [{id: drop, path: [[{}, -20], [{}, 20]]}]",
        AtLeast,
        "7.5 m",
        CHATEAUGUAY_PAGE,
    ),
    row(
        "wires",
        "things: [{id: drop, path: [[3, -20], [3, 20]], above-pool: {}}]",
        AtLeast,
        "5 m",
        CHATEAUGUAY_PAGE,
    ),
];
