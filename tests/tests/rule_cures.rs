//! What is told about a slip can be typed: the words that the message gives, in the place that it names, make a rule file
//! of which nothing is told any more.

mod bylaw;
mod clerk;

use std::fs;
use std::path::{Path, PathBuf};

use rules_core::faults::Code;
use rules_core::read_rules;

/// A slip of `tests/rule-faults/slips`, what is written there, what somebody writes in its place, and the part of it that
/// the message gives.
type Cure = (&'static str, &'static str, &'static str, &'static str);

fn slips() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("rule-faults/slips")
}

fn text(name: &str, ending: &str) -> String {
    let path = slips().join(format!("{name}.{ending}"));
    fs::read_to_string(&path).unwrap_or_else(|_| panic!("{} is there", path.display()))
}

/// What is told of a rule file, but that it says nothing of its scope, or of what may be none.
fn told(text: &str) -> String {
    let mut read = match read_rules(text, &|_| None) {
        Ok(read) => read,
        Err(refusal) => return refusal.show("", "rules.yaml"),
    };
    let mut shown = String::new();
    for file in &mut read.warnings {
        let other = [Code::ScopeMissing, Code::NoneUnsaid];
        file.faults
            .list
            .retain(|fault| !other.contains(&fault.code));
        shown += &file.faults.show("rules.yaml", text);
    }
    shown
}

#[test]
fn what_is_told_can_be_typed_and_mends_the_slip() {
    let mut wrong = String::new();
    for (name, from, to, given) in bylaw::CURES.iter().chain(clerk::CURES) {
        let (slip, message) = (text(name, "yaml"), text(name, "txt"));
        if !message.contains(&format!("`{given}`")) {
            wrong += &format!("{name}: `{given}` is not in the message:\n{message}\n");
        }
        if !slip.contains(from) {
            wrong += &format!("{name}: it has no {from:?}\n");
        }
        let left = told(&slip.replacen(from, to, 1));
        if !left.is_empty() {
            wrong += &format!("{name}, with {to:?}:\n{left}\n");
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}
