//! With fingers on a narrow screen: one drags, two come closer.

use browser_checks::{Form, Outcome, Trouble};
use serde_json::{Value, json};

/// What the browser gets to know of the fingers, as from a screen that is touched.
fn fingers(form: &Form, what: &str, places: &[(f64, f64)]) -> Result<(), Trouble> {
    let points: Vec<Value> = places
        .iter()
        .enumerate()
        .map(|(id, (x, y))| json!({"x": x, "y": y, "id": id}))
        .collect();
    let event = json!({"type": what, "touchPoints": points});
    form.browser("Input.dispatchTouchEvent", event).map(drop)
}

/// The example on a telephone, its drawing in view.
fn on_a_telephone() -> Result<Form, Trouble> {
    let form = Form::sized(360, 740)?;
    form.browser(
        "Emulation.setTouchEmulationEnabled",
        json!({"enabled": true, "maxTouchPoints": 2}),
    )?;
    form.click("#menu-more")?;
    form.click("#menu-example")?;
    form.click("#view-sheet")?;
    form.run(
        "document.getElementById('canvas').scrollIntoView({block: 'center'});",
        json!([]),
    )?;
    Ok(form)
}

#[test]
fn the_list_of_the_menu_folds_away_once_it_has_served() -> Outcome {
    let form = on_a_telephone()?;
    let open = form.run(
        "return document.getElementById('menu-rest').dataset.open;",
        json!([]),
    )?;
    assert_eq!(open, "false");
    Ok(())
}

#[test]
fn a_finger_drags_the_pool_until_it_passes() -> Outcome {
    let form = on_a_telephone()?;
    assert_eq!(form.outcome("rear-line")?, "fail");
    let (x, y) = form.middle("pool")?;
    let (x, y) = (x as f64, y as f64);
    let down = form.pixels_a_metre()? * 2.0;
    fingers(&form, "touchStart", &[(x, y)])?;
    for step in 1..=8 {
        fingers(&form, "touchMove", &[(x, y + down * f64::from(step) / 8.0)])?;
    }
    fingers(&form, "touchEnd", &[])?;
    form.until(
        "the rule to pass",
        "return document.getElementById('finding-rear-line')?.dataset.outcome === 'pass';",
        &json!([]),
    )
}

#[test]
fn two_fingers_come_closer() -> Outcome {
    let form = on_a_telephone()?;
    let before = form.pixels_a_metre()?;
    let plan = form.kept()?["plan"].clone();
    let (x, y) = form.middle("house")?;
    let (x, y) = (x as f64, y as f64);
    fingers(&form, "touchStart", &[(x - 20.0, y)])?;
    fingers(&form, "touchStart", &[(x - 20.0, y), (x + 20.0, y)])?;
    for step in 1..=5 {
        let apart = 20.0 + 8.0 * f64::from(step);
        fingers(&form, "touchMove", &[(x - apart, y), (x + apart, y)])?;
    }
    fingers(&form, "touchEnd", &[])?;
    let wider =
        "return document.getElementById('drawing').getScreenCTM().a * 1000 > arguments[0] * 1.5;";
    form.until("the drawing to come closer", wider, &json!([before]))?;
    assert_eq!(form.kept()?["plan"], plan, "nothing was moved by it");
    Ok(())
}

/// Everything that a finger can press is at least 44 px wide and high (WCAG 2.2, criterion 2.5.5); a box or a button is
/// as large as the words beside it, which press it, too.
#[test]
fn a_finger_hits_whatever_can_be_pressed() -> Outcome {
    let form = on_a_telephone()?;
    let small = "const found = [];
        const all = 'button, a[href], summary, select, input:not([type=file]), [data-handle] .reach';
        for (const one of document.querySelectorAll(all)) {
          const target = one.closest('label') ?? one;
          if (!target.checkVisibility() || one.closest('.hidden, .skip')) continue;
          const {width, height} = target.getBoundingClientRect();
          if (width < 43.5 || height < 43.5) found.push(`${one.tagName} ${one.id || one.textContent} ${Math.round(width)} by ${Math.round(height)}`);
        }
        return found;";
    form.click("#view-form")?;
    for part in [
        "where",
        "lot",
        "pool",
        "road",
        "site",
        "barrier",
        "questions",
        "sure",
    ] {
        form.run(
            "const head = document.getElementById(`head-${arguments[0]}`); if (head.getAttribute('aria-expanded') === 'false') head.click();",
            json!([part]),
        )?;
        assert_eq!(form.run(small, json!([]))?, json!([]), "{part}");
    }
    for view in ["sheet", "result"] {
        form.click(&format!("#view-{view}"))?;
        assert_eq!(form.run(small, json!([]))?, json!([]), "{view}");
    }
    Ok(())
}
