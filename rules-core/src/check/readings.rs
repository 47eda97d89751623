//! Which readings decide a judgement.

use std::rc::Rc;

use super::judge::{Judged, Node};
use super::room::Room;
use super::{Reading, Truth};

/// The readings that a judgement rests on: those that fail where it fails, those that are open where it is open, and
/// the one nearest to failing where it holds.
pub(crate) fn deciding<'a>(judged: Judged, found: &mut Vec<Reading>) {
    let truth = judged.truth;
    let such = |members: Vec<Judged>, decides: fn(Truth) -> bool| {
        members
            .into_iter()
            .filter(move |member| decides(member.truth))
    };
    let mut each = |members: &mut dyn Iterator<Item = Judged>| {
        members.for_each(|member| deciding(member, found));
    };
    match judged.node {
        Node::Leaf(reading) => found.push(*reading),
        Node::All(members) => match truth {
            Truth::HOLDS => {
                let at = tightest(&members);
                each(&mut at.and_then(|at| members.into_iter().nth(at)).into_iter());
            }
            Truth::FAILS => each(&mut such(members, |truth| truth == Truth::FAILS)),
            _ => each(&mut such(members, |truth| truth != Truth::HOLDS)),
        },
        Node::Any(members) => match truth {
            Truth::HOLDS => each(&mut such(members, |truth| truth == Truth::HOLDS).take(1)),
            Truth::FAILS => each(&mut members.into_iter()),
            _ => each(&mut such(members, |truth| truth != Truth::FAILS)),
        },
        Node::Other(members) => each(&mut members.into_iter()),
        Node::Term(judged) => deciding(Rc::unwrap_or_clone(judged), found),
    }
}

/// The member with the least room; the first among equals.
fn tightest(members: &[Judged]) -> Option<usize> {
    let room = |(_, member): &(usize, &Judged)| match member.room {
        Room::Amount(range, _) => range.low,
        _ => crate::quantity::NO_HIGH,
    };
    members
        .iter()
        .enumerate()
        .filter(|(_, member)| !member.is_void())
        .min_by_key(room)
        .map(|(at, _)| at)
}
