//! What the grammar and the vocabulary let stand in a place.

use super::entries::Entry;
use super::place::Step;
use crate::grammar::plan::{CASE, DEFINED, PLACED, PLAN, THING};
use crate::grammar::{
    ADDITION, BOUNDS, CHOOSING, CHOSEN_OUTLINES, COMBINATIONS, Combination, Declaration, EACH,
    HOLDS, Key, MEASURES, Main, PART, PART_REPLACED, PLACES, REQUIRE, RULE, RULE_FILE,
    SOURCED_TERM, Syntax, TERM_EDIT, TERM_OF, Tie, VALUES, WITHDRAWAL, ZONE_MAP, main_named,
};
use crate::vocabulary::{Answer, FactId, KindId, Matter, Role, Vocabulary};

/// What a place takes.
#[derive(Debug, Clone, Copy)]
pub(super) enum Takes {
    /// What a table of the grammar says.
    Syntax(&'static Syntax),
    /// A plan.
    Plan,
    /// A thing of a kind; none where a key in it says which.
    Thing(Option<KindId>),
    /// What can be stated for a fact.
    Fact(FactId),
}

/// A word that may stand in a place, with its sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Word {
    pub word: String,
    pub says: String,
}

/// A key that may stand in a map.
#[derive(Debug, Clone)]
pub(super) struct Known {
    pub name: String,
    pub says: String,
    pub takes: Takes,
}

/// A map that may stand in a place.
#[derive(Debug, Clone, Default)]
pub(super) struct Keyset {
    pub what: &'static str,
    pub means: &'static str,
    pub example: &'static str,
    pub keys: Vec<Known>,
    /// What people say instead of a key.
    pub others: &'static [(&'static str, &'static str)],
    ties: &'static [Tie],
}

/// All that may stand in a place.
#[derive(Debug, Default)]
pub(super) struct Open {
    pub words: Vec<Word>,
    pub maps: Vec<Keyset>,
    /// The parts of a list.
    pub parts: Vec<Takes>,
    /// What follows each name of the writer's own choosing.
    pub named: Vec<Takes>,
    /// What else, in words.
    pub other: Vec<String>,
}

/// What is looked up: the vocabulary, and the names that the file gives.
pub(super) struct Tables<'v> {
    pub vocabulary: &'v Vocabulary,
    pub own: &'v [Entry],
}

type Given<'g> = &'g [(&'g str, &'g str)];

fn word(word: &str, says: &str) -> Word {
    let (word, says) = (word.to_owned(), says.to_owned());
    Word { word, says }
}

fn known(key: &'static Key) -> Known {
    Known {
        name: key.name.to_owned(),
        says: key.means.to_owned(),
        takes: Takes::Syntax(&key.syntax),
    }
}

impl Keyset {
    fn of(declaration: &'static Declaration) -> Self {
        let groups = declaration.groups.iter().copied().flatten();
        Self {
            what: declaration.what,
            means: declaration.means,
            example: declaration.example,
            keys: declaration.keys.iter().chain(groups).map(known).collect(),
            others: declaration.others,
            ties: declaration.ties,
        }
    }

    fn of_keys(what: &'static str, keys: impl IntoIterator<Item = &'static Key>) -> Self {
        Self {
            what,
            keys: keys.into_iter().map(known).collect(),
            ..Self::default()
        }
    }

    pub fn has(&self, name: &str) -> bool {
        self.keys.iter().any(|key| key.name == name)
    }

    /// The keys that may still be written beside some others.
    pub fn still(&self, given: Given<'_>) -> impl Iterator<Item = &Known> {
        let written = |name: &str| given.iter().any(|(key, _)| *key == name);
        let barred = self.ties.iter().flat_map(move |tie| match tie {
            Tie::One(sets) if sets.iter().any(|set| set.iter().all(|key| written(key))) => {
                sets.iter().flat_map(|set| set.iter().copied()).collect()
            }
            Tie::Needs(key, other) if !written(other) => vec![*key],
            _ => Vec::new(),
        });
        let barred: Vec<&str> = barred.collect();
        self.keys
            .iter()
            .filter(move |key| !written(&key.name) && !barred.contains(&key.name.as_str()))
    }
}

impl Open {
    fn map(&mut self, declaration: &'static Declaration) {
        self.maps.push(Keyset::of(declaration));
    }

    fn says(&mut self, other: impl Into<String>) {
        self.other.push(other.into());
    }

    /// The maps that have all of some keys; all of them where none has.
    pub fn fitting(&self, given: Given<'_>) -> Vec<&Keyset> {
        let has_all = |map: &&Keyset| given.iter().all(|(key, _)| map.has(key));
        let fitting: Vec<_> = self.maps.iter().filter(has_all).collect();
        match fitting.is_empty() {
            true => self.maps.iter().collect(),
            false => fitting,
        }
    }
}

impl Tables<'_> {
    /// What may stand where some steps lead, and what stands beside it there.
    pub fn at(&self, steps: &[Step<'_>], within: Given<'_>) -> Open {
        const TOP: Syntax = Syntax::Named("rule-set");
        let mut open = Open::default();
        self.add(Takes::Syntax(&TOP), ("", &[]), &mut open);
        for (number, step) in steps.iter().enumerate() {
            let next = match steps.get(number + 1) {
                Some(Step::Key(key, others)) => {
                    let mut all = others.clone();
                    all.push((key, ""));
                    all
                }
                Some(Step::Item) => Vec::new(),
                None => within.to_vec(),
            };
            open = self.after(&open, step, &next);
        }
        open
    }

    fn after(&self, open: &Open, step: &Step<'_>, within: Given<'_>) -> Open {
        let mut next = Open::default();
        match step {
            Step::Item => {
                for part in &open.parts {
                    self.add_in(*part, ("", &[]), within, &mut next);
                }
            }
            Step::Key(key, others) => {
                let mut given = others.clone();
                given.push((key, ""));
                let maps = open.fitting(&given);
                let known = maps.iter().flat_map(|map| &map.keys);
                let known = known.filter(|known| known.name == *key);
                let mut takes: Vec<Takes> = known.map(|known| known.takes).collect();
                if takes.is_empty() {
                    takes.clone_from(&open.named);
                }
                for takes in takes {
                    self.add_in(takes, (key, others), within, &mut next);
                }
            }
        }
        next
    }

    /// Adds what a place takes, whatever stands beside it.
    pub fn open(&self, takes: Takes, open: &mut Open) {
        self.add(takes, ("", &[]), open);
    }

    fn add(&self, takes: Takes, beside: (&str, Given<'_>), open: &mut Open) {
        self.add_in(takes, beside, &[], open);
    }

    /// Adds what a place takes that follows a key beside others, and holds some keys already.
    fn add_in(&self, takes: Takes, beside: (&str, Given<'_>), within: Given<'_>, open: &mut Open) {
        match takes {
            Takes::Syntax(syntax) => self.add_syntax(syntax, beside, within, open),
            Takes::Plan => open.maps.push(self.plan()),
            Takes::Thing(kind) => open.maps.push(self.thing(kind, within)),
            Takes::Fact(fact) => self.add_answers(fact, open),
        }
    }

    fn add_syntax(
        &self,
        syntax: &'static Syntax,
        beside: (&str, Given<'_>),
        within: Given<'_>,
        open: &mut Open,
    ) {
        let again = |syntax, open: &mut Open| self.add_syntax(syntax, beside, within, open);
        match syntax {
            Syntax::Named(name) => self.add_named(name, beside, within, open),
            Syntax::Map(declaration) => open.map(declaration),
            Syntax::AnyOf(ways) => ways.iter().for_each(|way| again(way, open)),
            Syntax::OrNothing(of) | Syntax::Says(_, of) => again(of, open),
            Syntax::List(part, _) | Syntax::Pair(part) => open.parts.push(Takes::Syntax(part)),
            Syntax::OneOrMore(part) => {
                open.parts.push(Takes::Syntax(part));
                again(part, open);
            }
            Syntax::ByName(of) | Syntax::Each(of) => open.named.push(Takes::Syntax(of)),
            // The one map that is declared elsewhere with keys is a case.
            Syntax::Open(keys) if !keys.is_empty() => open.map(&CASE),
            Syntax::Words(words) => open.words.extend(words.iter().map(|it| word(it, ""))),
            Syntax::Choice(it, means) => open.words.push(word(it, means)),
            Syntax::Meanings(words) => {
                open.words
                    .extend(words.iter().map(|(it, means)| word(it, means)));
            }
            Syntax::YesNo => open.words.extend(["yes", "no"].map(|it| word(it, ""))),
            Syntax::Amount(dimension) => open.says(match dimension {
                Some(dimension) => format!("Such as {}.", dimension.example()),
                None => "An amount with its unit, such as `3 m`.".to_owned(),
            }),
            Syntax::ShortName => open.says("A short name, in small letters and hyphens."),
            Syntax::Pattern(_, [example, ..]) => open.says(format!("Such as `{example}`.")),
            Syntax::Text | Syntax::Told => self.add_text(beside.0, open),
            Syntax::Scalar => self.add_compared(beside.1, open),
            _ => {}
        }
    }

    /// Texts that name something.
    fn add_text(&self, key: &str, open: &mut Open) {
        match key {
            "meets" => self.add_own("terms", "A term of this file.", open),
            "have" | "documents" => self.add_own("documents", "A document of this file.", open),
            _ => open.says("A text."),
        }
    }

    fn add_own(&self, section: &str, says: &str, open: &mut Open) {
        let own = self.own.iter().filter(|entry| entry.section == section);
        open.words.extend(own.map(|entry| word(&entry.id, says)));
    }

    /// What a fact beside the bound can be.
    fn add_compared(&self, others: Given<'_>, open: &mut Open) {
        let named = others.iter().find(|(key, _)| *key == "fact");
        if let Some(fact) = named.and_then(|(_, fact)| self.fact(fact)) {
            self.add_answers(fact, open);
        }
    }

    fn fact(&self, name: &str) -> Option<FactId> {
        let named = |kind: KindId, fact: &str| self.vocabulary.fact_named(kind, fact);
        match name.split_once('.') {
            Some((kind, fact)) => named(self.vocabulary.kind_named(kind)?, fact),
            None => self
                .vocabulary
                .short_kinds()
                .find_map(|kind| named(kind, name)),
        }
    }

    fn add_answers(&self, fact: FactId, open: &mut Open) {
        let fact = self.vocabulary.fact(fact);
        match &fact.answer {
            Answer::Word { words, .. } => open.words.extend(words.iter().map(|it| word(it, ""))),
            Answer::YesNo => open.words.extend(["yes", "no"].map(|it| word(it, ""))),
            Answer::Amount { dimension, .. } => {
                open.says(format!("Such as {}.", dimension.example()))
            }
        }
        open.words
            .extend(fact.none.then(|| word("none", "There is none.")));
    }

    fn add_named(
        &self,
        name: &'static str,
        beside: (&str, Given<'_>),
        within: Given<'_>,
        open: &mut Open,
    ) {
        let add = |name: &'static str, open: &mut Open| self.add_named(name, beside, within, open);
        match name {
            "matter" => open
                .words
                .extend(Matter::ALL.iter().map(|it| word(it.id(), it.said()))),
            "kind-name" => self.add_kinds(open),
            "outline-name" => self.add_outlines(open),
            "fact-name" => self.add_facts(open),
            "day-name" => self.add_days(open),
            "measure" => open.maps.push(measures()),
            "requirement" => {
                open.parts
                    .push(Takes::Syntax(&Syntax::Named("requirement")));
                open.words.push(word("refer", "This is for the authority."));
                open.maps.push(requirement(within, &[]));
            }
            "entry" => [
                &RULE as &'static Declaration,
                &PART_REPLACED,
                &ADDITION,
                &WITHDRAWAL,
            ]
            .into_iter()
            .for_each(|map| open.map(map)),
            "term" => {
                open.says("An amount with its unit, such as `3 m`.");
                add("outline-name", open);
                add("fact-name", open);
                open.parts
                    .push(Takes::Syntax(&Syntax::Named("requirement")));
                [
                    &CHOSEN_OUTLINES as &'static Declaration,
                    &SOURCED_TERM,
                    &TERM_EDIT,
                ]
                .into_iter()
                .for_each(|map| open.map(map));
                self.add_syntax(&ZONE_MAP, beside, within, open);
                open.maps.push(requirement(within, &[&TERM_OF]));
            }
            "told" => open.says("A text."),
            "plan" | "change" => self.add(Takes::Plan, beside, open),
            "thing" => self.add_in(Takes::Thing(None), beside, within, open),
            _ => self.add_declared(name, beside, within, open),
        }
    }

    fn add_declared(
        &self,
        name: &str,
        beside: (&str, Given<'_>),
        within: Given<'_>,
        open: &mut Open,
    ) {
        let tables: [&'static [(&str, Syntax)]; 4] = [&RULE_FILE, &VALUES, &PLACES, &DEFINED];
        let mut declared = tables.into_iter().flatten();
        if let Some((_, syntax)) = declared.find(|(known, _)| *known == name) {
            self.add_syntax(syntax, beside, within, open);
        }
    }

    fn add_kinds(&self, open: &mut Open) {
        let kinds = self.vocabulary.kinds();
        open.words
            .extend(kinds.map(|(_, kind)| word(&kind.name, &kind.said)));
        self.add_own("terms", "A term of this file.", open);
    }

    fn add_outlines(&self, open: &mut Open) {
        for (_, kind) in self.vocabulary.kinds() {
            let outlines = kind.outlines.iter();
            open.words.extend(outlines.map(|id| {
                let said = &self.vocabulary.outline(*id).said;
                word(&self.vocabulary.outline_path(*id), said)
            }));
        }
        self.add_kinds(open);
    }

    fn add_facts(&self, open: &mut Open) {
        for (_, kind) in self.vocabulary.kinds() {
            let facts = kind.facts.iter();
            open.words.extend(facts.map(|id| {
                let fact = self.vocabulary.fact(*id);
                match kind.is_short() {
                    true => word(&fact.name, &fact.ask),
                    false => word(&self.vocabulary.fact_path(*id), &fact.ask),
                }
            }));
        }
        self.add_own("terms", "A term of this file.", open);
    }

    fn add_days(&self, open: &mut Open) {
        let events = self.vocabulary.with_role(Role::Events);
        let facts = events
            .into_iter()
            .flat_map(|kind| &self.vocabulary.kind(kind).facts);
        open.words.extend(facts.map(|id| {
            let fact = self.vocabulary.fact(*id);
            word(&fact.name, &fact.ask)
        }));
    }

    fn plan(&self) -> Keyset {
        let mut plan = Keyset::of(&PLAN);
        for (id, kind) in self
            .vocabulary
            .kinds()
            .filter(|(_, kind)| !kind.is_listed())
        {
            let takes = Takes::Thing(Some(id));
            match plan
                .keys
                .iter_mut()
                .find(|known| known.name == kind.plan_key())
            {
                Some(known) => known.takes = takes,
                None => plan.keys.push(Known {
                    name: kind.plan_key().to_owned(),
                    says: kind.said.clone(),
                    takes,
                }),
            }
        }
        plan
    }

    fn thing(&self, kind: Option<KindId>, within: Given<'_>) -> Keyset {
        let mut thing = Keyset::of_keys("a thing", THING.keys.iter().chain(&PLACED));
        let said = within.iter().find(|(key, _)| *key == "kind");
        let kind = kind.or_else(|| self.vocabulary.kind_named(said?.1));
        let facts = kind
            .into_iter()
            .flat_map(|kind| &self.vocabulary.kind(kind).facts);
        thing.keys.extend(facts.map(|id| {
            let fact = self.vocabulary.fact(*id);
            Known {
                name: fact.name.clone(),
                says: fact.ask.clone(),
                takes: Takes::Fact(*id),
            }
        }));
        thing
    }
}

fn measures() -> Keyset {
    Keyset::of_keys("a value", MEASURES.iter().map(|it| &it.key))
}

/// One requirement: what it is about, or, where that is written, what belongs to it.
fn requirement(within: Given<'_>, more: &[&'static Key]) -> Keyset {
    const EVERY: &[(Combination, Key)] = &COMBINATIONS;
    let written = within.iter().find_map(|(key, _)| main_named(key));
    let all = EVERY.iter().map(|(_, key)| key);
    let all = all.chain(MEASURES.iter().map(|it| &it.key));
    let mains =
        all.filter(|key| written.is_none() || within.iter().any(|(name, _)| *name == key.name));
    let rest: &[&'static [Key]] = match written {
        Some(Main::Measure(_)) => &[&BOUNDS, &[HOLDS]],
        Some(Main::Combination(Combination::Each)) => &[&CHOOSING, &[REQUIRE]],
        Some(Main::Combination(_)) => &[],
        None if within.is_empty() => &[],
        None => &[&BOUNDS, &[HOLDS], &CHOOSING, &[REQUIRE, EACH]],
    };
    let rest = rest.iter().copied().flatten();
    let part: &'static [Key] = &[PART];
    let keys = mains.chain(rest).chain(part).chain(more.iter().copied());
    let mut requirement = Keyset::of_keys("a requirement", keys);
    requirement.example = "{distance: {from: pool.water, to: lot-line}, at-least: 3 m}";
    requirement
}
