//! What to say about a name that means nothing: what was probably meant, or where to define it.

use std::collections::BTreeSet;

use super::{Reader, head_of, listed, parts};
use crate::faults::Code;
use crate::ruleset::read::take::{as_short_name, is_short_name};
use crate::ruleset::read::value::is_amount;
use crate::text::{Content, Entry, Fault, Help, Node, Span, closest, meant_or};
use crate::vocabulary::{KindId, OutlineId};

/// The help if no known name is close.
const DEFINE: &str = "The kinds have English names, such as `pool` and `lot-line`. A name of your own is defined under `terms`, as in `rear-lines: {kind: lot-line, where: …}`, and a kind of your own under `kinds`.";
const NO_TERM: &str = "This is a sentence: write the things that it means, as in `{kind: gate, where: …}`, or what must hold, as in `{area: {of: {each: pool.water}}, less-than: 20 m2}`.";
const NO_NAME: &str = "This is a sentence, not a name: write a kind, such as `gate`, and put what chooses among its things under `where`.";

impl<'a> Reader<'a> {
    /// Whether the files declare this name; what is wrong with it was then reported there.
    pub(crate) fn told_where_declared(&self, name: &str) -> bool {
        let declared = self.declared.get_or_init(|| {
            let nodes = self.files.iter().map(|file| &file.node);
            nodes.flat_map(declared_in).collect()
        });
        !self.faults.is_empty() && declared.contains(name)
    }

    pub(crate) fn unknown_kind(&mut self, name: &str, span: Span) {
        if self.told_where_declared(name) {
            return;
        }
        let within = self.term_within(name).filter(|_| name.contains(' '));
        let terms = closest(name, self.term_by_name.keys().copied());
        let chosen = self.term_for_choice(name).filter(|_| terms.is_none());
        let help = match (chosen, self.near_kind(name)) {
            _ if let Some(term) = within => Help::near(Some(term.to_owned()), ""),
            (Some(term), _) => define(name, &term).into(),
            (None, Some(near)) => Help::near(Some(near), ""),
            _ if is_amount(name) => format!(
                "An amount cannot stand here; a zone is `{{around: pool.water, by: {name}}}`."
            )
            .into(),
            _ if name.contains(' ') && self.around.term.is_some() => NO_TERM.into(),
            _ if name.contains(' ') => NO_NAME.into(),
            _ => DEFINE.into(),
        };
        let message = format!("There is no kind of thing and no term `{name}`.");
        self.fault(Code::UnknownKind, span, message).help(help);
    }

    /// Reports a mistyped kind after `each` wherever else it stands in the rule, of which nothing more is read.
    pub(crate) fn unknown_again(&mut self, each: &Entry, rule: &Node) {
        let Some(name) = each.value.text().filter(|name| !self.is_name(name)) else {
            return;
        };
        if self.term_for_choice(name).is_some() || self.near_kind(name).is_none() {
            return; // One term for all places is to be defined.
        }
        let mut places = Vec::new();
        named_in(rule, name, &mut places);
        places.retain(|place| *place != each.value.span);
        for place in places {
            self.unknown_kind(name, place);
        }
    }

    /// The kind, the term or the outline that a name is close to, or the kind that people call so.
    fn near_kind(&self, name: &str) -> Option<String> {
        let name = without_article(name);
        let names = self.kind_and_term_names();
        let near = || closest(name, names.iter().map(String::as_str)).map(str::to_owned);
        (self.dotted(name).or_else(near)).or_else(|| self.also_called(name))
    }

    /// The term all of whose words stand in a name: `rear-lines` in `all rear lot lines`.
    fn term_within(&self, name: &str) -> Option<&'a str> {
        let name = as_short_name(name);
        let words: Vec<&str> = name.split('-').map(singular).collect();
        let within = |term: &&&str| {
            let mut own = term.split('-').map(singular);
            term.contains('-') && own.all(|word| words.contains(&word))
        };
        let terms = self.term_by_name.keys().filter(within);
        terms.max_by_key(|term| term.len()).copied()
    }

    /// Reports a name that stands where something drawn is wanted, and is neither a kind nor a term.
    pub(crate) fn unknown_drawn(&mut self, name: &str, span: Span) {
        let known = closest(name, self.term_by_name.keys().copied()).or(self.term_within(name));
        if known.is_some() || is_amount(name) || self.told_where_declared(name) {
            return self.unknown_kind(name, span);
        }
        let message = format!("There is no kind of thing and no term `{name}`.");
        let told = |fault: &Fault| fault.code == Code::UnknownKind && fault.message == message;
        let Some(paths) = self.drawn_as(name) else {
            // The definition is written out only once.
            if self.near_kind(name).is_some()
                || !is_short_name(name)
                || self.term_for_choice(name).is_some()
            {
                return self.unknown_kind(name, span);
            }
            if !self.faults.list.iter().any(told) {
                self.fault(Code::UnknownKind, span, message).help(format!(
                    "Define it under `terms`, as in `{name}: pool.water`, or name what is drawn, such as `pool.water`."
                ));
            }
            return;
        };
        let paths: Vec<String> = paths.iter().map(|path| format!("`{path}`")).collect();
        self.fault(Code::UnknownKind, span, message)
            .help(format!("Write {}.", paths.join(" or ")));
    }

    /// The outlines that a name means which has no kind before it: those of this name, those of the kind that people call
    /// so, or the one of the pool that is named in it.
    fn drawn_as(&self, name: &str) -> Option<Vec<String>> {
        const MOST: usize = 4;
        let name = as_short_name(without_article(name));
        let vocabulary = &self.vocabulary;
        let outlines = |kind: KindId| vocabulary.kind(kind).outlines.iter().copied();
        let paths = |ids: Vec<OutlineId>| -> Vec<String> {
            ids.into_iter()
                .map(|id| vocabulary.outline_path(id))
                .collect()
        };
        let kinds = vocabulary.kinds().map(|(kind, _)| kind);
        let own = |id: &OutlineId| vocabulary.outline(*id).name == name;
        let named: Vec<OutlineId> = kinds.flat_map(outlines).filter(own).collect();
        let called = vocabulary
            .kind_named(&name)
            .or_else(|| vocabulary.kind_called(&name));
        let of_called: Vec<OutlineId> = called.into_iter().flat_map(outlines).collect();
        let in_name = |id: &OutlineId| {
            name.split('-')
                .any(|word| word == vocabulary.outline(*id).name)
        };
        let of_pool = self.pool().into_iter().flat_map(outlines).filter(in_name);
        let found = [named, of_called, of_pool.collect()];
        let mut found = found.into_iter().filter(|ids| !ids.is_empty());
        found.next().map(|mut ids| {
            ids.truncate(MOST);
            paths(ids)
        })
    }

    /// The outline or the fact that a name means which has a blank or an apostrophe in place of the dot.
    pub(super) fn dotted(&self, name: &str) -> Option<String> {
        let dotted = name.replace("'s ", ".");
        let (head, tail) = dotted.split_once('.').or(dotted.split_once(' '))?;
        let dotted = format!("{head}.{}", tail.replace(' ', "-"));
        let (head, tail) = dotted.split_once('.')?;
        let kind = self.vocabulary.kind_named(head)?;
        let outline = self.vocabulary.outline_named(kind, tail).is_some();
        (outline || self.vocabulary.fact_named(kind, tail).is_some()).then_some(dotted)
    }

    /// Reports a name that stands where a zone is wanted.
    pub(crate) fn unknown_zone(&mut self, name: &str, span: Span) {
        if self.told_where_declared(name) {
            return;
        }
        let help = match (self.term_for_yard(name), is_amount(name)) {
            (Some(term), _) => define(name, &term),
            (_, true) => format!("Write it as `{{around: pool.water, by: {name}}}`."),
            _ => "Write it as in `{around: pool.water, by: 3 m}`, or define it under `terms` and write its name here.".to_owned(),
        };
        let help = meant_or(name, self.term_by_name.keys().copied(), help);
        let message = format!("A zone is expected here, and there is none `{name}`.");
        self.fault(Code::UnknownKind, span, message).help(help);
    }

    /// The name of the kind that people call so.
    fn also_called(&self, name: &str) -> Option<String> {
        let kind = self.vocabulary.kind_called(name)?;
        Some(self.vocabulary.kind(kind).name.clone())
    }

    fn kind_and_term_names(&self) -> Vec<String> {
        let kinds = self.vocabulary.kinds().map(|(_, kind)| kind.name.clone());
        kinds
            .chain(self.term_by_name.keys().map(|&name| name.to_owned()))
            .collect()
    }

    pub(super) fn unknown_outline(&mut self, kind: KindId, (head, tail): (&str, &str), span: Span) {
        if self.told_where_declared(tail) {
            return;
        }
        let outlines = self.vocabulary.kind(kind).outlines.iter();
        let all = outlines.map(|&id| self.vocabulary.outline(id).name.clone());
        let all: Vec<_> = all.collect();
        let names = || all.iter().map(String::as_str);
        let guess = closest(tail, names()).map(|guess| format!("{head}.{guess}"));
        let lead = match all.as_slice() {
            [_] => "Its only outline is",
            _ => "Its outlines are",
        };
        let list = format!("{lead} {}.", listed(names()));
        let message = format!("`{head}` has no outline `{tail}`.");
        self.fault(Code::UnknownOutline, span, message)
            .help(Help::near(guess, list));
    }
}

/// A name without the word before it that a sentence needs.
pub(super) fn without_article(name: &str) -> &str {
    const BEFORE: [&str; 7] = ["the ", "a ", "an ", "one ", "all ", "each ", "every "];
    let rest = BEFORE.iter().find_map(|word| name.strip_prefix(word));
    rest.map_or(name, without_article)
}

fn singular(word: &str) -> &str {
    word.strip_suffix('s').unwrap_or(word)
}

/// Where a name stands, alone or before a dot.
fn named_in(node: &Node, name: &str, places: &mut Vec<Span>) {
    match &node.content {
        Content::Scalar { text, .. } if parts(text).0 == name => {
            places.push(head_of(text, node.span));
        }
        Content::List(items) => items.iter().for_each(|item| named_in(item, name, places)),
        Content::Map(entries) => (entries.iter()).for_each(|it| named_in(&it.value, name, places)),
        _ => {}
    }
}

/// To define a term, and to write its name if that is not what was written.
fn define(name: &str, term: &str) -> String {
    let id = term.split(':').next().unwrap_or_default();
    let here = match id == name {
        true => String::new(),
        false => format!(", and write `{id}` here"),
    };
    format!("Define it under `terms`{here}: `{term}`.")
}

/// The names that a file declares: of kinds, their outlines and facts, questions, sources and terms.
fn declared_in(node: &Node) -> BTreeSet<String> {
    let items = |node: &'_ Node, key: &str| -> Vec<Node> {
        let Some(written) = node.get(key) else {
            return Vec::new();
        };
        match written.as_list() {
            Some(items) => items.to_vec(),
            None => vec![written.clone()],
        }
    };
    let kinds = items(node, "kinds");
    let inner = kinds
        .iter()
        .flat_map(|kind| [items(kind, "outlines"), items(kind, "facts")].concat());
    let all = kinds
        .iter()
        .cloned()
        .chain(inner.collect::<Vec<_>>())
        .chain(items(node, "questions"));
    // What should be a list may be one item, or have its items' names as keys.
    let keyed = |item: &Node| -> Vec<String> {
        let entries = item.as_map().unwrap_or_default().iter();
        let named = entries.filter(|entry| entry.value.as_map().is_some());
        named.map(|entry| entry.key.clone()).collect()
    };
    let ids = all.flat_map(|item| {
        let id = item.get("id").and_then(Node::text).map(str::to_owned);
        id.into_iter().chain(keyed(&item)).collect::<Vec<_>>()
    });
    let keys = |node: &Node| -> Vec<String> {
        let entries = node.as_map().unwrap_or_default().iter();
        entries.map(|entry: &Entry| entry.key.clone()).collect()
    };
    let sources = node.get("sources").map(keys).unwrap_or_default();
    let terms = node.get("terms").map(keys).unwrap_or_default();
    // Names that cannot stand as they are declared are used as they can.
    let folded = terms.iter().map(|name| as_short_name(name));
    let folded: Vec<String> = folded.collect();
    let last = |id: String| [parts(&id).1.map(str::to_owned), Some(id)];
    let ids = ids.flat_map(last).flatten();
    ids.chain(sources).chain(terms).chain(folded).collect()
}
