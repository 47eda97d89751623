//! While something is dragged, the page shows what the library says of each step.

use browser_checks::{Form, Outcome, Trouble};
use serde_json::json;

/// From now on each step of a drag is held against what the library said: each layer of the drawing against its text read
/// anew, each line of the list against its report.
const WATCH: &str = r##"
    const parse = JSON.parse, measure = performance.measure.bind(performance);
    Object.assign(window, {steps: 0, lines: 0, redrawn: 0, unlike: []});
    let told = null, atRest = null;
    JSON.parse = (...given) => {
        const read = parse(...given);
        if (read?.drawing) atRest = read.drawing.layers;
        if (read?.layers) told = read;
        return read;
    };
    const fresh = (text) => {
        const template = document.createElement("template");
        template.innerHTML = `<svg xmlns="http://www.w3.org/2000/svg">${text}</svg>`;
        return template.content.firstElementChild.firstElementChild;
    };
    const plain = (text) => text.replaceAll("\u00a0", " ").replaceAll("`", "");
    performance.measure = (...given) => {
        if (atRest) {
            window.steps += 1;
            [...document.querySelectorAll("#drawing > g")].forEach((layer, index) => {
                const wanted = told.layers[index] ?? atRest[index];
                window.redrawn += told.layers[index] ? 1 : 0;
                if (!layer.isEqualNode(fresh(wanted))) window.unlike.push([layer.outerHTML, wanted]);
            });
            for (const rule of told.rules) {
                const shown = document.getElementById(`finding-${rule.id}`);
                if (!shown) continue;
                const brief = shown.querySelector("[data-cell=brief]");
                const right = shown.dataset.outcome === rule.outcome && shown.querySelector(".title").textContent.length > 3
                    && (!brief || plain(brief.textContent) === plain(rule.parts[0].brief));
                window.lines += brief ? 1 : 0;
                if (!right) window.unlike.push([shown.outerHTML, rule]);
            }
        }
        return measure(...given);
    };
"##;

/// There and back, and once to the side: so that the plan at rest is known from the first drag on.
fn drags(form: &Form) -> Outcome {
    for (dx, dy) in [(0, 8), (40, 60), (-70, -40), (30, -28)] {
        let (x, y) = form.middle("pool")?;
        form.drag((x, y), (x + dx, y + dy))?;
    }
    Ok(())
}

fn found(form: &Form) -> Result<[u64; 3], Trouble> {
    let unlike = form.run("return window.unlike.slice(0, 2);", json!([]))?;
    assert_eq!(unlike, json!([]));
    let counts = form.run(
        "return [window.steps, window.redrawn, window.lines];",
        json!([]),
    )?;
    Ok([0, 1, 2].map(|at| counts[at].as_u64().unwrap_or_default()))
}

#[test]
fn each_step_shows_what_the_library_says() -> Outcome {
    let form = Form::with_example()?;
    form.run(WATCH, json!([]))?;
    drags(&form)?;
    let [steps, redrawn, lines] = found(&form)?;
    assert!(
        steps >= 8 && redrawn > steps && lines > steps,
        "{steps} {redrawn} {lines}"
    );
    Ok(())
}

#[test]
fn each_step_shows_a_chosen_rule_and_its_ground() -> Outcome {
    let form = Form::with_example()?;
    form.run(WATCH, json!([]))?;
    form.click("#shade")?;
    form.click("#choose-rear-line")?;
    form.read("#finding-rear-line", "Measured from the water's edge")?;
    drags(&form)?;
    let [steps, redrawn, _] = found(&form)?;
    assert!(steps >= 8 && redrawn > steps, "{steps} {redrawn}");
    Ok(())
}

/// Where the pool lies north of the origin, in metres.
fn north_of(form: &Form) -> Result<f64, Trouble> {
    let at = form.kept()?["plan"]["pool"]["water"]["rectangle"]["at"][1].clone();
    at.as_f64().ok_or_else(|| format!("no place: {at}").into())
}

/// Four metres of the hand are four metres on the ground, whatever is told above the drawing meanwhile.
#[test]
fn a_drag_goes_as_far_as_the_hand() -> Outcome {
    for (width, height) in [
        (360, 740),
        (390, 844),
        (768, 1024),
        (1280, 720),
        (1440, 900),
    ] {
        let form = Form::sized(width, height)?;
        if width < 900 {
            form.run("document.getElementById('menu-more').click();", json!([]))?;
        }
        form.run(
            "document.getElementById('menu-example').click();",
            json!([]),
        )?;
        form.read("#verdict-word", "does not comply")?;
        form.run(
            "document.getElementById('view-sheet').click(); document.getElementById('canvas').scrollIntoView({block: 'center'});",
            json!([]),
        )?;
        let before = north_of(&form)?;
        let (x, y) = form.middle("pool")?;
        let down = (form.pixels_a_metre()? * 4.0).round();
        let wanted = down / form.pixels_a_metre()?;
        form.drag((x, y), (x, y + down as i64))?;
        let moved = before - north_of(&form)?;
        assert!(
            (moved - wanted).abs() < 0.05,
            "{width} px: {moved} m for {wanted} m"
        );
    }
    Ok(())
}
