//! From a plan back to worlds that agree with everything it states, extreme ones above all.

mod unseen;

use std::collections::{BTreeMap, BTreeSet};

use rules_core::check::Level;
use rules_core::plan::{DocumentState, Figure, Looked, Plan, Possible, Thing, Words as Possibly};
use rules_core::quantity::Interval;
use rules_core::ruleset::RuleSet;
use rules_core::vocabulary::{FactId, KindId, Number, OutlineId};

use super::blur::{drawn, towards, vector};
use super::generate::{DOCUMENTS, being, join, moved, scattered};
use super::geometry;
use super::random::Random;
use super::words::{METRE, Words};
use super::world::{Being, Drawn, Held, World};

/// A thing whose place is unknown is put no farther away than this.
const ANYWHERE: i64 = 40 * METRE;

/// Which way to push things.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Push {
    /// Each in a random direction of its own.
    Anyhow,
    /// Not at all.
    Stay,
    /// All towards one thing, and that thing towards the nearest of them, each as far as its accuracy allows.
    Together(usize),
    /// All away from it.
    Apart(usize),
    /// All so that their farthest places come closer to its farthest.
    Narrower(usize),
    /// All so that those places move farther apart.
    Wider(usize),
}

impl Push {
    /// The thing it is about, whether it pulls things together, and whether the farthest places count.
    fn about(self) -> Option<(usize, bool, bool)> {
        match self {
            Push::Anyhow | Push::Stay => None,
            Push::Together(focus) => Some((focus, true, false)),
            Push::Apart(focus) => Some((focus, false, false)),
            Push::Narrower(focus) => Some((focus, true, true)),
            Push::Wider(focus) => Some((focus, false, true)),
        }
    }
}

/// Draws worlds of a plan.
pub struct Sampler<'a> {
    /// The random generator.
    pub random: &'a mut Random,
    /// The words.
    pub words: &'a Words,
    /// The plan.
    pub plan: &'a Plan,
    /// A known world of it, where everything stands if nothing is pushed.
    pub home: &'a World,
    /// Amounts at which a rule's outcome may change.
    pub cuts: Vec<i128>,
    /// Which papers the authority may refuse.
    discretion: Vec<bool>,
    /// How many more things may vary along themselves although the plan does not say so.
    may_change: usize,
}

impl<'a> Sampler<'a> {
    /// For a plan, aware of the amounts that the rules state.
    pub fn new(
        random: &'a mut Random,
        words: &'a Words,
        (plan, home): (&'a Plan, &'a World),
        rules: &RuleSet,
    ) -> Self {
        let cuts = super::cuts::amounts(rules);
        Self {
            random,
            words,
            plan,
            home,
            cuts,
            discretion: rules
                .documents
                .iter()
                .map(|paper| paper.discretion)
                .collect(),
            may_change: 0,
        }
    }

    /// A world of the plan.
    pub fn world(&mut self) -> World {
        self.may_change = self.random.weighted(&[6, 3, 1]);
        let mut push = self.push();
        let mut things = self.all_shown(push);
        if !self.tapes_agree(&things) {
            push = self.push();
            things = self.all_shown(push);
        }
        if !self.tapes_agree(&things) {
            push = Push::Stay;
            things = self.all_shown(push);
        }
        let papers = (0..DOCUMENTS)
            .map(|number| self.paper(number, None))
            .collect();
        let mut world = World { things, papers };
        if self.random.chance(75) {
            self.unseen(&mut world);
        }
        self.wholes(&mut world);
        world
    }

    /// What nobody calls part of anything may be part of anything, seen or unseen.
    fn wholes(&mut self, world: &mut World) {
        let shown = world.things.iter().zip(&self.plan.things);
        let said = shown.filter(|(_, thing)| thing.part_of.is_some() || thing.stands_alone);
        let said: BTreeSet<String> = said.map(|(being, _)| being.id.clone()).collect();
        let mut apart = self.random.apart();
        join(&mut apart, self.words, &mut world.things, |being| {
            !said.contains(&being.id)
        });
    }

    fn all_shown(&mut self, push: Push) -> Vec<Being> {
        let shifts = self.shifts(push);
        (0..self.plan.things.len())
            .map(|index| self.shown(index, push, &shifts))
            .collect()
    }

    /// A paper, as a whole or for a thing.
    fn paper(&mut self, number: usize, thing: Option<usize>) -> Level {
        let id = format!("paper-{number}");
        let state = match thing {
            None => self.plan.paper(&id),
            Some(thing) => self.plan.paper_of(&id, thing),
        };
        match state {
            Some(DocumentState::InHand) => Level::Holds,
            Some(DocumentState::Refused) => Level::Fails,
            // Still to be got from an authority that may refuse it.
            Some(DocumentState::NotYet) if self.discretion[number] => Level::Authority,
            _ => {
                let all = [Level::Holds, Level::Fails, Level::Authority];
                let free = 2 + usize::from(self.discretion[number]);
                all[self.random.below(free)]
            }
        }
    }

    fn push(&mut self) -> Push {
        let focus = self.random.below(self.plan.things.len());
        match self.random.weighted(&[2, 1, 4, 4, 1, 1]) {
            0 => Push::Anyhow,
            1 => Push::Stay,
            2 => Push::Together(focus),
            3 => Push::Apart(focus),
            4 => Push::Narrower(focus),
            _ => Push::Wider(focus),
        }
    }

    /// The unit direction in which a thing is pushed.
    fn direction(&mut self, index: usize, figure: &Figure, push: Push) -> (f64, f64) {
        let Some((focus, together, far)) = push.about() else {
            return self.random.direction();
        };
        let sign = if together { 1.0 } else { -1.0 };
        let own = drawn(figure);
        let others = (0..self.plan.things.len()).filter(|other| match index == focus {
            true => *other != focus,
            false => *other == focus,
        });
        let mut best: Option<(f64, geometry::Pair)> = None;
        for other in others.collect::<Vec<_>>() {
            for theirs in self.plan.things[other].outlines.values() {
                let (distance, pair) = match far {
                    true => geometry::farthest_pair(&own, &drawn(theirs)),
                    false => {
                        let (distance, pair) = geometry::nearest(&own, &drawn(theirs));
                        (distance.approximately(), pair)
                    }
                };
                if best.is_none_or(|(so_far, _)| distance < so_far) {
                    best = Some((distance, pair));
                }
            }
        }
        let Some((_, ((ax, ay), (bx, by)))) = best else {
            return self.random.direction();
        };
        let (x, y) = (bx - ax, by - ay);
        let length = (x * x + y * y).sqrt();
        match length > 0.0 {
            true => (sign * x / length, sign * y / length),
            false => self.random.direction(),
        }
    }

    /// The shift of each source that brings its things back to their true places.
    fn shifts(&mut self, push: Push) -> Vec<(i64, i64)> {
        let mut shifts = Vec::new();
        for (source, entry) in self.plan.sources.iter().enumerate() {
            let most = entry
                .shift
                .unwrap_or_else(|| self.random.between(0, 5 * METRE));
            // The direction in which its first thing is pushed, if it has one.
            let own = |thing: &Thing| thing.source == Some(source) && !thing.outlines.is_empty();
            let focus = push.about().map(|(focus, ..)| focus);
            let lead = focus
                .filter(|focus| own(&self.plan.things[*focus]))
                .or_else(|| self.plan.things.iter().position(own));
            let way = match lead {
                Some(lead) => {
                    let figures: Vec<&Figure> = self.plan.things[lead].outlines.values().collect();
                    let figure = *self.random.pick(&figures);
                    self.direction(lead, figure, push)
                }
                None => self.random.direction(),
            };
            shifts.push(match push {
                Push::Stay => (0, 0),
                _ => towards(way, most),
            });
        }
        shifts
    }

    fn shown(&mut self, index: usize, push: Push, shifts: &[(i64, i64)]) -> Being {
        let thing = &self.plan.things[index];
        let (x, y) = thing.source.map_or((0, 0), |source| shifts[source]);
        let mut outlines = BTreeMap::new();
        let home = self.home.named(&thing.id).filter(|_| push == Push::Stay);
        for outline in self.words.outlines(thing.kind) {
            if let Some(home) = home {
                outlines.extend(
                    home.outlines
                        .get(outline)
                        .map(|own| (*outline, own.clone())),
                );
                continue;
            }
            if self.is_without(index, *outline) {
                continue;
            }
            let was = match thing.outlines.get(outline) {
                Some(figure) => self.placed(index, figure, push, (x, y)),
                None => self.somewhere(*outline),
            };
            outlines.insert(*outline, was);
        }
        let facts = self.facts(thing.kind, &thing.facts);
        let papers = (0..DOCUMENTS)
            .map(|number| self.paper(number, Some(index)))
            .collect();
        Being {
            id: thing.id.clone(),
            kind: thing.kind,
            part_of: thing
                .part_of
                .map(|whole| self.plan.things[whole].id.clone()),
            outlines,
            facts,
            papers,
            wider_by: None,
        }
    }

    /// Whether a thing lacks an outline in this world: if the plan says so, and now and then if it says nothing.
    fn is_without(&mut self, index: usize, outline: OutlineId) -> bool {
        let thing = &self.plan.things[index];
        if thing.lacks.contains(&outline) {
            return true;
        }
        let end = (index, outline);
        // A tape reading to it shows that it is there.
        let taped = self
            .plan
            .measured
            .iter()
            .any(|tape| tape.from == end || tape.to == end);
        let may =
            self.words.vocabulary.outline(outline).none && !thing.outlines.contains_key(&outline);
        may && !taped && self.random.chance(50)
    }

    fn placed(&mut self, index: usize, figure: &Figure, push: Push, shift: (i64, i64)) -> Drawn {
        let most = figure
            .accuracy
            .unwrap_or_else(|| self.random.between(0, 10 * METRE));
        let way = self.direction(index, figure, push);
        let whole = towards(way, most);
        let random = &mut *self.random;
        let forms = figure.forms.iter().map(|form| {
            moved(form, || {
                let own = match push {
                    Push::Stay => (0, 0),
                    Push::Anyhow => vector(random, most),
                    _ => whole,
                };
                (own.0 + shift.0, own.1 + shift.1)
            })
        });
        Drawn {
            forms: forms.collect(),
            spread: figure.spread,
        }
    }

    fn somewhere(&mut self, outline: OutlineId) -> Drawn {
        let shape = self.words.vocabulary.outline(outline).shape;
        let within = *self.random.pick(&[METRE, 10 * METRE, ANYWHERE]);
        scattered(self.random, shape, within)
    }

    /// All facts of a thing. Those that vary along it share the same pieces.
    fn facts(
        &mut self,
        kind: KindId,
        stated: &BTreeMap<FactId, Possible>,
    ) -> BTreeMap<FactId, Held> {
        let pieces = self.random.between(2, 3) as usize;
        let facts = self.words.facts(kind);
        let unstated = |fact: &FactId| self.words.changes(*fact) && !stated.contains_key(fact);
        let changing = facts.iter().any(unstated) && self.random.chance(25) && self.may_change > 0;
        self.may_change -= usize::from(changing);
        let mut all = BTreeMap::new();
        for fact in facts {
            let along = changing && unstated(fact) && self.random.chance(70);
            let held = match along {
                true => self.along(self.words.limits(*fact), self.words.limits(*fact), pieces),
                false => self.fact(*fact, stated.get(fact), pieces),
            };
            all.insert(*fact, held);
        }
        all
    }

    fn fact(&mut self, fact: FactId, stated: Option<&Possible>, pieces: usize) -> Held {
        let all = Possible::default();
        let possible = stated.unwrap_or(&all);
        let unstated = stated.is_none();
        let may_be_none = possible.none || unstated && self.words.vocabulary.fact(fact).none;
        let only_none = !unstated && possible.amount.is_none() && possible.words.is_none();
        if may_be_none && (only_none || self.random.chance(30)) {
            return Held::Nothing;
        }
        let words = self.words.words(fact);
        if !words.is_empty() {
            let choices: Vec<String> = match possible.words.as_deref() {
                Some(Possibly::OneOf(choices)) => choices.iter().cloned().collect(),
                _ => words,
            };
            return Held::Word(self.random.pick(&choices).clone());
        }
        let ends = |range: Interval| (range.low, range.high);
        match &possible.amount {
            None => Held::Amount(self.amount(self.words.limits(fact))),
            Some(amount) => match amount.most {
                None => Held::Amount(self.amount(ends(amount.least))),
                Some(most) => self.along(ends(amount.least), ends(most), pieces),
            },
        }
    }

    /// A fact that varies along a thing: its least and greatest at any two of the pieces, and anything between at the
    /// others.
    fn along(&mut self, least: (i128, i128), most: (i128, i128), pieces: usize) -> Held {
        let low = self.amount(least);
        let high = self.amount(most).max(low);
        let mut values: Vec<i128> = (0..pieces).map(|_| self.amount((low, high))).collect();
        let at = self.random.below(pieces);
        values[at] = low;
        values[(at + 1 + self.random.below(pieces - 1)) % pieces] = high;
        Held::Along(values)
    }

    /// An amount between two: an end, an amount at which a rule's outcome changes or next to it, or any.
    fn amount(&mut self, (low, high): (i128, i128)) -> i128 {
        let near: Vec<i128> = self
            .cuts
            .iter()
            .flat_map(|cut| [cut - 1, *cut, cut + 1])
            .filter(|cut| low <= *cut && *cut <= high)
            .collect();
        match self.random.below(4) {
            0 => low,
            1 => high,
            2 if !near.is_empty() => *self.random.pick(&near),
            _ => self.random.wide(low, high),
        }
    }
}
