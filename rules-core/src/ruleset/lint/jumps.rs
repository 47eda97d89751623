//! Limits that jump: tables in which a little more is allowed less.

use crate::faults::Code;
use crate::quantity::{Dimension, ONE, Unit, show_exactly};
use crate::ruleset::lint::cells::{Cell, cells, stated};
use crate::ruleset::lint::coverage::{bounds_of, rows_taking};
use crate::ruleset::read::Reader;
use crate::ruleset::stricter::same;
use crate::ruleset::{Area, Bound, Operand, Rule, ShareOf, Stated, Table, Test, Then, Value};
use crate::vocabulary::Vocabulary;

/// From some amount on, another limit.
#[derive(Debug, Clone, Copy)]
struct Step<'r> {
    /// The amount from which, or beyond which, it holds.
    from: i128,
    limit: &'r Stated,
    /// Whether the limit is a share of what the table goes by.
    share: bool,
}

impl Reader<'_> {
    /// Looks for jumps in the limits of a rule.
    pub(crate) fn jumps(&mut self, rule: &Rule) {
        let reliefs = rule.reliefs.iter().map(|relief| &relief.require);
        let tests =
            crate::ruleset::lint::holds::tests_in(std::iter::once(&rule.require).chain(reliefs));
        for test in tests {
            for bound in &test.bounds {
                if let Some((message, table)) = jump(test, bound, &self.vocabulary) {
                    let span = table.map_or(rule.span, |table| table.span);
                    self.warning(Code::LimitJumps, span, message)
                        .help("Read the rows again. If the law says just this, leave it as it is.");
                }
            }
        }
    }
}

type Found<'r> = (String, Option<&'r Table<Value>>);

fn jump<'r>(test: &'r Test, bound: &'r Bound, vocabulary: &Vocabulary) -> Option<Found<'r>> {
    let (limit, at_most) = match bound {
        Bound::AtMost(limit) | Bound::LessThan(limit) => (limit, true),
        Bound::AtLeast(limit) | Bound::MoreThan(limit) => (limit, false),
        Bound::Is(_) => return None,
    };
    let (table, own) = match limit {
        Value::Table(table) => (table, Some(&**table)),
        Value::Named { value, .. } => match &**value {
            Value::Table(table) => (table, None),
            _ => return None,
        },
        _ => return None,
    };
    let by = table.by.as_ref()?;
    let (steps, unit) = steps(table, by, vocabulary)?;
    let said = turned(&steps, unit)
        .or_else(|| fallen(&steps, at_most && is_share_of(&test.value, by), unit))
        .or_else(|| {
            let of_lot = at_most && is_size_of_lot(by, vocabulary);
            of_lot.then(|| fallen_plainly(&steps, unit)).flatten()
        })
        .or_else(|| {
            let voltage = unit.dimension() == Dimension::Voltage && !at_most;
            voltage.then(|| fallen_with_voltage(&steps, unit)).flatten()
        })
        .or_else(|| leapt(&steps));
    Some((said?, own))
}

/// The limits in the order of the amounts that the table goes by; `None` where not all are stated.
fn steps<'r>(
    table: &'r Table<Value>,
    by: &Value,
    vocabulary: &Vocabulary,
) -> Option<(Vec<Step<'r>>, Unit)> {
    let bounds: Vec<&Bound> = table
        .rows
        .iter()
        .flat_map(|row| bounds_of(&row.test))
        .collect();
    let unit = bounds.iter().find_map(|bound| match bound {
        Bound::AtLeast(limit)
        | Bound::AtMost(limit)
        | Bound::MoreThan(limit)
        | Bound::LessThan(limit) => stated(limit).map(|limit| limit.unit),
        Bound::Is(_) => None,
    })?;
    let mut steps: Vec<Step<'r>> = Vec::new();
    let cells = cells(by, &bounds, vocabulary)?;
    for (cell, row) in cells.iter().zip(rows_taking(table, &cells)) {
        let Cell::Amount(at) = cell else { continue };
        let row = table.rows.get(row?)?;
        let Then::Give(value) = &row.then else {
            continue; // The authority decides there.
        };
        let (limit, share) = limit_of(value, by)?;
        if steps.last().is_none_or(|last| last.limit != limit) {
            steps.push(Step {
                from: at.div_euclid(2),
                limit,
                share,
            });
        }
    }
    let alike = |step: &Step<'_>| {
        let first = steps.first();
        first.is_some_and(|first| {
            (first.share, first.limit.dimension) == (step.share, step.limit.dimension)
        })
    };
    let all_alike = steps.iter().all(alike);
    all_alike.then_some((steps, unit))
}

/// A stated limit, or one that is a stated share of what the table goes by.
fn limit_of<'r>(value: &'r Value, by: &Value) -> Option<(&'r Stated, bool)> {
    if let Value::Product(factors) = value {
        let [one, other] = &factors[..] else {
            return None;
        };
        let share = |share: &'r Value, of: &Value| {
            let share = stated(share).filter(|it| it.dimension == Dimension::Number)?;
            same(of, by).then_some((share, true))
        };
        return share(one, other).or_else(|| share(other, one));
    }
    stated(value).map(|limit| (limit, false))
}

fn shown(limit: &Stated) -> String {
    show_exactly(limit.range.low, limit.unit)
}

/// Limits that rise and then fall, or the other way round.
fn turned(steps: &[Step<'_>], unit: Unit) -> Option<String> {
    let rises = |pair: &[Step<'_>]| match pair {
        [one, other] => other.limit.range.low > one.limit.range.low,
        _ => false,
    };
    let first = rises(steps.get(..2)?);
    let turn = steps.windows(2).find(|pair| rises(pair) != first)?;
    let [before, after] = turn else { return None };
    let (way, back) = match first {
        true => ("rises", "falls"),
        false => ("falls", "rises"),
    };
    Some(format!(
        "From row to row this limit {way}, and at {} it {back} again, from {} to {}.",
        show_exactly(after.from, unit),
        shown(before.limit),
        shown(after.limit)
    ))
}

/// A share that falls so that a little more land may have less on it.
fn fallen(steps: &[Step<'_>], of_same: bool, unit: Unit) -> Option<String> {
    let fall = steps.windows(2).find(|pair| match pair {
        [one, other] => (of_same || one.share) && other.limit.range.low < one.limit.range.low,
        _ => false,
    })?;
    let [before, after] = fall else { return None };
    let of = |limit: &Stated| {
        let whole = limit.range.low.checked_mul(after.from)?.checked_div(ONE)?;
        Some(show_exactly(whole, unit))
    };
    Some(format!(
        "At {} the share falls from {} to {}: just below that, {} is allowed, and from there on {}. A little more gets less.",
        show_exactly(after.from, unit),
        shown(before.limit),
        shown(after.limit),
        of(before.limit)?,
        of(after.limit)?
    ))
}

/// A plain amount that falls as the lot grows.
fn fallen_plainly(steps: &[Step<'_>], unit: Unit) -> Option<String> {
    let fall = steps.windows(2).find(|pair| match pair {
        [one, other] => !one.share && other.limit.range.low < one.limit.range.low,
        _ => false,
    })?;
    let [before, after] = fall else { return None };
    (before.limit.dimension != Dimension::Number).then(|| {
        format!(
            "At {} of the lot what is allowed falls from {} to {}: a slightly larger lot gets less.",
            show_exactly(after.from, unit),
            shown(before.limit),
            shown(after.limit)
        )
    })
}

/// A distance that falls as the voltage rises.
fn fallen_with_voltage(steps: &[Step<'_>], unit: Unit) -> Option<String> {
    let fall = steps.windows(2).find(|pair| match pair {
        [one, other] => other.limit.range.low < one.limit.range.low,
        _ => false,
    })?;
    let [before, after] = fall else { return None };
    Some(format!(
        "At {} this limit falls from {} to {}: a higher voltage needs less.",
        show_exactly(after.from, unit),
        shown(before.limit),
        shown(after.limit)
    ))
}

/// Limits of two rows of which one is some hundred times the other: a unit is probably wrong.
fn leapt(steps: &[Step<'_>]) -> Option<String> {
    const MANY: i128 = 300;
    let leap = steps.windows(2).find(|pair| match pair {
        [one, other] => {
            let (one, other) = (one.limit.range.low, other.limit.range.low);
            one > 0 && other > 0 && one.max(other) / one.min(other) >= MANY
        }
        _ => false,
    })?;
    let [before, after] = leap else { return None };
    Some(format!(
        "From one row to the next this limit goes from {} to {}, some hundred times as much or as little.",
        shown(before.limit),
        shown(after.limit)
    ))
}

/// Whether a value is a share of what the table goes by.
fn is_share_of(value: &Value, by: &Value) -> bool {
    let Value::Area(area) = value else {
        return false;
    };
    match (&area.share_of, by) {
        (Some(ShareOf::Value(whole)), by) => same(whole, by),
        (Some(ShareOf::Outlines(whole)), Value::Area(by)) => is_all_of(by, whole),
        (Some(ShareOf::Outlines(whole)), Value::Named { value, .. }) => {
            matches!(&**value, Value::Area(by) if is_all_of(by, whole))
        }
        _ => false,
    }
}

fn is_all_of(area: &Area, whole: &Operand) -> bool {
    area.within.is_none() && area.share_of.is_none() && area.of.parts == whole.parts
}

/// Whether a value says how large the lot is.
fn is_size_of_lot(value: &Value, vocabulary: &Vocabulary) -> bool {
    let lot = vocabulary.kind_named("lot");
    match value {
        Value::Named { value, .. } => is_size_of_lot(value, vocabulary),
        Value::Fact(fact) => {
            let fact = vocabulary.fact(*fact);
            Some(fact.kind) == lot
        }
        Value::Area(area) => area
            .of
            .parts
            .iter()
            .all(|part| Some(vocabulary.outline(part.outline).kind) == lot),
        _ => false,
    }
}
