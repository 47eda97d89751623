//! What a requirement is judged for, and the result.

use super::Truth;
pub(crate) use crate::check::judge::slack::Slack;
use std::rc::Rc;

/// What a requirement is judged for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Role {
    /// It must hold. A test of something that is not there is left out.
    Required,
    /// It decides whether something applies. A distance to something that is not there is infinite.
    Condition,
}

/// How a requirement is judged.
///
/// Whether it must or must not hold is passed down to the tests, so that `not` before `all-of` means the same as `any-of`
/// of the opposites, even where one of them does not apply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Ask {
    pub(crate) role: Role,
    /// It must not hold.
    pub(crate) negated: bool,
}

impl Ask {
    pub(crate) const REQUIRED: Ask = Ask {
        role: Role::Required,
        negated: false,
    };
    pub(crate) const CONDITION: Ask = Ask {
        role: Role::Condition,
        negated: false,
    };

    pub(crate) fn opposite(self) -> Ask {
        Ask {
            negated: !self.negated,
            ..self
        }
    }
}

/// The result of judging a requirement.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Judged {
    pub(crate) truth: Truth,
    pub(crate) slack: Slack,
    pub(crate) node: Node,
}

/// The parts that a judgement is made of.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Node {
    Leaf(Box<crate::check::Reading>),
    All(Vec<Judged>),
    Any(Vec<Judged>),
    Other(Vec<Judged>),
    /// A term, judged once however often it is used.
    Term(Rc<Judged>),
}

impl Judged {
    /// A judgement without any measurement.
    pub(crate) fn bare(truth: Truth) -> Self {
        Judged {
            truth,
            slack: Slack::of_truth(truth),
            node: Node::Other(Vec::new()),
        }
    }

    /// Whether it surely does not apply.
    pub(crate) fn is_void(&self) -> bool {
        self.truth == Truth::NOT_APPLICABLE
    }

    /// All of these must hold; `keeps` is whether their readings will be reported.
    pub(crate) fn all(members: impl Iterator<Item = Judged>, keeps: bool) -> Self {
        let (truth, slack, kept) = joined(
            members,
            keeps.then_some(keep_tightest),
            Truth::and,
            Slack::least,
        );
        Judged {
            truth,
            slack: slack.unwrap_or(Slack::Endless),
            node: Node::All(kept),
        }
    }

    /// One of these must hold.
    pub(crate) fn any(members: impl Iterator<Item = Judged>, keeps: bool) -> Self {
        let (truth, slack, kept) = joined(
            members,
            keeps.then_some(Vec::push),
            Truth::or,
            Slack::greatest,
        );
        Judged {
            truth,
            slack: slack.unwrap_or(Slack::None),
            node: Node::Any(kept),
        }
    }

    /// One of these is the case, and it is not known which.
    pub(crate) fn either(ways: Vec<Judged>) -> Self {
        let truth = ways.iter().map(|way| way.truth);
        let applying = ways.iter().filter(|way| !way.is_void());
        Judged {
            truth: truth.fold(Truth::NONE, Truth::or_else),
            slack: applying
                .map(|way| way.slack)
                .reduce(Slack::either)
                .unwrap_or(Slack::Unlike),
            node: Node::Other(ways),
        }
    }

    /// The same for a thing that may not be meant at all.
    pub(crate) fn perhaps(self) -> Self {
        Judged {
            truth: self.truth.or_else(Truth::NOT_APPLICABLE),
            ..self
        }
    }
}

/// Joins judgements. One that does not apply is left out of the slack.
fn joined(
    members: impl Iterator<Item = Judged>,
    keep: Option<fn(&mut Vec<Judged>, Judged)>,
    truths: fn(Truth, Truth) -> Truth,
    slacks: fn(Slack, Slack) -> Slack,
) -> (Truth, Option<Slack>, Vec<Judged>) {
    let (mut truth, mut slack, mut kept) = (Truth::NOT_APPLICABLE, None, Vec::new());
    for member in members {
        truth = truths(truth, member.truth);
        if !member.is_void() {
            slack = Some(slack.map_or(member.slack, |so_far| slacks(so_far, member.slack)));
        }
        if let Some(keep) = keep {
            keep(&mut kept, member);
        }
    }
    (truth, slack, kept)
}

/// Keeps a member of a list that must all hold. Among members that hold, only the one with the least slack is kept, since no
/// other is ever reported.
fn keep_tightest(kept: &mut Vec<Judged>, member: Judged) {
    let holds = |judged: &Judged| judged.truth == Truth::HOLDS;
    let tightest = kept.iter_mut().next().filter(|first| holds(first));
    match tightest {
        Some(tightest) if holds(&member) => {
            if member.slack.least_amount() < tightest.slack.least_amount() {
                *tightest = member;
            }
        }
        None if holds(&member) => kept.insert(0, member),
        _ => kept.push(member),
    }
}
