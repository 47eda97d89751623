//! Judging one subject of a rule at each place along the things that change.

use crate::check::judge::Judge;
use crate::check::rule::reliefs::WithReliefs;
use crate::check::rule::target::{Target, TargetSubject};
use crate::check::world::dependency::Dependency;
use crate::check::world::env::{Env, Referent};
use crate::check::world::places::{Place, places};
use crate::check::world::split;
use crate::check::{Level, Missing, PlaceTruth, Truth};
use crate::ruleset::Rule;
use crate::ruleset::pieces::{self, Piece};
use crate::vocabulary::KindId;

/// The judgement of one subject of a rule at one place.
pub(crate) struct Assessment {
    pub(crate) truth: Truth,
    /// Whether the subject is one that the rule is about.
    member: Truth,
    applies: Truth,
    pub(crate) need: Option<WithReliefs>,
}

/// The judgement at one place, and all that it depends on.
pub(crate) struct PlaceAssessment {
    place: Place,
    /// Whether there surely is such a place.
    pub(crate) sure: bool,
    pub(crate) found: Assessment,
    pub(crate) dependencies: Vec<Dependency>,
}

impl<'a> Judge<'a> {
    /// The truth of a rule for one subject in this scene.
    pub(crate) fn truth_of(&self, rule: &'a Rule, target: Target) -> Truth {
        self.together((rule, target), &self.assess(rule, target))
    }

    /// Judges a rule at each place along the things whose values change; where none change, once.
    pub(crate) fn assess(&self, rule: &'a Rule, target: Target) -> Vec<PlaceAssessment> {
        let anywhere = self.assess_at(rule, target, Place::default());
        let places = places(&self.scene, &anywhere.dependencies, &target.subjects());
        if places.is_empty() {
            return vec![anywhere];
        }
        let at = |place: Place| {
            let mut judge = self.in_scene(self.scene.at(place.clone()));
            judge.keeps = self.keeps;
            judge.assess_at(rule, target, place)
        };
        let mut assessments: Vec<_> = places.into_iter().map(at).collect();
        // There may be places between the lowest and the highest.
        assessments.push(PlaceAssessment {
            sure: false,
            ..anywhere
        });
        assessments
    }

    /// The truth at all places together.
    pub(crate) fn together(
        &self,
        (rule, target): (&Rule, Target),
        assessments: &[PlaceAssessment],
    ) -> Truth {
        match target.subject {
            // At one of the places there is none; which one is not known.
            TargetSubject::None {
                somewhere: true,
                kind,
            } if !self.is_apart(rule, kind, assessments) => {
                let all = assessments.iter().map(|place| place.found.truth);
                all.fold(Truth::NONE, Truth::or_else)
            }
            _ => {
                let possible = assessments.iter().map(PlaceAssessment::possible);
                possible.fold(Truth::NOT_APPLICABLE, Truth::and)
            }
        }
    }

    /// Whether these places are unrelated to the places at which there is nothing of this kind.
    fn is_apart(&self, rule: &Rule, kind: KindId, assessments: &[PlaceAssessment]) -> bool {
        let vocabulary = &self.scene.rules().vocabulary;
        let mut ends = assessments.iter().flat_map(|it| it.place.at());
        if ends.any(|end| vocabulary.fact(end.fact).kind == kind) {
            return false;
        }
        let mut apart = true;
        let see = &mut |piece: Piece<'_>| {
            if let Piece::Fact(fact) = piece {
                let fact = vocabulary.fact(fact);
                apart &= fact.kind == kind || !fact.varies;
            }
        };
        rule.each
            .iter()
            .for_each(|each| pieces::of_selection(each, see));
        apart
    }

    fn assess_at(&self, rule: &'a Rule, target: Target, place: Place) -> PlaceAssessment {
        let (mut found, dependencies) = self.scene.logging(|| self.assess_here(rule, target));
        found.truth = split::refined(&self.scene, found.truth, &dependencies, |scene| {
            self.in_scene(scene).assess_here(rule, target).truth
        });
        PlaceAssessment {
            place,
            sure: true,
            found,
            dependencies,
        }
    }

    /// Judges one subject of a rule at the scene's place.
    fn assess_here(&self, rule: &'a Rule, target: Target) -> Assessment {
        let applies = self.applies(rule, target);
        let none = |member| Assessment {
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
            Assessment {
                truth: under(applies, own),
                member,
                applies,
                need: Some(need),
            }
        })
    }

    /// Whether a subject is one that the rule is about.
    fn membership(&self, rule: &'a Rule, target: Target, env: &Env<'_>) -> Truth {
        let (Some(each), TargetSubject::Thing(referent)) = (&rule.each, target.subject) else {
            return Truth::HOLDS;
        };
        if let Referent::Unseen(kind) = referent {
            if self.scene.sees_all(kind) {
                return Truth::FAILS;
            }
            self.scene.depends_on(Missing::Inventory(kind), true, &[]);
        }
        // The selection's conditions are about the whole thing, not only its part in a zone.
        let whole = env.bind(each.kind, referent);
        match self.is_in(each, referent, &whole) {
            Truth::HOLDS if self.scene.is_there(referent) => Truth::HOLDS,
            Truth::FAILS => Truth::FAILS,
            _ => Truth::OPEN,
        }
    }
}

impl PlaceAssessment {
    /// The truth, given that there may be no such place.
    fn possible(&self) -> Truth {
        match self.sure {
            true => self.found.truth,
            false => self.found.truth.or_else(Truth::NOT_APPLICABLE),
        }
    }

    pub(crate) fn truth(&self) -> Option<PlaceTruth> {
        let need = self.found.need.as_ref()?;
        Some(PlaceTruth {
            at: self.place.at(),
            sure: self.sure,
            applies: self.found.applies,
            base: need.base.truth,
            reliefs: need.reliefs.iter().map(|(relief, _)| *relief).collect(),
        })
    }
}

/// Whether a subject is one that a rule is about.
#[derive(Clone, Copy)]
pub(crate) struct Membership {
    /// Whether it surely is, at one place or more.
    pub(crate) sure: bool,
    /// Whether it is not, at one place or more.
    pub(crate) out: Truth,
    /// Whether it may be one at one place and not at another.
    pub(crate) partly: bool,
}

impl Membership {
    /// Ignores the places at which the rule does not apply.
    pub(crate) fn of(assessments: &[PlaceAssessment]) -> Membership {
        let all = assessments.iter();
        let applying = || all.clone().filter(|it| it.found.applies != Truth::FAILS);
        let out = applying().map(|place| match place.sure {
            true => place.found.member.negated(),
            false => place.found.member.negated().or_else(Truth::FAILS),
        });
        let out = out.reduce(Truth::or).unwrap_or(Truth::HOLDS);
        let in_some = applying().any(|place| place.found.member != Truth::FAILS);
        Membership {
            sure: applying().any(|place| place.sure && place.found.member == Truth::HOLDS),
            out,
            partly: assessments.len() > 1 && in_some && out != Truth::FAILS,
        }
    }
}

/// The place that decides. Where the truth of all places together is "fails", it is the first that fails; where it is open,
/// the first that is open; otherwise the one with the least slack. A place that may not exist decides only where no sure
/// place does.
pub(crate) fn deciding(truth: Truth, assessments: &[PlaceAssessment]) -> usize {
    let first = |is: &dyn Fn(&PlaceAssessment) -> bool| assessments.iter().position(is);
    let of_worst = match truth {
        Truth::HOLDS => first(&|it| it.sure && it.least_slack() == least_slack(assessments)),
        truth if truth.is_open() => first(&|it| it.sure && it.found.truth == truth)
            .or_else(|| first(&|it| it.sure && it.found.truth.is_open()))
            .or_else(|| first(&|it| it.found.truth.is_open())),
        truth => first(&|it| it.sure && it.found.truth == truth),
    };
    of_worst.or_else(|| first(&|it| it.sure)).unwrap_or(0)
}

impl PlaceAssessment {
    fn least_slack(&self) -> Option<i128> {
        let need = self.found.need.as_ref()?;
        let margin = need.slack(self.found.truth.applied()).margin()?;
        Some(margin.range.low)
    }
}

fn least_slack(assessments: &[PlaceAssessment]) -> Option<i128> {
    let sure = assessments.iter().filter(|place| place.sure);
    sure.filter_map(PlaceAssessment::least_slack).min()
}

/// The truth of a rule, given whether it applies. Where the authority says whether it applies, what holds anyway still holds,
/// and the authority decides the rest.
fn under(applies: Truth, need: Truth) -> Truth {
    let ways = [
        (Level::Holds, need),
        (Level::Fails, Truth::NOT_APPLICABLE),
        (Level::Authority, need.if_the_authority_says()),
    ];
    let possible = ways.into_iter().filter(|(level, _)| applies.may_be(*level));
    possible.fold(Truth::NONE, |all, (_, way)| all.or_else(way))
}
