//! Tape readings that cannot be true together with the drawing.

use super::distance::{Drawn, End};
use super::judge::Judge;
use super::scene::{Base, Holder, Scene};
use crate::measure::figure_gap;
use crate::plan::{Plan, Taped, ThingIndex};
use crate::quantity::{Interval, Unit, show_range};
use crate::ruleset::RuleSet;
use crate::text::Faults;
use crate::vocabulary::OutlineId;

/// So many digits tell a tape from a drawing.
const DIGITS: u32 = 3;

/// Every tape reading that no world fits: the drawing, each end off by no more than its accuracy, says something else.
pub fn contradictions(plan: &Plan, rules: &RuleSet) -> Faults {
    let judge = Judge::new(Scene::new(Base::new(plan, rules)), None);
    let mut faults = Faults::default();
    for taped in &plan.measured {
        let Some(drawn) = judge.untaped(taped) else {
            continue;
        };
        if drawn.meet(taped.range).is_none() {
            say(plan, rules, taped, drawn, &mut faults);
        }
    }
    faults
}

impl<'a> Judge<'a> {
    /// What the drawing alone says of a distance that was taped.
    fn untaped(&self, taped: &Taped) -> Option<Interval> {
        let (a, b) = (self.drawn_at(taped.from)?, self.drawn_at(taped.to)?);
        let blur = self.true_blur(&a, &b);
        Some(self.apart(&a, &b, figure_gap(a.figure, b.figure), blur))
    }

    fn drawn_at(&self, (thing, outline): (ThingIndex, OutlineId)) -> Option<Drawn<'a>> {
        let holder = Holder::Thing(thing);
        self.drawn(&End {
            holder,
            outline,
            sure: true,
            zone: None,
        })
    }
}

fn say(plan: &Plan, rules: &RuleSet, taped: &Taped, drawn: Interval, faults: &mut Faults) {
    let unit = Unit::METRE;
    let name = |(thing, outline): (ThingIndex, OutlineId)| {
        let id = plan.things.get(thing).map_or("?", |thing| &thing.id);
        format!("`{id}.{}`", rules.vocabulary.outline(outline).name)
    };
    let message = format!(
        "the tape from {} to {} says {}, but the drawing says {}, however far off both may be",
        name(taped.from),
        name(taped.to),
        show_range(taped.range, unit, DIGITS),
        show_range(drawn, unit, DIGITS),
    );
    faults
        .add("tape-contradicts-drawing", taped.span, message)
        .help(
            "measure again, or correct the drawing, or say that its accuracy is worse than stated",
        );
}
