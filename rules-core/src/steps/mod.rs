//! The steps of a project in order, each with its dates, worked out from a rule set's duties and the start day.
//!
//! Days and months are calendar days and months, weekends and holidays included. Working days follow the rule set's own
//! calendar. A step of unstated length counts as done on the day it begins; the text says so, since later steps can
//! then only move later.

mod net;
mod span;
#[cfg(test)]
mod steps_tests;
mod words;

use serde::Serialize;

use crate::check::Findings;
use crate::quantity::{CalendarDate, Dimension, parse};
use crate::ruleset::words::stated_words;
use crate::ruleset::{Duty, RuleSet};
use net::{Asking, Net};

/// How many days a step is delayed to see what that moves.
const DELAY: i128 = 7;

/// The steps of a project, in their order.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Steps {
    /// The first day on which work can begin.
    pub start: String,
    /// The earliest day on which everything is done.
    pub end: String,
    /// The steps, the earliest first.
    pub steps: Vec<Step>,
    /// Duties of the rule set that do not apply to this plan.
    pub not_needed: Vec<String>,
    /// Which days were counted, as a sentence.
    pub counted: String,
}

/// One step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Step {
    /// Its name in the rule set.
    pub id: String,
    /// What has to be done, or what happens.
    pub what: String,
    /// By whom.
    pub who: Option<String>,
    /// Whether it certainly applies to this plan.
    pub sure: bool,
    /// Whether it is an event: something that happens without being a duty of the rule set.
    pub event: bool,
    /// The earliest day on which it can begin.
    pub earliest: String,
    /// The day on which it is done if it begins then.
    pub done: String,
    /// The latest day on which it can begin without delaying the end or missing its deadline; `None` for a step that
    /// recurs.
    pub latest: Option<String>,
    /// The number of days between the earliest and the latest; negative where its deadline cannot be kept.
    pub slack: Option<i64>,
    /// How long it takes; `None` where the rule set does not say.
    pub takes: Option<String>,
    /// What it waits for.
    pub waits_for: Vec<Wait>,
    /// Its deadline, where the rule set sets one.
    pub last_day: Option<String>,
    /// How often it recurs.
    pub every: Option<String>,
    /// The day of its second time, if it recurs.
    pub again: Option<String>,
    /// What moves if it begins a week after its earliest day.
    pub a_week_later: Vec<Moved>,
    /// By how many days that moves the end.
    pub end_moves: i64,
    /// The short names of the rule sets that ask for it, where there are several.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub rule_sets: Vec<String>,
}

/// What a step waits for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Wait {
    /// The name of the step it waits for.
    pub step: String,
    /// The shortest wait after that step.
    pub at_least: Option<String>,
    /// The longest wait allowed after that step.
    pub at_most: Option<String>,
}

/// A step that another step moves.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Moved {
    /// Its name.
    pub step: String,
    /// By how many days.
    pub days: i64,
}

/// Reads a date, as a number of days since 1970-01-01.
///
/// # Errors
/// A sentence that says what is wrong with it.
pub fn day(text: &str) -> Result<i128, String> {
    match parse(text, None, None) {
        Ok(written) if written.dimension == Dimension::Date => Ok(written.range.low),
        _ => Err(format!("`{text}` is not a day of the calendar.")),
    }
}

/// The steps for a judged plan, starting on a day (as a number of days since 1970-01-01).
pub fn steps(rules: &RuleSet, findings: &Findings<'_>, start: i128) -> Steps {
    let sets = [(rules, findings)];
    of_net(&Net::of(&sets), &sets, start)
}

/// The same for several rule sets together; `None` if steps of different rule sets wait for each other in a circle.
pub fn steps_of_several(sets: &[(&RuleSet, &Findings<'_>)], start: i128) -> Option<Steps> {
    let net = Net::of(sets);
    (!net.has_circle()).then(|| of_net(&net, sets, start))
}

fn of_net(net: &Net<'_>, sets: &[Asking<'_>], start: i128) -> Steps {
    let schedule = Schedule::of(net, start);
    let mut order: Vec<usize> = (0..net.nodes.len()).collect();
    order.sort_by_key(|node| (schedule.begun(*node), schedule.rank(*node), *node));
    let not_needed = sets.iter().flat_map(not_needed).collect::<Vec<String>>();
    Steps {
        start: date(start),
        end: date(schedule.end),
        steps: order
            .iter()
            .filter_map(|node| schedule.step(*node))
            .collect(),
        not_needed,
        counted: words::counted(net),
    }
}

fn not_needed((rules, findings): &Asking<'_>) -> Vec<String> {
    let applies = |place: &usize| findings.duties.iter().any(|(duty, _)| duty == place);
    let all = rules.duties.iter().enumerate();
    let idle = all.filter(|(place, _)| !applies(place));
    idle.map(|(_, duty)| duty.what.clone()).collect()
}

fn date(day: i128) -> String {
    CalendarDate::from_day_number(day).to_string()
}

fn days(count: i128) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// The dates of a net of steps that starts on a given day.
struct Schedule<'n, 'r> {
    net: &'n Net<'r>,
    start: i128,
    begun: Vec<i128>,
    done: Vec<i128>,
    latest: Vec<i128>,
    last_days: Vec<Option<i128>>,
    end: i128,
}

impl<'n, 'r> Schedule<'n, 'r> {
    fn of(net: &'n Net<'r>, start: i128) -> Self {
        let begun = net.earliest(vec![start; net.nodes.len()]);
        let done = net.all_done(&begun);
        let last_days = net.last_days(&begun);
        let end = end(net, &done).unwrap_or(start);
        Self {
            net,
            start,
            latest: net.latest(end, &last_days),
            begun,
            done,
            last_days,
            end,
        }
    }

    fn begun(&self, node: usize) -> i128 {
        self.begun.get(node).copied().unwrap_or(self.start)
    }

    /// How many steps come before this one. It orders steps that begin on the same day: a step has more than any step
    /// it waits for.
    fn rank(&self, node: usize) -> usize {
        let (mut before, mut next) = (vec![node], 0);
        while let Some(&here) = before.get(next) {
            next += 1;
            for link in self.net.links.iter().filter(|link| link.to == here) {
                if !before.contains(&link.from) {
                    before.push(link.from);
                }
            }
        }
        before.len()
    }

    fn step(&self, place: usize) -> Option<Step> {
        let node = self.net.nodes.get(place)?;
        let duty = node.duty;
        let done = self.done.get(place).copied()?;
        let latest = self.latest.get(place).copied();
        let latest = latest.filter(|_| !recurs(duty));
        let every = duty.and_then(|duty| duty.every.as_ref());
        let (a_week_later, end_moves) = self.delayed(place);
        let plain = |name: &str| name.replace('-', " ");
        Some(Step {
            id: node.name.clone(),
            what: duty.map_or_else(|| plain(&node.name), |duty| duty.what.clone()),
            who: duty.and_then(|duty| duty.who.clone()),
            sure: node.sure,
            event: duty.is_none(),
            earliest: date(self.begun(place)),
            done: date(done),
            latest: latest.map(date),
            slack: latest.map(|latest| days(latest - self.begun(place))),
            takes: self.net.takes(place).map(stated_words),
            waits_for: self.waits(place),
            last_day: self.last_days.get(place).copied().flatten().map(date),
            every: every.map(stated_words),
            again: every.map(|every| date(span::after(done, node.span(Some(every))))),
            a_week_later,
            end_moves,
            rule_sets: self.net.rule_sets(node),
        })
    }

    fn waits(&self, place: usize) -> Vec<Wait> {
        let links = self.net.links.iter().filter(|link| link.to == place);
        links
            .filter_map(|link| {
                Some(Wait {
                    step: self.net.nodes.get(link.from)?.name.clone(),
                    at_least: link.lag.map(|lag| stated_words(lag.stated)),
                    at_most: link.no_longer.map(|most| stated_words(most.stated)),
                })
            })
            .collect()
    }

    /// What moves, and how far the end moves, if a step begins a week after its earliest day.
    fn delayed(&self, place: usize) -> (Vec<Moved>, i64) {
        let mut first = vec![self.start; self.net.nodes.len()];
        if let Some(day) = first.get_mut(place) {
            *day = self.begun(place).saturating_add(DELAY);
        }
        let begun = self.net.earliest(first);
        let moved = begun
            .iter()
            .zip(&self.begun)
            .zip(&self.net.nodes)
            .enumerate();
        let moved = moved.filter(|(other, ((now, before), _))| *other != place && now > before);
        let moved = moved.map(|(_, ((now, before), node))| Moved {
            step: node.name.clone(),
            days: days(now - before),
        });
        let end = end(self.net, &self.net.all_done(&begun)).unwrap_or(self.end);
        (moved.collect(), days(end - self.end))
    }
}

fn recurs(duty: Option<&Duty>) -> bool {
    duty.is_some_and(|duty| duty.every.is_some())
}

/// The day on which everything is done, apart from steps that recur.
fn end(net: &Net<'_>, done: &[i128]) -> Option<i128> {
    let once = net
        .nodes
        .iter()
        .zip(done)
        .filter(|(node, _)| !recurs(node.duty));
    once.map(|(_, done)| *done).max()
}
