//! What a rule set says of itself: whose it is, when it is in force, what it builds on, and which matters it holds.

use super::Said;
use super::lines::Line;
use super::lists::entry;
use super::requirements::Sayer;
use super::rules::sentence;
use crate::grammar::SORTS;
use crate::quantity::{Holiday, Unit, WorkingDays, YearDay, show_exactly};
use crate::ruleset::visit::Visit;
use crate::ruleset::words::{in_force_words, listed};
use crate::ruleset::{About, InForce, LeftOut, RuleSet, Sort};
use crate::text::capitalised;

/// The lines under the title.
pub(super) fn lines(rules: &RuleSet) -> Vec<Line> {
    let in_force = rules.in_force.iter();
    let in_force = in_force.map(|in_force| in_force_line(in_force, rules));
    let said = about(rules).into_iter().map(Line::new);
    said.chain(in_force)
        .chain(earlier(rules))
        .chain(calendar(rules))
        .collect()
}

fn about(rules: &RuleSet) -> Vec<String> {
    let About {
        place,
        country,
        sort,
        finding_the_authority,
        costs,
        lasts,
        belongs_with,
        language,
        // The format concerns the file, not its rules.
        format: _,
    } = &rules.about;
    let told = |lead: &str, text: &Option<String>| {
        let text = text.as_ref();
        text.map(|text| format!("{lead}{}", sentence(text)))
    };
    let word = sort.and_then(|sort| Sort::ALL.iter().position(|one| *one == sort));
    let sort = word.and_then(|word| SORTS.get(word));
    let layers = rules.layers.iter().skip(1);
    let layers: Vec<String> = layers
        .map(|layer| {
            format!(
                "{}, edition {} (`{}`)",
                layer.title, layer.edition, layer.id
            )
        })
        .collect();
    let beside: Vec<String> = belongs_with
        .iter()
        .map(|name| format!("`{name}`"))
        .collect();
    let all = [
        Some(format!("Short name: `{}`", rules.id)),
        told("Place: ", place),
        told("Country: ", country),
        sort.map(|sort| format!("Sort of rule set: {sort}")),
        Some(format!("Who decides: {}", sentence(&rules.authority))),
        told("How one finds the authority: ", finding_the_authority),
        told("What the permit costs: ", costs),
        told("How long the permit lasts: ", lasts),
        told("Every report says: ", &rules.notice),
        told("Language of its texts: ", language),
        (!layers.is_empty()).then(|| format!("It builds on {}", layers.join("; "))),
        (!beside.is_empty()).then(|| format!("It belongs with {}", listed(&beside, "and"))),
    ];
    all.into_iter().flatten().collect()
}

pub(super) fn in_force_line(in_force: &InForce, rules: &RuleSet) -> Line {
    let line = Line::new(format!("In force {}", in_force_words(in_force, rules)));
    let conditions = in_force.or_when.iter().chain(&in_force.unless);
    Sayer { rules }.with_tables(line, |found| {
        conditions.for_each(|it| found.requirement(&it.requirement));
    })
}

/// What holds for plans that it does not govern yet.
fn earlier(rules: &RuleSet) -> Option<Line> {
    let earlier = rules.earlier.as_ref()?;
    Some(Line::new(format!(
        "For a plan that it does not govern yet, the edition {} holds (`{}`)",
        earlier.edition, earlier.id
    )))
}

/// How working days are counted, where the file says it.
fn calendar(rules: &RuleSet) -> Option<Line> {
    let days = &rules.working_days;
    if *days == WorkingDays::default() {
        return None;
    }
    let weekend: Vec<String> = days
        .weekend
        .iter()
        .map(|day| format!("{}s", day.name()))
        .collect();
    let holidays = days.holidays.as_ref().map(|holidays| {
        let all: Vec<String> = holidays.iter().map(holiday).collect();
        let name = days.name.as_deref().unwrap_or("these holidays");
        format!(", and without {name} ({})", listed(&all, "and"))
    });
    let moved: Vec<String> = (days.moved.iter())
        .map(|(from, to)| {
            format!(
                "; a yearly holiday that falls on a {} is kept on the {}, too",
                from.name(),
                to.name()
            )
        })
        .collect();
    Some(Line::new(format!(
        "Working days are counted without {}{}{}",
        listed(&weekend, "and"),
        holidays.unwrap_or_default(),
        moved.concat()
    )))
}

fn holiday(holiday: &Holiday) -> String {
    let yearly = |day: &YearDay| format!("{:02}-{:02}", day.month, day.day);
    match holiday {
        Holiday::On(day) => show_exactly(*day, Unit::DATE),
        Holiday::Yearly(day) => yearly(day),
        Holiday::Easter(0) => "Easter Sunday".to_owned(),
        Holiday::Easter(1) => "Easter Monday".to_owned(),
        Holiday::Easter(-1) => "the day before Easter Sunday".to_owned(),
        Holiday::Easter(after @ 1..) => format!("{after} days after Easter Sunday"),
        Holiday::Easter(before) => format!("{} days before Easter Sunday", before.saturating_abs()),
        Holiday::WeekdayFrom(weekday, from) => {
            format!("the first {} from {} on", weekday.name(), yearly(from))
        }
    }
}

/// Which matters it holds, and which it leaves to others.
pub(super) fn scope(rules: &RuleSet) -> Vec<Said> {
    let reach = &rules.reach;
    let holds = reach.holds.iter().map(|matter| {
        let line = Line::new("These rules cover it");
        entry(matter.id(), &capitalised(matter.said()), vec![line])
    });
    let left = reach.leaves_out.iter().map(left_out);
    let on_top = reach.on_top.iter().map(|text| {
        let line = Line::new("This always comes on top of these rules");
        entry(text, text, vec![line])
    });
    holds.chain(left).chain(on_top).collect()
}

fn left_out(left: &LeftOut) -> Said {
    let ask = Line::new(format!(
        "These rules leave it out. Ask {}",
        sentence(&left.ask)
    ));
    let why = left.why.iter();
    let why = why.map(|why| Line::new(format!("Why: {}", sentence(why))));
    let lines = [ask].into_iter().chain(why).collect();
    entry(left.matter.id(), &capitalised(left.matter.said()), lines)
}
