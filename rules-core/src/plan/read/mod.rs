//! Reading a plan: all that is wrong with it is found in one run.

mod context;
mod corners;
mod curve;
mod fact;
mod lists;
mod lot;
mod moved;
mod outlines;
mod shape;
mod thing;

#[cfg(test)]
mod fault_tests;
#[cfg(test)]
mod plan_tests;

use std::collections::BTreeMap;

use super::{Plan, Thing};
use crate::faults::Code;
use crate::grammar::plan::{PLAN, UNITS};
use crate::measure::figure_gap;
use crate::quantity::{Dimension, Unit};
use crate::text::{self, Entry, Faults, MapReader, Node};
use crate::vocabulary::{Number, Vocabulary};
use context::{Context, guess};
use thing::Pending;

/// A pool farther than this from its lot is a slip in the coordinates, not a plan: 200 m, in nanometres (common practice, no source).
const FAR: i64 = 200_000_000_000;
/// More things than this are no plan of one lot, and would take long to judge.
const MOST_THINGS: usize = 2000;
/// Nor are more pools than this: many rules are judged beside each of them.
const MOST_POOLS: usize = 200;

/// Reads a plan in YAML or JSON, and checks it.
///
/// The vocabulary is that of the rule set under which the plan will be judged, or the standard one.
///
/// # Errors
/// All that is wrong with it, each with its place.
pub fn read(text: &str, vocabulary: &Vocabulary) -> Result<Plan, Faults> {
    read_document(&text::read(text)?, vocabulary)
}

/// As [`read`], from a document that was read before, and perhaps changed since.
///
/// # Errors
/// All that is wrong with it, each with its place.
pub fn read_document(root: &Node, vocabulary: &Vocabulary) -> Result<Plan, Faults> {
    let mut context = Context::new(vocabulary);
    let plan = context.plan(root);
    let Context {
        faults, held_back, ..
    } = context;
    let faults = if faults.is_empty() { held_back } else { faults };
    match plan {
        Some(plan) => faults.or(plan),
        None => Err(faults),
    }
}

impl<'a> Context<'a> {
    fn plan(&mut self, root: &'a Node) -> Option<Plan> {
        let mut map = MapReader::new(root, PLAN.what, &mut self.faults)?;
        let [
            id,
            title,
            rules,
            unit,
            north,
            sources,
            things,
            lot,
            pool,
            inventory,
            measured,
            documents,
            answered,
        ] = map.keys(&PLAN.keys, &mut self.faults);
        let singles = self.take_singles(&mut map);
        map.finish(&mut self.faults);

        self.read_unit(unit);
        self.mention(&[sources, pool, things]);
        self.mention(&[lot.and_then(|lot| {
            lot.value
                .as_map()?
                .iter()
                .find(|entry| entry.key == "sides")
        })]);
        self.read_sources(sources);
        let id = id.and_then(|id| self.id("plan", &id.value));
        let title = title.and_then(|title| self.scalar("title", &title.value));
        self.rule_sets(rules);
        let north = north.and_then(|north| self.angle("north", &north.value));
        let things = self.all_things(lot, pool, things, &singles);
        self.refuse_far_pool(&things);
        let inventory = self.inventory(inventory, &things);
        let measured = self.measured(measured, &things);
        let documents = self.documents(documents, &things);
        let answered = self.answered(answered);
        Some(Plan {
            id: id?.to_owned(),
            title: title?.to_owned(),
            north,
            sources: std::mem::take(&mut self.sources),
            things,
            inventory,
            measured,
            documents,
            answered,
            origin: self.origin,
            unit: self.unit,
        })
    }

    /// The rule sets that the plan was made for are named for whoever opens it; none of them is looked at here.
    fn rule_sets(&mut self, entry: Option<&'a Entry>) {
        let Some(entry) = entry else { return };
        let one = std::slice::from_ref(&entry.value);
        for name in entry.value.as_list().unwrap_or(one) {
            self.scalar("rules", name);
        }
    }

    /// Notes which ids are written, whatever becomes of the things that have them.
    fn mention(&mut self, lists: &[Option<&'a Entry>]) {
        for list in lists.iter().flatten() {
            let one = std::slice::from_ref(&list.value);
            let items = list.value.as_list().unwrap_or(one);
            let ids = items.iter().filter_map(|item| item.get("id")?.text());
            self.mentioned.extend(ids);
        }
    }

    /// The entries of the kinds of which there is always one, by kind. The days are written under `dates`.
    fn take_singles(&self, map: &mut MapReader<'a>) -> BTreeMap<&'a str, &'a Node> {
        let kinds = self.vocabulary.kinds();
        let singles = kinds.filter(|(_, kind)| kind.number == Number::One && kind.name != "lot");
        let entries = singles.filter_map(|(_, kind)| {
            let entry = map
                .take(kind.plan_key())
                .filter(|entry| !entry.value.is_empty())?;
            Some((kind.name.as_str(), &entry.value))
        });
        entries.collect()
    }

    fn read_unit(&mut self, entry: Option<&'a Entry>) {
        let Some(entry) = entry else { return };
        let Some(text) = self.scalar("unit", &entry.value) else {
            return;
        };
        self.unit = Unit::find(text).filter(|unit| unit.dimension() == Dimension::Length);
        if self.unit.is_none() {
            self.told_of_unit = true;
            let help = guess(text, UNITS.into_iter(), "Write one of");
            let message = format!("`{text}` is not a unit of length.");
            self.faults
                .add(Code::BadUnit, entry.value.span, message)
                .help(help);
        }
    }

    /// All things in their order: those always there, the lot's sides, the pools, the rest.
    fn all_things(
        &mut self,
        lot: Option<&'a Entry>,
        pool: Option<&'a Entry>,
        things: Option<&'a Entry>,
        singles: &BTreeMap<&'a str, &'a Node>,
    ) -> Vec<Thing> {
        let vocabulary = self.vocabulary;
        let lot = lot.map(|lot| &lot.value);
        self.find_origin(lot);
        let mut all = Vec::new();
        let kind = vocabulary.kind_named("lot");
        let lot = lot.zip(kind).and_then(|(lot, kind)| self.lot(lot, kind));
        let (lot, sides) = lot.map_or((None, Vec::new()), |(lot, sides)| (Some(lot), sides));
        all.extend(lot);
        for (id, kind) in vocabulary.kinds() {
            if kind.number == Number::One && kind.name != "lot" {
                all.push(self.single(id, singles.get(kind.name.as_str()).copied()));
            }
        }
        all.extend(sides);
        let mut pending = Vec::new();
        if let (Some(pool), Some(kind)) = (pool, vocabulary.kind_named("pool"))
            && self.is_few(pool, MOST_POOLS, "pools")
        {
            pending = self.pools(&pool.value, kind);
        }
        let listed = self.list(things);
        let few = things.is_none_or(|things| self.is_few(things, MOST_THINGS, "things"));
        let listed = if few { listed } else { &[] };
        pending.extend(listed.iter().filter_map(|node| self.thing(node)));
        self.refuse_empty_pool(pool);
        self.join(all, pending)
    }

    /// A pool beyond the line is a finding; one in another part of the country is a mistake in the file.
    fn refuse_far_pool(&mut self, things: &[Thing]) {
        let of_kind = |name: &str| {
            let kind = self.vocabulary.kind_named(name);
            things.iter().filter(move |thing| Some(thing.kind) == kind)
        };
        let Some(lot) = of_kind("lot").find_map(|lot| lot.outlines.values().next()) else {
            return;
        };
        let far = of_kind("pool").filter_map(|pool| {
            let away = figure_gap(pool.outlines.values().next()?, lot).low;
            (away > FAR).then_some((pool.span, away))
        });
        for (span, away) in far.collect::<Vec<_>>() {
            let message = format!("The pool lies {} m from its lot.", away / 1_000_000_000);
            self.faults
                .add(Code::PoolFarFromLot, span, message)
                .help("Give both in the same coordinates, counted from the same place, and with their figures in the same unit.");
        }
    }

    /// Whether a list is no longer than any plan needs.
    fn is_few(&mut self, listed: &'a Entry, most: usize, what: &str) -> bool {
        let count = listed.value.as_list().map_or(1, <[_]>::len);
        if count > most {
            let message = format!("There are {count} {what}; no more than {most} are read.");
            self.faults
                .add(Code::TooManyThings, listed.key_span, message);
        }
        count <= most
    }

    fn refuse_empty_pool(&mut self, pool: Option<&'a Entry>) {
        if let Some(pool) = pool.filter(|pool| pool.value.as_list().is_some_and(<[_]>::is_empty)) {
            self.faults.add(
                Code::NoPool,
                pool.value.span,
                "There is no pool in this plan.",
            );
        }
    }

    /// Puts all things into one list, and finds what each is part of.
    fn join(&mut self, mut all: Vec<Thing>, pending: Vec<Pending<'a>>) -> Vec<Thing> {
        let already = all.len();
        let parts: Vec<_> = pending.iter().map(|pending| pending.part_of).collect();
        all.extend(pending.into_iter().map(|pending| pending.thing));
        self.refuse_same_ids(&all);
        self.refuse_second(&all);
        for (index, part) in (already..).zip(parts) {
            let Some((id, span)) = part else { continue };
            let found = all
                .iter()
                .position(|thing| thing.id == id)
                .filter(|found| *found != index);
            let alone = found.is_none() && id == "none";
            if found.is_none() && !alone {
                let help = guess(
                    id,
                    all.iter().map(|thing| thing.id.as_str()),
                    "The things are",
                );
                let message = format!("There is no other thing `{id}` in this plan.");
                let follows = self.mentioned.contains(id) && all.iter().all(|thing| thing.id != id);
                self.faults_after(follows)
                    .add(Code::UnknownThing, span, message)
                    .help(help);
            }
            if let Some(thing) = all.get_mut(index) {
                (thing.part_of, thing.stands_alone) = (found, alone);
            }
        }
        self.refuse_rings(&all);
        all
    }

    fn refuse_same_ids(&mut self, things: &[Thing]) {
        let mut seen = BTreeMap::new();
        for thing in things {
            if seen.insert(thing.id.as_str(), ()).is_some() {
                let message = format!("Two things have the id `{}`.", thing.id);
                self.faults
                    .add(Code::SameId, thing.span, message)
                    .help("Give each thing an id of its own; the lot's sides and `lot`, `zone`, `works` and so on have theirs.");
            }
        }
    }

    /// A kind with at most one thing, or one for each pool.
    fn refuse_second(&mut self, things: &[Thing]) {
        let mut seen = BTreeMap::new();
        let pool = self.vocabulary.kind_named("pool");
        let pools = things.iter().filter(|thing| Some(thing.kind) == pool);
        let several_pools = pools.count() > 1;
        for thing in things {
            let kind = self.vocabulary.kind(thing.kind);
            let of = thing.part_of.filter(|_| kind.of_a_pool && several_pools);
            if kind.of_a_pool && several_pools && of.is_none() {
                continue;
            }
            let first = seen.entry((thing.kind, of)).or_insert(thing);
            if kind.number == Number::AtMostOne && first.id != thing.id {
                let message = format!(
                    "`{}` and `{}` are both {}, and there can be only one.",
                    first.id, thing.id, kind.said
                );
                self.faults.add(Code::MoreThanOne, thing.span, message);
            }
        }
    }

    /// A thing that is, by way of others, part of itself.
    fn refuse_rings(&mut self, things: &[Thing]) {
        for (index, thing) in things.iter().enumerate() {
            let mut steps = std::iter::successors(thing.part_of, |at| things.get(*at)?.part_of);
            if steps.by_ref().take(things.len()).any(|at| at == index) {
                let message = format!("`{}` is part of itself, by way of others.", thing.id);
                self.faults.add(Code::PartOfItself, thing.span, message);
            }
        }
    }
}
