//! The property itself, and what is counted beside it.

use std::sync::Arc;

use rules_core::check::{Findings, Level, Outcome, Truth, Verdict, check};
use rules_core::plan::Plan;
use rules_core::quantity::Interval;
use rules_core::ruleset::{Bound, Requirement, Rule, RuleSet, Value};

use super::blur::{self, Step};
use super::dump;
use super::evaluate::{self, Judgement};
use super::generate::{self, Style};
use super::random::Random;
use super::sample::Sampler;
pub use super::tally::Tally;
use super::words::Words;
use super::world::World;

/// A case in which the property does not hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Failure {
    /// Run this again.
    pub seed: u64,
    /// Which part of the property failed.
    pub what: String,
    /// The rule, the plan and the world.
    pub dump: String,
}

/// What a judgement or a set of them comes to, `holds` and `not applicable` being one class.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Classes(u8);

impl Classes {
    fn of(truth: Truth) -> Self {
        let fine = truth.may_be(Level::Holds) || truth.may_not_apply();
        let fails = truth.may_be(Level::Fails);
        let authority = truth.may_be(Level::Authority);
        Self(u8::from(fine) | u8::from(fails) << 1 | u8::from(authority) << 2)
    }

    fn of_one(judgement: Judgement) -> Self {
        Self(match judgement {
            Judgement::NotApplicable | Judgement::Applies(Level::Holds) => 1,
            Judgement::Applies(Level::Fails) => 2,
            Judgement::Applies(Level::Authority) => 4,
        })
    }

    fn within(self, other: Self) -> bool {
        self.0 & !other.0 == 0
    }

    fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    fn one(self) -> bool {
        self.0.count_ones() == 1
    }
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
}

/// Runs the case of a seed.
///
/// # Errors
/// The first part of the property that fails.
pub fn run(seed: u64, words: &Words, tally: &mut Tally) -> Result<(), Failure> {
    let mut random = Random::new(seed);
    let style = *random.pick(&[Style::OneLeaf, Style::Filtered, Style::Rich, Style::Rich]);
    let world = generate::world(&mut random, words, generate::DOCUMENTS);
    let rules = generate::rule_set(&mut random, words, &world, 2, style);
    let steps = random.below(12) + 1;
    let chain = blur::chain(&mut random, words, &world, steps);
    let mut case = Case {
        seed,
        random,
        words,
        world,
        rules,
        chain,
        tally,
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
const SEARCHES: usize = 40;

impl Case<'_> {
    /// The world is among what is possible at every step, and what is possible never grows on the way back to it.
    fn contained(&self) -> Result<(), Failure> {
        let mut before: Option<Vec<Truth>> = None;
        for (number, step) in self.chain.iter().enumerate() {
            let findings = check(&step.plan, &self.rules).expect("not too much work");
            self.holds_world(&step.plan, &findings, &self.world)?;
            let truths = truths(&findings);
            for (place, vaguer) in truths.iter().enumerate() {
                let Some(surer) = before.as_ref().map(|before| before[place]) else {
                    continue;
                };
                if !Classes::of(surer).within(Classes::of(*vaguer)) {
                    let done = &step.done;
                    let what = format!(
                        "not isotone at step {number} ({done}): {surer:?} is not within {vaguer:?}"
                    );
                    let surer = &self.chain[number - 1].plan;
                    return Err(self.failure(what, place, (surer, &step.plan), &self.world));
                }
            }
            before = Some(truths);
        }
        Ok(())
    }

    /// Every rule's judgement in a world is possible, and the verdict on the whole does not contradict it.
    fn holds_world(
        &self,
        plan: &Plan,
        findings: &Findings<'_>,
        world: &World,
    ) -> Result<(), Failure> {
        let mut all = Vec::new();
        for (place, rule) in self.rules.rules.iter().enumerate() {
            let Ok((judgement, _)) = evaluate::judge(world, &self.rules, rule) else {
                continue;
            };
            all.push(judgement);
            let truth = findings.rules[place].truth;
            if !Classes::of_one(judgement).within(Classes::of(truth)) {
                let what = format!("{judgement:?} is not among {truth:?}");
                return Err(self.failure(what, place, (plan, plan), world));
            }
        }
        let worst = all
            .iter()
            .min()
            .copied()
            .filter(|_| all.len() == self.rules.rules.len());
        let against = match (findings.verdict, worst) {
            (Verdict::DoesNotComply, Some(worst)) => worst != Judgement::Applies(Level::Fails),
            (Verdict::NothingAgainst, Some(worst)) => worst < Judgement::Applies(Level::Holds),
            _ => false,
        };
        match against {
            true => {
                let what = format!("{:?}, but a world comes to {all:?}", findings.verdict);
                Err(self.failure(what, usize::MAX, (plan, plan), world))
            }
            false => Ok(()),
        }
    }

    /// A plan that states the world exactly leaves nothing open.
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
        let findings = check(plan, &self.rules).expect("not too much work");
        for (place, rule) in self.rules.rules.iter().enumerate() {
            let Ok((_, false)) = evaluate::judge(&self.world, &self.rules, rule) else {
                continue;
            };
            let truth = findings.rules[place].truth;
            if !Classes::of(truth).one() {
                let what = format!("the exact plan leaves {truth:?} open");
                return Err(self.failure(what, place, (plan, plan), &self.world));
            }
            let outcome = findings.rules[place].outcome;
            if Outcome::decided(truth) != Some(outcome) {
                let what = format!("{truth:?} is reported as {outcome:?}");
                return Err(self.failure(what, place, (plan, plan), &self.world));
            }
        }
        Ok(())
    }

    fn count_decided(&mut self) {
        for step in &self.chain[1..] {
            for finding in check(&step.plan, &self.rules).expect("not too much work").rules {
                self.tally.blurred += 1;
                self.tally.decided += u64::from(Classes::of(finding.truth).one());
            }
        }
    }

    fn vaguest(&self) -> &Plan {
        &self.chain[self.chain.len() - 1].plan
    }

    /// Other worlds of the vaguest plan are among what is possible too.
    fn sampled(&mut self) -> Result<(), Failure> {
        let plan = self.vaguest().clone();
        let mut sampler = Sampler::new(
            &mut self.random,
            self.words,
            (&plan, &self.world),
            &self.rules,
        );
        let worlds: Vec<World> = (0..SAMPLES).map(|_| sampler.world()).collect();
        let findings = check(&plan, &self.rules).expect("not too much work");
        for world in worlds {
            self.tally.compared += findings.rules.len() as u64;
            self.holds_world(&plan, &findings, &world)?;
        }
        Ok(())
    }

    /// Counts for how many open findings worlds of both judgements can be found.
    fn tightness(&mut self, plain: bool) {
        let plan = self.vaguest().clone();
        let findings = check(&plan, &self.rules).expect("not too much work");
        for (rule, finding) in self.rules.rules.iter().zip(&findings.rules) {
            let classes = Classes::of(finding.truth);
            // A word that the second evaluator does not know says nothing of the checker.
            let Ok((judgement, _)) = evaluate::judge(&self.world, &self.rules, rule) else {
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
                match evaluate::judge(&sampler.world(), &self.rules, rule) {
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

    /// Puts a limit at the very edge of what was measured, and everything must still hold.
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
        let findings = check(plan, &self.rules).expect("not too much work");
        let readings: Vec<Interval> = findings.rules[place]
            .parts
            .iter()
            .flat_map(|part| &part.readings)
            .filter(|reading| {
                matches!(
                    reading.bound(),
                    Bound::AtLeast(Value::Stated(_))
                        | Bound::AtMost(Value::Stated(_))
                        | Bound::MoreThan(Value::Stated(_))
                        | Bound::LessThan(Value::Stated(_))
                )
            })
            .filter_map(|reading| reading.measured)
            .collect();
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

/// What is possible for each rule.
fn truths(findings: &Findings<'_>) -> Vec<Truth> {
    findings.rules.iter().map(|finding| finding.truth).collect()
}

/// Puts another limit to a rule of one test, where it states one.
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
