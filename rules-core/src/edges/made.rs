//! Makes a plan on which a value has a given amount: sets a fact, moves a thing, adds things or leaves some out.

use super::limits::Limit;
use super::{Base, judged};
use crate::check::{Finding, Reading, Witness};
use crate::edit::shift_exactly;
use crate::edit::tree::{get_mut, list_mut, map, set, thing_mut};
use crate::plan::{Plan, ThingIndex};
use crate::quantity::ONE;
use crate::ruleset::{Bound, Choice, RowTest, RuleSet, Value};
use crate::text::{Content, Node, Span};
use crate::vocabulary::{FactId, KindId, Role};

/// The most often a thing is moved to get it to the wanted distance.
const MOST_MOVES: usize = 8;
/// How close to the wanted distance is close enough where no limit depends on it: a tenth of a millimetre.
const NEAR: i128 = 100_000;
/// The most copies made of a thing.
const MOST_COPIES: i128 = 40;

/// The plan of a case, changed so that the limited value is a given amount; `exact` if nothing else will do.
pub(super) fn made(
    base: &Base<'_>,
    limit: &Limit<'_>,
    (amount, exact): (i128, bool),
    rules: &RuleSet,
) -> Option<Node> {
    let mut plan = base.node.clone();
    if let Some((by, RowTest::Bounds(bounds))) = limit.row {
        into_row(&mut plan, base.plan, (by, bounds), rules);
    }
    match bare(limit.value) {
        Value::Fact(fact) => {
            let text = limit.sides.words(amount);
            set_fact(&mut plan, base.plan, (*fact, &text), rules)?;
            Some(plan)
        }
        Value::Distance(_) => moved(plan, limit, (base.rule, amount, exact), rules),
        Value::Count(selection) if selection.part_of.is_none() => {
            let count = (amount % ONE == 0).then_some(amount / ONE)?;
            counted(plan, (limit, selection.kind), (base.rule, count), rules)
        }
        _ => None,
    }
}

pub(super) fn bare(value: &Value) -> &Value {
    match value {
        Value::Named { value, .. } => bare(value),
        value => value,
    }
}

/// Sets the fact that a table goes by, so that a row applies. If it cannot be set, some case may already be in the row.
fn into_row(plan: &mut Node, read: &Plan, (by, bounds): (&Value, &[Bound]), rules: &RuleSet) {
    let Value::Fact(fact) = bare(by) else { return };
    let text = bounds.first().and_then(|bound| match bound {
        Bound::Is(choices) => choices.first().and_then(|choice| match choice {
            Choice::Word(word) => Some(word.clone()),
            _ => None,
        }),
        bound => {
            let sides = crate::ruleset::say::sides(by, bound, rules)?;
            Some(sides.words(sides.inside))
        }
    });
    if let Some(text) = text {
        set_fact(plan, read, (*fact, &text), rules);
    }
}

/// States a fact for all things of its kind.
fn set_fact(
    plan: &mut Node,
    read: &Plan,
    (fact, text): (FactId, &str),
    rules: &RuleSet,
) -> Option<()> {
    let fact = rules.vocabulary.fact(fact);
    let kind = rules.vocabulary.kind(fact.kind);
    let value = scalar(text);
    if matches!(kind.role, Some(Role::Answers | Role::Events))
        || get_mut(plan, &kind.name)
            .is_some_and(|node| node.as_map().is_some() && kind.role != Some(Role::Pool))
    {
        let key = kind.plan_key();
        if get_mut(plan, key).is_none() {
            set(plan, key, map([]));
        }
        set(get_mut(plan, key)?, &fact.name, value);
        return Some(());
    }
    let ids = read.things.iter().filter(|thing| thing.kind == fact.kind);
    let mut any = None;
    for thing in ids {
        if let Some(node) = thing_or_side(plan, &thing.id) {
            set(node, &fact.name, value.clone());
            any = Some(());
        }
    }
    any
}

fn thing_or_side<'n>(plan: &'n mut Node, id: &str) -> Option<&'n mut Node> {
    let is_it = |node: &Node| node.get("id").and_then(Node::text) == Some(id);
    let sides = plan.get("lot").and_then(|lot| lot.get("sides"));
    let sides = sides.and_then(Node::as_list).unwrap_or_default();
    match sides.iter().position(is_it) {
        Some(place) => list_mut(get_mut(get_mut(plan, "lot")?, "sides")?)?.get_mut(place),
        None => thing_mut(plan, id),
    }
}

/// Moves the thing at one end of a distance until it is as long as wanted.
fn moved(
    mut plan: Node,
    limit: &Limit<'_>,
    (rule, amount, exact): (usize, i128, bool),
    rules: &RuleSet,
) -> Option<Node> {
    for _ in 0..MOST_MOVES {
        let (read, finding) = judged(&plan, rule, rules)?;
        let reading = deciding(&finding, limit)?;
        let measured = amount_of(reading)?;
        let off = amount - measured;
        if off == 0 || (!exact && off.abs() <= NEAR) {
            return Some(plan);
        }
        let (id, by) = way(reading.witness?, &read, (off, measured), rules)?;
        shift_exactly(&mut plan, &id, by).ok()?;
    }
    None
}

/// The reading that decides a limit: the smallest for a least amount, the largest for a greatest.
fn deciding<'f>(finding: &'f Finding, limit: &Limit<'_>) -> Option<&'f Reading> {
    let readings = || finding.parts.iter().flat_map(|part| &part.readings);
    let same_value = |reading: &&Reading| bare(reading.value()) == bare(limit.value);
    let at = Some(limit.sides.at);
    let same_limit = |reading: &&Reading| reading.limit.is_some_and(|it| it.least() == at);
    let own = readings().filter(same_value).filter(same_limit);
    let others = readings().filter(same_value);
    let least = matches!(limit.bound, Bound::AtLeast(_) | Bound::MoreThan(_));
    let by = |reading: &&Reading| match (amount_of(reading), least) {
        (None, _) => i128::MAX,
        (Some(amount), true) => amount,
        (Some(amount), false) => -amount,
    };
    own.min_by_key(by).or_else(|| others.min_by_key(by))
}

fn amount_of(reading: &Reading) -> Option<i128> {
    reading.drawn.or(reading.measured)?.least()
}

/// Which thing to move, and how far, to lengthen a distance by a given amount.
fn way(
    witness: Witness,
    plan: &Plan,
    (off, measured): (i128, i128),
    rules: &RuleSet,
) -> Option<(String, (i128, i128))> {
    let role = |thing: ThingIndex| Some(rules.vocabulary.kind(plan.things.get(thing)?.kind).role);
    let fixed = |thing| matches!(role(thing), None | Some(Some(Role::Lot | Role::LotLine)));
    let is_pool = |thing| role(thing) == Some(Some(Role::Pool));
    let of_first =
        is_pool(witness.from_thing) || (!is_pool(witness.to_thing) && !fixed(witness.from_thing));
    let (mover, near, far) = match of_first {
        true => (witness.from_thing, witness.from, witness.to),
        false => (witness.to_thing, witness.to, witness.from),
    };
    if fixed(mover) {
        return None;
    }
    let (x, y) = ((near.x - far.x) as f64, (near.y - far.y) as f64);
    let length = libm::hypot(x, y);
    if length <= 0.0 {
        return None;
    }
    // A step along the ground changes a distance through the air by less.
    let step = off as f64 * (measured as f64 / length).max(1.0);
    let along = |part: f64| libm::round(part / length * step) as i128;
    Some((plan.things.get(mover)?.id.clone(), (along(x), along(y))))
}

/// Copies things or leaves some out until the number is right.
fn counted(
    mut plan: Node,
    (limit, kind): (&Limit<'_>, KindId),
    (rule, count): (usize, i128),
    rules: &RuleSet,
) -> Option<Node> {
    let number = |plan: &Node| {
        let (read, finding) = judged(plan, rule, rules)?;
        let reading = deciding(&finding, limit)?;
        let ids: Vec<String> = read
            .things
            .iter()
            .filter(|thing| thing.kind == kind)
            .map(|thing| thing.id.clone())
            .collect();
        Some((reading.measured?.least()? / ONE, ids))
    };
    let (mut now, ids) = number(&plan)?;
    if (now - count).abs() > MOST_COPIES {
        return None;
    }
    for id in &ids {
        let mut copies = 0;
        while now != count && copies < MOST_COPIES {
            copies += 1;
            let changed = match now < count {
                true => with_copy(&plan, id, copies)?,
                false => without(&plan, id),
            };
            let then = number(&changed).map_or(now, |(then, _)| then);
            if (then - count).abs() >= (now - count).abs() {
                break;
            }
            (plan, now) = (changed, then);
        }
    }
    (now == count).then_some(plan)
}

fn with_copy(plan: &Node, id: &str, number: i128) -> Option<Node> {
    let mut plan = plan.clone();
    let mut copy = thing_mut(&mut plan, id)?.clone();
    set(&mut copy, "id", scalar(&format!("{id}-{}", number + 1)));
    list_mut(get_mut(&mut plan, "things")?)?.push(copy);
    Some(plan)
}

fn without(plan: &Node, id: &str) -> Node {
    let mut plan = plan.clone();
    let other = |thing: &Node| thing.get("id").and_then(Node::text) != Some(id);
    let things = get_mut(&mut plan, "things").and_then(list_mut);
    things.into_iter().for_each(|things| things.retain(other));
    plan
}

pub(super) fn scalar(text: &str) -> Node {
    Node {
        span: Span::default(),
        content: Content::Scalar {
            text: text.to_owned(),
            quoted: false,
        },
    }
}
