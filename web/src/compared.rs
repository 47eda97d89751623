//! The rules at the desk beside those in force, and what both make of the plans that are open.

use std::cell::RefCell;
use std::rc::Rc;

use rules_core::compare::{Changes, PlanCompared, compare, compare_plan, summary};
use rules_core::hide_unknown_keys;
use rules_core::text::{FaultRow, Node, Visible, read, to_json_text};
use rules_core::{RulesRead, read_rules_in};
use serde::{Deserialize, Serialize};

use crate::clerk::FileRow;
use crate::held::with;
use crate::words::{self, t};

/// A file that was opened.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Opened {
    /// Its name.
    pub name: String,
    /// Its text.
    pub text: String,
}

/// What is compared.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Comparing {
    /// The bundled rules in force.
    pub bundled: Option<String>,
    /// The rules in force, opened as a file.
    pub opened: Option<Opened>,
    /// The plans that were opened besides the one on the sheet.
    pub plans: Vec<Opened>,
}

/// What comes of it.
#[derive(Debug, Default)]
pub struct Compared {
    /// What is wrong with the rules in force.
    pub faults: Vec<FileRow>,
    /// What became of the plans together; empty if there are none.
    pub summary: String,
    /// What the rules say differently.
    pub changes: String,
    /// What became of each plan.
    pub plans: Vec<OfPlan>,
}

/// What became of a plan.
#[derive(Debug)]
pub struct OfPlan {
    /// What it is called.
    pub name: String,
    /// Whether it newly fails.
    pub fails: bool,
    /// What changes for it, in words.
    pub told: String,
    /// What it holds for other rules, which was left out.
    pub left_out: Vec<String>,
    /// What is wrong with it.
    pub faults: Vec<FaultRow>,
}

type Known = (Comparing, [String; 3], Rc<Compared>);

thread_local! {
    static COMPARING: RefCell<Comparing> = RefCell::default();
    static LAST: RefCell<Option<Known>> = const { RefCell::new(None) };
}

/// Does something with what is compared.
pub fn with_comparing<T>(doing: impl FnOnce(&mut Comparing) -> T) -> T {
    COMPARING.with_borrow_mut(doing)
}

/// Compares, or gives what came of it before; nothing where no rules in force are chosen.
pub fn compared(now: &RulesRead, rules: &str) -> Option<Rc<Compared>> {
    let comparing = with_comparing(|comparing| comparing.clone());
    let text = comparing.in_force()?;
    let key = [
        rules.to_owned(),
        with(|session| session.text()),
        words::tongue(),
    ];
    let known = LAST.with_borrow(|last| {
        let (what, texts, known) = last.as_ref()?;
        (*what == comparing && *texts == key).then(|| Rc::clone(known))
    });
    Some(known.unwrap_or_else(|| {
        let fresh = Rc::new(comparing.of(&text, now));
        LAST.set(Some((comparing, key, Rc::clone(&fresh))));
        fresh
    }))
}

impl Comparing {
    /// The text of the rules in force.
    fn in_force(&self) -> Option<String> {
        let opened = self.opened.as_ref().map(|file| file.text.clone());
        let bundled = || siting_rulesets::rules(self.bundled.as_deref()?).map(str::to_owned);
        opened.or_else(bundled)
    }

    fn of(&self, text: &str, now: &RulesRead) -> Compared {
        let bases = |name: &str| siting_rulesets::rules(name);
        let then = match read_rules_in(words::chosen(), text, &bases) {
            Ok(then) => then,
            Err(refusal) => {
                return Compared {
                    faults: crate::clerk::rows(&refusal.rules, |file| &file.faults),
                    ..Compared::default()
                };
            }
        };
        let changes = compare(&then.rule_set, &now.rule_set);
        let plans = self.all_plans();
        let judged = plans
            .iter()
            .map(|plan| of_plan(plan, (&then, now), &changes));
        let (mut good, mut told) = (Vec::new(), Vec::new());
        for (plan, judged) in plans.iter().zip(judged) {
            told.push(judged.told(plan));
            good.extend(
                judged
                    .compared
                    .ok()
                    .map(|compared| (plan.name.clone(), compared)),
            );
        }
        let none = good.is_empty();
        Compared {
            summary: if none {
                String::new()
            } else {
                plain(&summary(&good))
            },
            changes: plain(&changes.to_text()),
            plans: told,
            faults: Vec::new(),
        }
    }

    /// The plan on the sheet, where it has a lot and a pool, and those that were opened.
    fn all_plans(&self) -> Vec<Opened> {
        let mut all: Vec<Opened> = on_the_sheet().into_iter().collect();
        all.extend(self.plans.iter().cloned());
        all
    }
}

/// The plan on the sheet, where it is whole.
pub fn on_the_sheet() -> Option<Opened> {
    with(|session| {
        let has = |key| session.plan().get(key).is_some_and(|part| !part.is_empty());
        (has("lot") && has("pool")).then(|| Opened {
            name: t("desk.compare.sheet"),
            text: session.text(),
        })
    })
}

fn plain(text: &Visible) -> String {
    text.trim_end().to_owned()
}

struct Judged {
    compared: Result<PlanCompared, Vec<FaultRow>>,
    left_out: Vec<String>,
}

/// A plan under both. What one of them has no word for is left out, and told.
fn of_plan(plan: &Opened, (then, now): (&RulesRead, &RulesRead), changes: &Changes) -> Judged {
    let sets = (&then.rule_set, &now.rule_set);
    let as_it_is = compare_plan(&plan.text, sets, changes);
    let mut left_out = Vec::new();
    let compared = as_it_is.or_else(|faults| {
        let Ok(mut document) = read(&plan.text) else {
            return Err(faults.rows(&plan.text));
        };
        left_out = hidden(&mut document, [then, now]);
        compare_plan(&to_json_text(&document), sets, changes).map_err(|_| faults.rows(&plan.text))
    });
    Judged { compared, left_out }
}

fn hidden(document: &mut Node, sets: [&RulesRead; 2]) -> Vec<String> {
    let each = sets.map(|set| hide_unknown_keys(document, &set.rule_set.vocabulary));
    each.concat()
}

impl Judged {
    fn told(&self, plan: &Opened) -> OfPlan {
        let compared = self.compared.as_ref();
        OfPlan {
            name: plan.name.clone(),
            fails: compared.is_ok_and(PlanCompared::newly_fails),
            told: compared.map_or_else(|_| String::new(), |one| plain(&one.to_text(&plan.name))),
            left_out: self.left_out.clone(),
            faults: self.compared.as_ref().err().cloned().unwrap_or_default(),
        }
    }
}
