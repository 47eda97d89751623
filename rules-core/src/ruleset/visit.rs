//! One way through all that a rule is made of. A visitor overrides what it looks at; everything else is gone through here,
//! in the order in which it stands in [`Requirement`], [`Value`] and [`Zone`].

use std::sync::Arc;

use super::{
    Area, Bound, DocumentIndex, Each, Operand, Part, Requirement, RowTest, Selection, ShareOf,
    Surface, Table, Test, Then, Value, Volume, Zone,
};
use crate::vocabulary::FactId;

/// Whoever goes through rules. Each function goes on to what is within; whoever overrides one calls the function of the same
/// name in [`within`] to go on.
pub(crate) trait Visit<'r>: Sized {
    /// Goes through what a term says, or does not, where that was done before.
    fn term<T>(&mut self, said: &'r Arc<T>, go: fn(&mut Self, &'r T));

    fn fact(&mut self, _fact: FactId) {}

    fn paper(&mut self, _paper: DocumentIndex) {}

    fn requirement(&mut self, requirement: &'r Requirement) {
        within::requirement(self, requirement);
    }

    fn test(&mut self, test: &'r Test) {
        within::test(self, test);
    }

    /// What a table's rows are chosen by.
    fn chosen_by(&mut self, by: &'r Value) {
        self.value(by);
    }

    fn row_test(&mut self, test: &'r RowTest) {
        within::row_test(self, test);
    }

    fn value(&mut self, value: &'r Value) {
        within::value(self, value);
    }

    fn operand(&mut self, operand: &'r Operand) {
        operand.parts.iter().for_each(|part| self.part(part));
    }

    fn part(&mut self, part: &'r Part) {
        within::part(self, part);
    }

    fn selection(&mut self, selection: &'r Selection) {
        within::selection(self, selection);
    }

    /// What narrows a selection.
    fn filter(&mut self, filter: &'r Requirement) {
        self.requirement(filter);
    }

    /// Goes through something in which a kind's name stands for each of the things that are selected.
    fn of_each(&mut self, _selection: &'r Selection, go: impl FnOnce(&mut Self)) {
        go(self);
    }

    fn zone(&mut self, zone: &'r Zone) {
        within::zone(self, zone);
    }
}

/// What is within each part of a rule.
pub(crate) mod within {
    use super::*;

    pub(crate) fn requirement<'r>(visit: &mut impl Visit<'r>, requirement: &'r Requirement) {
        match requirement {
            Requirement::Test(test) => visit.test(test),
            Requirement::All(list) | Requirement::Any(list) => {
                list.iter().for_each(|member| visit.requirement(member));
            }
            Requirement::Not(inner) => visit.requirement(inner),
            Requirement::Count { of, bounds } => {
                of.iter().for_each(|member| visit.requirement(member));
                limits(visit, bounds);
            }
            Requirement::Each(each) => for_each(visit, each),
            Requirement::Table(rows) => table(visit, rows, Visit::requirement),
            Requirement::Meets { requirement, .. } => visit.term(requirement, Visit::requirement),
            Requirement::Have(paper) => visit.paper(*paper),
            Requirement::Refer => {}
        }
    }

    fn for_each<'r>(visit: &mut impl Visit<'r>, each: &'r Each) {
        visit.selection(&each.selection);
        visit.of_each(&each.selection, |visit| visit.requirement(&each.require));
    }

    pub(crate) fn test<'r>(visit: &mut impl Visit<'r>, test: &'r Test) {
        visit.value(&test.value);
        limits(visit, &test.bounds);
    }

    /// The values that bounds state; words have none.
    fn limits<'r>(visit: &mut impl Visit<'r>, bounds: &'r [Bound]) {
        bounds
            .iter()
            .filter_map(Bound::limit)
            .for_each(|limit| visit.value(limit));
    }

    pub(crate) fn table<'r, V: Visit<'r>, T>(
        visit: &mut V,
        table: &'r Table<T>,
        give: fn(&mut V, &'r T),
    ) {
        table.by.iter().for_each(|by| visit.chosen_by(by));
        for row in &table.rows {
            visit.row_test(&row.test);
            if let Then::Give(given) = &row.then {
                give(visit, given);
            }
        }
    }

    pub(crate) fn row_test<'r>(visit: &mut impl Visit<'r>, test: &'r RowTest) {
        match test {
            RowTest::Bounds(bounds) => limits(visit, bounds),
            RowTest::When(when) => visit.requirement(when),
            RowTest::Otherwise => {}
        }
    }

    pub(crate) fn value<'r>(visit: &mut impl Visit<'r>, value: &'r Value) {
        match value {
            Value::Stated(_) => {}
            Value::Fact(fact) => visit.fact(*fact),
            Value::Table(rows) => table(visit, rows, Visit::value),
            Value::Largest(list)
            | Value::Smallest(list)
            | Value::Sum(list)
            | Value::Difference(list)
            | Value::Product(list) => list.iter().for_each(|member| visit.value(member)),
            Value::Root(of) => visit.value(of),
            Value::Over { of, take, .. } => {
                visit.selection(of);
                visit.of_each(of, |visit| visit.value(take));
            }
            Value::Named { value, .. } => visit.term(value, Visit::value),
            Value::Distance(it) => {
                visit.operand(&it.from);
                visit.operand(&it.to);
            }
            Value::Area(it) => area(visit, it),
            Value::Length { of, within } => {
                visit.operand(of);
                within.iter().for_each(|zone| visit.zone(zone));
            }
            Value::Count(things) => visit.selection(things),
            Value::Enclosure(it) => {
                visit.operand(&it.of);
                visit.operand(&it.made_of);
            }
            Value::Sound(it) => {
                visit.operand(&it.from);
                visit.operand(&it.at);
            }
            Value::Level(it) => visit.operand(&it.of),
            Value::Fall(it) => {
                visit.operand(&it.from);
                visit.operand(&it.to);
                it.run.iter().for_each(|run| visit.value(run));
            }
            Value::Volume(it) => volume(visit, it),
            Value::Height(it) => {
                visit.operand(&it.of);
                it.over.iter().for_each(|over| visit.operand(over));
                visit.value(&it.within);
            }
            Value::Margin(it) => {
                visit.operand(&it.of);
                visit.operand(&it.round);
            }
            Value::Width(of) => visit.operand(of),
        }
    }

    fn area<'r>(visit: &mut impl Visit<'r>, area: &'r Area) {
        visit.operand(&area.of);
        area.within.iter().for_each(|zone| visit.zone(zone));
        match &area.share_of {
            Some(ShareOf::Outlines(whole)) => visit.operand(whole),
            Some(ShareOf::Value(whole)) => visit.value(whole),
            None => {}
        }
    }

    fn volume<'r>(visit: &mut impl Visit<'r>, volume: &'r Volume) {
        visit.operand(&volume.over);
        volume.within.iter().for_each(|zone| visit.zone(zone));
        let levels = [&volume.from, &volume.to].into_iter();
        let levels = levels.filter_map(Surface::level);
        levels.for_each(|level| visit.value(level));
    }

    pub(crate) fn part<'r>(visit: &mut impl Visit<'r>, part: &'r Part) {
        part.which
            .selection()
            .into_iter()
            .for_each(|selection| visit.selection(selection));
    }

    pub(crate) fn selection<'r>(visit: &mut impl Visit<'r>, selection: &'r Selection) {
        visit.of_each(selection, |visit| {
            selection.filter.iter().for_each(|one| visit.filter(one));
            selection.zone.iter().for_each(|zone| visit.zone(zone));
        });
    }

    pub(crate) fn zone<'r>(visit: &mut impl Visit<'r>, zone: &'r Zone) {
        match zone {
            Zone::Inside(area) => visit.operand(area),
            Zone::Around { of, by } => {
                visit.operand(of);
                visit.value(by);
            }
            Zone::Between(one, other) => {
                visit.operand(one);
                visit.operand(other);
            }
            Zone::Corner { of, legs } => {
                visit.operand(&of.0);
                visit.operand(&of.1);
                visit.value(legs);
            }
            Zone::Not(inner) => visit.zone(inner),
            Zone::Named { zone, .. } => visit.term(zone, Visit::zone),
        }
    }
}
