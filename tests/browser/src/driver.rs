//! The driver of the browser: a program of its own, spoken to over HTTP on this machine.

use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};

use serde_json::Value;
use ureq::Agent;

/// What went wrong, in words.
pub type Trouble = Box<dyn std::error::Error>;

/// A running chromedriver, ended when it is dropped.
pub struct Driver {
    process: Child,
    address: String,
    agent: Agent,
}

impl Driver {
    /// Starts one on a port that is free.
    pub fn start() -> Result<Self, Trouble> {
        let mut process = Command::new("chromedriver")
            .arg("--port=0")
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|_| "The browser tests need `chromedriver` and `chromium` on the PATH: install them, then run the tests again.")?;
        let out = process.stdout.take().ok_or("chromedriver says nothing")?;
        let port = port_of(BufReader::new(out))
            .ok_or("chromedriver did not say on which port it listens")?;
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

/// `ChromeDriver was started successfully on port 38211.`
fn port_of(lines: impl BufRead) -> Option<u16> {
    lines.lines().map_while(Result::ok).find_map(|line| {
        let (_, rest) = line.split_once("successfully on port ")?;
        rest.trim_end_matches('.').parse().ok()
    })
}
