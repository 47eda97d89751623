//! Values: what can be measured, and the amounts that a rule states.

pub(super) mod levels;
pub(super) mod measures;
pub(super) mod operands;
pub(super) mod tables;
pub(super) mod zones;

use crate::faults::Code;
use crate::grammar::{self, MEASURES, Measure, MeasureKey, TERM_OF};
use crate::quantity::{Dimension, parse};
use crate::ruleset::read::Reader;
use crate::ruleset::read::names::parts;
use crate::ruleset::read::names::terms::Known;
use crate::ruleset::types::{Type, agree, of_product, type_of};
use crate::ruleset::{Over, Stated, Value};
use crate::text::{Content, Entry, Node, Span, capitalised, meant_or};

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
            _ => {
                let message = format!(
                    "An amount, a fact or a measure is expected here, not {}.",
                    node.describe()
                );
                self.fault(Code::NotAValue, node.span, message).help(
                    "Write one limit; where the larger of two counts, `largest-of` with a list.",
                );
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
        match parse(text, wanted, None) {
            Ok(written)
                if written.drawn == Some(written.range.low)
                    && written.range.low == written.range.high =>
            {
                Some(Stated {
                    range: written.range,
                    dimension: written.dimension,
                    unit: written.unit,
                })
            }
            Ok(_) => {
                self.fault(
                    Code::NotOneAmount,
                    span,
                    format!("`{text}` is a range; a rule states one amount."),
                )
                .help("Write the limit alone; how well something was measured stands in the plan.");
                None
            }
            Err(wrong) => {
                self.fault(
                    Code::BadAmount,
                    span,
                    format!("{}.", capitalised(&wrong.sentence)),
                )
                .help(ended(&capitalised(&wrong.help)));
                None
            }
        }
    }

    /// A fact, a question, a day or a term that has a value.
    pub(crate) fn named_value(&mut self, name: &'a str, span: Span) -> Option<Value> {
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
                self.fault(Code::NotAValue, span, message)
                    .help("Measure it: `distance`, `area`, `length` or `count`.");
                None
            }
            None if self.vocabulary.kind_named(name).is_some() => {
                self.fault(
                    Code::NotAValue,
                    span,
                    format!("`{name}` is a kind of thing, which has no value by itself."),
                )
                .help(format!("Write one of its facts, as in `{name}.…`."));
                None
            }
            None => {
                let write = "A fact is written with its kind, as in `pool.depth`; an amount begins with a digit.";
                let help = meant_or(name, self.term_by_name.keys().copied(), write);
                let message = format!("There is no question, no day and no term `{name}`.");
                self.fault(Code::UnknownValue, span, message).help(help);
                None
            }
        }
    }

    /// What a measure says.
    pub(crate) fn measure(
        &mut self,
        measure: Measure,
        entry: &'a Entry,
        wanted: Option<Dimension>,
    ) -> Option<Value> {
        let node = &entry.value;
        match measure {
            Measure::Fact | Measure::Value => self.named(entry),
            Measure::Distance => self.distance(node).map(|it| Value::Distance(Box::new(it))),
            Measure::Area => self.area(node).map(|it| Value::Area(Box::new(it))),
            Measure::Length => self.length(node),
            Measure::Count => self.selection(node).map(Value::Count),
            Measure::Enclosure => self
                .enclosure(node)
                .map(|it| Value::Enclosure(Box::new(it))),
            Measure::Sound => self.sound(node).map(|it| Value::Sound(Box::new(it))),
            Measure::Level | Measure::GroundLevel => {
                let level = self.level_of(node, measure == Measure::GroundLevel);
                level.map(|it| Value::Level(Box::new(it)))
            }
            Measure::Fall => self.fall(node).map(|it| Value::Fall(Box::new(it))),
            Measure::Volume | Measure::Uplift => {
                let volume = self.volume(node, measure == Measure::Uplift);
                volume.map(|it| Value::Volume(Box::new(it)))
            }
            Measure::Height => self.height_over(node).map(|it| Value::Height(Box::new(it))),
            Measure::Table => {
                let table = self.value_table(node, wanted);
                table.map(|it| Value::Table(Box::new(it)))
            }
            Measure::Largest => self.out_of(entry, wanted, Value::Largest, Over::Largest),
            Measure::Smallest => self.out_of(entry, wanted, Value::Smallest, Over::Smallest),
            Measure::Sum => self.out_of(entry, wanted, Value::Sum, Over::Sum),
            Measure::Difference => self.several(entry, wanted).map(Value::Difference),
            Measure::Product => self.product(entry, wanted),
        }
    }

    fn named(&mut self, entry: &'a Entry) -> Option<Value> {
        let name = self.text(entry)?;
        self.named_value(name, entry.value.span)
    }

    /// A list of values, or one value taken of each of some things.
    fn out_of(
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
        let kind = of.kind;
        let take = take.and_then(|take| {
            self.with_bound(kind, term, |reader| reader.value(&take.value, wanted))
        });
        Some(Value::Over {
            how,
            of,
            take: Box::new(take?),
        })
    }

    /// At least two values of one sort. Those that say their sort are read first, so that the amounts know theirs.
    fn several(&mut self, entry: &'a Entry, wanted: Option<Dimension>) -> Option<Vec<Value>> {
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
        let sorts: Vec<_> = values
            .iter()
            .map(|value| type_of(value, &self.vocabulary))
            .collect();
        let first = sorts.first().copied().flatten().and_then(Type::dimension);
        for (sort, node) in sorts.iter().zip(nodes) {
            let Some(dimension) = sort.and_then(Type::dimension) else {
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

    fn product(&mut self, entry: &'a Entry, wanted: Option<Dimension>) -> Option<Value> {
        let nodes = self.two_or_more(entry)?;
        let values: Vec<_> = nodes.iter().map(|node| self.value(node, None)).collect();
        let values: Vec<_> = values.into_iter().collect::<Option<_>>()?;
        let found = of_product(&values, &self.vocabulary);
        let amounts = values.iter().all(|value| {
            type_of(value, &self.vocabulary)
                .and_then(Type::dimension)
                .is_some()
        });
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
