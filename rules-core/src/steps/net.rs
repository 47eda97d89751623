//! The net of steps: what waits for what, and the days that follow from it.

use std::collections::BTreeSet;

use super::span::{self, Span};
use crate::check::Findings;
use crate::quantity::WorkingDays;
use crate::ruleset::words::duty_sentence;
use crate::ruleset::{Duty, RuleSet, Stated, with_name};

/// A rule set, and what was found under it.
pub(super) type Asking<'r> = (&'r RuleSet, &'r Findings<'r>);

/// A duty, or something that happens and that no duty of any rule set brings about.
pub(super) struct Node<'r> {
    pub name: String,
    /// The places of the rule sets whose duty it is.
    of: Vec<usize>,
    pub duty: Option<&'r Duty>,
    /// Which days are working days for it.
    pub calendar: &'r WorkingDays,
    /// Whether it surely applies.
    pub sure: bool,
}

impl<'r> Node<'r> {
    /// A span of its duty, counted by its calendar.
    pub fn span(&self, stated: Option<&'r Stated>) -> Option<Span<'r>> {
        let calendar = self.calendar;
        stated.map(|stated| Span { stated, calendar })
    }
}

/// One begins so long after another is done.
#[derive(Clone, Copy)]
pub(super) struct Link<'r> {
    pub from: usize,
    pub to: usize,
    /// Whether it is `to` that is said to come after.
    pub follows: bool,
    pub lag: Option<Span<'r>>,
    /// `to` begins no later than so long after `from` is done: `from` must not be done too early.
    pub no_longer: Option<Span<'r>>,
}

/// All steps that apply to a plan, and what links them.
pub(super) struct Net<'r> {
    pub nodes: Vec<Node<'r>>,
    pub links: Vec<Link<'r>>,
    /// The short names of the rule sets, where there are several.
    sets: Vec<&'r str>,
}

impl<'r> Net<'r> {
    /// That of several rule sets. What one waits for, and has no duty for, is a duty of that name in another one, else
    /// something that happens once for all of them.
    pub fn of(sets: &[Asking<'r>]) -> Self {
        let mut nodes = duties(sets);
        let duties = nodes.len();
        for (place, (rules, _)) in sets.iter().enumerate() {
            for name in named_by(&nodes, place) {
                // What waits for a duty that does not apply waits for nothing.
                let idle = rules.duties.iter().any(|duty| duty.id == name);
                if !idle && places(&nodes, place, name).is_empty() {
                    nodes.push(Node {
                        name: name.to_owned(),
                        of: Vec::new(),
                        duty: None,
                        calendar: &rules.working_days,
                        sure: true,
                    });
                }
            }
        }
        let links = (0..duties).flat_map(|own| links(own, &nodes)).collect();
        name_apart(&mut nodes, sets);
        let sets = sets.iter().filter(|_| sets.len() > 1);
        Self {
            nodes,
            links,
            sets: sets.map(|(rules, _)| rules.id.as_str()).collect(),
        }
    }

    /// The short names of the rule sets that ask for a step, where there are several.
    pub fn rule_sets(&self, node: &Node<'_>) -> Vec<String> {
        let named = node.of.iter().filter_map(|place| self.sets.get(*place));
        named.map(|name| (*name).to_owned()).collect()
    }

    /// Whether some of the steps wait for each other, so that none of them can begin.
    pub fn has_circle(&self) -> bool {
        let mut open: BTreeSet<usize> = (0..self.nodes.len()).collect();
        loop {
            let waits = |node: &usize| {
                let mut links = self.links.iter();
                links.any(|link| link.to == *node && open.contains(&link.from))
            };
            let left: BTreeSet<usize> = open.iter().copied().filter(waits).collect();
            if left.len() == open.len() {
                return !left.is_empty();
            }
            open = left;
        }
    }

    pub fn takes(&self, node: usize) -> Option<&'r Stated> {
        self.nodes.get(node)?.duty?.takes.as_ref()
    }

    fn done(&self, node: usize, begun: &[i128]) -> i128 {
        let begun = begun.get(node).copied().unwrap_or_default();
        span::after(begun, self.takes_span(node))
    }

    fn takes_span(&self, node: usize) -> Option<Span<'r>> {
        self.nodes.get(node)?.span(self.takes(node))
    }

    /// The earliest day on which each step can begin, where none begins before its day in `first`.
    pub fn earliest(&self, first: Vec<i128>) -> Vec<i128> {
        let mut begun = first;
        // Each round settles one more step of the longest chain; steps that are put off for each other need a second.
        for _ in 0..=self.nodes.len().saturating_mul(2) {
            let before = begun.clone();
            for link in &self.links {
                let soonest = span::after(self.done(link.from, &begun), link.lag);
                raise(&mut begun, link.to, soonest);
                if link.no_longer.is_some() {
                    let next = begun.get(link.to).copied().unwrap_or_default();
                    let done = day_to_reach(next, link.no_longer);
                    raise(
                        &mut begun,
                        link.from,
                        span::before(done, self.takes_span(link.from)),
                    );
                }
            }
            if begun == before {
                break;
            }
        }
        begun
    }

    /// The latest day on which each can begin without putting off the end, or without missing its own last day.
    pub fn latest(&self, end: i128, last_days: &[Option<i128>]) -> Vec<i128> {
        let nodes = 0..self.nodes.len();
        let mut latest: Vec<i128> = nodes
            .map(|node| {
                let last = last_days.get(node).copied().flatten();
                let latest = last.map_or(end, |last| last.min(end));
                span::before(latest, self.takes_span(node))
            })
            .collect();
        for _ in 0..=self.nodes.len() {
            let before = latest.clone();
            for link in &self.links {
                let next = latest.get(link.to).copied().unwrap_or(end);
                let done = span::before(next, link.lag);
                let own = span::before(done, self.takes_span(link.from));
                if let Some(day) = latest.get_mut(link.from) {
                    *day = own.min(*day);
                }
            }
            if latest == before {
                break;
            }
        }
        latest
    }

    /// The last day on which each step may be done: so long after the latest of those that it follows.
    pub fn last_days(&self, begun: &[i128]) -> Vec<Option<i128>> {
        let last = |(node, step): (usize, &Node<'r>)| {
            let duty = step.duty.filter(|duty| !duty.after.is_empty())?;
            let within = duty.within.as_ref()?;
            let links = self.links.iter().filter(|link| link.to == node);
            let followed = links.filter(|link| link.follows);
            let done = followed.map(|link| self.done(link.from, begun)).max()?;
            Some(span::after(done, step.span(Some(within))))
        };
        self.nodes.iter().enumerate().map(last).collect()
    }

    /// The day on which each is done.
    pub fn all_done(&self, begun: &[i128]) -> Vec<i128> {
        (0..self.nodes.len())
            .map(|node| self.done(node, begun))
            .collect()
    }
}

/// The first day from which a day is reached in no more than this span.
fn day_to_reach(day: i128, within: Option<Span<'_>>) -> i128 {
    let latest = span::before(day, within);
    if span::after(latest, within) < day {
        latest.saturating_add(1)
    } else {
        latest
    }
}

/// The duties that apply, those that two rule sets have in the same words once.
fn duties<'r>(sets: &[Asking<'r>]) -> Vec<Node<'r>> {
    let mut nodes: Vec<Node<'r>> = Vec::new();
    for (place, (rules, findings)) in sets.iter().enumerate() {
        for (duty, sure) in &findings.duties {
            let Some(duty) = rules.duties.get(*duty) else {
                continue;
            };
            let said = |duty: &Duty| duty_sentence(duty, true);
            let same = |node: &&mut Node<'r>| {
                let theirs = node.duty.filter(|_| !node.of.contains(&place));
                let alike = |other: &Duty| other.id == duty.id && said(other) == said(duty);
                theirs.is_some_and(alike) && *node.calendar == rules.working_days
            };
            if let Some(node) = nodes.iter_mut().find(same) {
                node.of.push(place);
                node.sure |= sure;
                continue;
            }
            nodes.push(Node {
                name: duty.id.clone(),
                of: vec![place],
                duty: Some(duty),
                calendar: &rules.working_days,
                sure: *sure,
            });
        }
    }
    nodes
}

/// What the duties of a rule set come before and after.
fn named_by<'r>(nodes: &[Node<'r>], place: usize) -> Vec<&'r str> {
    let own = nodes.iter().filter(|node| node.of.contains(&place));
    let own = own.filter_map(|node| node.duty);
    let names = own.flat_map(|duty| duty.before.iter().chain(&duty.after));
    names.map(String::as_str).collect()
}

/// The steps that a rule set means by a name: its own duty, else those of others, else what happens.
fn places(nodes: &[Node<'_>], place: usize, name: &str) -> Vec<usize> {
    let named = || {
        nodes
            .iter()
            .enumerate()
            .filter(|(_, node)| node.name == name)
    };
    let own = named().find(|(_, node)| node.of.contains(&place));
    match own {
        Some((own, _)) => vec![own],
        None => named().map(|(at, _)| at).collect(),
    }
}

/// Puts the name of its rule set before that of each duty that is not the only step of its name.
fn name_apart(nodes: &mut [Node<'_>], sets: &[Asking<'_>]) {
    let names: Vec<String> = nodes.iter().map(|node| node.name.clone()).collect();
    for node in nodes {
        let alike = names.iter().filter(|name| **name == node.name).count();
        let rules = node.of.first().and_then(|place| sets.get(*place));
        if let (true, Some((rules, _))) = (alike > 1, rules) {
            node.name = with_name(&rules.id, &node.name);
        }
    }
}

fn links<'r>(own: usize, nodes: &[Node<'r>]) -> Vec<Link<'r>> {
    let Some((node, duty)) = nodes.get(own).and_then(|node| Some((node, node.duty?))) else {
        return Vec::new();
    };
    let all = |names: &[String]| {
        let of = |name| node.of.iter().map(move |place| (*place, name));
        let named = names.iter().flat_map(of);
        let mut all: Vec<usize> = Vec::new();
        for step in named.flat_map(|(place, name)| places(nodes, place, name)) {
            if !all.contains(&step) {
                all.push(step);
            }
        }
        all
    };
    let ahead = all(&duty.before).into_iter().map(|to| Link {
        from: own,
        to,
        follows: false,
        lag: node.span(duty.by.as_ref()),
        no_longer: node.span(duty.within.as_ref().filter(|_| duty.after.is_empty())),
    });
    let behind = all(&duty.after).into_iter().map(|from| Link {
        from,
        to: own,
        follows: true,
        lag: node.span(duty.by.as_ref().filter(|_| duty.before.is_empty())),
        no_longer: None,
    });
    ahead.chain(behind).collect()
}

fn raise(days: &mut [i128], place: usize, to: i128) {
    if let Some(day) = days.get_mut(place) {
        *day = to.max(*day);
    }
}
