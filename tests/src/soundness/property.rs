//! The soundness property, and the counts kept along with it.

use std::sync::Arc;

use rules_core::check::{Findings, Outcome, Truth};
use rules_core::plan::Plan;
use rules_core::quantity::Interval;
use rules_core::ruleset::{Bound, Requirement, Rule, RuleSet, Value};

use super::agrees::{Beside, contains};
use super::blur::{self, Step};
use super::classes::Classes;
use super::dump;
use super::evaluate::{self, Evaluator};
use super::fault::{self, Fault};
use super::generate::{self, Style};
use super::random::Random;
use super::sample::Sampler;
pub use super::tally::Tally;
use super::words::Words;
use super::world::World;

/// A case in which the property does not hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Failure {
    /// The seed, to run it again.
    pub seed: u64,
    /// Which part of the property failed.
    pub what: String,
    /// The rule, the plan and the world.
    pub dump: String,
}

/// One case under way.
struct Case<'a> {
    seed: u64,
    random: Random,
    words: &'a Words,
    world: World,
    rules: RuleSet,
    chain: Vec<Step>,
    tally: &'a mut Tally,
    fault: Option<Fault>,
}

/// Runs the case of a seed.
///
/// # Errors
/// The first part of the property that fails.
pub fn run(seed: u64, words: &Words, tally: &mut Tally) -> Result<(), Failure> {
    run_with(seed, words, tally, None)
}

/// The same, with a checker that has a fault.
///
/// # Errors
/// The first part of the property that fails.
pub fn run_with(
    seed: u64,
    words: &Words,
    tally: &mut Tally,
    fault: Option<Fault>,
) -> Result<(), Failure> {
    let mut random = Random::new(seed);
    let style = *random.pick(&[Style::OneLeaf, Style::Filtered, Style::Rich, Style::Rich]);
    let world = generate::world(&mut random, words);
    let rules = generate::rule_set(&mut random, words, &world, 2, style);
    let steps = random.below(12) + 1;
    let told = fault::told(fault, &world);
    let chain = blur::chain(&mut random, words, (&told, &rules), steps);
    let mut case = Case {
        seed,
        random,
        words,
        world,
        rules,
        chain,
        tally,
        fault,
    };
    case.tally.cases += 1;
    case.contained()?;
    case.exactly_decided()?;
    case.count_decided();
    case.sampled()?;
    if style != Style::Rich {
        case.tightness(style == Style::OneLeaf);
        case.at_the_edges()?;
    }
    Ok(())
}

/// Worlds tried for each plan, and for each open finding whose tightness is counted.
const SAMPLES: usize = 6;
const SEARCHES: usize = 60;
/// Worlds tried where a vaguer plan has fewer outcomes.
const TRIED_AGAIN: usize = 2_000;

impl Case<'_> {
    /// The findings on a plan.
    fn found<T>(&self, plan: &Plan, act: impl FnOnce(&Findings<'_>) -> T) -> T {
        fault::found(self.fault, plan, &self.rules, act)
    }

    /// Checks that the world's judgement is possible at every step, and that a vaguer plan never has fewer possible
    /// outcomes.
    fn contained(&mut self) -> Result<(), Failure> {
        let mut before: Option<Vec<Truth>> = None;
        for (number, step) in self.chain.iter().enumerate() {
            let truths = self.found(&step.plan, |findings| {
                self.holds_world(&step.plan, findings, &self.world)
                    .map(|()| truths(findings))
            })?;
            for (place, vaguer) in truths.iter().enumerate() {
                let Some(surer) = before.as_ref().map(|before| before[place]) else {
                    continue;
                };
                // The pool's outlines are the owner's design: once one is no longer drawn, nothing is asked of it.
                let design = place >= self.rules.rules.len() && step.done.contains("outline");
                if !design && !Classes::of(surer).within(Classes::of(*vaguer)) {
                    let done = &step.done;
                    let what = format!(
                        "not isotone at step {number} ({done}): {surer:?} is not within {vaguer:?}"
                    );
                    return Err(self.not_isotone(what, place, (number, *vaguer)));
                }
            }
            before = Some(truths);
        }
        Ok(())
    }

    /// The failure where a vaguer plan has fewer outcomes than the one before it. Either the vaguer one is wrong, and then
    /// some world of the surer plan shows it, or only the surer one says less than it could.
    fn not_isotone(
        &mut self,
        what: String,
        place: usize,
        (step, vaguer): (usize, Truth),
    ) -> Failure {
        let (surer, home) = (&self.chain[step - 1].plan, &self.world);
        let mut sampler = Sampler::new(&mut self.random, self.words, (surer, home), &self.rules);
        let worlds: Vec<World> = (0..TRIED_AGAIN).map(|_| sampler.world()).collect();
        let rule = self.rules.all_rules().nth(place);
        let is_lost = |world: &&World| {
            let judged = rule.map(|rule| self.evaluator(world).judge(rule));
            matches!(judged, Some(Ok((judgement, _))) if !contains(vaguer, judgement))
        };
        let lost = worlds.iter().find(is_lost);
        let what = match lost {
            Some(_) => format!("{what}, and a world of the surer plan comes to what is lost"),
            None => format!("{what}; no world of {TRIED_AGAIN} comes to what is lost"),
        };
        let plans = (surer, &self.chain[step].plan);
        self.failure(what, place, plans, lost.unwrap_or(&self.world))
    }

    /// Checks that the findings on a plan agree with a world of it.
    fn holds_world(
        &self,
        plan: &Plan,
        findings: &Findings<'_>,
        world: &World,
    ) -> Result<(), Failure> {
        let beside = Beside {
            plan,
            rules: &self.rules,
            findings,
            world,
        };
        beside.all().map_err(|found| {
            let place = found.rule.unwrap_or(usize::MAX);
            self.failure(found.what, place, (plan, plan), world)
        })
    }

    /// Checks that a plan stating the world exactly leaves nothing open.
    fn exactly_decided(&self) -> Result<(), Failure> {
        // A derived outline is rounded to the nanometre, and its accuracy says so.
        if self
            .world
            .things
            .iter()
            .any(|thing| thing.wider_by.is_some())
        {
            return Ok(());
        }
        let plan = &self.chain[0].plan;
        let found = self.found(plan, |findings| {
            let rules = findings.rules.iter();
            rules.map(|it| (it.truth, it.outcome)).collect::<Vec<_>>()
        });
        for (place, rule) in self.rules.rules.iter().enumerate() {
            let Ok((_, false)) = self.evaluator(&self.world).judge(rule) else {
                continue;
            };
            // For a fact that changes along a thing, a plan states only the least and the greatest, not what lies
            // between.
            if evaluate::changes_along(&self.world, rule) {
                continue;
            }
            let (truth, outcome) = found[place];
            let what = match Classes::of(truth).one() {
                false => format!("the exact plan leaves {truth:?} open"),
                true if Outcome::decided(truth) != Some(outcome) => {
                    format!("{truth:?} is reported as {outcome:?}")
                }
                true => continue,
            };
            return Err(self.failure(what, place, (plan, plan), &self.world));
        }
        Ok(())
    }

    fn count_decided(&mut self) {
        for step in &self.chain[1..] {
            let found = self.found(&step.plan, truths);
            for truth in found.iter().take(self.rules.rules.len()) {
                self.tally.blurred += 1;
                self.tally.decided += u64::from(Classes::of(*truth).one());
            }
        }
    }

    fn evaluator<'a>(&'a self, world: &'a World) -> Evaluator<'a> {
        Evaluator {
            world,
            rules: &self.rules,
            plan: None,
        }
    }

    fn vaguest(&self) -> &Plan {
        &self.chain[self.chain.len() - 1].plan
    }

    /// Checks that other worlds of the vaguest plan are possible, too.
    fn sampled(&mut self) -> Result<(), Failure> {
        let plan = self.vaguest().clone();
        let mut sampler = Sampler::new(
            &mut self.random,
            self.words,
            (&plan, &self.world),
            &self.rules,
        );
        let worlds: Vec<World> = (0..SAMPLES).map(|_| sampler.world()).collect();
        self.tally.compared += (worlds.len() * self.rules.rules.len()) as u64;
        self.found(&plan, |findings| {
            let mut worlds = worlds.iter();
            worlds.try_for_each(|world| self.holds_world(&plan, findings, world))
        })
    }

    /// Counts the open findings that have worlds of both judgements.
    fn tightness(&mut self, plain: bool) {
        let plan = self.vaguest().clone();
        let found = self.found(&plan, truths);
        for (rule, truth) in self.rules.rules.iter().zip(found) {
            let classes = Classes::of(truth);
            // A word that the second evaluator does not know proves nothing about the checker.
            let Ok((judgement, _)) = self.evaluator(&self.world).judge(rule) else {
                continue;
            };
            if classes.one() {
                continue;
            }
            let mut found = Classes::of_one(judgement);
            let mut sampler = Sampler::new(
                &mut self.random,
                self.words,
                (&plan, &self.world),
                &self.rules,
            );
            for _ in 0..SEARCHES {
                if found == classes {
                    break;
                }
                let evaluator = Evaluator {
                    world: &sampler.world(),
                    rules: &self.rules,
                    plan: None,
                };
                match evaluator.judge(rule) {
                    Ok((judgement, _)) => found = found.and(Classes::of_one(judgement)),
                    Err(_) => self.tally.ties += 1,
                }
            }
            let both = u64::from(found == classes);
            let (open, found) = match plain {
                true => (&mut self.tally.open, &mut self.tally.both),
                false => (&mut self.tally.open_filtered, &mut self.tally.both_filtered),
            };
            *open += 1;
            *found += both;
        }
    }

    /// Puts a limit at the very edge of what was measured, and checks that everything still holds.
    fn at_the_edges(&mut self) -> Result<(), Failure> {
        let plan = self.vaguest().clone();
        for place in 0..self.rules.rules.len() {
            let Some(range) = self.measured(&plan, place) else {
                continue;
            };
            for _ in 0..2 {
                let end = *self.random.pick(&[range.low, range.high]);
                if end == i128::MIN || end == i128::MAX {
                    continue;
                }
                let limit = end + self.random.wide(-1, 1);
                set_limit(&mut self.rules.rules[place], limit);
                self.tally.edges += 1;
                self.contained()?;
                self.sampled()?;
            }
        }
        Ok(())
    }

    fn measured(&mut self, plan: &Plan, place: usize) -> Option<Interval> {
        let readings: Vec<Interval> = self.found(plan, |findings| {
            let parts = findings.rules[place].parts.iter();
            parts
                .flat_map(|part| &part.readings)
                .filter(|reading| has_stated_limit(reading.bound()))
                .filter_map(|reading| reading.measured)
                .collect()
        });
        (!readings.is_empty()).then(|| *self.random.pick(&readings))
    }

    fn failure(
        &self,
        what: String,
        place: usize,
        (surer, vaguer): (&Plan, &Plan),
        world: &World,
    ) -> Failure {
        let words = &self.words.vocabulary;
        let mut dump = String::new();
        for (number, rule) in self.rules.rules.iter().enumerate() {
            if number == place || place >= self.rules.rules.len() {
                dump += &format!("{}\n", dump::rule(words, rule));
            }
        }
        if place >= self.rules.rules.len() {
            dump += &dump::papers(words, &self.rules);
        }
        dump += &format!("--- world\n{}", dump::world(words, world));
        dump += &format!("--- plan\n{}", dump::plan(words, vaguer));
        if !std::ptr::eq(surer, vaguer) {
            dump += &format!("--- the surer plan\n{}", dump::plan(words, surer));
        }
        Failure {
            seed: self.seed,
            what,
            dump,
        }
    }
}

fn has_stated_limit(bound: &Bound) -> bool {
    matches!(
        bound,
        Bound::AtLeast(Value::Stated(_))
            | Bound::AtMost(Value::Stated(_))
            | Bound::MoreThan(Value::Stated(_))
            | Bound::LessThan(Value::Stated(_))
    )
}

/// What is possible for each rule.
fn truths(findings: &Findings<'_>) -> Vec<Truth> {
    findings.rules.iter().map(|finding| finding.truth).collect()
}

/// Replaces the limit of a rule of one test, if it states one.
fn set_limit(rule: &mut Rule, amount: i128) {
    let Requirement::Test(test) = &mut rule.require else {
        return;
    };
    let test = Arc::make_mut(test);
    let Some(
        Bound::AtLeast(limit)
        | Bound::AtMost(limit)
        | Bound::MoreThan(limit)
        | Bound::LessThan(limit),
    ) = test.bounds.first_mut()
    else {
        return;
    };
    if let Value::Stated(stated) = limit {
        stated.range = Interval {
            low: amount,
            high: amount,
        };
    }
}
