//! The program's own sources, for tests that read them.

use std::fs;
use std::path::{Path, PathBuf};

/// What comes after this in a source is its tests.
const TESTS: &str = "#[cfg(test)]\nmod tests {";

/// The sources in a folder of this project and in those below it, without tests, each with its path.
pub fn sources(folder: &str) -> Vec<(PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut all = below(&root.join(folder));
    let declared = |text: &str| -> Vec<String> {
        let lists = text.split("#[cfg(test)]\nmod ").skip(1);
        let names = lists.filter_map(|rest| rest.split_once(';'));
        names.map(|(name, _)| name.to_owned()).collect()
    };
    let for_tests: Vec<String> = all.iter().flat_map(|(_, text)| declared(text)).collect();
    let stem = |path: &Path| {
        path.file_stem()
            .is_some_and(|stem| for_tests.iter().any(|name| **name == *stem))
    };
    all.retain(|(path, _)| !stem(path));
    all
}

fn below(folder: &Path) -> Vec<(PathBuf, String)> {
    let entries = fs::read_dir(folder).expect("a folder of sources");
    let paths = entries.map(|entry| entry.expect("an entry").path());
    let own = |path: PathBuf| {
        let name = path.file_name().expect("a name").to_string_lossy();
        match (name.contains("tests"), path.extension()) {
            (true, _) => Vec::new(),
            _ if path.is_dir() => below(&path),
            (_, Some(ending)) if ending == "rs" || ending == "js" => {
                let text = fs::read_to_string(&path).expect("a source");
                let code = text.split(TESTS).next().unwrap_or_default();
                vec![(path.clone(), code.to_owned())]
            }
            _ => Vec::new(),
        }
    };
    paths.flat_map(own).collect()
}
