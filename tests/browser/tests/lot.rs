//! The lot: its two figures, one at a time, and where north is.

use browser_checks::{Form, Outcome};
use serde_json::json;

#[test]
fn the_size_of_a_lot_that_was_opened_is_shown_and_changed_by_one_figure() -> Outcome {
    let form = Form::with_lot("22", "32")?;
    form.reload()?;
    form.ready()?;
    form.click("#head-lot")?;
    let value = "return document.getElementById(arguments[0]).value;";
    assert_eq!(form.run(value, json!(["lot-width"]))?, "22 m");
    form.fill("#lot-depth", "30")?;
    form.until(
        "the lot to be less deep",
        "return JSON.parse(localStorage.getItem('siting/1')).plan.lot.corners.ne[1] === '30 m';",
        &json!([]),
    )?;
    assert_eq!(form.kept()?["plan"]["lot"]["corners"]["ne"][0], "22 m");
    Ok(())
}

#[test]
fn half_a_size_asks_for_the_other_half() -> Outcome {
    let form = Form::fresh()?;
    form.choose("#rules", "eldermere")?;
    form.click("#next-where")?;
    form.fill("#lot-width", "22")?;
    form.read("#lot-half", "Type the depth, too")
}

#[test]
fn north_is_drawn_once_somebody_said_where_it_is() -> Outcome {
    let form = Form::with_lot("22", "32")?;
    let arrow = "return document.querySelector('#drawing .north-arrow polygon') !== null;";
    assert_eq!(form.run(arrow, json!([]))?, false);
    form.click("#head-lot")?;
    form.fill("#at-north", "15")?;
    form.until("the north arrow", arrow, &json!([]))
}

#[test]
fn a_decimal_comma_is_one_where_the_language_writes_it() -> Outcome {
    let form = Form::with_example()?;
    form.choose("#language", "nb")?;
    form.click("#head-pool")?;
    form.fill("#at-pool_depth", "1,45")?;
    assert_eq!(form.kept()?["plan"]["pool"]["depth"], "1.45 m");
    form.reload()?;
    form.ready()?;
    let value = "return document.getElementById('at-pool_depth').value;";
    assert_eq!(form.run(value, json!([]))?, "1,45 m");
    Ok(())
}
