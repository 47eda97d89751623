use super::map::Patch;
use super::pause::{NEVER, at_once};
use super::spot::Spot;
use super::*;
use crate::answer::read_rules;
use crate::check::{Outcome, check};
use crate::ruleset::Strength;
use crate::text;

pub(super) const HOME: &str = include_str!("../../../rulesets/eldermere/home.yaml");
pub(super) const ELDERMERE: &str = include_str!("../../../rulesets/eldermere/rules.yaml");
const BARRIER: &str = include_str!("../../../rulesets/barrier-model/rules.yaml");

/// A lot of 20 by 30 m and a pool of 4 by 8 m.
pub(super) fn plot(accuracy: &str, more: &str) -> String {
    format!(
        "plan: p\ntitle: P\nunit: m\n\
         sources: [{{id: survey, by: survey, accuracy: {accuracy}, shift: 0 mm}}]\n\
         lot: {{source: survey, corners: {{a: [0, 0], b: [20, 0], c: [20, 30], d: [0, 30]}}, sides: [{{id: front, from: a, to: b}}, {{id: east, from: b, to: c}}, {{id: rear, from: c, to: d}}, {{id: west, from: d, to: a}}]}}\n\
         pool: {{id: pool, source: survey, water: {{rectangle: {{at: [3, 3], length: 4, width: 8}}}}}}\n\
         things:\n  - {{kind: building, id: house, source: survey, wall: {{rectangle: {{at: [6, 12], length: 8, width: 6}}}}}}\n\
         inventory: {{building: all-shown}}\n{more}"
    )
}

pub(super) fn rules(requirement: &str) -> String {
    format!(
        "ruleset: r\ntitle: T\nedition: \"1\"\nauthority: Nobody\nnotice: A test\nrules:\n  - id: line\n    \
         title: Pool to lot line\n    clause: \"1\"\n    require: {requirement}\n"
    )
}

pub(super) const LINE: &str = "{distance: {from: pool.water, to: lot-line}, at-least: 2 m}";

pub(super) fn rule_set(text: &str) -> RuleSet {
    let bases = |name: &str| (name == "barrier-model").then_some(BARRIER);
    read_rules(text, &bases)
        .unwrap_or_else(|it| panic!("{}", it.show("plan", "rules")))
        .rule_set
}

pub(super) fn ground<'r>(
    plan: &str,
    rules: &'r RuleSet,
    wishes: &Wishes,
    degrees: f64,
) -> Ground<'r> {
    let document = text::read(plan).expect("a document");
    let ground = Ground::new((&document, plan), (rules, wishes), degrees, NEVER);
    at_once(ground).expect("a map")
}

/// The area of some cells, in square metres.
fn area(ground: &Ground<'_>, of: impl Fn(&Patch) -> bool) -> f64 {
    let patches = ground.patches.iter().filter(|patch| of(patch));
    patches.map(|patch| patch.spot.area()).sum::<i64>() as f64 / 1e6
}

/// The ordinary checker's outcomes for some rules with the pool moved.
pub(super) fn outcomes(
    ground: &Ground<'_>,
    rules: &RuleSet,
    way: Way,
    asked: &[usize],
) -> Vec<Outcome> {
    let mut pose = pose::Pose::of(&ground.plan, &ground.moving.things);
    let found = check(pose.put(way, 0), rules).expect("not too much");
    let ids: Vec<&str> = asked.iter().map(|rule| ground.judging.id(*rule)).collect();
    let asked = found.rules.iter().filter(|it| {
        let rule = rules.rule(it.rule).expect("a rule");
        rule.strength == Strength::Must && ids.contains(&rule.id.as_str())
    });
    asked.map(|it| it.outcome).collect()
}

/// A random move in a cell (Marsaglia's xorshift, from memory).
pub(super) fn somewhere(dice: &mut u64, spot: Spot) -> Way {
    let mut from = |low: i64| {
        *dice ^= *dice << 13;
        *dice ^= *dice >> 7;
        *dice ^= *dice << 17;
        low + i64::try_from(*dice % u64::try_from(spot.size + 1).unwrap()).unwrap()
    };
    Way {
        x: from(spot.low.x),
        y: from(spot.low.y),
    }
}

#[test]
fn the_map_of_a_lot_with_one_setback_has_the_area_worked_out_by_hand() {
    let rules = rule_set(&rules(LINE));
    let wishes = Wishes {
        finest: 50,
        ..Wishes::default()
    };
    let ground = ground(&plot("0 mm", ""), &rules, &wishes, 0.0);
    // The middle keeps 2 m + 2 m from the sides and 2 m + 4 m from front and rear: 12 by 18 m.
    let (by_hand, sure) = (12.0 * 18.0, area(&ground, |it| it.class == Class::Sure));
    let not_never = area(&ground, |it| it.class != Class::Never);
    assert!(
        sure <= by_hand && by_hand <= not_never,
        "{sure} {not_never}"
    );
    assert!(
        ((sure + not_never) / 2.0 - by_hand).abs() < 0.005 * by_hand,
        "{sure} {not_never}"
    );
}

#[test]
fn an_accuracy_of_20_mm_at_either_end_takes_40_mm_off_the_sure_area() {
    let rules = rule_set(&rules(LINE));
    let wishes = Wishes {
        finest: 50,
        ..Wishes::default()
    };
    let ground = ground(&plot("20 mm", ""), &rules, &wishes, 0.0);
    let sure = area(&ground, |it| it.class == Class::Sure);
    let as_drawn = area(&ground, |it| {
        matches!(it.class, Class::Sure | Class::AsDrawn)
    });
    let by_hand = (12.0 - 0.08) * (18.0 - 0.08);
    assert!(sure <= by_hand && by_hand - sure < 0.02 * by_hand, "{sure}");
    assert!(sure < as_drawn && as_drawn <= 12.0 * 18.0, "{as_drawn}");
}

pub(super) fn placement(plan: &str, rules: &str) -> Placement {
    place(plan, &rule_set(rules), &Wishes::default()).expect("a placement")
}

#[test]
fn the_nearest_place_and_the_one_with_the_most_room_are_those_worked_out_by_hand() {
    let plan = plot("0 mm", "").replace("at: [3, 3]", "at: [0.5, 3]");
    let found = placement(&plan, &rules(LINE));
    // 1.5 m to the east the water keeps 2 m from the west side.
    let nearest = &found.options[0];
    assert_eq!((nearest.why[0], nearest.holds), ("nearest", Class::Sure));
    assert!(
        (1500..=1600).contains(&nearest.way.x) && nearest.way.y == 0,
        "{nearest:?}"
    );
    // The middle may lie 12 m apart from west to east.
    let slide = |to: &str| {
        let slide = nearest.slides.iter().find(|slide| slide.to == to);
        let slide = slide.expect("it is stopped");
        assert_eq!(slide.stopped_by, ["Pool to lot line"]);
        slide.millimetres
    };
    assert!((11_980..=12_000).contains(&(slide("east") + slide("west"))));
    // Halfway between the sides there are 8 m on either side: 6 m to spare.
    let most_room = found
        .options
        .iter()
        .find(|it| it.why.contains(&"most-room"));
    let most_room = most_room.expect("a place with the most room");
    assert!((most_room.way.x - 7500).abs() <= 10, "{most_room:?}");
    assert!(
        (3..=6).contains(&found.options.len()),
        "{}",
        found.options.len()
    );
}

#[test]
fn where_nothing_fits_a_smaller_pool_of_the_same_shape_is_found() {
    // 9 m from each side leave 2 m: half of the pool's 4.
    let rules = rules(&LINE.replace("2 m", "9 m"));
    let found = placement(&plot("0 mm", ""), &rules);
    assert_eq!(found.best(), None);
    assert_eq!(found.blocks[0].places, found.blocks[0].of);
    let smaller = found.smaller.expect("a smaller one");
    assert!(
        (480..=500).contains(&smaller.thousandths),
        "{}",
        smaller.thousandths
    );
    assert_eq!(smaller.offer.holds, Class::Sure);
}

#[test]
fn rules_that_do_not_depend_on_the_place_are_listed_separately() {
    let more = "  - {id: deep, title: Not deep, clause: \"2\", require: {fact: pool.depth, at-most: 1 m}}\n  \
                - {id: full, title: Not full, clause: \"3\", require: {fact: pool.volume, at-most: 10 m3}}\n";
    let plan = plot("0 mm", "").replace("pool: {id: pool,", "pool: {id: pool, depth: 1.5 m,");
    let found = placement(&plan, &format!("{}{more}", rules(LINE)));
    let ids = |names: &[RuleName]| names.iter().map(|it| it.id.clone()).collect::<Vec<_>>();
    assert_eq!(ids(&found.fails_anyway), ["deep"]);
    assert_eq!(ids(&found.open_anyway), ["full"]);
    assert_eq!(found.questions.len(), 1);
    assert_eq!(found.best(), Some(Class::Sure));
    let text = found.to_text();
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
    assert!(!text.to_lowercase().contains("approved"));
}

#[test]
fn sure_cells_pass_everywhere_and_never_cells_fail_everywhere() {
    let mut dice = 7;
    let house = "{all-of: [{distance: {from: pool.water, to: lot-line}, at-least: 1.5 m}, {each: {kind: building}, require: {distance: {from: pool.water, to: building.wall}, at-least: 1.2 m}}]}";
    let cases = [
        (plot("20 mm", ""), rules(LINE)),
        (plot("50 mm", ""), rules(house)),
        (HOME.to_owned(), ELDERMERE.to_owned()),
    ];
    let mut sure = 0;
    for (plan, rules) in cases {
        let rules = rule_set(&rules);
        for degrees in [0.0, 30.0] {
            let ground = ground(&plan, &rules, &Wishes::default(), degrees);
            for patch in ground.patches.iter().filter(|it| it.class != Class::Open) {
                let way = somewhere(&mut dice, patch.spot);
                let (mut asked, waiting) = (ground.placed(), ground.survey.waiting());
                if patch.class == Class::Never {
                    asked.extend(waiting);
                }
                let found = outcomes(&ground, &rules, way, &asked);
                let holds = |it: &Outcome| judging::holds(*it);
                sure += usize::from(patch.class == Class::Sure);
                match patch.class {
                    Class::Sure => assert!(found.iter().all(holds), "{way:?} {found:?}"),
                    Class::Never => assert!(found.contains(&Outcome::Fail), "{way:?} {found:?}"),
                    _ => assert!(!found.contains(&Outcome::Fail), "{way:?} {found:?}"),
                }
            }
        }
    }
    assert!(sure > 500, "{sure}");
}

#[test]
fn the_nearest_place_to_a_press_on_the_map_is_the_one_worked_out_by_hand() {
    let found = placement(&plot("0 mm", ""), &rules(LINE));
    let turn = found.turns.first().expect("a turn");
    let middle = found.middle;
    // The middle may lie from 4 to 16 m east and from 6 to 24 m north. A press far outside goes to the nearest corner.
    let far = Way {
        x: 90_000,
        y: -90_000,
    };
    let place = turn.nearest_to(far).expect("a place");
    let at = Way {
        x: middle.x + place.x,
        y: middle.y + place.y,
    };
    assert!(
        (15_900..=16_000).contains(&at.x) && (6_000..=6_100).contains(&at.y),
        "{at:?}"
    );
    // Where it may lie, it stays.
    let inside = Way {
        x: 10_000 - middle.x,
        y: 15_000 - middle.y,
    };
    assert_eq!(turn.nearest_to(inside), Some(inside));
    let nowhere = placement(&plot("0 mm", ""), &rules(&LINE.replace("2 m", "9 m")));
    assert_eq!(
        nowhere
            .turns
            .first()
            .and_then(|turn| turn.nearest_to(inside)),
        None
    );
}

#[test]
fn a_search_that_waits_now_and_then_finds_the_same() {
    let waits = std::cell::Cell::new(0);
    let pause = || -> Option<Wait> {
        waits.set(waits.get() + 1);
        let mut waited = false;
        let once = std::future::poll_fn(move |context| {
            context.waker().wake_by_ref();
            match std::mem::replace(&mut waited, true) {
                true => std::task::Poll::Ready(()),
                false => std::task::Poll::Pending,
            }
        });
        Some(Box::pin(once))
    };
    let (plan, rules) = (plot("20 mm", ""), rule_set(&rules(LINE)));
    let wishes = Wishes::default();
    let slow = at_once(place_by_and_by(&plan, &rules, &wishes, &pause)).expect("a placement");
    assert_eq!(slow, place(&plan, &rules, &wishes).expect("a placement"));
    assert!(waits.get() > 100, "{} waits", waits.get());
}
