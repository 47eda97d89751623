//! Where values were read: the sources of a file, and the rules, terms and papers that name them.

use std::collections::BTreeSet;

use crate::faults::Code;
use crate::grammar::{self, GRADES, words};
use crate::quantity::Dimension;
use crate::ruleset::read::Reader;
use crate::ruleset::read::take::as_short_name;
use crate::ruleset::read::value::flipped;
use crate::ruleset::{Cited, Grade, Provenance, Source, SourceIndex, grade_of};
use crate::text::{Entry, Node, Span, meant_or};

/// In the order of their words.
const PROVENANCE: [Provenance; 3] = [
    Provenance::Confirmed,
    Provenance::FromMemory,
    Provenance::Contradicted,
];

/// From 1900 to 2100, in days since 1970-01-01: a law begins to hold in these years.
const USUAL_DAYS: std::ops::Range<i128> = -25_567..47_847;

impl<'a> Reader<'a> {
    /// Reads the sources of a file, before anything that may name them.
    pub(crate) fn collect_sources(&mut self, node: &'a Node) {
        let Some(written) = node.get("sources") else {
            return;
        };
        let Some(entries) = written.as_map() else {
            self.fault(
                Code::NotAMap,
                written.span,
                "Sources are written as `name: {title: …, at: …, grade: …}`, one on each line.",
            )
            .help(match written.as_list() {
                Some(_) => "Take out the hyphens, and put the name of each source before its other keys: in place of `- id: law` write `law:`.",
                None => "Where there are none, leave `sources` out; else write each below it, as in `law: {title: Bylaw 12, grade: law}`.",
            });
            return;
        };
        for entry in entries {
            if let Some(source) = self.source(entry) {
                self.source_places.push(entry.key_span);
                self.sources.push(source);
            }
        }
    }

    fn source(&mut self, entry: &'a Entry) -> Option<Source> {
        let named = self.check_id(&entry.key, entry.key_span);
        let [title, at, grade, read, again, note] = self.keys(&entry.value, &grammar::SOURCE)?;
        let [title, at, note] = [title, at, note].map(|text| self.told(text));
        let grade = grade.and_then(|entry| self.word_of(entry, words(&GRADES), Grade::ALL));
        let days = [read, again].map(|entry| flipped(entry.map(|entry| self.day(entry))));
        let [read_on, again_on] = days;
        let (read_on, again_on) = (read_on?, again_on?);
        if let Some(entry) = again.filter(|_| again_on.is_some() && again_on <= read_on) {
            self.fault(Code::AgainOrder, entry.value.span, "The day after which this must be read again is not later than the one on which it was read.")
                .help("Is one of the two mistyped?");
        }
        named.then_some(Source {
            id: entry.key.clone(),
            title: title?,
            at,
            grade: grade?,
            read: read_on,
            again: again_on,
            note,
            layer: self.file,
        })
    }

    /// The sources that something names.
    pub(crate) fn cited(&mut self, source: Option<&'a Entry>) -> Vec<Cited> {
        source.map_or_else(Vec::new, |entry| self.cited_in(&entry.value))
    }

    /// One source, or a list of some.
    pub(crate) fn cited_in(&mut self, node: &'a Node) -> Vec<Cited> {
        let nodes = node.as_list().unwrap_or(std::slice::from_ref(node));
        nodes
            .iter()
            .filter_map(|node| self.citation(node))
            .collect()
    }

    /// A source by its name, or with the place in it.
    fn citation(&mut self, node: &'a Node) -> Option<Cited> {
        if let Some(name) = node.text() {
            return Some(Cited {
                source: self.source_named(name, node.span)?,
                clause: None,
                value: None,
            });
        }
        let [id, clause, value] = self.keys(node, &grammar::CITATION)?;
        let source = id.and_then(|id| {
            let name = self.text(id)?;
            self.source_named(name, id.value.span)
        });
        let [clause, value] = [clause, value].map(|text| self.told(text));
        Some(Cited {
            source: source?,
            clause,
            value,
        })
    }

    /// The source of that name: in the file itself, else in those that it builds on.
    fn source_named(&mut self, name: &str, span: Span) -> Option<SourceIndex> {
        let all = || self.sources.iter().enumerate();
        let named = || all().filter(|(_, source)| source.id == name);
        let own = named().find(|(_, source)| source.layer == self.file);
        if let Some((place, _)) = own.or_else(|| named().next()) {
            self.used_sources.insert(place);
            return Some(place);
        }
        if self.told_where_declared(name) {
            return None;
        }
        let all = || self.sources.iter().enumerate();
        let names: BTreeSet<String> = all().map(|(_, source)| source.id.clone()).collect();
        let names = names.iter().map(String::as_str);
        let list = format!(
            "Add it under `sources`: `{}: {{title: …, at: …, grade: law}}`.",
            as_short_name(name)
        );
        let help = meant_or(name, names, list);
        let message = format!("There is no source `{name}`.");
        let told = (self.faults.list.iter())
            .any(|fault| fault.code == Code::UnknownSource && fault.message == message);
        if !told && !self.sources_are_no_map() {
            self.fault(Code::UnknownSource, span, message).help(help);
        }
        None
    }

    /// Whether the sources of a file are not written as keys with values, which was said there.
    fn sources_are_no_map(&self) -> bool {
        let mut written = self
            .files
            .iter()
            .filter_map(|file| file.node.get("sources"));
        written.any(|sources| sources.as_map().is_none())
    }

    /// How sure the values of a rule are: as the file says, or as follows from the sources that it names.
    pub(crate) fn provenance(
        &mut self,
        entry: Option<&'a Entry>,
        cited: &[Cited],
        named: (&str, Span),
    ) -> Option<Provenance> {
        let known = words(&grammar::PROVENANCE);
        let written = flipped(entry.map(|entry| self.word_of(entry, known, PROVENANCE)))?;
        let sourced = self.sources.iter().any(|source| source.layer == self.file);
        if !sourced && cited.is_empty() {
            return Some(written.unwrap_or(Provenance::Confirmed));
        }
        let marked = matches!(
            written,
            Some(Provenance::Confirmed | Provenance::FromMemory)
        );
        if let Some(entry) = entry.filter(|_| marked) {
            self.mark_besides_grade(entry);
        }
        if cited.is_empty() {
            self.no_source(named);
        }
        let known = grade_of(&self.sources, cited).unwrap_or(Grade::Memory);
        Some(match (written, known) {
            (Some(Provenance::Contradicted), _) => Provenance::Contradicted,
            (_, Grade::Memory) => Provenance::FromMemory,
            _ => Provenance::Confirmed,
        })
    }

    fn mark_besides_grade(&mut self, entry: &'a Entry) {
        self.fault(Code::MarkAndGrade, entry.key_span, "Where a file has `sources`, their grade says how well a value is known.")
            .help("Take this out. Only `provenance: contradicted` may stand there: it says that the sources of the rule disagree.");
    }

    fn no_source(&mut self, (id, span): (&str, Span)) {
        self.warning(
            Code::NoSource,
            span,
            format!("The rule `{id}` names no source, so that its values count as from memory."),
        )
        .help("Name one with `source`; where nobody looked it up, one with `grade: memory`.");
    }

    /// Says which sources of the file asked for nothing names.
    pub(crate) fn unused_sources(&mut self) {
        let unused = (0..self.sources.len()).filter(|place| !self.used_sources.contains(place));
        for place in unused.collect::<Vec<_>>() {
            let source = self.sources.get(place).filter(|source| source.layer == 0);
            let (Some(source), Some(span)) = (source, self.source_places.get(place)) else {
                continue;
            };
            let (message, span) = (format!("Nothing names the source `{}`.", source.id), *span);
            self.warning(Code::UnusedSource, span, message)
                .help("Name it with `source` in what was read there, or take it out.");
        }
    }
}

impl<'a> Reader<'a> {
    /// The day that stands after a key.
    pub(crate) fn day(&mut self, entry: &'a Entry) -> Option<i128> {
        let text = self.text(entry)?;
        let stated = self.stated(text, entry.value.span, Some(Dimension::Date))?;
        let day = stated.range.low;
        if !USUAL_DAYS.contains(&day) {
            let how = if day < 0 { "long ago" } else { "far ahead" };
            let message = format!("`{text}` is {how}.");
            self.warning(Code::OddYear, entry.value.span, message)
                .help("Is the year right?");
        }
        Some(day)
    }
}
