//! Comparing a case's expectations with the outcomes.

use std::collections::{BTreeMap, BTreeSet};

use super::Tried;
use super::overlay::json;
use super::written::Case;
use crate::check::{Findings, Governed, Outcome, TooMuch, Verdict, governed};
use crate::plan;
use crate::ruleset::RuleSet;
use crate::text::Entry;

/// The word for a rule that a case does not check.
const UNSAID: &str = "unsaid";
/// The word, among the classes, for a decision that may be left to the authority.
const REFER: &str = "refer";

impl Case<'_> {
    pub(super) fn tried(&self, rules: &RuleSet) -> Tried {
        let text = json(&self.plan);
        let compared = plan::read(&text, &rules.vocabulary).and_then(|plan| {
            let governed = governed(&plan, rules).map_err(TooMuch::of_plan)?;
            Ok(self.compared(rules, &governed))
        });
        let (outcomes, wrong) = compared.unwrap_or_else(|faults| {
            let messages = faults.list.into_iter().map(|fault| fault.message);
            (BTreeMap::new(), messages.collect())
        });
        Tried {
            case: self.id.to_owned(),
            title: self.title.to_owned(),
            outcomes,
            wrong,
        }
    }

    /// The outcome that the case expects of each rule it names.
    fn wanted<'s>(&'s self, rules: &'s RuleSet) -> Vec<(&'s str, &'s str)> {
        let named = self
            .expect
            .iter()
            .map(|entry| (entry.key.as_str(), entry.value.text().unwrap_or_default()));
        let own = rules
            .rules
            .iter()
            .filter(|rule| rule.layer == 0)
            .map(|rule| rule.id.as_str());
        let others = own.filter(|id| self.expect.iter().all(|entry| entry.key != *id));
        let others = self
            .all_others
            .into_iter()
            .flat_map(|wanted| others.clone().map(move |id| (id, wanted)));
        named
            .chain(others)
            .filter(|(_, wanted)| *wanted != UNSAID)
            .collect()
    }

    fn compared(
        &self,
        all: &RuleSet,
        governed: &Governed<'_>,
    ) -> (BTreeMap<String, Outcome>, Vec<String>) {
        let (rules, found) = (governed.rules, &governed.findings);
        let (mut outcomes, mut wrong) = (BTreeMap::new(), Vec::new());
        for (id, wanted) in self.wanted(all) {
            match outcome_of(rules, found, id) {
                Some(outcome) => {
                    if outcome.word() != wanted {
                        wrong.push(format!(
                            "Rule `{id}` comes to {}, not {wanted}.",
                            outcome.word()
                        ));
                    }
                    outcomes.insert(id.to_owned(), outcome);
                }
                None => wrong.push(format!("There is no rule `{id}`.")),
            }
        }
        wrong.extend(
            self.decide
                .iter()
                .filter_map(|entry| wrong_class(rules, found, entry)),
        );
        wrong.extend(
            self.verdict
                .and_then(|wanted| wrong_verdict(found.verdict, wanted)),
        );
        (outcomes, wrong)
    }
}

fn outcome_of(rules: &RuleSet, found: &Findings<'_>, id: &str) -> Option<Outcome> {
    let index = rules.all_rules().position(|rule| rule.id == id)?;
    let finding = found.rules.iter().find(|finding| finding.rule == index)?;
    Some(finding.outcome)
}

fn wrong_class(rules: &RuleSet, found: &Findings<'_>, entry: &Entry) -> Option<String> {
    let one = std::slice::from_ref(&entry.value);
    let wanted = entry.value.as_list().unwrap_or(one).iter();
    let wanted: BTreeSet<_> = wanted
        .map(|class| class.text().unwrap_or_default())
        .collect();
    let decided = found.decisions.iter().filter(|decided| {
        rules
            .decisions
            .get(decided.decision)
            .is_some_and(|decision| decision.id == entry.key)
    });
    let classes: BTreeSet<_> = decided
        .flat_map(|decided| {
            decided
                .classes
                .iter()
                .copied()
                .chain(decided.refer.then_some(REFER))
        })
        .collect();
    (classes != wanted).then(|| {
        let [classes, wanted] = [classes, wanted].map(|classes| either(&Vec::from_iter(classes)));
        format!("`{}` decides {classes}, not {wanted}.", entry.key)
    })
}

fn either(classes: &[&str]) -> String {
    match classes.is_empty() {
        true => "nothing".to_owned(),
        false => classes.join(" or "),
    }
}

fn wrong_verdict(verdict: Verdict, wanted: &str) -> Option<String> {
    let word = match verdict {
        Verdict::DoesNotComply => "does-not-comply",
        Verdict::NotDecided => "not-decided",
        Verdict::NothingAgainst | Verdict::NothingInTheseRules => "nothing-against",
    };
    (word != wanted).then(|| format!("The verdict is {word}, not {wanted}."))
}
