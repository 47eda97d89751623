//! `siting place`: where on the lot the pool could go.

use std::ffi::OsString;
use std::process::ExitCode;

use lexopt::prelude::*;
use rules_core::RulesText;
use rules_core::placement::{
    NotPlaced, Placement, Wishes, place_texts, place_to_geojson, place_to_json, place_to_svg,
};

use crate::arguments::plan_by;
use crate::files::{self, RuleSets, Source};
use crate::print;
use crate::usage::{self, REFUSED, Trouble, misread, refuse};

pub const HELP: &str = "\
Where on the lot the pool of a plan could go: places where the rules hold.

Usage: siting place PLAN --rules RULESET [OPTIONS]

  PLAN       The plan's file (YAML or JSON), the pool drawn somewhere in the
             size it is to have; `-` reads it from standard input
  RULESET    A rule file, or the name of a rule set that comes with the program

Options:
  -r, --rules RULESET    The rules to look by
      --pool ID          Which pool, where the plan has several
      --with IDS         What moves with it beside its own parts: ids with
                         commas between them, such as fence-south,gate
      --turns N          Try it in N turns, spread over the circle, at most 64
                         (1 if not said: as it is turned now)
      --finest LENGTH    No cell of the map is smaller, in millimetres
                         (100 if not said; 20 to 2000)
  -f, --format FORMAT    text: for reading (if not said); json: for a program;
                         svg: the map over the drawing; geojson: the map for a
                         geographic information system, in the plan's own metres
  -h, --help             Show this help

Every place was judged as `siting check` would judge it. What moves is the pool,
all its outlines and what is part of it; all else stays.

Exit status:
  0  there is a place where every rule that depends on it surely holds
  1  none was found
  2  not decided yet: such places hold as drawn only, or an answer is missing
  3  a file has faults; all of them are shown
  4  anything else: no such file, a slip on the command line
";

/// How the answer is given.
enum Format {
    Text,
    Json,
    Svg,
    GeoJson,
}

/// Reads the rest of the command line and answers.
pub fn run(mut arguments: lexopt::Parser) -> Result<ExitCode, Trouble> {
    let (mut plan, mut rules) = (None, Vec::new());
    let mut wanted = Format::Text;
    let mut wishes = Wishes::default();
    while let Some(argument) = arguments.next().map_err(misread)? {
        match argument {
            Short('h') | Long("help") => return print::out(HELP),
            Short('r') | Long("rules") => rules.push(arguments.value().map_err(misread)?),
            Short('f') | Long("format") => {
                wanted = format(arguments.value().map_err(misread)?)?;
            }
            Long("pool") => wishes.pool = Some(word(arguments.value().map_err(misread)?)),
            Long("with") => wishes.with = ids(arguments.value().map_err(misread)?),
            Long("turns") => {
                wishes.turns = number("--turns", arguments.value().map_err(misread)?, 1, 64)?;
            }
            Long("finest") => {
                wishes.finest = number("--finest", arguments.value().map_err(misread)?, 20, 2000)?;
            }
            Value(path) if plan.is_none() => plan = Some(path),
            other => {
                let known = ["rules", "pool", "with", "turns", "finest", "format", "help"];
                return Err(usage::unexpected(other, &known));
            }
        }
    }
    let plan = plan_by(&rules, "place", plan)?;
    if rules.len() > 1 {
        return Err(Trouble::new(
            "A place is looked for by one rule set at a time.",
            "Name one with `--rules`, and check the place by the others with `siting check`.",
        ));
    }
    answer(&plan, &rules, &wishes, &wanted)
}

fn word(written: OsString) -> String {
    written.to_string_lossy().into_owned()
}

fn ids(written: OsString) -> Vec<String> {
    let written = word(written);
    let ids = written
        .split(',')
        .map(str::trim)
        .filter(|id| !id.is_empty());
    ids.map(str::to_owned).collect()
}

fn number(option: &str, written: OsString, least: u32, most: u32) -> Result<u32, Trouble> {
    let written = word(written);
    let number = written.parse().ok();
    let number = number.filter(|number| (least..=most).contains(number));
    number.ok_or_else(|| {
        Trouble::new(
            format!("`{option}` takes a whole number from {least} to {most}."),
            format!("Write, for example: {option} {most}"),
        )
    })
}

fn format(written: OsString) -> Result<Format, Trouble> {
    match written.to_string_lossy().as_ref() {
        "text" => Ok(Format::Text),
        "json" => Ok(Format::Json),
        "svg" => Ok(Format::Svg),
        "geojson" => Ok(Format::GeoJson),
        other => Err(usage::unknown(
            "format",
            other,
            &["text", "json", "svg", "geojson"],
        )),
    }
}

const USAGE: &str = "`siting help place` shows how it is used.";

fn answer(
    plan: &OsString,
    rules: &[OsString],
    wishes: &Wishes,
    wanted: &Format,
) -> Result<ExitCode, Trouble> {
    let rules = RuleSets::of(rules)?;
    let plan = files::read(plan)?;
    let one = |set: &RulesText<'_>| place_texts(&plan.text, set.text, set.bases, wishes);
    let answer = rules.ask(&plan, |sets| Ok(sets.first().map(one)));
    let unclear = || Err(NotPlaced::Unclear("By which rules?".to_owned()));
    let answer = match answer {
        Ok(answer) => answer.unwrap_or_else(unclear),
        Err(refusal) => Err(NotPlaced::Refused(refusal)),
    };
    match (wanted, &answer) {
        (Format::Json, _) => print::json(place_to_json(&answer))?,
        (Format::Text, Ok(found)) => print::out(found.to_text())?,
        (Format::GeoJson, Ok(found)) => print::json(place_to_geojson(found))?,
        (Format::Svg, Ok(found)) => match map(&plan, &rules, (wishes, found)) {
            Ok(svg) => print::out(svg.as_str())?,
            Err(wrong) => return told(&wrong, &plan, &rules),
        },
        (_, Err(wrong)) => return told(wrong, &plan, &rules),
    };
    Ok(status(&answer))
}

/// The map over the drawing, as SVG.
fn map(plan: &Source, rules: &RuleSets, found: (&Wishes, &Placement)) -> Result<String, NotPlaced> {
    let one = |set: &RulesText<'_>| place_to_svg(&plan.text, set.text, set.bases, found);
    let drawn = rules.ask(plan, |sets| Ok(sets.first().map(one)));
    drawn
        .map_err(NotPlaced::Refused)?
        .unwrap_or_else(|| Ok(String::new()))
}

/// Says why there is no answer.
fn told(wrong: &NotPlaced, plan: &Source, rules: &RuleSets) -> Result<ExitCode, Trouble> {
    match wrong {
        NotPlaced::Refused(refusal) => refuse(refusal, &plan.name, rules.name()),
        NotPlaced::Unclear(why) => Err(Trouble::new(why, USAGE)),
    }
}

fn status(answer: &Result<Placement, NotPlaced>) -> ExitCode {
    use rules_core::placement::Class;
    let best = answer.as_ref().map(Placement::best);
    ExitCode::from(match best {
        Ok(Some(Class::Sure)) => 0,
        Ok(None | Some(Class::Never)) => 1,
        Ok(Some(Class::AsDrawn | Class::Open)) => 2,
        Err(NotPlaced::Refused(_)) => REFUSED,
        Err(NotPlaced::Unclear(_)) => usage::TROUBLE,
    })
}
