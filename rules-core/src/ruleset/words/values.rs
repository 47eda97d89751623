//! Amounts and bounds in words.

use super::levels::{fall_words, height_words, level_words, volume_words};
use super::nouns::{is_plural, kind_noun, listed, plural, spaced, term_words};
use super::places::{narrowed_words, nearest_words, operand_words, selection_words, zone_words};
use crate::quantity::{Dimension, show_exactly, show_range};
use crate::ruleset::types::{Type, type_of};
use crate::ruleset::{
    Area, Bound, Choice, Distance, Enclosure, Margin, Measured, Over, Places, RuleSet, Selection,
    ShareOf, Sound, Stated, Value,
};

/// A value as a short noun phrase: `the distance from the pool edge to the rear lines`, `3 m`.
pub fn value_words(value: &Value, rules: &RuleSet) -> String {
    match value {
        Value::Stated(stated) => stated_words(stated),
        Value::Fact(fact) => rules.vocabulary.fact(*fact).phrase(),
        Value::Distance(distance) => distance_words(distance, rules),
        Value::Area(area) => area_words(area, rules),
        Value::Length { of, within } => {
            let within = within
                .as_deref()
                .map(|zone| format!(" that lies {}", zone_words(zone, rules)));
            let of = operand_words(of, "and", rules);
            format!("the length of {of}{}", within.unwrap_or_default())
        }
        Value::Count(selection) => format!("the number of {}", all_words(selection, rules)),
        Value::Enclosure(enclosure) => enclosure_words(enclosure, rules),
        Value::Sound(sound) => sound_words(sound, rules),
        Value::Level(level) => level_words(level, rules),
        Value::Fall(fall) => fall_words(fall, rules),
        Value::Volume(volume) => volume_words(volume, rules),
        Value::Height(height) => height_words(height, rules),
        Value::Margin(margin) => margin_words(margin, rules),
        Value::Width(of) => format!("the width of {} over all", operand_words(of, "and", rules)),
        Value::Table(table) => match &table.by {
            Some(by) => format!("what the table gives for {}", value_words(by, rules)),
            None => "what the table gives".to_owned(),
        },
        Value::Largest(values) => {
            let word = match (is_date(value, rules), values.len()) {
                (true, 2) => "later",
                (true, _) => "latest",
                (false, 2) => "larger",
                (false, _) => "largest",
            };
            format!("the {word} of {}", listed(&each(values, rules), "and"))
        }
        Value::Smallest(values) => {
            let word = match (is_date(value, rules), values.len()) {
                (true, 2) => "earlier",
                (true, _) => "earliest",
                (false, 2) => "smaller",
                (false, _) => "smallest",
            };
            format!("the {word} of {}", listed(&each(values, rules), "and"))
        }
        Value::Sum(values) => reckoned(values, " plus ", rules),
        Value::Difference(values) => reckoned(values, " less ", rules),
        Value::Product(values) => reckoned(values, " times ", rules),
        Value::Root(of) => format!(
            "the square root of {}",
            reckoned(std::slice::from_ref(of), "", rules)
        ),
        Value::Over { how, of, take } => over_words(*how, of, take, rules),
        Value::Named { term, .. } => term_words(&term.name),
    }
}

fn is_date(value: &Value, rules: &RuleSet) -> bool {
    type_of(value, &rules.vocabulary) == Some(Type::Amount(Dimension::Date))
}

fn each(values: &[Value], rules: &RuleSet) -> Vec<String> {
    values
        .iter()
        .map(|value| value_words(value, rules))
        .collect()
}

/// Values that are reckoned together; what is reckoned itself stands in brackets.
fn reckoned(values: &[Value], sign: &str, rules: &RuleSet) -> String {
    let words = |value: &Value| {
        let words = value_words(value, rules);
        match value {
            Value::Sum(_)
            | Value::Difference(_)
            | Value::Product(_)
            | Value::Over { .. }
            | Value::Largest(_)
            | Value::Smallest(_) => format!("({words})"),
            _ => words,
        }
    };
    let words: Vec<String> = values.iter().map(words).collect();
    words.join(sign)
}

/// An amount as the rule file states it: `3 m`, `4 ft 6 in`.
pub fn stated_words(stated: &Stated) -> String {
    if stated.range.is_exact() {
        show_exactly(stated.range.low, stated.unit)
    } else {
        show_range(stated.range, stated.unit, stated.unit.digits()).replace(" .. ", " to ")
    }
}

fn distance_words(distance: &Distance, rules: &RuleSet) -> String {
    let what = match distance.how {
        Measured::Level => "distance",
        Measured::InSpace => "distance through the air",
        Measured::Plumb => "height straight up or down",
        Measured::Walking => "way on foot, round what stands in the way,",
    };
    let any = |end| operand_words(end, "or", rules);
    let nearest = |end| nearest_words(end, rules);
    let (from, to) = (&distance.from, &distance.to);
    match distance.places {
        Places::Nearest => format!("the {what} from {} to {}", nearest(from), nearest(to)),
        Places::Farthest => {
            let (from, to) = (any(from), any(to));
            format!("the greatest {what} from any place of {from} to any place of {to}")
        }
        Places::FarthestOfFirst => {
            let (from, to) = (any(from), nearest(to));
            format!("the {what} from the farthest point of {from} to {to}")
        }
    }
}

fn area_words(area: &Area, rules: &RuleSet) -> String {
    let of = operand_words(&area.of, "and", rules);
    let within = area.within.as_ref();
    let within = within
        .map(|zone| format!(" that lies {}", zone_words(zone, rules)))
        .unwrap_or_default();
    let area_words = format!("the area within {of}{within}");
    match &area.share_of {
        None => area_words,
        Some(ShareOf::Outlines(whole)) => {
            let whole = operand_words(whole, "and", rules);
            format!("the share that {area_words} takes of the area within {whole}")
        }
        Some(ShareOf::Value(whole)) => {
            let whole = value_words(whole, rules);
            format!("the share that {area_words} takes of {whole}")
        }
    }
}

fn margin_words(margin: &Margin, rules: &RuleSet) -> String {
    let round = operand_words(&margin.round, "or", rules);
    let of = operand_words(&margin.of, "or", rules);
    format!("the distance from {round} to the nearest ground round it that lies outside {of}")
}

fn enclosure_words(enclosure: &Enclosure, rules: &RuleSet) -> String {
    let from: Vec<String> = enclosure
        .from
        .iter()
        .map(|word| match word.strip_prefix("neighbour-") {
            Some(theirs) => format!("a neighbour's {theirs}"),
            None => format!("the {}", word.replace('-', " ")),
        })
        .collect();
    let from = if from.is_empty() {
        String::new()
    } else {
        format!(" from {}", listed(&from, "or"))
    };
    format!(
        "the widest gap in the barrier ({}) on any way{from} to {}",
        operand_words(&enclosure.made_of, "and", rules),
        operand_words(&enclosure.of, "or", rules),
    )
}

fn sound_words(sound: &Sound, rules: &RuleSet) -> String {
    format!(
        "the sound level from {} together at {} ({})",
        operand_words(&sound.from, "and", rules),
        operand_words(&sound.at, "or", rules),
        match sound.during.as_str() {
            "evening" => "in the evening".to_owned(),
            during => format!("by {during}"),
        }
    )
}

/// All that are selected: `gates`, `rear lines`.
pub fn all_words(selection: &Selection, rules: &RuleSet) -> String {
    match &selection.term {
        Some(term) if is_plural(term) => selection_words(selection, rules),
        Some(_) => plural(&selection_words(selection, rules)),
        None => format!(
            "{}{}",
            plural(kind_noun(selection.kind, &rules.vocabulary)),
            narrowed_words(selection, rules)
        ),
    }
}

fn over_words(how: Over, of: &Selection, take: &Value, rules: &RuleSet) -> String {
    let (take, of) = (value_words(take, rules), all_words(of, rules));
    let bare = take.strip_prefix("the ").unwrap_or(&take);
    match how {
        Over::Largest => format!("the largest {bare} among all {of}"),
        Over::Smallest => format!("the smallest {bare} among all {of}"),
        Over::Sum => format!("{take} of all {of}, added up"),
    }
}

/// A bound on a value: `at least 3 m`, `pool or both`.
pub fn bound_words(bound: &Bound, rules: &RuleSet) -> String {
    let limit = |amount: &str, day: &str, value: &Value| {
        let date = is_date(value, rules);
        format!(
            "{} {}",
            if date { day } else { amount },
            value_words(value, rules)
        )
    };
    match bound {
        Bound::AtLeast(value) => limit("at least", "on or after", value),
        Bound::AtMost(value) => limit("at most", "on or before", value),
        Bound::MoreThan(value) => limit("more than", "after", value),
        Bound::LessThan(value) => limit("less than", "before", value),
        Bound::Is(choices) => listed(&choices.iter().map(choice_words).collect::<Vec<_>>(), "or"),
    }
}

/// Several bounds at once: `more than 1 m and at most 2 m`.
pub fn bounds_words(bounds: &[Bound], rules: &RuleSet) -> String {
    let words = |bound| bound_words(bound, rules);
    listed(&bounds.iter().map(words).collect::<Vec<_>>(), "and")
}

/// One of the answers that `is` allows.
pub(super) fn choice_words(choice: &Choice) -> String {
    match choice {
        // What has spaces of its own is told from what has hyphens.
        Choice::Word(word) if word.contains(' ') => format!("“{word}”"),
        Choice::Word(word) => spaced(word),
        Choice::Amount(amount, unit) => show_exactly(*amount, *unit),
        Choice::None => "none".to_owned(),
    }
}
