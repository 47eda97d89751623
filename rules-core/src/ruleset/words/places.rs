//! Things, outlines and regions in words.

use super::nouns::{is_plural, kind_noun, listed, term_noun, term_words, without_article};
use super::requirements::requirement_words;
use super::values::value_words;
use crate::quantity::{Unit, show_exactly};
use crate::ruleset::{Operand, Part, RuleSet, Selection, Which, Zone};
use crate::vocabulary::{Number, OutlineId, Vocabulary};

/// The things selected, without an article: `gate (where the gate closes by itself)`; a term by its name.
pub fn selection_words(selection: &Selection, rules: &RuleSet) -> String {
    if let Some(term) = &selection.term {
        return term_noun(term);
    }
    format!(
        "{}{}",
        kind_noun(selection.kind, &rules.vocabulary),
        narrowed_words(selection, rules)
    )
}

/// `each gate`, `each of the rear lines`, `each stretch of the barrier where it lies within 2 m of any lot line`.
pub fn each_words(selection: &Selection, rules: &RuleSet) -> String {
    match (&selection.term, selection.zone.as_deref()) {
        (Some(term), _) if is_plural(term) => format!("each of {}", term_words(term)),
        (None, Some(zone)) => {
            let things = kind_noun(selection.kind, &rules.vocabulary);
            let filter = filter_words(selection, rules);
            // A distance is taken from this part of it, and not from the whole.
            format!(
                "each {things}{filter} where it lies {}",
                zone_words(zone, rules)
            )
        }
        _ => format!("each {}", selection_words(selection, rules)),
    }
}

/// What narrows a selection down: its `where` in brackets, then its region.
pub fn narrowed_words(selection: &Selection, rules: &RuleSet) -> String {
    let zone = selection.zone.as_deref();
    let zone = zone.map(|zone| format!(" {}", zone_words(zone, rules)));
    filter_words(selection, rules) + &zone.unwrap_or_default()
}

/// The `where` of a selection in brackets, if it has one.
fn filter_words(selection: &Selection, rules: &RuleSet) -> String {
    let filter = selection.filter.as_deref();
    let filter = filter.map(|filter| format!(" (where {})", requirement_words(filter, rules)));
    filter.unwrap_or_default()
}

/// The outlines, joined by `or` or `and`: `the water's edge`, `the outside wall of any building`.
pub fn operand_words(operand: &Operand, joined_by: &str, rules: &RuleSet) -> String {
    if let Some(term) = &operand.term {
        return term_words(term);
    }
    let parts: Vec<String> = operand
        .parts
        .iter()
        .map(|part| part_words(part, joined_by, rules))
        .collect();
    listed(&parts, joined_by)
}

/// An outline, and how much of it counts.
fn part_words(part: &Part, joined_by: &str, rules: &RuleSet) -> String {
    let outline = whole_words(part, joined_by, rules);
    let share = part.counted.map(|billionths| {
        let percent = show_exactly(billionths, Unit::PERCENT);
        format!(" (of which {percent} counts)")
    });
    let drawn = if part.if_drawn {
        " (where it is drawn)"
    } else {
        ""
    };
    format!("{outline}{}{drawn}", share.unwrap_or_default())
}

/// An outline; of all pools together that is said, since a rule speaks of one.
fn whole_words(part: &Part, joined_by: &str, rules: &RuleSet) -> String {
    let vocabulary = &rules.vocabulary;
    match &part.which {
        Which::Bound(kind) => {
            let whose = format!("the {}", kind_noun(*kind, vocabulary));
            outline_words(part.outline, &whose, true, vocabulary)
        }
        Which::Meant(selection) => {
            let whose = format!("the {}", selection_words(selection, rules));
            outline_words(part.outline, &whose, false, vocabulary)
        }
        Which::All(selection) => {
            let plain =
                selection.term.is_none() && selection.filter.is_none() && selection.zone.is_none();
            match plain && vocabulary.kind_named("pool") == Some(selection.kind) {
                true if joined_by == "and" => {
                    outline_words(part.outline, "all pools together", false, vocabulary)
                }
                true => outline_words(part.outline, "any pool", false, vocabulary),
                false => {
                    let one = vocabulary.kind(selection.kind).number == Number::One;
                    let any = any(selection, rules);
                    outline_words(part.outline, &any, plain && one, vocabulary)
                }
            }
        }
    }
}

/// `any building`, `any of the rear lines`, `the lot`.
fn any(selection: &Selection, rules: &RuleSet) -> String {
    let one = rules.vocabulary.kind(selection.kind).number == Number::One;
    match &selection.term {
        Some(term) if is_plural(term) => format!("any of {}", term_words(term)),
        _ if one => format!("the {}", selection_words(selection, rules)),
        _ => format!("any {}", selection_words(selection, rules)),
    }
}

/// An outline of something: `the outside wall of the building`. Where the outline is all that the kind has, the thing
/// itself stands for it; where `plain` and the outline's own name says enough, it stands alone.
pub fn outline_words(id: OutlineId, whose: &str, plain: bool, vocabulary: &Vocabulary) -> String {
    let outline = vocabulary.outline(id);
    let only_outline = vocabulary.kind(outline.kind).outlines.len() == 1;
    if only_outline {
        whose.to_owned()
    } else if plain && !outline.its {
        outline.said.clone()
    } else {
        format!("the {} of {whose}", without_article(&outline.said))
    }
}

/// A region, with the word that leads to it: `within 3 m of the water's edge`.
pub fn zone_words(zone: &Zone, rules: &RuleSet) -> String {
    let of = |operand: &Operand| operand_words(operand, "or", rules);
    match zone {
        Zone::Inside(area) => format!("inside {}", of(area)),
        Zone::Around { of: line, by } => {
            format!("within {} of {}", value_words(by, rules), of(line))
        }
        Zone::Between(one, other) => format!("between {} and {}", of(one), of(other)),
        Zone::Corner { of: lines, legs } => format!(
            "in the corner of {} and {}, with legs of {}",
            of(&lines.0),
            of(&lines.1),
            value_words(legs, rules)
        ),
        Zone::Not(inner) => format!("not {}", zone_words(inner, rules)),
        Zone::Named { term, .. } => format!("in {}", term_words(&term.name)),
    }
}
