//! Ways on foot, and noise.

use super::*;

const NOTHING_ELSE: &str = "building: all-shown, barrier-stretch: none, gate: none, mesh-fence: none, screen-enclosure: none, pool-enclosure: none, retaining-wall: none, cliff: none, open-water: none, receptacle: all-shown";

/// From the front of a house of 20 by 10 m to an outlet behind it: 10 m along its side, and √(10² + 1²) m more.
#[test]
fn one_does_not_walk_through_the_house_that_one_starts_from() {
    let house = |off: &str| {
        let things = format!(
            "  - {{kind: building, id: house, source: survey, accuracy: {off}, wall: [[5,2],[25,2],[25,12],[5,12]], front-wall: [[5,2],[25,2]]}}
  - {{kind: receptacle, id: outlet, source: survey, place: [15, 13]}}\n"
        );
        plan(&lot(""), "", &things, NOTHING_ELSE)
    };
    let way = |limit: &str| {
        format!(
            "{{distance: {{from: building.front-wall, to: receptacle.place, measured: walking}}, {limit}}}"
        )
    };
    let found = each(&house("0 mm"), "building", &way("at-most: 12 m"));
    assert_eq!(found.0, Outcome::Fail);
    near(found.1, 20.05, 20.05);
    assert_eq!(
        each(&house("0 mm"), "building", &way("at-least: 15 m")).0,
        Outcome::Pass
    );
    // Nobody knows how the front wall lies to the house: no way is told, and no shorter one than round what surely is house.
    let found = each(&house("100 mm"), "building", &way("at-least: 15 m"));
    assert_eq!(found.0, Outcome::Pass);
    assert!(found.1.0 < 20.05 && found.1.1 == f64::INFINITY, "{found:?}");
}

/// The outlet is drawn in the house: nobody knows how one comes there. Where the house may be off by so much that the outlet
/// may lie behind it, no more is known than before.
#[test]
fn a_worse_drawing_never_makes_the_way_longer() {
    let mut low = f64::INFINITY;
    for off in ["0 mm", "100 mm", "500 mm", "1.6 m", "3 m"] {
        let things = format!(
            "  - {{kind: building, id: house, source: survey, accuracy: {off}, wall: [[4,11],[26,11],[26,17],[4,17]]}}
  - {{kind: receptacle, id: outlet, source: survey, place: [14, 12.5]}}\n"
        );
        let text = plan(&lot(""), "", &things, NOTHING_ELSE);
        let found = each(
            &text,
            "receptacle",
            "{distance: {from: pool.water, to: receptacle.place, measured: walking}, at-least: 10 m}",
        );
        assert_eq!(found.0, Outcome::Unknown, "{off}");
        assert!(found.1.0 <= low, "{off}");
        low = found.1.0;
    }
}

/// A pump of 60 dB 1 m past the line is on the neighbour's land: no quieter there than at one metre, 60 − 11 + 3 = 52 dB. With a
/// worse drawing it may be quieter, never surely louder.
#[test]
fn a_pump_past_the_line_is_loud() {
    let mut low = f64::INFINITY;
    for (off, expected) in [
        ("0 mm", Outcome::Fail),
        ("300 mm", Outcome::Fail),
        ("2 m", Outcome::Fail),
        ("3 m", Outcome::Unknown),
    ] {
        let pump = format!(
            "  - {{kind: equipment, id: pump, source: survey, accuracy: {off}, region: {{rectangle: {{at: [31,20], length: 0.5 m, width: 0.5 m}}}}, sound-power: 60 dB(A), reflecting-surfaces: 0, runs: always}}\n"
        );
        let text = plan(&lot(""), "", &pump, "equipment: all-shown");
        let (found, range) = judge(
            &text,
            "{sound: {from: equipment, at: lot-line, during: night}, at-most: 45 dB(A)}",
        );
        let level = range.0 * 1e3;
        assert!(
            found == expected || expected == Outcome::Unknown && found == Outcome::Marginal,
            "{off} {found:?}"
        );
        assert!(level <= low + 1e-3, "{off} {level}");
        assert!(off != "0 mm" || (level - 52.0).abs() < 1e-3, "{level}");
        low = level;
    }
}
