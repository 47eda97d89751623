//! Judges one rule: for each of its subjects, whether it applies, whether it holds, and by which relief.

use super::judge::{Asked, Judge, Judged, if_none};
use super::room::Room;
use super::scene::{Env, Holder, Scene, Touch};
use super::{
    Finding, Level, Missing, Outcome, Part, Reading, ReliefTruth, Subject, Truth, missing,
    readings, split,
};
use crate::mutant::{self, Mutant};
use crate::ruleset::{InForce, Relief, Requirement, Rule};

/// One subject of a rule: the thing under `each`, and the pool that the rule is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Target {
    pub(crate) each: Option<Holder>,
    pub(crate) pool: Option<Holder>,
}

/// What one look at one subject of a rule gave.
pub(crate) struct Look<'a> {
    pub(crate) truth: Truth,
    /// Whether the subject is one of those that the rule speaks of.
    pub(crate) member: Truth,
    pub(crate) need: Option<Need<'a>>,
}

/// A requirement and its reliefs.
pub(crate) struct Need<'a> {
    pub(crate) base: Judged<'a>,
    pub(crate) reliefs: Vec<(ReliefTruth, Judged<'a>)>,
}

impl<'a> Need<'a> {
    fn truth(&self) -> Truth {
        if self.base.void {
            return Truth::NOT_APPLICABLE;
        }
        self.reliefs
            .iter()
            .fold(self.base.truth, |any, (relief, _)| any.or(relief.holds))
    }

    /// The readings that it rests on, with those of the relief that makes the difference.
    fn deciding(self, relief: Option<usize>) -> Vec<Reading<'a>> {
        let mut found = Vec::new();
        readings::deciding(self.base, &mut found);
        let relief = relief.and_then(|at| self.reliefs.into_iter().nth(at));
        if let Some((_, judged)) = relief {
            readings::deciding(judged, &mut found);
        }
        found
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

impl<'a> Judge<'a> {
    /// What is found under one rule, with everything uncertain that it rests on.
    pub(crate) fn finding(&self, index: usize, rule: &'a Rule) -> (Finding<'a>, Vec<Touch>) {
        self.scene.take_log();
        let applies = self.applies(rule, &Env::EMPTY);
        let mut touched = self.scene.take_log();
        let mut parts = Vec::new();
        if applies != Truth::FAILS {
            // Where there is but one pool, "the pool" means it with and without its name.
            let one_pool = self.scene.base.of_kind(self.special.pool).len() <= 1;
            let known = one_pool.then(|| (applies, touched.clone()));
            for target in self.targets(rule) {
                let (part, log) = self.part(rule, target, known.as_ref());
                touched.extend(log);
                parts.extend(part);
            }
        }
        let truth = whole(rule, applies, &parts, |part| part.truth);
        let as_drawn = whole(rule, applies, &parts, |part| part.as_drawn);
        let mut missing: Vec<Missing> =
            parts.iter().flat_map(|part| part.missing.clone()).collect();
        missing.sort();
        missing.dedup();
        let outcome = Outcome::of(truth, as_drawn);
        (
            Finding {
                rule: index,
                outcome,
                truth,
                applies,
                parts,
                missing,
            },
            touched,
        )
    }

    /// The subjects of a rule: every thing of its kind, drawn or not; the plan itself where it has no `each`. A rule
    /// that says nothing else is about each pool.
    pub(crate) fn targets(&self, rule: &'a Rule) -> Vec<Target> {
        let pools = self.scene.base.of_kind(self.special.pool);
        let about_pools = rule
            .each
            .as_ref()
            .is_some_and(|each| each.kind == self.special.pool);
        let pools: Vec<Option<Holder>> = match pools {
            [] => vec![None],
            _ if about_pools => vec![None],
            pools => pools
                .iter()
                .map(|pool| Some(Holder::Thing(*pool)))
                .collect(),
        };
        let things: Vec<Option<Holder>> = match &rule.each {
            Some(selection) => self
                .all_of_kind(selection.kind)
                .into_iter()
                .map(|(holder, _)| Some(holder))
                .collect(),
            None => vec![None],
        };
        let pair =
            |pool: Option<Holder>| things.iter().map(move |each| Target { each: *each, pool });
        pools.into_iter().flat_map(pair).collect()
    }

    /// What is found about one subject; `known` is whether the rule applies to it and what that rests on, where that
    /// was found before.
    fn part(
        &self,
        rule: &'a Rule,
        target: Target,
        known: Option<&(Truth, Vec<Touch>)>,
    ) -> (Option<Part<'a>>, Vec<Touch>) {
        let look = match known {
            Some((applies, _)) => self.look_at(rule, target, *applies),
            None => self.look(rule, target),
        };
        let mut touched = self.scene.take_log();
        touched.extend(known.into_iter().flat_map(|(_, log)| log.clone()));
        let Some(need) = look.need else {
            return (None, touched);
        };
        let truth = split::refined(self, rule, target, look.truth, &touched);
        let truth = match mutant::is_on(Mutant::OpenPasses) && truth.is_open() {
            true => Truth::HOLDS,
            false => truth,
        };
        let (as_drawn, missing) = if truth.is_open() {
            let drawn = split::truth(&self.in_scene(self.scene.drawn_exactly()), rule, target);
            let decided = Outcome::decided(drawn).is_some();
            (
                drawn,
                missing::of_part(self, (rule, target), truth, &touched, decided),
            )
        } else {
            (truth, Vec::new())
        };
        let relief = need.relief(truth.applied());
        let part = Part {
            subject: subject(target, look.member),
            outcome: Outcome::of(truth, as_drawn),
            truth,
            as_drawn,
            base: need.base.truth,
            reliefs: need.reliefs.iter().map(|(relief, _)| *relief).collect(),
            relief,
            margin: need.room(truth.applied()).margin(),
            readings: need.deciding(relief),
            missing,
        };
        (Some(part), touched)
    }

    /// One look at one subject of a rule.
    pub(crate) fn look(&self, rule: &'a Rule, target: Target) -> Look<'a> {
        let applies = self.applies(rule, &self.about_pool(&Env::EMPTY, target));
        self.look_at(rule, target, applies)
    }

    /// Where the pool's name stands for the pool that a rule is about.
    fn about_pool<'e>(&self, outer: &'e Env<'e>, target: Target) -> Env<'e> {
        match target.pool {
            Some(pool) => outer.bind(self.special.pool, pool),
            None => *outer,
        }
    }

    /// One look at one subject of a rule that applies to it in this way.
    fn look_at(&self, rule: &'a Rule, target: Target, applies: Truth) -> Look<'a> {
        let empty = Env::EMPTY;
        let with_pool = self.about_pool(&empty, target);
        let none = |member| Look {
            truth: Truth::NOT_APPLICABLE,
            member,
            need: None,
        };
        if applies == Truth::FAILS {
            return none(Truth::FAILS);
        }
        let (Some(selection), Some(holder)) = (&rule.each, target.each) else {
            let need = self.need(rule, &with_pool);
            return Look {
                truth: under(applies, need.truth()),
                member: Truth::HOLDS,
                need: Some(need),
            };
        };
        let inner = with_pool.bind_in(selection.kind, holder, selection.zone.as_deref());
        let member = self.is_in(selection, holder, &inner);
        if member == Truth::FAILS {
            return none(member);
        }
        let need = self.need(rule, &inner);
        let sure = member == Truth::HOLDS && matches!(holder, Holder::Thing(_));
        let own = if sure {
            need.truth()
        } else {
            need.truth().or_else(Truth::HOLDS)
        };
        let member = if sure { Truth::HOLDS } else { Truth::OPEN };
        Look {
            truth: under(applies, own),
            member,
            need: Some(need),
        }
    }

    /// Whether a rule applies to the plan.
    fn applies(&self, rule: &'a Rule, env: &Env<'_>) -> Truth {
        let when = rule
            .when
            .as_ref()
            .map_or(Truth::HOLDS, |when| self.truth(when, env));
        let unless = rule
            .unless
            .as_ref()
            .map_or(Truth::HOLDS, |unless| self.truth(unless, env).negated());
        let own = rule.in_force.as_ref().or(self.in_force);
        when.and(unless)
            .and(own.map_or(Truth::HOLDS, |in_force| self.is_in_force(in_force, env)))
    }

    /// Whether it is in force for the plan.
    pub(crate) fn is_in_force(&self, in_force: &'a InForce, env: &Env<'_>) -> Truth {
        let truth = |when: &'a Option<Requirement>| {
            when.as_ref()
                .map_or(Truth::FAILS, |when| self.truth(when, env))
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

    fn need(&self, rule: &'a Rule, env: &Env<'_>) -> Need<'a> {
        Need {
            base: self.judge(&rule.require, env, Asked::Required),
            reliefs: rule
                .reliefs
                .iter()
                .map(|relief| self.relief(relief, env))
                .collect(),
        }
    }

    fn relief(&self, relief: &'a Relief, env: &Env<'_>) -> (ReliefTruth, Judged<'a>) {
        let open = relief
            .when
            .as_ref()
            .map_or(Truth::HOLDS, |when| self.truth(when, env));
        let own = self.judge(&relief.require, env, Asked::Required);
        let leave = match relief.leave {
            true if mutant::is_on(Mutant::LeaveHolds) => Truth::HOLDS,
            true => Truth::AUTHORITY,
            false => Truth::HOLDS,
        };
        (
            ReliefTruth {
                open,
                holds: open.and(own.truth).and(leave),
            },
            own,
        )
    }
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

/// What is possible for a rule with all its subjects: that it does not apply to one stands in nobody's way.
pub(crate) fn whole<T>(
    rule: &Rule,
    applies: Truth,
    parts: &[T],
    truth: impl Fn(&T) -> Truth,
) -> Truth
where
    T: IsSure,
{
    if applies == Truth::FAILS {
        return Truth::NOT_APPLICABLE;
    }
    let empty = match (&rule.each, rule.each.as_ref().and_then(|each| each.if_none)) {
        (Some(_), Some(said)) => under(applies, if_none(Some(said)).truth),
        _ => Truth::NOT_APPLICABLE,
    };
    if parts.is_empty() {
        return empty;
    }
    let all = parts
        .iter()
        .map(&truth)
        .fold(None, |all: Option<Truth>, own| {
            Some(all.map_or(own, |all| both(all, own)))
        });
    let all = all.unwrap_or(empty);
    let perhaps_empty =
        rule.each.is_some() && !parts.iter().any(IsSure::is_sure) && empty != Truth::NOT_APPLICABLE;
    if perhaps_empty {
        all.or_else(empty)
    } else {
        all
    }
}

/// Both of two subjects, either of which may not be one at all.
fn both(one: Truth, two: Truth) -> Truth {
    let plain = one.applied().and(two.applied());
    let only_one = if two.may_not_apply() {
        one
    } else {
        Truth::NONE
    };
    let only_two = if one.may_not_apply() {
        two
    } else {
        Truth::NONE
    };
    plain.or_else(only_one).or_else(only_two)
}

/// Whether a subject surely is one of those that a rule speaks of.
pub(crate) trait IsSure {
    fn is_sure(&self) -> bool;
}

impl IsSure for Part<'_> {
    fn is_sure(&self) -> bool {
        matches!(
            self.subject,
            Subject::Plan | Subject::Thing { sure: true, .. }
        )
    }
}

impl IsSure for (Truth, bool) {
    fn is_sure(&self) -> bool {
        self.1
    }
}

fn subject(target: Target, member: Truth) -> Subject {
    match target.each {
        Some(Holder::Thing(index)) => Subject::Thing {
            index,
            sure: member == Truth::HOLDS,
        },
        Some(Holder::Unseen(kind)) => Subject::Unseen(kind),
        _ => Subject::Plan,
    }
}

/// What is possible for a whole rule in another scene: for the verdict on all rules together.
pub(crate) fn truth_in<'a>(judge: &Judge<'a>, scene: Scene<'a>, rule: &'a Rule) -> Truth {
    let judge = judge.in_scene(scene);
    let applies = judge.applies(rule, &Env::EMPTY);
    if applies == Truth::FAILS {
        return Truth::NOT_APPLICABLE;
    }
    let looks = judge.targets(rule).into_iter().map(|target| {
        let look = judge.look(rule, target);
        (look.truth, look.member == Truth::HOLDS, look.need.is_some())
    });
    let parts: Vec<(Truth, bool)> = looks
        .filter(|(_, _, is_part)| *is_part)
        .map(|(truth, sure, _)| (truth, sure))
        .collect();
    whole(rule, applies, &parts, |(truth, _)| *truth)
}
