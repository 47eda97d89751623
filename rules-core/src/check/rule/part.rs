//! The findings about one subject of a rule.

use crate::check::judge::Judge;
use crate::check::judge::slack::Slack;
use crate::check::rule::assessment::{Membership, PlaceAssessment, deciding};
use crate::check::rule::missing;
use crate::check::rule::target::Target;
use crate::check::world::dependency::Dependency;
use crate::check::{Missing, Outcome, Part, Truth};
use crate::ruleset::Rule;

/// The truth of something, seen in three ways.
#[derive(Clone, Copy)]
pub(crate) struct Truths {
    /// As the plan is known.
    pub(crate) truth: Truth,
    /// If the authority has not yet decided anything that is at its discretion.
    pub(crate) unsaid: Truth,
    /// If, in addition, everything is exactly as drawn.
    pub(crate) as_drawn: Truth,
}

impl Truths {
    pub(crate) const NOT_APPLICABLE: Truths = Truths::decided(Truth::NOT_APPLICABLE);

    pub(crate) const fn decided(truth: Truth) -> Truths {
        Truths {
            truth,
            unsaid: truth,
            as_drawn: truth,
        }
    }

    pub(crate) fn outcome(self) -> Outcome {
        Outcome::of(self.truth, self.unsaid, self.as_drawn)
    }

    pub(crate) fn and(self, other: Truths) -> Truths {
        self.join(other, Truth::and)
    }

    pub(crate) fn join(self, other: Truths, join: impl Fn(Truth, Truth) -> Truth) -> Truths {
        Truths {
            truth: join(self.truth, other.truth),
            unsaid: join(self.unsaid, other.unsaid),
            as_drawn: join(self.as_drawn, other.as_drawn),
        }
    }
}

/// What one subject contributes to the result for the whole rule.
#[derive(Clone, Copy)]
pub(crate) struct Contribution {
    pub(crate) truths: Truths,
    /// Whether the rule is about it.
    pub(crate) member: Membership,
    /// Whether there may be nothing to measure on it.
    pub(crate) may_not_apply: bool,
}

impl Contribution {
    pub(crate) fn of(truths: Truths, assessments: &[PlaceAssessment]) -> Contribution {
        let needs = assessments.iter();
        let mut needs = needs.filter_map(|place| place.found.need.as_ref());
        Contribution {
            truths,
            member: Membership::of(assessments),
            may_not_apply: needs.any(|need| need.base.truth.may_not_apply()),
        }
    }
}

impl<'a> Judge<'a> {
    /// The findings about one subject, what it contributes to the whole rule, and what all this depends on.
    pub(crate) fn part(
        &self,
        rule: &'a Rule,
        target: Target,
    ) -> (Option<(Part, Contribution)>, Vec<Dependency>) {
        let assessments = self.assess(rule, target);
        let mut dependencies = Vec::new();
        for place in &assessments {
            dependencies.extend(place.dependencies.iter().cloned());
        }
        if assessments.iter().all(|place| place.found.need.is_none()) {
            return (None, dependencies);
        }
        let truth = self.together((rule, target), &assessments);
        let truths = self.truths(rule, target, truth, &dependencies);
        let missing = match truth.is_open() {
            false => Vec::new(),
            true => {
                let decided = Outcome::decided(truths.as_drawn).is_some();
                missing::for_part(self, (rule, target), truth, &dependencies, decided)
            }
        };
        let contribution = Contribution::of(truths, &assessments);
        let part = self.reported(target, contribution, missing, assessments);
        (Some((part, contribution)), dependencies)
    }

    /// The truth for a subject, also before the authority has spoken and with everything as drawn.
    fn truths(
        &self,
        rule: &'a Rule,
        target: Target,
        truth: Truth,
        dependencies: &[Dependency],
    ) -> Truths {
        if !truth.is_open() {
            return Truths::decided(truth);
        }
        let papers = &self.scene.rules().documents;
        let is_leave = |dependency: &Dependency| match dependency.what {
            Missing::Document(paper, _) => papers.get(paper).is_some_and(|it| it.discretion),
            _ => false,
        };
        let unsaid = self.scene.leaving_open();
        let drawn = self.in_scene(unsaid.drawn_exactly());
        Truths {
            truth,
            unsaid: match dependencies.iter().any(is_leave) {
                true => self.in_scene(unsaid).truth_of(rule, target),
                false => truth,
            },
            as_drawn: drawn.truth_of(rule, target),
        }
    }

    /// The findings as they are reported: those of the place that decides.
    fn reported(
        &self,
        target: Target,
        Contribution { truths, member, .. }: Contribution,
        missing: Vec<Missing>,
        mut assessments: Vec<PlaceAssessment>,
    ) -> Part {
        let truth = truths.truth;
        assessments.retain(|place| place.found.need.is_some());
        let deciding = deciding(truth, &assessments);
        let places = assessments.iter().filter_map(PlaceAssessment::truth);
        let places = places.collect();
        let need = { assessments }.into_iter().nth(deciding);
        let need = need.and_then(|place| place.found.need);
        let relief = need.as_ref().and_then(|need| need.relief(truth.applied()));
        let slack = need.as_ref().map(|need| need.slack(truth.applied()));
        let member = if member.sure {
            Truth::HOLDS
        } else {
            Truth::OPEN
        };
        Part {
            subject: target.reported(member),
            pool: target.pool_index(),
            outcome: truths.outcome(),
            truth,
            as_drawn: truths.as_drawn,
            places,
            deciding,
            relief,
            margin: slack.and_then(Slack::margin),
            readings: need.map_or(Vec::new(), |need| need.deciding(relief)),
            missing,
        }
    }
}

/// All that is missing to decide some parts, sorted and without repeats.
pub(crate) fn missing_of(parts: &[Part]) -> Vec<Missing> {
    let mut missing: Vec<Missing> = parts.iter().flat_map(|part| part.missing.clone()).collect();
    missing.sort();
    missing.dedup();
    missing
}
