//! The gates, doors and windows in a gap of a barrier.

use crate::check::Witness;
use crate::measure::distance;
use crate::plan::{Form, Plan, ThingIndex};
use crate::ruleset::RuleSet;

/// A gate or door is on the way through a gap when it is drawn no farther from it than this, in nanometres.
const AT_THE_GAP: i64 = 300_000_000;

/// The gates, doors, windows and stated openings that are drawn in a gap, the nearest first.
pub fn passages(plan: &Plan, rules: &RuleSet, gap: &Witness) -> Vec<ThingIndex> {
    let across = match gap.from == gap.to {
        true => Form::Point(gap.from),
        false => Form::Path(vec![gap.from, gap.to]),
    };
    let vocabulary = &rules.vocabulary;
    let mut found: Vec<(i64, ThingIndex)> = Vec::new();
    for (index, thing) in plan.things.iter().enumerate() {
        if !vocabulary.kind(thing.kind).opens {
            continue;
        }
        let forms = thing.outlines.values().flat_map(|figure| &figure.forms);
        let far = forms.map(|form| distance(form, &across).high).min();
        found.extend(far.filter(|far| *far <= AT_THE_GAP).map(|far| (far, index)));
    }
    found.sort_unstable();
    found.into_iter().map(|(_, index)| index).collect()
}
