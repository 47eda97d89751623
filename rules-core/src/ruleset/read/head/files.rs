//! The files of a rule set: the one asked for, and those that it builds on.
//!
//! A place says in which file it is, even where an edit of one file has put something into a rule of another.

use crate::faults::Code;
use crate::ruleset::read::FileFaults;
use crate::ruleset::read::take::as_short_name;
use crate::text::{self, Faults, Help, Node, Span};

/// More files than this are a mistake.
const MOST_FILES: usize = 16;

/// One file, its text taken apart.
pub(crate) struct File {
    /// The name under which another builds on it.
    pub name: Option<String>,
    /// The number that its places have.
    number: u16,
    /// What it says.
    pub node: Node,
    /// What looks like a slip in the writing.
    slips: Faults,
}

/// All files: the one asked for first, and each before those that it builds on. They are numbered by the names of all
/// files that were read.
pub(crate) fn gather<'t>(
    name: Option<&str>,
    text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
    names: &mut Vec<Option<String>>,
) -> Result<Vec<File>, Vec<FileFaults>> {
    let mut gatherer = Gatherer {
        bases,
        names,
        open: Vec::new(),
        files: Vec::new(),
        bad: Vec::new(),
    };
    gatherer.visit(name.map(str::to_owned), text);
    let (mut files, bad) = (gatherer.files, gatherer.bad);
    files.reverse();
    if bad.is_empty() { Ok(files) } else { Err(bad) }
}

struct Gatherer<'g, 't> {
    bases: &'g dyn Fn(&str) -> Option<&'t str>,
    names: &'g mut Vec<Option<String>>,
    /// The files whose bases are being read.
    open: Vec<Option<String>>,
    files: Vec<File>,
    bad: Vec<FileFaults>,
}

impl<'t> Gatherer<'_, 't> {
    fn visit(&mut self, name: Option<String>, text: &'t str) {
        let number = self.number(&name);
        let mut node = match text::read(text) {
            Ok(node) => node,
            Err(mut faults) => {
                faults.put_into(number);
                return self.bad.push(FileFaults {
                    name,
                    faults,
                    slips: Faults::default(),
                });
            }
        };
        node.put_into(number);
        if let Some(faults) = is_a_plan(&node) {
            return self.bad.push(FileFaults {
                name,
                faults,
                slips: Faults::default(),
            });
        }
        let mut slips = text::slips(&node, text);
        slips.put_into(number);
        let mut faults = Faults::default();
        self.open.push(name.clone());
        no_list(&node, &mut faults);
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
            number,
            node,
            slips,
        });
    }

    /// The number of a file: one file has one in all editions.
    fn number(&mut self, name: &Option<String>) -> u16 {
        let known = self.names.iter().position(|it| it == name);
        let number = known.unwrap_or_else(|| {
            self.names.push(name.clone());
            self.names.len() - 1
        });
        u16::try_from(number).unwrap_or(u16::MAX)
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
                .help(match (base.strip_suffix(".yaml"), self.meant(base)) {
                    (Some(name), _) => format!("Write its name, without the ending of its file: `{name}`.").into(),
                    (None, Some(name)) => Help::near(Some(name), ""),
                    (None, None) => "Give its file along with this one, or see with `siting rules list` how it is spelt.".into(),
                });
        }
    }

    /// The rule set whose name is written as a name is not.
    fn meant(&self, base: &str) -> Option<String> {
        let name = as_short_name(base);
        (name != base && (self.bases)(&name).is_some()).then_some(name)
    }
}

/// What is said of a plan that is given as a rule file.
fn is_a_plan(node: &Node) -> Option<Faults> {
    let plan = node.as_map()?.iter().find(|entry| entry.key == "plan")?;
    if node.get("lot").is_none() || node.get("ruleset").or(node.get("rules")).is_some() {
        return None;
    }
    let mut faults = Faults::default();
    faults
        .add(
            Code::NotARuleFile,
            plan.key_span,
            "This is a plan, not a rule file.",
        )
        .help("Judge it by a rule file: `siting check PLAN --rules FILE`.");
    Some(faults)
}

/// Says that the files under `builds-on` are not given as a list of names.
fn no_list(node: &Node, faults: &mut Faults) {
    let Some(written) = node.get("builds-on") else {
        return;
    };
    let named = |item: &Node| item.text().is_some();
    let items = written.as_list().unwrap_or(std::slice::from_ref(written));
    let Some(amiss) = items.iter().find(|item| !named(item) && !item.is_empty()) else {
        return;
    };
    let named = amiss.as_map().and_then(|entries| entries.first());
    let name = named.map(|entry| match (entry.key.as_str(), entry.value.text()) {
        ("id" | "ruleset" | "name", Some(name)) => name,
        (key, _) => key,
    });
    let name = name.unwrap_or("barrier-model");
    faults
        .add(
            Code::NotAList,
            amiss.span,
            format!(
                "After `builds-on`, a list of names is expected, not {}.",
                amiss.describe()
            ),
        )
        .help(format!("Write `builds-on: [{name}]`."));
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

/// The slips in the writing of the files, and the others.
pub(crate) fn slips(files: &[File], others: &Faults) -> Faults {
    let written = files.iter().flat_map(|file| &file.slips.list);
    Faults {
        list: written.chain(&others.list).cloned().collect(),
    }
}

/// The faults, each with its file.
pub(crate) fn by_file(faults: &Faults, files: &[File]) -> Vec<FileFaults> {
    let mut each: Vec<_> = files
        .iter()
        .map(|file| FileFaults {
            name: file.name.clone(),
            faults: Faults::default(),
            slips: Faults::default(),
        })
        .collect();
    for fault in &faults.list {
        let is_in = |file: &File| fault.span.is_none_or(|span| span.file == file.number);
        let file = files.iter().position(is_in).unwrap_or_default();
        if let Some(of_file) = each.get_mut(file) {
            of_file.faults.list.push(fault.clone());
        }
    }
    each.retain(|file| !file.faults.is_empty());
    each
}
