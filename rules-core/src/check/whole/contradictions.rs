//! Statements that contradict each other: a tape reading and the drawing, or a level and a height above the ground there.

use crate::check::judge::Judge;
use crate::check::value::distance::{Drawn, End};
use crate::check::world::base::Base;
use crate::check::world::env::{Env, Referent};
use crate::check::world::scene::Scene;
use crate::faults::Code;
use crate::measure::figure_gap;
use crate::plan::{Plan, Taped, Thing, ThingIndex};
use crate::quantity::{Interval, Unit, show_range};
use crate::ruleset::RuleSet;
use crate::text::Faults;
use crate::vocabulary::{FactId, OutlineId};

/// The digits to print, enough to show how a tape reading and the drawing differ.
const DIGITS: u32 = 3;

/// Every tape reading that the drawing contradicts even within the accuracy of both ends, and every level that the ground and
/// the height above it contradict.
pub fn contradictions(plan: &Plan, rules: &RuleSet) -> Faults {
    let judge = Judge::new(Scene::new(Base::new(plan, rules)), None);
    let mut faults = Faults::default();
    for taped in &plan.measured {
        let Some(drawn) = judge.drawn_distance(taped) else {
            continue;
        };
        if drawn.meet(taped.range).is_none() {
            say(plan, rules, taped, drawn, &mut faults);
        }
    }
    for (index, thing) in plan.things.iter().enumerate() {
        judge.levels_against_heights(index, thing, &mut faults);
    }
    faults
}

impl<'a> Judge<'a> {
    /// A taped distance according to the drawing alone.
    fn drawn_distance(&self, taped: &Taped) -> Option<Interval> {
        let (a, b) = (self.drawn_at(taped.from)?, self.drawn_at(taped.to)?);
        let tolerance = self.joint_true_tolerance(&a, &b);
        Some(self.apart(&a, &b, figure_gap(a.figure, b.figure), tolerance))
    }

    /// Compares a thing's stated level with the level that the ground and its stated height give.
    fn levels_against_heights(&self, index: ThingIndex, thing: &Thing, faults: &mut Faults) {
        let (referent, env) = (Referent::Thing(index), Env::EMPTY);
        let ends = thing
            .outlines
            .keys()
            .map(|outline| End::whole(referent, *outline));
        let mut both = ends.filter_map(|end| self.level_stated_twice(&end, &env));
        let apart =
            |(_, one, _, other): &(FactId, Interval, FactId, Interval)| one.meet(*other).is_none();
        let Some((level, own, height, made)) = both.find(apart) else {
            return;
        };
        let vocabulary = &self.scene.rules().vocabulary;
        let message = format!(
            "`{id}.{level}` is {}, but the ground there and `{id}.{height}` make it {}, however far off both may be.",
            show_range(own, Unit::METRE, DIGITS),
            show_range(made, Unit::METRE, DIGITS),
            id = thing.id,
            level = vocabulary.fact(level).name,
            height = vocabulary.fact(height).name,
        );
        let span = thing.facts.get(&level).and_then(|fact| fact.span);
        faults
            .add(Code::LevelContradictsHeight, span.unwrap_or(thing.span), message)
            .help("Measure again, or correct one of them or the levels of the ground, or state how far off they may be.");
    }

    fn drawn_at(&self, (thing, outline): (ThingIndex, OutlineId)) -> Option<Drawn<'a>> {
        let referent = Referent::Thing(thing);
        self.drawn(&End::whole(referent, outline))
    }
}

fn say(plan: &Plan, rules: &RuleSet, taped: &Taped, drawn: Interval, faults: &mut Faults) {
    let unit = Unit::METRE;
    let name = |(thing, outline): (ThingIndex, OutlineId)| {
        let id = plan.things.get(thing).map_or("?", |thing| &thing.id);
        format!("`{id}.{}`", rules.vocabulary.outline(outline).name)
    };
    let message = format!(
        "The tape from {} to {} says {}, but the drawing says {}, however far off both may be.",
        name(taped.from),
        name(taped.to),
        show_range(taped.range, unit, DIGITS),
        show_range(drawn, unit, DIGITS),
    );
    faults
        .add(Code::TapeContradictsDrawing, taped.span, message)
        .help(
            "Measure again, or correct the drawing, or say that its accuracy is worse than stated.",
        );
}
