//! Whether a rule applies to the plan, and whether it is in force.

use crate::check::Truth;
use crate::check::judge::Judge;
use crate::check::rule::target::{Target, TargetSubject};
use crate::check::world::env::{Env, Referent};
use crate::quantity::{Interval, NO_HIGH, NO_LOW};
use crate::ruleset::{Condition, InForce, Rule};

impl<'a> Judge<'a> {
    /// Whether a rule applies to the plan, for one pool.
    pub(crate) fn applies(&self, rule: &'a Rule, target: Target) -> Truth {
        if let Some(settled) = self.scene.applies {
            return settled;
        }
        let of = |pool| Target {
            subject: TargetSubject::Plan,
            pool,
        };
        let pool = self.pool_of(target);
        let found = || {
            let asked = self.about(of(target.pool), None, |env| {
                let when = rule.when.as_ref();
                let when = when.map_or(Truth::HOLDS, |when| self.truth(when, env));
                let unless = rule.unless.as_ref();
                let unless = unless.map_or(Truth::FAILS, |unless| self.truth(unless, env));
                when.and(unless.negated())
            });
            // The days of the file that was asked for are those of its own rules.
            let of_file = self.in_force.filter(|_| rule.layer == 0);
            let in_force = rule.in_force.as_ref().or(of_file);
            let in_force = in_force.map_or(Truth::HOLDS, |it| {
                self.about(of(pool), None, |env| self.is_in_force(it, env))
            });
            asked.and(in_force)
        };
        self.once_for_pool(rule, pool, found)
    }

    /// The pool that a target is about, or is itself.
    fn pool_of(&self, target: Target) -> Option<Referent> {
        let itself = match target.subject {
            TargetSubject::Thing(referent @ Referent::Thing(index)) => {
                let is_pool = self.scene.base.pools().contains(&index);
                is_pool.then_some(referent)
            }
            _ => None,
        };
        target.pool.or(itself)
    }

    /// Whether it is in force for the pool that is meant; where none is meant, for any pool.
    fn is_in_force(&self, in_force: &'a InForce, env: &Env<'_>) -> Truth {
        let kind = self.scene.rules().vocabulary.fact(in_force.by).kind;
        let day = match env.bound(kind) {
            Some(_) => self.on_day(in_force, env),
            None => self.by_day(in_force, Truth::or),
        };
        self.besides(in_force, day, env)
    }

    /// Whether it governs the plan. Open where it is in force for one pool and not for another.
    pub(crate) fn governs(&self, in_force: &'a InForce) -> Truth {
        self.besides(in_force, self.by_day(in_force, Truth::or_else), &Env::EMPTY)
    }

    /// For the pool that is meant. Where none is meant, it is in force if it is for any pool, so what takes it out of force must
    /// hold for each of them.
    fn besides(&self, in_force: &'a InForce, day: Truth, env: &Env<'_>) -> Truth {
        let one = env.bound(self.special.pool).is_some();
        let truth = |when: &'a Option<Condition>, together| match when {
            None => Truth::FAILS,
            Some(when) if one && when.about_pool => self.truth(&when.requirement, env),
            Some(when) => self.of_pools(when, None, together),
        };
        day.or(truth(&in_force.or_when, Truth::or))
            .and(truth(&in_force.unless, Truth::and).negated())
    }

    /// Whether it is in force on the day that counts. Where there are several pools, `together` joins the answers for each
    /// pool's day.
    fn by_day(&self, in_force: &InForce, together: fn(Truth, Truth) -> Truth) -> Truth {
        let kind = self.scene.rules().vocabulary.fact(in_force.by).kind;
        let things = self.scene.base.of_kind(kind).iter();
        let days = things
            .map(|index| self.on_day(in_force, &Env::EMPTY.bind(kind, Referent::Thing(*index))));
        days.reduce(together)
            .unwrap_or_else(|| self.on_day(in_force, &Env::EMPTY))
    }

    fn on_day(&self, in_force: &InForce, env: &Env<'_>) -> Truth {
        let thresholds: Vec<i128> = [in_force.from, in_force.to].into_iter().flatten().collect();
        let seen = self.scene.fact(in_force.by, env, &thresholds);
        let view = &seen.view;
        let Some(day) = view.amount else {
            return Truth::OPEN;
        };
        let day = day.least.hull(day.most);
        let range = Interval {
            low: in_force.from.unwrap_or(NO_LOW),
            high: in_force.to.unwrap_or(NO_HIGH),
        };
        let surely = !view.none && range.low <= day.low && day.high <= range.high;
        Truth::of_comparison(range.meet(day).is_some(), !surely)
    }
}
