//! Electricity, digging, septic systems, wells and trees.

use super::Good::{AtLeast, AtMost, LessThan, MoreThan};
use super::{Row, row};

pub const SETS: &[(&str, &[Row])] = &[
    ("electric-model", ELECTRIC),
    ("digging", DIGGING),
    ("septic-well-tree", SEPTIC),
];

const DISCONNECT: &str = "NEC 680.12, https://studyres.com/doc/129735/?page=18";
const SWITCH: &str = "NEC 680.22(C), https://forums.mikeholt.com/threads/hot-tub-diconnect-location.79708/post-1310539";
const LIGHTS: &str =
    "NEC 680.22(B) as a city has it, https://www.republicmo.gov/450/Lighting-Fixtures";
const SLOPES: &str = "OSHA 1926 subpart P, appendix B, https://stepo.ai/osha/1926/1926SubpartPAppB";
const HOLE: &str = "29 CFR 1926.652(a)(1), http://www.improvedconstructionmethods-houston.com/requirements_for_protective_systems_126.652.htm";
const IBC: &str = "IBC 1808.7.3, a copy, https://github.com/thexqin/us-building-codes-dataset";
const MEMORY: &str = "from memory";
const DROP: &str = "NEC T.680.9(A) A, https://www.nachi.org/forum/654723-post2.html?s=23a382447f204067faf9bee4e9cfdab2";
const OLDER: &str =
    "older table, https://codelibrary.amlegal.com/codes/mesquitenv/latest/mesquite_nv/0-0-0-6762";
const HANDBOOK: &str = "a utility's handbook, https://freezingblue.com/flashcards/334708/preview/specifications-for-electrical-installations";
const PLATFORM: &str = "a utility's rule, https://sites.google.com/view/1kmeha/covenants";
const NEWSPAPER: &str = "the same rule as newspapers read it, https://springfieldbusinessjournal.com/articles/safety-concerns-dictate-regulations-governing-distance-between-pools-and-overhead-power-lines-14996763";
const ZONE: &str = "NEC T.680.9(A) C, http://forums.mikeholt.com/showthread.php?s=485e7c88d99801b90d76cdb4c0d1ce6e&p=1873108";
const FLAT: &str = "a town's rule, https://munford.com/questions";
const TELEPHONE: &str = "NEC 680.9(B), http://www.electricalknowledge.com/forum/archives/67.asp";
const BURIED: &str = "NEC 680.10 until 2014, https://www.republicmo.com/452/Underground-Wiring";
const UTILITY: &str = "NESC as a utility has it, https://joemc.com/2021/05/10/lookup-is-your-pool-clear-of-power-lines/";
const OUTLETS: &str = "NEC 680.22(A), http://www.inspectionnews.net/home_inspection/electrical-systems-home-inspection-and-commercial-inspection/21772-nec-code-question.html";
const OLD_OUTLETS: &str =
    "an older rule kept by a state order, http://www.dir.ca.gov/title8/2569_5.html";
const BOXES: &str = "NEC 680.24(A)(2), http://studyres.com/doc/129735/?page=39";

const ELECTRIC: &[Row] = &[
    row("wires-above-water", "things: [{id: drop, conductor: [[-5, -60], [-5, 60]], height: {}}]", AtLeast, "22.5 ft", DROP),
    row("wires-above-water", "things: [{id: drop, insulated: no, conductor: [[-5, -60], [-5, 60]], height: {}}]", AtLeast, "25 ft", OLDER),
    row("wires-above-water", "things: [{id: primary, path: [[-5, -60], [-5, 60]], conductor: [[-5, -60], [-5, 60]], height: {}}]", AtLeast, "25 ft", OLDER),
    row("wires-above-water", "things: [{id: primary, voltage: 35 kV, path: [[-5, -60], [-5, 60]], conductor: [[-5, -60], [-5, 60]], height: {}}]", AtLeast, "27 ft", OLDER),
    row("wires-above-water", "{answers: {overhead-table: older}, things: [{id: drop, conductor: [[-5, -60], [-5, 60]], height: {}}]}", AtLeast, "18 ft", OLDER),
    row("wires-above-water", "{answers: {overhead-table: utility-handbook}, things: [{id: drop, conductor: [[-5, -60], [-5, 60]], height: {}}]}", AtLeast, "24 ft", HANDBOOK),
    row("wires-above-water", "things: [{id: drop, conductor: [[-5, -60], [-5, 60]], height: 23 ft, voltage: {}}]", AtMost, "750 V", DROP),
    row("wires-above-water", "things: [{id: drop, conductor: [[-5, -60], [-5, 60]], height: 26 ft, voltage: {}}]", AtMost, "15 kV", OLDER),
    row("wires-above-water", "things: [{id: drop, conductor: [[-5, -60], [-5, 60]], height: 40 ft, voltage: {}}]", AtMost, "50 kV", OLDER).gives("pass", "refer"),
    row("wires-above-water", "things: [{id: drop, path: [[{}, -60], [{}, 60]], conductor: [[{}, -60], [{}, 60]], height: 12 ft}]", AtMost, "10 ft", ZONE).gives("fail", "not-applicable"),
    row("wires-above-platform", "things: [{id: board, height: 0 ft}, {id: drop, path: [[-11, -60], [-11, 60]], conductor: [[-11, -60], [-11, 60]], height: {}}]", AtLeast, "14.5 ft", MEMORY),
    row("wires-above-platform", "things: [{id: board, height: 0 ft}, {id: primary, path: [[-11, -60], [-11, 60]], conductor: [[-11, -60], [-11, 60]], height: {}}]", AtLeast, "17 ft", PLATFORM),
    row("wires-above-platform", "things: [{id: board, height: 0 ft}, {id: primary, voltage: 35 kV, path: [[-11, -60], [-11, 60]], conductor: [[-11, -60], [-11, 60]], height: {}}]", AtLeast, "18 ft", MEMORY),
    row("wires-in-any-direction", "{answers: {overhead-reach: any-direction}, things: [{id: drop, conductor: [[-5, -60], [-5, 60]], height: {}}]}", AtLeast, "22.5 ft", UTILITY),
    row("wires-in-any-direction", "{answers: {overhead-reach: any-direction}, things: [{id: primary, path: [[{}, -60], [{}, 60]], conductor: [[{}, -60], [{}, 60]], height: 0 ft}]}", AtLeast, "25 ft", UTILITY),
    row("wires-on-the-level", "{answers: {overhead-reach: seventeen-feet-level}, things: [{id: primary, path: [[{}, -60], [{}, 60]]}]}", AtLeast, "17 ft", NEWSPAPER),
    row("wires-on-the-level", "{answers: {overhead-reach: seventeen-feet-level}, things: [{id: primary, path: [[16, -60], [16, 60]], voltage: {}}]}", AtMost, "750 V", NEWSPAPER).gives("not-applicable", "fail"),
    row("wires-within-ten-feet", "things: [{id: drop, path: [[{}, -60], [{}, 60]]}]", AtLeast, "10 ft", FLAT),
    row("communication-wires", "things: [{id: board, height: 0 ft}, {id: telephone, conductor: [[-5, -60], [-5, 60]], height: {}}]", AtLeast, "10 ft", TELEPHONE),
    row("buried-wiring", "{answers: {code-year: 2014}, things: [{id: cable, path: [[{}, -60], [{}, 60]]}]}", AtLeast, "5 ft", BURIED),
    row("buried-wiring", "{answers: {code-year: 2014}, lot: {space-limited: yes}, things: [{id: cable, cover: {}}]}", AtLeast, "6 in", BURIED),
    row("buried-wiring", "{answers: {code-year: 2014}, lot: {space-limited: yes}, things: [{id: cable, conduit: nonmetallic, cover: {}}]}", AtLeast, "18 in", BURIED),
    row("buried-wiring", "{answers: {code-year: 2014}, lot: {space-limited: yes}, things: [{id: cable, conduit: PVC, cover: {}}]}", AtLeast, "18 in", BURIED),
    row("utility-cable", "things: [{id: feeder, path: [[{}, -60], [{}, 60]]}]", AtLeast, "5 ft", UTILITY),
    row("receptacles-away", "things: [{id: outlet, cord-path: {}}]", AtLeast, "6 ft", OUTLETS),
    row("one-receptacle", "things: [{id: outlet, cord-path: {}}]", AtLeast, "6 ft", OUTLETS),
    row("one-receptacle", "things: [{id: outlet, cord-path: {}}]", AtMost, "20 ft", OUTLETS),
    row("one-receptacle", "things: [{id: outlet, height: {}}]", AtMost, "78 in", OUTLETS),
    row("one-receptacle", "{answers: {code-year: 2005}, things: [{id: outlet, cord-path: {}}]}", AtLeast, "10 ft", OLD_OUTLETS),
    row("receptacles-away", "{answers: {code-year: 2005}, things: [{id: outlet, cord-path: {}}]}", AtLeast, "10 ft", OLD_OUTLETS),
    row("junction-box-distance", "things: [{id: box, place: [{}, 0]}]", AtLeast, "4 ft", BOXES),
    row("junction-box-height", "things: [{id: box, above-deck: {}}]", AtLeast, "4 in", BOXES),
    row("junction-box-height", "things: [{id: box, above-water: {}}]", AtLeast, "8 in", BOXES),
    row("disconnect-distance", "things: [{id: isolator, place: [{}, 0]}]", AtLeast, "5 ft", DISCONNECT),
    row("switch-distance", "things: [{id: switch, place: [{}, 0]}]", AtLeast, "5 ft", SWITCH),
    row("lights-above", "things: [{id: lamp, place: [-5, 0], height: {}}]", AtLeast, "12 ft", LIGHTS),
    row("lights-above", "things: [{id: lamp, place: [{}, 0], height: 4 ft}]", AtMost, "5 ft", LIGHTS).gives("fail", "not-applicable"),
];

const PRACTICE: &str = "45 degrees, https://www.thebuildingcodeforum.com/forum/goto/post?id=297130";
const TOWN: &str = "a Texas town, https://www.shady-shores.com/1104/Swimming-Pools-Hot-Tubs-Spas";
const CITY: &str =
    "a Texas city, https://platinumpools.com/swimming-pool-building-permits-houston/";
const SOIL: &str = "OSHA 1926 P app. B, type C, https://oshacademy.com/courses/training/503-em385-1-1-safety-health/503-25-6.php";
const HILL: &str = "IBC 1808.7.3, code viewer, address withheld";
const ZONES: &str =
    "tolerance zones, https://xcelenergy.e-smartworkers.com/email/12780_xcel_c_email/index.html";
const LOCATES: &str = "tolerance zones, https://www.util-locate.com/tolerance-zones-how-far-you-must-dig-from-a-marked-line";

const DIGGING: &[Row] = &[
    // The footing is 2 ft deep and 8 ft away, so that 45 degrees allow 10 ft.
    row(
        "below-footing",
        "{documents: {engineer-letter: refused}, pool: {excavation-depth: {}}}",
        AtMost,
        "10 ft",
        PRACTICE,
    ),
    row(
        "from-grade",
        "{answers: {foundation-reading: from-grade}, documents: {engineer-letter: refused}, things: [{id: deep, depth: 3 ft}, {id: house, foundation-at-grade: [[{}, -10], [40, -10], [40, 10], [{}, 10]]}]}",
        AtLeast,
        "5 ft",
        TOWN,
    ),
    row(
        "from-grade",
        "{answers: {foundation-reading: from-grade}, documents: {engineer-letter: refused}, pool: {excavation-depth: 20 ft}, things: [{id: deep, depth: {}}]}",
        AtMost,
        "9 ft",
        TOWN,
    ),
    row(
        "from-grade",
        "{answers: {foundation-reading: from-grade}, documents: {engineer-letter: refused}, pool: {excavation-depth: {}}, things: [{id: deep, depth: 20 ft}]}",
        AtMost,
        "9 ft",
        TOWN,
    ),
    row(
        "proximity-letter",
        "{documents: {engineer-letter: refused}, things: [{id: house, foundation-at-grade: [[{}, -10], [40, -10], [40, 10], [{}, 10]]}]}",
        AtLeast,
        "5 ft",
        CITY,
    ),
    // The nearest line is 39 ft from the pool's outside: 1-1/2 times 26 ft.
    row(
        "room-for-slopes",
        "{documents: {shoring-plan: refused}, pool: {excavation-depth: {}}}",
        AtMost,
        "26 ft",
        SOIL,
    ),
    row(
        "room-for-slopes",
        "{answers: {soil-type: type-b}, documents: {shoring-plan: refused}, pool: {excavation-depth: {}}}",
        AtMost,
        "39 ft",
        SLOPES,
    ),
    row(
        "room-for-slopes",
        "{answers: {soil-type: type-a}, documents: {shoring-plan: refused}, pool: {excavation-depth: {}}}",
        AtMost,
        "52 ft",
        SLOPES,
    ),
    row(
        "protected-hole",
        "{documents: {shoring-plan: refused, slope-plan: refused}, pool: {excavation-depth: {}}}",
        LessThan,
        "5 ft",
        HOLE,
    ),
    row(
        "deep-hole",
        "{documents: {shoring-plan: refused}, pool: {excavation-depth: {}}}",
        AtMost,
        "20 ft",
        SLOPES,
    ),
    // The toe is 19 ft away: half of 38 ft.
    row(
        "below-slope",
        "things: [{id: bank, footing-setback: {}}]",
        AtMost,
        "38 ft",
        HILL,
    ),
    // The top is 39 ft away: half of 78 ft.
    row(
        "above-slope",
        "things: [{id: bank, footing-setback: {}}]",
        AtMost,
        "78 ft",
        HILL,
    ),
    row(
        "top-of-slope",
        "{pool: {shell: [[-21, -11], [0, -11], [0, 11], [-21, 11]]}, things: [{id: bank, top: [[{}, -60], [{}, 60]]}]}",
        MoreThan,
        "7 ft",
        IBC,
    ),
    row(
        "tolerance-zone",
        "{answers: {digging-state: CO}, things: [{id: gas, path: [[{}, -60], [{}, 60]]}]}",
        AtLeast,
        "18 in",
        ZONES,
    ),
    row(
        "tolerance-zone",
        "{answers: {digging-state: CA}, things: [{id: gas, path: [[{}, -60], [{}, 60]]}]}",
        AtLeast,
        "24 in",
        LOCATES,
    ),
    row(
        "tolerance-zone",
        "{answers: {digging-state: PA}, things: [{id: gas, path: [[{}, -60], [{}, 60]]}]}",
        AtLeast,
        "18 in",
        LOCATES,
    ),
    row(
        "tolerance-zone",
        "{answers: {digging-state: MI}, things: [{id: gas, path: [[{}, -60], [{}, 60]]}]}",
        AtLeast,
        "48 in",
        ZONES,
    ),
];

const MASS: &str = "310 CMR 15.211, http://www.hingham-ma.gov/208/Setback-Distances";
const CONN: &str =
    "Connecticut code, https://madisonct.org/1208/Septic-Systems-and-Pool-Installations";
const NC: &str = "15A NCAC 18A .1950, https://mseptic.com/septic-tank-setback-requirements";
const NC_CUT: &str =
    "15A NCAC 18A .1950, http://nc-wilsoncounty.civicplus.com/413/Other-Requirements";
const GA_TANK: &str = "Georgia, chapter 511-3-1, as examination questions have it (the chapter was not read), https://georgiacommercialcontractor-septic.examzify.com/question/which-of-the-following-is-4fe731f327010c96";
const GA_FIELD: &str = "Georgia, chapter 511-3-1, as examination questions have it (the chapter was not read), https://georgiacommercialcontractor-septic.examzify.com/question/what-is-the-required-setback-afe0d63348b82999";
const TENN: &str =
    "Rutherford County, https://legalbeagle.com/6754262-tennessee-laws-private-swimming-pools.html";
const CUT: &str = "El Dorado County, https://www.edcgov.us/Government/emd/environmentalhealth/Pages/septic_system_minimum_setback_requirements.aspx";
const WELL: &str = "NR 812.08(1)(d), https://regulations.justia.com/states/wisconsin/nr/nr-800/chapter-nr-812/subchapter-i/section-nr-812-08";
const NEIGHBOUR_TREE: &str = "a Texas city, https://www.westutx.gov/228/Tree-Disposition";
const ROOTS: &str = "BS 5837, https://www.leicestershirehighwaydesignguide.uk/highway-layouts-and-design/protecting-natural-assets/excluding-construction-activity-root";

const CLARK: &str = "Clark County code 24.17.120, table IV, https://www.codepublishing.com/WA/ClarkCounty/html/ClarkCounty24/ClarkCounty2417/ClarkCounty2417120.html";
const LOUDOUN: &str = "Loudoun County ordinances 1066.12, https://codelibrary.amlegal.com/codes/loudouncounty/latest/loudounco_va/0-0-0-7949";

const SEPTIC: &[Row] = &[
    row(
        "septic-tank",
        "things: [{id: tank, region: [[{}, -1], [40, -1], [40, 1]]}]",
        AtLeast,
        "10 ft",
        MASS,
    ),
    row(
        "septic-field",
        "things: [{id: field, region: [[{}, -1], [50, -1], [50, 1]]}]",
        AtLeast,
        "20 ft",
        MASS,
    ),
    row(
        "reserve-area",
        "things: [{id: reserve, region: [[{}, -1], [50, -1], [50, 1]]}]",
        AtLeast,
        "20 ft",
        MASS,
    ),
    row(
        "septic-tank",
        "{answers: {health-rules: connecticut}, things: [{id: tank, region: [[{}, -1], [40, -1], [40, 1]]}]}",
        AtLeast,
        "25 ft",
        CONN,
    ),
    row(
        "septic-field",
        "{answers: {health-rules: connecticut}, pool: {construction: above-ground}, things: [{id: field, region: [[{}, -1], [50, -1], [50, 1]]}]}",
        AtLeast,
        "15 ft",
        CONN,
    ),
    row(
        "septic-tank",
        "{answers: {health-rules: north-carolina}, things: [{id: tank, region: [[{}, -1], [40, -1], [40, 1]]}]}",
        AtLeast,
        "15 ft",
        NC,
    ),
    row(
        "septic-field",
        "{answers: {health-rules: north-carolina}, things: [{id: field, region: [[{}, -1], [50, -1], [50, 1]]}]}",
        AtLeast,
        "15 ft",
        NC,
    ),
    row(
        "septic-cut",
        "{answers: {health-rules: north-carolina}, pool: {excavation: [[-22, -12], [0, -12], [0, 12], [-22, 12]]}, things: [{id: tank, region: [[{}, -1], [40, -1], [40, 1]]}]}",
        AtLeast,
        "15 ft",
        NC_CUT,
    ),
    row(
        "septic-cut",
        "{answers: {health-rules: north-carolina}, pool: {excavation-depth: {}}}",
        AtLeast,
        "2 ft",
        NC_CUT,
    )
    .gives("fail", "not-applicable"),
    row(
        "septic-tank",
        "{answers: {health-rules: georgia}, things: [{id: tank, region: [[{}, -1], [40, -1], [40, 1]]}]}",
        AtLeast,
        "10 ft",
        GA_TANK,
    ),
    row(
        "septic-field",
        "{answers: {health-rules: georgia}, things: [{id: field, region: [[{}, -1], [50, -1], [50, 1]]}]}",
        AtLeast,
        "15 ft",
        GA_FIELD,
    ),
    row(
        "septic-tank",
        "{answers: {health-rules: florida}, things: [{id: tank, region: [[{}, -1], [40, -1], [40, 1]]}]}",
        AtLeast,
        "5 ft",
        MEMORY,
    ),
    row(
        "septic-field",
        "{answers: {health-rules: florida}, things: [{id: field, region: [[{}, -1], [50, -1], [50, 1]]}]}",
        AtLeast,
        "5 ft",
        MEMORY,
    ),
    row(
        "septic-tank",
        "{answers: {health-rules: texas}, things: [{id: tank, region: [[{}, -1], [40, -1], [40, 1]]}]}",
        AtLeast,
        "15 ft",
        MEMORY,
    ),
    row(
        "septic-field",
        "{answers: {health-rules: texas}, things: [{id: field, region: [[{}, -1], [50, -1], [50, 1]]}]}",
        AtLeast,
        "15 ft",
        MEMORY,
    ),
    row(
        "septic-tank",
        "{answers: {health-rules: rutherford-county-tn}, things: [{id: tank, region: [[{}, -1], [40, -1], [40, 1]]}]}",
        AtLeast,
        "25 ft",
        TENN,
    ),
    row(
        "septic-tank",
        "{answers: {health-rules: rutherford-county-tn}, pool: {construction: above-ground}, things: [{id: tank, region: [[{}, -1], [40, -1], [40, 1]]}]}",
        AtLeast,
        "10 ft",
        TENN,
    ),
    row("septic-tank", "{answers: {health-rules: clark-county-wa}, things: [{id: tank, region: [[{}, -1], [50, -1], [50, 1]]}]}", AtLeast, "5 ft", CLARK),
    row("septic-field", "{answers: {health-rules: clark-county-wa}, things: [{id: field, region: [[{}, -1], [50, -1], [50, 1]]}]}", AtLeast, "10 ft", CLARK),
    row("reserve-area", "{answers: {health-rules: clark-county-wa}, things: [{id: reserve, region: [[{}, -1], [50, -1], [50, 1]]}]}", AtLeast, "10 ft", CLARK),
    row("septic-tank", "{answers: {health-rules: loudoun-county-va}, things: [{id: tank, region: [[{}, -1], [50, -1], [50, 1]]}]}", AtLeast, "20 ft", LOUDOUN),
    row("septic-field", "{answers: {health-rules: loudoun-county-va}, things: [{id: field, region: [[{}, -1], [50, -1], [50, 1]]}]}", AtLeast, "20 ft", LOUDOUN),
    // The cut is 5 ft deep: four times that.
    row(
        "septic-field",
        "{answers: {health-rules: el-dorado-county-ca}, pool: {excavation: [[-22, -12], [0, -12], [0, 12], [-22, 12]]}, things: [{id: field, region: [[{}, -1], [50, -1], [50, 1]]}]}",
        AtLeast,
        "20 ft",
        CUT,
    ),
    row(
        "well",
        "things: [{id: well, casing: [{}, 0]}]",
        AtLeast,
        "8 ft",
        WELL,
    ),
    // Twelve stems of 1 ft; then a stem so thick that the cap of 15 m counts.
    row(
        "tree",
        "{pool: {excavation: [[-22, -12], [0, -12], [0, 12], [-22, 12]]}, things: [{id: oak, stem: [{}, 0]}]}",
        AtLeast,
        "12 ft",
        ROOTS,
    ),
    row(
        "tree",
        "{pool: {excavation: [[-22, -12], [0, -12], [0, 12], [-22, 12]]}, things: [{id: oak, stem-diameter: 5 ft, stem: [{}, 0]}]}",
        AtLeast,
        "15 m",
        ROOTS,
    ),
    // The zone is 10 ft square: 30 % of it is a strip of 3 ft on the lot.
    row(
        "neighbour-tree",
        "{lot: {corners: {a: [-60, -60], b: [{}, -60], c: [{}, 60], d: [-60, 60]}}, documents: {tree-statement: refused}, things: [{id: elm, root-zone: [[0, 0], [10, 0], [10, 10], [0, 10]]}]}",
        AtMost,
        "3 ft",
        NEIGHBOUR_TREE,
    )
    .gives("not-applicable", "fail"),
];
