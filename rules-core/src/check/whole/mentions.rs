//! Which documents a requirement asks for.

use std::collections::BTreeMap;

use crate::check::Need;
use crate::ruleset::{DocumentIndex, Once, Requirement, RowTest, Then};

/// The documents that a requirement asks for: surely where all of it must hold, perhaps where only part of it must.
#[derive(Default)]
pub(crate) struct Mentions {
    needs: BTreeMap<DocumentIndex, Need>,
    /// The terms already visited: where all of it must hold, and where only part of it must.
    terms: [Once; 2],
}

impl Mentions {
    pub(crate) fn of(requirement: &Requirement) -> Mentions {
        let mut mentions = Mentions::default();
        mentions.add(requirement, Need::Needed);
        mentions
    }

    /// Whether it is asked for.
    pub(crate) fn need(&self, document: DocumentIndex) -> Need {
        self.needs
            .get(&document)
            .copied()
            .unwrap_or(Need::NotNeeded)
    }

    fn add(&mut self, requirement: &Requirement, need: Need) {
        let mut some = |list: &[Requirement], need| list.iter().for_each(|it| self.add(it, need));
        match requirement {
            Requirement::Have(document) => {
                let known = self.needs.entry(*document).or_insert(need);
                *known = known.or(need);
            }
            Requirement::All(list) => some(list, need),
            Requirement::Any(list) | Requirement::Count { of: list, .. } => {
                some(list, Need::Perhaps);
            }
            Requirement::Not(inner) => self.add(inner, Need::Perhaps),
            Requirement::Each(each) => self.add(&each.require, Need::Perhaps),
            Requirement::Meets { requirement, .. } => {
                let [surely, perhaps] = &mut self.terms;
                let terms = if need == Need::Needed {
                    surely
                } else {
                    perhaps
                };
                if terms.is_first(requirement) {
                    self.add(requirement, need);
                }
            }
            Requirement::Table(table) => {
                for row in &table.rows {
                    if let RowTest::When(when) = &row.test {
                        self.add(when, Need::Perhaps);
                    }
                    if let Then::Give(then) = &row.then {
                        self.add(then, Need::Perhaps);
                    }
                }
            }
            Requirement::Test(_) | Requirement::Refer => {}
        }
    }
}
