//! The property: the value in a world is possible for the plan, an exact plan is measured exactly, and the printed
//! figures agree.

use rules_core::check::{Findings, check};
use rules_core::plan;
use rules_core::quantity::{Interval, NO_HIGH, NO_LOW, Relation, parse};
use rules_core::report::{Texts, report};
use rules_core::ruleset::{Bound, RuleSet};

use super::site::Site;
use crate::read;
use crate::soundness::random::Random;

/// A measure, and its true value in one exact world.
pub struct Measure {
    /// Its name.
    pub name: &'static str,
    /// One rule; `LIMIT` stands for a limit.
    pub rule: &'static str,
    /// The limits tried.
    pub limits: [&'static str; 3],
    /// Draws a plan.
    pub draw: fn(&mut Random) -> Site,
    /// Its value in a world, in the tiny unit of its dimension; `None` if there is nothing to measure.
    pub truth: fn(&Site) -> Option<f64>,
    /// How far off the true value's floats may be.
    pub fine: f64,
    /// How far either end may be from the truth on a plan drawn exactly.
    pub exact: f64,
    /// The least share of an interval, in percent, that a few random worlds must span on average.
    pub reach: f64,
}

/// What was tried.
#[derive(Debug, Default, Clone, Copy, PartialEq)]
pub struct Tally {
    /// Worlds compared with an interval.
    pub worlds: usize,
    /// Plans whose interval has both ends.
    pub bounded: usize,
    /// Exact plans that were measured exactly.
    pub exact: usize,
    /// Plans where nothing was certain except that there is a value.
    pub open: usize,
    reach: f64,
    reached: usize,
}

impl Tally {
    /// The share of the intervals that the worlds span, in percent.
    pub fn reach(&self) -> f64 {
        100.0 * self.reach / self.reached.max(1) as f64
    }
}

/// Worlds drawn of each plan.
const WORLDS: usize = 5;

/// Tries a measure on `cases` plans.
///
/// # Errors
/// The first plan whose interval leaves out one of its worlds.
pub fn run(measure: &Measure, cases: u64) -> Result<Tally, String> {
    let rules = measure
        .limits
        .map(|limit| rule_set(&measure.rule.replace("LIMIT", limit)));
    let mut tally = Tally::default();
    for seed in 0..cases {
        let mut random = Random::new(seed);
        let site = (measure.draw)(&mut random);
        let rules = random.pick(&rules);
        let case = Case {
            measure,
            rules,
            seed,
        };
        case.exactly(&site, &mut tally)?;
        case.worlds(&site, &mut random, &mut tally)?;
    }
    Ok(tally)
}

fn rule_set(rule: &str) -> RuleSet {
    let text = format!(
        "ruleset: eldermere\ntitle: Eldermere\nedition: \"1\"\nauthority: Eldermere building office\n\
         rules:\n  - id: one\n    title: One\n    clause: s. 1\n{rule}\n"
    );
    read::rules(&text)
}

struct Case<'c> {
    measure: &'c Measure,
    rules: &'c RuleSet,
    seed: u64,
}

impl Case<'_> {
    fn measured(&self, site: &Site) -> Result<Option<Interval>, String> {
        let text = site.text();
        let plan = plan::read(&text, &self.rules.vocabulary)
            .map_err(|faults| self.failure(&faults.show("plan", &text), site, site))?;
        let found = check(&plan, self.rules).expect("not too much work");
        let reading = found.rules[0]
            .parts
            .first()
            .and_then(|part| part.readings.first());
        let measured = reading.and_then(|reading| reading.measured);
        self.printed(&found, &plan, site)?;
        Ok(measured)
    }

    /// The printed figures contain what was measured, and agree with the outcome.
    fn printed(&self, found: &Findings<'_>, plan: &plan::Plan, site: &Site) -> Result<(), String> {
        let written = report(found, plan, self.rules, &Texts::default());
        let part = found.rules[0]
            .parts
            .first()
            .zip(written.rules[0].parts.first());
        let reading =
            part.and_then(|(part, printed)| part.readings.first().zip(printed.readings.first()));
        let Some((reading, printed)) = reading else {
            return Ok(());
        };
        let (Some(measured), Some(range), Some(limit)) =
            (reading.measured, &printed.measured, reading.limit)
        else {
            return Ok(());
        };
        let amount = |text: &Option<String>, none: i128| match text {
            None => Some(none),
            Some(text) => parse(text, None, None)
                .ok()
                .and_then(|written| written.drawn),
        };
        let ends = amount(&range.low, NO_LOW).zip(amount(&range.high, NO_HIGH));
        let holds = ends.is_some_and(|(low, high)| low <= measured.low && measured.high <= high);
        let Some((low, high)) = ends.filter(|_| holds) else {
            return Err(self.failure(
                &format!("{range:?} is printed for {measured:?}"),
                site,
                site,
            ));
        };
        let compared = relation(reading.bound()).judge(Interval { low, high }, limit);
        let expected = match (compared.can_be_true, compared.can_be_false) {
            (true, false) => "holds",
            (false, _) => "fails",
            (true, true) => "open",
        };
        match printed.holds == expected || reading.truth.is_open() && expected == "open" {
            true => Ok(()),
            false => Err(self.failure(
                &format!("printed {range:?}, {} but {expected}", printed.holds),
                site,
                site,
            )),
        }
    }

    fn exactly(&self, site: &Site, tally: &mut Tally) -> Result<(), String> {
        let site = site.exact();
        let Some((truth, found)) = (self.measure.truth)(&site).zip(self.measured(&site)?) else {
            return Ok(());
        };
        let exact = self.measure.exact;
        let near = |end: i128| (end as f64 - truth).abs() <= exact;
        match near(found.low) && near(found.high) {
            true => tally.exact += 1,
            false => {
                return Err(self.failure(&format!("{found:?} for exactly {truth}"), &site, &site));
            }
        }
        Ok(())
    }

    fn worlds(&self, site: &Site, random: &mut Random, tally: &mut Tally) -> Result<(), String> {
        let Some(found) = self.measured(site)? else {
            return Ok(());
        };
        let fine = self.measure.fine;
        let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
        for _ in 0..WORLDS {
            let world = site.world(random);
            let Some(truth) = (self.measure.truth)(&world) else {
                continue;
            };
            (least, most) = (least.min(truth), most.max(truth));
            let low = found.low == NO_LOW || found.low as f64 - fine <= truth;
            let high = found.high == NO_HIGH || truth <= found.high as f64 + fine;
            if !(low && high) {
                return Err(self.failure(&format!("{truth} is not in {found:?}"), site, &world));
            }
            tally.worlds += 1;
        }
        if found.low == NO_LOW || found.high == NO_HIGH {
            tally.open += 1;
            return Ok(());
        }
        tally.bounded += 1;
        let width = (found.high - found.low) as f64;
        if most >= least && width > 4.0 * fine {
            tally.reach += (most - least) / width;
            tally.reached += 1;
        }
        Ok(())
    }

    fn failure(&self, what: &str, plan: &Site, world: &Site) -> String {
        let name = self.measure.name;
        format!(
            "{name}, seed {}: {what}\n{}\nthe world:\n{}",
            self.seed,
            plan.text(),
            world.text()
        )
    }
}

fn relation(bound: &Bound) -> Relation {
    match bound {
        Bound::AtLeast(_) => Relation::AtLeast,
        Bound::AtMost(_) => Relation::AtMost,
        Bound::MoreThan(_) => Relation::MoreThan,
        Bound::LessThan(_) => Relation::LessThan,
        Bound::Is(_) => Relation::Is,
    }
}
