//! Wires that hang between supports.

use super::*;

const RULE: &str = "    require:
      distance: {from: pool.water, to: overhead-line.conductor, measured: in-space}
      at-least: 6.9 m\n";

fn wire(facts: &str) -> String {
    format!(
        "  - {{kind: overhead-line, id: w, source: survey, conductor: [[-10, 14], [30, 14]], {facts}}}\n"
    )
}

/// 8 m supports 40 m apart, 1 m of sag, straight over the pool: 7 m, less what the rim stands above the ground.
#[test]
fn a_pool_that_stands_higher_is_nearer() {
    let hung = wire("height-at-start: 8 m, height-at-end: 8 m, sag: 1 m");
    let at = |rim: &str| judge(&plan("yes", rim, &hung), "", RULE);
    let (outcome, range) = at(", height-above-ground: 0 m");
    assert_eq!(outcome, Outcome::Pass);
    let (low, high) = metres(range.unwrap());
    assert!(
        low > 6.99 && low <= 7.0 && (7.0..7.01).contains(&high),
        "{low} {high}"
    );
    assert_eq!(at(", height-above-ground: 0.2 m").0, Outcome::Fail);
    // Nobody said how high it stands, or whether the ground is level: no pass.
    assert_eq!(at("").0, Outcome::Unknown);
    let unsaid = plan("unknown", ", height-above-ground: 0 m", &hung);
    assert_eq!(judge(&unsaid, "", RULE).0, Outcome::Unknown);
    let level = wire("height: 7 m");
    let level = judge(&plan("yes", ", height-above-ground: 0 m", &level), "", RULE);
    near(level.1, 7.0, 7.0);
    let slack = wire("height-at-start: 8 m, height-at-end: 8 m, sag: 0.5 m .. 1.5 m");
    assert_eq!(
        judge(&plan("yes", ", height-above-ground: 0 m", &slack), "", RULE).0,
        Outcome::Unknown
    );
}

/// A diving board 1 m above a rim of 0.5 m, under a level wire at 7 m: 5.5 m; a deck 0.6 m up: 6.4 m.
#[test]
fn boards_and_decks_reach_up_to_it() {
    let things = wire("height: 7 m")
        + "  - {kind: diving-structure, id: board, source: survey, region: [[9, 12], [10, 12], [10, 16], [9, 16]], height: 1 m}\n  - {kind: deck, id: deck, source: survey, region: [[12, 10], [15, 10], [15, 18], [12, 18]], height: 0.6 m}\n";
    let plan = plan("yes", ", height-above-ground: 0.5 m", &things);
    let from = |outline: &str| {
        let rule = RULE.replace("pool.water", outline);
        judge(&plan, "", &rule).1
    };
    near(from("diving-structure.region"), 5.5, 5.5);
    near(from("deck.region"), 6.4, 6.4);
}

/// Spots on ground that rises 1 m in 20 m to the east tell what `level-ground` cannot.
#[test]
fn levels_tell_what_is_not_level() {
    let spots = "  - {kind: ground-spot, id: a, source: survey, place: [0, 0], level: 50 m}
  - {kind: ground-spot, id: b, source: survey, place: [20, 0], level: 51 m}
  - {kind: ground-spot, id: c, source: survey, place: [20, 40], level: 51 m}
  - {kind: ground-spot, id: d, source: survey, place: [0, 40], level: 50 m}\n";
    let line = "  - {kind: overhead-line, id: w, source: survey, conductor: [[1, 14], [19, 14]], height: 8 m}\n";
    let text = plan(
        "no",
        ", height-above-ground: 0 m",
        &format!("{spots}{line}"),
    );
    let (outcome, range) = judge(&text, "", RULE);
    assert_eq!(outcome, Outcome::Pass);
    near(range, 7.0, 9.0);
    let bare = plan("no", ", height-above-ground: 0 m", line);
    near(
        judge(&bare, "", &RULE.replace("6.9", "0"))
            .1
            .map(|range| Interval::exact(range.low)),
        0.0,
        0.0,
    );
}

/// A crane whose boom sweeps 8 m, 12 m high, beside a wire at 9 m: the wire is 2 m away on the level.
#[test]
fn a_crane_beside_a_wire() {
    let things = wire("height: 9 m")
        + "  - {kind: lifting-machine, id: crane, source: survey, sweep: {circle: {at: [10, 24], radius: 8 m}}, tip-height: 12 m}\n";
    let rule = RULE
        .replace("pool.water", "lifting-machine.sweep")
        .replace("6.9 m", "3 m");
    let (outcome, range) = judge(&plan("yes", "", &things), "", &rule);
    assert_eq!(outcome, Outcome::Fail);
    near(range, 2.0, 2.0);
}

/// The world first: a level or hanging wire (its parabola), a pool at a rim, then a plan that knows less.
#[test]
fn the_truth_stays_inside() {
    let mut dice = Dice::new(7);
    let mut decided = 0;
    for _ in 0..2_000 {
        let (one, other) = (dice.between(5.0, 12.0), dice.between(5.0, 12.0));
        let sag = dice.between(0.0, 1.5);
        let (rim, x) = (dice.between(0.0, 1.5), dice.between(-4.0, 12.0));
        let y = dice.between(2.0, 26.0);
        let mut least = f64::INFINITY;
        for step in 0..=2_000 {
            let t = f64::from(step) / 2_000.0;
            let (px, height) = (
                -10.0 + 40.0 * t,
                one * (1.0 - t) + other * t - 4.0 * sag * t * (1.0 - t),
            );
            let dx = (x - px).max(px - x - 4.0).max(0.0);
            let dy = (y - 14.0_f64).max(14.0 - y - 8.0).max(0.0);
            let dz = height - rim;
            least = least.min((dx * dx + dy * dy + dz * dz).sqrt());
        }
        let off = dice.between(0.0, 0.3);
        let mut about = |value: f64, by: f64| {
            let (low, high) = (value - dice.between(0.0, by), value + dice.between(0.0, by));
            format!("{:.6} m .. {:.6} m", low.max(0.0), high)
        };
        let line = format!(
            "  - {{kind: overhead-line, id: w, source: survey, accuracy: {off:.6} m, conductor: [[{:.6}, {:.6}], [{:.6}, {:.6}]], height-at-start: {}, height-at-end: {}, sag: {}}}\n",
            -10.0 + off * 0.6,
            14.0 - off * 0.6,
            30.0 - off * 0.6,
            14.0 + off * 0.7,
            about(one, 0.2),
            about(other, 0.2),
            about(sag, 0.1),
        );
        let text = plan(
            "yes",
            &format!(", height-above-ground: {}", about(rim, 0.1)),
            &line,
        )
        .replace("at: [8, 10]", &format!("at: [{x:.6}, {y:.6}]"));
        let limit = (least * 100.0).round() / 100.0 + dice.between(-1.0, 1.0);
        let rule = RULE.replace("6.9 m", &format!("{limit:.3} m"));
        let (outcome, range) = judge(&text, "", &rule);
        let (low, high) = metres(range.unwrap());
        assert!(
            low <= least + 1e-4 && least <= high + 2e-3,
            "{least} in {low}..{high}\n{text}"
        );
        match outcome {
            Outcome::Pass => assert!(least >= limit - 0.002, "{least} {limit}"),
            Outcome::Fail => assert!(least < limit + 0.002, "{least} {limit}"),
            _ => {}
        }
        decided += usize::from(matches!(outcome, Outcome::Pass | Outcome::Fail));
    }
    assert!(decided > 800, "{decided}");
}
