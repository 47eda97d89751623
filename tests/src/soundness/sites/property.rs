//! The soundness property for cases of this family.

use rules_core::check::{Findings, Level, Truth, Verdict};
use rules_core::plan::Plan;
use rules_core::quantity::Interval;
use rules_core::ruleset::RuleSet;

use super::asked::{Asked, Library};
use super::blur::{self, Step};
use super::sample::{self, Moves};
use super::site::Site;
use super::{Topic, lines, topic};
use crate::read;
use crate::soundness::classes::Classes;
use crate::soundness::evaluate::Judgement;
use crate::soundness::fault::{self, Fault};
use crate::soundness::property::Failure;
use crate::soundness::random::Random;
use crate::soundness::tally::Tally;

/// Worlds tried of each plan.
const SAMPLES: usize = 6;

struct Case<'a> {
    seed: u64,
    random: Random,
    library: &'a mut Library,
    world: Site,
    moves: Moves,
    asked: [Asked; 2],
    rules: RuleSet,
    chain: Vec<(Step, Plan)>,
    tally: &'a mut Tally,
    fault: Option<Fault>,
}

/// Runs the case of a seed, with a checker that has a fault if one is given.
///
/// # Errors
/// The first part of the property that fails.
pub fn run(
    seed: u64,
    library: &mut Library,
    tally: &mut Tally,
    fault: Option<Fault>,
) -> Result<(), Failure> {
    let mut random = Random::new(seed);
    let Topic {
        world,
        measures,
        moves,
    } = topic(&mut random);
    let asked = [0, 1].map(|_| Asked::near(&mut random, measures, &world));
    let rules = library.rules(asked);
    let steps = random.below(10) + 1;
    let chain = blur::chain(&mut random, &world, steps, moves == Moves::Whole);
    let chain = chain.into_iter().map(|step| {
        let plan = read::plan(&step.site.text(), &rules);
        (step, plan)
    });
    let chain = chain.collect();
    tally.cases += 1;
    let mut case = Case {
        seed,
        random,
        library,
        world,
        moves,
        asked,
        rules,
        chain,
        tally,
        fault,
    };
    case.contained(0)?;
    case.exactly_decided()?;
    case.sampled()?;
    case.at_the_edges()
}

impl Case<'_> {
    fn found<T>(&self, plan: &Plan, act: impl FnOnce(&Findings<'_>) -> T) -> T {
        fault::found(self.fault, plan, &self.rules, act)
    }

    /// Checks that the world's judgement is possible at every step from `from` on, and that a vaguer plan never has
    /// fewer possible outcomes.
    fn contained(&mut self, from: usize) -> Result<(), Failure> {
        let mut before: Option<Vec<Truth>> = None;
        for number in from..self.chain.len() {
            let (step, plan) = &self.chain[number];
            let found = self.found(plan, |findings| {
                self.holds_world(&step.site, findings, &self.world)
                    .map(|()| truths(findings))
            })?;
            for (place, (surer, vaguer)) in before.iter().flatten().zip(&found).enumerate() {
                if !Classes::of(*surer).within(Classes::of(*vaguer)) {
                    let what = format!(
                        "not isotone at step {number} ({}), rule {place}: {surer:?} is not within {vaguer:?}",
                        step.done
                    );
                    let surer = &self.chain[number - 1].0.site;
                    return Err(self.failure(what, (surer, &step.site), &self.world));
                }
            }
            self.count(number, &found);
            before = Some(found);
        }
        Ok(())
    }

    fn count(&mut self, number: usize, found: &[Truth]) {
        for truth in found.iter().take(self.asked.len()).filter(|_| number > 0) {
            self.tally.blurred += 1;
            self.tally.decided += u64::from(Classes::of(*truth).one());
        }
    }

    /// Checks that the findings on a plan agree with a world of it.
    fn holds_world(
        &self,
        plan: &Site,
        findings: &Findings<'_>,
        world: &Site,
    ) -> Result<(), Failure> {
        let judged: Vec<Option<Judgement>> =
            self.asked.iter().map(|one| one.judge(world).ok()).collect();
        for (place, judgement) in judged.iter().enumerate() {
            let truth = findings.rules[place].truth;
            let Some(judgement) = judgement else { continue };
            let contained = match judgement {
                Judgement::Applies(level) => truth.may_be(*level),
                Judgement::NotApplicable => truth.may_not_apply(),
            };
            if !contained {
                let what = format!("rule {place}: {judgement:?} is not among {truth:?}");
                return Err(self.failure(what, (plan, plan), world));
            }
        }
        // The built-in rules come after the rule set's own.
        let on_the_lot = findings.rules[self.asked.len()].truth;
        if let Some(inside) = lines::pool_inside(world)
            && !on_the_lot.may_be(if inside { Level::Holds } else { Level::Fails })
        {
            let what = format!("the pool lies on the lot: {inside} is not among {on_the_lot:?}");
            return Err(self.failure(what, (plan, plan), world));
        }
        let all: Option<Vec<Judgement>> = judged.into_iter().collect();
        let fails = Judgement::Applies(Level::Fails);
        match (all, findings.verdict) {
            (Some(all), Verdict::NothingAgainst) if all.contains(&fails) => {
                let what = format!("nothing stands against it, but a world comes to {all:?}");
                Err(self.failure(what, (plan, plan), world))
            }
            _ => Ok(()),
        }
    }

    /// Checks that a plan stating the world exactly leaves nothing open.
    fn exactly_decided(&self) -> Result<(), Failure> {
        let (step, plan) = &self.chain[0];
        let found = self.found(plan, truths);
        for (asked, truth) in self.asked.iter().zip(found) {
            let known = asked.measure.exact && asked.judge(&self.world).is_ok();
            if known && !asked.is_close(&self.world) && !Classes::of(truth).one() {
                let what = format!("the exact plan leaves {truth:?} open: {}", asked.said());
                return Err(self.failure(what, (&step.site, &step.site), &self.world));
            }
        }
        Ok(())
    }

    fn vaguest(&self) -> (Site, Plan) {
        let (step, plan) = &self.chain[self.chain.len() - 1];
        (step.site.clone(), plan.clone())
    }

    /// Checks that other worlds of the vaguest plan are possible, too.
    fn sampled(&mut self) -> Result<(), Failure> {
        let (site, plan) = self.vaguest();
        let worlds: Vec<Site> = (0..SAMPLES)
            .map(|_| sample::world(&mut self.random, &site, &self.world, self.moves))
            .collect();
        let judgements = worlds
            .iter()
            .flat_map(|world| self.asked.iter().map(|one| one.judge(world)));
        for judgement in judgements {
            match judgement {
                Ok(_) => self.tally.compared += 1,
                Err(_) => self.tally.ties += 1,
            }
        }
        self.found(&plan, |findings| {
            let mut worlds = worlds.iter();
            worlds.try_for_each(|world| self.holds_world(&site, findings, world))
        })
    }

    /// Puts a limit at the very edge of what was measured, and checks that everything still holds.
    fn at_the_edges(&mut self) -> Result<(), Failure> {
        let (_, plan) = self.vaguest();
        for place in 0..self.asked.len() {
            let Some(range) = self.measured(&plan, place) else {
                continue;
            };
            let end = *self.random.pick(&[range.low, range.high]);
            let limit = end.saturating_add(self.random.wide(-1, 1));
            if end == i128::MIN || end == i128::MAX {
                continue;
            }
            let Some(moved) = self.asked[place].at(limit) else {
                continue;
            };
            self.asked[place] = moved;
            self.rules = self.library.rules(self.asked);
            self.tally.edges += 1;
            self.contained(self.chain.len().saturating_sub(2))?;
            self.sampled()?;
        }
        Ok(())
    }

    fn measured(&mut self, plan: &Plan, place: usize) -> Option<Interval> {
        let readings: Vec<Interval> = self.found(plan, |findings| {
            let parts = findings.rules[place].parts.iter();
            let readings = parts.flat_map(|part| &part.readings);
            readings.filter_map(|reading| reading.measured).collect()
        });
        (!readings.is_empty()).then(|| *self.random.pick(&readings))
    }

    fn failure(&self, what: String, (surer, vaguer): (&Site, &Site), world: &Site) -> Failure {
        let mut dump: String = self.asked.iter().map(Asked::said).collect();
        dump += &format!("--- world (begins {})\n{}", world.begins, world.text());
        dump += &format!("--- plan\n{}", vaguer.text());
        if !std::ptr::eq(surer, vaguer) {
            dump += &format!("--- the surer plan\n{}", surer.text());
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
