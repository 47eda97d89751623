//! Parts of a rule in the wrong place.

use crate::faults::Code;
use crate::grammar::{self, Combination, Main, RULE, main_named};
use crate::ruleset::read::Reader;
use crate::ruleset::read::names::parts;
use crate::ruleset::read::rule::each::Choosing;
use crate::ruleset::read::rule::wording::{denied, right_word, what_to_write};
use crate::text::{Content, Entry, MapReader, Node, Span, in_short};

impl<'a> Reader<'a> {
    /// Reports `part-of`, `where`, `in` and `if-none` in a rule without `each`, where there is nothing to choose from. Returns whether
    /// it has any.
    pub(super) fn stray_choice(&mut self, choosing: Choosing<'a>) -> bool {
        let stray: Vec<_> = choosing.into_iter().flatten().collect();
        for entry in &stray {
            let key = &entry.key;
            let kind = self.first_kind(&entry.value);
            let message = format!("`{key}` chooses among things, and no `each` says which.");
            self.fault(Code::NoEach, entry.key_span, message)
                .help(format!(
                    "Add `each: {}` beside it.",
                    kind.as_deref().unwrap_or("pool")
                ));
        }
        !stray.is_empty()
    }

    /// Reports a case that stands among the rules.
    pub(super) fn no_case(&mut self, node: &Node) -> Option<()> {
        let mut entries = node.as_map().unwrap_or_default().iter();
        let Some(case) = entries.find(|entry| entry.key == "case") else {
            return Some(());
        };
        self.fault(Code::Misplaced, case.key_span, "This is a case, not a rule.")
            .help("Move it to `cases`, in the file `cases.yaml` beside this one: a case is a small plan with the outcomes that the rules must give on it.");
        None
    }

    /// Reports keys that people write in a rule for what is said elsewhere or otherwise.
    pub(super) fn not_of_a_rule(&mut self, node: &Node) {
        for entry in node.as_map().unwrap_or_default() {
            let (message, help) = match entry.key.as_str() {
                "expect" => (
                    "`expect` belongs to a case, not to a rule.",
                    "Take it out here. What a rule must come to is said in a case of `cases.yaml`: `expect`, and under it the `id` of the rule with `pass`, `fail` or another outcome.",
                ),
                "recommended" | "advisory" => (
                    "Whether a rule binds is said by the word before what it asks.",
                    "Take this out, and write `should` in place of `require` for advice that binds nobody.",
                ),
                _ => continue,
            };
            self.fault(Code::Misplaced, entry.key_span, message)
                .help(help);
        }
    }

    /// The kind of the first fact or outline that is named.
    pub(super) fn first_kind(&self, node: &Node) -> Option<String> {
        match &node.content {
            Content::Scalar { text, .. } => {
                let (head, tail) = parts(text);
                let known = tail.is_some() && self.vocabulary.kind_named(head).is_some();
                known.then(|| head.to_owned())
            }
            Content::List(items) => items.iter().find_map(|item| self.first_kind(item)),
            Content::Map(entries) => entries
                .iter()
                .find_map(|entry| self.first_kind(&entry.value)),
            Content::Empty => None,
        }
    }

    /// Reports what a rule without `require` has instead: a measure, a bound, or a word for what must not be.
    pub(super) fn stray_requirement(&mut self, node: &'a Node) -> bool {
        let entries = node.as_map().unwrap_or_default();
        let mut stray = entries.iter().filter(|entry| of_requirement(&entry.key));
        let Some(entry) = stray.next() else {
            return false;
        };
        let last = stray.next_back().unwrap_or(entry);
        let key = &entry.key;
        let message =
            format!("`{key}` belongs to what the rule requires, and this rule has no `require`.");
        let help = match right_word(key) {
            _ if measure_in(key) != key => format!(
                "Write `require:`, and under it `{}` with what is measured, and its limit, such as `at-least: {}`.",
                measure_in(key),
                in_short(&entry.value)
            ),
            Some("not") => format!("Write `require: {}`.", denied(&entry.value)),
            _ if node.is_braced() => {
                let own = entries.iter().filter(|entry| of_requirement(&entry.key));
                let own = Content::Map(own.cloned().collect());
                format!(
                    "Write `require: {}`.",
                    in_short(&Node {
                        content: own,
                        ..*node
                    })
                )
            }
            _ => format!(
                "Write `require:`, and under it, two spaces further in, `{key}` with what belongs to it."
            ),
        };
        let all = Span {
            end: last.key_span.end,
            ..entry.key_span
        };
        self.fault(Code::Misplaced, entry.key_span, message)
            .because_of(all)
            .help(help);
        true
    }

    /// Reports a bound beside a list of requirements; it belongs in the last item. Returns whether there was one.
    pub(super) fn bound_beside_list(
        &mut self,
        map: &mut MapReader<'a>,
        (entry, main): (&'a Entry, Main),
        entries: &'a [Entry],
    ) -> bool {
        let list = matches!(main, Main::Combination(Combination::All | Combination::Any));
        let bound = |entry: &&Entry| grammar::BOUNDS.iter().any(|key| key.name == entry.key);
        let Some(bound) = entries.iter().find(bound).filter(|_| list) else {
            return false;
        };
        map.refuse(grammar::BOUNDS.map(|key| key.name));
        let message = format!(
            "`{}` stands beside `{}`, not in an item of its list.",
            bound.key, entry.key
        );
        self.fault(Code::Misplaced, bound.key_span, message)
            .help("Indent it as far as the measure in the item that it belongs to.");
        true
    }

    /// Reports a bound beside `require`. Returns whether there was one.
    pub(super) fn stray_bound(&mut self, node: &'a Node, require: &Entry) -> bool {
        let entries = node.as_map().unwrap_or_default();
        let bound = |entry: &&Entry| grammar::BOUNDS.iter().any(|key| key.name == entry.key);
        let Some(entry) = entries
            .iter()
            .find(bound)
            .filter(|_| !require.value.is_empty())
        else {
            return false;
        };
        let message = format!(
            "`{}` stands beside `require`, and belongs to what is required.",
            entry.key
        );
        self.fault(Code::Misplaced, entry.key_span, message)
            .because_of(entry.key_span)
            .help("Put it under `require`, beside the measure: `require: {fact: …, at-most: …}`.");
        true
    }
}

/// The measure that a key names: `distance` in `minimum-distance`.
fn measure_in(key: &str) -> &str {
    let mut parts = key
        .split('-')
        .filter(|_| RULE.keys.iter().all(|known| known.name != key));
    parts
        .find(|part| main_named(part).is_some_and(|main| matches!(main, Main::Measure(_))))
        .unwrap_or(key)
}

/// Whether a key belongs in a requirement.
fn of_requirement(key: &str) -> bool {
    main_named(measure_in(key)).is_some_and(|_| key != "each")
        || grammar::BOUNDS.iter().any(|bound| bound.name == key)
        || what_to_write(key).is_some()
}
