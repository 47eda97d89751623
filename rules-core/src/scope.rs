//! Who answers for each matter: a rule set in use, somebody who was asked, or nobody yet.

use crate::plan::{Answered, Plan};
use crate::ruleset::{RuleSet, language_of};
use crate::vocabulary::Matter;

/// Who answers for a matter, given a plan and the rule sets in use.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Standing<'a> {
    /// The matter.
    pub matter: Matter,
    /// The short names of the rule sets that cover it.
    pub held_by: Vec<&'a str>,
    /// The answer that the plan records from somebody who knows.
    pub answered: Option<&'a Answered>,
    /// Whom to ask, if no rule set covers it and nobody has answered.
    pub ask: Vec<Ask<'a>>,
}

impl Standing<'_> {
    /// Whether nobody answers for it.
    pub fn is_open(&self) -> bool {
        self.held_by.is_empty() && self.answered.is_none()
    }
}

/// Somebody to ask about a matter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ask<'a> {
    /// Who.
    pub who: &'a str,
    /// Why the rule set leaves it out.
    pub why: Option<&'a str>,
    /// The short name of the rule set that says so; `None` if none does and this is who usually knows.
    pub said_by: Option<&'a str>,
}

/// Who answers for each matter, in the order of the list.
pub fn standings<'a>(rule_sets: &[&'a RuleSet], plan: &'a Plan) -> Vec<Standing<'a>> {
    let matters = Matter::ALL.iter();
    matters
        .map(|matter| standing(*matter, rule_sets, plan))
        .collect()
}

fn standing<'a>(matter: Matter, rule_sets: &[&'a RuleSet], plan: &'a Plan) -> Standing<'a> {
    let holding = rule_sets
        .iter()
        .filter(|rules| rules.reach.holds.contains(&matter));
    let mut standing = Standing {
        matter,
        held_by: holding.map(|rules| rules.id.as_str()).collect(),
        answered: plan.answered.get(&matter),
        ask: Vec::new(),
    };
    if standing.is_open() {
        standing.ask = ask(matter, rule_sets);
    }
    standing
}

fn ask<'a>(matter: Matter, rule_sets: &[&'a RuleSet]) -> Vec<Ask<'a>> {
    let said = rule_sets.iter().filter_map(|rules| {
        let left = rules.reach.left_out(matter)?;
        Some(Ask {
            who: &left.ask,
            why: left.why.as_deref(),
            said_by: Some(&rules.id),
        })
    });
    let mut ask: Vec<Ask<'a>> = said.collect();
    if ask.is_empty() {
        ask.push(Ask {
            who: matter.who_in(language_of(rule_sets)),
            why: None,
            said_by: None,
        });
    }
    ask
}

/// The texts on what always applies on top of the rule sets in use, each with the short name of its rule set.
pub fn on_top<'a>(rule_sets: &[&'a RuleSet]) -> Vec<(&'a str, &'a str)> {
    let all = rule_sets.iter();
    all.flat_map(|rules| {
        let texts = rules.reach.on_top.iter();
        texts.map(|text| (rules.id.as_str(), text.as_str()))
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vocabulary::Vocabulary;
    use crate::{plan, ruleset};

    /// A rule set that covers one matter and leaves out all others.
    fn rules(id: &str, holds: Matter, rule: &str) -> RuleSet {
        let out = Matter::ALL.iter().filter(|matter| **matter != holds);
        let out =
            out.map(|matter| format!("    - {{matter: {}, ask: {id} office}}\n", matter.id()));
        let text = format!(
            "ruleset: {id}\ntitle: T\nedition: '1'\nauthority: a\nscope:\n  holds: {}\n  on-top: [What {id} adds.]\n  \
             leaves-out:\n{}rules:\n  - {{id: one, title: One, clause: s. 1, {rule}}}\n",
            holds.id(),
            out.collect::<String>()
        );
        let read = ruleset::read(&text, &|_| None, Vocabulary::standard());
        read.unwrap_or_else(|files| panic!("{files:?}")).rule_set
    }

    fn barrier() -> RuleSet {
        let rule = "each: gate, require: {fact: gate.self-closing, is: yes}";
        rules("fences", Matter::Barrier, rule)
    }

    fn lines() -> RuleSet {
        let rule = "require: {distance: {from: pool.water, to: lot-line}, at-least: 3 m}";
        rules("town", Matter::LotLines, rule)
    }

    fn plan_saying(answered: &str) -> Plan {
        let text = format!(
            "plan: p\ntitle: P\nunit: m\nlot: {{corners: {{a: [0, 0], b: [30, 0], c: [30, 30]}}}}\npool: {{id: pool, water: \
             [[5, 2], [9, 2], [9, 4]]}}\n{answered}"
        );
        plan::read(&text, &Vocabulary::standard()).unwrap_or_else(|faults| panic!("{faults:?}"))
    }

    fn of<'s>(all: &'s [Standing<'s>], matter: Matter) -> &'s Standing<'s> {
        all.iter().find(|one| one.matter == matter).expect("each")
    }

    #[test]
    fn each_matter_is_held_answered_or_open() {
        let (barrier, lines) = (barrier(), lines());
        let plan = plan_saying(
            "answered: {flood: {says: No flood area., by: the county, on: 2026-03-02}}\n",
        );
        let sets = [&barrier, &lines];
        let all = standings(&sets, &plan);
        assert_eq!(all.len(), Matter::ALL.len());
        assert_eq!(of(&all, Matter::Barrier).held_by, ["fences"]);
        assert_eq!(of(&all, Matter::LotLines).held_by, ["town"]);
        let flood = of(&all, Matter::Flood);
        let said = flood.answered.map(|answer| (answer.by.as_str(), answer.on));
        assert_eq!(
            (said, flood.is_open()),
            (Some(("the county", 20_514)), false)
        );
        let shore = of(&all, Matter::Shore);
        let who: Vec<_> = shore.ask.iter().map(|ask| (ask.who, ask.said_by)).collect();
        let both = [
            ("fences office", Some("fences")),
            ("town office", Some("town")),
        ];
        assert!(shore.is_open() && who == both, "{who:?}");
        let top = [("fences", "What fences adds."), ("town", "What town adds.")];
        assert_eq!(on_top(&sets), top);
    }

    #[test]
    fn without_other_advice_the_usual_office_is_asked() {
        let text = "ruleset: r\ntitle: T\nedition: '1'\nauthority: a\n";
        let read = ruleset::read(text, &|_| None, Vocabulary::standard());
        let (rules, plan) = (read.expect("clean").rule_set, plan_saying(""));
        let all = standings(&[&rules], &plan);
        assert!(all.iter().all(Standing::is_open));
        let usual = Ask {
            who: Matter::Flood.who(),
            why: None,
            said_by: None,
        };
        assert_eq!(of(&all, Matter::Flood).ask, [usual]);
    }
}
