use crate::check::Outcome;
use crate::placement::judging::{Judging, View, holds};
use crate::placement::placement_tests::{ELDERMERE, HOME, ground, rule_set, somewhere};
use crate::placement::spot::Spot;
use crate::placement::{Ground, Wishes};

/// The square of all moves that keep the pool's middle on the lot.
fn lot(ground: &Ground<'_>) -> Spot {
    let (low, high) = ground.moving.range();
    let size = (high.x - low.x).max(high.y - low.y);
    Spot { low, size }
}

#[test]
fn what_follows_from_other_distances_is_what_the_checker_finds() {
    let rules = rule_set(ELDERMERE);
    let wishes = Wishes {
        finest: 400,
        ..Wishes::default()
    };
    let mut dice = 5;
    let mut tally = [0, 0, 0];
    for degrees in [0.0, 20.0] {
        let mut ground = ground(HOME, &rules, &wishes, degrees);
        // It has found nothing yet, and each time it is asked about a place that it does not know.
        let mut checker = Judging::new(&ground.plan, &ground.moving.things, &rules).expect("one");
        for size in [0, 100, 0, 800, 0, 3200].repeat(10) {
            let low = somewhere(&mut dice, lot(&ground));
            let spot = Spot { low, size };
            for view in [View::Possible, View::Drawn] {
                for rule in ground.judging.all() {
                    let at = (spot.middle(), spot.reach());
                    let Some(known) = ground.judging.outcome_known(view, at, rule) else {
                        continue;
                    };
                    let found = checker.find(view, spot, &vec![rule]);
                    let found = found.first().expect("a finding").1.outcome;
                    let said = (ground.judging.id(rule), view, spot, known, found);
                    assert_eq!(kind(known), kind(found), "{said:?}");
                    if size == 0 && kind(known) == 1 {
                        assert_eq!(known, found, "{said:?}");
                    }
                    tally[kind(known)] += 1;
                }
            }
        }
    }
    assert!(tally.iter().all(|times| *times > 100), "{tally:?}");
}

/// Whether it holds, is open or fails.
fn kind(outcome: Outcome) -> usize {
    match outcome {
        Outcome::Fail => 2,
        outcome if holds(outcome) => 0,
        _ => 1,
    }
}
