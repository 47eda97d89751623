//! Why nothing fits, what papers add, and the map for others.

use super::map::Class;
use super::pause::at_once;
use super::placement_tests::{
    ELDERMERE, LINE, ground, outcomes, placement, plot, rule_set, rules, somewhere,
};
use super::spot::Spot;
use super::*;
use crate::check::Outcome;

const NO_ROOM: &str = include_str!("../../../rulesets/eldermere/no-room.yaml");

/// Rules on the distance of the water to the lot's ends, to its sides, and to the house, which is 1.9 m.
fn sides_and_house(front_and_rear: &str, sides: &str, relief: &str) -> String {
    let line = |id: &str, ids: &str, limit: &str, relief: &str| {
        format!(
            "  - id: {id}\n    title: Title of {id}\n    clause: \"1\"\n    each: {{kind: lot-line, where: {{fact: lot-line.faces, is: {ids}}}}}\n    \
             require: {{distance: {{from: pool.water, to: lot-line}}, at-least: {limit}}}\n{relief}"
        )
    };
    format!(
        "ruleset: r\ntitle: T\nedition: \"1\"\nauthority: Nobody\nnotice: A test\nrules:\n{}{}{}",
        line("ends", "[front, rear]", front_and_rear, relief),
        line("flanks", "[side]", sides, ""),
        "  - {id: house, title: Title of house, clause: \"1\", each: building, require: {distance: {from: pool.water, to: building.wall}, at-least: 1.9 m}}\n"
    )
}

/// The lot of 20 by 30 m with its sides named, and a house from (6, 12) to (14, 18).
fn faced(more: &str) -> String {
    let plan = plot("0 mm", more);
    let plan = plan
        .replace("{id: front,", "{id: front, faces: front,")
        .replace("{id: rear,", "{id: rear, faces: rear,");
    plan.replace("{id: east,", "{id: east, faces: side,")
        .replace("{id: west,", "{id: west, faces: side,")
}

fn ids(why: &WhyNot) -> Vec<&str> {
    why.rules.iter().map(|it| it.rule.id.as_str()).collect()
}

#[test]
fn where_nothing_fits_the_smallest_set_of_rules_is_the_one_worked_out_by_hand() {
    // The pool is 4 m wide and 8 m long. In front of and behind the house there are 12 m: with 3 m to the end and 1.9 m to
    // the house, 7.1 m are left, less than 8. Beside the house there are 6 m: with 1 m to the side and 1.9 m to the house,
    // 3.1 m are left, less than 4. It takes all three rules: without the ends' there are 10.1 m behind the house, without
    // the sides' 4.1 m beside it, and without the house's there is room in the middle of the lot.
    let found = placement(&faced(""), &sides_and_house("3 m", "1 m", ""));
    assert_eq!(found.best(), None);
    let [why] = found.why_not.as_slice() else {
        panic!("{:?}", found.why_not)
    };
    assert_eq!(ids(why), ["ends", "flanks", "house"]);
    assert!(why.sure && why.unproved == 0.0, "{why:?}");
    // With 9 m to the sides no other rule is needed: 2 m are left of 20.
    let found = placement(&faced(""), &sides_and_house("3 m", "9 m", ""));
    assert_eq!(ids(&found.why_not[0]), ["flanks"]);
    // With 10.5 m to the ends, 9 m are left between them; but the house stands there, and beside it 3.1 m are left.
    let found = placement(&faced(""), &sides_and_house("10.5 m", "1 m", ""));
    assert_eq!(ids(&found.why_not[0]), ["ends", "flanks", "house"]);
}

#[test]
fn each_rule_of_the_set_alone_rules_out_the_place_named_with_it() {
    let rules = rule_set(&sides_and_house("3 m", "1 m", ""));
    let found = place(&faced(""), &rules, &Wishes::default()).expect("a placement");
    let ground = ground(&faced(""), &rules, &Wishes::default(), 0.0);
    for needed in &found.why_not[0].rules {
        let fails = |id: &&str| {
            let rule = (0..9)
                .find(|rule| ground.judging.id(*rule) == *id)
                .expect("a rule");
            outcomes(&ground, &rules, needed.way, &[rule]).contains(&Outcome::Fail)
        };
        let failing: Vec<&str> = ["ends", "flanks", "house"]
            .into_iter()
            .filter(fails)
            .collect();
        assert_eq!(failing, [needed.rule.id.as_str()], "{needed:?}");
    }
}

/// The square of all moves that keep the pool's middle on the lot.
fn all_over(ground: &Ground<'_>) -> Spot {
    let (low, high) = ground.moving.range();
    let size = (high.x - low.x).max(high.y - low.y);
    Spot { low, size }
}

#[test]
fn at_every_place_tried_the_ordinary_checker_fails_a_rule_of_the_set() {
    let mut dice = 11;
    let limits = ["0.7 m", "1 m", "1.3 m", "3.4 m", "4.6 m", "8.2 m"];
    let mut sets = 0;
    for ends in limits {
        for flanks in limits {
            let rules = rule_set(&sides_and_house(ends, flanks, ""));
            let wishes = Wishes {
                finest: 200,
                ..Wishes::default()
            };
            let mut grounds = [ground(&faced(""), &rules, &wishes, 0.0)];
            let asked = grounds[0].mapped();
            let found = at_once(why_not::conflict(&mut grounds, &asked));
            let ground = &grounds[0];
            let fits = ground.patches.iter().any(|it| it.class == Class::Sure);
            let Some(found) = found else {
                assert!(fits, "{ends} {flanks}: neither a place nor a reason");
                continue;
            };
            assert!(!fits && found.unproved == 0, "{ends} {flanks}: {found:?}");
            assert_eq!(found.places.len(), found.rules.len());
            sets += 1;
            let set = [found.rules, ground.judging.built_in()].concat();
            for _ in 0..40 {
                let way = somewhere(&mut dice, all_over(ground));
                let outcomes = outcomes(ground, &rules, way, &set);
                assert!(
                    outcomes.contains(&Outcome::Fail),
                    "{ends} {flanks}: {way:?} {outcomes:?}"
                );
            }
        }
    }
    // There is room behind the house where end + 1.9 + 8 ≤ 12 m and 2 × side + 4 ≤ 20 m: with 0.7, 1 and 1.3 m to the ends
    // and up to 4.6 m to the sides. Beside it there is room where side + 1.9 + 4 ≤ 6 m: never. Past its corner, 2 m less the
    // side, the pool may come as near as √(1.9² − 1.3²) = 1.39 m at best, which lets in no more of these.
    assert_eq!(sets, 36 - 3 * 5);
}

#[test]
fn a_pool_that_no_lot_line_lets_in_is_ruled_out_by_the_lot_itself() {
    let plan = faced("").replace("length: 4, width: 8", "length: 21, width: 8");
    let found = placement(&plan, &sides_and_house("3 m", "1 m", ""));
    assert!(found.why_not[0].rules.is_empty(), "{:?}", found.why_not);
    assert!(found.to_text().contains("too large for the lot"));
}

/// A relief from the ends' rule: with a paper, 1 m is enough.
const CONSENT: &str = "    relief:\n      - id: consent\n        require:\n          - {have: consent}\n          \
                       - {distance: {from: pool.water, to: lot-line}, at-least: 1 m}\n";
/// One paper for both ends.
const PAPER: &str =
    "documents:\n  - {id: consent, title: The consent, from: the neighbour, one-for-all: yes}\n";

#[test]
fn the_map_with_a_paper_has_the_area_worked_out_by_hand() {
    // Without the consent nothing fits, as above. With it the ends ask for 1 m: of the 12 m before and behind the house
    // 12 − 1 − 1.9 − 8 = 1.1 m are left for the middle along the lot, and 20 − 2 × 1 − 4 = 14 m across: 2 × 15.4 m². At the
    // ends of both strips, where the water has passed the house's corner by u, up to 1 m, the middle may come nearer by
    // 1.9 − √(1.9² − u²); that adds 1.9 − (√2.61 / 2 + 1.805 × arcsin(1 / 1.9)) = 0.0918 m² at each of four corners.
    let by_hand = 2.0 * 15.4 + 4.0 * 0.0918;
    let rules = sides_and_house("3 m", "1 m", CONSENT) + PAPER;
    let wishes = Wishes {
        finest: 50,
        ..Wishes::default()
    };
    let found = place(&faced(""), &rule_set(&rules), &wishes).expect("a placement");
    let [none, with] = found.turns[0].papers.as_slice() else {
        panic!("{:?}", found.turns[0].papers)
    };
    assert!(none.with.is_empty() && none.sure + none.as_drawn + none.open == 0.0);
    assert_eq!(with.with[0].id, "consent");
    let not_never = with.sure + with.as_drawn + with.open + with.edge;
    assert!(
        with.sure <= by_hand && by_hand <= not_never,
        "{} {not_never}",
        with.sure
    );
    assert!(
        ((with.sure + not_never) / 2.0 - by_hand).abs() < 0.02 * by_hand,
        "{} {not_never}",
        with.sure
    );
    assert_eq!(ids(&found.why_not[0]), ["ends", "flanks", "house"]);
    assert_eq!(found.why_not.len(), 1, "with the paper it fits");
    let text = found.to_text();
    assert!(text.contains("The consent: "), "{text}");
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
}

#[test]
fn a_paper_in_hand_or_refused_is_not_mapped() {
    let rules = sides_and_house("3 m", "1 m", CONSENT) + PAPER;
    for (state, fits) in [("in-hand", true), ("refused", false)] {
        let plan = faced(&format!("documents: {{consent: {state}}}\n"));
        let found = placement(&plan, &rules);
        assert!(found.turns[0].papers.is_empty());
        assert_eq!(found.best().is_some(), fits, "{state}");
    }
}

#[test]
fn the_regions_of_the_map_are_its_cells_joined() {
    let rules = rule_set(&rules(LINE));
    let ground = ground(&plot("20 mm", ""), &rules, &Wishes::default(), 0.0);
    let regions = regions::regions(&ground.patches, &ground.judging);
    for region in &regions {
        // The area between the rings, by the surveyor's formula; holes run the other way and so count against it.
        let doubled = |ring: &Vec<Way>| -> i64 {
            let next = ring.iter().cycle().skip(1);
            ring.iter()
                .zip(next)
                .map(|(a, b)| a.x * b.y - b.x * a.y)
                .sum()
        };
        let rings = region.polygons.iter().flatten();
        let area = rings.map(doubled).sum::<i64>() as f64 / 2e6;
        assert!(
            (area - region.square_metres).abs() < 1e-6,
            "{area} {}",
            region.square_metres
        );
    }
    let never = regions
        .iter()
        .find(|it| it.holds == Class::Never)
        .expect("a region");
    assert!(
        never.rules.contains(&"line".to_owned()),
        "{:?}",
        never.rules
    );
    let sure: Vec<&Region> = regions
        .iter()
        .filter(|it| it.holds == Class::Sure)
        .collect();
    assert_eq!((sure.len(), sure[0].polygons.len()), (1, 1));
    assert!(sure[0].rules.is_empty());
}

/// Worked out in `docs/placement.md`.
#[test]
fn the_home_with_no_room_has_none_for_the_reasons_worked_out_by_hand() {
    let wishes = Wishes {
        finest: 200,
        ..Wishes::default()
    };
    let found = place(NO_ROOM, &rule_set(ELDERMERE), &wishes).expect("a placement");
    assert!(found.best().is_none_or(|best| best == Class::Open));
    assert_eq!(
        found.why_not.len(),
        2,
        "without papers and with all: {:?}",
        found.why_not
    );
    for why in &found.why_not {
        assert_eq!(ids(why), ["side-line", "rear-line", "house"]);
        assert!(why.sure && why.unproved == 0.0, "{why:?}");
    }
    let with =
        |map: &PaperMap| -> Vec<String> { map.with.iter().map(|paper| paper.id.clone()).collect() };
    let maps = &found.turns[0].papers;
    assert!(with(&maps[0]).is_empty());
    assert!(maps.iter().any(|map| with(map) == ["rear-consent"]));
    assert!(maps.iter().all(|map| map.sure + map.as_drawn == 0.0));
    let smaller = found.smaller.expect("a smaller one");
    assert!(
        (820..=850).contains(&smaller.thousandths),
        "{}",
        smaller.thousandths
    );
}

#[test]
fn the_places_are_compared_by_the_same_measures() {
    // 2 m from the line, with the house at (6, 12) to (14, 18).
    let found = placement(&plot("0 mm", ""), &rules(LINE));
    let what = |offer: &Offer| -> Vec<String> {
        offer.measures.iter().map(|it| it.what.clone()).collect()
    };
    let first = what(&found.options[0]);
    assert!(first.contains(&"Pool to lot line".to_owned()), "{first:?}");
    assert!(found.options.len() > 1);
    for option in &found.options {
        assert_eq!(what(option), first);
        // The pool's middle is (5, 7) as drawn, and it reaches 2 m to either side and 4 m up and down.
        let gap = |low: i64, high: i64, at: i64, half: i64| {
            (low - at - half).max(at - half - high).max(0)
        };
        let (x, y) = (5000 + option.way.x, 7000 + option.way.y);
        let (dx, dy) = (gap(6000, 14_000, x, 2000), gap(12_000, 18_000, y, 4000));
        let by_hand = ((dx * dx + dy * dy) as f64).sqrt() / 1000.0;
        let measure = option
            .measures
            .iter()
            .find(|it| it.what == "Distance to house");
        let says = &measure.expect("a distance").says;
        let printed: f64 = says.trim_end_matches(" m").parse().expect("metres");
        assert!((printed - by_hand).abs() <= 0.006, "{says} {by_hand}");
    }
    assert!(found.to_text().contains("side by side"));
}

#[test]
fn the_map_as_geojson_says_that_its_coordinates_are_the_plans() {
    let found = placement(&plot("0 mm", ""), &rules(LINE));
    let json: serde_json::Value = serde_json::from_str(&place_to_geojson(&found)).expect("JSON");
    assert_eq!(json["type"], "FeatureCollection");
    assert!(
        json["coordinates-are"]
            .as_str()
            .is_some_and(|it| it.contains("not longitude and latitude"))
    );
    let features = json["features"].as_array().expect("features");
    let sure = features
        .iter()
        .filter(|it| it["properties"]["holds"] == "sure");
    // The middle keeps 4 m from the sides and 6 m from front and rear (worked out above).
    let mut corners = 0;
    for position in sure
        .filter(|it| it["geometry"]["type"] == "MultiPolygon")
        .flat_map(|it| {
            let polygons = it["geometry"]["coordinates"]
                .as_array()
                .expect("polygons")
                .iter();
            let rings = polygons.flat_map(|it| it.as_array().expect("rings"));
            let positions = rings.flat_map(|it| {
                let ring = it.as_array().expect("a ring");
                assert!(
                    ring.len() >= 4 && ring.first() == ring.last(),
                    "RFC 7946, 3.1.6: closed"
                );
                ring.clone()
            });
            positions.collect::<Vec<_>>()
        })
    {
        let [x, y] = [0, 1].map(|at| position[at].as_f64().expect("metres"));
        assert!(
            (4.0..=16.0).contains(&x) && (6.0..=24.0).contains(&y),
            "{x} {y}"
        );
        corners += 1;
    }
    assert!(corners >= 5, "{corners}");
}

#[test]
fn the_map_is_drawn_over_the_plan() {
    let (plan, rules) = (plot("20 mm", ""), rules(LINE));
    let found = placement(&plan, &rules);
    let none = |_: &str| None;
    let svg = place_to_svg(&plan, &rules, &none, (&Wishes::default(), &found)).expect("a drawing");
    assert!(svg.starts_with("<svg") && svg.ends_with("</svg>"));
    assert_eq!(
        svg.matches("overlay-area").count(),
        found.turns[0].regions.len()
    );
    assert_eq!(svg.matches("overlay-outline").count(), found.options.len());
    assert!(svg.contains("Only the authority can permit a pool."));
    assert!(svg.contains("data-rules=\"line\"") && !svg.to_lowercase().contains("approved"));
}
