//! Judging one rule: for each pool, and for each of the rule's subjects.

use std::collections::BTreeSet;

use crate::check::judge::Judge;
use crate::check::rule::part::{Contribution, Truths, missing_of};
use crate::check::rule::target::{Target, TargetSubject};
use crate::check::world::dependency::Dependency;
use crate::check::world::env::Referent;
use crate::check::world::scene::Scene;
use crate::check::world::split;
use crate::check::{Finding, Missing, Part, Truth};
use crate::ruleset::Rule;
use crate::vocabulary::KindId;
use crate::work;

/// The contributions of a rule's subjects for one pool, joined: the rule must hold for all of them.
struct Joined {
    all: Truths,
    /// Whether there is nothing that the rule is about, at some place along what changes.
    none: Truth,
    /// Whether that may be so at one place and not at another.
    somewhere: bool,
    /// Whether there may be nothing to measure on something that the rule is about.
    may_not_apply: bool,
}

/// The findings under one rule for one pool.
pub(crate) struct PoolFinding {
    pub(crate) applies: Truth,
    pub(crate) truths: Truths,
    pub(crate) parts: Vec<Part>,
    /// Everything uncertain that it depends on.
    pub(crate) dependencies: Vec<Dependency>,
}

impl Joined {
    const NONE: Joined = Joined {
        all: Truths::NOT_APPLICABLE,
        none: Truth::HOLDS,
        somewhere: false,
        may_not_apply: false,
    };

    fn add(&mut self, one: Contribution) {
        self.all = self.all.and(one.truths);
        self.none = self.none.and(one.member.out);
        self.somewhere |= one.member.partly;
        self.may_not_apply |= one.may_not_apply;
    }

    /// Adds the result for the case that there is nothing that the rule is about.
    fn or_none(self, none: Truths) -> Truths {
        let beside = || self.all.and(none);
        let instead = || match self.may_not_apply {
            true => self.all.join(none, Truth::or_else),
            false => self.all.join(none, Truth::absent_as),
        };
        match (self.somewhere, self.none == Truth::HOLDS) {
            (false, _) => instead(),
            (true, true) => beside(),
            (true, false) => instead().join(beside(), Truth::or_else),
        }
    }
}

impl<'a> Judge<'a> {
    /// The finding under one rule, with everything uncertain that it depends on.
    pub(crate) fn finding(&self, index: usize, rule: &'a Rule) -> (Finding, Vec<Dependency>) {
        let mut truths = Truths::NOT_APPLICABLE;
        let (mut parts, mut dependencies) = (Vec::new(), Vec::new());
        let mut applies = Truth::NOT_APPLICABLE;
        for found in self.for_each_pool(rule.about_pool, |pool| self.pool_finding(rule, pool)) {
            applies = applies.or(found.applies);
            truths = truths.and(found.truths);
            parts.extend(found.parts);
            dependencies.extend(found.dependencies);
        }
        truths.truth = self.split_over_parts((rule, truths.truth), &parts, &dependencies);
        truths.truth = self.split_over_unseen((rule, truths.truth), &dependencies);
        // Its parts may be open, but a rule that fails whatever the answers are needs no answer.
        let missing = match truths.truth.is_open() {
            true => missing_of(&parts),
            false => Vec::new(),
        };
        (
            Finding {
                rule: index,
                outcome: truths.outcome(),
                truth: truths.truth,
                as_drawn: truths.as_drawn,
                applies: applies.absent_as(Truth::FAILS),
                parts,
                missing,
            },
            dependencies,
        )
    }

    /// The findings under one rule for one pool.
    fn pool_finding(&self, rule: &'a Rule, pool: Option<Referent>) -> PoolFinding {
        let (mut parts, mut dependencies) = (Vec::new(), Vec::new());
        let mut applies = Truth::NOT_APPLICABLE;
        let targets = self.applying(rule, pool, &mut applies, &mut dependencies);
        let mut truths = self.joined((rule, pool), targets, |target| {
            if work::is_spent() {
                return None;
            }
            let (part, log) = self.part(rule, target);
            dependencies.extend(log);
            let (part, contribution) = part?;
            parts.push(part);
            Some(contribution)
        });
        truths.truth = self.split_over_applying((rule, pool), truths.truth, &parts, &dependencies);
        PoolFinding {
            applies,
            truths,
            parts,
            dependencies,
        }
    }

    /// The truth of a rule once facts that several of its parts depend on are split. If it fails for one thing in zone A and
    /// for another in zone B, it fails even though the zone is unknown.
    fn split_over_parts(
        &self,
        (rule, truth): (&'a Rule, Truth),
        parts: &[Part],
        dependencies: &[Dependency],
    ) -> Truth {
        let open = parts.iter().filter(|part| part.truth.is_open());
        match open.count() {
            0 | 1 => truth,
            _ => split::refined(&self.scene, truth, dependencies, |scene| {
                truth_in(self, scene, rule)
            }),
        }
    }

    /// The truth of a rule, judged twice: with things that nobody saw, and without any. The answer is the same for all
    /// subjects of the rule and at all places along what changes.
    fn split_over_unseen(
        &self,
        (rule, truth): (&'a Rule, Truth),
        dependencies: &[Dependency],
    ) -> Truth {
        if !truth.is_open() || !dependencies.iter().any(|it| it.at_place) {
            return truth;
        }
        let unseen = dependencies.iter().filter_map(|it| match it.what {
            Missing::Inventory(kind) => Some(kind),
            _ => None,
        });
        let unseen: BTreeSet<KindId> = unseen.collect();
        unseen.into_iter().fold(truth, |truth, kind| {
            let there_or_not = [self.scene.seeing_all(kind), self.scene.having_unseen(kind)];
            let found = there_or_not.map(|scene| truth_in(self, scene, rule));
            truth.meet(found.into_iter().fold(Truth::NONE, Truth::or_else))
        })
    }

    /// The truth of a rule for one pool after trying each way in which the rule may apply, if that is the same for all its
    /// subjects and at all places along what changes.
    fn split_over_applying(
        &self,
        (rule, pool): (&'a Rule, Option<Referent>),
        truth: Truth,
        parts: &[Part],
        dependencies: &[Dependency],
    ) -> Truth {
        let changes = dependencies.iter().any(|it| it.at_place);
        if !truth.is_open() || !changes && parts.len() < 2 {
            return truth;
        }
        let subject = TargetSubject::Plan;
        let (applies, log) = self
            .scene
            .logging(|| self.applies(rule, Target { subject, pool }));
        let vocabulary = &self.scene.rules().vocabulary;
        let mut facts = log.iter().filter_map(split::key);
        if !applies.is_open() || facts.any(|key| vocabulary.fact(key.fact).varies) {
            return truth;
        }
        let ways = applies.applied().each();
        let of_way = |way| truth_for(&self.in_scene(self.scene.applying(way)), rule, pool);
        truth.meet(ways.map(of_way).fold(Truth::NONE, Truth::or_else))
    }

    /// Joins the contributions of a rule's targets for one pool.
    fn joined(
        &self,
        (rule, pool): (&'a Rule, Option<Referent>),
        targets: Vec<Target>,
        mut contribution: impl FnMut(Target) -> Option<Contribution>,
    ) -> Truths {
        let mut all = Joined::NONE;
        for target in targets {
            if let Some(one) = contribution(target) {
                all.add(one);
            }
        }
        match self.none_of(rule, pool, &all).and_then(contribution) {
            Some(none) => all.or_none(none.truths),
            None => all.all,
        }
    }

    /// The subjects of a rule for one pool; none where the rule does not apply.
    fn applying(
        &self,
        rule: &'a Rule,
        pool: Option<Referent>,
        so_far: &mut Truth,
        dependencies: &mut Vec<Dependency>,
    ) -> Vec<Target> {
        let subject = TargetSubject::Plan;
        let (applies, log) = self
            .scene
            .logging(|| self.applies(rule, Target { subject, pool }));
        *so_far = so_far.or(applies);
        dependencies.extend(log);
        match applies {
            Truth::FAILS => Vec::new(),
            _ => {
                let (targets, log) = self.scene.logging(|| self.targets(rule, pool));
                dependencies.extend(log);
                targets
            }
        }
    }

    /// The target for the case that there is nothing that a rule is about, where the rule says what that means.
    fn none_of(&self, rule: &'a Rule, pool: Option<Referent>, all: &Joined) -> Option<Target> {
        let each = rule.each.as_ref().filter(|each| each.if_none.is_some());
        let subject = TargetSubject::None {
            kind: each?.kind,
            somewhere: all.somewhere,
        };
        let none = Target { subject, pool };
        let may_be = all.none != Truth::FAILS && self.applies(rule, none) != Truth::FAILS;
        may_be.then_some(none)
    }
}

/// The truth of a whole rule in another scene, for the verdict on all rules together.
pub(crate) fn truth_in<'a>(judge: &Judge<'a>, scene: Scene<'a>, rule: &'a Rule) -> Truth {
    let judge = judge.in_scene(scene);
    let of_pool = |pool| truth_for(&judge, rule, pool);
    let pools = judge.for_each_pool(rule.about_pool, of_pool).into_iter();
    pools.fold(Truth::NOT_APPLICABLE, Truth::and)
}

/// The truth of a rule for one pool.
fn truth_for<'a>(judge: &Judge<'a>, rule: &'a Rule, pool: Option<Referent>) -> Truth {
    let (mut applies, mut dependencies) = (Truth::NOT_APPLICABLE, Vec::new());
    let targets = judge.applying(rule, pool, &mut applies, &mut dependencies);
    let contribution = |target| {
        let assessments = judge.assess(rule, target);
        let is_needed = assessments.iter().any(|place| place.found.need.is_some());
        let truths = Truths::decided(judge.together((rule, target), &assessments));
        is_needed.then(|| Contribution::of(truths, &assessments))
    };
    judge.joined((rule, pool), targets, contribution).truth
}
