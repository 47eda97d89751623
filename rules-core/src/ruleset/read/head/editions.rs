//! The editions of a rule set: a file names the one before it, which is read first, and whole.
//!
//! All editions share one vocabulary, as one plan may have to be judged by several of them: each adds to what the ones
//! before it have added.

use std::collections::BTreeSet;

use crate::faults::Code;
use crate::ruleset::RuleSet;
use crate::ruleset::read::head::files;
use crate::ruleset::read::layers::merge;
use crate::ruleset::read::{Checked, FileFaults, Found, Reader};
use crate::text::{Faults, Node};
use crate::vocabulary::{FactId, KindId, OutlineId, Vocabulary};
use crate::work;

/// More editions than this are a mistake.
const MOST_EDITIONS: usize = 16;

/// Finds the texts of rule sets by their names.
type Texts<'g, 't> = &'g dyn Fn(&str) -> Option<&'t str>;

/// An edition and those before it, while they are read.
pub(crate) struct Chain<'g, 't> {
    bases: Texts<'g, 't>,
    language: Option<&'g str>,
    program: [usize; 3],
    /// The editions that are being read.
    open: Vec<&'t str>,
    /// The names of the files of all editions, by their numbers.
    names: Vec<Option<String>>,
    found: Vec<Found>,
}

/// What was read of an edition.
struct Edition {
    rule_set: Option<RuleSet>,
    vocabulary: Vocabulary,
    cases: Option<Node>,
}

impl<'g, 't> Chain<'g, 't> {
    pub(crate) fn new(
        bases: Texts<'g, 't>,
        language: Option<&'g str>,
        program: &Vocabulary,
    ) -> Self {
        Self {
            bases,
            language,
            program: program.counts(),
            open: Vec::new(),
            names: Vec::new(),
            found: Vec::new(),
        }
    }

    /// Reads a rule set with all its editions.
    pub(crate) fn read_all(
        mut self,
        text: &'t str,
        vocabulary: Vocabulary,
    ) -> Result<Checked, Vec<FileFaults>> {
        // Whatever reading takes too many steps says so itself.
        let edition = work::bounded(|| self.edition(None, text, vocabulary));
        let read = edition.and_then(|edition| Some((edition.rule_set?, edition.cases)));
        let (mut faults, mut warnings) = (Vec::new(), Vec::new());
        // What is wrong with the file that was asked for comes first.
        for found in self.found.into_iter().rev() {
            gather(&mut faults, found.faults);
            gather(&mut warnings, found.warnings);
        }
        match read {
            Some((rule_set, cases)) if faults.is_empty() => Ok(Checked {
                rule_set: with_one_vocabulary(rule_set),
                cases,
                warnings,
            }),
            _ => Err(with_slips(faults, warnings)),
        }
    }

    /// Reads an edition, the ones before it first.
    fn edition(&mut self, name: Option<&str>, text: &'t str, vocabulary: Vocabulary) -> Edition {
        let files = match files::gather(name, text, self.bases, &mut self.names) {
            Ok(files) => files,
            Err(faults) => {
                self.found.push(Found {
                    faults,
                    ..Found::default()
                });
                return Edition {
                    rule_set: None,
                    vocabulary,
                    cases: None,
                };
            }
        };
        let top = files.first().map(|file| &file.node);
        let named = top.and_then(|node| node.get("earlier"));
        let mut amiss = Faults::default();
        let before = named.and_then(|node| self.named(node, &mut amiss));
        let (earlier, vocabulary) = match before {
            Some((name, text)) => {
                self.open.push(text);
                let before = self.edition(Some(name), text, vocabulary);
                self.open.pop();
                (before.rule_set, before.vocabulary)
            }
            None => (None, vocabulary),
        };
        if named.is_none() {
            refuse_later_bases(&files, &mut amiss);
        }
        let merged = merge(&files);
        let words = Words::of(self.program, &vocabulary);
        let mut reader = Reader::new(&files, &merged, vocabulary, words, self.language);
        reader.faults.list.extend(amiss.list);
        let (rule_set, vocabulary, found) = reader.read(earlier);
        self.found.push(found);
        Edition {
            rule_set,
            vocabulary,
            cases: top.and_then(|node| node.get("cases").cloned()),
        }
    }

    /// The edition that a file names as the one before it.
    fn named<'n>(&self, node: &'n Node, amiss: &mut Faults) -> Option<(&'n str, &'t str)> {
        let Some(name) = node.text() else {
            let message = format!(
                "The name of the edition before this one is expected here, not {}.",
                node.describe()
            );
            amiss.add(Code::NotAWord, node.span, message);
            return None;
        };
        let Some(text) = (self.bases)(name) else {
            amiss
                .add(
                    Code::UnknownBase,
                    node.span,
                    format!("There is no rule set `{name}` that could be the earlier edition."),
                )
                .help("Give its file along with this one.");
            return None;
        };
        if self.open.contains(&text) || self.open.len() >= MOST_EDITIONS {
            amiss
                .add(
                    Code::BaseRing,
                    node.span,
                    format!("`{name}` is named as an edition that came before itself."),
                )
                .help("Follow `earlier` from file to file, and break the ring.");
            return None;
        }
        Some((name, text))
    }
}

/// A base that has an earlier edition: without an edition of its own the file would take the later one before its day.
fn refuse_later_bases(files: &[files::File], amiss: &mut Faults) {
    let Some((top, bases)) = files.split_first() else {
        return;
    };
    let later = bases.iter().filter_map(|base| {
        let earlier = base.node.get("earlier")?.text()?;
        Some((base.name.as_deref()?, earlier))
    });
    for (base, earlier) in later {
        let place = top
            .node
            .get("builds-on")
            .map_or(top.node.span, |it| it.span);
        let message = format!(
            "`{base}` has an earlier edition, `{earlier}`, which holds until the day from which it is in force itself. This file would not know that day."
        );
        amiss.add(Code::BaseHasEarlier, place, message).help(format!(
            "Write a second file like this one that builds on `{earlier}`, name it here under `earlier`, and copy the `in-force` of `{base}` to this file."
        ));
    }
}

/// Adds what was found in files to what was found before; a file on which two editions build is found twice.
fn gather(all: &mut Vec<FileFaults>, more: Vec<FileFaults>) {
    for file in more {
        match all.iter_mut().find(|known| known.name == file.name) {
            None => all.push(file),
            Some(known) => {
                let list = file.faults.list.into_iter();
                let new: Vec<_> = list.filter(|it| !known.faults.list.contains(it)).collect();
                known.faults.list.extend(new);
            }
        }
    }
}

/// The files with what is wrong with them, and what looks like a slip beside that.
fn with_slips(mut faults: Vec<FileFaults>, slips: Vec<FileFaults>) -> Vec<FileFaults> {
    for file in slips {
        match faults.iter_mut().find(|known| known.name == file.name) {
            Some(known) => known.slips = file.faults,
            None => faults.push(FileFaults {
                slips: file.faults,
                faults: Faults::default(),
                name: file.name,
            }),
        }
    }
    faults
}

/// The words that the newest edition knows are known to all.
fn with_one_vocabulary(mut rule_set: RuleSet) -> RuleSet {
    let mut here = rule_set.earlier.as_deref_mut();
    while let Some(edition) = here {
        edition.vocabulary = rule_set.vocabulary.clone();
        here = edition.earlier.as_deref_mut();
    }
    rule_set
}

/// Which words of a vocabulary an earlier edition has added, and this one has not said again.
#[derive(Debug, Clone)]
pub(crate) struct Words {
    program: [usize; 3],
    start: [usize; 3],
    again: BTreeSet<FactId>,
}

impl Words {
    fn of(program: [usize; 3], vocabulary: &Vocabulary) -> Self {
        Self {
            program,
            start: vocabulary.counts(),
            again: BTreeSet::new(),
        }
    }

    fn has(&self, which: usize, place: u16) -> bool {
        let (Some(from), Some(to)) = (self.program.get(which), self.start.get(which)) else {
            return false;
        };
        (*from..*to).contains(&usize::from(place))
    }

    pub(crate) fn has_kind(&self, kind: KindId) -> bool {
        self.has(0, kind.0)
    }

    pub(crate) fn has_outline(&self, outline: OutlineId) -> bool {
        self.has(1, outline.0)
    }

    pub(crate) fn has_fact(&self, fact: FactId) -> bool {
        self.has(2, fact.0) && !self.again.contains(&fact)
    }

    /// Notes that this edition has said a fact: a second time is once too often.
    pub(crate) fn said_again(&mut self, fact: FactId) {
        self.again.insert(fact);
    }
}

impl Reader<'_> {
    /// Puts an edition behind the one that came after it.
    pub(crate) fn after(&mut self, earlier: Option<RuleSet>, mut rule_set: RuleSet) -> RuleSet {
        let top = self.files.first().map(|file| &file.node);
        if let Some(named) = top.and_then(|node| node.get("earlier")) {
            self.edition_dates(named, earlier.as_ref(), &rule_set);
        }
        rule_set.earlier = earlier.map(Box::new);
        rule_set
    }

    /// An edition that has one before it says from when on it is in force, and that is later.
    fn edition_dates(&mut self, named: &Node, earlier: Option<&RuleSet>, rule_set: &RuleSet) {
        let in_force = rule_set.in_force.as_ref();
        let Some((in_force, from)) = in_force.and_then(|it| Some((it, it.from?))) else {
            let message =
                "There is an earlier edition, and nothing says from which day on this one counts.";
            self.fault(Code::NoEditionDay, named.span, message)
                .help("Write, say, `in-force: {from: 2026-01-01, by: applied}`; `by` is the day of the application that decides which edition holds for it.");
            return;
        };
        let before = earlier.and_then(|earlier| earlier.in_force.as_ref());
        let not_later =
            before.is_some_and(|it| it.by == in_force.by && it.from.is_some_and(|old| old >= from));
        if not_later {
            self.fault(
                Code::EditionOrder,
                named.span,
                "The edition that is named here as the earlier one begins to count on the same day as this one, or later.",
            )
            .help("Compare the two `in-force`; is one of the days mistyped?");
        }
    }
}
