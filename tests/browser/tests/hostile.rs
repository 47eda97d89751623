//! A rule file and a plan whose every text would be a script if anything took it for one, and has characters in it that
//! nobody sees.

use std::env::temp_dir;
use std::fs;

use browser_checks::{Form, Outcome};
use serde_json::json;

/// Runs wherever a text is taken for markup or for an address.
const SCRIPT: &str = "<img src=x onerror='window.hostile=1'><svg onload='window.hostile=1'/><script>window.hostile=1</script>\\\"'><a href='javascript:window.hostile=1'>x</a><iframe src='http://127.0.0.1:9/'></iframe>\\e[31m\\u202e\\u2066\\u200b\\x9b\\u2028";

/// Every text of the page, without what is no text for a person.
const ALL_TEXT: &str = "[...document.body.children].filter((one) => !/^(script|style)$/i.test(one.tagName)).map((one) => one.textContent).join()";

fn rules() -> String {
    let text = |name: &str| format!("\"{name} {SCRIPT}\"");
    format!(
        "ruleset: hostile\ntitle: {}\nedition: {}\nauthority: {}\nnotice: {}\nquestions:\n  - {{id: asked, ask: {}, how: {}, answer: yes-no}}\n\
         rules:\n  - id: depth\n    title: {}\n    clause: {}\n    require: {{fact: pool.depth, at-most: 1 m}}\n    remedy: {}\n    note: {}\n    documents: [paper]\n\
         \x20 - id: question\n    title: {}\n    clause: {}\n    require: {{fact: asked, is: yes}}\n\
         documents:\n  - {{id: paper, title: {}, from: {}}}\ncautions:\n  - {{id: care, says: {}}}\n",
        text("title"),
        text("edition"),
        text("authority"),
        text("notice"),
        text("ask"),
        text("how"),
        text("rule"),
        text("clause"),
        text("remedy"),
        text("note"),
        text("rule"),
        text("clause"),
        text("paper"),
        text("from"),
        text("says"),
    )
}

fn plan() -> String {
    format!(
        "plan: hostile\ntitle: \"title {SCRIPT}\"\nunit: m\nlot:\n  corners: {{a: [0, 0], b: [20, 0], c: [20, 30], d: [0, 30]}}\n  sides:\n\
         \x20   - {{id: front, from: a, to: b, faces: front}}\n    - {{id: right, from: b, to: c, faces: side}}\n    - {{id: rear, from: c, to: d, faces: rear}}\n    - {{id: left, from: d, to: a, faces: side}}\n\
         pool: {{id: pool, water: {{rectangle: {{at: [5, 15], length: 8 m, width: 4 m}}}}, depth: 1.5 m}}\n"
    )
}

fn nothing_ran(form: &Form) -> Outcome {
    assert_eq!(
        form.run("return typeof window.hostile;", json!([]))?,
        "undefined",
        "a script in a text ran"
    );
    assert_eq!(form.run("return document.querySelectorAll('main img, main iframe, main script, main a[href^=javascript], #drawing foreignObject').length;", json!([]))?, 0);
    let hidden = r"[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]";
    let found = form.run(&format!("return /{hidden}/.exec({ALL_TEXT});"), json!([]))?;
    assert_eq!(found, json!(null), "something in the page hides");
    let asked = form.asked_for()?;
    assert!(asked.is_empty(), "the page asked a network for {asked:?}");
    Ok(())
}

#[test]
fn nothing_in_them_runs() -> Outcome {
    let folder = temp_dir().join("siting-hostile");
    fs::create_dir_all(&folder)?;
    let (rules_file, plan_file) = (folder.join("rules.yaml"), folder.join("plan.yaml"));
    fs::write(&rules_file, rules())?;
    fs::write(&plan_file, plan())?;
    let form = Form::fresh()?;
    form.hand_file("#file", &plan_file.display().to_string())?;
    form.read("#said", "is open")?;
    form.click("#menu-desk")?;
    form.hand_file("#rules-file", &rules_file.display().to_string())?;
    form.read("#desk-faults", "No faults")?;
    nothing_ran(&form)?;
    form.click("#desk-back")?;
    form.read("#finding-depth", "rule <img src=x")?;
    form.click("#choose-depth")?;
    form.read("#documents", "paper <img src=x")?;
    form.read("#cautions", "says <img src=x")?;
    form.read("#sheet-foot", "title <img src=x")?;
    form.read(
        "#sheet-foot",
        "‹U+001B›[31m‹U+202E›‹U+2066›‹U+200B›‹U+009B›‹U+2028›",
    )?;
    form.click("#head-questions")?;
    form.read("#part-questions", "ask <img src=x")?;
    form.click("#menu-print")?;
    form.click("#box-close")?;
    nothing_ran(&form)
}

#[test]
fn the_page_asks_no_network_for_anything() -> Outcome {
    let form = Form::with_example()?;
    form.click("#menu-desk")?;
    form.see("#rules-text")?;
    let asked = form.asked_for()?;
    assert!(asked.is_empty(), "the page asked a network for {asked:?}");
    let complaints = form.complaints()?;
    assert!(complaints.is_empty(), "{complaints:?}");
    Ok(())
}
