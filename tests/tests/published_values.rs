//! Published limits of several countries: each at the limit, just under it and just over it.
//!
//! Each test names where the value stands. A limit is in force where its authority says so and may have changed since;
//! here it shows that a rule file can say it and that the outcome turns at the right place.

mod common;

use common::Outcome::{Fail, Pass};
use common::{Plot, class_of, outcomes};

/// United States, ISPSC 2018, s. 305.3.3: a latch below 54 in is on the pool side, at least 3 in below the top.
/// As read at <https://www.thebuildingcodeforum.com/forum/threads/looking-for-opinions-on-certain-sections-of-the-barrier-requirements-section-305-of-the-ispsc.32706/latest>.
#[test]
fn us_latch() {
    let rule = "
    each: gate
    require:
      any-of:
        - {fact: gate.latch-height, at-least: 54 in}
        - all-of:
            - {fact: gate.latch-side, is: pool}
            - {fact: gate.latch-below-top, at-least: 3 in}";
    let gate = |height: &str, below: &str| {
        Plot::thing(&format!(
            "{{kind: gate, id: g, latch-side: pool, latch-height: {height}, latch-below-top: {below}}}"
        ))
    };
    let heights = [
        ("54 in", Pass),
        ("4 ft 6 in", Pass),
        ("53-63/64 in", Fail),
        ("54-1/64 in", Pass),
    ];
    outcomes(rule, heights, |height| gate(height, "2 in"));
    let below = [("3 in", Pass), ("2-63/64 in", Fail), ("3-1/64 in", Pass)];
    outcomes(rule, below, |below| gate("40 in", below));
}

/// United States, ISPSC, s. 305.2.10: 20 in (508 mm) from the barrier to the water's edge.
/// As read at <https://www.thebuildingcodeforum.com/forum/threads/on-ground-pool-barrier-20-set-back-from-water-edge.35119/latest>.
#[test]
fn us_barrier_to_water() {
    let rule = "
    each: barrier-stretch
    require:
      distance: {from: barrier-stretch.line, to: pool.water}
      at-least: 20 in";
    // The water begins at 10 m east.
    let places = [
        ("9.492", Pass),
        ("9.492000001", Fail),
        ("9.491999999", Pass),
    ];
    outcomes(rule, places, |east| {
        Plot::thing(&format!(
            "{{kind: barrier-stretch, id: f, source: exact, line: [[{east}, 5], [{east}, 30]]}}"
        ))
    });
}

/// California, Health and Safety Code s. 115923(b): at least 60 in high; (c): at most 2 in below.
/// As read at <https://california.public.law/codes/ca_health_and_safety_code_section_115923>.
#[test]
fn california_barrier() {
    let height = "\n    each: barrier-stretch\n    require: {fact: barrier-stretch.height-outside, at-least: 60 in}";
    let heights = [
        ("60 in", Pass),
        ("5 ft", Pass),
        ("1.524 m", Pass),
        ("1523.999999 mm", Fail),
        ("{from: 59.9 in, to: 62 in}", Fail),
        ("60.1 in", Pass),
    ];
    outcomes(height, heights, |height| {
        Plot::fence("height-outside", height)
    });
    let gap = "\n    each: barrier-stretch\n    require: {fact: barrier-stretch.gap-below, at-most: 2 in}";
    let gaps = [
        ("2 in", Pass),
        ("50.8 mm", Pass),
        ("50.81 mm", Fail),
        ("49 mm", Pass),
    ];
    outcomes(gap, gaps, |gap| Plot::fence("gap-below", gap));
}

/// United States, National Electrical Code, table 680.9(A): 22.5 ft in any direction from the water to an insulated
/// line of up to 750 V. As read at <https://www.nachi.org/forum/654723-post2.html?s=23a382447f204067faf9bee4e9cfdab2>.
#[test]
fn us_overhead_line() {
    let rule = "
    each: overhead-line
    require:
      distance: {from: pool.water, to: overhead-line.conductor, measured: in-space}
      at-least:
        table: {by: overhead-line.voltage, rows: [{at-most: 750 V, then: 22.5 ft}, {otherwise: refer}]}";
    // 22.5 ft is 6.858 m: 3, 4 and 5 times 1.3716 m, so a wire 4.1148 m to the side and 5.4864 m high is at the limit.
    let wire = |east: &str| {
        let line = format!("[[{east}, -30], [{east}, 60]]");
        let plot = Plot::thing(&format!(
            "{{kind: overhead-line, id: w, source: exact, voltage: 750 V, height: 5.4864 m, path: {line}, conductor: {line}}}"
        ));
        plot.and_pool("height-above-ground", "0 m")
    };
    let places = [("5.8852", Pass), ("5.8853", Fail), ("5.8851", Pass)];
    outcomes(rule, places, wire);
}

/// Quebec, Residential Swimming Pool Safety Regulation (S-3.1.02, r. 1), s. 1: from 60 cm of water on.
/// As read at <https://www.legisquebec.gouv.qc.ca/en/version/cr/S-3.1.02,%20r.%201?code=se:1&history=20240318>.
#[test]
fn quebec_depth() {
    let table =
        "{rows: [{when: {fact: pool.depth, at-least: 60 cm}, then: regulated}, {otherwise: free}]}";
    for (depth, class) in [
        ("60 cm", "regulated"),
        ("599.999 mm", "free"),
        ("600.001 mm", "regulated"),
    ] {
        assert_eq!(
            class_of(table, &Plot::pool("depth", depth)),
            class,
            "{depth}"
        );
    }
}

/// Norway, plan- og bygningsloven s. 29-4: at least 4 m and half the height to the neighbour's boundary.
/// As read at <https://os.onacos.no/plan-bygg-og-eigedom/bygging-og-eigedom/rettleiingar-og-skjema/rettleiingar-normer/nabogrense-avstand.3984.aspx>.
#[test]
fn norway_boundary() {
    let rule = "
    each: lot-line
    where: {fact: lot-line.beyond, is: neighbour-lot}
    require:
      distance: {from: pool.water, to: lot-line}
      at-least: {largest-of: [4 m, {product: [50 %, pool.height-above-ground]}]}";
    // The pool is 10 m from every line. Half of 20 m is 10 m; up to 8 m of height the 4 m count.
    let heights = [("20 m", Pass), ("20.001 m", Fail), ("19.999 m", Pass)];
    outcomes(rule, heights, |height| {
        Plot::pool("height-above-ground", height)
    });
    let low = rule.replace("pool.water", "pool.coping");
    let copings = [("6 m", Pass), ("6.000001 m", Fail), ("5.999999 m", Pass)];
    outcomes(&low, copings, |out| {
        let coping = format!("{{outward: {out}, from: water, corners: square}}");
        Plot::pool("height-above-ground", "1 m").and_pool("coping", &coping)
    });
}

/// Norway, jernbaneloven s. 10: nothing is dug within 30 m of the middle of the nearest track.
/// As read at <http://www.banenor.no/Sikkerhet/Byggegrense/>.
#[test]
fn norway_railway() {
    let rule = "
    each: railway
    require:
      distance: {from: pool.water, to: railway.nearest-track}
      at-least: 30 m";
    // The water begins at 10 m north.
    let places = [
        ("-20", Pass),
        ("-19.999999999", Fail),
        ("-20.000000001", Pass),
    ];
    outcomes(rule, places, |north| {
        Plot::thing(&format!(
            "{{kind: railway, id: r, source: exact, nearest-track: [[-90, {north}], [90, {north}]]}}"
        ))
    });
}

/// Sweden, Boverkets byggregler 8:951: a fixed pool deeper than 0.20 m needs protection.
/// As read at <https://www.boverket.se/sv/PBL-kunskapsbanken/regler-om-byggande/krav-pa-byggnadsverk-tomter-mm/krav-pa-tomter/sakerhet/pool/>.
#[test]
fn sweden_depth() {
    let table = "{rows: [{when: {fact: pool.depth, more-than: 0.2 m}, then: protected}, {otherwise: free}]}";
    for (depth, class) in [
        ("0.20 m", "free"),
        ("201 mm", "protected"),
        ("199 mm", "free"),
    ] {
        assert_eq!(
            class_of(table, &Plot::pool("depth", depth)),
            class,
            "{depth}"
        );
    }
}

/// France, Code de l'urbanisme R421-2, R421-9 and R421-1: nothing up to 10 m², a declaration up to 100 m², a permit above.
/// As read at <http://sainte-pazanne.fr/spip.php?article194>.
#[test]
fn france_basin() {
    let table = "{by: pool.footprint, rows: [{at-most: 10 m2, then: nothing}, {at-most: 100 m2, then: declaration}, {otherwise: permit}]}";
    for (area, class) in [
        ("9.99 m2", "nothing"),
        ("10 m2", "nothing"),
        ("10.01 m2", "declaration"),
        ("99.99 m2", "declaration"),
        ("100 m2", "declaration"),
        ("100.01 m2", "permit"),
    ] {
        assert_eq!(
            class_of(table, &Plot::pool("footprint", area)),
            class,
            "{area}"
        );
    }
}

/// France, NF P90-306: at least 1.10 m from the highest foothold to the top rail.
/// As read at <http://piscine06.fr/securite.php>.
#[test]
fn france_barrier() {
    let rule = "\n    each: barrier-stretch\n    require: {fact: barrier-stretch.height-above-highest-foothold, at-least: 1.10 m}";
    let heights = [("1.1 m", Pass), ("1099 mm", Fail), ("1101 mm", Pass)];
    outcomes(rule, heights, |height| {
        Plot::fence("height-above-highest-foothold", height)
    });
}

/// Germany, Bauordnung Nordrhein-Westfalen s. 62: up to 100 m³ no permit.
/// As read at <https://rp-online.de/wirtschaft/poolbau-in-nrw-baugenehmigung-fuer-den-swimmingpool-und-kinderlaerm_aid-71644025>.
#[test]
fn germany_volume() {
    let table = "{by: pool.volume, rows: [{at-most: 100 m3, then: free}, {otherwise: permit}]}";
    for (volume, class) in [
        ("100 m3", "free"),
        ("100000 l", "free"),
        ("100001 l", "permit"),
        ("99999 l", "free"),
    ] {
        assert_eq!(
            class_of(table, &Plot::pool("volume", volume)),
            class,
            "{volume}"
        );
    }
}

/// England, General Permitted Development Order 2015, sch. 2 part 1 class E: at most half of the ground is covered.
/// As read at <https://www.planningpros.co.uk/advice/outbuildings>.
#[test]
fn england_half_covered() {
    let rule = "
    require:
      area: {of: [{all: pool.water}, deck.region], share-of: lot.boundary}
      at-most: 50 %";
    // Half of 24 m by 28 m is 336 m². The water has 32 m²; the deck runs along the south, 24 m by 9 m, and north from
    // there 8 m wide: 216 m² and 8 m by 11 m make 304 m² if it ends at 20 m.
    let ends = [("20", Pass), ("20.0001", Fail), ("19.9999", Pass)];
    outcomes(rule, ends, |north| {
        let deck = format!("[[0, 0], [24, 0], [24, 9], [8, 9], [8, {north}], [0, {north}]]");
        Plot::thing(&format!(
            "{{kind: deck, id: d, source: exact, region: {deck}}}"
        ))
    });
}

/// Australia, AS 1926.1: water deeper than 300 mm; Queensland, Building Act 1975: 300 mm or more. At 300 mm they differ.
/// As read at <https://ellisoutdoor.com.au/?p=9024> and <https://ekomlegal.com.au/post/pool-safety-laws>.
#[test]
fn australia_depth() {
    let most =
        "{rows: [{when: {fact: pool.depth, more-than: 300 mm}, then: fence}, {otherwise: none}]}";
    let queensland = "{rows: [{when: {fact: pool.fill-depth, at-least: 300 mm}, then: fence}, {otherwise: none}]}";
    for (depth, elsewhere, there) in [
        ("300 mm", "none", "fence"),
        ("299 mm", "none", "none"),
        ("301 mm", "fence", "fence"),
    ] {
        assert_eq!(
            class_of(most, &Plot::pool("depth", depth)),
            elsewhere,
            "{depth}"
        );
        assert_eq!(
            class_of(queensland, &Plot::pool("fill-depth", depth)),
            there,
            "{depth}"
        );
    }
}

/// Australia, New South Wales, Swimming Pools Regulation 2008, cl. 3, and the councils' guidance: at most 100 mm under
/// the barrier. As read at <https://www.coffsharbour.nsw.gov.au/Resident-services/Your-property/Swimming-pool-approval-and-safety-requirements/Swimming-pool-barriers-and-safety-requirements>.
#[test]
fn australia_gap() {
    let rule = "\n    each: barrier-stretch\n    require: {fact: barrier-stretch.gap-below, at-most: 100 mm}";
    let gaps = [
        ("100 mm", Pass),
        ("101 mm", Fail),
        ("99 mm", Pass),
        ("{from: 20 mm, to: 101 mm}", Fail),
    ];
    outcomes(rule, gaps, |gap| Plot::fence("gap-below", gap));
}

/// New Zealand, Building Act 2004 s. 162B: 400 mm of water or more.
/// As read at <http://www.legislation.govt.nz/act/public/2016/0071/latest/DLM6581336.html>.
#[test]
fn new_zealand_depth() {
    let table =
        "{rows: [{when: {fact: pool.depth, at-least: 400 mm}, then: fence}, {otherwise: free}]}";
    for (depth, class) in [("400 mm", "fence"), ("399 mm", "free"), ("401 mm", "fence")] {
        assert_eq!(
            class_of(table, &Plot::pool("depth", depth)),
            class,
            "{depth}"
        );
    }
}

/// United Kingdom, BS 5837:2012: nothing is dug within 12 stem diameters of a tree, 15 m at most.
/// As read at <https://www.leicestershirehighwaydesignguide.uk/highway-layouts-and-design/protecting-natural-assets/excluding-construction-activity-root>:
/// 500 mm gives 6.0 m.
#[test]
fn uk_tree() {
    let rule = "
    each: tree
    require:
      distance: {from: pool.water, to: tree.stem}
      at-least: {smallest-of: [15 m, {product: [12, tree.stem-diameter]}]}";
    // The stem stands 6 m west of the water.
    let stems = [("500 mm", Pass), ("501 mm", Fail), ("499 mm", Pass)];
    outcomes(rule, stems, |stem| {
        Plot::thing(&format!(
            "{{kind: tree, id: t, source: exact, stem: [4, 15], stem-diameter: {stem}}}"
        ))
    });
}
