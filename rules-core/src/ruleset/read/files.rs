//! The files of a rule set: the one asked for, and those that it builds on.
//!
//! Places are counted on from file to file, so that one place says in which file it is, even where an edit of one file
//! has put something into a rule of another.

use super::FileFaults;
use crate::faults::Code;
use crate::text::{self, Content, Faults, Node, Span};

/// More files than this are a mistake.
const MOST_FILES: usize = 16;

/// One file, its text taken apart.
pub(super) struct File {
    /// The name under which another builds on it.
    pub name: Option<String>,
    /// What it says; its places are counted from `start` on.
    pub node: Node,
    start: usize,
    end: usize,
}

/// All files: the one asked for first, and each before those that it builds on.
pub(super) fn gather<'t>(
    name: Option<&str>,
    text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
) -> Result<Vec<File>, Vec<FileFaults>> {
    let mut gatherer = Gatherer {
        bases,
        open: Vec::new(),
        files: Vec::new(),
        bad: Vec::new(),
    };
    gatherer.visit(name.map(str::to_owned), text);
    let (mut files, bad) = (gatherer.files, gatherer.bad);
    files.reverse();
    number(&mut files);
    if bad.is_empty() { Ok(files) } else { Err(bad) }
}

struct Gatherer<'g, 't> {
    bases: &'g dyn Fn(&str) -> Option<&'t str>,
    /// The files whose bases are being read.
    open: Vec<Option<String>>,
    files: Vec<File>,
    bad: Vec<FileFaults>,
}

impl<'t> Gatherer<'_, 't> {
    fn visit(&mut self, name: Option<String>, text: &'t str) {
        let node = match text::read(text) {
            Ok(node) => node,
            Err(faults) => {
                return self.bad.push(FileFaults {
                    name,
                    faults,
                    slips: Faults::default(),
                });
            }
        };
        let mut faults = Faults::default();
        self.open.push(name.clone());
        for (base, span) in named_bases(&node) {
            self.visit_base(base, span, &mut faults);
        }
        self.open.pop();
        if !faults.is_empty() {
            self.bad.push(FileFaults {
                name: name.clone(),
                faults,
                slips: Faults::default(),
            });
        }
        self.files.push(File {
            name,
            node,
            start: 0,
            end: text.len(),
        });
    }

    fn visit_base(&mut self, base: &str, span: Span, faults: &mut Faults) {
        let is = |name: &Option<String>| name.as_deref() == Some(base);
        if self.open.iter().any(is) {
            faults
                .add(Code::BaseRing, span, format!("`{base}` builds on itself."))
                .help("Follow `builds-on` from file to file, and break the ring.");
        } else if self.files.iter().any(|file| is(&file.name)) {
            // Two files may build on the same one.
        } else if self.files.len() + self.open.len() >= MOST_FILES {
            let said = |fault: &text::Fault| fault.code == Code::TooManyBases;
            if faults.list.iter().any(said) {
                return;
            }
            faults.add(
                Code::TooManyBases,
                span,
                format!("More than {MOST_FILES} files build on each other."),
            );
        } else if let Some(text) = (self.bases)(base) {
            self.visit(Some(base.to_owned()), text);
        } else {
            faults
                .add(
                    Code::UnknownBase,
                    span,
                    format!("There is no rule set `{base}` to build on."),
                )
                .help("Give its file along with this one.");
        }
    }
}

fn named_bases(node: &Node) -> impl Iterator<Item = (&str, Span)> {
    let written = node.get("builds-on");
    let items = written.map_or(&[][..], |node| {
        node.as_list().unwrap_or(std::slice::from_ref(node))
    });
    items
        .iter()
        .filter_map(|item| Some((item.text()?, item.span)))
}

/// Counts the places of each file from the end of the one before it.
fn number(files: &mut [File]) {
    let mut start = 0;
    for file in files {
        shift(&mut file.node, start);
        file.start = start;
        file.end += start;
        start = file.end + 1;
    }
}

fn shift(node: &mut Node, by: usize) {
    node.span = shifted(node.span, by);
    match &mut node.content {
        Content::List(items) => items.iter_mut().for_each(|item| shift(item, by)),
        Content::Map(entries) => {
            for entry in entries {
                entry.key_span = shifted(entry.key_span, by);
                shift(&mut entry.value, by);
            }
        }
        Content::Empty | Content::Scalar { .. } => {}
    }
}

fn shifted(span: Span, by: usize) -> Span {
    Span {
        start: span.start + by,
        end: span.end + by,
    }
}

/// The file in which a place is.
pub(super) fn file_of(span: Span, files: &[File]) -> usize {
    files
        .iter()
        .take_while(|file| file.end < span.start)
        .count()
}

/// A place, counted from the beginning of its own file.
pub(super) fn place(span: Span, files: &[File]) -> Span {
    let start = files.get(file_of(span, files)).map_or(0, |file| file.start);
    Span {
        start: span.start.saturating_sub(start),
        end: span.end.saturating_sub(start),
    }
}

/// The place of which [`place`] gives `span` in a file.
pub(super) fn unplaced(span: Span, file: usize, files: &[File]) -> Span {
    shifted(span, files.get(file).map_or(0, |file| file.start))
}

/// The faults, each with its file.
pub(super) fn by_file(faults: &Faults, files: &[File]) -> Vec<FileFaults> {
    let mut each: Vec<_> = files
        .iter()
        .map(|file| FileFaults {
            name: file.name.clone(),
            faults: Faults::default(),
            slips: Faults::default(),
        })
        .collect();
    for fault in &faults.list {
        let file = fault.span.map_or(0, |span| file_of(span, files));
        if let Some(of_file) = each.get_mut(file) {
            let mut fault = fault.clone();
            fault.span = fault.span.map(|span| place(span, files));
            of_file.faults.list.push(fault);
        }
    }
    each.retain(|file| !file.faults.is_empty());
    each
}
