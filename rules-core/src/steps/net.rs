//! The net of steps: what waits for what, and the days that follow from it.

use std::collections::BTreeMap;

use super::span;
use crate::check::Findings;
use crate::quantity::WorkingDays;
use crate::ruleset::{Duty, RuleSet, Stated};

/// A duty, or something that happens and that no duty of the rule set brings about.
pub(super) struct Node<'r> {
    pub name: &'r str,
    pub duty: Option<&'r Duty>,
    /// Whether it surely applies.
    pub sure: bool,
}

/// One begins so long after another is done.
#[derive(Clone, Copy)]
pub(super) struct Link<'r> {
    pub from: usize,
    pub to: usize,
    pub lag: Option<&'r Stated>,
    /// `to` begins no later than so long after `from` is done: `from` must not be done too early.
    pub no_longer: Option<&'r Stated>,
}

/// All steps that apply to a plan, and what links them.
pub(super) struct Net<'r> {
    pub nodes: Vec<Node<'r>>,
    pub links: Vec<Link<'r>>,
    /// Which days are working days.
    pub calendar: &'r WorkingDays,
}

impl<'r> Net<'r> {
    pub fn of(rules: &'r RuleSet, findings: &Findings<'_>) -> Self {
        let mut nodes: Vec<Node<'r>> = Vec::new();
        for (place, sure) in &findings.duties {
            nodes.extend(rules.duties.get(*place).map(|duty| Node {
                name: &duty.id,
                duty: Some(duty),
                sure: *sure,
            }));
        }
        let applying: Vec<&Duty> = nodes.iter().filter_map(|node| node.duty).collect();
        // What waits for a duty that does not apply waits for nothing.
        let idle = |name: &str| rules.duties.iter().any(|duty| duty.id == name);
        for name in applying
            .iter()
            .flat_map(|duty| duty.before.iter().chain(&duty.after))
        {
            if nodes.iter().all(|node| node.name != name) && !idle(name) {
                nodes.push(Node {
                    name,
                    duty: None,
                    sure: true,
                });
            }
        }
        let places: BTreeMap<&str, usize> = (nodes.iter().enumerate())
            .map(|(place, node)| (node.name, place))
            .collect();
        let links = applying
            .iter()
            .flat_map(|duty| links(duty, &places))
            .collect();
        Self {
            nodes,
            links,
            calendar: &rules.working_days,
        }
    }

    pub fn takes(&self, node: usize) -> Option<&'r Stated> {
        self.nodes.get(node)?.duty?.takes.as_ref()
    }

    fn done(&self, node: usize, begun: &[i128]) -> i128 {
        let begun = begun.get(node).copied().unwrap_or_default();
        self.after(begun, self.takes(node))
    }

    /// The day so long after a day.
    pub fn after(&self, day: i128, span: Option<&Stated>) -> i128 {
        span::after(day, span, self.calendar)
    }

    /// The last day from which it is no later than `day` so long after.
    fn before(&self, day: i128, span: Option<&Stated>) -> i128 {
        span::before(day, span, self.calendar)
    }

    /// The first day from which a day is reached in no more than this span.
    fn day_to_reach(&self, day: i128, within: Option<&Stated>) -> i128 {
        let latest = self.before(day, within);
        if self.after(latest, within) < day {
            latest.saturating_add(1)
        } else {
            latest
        }
    }

    /// The earliest day on which each step can begin, where none begins before its day in `first`.
    pub fn earliest(&self, first: Vec<i128>) -> Vec<i128> {
        let mut begun = first;
        // Each round settles one more step of the longest chain; steps that are put off for each other need a second.
        for _ in 0..=self.nodes.len().saturating_mul(2) {
            let before = begun.clone();
            for link in &self.links {
                let soonest = self.after(self.done(link.from, &begun), link.lag);
                raise(&mut begun, link.to, soonest);
                if link.no_longer.is_some() {
                    let next = begun.get(link.to).copied().unwrap_or_default();
                    let done = self.day_to_reach(next, link.no_longer);
                    raise(
                        &mut begun,
                        link.from,
                        self.before(done, self.takes(link.from)),
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
                self.before(last.map_or(end, |last| last.min(end)), self.takes(node))
            })
            .collect();
        for _ in 0..=self.nodes.len() {
            let before = latest.clone();
            for link in &self.links {
                let next = latest.get(link.to).copied().unwrap_or(end);
                let done = self.before(next, link.lag);
                let own = self.before(done, self.takes(link.from));
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
            let followed = self.links.iter().filter(|link| link.to == node);
            let followed = followed.filter(|link| {
                let before = self.nodes.get(link.from).map(|node| node.name);
                before.is_some_and(|name| duty.after.iter().any(|after| after == name))
            });
            let done = followed.map(|link| self.done(link.from, begun)).max()?;
            Some(self.after(done, Some(within)))
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

fn links<'r>(duty: &'r Duty, places: &BTreeMap<&str, usize>) -> Vec<Link<'r>> {
    let Some(&own) = places.get(duty.id.as_str()) else {
        return Vec::new();
    };
    let place = |name: &String| places.get(name.as_str()).copied();
    let ahead = duty.before.iter().filter_map(place).map(|to| Link {
        from: own,
        to,
        lag: duty.by.as_ref(),
        no_longer: duty.within.as_ref().filter(|_| duty.after.is_empty()),
    });
    let behind = duty.after.iter().filter_map(place).map(|from| Link {
        from,
        to: own,
        lag: duty.by.as_ref().filter(|_| duty.before.is_empty()),
        no_longer: None,
    });
    ahead.chain(behind).collect()
}

fn raise(days: &mut [i128], place: usize, to: i128) {
    if let Some(day) = days.get_mut(place) {
        *day = to.max(*day);
    }
}
