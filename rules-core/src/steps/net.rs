//! The net of steps: what waits for what, and the dates that follow.

use std::collections::BTreeSet;

use super::span::{self, TimeSpan};
use crate::check::Findings;
use crate::quantity::WorkingDays;
use crate::ruleset::words::duty_sentence;
use crate::ruleset::{Duty, RuleSet, Stated, with_name};

/// A rule set and its findings.
pub(super) type Asking<'r> = (&'r RuleSet, &'r Findings<'r>);

/// A duty, or an event that is no rule set's duty.
pub(super) struct StepNode<'r> {
    pub name: String,
    /// The rule sets whose duty it is, by their places in the list.
    of: Vec<usize>,
    pub duty: Option<&'r Duty>,
    /// The calendar of its working days.
    pub calendar: &'r WorkingDays,
    /// Whether it certainly applies.
    pub sure: bool,
}

impl<'r> StepNode<'r> {
    /// A span of its duty, with the calendar to count it by.
    pub fn span(&self, stated: Option<&'r Stated>) -> Option<TimeSpan<'r>> {
        let calendar = self.calendar;
        stated.map(|stated| TimeSpan { stated, calendar })
    }
}

/// One step that begins some time after another is done.
#[derive(Clone, Copy)]
pub(super) struct StepLink<'r> {
    pub from: usize,
    pub to: usize,
    /// Whether the duty `to` names `from` in `after`, rather than `from` naming `to` in `before`.
    pub follows: bool,
    pub lag: Option<TimeSpan<'r>>,
    /// The longest time from the end of `from` to the start of `to`: `from` must not be done too early.
    pub no_longer: Option<TimeSpan<'r>>,
}

/// All steps that apply to a plan, and what links them.
pub(super) struct Net<'r> {
    pub nodes: Vec<StepNode<'r>>,
    pub links: Vec<StepLink<'r>>,
    /// The short names of the rule sets, where there are several.
    sets: Vec<&'r str>,
}

impl<'r> Net<'r> {
    /// The net of several rule sets. If a step waits for something that is not a duty of its own rule set, that is the
    /// duty of the same name in another rule set, or else one event shared by all of them.
    pub fn of(sets: &[Asking<'r>]) -> Self {
        let mut nodes = duties(sets);
        let duties = nodes.len();
        for (place, (rules, _)) in sets.iter().enumerate() {
            for name in named_by(&nodes, place) {
                // A duty that does not apply holds nothing up.
                let idle = rules.duties.iter().any(|duty| duty.id == name);
                if !idle && places(&nodes, place, name).is_empty() {
                    nodes.push(StepNode {
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
    pub fn rule_sets(&self, node: &StepNode<'_>) -> Vec<String> {
        let named = node.of.iter().filter_map(|place| self.sets.get(*place));
        named.map(|name| (*name).to_owned()).collect()
    }

    /// Whether some steps wait for each other in a circle, so that none of them can begin.
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

    fn takes_span(&self, node: usize) -> Option<TimeSpan<'r>> {
        self.nodes.get(node)?.span(self.takes(node))
    }

    /// The earliest day on which each step can begin, no earlier than its day in `first`.
    pub fn earliest(&self, first: Vec<i128>) -> Vec<i128> {
        let mut begun = first;
        // Each round settles one more step of the longest chain. Steps that delay each other need a second round.
        for _ in 0..=self.nodes.len().saturating_mul(2) {
            let before = begun.clone();
            for link in &self.links {
                let soonest = span::after(self.done(link.from, &begun), link.lag);
                raise(&mut begun, link.to, soonest);
                if link.no_longer.is_some() {
                    let next = begun.get(link.to).copied().unwrap_or_default();
                    let done = day_to_reach(next, link.no_longer);
                    let day = span::before(done, self.takes_span(link.from));
                    raise(&mut begun, link.from, day);
                }
            }
            if begun == before {
                break;
            }
        }
        begun
    }

    /// The latest day on which each step can begin without delaying the end or missing its own deadline.
    pub fn latest(&self, end: i128, last_days: &[Option<i128>]) -> Vec<i128> {
        let last = |node: usize| last_days.get(node).copied().flatten();
        let last = |node: usize| last(node).map_or(end, |last| last.min(end));
        let alone = |node: usize| span::before(last(node), self.takes_span(node));
        let mut latest: Vec<i128> = (0..self.nodes.len()).map(alone).collect();
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

    /// Each step's deadline, counted from the latest of the steps it follows.
    pub fn last_days(&self, begun: &[i128]) -> Vec<Option<i128>> {
        let last = |(node, step): (usize, &StepNode<'r>)| {
            let duty = step.duty.filter(|duty| !duty.after.is_empty())?;
            let within = duty.within.as_ref()?;
            let links = self.links.iter().filter(|link| link.to == node);
            let followed = links.filter(|link| link.follows);
            let done = followed.map(|link| self.done(link.from, begun)).max()?;
            Some(span::after(done, step.span(Some(within))))
        };
        self.nodes.iter().enumerate().map(last).collect()
    }

    /// The day on which each step is done.
    pub fn all_done(&self, begun: &[i128]) -> Vec<i128> {
        (0..self.nodes.len())
            .map(|node| self.done(node, begun))
            .collect()
    }
}

/// The first day from which `day` is no more than this span away.
fn day_to_reach(day: i128, within: Option<TimeSpan<'_>>) -> i128 {
    let latest = span::before(day, within);
    if span::after(latest, within) < day {
        latest.saturating_add(1)
    } else {
        latest
    }
}

/// The duties that apply. A duty that two rule sets state in the same words is listed once.
fn duties<'r>(sets: &[Asking<'r>]) -> Vec<StepNode<'r>> {
    let mut nodes: Vec<StepNode<'r>> = Vec::new();
    for (place, (rules, findings)) in sets.iter().enumerate() {
        for (duty, sure) in &findings.duties {
            let Some(duty) = rules.duties.get(*duty) else {
                continue;
            };
            let said = |duty: &Duty| duty_sentence(duty, true);
            let same = |node: &&mut StepNode<'r>| {
                let theirs = node.duty.filter(|_| !node.of.contains(&place));
                let alike = |other: &Duty| other.id == duty.id && said(other) == said(duty);
                theirs.is_some_and(alike) && *node.calendar == rules.working_days
            };
            if let Some(node) = nodes.iter_mut().find(same) {
                node.of.push(place);
                node.sure |= sure;
                continue;
            }
            nodes.push(StepNode {
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

/// The steps that a rule set's duties come before or after.
fn named_by<'r>(nodes: &[StepNode<'r>], place: usize) -> Vec<&'r str> {
    let own = nodes.iter().filter(|node| node.of.contains(&place));
    let own = own.filter_map(|node| node.duty);
    let names = own.flat_map(|duty| duty.before.iter().chain(&duty.after));
    names.map(String::as_str).collect()
}

/// The steps that a rule set means by a name: its own duty, else other rule sets' duties or an event.
fn places(nodes: &[StepNode<'_>], place: usize, name: &str) -> Vec<usize> {
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

/// Where several steps share a name, puts each duty's rule set in front of it.
fn name_apart(nodes: &mut [StepNode<'_>], sets: &[Asking<'_>]) {
    let names: Vec<String> = nodes.iter().map(|node| node.name.clone()).collect();
    for node in nodes {
        let alike = names.iter().filter(|name| **name == node.name).count();
        let rules = node.of.first().and_then(|place| sets.get(*place));
        if let (true, Some((rules, _))) = (alike > 1, rules) {
            node.name = with_name(&rules.id, &node.name);
        }
    }
}

fn links<'r>(own: usize, nodes: &[StepNode<'r>]) -> Vec<StepLink<'r>> {
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
    let ahead = all(&duty.before).into_iter().map(|to| StepLink {
        from: own,
        to,
        follows: false,
        lag: node.span(duty.by.as_ref()),
        no_longer: node.span(duty.within.as_ref().filter(|_| duty.after.is_empty())),
    });
    let behind = all(&duty.after).into_iter().map(|from| StepLink {
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
