//! From the text of a rule file to the rules, with every fault of every file in one run.
//!
//! Names are resolved and types are checked while reading: what comes out fits together, so that judging a plan
//! never meets a rule that makes no sense.

mod head;
pub(super) mod layers;
mod lists;
mod take;

mod names;
mod papers;
pub(super) mod rule;
mod value;

use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::lint::holds::{Seen, Sight};
use super::{DocumentIndex, Layer, Question, RuleSet, Source, SourceIndex, built_in};
use crate::faults::Code;
use crate::text::{Entry, Faults, Node, Span};
use crate::vocabulary::{FactId, KindId, Matter, Vocabulary};
use crate::words::Language;
use crate::work;
use head::editions::{Chain, Words};
use head::files::File;
pub use head::format::FORMAT;
pub use head::languages::is_language;
use head::languages::picked;
use layers::Merged;
use names::known::Slot;
use take::listed;

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
#[cfg(any(test, feature = "inside"))] // the program always says in which language
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
pub(super) struct Reader<'a> {
    files: &'a [File],
    merged: &'a Merged,
    pub(super) vocabulary: Vocabulary,
    /// The language that is wanted.
    language: Option<&'a str>,
    /// Which words of the vocabulary are an earlier edition's.
    words: Words,
    /// The file that is being read: a place in `files`.
    file: usize,
    /// What is wrong, with places that say in which file.
    faults: Faults,
    warnings: Faults,
    pub(super) terms: Vec<Slot<'a>>,
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
    pub(super) seen: Seen,
    /// The rule that is being read or looked through.
    pub(super) now: Option<Span>,
    /// Everything that a step can come before or after, once it was asked for.
    events: OnceCell<Rc<BTreeSet<String>>>,
    /// The names the files declare, whether or not they could be read.
    declared: OnceCell<BTreeSet<String>>,
}

/// What surrounds the place that is being read.
#[derive(Debug, Clone, Default)]
struct Around<'a> {
    /// The things that a kind's name stands for here, the innermost last.
    bound: Vec<Bound<'a>>,
    /// The rule's `when` or `unless`, while it is read.
    when_of: Option<WhenOf<'a>>,
    /// Whether an `any-of`, a `count` or a `not` is around, where an empty selection must say what it means.
    combined: bool,
    /// Whether the bound of the measure being read is outside it, and this was already reported.
    bound_outside: bool,
    /// Whether it is reading the things that a rule or a paper is about, one by one.
    one_by_one: bool,
    /// How many terms are being resolved.
    terms_deep: usize,
    /// The term that is being resolved.
    term: Option<&'a Node>,
    /// The term that is being resolved, if it speaks `of` one thing: where it stands.
    term_of: Option<Span>,
}

/// A condition of a rule that is for each of some things.
#[derive(Debug, Clone, Copy)]
struct WhenOf<'a> {
    /// The kind of the things, of which it may not speak.
    kind: KindId,
    /// `when` or `unless`, and what it says.
    written: &'a Entry,
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
            warnings: head::files::slips(files, &merged.warnings),
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
            declared: OnceCell::new(),
        }
    }

    /// Looks at requirements that were read.
    pub(super) fn sight(&self) -> Sight<'_> {
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
        self.faults.without_consequences();
        self.warnings.without_consequences();
        let found = Found {
            faults: head::files::by_file(&self.faults, self.files),
            warnings: head::files::by_file(&self.warnings, self.files),
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
            self.report_unused(rule_set);
            self.no_rules(rule_set);
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
            Some(span) => self.faults.add(Code::TooMuchWork, span, message),
            None => self.faults.add_whole(Code::TooMuchWork, message),
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
        self.slips(&rules);
        let layers = self.layers();
        let built_in = built_in::rules(&self.vocabulary, layers.len());
        let head = head?;
        let rule_set = RuleSet {
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
        };
        self.compare_layers(&rule_set);
        Some(rule_set)
    }

    /// Says that a file has no rules, and nothing else that tells what to do.
    fn no_rules(&mut self, rule_set: &RuleSet) {
        let head = self.files.first().and_then(|file| file.node.get("ruleset"));
        let decides = !rule_set.decisions.is_empty() || !rule_set.duties.is_empty();
        if let (true, false, Some(head)) = (rule_set.rules.is_empty(), decides, head) {
            let message = "There are no rules in this file: every plan passes.";
            self.warning(Code::NoRules, head.span, message)
                .help("Write them under `rules`, each as an item that begins with `- id:`.");
        }
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
}
