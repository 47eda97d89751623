//! What is on the page.

pub mod boxes;
pub mod desk;
mod details;
pub mod drawing;
mod editions;
mod findings;
pub mod form;
pub mod ground;
pub mod keyed;
mod marks;
pub mod menu;
mod papers;
pub mod print;
mod prose;
mod remains;
pub mod room;
mod room_map;
mod scope;
mod sheet;
mod sheet_report;
mod steps;
mod verdict;

use std::cell::RefCell;
use std::collections::BTreeMap;

use rules_core::report::{Counts, Question, VerdictWords};
use rules_core::text::Node;
use rules_core::{Report, RuleNow, RuleReport};

use crate::asked::asked_now;
use crate::held::with;
use crate::judged::{Judged, with_judged};
use crate::looks::with_looks;
use crate::plan::path_of_missing;
use crate::words::t;
use form::{Form, StillOpen};
use keyed::{show, show_within};

pub use desk::show_desk;
pub use scope::field_id;
pub use sheet::show_sheet;

/// The verdict in words, or why there is none.
pub fn verdict_line(judged: &Judged) -> String {
    match judged.shown() {
        Some(good) => marks::verdict_said(good.report.verdict.word),
        None if judged.are_rules_refused() => t("desk.mend-first"),
        None => t("desk.no-plan"),
    }
}

/// Shows the result: the verdict, the findings and the papers.
pub fn show_result() {
    ASTIR.take();
    with_judged(|judged| {
        let good = judged.shown();
        let report = good.map(|good| &good.report);
        show("verdict", verdict::of(judged));
        show("next-question", findings::next(report));
        show("findings", findings::of(report));
        show("papers", papers::of(good));
    });
}

/// Shows the form.
pub fn show_form() {
    let asked = asked_now();
    let (plan, rules) = with(|session| (session.plan().clone(), session.rules().clone()));
    let looks = with_looks(|looks| looks.clone());
    let (faults, open) = with_judged(|judged| {
        let open = judged.shown().map(|good| still_open(&plan, &good.report));
        (judged.faults().to_vec(), open)
    });
    let form = Form {
        plan: &plan,
        rules: &rules,
        asked: asked.as_deref(),
        faults: &faults,
        open: open.as_ref(),
        looks: &looks,
        unit: &looks.unit,
    };
    show("form-parts", form.parts());
}

/// What a result still waits for.
fn still_open(plan: &Node, report: &Report) -> StillOpen {
    let open = report
        .rules
        .iter()
        .filter(|rule| !marks::is_settled(rule.outcome));
    let questions = report.questions.iter();
    let path = |question: &Question| path_of_missing(plan, &question.missing);
    StillOpen {
        rules: open.map(|rule| rule.id.clone()).collect(),
        paths: questions.filter_map(path).collect(),
    }
}

thread_local! {
    /// The rules that show something else than at the start of the drag, as they are shown.
    static ASTIR: RefCell<BTreeMap<String, RuleReport>> = RefCell::default();
}

/// Shows a step of a drag: the verdict, and each finding where it is. Findings move to their new groups when the drag
/// ends, so that the list does not jump about meanwhile.
pub fn follow(verdict: &VerdictWords, counts: &Counts, rules: Vec<RuleNow>) {
    with_judged(|judged| {
        let Some(good) = judged.shown() else { return };
        show("verdict", verdict::counted(judged, verdict, counts));
        let now = rules.into_iter().map(RuleNow::into_report);
        let now: BTreeMap<String, RuleReport> = now.map(|rule| (rule.id.clone(), rule)).collect();
        ASTIR.with_borrow_mut(|astir| {
            let begun = good.report.rules.iter();
            for was in begun.filter(|was| astir.get(&was.id) != now.get(&was.id)) {
                show_within(
                    "findings",
                    findings::finding(now.get(&was.id).unwrap_or(was)),
                );
            }
            *astir = now;
        });
    });
}
