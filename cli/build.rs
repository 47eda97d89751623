//! Lists the folders of `rulesets/`, so that a rule set becomes part of the program without a line of Rust.

use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../rulesets");
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut files: Vec<PathBuf> = fs::read_dir(&folder)?
        .map(|entry| Ok(entry?.path().join("rules.yaml")))
        .collect::<io::Result<_>>()?;
    files.retain(|file| file.is_file());
    files.sort();
    let rows: String = files.iter().filter_map(|file| row(file)).collect();
    let list = format!("const BUNDLED: &[(&str, &str)] = &[\n{rows}];\n");
    let out = env::var_os("OUT_DIR").ok_or(io::ErrorKind::NotFound)?;
    fs::write(Path::new(&out).join("bundled.rs"), list)
}

fn row(file: &Path) -> Option<String> {
    let name = file.parent()?.file_name()?.to_str()?;
    Some(format!(
        "    ({name:?}, include_str!({:?})),\n",
        file.to_str()?
    ))
}
