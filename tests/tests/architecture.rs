//! Which part of the library uses which: `docs/architecture.md` lists them floor by floor.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use outside_checks::pages::root;

use crate::common::sources;

/// A part whose one file stands on another floor than the rest of its folder.
const FIGURES: &str = "plan/figure";

/// Uses that go up or across, and why each may.
const EXCUSED: [(&str, &str, &str); 0] = [];

/// The floor of each part, from the page.
fn floors() -> BTreeMap<String, usize> {
    let page = fs::read_to_string(root().join("docs/architecture.md")).expect("the page");
    let lines = page
        .lines()
        .filter_map(|line| line.strip_prefix("floor ")?.split_once(": "));
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

#[test]
fn no_part_uses_one_on_its_own_floor_or_above() {
    let floors = floors();
    let library = root().join("rules-core/src");
    let mut unlisted = BTreeSet::new();
    let mut wrong = Vec::new();
    let mut uses = 0;
    for (path, code) in sources("rules-core/src") {
        let path = path.canonicalize().expect("a file");
        let file = path
            .strip_prefix(library.canonicalize().expect("a folder"))
            .expect("below it");
        let file = file.to_str().expect("a name");
        if ["lib.rs", "program.rs"].contains(&file) {
            continue;
        }
        let part = part_of(file);
        let Some(own) = floors.get(part) else {
            unlisted.insert(part.to_owned());
            continue;
        };
        let code: Vec<&str> = code
            .lines()
            .filter(|line| !line.trim_start().starts_with("//"))
            .collect();
        for other in named(&code.join("\n")) {
            let Some(floor) = floors.get(other).filter(|_| other != part) else {
                continue;
            };
            uses += 1;
            let excused = EXCUSED
                .iter()
                .any(|(one, two, _)| (*one, *two) == (part, other));
            if floor >= own && !excused {
                wrong.push(format!(
                    "{file} uses `{other}`, which is on floor {floor}; `{part}` is on floor {own}"
                ));
            }
        }
    }
    assert!(
        unlisted.is_empty(),
        "docs/architecture.md lacks {unlisted:?}"
    );
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(uses > 300, "only {uses} uses were seen");
}

#[test]
fn uses_are_seen_in_whatever_form_they_are_written() {
    let code = "use crate::text::{self, Node};\nuse crate::{plan, check::Outcome};\nfn f(x: crate::plan::figure::Point) {}";
    let seen: Vec<&str> = named(code).into_iter().collect();
    assert_eq!(seen, ["check", "plan", FIGURES, "text"]);
}
