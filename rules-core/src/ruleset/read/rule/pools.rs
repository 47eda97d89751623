//! Which pool is meant.
//!
//! A plan can have several pools (a spa, a paddling pool), and a rule says `pool.depth` without an `each`. It then speaks of
//! one pool throughout, whatever else it names, and is judged for each pool by itself. All pools together are meant only
//! where it says `all`.

use std::sync::Arc;

use crate::faults::Code;
use crate::ruleset::read::Reader;
use crate::ruleset::read::names::all_of;
use crate::ruleset::read::value::operands::Pools;
use crate::ruleset::{Condition, Each, Operand, Part, Requirement, Which};
use crate::text::{Entry, Node, Span};
use crate::vocabulary::{KindId, Number};

impl<'a> Reader<'a> {
    /// The kind of which a rule speaks one by one without saying so.
    pub(crate) fn pool(&self) -> Option<KindId> {
        let kind = self.vocabulary.kind_named("pool")?;
        (self.vocabulary.kind(kind).number == Number::Many).then_some(kind)
    }

    /// Notes that something speaks of "the pool", where no `each` says which.
    pub(crate) fn speak_of_pool(&mut self) {
        let pool = self.pool();
        let bound = self
            .around
            .bound
            .iter()
            .any(|bound| Some(bound.kind) == pool);
        self.spoke_of_pool |= !bound;
    }

    /// Reads something, and says whether it speaks of "the pool".
    pub(crate) fn noting_pool<T>(&mut self, read: impl FnOnce(&mut Self) -> T) -> (T, bool) {
        let outer = std::mem::take(&mut self.spoke_of_pool);
        let result = read(self);
        let speaks = std::mem::replace(&mut self.spoke_of_pool, outer);
        (result, speaks)
    }

    /// Asks whether the pool being judged is meant, where a condition of a rule asks something of every pool.
    pub(crate) fn asks_every_pool<'r>(
        &mut self,
        conditions: impl Iterator<Item = &'r Requirement>,
    ) {
        let pool = self.pool();
        let all = conditions.flat_map(each_in);
        let of_pools: Vec<Span> = all
            .filter(|each| Some(each.selection.kind) == pool)
            .map(|each| each.span)
            .collect();
        for span in of_pools {
            let message = "This asks whether it holds of every pool on the plan.";
            self.warning(Code::EachPoolInCondition, span, message).help(
                "If the pool being judged is meant, take out `each: pool`, and write what stands under its `require` in place of all of this. If every pool is meant, define this as a term, and write `{meets: …}` here.",
            );
        }
    }

    /// A condition of something that is not a rule.
    pub(crate) fn condition(&mut self, node: &'a Node) -> Option<Condition> {
        let (read, about_pool) = self.noting_pool(|reader| reader.whole_requirement(node));
        Some(Condition {
            requirement: read?,
            about_pool,
        })
    }

    /// Outlines of all things of their kinds together, whichever of them are meant around here.
    pub(crate) fn of_all(&mut self, node: &'a Node) -> Option<Operand> {
        let (operand, _) = self.noting_pool(|reader| reader.operand_of(node, Pools::All));
        let mut operand = operand?;
        let all = |part: &Part| matches!(part.which, Which::All(_));
        if !operand.parts.iter().all(all) {
            for part in Arc::make_mut(&mut operand.parts) {
                part.which = Which::All(match &part.which {
                    Which::Bound(kind) => all_of(*kind),
                    Which::Meant(selection) | Which::All(selection) => selection.clone(),
                });
            }
        }
        self.bare_pool = None;
        Some(Operand {
            term: None,
            ..operand
        })
    }

    /// An outline of the one thing that is meant here.
    pub(crate) fn of_each(&mut self, node: &'a Node) -> Option<Operand> {
        let operand = self.operand_of(node, Pools::Each)?;
        self.bare_pool = None;
        let kind = operand.parts.iter().find_map(|part| match &part.which {
            Which::All(selection) => Some(selection.kind),
            Which::Bound(_) | Which::Meant(_) => None,
        });
        let Some(kind) = kind else {
            return Some(operand);
        };
        let kind = self.vocabulary.kind(kind).name.clone();
        let message = format!("No `each` says which {kind} is meant here.");
        self.fault(Code::SayEach, node.span, message).help(format!(
            "Put `each: {kind}` before it, or write `all` here."
        ));
        None
    }

    /// Reads outlines that are added up. A pool's own beside those of all other things, or as a share of something, must
    /// say whether one pool is meant or all of them together.
    pub(crate) fn totalled(&mut self, share: bool, of: Option<&'a Entry>) -> Option<Operand> {
        let outer = self.bare_pool.take();
        let read = self.written(of, Self::operand);
        let bare = std::mem::replace(&mut self.bare_pool, outer);
        let read = self.wholly(read?, of?.value.span, false)?;
        match bare {
            Some((name, span)) if share || has_all(&read) => {
                self.one_pool_or_all(&name, span);
                None
            }
            Some((name, span)) => {
                let message = format!("This is the {} of each pool by itself.", last(&name));
                self.warning(Code::EachOrAll, span, message).help(format!(
                    "Write `{{each: {name}}}` to say so, or `{{all: {name}}}` for all pools together."
                ));
                Some(read)
            }
            None => Some(read),
        }
    }

    /// Outlines whose area or length is measured. If a zone chooses the things, it is unclear whether each thing is
    /// meant whole or only its part in the zone.
    pub(crate) fn wholly(&mut self, of: Operand, span: Span, share: bool) -> Option<Operand> {
        let chosen = |part: &&Part| part.which.selection().is_some_and(|it| it.zone.is_some());
        let Some(part) = of.parts.iter().find(chosen) else {
            return Some(of);
        };
        let kind = part.which.selection().map(|it| it.kind)?;
        let kind = self.vocabulary.kind(kind).name.clone();
        let outline = self.vocabulary.outline(part.outline).name.clone();
        let message =
            "Is the part in the zone meant here, or all of each thing that reaches into it?";
        let part = match share {
            true => format!("write `share-of: {{area: {{of: {kind}.{outline}, in: …}}}}`"),
            false => format!("put `in` beside `of`, as in `{{of: {kind}.{outline}, in: …}}`"),
        };
        self.fault(Code::PartOrWhole, span, message).help(format!(
            "For the part, {part}. For all of each, add them up with `sum`, as in `sum: {{kind: {kind}, in: …, take: …}}`."
        ));
        None
    }

    fn one_pool_or_all(&mut self, name: &str, span: Span) {
        let message =
            format!("Does `{name}` mean that of each pool by itself, or of all pools together?");
        self.fault(Code::EachOrAll, span, message).help(format!(
            "Write `{{all: {name}}}` for all pools together, as in most totals, or `{{each: {name}}}` for each by itself."
        ));
    }
}

/// What a requirement asks of each of some things, but not in its terms.
fn each_in(requirement: &Requirement) -> Vec<&Each> {
    match requirement {
        Requirement::Each(each) => vec![&**each],
        Requirement::Not(inner) => each_in(inner),
        Requirement::All(members)
        | Requirement::Any(members)
        | Requirement::Count { of: members, .. } => members.iter().flat_map(each_in).collect(),
        _ => Vec::new(),
    }
}

/// Whether outlines of all things of some kind are among these.
fn has_all(operand: &Operand) -> bool {
    let all = |which: &Which| matches!(which, Which::All(_));
    operand.parts.iter().any(|part| all(&part.which))
}

/// `when`, and not `unless`.
pub(crate) fn but_not(
    when: Option<Requirement>,
    unless: Option<Requirement>,
) -> Option<Requirement> {
    let not = unless.map(|unless| Requirement::Not(Box::new(unless)));
    match (when, not) {
        (Some(when), Some(not)) => Some(Requirement::All(vec![when, not])),
        (when, not) => when.or(not),
    }
}

/// The last part of a name.
fn last(name: &str) -> String {
    name.rsplit('.').next().unwrap_or(name).replace('-', " ")
}
