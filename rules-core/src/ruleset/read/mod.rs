//! From the text of a rule file to the rules, with every fault of every file in one run.
//!
//! Names are resolved and types are checked while reading: what comes out fits together, so that judging a plan
//! never meets a rule that makes no sense.

mod absent;
mod bounds;
mod coverage;
mod decisions;
mod duties;
mod each;
mod editions;
mod files;
mod head;
mod holds;
mod jumps;
mod languages;
mod layers;
mod levels;
mod like;
mod lint;
mod measures;
mod names;
mod operands;
mod own;
mod papers;
mod pools;
mod requirements;
mod rules;
mod scope;
mod slips;
mod sources;
mod tables;
mod terms;
mod values;
mod working_days;
mod zones;

use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::{DocumentIndex, Layer, Question, RuleSet, Source, SourceIndex, built_in};
use crate::grammar::Keys;
use crate::text::{Entry, Fault, Faults, MapReader, Node, Span, yes_no};
use crate::vocabulary::{FactId, KindId, Matter, Vocabulary};
use crate::words::Language;
use crate::work;
use editions::{Chain, Words};
use files::File;
use holds::{Seen, Sight};
pub use languages::is_language;
use languages::picked;
use layers::Merged;
use terms::Slot;
use values::flipped;

/// A rule set that can be used, and what its writer may want to look at again.
#[derive(Debug, Clone, PartialEq)]
pub struct Checked {
    /// The rules.
    pub rule_set: RuleSet,
    /// Small example plans with the outcomes that they must give, as the file itself writes them.
    pub cases: Option<Node>,
    /// What looks like a slip but has a meaning; only files that have any.
    pub warnings: Vec<FileFaults>,
}

/// The faults of one file of a rule set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileFaults {
    /// The name under which another file builds on it; `None` for the file that was asked for.
    pub name: Option<String>,
    /// What is wrong with it.
    pub faults: Faults,
    /// What looks like a slip in it besides.
    pub slips: Faults,
}

/// What is wrong with files, and what looks like a slip in them.
#[derive(Debug, Clone, Default)]
struct Found {
    faults: Vec<FileFaults>,
    warnings: Vec<FileFaults>,
}

/// Reads a rule set: its own text, and the texts of the files that it builds on and of its earlier editions, which
/// `bases` finds by their names.
///
/// `vocabulary` is the program's own table, to which the files add.
///
/// # Errors
/// All faults of all files, file by file.
pub fn read<'t>(
    text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
    vocabulary: Vocabulary,
) -> Result<Checked, Vec<FileFaults>> {
    read_in(None, text, bases, vocabulary)
}

/// As [`read`], with texts that a file writes in several languages read in the one of this name (`nb`), where they have
/// it; else in English, or in the file's own language where they have no English.
///
/// # Errors
/// All faults of all files, file by file.
pub fn read_in<'t>(
    language: Option<&str>,
    text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
    vocabulary: Vocabulary,
) -> Result<Checked, Vec<FileFaults>> {
    Chain::new(bases, language, &vocabulary).read_all(text, vocabulary)
}

/// What the reader knows while it goes through the files.
struct Reader<'a> {
    files: &'a [File],
    merged: &'a Merged,
    vocabulary: Vocabulary,
    /// The language that is wanted.
    language: Option<&'a str>,
    /// Which words of the vocabulary are an earlier edition's.
    words: Words,
    /// The file that is being read: a place in `files`.
    file: usize,
    /// What is wrong, with places that say in which file.
    faults: Faults,
    warnings: Faults,
    terms: Vec<Slot<'a>>,
    term_by_name: BTreeMap<&'a str, usize>,
    documents: BTreeMap<&'a str, DocumentIndex>,
    /// The kind of the things for each of which there is a document.
    for_each: BTreeMap<DocumentIndex, KindId>,
    /// The documents of which it is said, or was asked, whether one is enough for all things.
    for_all: BTreeSet<DocumentIndex>,
    rule_names: BTreeSet<&'a str>,
    used_documents: BTreeSet<DocumentIndex>,
    used_facts: BTreeSet<FactId>,
    sources: Vec<Source>,
    /// Where each source is named.
    source_places: Vec<Span>,
    used_sources: BTreeSet<SourceIndex>,
    questions: Vec<Question>,
    /// The matters that the file claims to hold, and where.
    claims: Vec<(Matter, Span)>,
    /// Where a span is first written in working days.
    counted_in_working_days: Option<Span>,
    around: Around<'a>,
    /// Whether what was read since this was last cleared speaks of the pool that no `each` names.
    spoke_of_pool: bool,
    /// Where an outline of the pool was named, with neither `each` nor `all`, since this was last cleared.
    bare_pool: Option<(String, Span)>,
    /// The kinds of which the term that is being read names an outline of all things without saying so.
    loose: BTreeSet<KindId>,
    /// What was seen of terms.
    seen: Seen,
    /// The rule that is being read or looked through.
    now: Option<Span>,
    /// Everything that a step can come before or after, once it was asked for.
    events: OnceCell<Rc<BTreeSet<String>>>,
}

/// What surrounds the place that is being read.
#[derive(Debug, Clone, Default)]
struct Around<'a> {
    /// The things that a kind's name stands for here, the innermost last.
    bound: Vec<Bound<'a>>,
    /// The kind of the rule's `each`, while its `when` is read.
    when_of: Option<KindId>,
    /// Whether an `any-of`, a `count` or a `not` is around, where an empty selection must say what it means.
    combined: bool,
    /// How many terms are being resolved.
    terms_deep: usize,
    /// The term that is being resolved, if it speaks `of` one thing: where it stands.
    term_of: Option<Span>,
}

/// A kind that is bound to one thing, and the term by which it was selected.
#[derive(Debug, Clone)]
struct Bound<'a> {
    kind: KindId,
    term: Option<&'a str>,
}

impl<'a> Reader<'a> {
    fn new(
        files: &'a [File],
        merged: &'a Merged,
        vocabulary: Vocabulary,
        words: Words,
        language: Option<&'a str>,
    ) -> Self {
        Self {
            files,
            merged,
            vocabulary,
            language,
            words,
            file: 0,
            faults: merged.faults.clone(),
            warnings: merged.warnings.clone(),
            terms: Vec::new(),
            term_by_name: BTreeMap::new(),
            documents: BTreeMap::new(),
            for_each: BTreeMap::new(),
            for_all: BTreeSet::new(),
            rule_names: BTreeSet::new(),
            used_documents: BTreeSet::new(),
            used_facts: BTreeSet::new(),
            sources: Vec::new(),
            source_places: Vec::new(),
            used_sources: BTreeSet::new(),
            questions: Vec::new(),
            claims: Vec::new(),
            counted_in_working_days: None,
            around: Around::default(),
            spoke_of_pool: false,
            bare_pool: None,
            loose: BTreeSet::new(),
            seen: Seen::default(),
            now: None,
            events: OnceCell::new(),
        }
    }

    /// Looks at requirements that were read.
    fn sight(&self) -> Sight<'_> {
        Sight {
            vocabulary: &self.vocabulary,
            seen: &self.seen,
        }
    }

    /// Reads an edition, knowing the one before it.
    fn read(mut self, earlier: Option<RuleSet>) -> (Option<RuleSet>, Vocabulary, Found) {
        let rule_set = self.whole_edition(earlier);
        let rule_set = match work::is_spent() {
            true => self.too_much(),
            false => rule_set,
        };
        let found = Found {
            faults: files::by_file(&self.faults, self.files),
            warnings: files::by_file(&self.warnings, self.files),
        };
        (rule_set, self.vocabulary, found)
    }

    fn whole_edition(&mut self, earlier: Option<RuleSet>) -> Option<RuleSet> {
        self.base_first(Self::collect_sources);
        self.base_first(Self::own_words);
        self.collect_terms();
        self.collect_rules();
        self.base_first(Self::collect);
        let mut rule_set = self.rule_set();
        if let (Some(rule_set), true) = (&mut rule_set, self.faults.is_empty()) {
            // What could not be read may have used it.
            self.report_unused();
            self.check_scope(rule_set);
        }
        rule_set.map(|rule_set| self.after(earlier, rule_set))
    }

    /// Says that reading took too many steps, and nothing else: what was found from there on is worth nothing.
    fn too_much(&mut self) -> Option<RuleSet> {
        self.faults = Faults::default();
        self.warnings = Faults::default();
        let what = self
            .now
            .map_or("the rules together take", |_| "this rule takes");
        let most = work::MOST_STEPS;
        let message = format!(
            "The rule file is not read, because {what} too many steps to look through: more than {most}."
        );
        let fault = match self.now {
            Some(span) => self.faults.add("too-much-work", span, message),
            None => self.faults.add_whole("too-much-work", message),
        };
        fault.help("Make shorter lists and tables, or split the rules into several rule sets.");
        None
    }

    fn rule_set(&mut self) -> Option<RuleSet> {
        let head = self.head();
        let (reach, working_days) = (self.scope(), self.calendar());
        let terms = self.all_terms();
        let mut rules = Vec::new();
        let mut decisions = Vec::new();
        let mut documents = Vec::new();
        let mut duties = Vec::new();
        let mut cautions = Vec::new();
        let mut interpretations = Vec::new();
        self.base_first(|reader, node| {
            reader.list(node, "decide", &mut decisions, Self::decision);
            reader.list(node, "documents", &mut documents, Self::document);
            reader.list(node, "do", &mut duties, Self::duty);
            reader.list(node, "cautions", &mut cautions, Self::caution);
            let into = &mut interpretations;
            reader.list(node, "interpretations", into, Self::interpretation);
        });
        for item in &self.merged.rules {
            if work::is_spent() {
                return None;
            }
            self.file = item.file;
            self.now = Some(item.node.span);
            rules.extend(self.rule(&item.node));
        }
        self.file = 0;
        self.refuse_circle(&duties);
        self.holidays_unsaid(&working_days);
        self.compare_layers(&rules);
        self.slips(&rules);
        let layers = self.layers();
        let built_in = built_in::rules(&self.vocabulary, layers.len());
        let head = head?;
        Some(RuleSet {
            id: head.id,
            title: head.title,
            edition: head.edition,
            authority: head.authority,
            notice: head.notice,
            about: head.about,
            language: self.language.map(Language::of).unwrap_or_default(),
            reach,
            sources: self.sources.clone(),
            working_days,
            in_force: head.in_force,
            earlier: None,
            layers,
            vocabulary: self.vocabulary.clone(),
            terms,
            questions: std::mem::take(&mut self.questions),
            rules,
            built_in,
            decisions,
            documents,
            duties,
            cautions,
            interpretations,
        })
    }

    /// Does something with every file, the ones that others build on first.
    fn base_first(&mut self, mut f: impl FnMut(&mut Self, &'a Node)) {
        for (place, file) in self.files.iter().enumerate().rev() {
            self.file = place;
            f(self, &file.node);
        }
        self.file = 0;
    }

    /// Reads every item of a list of the file.
    fn list<T>(
        &mut self,
        node: &'a Node,
        key: &'static str,
        into: &mut Vec<T>,
        item: impl Fn(&mut Self, &'a Node) -> Option<T>,
    ) {
        let Some(value) = node.get(key) else { return };
        for node in self.items(value, key) {
            into.extend(item(self, node));
        }
    }

    fn layers(&self) -> Vec<Layer> {
        let text = |file: &File, key| {
            let written = file.node.get(key);
            written
                .and_then(|node| picked(node, self.language, file))
                .unwrap_or_default()
                .to_owned()
        };
        self.files
            .iter()
            .map(|file| Layer {
                id: text(file, "ruleset"),
                title: text(file, "title"),
                edition: text(file, "edition"),
            })
            .collect()
    }

    // What is wrong.

    fn faults(&mut self) -> &mut Faults {
        &mut self.faults
    }

    fn fault(&mut self, code: &'static str, span: Span, message: impl Into<String>) -> &mut Fault {
        self.faults().add(code, span, message)
    }

    fn warning(
        &mut self,
        code: &'static str,
        span: Span,
        message: impl Into<String>,
    ) -> &mut Fault {
        self.warnings.add(code, span, message)
    }

    /// A place counted from the beginning of its own file, as it stands in a rule set.
    fn place(&self, span: Span) -> Span {
        files::place(span, self.files)
    }

    /// The place of which [`place`](Self::place) gives `span`.
    fn unplaced(&self, span: Span, file: usize) -> Span {
        files::unplaced(span, file, self.files)
    }

    /// As [`unplaced`](Self::unplaced), in the file in which `other` is.
    fn unplaced_beside(&self, span: Span, other: Span) -> Span {
        self.unplaced(span, files::file_of(other, self.files))
    }

    // Small parts that many things have.

    fn map(&mut self, node: &'a Node, what: &'a str) -> Option<MapReader<'a>> {
        MapReader::new(node, what, self.faults())
    }

    /// The entries of a map's keys, in the order of its declaration.
    fn keys<const N: usize>(
        &mut self,
        node: &'a Node,
        declared: &Keys<N>,
    ) -> Option<[Option<&'a Entry>; N]> {
        declared.read(node, self.faults())
    }

    /// What stands after a key, if it is written: outside, whether it could be read.
    fn if_written<T>(
        &mut self,
        written: Option<&'a Entry>,
        read: impl FnOnce(&mut Self, &'a Node) -> Option<T>,
    ) -> Option<Option<T>> {
        flipped(written.map(|entry| read(self, &entry.value)))
    }

    /// What stands after a key; that it is missing was said before.
    fn written<T>(
        &mut self,
        written: Option<&'a Entry>,
        read: impl FnOnce(&mut Self, &'a Node) -> Option<T>,
    ) -> Option<T> {
        self.if_written(written, read)?
    }

    fn finish(&mut self, map: MapReader<'a>) {
        map.finish(self.faults());
    }

    /// The text for people that stands after a key.
    fn told(&mut self, written: Option<&'a Entry>) -> Option<String> {
        written
            .and_then(|entry| self.said(entry))
            .map(str::to_owned)
    }

    fn text(&mut self, entry: &'a Entry) -> Option<&'a str> {
        self.text_of(&entry.value, &entry.key)
    }

    /// The text that stands after a word.
    fn text_of(&mut self, node: &'a Node, after: &str) -> Option<&'a str> {
        let text = node.text();
        if text.is_none() {
            let message = format!(
                "After `{after}`, a text is expected, not {}.",
                node.describe()
            );
            self.fault("not-a-text", node.span, message)
                .help("A text that begins with a bracket needs quotes.");
        }
        text
    }

    /// Whether `yes` stands after a key.
    fn is_yes(&mut self, written: Option<&'a Entry>) -> bool {
        written.and_then(|entry| self.yes_no(&entry.value)) == Some(true)
    }

    fn yes_no(&mut self, node: &Node) -> Option<bool> {
        match yes_no(node) {
            Ok(answer) => Some(answer),
            Err(fault) => {
                self.faults().list.push(fault);
                None
            }
        }
    }

    /// The items of a list; anything else is a fault.
    fn items(&mut self, node: &'a Node, key: &str) -> &'a [Node] {
        if let Some(items) = node.as_list() {
            return items;
        }
        if !node.is_empty() {
            let message = format!(
                "After `{key}`, a list is expected, not {}.",
                node.describe()
            );
            self.fault("not-a-list", node.span, message)
                .help("Begin each item with `- ` on a line of its own.");
        }
        &[]
    }

    /// One word, or a list of words.
    fn words(&mut self, node: &'a Node) -> Vec<(&'a str, Span)> {
        let nodes = node.as_list().unwrap_or(std::slice::from_ref(node));
        let mut words = Vec::new();
        for node in nodes {
            match node.text() {
                Some(word) => words.push((word, node.span)),
                None => {
                    self.fault(
                        "not-a-word",
                        node.span,
                        format!("A word is expected here, not {}.", node.describe()),
                    );
                }
            }
        }
        words
    }

    /// A short name, as every rule, term and document has one.
    fn id(&mut self, written: Option<&'a Entry>) -> Option<&'a str> {
        let entry = written?;
        let id = self.text(entry)?;
        self.check_id(id, entry.value.span).then_some(id)
    }

    fn check_id(&mut self, id: &str, span: Span) -> bool {
        let good = id.starts_with(|c: char| c.is_ascii_lowercase())
            && id
                .chars()
                .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-');
        if !good {
            self.fault("bad-id", span, format!("`{id}` cannot be a short name."))
                .help("A short name begins with a letter and has small letters, digits and `-` only, as in `rear-line`.");
        }
        good
    }
}

/// `a`, `b` and `c`, each in code marks; of very many only the first.
fn listed<'w>(words: impl IntoIterator<Item = &'w str>) -> String {
    const MOST: usize = 100;
    let words = words.into_iter().map(|word| format!("`{word}`"));
    let mut words: Vec<_> = words.take(MOST + 1).collect();
    if words.len() > MOST {
        words.truncate(MOST);
        return format!("{}, …", words.join(", "));
    }
    match words.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
        None => "none".to_owned(),
    }
}
