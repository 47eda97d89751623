//! The amounts at which the rules of a set turn.

use rules_core::ruleset::{
    Bound, Choice, Operand, Requirement, RowTest, RuleSet, Selection, Table, Then, Value, Which,
};

/// Every amount that a rule set states, sorted, none twice.
pub fn amounts(rules: &RuleSet) -> Vec<i128> {
    let mut cuts = Cuts(Vec::new());
    for rule in &rules.rules {
        for requirement in rule.when.iter().chain(&rule.unless).chain([&rule.require]) {
            cuts.requirement(requirement);
        }
        for relief in &rule.reliefs {
            for requirement in relief.when.iter().chain([&relief.require]) {
                cuts.requirement(requirement);
            }
        }
        if let Some(each) = &rule.each {
            cuts.selection(each);
        }
        if let Some(force) = &rule.in_force {
            cuts.0.extend(force.from.iter().chain(&force.to));
        }
    }
    cuts.0.sort_unstable();
    cuts.0.dedup();
    cuts.0
}

struct Cuts(Vec<i128>);

impl Cuts {
    fn requirement(&mut self, requirement: &Requirement) {
        match requirement {
            Requirement::Test(test) => {
                self.value(&test.value);
                self.bounds(&test.bounds);
            }
            Requirement::All(of) | Requirement::Any(of) | Requirement::Count { of, .. } => {
                of.iter().for_each(|one| self.requirement(one));
            }
            Requirement::Not(of) => self.requirement(of),
            Requirement::Each(each) => {
                self.selection(&each.selection);
                self.requirement(&each.require);
            }
            Requirement::Table(table) => self.table(table, Self::requirement),
            Requirement::Meets { requirement, .. } => self.requirement(requirement),
            Requirement::Have(_) | Requirement::Refer => {}
        }
    }

    fn table<T>(&mut self, table: &Table<T>, give: fn(&mut Self, &T)) {
        table.by.iter().for_each(|by| self.value(by));
        for row in &table.rows {
            match &row.test {
                RowTest::Bounds(bounds) => self.bounds(bounds),
                RowTest::When(when) => self.requirement(when),
                RowTest::Otherwise => {}
            }
            if let Then::Give(given) = &row.then {
                give(self, given);
            }
        }
    }

    fn bounds(&mut self, bounds: &[Bound]) {
        for bound in bounds {
            match bound {
                Bound::AtLeast(limit)
                | Bound::AtMost(limit)
                | Bound::MoreThan(limit)
                | Bound::LessThan(limit) => self.value(limit),
                Bound::Is(choices) => {
                    self.0
                        .extend(choices.iter().filter_map(|choice| match choice {
                            Choice::Amount(amount) => Some(*amount),
                            _ => None,
                        }))
                }
            }
        }
    }

    fn selection(&mut self, selection: &Selection) {
        if let Some(filter) = &selection.filter {
            self.requirement(filter);
        }
    }

    fn operand(&mut self, operand: &Operand) {
        for part in &operand.parts {
            if let Which::All(selection) = &part.which {
                self.selection(selection);
            }
        }
    }

    fn value(&mut self, value: &Value) {
        match value {
            Value::Stated(stated) => self.0.push(stated.range.low),
            Value::Distance(distance) => {
                self.operand(&distance.from);
                self.operand(&distance.to);
            }
            Value::Area(area) => self.operand(&area.of),
            Value::Count(selection) => self.selection(selection),
            Value::Table(table) => self.table(table, Self::value),
            Value::Largest(of)
            | Value::Smallest(of)
            | Value::Sum(of)
            | Value::Difference(of)
            | Value::Product(of) => of.iter().for_each(|one| self.value(one)),
            Value::Over { of, take, .. } => {
                self.selection(of);
                self.value(take);
            }
            _ => {}
        }
    }
}
