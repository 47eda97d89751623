//! The form holds no rule: no bound, no limit and no formula stands in what the page is made of.

use std::fs;
use std::path::{Path, PathBuf};

use browser_checks::Outcome;

/// The words of bounds, the functions of geometry, and the figures by which units are turned into one another.
const FOREIGN: [&str; 14] = [
    "at-least",
    "at-most",
    "more-than",
    "less-than",
    "setback",
    "Math.sqrt",
    "Math.atan",
    "Math.sin",
    "Math.cos",
    "sqrt(",
    "0.3048",
    "25.4",
    "304.8",
    "outcome ===",
];

fn files(folder: &str, ending: &str) -> Result<Vec<PathBuf>, std::io::Error> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../web")
        .join(folder);
    let found = fs::read_dir(folder)?
        .filter_map(Result::ok)
        .map(|entry| entry.path());
    Ok(found
        .filter(|file| file.extension().is_some_and(|found| found == ending))
        .collect())
}

#[test]
fn no_bound_and_no_formula_stands_in_the_form() -> Outcome {
    let all = [files("page/script", "js")?, files("src", "rs")?].concat();
    assert!(all.len() > 20, "the form's files were not found");
    for file in all {
        let text = fs::read_to_string(&file)?;
        for word in FOREIGN {
            assert!(
                !text.contains(word),
                "{} speaks of `{word}`",
                file.display()
            );
        }
    }
    Ok(())
}
