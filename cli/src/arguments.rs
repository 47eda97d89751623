//! What several commands take from the command line.

use std::ffi::OsString;

use rules_core::ruleset::is_language;
use rules_core::text::exact_name;

use crate::bundled;
use crate::print::Colour;
use crate::usage::{self, Trouble};

/// How an answer is printed.
pub enum Format {
    /// For reading.
    Text,
    /// For a program.
    Json,
}

/// The plan, if the command line also names rules for it.
pub fn plan_by(
    rules: &[OsString],
    command: &str,
    plan: Option<OsString>,
) -> Result<OsString, Trouble> {
    let from_input = rules.iter().filter(|path| *path == "-").count();
    match plan {
        Some(plan) if plan == "-" && from_input > 0 => Err(Trouble::new(
            "The plan and the rules cannot both come from standard input.",
            "Give the path of one of them.",
        )),
        Some(_) if from_input > 1 => Err(Trouble::new(
            "Only one rule set can come from standard input.",
            "Give the paths of the others.",
        )),
        Some(_) if rules.is_empty() => Err(Trouble::new(
            "By which rules?",
            format!(
                "Add `--rules` and a rule file, or the name of a bundled rule set: {}.",
                bundled::names()
            ),
        )),
        Some(plan) => Ok(plan),
        None => Err(Trouble::new(
            "Which plan?",
            format!("Write its file: siting {command} my-plan.yaml --rules eldermere"),
        )),
    }
}

/// The format that is asked for.
pub fn format(written: OsString) -> Result<Format, Trouble> {
    match written.to_string_lossy().as_ref() {
        "text" => Ok(Format::Text),
        "json" => Ok(Format::Json),
        other => Err(usage::unknown("format", other, &["text", "json"])),
    }
}

/// The short name of a language. A rule file may have texts in it even if the program does not.
pub fn language(written: OsString) -> Result<String, Trouble> {
    const HELP: &str =
        "Write the short name of the language: en, nb, fr, or another that the rule file has.";
    let written = written.to_string_lossy().into_owned();
    match is_language(&written) {
        true => Ok(written),
        false => Err(Trouble::new(
            format!(
                "`{}` is not the short name of a language.",
                exact_name(&written)
            ),
            HELP,
        )),
    }
}

/// When to colour.
pub fn colour(written: OsString) -> Result<Colour, Trouble> {
    match written.to_string_lossy().as_ref() {
        "auto" => Ok(Colour::Auto),
        "always" => Ok(Colour::Always),
        "never" => Ok(Colour::Never),
        other => Err(usage::unknown(
            "way to colour",
            other,
            &["auto", "always", "never"],
        )),
    }
}
