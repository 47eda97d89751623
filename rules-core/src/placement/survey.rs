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
pub(super) async fn survey(judging: &mut Judging<'_>, moving: &Moving) -> Survey {
    let (low, high) = moving.range();
    let all = judging.all();
    let size = even((high.x - low.x).max(high.y - low.y));
    let lot = Spot { low, size };
    let anywhere = judging.left_near(View::Possible, (lot.middle(), lot.reach()), &all);
    let places = places(moving, (low, high), size);
    let mut tried: Vec<Vec<Outcome>> = Vec::new();
    for way in &places {
        judging.rest().await;
        tried.push(judging.outcomes(View::Possible, Spot::only(*way), &anywhere.open));
    }
    let margins = margins(judging, &places, &anywhere.fail).await;
    let row = |rule: &usize| {
        if anywhere.fail.contains(rule) {
            return Row {
                role: failing(*rule, &margins),
                fails: places.len(),
            };
        }
        let column = anywhere.open.iter().position(|open| open == rule);
        let outcomes = tried.iter().filter_map(|there| there.get(column?));
        let outcomes: Vec<Outcome> = outcomes.copied().collect();
        let fails = outcomes.iter().filter(|it| **it == Outcome::Fail).count();
        match column {
            Some(_) => Row {
                role: open(&outcomes),
                fails,
            },
            None => Row {
                role: Role::HoldsAnyway,
                fails: 0,
            },
        }
    };
    Survey {
        places: places.len(),
        rows: all.iter().map(row).collect(),
    }
}

/// The role of a rule of which it is not known whether it holds or fails all over the lot.
fn open(outcomes: &[Outcome]) -> Role {
    let waits = |it: &Outcome| matches!(it, Outcome::Unknown | Outcome::Refer);
    let nowhere = !outcomes.iter().any(|it| holds(*it));
    match outcomes.len() >= 2 && nowhere && outcomes.iter().any(waits) {
        true => Role::OpenAnyway,
        false => Role::Placed,
    }
}

/// What some rules found in a place, each with its margins.
type Margins = Vec<(usize, Vec<Option<Margin>>)>;

/// The margins of some rules in each place.
async fn margins(judging: &mut Judging<'_>, places: &[Way], rules: &Asked) -> Vec<Margins> {
    let of_rule = |(rule, finding): (usize, Finding)| {
        let margins = finding.parts.iter().map(|part| part.margin);
        (rule, margins.collect())
    };
    let mut all = Vec::new();
    for way in places.iter().filter(|_| !rules.is_empty()) {
        judging.rest().await;
        let found = judging.find(View::Possible, Spot::only(*way), rules);
        all.push(found.into_iter().map(of_rule).collect());
    }
    all
}

/// The role of a rule that fails all over the lot: whether by the same amount in all places tried.
fn failing(rule: usize, places: &[Margins]) -> Role {
    let there = |place: &Margins| {
        let own = place.iter().find(|(at, _)| *at == rule);
        own.map(|(_, margins)| margins.clone())
    };
    let margins: Vec<_> = places.iter().map(there).collect();
    let alike = margins.windows(2).all(|pair| match pair {
        [one, other] => one == other,
        _ => true,
    });
    match margins.len() >= 2 && alike {
        true => Role::FailsAnyway,
        false => Role::Placed,
    }
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
