//! The whole way of a person who has never seen the page: from nothing to a verdict, by mouse and by keyboard alone; and a
//! drag that mends what fails.

use browser_checks::{Browser, Form, Key, Outcome, Trouble};
use serde_json::json;

#[test]
fn from_nothing_to_a_verdict_by_mouse() -> Outcome {
    by_mouse(&Form::fresh()?)
}

#[test]
fn from_nothing_to_a_verdict_by_mouse_in_firefox() -> Outcome {
    by_mouse(&Form::fresh_in(Browser::Firefox)?)
}

fn by_mouse(form: &Form) -> Outcome {
    form.read("#verdict-word", "First: whose rules")?;
    form.click("#first-thing")?;
    form.choose("#rules", "eldermere")?;
    form.read("#verdict-word", "how large is your lot")?;
    form.click("#first-thing")?;
    form.fill("#lot-width", "22")?;
    form.fill("#lot-depth", "32")?;
    form.read("#verdict-word", "where is the pool")?;
    form.click("#first-thing")?;
    form.click("#pool-begin")?;
    form.read("#verdict-word", "Not decided")?;
    form.fill("#at-pool_depth", "1.5")?;
    assert_eq!(form.kept()?["plan"]["pool"]["depth"], "1.5 m");
    // Without knowing how good the figures are, nothing can be decided that has to do with them.
    assert_eq!(form.outcome("rear-line")?, "marginal");
    form.click("#head-lot")?;
    form.choose("#at-lot_source", "+survey")?;
    form.click("#head-sure")?;
    // First what the pool is drawn from, then what the lot is.
    for (source, accuracy) in ["30 mm", "20 mm"].iter().enumerate() {
        form.fill(&format!("#at-sources_{source}_accuracy"), accuracy)?;
        form.fill(&format!("#at-sources_{source}_shift"), "0 mm")?;
    }
    form.click("#head-questions")?;
    form.click("#at-answers_plan-sets-distance-no")?;
    form.read(
        "#finding-rear-line[data-outcome=pass]",
        "Pool to rear lot line",
    )?;
    form.click("#head-site")?;
    form.click("#at-inventory_well-none")?;
    assert_eq!(form.kept()?["plan"]["inventory"]["well"], "none");
    assert_eq!(form.outcome("well")?, "not-applicable");
    form.read("#disclaimer", "Eldermere building office")
}

#[test]
fn from_nothing_to_a_verdict_by_keyboard_alone() -> Outcome {
    by_keyboard(&Form::fresh()?)
}

#[test]
fn from_nothing_to_a_verdict_by_keyboard_alone_in_firefox() -> Outcome {
    by_keyboard(&Form::fresh_in(Browser::Firefox)?)
}

fn by_keyboard(form: &Form) -> Outcome {
    form.tab_to("#rules")?;
    form.type_text("Elder")?;
    form.press(Key::Enter)?;
    form.tab_to("#first-thing")?;
    form.press(Key::Enter)?;
    form.tab_to("#lot-width")?;
    form.type_text("22 m")?;
    form.press(Key::Tab)?;
    form.type_text("32 m")?;
    form.press(Key::Enter)?;
    form.read("#verdict-word", "where is the pool")?;
    form.tab_to("#at-lot_source")?;
    form.type_text("a surv")?;
    form.tab_to("#first-thing")?;
    form.press(Key::Enter)?;
    form.tab_to("#pool-begin")?;
    form.press(Key::Space)?;
    form.tab_to("#head-questions")?;
    form.press(Key::Enter)?;
    // Nothing is known yet, which is the last of the three words.
    form.tab_to("#at-answers_plan-sets-distance-open")?;
    form.press(Key::Up)?;
    form.tab_to("#head-sure")?;
    form.press(Key::Enter)?;
    // The day of the application, as an American browser takes it: without it nobody knows which edition is in force.
    form.tab_to("#at-dates_applied")?;
    form.type_text("03022026")?;
    for (source, accuracy) in ["20 mm", "30 mm"].iter().enumerate() {
        form.tab_to(&format!("#at-sources_{source}_accuracy"))?;
        form.type_text(accuracy)?;
        form.press(Key::Tab)?;
        form.type_text("0 mm")?;
    }
    form.press(Key::Tab)?;
    form.read("#verdict-word", "Not decided")?;
    // The pool is moved to one metre from the rear line, ten centimetres a press.
    form.tab_to("#drawing [data-path='pool']")?;
    for _ in 0..130 {
        form.press(Key::Up)?;
    }
    form.read("#verdict-word", "does not comply")?;
    assert_eq!(form.outcome("rear-line")?, "fail");
    form.press_with_shift(Key::Down)?;
    form.read("#finding-rear-line", "short")
}

#[test]
fn a_drag_turns_a_fail_into_a_pass() -> Outcome {
    let form = Form::with_example()?;
    assert_eq!(form.outcome("rear-line")?, "fail");
    let (x, y) = form.middle("pool")?;
    // Two metres down the drawing, away from the rear line; what is asked is 3 m, and there are 1.3 m.
    let down = (form.pixels_a_metre()? * 2.0).round() as i64;
    form.drag((x, y), (x, y + down))?;
    form.read(
        "#finding-rear-line[data-outcome=pass]",
        "Pool to rear lot line",
    )?;
    form.click("#menu-undo")?;
    form.read(
        "#finding-rear-line[data-outcome=fail]",
        "Pool to rear lot line",
    )
}

/// Where a ring of the chosen thing stands in the window.
fn ring(form: &Form, index: usize) -> Result<(i64, i64), Trouble> {
    let ring = format!("#drawing [data-handle='corner'][data-index='{index}']");
    form.see(&ring)?;
    let place = "const box = document.querySelector(arguments[0]).getBoundingClientRect();
        return [Math.round(box.x + box.width / 2), Math.round(box.y + box.height / 2)];";
    let place = form.run(place, json!([ring]))?;
    let [x, y] = [0, 1].map(|at| place[at].as_i64().ok_or("no place"));
    Ok((x?, y?))
}

#[test]
fn a_side_of_the_lot_gives_its_corners_to_be_pulled() -> Outcome {
    let form = Form::with_lot("22", "32")?;
    form.tab_to("#drawing [data-path='rear']")?;
    let before = form.kept()?["plan"]["lot"]["corners"].clone();
    let (x, y) = ring(&form, 2)?;
    form.drag((x, y), (x + 20, y + 20))?;
    let after = form.kept()?["plan"]["lot"]["corners"].clone();
    let names = before.as_object().ok_or("no corners")?.keys();
    let moved = names.filter(|name| before[name.as_str()] != after[name.as_str()]);
    assert_eq!(moved.count(), 1, "{before} {after}");
    Ok(())
}

#[test]
fn a_ring_makes_the_pool_larger_by_mouse_and_by_keys() -> Outcome {
    let form = Form::with_lot("22", "32")?;
    let size = |form: &Form| -> Result<[f64; 2], Trouble> {
        let water = form.kept()?["plan"]["pool"]["water"]["rectangle"].clone();
        let metres = |key: &str| {
            water[key]
                .as_str()?
                .trim_end_matches(" m")
                .parse::<f64>()
                .ok()
        };
        Ok([
            metres("length").ok_or("no length")?,
            metres("width").ok_or("no width")?,
        ])
    };
    assert_eq!(size(&form)?, [8.0, 4.0]);
    let (x, y) = ring(&form, 2)?;
    let metre = form.pixels_a_metre()?.round() as i64;
    form.drag((x, y), (x + metre, y - metre))?;
    let [length, width] = size(&form)?;
    assert!(
        (length - 9.0).abs() < 0.2 && (width - 5.0).abs() < 0.2,
        "{length} {width}"
    );
    form.tab_to("#drawing [data-handle='corner'][data-index='2']")?;
    form.press(Key::Right)?;
    form.press(Key::Right)?;
    let [longer, same] = size(&form)?;
    assert!(
        (longer - length - 0.2).abs() < 1e-9 && same == width,
        "{longer} {same}"
    );
    Ok(())
}

#[test]
fn a_pool_can_be_without_a_deck() -> Outcome {
    let form = Form::with_example()?;
    form.click("#head-pool")?;
    form.click("#at-pool_deck-none")?;
    form.read("#verdict-word", "does not comply")?;
    assert_eq!(form.kept()?["plan"]["pool"]["deck"], "none");
    form.fill("#at-pool_deck", "0")?;
    assert_eq!(form.kept()?["plan"]["pool"]["deck"]["same-as"], "water");
    Ok(())
}

#[test]
fn a_finding_shows_its_line_and_a_line_shows_its_rules() -> Outcome {
    let form = Form::with_example()?;
    form.click("#choose-rear-line")?;
    form.see("#drawing .distance")?;
    form.read("#finding-rear-line", "Measured from the water's edge")?;
    let (x, y) = form.middle("rear")?;
    form.drag((x, y), (x, y))?;
    form.read("#findings .filter", "rear")?;
    assert_eq!(form.outcome("rear-line")?, "fail");
    assert_eq!(form.outcome("front-line")?, "not listed");
    Ok(())
}

#[test]
fn a_wrong_entry_keeps_its_text_and_is_told_beside_the_field() -> Outcome {
    let form = Form::with_example()?;
    form.click("#head-pool")?;
    form.fill("#at-pool_depth", "about my height")?;
    form.see("#at-pool_depth-wrong")?;
    form.read("#verdict", "before your last entry")?;
    assert_eq!(
        form.run(
            "return document.getElementById('at-pool_depth').value;",
            json!([])
        )?,
        "about my height"
    );
    form.fill("#at-pool_depth", "1.4")?;
    form.until(
        "the fault to go",
        "return !document.getElementById('at-pool_depth-wrong');",
        &json!([]),
    )
}

#[test]
fn a_screen_reader_hears_what_a_thing_is_where_it_lies_and_how_it_moves() -> Outcome {
    let form = Form::with_lot("22", "32")?;
    let node = |css: &str| -> Result<serde_json::Value, Trouble> {
        form.see(css)?;
        let document = form.browser("DOM.getDocument", json!({}))?;
        let root = document["root"]["nodeId"].clone();
        let found = form.browser(
            "DOM.querySelector",
            json!({"nodeId": root, "selector": css}),
        )?;
        let tree = json!({"nodeId": found["nodeId"], "fetchRelatives": false});
        Ok(form.browser("Accessibility.getPartialAXTree", tree)?["nodes"][0].clone())
    };
    let pool = node("#drawing [data-path='pool']")?;
    assert_eq!(pool["role"]["value"], "button", "{pool}");
    assert_eq!(pool["name"]["value"], "Pool", "{pool}");
    let said = pool["description"]["value"].as_str().unwrap_or_default();
    // The pool of 8 m by 4 m lies in the middle of the lot of 22 m by 32 m.
    assert!(said.contains("7 m to the right and 14 m up"), "{said}");
    assert!(said.contains("arrow keys move it"), "{said}");
    form.tab_to("#drawing [data-path='pool']")?;
    form.press(Key::Right)?;
    form.read("#said", "7.1 m to the right")
}

#[test]
fn a_road_that_the_town_keeps_needs_no_decision_of_the_office() -> Outcome {
    let form = Form::with_lot("22", "32")?;
    form.click("#head-road")?;
    form.click("#at-inventory_road-yes")?;
    form.read("#at-things_0_class", "the town or municipality")?;
    form.choose("#at-things_0_class", "municipal")?;
    form.until(
        "the rule on the road to be judged",
        "return document.getElementById('finding-road-centreline')?.dataset.outcome !== 'refer';",
        &json!([]),
    )
}
