//! From a world to plans that say less and less about it.
//!
//! The first plan states the world exactly. Each further plan takes back something that the one before states, so every
//! world of the one before is also a world of it.

use std::collections::BTreeSet;
use std::sync::Arc;

use rules_core::plan::{DocumentState, Figure, Looked, Plan, Thing, Words as Possibly};
use rules_core::ruleset::RuleSet;
use rules_core::vocabulary::{FactId, KindId, OutlineId};

use super::exact::{SOURCES, exact};
use super::generate::moved;
use super::geometry;
use super::less::{has_wings, leave_out, says_whole};
use super::random::Random;
use super::words::{METRE, Words};
use super::world::{Drawn, World};

/// A step of the chain: the plan, and how it was blurred last.
#[derive(Debug, Clone)]
pub struct Step {
    /// The plan.
    pub plan: Plan,
    /// What was done to the plan before.
    pub done: String,
}

/// A chain of plans for one world, from the exact one to the vaguest.
pub fn chain(
    random: &mut Random,
    words: &Words,
    (world, rules): (&World, &RuleSet),
    steps: usize,
) -> Vec<Step> {
    let free = rules.documents.iter().filter(|paper| paper.discretion);
    let discretion: BTreeSet<String> = free.map(|paper| paper.id.clone()).collect();

    let mut chain = vec![Step {
        plan: exact(random, words, world),
        done: "exact".to_owned(),
    }];
    for _ in 0..steps {
        let mut plan = chain[chain.len() - 1].plan.clone();
        let mut blur = Blur {
            random,
            words,
            world,
            discretion: &discretion,
            plan: &mut plan,
        };
        if let Some(mut done) = blur.once() {
            let mut apart = random.apart();
            done += whole_unsaid(&mut apart, &mut plan)
                .as_deref()
                .unwrap_or_default();
            chain.push(Step { plan, done });
        }
    }
    chain
}

/// Leaves out now and then what a thing is part of.
fn whole_unsaid(random: &mut Random, plan: &mut Plan) -> Option<String> {
    let said: Vec<usize> = (0..plan.things.len())
        .filter(|thing| says_whole(plan, *thing))
        .collect();
    if said.is_empty() || random.chance(60) {
        return None;
    }
    let thing = &mut plan.things[*random.pick(&said)];
    (thing.part_of, thing.stands_alone) = (None, false);
    Some(format!(", whole of {} unsaid", thing.id))
}

/// A vector in a random direction, at most `length` nanometres long and hardly shorter.
pub fn vector(random: &mut Random, length: i64) -> (i64, i64) {
    let (x, y) = match random.chance(40) {
        true => *random.pick(&[(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (0.6, 0.8)]),
        false => random.direction(),
    };
    towards((x, y), length)
}

/// A vector along a unit direction, never longer than `length` nanometres.
pub fn towards((x, y): (f64, f64), length: i64) -> (i64, i64) {
    let long = length as f64;
    let (mut x, mut y) = ((x * long) as i64, (y * long) as i64);
    while i128::from(x).pow(2) + i128::from(y).pow(2) > i128::from(length).pow(2) {
        x -= x.signum();
        y -= y.signum();
    }
    (x, y)
}

struct Blur<'a> {
    random: &'a mut Random,
    words: &'a Words,
    world: &'a World,
    /// The papers that the authority may refuse.
    discretion: &'a BTreeSet<String>,
    plan: &'a mut Plan,
}

impl Blur<'_> {
    /// Takes back one statement; `None` if the one chosen has nothing to take back.
    fn once(&mut self) -> Option<String> {
        match self
            .random
            .weighted(&[30, 10, 2, 2, 22, 6, 8, 8, 3, 5, 5, 3])
        {
            0 => self.position(),
            1 => self.shift(),
            2 => self.accuracy_unknown(),
            3 => self.outline_missing(),
            4 => self.fact_widened(),
            5 => self.fact_dropped(),
            6 => self.inventory(),
            7 => self.hidden(),
            8 => self.tape(),
            9 => self.tape_wider(),
            10 => self.document(),
            _ => self.none_unsaid(),
        }
    }

    fn size(&mut self) -> i64 {
        *self.random.pick(&[
            1,
            METRE / 1000,
            METRE / 100,
            METRE / 10,
            METRE / 10,
            METRE / 2,
        ])
    }

    fn figure(&mut self) -> Option<(usize, OutlineId)> {
        let all: Vec<(usize, OutlineId)> = self
            .plan
            .things
            .iter()
            .enumerate()
            .flat_map(|(thing, own)| own.outlines.keys().map(move |outline| (thing, *outline)))
            .collect();
        (!all.is_empty()).then(|| *self.random.pick(&all))
    }

    /// Moves an outline, corner by corner or as a whole, and adds as much to its accuracy.
    fn position(&mut self) -> Option<String> {
        let (thing, outline) = self.figure()?;
        let by = self.size();
        let whole = self.random.chance(50).then(|| vector(self.random, by));
        let random = &mut *self.random;
        let figure = self.plan.things[thing].outlines.get_mut(&outline)?;
        for form in &mut figure.forms {
            *form = moved(form, || whole.unwrap_or_else(|| vector(random, by)));
        }
        figure.accuracy = figure.accuracy.map(|e| e + by);
        Some(format!("position of {thing} by {by}"))
    }

    /// Moves everything from one source, and adds as much to its shift.
    fn shift(&mut self) -> Option<String> {
        let source = self.random.below(SOURCES);
        let by = self.size();
        let step = vector(self.random, by);
        for thing in self
            .plan
            .things
            .iter_mut()
            .filter(|thing| thing.source == Some(source))
        {
            for form in thing
                .outlines
                .values_mut()
                .flat_map(|figure| &mut figure.forms)
            {
                *form = moved(form, || step);
            }
        }
        let shift = &mut self.plan.sources[source].shift;
        *shift = match self.random.chance(5) {
            true => None,
            false => shift.map(|so_far| so_far + by),
        };
        Some(format!("shift of source {source} by {by}"))
    }

    fn accuracy_unknown(&mut self) -> Option<String> {
        let (thing, outline) = self.figure()?;
        self.plan.things[thing].outlines.get_mut(&outline)?.accuracy = None;
        Some(format!("accuracy of {thing} unknown"))
    }

    fn outline_missing(&mut self) -> Option<String> {
        let (thing, outline) = self.figure()?;
        if self.plan.things[thing].kind == self.words.lot {
            return None;
        }
        self.plan.things[thing].outlines.remove(&outline);
        Some(format!("outline of {thing} missing"))
    }

    /// Takes back that a thing lacks an outline.
    fn none_unsaid(&mut self) -> Option<String> {
        let things = self.plan.things.iter().enumerate();
        let all: Vec<(usize, OutlineId)> = things
            .flat_map(|(thing, own)| own.lacks.iter().map(move |outline| (thing, *outline)))
            .collect();
        let (thing, outline) = (!all.is_empty()).then(|| *self.random.pick(&all))?;
        self.plan.things[thing].lacks.remove(&outline);
        Some(format!("nobody says that {thing} lacks an outline"))
    }

    fn fact(&mut self) -> Option<(usize, FactId)> {
        let all: Vec<(usize, FactId)> = self
            .plan
            .things
            .iter()
            .enumerate()
            .flat_map(|(thing, own)| own.facts.keys().map(move |fact| (thing, *fact)))
            .collect();
        (!all.is_empty()).then(|| *self.random.pick(&all))
    }

    fn fact_widened(&mut self) -> Option<String> {
        let (thing, fact) = self.fact()?;
        let (low, high) = self.words.limits(fact);
        let wide = (high - low) / *self.random.pick(&[1_000_000, 1000, 50, 5]);
        let (below, above) = (
            self.random.wide(0, wide.max(1)),
            self.random.wide(0, wide.max(1)),
        );
        let words = self.words.words(fact);
        let random = &mut *self.random;
        let possible = self.plan.things[thing].facts.get_mut(&fact)?;
        if let Some(amount) = &mut possible.amount {
            for range in [Some(&mut amount.least), amount.most.as_mut()]
                .into_iter()
                .flatten()
            {
                range.low = (range.low - below).max(low);
                range.high = (range.high + above).min(high);
            }
        }
        if let Some(Possibly::OneOf(choices)) = possible.words.as_mut().map(Arc::make_mut) {
            choices.insert(random.pick(&words).clone());
        }
        let may_be_none = self.words.vocabulary.fact(fact).none;
        possible.none |= may_be_none && random.chance(30);
        Some(format!("fact of {thing} widened"))
    }

    fn fact_dropped(&mut self) -> Option<String> {
        let (thing, fact) = self.fact()?;
        self.plan.things[thing].facts.remove(&fact);
        Some(format!("fact of {thing} dropped"))
    }

    /// A distance from the lot that every hidden thing of a kind exceeds, by a nanometre or more.
    fn radius(&self, kind: KindId, hidden: &[&str]) -> Option<i64> {
        let lot = &self.world.named("lot")?.outlines[&self.words.boundary];
        let mut least = i64::MAX;
        for thing in self.world.things.iter().filter(|thing| thing.kind == kind) {
            if hidden.contains(&thing.id.as_str()) {
                for drawn in thing.outlines.values() {
                    least = least.min(geometry::nearest(lot, drawn).0.floor() as i64 - 1);
                }
            }
        }
        (0..i64::MAX).contains(&least).then_some(least)
    }

    /// Says less about what was looked for.
    fn inventory(&mut self) -> Option<String> {
        let kinds: Vec<_> = self.plan.inventory.keys().copied().collect();
        if kinds.is_empty() {
            return None;
        }
        let kind = *self.random.pick(&kinds);
        let most = match self.plan.inventory[&kind] {
            Looked::AllShown(Some(within)) => within,
            _ => 60 * METRE,
        };
        if self.random.chance(40) {
            self.plan.inventory.remove(&kind);
            return Some(format!("kind {} not checked", kind.0));
        }
        let within = self.random.between(0, most);
        self.plan
            .inventory
            .insert(kind, Looked::AllShown(Some(within)));
        Some(format!("kind {} shown within {within}", kind.0))
    }

    /// Leaves a thing out, where the inventory allows it or is changed to allow it.
    fn hidden(&mut self) -> Option<String> {
        let all: Vec<usize> = (0..self.plan.things.len())
            .filter(|index| self.words.may_be_left_out(self.plan.things[*index].kind))
            .filter(|index| !has_wings(self.plan, *index))
            .collect();
        if all.is_empty() {
            return None;
        }
        let thing = *self.random.pick(&all);
        let (id, kind) = (
            self.plan.things[thing].id.clone(),
            self.plan.things[thing].kind,
        );
        let so_far = match self.plan.inventory.get(&kind) {
            None => None,
            Some(Looked::AllShown(Some(within))) => Some(*within),
            _ => Some(i64::MAX),
        };
        // A thing may be hidden only if everything that the earlier plans allowed for it stays possible. They draw it
        // with an accuracy, so unless the thing is drawn exactly, its whole kind becomes unchecked.
        let still = self.is_exact(thing);
        let within = self
            .radius(kind, &[&id])
            .filter(|_| still && self.random.chance(70));
        match (so_far, within) {
            (None, _) => {}
            (Some(so_far), Some(within)) => {
                self.plan
                    .inventory
                    .insert(kind, Looked::AllShown(Some(within.min(so_far))));
            }
            (Some(_), None) => {
                self.plan.inventory.remove(&kind);
            }
        }
        leave_out(self.plan, thing);
        Some(format!("{id} hidden"))
    }

    fn is_exact(&self, thing: usize) -> bool {
        let lot = self
            .plan
            .things
            .iter()
            .find(|thing| thing.kind == self.words.lot);
        let exact = |thing: &Thing| {
            let told = thing.outlines.len() + thing.lacks.len();
            let all_drawn = told == self.words.outlines(thing.kind).len();
            let shift = thing
                .source
                .and_then(|source| self.plan.sources[source].shift);
            all_drawn
                && shift == Some(0)
                && thing
                    .outlines
                    .values()
                    .all(|figure| figure.accuracy == Some(0))
        };
        exact(&self.plan.things[thing]) && lot.is_some_and(exact)
    }

    fn tape(&mut self) -> Option<String> {
        self.plan.measured.pop().map(|_| "tape dropped".to_owned())
    }

    fn tape_wider(&mut self) -> Option<String> {
        let by = i128::from(self.size());
        let tape = self.plan.measured.last_mut()?;
        tape.range.low = (tape.range.low - by).max(0);
        tape.range.high += by;
        Some(format!("tape wider by {by}"))
    }

    /// Takes back the state of a paper, or turns it into one still to be got.
    fn document(&mut self) -> Option<String> {
        let ids: Vec<String> = self.plan.documents.keys().cloned().collect();
        let id = self.random.pick(&ids).clone();
        // While a paper is still to be got, one that the authority may refuse is up to the authority.
        let free = self.discretion.contains(&id);
        let unsaid = free || self.random.chance(50);
        let papers = self.plan.documents.get_mut(&id)?;
        let left = (!unsaid).then_some(DocumentState::NotYet);
        let things: Vec<usize> = papers.of.keys().copied().collect();
        if things.is_empty() {
            papers.whole = left;
            return Some(format!("{id} not known"));
        }
        let thing = *self.random.pick(&things);
        match left {
            Some(state) => papers.of.insert(thing, state),
            None => papers.of.remove(&thing),
        };
        Some(format!("{id} for {thing} not known"))
    }
}

/// A figure as an exact outline.
pub fn drawn(figure: &Figure) -> Drawn {
    Drawn {
        forms: figure.forms.clone(),
        spread: figure.spread,
    }
}
