//! Which papers a world calls for, and which classes its decisions come to.

use std::collections::BTreeSet;

use rules_core::check::Level;
use rules_core::ruleset::{Decision, Document, Requirement, Rule, Then};

use super::{Evaluator, Found, Judgement, Scene, places};
use crate::soundness::cuts::Reads;
use crate::soundness::walk::{self, Visitor};

/// The class of a decision at one place.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Class {
    /// The thing that it is about.
    pub thing: Option<usize>,
    /// The pool that it is about.
    pub pool: Option<usize>,
    /// The class; `None` if the authority decides.
    pub class: Option<String>,
}

impl Evaluator<'_> {
    /// The classes of a decision.
    ///
    /// # Errors
    /// The world cannot be judged.
    pub fn classes(&self, decision: &Decision) -> Found<BTreeSet<Class>> {
        let mut scene = Scene::new(*self);
        let reads = places::read_by_decision(decision);
        let all = scene.everywhere(decision.about_pool, &reads, |scene, pool| {
            scene.classes_here(decision, pool)
        })?;
        Ok(all.into_iter().flatten().collect())
    }

    /// Whether the world itself calls for a paper: because it is always needed, its condition holds at some place, or a
    /// rule that names it applies. `None` if the rule set leaves that open.
    ///
    /// # Errors
    /// The world cannot be judged.
    pub fn wanted(&self, number: usize, thing: Option<usize>) -> Found<Option<bool>> {
        let document = &self.rules.documents[number];
        if document.always || self.asked_for(document, thing)? {
            return self.is_selected(document, thing).map(Some);
        }
        // If nothing calls for a paper, the rule set leaves open whether to gather it.
        let mut open = document.when.is_none() && document.on.is_empty();
        for rule in &self.rules.rules {
            let (judgement, _) = self.judge(rule)?;
            let named = rule.documents.contains(&number);
            let applies = judgement != Judgement::NotApplicable;
            let by_name = (named && applies).then_some(true);
            let by_outcome = called_for(document, rule, judgement);
            match by_name.or(by_outcome) {
                Some(true) if document.each.is_none() => return Ok(Some(true)),
                Some(false) => {}
                _ => open = true,
            }
            open |= has(rule, number);
        }
        Ok((!open).then_some(false))
    }

    fn asked_for(&self, document: &Document, thing: Option<usize>) -> Found<bool> {
        let mut reads = Reads::default();
        walk::condition(document.when.as_ref(), &mut reads);
        let mut scene = Scene::new(*self);
        let all = scene.everywhere(false, &reads.0, |scene, _| {
            let kind = document.each.as_ref().map(|each| each.kind);
            scene.bound.extend(kind.zip(thing));
            let holds = scene.condition(document.when.as_ref())? == Level::Holds;
            scene.bound.clear();
            Ok(holds)
        })?;
        Ok(all.contains(&true))
    }

    fn is_selected(&self, document: &Document, thing: Option<usize>) -> Found<bool> {
        match (&document.each, thing) {
            (Some(each), Some(thing)) => Ok(Scene::new(*self).selected(each)?.contains(&thing)),
            _ => Ok(true),
        }
    }

    /// Whether some rule holds with the paper and fails without it.
    ///
    /// # Errors
    /// The world cannot be judged.
    pub fn of_use(&self, number: usize, thing: Option<usize>) -> Found<bool> {
        let with = |level: Level| {
            let mut world = self.world.clone();
            match thing {
                Some(thing) => world.things[thing].papers[number] = level,
                None => world.papers[number] = level,
            }
            world
        };
        let (without, with) = (with(Level::Fails), with(Level::Holds));
        for rule in self.rules.rules.iter().filter(|rule| has(rule, number)) {
            let judge = |world| Evaluator { world, ..*self }.judge(rule);
            let (before, after) = (judge(&without)?.0, judge(&with)?.0);
            let (fails, holds) = (
                Judgement::Applies(Level::Fails),
                Judgement::Applies(Level::Holds),
            );
            if (before, after) == (fails, holds) {
                return Ok(true);
            }
        }
        Ok(false)
    }
}

impl Scene<'_> {
    fn classes_here(&mut self, decision: &Decision, pool: Option<usize>) -> Found<Vec<Class>> {
        let things: Vec<Option<usize>> = match &decision.each {
            None => vec![None],
            Some(each) => self.selected(each)?.into_iter().map(Some).collect(),
        };
        let mut here = Vec::new();
        for thing in things {
            let row = match decision.each.as_ref().zip(thing) {
                Some((each, thing)) => {
                    self.with(each, thing, |scene| scene.row(&decision.table))?
                }
                None => self.row(&decision.table)?,
            };
            let class = match row {
                Some(Then::Give(class)) => Some(Some(class.clone())),
                Some(Then::Refer) => Some(None),
                None => None,
            };
            here.extend(class.map(|class| Class { thing, pool, class }));
        }
        Ok(here)
    }
}

/// Whether a rule's outcome in a world calls for a paper; `None` if that depends on other worlds of the same plan.
fn called_for(document: &Document, rule: &Rule, judgement: Judgement) -> Option<bool> {
    let word = match judgement {
        Judgement::Applies(Level::Fails) => "fail",
        Judgement::Applies(Level::Authority) => "refer",
        Judgement::Applies(Level::Holds) | Judgement::NotApplicable => "pass",
    };
    let mut words = document
        .on
        .iter()
        .filter(|on| on.rule == rule.id)
        .flat_map(|on| &on.outcomes)
        .peekable();
    if words.peek().is_none() {
        return Some(false);
    }
    match words.any(|wanted| wanted == word) && word != "pass" {
        true => Some(true),
        false => None,
    }
}

/// Whether a rule asks for a paper.
fn has(rule: &Rule, number: usize) -> bool {
    struct Has(usize, bool);
    impl Visitor for Has {
        fn requirement(&mut self, of: &Requirement) {
            self.1 |= matches!(of, Requirement::Have(number) if *number == self.0);
        }
    }
    let mut has = Has(number, false);
    walk::rule(rule, &mut has);
    has.1
}
