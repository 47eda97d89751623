//! Which part of the library uses which: `docs/architecture.md` lists them floor by floor.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use outside_checks::pages::root;

use crate::common::sources;

/// A part whose one file stands on another floor than the rest of its folder.
const FIGURES: &str = "plan/figure";

/// Uses that go up or across, and why each may.
const EXCUSED: [(&str, &str, &str); 0] = [];

/// The floor of each part, or of each folder inside one, from the lines of the page that begin so.
fn floors(begin: &str) -> BTreeMap<String, usize> {
    let page = fs::read_to_string(root().join("docs/architecture.md")).expect("the page");
    let lines = page
        .lines()
        .filter_map(|line| line.strip_prefix(begin)?.split_once(": "));
    let mut floors = BTreeMap::new();
    for (number, parts) in lines {
        let number = number.parse().expect("a number");
        for part in parts.split_whitespace() {
            let known = floors.insert(part.to_owned(), number);
            assert_eq!(known, None, "`{part}` stands on two floors");
        }
    }
    floors
}

/// The part that a file belongs to: `check/zone.rs` to `check`.
fn part_of(file: &str) -> &str {
    match file.strip_suffix(".rs").unwrap_or(file) {
        FIGURES => FIGURES,
        other => other.split('/').next().unwrap_or_default(),
    }
}

/// The parts that a source names: `crate::check::…`, and each of `crate::{check, plan::Plan}`.
fn named(code: &str) -> BTreeSet<&str> {
    let code = code.split("crate::").skip(1);
    code.flat_map(|rest| match rest.strip_prefix('{') {
        Some(list) => list
            .split('}')
            .next()
            .unwrap_or_default()
            .split(',')
            .map(str::trim)
            .collect(),
        None => vec![rest],
    })
    .map(|path| match path.strip_prefix("plan::figure") {
        Some(_) => FIGURES,
        None => path
            .split(|c: char| !c.is_alphanumeric() && c != '_')
            .next()
            .unwrap_or_default(),
    })
    .collect()
}

/// All sources below a folder of the library: their paths from there, and their code without comments.
fn code_below(folder: &str) -> Vec<(String, String)> {
    let below = root().join("rules-core/src").join(folder);
    let below = below.canonicalize().expect("a folder");
    let one = |(path, code): (std::path::PathBuf, String)| {
        let path = path.canonicalize().expect("a file");
        let file = path.strip_prefix(&below).expect("below it").to_str();
        let code: Vec<&str> = code
            .lines()
            .filter(|line| !line.trim_start().starts_with("//"))
            .collect();
        (file.expect("a name").to_owned(), code.join("\n"))
    };
    let all = sources(&format!("rules-core/src/{folder}"));
    all.into_iter().map(one).collect()
}

/// What goes up or across: each use of a part by another that is not on a floor below it. Says how many uses it saw.
fn uses_upward(
    floors: &BTreeMap<String, usize>,
    uses: impl Iterator<Item = (String, String, String)>,
) -> (Vec<String>, usize) {
    let (mut wrong, mut seen) = (Vec::new(), 0);
    for (file, own, other) in uses {
        let Some(above) = floors.get(&other).filter(|_| own != other) else {
            continue;
        };
        let floor = floors
            .get(&own)
            .unwrap_or_else(|| panic!("docs/architecture.md lacks `{own}`"));
        seen += 1;
        let excused = EXCUSED
            .iter()
            .any(|(one, two, _)| (*one, *two) == (own.as_str(), other.as_str()));
        if above >= floor && !excused {
            wrong.push(format!(
                "{file} uses `{other}`, which is on floor {above}; `{own}` is on floor {floor}"
            ));
        }
    }
    (wrong, seen)
}

#[test]
fn no_part_uses_one_on_its_own_floor_or_above() {
    let all = code_below("").into_iter();
    let files = all.filter(|(file, _)| !["lib.rs", "program.rs"].contains(&file.as_str()));
    let uses = files.flat_map(|(file, code)| {
        let own = part_of(&file).to_owned();
        let named: Vec<String> = named(&code).into_iter().map(str::to_owned).collect();
        let one = move |other| (file.clone(), own.clone(), other);
        named.into_iter().map(one)
    });
    let (wrong, seen) = uses_upward(&floors("floor "), uses);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(seen > 300, "only {seen} uses were seen");
}

/// The folders inside a part that a source there names: by their own names, or by a name that the part's `mod.rs` takes
/// from one of them.
fn folders_named(code: &str, part: &str, shown: &BTreeMap<String, String>) -> BTreeSet<String> {
    let begin = format!("crate::{part}::");
    let list = |rest: &str| match rest.strip_prefix('{') {
        Some(list) => {
            let end = list.find("};").unwrap_or(list.len());
            let list = &list[..end];
            // Lists within the list belong to the name before them.
            let mut depth = 0;
            let outer: String = list
                .chars()
                .filter(|c| {
                    depth += i32::from(*c == '{') - i32::from(*c == '}');
                    depth == 0
                })
                .collect();
            outer.split(',').map(|one| one.trim().to_owned()).collect()
        }
        None => vec![rest.to_owned()],
    };
    let paths = code.split(&begin).skip(1).flat_map(list);
    let first = paths.map(|path| {
        let name = path
            .split(|c: char| !c.is_alphanumeric() && c != '_')
            .next();
        name.unwrap_or_default().to_owned()
    });
    first
        .map(|name| shown.get(&name).cloned().unwrap_or(name))
        .collect()
}

/// The names that the `mod.rs` of a part shows, and the folder that each is from.
fn shown(code: &str) -> BTreeMap<String, String> {
    let uses = code
        .split("use ")
        .skip(1)
        .filter_map(|rest| rest.split_once(';'));
    let names = uses.flat_map(|(path, _)| {
        let folder = path.split("::").next().unwrap_or_default().to_owned();
        let last = path.rsplit("::").next().unwrap_or_default();
        let names = last.trim_matches(['{', '}']).split(',');
        let names = names.map(|name| name.split(" as ").last().unwrap_or_default().trim());
        let names: Vec<_> = names
            .map(|name| (name.to_owned(), folder.clone()))
            .collect();
        names
    });
    names.collect()
}

#[test]
fn no_folder_of_a_large_part_uses_one_on_its_own_floor_or_above() {
    for (part, least) in [("check", 90), ("measure", 40)] {
        let floors = floors(&format!("in {part}, floor "));
        let files = code_below(part);
        let code = &files
            .iter()
            .find(|(file, _)| file == "mod.rs")
            .expect("it")
            .1;
        let mut shown = shown(code);
        // `pub use finding::*`: whatever is public there.
        if let Some(folder) = shown.remove("*") {
            let all = files
                .iter()
                .find(|(file, _)| *file == format!("{folder}/mod.rs"));
            let public = all.expect("its file").1.lines().filter_map(|line| {
                let item = line.strip_prefix("pub ")?;
                let name = item.split_whitespace().nth(1)?;
                Some(name.split(['<', '(', ';', ':', '{']).next()?.to_owned())
            });
            shown.extend(public.map(|name| (name, folder.clone())));
        }
        let inner = files
            .iter()
            .filter(|(file, _)| file.contains('/') && !file.ends_with("tests.rs"));
        let uses = inner.flat_map(|(file, code)| {
            let code = code
                .split("#[cfg(test)]\nmod tests")
                .next()
                .unwrap_or_default();
            let code = match file.ends_with("/mod.rs") {
                true => code.replace("super::", &format!("crate::{part}::")),
                false => code.to_owned(),
            };
            let own = file.split('/').next().unwrap_or_default().to_owned();
            let named = folders_named(&code, part, &shown);
            let one = move |other| (format!("{part}/{file}"), own.clone(), other);
            named.into_iter().map(one)
        });
        let (wrong, seen) = uses_upward(&floors, uses);
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
        assert!(seen > least, "only {seen} uses were seen in {part}");
    }
}

#[test]
fn a_name_that_a_part_shows_leads_to_its_folder() {
    let shown = shown("pub use finding::truth::{Level, Truth};\npub use whole::check;");
    let code = "use crate::check::{Truth, judge::{Judge, Role}};\ncrate::check::check(1)";
    let seen: Vec<String> = folders_named(code, "check", &shown).into_iter().collect();
    assert_eq!(seen, ["finding", "judge", "whole"]);
}

#[test]
fn uses_are_seen_in_whatever_form_they_are_written() {
    let code = "use crate::text::{self, Node};\nuse crate::{plan, check::Outcome};\nfn f(x: crate::plan::figure::Point) {}";
    let seen: Vec<&str> = named(code).into_iter().collect();
    assert_eq!(seen, ["check", "plan", FIGURES, "text"]);
}

/// What a cell names in backticks, each with how deep in parentheses it stands.
fn named_in(cell: &str) -> Vec<(&str, usize)> {
    let (mut depth, mut names) = (0, Vec::new());
    for (index, piece) in cell.split('`').enumerate() {
        match index % 2 {
            0 => {
                depth =
                    (depth + piece.matches('(').count()).saturating_sub(piece.matches(')').count())
            }
            _ => names.push((piece, depth)),
        }
    }
    names
}

/// The table that says where things are names only what there is: files, folders and parts, and in parentheses what stands
/// in the file before them.
#[test]
fn what_the_page_says_is_somewhere_is_there() {
    let page = fs::read_to_string(root().join("docs/architecture.md")).expect("the page");
    let (_, after) = page.split_once("## Where is …?").expect("its heading");
    let (table, _) = after.split_once("\n## ").expect("the next heading");
    let rows = table.lines().filter_map(|line| line.strip_prefix("| "));
    let cells = rows.filter_map(|row| row.split_once(" | ")?.1.strip_suffix(" |"));
    let library = root().join("rules-core/src");
    let mut wrong = Vec::new();
    let mut seen = 0;
    for cell in cells {
        let mut text = None;
        for (name, depth) in named_in(cell) {
            seen += 1;
            if depth > 0 {
                let is_word = |text: &String| {
                    text.split(|c: char| !c.is_alphanumeric() && c != '_')
                        .any(|word| word == name)
                };
                if !text.as_ref().is_some_and(is_word) {
                    wrong.push(format!(
                        "`{name}` does not stand in the file before it: {cell}"
                    ));
                }
                continue;
            }
            let path = [root().join(name), library.join(name)]
                .into_iter()
                .find(|path| path.exists());
            match path {
                Some(path) => text = fs::read_to_string(path).ok(),
                None => wrong.push(format!("there is no `{name}`: {cell}")),
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(seen > 80, "only {seen} names were seen");
}
