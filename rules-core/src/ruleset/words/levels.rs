//! Levels, falls, volumes and heights in words.

use super::places::{operand_words, zone_words};
use super::values::value_words;
use crate::ruleset::{Fall, HeightOver, LevelOf, RuleSet, Surface, Volume};

pub(super) fn level_words(level: &LevelOf, rules: &RuleSet) -> String {
    let of = operand_words(&level.of, "and", rules);
    match level.ground {
        true => format!("the level of the ground at {of}"),
        false => format!("the level of {of}"),
    }
}

pub(super) fn fall_words(fall: &Fall, rules: &RuleSet) -> String {
    let run = fall.run.as_ref().map_or_else(String::new, |run| {
        format!(" over {}", value_words(run, rules))
    });
    format!(
        "the fall from {} to {}{run}",
        operand_words(&fall.from, "or", rules),
        operand_words(&fall.to, "or", rules),
    )
}

pub(super) fn volume_words(volume: &Volume, rules: &RuleSet) -> String {
    let within = volume
        .within
        .as_ref()
        .map_or_else(String::new, |zone| format!(" {}", zone_words(zone, rules)));
    let what = match volume.as_water {
        true => "the mass of as much water as there is room for",
        false => "the volume",
    };
    format!(
        "{what} over {}{within} from {} up to {}",
        operand_words(&volume.over, "and", rules),
        surface_words(&volume.from, rules),
        surface_words(&volume.to, rules),
    )
}

fn surface_words(surface: &Surface, rules: &RuleSet) -> String {
    match surface {
        Surface::Ground => "the ground".to_owned(),
        Surface::At(value) => value_words(value, rules),
    }
}

pub(super) fn height_words(height: &HeightOver, rules: &RuleSet) -> String {
    let over = height.over.as_ref().map_or_else(String::new, |over| {
        format!(" and {}", operand_words(over, "and", rules))
    });
    format!(
        "the height of {} over the ground{over} within {} of it",
        operand_words(&height.of, "or", rules),
        value_words(&height.within, rules),
    )
}
