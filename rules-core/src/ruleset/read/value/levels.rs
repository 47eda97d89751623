//! What is measured in height: levels, falls, volumes, heights over what is beside.

use crate::faults::Code;
use crate::grammar;
use crate::quantity::Dimension;
use crate::ruleset::read::Reader;
use crate::ruleset::read::value::flipped;
use crate::ruleset::types::{Type, type_of};
use crate::ruleset::{Fall, HeightOver, LevelOf, Surface, Value, Volume};
use crate::text::{Entry, Node};

impl<'a> Reader<'a> {
    pub(crate) fn level_of(&mut self, node: &'a Node, ground: bool) -> Option<LevelOf> {
        let declared = if ground {
            grammar::GROUND_LEVEL
        } else {
            grammar::LEVEL
        };
        let [of] = self.keys(node, &declared)?;
        let of = self.written(of, Self::operand)?;
        Some(LevelOf { of, ground })
    }

    pub(crate) fn fall(&mut self, node: &'a Node) -> Option<Fall> {
        let [from, to, run] = self.keys(node, &grammar::FALL)?;
        let [from, to] = [from, to].map(|end| self.written(end, Self::operand));
        let run = run.map(|entry| self.length_value(entry));
        Some(Fall {
            from: from?,
            to: to?,
            run: flipped(run)?,
        })
    }

    pub(crate) fn volume(&mut self, node: &'a Node, as_water: bool) -> Option<Volume> {
        let declared = if as_water {
            grammar::UPLIFT
        } else {
            grammar::VOLUME
        };
        let [over, within, from, to] = self.keys(node, &declared)?;
        let over = self.written(over, Self::operand);
        let within = self.if_written(within, Self::zone);
        let [from, to] = [from, to].map(|level| self.surface(level?));
        let over = over?;
        self.must_be_area(&over, node.span)?;
        Some(Volume {
            over,
            within: within?,
            from: from?,
            to: to?,
            as_water,
        })
    }

    fn surface(&mut self, entry: &'a Entry) -> Option<Surface> {
        match entry.value.text() {
            Some(grammar::GROUND) => Some(Surface::Ground),
            _ => self.length_value(entry).map(Surface::At),
        }
    }

    pub(crate) fn height_over(&mut self, node: &'a Node) -> Option<HeightOver> {
        if let Some(fact) = node.text().and_then(|kind| self.stated_height(kind)) {
            let message = "`height` measures what is drawn over what lies beside it.";
            self.fault(Code::NotAMap, node.span, message).help(format!(
                "The height of this thing is stated: write `fact: {fact}` in place of `height`."
            ));
            return None;
        }
        let [of, within, over] = self.keys(node, &grammar::HEIGHT)?;
        let of = self.written(of, Self::operand);
        let within = within.and_then(|entry| self.length_value(entry));
        let over = self.if_written(over, Self::operand);
        Some(HeightOver {
            of: of?,
            within: within?,
            over: over?,
        })
    }

    /// The fact that states how high things of a kind are.
    fn stated_height(&self, kind: &str) -> Option<String> {
        let kind = self.vocabulary.kind_named(kind)?;
        let facts = self.fact_names(kind);
        let height = facts
            .iter()
            .find(|fact| fact.split('-').next() == Some("height"))?;
        Some(format!("{}.{height}", self.vocabulary.kind(kind).name))
    }

    /// A length or a level, whatever it is made of.
    pub(crate) fn length_value(&mut self, entry: &'a Entry) -> Option<Value> {
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
                self.fault(Code::NotAnAmount, entry.value.span, message);
                None
            }
        }
    }
}
