//! The page of all kinds of fault, from their registry.

use std::fmt::Write as _;

use rules_core::faults::GROUPS;

/// What stands before the tables.
const HEAD: &str = "\
# Kinds of fault

Whatever is wrong with a plan or a rule file is told in plain words, with its place and what would be right, all of it in one
run. Each fault has a code besides, which does not change with the words: `--format json` gives it as `code`, with the `line`,
the `column` and the `path` of what it speaks of, such as `things.3.latch-height`. This page says for each code what all its
faults have in common. It is written from the program's own registry.
";

/// The whole page.
pub fn page() -> String {
    let mut page = HEAD.to_owned();
    for group in GROUPS {
        let _ = write!(
            page,
            "\n## {}\n\n{}\n\n| Code | What it is, and what would be right |\n|---|---|\n",
            group.title, group.says
        );
        for code in group.codes {
            let _ = writeln!(
                page,
                "| `{}` | {} |",
                code.word(),
                code.says().replace('|', "\\|")
            );
        }
    }
    page
}
