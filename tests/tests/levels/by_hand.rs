//! On spots that all lie at 50 m, each measure is exact: `docs/measures/levels.md`.

use super::*;

const RAISED: &str = "  - {kind: raised-ground, id: mound, source: survey, region: [[2, 20], [6, 20], [6, 25], [2, 25]], top-level: 50.6 m}\n";

fn level(things: &str, pool: &str, value: &str, bound: &str) -> Outcome {
    measured(pool, &(spots(0.0) + things), value, bound).0
}

#[test]
fn levels_of_ground_and_things() {
    let ground = |bound| level("", "", "ground-level: {at: pool.coping}", bound);
    assert_eq!(ground("at-least: 50 m"), Outcome::Pass);
    assert_eq!(ground("more-than: 50 m"), Outcome::Fail);
    let rim = |bound| {
        level(
            "",
            ", height-above-ground: 0.3 m",
            "level: {of: pool.coping}",
            bound,
        )
    };
    assert_eq!(rim("at-least: 50.3 m"), Outcome::Pass);
    assert_eq!(rim("at-least: 50.301 m"), Outcome::Fail);
    // A level that is stated counts before the height.
    let stated = level(
        "",
        ", rim-level: 50.5 m",
        "level: {of: pool.coping}",
        "at-least: 50.5 m",
    );
    assert_eq!(stated, Outcome::Pass);
    let over = "difference: [{level: {of: pool.coping}}, {ground-level: {at: pool.coping}}]";
    assert_eq!(
        level("", ", rim-level: 50.5 m", over, "at-most: 0.5 m"),
        Outcome::Pass
    );
    let unknown = measured("", "", "ground-level: {at: pool.coping}", "at-least: 50 m");
    assert_eq!(unknown.0, Outcome::Unknown);
}

/// The ground of 1 m in 20 m under a pool from x = 8 to 12 m: from 50 to 51 m is all that the spots tell.
#[test]
fn a_slope_is_told_between_its_spots() {
    let found = measured(
        "",
        &spots(1.0),
        "ground-level: {at: pool.coping}",
        "at-least: 50 m",
    );
    assert_eq!(found.0, Outcome::Pass);
    near(found.1, 50.0, 51.0);
}

/// Filter water to a stormwater point 30 m away, 0.3 m lower: 1 in 100 (30 m: common practice, no source).
#[test]
fn the_run_to_a_stormwater_point() {
    let things = "  - {kind: equipment, id: filter, source: survey, region: [[9, 4], [10, 4], [10, 5], [9, 5]], base-level: 50.2 m}
  - {kind: stormwater-point, id: drain, source: survey, place: [9.5, 35], level: 49.9 m}\n";
    let run = "distance: {from: equipment.region, to: stormwater-point.place}";
    assert_eq!(level(things, "", run, "at-most: 30 m"), Outcome::Pass);
    assert_eq!(level(things, "", run, "at-most: 29.999 m"), Outcome::Fail);
    let fall = "fall: {from: equipment.region, to: stormwater-point.place}";
    assert_eq!(level(things, "", fall, "at-least: 1 %"), Outcome::Pass);
    assert_eq!(level(things, "", fall, "at-least: 1.001 %"), Outcome::Fail);
    let longer = "fall: {from: equipment.region, to: stormwater-point.place, run: 40 m}";
    assert_eq!(level(things, "", longer, "at-least: 0.75 %"), Outcome::Pass);
    assert_eq!(
        level(things, "", longer, "at-least: 0.751 %"),
        Outcome::Fail
    );
}

/// What may lie above the ground or below it has no level but the one that is stated: a drain's mouth, a plinth, a flood.
#[test]
fn known_ground_does_not_tell_every_level() {
    let point = |stated: &str| {
        format!(
            "  - {{kind: stormwater-point, id: drain, source: survey, place: [9.5, 35]{stated}}}\n"
        )
    };
    let fall = "fall: {from: pool.coping, to: stormwater-point.place}";
    let of_rim = |stated: &str| {
        let things = point(stated);
        level(&things, ", rim-level: 50.3 m", fall, "at-least: 1 %")
    };
    assert_eq!(of_rim(", level: 50 m"), Outcome::Pass); // 0.3 m over 17 m
    assert_eq!(of_rim(", level: 50.2 m"), Outcome::Fail); // 0.1 m over 17 m
    assert_eq!(of_rim(""), Outcome::Unknown);
    assert_eq!(of_rim(", level: unknown"), Outcome::Unknown);
    for (kind, drawn) in [
        ("equipment", "region"),
        ("septic-part", "region"),
        ("flood-area", "region"),
        ("shoreline", "line"),
    ] {
        let thing = format!(
            "  - {{kind: {kind}, id: it, source: survey, {drawn}: [[9, 4], [10, 4], [10, 5]]}}\n"
        );
        let value = format!("level: {{of: {kind}.{drawn}}}");
        assert_eq!(
            level(&thing, "", &value, "at-most: 50 m"),
            Outcome::Unknown,
            "{kind}"
        );
    }
}

/// 32 m2 of pool dug from 50 m down to 48.2 m: 57.6 m3; 20 m2 raised by 0.6 m: 12 m3.
#[test]
fn cut_fill_and_spoil() {
    let cut = "volume: {over: pool.shell, from: 48.2 m, to: ground}";
    assert_eq!(level("", "", cut, "at-most: 57.6001 m3"), Outcome::Pass);
    assert_eq!(level("", "", cut, "at-most: 57.599 m3"), Outcome::Fail);
    let fill = "volume: {over: raised-ground.region, from: ground, to: 50.6 m}";
    assert_eq!(
        level(RAISED, "", fill, "at-least: 11.9999 m3"),
        Outcome::Pass
    );
    assert_eq!(
        level(RAISED, "", fill, "at-least: 12.001 m3"),
        Outcome::Fail
    );
    let spoil = format!("difference: [{{{cut}}}, {{{fill}}}]");
    assert_eq!(
        level(RAISED, "", &spoil, "at-most: 45.601 m3"),
        Outcome::Pass
    );
    assert_eq!(
        level(RAISED, "", &spoil, "at-most: 45.599 m3"),
        Outcome::Fail
    );
}

/// A flood at 50.4 m takes 20 m2 raised from 50 to 50.6 m: 8 m3 of it; a rim at 50.9 m stands 0.5 m over it.
#[test]
fn flood_storage_and_freeboard() {
    let flood = "  - {kind: flood-area, id: brook, source: survey, region: [[0, 0], [20, 0], [20, 40], [0, 40]], level: 50.4 m, zone: AE}\n";
    let things = format!("{flood}{RAISED}");
    let taken = "volume: {over: raised-ground.region, in: flood-area.region, from: ground, to: {smallest-of: [{level: {of: raised-ground}}, {level: {of: flood-area.region}}]}}";
    assert_eq!(
        level(&things, "", taken, "at-most: 8.001 m3"),
        Outcome::Pass
    );
    assert_eq!(
        level(&things, "", taken, "at-most: 7.999 m3"),
        Outcome::Fail
    );
    let over = "difference: [{level: {of: pool.water}}, {level: {of: flood-area.region}}]";
    assert_eq!(
        level(&things, ", rim-level: 50.9 m", over, "at-least: 0.5 m"),
        Outcome::Pass
    );
    assert_eq!(
        level(&things, ", rim-level: 50.899 m", over, "at-least: 0.5 m"),
        Outcome::Fail
    );
    // A mound across the path, higher than the ground at the lot line: water goes over the line.
    let path = "  - {kind: drainage-path, id: swale, source: survey, line: [[4, 40], [4, 0]]}\n";
    let blocked = "distance: {from: raised-ground.region, to: drainage-path.line}";
    assert_eq!(
        level(&format!("{RAISED}{path}"), "", blocked, "more-than: 0 m"),
        Outcome::Fail
    );
}

/// 32 m2 of shell that stands 1.2 m in groundwater: 38.4 t of water, of 1000 kg/m3 (Archimedes' principle).
#[test]
fn an_empty_shell_in_groundwater() {
    let uplift = |mass: &str| {
        let pool = format!(", underside-level: 48 m, shell-mass: {mass}");
        let lot = LOT.replace("lot:\n", "lot:\n  groundwater-level: 49.2 m\n");
        let text = plan("no", &pool, &spots(0.0))
            .replace(&LOT.replace("lot:\n", "lot:\n  level-ground: no\n"), &lot);
        let rule = "    require: {fact: pool.shell-mass, at-least: {uplift: {over: pool.shell, from: pool.underside-level, to: lot.groundwater-level}}}\n";
        judge(&text, "", rule).0
    };
    assert_eq!(uplift("38.401 t"), Outcome::Pass);
    assert_eq!(uplift("38399 kg"), Outcome::Fail);
    assert_eq!(uplift("unknown"), Outcome::Unknown);
}

/// A fence of 1.2 m, a bench of 0.5 m beside it, 0.6 m away: 0.7 m to climb within 0.9 m, 1.2 m within 0.5 m.
#[test]
fn what_stands_beside_a_fence_makes_it_lower() {
    let things = "  - {kind: barrier-stretch, id: f, source: survey, line: [[2, 2], [18, 2]], top: [[2, 2], [18, 2]], height-outside: 1.2 m}
  - {kind: foothold, id: bench, source: survey, region: [[6, 2.6], [7, 2.6], [7, 3], [6, 3]], height: 0.5 m, barrier-side: outside}\n";
    let over = |within: &str| {
        format!("height: {{of: barrier-stretch.top, over: foothold.region, within: {within}}}")
    };
    assert_eq!(
        level(things, "", &over("0.9 m"), "at-least: 0.7 m"),
        Outcome::Pass
    );
    assert_eq!(
        level(things, "", &over("0.9 m"), "at-least: 0.701 m"),
        Outcome::Fail
    );
    assert_eq!(
        level(things, "", &over("0.5 m"), "at-least: 1.2 m"),
        Outcome::Pass
    );
    // Where the ground beside it may be higher by 1 m nobody knows what is left.
    let found = measured(
        "",
        &(spots(1.0) + things),
        &over("0.5 m"),
        "at-least: 1.2 m",
    );
    assert_eq!(found.0, Outcome::Unknown);
}

/// Contours at every 0.5 m: a pool whose nearest is that of 50 m lies between 49.5 and 50.5 m.
#[test]
fn contours_tell_within_their_interval() {
    let contour = |id: &str, x: u32, level: f64| {
        format!(
            "  - {{kind: contour, id: {id}, source: survey, line: [[{x}, -50], [{x}, 90]], level: {level} m, interval: 0.5 m}}\n"
        )
    };
    let things = contour("low", 10, 50.0) + &contour("high", 40, 50.5);
    let found = measured(
        "",
        &things,
        "ground-level: {at: pool.coping}",
        "at-least: 49.5 m",
    );
    assert_eq!(found.0, Outcome::Pass);
    near(found.1, 49.5, 50.5);
}
