//! What a rule requires of one subject, and which relief makes it hold.

use crate::check::judge::slack::Slack;
use crate::check::judge::{Ask, Judge, Judged};
use crate::check::rule::readings::Deciding;
use crate::check::rule::target::{Target, TargetSubject};
use crate::check::world::env::Env;
use crate::check::{Level, Reading, ReliefTruth, Truth};
use crate::ruleset::{Relief, Rule, pieces};
use crate::vocabulary::KindId;

/// A requirement and its reliefs.
pub(crate) struct WithReliefs {
    pub(crate) base: Judged,
    pub(crate) reliefs: Vec<(ReliefTruth, Judged)>,
}

impl WithReliefs {
    /// Where there is nothing to be about, a relief does not hold, and the rule itself does not apply.
    pub(crate) fn truth(&self) -> Truth {
        let reliefs = self.reliefs.iter().map(|(relief, _)| relief.holds);
        let relieved = reliefs.fold(self.base.truth.applied(), Truth::or);
        match self.base.truth.may_not_apply() {
            true => relieved.or_else(Truth::NOT_APPLICABLE),
            false => relieved,
        }
    }

    /// The readings that decide it, with those of the relief that makes the difference.
    pub(crate) fn deciding(self, relief: Option<usize>) -> Vec<Reading> {
        let mut deciding = Deciding::default();
        deciding.add(self.base);
        let relief = relief.and_then(|at| self.reliefs.into_iter().nth(at));
        if let Some((_, judged)) = relief {
            deciding.add(judged);
        }
        deciding.found
    }

    /// The slack that is left. Where a relief makes it pass, the greater of the base's and the relief's.
    pub(crate) fn slack(&self, truth: Truth) -> Slack {
        let by = match truth {
            Truth::HOLDS => self.relief(truth).and_then(|at| self.reliefs.get(at)),
            _ => None,
        };
        by.map_or(self.base.slack, |(_, relief)| {
            self.base.slack.greatest(relief.slack)
        })
    }

    /// The relief that makes the difference, where one does.
    pub(crate) fn relief(&self, truth: Truth) -> Option<usize> {
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
    /// What a rule requires of a target, and its reliefs.
    pub(crate) fn need(&self, rule: &'a Rule, target: Target, env: &Env<'_>) -> WithReliefs {
        let said = rule.each.as_ref().and_then(|each| each.if_none);
        let base = match (target.subject, said) {
            (TargetSubject::None { .. }, Some(said)) => {
                Judged::bare(Truth::of(Level::of_if_none(said)))
            }
            _ => self.judge(&rule.require, env, Ask::REQUIRED),
        };
        let reliefs = rule.reliefs.iter().map(|relief| match target.subject {
            TargetSubject::None { kind, .. } if self.speaks_of(relief, kind) => of_nothing(),
            _ => self.relief(relief, env),
        });
        WithReliefs {
            base,
            reliefs: reliefs.collect(),
        }
    }

    /// Whether a relief is about the thing that a kind's name stands for.
    fn speaks_of(&self, relief: &Relief, kind: KindId) -> bool {
        let mut all = relief.when.iter().chain([&relief.require]);
        all.any(|requirement| pieces::speaks_of(requirement, kind, self.scene.rules()))
    }

    fn relief(&self, relief: &'a Relief, env: &Env<'_>) -> (ReliefTruth, Judged) {
        let open = relief
            .when
            .as_ref()
            .map_or(Truth::HOLDS, |when| self.truth(when, env));
        let own = self.judge(&relief.require, env, Ask::REQUIRED);
        let leave = match relief.leave {
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

/// A relief about something that is not there does not hold.
fn of_nothing() -> (ReliefTruth, Judged) {
    let fails = ReliefTruth {
        open: Truth::FAILS,
        holds: Truth::FAILS,
    };
    (fails, Judged::bare(Truth::FAILS))
}
