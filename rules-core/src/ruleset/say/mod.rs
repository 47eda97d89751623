//! The read-back: what a rule file really says, in plain sentences, with an example on each side of each limit, so that
//! whoever wrote it sees whether it is what they meant.

mod examples;
mod head;
mod lines;
mod lists;
mod page;
mod papers;
mod render;
mod requirements;
mod rules;
mod tables;

#[cfg(test)]
mod say_tests;

use super::RuleSet;
pub use examples::{Sides, sides};
pub use lines::Line;

/// A rule set, read back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadBack {
    /// The rule set's title and edition.
    pub title: String,
    /// What it says of itself: whose it is, when it is in force, what it builds on.
    pub head: Vec<Line>,
    /// Its parts, in the order in which a clerk reads them, those without anything in them, too.
    pub groups: Vec<Group>,
}

/// All that a rule set has of one sort.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// Of which sort.
    pub sort: Sort,
    /// What it says.
    pub said: Vec<Said>,
}

/// What a rule set is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sort {
    /// The matters that it holds, and those that it leaves to others.
    Scope,
    /// Kinds of things, and facts of them, of its own.
    Kinds,
    /// Its own questions.
    Questions,
    /// The defined terms.
    Words,
    /// The rules.
    Rules,
    /// The decisions.
    Decisions,
    /// The papers.
    Papers,
    /// What is to be done, and by when.
    Steps,
    /// What to be careful of.
    Cautions,
    /// Where its values were read.
    Sources,
}

impl Sort {
    /// Its word for programs.
    pub fn word(self) -> &'static str {
        match self {
            Self::Scope => "scope",
            Self::Kinds => "kinds",
            Self::Questions => "questions",
            Self::Words => "terms",
            Self::Rules => "rules",
            Self::Decisions => "decisions",
            Self::Papers => "papers",
            Self::Steps => "steps",
            Self::Cautions => "cautions",
            Self::Sources => "sources",
        }
    }

    /// Its heading.
    pub fn title(self) -> &'static str {
        match self {
            Self::Scope => "Scope",
            Self::Kinds => "Things of its own",
            Self::Questions => "Questions",
            Self::Words => "Words",
            Self::Rules => "Rules",
            Self::Decisions => "Decisions",
            Self::Papers => "Papers",
            Self::Steps => "Steps",
            Self::Cautions => "Cautions",
            Self::Sources => "Sources",
        }
    }
}

/// One rule, decision, term or other entry in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// Its id in the rule set.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The clause that it stands for.
    pub clause: Option<String>,
    /// What it says.
    pub lines: Vec<Line>,
}

impl ReadBack {
    /// What it has of that sort.
    pub fn group(&self, sort: Sort) -> &[Said] {
        let group = self.groups.iter().find(|group| group.sort == sort);
        group.map_or(&[], |group| &group.said)
    }
}

/// Reads a rule set back.
pub fn read_back(rules: &RuleSet) -> ReadBack {
    let groups = [
        (Sort::Scope, head::scope(rules)),
        (Sort::Kinds, lists::kinds(rules)),
        (Sort::Questions, lists::questions(rules)),
        (Sort::Words, lists::terms(rules)),
        (Sort::Rules, rules::all(rules)),
        (Sort::Decisions, lists::decisions(rules)),
        (Sort::Papers, papers::papers(rules)),
        (Sort::Steps, papers::steps(rules)),
        (Sort::Cautions, papers::cautions(rules)),
        (Sort::Sources, lists::sources(rules)),
    ];
    let groups = groups.into_iter();
    ReadBack {
        title: format!("{}, edition {}", rules.title, rules.edition),
        head: head::lines(rules),
        groups: groups.map(|(sort, said)| Group { sort, said }).collect(),
    }
}
