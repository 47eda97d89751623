//! Lists the folders beside it, so that a rule set becomes part of the program without a line of Rust.

use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    // Asked for when it runs, not when it is built: a checkout may be moved between the two.
    let folder = env::var_os("CARGO_MANIFEST_DIR").ok_or(io::ErrorKind::NotFound)?;
    let folder = PathBuf::from(folder);
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut sets: Vec<PathBuf> = fs::read_dir(&folder)?
        .map(|entry| Ok(entry?.path()))
        .collect::<io::Result<_>>()?;
    sets.retain(|set| set.join("rules.yaml").is_file());
    sets.sort();
    let rows: String = sets.iter().filter_map(|set| row(set)).collect();
    let list = format!("const BUNDLED: &[RuleSetTexts] = &[\n{rows}];\n");
    let out = env::var_os("OUT_DIR").ok_or(io::ErrorKind::NotFound)?;
    fs::write(Path::new(&out).join("bundled.rs"), list)
}

/// The folder's name, its rules, and its cases and its example home where it has any.
fn row(folder: &Path) -> Option<String> {
    let name = folder.file_name()?.to_str()?;
    let [cases, home] = ["cases.yaml", "home.yaml"].map(|file| optional(&folder.join(file)));
    let rules = folder.join("rules.yaml");
    Some(format!(
        "    RuleSetTexts {{ name: {name:?}, rules: include_str!({:?}), cases: {cases}, home: {home} }},\n",
        rules.to_str()?
    ))
}

fn optional(file: &Path) -> String {
    match file.to_str().filter(|_| file.is_file()) {
        Some(path) => format!("Some(include_str!({path:?}))"),
        None => "None".to_owned(),
    }
}
