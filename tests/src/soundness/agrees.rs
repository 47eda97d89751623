//! Whether the checker's findings on a plan agree with a world of that plan.

use rules_core::check::{Decided, DocumentNeed, Findings, Level, Need, Subject, Truth, Verdict};
use rules_core::plan::Plan;
use rules_core::ruleset::RuleSet;
use rules_core::vocabulary::KindId;

use super::evaluate::{Class, Evaluator, Judgement};
use super::world::World;

/// A finding and a world that disagree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Disagreement {
    /// The rule, if it is about one.
    pub rule: Option<usize>,
    /// In words.
    pub what: String,
}

/// A plan, the findings on it, and one of its worlds.
pub struct Beside<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// The rules.
    pub rules: &'a RuleSet,
    /// The findings.
    pub findings: &'a Findings<'a>,
    /// The world.
    pub world: &'a World,
}

/// Whether the checker's outcomes include this world's judgement.
pub(super) fn contains(truth: Truth, judgement: Judgement) -> bool {
    match judgement {
        Judgement::Applies(level) => truth.may_be(level),
        Judgement::NotApplicable => truth.may_not_apply(),
    }
}

impl Beside<'_> {
    fn evaluator(&self) -> Evaluator<'_> {
        Evaluator {
            world: self.world,
            rules: self.rules,
            plan: Some(self.plan),
        }
    }

    /// Everything.
    ///
    /// # Errors
    /// The first disagreement.
    pub fn all(&self) -> Result<(), Disagreement> {
        let judged = self.rules_agree()?;
        self.verdict_agrees(&judged)?;
        self.papers_agree()?;
        self.classes_agree()
    }

    /// Checks that every rule's judgement in the world is possible. Returns the judgements, with `None` for one that
    /// could not be made.
    fn rules_agree(&self) -> Result<Vec<Option<Judgement>>, Disagreement> {
        let mut all = Vec::new();
        for (place, rule) in self.rules.all_rules().enumerate() {
            let judged = self.evaluator().judge(rule).ok();
            let judged = judged.map(|(judgement, _)| judgement);
            all.push(judged);
            let truth = self.findings.rules[place].truth;
            if let Some(judgement) = judged
                && !contains(truth, judgement)
            {
                return Err(Disagreement {
                    rule: Some(place),
                    what: format!("{judgement:?} is not among {truth:?}"),
                });
            }
        }
        Ok(all)
    }

    /// Checks that the verdict does not contradict the world.
    fn verdict_agrees(&self, judged: &[Option<Judgement>]) -> Result<(), Disagreement> {
        let Some(all) = judged.iter().copied().collect::<Option<Vec<Judgement>>>() else {
            return Ok(());
        };
        let fails = all.contains(&Judgement::Applies(Level::Fails));
        let none_stands = |judgement: &Judgement| *judgement >= Judgement::Applies(Level::Holds);
        let of_its_own = &all[..self.rules.rules.len()];
        let applies = of_its_own.contains(&Judgement::Applies(Level::Holds));
        let agrees = match self.findings.verdict {
            Verdict::DoesNotComply => fails,
            Verdict::NothingInTheseRules => false,
            Verdict::NothingAgainst => applies && all.iter().all(none_stands),
            Verdict::NotDecided => true,
        };
        match agrees {
            true => Ok(()),
            false => Err(Disagreement {
                rule: None,
                what: format!("{:?}, but a world comes to {all:?}", self.findings.verdict),
            }),
        }
    }

    /// The place in the world of a thing of the plan.
    fn in_world(&self, thing: usize) -> Option<usize> {
        let id = &self.plan.things.get(thing)?.id;
        self.world.things.iter().position(|being| being.id == *id)
    }

    /// Checks what is said about the papers.
    fn papers_agree(&self) -> Result<(), Disagreement> {
        for found in &self.findings.documents {
            let thing = match found.thing {
                None => None,
                Some(thing) => match self.in_world(thing) {
                    Some(thing) => Some(thing),
                    None => continue,
                },
            };
            self.paper_agrees(found, thing)?;
        }
        self.no_paper_is_forgotten()
    }

    fn paper_agrees(&self, found: &DocumentNeed, thing: Option<usize>) -> Result<(), Disagreement> {
        let number = found.document;
        if self.rules.documents[number].each.is_some() && thing.is_none() {
            return Ok(());
        }
        let wanted = self.evaluator().wanted(number, thing);
        let of_use = self.evaluator().of_use(number, thing);
        let wrong = match found.need {
            Need::Needed => wanted == Ok(Some(false)),
            Need::NotNeeded => wanted == Ok(Some(true)) || of_use == Ok(true),
            Need::Perhaps => false,
        };
        match wrong {
            false => Ok(()),
            true => Err(Disagreement {
                rule: None,
                what: format!(
                    "paper-{number} of {thing:?} is {:?}, but in a world called for {wanted:?}, of use {of_use:?}",
                    found.need
                ),
            }),
        }
    }

    /// Checks that every paper the world calls for is named.
    fn no_paper_is_forgotten(&self) -> Result<(), Disagreement> {
        for (number, document) in self.rules.documents.iter().enumerate() {
            let things: Vec<Option<usize>> = match &document.each {
                None => vec![None],
                Some(each) => self.shown(each.kind).into_iter().map(Some).collect(),
            };
            for thing in things {
                let named = |found: &DocumentNeed| {
                    found.document == number
                        && (found.thing.is_none()
                            || found.thing.and_then(|of| self.in_world(of)) == thing)
                };
                let forgotten = !self.findings.documents.iter().any(named);
                if forgotten && self.evaluator().wanted(number, thing) == Ok(Some(true)) {
                    return Err(Disagreement {
                        rule: None,
                        what: format!("paper-{number} for {thing:?} is called for and not named"),
                    });
                }
            }
        }
        Ok(())
    }

    /// The places in the world of the things of a kind that the plan shows.
    fn shown(&self, kind: KindId) -> Vec<usize> {
        let things = self.plan.things.iter().enumerate();
        things
            .filter(|(_, thing)| thing.kind == kind)
            .filter_map(|(index, _)| self.in_world(index))
            .collect()
    }

    /// Checks that every class a decision comes to in the world is possible.
    fn classes_agree(&self) -> Result<(), Disagreement> {
        for (number, decision) in self.rules.decisions.iter().enumerate() {
            let Ok(classes) = self.evaluator().classes(decision) else {
                continue;
            };
            for class in classes {
                let mut entries = self.findings.decisions.iter();
                if !entries.any(|found| found.decision == number && self.allows(found, &class)) {
                    return Err(Disagreement {
                        rule: None,
                        what: format!("{class:?} is not among {:?}", self.findings.decisions),
                    });
                }
            }
        }
        Ok(())
    }

    /// Whether an entry is about the same thing and pool as a class, and lists that class.
    fn allows(&self, found: &Decided<'_>, class: &Class) -> bool {
        let about = match found.subject {
            Subject::Plan => class.thing.is_none(),
            Subject::NoneOf(_) => false,
            Subject::Thing { index, .. } => self.in_world(index) == class.thing.or(class.pool),
            Subject::Unseen(kind) => class.thing.is_some_and(|thing| {
                let being = &self.world.things[thing];
                being.kind == kind && !self.shown(kind).contains(&thing)
            }),
        };
        let pool = found.pool.and_then(|pool| self.in_world(pool)) == class.pool;
        let allowed = match &class.class {
            Some(class) => found.classes.contains(&class.as_str()),
            None => found.refer,
        };
        about && pool && allowed
    }
}
