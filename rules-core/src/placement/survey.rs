//! How each rule comes out all over the lot: which rules depend on the place, and which do not.

use super::judging::{Asked, Judging, View, holds};
use super::map::cover;
use super::moving::Moving;
use super::spot::{Spot, Way};
use crate::check::{Finding, Margin, Outcome};

/// How many places are tried along the longer side of the lot.
const ALONG: i64 = 16;

/// Whether a rule depends on where on the lot the pool is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Role {
    /// It does. The map shows these rules.
    Placed,
    /// The rule surely holds wherever on the lot the pool is put.
    HoldsAnyway,
    /// It surely fails everywhere, and by the same amount in all places tried.
    FailsAnyway,
    /// It holds in none of the places tried: where it does not fail, it waits for an answer, a document or the authority.
    OpenAnyway,
}

/// How a rule came out in the places that were tried.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Row {
    pub role: Role,
    /// The number of places in which it surely fails.
    pub fails: usize,
}

/// How all binding rules came out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Survey {
    /// How many places were tried.
    pub places: usize,
    /// One for each binding rule.
    pub rows: Vec<Row>,
}

impl Survey {
    /// The rules with a role.
    pub fn of(&self, role: Role) -> Asked {
        let rows = self.rows.iter().enumerate();
        rows.filter(|(_, row)| row.role == role)
            .map(|(rule, _)| rule)
            .collect()
    }

    /// The rules that hold nowhere but fail in some places.
    pub fn waiting(&self) -> Asked {
        let fails = |rule: &usize| self.rows.get(*rule).is_some_and(|row| row.fails > 0);
        self.of(Role::OpenAnyway)
            .into_iter()
            .filter(fails)
            .collect()
    }
}

/// Tries the pool all over the lot.
pub(super) fn survey(judging: &mut Judging<'_>, moving: &Moving) -> Survey {
    let (low, high) = moving.range();
    let all = judging.all();
    let size = even((high.x - low.x).max(high.y - low.y));
    let anywhere = judging.left(View::Possible, Spot { low, size }, &all);
    let tried: Vec<Vec<(usize, Finding)>> = places(moving, (low, high), size)
        .into_iter()
        .map(|way| judging.find(View::Possible, Spot::only(way), &all))
        .collect();
    let row = |rule: usize| {
        let findings = tried
            .iter()
            .map(|found| found.iter().find(|(at, _)| *at == rule));
        let findings: Vec<Option<&Finding>> =
            findings.map(|found| found.map(|(_, it)| it)).collect();
        let never = anywhere.fail.contains(&rule);
        let role = match never || anywhere.open.contains(&rule) {
            false => Role::HoldsAnyway,
            true => role(&findings, never),
        };
        let fails = findings
            .iter()
            .flatten()
            .filter(|it| it.outcome == Outcome::Fail)
            .count();
        Row { role, fails }
    };
    Survey {
        places: tried.len(),
        rows: all.iter().map(|rule| row(*rule)).collect(),
    }
}

fn role(findings: &[Option<&Finding>], never: bool) -> Role {
    let each = |wanted: fn(&Finding) -> bool| findings.iter().all(|it| it.is_some_and(wanted));
    let open = |it: &Finding| matches!(it.outcome, Outcome::Unknown | Outcome::Refer);
    let waits = findings.iter().flatten().any(|it| open(it));
    if findings.len() < 2 {
        Role::Placed
    } else if waits && each(|it| !holds(it.outcome)) {
        Role::OpenAnyway
    } else if never && alike(findings) {
        Role::FailsAnyway
    } else {
        Role::Placed
    }
}

/// Whether the margins are the same in all places.
fn alike(findings: &[Option<&Finding>]) -> bool {
    let margins = |it: &Option<&Finding>| -> Vec<Option<Margin>> {
        let parts = it.map(|it| it.parts.iter().map(|part| part.margin));
        parts.into_iter().flatten().collect()
    };
    findings.windows(2).all(|pair| match pair {
        [one, other] => margins(one) == margins(other),
        _ => true,
    })
}

/// Places all over the lot.
fn places(moving: &Moving, (low, high): (Way, Way), size: i64) -> Vec<Way> {
    let cells = cover(low, high, even(size / ALONG));
    let middles = cells.into_iter().map(Spot::middle);
    middles.filter(|way| moving.on_lot(*way)).collect()
}

/// The next even number, and no less than 2.
fn even(size: i64) -> i64 {
    (size.max(1) + 1) / 2 * 2
}
