//! The driver of the browser: a program of its own, spoken to over HTTP on this machine.

use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};

use serde_json::Value;
use ureq::Agent;

/// What went wrong, in words.
pub type Trouble = Box<dyn std::error::Error>;

/// A browser that the tests can drive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Browser {
    /// Most tests.
    Chromium,
    /// The whole way of a person, once more.
    Firefox,
}

impl Browser {
    /// The program that drives it, and its argument for a port that is free.
    fn program(self) -> (&'static str, &'static str) {
        match self {
            Self::Chromium => ("chromedriver", "--port=0"),
            Self::Firefox => ("geckodriver", "--port=0"),
        }
    }

    /// What the tests need.
    pub fn needs(self) -> &'static str {
        match self {
            Self::Chromium => "`chromedriver` and `chromium`",
            Self::Firefox => "`geckodriver` and `firefox-esr` (or `firefox`)",
        }
    }
}

/// A running driver, ended when it is dropped.
pub struct Driver {
    process: Child,
    address: String,
    agent: Agent,
}

impl Driver {
    /// Starts one on a port that is free.
    pub fn start(browser: Browser) -> Result<Self, Trouble> {
        let (program, port) = browser.program();
        let mut process = Command::new(program)
            .arg(port)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|_| {
                let needs = browser.needs();
                format!("These tests need {needs} on the PATH: `tests/run` installs them.")
            })?;
        let out = process.stdout.take().ok_or("the driver says nothing")?;
        let mut lines = BufReader::new(out).lines().map_while(Result::ok);
        let port = lines
            .find_map(|line| port_in(&line))
            .ok_or("the driver did not say on which port it listens")?;
        // What it says later is read and dropped, or it would wait for a reader.
        std::thread::spawn(move || lines.for_each(drop));
        let config = Agent::config_builder()
            .http_status_as_error(false)
            .proxy(None)
            .build();
        Ok(Self {
            process,
            address: format!("http://127.0.0.1:{port}"),
            agent: config.into(),
        })
    }

    /// One command; gives its `value`, or the driver's own words where it refuses.
    pub fn send(&self, method: &str, path: &str, body: &Value) -> Result<Value, Trouble> {
        let url = format!("{}{path}", self.address);
        let mut answer = match method {
            "GET" => self.agent.get(&url).call()?,
            "DELETE" => self.agent.delete(&url).call()?,
            _ => self.agent.post(&url).send_json(body)?,
        };
        let mut said: Value = answer
            .body_mut()
            .with_config()
            .limit(100_000_000)
            .read_json()?;
        let value = said["value"].take();
        match value.get("error").and_then(Value::as_str) {
            Some(error) => Err(format!("{path}: {error}: {}", value["message"]).into()),
            None => Ok(value),
        }
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // It may have ended already.
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// `ChromeDriver was started successfully on port 38211.`, or `Listening on 127.0.0.1:38211`.
fn port_in(line: &str) -> Option<u16> {
    let said = ["successfully on port ", "Listening on 127.0.0.1:"];
    let (_, port) = said.iter().find_map(|words| line.split_once(words))?;
    port.trim_end_matches('.').parse().ok()
}
