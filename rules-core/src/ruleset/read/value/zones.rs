//! Zones: regions of the plan that clip what lies in them.

use crate::faults::Code;
use crate::grammar;
use crate::ruleset::read::Reader;
use crate::ruleset::read::names::known::Known;
use crate::ruleset::read::names::parts;
use crate::ruleset::{Operand, Zone};
use crate::text::{Content, Entry, Node, in_short};

impl<'a> Reader<'a> {
    /// A zone: an outline, a term, `{around, by}`, `{between: [a, b]}`, `{corner: {of, legs}}`, `{not: …}`.
    pub(crate) fn zone(&mut self, node: &'a Node) -> Option<Zone> {
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
                if !self.is_name(parts(text).0) {
                    self.unknown_zone(text, node.span);
                    return None;
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
        let known = |entry: &&Entry| entry.key == "not" || is_zone(&entry.key);
        let Some(entry) = entries.iter().find(known) else {
            self.fault(Code::NotAZone, node.span, "A zone is expected here.")
                .help(
                    "Write `around` with `by`, `between`, `corner`, `not`, or the name of an area.",
                );
            return None;
        };
        match entry.key.as_str() {
            "around" => {
                let [around, by] = self.keys(node, &grammar::AROUND)?;
                let of = self.written(around, Self::operand);
                let by = by.and_then(|entry| self.length_value(entry));
                Some(Zone::Around { of: of?, by: by? })
            }
            "between" => {
                let [between] = self.keys(node, &grammar::BETWEEN)?;
                let (one, other) = self.written(between, Self::pair)?;
                Some(Zone::Between(one, other))
            }
            "corner" if entry.value.as_list().is_some() => {
                let legs = node.get("legs").map_or_else(|| "6 m".to_owned(), in_short);
                let help = format!(
                    "Write `corner: {{of: {}, legs: {legs}}}`.",
                    in_short(&entry.value)
                );
                self.fault(
                    Code::NotAMap,
                    entry.value.span,
                    "The lines of a corner stand after `of`, inside `corner`.",
                )
                .help(help);
                None
            }
            "corner" => {
                let [corner] = self.keys(node, &grammar::CORNER)?;
                self.written(corner, Self::corner)
            }
            "inside" => {
                let [inside] = self.keys(node, &grammar::INSIDE)?;
                self.written(inside, Self::inside)
            }
            _ => {
                let [not] = self.keys(node, &grammar::NOT_IN)?;
                self.written(not, Self::zone)
                    .map(|zone| Zone::Not(Box::new(zone)))
            }
        }
    }

    fn pair(&mut self, node: &'a Node) -> Option<(Operand, Operand)> {
        let Some([one, other]) = node.as_list() else {
            self.fault(Code::NotTwo, node.span, "Two lines are expected here.")
                .help("Write `[one, other]`.");
            return None;
        };
        let one = self.operand(one);
        let other = self.operand(other);
        Some((one?, other?))
    }

    fn corner(&mut self, node: &'a Node) -> Option<Zone> {
        let [of, legs] = self.keys(node, &grammar::CORNER_OF)?;
        let of = self.written(of, Self::pair);
        let legs = legs.and_then(|entry| self.length_value(entry));
        Some(Zone::Corner {
            of: Box::new(of?),
            legs: legs?,
        })
    }
}

/// Whether a zone is known by this key.
pub(crate) fn is_zone(key: &str) -> bool {
    ["around", "between", "corner", "inside"].contains(&key)
}
