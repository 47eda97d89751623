//! The results of terms: each is judged once for each thing that it is about, however often it is used.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;

use crate::check::Truth;
use crate::check::judge::members::Members;
use crate::check::judge::possible::PossibleValue;
use crate::check::judge::{Ask, Judge, Judged, Node};
use crate::check::world::dependency::Dependency;
use crate::check::world::env::{Env, Referent};
use crate::check::world::split;
use crate::ruleset::{Requirement, Rule, Scope, Selection, TermUse, Value};
use crate::vocabulary::FactId;

/// The results found in one scene.
#[derive(Default)]
pub(crate) struct Memos {
    judged: Memo<Rc<Judged>>,
    values: Memo<PossibleValue>,
    members: Memo<Members>,
    applies: Memo<Truth>,
    /// The results from before some facts were settled. They still hold where they do not depend on those facts.
    before: Option<(Rc<Memos>, Facts)>,
}

impl Memos {
    /// The results for the same scene with these facts settled.
    pub(crate) fn settling(before: &Rc<Memos>, facts: Facts) -> Memos {
        Memos {
            before: Some((Rc::clone(before), facts)),
            ..Memos::default()
        }
    }

    /// A known result, from this scene or from before any fact was settled that it depends on.
    fn known<T: Clone>(&self, of: fn(&Memos) -> &Memo<T>, key: Key) -> Option<Known<T>> {
        let (mut memos, mut settled) = (self, Vec::new());
        loop {
            let found = of(memos).borrow().get(&key).cloned();
            let is_settled = |dependency: &Dependency| {
                split::key(dependency).is_some_and(|it| settled.contains(&(it.referent, it.fact)))
            };
            if let Some(found) = found {
                return (!found.dependencies.iter().any(is_settled)).then_some(found);
            }
            let (before, facts) = memos.before.as_ref()?;
            settled.extend(facts);
            memos = before;
        }
    }
}

/// Facts of things.
pub(crate) type Facts = Vec<(Referent, FactId)>;

/// Results by key.
type Memo<T> = RefCell<BTreeMap<Key, Known<T>>>;

#[derive(Clone)]
struct Known<T> {
    found: T,
    /// All that it depends on.
    dependencies: Rc<[Dependency]>,
    /// Whether anything was read that may differ between pools that are alike.
    pool_specific: bool,
}

/// What a result is for: a term, how it is asked, and the things that its names stand for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Key {
    /// The address of the term's content, which is the same for every use.
    stored: usize,
    ask: Option<Ask>,
    whole: bool,
    pool: Option<Referent>,
    of: Option<Referent>,
    /// The address of the zone to which the thing is clipped.
    zone: usize,
}

impl<'a> Judge<'a> {
    /// Whether a term holds.
    pub(crate) fn term(
        &self,
        (term, requirement): (&'a TermUse, &'a Arc<Requirement>),
        env: &Env<'_>,
        ask: Ask,
    ) -> Judged {
        let key = self.key(stored(requirement), Some(ask), term.scope, env);
        let judged = self.remembered(
            |memos| &memos.judged,
            key,
            || {
                self.within(term.scope, env, |inner| {
                    Rc::new(self.judge(requirement, inner, ask))
                })
            },
        );
        Judged {
            truth: judged.truth,
            slack: judged.slack,
            node: match self.keeps(ask.role) {
                true => Node::Term(judged),
                false => Node::Other(Vec::new()),
            },
        }
    }

    /// The possible values of a term.
    pub(crate) fn term_value(
        &self,
        (term, value): (&'a TermUse, &'a Arc<Value>),
        env: &Env<'_>,
        thresholds: &[i128],
    ) -> PossibleValue {
        let find = || {
            self.within(term.scope, env, |inner| {
                self.value(value, inner, thresholds)
            })
        };
        // Looking up a fact is quick, and the amounts that it is compared with must be noted each time.
        if fact_behind(value).is_some() {
            return find();
        }
        let key = self.key(stored(value), None, term.scope, env);
        self.remembered(|memos| &memos.values, key, find)
    }

    /// The members of a selection that makes up a whole term.
    pub(crate) fn term_members(
        &self,
        (scope, selection): (Scope, &'a Selection),
        env: &Env<'_>,
    ) -> Members {
        let find = || self.within(scope, env, |inner| self.selected(selection, inner));
        let place = match (&selection.filter, &selection.zone) {
            (Some(filter), _) => stored(filter),
            (None, Some(zone)) => stored(zone),
            (None, None) => return find(),
        };
        let key = self.key(place, None, scope, env);
        self.remembered(|memos| &memos.members, key, find)
    }

    /// Whether a rule applies for one pool, found once.
    pub(crate) fn once_for_pool(
        &self,
        rule: &'a Rule,
        pool: Option<Referent>,
        find: impl FnOnce() -> Truth,
    ) -> Truth {
        let key = Key {
            stored: std::ptr::from_ref(rule) as usize,
            ask: None,
            whole: false,
            pool,
            of: None,
            zone: 0,
        };
        self.remembered(|memos| &memos.applies, key, find)
    }

    fn remembered<T: Clone>(
        &self,
        of: fn(&Memos) -> &Memo<T>,
        key: Key,
        find: impl FnOnce() -> T,
    ) -> T {
        if let Some(known) = self.memos.known(of, key) {
            return self.reuse(known);
        }
        let base = &self.scene.base;
        let ((found, dependencies), pool_specific) =
            base.watching_pools(|| self.scene.logging(find));
        let known = Known {
            found,
            dependencies: dependencies.into(),
            pool_specific,
        };
        let mut memo = of(&self.memos).borrow_mut();
        memo.insert(key, known.clone());
        self.reuse(known)
    }

    /// A known result; notes all that it depends on.
    fn reuse<T>(&self, known: Known<T>) -> T {
        self.scene.note(&known.dependencies);
        if known.pool_specific {
            self.scene.base.note_pool_specific();
        }
        known.found
    }

    fn key(&self, stored: usize, ask: Option<Ask>, scope: Scope, env: &Env<'_>) -> Key {
        let zone = scope.of.and_then(|kind| env.zone(kind));
        Key {
            stored,
            ask,
            whole: env.is_whole(),
            pool: env.bound(self.special.pool).filter(|_| scope.about_pool),
            of: scope.of.and_then(|kind| env.bound(kind)),
            zone: zone.map_or(0, |zone| std::ptr::from_ref(zone) as usize),
        }
    }

    /// Runs a function where names stand only for what a term may be about.
    pub(crate) fn within<T>(
        &self,
        scope: Scope,
        env: &Env<'_>,
        act: impl FnOnce(&Env<'_>) -> T,
    ) -> T {
        let bare = match env.is_whole() {
            true => Env::EMPTY.whole(),
            false => Env::EMPTY,
        };
        let pool = scope.about_pool.then_some(self.special.pool);
        let bound = |kind| Some((kind, env.bound(kind)?, env.zone(kind)));
        let pool = pool.and_then(bound);
        let of = scope.of.and_then(bound);
        let with_pool = match pool {
            Some((kind, referent, zone)) => bare.bind_in(kind, referent, zone),
            None => bare,
        };
        match of {
            Some((kind, referent, zone)) => act(&with_pool.bind_in(kind, referent, zone)),
            None => act(&with_pool),
        }
    }
}

/// The fact that a value stands for, directly or by name.
fn fact_behind(value: &Value) -> Option<FactId> {
    match value {
        Value::Fact(fact) => Some(*fact),
        Value::Named { value, .. } => fact_behind(value),
        _ => None,
    }
}

/// The address of something shared.
fn stored<T>(shared: &Arc<T>) -> usize {
    Arc::as_ptr(shared) as usize
}
