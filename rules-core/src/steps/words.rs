//! The steps as text, for the person who has to take them.

use super::net::{Net, StepNode};
use super::{Moved, Step, Steps};
use crate::quantity::{Unit, WorkingDays};
use crate::report::text::{of, wrap};
use crate::ruleset::words::listed;
use crate::text::Visible;

/// The greatest width of a line, in columns.
const WIDTH: usize = 80;

impl Steps {
    /// The steps as numbered text.
    pub fn to_text(&self) -> Visible {
        let mut text = Visible::new();
        let (start, end) = (&self.start, &self.end);
        text.line(match self.steps.is_empty() {
            true => "The rule set asks for no steps.".to_owned(),
            false => format!("Start on {start}; everything is done on {end} at the earliest."),
        });
        for (number, step) in (1..).zip(&self.steps) {
            text.gap();
            self.add_step(number, step, &mut text);
        }
        if !self.not_needed.is_empty() {
            text.gap();
            text.line("Not needed here:");
            text.extend(self.not_needed.iter().flat_map(|what| paragraph(2, what)));
        }
        text.gap();
        text.extend(self.cautions());
        text
    }

    fn add_step(&self, number: u32, step: &Step, text: &mut Visible) {
        let lead = format!("{number:>3}. {}  ", step.earliest);
        let what = step.what.trim_end_matches('.');
        text.extend(led_by(&lead, &format!("{what}{}", of(&step.rule_sets))));
        text.extend(self.lines(step).iter().flat_map(|line| paragraph(7, line)));
    }

    fn lines(&self, step: &Step) -> Vec<String> {
        let mut lines = Vec::new();
        lines.extend(
            (!step.sure)
                .then(|| "Only if it applies, which depends on a missing answer.".to_owned()),
        );
        lines.extend(step.who.as_ref().map(|who| format!("Who: {who}.")));
        lines.extend(self.waits(step));
        lines.push(time(step));
        lines.extend(
            step.every
                .as_ref()
                .zip(step.again.as_ref())
                .map(|(every, again)| format!("Again every {every}: next on {again}.")),
        );
        lines.extend(last_day(step));
        lines.extend(self.room(step));
        lines
    }

    fn waits(&self, step: &Step) -> Option<String> {
        let waits = step.waits_for.iter().map(|wait| {
            let number = self.number(&wait.step);
            match (&wait.at_least, &wait.at_most) {
                (None, None) => format!("after step {number}"),
                (None, Some(most)) => format!("no more than {most} after step {number}"),
                (Some(least), None) => format!("at least {least} after step {number}"),
                (Some(least), Some(most)) => {
                    format!("at least {least} and no more than {most} after step {number}")
                }
            }
        });
        let waits: Vec<String> = waits.collect();
        (!waits.is_empty()).then(|| format!("Begins {}.", listed(&waits, "and")))
    }

    fn number(&self, name: &str) -> usize {
        let place = self.steps.iter().position(|step| step.id == name);
        place.map_or(0, |place| place + 1)
    }

    /// The days to spare, and what a delay moves.
    fn room(&self, step: &Step) -> Option<String> {
        let (latest, slack) = (step.latest.as_ref()?, step.slack?);
        let room = match slack {
            ..0 => return None,
            0 => "No day to spare".to_owned(),
            1 => format!("1 day to spare (latest {latest})"),
            more => format!("{more} days to spare (latest {latest})"),
        };
        let moved = match (step.a_week_later.as_slice(), step.end_moves) {
            ([], 0) => "a week later here moves nothing else".to_owned(),
            ([], more) => format!("a week later here moves the end by {}", days(more)),
            (moved, 0) => format!("a week later here moves {}, not the end", self.moved(moved)),
            (moved, more) => format!(
                "a week later here moves {}, and the end by {}",
                self.moved(moved),
                days(more)
            ),
        };
        Some(format!("{room}; {moved}."))
    }

    fn moved(&self, moved: &[Moved]) -> String {
        let mut numbers: Vec<usize> = moved.iter().map(|moved| self.number(&moved.step)).collect();
        numbers.sort_unstable();
        let noun = if numbers.len() == 1 { "step" } else { "steps" };
        format!("{noun} {}", listed(&runs(&numbers), "and"))
    }

    fn cautions(&self) -> Vec<String> {
        let steps = self.steps.iter();
        let unsaid = steps.filter(|step| step.takes.is_none() && !step.event);
        let unsaid = match unsaid.count() {
            0 => String::new(),
            1 => "The rule set does not say how long one step takes; it is counted as done the same day, so all that \
                  follows can be later."
                .to_owned(),
            more => format!(
                "The rule set does not say how long {more} steps take; they are counted as done the same day, so all \
                 that follows can be later."
            ),
        };
        let days = format!(
            "{} The authority decides in its own time; ask it before you order anything.",
            self.counted
        );
        [paragraph(0, &unsaid), paragraph(0, &days)].concat()
    }
}

/// Which days were counted.
pub(super) fn counted(net: &Net<'_>) -> String {
    let counts = |node: &&StepNode<'_>| {
        let duty = node.duty.iter();
        let mut spans = duty.flat_map(|duty| [&duty.by, &duty.within, &duty.takes]);
        spans.any(|span| (span.as_ref()).is_some_and(|span| span.unit == Unit::WORKING_DAY))
    };
    let calendars = net.nodes.iter().filter(counts).map(|node| node.calendar);
    let mut said: Vec<String> = Vec::new();
    for calendar in calendars {
        let words = working_days(calendar);
        if !said.contains(&words) {
            said.push(words);
        }
    }
    match said.is_empty() {
        true => "All days are counted, weekends and holidays included.".to_owned(),
        false => said.join(" "),
    }
}

fn working_days(calendar: &WorkingDays) -> String {
    let unsaid = match calendar.holidays {
        None => " Nothing says which days are holidays, so they are counted as well.",
        Some(_) => "",
    };
    format!(
        "Working days are counted without {}; all other spans count every day.{unsaid}",
        listed(&free_days(calendar), "and")
    )
}

fn free_days(calendar: &WorkingDays) -> Vec<String> {
    let weekend = calendar.weekend.iter();
    let holidays = calendar.holidays.as_ref().filter(|list| !list.is_empty());
    let named = calendar.name.as_deref();
    weekend
        .map(|day| format!("{}s", day.name()))
        .chain(holidays.map(|_| {
            named
                .unwrap_or("the holidays that the rule set names")
                .to_owned()
        }))
        .collect()
}

/// Numbers in order; three or more in a row as `4 to 9`.
fn runs(numbers: &[usize]) -> Vec<String> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for &number in numbers {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == number => *last = number,
            _ => runs.push((number, number)),
        }
    }
    let said = |(first, last): (usize, usize)| match last - first {
        0 => vec![first.to_string()],
        1 => vec![first.to_string(), last.to_string()],
        _ => vec![format!("{first} to {last}")],
    };
    runs.into_iter().flat_map(said).collect()
}

/// A paragraph with every line indented by `indent` columns.
fn paragraph(indent: usize, text: &str) -> Vec<String> {
    let margin = " ".repeat(indent);
    let lines = wrap(text, WIDTH.saturating_sub(indent));
    lines.iter().map(|line| format!("{margin}{line}")).collect()
}

/// A paragraph that begins after a lead text, with its other lines indented to match.
fn led_by(lead: &str, text: &str) -> Vec<String> {
    let mut lines = paragraph(lead.len(), text);
    match lines.first_mut() {
        Some(first) => *first = format!("{lead}{}", first.trim_start()),
        None => lines.push(lead.trim_end().to_owned()),
    }
    lines
}

fn time(step: &Step) -> String {
    match &step.takes {
        Some(takes) => format!("Takes {takes}: done on {}.", step.done),
        None if step.event => "Nothing here says how long it takes or when it happens.".to_owned(),
        None => "The rule set does not say how long it takes.".to_owned(),
    }
}

fn last_day(step: &Step) -> Option<String> {
    let last = step.last_day.as_ref()?;
    Some(match step.slack {
        Some(..0) => format!(
            "It must be done by {last}, which is not possible: something before it must be done later."
        ),
        _ => format!("It must be done by {last}."),
    })
}

fn days(count: i64) -> String {
    match count {
        1 => "1 day".to_owned(),
        more => format!("{more} days"),
    }
}
