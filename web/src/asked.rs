//! What the rule set asks for.

use std::cell::RefCell;
use std::rc::Rc;

use rules_core::asked::Asked;
use rules_core::refusal_to_json;

use crate::held::with;
use crate::rules::rules_of;
use crate::written::written;

thread_local! {
    /// The last questions, with the text of the rules that ask them.
    static LAST: RefCell<Option<(String, Rc<Asked>)>> = const { RefCell::new(None) };
}

/// What the rules need to know about a plan; `None` if they cannot be read.
pub fn asked_now() -> Option<Rc<Asked>> {
    let rules = with(|session| session.rules().text.clone());
    let known = LAST.with_borrow(|last| {
        let (text, asked) = last.as_ref()?;
        (*text == rules).then(|| Rc::clone(asked))
    });
    if known.is_some() {
        return known;
    }
    let asked = Rc::new(rules_core::asked::asked(&rules_of(&rules).ok()?.rule_set));
    LAST.set(Some((rules, Rc::clone(&asked))));
    Some(asked)
}

/// Forgets the questions when the language changes.
pub fn forget_asked() {
    LAST.set(None);
}

/// The same as JSON (see `rules_core::asked`), or why the rules cannot be read.
pub fn asked() -> String {
    let rules = with(|session| session.rules().text.clone());
    match rules_of(&rules) {
        Ok(read) => written(&rules_core::asked::asked(&read.rule_set)),
        Err(refusal) => refusal_to_json(&refusal),
    }
}
