//! The same file, written differently.

use rules_core::quantity::{Dimension, Unit, parse};
use rules_core::text::{Content, Entry, Node};

use crate::random_plans::Random;

/// What to change in the writing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spelling {
    /// The order of keys, comments, quotes, `true` for `yes`, lines for braces, a list for `all-of`, a list of one
    /// answer for the answer: nothing that a report shows.
    Form,
    /// The units of lengths, which a report shows as written.
    Units,
}

/// Keys whose map depends on the order of its keys.
const ORDERED: [&str; 1] = ["corners"];
/// Keys after which a list of requirements means all of them.
const REQUIREMENTS: [&str; 3] = ["require", "when", "unless"];

/// The same file, written otherwise.
pub fn respelled(seed: u64, root: &Node, spelling: Spelling) -> String {
    let mut writer = Writer {
        random: Random::new(seed),
        spelling,
        text: String::new(),
    };
    writer.block(root, 0, "");
    writer.text
}

struct Writer {
    random: Random,
    spelling: Spelling,
    text: String,
}

impl Writer {
    fn form(&self) -> bool {
        self.spelling == Spelling::Form
    }

    fn entries<'n>(&mut self, entries: &'n [Entry], key: &str) -> Vec<&'n Entry> {
        let mut left: Vec<_> = entries.iter().collect();
        if !self.form() || ORDERED.contains(&key) {
            return left;
        }
        let mut shuffled = Vec::new();
        while !left.is_empty() {
            let last = i64::try_from(left.len()).unwrap_or(1) - 1;
            let at = usize::try_from(self.random.within(0, last)).unwrap_or(0);
            shuffled.push(left.remove(at));
        }
        shuffled
    }

    /// In lines, or in braces from here on.
    fn block(&mut self, node: &Node, indent: usize, key: &str) {
        match &node.content {
            Content::Map(entries) if indent == 0 || self.random.once_in(2) => {
                for entry in self.entries(entries, key) {
                    self.line(indent);
                    self.text += &format!("{}:", entry.key);
                    self.block(&entry.value, indent + 2, &entry.key);
                }
            }
            Content::List(items) if !items.is_empty() && self.random.once_in(2) => {
                for item in items {
                    self.line(indent);
                    self.text.push('-');
                    self.flowing(item, key);
                }
            }
            _ => self.flowing(node, key),
        }
    }

    fn flowing(&mut self, node: &Node, key: &str) {
        let flow = self.flow(node, key);
        self.text.push(' ');
        self.text += &flow;
    }

    fn line(&mut self, indent: usize) {
        if !self.text.is_empty() {
            if self.form() && self.random.once_in(4) {
                self.text += "   # a remark: {not: read}";
            }
            self.text.push('\n');
        }
        if self.form() && self.random.once_in(6) {
            self.text += "\n# between\n";
        }
        self.text.push_str(&" ".repeat(indent));
    }

    fn flow(&mut self, node: &Node, key: &str) -> String {
        match &node.content {
            Content::Empty => String::new(),
            Content::Scalar { text, quoted } => self.scalar(text, *quoted, key),
            Content::List(items) => {
                let items: Vec<_> = items.iter().map(|item| self.flow(item, key)).collect();
                let list = format!("[{}]", items.join(", "));
                match REQUIREMENTS.contains(&key) && self.form() && self.random.once_in(2) {
                    true => format!("{{all-of: {list}}}"),
                    false => list,
                }
            }
            Content::Map(entries) => {
                let of_fact = entries.iter().any(|entry| entry.key == "fact");
                let entries = self.entries(entries, key);
                let written: Vec<_> = entries
                    .into_iter()
                    .map(|entry| format!("{}: {}", entry.key, self.entry(entry, of_fact)))
                    .collect();
                format!("{{{}}}", written.join(", "))
            }
        }
    }

    /// The value of a key. One answer to a fact means the same as a list of one.
    fn entry(&mut self, entry: &Entry, of_fact: bool) -> String {
        let written = self.flow(&entry.value, &entry.key);
        let one = matches!(entry.value.content, Content::Scalar { .. });
        let list = of_fact && one && entry.key == "is" && self.form() && self.random.once_in(2);
        if list {
            format!("[{written}]")
        } else {
            written
        }
    }

    fn scalar(&mut self, text: &str, quoted: bool, key: &str) -> String {
        if self.spelling == Spelling::Units {
            let plain = self.in_other_unit(text);
            return format!("\"{}\"", plain.as_deref().unwrap_or(text));
        }
        let answer = ["is", "leave", "none", "otherwise"].contains(&key);
        let text = match (text, quoted) {
            ("yes", false) if answer && self.random.once_in(2) => "true",
            ("no", false) if answer && self.random.once_in(2) => "false",
            _ => text,
        };
        match self.random.within(0, 2) {
            0 => format!("\"{text}\""),
            1 => format!("'{}'", text.replace('\'', "''")),
            _ if quoted => format!("\"{text}\""),
            _ => text.to_owned(),
        }
    }

    /// A length in another unit, to the nanometre.
    fn in_other_unit(&mut self, text: &str) -> Option<String> {
        let written = parse(text, Some(Dimension::Length), None).ok()?;
        let amount = written
            .drawn
            .filter(|drawn| written.range.low == *drawn && written.range.high == *drawn)?;
        let by = match self.random.within(0, 2) {
            0 => (Unit::MILLIMETRE, 1_000_000),
            1 => (Unit::CENTIMETRE, 10_000_000),
            _ => (Unit::METRE, 1_000_000_000),
        };
        let (sign, size) = (if amount < 0 { "-" } else { "" }, amount.unsigned_abs());
        let digits = match by.1 {
            1_000_000 => 6,
            10_000_000 => 7,
            _ => 9,
        };
        Some(format!(
            "{sign}{}.{:0digits$} {}",
            size / by.1,
            size % by.1,
            by.0.symbol()
        ))
    }
}
