//! Which of two rules is stricter, or in which cases each is, as far as that can be seen from the rules themselves.
//!
//! All rests on one question: does what one asks follow from what the other asks, whatever the plan? It is answered from
//! limits that are stated, on the same measure; where it cannot be seen, nothing is claimed.

mod implies;
mod words;

use super::{
    Bound, IfNone, Relief, Requirement, RowTest, Rule, Selection, Strength, Table, Test, Then,
    Value,
};
use crate::text::Span;
use crate::work;
use implies::{implies, no_more, plain, same_rows};
pub(crate) use words::ways_words;

/// How something compares with what it takes the place of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// Whatever keeps it keeps the old one, and not the other way round.
    Stricter,
    /// Whatever keeps the old one keeps it, and not the other way round.
    Laxer,
    /// It says something else; which is stricter cannot be seen.
    Changed,
}

/// Where two rules differ.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Case<'r> {
    /// In all of it.
    All,
    /// In the limits of something that both measure: the old ones, and the new.
    Limit(&'r [Bound], &'r [Bound]),
    /// For the cases of this row of a table, by this value.
    Row(&'r RowTest, Option<&'r Value>),
    /// In this one of several requirements.
    Member(&'r Requirement),
    /// In when it applies or for which things: by this part of the rule.
    Applies(&'static str),
    /// In what may hold instead.
    Relief(&'r Relief),
    /// In whether it binds.
    Strength,
}

/// One difference of two rules.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference<'r> {
    /// Which way it goes.
    pub way: Way,
    /// Where.
    pub case: Case<'r>,
    /// Where it stands in the new rule's file, where it stands there.
    pub span: Option<Span>,
}

/// What two rules together come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Together {
    /// They mean the same.
    Same,
    /// All that differs goes this way.
    One(Way),
    /// Stricter in some cases, laxer in others.
    Both,
}

/// What differences come to together.
pub fn together(differences: &[Difference<'_>]) -> Together {
    let has = |way| differences.iter().any(|one| one.way == way);
    match (has(Way::Stricter), has(Way::Laxer), has(Way::Changed)) {
        (false, false, false) => Together::Same,
        (_, _, true) => Together::One(Way::Changed),
        (true, true, _) => Together::Both,
        (true, false, _) => Together::One(Way::Stricter),
        (false, true, _) => Together::One(Way::Laxer),
    }
}

/// Where a rule differs from the one whose place it takes; nothing where they mean the same.
pub fn differences<'r>(old: &'r Rule, new: &'r Rule) -> Vec<Difference<'r>> {
    let mut all = of_requirements(&old.require, &new.require);
    let mut add = |way: Option<Way>, case| {
        let span = None;
        all.extend(way.map(|way| Difference { way, case, span }));
    };
    let when = opposite(conditions(&old.when, &new.when));
    add(when, Case::Applies("its `when`"));
    let unless = conditions_lifted(&old.unless, &new.unless);
    add(unless, Case::Applies("its `unless`"));
    let each = things(old.each.as_ref(), new.each.as_ref());
    add(each, Case::Applies("the things that it is for"));
    let pool = old.about_pool != new.about_pool;
    add(
        pool.then_some(Way::Changed),
        Case::Applies("the pools that it is for"),
    );
    let days = old.in_force != new.in_force;
    add(
        days.then_some(Way::Changed),
        Case::Applies("its days in force"),
    );
    let strength = match (old.strength, new.strength) {
        (Strength::Should, Strength::Must) => Some(Way::Stricter),
        (Strength::Must, Strength::Should) => Some(Way::Laxer),
        _ => None,
    };
    add(strength, Case::Strength);
    all.extend(reliefs(&old.reliefs, &new.reliefs));
    all
}

/// Which of two requirements is the stricter; `None` where both mean the same.
fn way(old: &Requirement, new: &Requirement) -> Option<Way> {
    match (implies(new, old), implies(old, new)) {
        (true, true) => None,
        (true, false) => Some(Way::Stricter),
        (false, true) => Some(Way::Laxer),
        (false, false) => Some(Way::Changed),
    }
}

/// A condition that there is none of holds always.
fn conditions(old: &Option<Requirement>, new: &Option<Requirement>) -> Option<Way> {
    match (old, new) {
        (None, None) => None,
        (None, Some(_)) => Some(Way::Stricter),
        (Some(_), None) => Some(Way::Laxer),
        (Some(old), Some(new)) => way(old, new),
    }
}

/// An exception that there is none of never holds; the more it lets off, the laxer is the rule.
fn conditions_lifted(old: &Option<Requirement>, new: &Option<Requirement>) -> Option<Way> {
    match (old, new) {
        (None, None) => None,
        (None, Some(_)) => Some(Way::Laxer),
        (Some(_), None) => Some(Way::Stricter),
        // An exception that is harder to meet lets off less.
        (Some(old), Some(new)) => way(old, new),
    }
}

fn opposite(way: Option<Way>) -> Option<Way> {
    way.map(|way| match way {
        Way::Stricter => Way::Laxer,
        Way::Laxer => Way::Stricter,
        Way::Changed => Way::Changed,
    })
}

/// A rule for fewer things is laxer, unless it fails where there are none.
fn things(old: Option<&Selection>, new: Option<&Selection>) -> Option<Way> {
    let (Some(old), Some(new)) = (old, new) else {
        return (old != new).then_some(Way::Changed);
    };
    let chosen = filters(old, new);
    let none = (old.if_none, new.if_none);
    let comparable = none.0 == none.1 && !matches!(none.0, Some(IfNone::Fails | IfNone::Refer));
    match chosen {
        None if none.0 == none.1 => None,
        Some(way) if comparable => opposite(Some(way)),
        _ => Some(Way::Changed),
    }
}

/// How what chooses things compares: stricter where fewer are chosen.
fn filters(old: &Selection, new: &Selection) -> Option<Way> {
    if (old.kind, old.part_of) != (new.kind, new.part_of) || old.zone != new.zone {
        return Some(Way::Changed);
    }
    let filter = |selection: &Selection| selection.filter.as_deref().cloned();
    conditions(&filter(old), &filter(new))
}

fn reliefs<'r>(old: &'r [Relief], new: &'r [Relief]) -> Vec<Difference<'r>> {
    let of = |relief: &'r Relief, way, span| Difference {
        way,
        case: Case::Relief(relief),
        span,
    };
    let named = |list: &'r [Relief], id: &str| list.iter().find(|relief| relief.id == id);
    let gone = old.iter().filter(|was| named(new, &was.id).is_none());
    let gone = gone.map(|was| of(was, Way::Stricter, None));
    let others = new.iter().filter_map(|is| {
        let way = match named(old, &is.id) {
            None => Some(Way::Laxer),
            Some(was) => relief(was, is),
        };
        Some(of(is, way?, Some(is.span)))
    });
    gone.chain(others).collect()
}

/// How a relief compares with the one of its name: the harder it is to come by, the stricter is the rule.
fn relief(old: &Relief, new: &Relief) -> Option<Way> {
    let leave = match (old.leave, new.leave) {
        (false, true) => Some(Way::Stricter),
        (true, false) => Some(Way::Laxer),
        _ => None,
    };
    let ways = [
        leave,
        conditions(&old.when, &new.when),
        way(&old.require, &new.require),
    ];
    let mut ways = ways.into_iter().flatten();
    let first = ways.next()?;
    Some(match ways.all(|other| other == first) {
        true => first,
        false => Way::Changed,
    })
}

/// Where two requirements differ: as a whole, or in which of their parts.
fn of_requirements<'r>(old: &'r Requirement, new: &'r Requirement) -> Vec<Difference<'r>> {
    let (old, new) = (plain(old), plain(new));
    let Some(whole) = way(old, new) else {
        return Vec::new();
    };
    let all = || {
        let span = match new {
            Requirement::Test(test) => Some(test.span),
            Requirement::Each(each) => Some(each.span),
            _ => None,
        };
        let case = match (old, new) {
            (Requirement::Test(old), Requirement::Test(new)) if same(&old.value, &new.value) => {
                Case::Limit(&old.bounds, &new.bounds)
            }
            _ => Case::All,
        };
        vec![Difference {
            way: whole,
            case,
            span,
        }]
    };
    let parts = match (old, new) {
        (Requirement::Test(old), Requirement::Test(new)) => of_limits(old, new),
        (Requirement::Table(old), Requirement::Table(new)) => {
            of_rows(old, new, &|old, new| match of_requirements(old, new)[..] {
                [] => None,
                [Difference { way, .. }] => Some(way),
                _ => Some(way(old, new)?),
            })
        }
        (Requirement::All(old), Requirement::All(new)) => of_members(old, new),
        (Requirement::Each(old), Requirement::Each(new)) if old.selection == new.selection => {
            Some(of_requirements(&old.require, &new.require))
        }
        _ => None,
    };
    parts.filter(|parts| !parts.is_empty()).unwrap_or_else(all)
}

/// Requirements all of which must hold: each beside the one that it takes the place of.
fn of_members<'r>(old: &'r [Requirement], new: &'r [Requirement]) -> Option<Vec<Difference<'r>>> {
    let alike = |one: &Requirement, other: &Requirement| match (plain(one), plain(other)) {
        (Requirement::Test(one), Requirement::Test(other)) => same(&one.value, &other.value),
        (one, other) => way(one, other) != Some(Way::Changed),
    };
    let mut left: Vec<&Requirement> = old.iter().collect();
    let mut all = Vec::new();
    for now in new {
        let Some(place) = left.iter().position(|then| alike(then, now)) else {
            all.push((Way::Stricter, now));
            continue;
        };
        let then = left.remove(place);
        all.extend(way(then, now).map(|way| (way, now)));
    }
    all.extend(left.into_iter().map(|gone| (Way::Laxer, gone)));
    let difference = |(way, member): (Way, &'r Requirement)| Difference {
        way,
        case: Case::Member(member),
        span: match plain(member) {
            Requirement::Test(test) if new.contains(member) => Some(test.span),
            _ => None,
        },
    };
    Some(all.into_iter().map(difference).collect())
}

/// The limits of two tests of the same value, where a table gives each.
fn of_limits<'r>(old: &'r Test, new: &'r Test) -> Option<Vec<Difference<'r>>> {
    let ([before], [after]) = (&old.bounds[..], &new.bounds[..]) else {
        return None;
    };
    let same_test = same(&old.value, &new.value) && old.holds == new.holds;
    let less_is_stricter = less_is_stricter(before, after).filter(|_| same_test)?;
    let (Value::Table(before), Value::Table(after)) = (bare(before.limit()?), bare(after.limit()?))
    else {
        return None;
    };
    of_rows(before, after, &|before, after| match less_is_stricter {
        true => way_down(before, after),
        false => way_down(after, before),
    })
}

/// Which way a limit changed, if a smaller limit is stricter.
fn way_down(before: &Value, after: &Value) -> Option<Way> {
    match (no_more(after, before), no_more(before, after)) {
        (true, true) => None,
        (true, false) => Some(Way::Stricter),
        (false, true) => Some(Way::Laxer),
        (false, false) => Some(Way::Changed),
    }
}

/// Tables whose rows are for the same cases, row by row.
fn of_rows<'r, T: PartialEq>(
    old: &'r Table<T>,
    new: &'r Table<T>,
    compare: &dyn Fn(&'r T, &'r T) -> Option<Way>,
) -> Option<Vec<Difference<'r>>> {
    if !same_rows(old, new) {
        return None;
    }
    let rows = old.rows.iter().zip(&new.rows);
    let differ = rows.filter_map(|(then, now)| {
        let way = match (&then.then, &now.then) {
            (Then::Refer, Then::Refer) => None,
            (Then::Give(then), Then::Give(now)) => compare(then, now),
            _ => Some(Way::Changed),
        };
        Some(Difference {
            way: way?,
            case: Case::Row(&now.test, new.by.as_ref()),
            span: Some(now.span),
        })
    });
    Some(differ.collect())
}

/// Whether a lower limit is the stricter one; `None` where the two bounds are not of one sort.
fn less_is_stricter(one: &Bound, other: &Bound) -> Option<bool> {
    match (one, other) {
        (Bound::AtLeast(_), Bound::AtLeast(_)) | (Bound::MoreThan(_), Bound::MoreThan(_)) => {
            Some(false)
        }
        (Bound::AtMost(_), Bound::AtMost(_)) | (Bound::LessThan(_), Bound::LessThan(_)) => {
            Some(true)
        }
        _ => None,
    }
}

/// Whether two values are the same, by a term or not.
pub(crate) fn same(one: &Value, other: &Value) -> bool {
    work::step_through(1);
    bare(one) == bare(other)
}

/// What a value says, by whatever name.
pub(crate) fn bare(value: &Value) -> &Value {
    match value {
        Value::Named { value, .. } => bare(value),
        value => value,
    }
}
