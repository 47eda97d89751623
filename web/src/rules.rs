//! The rules that were read last, and where a drag begins, so that no step of it reads them again.

use std::cell::RefCell;
use std::rc::Rc;

use rules_core::drawing::{Drawing, Options};
use rules_core::report::Report;
use rules_core::text::{Node, read};
use rules_core::{
    DragStart, Refusal, RulesRead, hide_unknown_keys, judge_by, plan_refused, read_rules_in,
};

use crate::asked::forget_asked;
use crate::judged::forget_judged;
use crate::sets::forget_heads;
use crate::words;

/// A plan as it is looked at under a rule set.
pub struct Fitted {
    /// Without what these rules have no word for.
    pub document: Node,
    /// The paths of what was left out.
    pub left_out: Vec<String>,
}

/// Where a drag begins.
pub struct Start {
    /// The plan's text.
    pub text: String,
    /// The plan.
    pub document: Node,
    /// The rules.
    pub rules: Rc<RulesRead>,
    /// How the drawing is wanted.
    pub options: Options,
    /// What comes of it.
    pub begun: DragStart,
}

thread_local! {
    static RULES: RefCell<Option<(String, Rc<RulesRead>)>> = const { RefCell::new(None) };
    static START: RefCell<Option<Start>> = const { RefCell::new(None) };
}

/// From now on rules are read, and reports made, in the language of this name (`nb`), as far as there are words in it.
/// Returns whether it is another than before; one that the page does not have changes nothing.
pub fn speak(language: &str) -> bool {
    let other = words::choose(language);
    if other {
        RULES.set(None);
        START.set(None);
        forget_judged();
        forget_asked();
        forget_heads();
    }
    other
}

/// The rules of a text, read now or before.
pub fn rules_of(text: &str) -> Result<Rc<RulesRead>, Refusal> {
    let known = RULES.with_borrow(|last| {
        let (known, read) = last.as_ref()?;
        (known == text).then(|| Rc::clone(read))
    });
    if let Some(read) = known {
        return Ok(read);
    }
    let bases = |name: &str| siting_rulesets::rules(name);
    let read = Rc::new(read_rules_in(words::chosen(), text, &bases)?);
    RULES.set(Some((text.to_owned(), Rc::clone(&read))));
    Ok(read)
}

/// The plan of a text, as it is looked at under these rules.
pub fn fitted(plan: &str, rules: &RulesRead) -> Result<Fitted, Refusal> {
    let mut document = read(plan).map_err(|faults| plan_refused(plan, faults))?;
    let left_out = hide_unknown_keys(&mut document, &rules.rule_set.vocabulary);
    Ok(Fitted { document, left_out })
}

/// What comes of a plan, and its drawing where one is wanted. The texts are those that plan and rules were read from.
pub fn judged(
    document: &Node,
    rules: &RulesRead,
    [plan_text, rules_text]: [&str; 2],
    options: &Options,
) -> Result<(Report, Option<Drawing>), Refusal> {
    judge_by(
        (document, plan_text),
        (&rules.rule_set, rules_text),
        &|name| siting_rulesets::rules(name),
        Some(options),
    )
}

/// Keeps where a drag begins; nothing where it cannot begin there.
pub fn keep_start(start: Option<Start>) {
    START.set(start);
}

/// Does something with what is kept of where a drag begins.
pub fn with_start<T>(doing: impl FnOnce(Option<&Start>) -> T) -> T {
    START.with_borrow(|start| doing(start.as_ref()))
}
