//! Zones: regions of the plan that clip what lies in them.

use super::Reader;
use super::terms::Known;
use crate::quantity::Dimension;
use crate::ruleset::types::{Type, type_of};
use crate::ruleset::{Operand, Value, Zone};
use crate::text::{Content, Entry, MapReader, Node};

/// The keys by which a zone is known.
pub(super) const ZONES: [&str; 4] = ["around", "between", "corner", "inside"];

impl<'a> Reader<'a> {
    /// A zone: an outline, a term, `{around, by}`, `{between: [a, b]}`, `{corner: {of, legs}}`, `{not: …}`.
    pub(super) fn zone(&mut self, node: &'a Node) -> Option<Zone> {
        match &node.content {
            Content::Map(entries) if !entries.iter().any(|entry| entry.key == "kind") => {
                self.zone_map(node, entries)
            }
            Content::Scalar { text, .. } => {
                if let Some(Known::Zone(zone)) = self.term(text, node.span)? {
                    return Some(Zone::Named {
                        term: self.term_use(text),
                        zone,
                    });
                }
                self.inside(node)
            }
            _ => self.inside(node),
        }
    }

    fn inside(&mut self, node: &'a Node) -> Option<Zone> {
        let operand = self.operand(node)?;
        self.must_be_area(&operand, node.span)?;
        Some(Zone::Inside(operand))
    }

    fn zone_map(&mut self, node: &'a Node, entries: &'a [Entry]) -> Option<Zone> {
        let mut map = self.map(node, "a zone")?;
        let known = entries
            .iter()
            .find(|entry| entry.key == "not" || ZONES.contains(&entry.key.as_str()));
        let Some(entry) = known else {
            self.fault("not-a-zone", node.span, "A zone is expected here.")
                .help(
                    "Write `around` with `by`, `between`, `corner`, `not`, or the name of an area.",
                );
            return None;
        };
        map.take(&entry.key);
        let zone = match entry.key.as_str() {
            "around" => self.around_zone(&mut map, &entry.value),
            "between" => self
                .pair(&entry.value)
                .map(|(one, other)| Zone::Between(one, other)),
            "corner" => self.corner(&entry.value),
            "inside" => self.inside(&entry.value),
            _ => self
                .zone(&entry.value)
                .map(|zone| Zone::Not(Box::new(zone))),
        };
        self.finish(map);
        zone
    }

    fn around_zone(&mut self, map: &mut MapReader<'a>, node: &'a Node) -> Option<Zone> {
        let of = self.operand(node);
        let by = self.need_length(map, "by");
        Some(Zone::Around { of: of?, by: by? })
    }

    fn need_length(&mut self, map: &mut MapReader<'a>, key: &'static str) -> Option<Value> {
        let entry = self.need(map, key)?;
        let value = self.value(&entry.value, Some(Dimension::Length))?;
        match type_of(&value, &self.vocabulary).and_then(Type::dimension) {
            Some(Dimension::Length) => Some(value),
            Some(other) => {
                self.sorts_differ(entry.value.span, other, Dimension::Length);
                None
            }
            None => {
                self.fault(
                    "not-an-amount",
                    entry.value.span,
                    "A length is expected here, and this is a word.",
                );
                None
            }
        }
    }

    fn pair(&mut self, node: &'a Node) -> Option<(Operand, Operand)> {
        let Some([one, other]) = node.as_list() else {
            self.fault("not-two", node.span, "Two lines are expected here.")
                .help("Write `[one, other]`.");
            return None;
        };
        let one = self.operand(one);
        let other = self.operand(other);
        Some((one?, other?))
    }

    fn corner(&mut self, node: &'a Node) -> Option<Zone> {
        let mut map = self.map(node, "a corner")?;
        let of = self
            .need(&mut map, "of")
            .and_then(|entry| self.pair(&entry.value));
        let legs = self.need_length(&mut map, "legs");
        self.finish(map);
        Some(Zone::Corner {
            of: Box::new(of?),
            legs: legs?,
        })
    }
}
