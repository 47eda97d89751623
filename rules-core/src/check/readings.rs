//! Which readings decide a judgement.

use super::judge::{Judged, Node};
use super::room::Room;
use super::{Reading, Truth};

/// The readings that a judgement rests on: those that fail where it fails, those that are open where it is open, and
/// the one nearest to failing where it holds.
pub(crate) fn deciding<'a>(judged: &Judged<'a>) -> Vec<Reading<'a>> {
    let mut found = Vec::new();
    gather(judged, &mut found);
    found
}

fn gather<'a>(judged: &Judged<'a>, found: &mut Vec<Reading<'a>>) {
    let mut from = |members: &mut dyn Iterator<Item = &Judged<'a>>| {
        members.for_each(|member| gather(member, found))
    };
    match &judged.node {
        Node::Leaf(reading) => found.push((**reading).clone()),
        Node::All(members) => match judged.truth {
            Truth::HOLDS => from(&mut tightest(members).into_iter()),
            Truth::FAILS => from(&mut members.iter().filter(|member| member.truth == Truth::FAILS)),
            _ => from(&mut members.iter().filter(|member| member.truth != Truth::HOLDS)),
        },
        Node::Any(members) => match judged.truth {
            Truth::HOLDS => from(
                &mut members
                    .iter()
                    .find(|member| member.truth == Truth::HOLDS)
                    .into_iter(),
            ),
            Truth::FAILS => from(&mut members.iter()),
            _ => from(&mut members.iter().filter(|member| member.truth != Truth::FAILS)),
        },
        Node::Other(members) => from(&mut members.iter()),
    }
}

/// The member with the least room; the first among equals.
fn tightest<'m, 'a>(members: &'m [Judged<'a>]) -> Option<&'m Judged<'a>> {
    let room = |member: &&Judged<'a>| match member.room {
        Room::Amount(range, _) => range.low,
        _ => crate::quantity::NO_HIGH,
    };
    members
        .iter()
        .filter(|member| !member.void)
        .min_by_key(room)
}
