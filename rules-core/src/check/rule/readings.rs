//! Which readings decide a judgement.

use std::collections::BTreeSet;
use std::rc::Rc;

use crate::check::judge::{Judged, Node};
use crate::check::{Reading, Truth};

/// The readings that decide judgements, in their order: where a judgement fails, those that fail; where it is open, those
/// that are open; where it holds, the one nearest to failing. A term's readings are taken once, however often it is named.
#[derive(Default)]
pub(crate) struct Deciding {
    pub(crate) found: Vec<Reading>,
    /// The addresses of the terms' judgements already taken.
    terms: BTreeSet<*const Judged>,
}

impl Deciding {
    /// Adds the deciding readings of a judgement.
    pub(crate) fn add(&mut self, judged: Judged) {
        let truth = judged.truth;
        match judged.node {
            Node::Leaf(reading) => self.found.push(*reading),
            Node::All(members) => match truth {
                Truth::HOLDS => {
                    let at = tightest(&members);
                    self.add_all(at.and_then(|at| members.into_iter().nth(at)));
                }
                Truth::FAILS => self.add_all(only(members, |truth| truth == Truth::FAILS)),
                _ => self.add_all(only(members, |truth| truth != Truth::HOLDS)),
            },
            Node::Any(members) => match truth {
                Truth::HOLDS => self.add_all(only(members, |truth| truth == Truth::HOLDS).next()),
                Truth::FAILS => self.add_all(members),
                _ => self.add_all(only(members, |truth| truth != Truth::FAILS)),
            },
            Node::Other(members) => self.add_all(members),
            Node::Term(judged) => {
                if self.terms.insert(Rc::as_ptr(&judged)) {
                    self.add(Rc::unwrap_or_clone(judged));
                }
            }
        }
    }

    fn add_all(&mut self, members: impl IntoIterator<Item = Judged>) {
        members.into_iter().for_each(|member| self.add(member));
    }
}

fn only(members: Vec<Judged>, decides: fn(Truth) -> bool) -> impl Iterator<Item = Judged> {
    members
        .into_iter()
        .filter(move |member| decides(member.truth))
}

/// The member with the least slack; the first among equals.
fn tightest(members: &[Judged]) -> Option<usize> {
    members
        .iter()
        .enumerate()
        .filter(|(_, member)| !member.is_void())
        .min_by_key(|(_, member)| member.slack.least_amount())
        .map(|(at, _)| at)
}
