//! What the rules read of a plan: facts, outlines, kinds and papers, each with what reads it.

use std::collections::{BTreeMap, BTreeSet};

use crate::check::heights::facts_of_height;
use crate::check::levels::fact_of_level;
use crate::check::special::{
    IN_THE_WAY, OPENING, POWER, REFLECTING, RUNS, is_beside, is_within, says_whose,
};
use crate::ruleset::{
    Area, Bound, Condition, Distance, DocumentIndex, Enclosure, InForce, Measured, Once, Operand,
    Part, Requirement, Row, RowTest, RuleSet, Selection, ShareOf, Sound, Surface, Table, Then,
    Value, Volume, Which, Zone,
};
use crate::vocabulary::{FactId, KindId, OutlineId, Vocabulary};

/// What reads something: a place in [`Reads::readers`].
pub(super) type Reader = usize;
type Who = BTreeSet<Reader>;

/// All that is read, and by whom.
#[derive(Default)]
pub(super) struct Reads {
    /// The id and the title of each rule, decision, paper, duty and caution that reads anything.
    pub readers: Vec<(String, String)>,
    pub facts: BTreeMap<FactId, Who>,
    pub outlines: BTreeMap<OutlineId, Who>,
    pub kinds: BTreeMap<KindId, Who>,
    pub papers: BTreeMap<DocumentIndex, Who>,
}

/// All that a rule set reads.
pub(super) fn of(rules: &RuleSet) -> Reads {
    let mut walk = Walk {
        vocabulary: &rules.vocabulary,
        reads: Reads::default(),
        now: 0,
        terms: Once::default(),
    };
    walk.heads(rules);
    walk.rules(rules);
    walk.reads
}

/// The facts that a requirement reads.
pub(super) fn facts_of(requirement: &Requirement, vocabulary: &Vocabulary) -> BTreeSet<FactId> {
    let mut walk = Walk {
        vocabulary,
        reads: Reads::default(),
        now: 0,
        terms: Once::default(),
    };
    walk.requirement(requirement);
    walk.reads.facts.into_keys().collect()
}

struct Walk<'r> {
    vocabulary: &'r Vocabulary,
    reads: Reads,
    now: Reader,
    /// The terms that this reader was found to read.
    terms: Once,
}

impl Walk<'_> {
    fn reader(&mut self, id: &str, title: &str) {
        self.now = self.reads.readers.len();
        self.terms = Once::default();
        self.reads.readers.push((id.to_owned(), title.to_owned()));
    }

    fn heads(&mut self, rules: &RuleSet) {
        self.reader(&rules.id, &rules.title);
        self.in_force(rules.in_force.as_ref());
        for decision in &rules.decisions {
            self.reader(&decision.id, &decision.title);
            decision.each.iter().for_each(|each| self.selection(each));
            self.table(&decision.table, |_, _| {});
        }
        for (index, document) in rules.documents.iter().enumerate() {
            self.reader(&document.id, &document.title);
            self.condition_of(document.when.as_ref());
            document.each.iter().for_each(|each| self.selection(each));
            if document.always || document.when.is_some() || !document.on.is_empty() {
                self.paper(index);
            }
        }
        for duty in &rules.duties {
            self.reader(&duty.id, &duty.what);
            self.condition_of(duty.when.as_ref());
        }
        for caution in &rules.cautions {
            self.reader(&caution.id, &caution.says);
            self.condition_of(caution.when.as_ref());
        }
    }

    fn rules(&mut self, rules: &RuleSet) {
        for rule in rules.all_rules() {
            self.reader(&rule.id, &rule.title);
            self.in_force(rule.in_force.as_ref());
            self.condition(rule.when.as_ref());
            self.condition(rule.unless.as_ref());
            rule.each.iter().for_each(|each| self.selection(each));
            self.requirement(&rule.require);
            for relief in &rule.reliefs {
                self.condition(relief.when.as_ref());
                self.requirement(&relief.require);
            }
            rule.documents.iter().for_each(|paper| self.paper(*paper));
        }
    }

    fn fact(&mut self, fact: FactId) {
        self.reads.facts.entry(fact).or_default().insert(self.now);
        self.kind(self.vocabulary.fact(fact).kind);
    }

    fn kind(&mut self, kind: KindId) {
        self.reads.kinds.entry(kind).or_default().insert(self.now);
    }

    fn outline(&mut self, outline: OutlineId) {
        let known = self.reads.outlines.entry(outline).or_default();
        known.insert(self.now);
        self.kind(self.vocabulary.outline(outline).kind);
    }

    fn paper(&mut self, paper: DocumentIndex) {
        self.reads.papers.entry(paper).or_default().insert(self.now);
    }

    /// A fact of a kind by its name, where the vocabulary has it.
    fn named(&mut self, kind: KindId, fact: &str) {
        if let Some(fact) = self.vocabulary.fact_named(kind, fact) {
            self.fact(fact);
        }
    }

    fn in_force(&mut self, in_force: Option<&InForce>) {
        if let Some(in_force) = in_force {
            self.fact(in_force.by);
            self.condition_of(in_force.or_when.as_ref());
            self.condition_of(in_force.unless.as_ref());
        }
    }

    fn condition_of(&mut self, condition: Option<&Condition>) {
        self.condition(condition.map(|condition| &condition.requirement));
    }

    fn condition(&mut self, requirement: Option<&Requirement>) {
        requirement.iter().for_each(|inner| self.requirement(inner));
    }

    fn requirement(&mut self, requirement: &Requirement) {
        match requirement {
            Requirement::Test(test) => {
                self.value(&test.value);
                self.bounds(&test.bounds);
            }
            Requirement::All(list) | Requirement::Any(list) => {
                list.iter().for_each(|member| self.requirement(member));
            }
            Requirement::Not(inner) => self.requirement(inner),
            Requirement::Count { of, bounds } => {
                of.iter().for_each(|member| self.requirement(member));
                self.bounds(bounds);
            }
            Requirement::Each(each) => {
                self.selection(&each.selection);
                self.requirement(&each.require);
            }
            Requirement::Table(table) => self.table(table, Self::requirement),
            Requirement::Meets { requirement, .. } => {
                if self.terms.is_first(requirement) {
                    self.requirement(requirement);
                }
            }
            Requirement::Have(paper) => self.paper(*paper),
            Requirement::Refer => {}
        }
    }

    fn bounds(&mut self, bounds: &[Bound]) {
        for bound in bounds {
            match bound {
                Bound::AtLeast(value)
                | Bound::AtMost(value)
                | Bound::MoreThan(value)
                | Bound::LessThan(value) => self.value(value),
                Bound::Is(_) => {}
            }
        }
    }

    fn table<T>(&mut self, table: &Table<T>, then: impl Fn(&mut Self, &T)) {
        table.by.iter().for_each(|by| self.value(by));
        for Row {
            test, then: give, ..
        } in &table.rows
        {
            match test {
                RowTest::Bounds(bounds) => self.bounds(bounds),
                RowTest::When(requirement) => self.requirement(requirement),
                RowTest::Otherwise => {}
            }
            if let Then::Give(given) = give {
                then(self, given);
            }
        }
    }

    fn value(&mut self, value: &Value) {
        match value {
            Value::Stated(_) => {}
            Value::Fact(fact) => self.fact(*fact),
            Value::Distance(distance) => self.distance(distance),
            Value::Area(area) => self.area(area),
            Value::Length { of, within } => {
                self.operand(of);
                within.iter().for_each(|zone| self.zone(zone));
            }
            Value::Count(selection) => self.selection(selection),
            Value::Enclosure(enclosure) => self.enclosure(enclosure),
            Value::Sound(sound) => self.sound(sound),
            Value::Level(level) => self.raised(&level.of),
            Value::Fall(fall) => {
                self.raised(&fall.from);
                self.raised(&fall.to);
                fall.run.iter().for_each(|run| self.value(run));
            }
            Value::Volume(volume) => self.volume(volume),
            Value::Height(height) => {
                self.raised(&height.of);
                self.value(&height.within);
                height.over.iter().for_each(|over| self.raised(over));
            }
            Value::Table(table) => self.table(table, Self::value),
            Value::Largest(list)
            | Value::Smallest(list)
            | Value::Sum(list)
            | Value::Difference(list)
            | Value::Product(list) => list.iter().for_each(|member| self.value(member)),
            Value::Over { of, take, .. } => {
                self.selection(of);
                self.value(take);
            }
            Value::Named { value, .. } => {
                if self.terms.is_first(value) {
                    self.value(value);
                }
            }
        }
    }

    /// Outlines of which the level counts.
    fn raised(&mut self, operand: &Operand) {
        self.operand(operand);
        operand
            .parts
            .iter()
            .for_each(|part| self.level(part.outline));
    }

    fn level(&mut self, outline: OutlineId) {
        self.height(outline);
        self.all_named(&[("contour", "level"), ("contour", "interval")]);
        if let Some(fact) = fact_of_level(outline, self.vocabulary) {
            self.fact(fact);
        }
    }

    fn volume(&mut self, volume: &Volume) {
        self.raised(&volume.over);
        volume.within.iter().for_each(|zone| self.zone(zone));
        for surface in [&volume.from, &volume.to] {
            if let Surface::At(level) = surface {
                self.value(level);
            }
        }
    }

    fn distance(&mut self, distance: &Distance) {
        for end in [&distance.from, &distance.to] {
            self.operand(end);
            if matches!(distance.how, Measured::InSpace | Measured::Plumb) {
                end.parts.iter().for_each(|part| self.height(part.outline));
            }
        }
        if distance.how == Measured::Walking {
            self.in_the_way();
        }
        for (own, line) in [
            (&distance.from, &distance.to),
            (&distance.to, &distance.from),
        ] {
            self.past_the_line(own, line);
        }
    }

    /// How far the owner's own things are from a lot line hangs on whose they are.
    fn past_the_line(&mut self, own: &Operand, line: &Operand) {
        let vocabulary = self.vocabulary;
        let kind = |part: &Part| vocabulary.outline(part.outline).kind;
        let lot_line = vocabulary.kind_named("lot-line");
        if !line.parts.iter().any(|part| Some(kind(part)) == lot_line) {
            return;
        }
        let facts = own
            .parts
            .iter()
            .filter_map(|part| says_whose(kind(part), vocabulary));
        facts.for_each(|(fact, _)| self.fact(fact));
    }

    /// What stands in the way is read with every distance on foot.
    fn in_the_way(&mut self) {
        for (kind, outline) in IN_THE_WAY {
            let Some(kind) = self.vocabulary.kind_named(kind) else {
                continue;
            };
            self.kind(kind);
            let outline = self.vocabulary.outline_named(kind, outline);
            outline.iter().for_each(|outline| self.outline(*outline));
        }
    }

    /// How high an outline lies, and whether the ground is level, is read with every distance through the air.
    fn height(&mut self, outline: OutlineId) {
        for fact in facts_of_height(outline, self.vocabulary) {
            self.fact(fact);
        }
        self.all_named(&[("lot", "level-ground"), ("ground-spot", "level")]);
    }

    fn all_named(&mut self, facts: &[(&str, &str)]) {
        for (kind, fact) in facts {
            let kind = self.vocabulary.kind_named(kind);
            kind.iter().for_each(|kind| self.named(*kind, fact));
        }
    }

    fn area(&mut self, area: &Area) {
        self.operand(&area.of);
        area.within.iter().for_each(|zone| self.zone(zone));
        match &area.share_of {
            Some(ShareOf::Outlines(operand)) => self.operand(operand),
            Some(ShareOf::Value(value)) => self.value(value),
            None => {}
        }
    }

    /// Where people come from is told by the sides of the lot and by the doors of the house; a barrier may have holes.
    fn enclosure(&mut self, enclosure: &Enclosure) {
        self.operand(&enclosure.of);
        self.operand(&enclosure.made_of);
        let vocabulary = self.vocabulary;
        let kind = |name: &str| vocabulary.kind_named(name);
        let read: &[(&str, &str)] = match enclosure.from.iter().any(|word| word == "dwelling") {
            true => &[
                ("lot-line", "beyond"),
                ("wall-opening", "type"),
                ("wall-opening", "in"),
                ("building", "use"),
            ],
            false => &[("lot-line", "beyond")],
        };
        for (name, fact) in read {
            kind(name).iter().for_each(|kind| self.named(*kind, fact));
        }
        if let Some(hole) = kind(OPENING.0) {
            self.named(hole, OPENING.2);
            let line = vocabulary.outline_named(hole, OPENING.1);
            line.iter().for_each(|line| self.outline(*line));
        }
        let opening = kind("wall-opening").filter(|_| read.len() > 1);
        let line = opening.and_then(|kind| vocabulary.outline_named(kind, "line"));
        line.iter().for_each(|line| self.outline(*line));
    }

    fn sound(&mut self, sound: &Sound) {
        self.operand(&sound.from);
        self.operand(&sound.at);
        for part in sound.from.parts.iter() {
            let kind = self.vocabulary.outline(part.outline).kind;
            for fact in [POWER, REFLECTING, RUNS] {
                self.named(kind, fact);
            }
        }
    }

    fn operand(&mut self, operand: &Operand) {
        for part in operand.parts.iter() {
            if let Which::All(selection) = &part.which {
                self.selection(selection);
            }
            if !part.if_drawn {
                self.outline(part.outline);
            }
        }
    }

    fn selection(&mut self, selection: &Selection) {
        self.kind(selection.kind);
        self.condition(selection.filter.as_deref());
        if let Some(zone) = &selection.zone {
            self.place(selection.kind);
            self.zone(zone);
        }
    }

    /// Whether a thing lies in a zone, all its outlines say but those that lie within another.
    fn place(&mut self, kind: KindId) {
        let vocabulary = self.vocabulary;
        let all = &vocabulary.kind(kind).outlines;
        let told = |one: OutlineId| all.iter().any(|other| is_within(one, *other, vocabulary));
        let asked = all
            .iter()
            .filter(|one| !told(**one) && !is_beside(**one, vocabulary));
        asked.for_each(|outline| self.outline(*outline));
    }

    fn zone(&mut self, zone: &Zone) {
        match zone {
            Zone::Inside(operand) => self.operand(operand),
            Zone::Around { of, by } => {
                self.operand(of);
                self.value(by);
            }
            Zone::Between(one, other) => {
                self.operand(one);
                self.operand(other);
            }
            Zone::Corner { of, legs } => {
                self.operand(&of.0);
                self.operand(&of.1);
                self.value(legs);
            }
            Zone::Not(inner) => self.zone(inner),
            Zone::Named { zone, .. } => {
                if self.terms.is_first(zone) {
                    self.zone(zone);
                }
            }
        }
    }
}
