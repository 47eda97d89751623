//! Kinds and outlines that a rule file adds and says are like known ones.

use crate::faults::Code;
use crate::ruleset::read::names::parts;
use crate::ruleset::read::{Reader, listed};
use crate::text::{Entry, Span};
use crate::vocabulary::{KindId, OutlineId};

impl<'a> Reader<'a> {
    /// Makes a kind like another: whose it is, whether it leads through a wall, and where a form asks for it.
    pub(crate) fn kind_like(&mut self, entry: &'a Entry, kind: KindId) {
        let name = self.text(entry);
        let Some(name) = name else { return };
        match self.vocabulary.kind_named(name) {
            Some(other) => self.vocabulary.kind_like(kind, other),
            None => self.unknown_kind(name, entry.value.span),
        }
    }

    /// Makes an outline like another: how high it is, how it is drawn, and whether it stands in the way.
    pub(crate) fn outline_like(&mut self, entry: &'a Entry, outline: OutlineId) {
        let name = self.text(entry);
        let Some(other) = name.and_then(|name| self.outline_of_a_kind(name, entry.value.span))
        else {
            return;
        };
        let lacking = self.vocabulary.outline_like(outline, other);
        if lacking.is_empty() {
            return;
        }
        let other = self.vocabulary.outline_path(other);
        let kind = self.vocabulary.outline(outline).kind;
        let kind = self.vocabulary.kind(kind).name.clone();
        let facts = listed(lacking.iter().map(String::as_str));
        let message =
            format!("How high `{other}` is, is told by {facts}; `{kind}` has no such fact.");
        self.fault(Code::LikeWithoutItsFacts, entry.value.span, message)
            .help(format!(
                "Add it under `facts` of `{kind}`, or leave `like` out."
            ));
    }

    /// The outline of a kind by its whole name, as in `building.wall`.
    fn outline_of_a_kind(&mut self, name: &'a str, span: Span) -> Option<OutlineId> {
        let (head, tail) = parts(name);
        let Some(kind) = self.vocabulary.kind_named(head) else {
            self.unknown_kind(head, span);
            return None;
        };
        match tail {
            Some(tail) => self.outline(kind, (head, tail), span),
            None => self.only_outline(kind, head, span),
        }
    }
}
