//! The files of a rule set: the one asked for, and those that it builds on.

use super::FileFaults;
use crate::text::{self, Faults, Node};

/// More files than this are a ring or a mistake.
const MOST_FILES: usize = 16;

/// One file, its text taken apart.
pub(super) struct File {
    /// The name under which another builds on it.
    pub name: Option<String>,
    /// What it says.
    pub node: Node,
}

/// All files: the one asked for first, then what it builds on, each before its own bases.
pub(super) fn gather<'t>(
    text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
) -> Result<Vec<File>, Vec<FileFaults>> {
    let mut files = Vec::new();
    let mut bad = Vec::new();
    let mut waiting = vec![(None, text)];
    while let Some((name, text)) = waiting.pop() {
        let node = match text::read(text) {
            Ok(node) => node,
            Err(faults) => {
                bad.push(FileFaults { name, faults });
                continue;
            }
        };
        let mut faults = Faults::default();
        for (base, span) in named_bases(&node) {
            let known = files
                .iter()
                .any(|file: &File| file.name.as_deref() == Some(base))
                || name.as_deref() == Some(base);
            let waits = waiting
                .iter()
                .any(|(name, _): &(Option<String>, _)| name.as_deref() == Some(base));
            match bases(base) {
                _ if known => {
                    faults.add(
                        "base-twice",
                        span,
                        format!("`{base}` is built on twice, or builds on itself."),
                    );
                }
                _ if waits => {}
                _ if files.len() + waiting.len() >= MOST_FILES => {
                    faults.add(
                        "too-many-bases",
                        span,
                        format!("More than {MOST_FILES} files build on each other."),
                    );
                }
                Some(text) => waiting.push((Some(base.to_owned()), text)),
                None => {
                    faults
                        .add(
                            "unknown-base",
                            span,
                            format!("There is no rule set `{base}` to build on."),
                        )
                        .help("Give its file along with this one.");
                }
            }
        }
        if !faults.is_empty() {
            bad.push(FileFaults {
                name: name.clone(),
                faults,
            });
        }
        files.push(File { name, node });
    }
    if bad.is_empty() { Ok(files) } else { Err(bad) }
}

fn named_bases(node: &Node) -> impl Iterator<Item = (&str, text::Span)> {
    let written = node.get("builds-on");
    let items = written.map_or(&[][..], |node| {
        node.as_list().unwrap_or(std::slice::from_ref(node))
    });
    items
        .iter()
        .filter_map(|item| Some((item.text()?, item.span)))
}
