//! The whole way of a person who has never seen the page: from nothing to a verdict, by mouse and by keyboard alone; and a
//! drag that mends what fails.

use browser_checks::{Form, Key, Outcome};

#[test]
fn from_nothing_to_a_verdict_by_mouse() -> Outcome {
    let form = Form::fresh()?;
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
    form.fill("#at-pool_source-accuracy", "30 mm")?;
    form.fill("#at-pool_source-shift", "0 mm")?;
    form.click("#head-lot")?;
    form.choose("#at-lot_source", "+survey")?;
    form.fill("#at-lot_source-accuracy", "20 mm")?;
    form.fill("#at-lot_source-shift", "0 mm")?;
    form.click("#head-questions")?;
    form.choose("#at-answers_plan-sets-distance", "no")?;
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
    let form = Form::fresh()?;
    form.tab_to("#rules")?;
    form.type_text("Elder")?;
    form.press(Key::Enter)?;
    // The day of the application, as an American browser takes it: without it nobody knows which edition is in force.
    form.tab_to("#at-dates_applied")?;
    form.type_text("03022026")?;
    form.press(Key::Tab)?;
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
    form.tab_to("#at-lot_source-accuracy")?;
    form.type_text("20 mm")?;
    form.press(Key::Tab)?;
    form.type_text("0 mm")?;
    form.tab_to("#first-thing")?;
    form.press(Key::Enter)?;
    form.tab_to("#pool-begin")?;
    form.press(Key::Space)?;
    form.tab_to("#at-pool_source-accuracy")?;
    form.type_text("30 mm")?;
    form.press(Key::Tab)?;
    form.type_text("0 mm")?;
    form.tab_to("#head-questions")?;
    form.press(Key::Enter)?;
    form.tab_to("#at-answers_plan-sets-distance")?;
    form.type_text("no")?;
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
            serde_json::json!([])
        )?,
        "about my height"
    );
    form.fill("#at-pool_depth", "1.4")?;
    form.until(
        "the fault to go",
        "return !document.getElementById('at-pool_depth-wrong');",
        &serde_json::json!([]),
    )
}
