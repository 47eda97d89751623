//! A plan that somebody is filling in: what is said of it one answer after the other, what is drawn, and the way back.
//!
//! It judges nothing. What a person types goes into the plan's document as they typed it, and the reader judges it; ids, sources
//! and the outlines of what is new are the program's own affair. Each change is one step of undo.

mod begins;
mod figures;
mod files;
mod lot;
mod path;
mod things;

#[cfg(test)]
mod session_tests;

pub use figures::{figure, shown};
pub use files::{Opened, opened};
pub use lot::lot_size;
pub use path::at;
pub use things::{Outline, Spot, path_of};

use std::rc::Rc;

use crate::edit::amount::scalar;
use crate::edit::tree::map;
use crate::edit::{Change, Changed, Wrong, change};
use crate::text::{Content, Node, Span, to_json_text};

/// How many steps can be undone.
const STEPS: usize = 200;

/// The rules by which a plan is judged.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Rules {
    /// The name of a rule set that came along; none where the text is somebody's own, or nothing is chosen yet.
    pub id: Option<String>,
    /// The text of the rule file.
    pub text: String,
    /// The text of its cases, where they have a file of their own.
    pub cases: String,
}

/// A plan with its rules, and the steps that led to it.
#[derive(Debug)]
pub struct Session {
    now: State,
    past: Vec<State>,
    future: Vec<State>,
}

/// What an undo brings back.
#[derive(Debug, Clone, PartialEq)]
struct State {
    plan: Rc<Node>,
    rules: Rc<Rules>,
}

/// The smallest plan to start from: no lot yet, and no pool.
pub fn blank() -> Node {
    map([
        ("plan", words("my-home")),
        ("title", words("My home")),
        ("unit", words("m")),
        ("things", crate::edit::tree::list(Vec::new())),
    ])
}

impl Session {
    /// With a plan and its rules, and nothing to undo.
    pub fn new(plan: Node, rules: Rules) -> Self {
        let now = State {
            plan: Rc::new(plan),
            rules: Rc::new(rules),
        };
        Self {
            now,
            past: Vec::new(),
            future: Vec::new(),
        }
    }

    /// The plan.
    pub fn plan(&self) -> &Node {
        &self.now.plan
    }

    /// The rules.
    pub fn rules(&self) -> &Rules {
        &self.now.rules
    }

    /// The plan as text, as its reader takes it.
    pub fn text(&self) -> String {
        to_json_text(&self.now.plan)
    }

    /// Puts another plan, or other rules, in the place of these.
    pub fn replace(&mut self, plan: Option<Node>, rules: Option<Rules>) {
        let next = State {
            plan: plan.map_or_else(|| Rc::clone(&self.now.plan), Rc::new),
            rules: rules.map_or_else(|| Rc::clone(&self.now.rules), Rc::new),
        };
        self.go_on(next);
    }

    /// Changes the plan; where that is not possible nothing is changed.
    ///
    /// # Errors
    /// The sentence that says why not.
    fn change<T>(&mut self, doing: impl FnOnce(&mut Node) -> Result<T, Wrong>) -> Result<T, Wrong> {
        let mut plan = Node::clone(&self.now.plan);
        let done = doing(&mut plan)?;
        self.replace(Some(plan), None);
        Ok(done)
    }

    /// Moves, turns, pulls, draws or removes something.
    ///
    /// # Errors
    /// As for [`change`].
    pub fn edit(&mut self, wanted: &Change) -> Result<Changed, Wrong> {
        self.change(|plan| change(plan, wanted))
    }

    /// Makes several changes, as one step; where one of them is not possible nothing is changed.
    ///
    /// # Errors
    /// As for [`change`].
    pub fn edit_all(&mut self, wanted: &[Change]) -> Result<(), Wrong> {
        self.change(|plan| {
            wanted
                .iter()
                .try_for_each(|one| change(plan, one).map(drop))
        })
    }

    /// Puts what was typed at a place of the plan; nothing takes away what stands there.
    pub fn set(&mut self, path: &str, value: Option<Node>) {
        let mut plan = Node::clone(&self.now.plan);
        path::put(&mut plan, path, value);
        self.replace(Some(plan), None);
    }

    /// Puts words at a place of the plan, or takes away what stands there where there are none.
    pub fn say(&mut self, path: &str, text: &str) {
        let text = text.trim();
        self.set(path, (!text.is_empty()).then(|| words(text)));
    }

    /// Puts words at several places of the plan, as one step.
    pub fn say_all(&mut self, said: &[(String, &str)]) {
        let mut plan = Node::clone(&self.now.plan);
        for (path, text) in said {
            path::put(&mut plan, path, Some(words(text)));
        }
        self.replace(Some(plan), None);
    }

    /// Says that a fact differs along a thing, lowest and highest; or that it is the same all along.
    pub fn vary(&mut self, path: &str, varies: bool) {
        let now = at(self.plan(), path).cloned();
        let value = match (varies, now) {
            (true, now) => {
                let now = now.unwrap_or_else(|| words(""));
                Some(map([("from", now.clone()), ("to", now)]))
            }
            (false, now) => now.and_then(|now| now.get("from").cloned()),
        };
        let said = value.filter(|node| node.text() != Some(""));
        self.set(path, said);
    }

    fn go_on(&mut self, next: State) {
        if next == self.now {
            return;
        }
        self.past.push(std::mem::replace(&mut self.now, next));
        if self.past.len() > STEPS {
            self.past.remove(0);
        }
        self.future.clear();
    }

    /// Whether there is a step to undo.
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is a step to take again.
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// Takes the last step back.
    pub fn undo(&mut self) {
        if let Some(before) = self.past.pop() {
            self.future.push(std::mem::replace(&mut self.now, before));
        }
    }

    /// Takes a step again that was taken back.
    pub fn redo(&mut self) {
        if let Some(after) = self.future.pop() {
            self.past.push(std::mem::replace(&mut self.now, after));
        }
    }
}

/// Words as a person wrote them: never a number, whatever they look like.
fn words(text: &str) -> Node {
    let content = Content::Scalar {
        text: text.to_owned(),
        quoted: true,
    };
    Node {
        span: Span::default(),
        content,
    }
}

/// An id, or a word of the file's language.
fn word(text: &str) -> Node {
    scalar(text.to_owned())
}
