//! A window of the browser: what a person does in it, and what is to be seen there.

use std::env;
use std::thread::sleep;
use std::time::{Duration, Instant};

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Value, json};

use crate::Trouble;
use crate::driver::{Browser, Driver};

/// How long something may take until it is seen. Generous: the machine may have other work.
const PATIENCE: Duration = Duration::from_secs(20);

/// A key that no letter stands for, as WebDriver names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Key {
    /// To the next thing that can be used.
    Tab,
    /// Done, or press.
    Enter,
    /// Press, tick.
    Space,
    /// Let go.
    Escape,
    /// An arrow.
    Up,
    /// An arrow.
    Down,
    /// An arrow.
    Left,
    /// An arrow.
    Right,
}

impl Key {
    fn letter(self) -> &'static str {
        match self {
            Self::Tab => "\u{E004}",
            Self::Enter => "\u{E007}",
            Self::Space => " ",
            Self::Escape => "\u{E00C}",
            Self::Up => "\u{E013}",
            Self::Down => "\u{E015}",
            Self::Left => "\u{E012}",
            Self::Right => "\u{E014}",
        }
    }
}

fn chromium(width: u32, height: u32) -> Value {
    let arguments = [
        "headless=new",
        "no-sandbox",
        "disable-gpu",
        "disable-background-networking",
        "disable-component-update",
        "disable-sync",
        "no-first-run",
        &format!("window-size={width},{height}"),
    ];
    json!({
        "goog:chromeOptions": {"args": arguments},
        "goog:loggingPrefs": {"performance": "ALL", "browser": "ALL"},
    })
}

fn firefox(width: u32, height: u32) -> Result<Value, Trouble> {
    let path = env::var_os("PATH").unwrap_or_default();
    let mut folders = env::split_paths(&path);
    let program = folders.find_map(|folder| {
        let names = ["firefox-esr", "firefox"].map(|name| folder.join(name));
        names.into_iter().find(|program| program.is_file())
    });
    let program = program.ok_or("There is no Firefox on the PATH.")?;
    let (width, height) = (format!("--width={width}"), format!("--height={height}"));
    Ok(json!({"moz:firefoxOptions": {"binary": program, "args": ["-headless", width, height]}}))
}

/// A window; closed when it is dropped.
pub struct Session {
    driver: Driver,
    path: String,
}

impl Session {
    /// Opens a headless window of that size, with nothing kept from before.
    pub fn open(browser: Browser, (width, height): (u32, u32)) -> Result<Self, Trouble> {
        let driver = Driver::start(browser)?;
        let mut wanted = match browser {
            Browser::Chromium => chromium(width, height),
            Browser::Firefox => firefox(width, height)?,
        };
        wanted["unhandledPromptBehavior"] = json!("ignore");
        let wanted = json!({"capabilities": {"alwaysMatch": wanted}});
        let made = driver.send("POST", "/session", &wanted).map_err(|error| {
            let needs = browser.needs();
            format!(
                "The browser did not start; {needs} must be on the PATH. The driver says: {error}"
            )
        })?;
        let id = made["sessionId"]
            .as_str()
            .ok_or("the driver gave no session")?;
        let session = Self {
            path: format!("/session/{id}"),
            driver,
        };
        match browser {
            Browser::Chromium => session.screen(width, height)?,
            Browser::Firefox => {
                let size = json!({"width": width, "height": height});
                session.post("/window/rect", &size)?;
            }
        }
        Ok(session)
    }

    fn post(&self, path: &str, body: &Value) -> Result<Value, Trouble> {
        self.driver
            .send("POST", &format!("{}{path}", self.path), body)
    }

    /// Goes to an address.
    pub fn go(&self, url: &str) -> Result<(), Trouble> {
        self.post("/url", &json!({"url": url})).map(drop)
    }

    /// Which window is looked at.
    pub fn window(&self) -> Result<Value, Trouble> {
        self.driver
            .send("GET", &format!("{}/window", self.path), &Value::Null)
    }

    /// Opens a window more, beside this one and with the same storage, and looks at it.
    pub fn another_window(&self) -> Result<(), Trouble> {
        let made = self.post("/window/new", &json!({"type": "tab"}))?;
        self.look_at(&made["handle"])
    }

    /// Looks at a window.
    pub fn look_at(&self, window: &Value) -> Result<(), Trouble> {
        self.post("/window", &json!({"handle": window})).map(drop)
    }

    /// Loads the page anew.
    pub fn reload(&self) -> Result<(), Trouble> {
        self.post("/refresh", &json!({})).map(drop)
    }

    /// Runs a script in the page, as a tester at the console would; gives what it returns.
    pub fn run(&self, script: &str, arguments: Value) -> Result<Value, Trouble> {
        self.post(
            "/execute/sync",
            &json!({"script": script, "args": arguments}),
        )
    }

    /// A script that answers later, by its last argument.
    pub fn run_later(&self, script: &str, arguments: Value) -> Result<Value, Trouble> {
        self.post("/timeouts", &json!({"script": 60_000}))?;
        self.post(
            "/execute/async",
            &json!({"script": script, "args": arguments}),
        )
    }

    /// A command of the browser's own protocol.
    pub fn browser(&self, command: &str, parameters: Value) -> Result<Value, Trouble> {
        self.post(
            "/goog/cdp/execute",
            &json!({"cmd": command, "params": parameters}),
        )
    }

    /// The size of what is seen.
    pub fn screen(&self, width: u32, height: u32) -> Result<(), Trouble> {
        let size =
            json!({"width": width, "height": height, "deviceScaleFactor": 1, "mobile": false});
        self.browser("Emulation.setDeviceMetricsOverride", size)
            .map(drop)
    }

    /// Waits until a script gives something true; says what was waited for where it never does.
    pub fn until(&self, what: &str, script: &str, arguments: &Value) -> Result<(), Trouble> {
        let begun = Instant::now();
        while begun.elapsed() < PATIENCE {
            if self.run(script, arguments.clone())? == json!(true) {
                return Ok(());
            }
            sleep(Duration::from_millis(50));
        }
        Err(format!("waited in vain: {what}").into())
    }

    /// Waits until something is there to be seen.
    pub fn see(&self, css: &str) -> Result<(), Trouble> {
        let script = "const e = document.querySelector(arguments[0]); return Boolean(e && e.checkVisibility());";
        self.until(&format!("`{css}` to be seen"), script, &json!([css]))
    }

    /// Waits until a place of the page holds these words.
    pub fn read(&self, css: &str, words: &str) -> Result<(), Trouble> {
        let script = "return Boolean(document.querySelector(arguments[0])?.textContent.includes(arguments[1]));";
        self.until(
            &format!("“{words}” in `{css}`, where stands “{}”", self.text(css)?),
            script,
            &json!([css, words]),
        )
    }

    /// The words in a place of the page.
    pub fn text(&self, css: &str) -> Result<String, Trouble> {
        let text = self.run(
            "return document.querySelector(arguments[0])?.textContent ?? '';",
            json!([css]),
        )?;
        Ok(text.as_str().unwrap_or_default().to_owned())
    }

    fn element(&self, css: &str) -> Result<String, Trouble> {
        self.see(css)?;
        self.found(css)
    }

    fn found(&self, css: &str) -> Result<String, Trouble> {
        let found = self.post("/element", &json!({"using": "css selector", "value": css}))?;
        let id = found
            .as_object()
            .and_then(|object| object.values().next())
            .and_then(Value::as_str);
        Ok(id.ok_or("no element")?.to_owned())
    }

    /// Clicks on something with the mouse.
    pub fn click(&self, css: &str) -> Result<(), Trouble> {
        let id = self.element(css)?;
        self.post(&format!("/element/{id}/click"), &json!({}))
            .map(drop)
    }

    /// Clicks into a field, types over what is there, and leaves it.
    pub fn fill(&self, css: &str, text: &str) -> Result<(), Trouble> {
        self.click(css)?;
        self.run("document.activeElement.select?.();", json!([]))?;
        self.type_text(text)?;
        self.press(Key::Tab)
    }

    /// Chooses a line of a list, as a click on it in the opened list would.
    pub fn choose(&self, css: &str, value: &str) -> Result<(), Trouble> {
        let line = format!("{css} option[value='{value}']");
        self.see(css)?;
        let script = "return document.querySelector(arguments[0]) !== null;";
        self.until(&format!("`{line}`"), script, &json!([line]))?;
        let id = self.found(&line)?;
        self.post(&format!("/element/{id}/click"), &json!({}))
            .map(drop)
    }

    /// Hands a file to a field for files.
    pub fn hand_file(&self, css: &str, file: &str) -> Result<(), Trouble> {
        let id = self.found(css)?;
        self.run(
            "document.querySelector(arguments[0]).hidden = false;",
            json!([css]),
        )?;
        self.post(&format!("/element/{id}/value"), &json!({"text": file}))
            .map(drop)
    }

    /// Presses one key.
    pub fn press(&self, key: Key) -> Result<(), Trouble> {
        self.keys(&[key.letter()], &[])
    }

    /// Presses one key while Shift is held.
    pub fn press_with_shift(&self, key: Key) -> Result<(), Trouble> {
        self.keys(&[key.letter()], &["\u{E008}"])
    }

    /// Types, key by key.
    pub fn type_text(&self, text: &str) -> Result<(), Trouble> {
        let letters: Vec<String> = text.chars().map(String::from).collect();
        let letters: Vec<&str> = letters.iter().map(String::as_str).collect();
        self.keys(&letters, &[])
    }

    fn keys(&self, keys: &[&str], held: &[&str]) -> Result<(), Trouble> {
        let down = |key: &&str| json!({"type": "keyDown", "value": key});
        let up = |key: &&str| json!({"type": "keyUp", "value": key});
        let mut actions: Vec<Value> = held.iter().map(down).collect();
        actions.extend(keys.iter().flat_map(|key| [down(key), up(key)]));
        actions.extend(held.iter().map(up));
        self.post(
            "/actions",
            &json!({"actions": [{"type": "key", "id": "keys", "actions": actions}]}),
        )
        .map(drop)
    }

    /// Drags with the mouse from a place of the window to another, in steps as a hand would.
    pub fn drag(&self, from: (i64, i64), to: (i64, i64)) -> Result<(), Trouble> {
        let go = |(x, y): (i64, i64)| json!({"type": "pointerMove", "duration": 20, "x": x, "y": y, "origin": "viewport"});
        let between = (1..=8).map(|step| {
            (
                from.0 + (to.0 - from.0) * step / 8,
                from.1 + (to.1 - from.1) * step / 8,
            )
        });
        let mut actions = vec![go(from), json!({"type": "pointerDown", "button": 0})];
        actions.extend(between.map(go));
        actions.extend([
            json!({"type": "pause", "duration": 100}),
            json!({"type": "pointerUp", "button": 0}),
        ]);
        let mouse = json!({"type": "pointer", "id": "mouse", "parameters": {"pointerType": "mouse"}, "actions": actions});
        self.post("/actions", &json!({"actions": [mouse]}))
            .map(drop)
    }

    /// What the printer would get, as a PDF; the page says how large its paper is.
    pub fn print(&self) -> Result<Vec<u8>, Trouble> {
        let printed = self.browser(
            "Page.printToPDF",
            json!({"preferCSSPageSize": true, "printBackground": false}),
        )?;
        Ok(BASE64_STANDARD.decode(printed["data"].as_str().ok_or("no PDF")?)?)
    }

    /// The addresses that were asked for over a network, and what the page complained about.
    pub fn asked_for(&self) -> Result<Vec<String>, Trouble> {
        let rows = self.post("/se/log", &json!({"type": "performance"}))?;
        let rows = rows.as_array().cloned().unwrap_or_default();
        let addresses = rows.iter().filter_map(|row| {
            let message: Value = serde_json::from_str(row["message"].as_str()?).ok()?;
            let asked = message["message"]["method"] == "Network.requestWillBeSent";
            let url = message["message"]["params"]["request"]["url"]
                .as_str()?
                .to_owned();
            (asked
                && !["file:", "data:", "blob:"]
                    .iter()
                    .any(|own| url.starts_with(own)))
            .then_some(url)
        });
        Ok(addresses.collect())
    }

    /// What the page wrote to its console.
    pub fn complaints(&self) -> Result<Vec<String>, Trouble> {
        let rows = self.post("/se/log", &json!({"type": "browser"}))?;
        let rows = rows.as_array().cloned().unwrap_or_default();
        Ok(rows
            .iter()
            .filter_map(|row| row["message"].as_str().map(str::to_owned))
            .collect())
    }
}

impl Drop for Session {
    fn drop(&mut self) {
        let _ = self.driver.send("DELETE", &self.path, &Value::Null);
    }
}
