//! Rules that turn on one distance: what the checker found at one distance is known at others.
//!
//! Such a rule holds at every greater distance than one at which it surely holds, and fails at every lesser one than one
//! at which it surely fails. So the checker is asked only at distances of which too little is known so far, and elsewhere
//! it is enough to measure. What is measured is exact, and the same as the checker measures.

mod known;
mod rule;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;

use self::known::{Known, Range};
use self::rule::{distance_of, is_in_force_anywhere, is_the_same_everywhere};
use super::judging::{View, holds};
use super::papers::Given;
use super::pose::figure_moved;
use super::spot::{MILLIMETRE, Way};
use crate::check::world::special::Special;
use crate::check::{Finding, Outcome, Part, Subject, Truth};
use crate::measure::{contains, figure_gap};
use crate::plan::{Figure, Form, Looked, Plan, Point, ThingIndex};
use crate::ruleset::{Distance, Operand, Rule, RuleSet, Strength, Which};
use crate::vocabulary::{KindId, OutlineId};

/// A rule that turns on a distance.
struct Followed<'r> {
    distance: &'r Distance,
    /// The kind that it is judged for.
    each: Option<KindId>,
    about_pool: bool,
}

/// Two outlines of which one moves, each by its place in the list of those that move or of those that stay.
#[derive(Debug, Clone)]
struct Pair {
    moves: usize,
    stays: usize,
    /// Whether the distance is taken from the one that moves.
    from_moving: bool,
    /// How far off the distance may be with the pool in one place, in nanometres.
    off: i64,
    /// Whether the one that stays is a side of the lot: to what is past it, the checker measures in another way.
    is_side: bool,
}

/// One subject of a rule.
struct Target {
    subject: Subject,
    pool: Option<ThingIndex>,
    pairs: Vec<Pair>,
    known: Known,
}

/// What is known of a rule.
struct OfRule {
    targets: Vec<Target>,
    /// Whether the rule has come out as its subjects did, taken together.
    as_its_parts: bool,
}

/// An outline that moves, where it is now.
struct Moved {
    figure: Figure,
    /// Whether it lies within the lot.
    within: Option<bool>,
}

/// What a rule is known by: the worlds, the rule, and which of the papers that it reads are in hand.
type Key = (View, usize, Given);

/// What is known of the rules that turn on a distance.
pub(super) struct Distances<'r> {
    /// For each binding rule, whether it is one of them.
    followed: Vec<Option<Followed<'r>>>,
    /// For each binding rule, whether it comes out the same wherever the pool is.
    same_everywhere: Vec<bool>,
    rules: BTreeMap<Key, OfRule>,
    special: Special,
    moving: Vec<ThingIndex>,
    /// The lot's outline, as the checker takes it.
    lot: Option<Vec<Point>>,
    /// The outlines that move, as drawn.
    movers: Vec<((ThingIndex, OutlineId), Figure)>,
    /// Those that stay.
    stayers: Vec<((ThingIndex, OutlineId), Figure)>,
    /// Where the pool was put last, and the outlines that were moved there.
    at: Way,
    moved: BTreeMap<usize, Moved>,
}

impl<'r> Distances<'r> {
    /// `ids` are the binding rules.
    pub fn new(plan: &Plan, moving: &[ThingIndex], rules: &'r RuleSet, ids: &[String]) -> Self {
        let special = Special::of(&rules.vocabulary);
        let binding = |id: &String| {
            let mut all = rules.all_rules();
            all.find(|rule| rule.id == *id && rule.strength == Strength::Must)
        };
        let follow = |id| followed(binding(id)?, plan, special);
        let same = |id| binding(id).is_some_and(is_the_same_everywhere);
        let none = !is_simple(plan, rules, (moving, special));
        Distances {
            followed: ids.iter().map(|id| follow(id).filter(|_| !none)).collect(),
            same_everywhere: ids.iter().map(|id| !none && same(id)).collect(),
            rules: BTreeMap::new(),
            special,
            moving: moving.to_vec(),
            lot: lot(plan, special),
            movers: movers(plan, moving),
            stayers: Vec::new(),
            at: Way::default(),
            moved: BTreeMap::new(),
        }
    }

    /// Whether a rule comes out the same wherever the pool is.
    pub fn is_same_everywhere(&self, rule: usize) -> bool {
        self.same_everywhere.get(rule) == Some(&true)
    }

    /// Whether a rule turns on a distance.
    pub fn follows(&self, rule: usize) -> bool {
        self.followed.get(rule).is_some_and(Option::is_some)
    }

    /// Remembers what the checker found with the pool no farther than `reach` nanometres from where a way takes it. `plan`
    /// is the plan that it judged.
    pub fn learn(&mut self, key: Key, (way, reach): (Way, i64), finding: &Finding, plan: &Plan) {
        if !self.follows(key.1) {
            return;
        }
        let mut of_rule = match self.rules.remove(&key) {
            Some(known) => known,
            None => OfRule::new(),
        };
        of_rule.as_its_parts &= comes_out_as_its_parts(finding);
        for part in &finding.parts {
            let is_it = |it: &Target| (&it.subject, it.pool) == (&part.subject, part.pool);
            let found = of_rule.targets.iter().position(is_it);
            let at = found.unwrap_or(of_rule.targets.len());
            if found.is_none() {
                match self.target(key, part, (plan, reach)) {
                    Some(target) => of_rule.targets.push(target),
                    None => return self.forget(key.1),
                }
            }
            if let Some(target) = of_rule.targets.get_mut(at) {
                let range = self.range(&target.pairs, way, reach);
                target.known.learn(range, part, reach == 0);
            }
        }
        self.rules.insert(key, of_rule);
    }

    /// No longer follows a rule.
    fn forget(&mut self, rule: usize) {
        if let Some(followed) = self.followed.get_mut(rule) {
            *followed = None;
        }
        self.rules.retain(|key, _| key.1 != rule);
    }

    /// A rule's outcome wherever the pool is no farther than `reach` nanometres from where a way takes it, as far as it is
    /// known. Where it may be in more than one place, whatever is open is called unknown.
    pub fn outcome(&mut self, key: Key, at: (Way, i64)) -> Option<Outcome> {
        let of_rule = self.rules.remove(&key)?;
        let outcome = self.outcome_of(&of_rule, at);
        self.rules.insert(key, of_rule);
        outcome
    }

    fn outcome_of(&mut self, of_rule: &OfRule, (way, reach): (Way, i64)) -> Option<Outcome> {
        let (mut open, mut asks) = (None, false);
        for target in &of_rule.targets {
            let range = self.range(&target.pairs, way, reach);
            match target.known.outcome(range, reach == 0) {
                Some(Outcome::Fail) => return Some(Outcome::Fail),
                Some(outcome) if holds(outcome) => {}
                // Where two subjects are open, the checker may know more of both together.
                Some(_) if open.is_some() && reach == 0 => asks = true,
                Some(outcome) => open = Some(outcome),
                None => asks = true,
            }
        }
        match open {
            _ if asks => None,
            Some(_) if !of_rule.as_its_parts => None,
            Some(open) => Some(open),
            None => Some(Outcome::Pass),
        }
    }
}

impl OfRule {
    fn new() -> OfRule {
        OfRule {
            targets: Vec::new(),
            as_its_parts: true,
        }
    }
}

/// What is measured, and with what.
impl Distances<'_> {
    /// A subject of a rule with the pairs of outlines that count for it; `None` where it cannot be followed.
    fn target(&mut self, key: Key, part: &Part, (plan, reach): (&Plan, i64)) -> Option<Target> {
        let followed = self.followed.get(key.1)?.as_ref()?;
        let subject = match part.subject {
            Subject::NoneOf(_) => return None,
            Subject::Thing { index, .. } => Some(index),
            Subject::Plan | Subject::Unseen(_) => None,
        };
        let distance = followed.distance;
        let ends = |operand| self.outlines(operand, followed, (subject, part.pool), plan);
        let (from, to) = (ends(&distance.from), ends(&distance.to));
        let mut pairs = Vec::new();
        for one in &from {
            for other in &to {
                match self.moves(one.0) == self.moves(other.0) {
                    false => pairs.extend(self.pair(*one, *other, (plan, reach))),
                    // Two things that move apart from each other by what is open of their sources.
                    true if self.moves(one.0) && !plan.shift_together(one.0, other.0) => {
                        return None;
                    }
                    true => {}
                }
            }
        }
        Some(Target {
            subject: part.subject.clone(),
            pool: part.pool,
            pairs,
            known: Known::default(),
        })
    }

    fn moves(&self, thing: ThingIndex) -> bool {
        self.moving.contains(&thing)
    }

    /// The drawn outlines at an end of a distance.
    fn outlines(
        &self,
        operand: &Operand,
        followed: &Followed<'_>,
        (subject, pool): (Option<ThingIndex>, Option<ThingIndex>),
        plan: &Plan,
    ) -> Vec<(ThingIndex, OutlineId)> {
        let all = |kind: KindId| -> Vec<ThingIndex> {
            let things = plan.things.iter().enumerate();
            let own = things.filter(|(_, thing)| thing.kind == kind);
            own.map(|(index, _)| index).collect()
        };
        let bound = |kind: KindId| -> Vec<ThingIndex> {
            if followed.each == Some(kind) {
                subject.into_iter().collect()
            } else if followed.about_pool && kind == self.special.pool {
                pool.into_iter().collect()
            } else {
                all(kind)
            }
        };
        let parts = operand.parts.iter();
        let outlines = parts.flat_map(|part| {
            let things = match &part.which {
                Which::Bound(kind) => bound(*kind),
                Which::Meant(selection) | Which::All(selection) => all(selection.kind),
            };
            things.into_iter().map(|thing| (thing, part.outline))
        });
        let is_drawn = |(thing, outline): &(ThingIndex, OutlineId)| {
            let thing = plan.things.get(*thing);
            thing.is_some_and(|thing| thing.outlines.contains_key(outline))
        };
        outlines.filter(is_drawn).collect()
    }

    /// Two outlines of which one moves; `None` where nobody knows how far off one is: then nothing is known of how far they
    /// are apart, wherever the pool is.
    fn pair(
        &mut self,
        from: (ThingIndex, OutlineId),
        to: (ThingIndex, OutlineId),
        (plan, reach): (&Plan, i64),
    ) -> Option<Pair> {
        let off = |end: (ThingIndex, OutlineId)| {
            let thing = plan.things.get(end.0)?;
            let accuracy = thing.outlines.get(&end.1)?.true_accuracy()?;
            Some(accuracy.saturating_add(plan.shift_of(thing)?))
        };
        let from_moving = self.moves(from.0);
        let (mover, stayer) = if from_moving { (from, to) } else { (to, from) };
        let side = plan.things.get(stayer.0)?;
        let is_side = side.kind == self.special.lot_line;
        let figure = side.outlines.get(&stayer.1)?;
        let stays = place_of(&mut self.stayers, stayer, figure);
        Some(Pair {
            moves: self.movers.iter().position(|it| it.0 == mover)?,
            stays,
            from_moving,
            off: off(from)?.saturating_add(off(to)?).saturating_sub(reach),
            is_side,
        })
    }

    /// How far the outlines of some pairs are apart, with the pool no farther than `reach` from where a way takes it.
    fn range(&mut self, pairs: &[Pair], way: Way, reach: i64) -> Range {
        if pairs.is_empty() {
            // It comes out the same everywhere, as at one distance.
            return Range::ONE;
        }
        let mut all = Range {
            low: i64::MAX,
            high: i64::MAX,
            low_counts: true,
            high_counts: true,
        };
        for pair in pairs {
            let (gap, within) = self.gap(pair, way);
            let off = pair.off.saturating_add(reach);
            let counts = !pair.is_side || within && gap.0 > 0;
            all.low = all.low.min(gap.0.saturating_sub(off).max(0));
            all.high = all.high.min(gap.1.saturating_add(off));
            all.low_counts &= counts;
            // Of outlines that overlap, the checker may know that they do wherever they are within their tolerance.
            all.high_counts &= counts && (gap.1 > 0 || off == 0);
        }
        all
    }

    /// How far two outlines are apart as drawn, and whether the one that moves lies within the lot, if that counts.
    fn gap(&mut self, pair: &Pair, way: Way) -> ((i64, i64), bool) {
        if self.at != way {
            self.moved.clear();
            self.at = way;
        }
        let (Some((_, drawn)), Some((_, stays))) =
            (self.movers.get(pair.moves), self.stayers.get(pair.stays))
        else {
            return ((0, i64::MAX), false);
        };
        let by = (
            way.x.saturating_mul(MILLIMETRE),
            way.y.saturating_mul(MILLIMETRE),
        );
        let moved = self.moved.entry(pair.moves).or_insert_with(|| Moved {
            figure: figure_moved(drawn, by),
            within: None,
        });
        let gap = match pair.from_moving {
            true => figure_gap(&moved.figure, stays),
            false => figure_gap(stays, &moved.figure),
        };
        let lot = self.lot.as_deref().filter(|_| pair.is_side);
        let within = lot.is_none_or(|lot| {
            let held = |form: &Form| contains(lot, form).is_within();
            let find = || moved.figure.forms.iter().all(held);
            *moved.within.get_or_insert_with(find)
        });
        ((gap.low, gap.high), within)
    }
}

/// The place of an outline in a list; it is added where it is not there.
fn place_of(
    list: &mut Vec<((ThingIndex, OutlineId), Figure)>,
    outline: (ThingIndex, OutlineId),
    figure: &Figure,
) -> usize {
    let found = list.iter().position(|it| it.0 == outline);
    found.unwrap_or_else(|| {
        list.push((outline, figure.clone()));
        list.len() - 1
    })
}

/// Whether a rule's truth is that of its parts together.
fn comes_out_as_its_parts(finding: &Finding) -> bool {
    let parts = finding.parts.iter().map(|part| part.truth);
    parts.fold(Truth::NOT_APPLICABLE, Truth::and) == finding.truth
}

/// Whether the lot stays, and only one edition of the rules can be in force, whatever is drawn.
fn is_simple(plan: &Plan, rules: &RuleSet, (moving, special): (&[ThingIndex], Special)) -> bool {
    let stays = |index: &ThingIndex| {
        let thing = plan.things.get(*index);
        thing.is_some_and(|it| ![special.lot, special.lot_line].contains(&it.kind))
    };
    rules.earlier.is_none()
        && rules.in_force.as_ref().is_none_or(is_in_force_anywhere)
        && moving.iter().all(stays)
}

/// The distance that a rule turns on, where it can be followed on this plan.
fn followed<'r>(rule: &'r Rule, plan: &Plan, special: Special) -> Option<Followed<'r>> {
    let distance = distance_of(rule)?;
    let each = rule.each.as_ref().map(|each| each.kind);
    let operands = [&distance.from, &distance.to];
    let kinds = operands.iter().flat_map(|it| it.parts.iter()).map(kind_of);
    // What is beyond the place up to which somebody looked is farther off the more of the pool is within the lot.
    let looked = |kind: KindId| {
        let looked = plan.inventory.get(&kind);
        matches!(looked, Some(Looked::AllShown(Some(_))))
    };
    let pools = plan.things.iter().filter(|it| it.kind == special.pool);
    let simple = pools.count() < 2 && !(rule.about_pool && each == Some(special.pool));
    (simple && !kinds.chain(each).any(looked)).then_some(Followed {
        distance,
        each,
        about_pool: rule.about_pool,
    })
}

fn kind_of(part: &crate::ruleset::Part) -> KindId {
    match &part.which {
        Which::Bound(kind) => *kind,
        Which::Meant(selection) | Which::All(selection) => selection.kind,
    }
}

/// The first outline of the lot's boundary.
fn lot(plan: &Plan, special: Special) -> Option<Vec<Point>> {
    let lot = plan.things.iter().find(|thing| thing.kind == special.lot)?;
    match lot.outlines.get(&special.boundary)?.forms.first()? {
        Form::Ring(ring) => Some(ring.clone()),
        _ => None,
    }
}

/// The outlines that move, as drawn.
fn movers(plan: &Plan, moving: &[ThingIndex]) -> Vec<((ThingIndex, OutlineId), Figure)> {
    let things = moving
        .iter()
        .filter_map(|index| Some((*index, plan.things.get(*index)?)));
    let outlines = things.flat_map(|(index, thing)| {
        let outlines = thing.outlines.iter();
        outlines.map(move |(outline, figure)| ((index, *outline), figure.clone()))
    });
    outlines.collect()
}
