//! What the tests of the command share.
//!
//! `BLESS=1 cargo test -p siting-cli` writes the expected texts anew; read the difference before it is committed.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

pub const PLAN: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../rulesets/eldermere/home.yaml"
);
pub const RULES: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../rulesets/eldermere/rules.yaml"
);

pub fn siting(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_siting"));
    command
        .args(arguments)
        .env_remove("NO_COLOR")
        .stdin(Stdio::null());
    command
}

pub fn run(arguments: &[&str]) -> Output {
    siting(arguments).output().unwrap()
}

pub fn with_input(arguments: &[&str], input: &[u8]) -> Output {
    let mut command = siting(arguments);
    command
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    child.stdin.take().unwrap().write_all(input).unwrap();
    child.wait_with_output().unwrap()
}

pub fn stdout(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

pub fn stderr(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

pub fn status(output: &Output) -> i32 {
    output.status.code().unwrap()
}

/// A place for the files of one test.
pub fn scratch(test: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(test);
    fs::create_dir_all(&folder).unwrap();
    folder
}

pub fn write(folder: &Path, name: &str, text: &str) -> String {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(&path, text).unwrap();
    path.to_str().unwrap().to_owned()
}

pub fn golden(name: &str, actual: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/golden")
        .join(name);
    if std::env::var_os("BLESS").is_some() {
        fs::write(&path, actual).unwrap();
    }
    let expected = fs::read_to_string(&path).unwrap_or_default();
    let line = (1..)
        .zip(expected.lines().zip(actual.lines()))
        .find(|(_, (one, two))| one != two);
    assert!(
        expected == actual,
        "{name} differs, first in line {line:?}; BLESS=1 writes it anew"
    );
}

/// A small rule set with one rule about the depth of the pool.
pub fn depth_rules(name: &str, more: &str) -> String {
    format!(
        "ruleset: {name}\ntitle: Small\nedition: '1'\nauthority: Small office\n{more}\
         rules:\n  - id: depth\n    title: Depth\n    clause: s. 1\n    each: {{kind: pool}}\n    require: {{fact: \
         pool.depth, at-most: 2 m}}\n"
    )
}

/// Each of these command lines ends with status 4, says so in these words, and prints nothing else.
pub fn trouble_is_told(cases: &[(&[&str], &str)]) {
    for (arguments, expected) in cases {
        let output = run(arguments);
        assert_eq!(status(&output), 4, "{arguments:?}");
        assert!(
            stderr(&output).contains(expected),
            "{arguments:?}: {}",
            stderr(&output)
        );
        assert_eq!(stdout(&output), "", "{arguments:?}");
    }
}
