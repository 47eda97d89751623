//! The map of where a pool could go, held against an exhaustive search that only has single places judged. The binary
//! `placing` does the same for more lots, more turns and a finer grid.

use outside_checks::placing::{Effort, Tally, compare, lots::Case};

#[test]
fn the_map_has_each_place_that_an_exhaustive_search_finds_and_no_sure_place_fails() {
    let effort = Effort {
        grid: 800,
        finest: 400,
        turns: 1,
        points: 20,
    };
    let mut tally = Tally::default();
    for seed in 1..=12 {
        compare(&Case::new(seed), effort, &mut tally);
    }
    assert!(tally.wrong.is_empty(), "{:#?}", tally.wrong);
    // There is room on some lots and none on others, so both have been tried.
    assert!(tally.good > 50 && tally.sure > 50, "{tally:?}");
    assert!((2..tally.maps - 1).contains(&tally.with_room), "{tally:?}");
}
