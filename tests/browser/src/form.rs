//! The form, opened as a file in a window.

use std::ops::Deref;

use serde_json::{Value, json};

use crate::{Browser, Session, Trouble, page_url};

/// The example's rules amended: from 2027 on one metre to the rear line is enough.
const AMENDED: &str = "\
ruleset: eldermere-2027
title: Eldermere, private pools, as amended
edition: \"2027-01\"
authority: Eldermere building office
notice: Eldermere is an invented place.
earlier: eldermere
in-force: {from: 2027-01-01, by: applied}
rules:
  - id: rear-line
    title: Pool to rear lot line
    clause: By-law 7 as amended, s. 10(3)
    each: lot-line
    where: {fact: lot-line.faces, is: rear}
    require: {distance: {from: pool.water, to: lot-line}, at-least: 1 m}
    remedy: Move the pool away from the rear line.
";

/// The form in a window of its own.
pub struct Form(Session);

impl Deref for Form {
    type Target = Session;
    fn deref(&self) -> &Session {
        &self.0
    }
}

impl Form {
    /// Opened for the first time, on a wide screen.
    pub fn fresh() -> Result<Self, Trouble> {
        Self::fresh_in(Browser::Chromium)
    }

    /// Opened for the first time, on a screen of that size.
    pub fn sized(width: u32, height: u32) -> Result<Self, Trouble> {
        Self::opened(Browser::Chromium, (width, height))
    }

    /// Opened for the first time in a browser, on a wide screen.
    pub fn fresh_in(browser: Browser) -> Result<Self, Trouble> {
        Self::opened(browser, (1280, 900))
    }

    fn opened(browser: Browser, size: (u32, u32)) -> Result<Self, Trouble> {
        let form = Self(Session::open(browser, size)?);
        form.go(&page_url()?)?;
        form.ready()?;
        Ok(form)
    }

    /// With the example home in it.
    pub fn with_example() -> Result<Self, Trouble> {
        let form = Self::fresh()?;
        form.click("#menu-example")?;
        form.read("#verdict-word", "does not comply")?;
        Ok(form)
    }

    /// With the example home under a later edition of its rules, opened as a file at the desk.
    pub fn with_editions() -> Result<Self, Trouble> {
        let form = Self::with_example()?;
        let file = std::env::temp_dir().join(format!("eldermere-2027-{}.yaml", std::process::id()));
        std::fs::write(&file, AMENDED)?;
        form.click("#menu-desk")?;
        form.see("#rules-text")?;
        form.hand_file("#rules-file", &file.display().to_string())?;
        form.read("#desk-faults", "No faults")?;
        form.click("#desk-back")?;
        Ok(form)
    }

    /// Takes the day of the application out, so that nobody knows which edition governs.
    pub fn forget_application(&self) -> Result<(), Trouble> {
        self.click("#head-sure")?;
        self.run(
            "const day = document.getElementById('at-dates_applied'); day.value = '';
             day.dispatchEvent(new Event('change', {bubbles: true}));",
            json!([]),
        )?;
        self.see("#editions")
    }

    /// With the example's rules, a lot of that size with four square corners, and a pool on it.
    pub fn with_lot(width: &str, depth: &str) -> Result<Self, Trouble> {
        let form = Self::fresh()?;
        form.choose("#rules", "eldermere")?;
        form.click("#next-where")?;
        form.fill("#lot-width", width)?;
        form.fill("#lot-depth", depth)?;
        form.see("#side-front")?;
        form.click("#next-lot")?;
        form.click("#pool-begin")?;
        form.see("#drawing [data-path='pool']")?;
        Ok(form)
    }

    /// Waits until the page can be used.
    pub fn ready(&self) -> Result<(), Trouble> {
        self.until(
            "the page to be ready",
            "return document.body.dataset.ready === 'true';",
            &json!([]),
        )
    }

    /// Opens an address with what stands behind its `#`, as from a message.
    pub fn open_link(&self, fragment: &str) -> Result<(), Trouble> {
        self.go("about:blank")?;
        self.go(&format!("{}{fragment}", page_url()?))?;
        self.ready()
    }

    /// Where the middle of a thing on the drawing stands in the window.
    pub fn middle(&self, thing: &str) -> Result<(i64, i64), Trouble> {
        let script = "const box = document.querySelector(`#drawing [data-path='${arguments[0]}']`).getBoundingClientRect();
            return [Math.round(box.x + box.width / 2), Math.round(box.y + box.height / 2)];";
        let place = self.run(script, json!([thing]))?;
        Ok((
            place[0].as_i64().ok_or("no place")?,
            place[1].as_i64().ok_or("no place")?,
        ))
    }

    /// How many pixels of the window a metre on the ground takes.
    pub fn pixels_a_metre(&self) -> Result<f64, Trouble> {
        let scale = self.run(
            "return document.getElementById('drawing').getScreenCTM().a * 1000;",
            json!([]),
        )?;
        Ok(scale.as_f64().ok_or("no scale")?)
    }

    /// The outcome that a rule has in the list of findings.
    pub fn outcome(&self, rule: &str) -> Result<String, Trouble> {
        let outcome = self.run("return document.getElementById(`finding-${arguments[0]}`)?.dataset.outcome ?? 'not listed';", json!([rule]))?;
        Ok(outcome.as_str().unwrap_or_default().to_owned())
    }

    /// The plan as the browser keeps it.
    pub fn kept(&self) -> Result<Value, Trouble> {
        let kept = self.run("return localStorage.getItem('siting/1');", json!([]))?;
        Ok(serde_json::from_str(kept.as_str().unwrap_or("null"))?)
    }

    /// Presses Tab until what has the focus fits the selector.
    pub fn tab_to(&self, css: &str) -> Result<(), Trouble> {
        for _ in 0..400 {
            let there = self.run(
                "return Boolean(document.activeElement?.matches(arguments[0]));",
                json!([css]),
            )?;
            if there == json!(true) {
                return Ok(());
            }
            self.press(crate::Key::Tab)?;
        }
        Err(format!("four hundred times Tab, and never at `{css}`").into())
    }
}
