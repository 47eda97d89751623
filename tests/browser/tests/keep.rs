//! Nothing is lost: on reloading, on choosing other rules, in a file, in a link.

use std::fs;
use std::path::PathBuf;
use std::thread::sleep;
use std::time::Duration;

use browser_checks::{Form, Outcome, Trouble, page_url};
use serde_json::json;

#[test]
fn a_reload_finds_everything_as_it_was() -> Outcome {
    let form = Form::with_example()?;
    form.click("#head-pool")?;
    form.fill("#at-pool_depth", "4 ft 6 in")?;
    form.reload()?;
    form.ready()?;
    form.read("#verdict-word", "does not comply")?;
    assert_eq!(
        form.run(
            "return document.getElementById('at-pool_depth').value;",
            json!([])
        )?,
        "4 ft 6 in"
    );
    assert_eq!(
        form.run(
            "return document.getElementById('rules')?.value ?? 'eldermere';",
            json!([])
        )?,
        "eldermere"
    );
    Ok(())
}

#[test]
fn other_rules_ask_other_things_and_the_plan_stays() -> Outcome {
    let form = Form::with_example()?;
    let before = form.kept()?["plan"].clone();
    form.click("#head-where")?;
    form.choose("#rules", "norway")?;
    form.read("#sheet-foot", "orw")?;
    assert_eq!(form.kept()?["plan"], before);
    // The answers to the other rules' own questions are kept, not looked at, and told; the plan is judged without them.
    form.read("#verdict-word", "Not decided yet.")?;
    form.read("#left-out", "2 answers are for other rules")?;
    form.read("#left-out", "plan sets distance")?;
    form.click("#menu-undo")?;
    form.read("#sheet-foot", "Eldermere")
}

fn saved(form: &Form, folder: &str) -> Result<PathBuf, Trouble> {
    let folder = std::env::temp_dir().join(folder);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder)?;
    form.browser(
        "Browser.setDownloadBehavior",
        json!({"behavior": "allow", "downloadPath": folder.display().to_string()}),
    )?;
    form.click("#menu-save")?;
    for _ in 0..200 {
        let files = fs::read_dir(&folder)?
            .filter_map(Result::ok)
            .map(|entry| entry.path());
        if let Some(file) = files
            .into_iter()
            .find(|file| file.extension().is_some_and(|ending| ending == "yaml"))
        {
            return Ok(file);
        }
        sleep(Duration::from_millis(50));
    }
    Err("no file was saved".into())
}

#[test]
fn a_saved_plan_opens_as_the_same_plan() -> Outcome {
    let form = Form::with_example()?;
    let before = form.kept()?["plan"].clone();
    let file = saved(&form, "siting-saved")?;
    form.click("#menu-anew")?;
    form.click("#anew-sure")?;
    form.read("#verdict-word", "how large is your lot")?;
    form.hand_file("#file", &file.display().to_string())?;
    form.read("#verdict-word", "does not comply")?;
    assert_eq!(form.kept()?["plan"], before);
    Ok(())
}

#[test]
fn what_is_no_plan_is_refused_in_words_and_changes_nothing() -> Outcome {
    let form = Form::with_example()?;
    let file = std::env::temp_dir().join("siting-no-plan.yaml");
    fs::write(&file, "lot: [")?;
    form.hand_file("#file", &file.display().to_string())?;
    form.read("#notice", "is not a plan")?;
    form.read("#verdict-word", "does not comply")
}

#[test]
fn a_link_holds_the_whole_plan() -> Outcome {
    let form = Form::with_example()?;
    let before = form.kept()?["plan"].clone();
    form.click("#menu-share")?;
    form.see("#link")?;
    let link = form.run("return document.getElementById('link').value;", json!([]))?;
    let link = link.as_str().unwrap_or_default().to_owned();
    let (_, fragment) = link.split_once('#').ok_or("the link holds nothing")?;
    let other = Form::fresh()?;
    other.open_link(&format!("#{fragment}"))?;
    other.read("#verdict-word", "does not comply")?;
    assert_eq!(other.kept()?["plan"], before);
    Ok(())
}

/// The first version of the link, written down on 2026-11-25; it must open for as long as there is a page.
const OLD: &str = "#plan=0.%7B%22plan%22%3A%22old%22%2C%22title%22%3A%22An%20old%20link%22%2C%22unit%22%3A%22m%22%2C%22things%22%3A%5B%5D%7D";

#[test]
fn an_old_link_opens_and_a_newer_or_a_broken_one_says_why_not() -> Outcome {
    let form = Form::fresh()?;
    form.open_link(OLD)?;
    form.read("#sheet-foot", "An old link")?;
    form.open_link("#plan=7.abc")?;
    form.read("#notice", "newer page")?;
    form.open_link("#plan=1.AAAA")?;
    form.read("#notice", "damaged")?;
    form.read("#sheet-foot", "An old link")
}

/// The rules that a plan was made for stand in its file.
#[test]
fn a_file_brings_its_rules_along() -> Outcome {
    let file = saved(&Form::with_example()?, "siting-with-rules")?;
    let other = Form::fresh()?;
    other.hand_file("#file", &file.display().to_string())?;
    other.read("#sheet-foot", "Eldermere")?;
    other.read("#verdict-word", "does not comply")
}

#[test]
fn rules_that_did_not_come_along_are_named() -> Outcome {
    let form = Form::fresh()?;
    let file = std::env::temp_dir().join("siting-other-rules.yaml");
    fs::write(&file, "plan: p\ntitle: P\nrules: hazelbrook\nunit: m\n")?;
    form.hand_file("#file", &file.display().to_string())?;
    form.read("#notice", "hazelbrook")
}

/// Opens the part of the form with the plan's title, if it is closed.
fn open_where(form: &Form) -> Outcome {
    let click = "const head = document.getElementById('head-where'); if (head.getAttribute('aria-expanded') === 'false') head.click();";
    form.run(click, json!([]))?;
    form.see("#at-title")
}

#[test]
fn of_two_windows_each_says_so_and_neither_loses_its_plan() -> Outcome {
    let form = Form::with_example()?;
    let first = form.window()?;
    form.another_window()?;
    form.go(&page_url()?)?;
    form.ready()?;
    form.read("#notice", "open in another window")?;
    form.click("#notice-read")?;
    open_where(&form)?;
    form.fill("#at-title", "The second plan")?;
    form.look_at(&first)?;
    form.read("#notice", "open in another window")?;
    form.click("#notice-read")?;
    open_where(&form)?;
    form.fill("#at-title", "The first plan")?;
    form.read("#notice", "has kept a different plan")?;
    assert_eq!(form.kept()?["plan"]["title"], "The first plan");
    form.click("#aside-open")?;
    form.read("#sheet-foot", "The second plan")?;
    form.click("#menu-undo")?;
    form.read("#sheet-foot", "The first plan")
}

#[test]
fn a_browser_that_keeps_nothing_is_told_of_at_once() -> Outcome {
    let form = Form::with_example()?;
    let full = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };";
    form.run(full, json!([]))?;
    form.click("#shade")?;
    form.read("#notice", "keeps nothing")?;
    form.see("#keep-save")
}
