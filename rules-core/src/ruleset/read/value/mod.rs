//! Values: what can be measured, and the amounts that a rule states.

pub(super) mod levels;
pub(super) mod measures;
pub(super) mod operands;
pub(super) mod shapes;
pub(super) mod tables;
pub(super) mod zones;

use crate::faults::Code;
use crate::grammar::{self, MEASURES, MeasureKey, TERM_OF};
use crate::quantity::{Dimension, Written, parse, show_exactly};
use crate::ruleset::read::Reader;
use crate::ruleset::read::names::known::Known;
use crate::ruleset::read::names::parts;
use crate::ruleset::types::{Type, agree, of_product, type_of};
use crate::ruleset::{Over, Stated, Value};
use crate::text::{Content, Entry, Node, Span, capitalised, in_short, with_comment_apart};
use crate::vocabulary::KindId;

/// Whether a text is meant as an amount: those begin with a digit, names do not.
pub(crate) fn is_amount(text: &str) -> bool {
    let rest = text.trim_start_matches(['-', '+', '\u{2212}', '.']);
    rest.starts_with(char::is_numeric)
}

impl<'a> Reader<'a> {
    /// A value, where an amount of `wanted` is looked for (`None`: anything that can be measured).
    pub(crate) fn value(&mut self, node: &'a Node, wanted: Option<Dimension>) -> Option<Value> {
        match &node.content {
            Content::Scalar { text, .. } if is_amount(text) => {
                self.stated(text, node.span, wanted).map(Value::Stated)
            }
            Content::Scalar { text, .. } => self.named_value(text, node.span),
            Content::Map(entries) => self.value_map(node, entries, wanted),
            Content::Empty => {
                let example = wanted.unwrap_or(Dimension::Length).example();
                self.fault(Code::NotAValue, node.span, "No amount is written here.")
                    .help(format!("Write one, such as {example}."));
                None
            }
            Content::List(items) => {
                let message = "One amount, fact or measure is expected here, not a list.";
                self.fault(Code::NotAValue, node.span, message)
                    .help(one_for_list(node, items));
                None
            }
        }
    }

    fn value_map(
        &mut self,
        node: &'a Node,
        entries: &'a [Entry],
        wanted: Option<Dimension>,
    ) -> Option<Value> {
        let mut map = self.map(node, "a value")?;
        if self.around.term_of == Some(node.span) {
            map.keys(&[TERM_OF], self.faults());
        }
        let written = |row: &&MeasureKey| entries.iter().any(|entry| entry.key == row.key.name);
        let mut measures = MEASURES.iter().filter(written);
        let (Some(row), None) = (measures.next(), measures.next()) else {
            self.fault(Code::NotOneMeasure, node.span, "One measure is expected here, and just one.")
                .help("Write one of the keys `fact`, `distance`, `area`, `length`, `count`, `table`, `largest-of`, `smallest-of`, `sum`, `difference`, `product`.");
            return None;
        };
        let entry = map.take(row.key.name)?;
        let value = self.measure(row.measure, entry, wanted);
        self.finish(map);
        value
    }

    /// An amount as written: one amount, not a range.
    pub(crate) fn stated(
        &mut self,
        text: &str,
        span: Span,
        wanted: Option<Dimension>,
    ) -> Option<Stated> {
        if wanted == Some(Dimension::Area) && text.trim_end().ends_with('%') {
            self.fault(
                Code::PercentOfWhat,
                span,
                format!("`{text}` is a share, and nothing says a share of what."),
            )
            .help("Put `share-of` into the `area`, as in `share-of: lot.boundary`.");
            return None;
        }
        if let Some(help) = multiplied(text, wanted) {
            let message = format!("`{text}` is worked out from two values.");
            self.fault(Code::BadAmount, span, message).help(help);
            return None;
        }
        if let Some(apart) = with_comment_apart(text) {
            let message = "A comment needs a space before its `#`.";
            self.fault(Code::Comment, span, message)
                .help(format!("Write `{apart}`."));
            return None;
        }
        match parse(text, wanted, None) {
            Ok(written)
                if written.drawn == Some(written.range.low)
                    && written.range.low == written.range.high =>
            {
                self.thousands_point(text, &written, span);
                Some(Stated {
                    range: written.range,
                    dimension: written.dimension,
                    unit: written.unit,
                })
            }
            Ok(written) => {
                let [low, high] = [written.range.low, written.range.high]
                    .map(|end| show_exactly(end, written.unit));
                self.fault(
                    Code::NotOneAmount,
                    span,
                    format!("`{text}` is a range; a rule states one amount."),
                )
                .help(format!(
                    "Write the limit alone. Two limits are `at-least: {low}, at-most: {high}`."
                ));
                None
            }
            Err(wrong) => {
                self.fault(
                    Code::BadAmount,
                    span,
                    format!("{}.", capitalised(&wrong.sentence)),
                )
                .help(ended(&capitalised(&wrong.help)) + &share_of_something(text, wanted));
                None
            }
        }
    }

    /// A point before three figures may be meant to divide thousands.
    fn thousands_point(&mut self, text: &str, written: &Written, span: Span) {
        let figures = text.find(|c: char| !c.is_ascii_digit() && c != '.');
        let (figures, unit) = figures
            .and_then(|at| text.split_at_checked(at))
            .unwrap_or((text, ""));
        let Some((whole, thousand)) = figures.split_once('.') else {
            return;
        };
        let small = matches!(unit.trim(), "mm" | "cm");
        let grouped =
            (1..=3).contains(&whole.len()) && thousand.len() == 3 && !whole.starts_with('0');
        if !grouped || !(small || thousand == "000") {
            return;
        }
        let unit = unit.trim();
        let read = show_exactly(written.range.low, written.unit);
        let message = format!("`{text}` is read as {read}: decimals stand behind a point.");
        self.warning(Code::ThousandsPoint, span, message)
            .help(format!("If {whole}{thousand} {unit} is meant, write `{whole}{thousand} {unit}`; if not, write `{read}`."));
    }

    /// A fact, a question, a day or a term that has a value.
    pub(crate) fn named_value(&mut self, name: &'a str, span: Span) -> Option<Value> {
        if parts(name).1.is_some() && self.meant_as_amount(name).is_some() {
            self.unknown_value(name, span); // The dot is one of `min. 10 ft`.
            return None;
        }
        if parts(name).1.is_some() {
            return self.fact(name, span).map(Value::Fact);
        }
        if let Some(fact) = self.short_fact(name) {
            return Some(Value::Fact(fact));
        }
        match self.term(name, span)? {
            Some(Known::Value(value, sort)) => Some(Value::Named {
                term: self.term_use(name),
                sort,
                value,
            }),
            Some(known) => {
                let message = format!(
                    "`{name}` stands for {}, which has no value by itself.",
                    known.said()
                );
                let help = match known {
                    Known::Requirement(_) => format!(
                        "It is what must hold: write `{{meets: {name}}}`, or `{{not: {{meets: {name}}}}}` where it must not."
                    ),
                    _ => "Measure it: `distance`, `area`, `length` or `count`.".to_owned(),
                };
                self.fault(Code::NotAValue, span, message).help(help);
                None
            }
            None if self.vocabulary.kind_named(name).is_some() => {
                let help = self.facts_of(name);
                self.fault(
                    Code::NotAValue,
                    span,
                    format!("`{name}` is a kind of thing, which has no value by itself."),
                )
                .help(help);
                None
            }
            None => {
                self.unknown_value(name, span);
                None
            }
        }
    }

    /// Some facts of a kind, for whoever wrote the kind alone.
    fn facts_of(&self, kind: &str) -> String {
        const MOST: usize = 3;
        let facts = self
            .vocabulary
            .kind_named(kind)
            .map(|kind| self.fact_names(kind));
        let facts = facts.unwrap_or_default();
        let facts: Vec<_> = facts
            .iter()
            .take(MOST)
            .map(|fact| format!("`{kind}.{fact}`"))
            .collect();
        match facts.is_empty() {
            true => "It has no facts: measure it, or write `count`.".to_owned(),
            false => format!("Write one of its facts, such as {}.", facts.join(", ")),
        }
    }

    pub(crate) fn named(&mut self, entry: &'a Entry) -> Option<Value> {
        let name = self.text(entry)?;
        if is_amount(name) {
            let message = format!(
                "`{name}` is an amount, which stands alone: no `{}` is written before it.",
                entry.key
            );
            self.fault(Code::NotAValue, entry.value.span, message)
                .help(format!(
                    "In place of `{{{}: {name}}}` write `{name}`.",
                    entry.key
                ));
            return None;
        }
        self.named_value(name, entry.value.span)
    }

    /// A list of values, or one value taken of each of some things.
    pub(crate) fn out_of(
        &mut self,
        entry: &'a Entry,
        wanted: Option<Dimension>,
        list: fn(Vec<Value>) -> Value,
        how: Over,
    ) -> Option<Value> {
        if entry.value.as_map().is_none() {
            return self.several(entry, wanted).map(list);
        }
        let [kind, choosing @ .., take] = self.keys(&entry.value, &grammar::TAKEN)?;
        let (of, term) = self.selected(entry.value.span, kind, choosing)?;
        let (kind, node) = (of.kind, &take?.value);
        let take = self.with_bound(kind, term, |reader| reader.value(node, wanted))?;
        self.amount_of_each(&take, node, &entry.key, kind)?;
        Some(Value::Over {
            how,
            of,
            take: Box::new(take),
        })
    }

    /// A word, or yes or no, is not more or less than another.
    fn amount_of_each(&mut self, take: &Value, node: &Node, key: &str, kind: KindId) -> Option<()> {
        let answer = match type_of(take, &self.vocabulary)? {
            Type::Amount(_) => return Some(()),
            Type::Word(_) => "with a word",
            Type::YesNo(_) => "with yes or no",
        };
        let kind = self.vocabulary.kind(kind).name.clone();
        let message =
            format!("`{key}` needs an amount of each thing, and this is answered {answer}.");
        let help = format!("Write a rule for each of them: put `each: {kind}` before it.");
        self.fault(Code::NotAnAmount, node.span, message).help(help);
        None
    }

    /// At least two values of one sort. Those that say their sort are read first, so that the amounts know theirs.
    pub(crate) fn several(
        &mut self,
        entry: &'a Entry,
        wanted: Option<Dimension>,
    ) -> Option<Vec<Value>> {
        let nodes = self.two_or_more(entry)?;
        let spans_days = entry.key == "difference"
            && wanted.is_some_and(|wanted| agree(wanted, Dimension::Days));
        let mut wanted = wanted.filter(|_| !spans_days);
        let mut read: Vec<Option<Value>> = vec![None; nodes.len()];
        for amounts in [false, true] {
            for (node, slot) in nodes.iter().zip(&mut read) {
                if node.text().is_some_and(is_amount) != amounts {
                    continue;
                }
                let sort = wanted.filter(|&wanted| {
                    amounts && !(wanted == Dimension::Date && entry.key != "largest-of")
                });
                *slot = self.value(node, if amounts { sort } else { wanted });
                let found = slot
                    .as_ref()
                    .and_then(|value| type_of(value, &self.vocabulary));
                wanted = wanted.or(found.and_then(Type::dimension));
            }
        }
        let values: Vec<_> = read.into_iter().collect::<Option<_>>()?;
        self.one_sort(&values, nodes, &entry.key)?;
        Some(values)
    }

    fn two_or_more(&mut self, entry: &'a Entry) -> Option<&'a [Node]> {
        let nodes = self.items(&entry.value, &entry.key);
        if nodes.len() < 2 {
            if entry.value.as_list().is_some() {
                self.fault(
                    Code::TooFew,
                    entry.value.span,
                    format!("`{}` needs at least two values.", entry.key),
                )
                .help("Write them as a list, as in `[2 m, 1 m]`; a single value stands alone.");
            }
            return None;
        }
        Some(nodes)
    }

    /// All values must be amounts of one sort; days may be added to and taken from a date.
    fn one_sort(&mut self, values: &[Value], nodes: &[Node], key: &str) -> Option<()> {
        let dimension = |value| type_of(value, &self.vocabulary).and_then(Type::dimension);
        let dimensions: Vec<_> = values.iter().map(dimension).collect();
        let first = dimensions.first().copied().flatten();
        for (dimension, node) in dimensions.into_iter().zip(nodes) {
            let Some(dimension) = dimension else {
                let message = format!("`{key}` needs amounts, and this is a word.");
                self.fault(Code::NotAnAmount, node.span, message);
                return None;
            };
            let first = first?;
            let day_and_days = first == Dimension::Date
                && agree(dimension, Dimension::Days)
                && matches!(key, "sum" | "difference");
            if !agree(first, dimension) && !day_and_days {
                self.sorts_differ(node.span, dimension, first);
                return None;
            }
        }
        Some(())
    }

    /// Says that two things cannot be compared.
    pub(crate) fn sorts_differ(&mut self, span: Span, found: Dimension, wanted: Dimension) {
        let message = format!(
            "This is {}, and {} is expected.",
            found.words(),
            wanted.words()
        );
        self.fault(Code::SortsDiffer, span, message).help(format!(
            "{} is written as {}.",
            capitalised(wanted.words()),
            wanted.example()
        ));
    }

    pub(crate) fn product(&mut self, entry: &'a Entry, wanted: Option<Dimension>) -> Option<Value> {
        let nodes = self.two_or_more(entry)?;
        let values: Vec<_> = nodes.iter().map(|node| self.value(node, None)).collect();
        let values: Vec<_> = values.into_iter().collect::<Option<_>>()?;
        let found = of_product(&values, &self.vocabulary);
        let dimension = |value| type_of(value, &self.vocabulary).and_then(Type::dimension);
        let amounts = values.iter().all(|value| dimension(value).is_some());
        match found {
            Some(_) if amounts => Some(Value::Product(values)),
            _ => {
                let help = wanted.map_or_else(String::new, |wanted| {
                    format!("{} is expected here. ", capitalised(wanted.words()))
                });
                self.fault(Code::BadProduct, entry.value.span, "These cannot be multiplied with each other.")
                    .help(help + "Multiply one amount by plain numbers or shares, or lengths by each other.");
                None
            }
        }
    }
}

/// What to write for a product that is written as in a sum, or as a share of something.
fn multiplied(text: &str, wanted: Option<Dimension>) -> Option<String> {
    let times = text.split_once(['*', '×']);
    if let Some((one, other)) = times.map(|(one, other)| (one.trim(), other.trim()))
        && !one.is_empty()
        && !other.is_empty()
    {
        return Some(format!(
            "Write it as a product: `{{product: [{one}, {other}]}}`."
        ));
    }
    let (share, rest) = text
        .split_once('%')
        .filter(|_| wanted != Some(Dimension::Number))?;
    rest.trim_start()
        .split_once(' ')
        .filter(|(of, _)| *of == "of")?;
    Some(format!(
        "A share of something is a product: `{{product: [{} %, …]}}`, with what it is a share of as in `pool.depth`.",
        share.trim()
    ))
}

/// What to write for a share where an amount is wanted, as the end of a help.
fn share_of_something(text: &str, wanted: Option<Dimension>) -> String {
    let share = text.trim_end().ends_with('%') && wanted != Some(Dimension::Number);
    match share {
        true => format!(
            " A share of something is a product: `{{product: [{text}, …]}}`, with what it is a share of as in `pool.depth`."
        ),
        false => String::new(),
    }
}

/// What to write for a list of amounts or of rows where one amount is wanted.
fn one_for_list(node: &Node, items: &[Node]) -> String {
    let row = |item: &Node| item.get("then").or(item.get("otherwise")).is_some();
    match items.iter().any(row) {
        false if let [one] = items => format!("Take out the brackets: `{}`.", in_short(one)),
        true => "Rows stand in a table: `{table: {by: {area: {of: lot.boundary}}, rows: [{less-than: 500 m2, then: 1 m}, {otherwise: 2 m}]}}`.".to_owned(),
        false => format!("Write one of them; or, where the larger counts, `{{largest-of: {}}}`.", in_short(node)),
    }
}

/// What is missing is fine; what is there and faulty is not.
pub(crate) fn flipped<T>(read: Option<Option<T>>) -> Option<Option<T>> {
    match read {
        None => Some(None),
        Some(None) => None,
        Some(some) => Some(some),
    }
}

/// A sentence with its full stop, unless it is a question.
fn ended(sentence: &str) -> String {
    match sentence.ends_with('?') {
        true => sentence.to_owned(),
        false => format!("{sentence}."),
    }
}
