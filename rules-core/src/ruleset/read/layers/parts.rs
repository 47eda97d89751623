//! Parts of a rule: its reliefs, the rows of its tables, the members of its lists, each by its id.

use super::terms::either;
use super::{Changes, Edit, Merged, entry};
use crate::faults::Code;
use crate::text::{Content, Entry, Node, Span, to_json};

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

/// Reliefs, each under one more condition.
pub(super) fn each_with_condition(reliefs: &Node, when: Option<&Node>) -> Node {
    let mut reliefs = reliefs.clone();
    let items = match &mut reliefs.content {
        Content::List(items) => items.as_mut_slice(),
        _ => std::slice::from_mut(&mut reliefs),
    };
    if let Some(when) = when {
        items
            .iter_mut()
            .for_each(|item| add_condition(item, "when", when));
    }
    reliefs
}

/// Adds one item, or a list of them, to the list under a key.
pub(super) fn add_to_list(node: &mut Node, key: &str, items: &Node) {
    let Content::Map(entries) = &mut node.content else {
        return;
    };
    let new = items.as_list().unwrap_or(std::slice::from_ref(items));
    match entries.iter_mut().find(|entry| entry.key == key) {
        Some(old) => {
            if let Content::List(list) = &mut old.value.content {
                list.extend_from_slice(new);
            }
        }
        None => {
            let content = Content::List(new.to_vec());
            let span = items.span;
            entries.push(entry(key, Node { span, content }));
        }
    }
}

/// A list of a rule in which a part stands: the key under which it stands, its items, and the part's place among them.
type Found<'n> = (&'n str, &'n mut Vec<Node>, usize);

/// Does something with the list in which the part of that id stands.
fn with_part<T>(
    node: &mut Node,
    key: &str,
    part: &str,
    f: &mut dyn FnMut(Found<'_>) -> T,
) -> Option<T> {
    match &mut node.content {
        Content::List(items) => match items.iter().position(|item| id_of(item) == Some(part)) {
            Some(place) => Some(f((key, items, place))),
            None => items
                .iter_mut()
                .find_map(|item| with_part(item, key, part, f)),
        },
        Content::Map(entries) => entries.iter_mut().find_map(|entry| {
            let key = entry.key.clone();
            with_part(&mut entry.value, &key, part, f)
        }),
        _ => None,
    }
}

/// Why a part cannot be changed under a condition.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Refused {
    /// A row that is taken out leaves its cases to the rows after it, which is no one thing to fall back on.
    RowWithdrawn,
    /// The new row is about other cases than the old one.
    RowsDiffer,
}

/// Takes a part out, or lets it stand only where a condition does not hold.
fn withdrawn((key, items, at): Found<'_>, when: Option<&Node>) -> Result<(), Refused> {
    let Some(when) = when else {
        items.remove(at);
        return Ok(());
    };
    let Some(item) = items.get_mut(at) else {
        return Ok(());
    };
    match key {
        "relief" => add_condition(item, "unless", when),
        "rows" => return Err(Refused::RowWithdrawn),
        // Of an any-of it no longer is a way out; of an all-of it is no longer asked for.
        "any-of" => {
            let not = map(when.span, vec![entry("not", when.clone())]);
            *item = combined("all-of", [not, item.clone()], when.span);
        }
        _ => *item = combined("any-of", [when.clone(), item.clone()], when.span),
    }
    Ok(())
}

/// Puts a part in the place of another, or beside it where a condition decides between the two.
fn replaced((key, items, at): Found<'_>, with: &Node, when: Option<&Node>) -> Result<(), Refused> {
    let mut new = with.clone();
    let Some(old) = items.get_mut(at) else {
        return Ok(());
    };
    match (when, key) {
        (None, _) => *old = new,
        (Some(when), "relief") => {
            add_condition(old, "unless", when);
            add_condition(&mut new, "when", when);
            items.insert(at + 1, new);
        }
        (Some(when), "rows") => return replaced_row(old, &new, when),
        (Some(when), _) => *old = either(when, &new, old, when.span),
    }
    Ok(())
}

/// A row for the same cases gives one thing where the condition holds and the other elsewhere.
fn replaced_row(old: &mut Node, new: &Node, when: &Node) -> Result<(), Refused> {
    let is_then =
        |entry: &Entry| entry.key == "then" || entry.key == "otherwise" && !says_yes(entry);
    let tests = |node: &Node| -> Vec<(String, serde_json::Value)> {
        let entries = node.as_map().unwrap_or_default().iter();
        let mut tests: Vec<_> = entries
            .filter(|entry| entry.key != "then" && entry.key != "id")
            .map(|entry| match is_then(entry) {
                true => (entry.key.clone(), serde_json::Value::Null),
                false => (entry.key.clone(), to_json(&entry.value)),
            })
            .collect();
        tests.sort_by(|one, other| one.0.cmp(&other.0));
        tests
    };
    if tests(old) != tests(new) {
        return Err(Refused::RowsDiffer);
    }
    let given = new
        .as_map()
        .unwrap_or_default()
        .iter()
        .find(|it| is_then(it));
    let (Some(given), Content::Map(entries)) = (given, &mut old.content) else {
        return Err(Refused::RowsDiffer);
    };
    if let Some(then) = entries.iter_mut().find(|entry| is_then(entry)) {
        then.value = either(when, &given.value, &then.value, when.span);
    }
    Ok(())
}

/// `otherwise: yes` says nothing of what the row gives.
fn says_yes(entry: &Entry) -> bool {
    matches!(entry.value.text(), Some("yes" | "true"))
}

pub(super) fn map(span: Span, entries: Vec<Entry>) -> Node {
    Node {
        span,
        content: Content::Map(entries),
    }
}

pub(super) fn combined(word: &str, both: [Node; 2], span: Span) -> Node {
    let both = Node {
        span,
        content: Content::List(both.into()),
    };
    map(span, vec![entry(word, both)])
}

impl Merged {
    pub(super) fn withdraw_part(
        &mut self,
        when: Option<&Node>,
        target: &Node,
        place: usize,
        part: &str,
    ) {
        let relief = self.is_relief(place, part);
        self.part_changes(target, place, relief);
        self.edit_part(target, place, part, &mut |found| withdrawn(found, when));
    }

    pub(super) fn replace_part(
        &mut self,
        (node, when): Edit<'_>,
        target: &Node,
        place: usize,
        part: &str,
    ) {
        let Some(with) = node.get("with") else { return };
        self.part_changes(target, place, false);
        self.edit_part(target, place, part, &mut |found| {
            replaced(found, with, when)
        });
    }

    /// Some changes cannot depend on a condition.
    fn refuse_condition(&mut self, target: &Node, why: Refused) {
        let (what, help) = match why {
            Refused::RowWithdrawn => (
                "A row cannot be withdrawn under a condition: nothing would say what holds for its cases.",
                "Replace it, and say with `with` what holds where the condition does.",
            ),
            Refused::RowsDiffer => (
                "Under a condition a row can only be replaced by one for the same cases.",
                "Write the same bounds as in the base's row, and another `then`; or change the whole rule.",
            ),
        };
        self.fault(Code::EditWhen, target.span, what).help(help);
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
        edit: &mut dyn FnMut(Found<'_>) -> Result<(), Refused>,
    ) {
        let found = self
            .rules
            .get_mut(place)
            .and_then(|item| with_part(&mut item.node, "", part, edit));
        if let Some(Err(why)) = found {
            self.refuse_condition(target, why);
        }
        if found.is_none() {
            self.fault(
                Code::UnknownPart,
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
                self.fault(Code::Stricter, target.span, "The base says that this rule is the most that may be asked, so its relief cannot be withdrawn.");
            }
            _ => {
                self.warnings
                    .add(Code::NotCompared, target.span, "The base limits how this rule may be changed, and a change of a part is not compared.")
                    .help("See for yourself that it keeps within that.");
            }
        }
    }
}
