//! Parts of a rule: its reliefs, the rows of its tables, the members of its lists, each by its id.

use super::{Changes, Merged, entry};
use crate::text::{Content, Node};

/// What a key of a map says, as text.
pub(super) fn text_of<'n>(node: &'n Node, key: &str) -> Option<&'n str> {
    node.get(key).and_then(Node::text)
}

pub(super) fn id_of(node: &Node) -> Option<&str> {
    text_of(node, "id")
}

/// Lets a condition be one more under `key`: under `unless` any of them, elsewhere all.
pub(super) fn add_condition(node: &mut Node, key: &str, condition: &Node) {
    let Content::Map(entries) = &mut node.content else {
        return;
    };
    let condition = condition.clone();
    match entries.iter_mut().find(|entry| entry.key == key) {
        None => entries.push(entry(key, condition)),
        Some(old) => {
            let span = condition.span;
            let both = Node {
                span,
                content: Content::List(vec![old.value.clone(), condition]),
            };
            let word = if key == "unless" { "any-of" } else { "all-of" };
            old.value = Node {
                span,
                content: Content::Map(vec![entry(word, both)]),
            };
        }
    }
}

/// Adds one item, or a list of them, to the list under a key.
pub(super) fn add_to_list(node: &mut Node, key: &str, items: &Node) {
    let Content::Map(entries) = &mut node.content else {
        return;
    };
    let new = items
        .as_list()
        .unwrap_or(std::slice::from_ref(items))
        .to_vec();
    match entries.iter_mut().find(|entry| entry.key == key) {
        Some(old) => {
            if let Content::List(list) = &mut old.value.content {
                list.extend(new);
            }
        }
        None => entries.push(entry(
            key,
            Node {
                span: items.span,
                content: Content::List(new),
            },
        )),
    }
}

/// Does something with the list in which the part of that id stands, and with its place there.
fn with_part<T>(
    node: &mut Node,
    part: &str,
    f: &mut dyn FnMut(&mut Vec<Node>, usize) -> T,
) -> Option<T> {
    match &mut node.content {
        Content::List(items) => match items.iter().position(|item| id_of(item) == Some(part)) {
            Some(place) => Some(f(items, place)),
            None => items.iter_mut().find_map(|item| with_part(item, part, f)),
        },
        Content::Map(entries) => entries
            .iter_mut()
            .find_map(|entry| with_part(&mut entry.value, part, f)),
        _ => None,
    }
}

impl Merged {
    pub(super) fn withdraw_part(&mut self, node: &Node, target: &Node, place: usize, part: &str) {
        let when = node.get("when");
        let relief = self.is_relief(place, part);
        self.part_changes(target, place, relief);
        self.edit_part(target, place, part, &mut |items, at| match when {
            Some(when) => {
                if let Some(item) = items.get_mut(at) {
                    add_condition(item, "unless", when);
                }
            }
            None => {
                items.remove(at);
            }
        });
        self.no_when(when, relief);
    }

    pub(super) fn replace_part(&mut self, node: &Node, target: &Node, place: usize, part: &str) {
        let (when, relief) = (node.get("when"), self.is_relief(place, part));
        let Some(with) = node.get("with") else {
            self.fault(
                "missing-key",
                target.span,
                "`replaces` needs the key `with`, which is not written.",
            );
            return;
        };
        self.part_changes(target, place, false);
        self.edit_part(target, place, part, &mut |items, at| {
            let mut new = with.clone();
            let Some(old) = items.get_mut(at) else { return };
            match when {
                Some(when) => {
                    add_condition(old, "unless", when);
                    add_condition(&mut new, "when", when);
                    items.insert(at + 1, new);
                }
                None => *old = new,
            }
        });
        self.no_when(when, relief);
    }

    /// Only a relief has conditions of its own, to which one more can be added.
    fn no_when(&mut self, when: Option<&Node>, relief: bool) {
        if let (Some(when), false) = (when, relief) {
            self.fault(
                "edit-when",
                when.span,
                "This part has no condition, so that its change can have none.",
            )
            .help("Change the whole rule instead.");
        }
    }

    fn is_relief(&self, place: usize, part: &str) -> bool {
        let reliefs = self
            .rules
            .get(place)
            .and_then(|item| item.node.get("relief")?.as_list());
        reliefs
            .unwrap_or_default()
            .iter()
            .any(|relief| id_of(relief) == Some(part))
    }

    fn edit_part(
        &mut self,
        target: &Node,
        place: usize,
        part: &str,
        edit: &mut dyn FnMut(&mut Vec<Node>, usize),
    ) {
        let found = self
            .rules
            .get_mut(place)
            .and_then(|item| with_part(&mut item.node, part, edit));
        if found.is_none() {
            self.fault(
                "unknown-part",
                target.span,
                format!("The rule has no relief, row or member with the id `{part}`."),
            )
            .help("The base gives the parts that can be changed an `id`.");
        }
    }

    /// A part of a rule that is a minimum or a ceiling is not compared; that a relief goes makes it stricter.
    fn part_changes(&mut self, target: &Node, place: usize, relief_goes: bool) {
        match (self.changes(place), relief_goes) {
            (Changes::Default, _) | (Changes::Minimum, true) => {}
            (Changes::Ceiling, true) => {
                self.fault("stricter", target.span, "The base says that this rule is the most that may be asked, so its relief cannot be withdrawn.");
            }
            _ => {
                self.warnings
                    .add("not-compared", target.span, "The base limits how this rule may be changed, and a change of a part is not compared.")
                    .help("See for yourself that it keeps within that.");
            }
        }
    }
}
