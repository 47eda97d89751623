//! One look at one subject of a rule, at one place along the things that change.

use crate::check::judge::Judge;
use crate::check::judge::need::Need;
use crate::check::world::dependency::Dependency;
use crate::check::world::env::{Env, Referent};
use crate::check::world::places::{Place, places};
use crate::check::world::split;
use crate::check::world::target::{Of, Target};
use crate::check::{Level, Missing, PlaceTruth, Truth};
use crate::ruleset::Rule;

/// What one look at one subject of a rule gave, at one place along the things that change.
pub(crate) struct Look {
    pub(crate) truth: Truth,
    /// Whether the subject is one of those that the rule speaks of.
    member: Truth,
    applies: Truth,
    pub(crate) need: Option<Need>,
}

/// A look at one place, and all that it rests on.
pub(crate) struct PlaceLook {
    place: Place,
    /// Whether there surely is such a place.
    pub(crate) sure: bool,
    pub(crate) look: Look,
    pub(crate) dependencies: Vec<Dependency>,
}

impl<'a> Judge<'a> {
    /// What is possible for a subject of a rule in this scene.
    pub(crate) fn truth_of(&self, rule: &'a Rule, target: Target) -> Truth {
        together(target, &self.looks(rule, target))
    }

    /// A look at each place along the things that a rule reads of which the values change; else one look.
    pub(crate) fn looks(&self, rule: &'a Rule, target: Target) -> Vec<PlaceLook> {
        let anywhere = self.place_look(rule, target, Place::default());
        let places = places(&self.scene, &anywhere.dependencies, &target.subjects());
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
        let (mut look, dependencies) = self.scene.logging(|| self.look(rule, target));
        look.truth = split::refined(&self.scene, look.truth, &dependencies, |scene| {
            self.in_scene(scene).look(rule, target).truth
        });
        PlaceLook {
            place,
            sure: true,
            look,
            dependencies,
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
        let (Some(each), Of::Thing(referent)) = (&rule.each, target.of) else {
            return Truth::HOLDS;
        };
        if let Referent::Unseen(kind) = referent {
            if self.scene.sees_all(kind) {
                return Truth::FAILS;
            }
            self.scene.depends_on(Missing::Inventory(kind), true, &[]);
        }
        // What narrows the choice is asked of the whole thing, not of what a zone leaves of it.
        let whole = env.bind(each.kind, referent);
        match self.is_in(each, referent, &whole) {
            Truth::HOLDS if self.scene.is_there(referent) => Truth::HOLDS,
            Truth::FAILS => Truth::FAILS,
            _ => Truth::OPEN,
        }
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

    pub(crate) fn truth(&self) -> Option<PlaceTruth> {
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
pub(crate) fn together(target: Target, looks: &[PlaceLook]) -> Truth {
    let possible = looks.iter().map(PlaceLook::possible);
    match target.of {
        // Nobody knows at which of the places there is none.
        Of::None {
            somewhere: true, ..
        } => possible.fold(Truth::NONE, Truth::or_else),
        _ => possible.fold(Truth::NOT_APPLICABLE, Truth::and),
    }
}

/// Whether a subject is one of those that a rule speaks of.
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
    /// Places at which the rule does not apply say nothing of it.
    pub(crate) fn of(looks: &[PlaceLook]) -> Membership {
        let applying = || looks.iter().filter(|it| it.look.applies != Truth::FAILS);
        let out = applying().map(|place| match place.sure {
            true => place.look.member.negated(),
            false => place.look.member.negated().or_else(Truth::FAILS),
        });
        let out = out.reduce(Truth::or).unwrap_or(Truth::HOLDS);
        let in_some = applying().any(|place| place.look.member != Truth::FAILS);
        Membership {
            sure: applying().any(|place| place.sure && place.look.member == Truth::HOLDS),
            out,
            partly: looks.len() > 1 && in_some && out != Truth::FAILS,
        }
    }
}

/// The place that decides: one that fails where all together do, one that is open where they are, else the one with the
/// least slack. That there may be another place decides only where no sure one does.
pub(crate) fn deciding(truth: Truth, looks: &[PlaceLook]) -> usize {
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
        let margin = need.slack(self.look.truth.applied()).margin()?;
        Some(margin.range.low)
    }
}

fn least_room(looks: &[PlaceLook]) -> Option<i128> {
    let sure = looks.iter().filter(|place| place.sure);
    sure.filter_map(PlaceLook::least_room).min()
}

/// What is possible where a rule applies in this way. Where the authority says whether it applies, nothing stands against
/// what holds anyway, and the authority decides over the rest.
fn under(applies: Truth, need: Truth) -> Truth {
    let ways = [
        (Level::Holds, need),
        (Level::Fails, Truth::NOT_APPLICABLE),
        (Level::Authority, need.if_the_authority_says()),
    ];
    let possible = ways.into_iter().filter(|(level, _)| applies.may_be(*level));
    possible.fold(Truth::NONE, |all, (_, way)| all.or_else(way))
}
