//! The readers take the keys of the tables and no others, each under its own name.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// The readers of the files that people write.
const READERS: [&str; 3] = ["ruleset/read", "plan/read", "cases"];

/// Names in the readers that say more than the key, or avoid a keyword of Rust.
const ALSO: [(&str, &str); 7] = [
    ("in", "within"),
    ("in", "zone"),
    ("in", "inward"),
    ("where", "filter"),
    ("ruleset", "id"),
    ("plan", "id"),
    ("case", "id"),
];

fn source() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// The sources of a folder and its subfolders, without tests and comments.
fn texts(folder: &Path) -> Vec<String> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.to_string_lossy().into_owned();
        if path.is_dir() {
            all.extend(texts(&path));
        } else if name.ends_with(".rs") && !name.contains("tests") {
            let text = fs::read_to_string(&path).unwrap();
            let lines = text
                .lines()
                .filter(|line| !line.trim_start().starts_with("//"));
            all.push(lines.collect::<Vec<_>>().join("\n"));
        }
    }
    all
}

fn readers() -> String {
    let folders = READERS.map(|folder| texts(&source().join(folder)).join("\n"));
    folders.join("\n")
}

/// The text from an opening bracket to the one that closes it, split at its own commas.
fn items(text: &str) -> Vec<String> {
    let (mut deep, mut quoted, mut all) = (0, false, vec![String::new()]);
    for c in text.chars() {
        quoted ^= c == '"';
        deep += i32::from(!quoted && "[({".contains(c)) - i32::from(!quoted && "])}".contains(c));
        match (deep, quoted, c) {
            (0, ..) => break,
            (1, false, ',') => all.push(String::new()),
            (1, false, '[') => {}
            _ => all.last_mut().unwrap().push(c),
        }
    }
    let trimmed = all.into_iter().map(|item| item.trim().to_owned());
    trimmed.filter(|item| !item.is_empty()).collect()
}

/// The name of the key that a row of a table declares.
fn key_of(row: &str, shared: &BTreeMap<String, String>) -> Option<String> {
    let quoted = |row: &str| Some(row.split('"').nth(1)?.to_owned());
    match row.starts_with("need(\"") || row.starts_with("may(\"") {
        true => quoted(row),
        false => shared.get(row).cloned(),
    }
}

/// The keys of each declared map, by the name of its table.
fn declared() -> BTreeMap<String, Vec<String>> {
    let text = texts(&source().join("grammar")).join("\n");
    let consts: Vec<_> = text.split("const ").skip(1).collect();
    let named = |sort: &'static str| {
        consts.iter().filter_map(move |it| {
            let (name, rest) = it.split_once(": ")?;
            Some((
                name.to_owned(),
                rest.strip_prefix(sort)?.split_once('=')?.1.trim(),
            ))
        })
    };
    let shared: BTreeMap<_, _> = named("Key ")
        .filter_map(|(name, row)| Some((name, key_of(row, &BTreeMap::new())?)))
        .collect();
    let maps = named("Keys<").chain(named("[Key;"));
    let maps = maps.filter_map(|(name, text)| {
        let rows = items(&text[text.find('[')?..]);
        let keys: Option<Vec<_>> = rows.iter().map(|row| key_of(row, &shared)).collect();
        Some((name, keys?))
    });
    maps.collect()
}

/// Whether a reader may use this name for the entry of a key.
fn fits(name: &str, key: &str) -> bool {
    let plain = key.replace('-', "_");
    let of_each_other = name.ends_with(&plain) || plain.starts_with(name) || plain.ends_with(name);
    name == "_" || of_each_other || ALSO.contains(&(key, name))
}

/// The patterns in which readers take entries, each with the name of the table after it.
fn patterns(text: &str) -> Vec<(Vec<String>, String)> {
    let each = text.match_indices("let ").filter_map(|(at, _)| {
        let rest = text[at + 4..].trim_start_matches('(');
        let (pattern, after) = rest.split_once('=')?;
        let table = after.split(';').next()?.split('&').find_map(|it| {
            let path = it
                .split(|c: char| !c.is_alphanumeric() && !"_:".contains(c))
                .next()?;
            let name = path.rsplit("::").next()?;
            let is_table =
                name.len() > 1 && name.chars().all(|c| c.is_ascii_uppercase() || c == '_');
            is_table.then(|| name.to_owned())
        })?;
        let taken = after.trim_start().starts_with("self.keys") || after.contains(".keys(&");
        (pattern.starts_with('[') && taken).then(|| (items(pattern), table))
    });
    each.collect()
}

#[test]
fn each_entry_is_taken_under_the_name_of_its_key() {
    let (tables, mut seen, mut wrong) = (declared(), BTreeSet::new(), Vec::new());
    for (names, table) in patterns(&readers()) {
        let Some(keys) = tables.get(&table) else {
            continue;
        };
        seen.insert(table.clone());
        let gap = names.iter().position(|name| name.contains(".."));
        let (head, tail) = names.split_at(gap.unwrap_or(names.len()));
        let heads = head.iter().zip(keys);
        let tails = tail.iter().skip(1).rev().zip(keys.iter().rev());
        let other = heads.chain(tails).filter(|(name, key)| !fits(name, key));
        wrong.extend(other.map(|(name, key)| format!("{table}: `{name}` for `{key}`")));
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(seen.len() > 35, "too few were found: {seen:?}");
}

#[test]
fn no_reader_names_a_key_that_no_table_has() {
    let tables = texts(&source().join("grammar")).join("\n");
    let text = readers();
    for call in [".take(\"", ".need(\""] {
        assert!(
            !text.contains(call),
            "a key is taken past the tables: {call}"
        );
    }
    for call in [".get(\"", "must_have(node, \""] {
        let named = text
            .split(call)
            .skip(1)
            .filter_map(|rest| rest.split('"').next());
        for key in named {
            let declared = ["need(", "may(", ", "].map(|it| format!("{it}\"{key}\""));
            let known = declared.iter().any(|it| tables.contains(it.as_str()));
            assert!(known, "`{key}` is looked for, and no table has it");
        }
    }
}
