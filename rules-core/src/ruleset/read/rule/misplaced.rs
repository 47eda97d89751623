//! Keys of a requirement that belong elsewhere: to the rule, or into the measure beside which they stand.

use crate::faults::Code;
use crate::grammar::{AREA, BOUNDS, CHOSEN, DISTANCE, ENCLOSURE, Key, LENGTH, RULE, SOUND};
use crate::ruleset::read::Reader;
use crate::ruleset::read::names::is_not;
use crate::ruleset::read::value::is_amount;
use crate::text::{Content, Entry, MapReader, Node, in_short};

/// The measures that are written as keys with values, and their keys, of which the first is for what stands alone.
const MEASURES: [(&str, &[Key]); 6] = [
    ("distance", &DISTANCE.keys),
    ("area", &AREA.keys),
    ("length", &LENGTH.keys),
    ("count", &CHOSEN.keys),
    ("enclosure", &ENCLOSURE.keys),
    ("sound", &SOUND.keys),
];

/// A measure and its keys, if it has any.
fn keys_of(measure: &Entry) -> Option<&'static [Key]> {
    let known = MEASURES.iter().find(|(name, _)| *name == measure.key);
    known.map(|(_, keys)| *keys)
}

impl<'a> Reader<'a> {
    /// Reports keys of a rule in a requirement. Returns whether there were any.
    pub(super) fn of_rule(&mut self, map: &mut MapReader<'a>, node: &Node) -> bool {
        let of_rule = |key: &str| RULE.keys.iter().any(|known| known.name == key);
        let mut strays = map.unknown_entries();
        strays.retain(|entry| of_rule(&entry.key));
        if self.around.terms_deep > 0 || strays.is_empty() {
            return false;
        }
        let help = match node.is_braced() {
            true => "Take it out of the braces, and put it beside the `require` of the rule.",
            false => "Begin it, and what is below it, in the column in which `require` begins.",
        };
        for entry in strays {
            let help = self.as_where(entry).unwrap_or_else(|| help.to_owned());
            map.refuse([entry.key.as_str()]);
            let message = format!(
                "`{}` belongs to the rule, not to what must hold.",
                entry.key
            );
            self.fault(Code::Misplaced, entry.key_span, message)
                .help(help);
        }
        true
    }

    /// What to write for a condition that speaks of the things under `each`: it chooses among them.
    fn as_where(&self, entry: &Entry) -> Option<String> {
        let bound = self.around.bound.last()?.kind;
        let kind = self.first_kind(&entry.value)?;
        if self.vocabulary.kind_named(&kind) != Some(bound) {
            return None;
        }
        let chosen = match entry.key.as_str() {
            "unless" => is_not(&entry.value),
            "when" => in_short(&entry.value),
            _ => return None,
        };
        Some(format!(
            "Take it out here, and write `where: {chosen}` beside `each`, in its column."
        ))
    }

    /// Reports keys of a measure that stand beside it.
    pub(super) fn of_measure(&mut self, map: &mut MapReader<'a>, measure: &Entry) {
        let Some(keys) = keys_of(measure) else { return };
        let strays = taken(map, keys);
        let Some(first) = strays.first() else { return };
        let name = &measure.key;
        let message = format!("`{}` belongs inside `{name}`, not beside it.", first.key);
        let whole = in_short(&with(&measure.value, keys, &strays));
        self.fault(Code::Misplaced, first.key_span, message)
            .help(format!("Write `{name}: {whole}`."));
    }

    /// Reports an `each` inside a measure; it says for what the rule is.
    pub(crate) fn each_inside(&mut self, measure: &Node) {
        let mut entries = measure.as_map().unwrap_or_default().iter();
        let Some(entry) = entries.find(|entry| entry.key == "each") else {
            return;
        };
        let message = "`each` belongs to the rule, not into what is measured.";
        self.fault(Code::Misplaced, entry.key_span, message)
            .because_of(entry.key_span)
            .help(format!(
                "Write `each: {}` beside `require`, in its column.",
                in_short(&entry.value)
            ));
    }

    /// Reports items that are limits of what stands in the item above. Returns whether there were any.
    pub(super) fn limits_alone(&mut self, items: &[Node]) -> bool {
        let limit = |key: &str| BOUNDS.iter().any(|known| known.name == key);
        let alone = |item: &&Node| {
            let entries = item.as_map().unwrap_or_default();
            !entries.is_empty() && entries.iter().all(|entry| limit(&entry.key))
        };
        let mut found = false;
        for entry in items
            .iter()
            .filter(alone)
            .filter_map(|item| item.as_map()?.first())
        {
            found = true;
            let message = format!(
                "`{}` stands in an item of its own, apart from what it limits.",
                entry.key
            );
            self.fault(Code::Misplaced, entry.key_span, message)
                .help("Put it into the item above: take out the `- ` before it, and begin it in the column of the key above.");
        }
        found
    }

    /// Reports a measure after which its limit stands. Returns whether there was one.
    pub(super) fn limit_as_measure(&mut self, map: &mut MapReader<'a>, measure: &Entry) -> bool {
        let amount = measure.value.text().filter(|text| is_amount(text));
        let (Some(keys), Some(amount)) = (keys_of(measure), amount) else {
            return false;
        };
        let (name, strays) = (&measure.key, taken(map, keys));
        let measured = match (strays.as_slice(), name.as_str()) {
            ([], "distance") => "{from: pool.water, to: lot-line}".to_owned(),
            ([], "count") => "pool".to_owned(),
            ([], _) => "{of: pool.water}".to_owned(),
            _ => in_short(&with(
                &Node {
                    content: Content::Empty,
                    ..measure.value
                },
                keys,
                &strays,
            )),
        };
        let message = format!("`{amount}` is a limit; after `{name}` stands what is measured.");
        self.fault(Code::Misplaced, measure.value.span, message)
            .help(format!(
                "Write `{name}: {measured}`, and beside it the limit, such as `at-least: {amount}`."
            ));
        true
    }
}

/// The entries of these keys among those that nobody took.
fn taken<'a>(map: &mut MapReader<'a>, keys: &[Key]) -> Vec<&'a Entry> {
    let mut strays = map.unknown_entries();
    strays.retain(|entry| keys.iter().any(|key| key.name == entry.key));
    map.refuse(strays.iter().map(|entry| entry.key.as_str()));
    strays
}

/// What a measure says, with more entries.
fn with(node: &Node, keys: &[Key], strays: &[&Entry]) -> Node {
    let alone = keys.first().filter(|_| !node.is_empty());
    let mut entries = match &node.content {
        Content::Map(entries) => entries.clone(),
        _ => Vec::from_iter(alone.map(|key| Entry {
            key: key.name.to_owned(),
            key_span: node.span,
            value: node.clone(),
        })),
    };
    entries.extend(strays.iter().map(|entry| (*entry).clone()));
    Node {
        span: node.span,
        content: Content::Map(entries),
    }
}
