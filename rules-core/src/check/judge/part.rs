//! What is found about one subject of a rule.

use crate::check::judge::Judge;
use crate::check::judge::slack::Slack;
use crate::check::world::dependency::Dependency;
use crate::check::world::look::{Membership, PlaceLook, deciding, together};
use crate::check::world::missing;
use crate::check::world::target::Target;
use crate::check::{Missing, Outcome, Part, Truth};
use crate::ruleset::Rule;

/// What is possible for something.
#[derive(Clone, Copy)]
pub(crate) struct Possible {
    /// As it is known.
    pub(crate) truth: Truth,
    /// If the authority has not yet said anything that it is free to say.
    pub(crate) unsaid: Truth,
    /// If everything were exactly as drawn besides.
    pub(crate) as_drawn: Truth,
}

impl Possible {
    pub(crate) const NOT_APPLICABLE: Possible = Possible::decided(Truth::NOT_APPLICABLE);

    pub(crate) const fn decided(truth: Truth) -> Possible {
        Possible {
            truth,
            unsaid: truth,
            as_drawn: truth,
        }
    }

    pub(crate) fn outcome(self) -> Outcome {
        Outcome::of(self.truth, self.unsaid, self.as_drawn)
    }

    pub(crate) fn and(self, other: Possible) -> Possible {
        self.join(other, Truth::and)
    }

    pub(crate) fn join(self, other: Possible, join: impl Fn(Truth, Truth) -> Truth) -> Possible {
        Possible {
            truth: join(self.truth, other.truth),
            unsaid: join(self.unsaid, other.unsaid),
            as_drawn: join(self.as_drawn, other.as_drawn),
        }
    }
}

/// What one subject is for the whole rule.
#[derive(Clone, Copy)]
pub(crate) struct Own {
    pub(crate) possible: Possible,
    /// Whether it is one of those that the rule speaks of.
    pub(crate) member: Membership,
    /// Whether there may be nothing to measure of it.
    pub(crate) silent: bool,
}

impl Own {
    pub(crate) fn of(possible: Possible, looks: &[PlaceLook]) -> Own {
        let mut needs = looks.iter().filter_map(|place| place.look.need.as_ref());
        Own {
            possible,
            member: Membership::of(looks),
            silent: needs.any(|need| need.base.truth.may_not_apply()),
        }
    }
}

impl<'a> Judge<'a> {
    /// What is found about one subject, what that is for the whole rule, and what it rests on.
    pub(crate) fn part(
        &self,
        rule: &'a Rule,
        target: Target,
    ) -> (Option<(Part, Own)>, Vec<Dependency>) {
        let looks = self.looks(rule, target);
        let mut dependencies = Vec::new();
        for look in &looks {
            dependencies.extend(look.dependencies.iter().cloned());
        }
        if looks.iter().all(|place| place.look.need.is_none()) {
            return (None, dependencies);
        }
        let truth = together(target, &looks);
        let possible = self.possible(rule, target, truth, &dependencies);
        let missing = match truth.is_open() {
            false => Vec::new(),
            true => {
                let decided = Outcome::decided(possible.as_drawn).is_some();
                missing::of_part(self, (rule, target), truth, &dependencies, decided)
            }
        };
        let own = Own::of(possible, &looks);
        let part = self.told(target, own, missing, looks);
        (Some((part, own)), dependencies)
    }

    /// What is possible for a subject, also if the authority has not yet spoken and if everything were as drawn.
    fn possible(
        &self,
        rule: &'a Rule,
        target: Target,
        truth: Truth,
        dependencies: &[Dependency],
    ) -> Possible {
        if !truth.is_open() {
            return Possible::decided(truth);
        }
        let papers = &self.scene.rules().documents;
        let is_leave = |touch: &Dependency| match touch.what {
            Missing::Document(paper, _) => papers.get(paper).is_some_and(|it| it.discretion),
            _ => false,
        };
        let unsaid = self.scene.leaving_open();
        let drawn = self.in_scene(unsaid.drawn_exactly());
        Possible {
            truth,
            unsaid: match dependencies.iter().any(is_leave) {
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
        Own {
            possible, member, ..
        }: Own,
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
        let slack = need.as_ref().map(|need| need.slack(truth.applied()));
        let member = if member.sure {
            Truth::HOLDS
        } else {
            Truth::OPEN
        };
        Part {
            subject: target.subject(member),
            pool: target.pool_index(),
            outcome: possible.outcome(),
            truth,
            as_drawn: possible.as_drawn,
            places,
            deciding,
            relief,
            margin: slack.and_then(Slack::margin),
            readings: need.map_or(Vec::new(), |need| need.deciding(relief)),
            missing,
        }
    }
}

/// All that is missing to decide some parts; sorted, none twice.
pub(crate) fn missing_of(parts: &[Part]) -> Vec<Missing> {
    let mut missing: Vec<Missing> = parts.iter().flat_map(|part| part.missing.clone()).collect();
    missing.sort();
    missing.dedup();
    missing
}
