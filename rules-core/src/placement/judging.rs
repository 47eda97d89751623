//! Judging the plan by some of its rules, with the pool in one place or anywhere in a cell.

use std::collections::BTreeMap;

use super::distances::Distances;
use super::papers::{Given, Paper, documents, papers};
use super::pause::{NEVER, Pause};
use super::pose::Pose;
use super::spot::{Spot, Way};
use crate::check::{Finding, Governed, Outcome, TooMuch, governed};
use crate::plan::{Papers, Plan, ThingIndex};
use crate::ruleset::{Rule, RuleSet, Strength};
use crate::work;

/// Some of the binding rules, as sorted indices into [`Judging::ids`].
pub(super) type Asked = Vec<usize>;

/// Which worlds the plan is judged in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum View {
    /// In all that the plan leaves possible.
    Possible,
    /// In the one where everything is exactly as drawn.
    Drawn,
}

/// The most lists of rules to keep a rule set for.
const MOST_SUBSETS: usize = 200;

/// In cells larger than this, in millimetres, not every rule is judged if they can still be cut.
const LARGE: i64 = 800;

/// What an outcome is remembered by: the worlds, the cell, the rule, and which of the papers that it reads are in hand.
type Known = (View, Spot, usize, Given);

/// Where a rule is judged that comes out the same everywhere.
const ANYWHERE: Spot = Spot {
    low: Way { x: 0, y: 0 },
    size: 0,
};

/// Judges the plan with the pool turned one way.
pub(super) struct Judging<'r> {
    rules: &'r RuleSet,
    /// The ids of the binding rules.
    ids: Vec<String>,
    possible: Pose,
    drawn: Pose,
    /// The documents as the plan states them.
    stated: BTreeMap<String, Papers>,
    /// The papers that are not in hand and that a binding rule reads.
    papers: Vec<Paper>,
    /// Which of these are taken to be in hand.
    given: Given,
    /// The rule set cut down to each list of rules that was asked for.
    subsets: BTreeMap<Asked, RuleSet>,
    /// Each rule's outcome all over each cell that was asked about.
    known: BTreeMap<Known, Outcome>,
    /// What is known of the rules that turn on a distance.
    distances: Distances<'r>,
    /// For each rule that was judged by itself, how many steps that took in all, and how often it was.
    costs: BTreeMap<usize, (u64, u64)>,
    /// In cells larger than this, in millimetres, not every rule is judged: they can still be cut.
    large: i64,
    /// How many steps have been taken.
    steps: u64,
    /// Whether to wait between two pieces of a search.
    pause: Pause<'r>,
}

impl<'r> Judging<'r> {
    pub fn new(plan: &Plan, moving: &[ThingIndex], rules: &'r RuleSet) -> Result<Self, TooMuch> {
        let found = governed(plan, rules)?;
        let ids = binding(&found);
        Ok(Judging {
            rules,
            papers: papers((rules, &found), &ids),
            stated: plan.documents.clone(),
            given: Given::AsStated,
            known: BTreeMap::new(),
            distances: Distances::new(plan, moving, rules, &ids),
            ids,
            possible: Pose::movable(plan, moving),
            drawn: Pose::exact(plan, moving),
            subsets: BTreeMap::new(),
            costs: BTreeMap::new(),
            large: LARGE,
            steps: 0,
            pause: NEVER,
        })
    }

    /// Judges every rule in cells of this size, in millimetres, because they are cut no further.
    pub fn cut_down_to(&mut self, finest: i64) {
        self.large = self.large.max(finest);
    }

    /// Of some rules, those that depend on a distance; all of them if none does.
    pub fn of_distance(&self, rules: Asked) -> Asked {
        let turns = |rule: &&usize| self.distances.follows(**rule);
        let some: Asked = rules.iter().filter(turns).copied().collect();
        if some.is_empty() { rules } else { some }
    }

    /// From now on, waits whenever `pause` asks for it.
    pub fn pause_by(&mut self, pause: Pause<'r>) {
        self.pause = pause;
    }

    /// Lets the caller's other work run, if it is time. Every search calls this before each piece.
    pub async fn rest(&self) {
        if let Some(wait) = (self.pause)() {
            wait.await;
        }
    }

    /// All binding rules.
    pub fn all(&self) -> Asked {
        (0..self.ids.len()).collect()
    }

    /// The rule set that the plan is judged by.
    pub fn rules(&self) -> &'r RuleSet {
        self.rules
    }

    /// The plan as if everything were exactly as drawn, with the pool moved.
    pub fn drawn_plan(&mut self, way: Way) -> &Plan {
        self.drawn.put(way, 0)
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
        if self.subsets.len() > MOST_SUBSETS {
            self.subsets.clear();
        }
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
        if let [rule] = asked.as_slice() {
            let (taken, times) = self.costs.entry(*rule).or_default();
            *taken = taken.saturating_add(steps);
            *times = times.saturating_add(1);
        }
        let found = found.map(|found| by_rule(found, &self.ids));
        let found = found.unwrap_or_default();
        for (rule, finding) in &found {
            let key = (view, *rule, self.given.read_by(*rule, &self.papers));
            self.distances.learn(key, (way, reach), finding, plan);
        }
        found
    }

    /// A rule's outcome near a place, as far as that is known without asking the checker.
    pub fn outcome_known(&mut self, view: View, at: (Way, i64), rule: usize) -> Option<Outcome> {
        let given = self.given.read_by(rule, &self.papers);
        if self.distances.is_same_everywhere(rule) {
            return self.known.get(&(view, ANYWHERE, rule, given)).copied();
        }
        self.distances.outcome((view, rule, given), at)
    }

    /// The rules that every rule set has.
    pub fn built_in(&self) -> Asked {
        let is_built_in = |rule: &usize| {
            let mut built_in = self.rules.built_in.iter();
            built_in.any(|it| it.id == self.id(*rule))
        };
        self.all().into_iter().filter(is_built_in).collect()
    }

    /// The papers that are not in hand and that a binding rule reads.
    pub fn papers(&self) -> &[Paper] {
        &self.papers
    }

    /// Forgets the papers that none of these rules reads.
    pub fn keep_papers(&mut self, rules: &Asked) {
        self.papers.retain(|paper| paper.is_read_by(rules));
        self.papers.truncate(Given::MOST);
    }

    /// From now on, takes these papers to be in hand.
    pub fn give(&mut self, given: Given) {
        self.given = given;
        let documents = documents(&self.stated, &self.papers, given);
        for pose in [&mut self.possible, &mut self.drawn] {
            pose.set_documents(documents.clone());
        }
    }

    /// Each rule's outcome all over a cell. In a large cell that is open under one rule anyway, others may count as unknown.
    pub fn outcomes(&mut self, view: View, spot: Spot, asked: &Asked) -> Vec<Outcome> {
        let outcomes = asked.iter().map(|rule| self.recalled(view, spot, *rule));
        let outcomes: Vec<Option<Outcome>> = outcomes.collect();
        let known = || outcomes.iter().flatten();
        let is_cut = known().any(|it| !holds(*it)) && !known().any(|it| *it == Outcome::Fail);
        let unknown = asked.iter().zip(&outcomes);
        let unknown = unknown.filter(|(_, outcome)| outcome.is_none());
        let unknown = unknown.map(|(rule, _)| *rule);
        let unknown: Asked = unknown
            .filter(|rule| !(is_cut && self.can_wait(spot, *rule)))
            .collect();
        let found = match unknown.is_empty() {
            true => Vec::new(),
            false => self.find(view, spot, &unknown),
        };
        for rule in unknown {
            let key = self.key(view, spot, rule);
            self.known.insert(key, outcome_of(&found, rule));
        }
        let each = asked.iter().zip(outcomes);
        each.map(|(rule, outcome)| outcome.unwrap_or_else(|| outcome_of(&found, *rule)))
            .collect()
    }

    /// Whether a rule need not be judged in a cell that is cut anyway: the larger the cell, the longer that takes, and the
    /// less comes out. What turns on a distance is judged all the same, because that is remembered.
    fn can_wait(&self, spot: Spot, rule: usize) -> bool {
        let remembered = self.distances.follows(rule) || self.distances.is_same_everywhere(rule);
        spot.size > self.large && !remembered
    }

    fn key(&self, view: View, spot: Spot, rule: usize) -> Known {
        let spot = match self.distances.is_same_everywhere(rule) {
            true => ANYWHERE,
            false => spot,
        };
        (view, spot, rule, self.given.read_by(rule, &self.papers))
    }

    /// How many steps it takes to judge a rule by itself, on average so far.
    fn cost(&self, rule: usize) -> u64 {
        let (steps, times) = self.costs.get(&rule).copied().unwrap_or_default();
        steps.checked_div(times).unwrap_or(0)
    }

    /// A rule's outcome all over a cell, where the checker need not be asked.
    fn recalled(&mut self, view: View, spot: Spot, rule: usize) -> Option<Outcome> {
        let by_distance = self.outcome_known(view, (spot.middle(), spot.reach()), rule);
        by_distance.or_else(|| self.known.get(&self.key(view, spot, rule)).copied())
    }

    /// A rule's outcome all over a cell.
    pub fn outcome(&mut self, view: View, spot: Spot, rule: usize) -> Outcome {
        let outcomes = self.outcomes(view, spot, &vec![rule]);
        outcomes.first().copied().unwrap_or(Outcome::Unknown)
    }

    /// The rules that do not hold all over a cell; `None` where one of them fails all over it. The checker is asked last,
    /// and rule by rule, the quickest first, so that the first to fail ends it.
    pub fn open_in(&mut self, view: View, spot: Spot, rules: &Asked) -> Option<Asked> {
        let (mut open, mut unknown) = (Asked::new(), Asked::new());
        for rule in rules {
            match self.recalled(view, spot, *rule) {
                Some(Outcome::Fail) => return None,
                Some(outcome) if holds(outcome) => {}
                Some(_) => open.push(*rule),
                None => unknown.push(*rule),
            }
        }
        if !open.is_empty() {
            open.extend(unknown.extract_if(.., |rule| self.can_wait(spot, *rule)));
        }
        unknown.sort_by_key(|rule| self.cost(*rule));
        for rule in unknown {
            match self.outcome(view, spot, rule) {
                Outcome::Fail => return None,
                outcome if holds(outcome) => {}
                _ => open.push(rule),
            }
        }
        open.sort_unstable();
        Some(open)
    }

    /// The rules that do not hold all over a cell.
    pub fn left(&mut self, view: View, spot: Spot, asked: &Asked) -> Left {
        let outcomes = self.outcomes(view, spot, asked);
        Left::of(asked.iter().copied().zip(outcomes))
    }

    /// The same with the pool no more than a number of nanometres from where a way takes it.
    pub fn left_near(&mut self, view: View, at: (Way, i64), asked: &Asked) -> Left {
        let known = asked.iter().map(|rule| self.outcome_known(view, at, *rule));
        let known: Vec<Option<Outcome>> = known.collect();
        let each = asked.iter().zip(&known);
        let unknown = each.clone().filter(|(_, outcome)| outcome.is_none());
        let unknown: Asked = unknown.map(|(rule, _)| *rule).collect();
        let found = match unknown.is_empty() {
            true => Vec::new(),
            false => self.find_near(view, at, &unknown),
        };
        let outcome = |(rule, known): (&usize, &Option<Outcome>)| {
            (*rule, known.unwrap_or_else(|| outcome_of(&found, *rule)))
        };
        Left::of(each.map(outcome))
    }
}

/// A rule's outcome; unknown where judging it takes too long.
fn outcome_of(found: &[(usize, Finding)], rule: usize) -> Outcome {
    let finding = found.iter().find(|(at, _)| *at == rule);
    finding.map_or(Outcome::Unknown, |(_, finding)| finding.outcome)
}

/// The rules that do not hold.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Left {
    /// Those that surely fail.
    pub fail: Asked,
    /// Those that neither surely hold nor surely fail.
    pub open: Asked,
}

impl Left {
    fn of(outcomes: impl Iterator<Item = (usize, Outcome)>) -> Left {
        let mut left = Left::default();
        for (rule, outcome) in outcomes.filter(|(_, outcome)| !holds(*outcome)) {
            match outcome {
                Outcome::Fail => left.fail.push(rule),
                _ => left.open.push(rule),
            }
        }
        left
    }
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
