//! What the rules read from a plan: facts, outlines, kinds and papers, each with its readers.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::check::value::heights::facts_of_height;
use crate::check::value::levels::fact_of_level;
use crate::check::world::special::{
    POWER, REFLECTING, RUNS, WIDTH, in_the_way, line_of, ownership_fact,
};
use crate::ruleset::visit::{Visit, within};
use crate::ruleset::{
    Condition, Distance, DocumentIndex, Enclosure, InForce, Measured, Once, Operand, Part,
    Requirement, RuleSet, Selection, Sound, Value,
};
use crate::vocabulary::{FactId, KindId, OutlineId, Role, Vocabulary};

/// A reader of something: its place in [`Reads::readers`].
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
    let mut walk = ReadsWalk {
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
pub(super) fn facts_of<'r>(
    requirement: &'r Requirement,
    vocabulary: &'r Vocabulary,
) -> BTreeSet<FactId> {
    let mut walk = ReadsWalk {
        vocabulary,
        reads: Reads::default(),
        now: 0,
        terms: Once::default(),
    };
    walk.requirement(requirement);
    walk.reads.facts.into_keys().collect()
}

struct ReadsWalk<'r> {
    vocabulary: &'r Vocabulary,
    reads: Reads,
    now: Reader,
    /// The terms already seen for this reader.
    terms: Once,
}

impl<'r> ReadsWalk<'r> {
    fn reader(&mut self, id: &str, title: &str) {
        self.now = self.reads.readers.len();
        self.terms = Once::default();
        self.reads.readers.push((id.to_owned(), title.to_owned()));
    }

    fn heads(&mut self, rules: &'r RuleSet) {
        self.reader(&rules.id, &rules.title);
        self.in_force(rules.in_force.as_ref());
        for decision in &rules.decisions {
            self.reader(&decision.id, &decision.title);
            decision.each.iter().for_each(|each| self.selection(each));
            within::table(self, &decision.table, |_, _| {});
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

    fn rules(&mut self, rules: &'r RuleSet) {
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

    fn kind(&mut self, kind: KindId) {
        self.reads.kinds.entry(kind).or_default().insert(self.now);
    }

    fn outline(&mut self, outline: OutlineId) {
        let known = self.reads.outlines.entry(outline).or_default();
        known.insert(self.now);
        self.kind(self.vocabulary.outline(outline).kind);
    }

    /// A fact of a kind by its name, where the vocabulary has it.
    fn named(&mut self, kind: KindId, fact: &str) {
        if let Some(fact) = self.vocabulary.fact_named(kind, fact) {
            self.fact(fact);
        }
    }

    fn in_force(&mut self, in_force: Option<&'r InForce>) {
        if let Some(in_force) = in_force {
            self.fact(in_force.by);
            self.condition_of(in_force.or_when.as_ref());
            self.condition_of(in_force.unless.as_ref());
        }
    }

    fn condition_of(&mut self, condition: Option<&'r Condition>) {
        self.condition(condition.map(|condition| &condition.requirement));
    }

    fn condition(&mut self, requirement: Option<&'r Requirement>) {
        requirement.iter().for_each(|inner| self.requirement(inner));
    }

    fn distance(&mut self, distance: &Distance) {
        let ends = [&distance.from, &distance.to];
        if matches!(distance.how, Measured::InSpace | Measured::Plumb) {
            let parts = ends.into_iter().flat_map(|end| end.parts.iter());
            parts.for_each(|part| self.height(part.outline));
        }
        if distance.how == Measured::Walking {
            self.in_the_way();
        }
        let [from, to] = ends;
        self.past_the_line(from, to);
        self.past_the_line(to, from);
    }

    /// An enclosure also reads where people come from (the sides of the lot, the doors of the house) and the holes in
    /// the barrier.
    fn enclosure(&mut self, enclosure: &Enclosure) {
        self.all_named(&[(Role::LotLine, "beyond"), (Role::BarrierOpening, WIDTH)]);
        self.line_of(Role::BarrierOpening);
        if enclosure.from.iter().any(|word| word == "dwelling") {
            self.all_named(&[
                (Role::WallOpening, "type"),
                (Role::WallOpening, "in"),
                (Role::Building, "use"),
            ]);
            self.line_of(Role::WallOpening);
        }
    }

    fn sound(&mut self, sound: &Sound) {
        for part in sound.from.parts.iter() {
            let kind = self.vocabulary.outline(part.outline).kind;
            for fact in [POWER, REFLECTING, RUNS] {
                self.named(kind, fact);
            }
        }
    }

    fn levels_of(&mut self, operand: &Operand) {
        let outlines = operand.parts.iter().map(|part| part.outline);
        outlines.for_each(|outline| self.level_of(outline));
    }

    fn level_of(&mut self, outline: OutlineId) {
        self.height(outline);
        self.all_named(&[(Role::Contour, "level"), (Role::Contour, "interval")]);
        if let Some(fact) = fact_of_level(outline, self.vocabulary) {
            self.fact(fact);
        }
    }

    /// The distance of the owner's things from a lot line depends on whose they are.
    fn past_the_line(&mut self, own: &Operand, line: &Operand) {
        let vocabulary = self.vocabulary;
        let kind = |part: &Part| vocabulary.outline(part.outline).kind;
        let lot_line = vocabulary.with_role(Role::LotLine);
        if !line.parts.iter().any(|part| Some(kind(part)) == lot_line) {
            return;
        }
        let facts = own
            .parts
            .iter()
            .filter_map(|part| ownership_fact(kind(part), vocabulary));
        facts.for_each(|(fact, _)| self.fact(fact));
    }

    /// Every distance on foot reads what stands in the way.
    fn in_the_way(&mut self) {
        for outline in in_the_way(self.vocabulary) {
            self.kind(self.vocabulary.outline(outline).kind);
            self.outline(outline);
        }
    }

    /// Every distance through the air reads how high its outlines lie and whether the ground is level.
    fn height(&mut self, outline: OutlineId) {
        for fact in facts_of_height(outline, self.vocabulary) {
            self.fact(fact);
        }
        self.all_named(&[(Role::Lot, "level-ground"), (Role::Spot, "level")]);
    }

    fn all_named(&mut self, facts: &[(Role, &str)]) {
        for (role, fact) in facts {
            let kind = self.vocabulary.with_role(*role);
            kind.iter().for_each(|kind| self.named(*kind, fact));
        }
    }

    fn line_of(&mut self, role: Role) {
        let line = line_of(role, self.vocabulary);
        line.iter().for_each(|(_, line)| self.outline(*line));
    }

    /// Whether a thing lies in a zone depends on all its outlines, except those that lie within another.
    fn place(&mut self, kind: KindId) {
        let vocabulary = self.vocabulary;
        let all = &vocabulary.kind(kind).outlines;
        let told = |one: OutlineId| all.iter().any(|other| vocabulary.is_within(one, *other));
        let asked = all
            .iter()
            .filter(|one| !told(**one) && !vocabulary.outline(**one).beside);
        asked.for_each(|outline| self.outline(*outline));
    }
}

impl<'r> Visit<'r> for ReadsWalk<'r> {
    fn term<T>(&mut self, said: &'r Arc<T>, go: fn(&mut Self, &'r T)) {
        if self.terms.is_first(said) {
            go(self, said);
        }
    }

    fn fact(&mut self, fact: FactId) {
        self.reads.facts.entry(fact).or_default().insert(self.now);
        self.kind(self.vocabulary.fact(fact).kind);
    }

    fn paper(&mut self, paper: DocumentIndex) {
        self.reads.papers.entry(paper).or_default().insert(self.now);
    }

    fn value(&mut self, value: &'r Value) {
        within::value(self, value);
        match value {
            Value::Distance(distance) => self.distance(distance),
            Value::Enclosure(enclosure) => self.enclosure(enclosure),
            Value::Sound(sound) => self.sound(sound),
            Value::Level(level) => self.levels_of(&level.of),
            Value::Fall(fall) => [&fall.from, &fall.to]
                .into_iter()
                .for_each(|end| self.levels_of(end)),
            Value::Volume(volume) => self.levels_of(&volume.over),
            Value::Height(height) => {
                let ends = [&height.of].into_iter().chain(&height.over);
                ends.for_each(|end| self.levels_of(end));
            }
            Value::Stated(_)
            | Value::Fact(_)
            | Value::Area(_)
            | Value::Length { .. }
            | Value::Count(_)
            | Value::Margin(_)
            | Value::Width(_)
            | Value::Table(_)
            | Value::Largest(_)
            | Value::Smallest(_)
            | Value::Sum(_)
            | Value::Difference(_)
            | Value::Product(_)
            | Value::Root(_)
            | Value::Over { .. }
            | Value::Named { .. } => {}
        }
    }

    fn part(&mut self, part: &'r Part) {
        within::part(self, part);
        if !part.if_drawn {
            self.outline(part.outline);
        }
    }

    fn selection(&mut self, selection: &'r Selection) {
        self.kind(selection.kind);
        selection.part_of.iter().for_each(|kind| self.kind(*kind));
        if selection.zone.is_some() {
            self.place(selection.kind);
        }
        within::selection(self, selection);
    }
}
