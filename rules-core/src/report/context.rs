//! The context of a report: what it is made from, and the names of the things in it.

use super::figures::{metres, metres_roughly};
use super::model::{SubjectReport, WitnessReport};
use crate::check::{Findings, Part, Subject, Witness, passages};
use crate::measure::distance;
use crate::plan::{Form, Plan, Point, Thing, ThingIndex, Words};
use crate::quantity::{Rounding, Unit, show};
use crate::ruleset::RuleSet;
use crate::ruleset::words::{kind_noun, outline_words, plural};
use crate::text::Lines;
use crate::vocabulary::{KindId, Number, OutlineId};

/// A place within this distance of a thing's outline counts as on it, in nanometres: a tenth of a metre.
const ON_IT: i64 = 100_000_000;

/// The texts that plan and rule set were read from, so that a report can name lines. Any may be missing.
#[derive(Debug, Clone, Default)]
pub struct Texts<'t> {
    /// The plan's.
    pub plan: Option<&'t str>,
    /// The rule files', in the order of the rule set's layers.
    pub layers: Vec<Option<&'t str>>,
}

/// Everything that a report is made from.
pub(super) struct ReportContext<'a> {
    pub plan: &'a Plan,
    pub rules: &'a RuleSet,
    pub findings: &'a Findings<'a>,
    plan_lines: Option<Lines<'a>>,
    layer_lines: Vec<Option<Lines<'a>>>,
}

impl<'a> ReportContext<'a> {
    pub fn new(
        findings: &'a Findings<'a>,
        plan: &'a Plan,
        rules: &'a RuleSet,
        texts: &Texts<'a>,
    ) -> Self {
        let layers = texts.layers.iter();
        Self {
            plan,
            rules,
            findings,
            plan_lines: texts.plan.map(Lines::new),
            layer_lines: layers.map(|text| text.map(Lines::new)).collect(),
        }
    }

    /// The line of a place in one of the rule files.
    pub fn rule_line(&self, layer: usize, byte: usize) -> Option<usize> {
        let lines = self.layer_lines.get(layer)?.as_ref()?;
        Some(lines.line(byte))
    }

    pub fn thing(&self, index: ThingIndex) -> Option<&'a Thing> {
        self.plan.things.get(index)
    }

    /// What a thing is called: ``the rear lot line `l3` ``, ``gate `garden-gate` ``, `the lot`.
    pub fn thing_words(&self, index: ThingIndex) -> String {
        let Some(thing) = self.thing(index) else {
            return "something on the plan".to_owned();
        };
        let noun = kind_noun(thing.kind, &self.rules.vocabulary);
        let face = self.face(thing).map(|face| format!("{face} "));
        let alone = self.is_alone(index, thing);
        let number = self.rules.vocabulary.kind(thing.kind).number;
        match face.unwrap_or_default() {
            face if alone
                && (number != Number::Many || !face.is_empty() || thing.called() == noun) =>
            {
                format!("the {face}{noun}")
            }
            face => format!("the {face}{noun} `{}`", thing.called()),
        }
    }

    /// The one side that a lot line surely is.
    fn face(&self, thing: &'a Thing) -> Option<&'a str> {
        let vocabulary = &self.rules.vocabulary;
        let lot_line = vocabulary.kind_named("lot-line")?;
        let fact = vocabulary.fact_named(thing.kind, "faces")?;
        let stated = (thing.kind == lot_line).then(|| thing.facts.get(&fact))??;
        only_word(stated.words.as_deref()?)
    }

    /// Whether no other thing on the plan would be called the same without its id.
    fn is_alone(&self, index: ThingIndex, thing: &'a Thing) -> bool {
        let face = self.face(thing);
        let others = self.plan.things.iter().enumerate();
        !others
            .filter(|(other, _)| *other != index)
            .any(|(_, other)| other.kind == thing.kind && self.face(other) == face)
    }

    /// What a finding is about.
    pub fn subject(&self, subject: &Subject) -> SubjectReport {
        match subject {
            Subject::Plan => whole_plan(None, "the plan".to_owned(), true),
            Subject::Thing { index, sure } => self.thing_subject(*index, *sure),
            Subject::NoneOf(kind) => {
                let said = format!("the plan, which has no {}", self.noun(*kind));
                whole_plan(Some(self.kind_name(*kind)), said, true)
            }
            Subject::Unseen(kind) => {
                let said = format!("any {} not shown on the plan", self.noun(*kind));
                whole_plan(Some(self.kind_name(*kind)), said, false)
            }
        }
    }

    /// What a part of a finding is about. If the plan has several pools, it says which one.
    pub fn part_subject(&self, part: &Part) -> SubjectReport {
        self.subject_and_pool(&part.subject, part.pool)
    }

    /// What something is about; if the plan has several pools, with the pool that is meant.
    pub fn subject_and_pool(&self, subject: &Subject, pool: Option<ThingIndex>) -> SubjectReport {
        let own = self.subject(subject);
        let is_pool = matches!(subject, Subject::Thing { index, .. } if Some(*index) == pool);
        match pool.filter(|_| self.several_pools() && !is_pool) {
            Some(pool) => SubjectReport {
                said: format!("{} and {}", own.said, self.thing_words(pool)),
                ..own
            },
            None => own,
        }
    }

    /// The name of the pool a part is about.
    pub fn pool_words(&self, part: &Part) -> String {
        match part.pool.filter(|_| self.several_pools()) {
            Some(pool) => self.thing_words(pool),
            None => "the pool".to_owned(),
        }
    }

    fn thing_subject(&self, index: ThingIndex, sure: bool) -> SubjectReport {
        let thing = self.thing(index);
        SubjectReport {
            id: thing.map(|thing| thing.id.clone()),
            kind: thing.map(|thing| self.kind_name(thing.kind)),
            said: self.thing_words(index),
            sure,
            plan_line: thing.and_then(|thing| {
                let lines = self.plan_lines.as_ref()?;
                (thing.span.end > 0).then(|| lines.line(thing.span.start))
            }),
        }
    }

    pub fn kind_name(&self, kind: KindId) -> String {
        self.rules.vocabulary.kind(kind).name.clone()
    }

    pub fn noun(&self, kind: KindId) -> &'a str {
        kind_noun(kind, &self.rules.vocabulary)
    }

    /// Several of a kind.
    pub fn nouns(&self, kind: KindId) -> String {
        plural(self.noun(kind))
    }

    /// An outline of a thing: `the water's edge`, ``the outside wall of the building `house` ``.
    pub fn outline_words(&self, thing: ThingIndex, outline: OutlineId) -> String {
        let plain = (self.thing(thing)).is_some_and(|found| self.is_alone(thing, found));
        let whose = self.thing_words(thing);
        outline_words(outline, &whose, plain, &self.rules.vocabulary)
    }

    pub fn witness(&self, witness: &Witness) -> WitnessReport {
        let vocabulary = &self.rules.vocabulary;
        let id = |thing| self.id_of(thing).unwrap_or_default();
        WitnessReport {
            from: self.place(witness.from, metres),
            to: self.place(witness.to, metres),
            from_thing: id(witness.from_thing),
            from_outline: vocabulary.outline(witness.from_outline).name.clone(),
            to_thing: id(witness.to_thing),
            to_outline: vocabulary.outline(witness.to_outline).name.clone(),
            text: format!(
                "Measured from {} to {}.",
                self.where_words(witness.from, (witness.from_thing, witness.from_outline)),
                self.where_words(witness.to, (witness.to_thing, witness.to_outline))
            ),
        }
    }

    /// One end of what was measured: ``the water's edge at (3, 4)``. The end of a gap may lie on something other than
    /// the wall beside it, such as a door; then only the place is named.
    fn where_words(&self, place: Point, (thing, outline): (ThingIndex, OutlineId)) -> String {
        let at = self.place_words(place);
        match self.is_on(place, thing, outline) {
            true => format!("{} at {at}", self.outline_words(thing, outline)),
            false => format!("the place {at}"),
        }
    }

    fn is_on(&self, place: Point, thing: ThingIndex, outline: OutlineId) -> bool {
        let outlines = self.thing(thing).map(|thing| &thing.outlines);
        let figure = outlines.and_then(|outlines| outlines.get(&outline));
        let place = Form::Point(place);
        figure.is_some_and(|figure| {
            let mut forms = figure.forms.iter();
            let off = figure.spread.saturating_add(ON_IT);
            forms.any(|form| distance(form, &place).low <= off)
        })
    }

    /// From where to where a gap was measured, and what gate, door or window is there.
    pub fn gap(&self, gap: &Witness) -> WitnessReport {
        let there = passages(self.plan, self.rules, gap);
        let there: Vec<String> = there.into_iter().map(|at| self.thing_words(at)).collect();
        let mut report = self.witness(gap);
        let there = match there.as_slice() {
            [] => "No gate, door or window is drawn there.".to_owned(),
            _ => format!("At or beside this gap: {}.", there.join(", ")),
        };
        report.text = format!("{} {there}", report.text);
        report
    }

    /// A place in the file's own coordinates.
    fn place(&self, point: Point, print: impl Fn(i128) -> String) -> [String; 2] {
        let (east, north) = self.plan.origin;
        [
            print(east.saturating_add(point.x.into())),
            print(north.saturating_add(point.y.into())),
        ]
    }

    /// A place in the plan's own unit, as people look for it on the drawing.
    fn place_words(&self, point: Point) -> String {
        let [east, north] = self.place(point, self.printer());
        format!("({east}, {north})")
    }

    fn printer(&self) -> impl Fn(i128) -> String + use<> {
        let unit = self.plan.unit.filter(|unit| *unit != Unit::METRE);
        move |amount| match unit {
            Some(unit) => show(amount, unit, Rounding::Nearest, unit.digits()),
            None => metres_roughly(amount),
        }
    }
}

/// A subject that is not a thing on the plan.
pub(super) fn whole_plan(kind: Option<String>, said: String, sure: bool) -> SubjectReport {
    SubjectReport {
        id: None,
        kind,
        said,
        sure,
        plan_line: None,
    }
}

/// The only word that is possible.
fn only_word(words: &Words) -> Option<&str> {
    match words {
        Words::OneOf(words) if words.len() == 1 => words.first().map(String::as_str),
        _ => None,
    }
}
