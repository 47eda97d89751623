//! Requirements: what must hold.

use std::sync::Arc;

use crate::faults::Code;
use crate::grammar::{Combination, Main, Measure, PART, TERM_OF, main_named, mains};
use crate::ruleset::lint;
use crate::ruleset::read::Reader;
use crate::ruleset::read::names::terms::Known;
use crate::ruleset::read::rule::bounds;
use crate::ruleset::{Requirement, Value};
use crate::text::{Content, Entry, Help, MapReader, Node, Span, closest, meant_or};

impl<'a> Reader<'a> {
    /// A requirement that stands for itself: a rule's, a condition, a `where`, a term's.
    pub(crate) fn whole_requirement(&mut self, node: &'a Node) -> Option<Requirement> {
        let combined = std::mem::replace(&mut self.around.combined, false);
        let requirement = self.requirement(node);
        self.around.combined = combined;
        let requirement = requirement?;
        self.lint(&requirement, node.span);
        Some(requirement)
    }

    /// A requirement: a measure with its bounds, a combination, or a list, of which all must hold.
    pub(crate) fn requirement(&mut self, node: &'a Node) -> Option<Requirement> {
        match &node.content {
            Content::Map(entries) => self.requirement_map(node, entries),
            Content::List(items) => self.requirements(items, node.span).map(Requirement::All),
            Content::Scalar { text, .. } if text == "refer" => Some(Requirement::Refer),
            Content::Scalar { text, .. } => {
                let meets = if self.term_by_name.contains_key(text.as_str()) {
                    format!("Write `{{meets: {text}}}`.")
                } else {
                    "Write a measure with its bound, as in `{fact: pool.depth, at-most: 2 m}`."
                        .to_owned()
                };
                self.fault(
                    Code::NotARequirement,
                    node.span,
                    format!("`{text}` alone does not say what must hold."),
                )
                .help(meets);
                None
            }
            Content::Empty => {
                self.fault(
                    Code::EmptyValue,
                    node.span,
                    "Nothing says what must hold here.",
                );
                None
            }
        }
    }

    fn requirements(&mut self, items: &'a [Node], span: Span) -> Option<Vec<Requirement>> {
        if items.is_empty() {
            self.fault(
                Code::EmptyList,
                span,
                "This list is empty, so it does not say what must hold.",
            )
            .help(
                "Write what must hold below it, each on a line of its own that begins with `- `.",
            );
        }
        let read: Vec<_> = items.iter().map(|item| self.requirement(item)).collect();
        read.into_iter()
            .collect::<Option<Vec<_>>>()
            .filter(|read| !read.is_empty())
    }

    fn requirement_map(&mut self, node: &'a Node, entries: &'a [Entry]) -> Option<Requirement> {
        let mut map = self.map(node, "a requirement")?;
        if self.around.term_of == Some(node.span) {
            map.keys(&[TERM_OF], self.faults());
        }
        map.keys(&[PART], self.faults());
        self.wrong_words(&mut map, entries);
        let main = |entry: &'a Entry| Some((entry, main_named(&entry.key)?));
        let mut mains = entries.iter().filter_map(main);
        let Some((entry, main)) = mains.next() else {
            self.no_main(node, entries);
            return None;
        };
        if let Some((second, _)) = mains.next() {
            self.fault(
                Code::TwoRequirements,
                second.key_span,
                format!(
                    "`{}` and `{}` are two requirements in one.",
                    entry.key, second.key
                ),
            )
            .help("Write a list with one of them on each line, which begins with `- `.");
            return None;
        }
        let requirement = self.combination(&mut map, (entry, main), entries);
        self.finish(map);
        requirement
    }

    /// There is no key that says what the requirement is.
    fn no_main(&mut self, node: &Node, entries: &[Entry]) {
        if entries.iter().any(|entry| {
            bounds::right_word(&entry.key).is_some_and(|key| main_named(key).is_some())
        }) {
            return; // Its right word was named already.
        }
        let guess = entries
            .iter()
            .find_map(|entry| Some((entry, closest(&entry.key, mains())?)));
        let span = guess.map_or(node.span, |(entry, _)| entry.key_span);
        let help = match guess {
            Some((_, guess)) => Help::near(Some(guess.to_owned()), ""),
            None => "Write one of `fact`, `distance`, `area`, `length`, `count`, `enclosure`, `sound`, `all-of`, `any-of`, `not`, `each`, `meets`, `have`, `table`.".into(),
        };
        self.fault(
            Code::NoRequirement,
            span,
            "Nothing says what must hold here.",
        )
        .help(help);
    }

    fn combination(
        &mut self,
        map: &mut MapReader<'a>,
        (entry, main): (&'a Entry, Main),
        entries: &'a [Entry],
    ) -> Option<Requirement> {
        let node = &entry.value;
        map.take(&entry.key);
        match main {
            Main::Combination(Combination::All) => self.members(entry).map(Requirement::All),
            Main::Combination(Combination::Any) => self.any_of(entry),
            Main::Combination(Combination::Not) => self
                .combining(|reader| reader.requirement(node))
                .map(|inner| Requirement::Not(Box::new(inner))),
            Main::Measure(Measure::Count) if node.as_list().is_some() => {
                self.count_of(map, entry, entries)
            }
            Main::Measure(Measure::Table) if !bounds::is_bounded(entries) => self
                .requirement_table(node)
                .map(|table| Requirement::Table(Box::new(table))),
            Main::Combination(Combination::Each) => self.nested_each(map),
            Main::Combination(Combination::Meets) => self.meets(entry),
            Main::Combination(Combination::Have) => self.have(entry),
            Main::Combination(Combination::Refer) => self.yes_no(node).map(|_| Requirement::Refer),
            Main::Measure(measure) => {
                let value = self.measure(measure, entry, None);
                self.test(map, value, entries)
                    .map(|test| Requirement::Test(Arc::new(test)))
            }
        }
    }

    /// Reads something where an empty selection must say what it means.
    pub(crate) fn combining<T>(&mut self, read: impl FnOnce(&mut Self) -> T) -> T {
        let before = std::mem::replace(&mut self.around.combined, true);
        let result = read(self);
        self.around.combined = before;
        result
    }

    fn members(&mut self, entry: &'a Entry) -> Option<Vec<Requirement>> {
        if entry.value.as_map().is_some() {
            self.fault(
                Code::NotAList,
                entry.value.span,
                format!("After `{}`, a list of requirements is expected.", entry.key),
            )
            .help("Put each requirement on a line of its own, which begins with `- `.");
            return None;
        }
        let items = self.items(&entry.value, &entry.key);
        self.requirements(items, entry.value.span)
    }

    fn any_of(&mut self, entry: &'a Entry) -> Option<Requirement> {
        let members = self.combining(|reader| reader.members(entry))?;
        if lint::guards_one_fact(&members, &self.vocabulary) {
            self.warning(Code::UseATable, entry.key_span, "Each member of this `any-of` is for another case of one fact. Written so, the report asks for that fact even where the answer changes nothing.")
                .help("Write a `table` with a row for each case.");
        }
        Some(Requirement::Any(members))
    }

    fn count_of(
        &mut self,
        map: &mut MapReader<'a>,
        entry: &'a Entry,
        entries: &'a [Entry],
    ) -> Option<Requirement> {
        let members = self.combining(|reader| reader.members(entry));
        // The bounds of such a count are plain numbers, as those of any other.
        let test = self.test(
            map,
            Some(Value::Count(crate::ruleset::read::names::all_of(
                crate::vocabulary::KindId(0),
            ))),
            entries,
        );
        let bounds = test?.bounds;
        Some(Requirement::Count {
            of: members?,
            bounds,
        })
    }

    fn meets(&mut self, entry: &'a Entry) -> Option<Requirement> {
        let name = self.text(entry)?;
        match self.term(name, entry.value.span)? {
            Some(Known::Requirement(requirement)) => {
                if self.around.combined && self.sight().lacks_if_none(&requirement) {
                    self.fault(Code::IfNoneMissing, entry.value.span, format!("`{name}` does not say what it means if there is none of the things that it speaks of."))
                        .help("Inside `any-of`, `count` and `not` this must be said: add `if-none: passes`, `if-none: fails` or `if-none: refer` where the term is defined.");
                }
                Some(Requirement::Meets {
                    term: self.term_use(name),
                    requirement,
                })
            }
            Some(known) => {
                self.fault(
                    Code::NotARequirement,
                    entry.value.span,
                    format!(
                        "`{name}` is a term that stands for {}, not for a requirement.",
                        known.said()
                    ),
                );
                None
            }
            None if self.rule_names.contains(name) => {
                self.fault(
                    Code::NotARequirement,
                    entry.value.span,
                    format!("`{name}` is a rule, which may have reliefs; only a term can be met."),
                )
                .help("Define what it requires as a term, and let both say `meets`.");
                None
            }
            None => {
                let define = "Define it under `terms`: a name, and what it stands for.";
                let help = meant_or(name, self.term_by_name.keys().copied(), define);
                let message = format!("There is no term `{name}`.");
                self.fault(Code::UnknownTerm, entry.value.span, message)
                    .help(help);
                None
            }
        }
    }

    fn have(&mut self, entry: &'a Entry) -> Option<Requirement> {
        let name = self.text(entry)?;
        let document = self.document_named(name, entry.value.span)?;
        self.for_which(name, document, entry.value.span)?;
        Some(Requirement::Have(document))
    }
}
