//! Judges one rule: beside each pool, for each of its subjects.

use std::collections::BTreeSet;

use crate::check::judge::Judge;
use crate::check::judge::part::{Own, Possible, missing_of};
use crate::check::world::dependency::Dependency;
use crate::check::world::env::Referent;
use crate::check::world::look::together;
use crate::check::world::scene::Scene;
use crate::check::world::split;
use crate::check::world::target::{Of, Target};
use crate::check::{Finding, Missing, Part, Truth};
use crate::ruleset::Rule;
use crate::vocabulary::KindId;
use crate::work;

/// What is possible for a rule beside one pool: all its subjects must keep it.
struct OfPool {
    all: Possible,
    /// Whether there is, at some place along what changes, nothing of which it speaks.
    none: Truth,
    /// Whether that may be so at one place and not at another.
    somewhere: bool,
    /// Whether there may be nothing to measure of something of which it speaks.
    silent: bool,
}

/// What is found under one rule beside one pool.
pub(crate) struct BesidePool {
    pub(crate) applies: Truth,
    pub(crate) possible: Possible,
    pub(crate) parts: Vec<Part>,
    /// Everything uncertain that it rests on.
    pub(crate) dependencies: Vec<Dependency>,
}

impl OfPool {
    const NONE: OfPool = OfPool {
        all: Possible::NOT_APPLICABLE,
        none: Truth::HOLDS,
        somewhere: false,
        silent: false,
    };

    fn add(&mut self, own: Own) {
        self.all = self.all.and(own.possible);
        self.none = self.none.and(own.member.out);
        self.somewhere |= own.member.partly;
        self.silent |= own.silent;
    }

    /// With what it comes to where there is nothing that it speaks of.
    fn or_none(self, none: Possible) -> Possible {
        let beside = || self.all.and(none);
        let instead = || match self.silent {
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
    /// What is found under one rule, with everything uncertain that it rests on.
    pub(crate) fn finding(&self, index: usize, rule: &'a Rule) -> (Finding, Vec<Dependency>) {
        let mut possible = Possible::NOT_APPLICABLE;
        let (mut parts, mut dependencies) = (Vec::new(), Vec::new());
        let mut applies = Truth::NOT_APPLICABLE;
        for beside in self.beside_each(rule.about_pool, |pool| self.found_beside(rule, pool)) {
            applies = applies.or(beside.applies);
            possible = possible.and(beside.possible);
            parts.extend(beside.parts);
            dependencies.extend(beside.dependencies);
        }
        possible.truth = self.whichever_way((rule, possible.truth), &parts, &dependencies);
        possible.truth = self.with_shared_doubts((rule, possible.truth), &parts, &dependencies);
        // A rule that is broken whatever is answered waits for no answer, though its parts do.
        let missing = match possible.truth.is_open() {
            true => missing_of(&parts),
            false => Vec::new(),
        };
        (
            Finding {
                rule: index,
                outcome: possible.outcome(),
                truth: possible.truth,
                as_drawn: possible.as_drawn,
                applies: applies.absent_as(Truth::FAILS),
                parts,
                missing,
            },
            dependencies,
        )
    }

    /// What is found under one rule beside one pool.
    fn found_beside(&self, rule: &'a Rule, pool: Option<Referent>) -> BesidePool {
        let (mut parts, mut dependencies) = (Vec::new(), Vec::new());
        let mut applies = Truth::NOT_APPLICABLE;
        let targets = self.applying(rule, pool, &mut applies, &mut dependencies);
        let possible = self.beside_pool((rule, pool), targets, |target| {
            if work::is_spent() {
                return None;
            }
            let (part, log) = self.part(rule, target);
            dependencies.extend(log);
            let (part, own) = part?;
            parts.push(part);
            Some(own)
        });
        BesidePool {
            applies,
            possible,
            parts,
            dependencies,
        }
    }

    /// What is possible for a rule once facts on which several of its parts rest are split: if zone A breaks it for one
    /// thing and zone B for another, it is broken without anybody knowing the zone.
    fn whichever_way(
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

    /// What is possible for a rule where one doubt is the same for all its subjects, and at all places along what changes:
    /// whether it applies at all, and whether anything that nobody has seen is there.
    fn with_shared_doubts(
        &self,
        (rule, truth): (&'a Rule, Truth),
        parts: &[Part],
        dependencies: &[Dependency],
    ) -> Truth {
        let changes = dependencies.iter().any(|touch| touch.at_place);
        if !truth.is_open() || !changes && parts.len() < 2 {
            return truth;
        }
        let unseen = dependencies.iter().filter_map(|touch| match touch.what {
            Missing::Inventory(kind) if changes => Some(kind),
            _ => None,
        });
        let unseen: BTreeSet<KindId> = unseen.collect();
        let there_or_not = unseen
            .into_iter()
            .map(|kind| vec![self.scene.seeing_all(kind), self.scene.having_unseen(kind)]);
        let ways = there_or_not.chain([self.applying_or_not(rule)]);
        ways.filter(|ways| ways.len() > 1)
            .fold(truth, |truth, ways| {
                let found = ways.into_iter().map(|scene| truth_in(self, scene, rule));
                truth.meet(found.fold(Truth::NONE, Truth::or_else))
            })
    }

    /// The ways in which a rule may apply, where it applies in the same way everywhere; else none.
    fn applying_or_not(&self, rule: &'a Rule) -> Vec<Scene<'a>> {
        let [pool] = self.pools(rule.about_pool)[..] else {
            return Vec::new();
        };
        let of = Of::Plan;
        let (applies, log) = self
            .scene
            .logging(|| self.applies(rule, Target { of, pool }));
        let vocabulary = &self.scene.rules().vocabulary;
        let mut facts = log.iter().filter_map(split::key);
        match facts.any(|key| vocabulary.fact(key.fact).varies) {
            true => Vec::new(),
            false => applies
                .applied()
                .each()
                .map(|way| self.scene.applying(way))
                .collect(),
        }
    }

    /// What is possible for a rule beside one pool, of which each target comes to its own.
    fn beside_pool(
        &self,
        (rule, pool): (&'a Rule, Option<Referent>),
        targets: Vec<Target>,
        mut own: impl FnMut(Target) -> Option<Own>,
    ) -> Possible {
        let mut all = OfPool::NONE;
        for target in targets {
            if let Some(own) = own(target) {
                all.add(own);
            }
        }
        match self.none_of(rule, pool, &all).and_then(own) {
            Some(none) => all.or_none(none.possible),
            None => all.all,
        }
    }

    /// The subjects of a rule beside one pool, where it may apply to it.
    fn applying(
        &self,
        rule: &'a Rule,
        pool: Option<Referent>,
        so_far: &mut Truth,
        dependencies: &mut Vec<Dependency>,
    ) -> Vec<Target> {
        let of = Of::Plan;
        let (applies, log) = self
            .scene
            .logging(|| self.applies(rule, Target { of, pool }));
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

    /// What to judge where there is nothing that a rule speaks of, if it says what that means.
    fn none_of(&self, rule: &'a Rule, pool: Option<Referent>, all: &OfPool) -> Option<Target> {
        let each = rule.each.as_ref().filter(|each| each.if_none.is_some());
        let of = Of::None {
            kind: each?.kind,
            somewhere: all.somewhere,
        };
        let none = Target { of, pool };
        let may_be = all.none != Truth::FAILS && self.applies(rule, none) != Truth::FAILS;
        may_be.then_some(none)
    }
}

/// What is possible for a whole rule in another scene: for the verdict on all rules together.
pub(crate) fn truth_in<'a>(judge: &Judge<'a>, scene: Scene<'a>, rule: &'a Rule) -> Truth {
    let judge = judge.in_scene(scene);
    let of_pool = |pool: Option<Referent>| {
        let (mut applies, mut dependencies) = (Truth::NOT_APPLICABLE, Vec::new());
        let targets = judge.applying(rule, pool, &mut applies, &mut dependencies);
        let own = |target| {
            let looks = judge.looks(rule, target);
            let of_some = looks.iter().any(|place| place.look.need.is_some());
            let possible = Possible::decided(together(target, &looks));
            of_some.then(|| Own::of(possible, &looks))
        };
        judge.beside_pool((rule, pool), targets, own).truth
    };
    let pools = judge.beside_each(rule.about_pool, of_pool).into_iter();
    pools.fold(Truth::NOT_APPLICABLE, Truth::and)
}
