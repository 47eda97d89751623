//! The answers to the questions of class.

use crate::check::judge::Judge;
use crate::check::rule::missing;
use crate::check::rule::target::{Target, TargetSubject};
use crate::check::world::dependency::Dependency;
use crate::check::world::places::{Place, places};
use crate::check::{Decided, Missing, Truth};
use crate::ruleset::Decision;

/// The classes that are still possible.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Classes<'a> {
    list: Vec<&'a str>,
    refer: bool,
}

impl<'a> Judge<'a> {
    /// The answers to the questions of class.
    pub(crate) fn decisions(&self) -> Vec<Decided<'a>> {
        let all = self.scene.rules().decisions.iter().enumerate();
        all.flat_map(|(index, decision)| self.decision(index, decision))
            .collect()
    }

    fn decision(&self, index: usize, decision: &'a Decision) -> Vec<Decided<'a>> {
        let pools = self.pools(decision.about_pool).into_iter();
        let subjects = |pool| -> Vec<(Target, Truth)> {
            let target = |subject| Target { subject, pool };
            let plan = target(TargetSubject::Plan);
            let Some(each) = &decision.each else {
                return vec![(plan, Truth::HOLDS)];
            };
            let members = self.about(plan, None, |env| self.members(each, env));
            let sure = |sure| if sure { Truth::HOLDS } else { Truth::OPEN };
            let members = members.list.into_iter();
            members
                .map(|(referent, is)| (target(TargetSubject::Thing(referent)), sure(is)))
                .collect()
        };
        let all = pools.flat_map(subjects);
        all.flat_map(|(target, member)| self.decided((index, decision), target, member))
            .collect()
    }

    /// The answer for one subject: one class, or one for each place along it where they differ.
    fn decided(
        &self,
        (index, decision): (usize, &'a Decision),
        target: Target,
        member: Truth,
    ) -> Vec<Decided<'a>> {
        let classes = |judge: &Judge<'a>| judge.classes(decision, target);
        let (between, dependencies) = self.scene.logging(|| classes(self));
        let answer =
            |place: Option<&Place>, found: Classes<'a>, dependencies: &[Dependency]| Decided {
                decision: index,
                subject: target.reported(member),
                pool: target.pool_index(),
                at: place.map_or(Vec::new(), Place::at),
                missing: self.to_decide((decision, target), place, &found, dependencies),
                classes: found.list,
                refer: found.refer,
            };
        let places = places(&self.scene, &dependencies, &target.subjects());
        let at: Vec<(Place, Classes<'a>, Vec<Dependency>)> = places
            .into_iter()
            .map(|place| {
                let judge = self.in_scene(self.scene.at(place.clone()));
                let (found, log) = judge.scene.logging(|| classes(&judge));
                (place, found, log)
            })
            .collect();
        let first = at.first().map(|(_, found, _)| found);
        match first {
            None => vec![answer(None, between, &dependencies)],
            Some(first) if at.iter().all(|(_, found, _)| found == first) && *first == between => {
                vec![answer(None, between, &dependencies)]
            }
            _ => {
                // There may be places between the lowest and the highest, with another class.
                let known =
                    |class: &&str| at.iter().any(|(_, found, _)| found.list.contains(class));
                let refer = at.iter().any(|(_, found, _)| found.refer);
                let more = between.refer && !refer || !between.list.iter().all(known);
                let mut all: Vec<_> = at
                    .into_iter()
                    .map(|(place, found, log)| answer(Some(&place), found, &log))
                    .collect();
                all.extend(more.then(|| answer(None, between, &dependencies)));
                all
            }
        }
    }

    /// What is missing to decide between several classes.
    fn to_decide(
        &self,
        (decision, target): (&'a Decision, Target),
        place: Option<&Place>,
        found: &Classes<'a>,
        dependencies: &[Dependency],
    ) -> Vec<Missing> {
        if found.list.len() + usize::from(found.refer) < 2 {
            return Vec::new();
        }
        let scene = match place {
            Some(place) => self.scene.at(place.clone()),
            None => self.scene.clone(),
        };
        missing::among(&scene, dependencies, false, |scene| {
            let fewer = self.in_scene(scene).classes(decision, target);
            fewer.list.len() < found.list.len()
        })
    }

    /// The classes still possible, in the order of the table, and whether the authority may have to decide.
    fn classes(&self, decision: &'a Decision, target: Target) -> Classes<'a> {
        let given = self.about(target, decision.each.as_ref(), |env| {
            self.rows(&decision.table, env, |_, class| Some(class.as_str()), None)
        });
        let mut found = Classes {
            list: Vec::new(),
            refer: given.iter().any(Option::is_none),
        };
        for class in given.into_iter().flatten() {
            if !found.list.contains(&class) {
                found.list.push(class);
            }
        }
        found
    }
}
