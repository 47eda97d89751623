//! The page and its calls hold no rule: no limit, no formula of the trade, and nothing that is done for one kind only.
//!
//! What is looked for is plain text, so that nobody gets past it by accident: a figure with a unit of length, voltage or
//! sound, a function of geometry, a comparison with the name of a kind, a word by which a rule states its bound.

use std::fs;
use std::path::{Path, PathBuf};

use rules_core::vocabulary::Vocabulary;

/// Units in which limits are stated. Those of screens and type (px, em, rem, ms) say nothing about a pool.
const UNITS: [&str; 10] = ["mm", "cm", "m", "km", "ft", "in", "yd", "V", "kV", "dB"];
const GEOMETRY: [&str; 7] = [
    "Math.sqrt",
    "Math.sin",
    "Math.cos",
    "Math.tan",
    "Math.atan",
    ".sqrt()",
    "libm::",
];
const BOUNDS: [&str; 4] = ["at-least", "at-most", "more-than", "less-than"];
/// What a plan is made of, and what the page lays out one by one; every other kind it takes as it comes.
const LAID_OUT: [&str; 7] = [
    "lot",
    "pool",
    "answers",
    "applicant",
    "works",
    "zone",
    "wall-opening",
];
/// Where a figure with a unit is not a limit: what is offered to be typed over, how figures may be written, how far a key
/// moves something, and the scales and sizes of paper.
const NO_LIMIT: [&str; 14] = [
    "\"8 m\"",
    "\"6 m\"",
    "\"4 m\"",
    "\"2 m\"",
    "\"500 mm\"",
    "1 in = 20 ft",
    "\"1 ft\" : \"300 mm\"",
    "\"0 m\"",
    "2.5 mm",
    "10 m",
    "3.2 m, 900 mm, 12 ft, 4 ft 6 in",
    "0.1 m",
    "0,1 m",
    "1 cm",
];

/// Where the page and its calls are.
const FOLDERS: [&str; 7] = [
    "src",
    "src/acts",
    "src/view",
    "src/view/form",
    "page",
    "page/script",
    "page/words",
];

fn files() -> Vec<(PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut files = Vec::new();
    for folder in FOLDERS {
        let entries = fs::read_dir(root.join(folder)).expect("the folder");
        let paths = entries.map(|entry| entry.expect("a file").path());
        let text = |path: PathBuf| {
            let text = fs::read_to_string(&path).expect("its text");
            (path, text)
        };
        files.extend(paths.filter(|path| path.is_file()).map(text));
    }
    assert!(files.len() > 50, "{}", files.len());
    files
}

/// The lines of code, each with where it stands, without remarks.
fn lines() -> Vec<(String, String)> {
    let of_file = |(path, text): (PathBuf, String)| {
        let code = text.lines().enumerate().map(|(n, line)| {
            let code = line.trim().split("// ").next().unwrap_or_default();
            let code = if line.trim().starts_with("//") || line.trim().starts_with("/*") {
                ""
            } else {
                code
            };
            (format!("{}:{}", path.display(), n + 1), code.to_owned())
        });
        code.collect::<Vec<_>>()
    };
    files().into_iter().flat_map(of_file).collect()
}

/// The figures with a unit in a line: `2.5 m`, `48in`.
fn figures(line: &str) -> Vec<&str> {
    let plain = NO_LIMIT
        .iter()
        .fold(line.to_owned(), |line, known| line.replace(known, ""));
    let mut found = Vec::new();
    for unit in UNITS {
        for (at, _) in plain.match_indices(unit) {
            let (before, after) = (&plain[..at], &plain[at + unit.len()..]);
            let ends = !after.starts_with(|c: char| c.is_alphanumeric() || c == '(' || c == '-');
            let figure = before.trim_end().ends_with(|c: char| c.is_ascii_digit());
            let near = before.len() - before.trim_end().len() < 2;
            if ends && figure && near {
                found.push(unit);
            }
        }
    }
    found
}

fn refuse(what: &str, is_one: impl Fn(&str) -> bool) {
    let found: Vec<String> = lines()
        .into_iter()
        .filter(|(_, line)| is_one(line))
        .map(|(place, line)| format!("{place}: {line}"))
        .collect();
    assert!(
        found.is_empty(),
        "{what} stands in the page:\n{}",
        found.join("\n")
    );
}

#[test]
fn no_figure_of_a_limit() {
    refuse("a figure with a unit", |line| !figures(line).is_empty());
}

#[test]
fn no_geometry() {
    refuse("geometry", |line| {
        GEOMETRY.iter().any(|name| line.contains(name))
    });
}

#[test]
fn no_bound_of_a_rule() {
    let quoted = |line: &str, word: &str| {
        ['"', '\'', '`']
            .iter()
            .any(|q| line.contains(&format!("{q}{word}{q}")))
    };
    refuse("a rule's bound", |line| {
        BOUNDS.iter().any(|word| quoted(line, word))
    });
}

#[test]
fn nothing_for_one_kind_only() {
    let vocabulary = Vocabulary::standard();
    let kinds: Vec<&str> = vocabulary
        .kind_names()
        .filter(|kind| !LAID_OUT.contains(kind))
        .collect();
    let compared = |line: &str, kind: &str| {
        ["=== ", "!== ", "== ", "!= ", "case "].iter().any(|sign| {
            ['"', '\'', '`']
                .iter()
                .any(|q| line.contains(&format!("{sign}{q}{kind}{q}")))
        })
    };
    refuse("a comparison with a kind", |line| {
        kinds.iter().any(|kind| compared(line, kind))
    });
}

#[test]
fn what_is_looked_for_is_found() {
    assert_eq!(figures("if (depth > 0.6 m)"), ["m"]);
    assert_eq!(figures("limit = \"48in\";"), ["in"]);
    assert!(figures("margin: 12px; wait(20 ms); 3 miles").is_empty());
}
