//! Lists the folders of `rulesets/`, so that a rule set becomes part of the program without a line of Rust.

use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    // Asked for when it runs, not when it is built: a checkout may be moved between the two.
    let crate_folder = env::var_os("CARGO_MANIFEST_DIR").ok_or(io::ErrorKind::NotFound)?;
    let folder = Path::new(&crate_folder).join("../rulesets");
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut files: Vec<PathBuf> = fs::read_dir(&folder)?
        .map(|entry| Ok(entry?.path().join("rules.yaml")))
        .collect::<io::Result<_>>()?;
    files.retain(|file| file.is_file());
    files.sort();
    let rows: String = files.iter().filter_map(|file| row(file)).collect();
    let list = format!("const BUNDLED: &[(&str, &str, Option<&str>)] = &[\n{rows}];\n");
    let out = env::var_os("OUT_DIR").ok_or(io::ErrorKind::NotFound)?;
    fs::write(Path::new(&out).join("bundled.rs"), list)
}

/// The folder's name, its rules, and its cases where it has any.
fn row(file: &Path) -> Option<String> {
    let folder = file.parent()?;
    let name = folder.file_name()?.to_str()?;
    let cases = folder.join("cases.yaml");
    let cases = match cases.is_file() {
        true => format!("Some(include_str!({:?}))", cases.to_str()?),
        false => "None".to_owned(),
    };
    Some(format!(
        "    ({name:?}, include_str!({:?}), {cases}),\n",
        file.to_str()?
    ))
}
