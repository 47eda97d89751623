//! What must hold for every plan and every rule file.

use rules_core::faults::Code;
use rules_core::ruleset::say::read_back;
use rules_core::text::{self, Node, to_json, to_json_text, to_yaml_text};
use rules_core::work::{MOST_STEPS, counted};
use rules_core::{judge_texts, read_rules};

use super::changed::changed;
use super::stock::Stock;
use crate::random_plans::Random;

/// A plan and a rule file.
pub struct Case {
    /// The plan's text.
    pub plan: String,
    /// The rule file's text.
    pub rules: String,
}

/// The result of a case that shows nothing wrong with the program.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// The plan was judged.
    Judged,
    /// It would take too many steps.
    TooMuch,
    /// The rule file was refused.
    RulesRefused,
    /// The plan was refused.
    PlanRefused,
}

/// An edition and the earlier ones are each read within the limit on steps, and the plan is judged by each of them at
/// most once.
const MOST_OF_A_CASE: u64 = 8 * MOST_STEPS;

impl Case {
    /// The case of a seed.
    pub fn of(seed: u64, stock: &Stock) -> Case {
        let mut random = Random::new(seed);
        let (plan, rules) = (
            stock.plan(&mut random, seed),
            stock.rules(&mut random, seed),
        );
        let changes = |random: &mut Random| match random.once_in(2) {
            true => 0,
            false => random.within(1, 3),
        };
        let (few, others) = (changes(&mut random), changes(&mut random));
        Case {
            plan: to_yaml_text(&changed(&plan, few, stock, &mut random)),
            rules: to_yaml_text(&changed(&rules, others, stock, &mut random)),
        }
    }
}

/// Reads, reads back, judges and reports, and says what is wrong with the results.
///
/// # Errors
/// What is wrong, in a sentence.
pub fn tried(case: &Case, stock: &Stock) -> Result<(Outcome, u64), String> {
    for text in [&case.plan, &case.rules] {
        if let Ok(tree) = text::read(text) {
            printed_again(&tree)?;
        }
    }
    let (outcome, steps) = counted(|| judged(case, stock));
    match outcome? {
        _ if steps > MOST_OF_A_CASE => Err(format!("it took {steps} steps")),
        outcome => Ok((outcome, steps)),
    }
}

/// A tree that is written out reads the same again.
fn printed_again(tree: &Node) -> Result<(), String> {
    for written in [to_yaml_text(tree), to_json_text(tree)] {
        let again = text::read(&written).map_err(|faults| {
            format!(
                "what was written cannot be read: {}",
                faults.show("it", &written)
            )
        })?;
        if to_json(&again) != to_json(tree) {
            return Err(format!("what was written reads otherwise: {written}"));
        }
    }
    Ok(())
}

fn judged(case: &Case, stock: &Stock) -> Result<Outcome, String> {
    let bases = |name: &str| stock.bundled.get(name).map(String::as_str);
    let read = read_rules(&case.rules, &bases);
    let answer = judge_texts(&case.plan, &case.rules, &bases);
    if rules_core::to_json(&answer).is_empty() {
        return Err("the answer is no JSON".to_owned());
    }
    match (&read, &answer) {
        (Ok(read), Ok(report)) => {
            let expected = read.rule_set.all_rules().count();
            let said = !read_back(&read.rule_set).to_text().is_empty();
            match said && (report.rules.len() == expected || !report.editions.is_empty()) {
                true => Ok(Outcome::Judged),
                false => Err("not every rule is in the report".to_owned()),
            }
        }
        (Ok(_), Err(refusal)) => match &refusal.plan {
            Some(_) => Ok(Outcome::PlanRefused),
            None if is_too_much(refusal) => Ok(Outcome::TooMuch),
            None => Err(format!(
                "the rules were read and then refused: {}",
                refusal.show("plan", "rules")
            )),
        },
        (Err(refusal), Err(_)) => match refusal.show("plan", "rules").is_empty() {
            true => Err("the rules were refused without a word".to_owned()),
            false => Ok(Outcome::RulesRefused),
        },
        (Err(_), Ok(_)) => Err("the rules were refused and the plan was judged".to_owned()),
    }
}

fn is_too_much(refusal: &rules_core::Refusal) -> bool {
    let faults = refusal.rules.iter().flat_map(|file| &file.faults.list);
    faults
        .into_iter()
        .all(|fault| fault.code == Code::TooMuchWork)
}
