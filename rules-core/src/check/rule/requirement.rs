//! Whether a requirement holds in each world that the plan leaves possible.

use std::sync::Arc;

use crate::check::judge::compare::{Comparison, Standing, whole_choice};
use crate::check::judge::{Ask, Judge, Judged, Node, Role, Slack};
use crate::check::rule::reading::Readings;
use crate::check::world::env::{Env, thing_of};
use crate::check::{Level, Missing, Truth};
use crate::plan::DocumentState;
use crate::ruleset::{Bound, DocumentIndex, Each, IfNone, Requirement, Table, Test, Value};
use crate::work;

impl<'a> Judge<'a> {
    /// Whether a condition holds.
    pub(crate) fn truth(&self, requirement: &'a Requirement, env: &Env<'_>) -> Truth {
        self.judge(requirement, env, Ask::CONDITION).truth
    }

    /// Whether a requirement holds.
    pub(crate) fn judge(&self, requirement: &'a Requirement, env: &Env<'_>, ask: Ask) -> Judged {
        if work::step_is_too_many() {
            return Judged::bare(Truth::OPEN);
        }
        match requirement {
            Requirement::Test(test) => self.test(test, env, ask),
            Requirement::All(list) => self.list(list, env, ask, true),
            Requirement::Any(list) => self.list(list, env, ask, false),
            Requirement::Not(inner) => self.judge(inner, env, ask.opposite()),
            Requirement::Count { of, bounds } => self.count((of, bounds), env, ask),
            Requirement::Each(each) => self.each(each, env, ask),
            Requirement::Table(table) => self.table(table, env, ask),
            Requirement::Meets { term, requirement } => self.term((term, requirement), env, ask),
            Requirement::Have(document) => self.have(*document, env, ask),
            Requirement::Refer => Judged::bare(Truth::AUTHORITY),
        }
    }

    /// All of a list must hold, or any of it; for the opposites it is the other way round.
    fn list(&self, list: &'a [Requirement], env: &Env<'_>, ask: Ask, all: bool) -> Judged {
        let members = list.iter().map(|member| self.judge(member, env, ask));
        match all != ask.negated {
            true => Judged::all(members, self.keeps(ask.role)),
            false => Judged::any(members, self.keeps(ask.role)),
        }
    }

    fn table(&self, table: &'a Table<Requirement>, env: &Env<'_>, ask: Ask) -> Judged {
        let give = |judge: &Self, inner: &'a Requirement| judge.judge(inner, env, ask);
        Judged::either(self.rows(table, env, give, Judged::bare(Truth::AUTHORITY)))
    }

    fn have(&self, document: DocumentIndex, env: &Env<'_>, ask: Ask) -> Judged {
        let truth = self.paper(document, env);
        Judged::bare(if ask.negated { truth.negated() } else { truth })
    }

    /// Whether a document is in hand. Where there is one for each thing, the one for the bound thing counts.
    fn paper(&self, document: DocumentIndex, env: &Env<'_>) -> Truth {
        let Some(paper) = self.scene.rules().documents.get(document) else {
            return Truth::OPEN;
        };
        let of = paper
            .each
            .as_ref()
            .map(|each| self.scene.referent(each.kind, env));
        let thing = of.and_then(thing_of);
        if let Some(thing) = thing {
            self.scene.base.note_read(thing);
        }
        if let Some(in_hand) = self.scene.paper(document, thing) {
            return Truth::of_comparison(in_hand, !in_hand);
        }
        let state = match of {
            Some(_) => thing.and_then(|thing| self.scene.plan().paper_of(&paper.id, thing)),
            None => self.scene.plan().paper(&paper.id),
        };
        match state {
            Some(DocumentState::InHand) => Truth::HOLDS,
            Some(DocumentState::Refused) => Truth::FAILS,
            state => {
                self.scene
                    .depends_on(Missing::Document(document, thing), true, &[]);
                let not_said = self.scene.leave_open || state.is_some();
                match (paper.discretion, not_said) {
                    (false, _) => Truth::OPEN,
                    (true, true) => Truth::AUTHORITY,
                    (true, false) => Truth::OPEN.or_else(Truth::AUTHORITY),
                }
            }
        }
    }

    fn each(&self, each: &'a Each, env: &Env<'_>, ask: Ask) -> Judged {
        let members = self.members(&each.selection, env);
        let if_none = self.if_none(each.selection.if_none, ask);
        if members.surely_empty() {
            return if_none;
        }
        // Whether the requirement may not apply to one of the members.
        let mut may_not_apply = false;
        let outlying = self.outlying(each, &members.list, env, ask);
        let listed = members.list.iter().enumerate();
        let near = listed.filter(|(place, _)| !outlying.leaves_out(*place));
        let judged = near.map(|(_, (referent, sure))| {
            let inner = env.bind_in(
                each.selection.kind,
                *referent,
                each.selection.zone.as_deref(),
            );
            let own = self.judge(&each.require, &inner, ask);
            may_not_apply |= own.truth.may_not_apply();
            if *sure { own } else { own.perhaps() }
        });
        let keeps = self.keeps(ask.role);
        let all = match ask.negated {
            false => Judged::all(judged, keeps),
            true => Judged::any(judged, keeps),
        };
        if !members.perhaps_empty() || if_none.is_void() {
            return all;
        }
        let truth = match may_not_apply {
            true => all.truth.or_else(if_none.truth),
            false => all.truth.absent_as(if_none.truth),
        };
        Judged {
            truth,
            ..Judged::either(vec![all, if_none])
        }
    }

    /// The result where there are no members. Unless the rule states it, a condition on each of them holds.
    fn if_none(&self, said: Option<IfNone>, ask: Ask) -> Judged {
        let plain = match said {
            Some(said) => Truth::of(Level::of_if_none(said)),
            None if ask.role == Role::Condition => Truth::HOLDS,
            None => Truth::NOT_APPLICABLE,
        };
        Judged::bare(match ask.negated {
            true => plain.negated().absent_as(Truth::HOLDS),
            false => plain,
        })
    }

    fn count(
        &self,
        (of, bounds): (&'a [Requirement], &'a [Bound]),
        env: &Env<'_>,
        ask: Ask,
    ) -> Judged {
        let plain = Ask {
            negated: false,
            ..ask
        };
        let members: Vec<_> = of.iter().map(|it| self.judge(it, env, plain)).collect();
        let truths: Vec<Truth> = members.iter().map(|member| member.truth).collect();
        let truth = bounds.iter().fold(Truth::NOT_APPLICABLE, |all, bound| {
            all.and(self.counted(&truths, bound, env))
        });
        // A prohibition is met where there is nothing that it is about.
        let truth = match ask.negated {
            true => truth.negated().absent_as(Truth::HOLDS),
            false => truth,
        };
        Judged {
            truth,
            slack: Slack::of_truth(truth),
            node: Node::Other(members),
        }
    }

    fn counted(&self, truths: &[Truth], bound: &'a Bound, env: &Env<'_>) -> Truth {
        let at_least = |wanted: i128| match usize::try_from(wanted) {
            Ok(wanted) => Truth::at_least(wanted, truths),
            Err(_) => Truth::HOLDS,
        };
        let whole = |value: &'a Value| self.whole_numbers(value, env);
        match bound {
            Bound::AtLeast(value) => whole(value).map_or(Truth::OPEN, |(_, n)| at_least(n)),
            Bound::MoreThan(value) => whole(value).map_or(Truth::OPEN, |(n, _)| at_least(n + 1)),
            Bound::AtMost(value) => {
                whole(value).map_or(Truth::OPEN, |(n, _)| at_least(n + 1).negated())
            }
            Bound::LessThan(value) => {
                whole(value).map_or(Truth::OPEN, |(_, n)| at_least(n).negated())
            }
            Bound::Is(choices) => choices
                .iter()
                .filter_map(whole_choice)
                .map(|n| at_least(n).and(at_least(n + 1).negated()))
                .fold(Truth::FAILS, Truth::or),
        }
    }

    fn test(&self, test: &'a Arc<Test>, env: &Env<'_>, ask: Ask) -> Judged {
        let here = match test.holds {
            Some(_) => env.whole(),
            None => *env,
        };
        let reading = |(at, bound)| self.reading((test, at, bound), &here, ask);
        match test.bounds.as_slice() {
            [only] => reading((0, only)),
            bounds => {
                let readings = bounds.iter().enumerate().map(reading);
                match ask.negated {
                    false => Judged::all(readings, self.keeps(ask.role)),
                    true => Judged::any(readings, self.keeps(ask.role)),
                }
            }
        }
    }

    fn reading(
        &self,
        (test, at, bound): (&'a Arc<Test>, usize, &'a Bound),
        env: &Env<'_>,
        ask: Ask,
    ) -> Judged {
        let comparison = Comparison {
            bound,
            holds: test.holds,
            role: ask.role,
        };
        let readings = Readings {
            judge: self,
            env,
            ask,
        };
        let (Standing { truth, slack }, reading) = readings.take((test, at), comparison);
        Judged {
            truth,
            slack,
            node: reading.map_or(Node::Other(Vec::new()), |reading| {
                Node::Leaf(Box::new(reading))
            }),
        }
    }
}

impl Level {
    /// What `if-none` makes of an empty selection.
    pub(crate) fn of_if_none(said: IfNone) -> Level {
        match said {
            IfNone::Passes => Level::Holds,
            IfNone::Fails => Level::Fails,
            IfNone::Refer => Level::Authority,
        }
    }
}
