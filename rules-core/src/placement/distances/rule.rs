//! Which rules turn on one distance alone.
//!
//! The pool's place counts for such a rule only through how far some outlines are apart, and more is never worse: whatever
//! is asked of that distance is to be at least so much, and never under a "not". All else that the rule reads is stated,
//! and stays the same wherever the pool is.

use std::sync::Arc;

use crate::ruleset::visit::Visit;
use crate::ruleset::{
    Bound, Condition, Distance, InForce, Measured, Once, Operand, Places, Requirement, Row,
    RowTest, Rule, Selection, Table, Test, Then, Value, Which, Zone,
};

/// The one distance that a rule turns on; `None` where it turns on none, or may turn on something else that is drawn.
pub(super) fn distance_of(rule: &Rule) -> Option<&Distance> {
    let reliefs = rule.reliefs.iter();
    let when = reliefs.clone().filter_map(|relief| relief.when.as_ref());
    let mut conditions = rule.when.iter().chain(&rule.unless).chain(when);
    let same_everywhere = conditions.all(is_stated)
        && rule.in_force.as_ref().is_none_or(is_in_force_anywhere)
        && rule.each.as_ref().is_none_or(chooses_by_facts);
    let mut found = Found(None);
    let mut asked = std::iter::once(&rule.require).chain(reliefs.map(|relief| &relief.require));
    (same_everywhere && asked.all(|it| found.only_more_is_asked(it)))
        .then_some(found.0)
        .flatten()
}

/// Whether a rule reads nothing that is drawn: it comes out the same wherever the pool is.
pub(super) fn is_the_same_everywhere(rule: &Rule) -> bool {
    let reliefs = rule.reliefs.iter();
    let reliefs = reliefs.flat_map(|it| it.when.iter().chain([&it.require]));
    let conditions = rule.when.iter().chain(&rule.unless);
    let mut all = conditions.chain([&rule.require]).chain(reliefs);
    all.all(is_stated)
        && rule.in_force.as_ref().is_none_or(is_in_force_anywhere)
        && rule
            .each
            .as_ref()
            .is_none_or(|each| reads_nothing_drawn(|see| see.selection(each)))
}

/// Whether something is in force, or not, whatever is drawn.
pub(super) fn is_in_force_anywhere(in_force: &InForce) -> bool {
    let mut conditions = in_force.or_when.iter().chain(&in_force.unless);
    conditions.all(|Condition { requirement, .. }| is_stated(requirement))
}

/// Whether a rule's subjects are chosen by what is stated of them, and nothing is said for the case that there is none.
fn chooses_by_facts(each: &Selection) -> bool {
    let by_facts = |filter: &Arc<Requirement>| is_stated(filter);
    each.part_of.is_none()
        && each.zone.is_none()
        && each.if_none.is_none()
        && each.filter.as_ref().is_none_or(by_facts)
}

/// The distance found so far.
struct Found<'r>(Option<&'r Distance>);

impl<'r> Found<'r> {
    /// Whether a requirement reads nothing that is drawn but one distance, of which it asks for at least so much.
    fn only_more_is_asked(&mut self, requirement: &'r Requirement) -> bool {
        match requirement {
            Requirement::All(list) | Requirement::Any(list) => {
                list.iter().all(|member| self.only_more_is_asked(member))
            }
            Requirement::Test(test) => self.only_more_is_tested(test),
            Requirement::Table(table) => self.only_more_in(table),
            other => is_stated(other),
        }
    }

    fn only_more_is_tested(&mut self, test: &'r Test) -> bool {
        let Value::Distance(distance) = &test.value else {
            return reads_nothing_drawn(|see| see.test(test));
        };
        let is_floor = |bound: &Bound| matches!(bound, Bound::AtLeast(_) | Bound::MoreThan(_));
        let limits = test.bounds.iter().filter_map(Bound::limit);
        test.holds.is_none()
            && test.bounds.iter().all(is_floor)
            && limits.into_iter().all(is_stated_value)
            && is_plain(distance)
            && **distance == **self.0.get_or_insert(distance)
    }

    fn only_more_in(&mut self, table: &'r Table<Requirement>) -> bool {
        let mut of_row = |row: &'r Row<Requirement>| {
            let then = match &row.then {
                Then::Give(given) => self.only_more_is_asked(given),
                Then::Refer => true,
            };
            then && is_stated_row(&row.test)
        };
        table.by.iter().all(is_stated_value) && table.rows.iter().all(&mut of_row)
    }
}

/// Whether a distance is taken on the plan between the nearest places of whole outlines.
fn is_plain(distance: &Distance) -> bool {
    let all = |selection: &Selection| selection.is_all() && selection.if_none.is_none();
    let of_whole = |operand: &Operand| {
        operand.parts.iter().all(|part| match &part.which {
            Which::Bound(_) => true,
            Which::Meant(_) => false,
            Which::All(selection) => all(selection),
        })
    };
    distance.how == Measured::Level
        && distance.places == Places::Nearest
        && of_whole(&distance.from)
        && of_whole(&distance.to)
}

fn is_stated(requirement: &Requirement) -> bool {
    reads_nothing_drawn(|see| see.requirement(requirement))
}

fn is_stated_value(value: &Value) -> bool {
    reads_nothing_drawn(|see| see.value(value))
}

fn is_stated_row(test: &RowTest) -> bool {
    reads_nothing_drawn(|see| see.row_test(test))
}

fn reads_nothing_drawn(go: impl FnOnce(&mut Seen)) -> bool {
    let mut seen = Seen::default();
    go(&mut seen);
    !seen.drawn
}

/// Whether anything that is drawn was seen: outlines and zones are all that rules can read of it.
#[derive(Default)]
struct Seen {
    drawn: bool,
    terms: Once,
}

impl<'r> Visit<'r> for Seen {
    fn term<T>(&mut self, said: &'r Arc<T>, go: fn(&mut Self, &'r T)) {
        if self.terms.is_first(said) {
            go(self, said);
        }
    }

    fn operand(&mut self, _operand: &'r Operand) {
        self.drawn = true;
    }

    fn zone(&mut self, _zone: &'r Zone) {
        self.drawn = true;
    }
}
