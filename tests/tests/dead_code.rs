//! What nothing uses, where the compiler cannot see it: methods of types that are shown, names in the list of what the
//! programs take, and changes of a plan that only JSON could ask for.

use std::collections::BTreeMap;
use std::fs;

use outside_checks::pages::root;

use crate::common::sources;

/// Names that stand in one place of the programs, and why they stay.
const EXCUSED: [(&str, &str); 1] = [(
    "set_role",
    "the tests put a vocabulary of their own together",
)];

fn words(text: &str) -> impl Iterator<Item = &str> {
    let parts = text.split(|c: char| !c.is_alphanumeric() && c != '_');
    parts.filter(|word| !word.is_empty())
}

/// A source without its comments and without what stands there for tests only.
fn code(text: &str) -> String {
    let lines = text
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    lines.collect::<Vec<_>>().join("\n")
}

/// The names that a source declares for others: `pub fn name`, `pub(crate) struct Name`.
fn declared(code: &str) -> Vec<String> {
    const SORTS: [&str; 6] = ["fn", "struct", "enum", "const", "type", "trait"];
    let mut names = Vec::new();
    for (line, before) in code.lines().zip(std::iter::once("").chain(code.lines())) {
        let mut parts = words(line).skip_while(|word| ["crate", "super", "const"].contains(word));
        let is_public = parts.next() == Some("pub");
        let mut parts = parts
            .skip_while(|word| ["crate", "super", "in"].contains(word))
            .peekable();
        if parts.peek() == Some(&"const") && line.contains("const fn") {
            parts.next();
        }
        let sort = parts.next().unwrap_or_default();
        let for_tests = before.trim() == "#[cfg(test)]";
        if is_public && SORTS.contains(&sort) && !for_tests {
            names.extend(parts.next().map(str::to_owned));
        }
    }
    names
}

/// What is declared and named nowhere else.
fn dead(library: &[(String, String)], programs: &[String]) -> Vec<String> {
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    let all = library.iter().map(|(_, code)| code).chain(programs);
    for word in all.flat_map(|code| words(code)) {
        *count.entry(word).or_default() += 1;
    }
    let mut dead = Vec::new();
    for (path, code) in library {
        let once = |name: &String| count.get(name.as_str()).is_none_or(|count| *count < 2);
        let names = declared(code).into_iter().filter(once);
        dead.extend(names.map(|name| format!("{path}: {name}")));
    }
    dead
}

fn texts(folder: &str) -> Vec<(String, String)> {
    let named = sources(folder).into_iter();
    named
        .map(|(path, text)| (path.to_string_lossy().into_owned(), code(&text)))
        .collect()
}

#[test]
fn every_public_name_is_used_somewhere() {
    let library: Vec<_> = texts("rules-core/src")
        .into_iter()
        .filter(|(path, _)| !path.ends_with("src/program.rs"))
        .collect();
    let folders = ["cli/src", "web/src", "tests/src/bin"];
    let programs = folders.into_iter().flat_map(texts).map(|(_, code)| code);
    let dead = dead(&library, &programs.collect::<Vec<_>>());
    let excused = |name: &&String| {
        EXCUSED
            .iter()
            .any(|(one, _)| name.ends_with(&format!(": {one}")))
    };
    let left: Vec<_> = dead.iter().filter(|name| !excused(name)).collect();
    assert!(left.is_empty(), "{left:#?}");
    assert_eq!(dead.len(), EXCUSED.len(), "an excuse is no longer needed");
}

#[test]
fn a_name_that_stands_once_is_found() {
    let library = [(
        "a.rs".to_owned(),
        "pub fn used() {}\npub const fn idle() {}\n#[cfg(test)]\npub(crate) fn tried() {}\npub(super) struct Lone;".to_owned(),
    )];
    let programs = ["used();".to_owned()];
    assert_eq!(dead(&library, &programs), ["a.rs: idle", "a.rs: Lone"]);
}

/// The list of what the programs take is no longer than what they name.
#[test]
fn the_programs_name_all_that_is_kept_for_them() {
    let list = fs::read_to_string(root().join("rules-core/src/program.rs")).expect("the list");
    let folders = ["cli/src", "web/src", "tests/src/bin", "tests/src"];
    let programs: Vec<String> = folders
        .into_iter()
        .flat_map(texts)
        .map(|(_, code)| code)
        .collect();
    let taken = |name: &str| {
        programs
            .iter()
            .any(|code| words(code).any(|word| word == name))
    };
    let code = code(&list);
    let statements = code
        .split(';')
        .filter_map(|line| line.split_once("crate::"));
    let names: Vec<&str> = statements
        .flat_map(|(_, path)| match path.rsplit_once('{') {
            Some((_, list)) => list.trim_end_matches('}').split(','),
            None => path.split(','),
        })
        .filter_map(|path| words(path).last())
        .collect();
    assert!(names.len() > 50, "only {} names", names.len());
    let idle: Vec<_> = names.into_iter().filter(|name| !taken(name)).collect();
    assert!(idle.is_empty(), "{idle:?}");
}

/// The names of an enum's variants, as its source spells them.
fn variants(text: &str, name: &str) -> Vec<String> {
    let (_, body) = text
        .split_once(&format!("pub enum {name} {{\n"))
        .expect("the enum");
    let (body, _) = body.split_once("\n}").expect("its end");
    let is_variant =
        |line: &&str| line.starts_with("    ") && line[4..].starts_with(char::is_uppercase);
    let names = body
        .lines()
        .filter(is_variant)
        .filter_map(|line| words(line).next());
    names.map(str::to_owned).collect()
}

/// A change that only tests make is a second way to do what another one does.
#[test]
fn every_change_of_a_plan_is_made_by_the_program() {
    let edit = root().join("rules-core/src/edit/changes.rs");
    let changes = variants(&fs::read_to_string(edit).expect("the changes"), "Change");
    assert!(changes.len() > 3, "{changes:?}");
    let is_tests = |path: &str| path.ends_with("_tests.rs") || path.contains("src/edit/");
    let code: Vec<String> = ["rules-core/src", "web/src"]
        .into_iter()
        .flat_map(texts)
        .filter(|(path, _)| !is_tests(path))
        .map(|(_, code)| code)
        .collect();
    let made = |change: &String| {
        let made = format!("Change::{change}");
        code.iter().any(|code| code.contains(&made))
    };
    let idle: Vec<_> = changes.iter().filter(|change| !made(change)).collect();
    assert!(idle.is_empty(), "{idle:?}");
}
