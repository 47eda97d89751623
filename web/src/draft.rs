//! What somebody writes at the desk: the text in the field, where the cursor is, and what was last found in it.

use std::cell::RefCell;
use std::rc::Rc;

use rules_core::hints::{Entry, Hints, entries, hints};
use rules_core::session::Rules;
use rules_core::vocabulary::Vocabulary;

use crate::clerk::{Found, found};
use crate::held::{own_rules, with};

/// Which of the two texts is in the field.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum File {
    /// The rules.
    #[default]
    Rules,
    /// Their cases.
    Cases,
}

/// What is being written.
#[derive(Debug, Default)]
pub struct Draft {
    /// Which text is in the field.
    pub file: File,
    /// The text in the field, as far as it was typed.
    pub text: String,
    /// The byte at which the cursor is.
    pub at: usize,
    /// The offers that are shown; none while the list is closed.
    pub offers: Option<Offers>,
    /// What the pointer is over, where it is over a word.
    pub over: Option<usize>,
    /// The cases that were made for the writer.
    pub made: Option<String>,
    /// Whether something was typed that the page does not hold yet.
    pub is_typing: bool,
    /// What the writer must know, until something else is done.
    pub note: Option<String>,
    found: Rc<Found>,
    /// The same for the last rules without faults.
    good: Rc<Found>,
    /// The texts in which it was found, and the language.
    of: Option<[String; 3]>,
}

/// The list of what may be written.
#[derive(Debug, Clone, Default)]
pub struct Offers {
    /// What they are for.
    pub hints: Hints,
    /// Which of them is chosen.
    pub chosen: Option<usize>,
}

thread_local! {
    static DRAFT: RefCell<Draft> = RefCell::default();
}

/// Does something with what is being written.
pub fn with_draft<T>(doing: impl FnOnce(&mut Draft) -> T) -> T {
    DRAFT.with_borrow_mut(doing)
}

/// The rules as the page holds them.
pub fn rules_held() -> Rules {
    with(|session| session.rules().clone())
}

/// The text that the page holds, of the one that is in the field.
pub fn text_held(file: File) -> String {
    let rules = rules_held();
    match file {
        File::Rules => rules.text,
        File::Cases => rules.cases,
    }
}

/// Takes what was typed over into what the page holds. Returns whether that changed.
pub fn take_typed() -> bool {
    let (file, text) = with_draft(|draft| {
        draft.is_typing = false;
        (draft.file, draft.text.clone())
    });
    let rules = rules_held();
    match file {
        File::Rules if text != rules.text => own_rules(&text, &rules.cases),
        File::Cases if text != rules.cases => own_rules(&rules.text, &text),
        _ => return false,
    }
    true
}

/// What is found in the rules that the page holds, now or before.
pub fn found_now() -> Rc<Found> {
    let rules = rules_held();
    let of = [rules.text, rules.cases, crate::words::tongue()];
    let known = with_draft(|draft| {
        let is_same = draft.of.as_ref() == Some(&of);
        is_same.then(|| Rc::clone(&draft.found))
    });
    known.unwrap_or_else(|| {
        let [rules, cases, _] = &of;
        let found = Rc::new(found(rules, cases));
        with_draft(|draft| {
            draft.found = Rc::clone(&found);
            if found.rules.is_some() || found.faults.is_empty() {
                draft.good = Rc::clone(&found);
            }
            draft.of = Some(of);
            draft.made = None;
        });
        found
    })
}

/// What was found in the last rules without faults.
pub fn found_last() -> Rc<Found> {
    with_draft(|draft| Rc::clone(&draft.good))
}

/// The text of the field as it should stand there: what is being typed, or else what the page holds.
pub fn refresh() {
    let held = text_held(with_draft(|draft| draft.file));
    with_draft(|draft| {
        if !draft.is_typing && draft.text != held {
            draft.at = 0;
            draft.offers = None;
            draft.text = held;
        }
    });
}

impl Draft {
    /// What may be written at a byte of the text, and what stands there.
    pub fn hints_at(&self, at: usize) -> Hints {
        match &self.good.rules {
            Some(read) => hints(&self.text, at, &read.rule_set.vocabulary),
            None => hints(&self.text, at, &Vocabulary::standard()),
        }
    }

    /// What was last found in the rules.
    pub fn found(&self) -> Rc<Found> {
        Rc::clone(&self.found)
    }

    /// The entry of the file in which the cursor is.
    pub fn entry(&self) -> Option<Entry> {
        let mut all = entries(&self.text).into_iter();
        all.find(|entry| entry.start <= self.at && self.at <= entry.end)
    }
}
