//! What the grammar and the vocabulary let stand in a place.

use super::entries::Entry;
use super::keysets::*;
use super::place::Step;
use crate::grammar::plan::{CASE, DEFINED, PLACED, PLAN, THING};
use crate::grammar::{
    ADDITION, BOUNDS, CHOOSING, CHOSEN_OUTLINES, COMBINATIONS, Combination, Declaration, EACH,
    HOLDS, Key, MEASURES, Main, PART, PART_REPLACED, PLACES, REQUIRE, RULE, RULE_FILE,
    SOURCED_TERM, Syntax, TERM_EDIT, TERM_OF, VALUES, WITHDRAWAL, ZONE_MAP, main_named,
};
use crate::vocabulary::{Answer, FactId, KindId, Matter, Role, Vocabulary};

/// What is looked up: the vocabulary, and the names that the file gives.
pub(super) struct Tables<'v> {
    pub vocabulary: &'v Vocabulary,
    pub own: &'v [Entry],
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
