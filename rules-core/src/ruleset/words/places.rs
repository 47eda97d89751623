//! Things, outlines and regions in words.

use super::nouns::{is_plural, kind_noun, listed, plural, term_noun, term_words, without_article};
use super::requirements::{if_none_words, requirement_words};
use super::values::value_words;
use crate::quantity::{Unit, show_exactly};
use crate::ruleset::{Operand, Part, RuleSet, Selection, Which, Zone};
use crate::vocabulary::{Number, OutlineId, Role, Shape, Vocabulary};

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
            let filter = chosen_words(selection, rules);
            // A distance is taken from this part of it, and not from the whole.
            format!(
                "each {things}{filter}, as far as it lies {}",
                zone_words(zone, rules)
            )
        }
        _ => format!("each {}", selection_words(selection, rules)),
    }
}

/// What narrows a selection down: what its things are part of, its `where` in brackets, then its region.
pub fn narrowed_words(selection: &Selection, rules: &RuleSet) -> String {
    let zone = selection.zone.as_deref();
    let zone = zone.map(|zone| format!(" {}", zone_words(zone, rules)));
    chosen_words(selection, rules) + &zone.unwrap_or_default()
}

/// What the things of a selection are part of, and its `where` in brackets: ` of the building (where it is a door)`.
fn chosen_words(selection: &Selection, rules: &RuleSet) -> String {
    let whole = selection.part_of;
    let whole = whole.map(|kind| format!(" of the {}", kind_noun(kind, &rules.vocabulary)));
    let filter = selection.filter.as_deref();
    let filter = filter.map(|filter| format!(" (where {})", requirement_words(filter, rules)));
    whole.unwrap_or_default() + &filter.unwrap_or_default()
}

/// The outlines, joined by `or` or `and`: `the water's edge`, `the outside wall of any building`.
pub fn operand_words(operand: &Operand, joined_by: &str, rules: &RuleSet) -> String {
    match &operand.term {
        Some(term) => term_words(term),
        None => {
            let any = if joined_by == "and" { "all" } else { "any" };
            listed(&parts_words(operand, (joined_by, any), rules), joined_by)
        }
    }
}

/// The outlines at one end of a distance to the nearest one: `the outside wall of the nearest building`.
pub(super) fn nearest_words(operand: &Operand, rules: &RuleSet) -> String {
    if let Some(term) = &operand.term {
        return term_words(term);
    }
    let nearest = match operand.parts.len() {
        0 | 1 => return parts_words(operand, ("or", "the nearest"), rules).concat(),
        2 => "the nearer",
        _ => "the nearest",
    };
    let parts = parts_words(operand, ("or", "any"), rules);
    format!("{nearest} of {}", listed(&parts, "and"))
}

fn parts_words(operand: &Operand, how: (&str, &str), rules: &RuleSet) -> Vec<String> {
    let parts = operand.parts.iter();
    parts.map(|part| part_words(part, how, rules)).collect()
}

/// An outline, and how much of it counts.
fn part_words(part: &Part, how: (&str, &str), rules: &RuleSet) -> String {
    let outline = cut_words(part, how, rules);
    let share = part.counted.map(|billionths| {
        let percent = show_exactly(billionths, Unit::PERCENT);
        format!(" (counted at {percent})")
    });
    let drawn = if part.if_drawn {
        " (where it is drawn)"
    } else {
        ""
    };
    let none = part.which.selection().and_then(|of| of.if_none);
    let none = none.map(|none| format!(" (if there is none, {})", if_none_words(none)));
    let (share, none) = (share.unwrap_or_default(), none.unwrap_or_default());
    format!("{outline}{share}{drawn}{none}")
}

/// An outline, or the part of it that lies in a zone.
fn cut_words(part: &Part, how: (&str, &str), rules: &RuleSet) -> String {
    let whole = whole_words(part, how, rules);
    let selection = part.which.selection();
    let zone = selection.filter(|it| it.term.is_none());
    let Some(zone) = zone.and_then(|selection| selection.zone.as_deref()) else {
        return whole;
    };
    let area = match rules.vocabulary.outline(part.outline).shape {
        Shape::Area => "the area within ",
        Shape::Line | Shape::Point => "",
    };
    format!(
        "the part of {area}{whole} that lies {}",
        zone_words(zone, rules)
    )
}

/// A whole outline. Says so if it is that of all pools together, since a rule otherwise means one.
fn whole_words(part: &Part, (joined_by, any): (&str, &str), rules: &RuleSet) -> String {
    let vocabulary = &rules.vocabulary;
    match &part.which {
        Which::Bound(kind) => {
            let whose = format!("the {}", kind_noun(*kind, vocabulary));
            outline_words(part.outline, &whose, true, vocabulary)
        }
        Which::Meant(selection) => {
            let whose = format!("the {}", whole_thing(selection, rules));
            outline_words(part.outline, &whose, false, vocabulary)
        }
        Which::All(selection) => {
            let plain = selection.term.is_none() && selection.is_all();
            match plain && vocabulary.kind_named("pool") == Some(selection.kind) {
                true if joined_by == "and" => {
                    outline_words(part.outline, "all pools together", false, vocabulary)
                }
                true => outline_words(part.outline, &format!("{any} pool"), false, vocabulary),
                false => {
                    let one = vocabulary.kind(selection.kind).number == Number::One;
                    let whose = any_of(selection, any, rules);
                    outline_words(part.outline, &whose, plain && one, vocabulary)
                }
            }
        }
    }
}

/// `any building`, `any of the rear lines`, `the lot`.
fn any_of(selection: &Selection, any: &str, rules: &RuleSet) -> String {
    let one = rules.vocabulary.kind(selection.kind).number == Number::One;
    match &selection.term {
        Some(term) if is_plural(term) => format!("{any} of {}", term_words(term)),
        _ if one => format!("the {}", whole_thing(selection, rules)),
        Some(term) if any == "all" => format!("all {}", plural(&term_noun(term))),
        None if any == "all" => {
            let things = plural(kind_noun(selection.kind, &rules.vocabulary));
            format!("all {things}{}", chosen_words(selection, rules))
        }
        _ => format!("{any} {}", whole_thing(selection, rules)),
    }
}

/// The things selected, without the zone that cuts them.
fn whole_thing(selection: &Selection, rules: &RuleSet) -> String {
    match &selection.term {
        Some(term) => term_noun(term),
        None => {
            let noun = kind_noun(selection.kind, &rules.vocabulary);
            format!("{noun}{}", chosen_words(selection, rules))
        }
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
        Zone::Between(one, other) => format!(
            "between {}{} and {}{}",
            of(one),
            made_longer(one, rules),
            of(other),
            made_longer(other, rules)
        ),
        Zone::Corner { of: lines, legs } => format!(
            "in the corner of {} and {}, with legs of {}",
            of(&lines.0),
            of(&lines.1),
            value_words(legs, rules)
        ),
        Zone::Not(inner) => outside_words(inner, rules),
        Zone::Named { term, .. } => format!("in {}", term_words(&term.name)),
    }
}

/// The words for outside a region.
fn outside_words(zone: &Zone, rules: &RuleSet) -> String {
    match zone {
        Zone::Inside(area) => format!("outside {}", operand_words(area, "or", rules)),
        Zone::Named { term, .. } => format!("outside {}", term_words(&term.name)),
        Zone::Around { of: line, by } => {
            let of = operand_words(line, "or", rules);
            format!("more than {} from {of}", value_words(by, rules))
        }
        other => format!("outside what lies {}", zone_words(other, rules)),
    }
}

/// How far a line that bounds a region counts: a lot line as it is, the wall at a house's side only beside itself, any
/// other line across the lot.
fn made_longer(line: &Operand, rules: &RuleSet) -> &'static str {
    let vocabulary = &rules.vocabulary;
    let outlines = line.parts.iter();
    let mut outlines = outlines.map(|part| vocabulary.outline(part.outline));
    let side = |name: &str| name == "side-wall";
    let a_lot_line = |kind| vocabulary.kind(kind).role == Some(Role::LotLine);
    match outlines.next() {
        Some(first) if side(&first.name) => " (only beside that wall)",
        Some(first) if !a_lot_line(first.kind) => " (made longer across the lot)",
        _ => "",
    }
}
