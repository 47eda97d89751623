//! A file of tests that no program names would be run by nobody, and nothing else would say so.

use std::fs;

use outside_checks::pages::root;

/// The folders of tests, each of them one program with a `main.rs`.
const FOLDERS: [&str; 4] = [
    "cli/tests",
    "tests/browser/tests",
    "tests/tests",
    "web/tests",
];

#[test]
fn every_file_of_tests_is_part_of_a_program() {
    let mut left_out = Vec::new();
    for folder in FOLDERS.map(|folder| root().join(folder)) {
        let main = fs::read_to_string(folder.join("main.rs")).expect("the program");
        for entry in fs::read_dir(&folder).expect("a folder of tests") {
            let path = entry.expect("a file of it").path();
            let module = path.file_stem().unwrap_or_default().to_string_lossy();
            let is_code = path.extension().is_some_and(|ending| ending == "rs");
            let is_named = main.contains(&format!("\nmod {module};\n"));
            if is_code && module != "main" && !is_named {
                left_out.push(path);
            }
        }
    }
    assert!(left_out.is_empty(), "no `mod` names {left_out:?}");
}
