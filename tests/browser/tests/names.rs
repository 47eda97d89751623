//! Whatever a person calls a thing, the form goes on; and what is wrong with a plan is always told.

use browser_checks::{Form, Outcome};
use serde_json::json;

#[test]
fn a_thing_may_be_called_anything() -> Outcome {
    let form = Form::with_example()?;
    form.click("#head-site")?;
    form.click("#kind-building .add")?;
    form.see(".thing[open]")?;
    for name in ["House", "my house", "garage 2", "Hütte", "o'neil", "{[<b>"] {
        form.fill(".thing[open] input[data-path$='.name']", name)?;
        form.read(".thing[open] summary strong", name)?;
        form.read("#verdict-word", "does not comply")?;
        let faults = form.run(
            "return document.querySelectorAll('#faults-now').length;",
            json!([]),
        )?;
        assert_eq!(faults, 0, "{name}");
    }
    // Two that are called alike are still two.
    form.click("#kind-building .add")?;
    form.fill(".thing[open] input[data-path$='.name']", "{[<b>")?;
    form.read("#verdict-word", "does not comply")
}

#[test]
fn what_is_wrong_with_a_file_is_told_whether_or_not_a_field_shows_it() -> Outcome {
    let form = Form::with_example()?;
    let file = std::env::temp_dir().join("siting-bad-id.yaml");
    std::fs::write(
        &file,
        "plan: p\ntitle: P\nrules: [eldermere]\nunit: m\nlot: {corners: {a: [0, 0], b: [20, 0], c: [20, 30], d: [0, 30]}}\n\
         pool: {id: pool, water: {rectangle: {at: [5, 15], length: 8 m, width: 4 m}}}\n\
         things: [{kind: building, id: the house, wall: {rectangle: {at: [1, 1], length: tall, width: 4 m}}}]\n",
    )?;
    form.hand_file("#file", &file.display().to_string())?;
    form.read("#faults-now", "the house")?;
    form.read("#faults-now", "cannot be used as an id")?;
    form.read("#faults-now", "tall")
}
