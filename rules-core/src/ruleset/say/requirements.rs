//! Requirements as sentences and lists.

use super::examples::examples;
use super::lines::Line;
use super::tables::Found;
use crate::ruleset::visit::Visit;
use crate::ruleset::words::{
    along_words, asked, bounded_words, bounds_words, each_words, if_none_words, kept_words,
    meets_words, requirement_words, so_said, so_words, value_words, verb_after, very_word,
};
use crate::ruleset::{Bound, Each, Requirement, RowTest, RuleSet, Table, Test, Then, Value};
use crate::vocabulary::Answer;

/// How a requirement is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Mode {
    /// It must be so.
    Must,
    /// It should be so.
    Should,
    /// It is so.
    Holds,
}

impl Mode {
    fn verb(self, holds: bool) -> &'static str {
        match (self, holds) {
            (Self::Must, true) => "must be",
            (Self::Must, false) => "must not be",
            (Self::Should, true) => "should be",
            (Self::Should, false) => "should not be",
            (Self::Holds, true) => "is",
            (Self::Holds, false) => "is not",
        }
    }

    /// `all of these hold`, `one of these holds`.
    fn hold(self, one: bool) -> &'static str {
        match self {
            Self::Must => "must hold",
            Self::Should => "should hold",
            Self::Holds if one => "holds",
            Self::Holds => "hold",
        }
    }
}

/// Says requirements of one rule set.
pub(super) struct Sayer<'r> {
    pub rules: &'r RuleSet,
}

impl Sayer<'_> {
    /// A condition: that it is so.
    pub(super) fn holds(&self, requirement: &Requirement) -> Line {
        self.line(requirement, Mode::Holds, true)
    }

    /// A requirement, or with `holds` false its opposite.
    pub(super) fn line(&self, requirement: &Requirement, mode: Mode, holds: bool) -> Line {
        match requirement {
            Requirement::Test(test) => self.test(test, mode, holds),
            Requirement::All(members) | Requirement::Any(members) if members.len() == 1 => {
                let only = members.iter().map(|one| self.line(one, mode, holds)).next();
                only.unwrap_or_else(|| Line::new(""))
            }
            Requirement::All(members) if holds => {
                self.list(format!("all of these {}", mode.hold(false)), members, mode)
            }
            Requirement::Any(members) if holds => self.any(members, mode),
            Requirement::Any(members) => {
                // That none of them "must hold" could mean that all may.
                let hold = match mode {
                    Mode::Must => "may hold",
                    other => other.hold(true),
                };
                self.list(format!("none of these {hold}"), members, Mode::Holds)
            }
            Requirement::Count {
                of,
                bounds: bounds_of,
            } if holds => {
                let bounds = bounds_words(bounds_of, self.rules);
                let head = format!("{bounds} of these {} {}", of.len(), mode.hold(false));
                let list = self.list(head, of, Mode::Holds);
                self.with_tables(list, |found| limits(found, bounds_of))
            }
            Requirement::Not(inner) => self.line(inner, mode, !holds),
            Requirement::Each(each) if holds => self.each(each, mode),
            Requirement::Table(table) if holds => self.table(table, mode),
            Requirement::Meets { term, .. } => {
                Line::new(meets_words(&term.name, mode.verb(holds), self.rules))
            }
            Requirement::Have(document) if holds => self.have(*document, mode),
            Requirement::Refer => Line::new("the authority decides"),
            other => self.opposite(other, mode),
        }
    }

    /// At least one of them. That the authority decides stands outside the list, where it would seem to hold always.
    fn any(&self, members: &[Requirement], mode: Mode) -> Line {
        let refers = |member: &&Requirement| matches!(member, Requirement::Refer);
        let (refer, own): (Vec<_>, Vec<_>) = members.iter().partition(refers);
        let end = match refer.is_empty() {
            true => "",
            false => " (if none does, the authority decides)",
        };
        let own = own.into_iter().map(|it| self.line(it, Mode::Holds, true));
        Line {
            text: format!("at least one of these {}{end}", mode.hold(true)),
            under: own.collect(),
        }
    }

    fn list(&self, head: String, members: &[Requirement], mode: Mode) -> Line {
        let under = members
            .iter()
            .map(|member| self.line(member, mode, true))
            .collect();
        Line { text: head, under }
    }

    /// Something longer that must not be so.
    fn opposite(&self, requirement: &Requirement, mode: Mode) -> Line {
        let inner = self.line(requirement, Mode::Holds, true);
        Line {
            text: format!("it {} so that {}", mode.verb(false), inner.text),
            under: inner.under,
        }
    }

    fn have(&self, document: usize, mode: Mode) -> Line {
        let title = self
            .rules
            .documents
            .get(document)
            .map_or("the document", |document| &document.title);
        Line::new(format!(
            "this document {} in hand: {title}",
            mode.verb(true)
        ))
    }

    /// For each of some things; in one line if what is said of them is one.
    fn each(&self, each: &Each, mode: Mode) -> Line {
        let inner = self.line(&each.require, mode, true);
        let none = each.selection.if_none;
        let none = none.map(|none| format!(" (if there is none, {})", if_none_words(none)));
        let whom = each_words(&each.selection, self.rules);
        let line = Line {
            text: format!("for {whom}{}, {}", none.unwrap_or_default(), inner.text),
            under: inner.under,
        };
        self.with_tables(line, |found| found.selection(&each.selection))
    }

    fn table(&self, table: &Table<Requirement>, mode: Mode) -> Line {
        let rows = table.rows.iter().map(|row| {
            let test = row_test_words(&row.test, table.by.as_ref(), self.rules);
            let then = match &row.then {
                Then::Give(requirement) => self.line(requirement, mode, true),
                Then::Refer => Line::new("the authority decides"),
            };
            let line = Line {
                text: format!("{test}, {}", then.text),
                under: then.under,
            };
            self.with_tables(line, |found| found.row_test(&row.test))
        });
        let list = Line {
            text: "the first of these that applies counts".to_owned(),
            under: rows.collect(),
        };
        self.with_tables(list, |found| table.by.iter().for_each(|by| found.value(by)))
    }

    fn test(&self, test: &Test, mode: Mode, holds: bool) -> Line {
        if let Some((clause, yes)) = asked(&test.value, &test.bounds, self.rules) {
            return match (mode, holds == yes) {
                (Mode::Holds, true) => Line::new(clause),
                (mode, so) => Line::new(so_words(clause, mode.verb(so))),
            };
        }
        if let Some(so) = so_said(&test.value, &test.bounds, self.rules) {
            return Line::new(so.words(mode.verb(holds)));
        }
        let value = value_words(&test.value, self.rules);
        if let [bound] = &test.bounds[..]
            && let Some((word, Value::Table(table))) = limit(bound)
        {
            return self.limited_by_table(&value, test, (word, bound, table), (mode, holds));
        }
        let examples: Vec<_> = (test.bounds.iter())
            .filter_map(|bound| self.example(test, bound, (mode, holds)))
            .chain(self.other_words(test, (mode, holds)))
            .collect();
        let very = match mode {
            Mode::Holds => very_word(&test.value, &test.bounds, self.rules),
            Mode::Must | Mode::Should => String::new(),
        };
        let line = Line::new(format!(
            "{value}{}{}{}{}",
            kept_words(
                &verb_after(&value, mode.verb(holds)),
                &test.bounds,
                holds,
                self.rules
            ),
            very,
            along_words(test),
            in_brackets(&examples)
        ));
        self.with_tables(line, |found| found.test(test))
    }

    /// A limit of which a table says how much it is.
    fn limited_by_table(
        &self,
        value: &str,
        test: &Test,
        (word, bound, table): (&str, &Bound, &Table<Value>),
        (mode, holds): (Mode, bool),
    ) -> Line {
        let line = Line {
            text: format!(
                "{value}{} {word} what the first of these that applies gives{}",
                verb_after(value, mode.verb(holds)),
                along_words(test)
            ),
            under: self.limits(test, bound, table, (mode, holds)),
        };
        self.with_tables(line, |found| found.value(&test.value))
    }

    /// The rows of a table that gives a limit, each with its own examples.
    fn limits(
        &self,
        test: &Test,
        bound: &Bound,
        table: &Table<Value>,
        said: (Mode, bool),
    ) -> Vec<Line> {
        let rows = table.rows.iter().map(|row| {
            let head = row_test_words(&row.test, table.by.as_ref(), self.rules);
            let line = match &row.then {
                Then::Refer => Line::new(format!("{head}, the authority decides")),
                Then::Give(Value::Table(inner)) => Line {
                    text: format!("{head}, the first of these that applies"),
                    under: self.limits(test, bound, inner, said),
                },
                Then::Give(limit) => {
                    let example = self.example(test, &with_limit(bound, limit), said);
                    let words = value_words(limit, self.rules);
                    let example = in_brackets(example.as_slice());
                    let line = Line::new(format!("{head}, {words}{example}"));
                    self.with_tables(line, |found| found.value(limit))
                }
            };
            self.with_tables(line, |found| found.row_test(&row.test))
        });
        rows.collect()
    }

    /// Says how the test comes out for a plan with a word that is not named; `None` if the words are a closed list.
    fn other_words(&self, test: &Test, (mode, holds): (Mode, bool)) -> Option<String> {
        let Value::Fact(fact) = &test.value else {
            return None;
        };
        let open = matches!(
            self.rules.vocabulary.fact(*fact).answer,
            Answer::Word { open: true, .. }
        );
        let then = if holds { "fails" } else { "passes" };
        (open && mode != Mode::Holds).then(|| format!("anything else {then}"))
    }

    fn example(&self, test: &Test, bound: &Bound, (mode, holds): (Mode, bool)) -> Option<String> {
        let (kept, broken) = examples(&test.value, bound, self.rules)?;
        let (good, bad) = if holds {
            (kept, broken)
        } else {
            (broken, kept)
        };
        Some(match mode {
            Mode::Holds => format!("{good} is enough, {bad} is not"),
            Mode::Must | Mode::Should => format!("{good} passes, {bad} fails"),
        })
    }
}

/// When a row applies, in words.
pub(super) fn row_test_words(test: &RowTest, by: Option<&Value>, rules: &RuleSet) -> String {
    match test {
        RowTest::Bounds(bounds) => format!("where {}", bounded_words(by, bounds, rules)),
        RowTest::When(when) => format!("where {}", requirement_words(when, rules)),
        RowTest::Otherwise => "otherwise".to_owned(),
    }
}

fn limits<'r>(found: &mut Found<'r>, bounds: &'r [Bound]) {
    let limits = bounds.iter().filter_map(Bound::limit);
    limits.for_each(|limit| found.value(limit));
}

/// The word of a bound, and its limit.
fn limit(bound: &Bound) -> Option<(&'static str, &Value)> {
    match bound {
        Bound::AtLeast(limit) => Some(("at least", limit)),
        Bound::AtMost(limit) => Some(("at most", limit)),
        Bound::MoreThan(limit) => Some(("more than", limit)),
        Bound::LessThan(limit) => Some(("less than", limit)),
        Bound::Is(_) => None,
    }
}

/// The same bound with another limit.
fn with_limit(bound: &Bound, limit: &Value) -> Bound {
    match bound {
        Bound::AtLeast(_) => Bound::AtLeast(limit.clone()),
        Bound::AtMost(_) => Bound::AtMost(limit.clone()),
        Bound::MoreThan(_) => Bound::MoreThan(limit.clone()),
        Bound::LessThan(_) => Bound::LessThan(limit.clone()),
        Bound::Is(choices) => Bound::Is(choices.clone()),
    }
}

fn in_brackets(examples: &[String]) -> String {
    if examples.is_empty() {
        String::new()
    } else {
        format!(" ({})", examples.join("; "))
    }
}
