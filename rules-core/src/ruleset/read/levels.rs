//! What is measured in height: levels, falls, volumes, heights over what is beside.

use super::Reader;
use super::values::flipped;
use crate::quantity::Dimension;
use crate::ruleset::types::{Type, type_of};
use crate::ruleset::{Fall, HeightOver, LevelOf, Surface, Value, Volume};
use crate::text::{Content, Entry, MapReader, Node};

/// The word for the ground as it is, where a level can stand.
const GROUND: &str = "ground";

impl<'a> Reader<'a> {
    pub(super) fn level_of(&mut self, node: &'a Node, ground: bool) -> Option<LevelOf> {
        let what = if ground {
            "a level of the ground"
        } else {
            "a level"
        };
        let mut map = self.map(node, what)?;
        let of = self.need_operand(&mut map, if ground { "at" } else { "of" });
        self.finish(map);
        Some(LevelOf { of: of?, ground })
    }

    pub(super) fn fall(&mut self, node: &'a Node) -> Option<Fall> {
        let mut map = self.map(node, "a fall")?;
        let from = self.need_operand(&mut map, "from");
        let to = self.need_operand(&mut map, "to");
        let run = map.take("run").map(|entry| self.length_value(entry));
        self.finish(map);
        Some(Fall {
            from: from?,
            to: to?,
            run: flipped(run)?,
        })
    }

    pub(super) fn volume(&mut self, node: &'a Node, as_water: bool) -> Option<Volume> {
        let mut map = self.map(node, if as_water { "an uplift" } else { "a volume" })?;
        let over = self.need_operand(&mut map, "over");
        let within = map.take("in").map(|entry| self.zone(&entry.value));
        let from = self.surface(&mut map, "from");
        let to = self.surface(&mut map, "to");
        self.finish(map);
        let over = over?;
        self.must_be_area(&over, node.span)?;
        Some(Volume {
            over,
            within: flipped(within)?,
            from: from?,
            to: to?,
            as_water,
        })
    }

    fn surface(&mut self, map: &mut MapReader<'a>, key: &'static str) -> Option<Surface> {
        let entry = self.need(map, key)?;
        match &entry.value.content {
            Content::Scalar { text, .. } if text == GROUND => Some(Surface::Ground),
            _ => self.length_value(entry).map(Surface::At),
        }
    }

    pub(super) fn height_over(&mut self, node: &'a Node) -> Option<HeightOver> {
        let mut map = self.map(node, "a height")?;
        let of = self.need_operand(&mut map, "of");
        let within = self
            .need(&mut map, "within")
            .and_then(|entry| self.length_value(entry));
        let over = map.take("over").map(|entry| self.operand(&entry.value));
        self.finish(map);
        Some(HeightOver {
            of: of?,
            within: within?,
            over: flipped(over)?,
        })
    }

    /// A length or a level, whatever it is made of.
    fn length_value(&mut self, entry: &'a Entry) -> Option<Value> {
        let value = self.value(&entry.value, Some(Dimension::Length))?;
        let sort = type_of(&value, &self.vocabulary).and_then(Type::dimension);
        match sort {
            Some(Dimension::Length) => Some(value),
            Some(other) => {
                self.sorts_differ(entry.value.span, other, Dimension::Length);
                None
            }
            None => {
                let message = format!("`{}` needs a length, and this is a word.", entry.key);
                self.fault("not-an-amount", entry.value.span, message);
                None
            }
        }
    }
}
