//! While something is dragged, the page shows what it would show of the plan that comes of it.

use browser_checks::{Form, Outcome, Trouble};
use serde_json::json;

/// How the layers of the drawing stand. Attributes have no order, and what a title says in full, and where a thing lies,
/// is worked out once it rests.
const LAYERS: &str = r##"
    const plain = (element) => {
        const values = [...element.attributes].filter(({name}) => name !== "aria-description").map(({name, value}) => `${name}=${value}`);
        const inner = [...element.childNodes].map((node) => (node.attributes ? plain(node) : element.nodeName === "title" ? "" : node.data));
        return `<${element.nodeName} ${values.sort().join(" ")}>${inner.join("")}`;
    };
    window.layers = () => [...document.querySelectorAll("#drawing > g")].map(plain);
"##;

/// From now on it is kept how the page stands after each step of a drag: the layers of the drawing, and the lines of the
/// list.
const WATCH: &str = r##"
    Object.assign(window, {steps: 0, redrawn: 0, lines: 0});
    window.listed = () => Object.fromEntries([...document.querySelectorAll("article[id]")].map((shown) =>
        [shown.id, [shown.dataset.outcome, shown.textContent]]));
    const others = (now, before) => Object.keys(now).filter((key) => before && String(now[key]) !== String(before[key])).length;
    document.addEventListener("drag-stepped", () => {
        const now = [window.layers(), window.listed()];
        window.steps += 1;
        window.redrawn += others(now[0], window.last?.[0]);
        window.lines += others(now[1], window.last?.[1]);
        window.last = now;
    });
"##;

/// What the last step showed otherwise than the plan that came of it.
const UNLIKE: &str = "
    const now = [window.layers(), window.listed()];
    return now.flatMap((part, at) => Object.keys(part).map((key) => [part[key], window.last[at][key]]))
        .filter(([now, last]) => String(now) !== String(last));
";

/// There and back, and once to the side. The pool is chosen first, so that its rings are there at rest, too.
fn drags(form: &Form) -> Outcome {
    let (x, y) = form.middle("pool")?;
    form.drag((x, y), (x, y))?;
    form.run(LAYERS, json!([]))?;
    form.run(WATCH, json!([]))?;
    for (dx, dy) in [(0, 8), (40, 60), (-70, -40), (30, -28)] {
        let (x, y) = form.middle("pool")?;
        form.drag((x, y), (x + dx, y + dy))?;
        assert_eq!(form.run(UNLIKE, json!([]))?, json!([]), "{dx} {dy}");
    }
    Ok(())
}

fn found(form: &Form) -> Result<[u64; 3], Trouble> {
    let counts = form.run(
        "return [window.steps, window.redrawn, window.lines];",
        json!([]),
    )?;
    Ok([0, 1, 2].map(|at| counts[at].as_u64().unwrap_or_default()))
}

#[test]
fn each_step_shows_what_comes_of_it() -> Outcome {
    let form = Form::with_example()?;
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
    form.click("#shade")?;
    form.click("#choose-rear-line")?;
    form.read("#finding-rear-line", "Measured from the water's edge")?;
    drags(&form)?;
    let [steps, redrawn, _] = found(&form)?;
    assert!(steps >= 8 && redrawn > steps, "{steps} {redrawn}");
    Ok(())
}

/// The drawing that was mended in every step is the one that a page begins with.
#[test]
fn a_mended_drawing_is_like_a_new_one() -> Outcome {
    let form = Form::with_example()?;
    form.click("#shade")?;
    drags(&form)?;
    form.click("#sheet-thing-left")?;
    form.until(
        "the rings to go",
        "return !document.querySelector('#drawing .handle');",
        &json!([]),
    )?;
    // What stands above the drawing leaves it more room or less, so that it is drawn once more.
    let drawn = "document.dispatchEvent(new Event('look')); return window.layers();";
    form.run(drawn, json!([]))?;
    let mended = form.run(drawn, json!([]))?;
    form.reload()?;
    form.ready()?;
    form.run(LAYERS, json!([]))?;
    form.run(drawn, json!([]))?;
    assert!(form.run(drawn, json!([]))? == mended, "the drawings differ");
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
