//! The steps of a project in their order, each with its days: from a rule set's duties and the day on which it starts.
//!
//! Days and months are those of the calendar, week-ends and holidays among them; working days are those of the rule set's
//! own calendar. A step whose time nobody stated counts as done on the day
//! on which it begins; that is said, as the days after it can then only be later.

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

/// How many days a step is put off to see what that moves.
const DELAY: i128 = 7;

/// The steps of a project, in their order.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Steps {
    /// The day on which the first of them can begin.
    pub start: String,
    /// The day on which all is done at the earliest.
    pub end: String,
    /// The steps, the earliest first.
    pub steps: Vec<Step>,
    /// What the rule set asks of others and not of this plan.
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
    /// What is to be done or happens.
    pub what: String,
    /// By whom.
    pub who: Option<String>,
    /// Whether it surely applies to this plan.
    pub sure: bool,
    /// Whether it is something that happens, and that no duty of the rule set brings about.
    pub event: bool,
    /// The earliest day on which it can begin.
    pub earliest: String,
    /// The day on which it is then done.
    pub done: String,
    /// The latest day on which it can begin without putting off the end or missing its last day; none for what recurs.
    pub latest: Option<String>,
    /// How many days lie between the earliest and the latest; below nothing where its last day cannot be kept.
    pub slack: Option<i64>,
    /// How long it takes; `None` where the rule set does not say.
    pub takes: Option<String>,
    /// What it waits for.
    pub waits_for: Vec<Wait>,
    /// The last day on which it may be done, where the rule set sets one.
    pub last_day: Option<String>,
    /// How often it recurs.
    pub every: Option<String>,
    /// The second day, where it recurs.
    pub again: Option<String>,
    /// What moves if it begins a week later than it can.
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
    /// The name of the step before.
    pub step: String,
    /// How long it waits at least.
    pub at_least: Option<String>,
    /// How long after that it may begin at the latest.
    pub at_most: Option<String>,
}

/// A step that is moved by another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Moved {
    /// Its name.
    pub step: String,
    /// By how many days.
    pub days: i64,
}

/// The day that a text says, as a number of days since 1970-01-01.
///
/// # Errors
/// A sentence that says what is wrong with it.
pub fn day(text: &str) -> Result<i128, String> {
    match parse(text, None, None) {
        Ok(written) if written.dimension == Dimension::Date => Ok(written.range.low),
        _ => Err(format!("`{text}` is not a day of the calendar.")),
    }
}

/// The steps of a plan that was judged, from a day on (as a number of days since 1970-01-01).
pub fn steps(rules: &RuleSet, findings: &Findings<'_>, start: i128) -> Steps {
    let sets = [(rules, findings)];
    of_net(&Net::of(&sets), &sets, start)
}

/// The same for several rule sets together; `None` where steps of different rule sets wait for each other, so that none of
/// them can begin.
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

/// The days of a net that starts on some day.
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

    /// How many steps come before: of two on one day, the one that the other waits for has fewer.
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

    /// What moves, and by how much the end does, if a step begins a week later than it can.
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

/// The day on which all is done but what recurs.
fn end(net: &Net<'_>, done: &[i128]) -> Option<i128> {
    let once = net
        .nodes
        .iter()
        .zip(done)
        .filter(|(node, _)| !recurs(node.duty));
    once.map(|(_, done)| *done).max()
}
