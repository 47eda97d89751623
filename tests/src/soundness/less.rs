//! Plans with one statement less.

use rules_core::check::{Truth, Verdict, check};
use rules_core::plan::{Looked, Plan};
use rules_core::ruleset::RuleSet;

use super::blur;
use super::dump;
use super::generate::{self, Style};
use super::property::Failure;
use super::random::Random;
use super::words::{METRE, Words};

/// A plan with one statement less, and what was left out.
#[derive(Debug, Clone)]
pub struct Shorter {
    /// What was left out.
    pub what: String,
    /// The plan.
    pub plan: Plan,
}

/// All plans with one statement less than a plan. The owner's design, the pool and its outlines, always stays, and so
/// does the lot's boundary, without which there is no plan.
pub fn shorter(words: &Words, plan: &Plan) -> Vec<Shorter> {
    let mut all = Less {
        words,
        plan,
        all: Vec::new(),
    };
    for thing in 0..plan.things.len() {
        all.of_thing(thing);
        all.without(thing);
    }
    all.of_sources();
    all.of_papers();
    all.of_tapes();
    for kind in plan.inventory.keys() {
        all.add(format!("inventory {}", kind.0), |plan| {
            plan.inventory.remove(kind);
        });
    }
    all.all
}

struct Less<'a> {
    words: &'a Words,
    plan: &'a Plan,
    all: Vec<Shorter>,
}

impl Less<'_> {
    fn add(&mut self, what: String, less: impl FnOnce(&mut Plan)) {
        let mut plan = self.plan.clone();
        less(&mut plan);
        self.all.push(Shorter { what, plan });
    }

    fn of_thing(&mut self, index: usize) {
        let thing = &self.plan.things[index];
        let (id, vocabulary) = (&thing.id, &self.words.vocabulary);
        for fact in thing.facts.keys() {
            self.add(format!("{id}: {}", vocabulary.fact_path(*fact)), |plan| {
                plan.things[index].facts.remove(fact);
            });
        }
        if says_whole(self.plan, index) {
            self.add(format!("{id}: part-of"), |plan| {
                let thing = &mut plan.things[index];
                (thing.part_of, thing.stands_alone) = (None, false);
            });
        }
        for outline in &thing.lacks {
            self.add(
                format!("{id}: no {}", vocabulary.outline_path(*outline)),
                |plan| {
                    plan.things[index].lacks.remove(outline);
                },
            );
        }
        for (outline, figure) in &thing.outlines {
            let path = vocabulary.outline_path(*outline);
            if thing.kind != self.words.lot && thing.kind != self.words.pool {
                self.add(format!("{id}: {path}"), |plan| {
                    plan.things[index].outlines.remove(outline);
                });
            }
            let wider = figure.accuracy.map(|accuracy| accuracy + METRE / 10);
            for accuracy in [None, wider] {
                self.add(format!("{id}: {path} ± {accuracy:?}"), |plan| {
                    if let Some(figure) = plan.things[index].outlines.get_mut(outline) {
                        figure.accuracy = accuracy;
                    }
                });
            }
        }
        if thing.source.is_some() {
            self.add(format!("{id}: source"), |plan| {
                plan.things[index].source = None
            });
        }
    }

    /// Without a thing, and without the statement that all of its kind are shown.
    fn without(&mut self, index: usize) {
        let kind = self.plan.things[index].kind;
        if self.words.may_be_left_out(kind) && !has_wings(self.plan, index) {
            let what = format!("{} and its inventory", self.plan.things[index].id);
            self.add(what, |plan| {
                plan.inventory.remove(&kind);
                leave_out(plan, index);
            });
        }
    }

    fn of_sources(&mut self) {
        for (index, source) in self.plan.sources.iter().enumerate() {
            let wider = source.shift.map(|shift| shift + METRE / 10);
            for shift in [None, wider] {
                self.add(format!("shift of {} {shift:?}", source.id), |plan| {
                    plan.sources[index].shift = shift;
                });
            }
        }
    }

    fn of_papers(&mut self) {
        for (id, papers) in &self.plan.documents {
            if papers.whole.is_some() {
                self.add(id.clone(), |plan| {
                    plan.documents.remove(id);
                });
            }
            for thing in papers.of.keys() {
                self.add(format!("{id} of {thing}"), |plan| {
                    if let Some(papers) = plan.documents.get_mut(id) {
                        papers.of.remove(thing);
                    }
                });
            }
        }
    }

    fn of_tapes(&mut self) {
        for index in 0..self.plan.measured.len() {
            self.add(format!("tape {index}"), |plan| {
                plan.measured.remove(index);
            });
            self.add(format!("tape {index} wider"), |plan| {
                plan.measured[index].range.high += i128::from(METRE) / 10;
            });
        }
    }
}

/// Whether a plan says what a thing is part of, and may leave that out: two of a kind are two where nobody says that one
/// is part of the other.
pub fn says_whole(plan: &Plan, thing: usize) -> bool {
    let own = &plan.things[thing];
    let whole = own.part_of.map(|whole| &plan.things[whole]);
    own.stands_alone || whole.is_some_and(|whole| whole.kind != own.kind)
}

/// Whether a thing has parts of its own kind.
pub fn has_wings(plan: &Plan, thing: usize) -> bool {
    let mut things = plan.things.iter();
    things.any(|wing| wing.part_of == Some(thing) && wing.kind == plan.things[thing].kind)
}

/// Removes a thing from a plan, with everything that refers to it.
pub fn leave_out(plan: &mut Plan, thing: usize) {
    plan.things.remove(thing);
    for whole in plan.things.iter_mut().map(|part| &mut part.part_of) {
        *whole = whole.filter(|of| *of != thing);
        *whole = whole.map(|of| of - usize::from(of > thing));
    }
    for papers in plan.documents.values_mut() {
        let of = std::mem::take(&mut papers.of).into_iter();
        papers.of = of
            .filter(|(of, _)| *of != thing)
            .map(|(of, state)| (of - usize::from(of > thing), state))
            .collect();
    }
    plan.measured
        .retain(|tape| tape.from.0 != thing && tape.to.0 != thing);
    for tape in &mut plan.measured {
        for end in [&mut tape.from.0, &mut tape.to.0] {
            *end -= usize::from(*end > thing);
        }
    }
}

/// The possible outcomes for a plan: of each rule, and the verdict.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Possible {
    /// For each rule.
    pub rules: Vec<Truth>,
    /// On the whole.
    pub verdict: Verdict,
}

impl Possible {
    /// What a check finds.
    pub fn of(plan: &Plan, rules: &RuleSet) -> Self {
        let found = check(plan, rules).expect("not too much work");
        Self {
            rules: found.rules.iter().map(|finding| finding.truth).collect(),
            verdict: found.verdict,
        }
    }

    /// Where this allows something that `vaguer` does not: the rule's place, or `Some(None)` for the verdict.
    pub fn beyond(&self, vaguer: &Self) -> Option<Option<usize>> {
        let mut pairs = self.rules.iter().zip(&vaguer.rules);
        if let Some(rule) = pairs.position(|(surer, vaguer)| !surer.within(*vaguer)) {
            return Some(Some(rule));
        }
        let kept = vaguer.verdict == Verdict::NotDecided || vaguer.verdict == self.verdict;
        (!kept).then_some(None)
    }
}

/// Judges a seed's plan and every plan with one statement less. Returns how many those were, and what went wrong.
pub fn run(seed: u64, words: &Words) -> (u64, Vec<Failure>) {
    let mut random = Random::new(seed);
    let style = *random.pick(&[Style::Filtered, Style::Rich, Style::Rich]);
    let world = generate::world(&mut random, words);
    let rules = generate::rule_set(&mut random, words, &world, 2, style);
    let steps = random.below(6);
    let chain = blur::chain(&mut random, words, (&world, &rules), steps);
    let plan = &chain[chain.len() - 1].plan;
    let before = Possible::of(plan, &rules);
    let shorter = shorter(words, plan);
    let mut failures = Vec::new();
    for less in &shorter {
        let after = Possible::of(&less.plan, &rules);
        if let Some(place) = before.beyond(&after) {
            let vocabulary = &words.vocabulary;
            let judged = place.map_or_else(
                || format!("{:?} and then {:?}", before.verdict, after.verdict),
                |place| {
                    format!(
                        "{:?} and then {:?}",
                        before.rules[place], after.rules[place]
                    )
                },
            );
            let mut dump = String::new();
            for (number, rule) in rules.rules.iter().enumerate() {
                if place.is_none_or(|place| place == number) {
                    dump += &format!("{}\n", dump::rule(vocabulary, rule));
                }
            }
            dump += &dump::plan(vocabulary, plan);
            failures.push(Failure {
                seed,
                what: format!("without {}: {judged}", less.what),
                dump,
            });
        }
    }
    (shorter.len() as u64, failures)
}

/// Whether a plan says that all things of a kind are shown.
pub fn all_shown(plan: &Plan, kind: rules_core::vocabulary::KindId) -> bool {
    matches!(
        plan.inventory.get(&kind),
        Some(Looked::AllShown(None) | Looked::None)
    )
}
