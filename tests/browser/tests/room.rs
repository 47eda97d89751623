//! Where the pool could go: the map, the nearest place, the places on offer, and why there is none.

use std::path::Path;

use browser_checks::{Form, Key, Outcome, Trouble};
use serde_json::{Value, json};

/// A wide screen and a telephone.
const SCREENS: [(u32, u32); 2] = [(1280, 900), (390, 844)];

/// The example with its map, the drawing in view.
fn with_map((width, height): (u32, u32)) -> Result<Form, Trouble> {
    let form = Form::sized(width, height)?;
    if width < 800 {
        form.click("#menu-more")?;
    }
    form.click("#menu-example")?;
    form.read("#verdict-word", "does not comply")?;
    if width < 800 {
        form.click("#view-sheet")?;
    }
    form.click("#sheet-room")?;
    found(&form)?;
    Ok(form)
}

/// Waits until the search has ended, which takes a while in a library that was packed quickly.
pub(crate) fn found(form: &Form) -> Outcome {
    let once = || {
        form.until(
            "the search to end",
            "return document.getElementById('room-state')?.dataset.stage === 'Found';",
            &json!([]),
        )
    };
    (0..5)
        .map(|_| once())
        .find(Result::is_ok)
        .unwrap_or_else(once)
}

fn plan(form: &Form) -> Result<Value, Trouble> {
    Ok(form.kept()?["plan"].clone())
}

/// Whether the page can be shifted to the side.
fn runs_over(form: &Form) -> Result<bool, Trouble> {
    let over = form.run(
        "return document.documentElement.scrollWidth > document.documentElement.clientWidth;",
        json!([]),
    )?;
    Ok(over == json!(true))
}

#[test]
fn the_pool_goes_to_the_nearest_place_in_one_step() -> Outcome {
    for screen in SCREENS {
        let form = with_map(screen)?;
        assert!(!runs_over(&form)?, "{screen:?}");
        form.see("#room-map")?;
        form.read("#room-legend", "middle of the pool")?;
        let before = plan(&form)?;
        form.run(
            "document.getElementById('room-nearest').scrollIntoView({block: 'center'});",
            json!([]),
        )?;
        form.click("#room-nearest")?;
        form.read("#room-moved", "Moved: ")?;
        form.read("#verdict-word", "Not decided")?;
        form.read("#said", "Not decided")?;
        assert_ne!(form.outcome("rear-line")?, "fail", "{screen:?}");
        found(&form)?;
        assert!(!runs_over(&form)?, "{screen:?}, moved");
        form.run("document.getElementById('menu-undo').click();", json!([]))?;
        form.read("#verdict-word", "does not comply")?;
        assert_eq!(plan(&form)?, before, "{screen:?}");
        assert_eq!(form.text("#room-moved")?, "", "{screen:?}");
    }
    Ok(())
}

/// What a card says of its place is what the checker then says.
#[test]
fn a_place_on_offer_is_taken_with_the_keys_alone() -> Outcome {
    let form = with_map(SCREENS[0])?;
    let verdict = form.text("#room-place-1")?;
    assert!(verdict.contains("Not decided yet."), "{verdict}");
    let before = plan(&form)?;
    form.run("document.getElementById('sheet-room').focus();", json!([]))?;
    form.tab_to("#room-take-1")?;
    form.press(Key::Enter)?;
    form.read("#said", "Moved: ")?;
    form.read("#verdict-word", "Not decided yet.")?;
    assert_ne!(plan(&form)?["pool"], before["pool"]);
    found(&form)?;
    form.tab_to("#room-take-0")
}

#[test]
fn a_press_on_the_map_puts_the_pool_at_the_nearest_place() -> Outcome {
    for screen in SCREENS {
        let form = with_map(screen)?;
        let at = form.run(
            "document.getElementById('canvas').scrollIntoView({block: 'center'});
             const area = document.querySelector('#room-map .room-area').getBoundingClientRect();
             const reach = document.querySelector('#room-map .room-reach').getBoundingClientRect();
             for (let y = reach.top + 4; y < reach.bottom; y += 6) {
                 for (let x = reach.left + 4; x < reach.right; x += 6) {
                     if (document.elementFromPoint(x, y)?.matches('.room-reach')) return [Math.round(x), Math.round(y), area.width];
                 }
             }
             return null;",
            json!([]),
        )?;
        let place = (at[0].as_i64(), at[1].as_i64());
        let (Some(x), Some(y)) = place else {
            return Err(format!("{screen:?}: no blank part of the map").into());
        };
        form.drag((x, y), (x, y))?;
        form.read("#room-moved", "Moved: ")?;
        assert_ne!(form.outcome("rear-line")?, "fail", "{screen:?}");
        assert_eq!(
            form.text("#verdict-word")?,
            "Not decided yet.",
            "{screen:?}"
        );
    }
    Ok(())
}

/// Where the plan changes, the map is looked for anew, and until then no old place can be taken.
#[test]
fn a_drag_makes_the_map_old_and_then_new() -> Outcome {
    let form = with_map(SCREENS[0])?;
    let first = form.text("#room-place-0")?;
    form.run(
        "window.seen = new Set();
         new MutationObserver(() => window.seen.add(document.getElementById('room-map')?.dataset.fresh))
             .observe(document.getElementById('sheet'), {subtree: true, childList: true, attributes: true});",
        json!([]),
    )?;
    let (x, y) = form.middle("pool")?;
    form.drag((x, y), (x + 20, y + 30))?;
    found(&form)?;
    assert_eq!(
        form.run("return [...window.seen].sort();", json!([]))?,
        json!(["false", "true"])
    );
    assert_ne!(form.text("#room-place-0")?, first);
    Ok(())
}

#[test]
fn the_search_can_be_stopped_and_the_page_used_meanwhile() -> Outcome {
    let form = Form::with_example()?;
    form.run(
        "document.getElementById('sheet-room').click(); document.getElementById('room-stopped').click();",
        json!([]),
    )?;
    form.read("#room-state", "was stopped")?;
    form.click("#choose-rear-line")?;
    form.read("#finding-rear-line", "Measured from the water's edge")?;
    form.read("#room-state", "was stopped")?;
    form.click("#room-again")?;
    found(&form)?;
    form.click("#sheet-room")?;
    form.until(
        "the map to go",
        "return document.getElementById('room-map') === null && document.getElementById('room').hidden;",
        &json!([]),
    )
}

#[test]
fn where_nothing_fits_the_reasons_are_told() -> Outcome {
    let form = Form::fresh()?;
    let rulesets = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../rulesets");
    let file = rulesets.join("eldermere/no-room.yaml").canonicalize()?;
    form.choose("#rules", "eldermere")?;
    form.hand_file("#file", &file.display().to_string())?;
    form.see("#drawing [data-path='pool']")?;
    form.click("#sheet-room")?;
    found(&form)?;
    form.read("#room-state", "No place was found")?;
    form.read("#room-why", "These 3 rules together rule out every place")?;
    form.read("#room-why", "Pool to rear lot line")?;
    form.read("#room-why", "84 %")
}

/// The fence and its gate go along, and there is more room.
#[test]
fn what_moves_with_the_pool_is_chosen() -> Outcome {
    let form = with_map(SCREENS[0])?;
    let cells = "return document.querySelector('#room-map .room-area').getAttribute('d').length;";
    let before = form.run(cells, json!([]))?.as_u64();
    form.click("#room-more > summary")?;
    let ids = form.run(
        "return [...document.querySelectorAll('[data-do=room-with]')].map((field) => field.dataset.id)
             .filter((id) => id.includes('fence') || id.includes('gate'));",
        json!([]),
    )?;
    for id in ids.as_array().cloned().unwrap_or_default() {
        form.click(&format!("#room-with-{}", id.as_str().unwrap_or_default()))?;
    }
    found(&form)?;
    assert_ne!(form.run(cells, json!([]))?.as_u64(), before);
    Ok(())
}
