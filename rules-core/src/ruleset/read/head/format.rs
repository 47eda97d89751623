//! The format a file was written for, and which of its lines had another meaning in that format.

use crate::faults::Code;
use crate::ruleset::read::Reader;
use crate::text::{Entry, Node, Span};

/// The format that this program reads.
pub const FORMAT: u32 = 2;

/// A change of meaning: in a file for a format before `since`, every entry for which `has` is true means something else
/// now.
struct Change {
    since: u32,
    /// What the line means now, and what it meant before.
    says: &'static str,
    /// What to write to keep the old meaning, or to confirm the new one.
    help: &'static str,
    /// Whether the change concerns an entry under these nodes.
    has: fn(&Reader<'_>, &Entry, &[&Node]) -> bool,
}

const CHANGES: [Change; 4] = [
    Change {
        since: 2,
        says: "`farthest: yes` is now the distance between the two places farthest apart; before, it was taken from the farthest place of one to the nearest of the other.",
        help: "For the old meaning write `farthest: from`.",
        has: |_, entry, _| entry.key == "farthest" && entry.value.text() == Some("yes"),
    },
    Change {
        since: 2,
        says: "`if-none` now counts only where the rule applies, and a relief that is met counts, too; before, the rule failed without asking either.",
        help: "For the old meaning put the demand that there is one into a rule of its own, without `when`.",
        has: |_, entry, around| {
            let rule = around.last();
            let conditional = |rule: &&Node| {
                ["when", "unless", "relief"]
                    .iter()
                    .any(|key| rule.get(key).is_some())
            };
            entry.key == "if-none"
                && entry.value.text() == Some("fails")
                && rule.is_some_and(|rule| rule.get("clause").is_some() && conditional(rule))
        },
    },
    Change {
        since: 2,
        says: "What varies along a thing is now judged at each place of it by itself; before, a condition on it had to hold all along the thing.",
        help: "For the old meaning add `holds: all-along` to the condition.",
        has: |reader, entry, around| {
            let condition = entry.key == "fact" && in_condition(around);
            condition
                && entry
                    .value
                    .text()
                    .is_some_and(|name| reader.varies_by_name(name))
                && around
                    .last()
                    .is_some_and(|test| test.get("holds").is_none())
        },
    },
    Change {
        since: 2,
        says: "An outline of the pool in an area is now that of the one pool being judged; before, it was that of all pools together.",
        help: "For the old meaning write `{all: …}` round the outline.",
        has: |reader, entry, _| {
            let of = entry.value.get("of").filter(|_| entry.key == "area");
            let outlines = of.map(|of| of.as_list().unwrap_or(std::slice::from_ref(of)));
            let mut names = outlines.unwrap_or_default().iter().filter_map(Node::text);
            names.any(|name| reader.is_of_pool(name))
        },
    },
];

/// Whether one of the maps around an entry is the value of `when`, `unless` or `where`.
fn in_condition(around: &[&Node]) -> bool {
    around.windows(2).any(|pair| {
        let [outer, inner] = pair else { return false };
        let condition = |key: &&str| {
            outer
                .get(key)
                .is_some_and(|node| std::ptr::eq(node, *inner))
        };
        ["when", "unless", "where"].iter().any(condition)
    })
}

impl<'a> Reader<'a> {
    /// Reads the format the file names, and shows which of its lines have changed meaning since.
    pub(crate) fn format(&mut self, entry: &'a Entry, file: &'a Node) -> Option<u32> {
        let number = entry
            .value
            .text()
            .and_then(|text| text.parse::<u32>().ok())
            .filter(|number| *number > 0);
        let Some(number) = number else {
            let message = "The format is a plain number.";
            self.fault(Code::UnknownFormat, entry.value.span, message)
                .help(format!(
                    "Write `format: {FORMAT}`, which this program reads."
                ));
            return None;
        };
        if number > FORMAT {
            let message = format!(
                "The file is written for format {number}, and this program reads {FORMAT}."
            );
            self.fault(Code::UnknownFormat, entry.value.span, message)
                .help("Use a newer version of the program.");
            return None;
        }
        let mut changed = Vec::new();
        self.changed_since(number, file, &mut vec![file], &mut changed);
        for (span, change) in changed {
            self.warning(Code::MeaningChanged, span, change.says)
                .help(format!(
                    "{} When every such line was read again, write `format: {FORMAT}`.",
                    change.help
                ));
        }
        Some(number)
    }

    /// Every entry whose meaning has changed since a format, and how.
    fn changed_since(
        &self,
        format: u32,
        node: &'a Node,
        around: &mut Vec<&'a Node>,
        found: &mut Vec<(Span, &'static Change)>,
    ) {
        for entry in node.as_map().unwrap_or_default() {
            let later = CHANGES.iter().filter(|change| change.since > format);
            found.extend(
                later
                    .filter(|change| (change.has)(self, entry, around))
                    .map(|change| (entry.key_span, change)),
            );
        }
        let entries = node
            .as_map()
            .unwrap_or_default()
            .iter()
            .map(|entry| &entry.value);
        for below in entries.chain(node.as_list().unwrap_or_default()) {
            around.push(below);
            self.changed_since(format, below, around, found);
            around.pop();
        }
    }

    /// Whether this is the name of an outline of the pool.
    fn is_of_pool(&self, name: &str) -> bool {
        let kind = name
            .split_once('.')
            .and_then(|(kind, _)| self.vocabulary.kind_named(kind));
        kind.is_some() && kind == self.pool()
    }

    /// Whether the fact of this name can change along its thing.
    fn varies_by_name(&self, name: &str) -> bool {
        let Some((kind, fact)) = name.split_once('.') else {
            return false;
        };
        let kind = self.vocabulary.kind_named(kind);
        let fact = kind.and_then(|kind| self.vocabulary.fact_named(kind, fact));
        fact.is_some_and(|fact| self.vocabulary.fact(fact).varies)
    }
}
