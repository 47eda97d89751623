//! What to say about a name that means nothing: what was probably meant, or where to define it.

use std::collections::BTreeSet;

use super::{Reader, head_of, listed, parts};
use crate::faults::Code;
use crate::grammar::measure_named;
use crate::quantity::meant_amount;
use crate::ruleset::read::take::{as_short_name, is_short_name};
use crate::ruleset::read::value::is_amount;
use crate::text::{Content, Entry, Fault, Help, Node, Span, closest, meant_or, of_same_words};
use crate::vocabulary::{KindId, OutlineId, Role, Shape};

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
        let bare = without_article(name);
        let terms = self.term_within(bare);
        if let Some(term) = terms.filter(|_| name.contains(' ')) {
            let message = format!("There is no kind of thing and no term `{name}`.");
            let help = Help::near(Some(term.to_owned()), "");
            self.fault(Code::UnknownKind, span, message).help(help);
            return;
        }
        let terms = closest(name, self.term_by_name.keys().copied());
        let chosen = self.term_for_choice(name).filter(|_| terms.is_none());
        let help = match (chosen, self.near_kind(name)) {
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
            // What is to be defined is said once.
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

    /// Reports a fact of something that is neither a kind nor a term; where people call a kind so, with the fact meant.
    pub(super) fn unknown_kind_of_fact(&mut self, head: &str, tail: &str, span: Span) {
        let called = self.vocabulary.kind_called(head);
        let facts = called.map(|kind| (kind, self.fact_names(kind)));
        let meant = facts.and_then(|(kind, facts)| {
            let path = |fact: &str| format!("`{}.{fact}`", self.vocabulary.kind(kind).name);
            let near = closest(tail, facts.iter().map(String::as_str)).map(path);
            let parts = facts
                .iter()
                .filter(|fact| fact.split('-').any(|part| part == tail));
            let parts: Vec<String> = parts.map(|fact| path(fact)).collect();
            near.or((!parts.is_empty()).then(|| parts.join(" or ")))
        });
        let Some(meant) = meant else {
            return self.unknown_kind(head, head_of(&format!("{head}.{tail}"), span));
        };
        let message = format!("There is no kind of thing and no term `{head}`.");
        self.fault(Code::UnknownKind, span, message)
            .help(format!("Write {meant}."));
    }

    /// The outline or the fact that a name means which has a blank or an apostrophe in place of the dot.
    fn dotted(&self, name: &str) -> Option<String> {
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

    pub(super) fn unknown_fact(&mut self, kind: KindId, head: &str, tail: &str, span: Span) {
        if self.told_where_declared(tail) {
            return;
        }
        if let Some(outline) = self.vocabulary.outline_named(kind, tail) {
            let is_area = self.vocabulary.outline(outline).shape == Shape::Area;
            self.fault(
                Code::NotAFact,
                span,
                format!("`{head}.{tail}` is drawn, it is not a fact that has a value."),
            )
            .help(measured(head, tail, is_area));
            return;
        }
        let facts = self.fact_names(kind);
        let facts = || facts.iter().map(String::as_str);
        let guess = closest(tail, facts()).map(|guess| format!("{head}.{guess}"));
        let parts = facts().filter(|fact| fact.split('-').any(|part| part == tail));
        let parts: Vec<String> = parts.map(|fact| format!("{head}.{fact}")).collect();
        let others = self.of_other_kinds(tail);
        let list = match (parts.is_empty(), measure_named(tail).is_some()) {
            _ if let Some(write) = self.in_one_line(&format!("{head}.{tail}")) => write,
            _ if let Some(own) = self.own_of_same_sort(tail, kind) => format!("Write `{own}`."),
            (true, false) if guess.is_none() && tail.contains("yard") => self.within_yard(),
            (true, false) if let (None, Some(others)) = (&guess, others) => others,
            (true, true) if tail == "distance" => "It is measured: write `distance: {from: pool.water, to: lot-line}` in place of `fact`.".to_owned(),
            (true, true) => format!("It is measured: write `{tail}: …` in place of `fact`."),
            (false, _) if guess.is_none() => format!(
                "Write {}.",
                parts
                    .iter()
                    .map(|it| format!("`{it}`"))
                    .collect::<Vec<_>>()
                    .join(" or ")
            ),
            _ => format!("Its facts are {}.", listed(facts())),
        };
        self.fault(
            Code::UnknownFact,
            span,
            format!("`{head}` has no fact `{tail}`."),
        )
        .help(Help::near(guess, list));
    }

    /// The kinds whose fact this is.
    fn of_other_kinds(&self, tail: &str) -> Option<String> {
        let bound = self.around.bound.last().map(|bound| bound.kind);
        let bound = bound.filter(|kind| self.vocabulary.fact_named(*kind, tail).is_some());
        if let Some(kind) = bound {
            let kind = &self.vocabulary.kind(kind).name;
            return Some(format!(
                "`{tail}` is a fact of `{kind}`: write `{kind}.{tail}`."
            ));
        }
        let full = self.with_kind(tail)?;
        Some(format!("`{tail}` is a fact of another kind: write {full}."))
    }

    /// What to write for whoever asks in which yard the pool lies.
    fn within_yard(&self) -> String {
        let term = self.term_by_name.keys().find(|name| name.contains("yard"));
        let name = term.copied().unwrap_or("rear-yard");
        let define = match (term, self.term_for_yard(name)) {
            (None, Some(term)) => format!(" Define the yard under `terms`: `{term}`."),
            _ => String::new(),
        };
        format!(
            "A yard is a zone, and what counts is the area of the pool that lies in it or outside it: in place of the whole, write `{{area: {{of: {{each: pool.water}}, in: {{not: {name}}}}}, at-most: 0 m2}}`.{define}"
        )
    }

    /// Reports a name without a kind that is neither a question nor a day.
    pub(super) fn unknown_question(&mut self, name: &str, span: Span) {
        if self.told_where_declared(name) {
            return;
        }
        let names = self.questions_and_days();
        let write = match self.with_kind(name) {
            Some(full) => format!("Write {full}."),
            None => "Write a fact with its kind before it, as in `gate.latch-height`.".to_owned(),
        };
        let help = match self.dotted(name) {
            Some(fact) => Help::near(Some(fact), ""),
            None => meant_or(name, names.iter().map(String::as_str), write),
        };
        let message = format!("There is no question and no day `{name}`.");
        self.fault(Code::UnknownFact, span, message).help(help);
    }

    fn own_questions(&self) -> Vec<String> {
        let answers = self.vocabulary.with_role(Role::Answers);
        answers.map_or_else(Vec::new, |kind| self.fact_names(kind))
    }

    fn questions_and_days(&self) -> Vec<String> {
        let short = self.vocabulary.short_kinds();
        short.flat_map(|kind| self.fact_names(kind)).collect()
    }

    /// The facts of that name with their kinds: `depth` is `pool.depth`.
    fn with_kind(&self, name: &str) -> Option<String> {
        const MOST: usize = 4;
        let kinds = self.vocabulary.kinds();
        let of = kinds.filter(|(id, _)| self.vocabulary.fact_named(*id, name).is_some());
        let of: Vec<String> = of
            .map(|(_, kind)| format!("`{}.{name}`", kind.name))
            .collect();
        (1..=MOST).contains(&of.len()).then(|| of.join(" or "))
    }

    /// Reports a text that should be an amount, a fact or a term and is none of them.
    pub(crate) fn unknown_value(&mut self, name: &str, span: Span) {
        if self.told_where_declared(name) {
            return;
        }
        let (terms, questions) = (self.term_by_name.keys().copied(), self.questions_and_days());
        let names = terms.chain(questions.iter().map(String::as_str));
        let counted = COUNTED.iter().zip(1..).find(|(word, _)| **word == name);
        let write = match (led_by_bound(name), self.with_kind(name)) {
            (Some((bound, amount)), _) => format!("Write the amount alone, `{amount}`, after the key `{bound}`."),
            (_, Some(full)) => format!("Write {full}."),
            _ if self.meant_as_amount(name).is_some() => format!("Write `{}`.", self.meant_as_amount(name).unwrap_or_default()),
            _ if name == "none" => "Where there is no limit, none is written: leave the key out.".to_owned(),
            _ if let Some((_, number)) = counted => format!("Write the number: `{number}`."),
            _ if let Some(share) = share_in_words(name) => format!("Write the share: `{share}`."),
            _ if is_short_name(name) && !self.own_questions().is_empty() => format!(
                "The questions of these rules are {}. A fact is written with its kind, as in `pool.depth`; an amount begins with a figure, as in `2 m`.",
                listed(self.own_questions().iter().map(String::as_str))
            ),
            _ if is_short_name(name) => format!(
                "A fact is written with its kind, as in `pool.depth`; an amount begins with a figure and ends with its unit, as in `2 m`; a name of your own is defined under `terms`, as in `{name}: 5 ft`."
            ),
            _ => "A fact is written with its kind, as in `pool.depth`; an amount begins with a figure and ends with its unit, as in `2 m`.".to_owned(),
        };
        let alike = of_same_words(name, names.clone()).map(str::to_owned);
        let help = match self.dotted(name) {
            Some(fact) => Help::near(Some(fact), ""),
            None if closest(name, names.clone()).is_none() && alike.is_some() => {
                Help::near(alike, write)
            }
            None => meant_or(name, names, write),
        };
        let message = match self.meant_as_amount(name) {
            Some(_) => format!("`{name}` is not how an amount is written here."),
            None => format!("There is no question, no day and no term `{name}`."),
        };
        self.fault(Code::UnknownValue, span, message).help(help);
    }

    /// The amount that a text means which does not begin with a figure, such as `min. 10 ft`.
    pub(crate) fn meant_as_amount(&self, text: &str) -> Option<String> {
        let sentence = text.contains(' ') || text.starts_with(['>', '<', '~', '≥', '≤', 'l', 'O']);
        meant_amount(text).filter(|_| sentence && !self.is_name(text))
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
fn without_article(name: &str) -> &str {
    const BEFORE: [&str; 6] = ["the ", "a ", "an ", "all ", "each ", "every "];
    let rest = BEFORE.iter().find_map(|word| name.strip_prefix(word));
    rest.map_or(name, without_article)
}

fn singular(word: &str) -> &str {
    word.strip_suffix('s').unwrap_or(word)
}

/// The share that is written in words.
fn share_in_words(text: &str) -> Option<&'static str> {
    const SHARES: [(&str, &str); 5] = [
        ("half", "50 %"),
        ("third", "1/3"),
        ("quarter", "25 %"),
        ("fifth", "20 %"),
        ("tenth", "10 %"),
    ];
    let text = without_article(text);
    let word = text.strip_prefix("one ").unwrap_or(text);
    let known = SHARES.iter().find(|(known, _)| *known == word);
    known.map(|(_, share)| *share)
}

/// How an outline is measured, for whoever took it for a fact.
fn measured(kind: &str, outline: &str, is_area: bool) -> String {
    let path = format!("{kind}.{outline}");
    let distance = format!("`distance: {{from: {path}, to: lot-line}}`");
    match is_area {
        true => format!(
            "Measure it: write `area: {{of: {{each: {path}}}}}` in place of `fact` for its size, with `in: …` for its part in a zone, or {distance}."
        ),
        false => format!("Measure it: write {distance} in place of `fact`."),
    }
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

/// Bounds as people write them in a sentence or with a sign, and the keys to write for them.
const LEADS: [(&str, &str); 16] = [
    ("at least", "at-least"),
    ("at-least", "at-least"),
    ("not less than", "at-least"),
    ("no less than", "at-least"),
    ("minimum", "at-least"),
    (">=", "at-least"),
    ("≥", "at-least"),
    ("at most", "at-most"),
    ("at-most", "at-most"),
    ("not more than", "at-most"),
    ("no more than", "at-most"),
    ("maximum", "at-most"),
    ("<=", "at-most"),
    ("≤", "at-most"),
    (">", "more-than"),
    ("<", "less-than"),
];

/// The numbers that people write as words, from one on.
const COUNTED: [&str; 6] = ["one", "two", "three", "four", "five", "six"];

/// The bound and the amount of a text that has both, such as `at most 2 m`.
pub(crate) fn led_by_bound(text: &str) -> Option<(&'static str, &str)> {
    let (rest, bound) = LEADS
        .iter()
        .find_map(|(lead, bound)| Some((text.strip_prefix(lead)?.trim(), bound)))?;
    is_amount(rest).then_some((*bound, rest))
}
