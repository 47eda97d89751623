//! `siting rules read`: what a rule file says, in plain sentences.

use std::ffi::OsString;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::ruleset::say::{ReadBack, read_back};
use rules_core::text::Visible;

use crate::print;
use crate::usage::{self, Trouble, misread, refuse};

pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let mut rules = None;
    let mut laid_out: fn(&ReadBack) -> Visible = ReadBack::to_text;
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(super::HELP),
            Short('f') | Long("format") => laid_out = format(arguments.value().map_err(misread)?)?,
            Value(path) if rules.is_none() => rules = Some(path),
            other => return Err(usage::unexpected(other, &["format", "help"])),
        }
    }
    let loaded = super::load(&rules.ok_or_else(|| super::which_rules("read"))?)?;
    match &loaded.read {
        Ok(read) => print::out(laid_out(&read_back(&read.rule_set))),
        Err(refusal) => refuse(refusal, &loaded.source.name, &loaded.source.name),
    }
}

fn format(written: OsString) -> Result<fn(&ReadBack) -> Visible, Trouble> {
    match written.to_string_lossy().as_ref() {
        "text" => Ok(ReadBack::to_text),
        "markdown" => Ok(ReadBack::to_markdown),
        "page" => Ok(ReadBack::to_page),
        other => Err(usage::unknown(
            "format",
            other,
            &["text", "markdown", "page"],
        )),
    }
}
