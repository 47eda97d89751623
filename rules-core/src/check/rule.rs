//! Judges one rule: for each of its subjects, whether it applies, whether it holds, and by which relief.

use super::judge::{Ask, Judge, Judged};
use super::places::{Place, places};
use super::readings::Deciding;
use super::room::Room;
use super::scene::{Env, Holder, Scene, Touch};
use super::target::{Of, Target};
use super::{
    Finding, Level, Missing, Outcome, Part, PlaceTruth, Reading, ReliefTruth, Truth, missing, split,
};
use crate::mutant::{self, Mutant};
use crate::ruleset::{Condition, InForce, Relief, Rule};
use crate::work;

/// What one look at one subject of a rule gave, at one place along the things that change.
struct Look {
    truth: Truth,
    /// Whether the subject is one of those that the rule speaks of.
    member: Truth,
    applies: Truth,
    need: Option<Need>,
}

/// A look at one place, and all that it rests on.
struct PlaceLook {
    place: Place,
    /// Whether there surely is such a place.
    sure: bool,
    look: Look,
    touched: Vec<Touch>,
}

/// A requirement and its reliefs.
struct Need {
    base: Judged,
    reliefs: Vec<(ReliefTruth, Judged)>,
}

impl<'a> Need {
    /// A relief does not hold where there is nothing that it speaks about; a rule does not apply there.
    fn truth(&self) -> Truth {
        let reliefs = self.reliefs.iter().map(|(relief, _)| relief.holds);
        let relieved = reliefs.fold(self.base.truth.applied(), Truth::or);
        match self.base.truth.may_not_apply() {
            true => relieved.or_else(Truth::NOT_APPLICABLE),
            false => relieved,
        }
    }

    /// The readings that it rests on, with those of the relief that makes the difference.
    fn deciding(self, relief: Option<usize>) -> Vec<Reading> {
        let mut deciding = Deciding::default();
        deciding.add(self.base);
        let relief = relief.and_then(|at| self.reliefs.into_iter().nth(at));
        if let Some((_, judged)) = relief {
            deciding.add(judged);
        }
        deciding.found
    }

    /// The room that is left: where it passes by a relief, the relief's own.
    fn room(&self, truth: Truth) -> Room {
        let by = match truth {
            Truth::HOLDS => self.relief(truth).and_then(|at| self.reliefs.get(at)),
            _ => None,
        };
        by.map_or(self.base.room, |(_, relief)| {
            self.base.room.greatest(relief.room)
        })
    }

    /// The relief that makes the difference, where one does.
    fn relief(&self, truth: Truth) -> Option<usize> {
        let wanted = match truth {
            Truth::HOLDS if self.base.truth != Truth::HOLDS => Truth::HOLDS,
            Truth::AUTHORITY if self.base.truth != Truth::AUTHORITY => Truth::AUTHORITY,
            _ => return None,
        };
        self.reliefs
            .iter()
            .position(|(relief, _)| relief.holds == wanted)
    }
}

/// What is possible for something.
#[derive(Clone, Copy)]
struct Possible {
    /// As it is known.
    truth: Truth,
    /// If the authority has not yet said anything that it is free to say.
    unsaid: Truth,
    /// If everything were exactly as drawn besides.
    as_drawn: Truth,
}

impl Possible {
    const NOT_APPLICABLE: Possible = Possible::decided(Truth::NOT_APPLICABLE);

    const fn decided(truth: Truth) -> Possible {
        Possible {
            truth,
            unsaid: truth,
            as_drawn: truth,
        }
    }

    fn outcome(self) -> Outcome {
        Outcome::of(self.truth, self.unsaid, self.as_drawn)
    }

    fn and(self, other: Possible) -> Possible {
        self.join(other, Truth::and)
    }

    fn join(self, other: Possible, join: impl Fn(Truth, Truth) -> Truth) -> Possible {
        Possible {
            truth: join(self.truth, other.truth),
            unsaid: join(self.unsaid, other.unsaid),
            as_drawn: join(self.as_drawn, other.as_drawn),
        }
    }
}

/// What is possible for a rule beside one pool: all its subjects must keep it.
struct OfPool {
    all: Possible,
    /// Whether it surely speaks of something.
    sure: bool,
    /// Whether there may be nothing to measure of something of which it speaks.
    silent: bool,
}

impl OfPool {
    const NONE: OfPool = OfPool {
        all: Possible::NOT_APPLICABLE,
        sure: false,
        silent: false,
    };

    fn add(&mut self, possible: Possible, (sure, silent): (bool, bool)) {
        self.all = self.all.and(possible);
        self.sure |= sure;
        self.silent |= silent;
    }

    /// With what it comes to where there is nothing that it speaks of.
    fn or_none(self, none: Option<Possible>) -> Possible {
        match none.filter(|_| !self.sure) {
            Some(none) if self.silent => self.all.join(none, Truth::or_else),
            Some(none) => self.all.join(none, Truth::absent_as),
            None => self.all,
        }
    }
}

impl<'a> Judge<'a> {
    /// What is found under one rule, with everything uncertain that it rests on.
    pub(crate) fn finding(&self, index: usize, rule: &'a Rule) -> (Finding, Vec<Touch>) {
        let mut possible = Possible::NOT_APPLICABLE;
        let (mut parts, mut touched) = (Vec::new(), Vec::new());
        let mut applies = Truth::NOT_APPLICABLE;
        for pool in self.pools(rule.about_pool) {
            let mut all = OfPool::NONE;
            for target in self.applying(rule, pool, &mut applies, &mut touched) {
                if work::is_spent() {
                    break;
                }
                let (part, log) = self.part(rule, target);
                touched.extend(log);
                let Some((part, own, sure)) = part else {
                    continue;
                };
                let silent = part.places.iter().any(|it| it.base.may_not_apply());
                all.add(own, (sure, silent));
                parts.push(part);
            }
            let none = self.none_of(rule, pool, all.sure);
            let none = none.and_then(|target| {
                let (part, log) = self.part(rule, target);
                touched.extend(log);
                part.map(|(part, own, _)| (part, own))
            });
            possible = possible.and(all.or_none(none.as_ref().map(|(_, own)| *own)));
            parts.extend(none.map(|(part, _)| part));
        }
        let missing = missing_of(&parts);
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
            touched,
        )
    }

    /// The subjects of a rule beside one pool, where it may apply to it.
    fn applying(
        &self,
        rule: &'a Rule,
        pool: Option<Holder>,
        so_far: &mut Truth,
        touched: &mut Vec<Touch>,
    ) -> Vec<Target> {
        let of = Of::Plan;
        let (applies, log) = self
            .scene
            .logging(|| self.applies(rule, Target { of, pool }));
        *so_far = so_far.or(applies);
        touched.extend(log);
        match applies {
            Truth::FAILS => Vec::new(),
            _ => {
                let (targets, log) = self.scene.logging(|| self.targets(rule, pool));
                touched.extend(log);
                targets
            }
        }
    }

    /// What to judge where there is nothing that a rule speaks of, if it says what that means.
    fn none_of(&self, rule: &'a Rule, pool: Option<Holder>, some: bool) -> Option<Target> {
        let each = rule.each.as_ref().filter(|each| each.if_none.is_some());
        let of = Of::None(each?.kind);
        let none = Target { of, pool };
        (!some && self.applies(rule, none) != Truth::FAILS).then_some(none)
    }

    /// What is found about one subject, all that is possible for it, and whether it surely is one.
    fn part(&self, rule: &'a Rule, target: Target) -> (Option<(Part, Possible, bool)>, Vec<Touch>) {
        let looks = self.looks(rule, target);
        let mut touched = Vec::new();
        for look in &looks {
            touched.extend(look.touched.iter().cloned());
        }
        if looks.iter().all(|place| place.look.need.is_none()) {
            return (None, touched);
        }
        let truth = match together(&looks) {
            open if mutant::is_on(Mutant::OpenPasses) && open.is_open() => Truth::HOLDS,
            truth => truth,
        };
        let possible = self.possible(rule, target, truth, &touched);
        let missing = match truth.is_open() {
            false => Vec::new(),
            true => {
                let decided = Outcome::decided(possible.as_drawn).is_some();
                missing::of_part(self, (rule, target), truth, &touched, decided)
            }
        };
        let sure = is_sure(&looks);
        let part = self.told(target, sure, possible, missing, looks);
        (Some((part, possible, sure)), touched)
    }

    /// What is possible for a subject, also if the authority has not yet spoken and if everything were as drawn.
    fn possible(
        &self,
        rule: &'a Rule,
        target: Target,
        truth: Truth,
        touched: &[Touch],
    ) -> Possible {
        if !truth.is_open() {
            return Possible::decided(truth);
        }
        let papers = &self.scene.rules().documents;
        let is_leave = |touch: &Touch| match touch.what {
            Missing::Document(paper, _) => papers.get(paper).is_some_and(|it| it.discretion),
            _ => false,
        };
        let unsaid = self.scene.leaving_open();
        let drawn = self.in_scene(unsaid.drawn_exactly());
        Possible {
            truth,
            unsaid: match touched.iter().any(is_leave) {
                true => self.in_scene(unsaid).truth_of(rule, target),
                false => truth,
            },
            as_drawn: drawn.truth_of(rule, target),
        }
    }

    /// What was found, as it is reported: by the place that decides it.
    fn told(
        &self,
        target: Target,
        sure: bool,
        possible: Possible,
        missing: Vec<Missing>,
        mut looks: Vec<PlaceLook>,
    ) -> Part {
        let truth = possible.truth;
        looks.retain(|place| place.look.need.is_some());
        let deciding = deciding(truth, &looks);
        let places = looks.iter().filter_map(PlaceLook::truth).collect();
        let need = { looks }.into_iter().nth(deciding);
        let need = need.and_then(|place| place.look.need);
        let relief = need.as_ref().and_then(|need| need.relief(truth.applied()));
        let room = need.as_ref().map(|need| need.room(truth.applied()));
        let member = if sure { Truth::HOLDS } else { Truth::OPEN };
        Part {
            subject: target.subject(member),
            pool: target.pool_index(),
            outcome: possible.outcome(),
            truth,
            as_drawn: possible.as_drawn,
            places,
            deciding,
            relief,
            margin: room.and_then(Room::margin),
            readings: need.map_or(Vec::new(), |need| need.deciding(relief)),
            missing,
        }
    }

    /// What is possible for a subject of a rule in this scene.
    pub(crate) fn truth_of(&self, rule: &'a Rule, target: Target) -> Truth {
        together(&self.looks(rule, target))
    }

    /// A look at each place along the things that a rule reads of which the values change; else one look.
    fn looks(&self, rule: &'a Rule, target: Target) -> Vec<PlaceLook> {
        let anywhere = self.place_look(rule, target, Place::default());
        let places = places(&self.scene, &anywhere.touched, &target.subjects());
        if places.is_empty() {
            return vec![anywhere];
        }
        let at = |place: Place| {
            let mut judge = self.in_scene(self.scene.at(place.clone()));
            judge.keeps = self.keeps;
            judge.place_look(rule, target, place)
        };
        let mut looks: Vec<_> = places.into_iter().map(at).collect();
        // A place between the lowest and the highest may be there.
        looks.push(PlaceLook {
            sure: false,
            ..anywhere
        });
        looks
    }

    fn place_look(&self, rule: &'a Rule, target: Target, place: Place) -> PlaceLook {
        let (mut look, touched) = self.scene.logging(|| self.look(rule, target));
        look.truth = split::refined(&self.scene, look.truth, &touched, |scene| {
            self.in_scene(scene).look(rule, target).truth
        });
        PlaceLook {
            place,
            sure: true,
            look,
            touched,
        }
    }

    /// One look at one subject of a rule.
    fn look(&self, rule: &'a Rule, target: Target) -> Look {
        let applies = self.applies(rule, target);
        let none = |member| Look {
            truth: Truth::NOT_APPLICABLE,
            member,
            applies,
            need: None,
        };
        if applies == Truth::FAILS {
            return none(Truth::FAILS);
        }
        self.about(target, rule.each.as_ref(), |env| {
            let member = self.membership(rule, target, env);
            if member == Truth::FAILS {
                return none(member);
            }
            let need = self.need(rule, target, env);
            let own = match member {
                Truth::HOLDS => need.truth(),
                _ => need.truth().or_else(Truth::NOT_APPLICABLE),
            };
            Look {
                truth: under(applies, own),
                member,
                applies,
                need: Some(need),
            }
        })
    }

    /// Whether a subject is one of those that the rule speaks of.
    fn membership(&self, rule: &'a Rule, target: Target, env: &Env<'_>) -> Truth {
        let (Some(each), Of::Thing(holder)) = (&rule.each, target.of) else {
            return Truth::HOLDS;
        };
        if let Holder::Unseen(kind) = holder {
            if self.scene.sees_all(kind) {
                return Truth::FAILS;
            }
            self.scene.touch(Missing::Inventory(kind), true, &[]);
        }
        match (self.is_in(each, holder, env), holder) {
            (Truth::HOLDS, Holder::Thing(_)) => Truth::HOLDS,
            (Truth::FAILS, _) => Truth::FAILS,
            _ => Truth::OPEN,
        }
    }

    /// Whether a rule applies to the plan, beside one pool.
    fn applies(&self, rule: &'a Rule, target: Target) -> Truth {
        let pool = Target {
            of: Of::Plan,
            ..target
        };
        let found = || {
            self.about(pool, None, |env| {
                let when = rule.when.as_ref();
                let when = when.map_or(Truth::HOLDS, |when| self.truth(when, env));
                let unless = rule.unless.as_ref();
                let unless = unless.map_or(Truth::FAILS, |unless| self.truth(unless, env));
                let in_force = rule.in_force.as_ref().or(self.in_force);
                let in_force = in_force.map_or(Truth::HOLDS, |it| self.is_in_force(it, env));
                when.and(unless.negated()).and(in_force)
            })
        };
        self.once_for_pool(rule, target.pool, found)
    }

    /// Whether it is in force for the plan.
    pub(crate) fn is_in_force(&self, in_force: &'a InForce, env: &Env<'_>) -> Truth {
        let truth = |when: &'a Option<Condition>| {
            when.as_ref()
                .map_or(Truth::FAILS, |when| self.anywhere(when, None))
        };
        self.by_day(in_force, env)
            .or(truth(&in_force.or_when))
            .and(truth(&in_force.unless).negated())
    }

    /// Whether the day that counts is one on which it is in force; of several pools, that of any will do.
    fn by_day(&self, in_force: &InForce, env: &Env<'_>) -> Truth {
        let kind = self.scene.rules().vocabulary.fact(in_force.by).kind;
        let things = self.scene.base.of_kind(kind).iter();
        let days =
            things.map(|index| self.on_day(in_force, &env.bind(kind, Holder::Thing(*index))));
        days.reduce(Truth::or)
            .unwrap_or_else(|| self.on_day(in_force, env))
    }

    fn on_day(&self, in_force: &InForce, env: &Env<'_>) -> Truth {
        let cuts: Vec<i128> = [in_force.from, in_force.to].into_iter().flatten().collect();
        let seen = self.scene.fact(in_force.by, env, &cuts);
        let view = &seen.view;
        let Some(day) = view.amount else {
            return Truth::OPEN;
        };
        let day = day.least.hull(day.most);
        let range = crate::quantity::Interval {
            low: in_force.from.unwrap_or(crate::quantity::NO_LOW),
            high: in_force.to.unwrap_or(crate::quantity::NO_HIGH),
        };
        let surely = !view.none && range.low <= day.low && day.high <= range.high;
        Truth::of_comparison(range.meet(day).is_some(), !surely)
    }

    fn need(&self, rule: &'a Rule, target: Target, env: &Env<'_>) -> Need {
        let said = rule.each.as_ref().and_then(|each| each.if_none);
        let base = match (target.of, said) {
            (Of::None(_), Some(said)) => Judged::bare(Truth::of(Level::of_if_none(said))),
            _ => self.judge(&rule.require, env, Ask::REQUIRED),
        };
        let reliefs = rule.reliefs.iter();
        Need {
            base,
            reliefs: reliefs.map(|relief| self.relief(relief, env)).collect(),
        }
    }

    fn relief(&self, relief: &'a Relief, env: &Env<'_>) -> (ReliefTruth, Judged) {
        let open = relief
            .when
            .as_ref()
            .map_or(Truth::HOLDS, |when| self.truth(when, env));
        let own = self.judge(&relief.require, env, Ask::REQUIRED);
        let leave = match relief.leave {
            true if mutant::is_on(Mutant::LeaveHolds) => Truth::HOLDS,
            true => Truth::AUTHORITY,
            false => Truth::HOLDS,
        };
        let met = own.truth.absent_as(Truth::FAILS);
        (
            ReliefTruth {
                open,
                holds: open.and(met).and(leave),
            },
            own,
        )
    }
}

impl PlaceLook {
    /// What is possible; there may be no such place.
    fn possible(&self) -> Truth {
        match self.sure {
            true => self.look.truth,
            false => self.look.truth.or_else(Truth::NOT_APPLICABLE),
        }
    }

    fn truth(&self) -> Option<PlaceTruth> {
        let need = self.look.need.as_ref()?;
        Some(PlaceTruth {
            at: self.place.at(),
            sure: self.sure,
            applies: self.look.applies,
            base: need.base.truth,
            reliefs: need.reliefs.iter().map(|(relief, _)| *relief).collect(),
        })
    }
}

/// What is possible at all places together.
fn together(looks: &[PlaceLook]) -> Truth {
    let possible = looks.iter().map(PlaceLook::possible);
    possible.fold(Truth::NOT_APPLICABLE, Truth::and)
}

/// Whether a subject surely is one of those that the rule speaks of, at one place or more.
fn is_sure(looks: &[PlaceLook]) -> bool {
    let mut sure = looks.iter().filter(|place| place.sure);
    sure.any(|place| place.look.member == Truth::HOLDS)
}

/// The place that decides: one that fails where all together do, one that is open where they are, else the one with the
/// least room. That there may be another place decides only where no sure one does.
fn deciding(truth: Truth, looks: &[PlaceLook]) -> usize {
    let first = |is: &dyn Fn(&PlaceLook) -> bool| looks.iter().position(is);
    let of_worst = match truth {
        Truth::HOLDS => first(&|it| it.sure && it.least_room() == least_room(looks)),
        truth if truth.is_open() => first(&|it| it.sure && it.look.truth == truth)
            .or_else(|| first(&|it| it.sure && it.look.truth.is_open()))
            .or_else(|| first(&|it| it.look.truth.is_open())),
        truth => first(&|it| it.sure && it.look.truth == truth),
    };
    of_worst.or_else(|| first(&|it| it.sure)).unwrap_or(0)
}

impl PlaceLook {
    fn least_room(&self) -> Option<i128> {
        let need = self.look.need.as_ref()?;
        let margin = need.room(self.look.truth.applied()).margin()?;
        Some(margin.range.low)
    }
}

fn least_room(looks: &[PlaceLook]) -> Option<i128> {
    let sure = looks.iter().filter(|place| place.sure);
    sure.filter_map(PlaceLook::least_room).min()
}

/// What is possible where a rule applies in this way.
fn under(applies: Truth, need: Truth) -> Truth {
    match applies {
        Truth::HOLDS => need,
        Truth::FAILS => Truth::NOT_APPLICABLE,
        // Whether it applies may be open, or the authority's to say.
        _ if applies.may_be(Level::Authority) => need
            .or_else(Truth::AUTHORITY)
            .or_else(Truth::NOT_APPLICABLE),
        _ => need.or_else(Truth::NOT_APPLICABLE),
    }
}

/// All that is missing to decide some parts; sorted, none twice.
fn missing_of(parts: &[Part]) -> Vec<Missing> {
    let mut missing: Vec<Missing> = parts.iter().flat_map(|part| part.missing.clone()).collect();
    missing.sort();
    missing.dedup();
    missing
}

/// What is possible for a whole rule in another scene: for the verdict on all rules together.
pub(crate) fn truth_in<'a>(judge: &Judge<'a>, scene: Scene<'a>, rule: &'a Rule) -> Truth {
    let judge = judge.in_scene(scene);
    let of_pool = |pool: Option<Holder>| {
        let mut all = OfPool::NONE;
        for target in judge.applying(
            rule,
            pool,
            &mut Truth::NOT_APPLICABLE.clone(),
            &mut Vec::new(),
        ) {
            let looks = judge.looks(rule, target);
            let needs = || looks.iter().filter_map(|place| place.look.need.as_ref());
            if needs().next().is_some() {
                let silent = needs().any(|need| need.base.truth.may_not_apply());
                all.add(
                    Possible::decided(together(&looks)),
                    (is_sure(&looks), silent),
                );
            }
        }
        let none = judge.none_of(rule, pool, all.sure);
        let none = none.map(|none| Possible::decided(judge.truth_of(rule, none)));
        all.or_none(none).truth
    };
    let pools = judge.pools(rule.about_pool).into_iter().map(of_pool);
    pools.fold(Truth::NOT_APPLICABLE, Truth::and)
}
