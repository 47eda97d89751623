//! The soundness of every measure of the rule language: 2,000 random plans each, a little wrong, from the plan's text to
//! the reading. See `tests/src/measured`.

use outside_checks::measured::property::{Measure, Tally, run};
use outside_checks::measured::{round, shapes, trade, zones};

const CASES: u64 = 2_000;

fn tally(measure: &Measure) -> Tally {
    let tally = run(measure, CASES).unwrap_or_else(|failure| panic!("{failure}"));
    println!(
        "{:40} {tally:?}, reach {:.1} %",
        measure.name,
        tally.reach()
    );
    assert!(tally.worlds >= 2_000, "{}: {tally:?}", measure.name);
    assert!(
        tally.reach() >= measure.reach,
        "{}: the worlds reach across {:.1} % of the intervals",
        measure.name,
        tally.reach()
    );
    tally
}

/// What holds in every world is said, and an exact plan is measured exactly.
fn sound_and_exact(measures: &[Measure]) {
    for measure in measures {
        let tally = tally(measure);
        assert!(tally.exact >= 1_000, "{}: {tally:?}", measure.name);
        assert!(
            tally.open * 10 <= tally.bounded,
            "{}: {tally:?}",
            measure.name
        );
    }
}

#[test]
fn distances_lengths_and_areas() {
    sound_and_exact(shapes::MEASURES);
}

#[test]
fn margins_widths_and_square_roots() {
    sound_and_exact(round::MEASURES);
}

/// A wire of which only the heights of its ends are known, a way on foot past a fence, and what lies in two zones: sound,
/// never exact.
#[test]
fn what_can_only_be_bounded() {
    for measure in shapes::LOOSE.iter().chain(zones::LOOSE) {
        tally(measure);
    }
}

#[test]
fn zones_between_at_a_corner_around_and_not() {
    sound_and_exact(zones::MEASURES);
}

#[test]
fn counts_in_zones() {
    sound_and_exact(zones::COUNTS);
}

#[test]
fn barriers_and_noise() {
    sound_and_exact(trade::MEASURES);
}
