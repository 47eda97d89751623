//! Judging the plan by some of its rules, with the pool in one place or anywhere in a cell.

use std::collections::BTreeMap;

use super::pose::Pose;
use super::spot::{Spot, Way};
use crate::check::{Finding, Governed, Outcome, TooMuch, governed};
use crate::plan::{Plan, ThingIndex};
use crate::ruleset::{Rule, RuleSet, Strength};
use crate::work;

/// Some of the binding rules, as sorted indices into [`Judging::ids`].
pub(super) type Asked = Vec<usize>;

/// Which worlds the plan is judged in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum View {
    /// In all that the plan leaves possible.
    Possible,
    /// In the one where everything is exactly as drawn.
    Drawn,
}

/// Judges the plan with the pool turned one way.
pub(super) struct Judging<'r> {
    rules: &'r RuleSet,
    /// The ids of the binding rules.
    ids: Vec<String>,
    possible: Pose,
    drawn: Pose,
    /// The rule set cut down to each list of rules that was asked for.
    subsets: BTreeMap<Asked, RuleSet>,
    /// How many steps have been taken.
    steps: u64,
}

impl<'r> Judging<'r> {
    pub fn new(plan: &Plan, moving: &[ThingIndex], rules: &'r RuleSet) -> Result<Self, TooMuch> {
        let ids = binding(&governed(plan, rules)?);
        Ok(Judging {
            rules,
            ids,
            possible: Pose::movable(plan, moving),
            drawn: Pose::exact(plan, moving),
            subsets: BTreeMap::new(),
            steps: 0,
        })
    }

    /// All binding rules.
    pub fn all(&self) -> Asked {
        (0..self.ids.len()).collect()
    }

    /// The rule set that the plan is judged by.
    pub fn rules(&self) -> &'r RuleSet {
        self.rules
    }

    /// The title of a binding rule.
    pub fn title(&self, rule: usize) -> String {
        let id = self.id(rule);
        let editions = std::iter::successors(Some(self.rules), |it| it.earlier.as_deref());
        let mut rules = editions.flat_map(RuleSet::all_rules);
        let found = rules.find(|rule| rule.id == id);
        found.map(|rule| rule.title.clone()).unwrap_or_default()
    }

    /// The id of a binding rule.
    pub fn id(&self, rule: usize) -> &str {
        self.ids.get(rule).map_or("", String::as_str)
    }

    pub fn steps(&self) -> u64 {
        self.steps
    }

    /// The findings of these rules, in their order, with the pool anywhere in a cell; none where judging takes too long.
    pub fn find(&mut self, view: View, spot: Spot, asked: &Asked) -> Vec<(usize, Finding)> {
        self.find_near(view, (spot.middle(), spot.reach()), asked)
    }

    /// The same with the pool no more than `reach` nanometres from where a way takes it.
    fn find_near(
        &mut self,
        view: View,
        (way, reach): (Way, i64),
        asked: &Asked,
    ) -> Vec<(usize, Finding)> {
        let subset = self.subsets.entry(asked.clone());
        let subset = subset.or_insert_with(|| {
            let wanted: Vec<&str> = asked
                .iter()
                .filter_map(|at| self.ids.get(*at))
                .map(String::as_str)
                .collect();
            only(self.rules, &wanted)
        });
        let pose = match view {
            View::Possible => &mut self.possible,
            View::Drawn => &mut self.drawn,
        };
        let plan = pose.put(way, reach);
        let (found, steps) = work::counted(|| governed(plan, subset));
        self.steps = self.steps.saturating_add(steps);
        let found = found.map(|found| by_rule(found, &self.ids));
        found.unwrap_or_default()
    }

    /// The rules that do not hold all over a cell.
    pub fn left(&mut self, view: View, spot: Spot, asked: &Asked) -> Left {
        self.left_near(view, (spot.middle(), spot.reach()), asked)
    }

    /// The same with the pool no more than a number of nanometres from where a way takes it.
    pub fn left_near(&mut self, view: View, at: (Way, i64), asked: &Asked) -> Left {
        if asked.is_empty() {
            return Left::default();
        }
        let found = self.find_near(view, at, asked);
        let outcome = |rule: &usize| {
            let finding = found.iter().find(|(at, _)| at == rule);
            finding.map(|(_, finding)| finding.outcome)
        };
        let of = |wanted: &dyn Fn(Option<Outcome>) -> bool| -> Asked {
            asked
                .iter()
                .filter(|rule| wanted(outcome(rule)))
                .copied()
                .collect()
        };
        Left {
            fail: of(&|outcome| outcome == Some(Outcome::Fail)),
            open: of(&|outcome| {
                !outcome.is_some_and(|outcome| holds(outcome) || outcome == Outcome::Fail)
            }),
        }
    }
}

/// The rules that do not hold.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Left {
    /// Those that surely fail.
    pub fail: Asked,
    /// Those that neither surely hold nor surely fail.
    pub open: Asked,
}

/// Whether a rule has nothing against the pool.
pub(super) fn holds(outcome: Outcome) -> bool {
    matches!(outcome, Outcome::Pass | Outcome::NotApplicable)
}

fn binds(rule: &Rule) -> bool {
    rule.strength == Strength::Must
}

fn binding(governed: &Governed<'_>) -> Vec<String> {
    let rules = governed.rules.all_rules().filter(|rule| binds(rule));
    rules.map(|rule| rule.id.clone()).collect()
}

fn by_rule(found: Governed<'_>, ids: &[String]) -> Vec<(usize, Finding)> {
    let rules: Vec<&Rule> = found.rules.all_rules().collect();
    let place = |finding: &Finding| {
        let id = &rules.get(finding.rule)?.id;
        ids.iter().position(|known| known == id)
    };
    let findings = found.findings.rules.into_iter();
    findings
        .filter_map(|finding| Some((place(&finding)?, finding)))
        .collect()
}

/// A rule set with only these rules, and without anything that is merely reported with them.
fn only(rules: &RuleSet, wanted: &[&str]) -> RuleSet {
    let some = |all: &[Rule]| -> Vec<Rule> {
        let wanted = |rule: &&Rule| binds(rule) && wanted.contains(&rule.id.as_str());
        all.iter().filter(wanted).cloned().collect()
    };
    RuleSet {
        rules: some(&rules.rules),
        built_in: some(&rules.built_in),
        earlier: rules
            .earlier
            .as_ref()
            .map(|earlier| Box::new(only(earlier, wanted))),
        decisions: Vec::new(),
        duties: Vec::new(),
        cautions: Vec::new(),
        ..rules.clone()
    }
}
