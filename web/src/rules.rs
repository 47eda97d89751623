//! The rules and the plan that were read last, so that a step of a drag does not read them again.

use std::cell::RefCell;
use std::rc::Rc;

use rules_core::drawing::{Drawing, Options};
use rules_core::report::Report;
use rules_core::text::{Node, read};
use rules_core::{Begun, Refusal, RulesRead, begin, fit, judge_by, plan_refused, read_rules};

/// A plan as it is looked at under a rule set.
pub struct Fitted {
    /// Without what these rules have no word for.
    pub document: Node,
    /// The paths of what was left out.
    pub left_out: Vec<String>,
}

/// Where a drag begins.
pub struct Start {
    /// The plan.
    pub document: Node,
    /// What comes of it.
    pub begun: Begun,
}

thread_local! {
    static RULES: RefCell<Option<(String, Rc<RulesRead>)>> = const { RefCell::new(None) };
    static START: RefCell<Option<([String; 3], Rc<Start>)>> = const { RefCell::new(None) };
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
    let read = Rc::new(read_rules(text, &|name| siting_rulesets::rules(name))?);
    RULES.set(Some((text.to_owned(), Rc::clone(&read))));
    Ok(read)
}

/// The plan of a text, as it is looked at under these rules.
pub fn fitted(plan: &str, rules: &RulesRead) -> Result<Fitted, Refusal> {
    let mut document = read(plan).map_err(|faults| plan_refused(plan, faults))?;
    let left_out = fit(&mut document, &rules.rule_set.vocabulary);
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

/// The plan that a drag begins with and what comes of it, judged now or before. The texts are those of the plan, the rules
/// and the options.
pub fn start_of(
    texts: [&str; 3],
    rules: &RulesRead,
    options: &Options,
) -> Result<Rc<Start>, Refusal> {
    let known = START.with_borrow(|last| {
        let (known, start) = last.as_ref()?;
        (known == &texts).then(|| Rc::clone(start))
    });
    if let Some(start) = known {
        return Ok(start);
    }
    let mut document = fitted(texts[0], rules)?.document;
    let options = &options.holding(&mut document);
    let begun = begin((&document, texts[0]), &rules.rule_set, options)?;
    let start = Rc::new(Start { document, begun });
    START.set(Some((texts.map(str::to_owned), Rc::clone(&start))));
    Ok(start)
}
