//! Requirements as sentences and lists.

use super::examples::examples;
use super::lines::{Line, lower};
use super::{bounds_of_row, if_none_words};
use crate::ruleset::words::{
    bound_words, bounds_words, each_words, requirement_words, term_words, value_words,
};
use crate::ruleset::{
    Bound, Choice, Each, Requirement, RowTest, RuleSet, Table, Test, Then, Value,
};
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

    fn hold(self) -> &'static str {
        match self {
            Self::Must => "must hold",
            Self::Should => "should hold",
            Self::Holds => "hold",
        }
    }
}

/// Says requirements of one rule set.
pub(super) struct Sayer<'r> {
    pub rules: &'r RuleSet,
}

impl Sayer<'_> {
    /// A requirement, or with `holds` false its opposite.
    pub(super) fn line(&self, requirement: &Requirement, mode: Mode, holds: bool) -> Line {
        match requirement {
            Requirement::Test(test) => self.test(test, mode, holds),
            Requirement::All(members) if holds => {
                self.list(format!("all of these {}", mode.hold()), members, mode)
            }
            Requirement::Any(members) if holds => self.list(
                format!("at least one of these {}", mode.hold()),
                members,
                Mode::Holds,
            ),
            Requirement::Count { of, bounds } if holds => {
                let bounds = bounds_words(bounds, None, self.rules);
                self.list(
                    format!("{bounds} of these {} {}", of.len(), mode.hold()),
                    of,
                    Mode::Holds,
                )
            }
            Requirement::Not(inner) => self.line(inner, mode, !holds),
            Requirement::Each(each) if holds => self.each(each, mode),
            Requirement::Table(table) if holds => self.table(table, mode),
            Requirement::Meets { term, .. } if holds => Line::new(format!(
                "{} {} met",
                term_words(&term.name),
                mode.verb(true)
            )),
            Requirement::Have(document) if holds => self.have(*document, mode),
            Requirement::Refer => Line::new("the authority decides"),
            other => self.opposite(other, mode),
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
        let none = each.selection.if_none.filter(|_| !self.is_pool(each));
        let none = none.map(|none| format!(" (if there is none, {})", if_none_words(none)));
        let lead = if self.is_pool(each) {
            String::new()
        } else {
            format!(
                "for {}{}, ",
                each_words(&each.selection, self.rules),
                none.unwrap_or_default()
            )
        };
        Line {
            text: lead + &inner.text,
            under: inner.under,
        }
    }

    /// That a rule is for each pool goes without saying.
    fn is_pool(&self, each: &Each) -> bool {
        let selection = &each.selection;
        self.rules.vocabulary.kind_named("pool") == Some(selection.kind)
            && selection.filter.is_none()
            && selection.zone.is_none()
    }

    fn table(&self, table: &Table<Requirement>, mode: Mode) -> Line {
        let rows = table.rows.iter().map(|row| {
            let test = row_test_words(&row.test, table.by.as_ref(), self.rules);
            let then = match &row.then {
                Then::Give(requirement) => self.line(requirement, mode, true),
                Then::Refer => Line::new("the authority decides"),
            };
            Line {
                text: format!("{test}, {}", then.text),
                under: then.under,
            }
        });
        Line {
            text: "the first of these that applies counts".to_owned(),
            under: rows.collect(),
        }
    }

    fn test(&self, test: &Test, mode: Mode, holds: bool) -> Line {
        let value = value_words(&test.value, self.rules);
        if let (Some(clause), [Bound::Is(choices)]) =
            (value.strip_prefix("whether "), test.bounds.as_slice())
            && let Some(yes) = self.asked(&test.value, choices)
        {
            return match (mode, holds == yes) {
                (Mode::Holds, true) => Line::new(clause),
                (mode, so) => Line::new(format!("it {} so that {clause}", mode.verb(so))),
            };
        }
        let verb = mode.verb(holds);
        match test.bounds.as_slice() {
            [bound] => self.one_bound(&value, test, bound, (mode, holds)),
            bounds => {
                let examples: Vec<_> = bounds
                    .iter()
                    .filter_map(|bound| self.example(test, bound, (mode, holds)))
                    .collect();
                let words = bounds_words(bounds, Some(&test.value), self.rules);
                Line::new(format!("{value} {verb} {words}{}", in_brackets(&examples)))
            }
        }
    }

    fn one_bound(
        &self,
        value: &str,
        test: &Test,
        bound: &Bound,
        (mode, holds): (Mode, bool),
    ) -> Line {
        let verb = mode.verb(holds);
        if let Some((word, Value::Table(table))) = limit(bound) {
            return Line {
                text: format!("{value} {verb} {word} what the first of these that applies gives"),
                under: self.limits(test, bound, table, (mode, holds)),
            };
        }
        let example = self.example(test, bound, (mode, holds));
        let words = bound_words(bound, Some(&test.value), self.rules);
        let verb = match mode {
            // `the side on which the latch is is pool`
            Mode::Holds if value.ends_with(" is") => {
                if holds {
                    ":"
                } else {
                    ": not"
                }
            }
            _ => &format!(" {verb}"),
        };
        Line::new(format!(
            "{value}{verb} {words}{}",
            in_brackets(example.as_slice())
        ))
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
            match &row.then {
                Then::Refer => Line::new(format!("{head}, the authority decides")),
                Then::Give(Value::Table(inner)) => Line {
                    text: format!("{head}, the first of these that applies"),
                    under: self.limits(test, bound, inner, said),
                },
                Then::Give(limit) => {
                    let example = self.example(test, &with_limit(bound, limit), said);
                    let words = value_words(limit, self.rules);
                    Line::new(format!(
                        "{head}, {words}{}",
                        in_brackets(example.as_slice())
                    ))
                }
            }
        });
        rows.collect()
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

    /// Whether a fact of yes or no is asked for yes or for no.
    fn asked(&self, value: &Value, choices: &[Choice]) -> Option<bool> {
        let Value::Fact(fact) = value else {
            return None;
        };
        match choices {
            [Choice::Word(word)] if self.rules.vocabulary.fact(*fact).answer == Answer::YesNo => {
                Some(word == "yes")
            }
            _ => None,
        }
    }
}

/// When a row applies, in words.
pub(super) fn row_test_words(test: &RowTest, by: Option<&Value>, rules: &RuleSet) -> String {
    match test {
        RowTest::Bounds(bounds) => bounds_of_row(bounds, by, rules),
        RowTest::When(when) => format!("where {}", lower(&requirement_words(when, rules))),
        RowTest::Otherwise => "otherwise".to_owned(),
    }
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
