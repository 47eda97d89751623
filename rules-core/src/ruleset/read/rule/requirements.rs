//! Requirements: what must hold.

use std::sync::Arc;

use crate::faults::Code;
use crate::grammar::{Combination, Main, Measure, PART, TERM_OF, main_named, mains};
use crate::ruleset::lint;
use crate::ruleset::read::Reader;
use crate::ruleset::read::lists::{as_list, two_requirements};
use crate::ruleset::read::names::known::Known;
use crate::ruleset::read::rule::bounds;
use crate::ruleset::read::rule::wording::right_word;
use crate::ruleset::{Requirement, Value};
use crate::text::{
    Content, Entry, Help, MapReader, Node, Span, capitalised, closest, in_short, meant_or,
    of_same_words,
};

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
                let help = self.to_hold(text);
                self.fault(
                    Code::NotARequirement,
                    node.span,
                    format!("`{text}` alone does not say what must hold."),
                )
                .help(help);
                None
            }
            Content::Empty => {
                self.fault(
                    Code::EmptyValue,
                    node.span,
                    "Nothing says what must hold here.",
                )
                .help("Write it behind the `:`, or on the next lines, further in.");
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
            .help("Write what must hold between the brackets, as in `[{fact: pool.depth, at-most: 2 m}]`.");
        }
        if self.limits_alone(items) {
            return None;
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
        let [part] = map.keys(&[PART], self.faults());
        self.id(part);
        self.wrong_words(&mut map, entries);
        let main = |entry: &'a Entry| Some((entry, main_named(&entry.key)?));
        let mut mains = entries.iter().filter_map(main);
        let Some((entry, main)) = mains.next() else {
            if !self.of_rule(&mut map, node) && !self.fact_as_key(entries) {
                self.no_main(node, entries);
            }
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
            .help(two_requirements(node, entries));
            return None;
        }
        let outside =
            self.bound_beside_list(&mut map, (entry, main), entries) || self.around.bound_outside;
        let outside = std::mem::replace(&mut self.around.bound_outside, outside);
        let requirement = self.combination(&mut map, (entry, main), entries);
        self.around.bound_outside = outside;
        self.of_measure(&mut map, entry);
        self.of_rule(&mut map, node);
        self.finish(map);
        requirement
    }

    /// There is no key that says what the requirement is.
    fn no_main(&mut self, node: &Node, entries: &[Entry]) {
        let named = |entry: &Entry| {
            let measured = matches!(entry.key.as_str(), "setback" | "clearance");
            measured || right_word(&entry.key).and_then(main_named).is_some()
        };
        if entries.iter().any(named) {
            return; // Its right word was named already.
        }
        if let Some((outer, inner)) = entries.iter().find_map(wrapped) {
            let rest = entries
                .iter()
                .filter(|entry| entry.key_span != outer.key_span);
            let whole = Content::Map(inner.iter().chain(rest).cloned().collect());
            let whole = in_short(&Node {
                content: whole,
                ..*node
            });
            let message = format!("`{}` has no place beside a limit.", outer.key);
            self.fault(Code::NoRequirement, outer.key_span, message)
                .help(format!("Put the measure itself there: `{whole}`."));
            return;
        }
        let guess = entries
            .iter()
            .find_map(|entry| Some((entry, closest(&entry.key, mains())?)));
        let span = guess.map_or(node.span, |(entry, _)| entry.key_span);
        let help = match guess {
            Some((_, guess)) => Help::near(Some(guess.to_owned()), ""),
            None => "Write one of `fact`, `distance`, `area`, `length`, `count`, `enclosure`, `sound`, `all-of`, `any-of`, `not`, `each`, `meets`, `have`, `table`.".into(),
        };
        let message = "Nothing says what must hold here.";
        self.fault(Code::NoRequirement, span, message).help(help);
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
            Main::Combination(Combination::Not) => self.not(entry),
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
            Main::Measure(_) if self.limit_as_measure(map, entry) => {
                self.test(map, None, entries)?;
                None
            }
            Main::Measure(measure) => {
                let value = self.measure(measure, entry, None);
                self.test(map, value, entries)
                    .map(|test| Requirement::Test(Arc::new(test)))
            }
        }
    }

    fn not(&mut self, entry: &'a Entry) -> Option<Requirement> {
        let inner = self.combining(|reader| reader.requirement(&entry.value))?;
        let (code, message, help) = match &inner {
            Requirement::Not(_) => (
                Code::DoubleNot,
                "Two `not` cancel each other out.",
                "Take both out, or the one that is too many.",
            ),
            Requirement::All(members) if members.len() > 1 && entry.value.as_list().is_some() => (
                Code::NotOfList,
                "A `not` before a list holds wherever not all of the list holds.",
                "If that is meant, write `not: {all-of: [...]}`; if none of the list may hold, `not: {any-of: [...]}`.",
            ),
            _ => return Some(Requirement::Not(Box::new(inner))),
        };
        self.warning(code, entry.key_span, message).help(help);
        Some(Requirement::Not(Box::new(inner)))
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
            let message = format!("After `{}`, a list of requirements is expected.", entry.key);
            self.fault(Code::NotAList, entry.value.span, message)
                .help(as_list(&entry.value, &entry.key));
            return None;
        }
        let items = self.items(&entry.value, &entry.key);
        let read = self.requirements(items, entry.value.span);
        let all = main_named(&entry.key) == Some(Main::Combination(Combination::All));
        if let (Some(_), [one], true) = (&read, items, all) {
            self.one_member(entry, one);
        }
        read
    }

    /// Asks whether more belongs to a list of one requirement.
    fn one_member(&mut self, entry: &Entry, one: &Node) {
        let message = format!("`{}` has one item only.", entry.key);
        self.warning(Code::OneMember, entry.key_span, message).help(format!(
            "Does the line after it belong to it? Then begin that line in the column of its item. If not, write the item alone: `{}`.",
            in_short(one)
        ));
    }

    fn any_of(&mut self, entry: &'a Entry) -> Option<Requirement> {
        let members = self.combining(|reader| reader.members(entry))?;
        if lint::guards_one_fact(&members, &self.vocabulary) {
            self.warning(Code::UseATable, entry.key_span, "Each member of this `any-of` is for another case of one fact. Written so, the report asks for that fact even where the answer changes nothing.")
                .help("Write a `table` with a row for each case.");
        }
        self.idle_member(&members);
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
                )
                .help("Things are named after `each`, `kind` or `to`, and zones after `in`; `meets` needs a term that says what must hold.");
                None
            }
            None if self.short_fact(name).is_some() => {
                let help = self.to_hold(name);
                self.fault(
                    Code::UnknownTerm,
                    entry.value.span,
                    format!("`{name}` is a question or a day, not a term."),
                )
                .help(help);
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
                let define = match name.contains('.') {
                    true => {
                        "a fact is no term: write the condition itself, as in `{fact: pool.depth, at-most: 1 m}`."
                    }
                    false => "define it under `terms`: a name, and what it stands for.",
                };
                let terms = || self.term_by_name.keys().copied();
                let alike = of_same_words(name, terms()).map(str::to_owned);
                let help = match alike.filter(|_| closest(name, terms()).is_none()) {
                    Some(term) => Help::near(Some(term), format!("If it is another: {}", define)),
                    None => meant_or(name, terms(), capitalised(define)),
                };
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

/// A key after which a measure stands, and the measure.
fn wrapped(entry: &Entry) -> Option<(&Entry, &[Entry])> {
    let inner = entry.value.as_map()?;
    let [measure] = inner else { return None };
    main_named(&measure.key).map(|_| (entry, inner))
}
