//! Rebuilding a rule from its leaves up.

use std::sync::Arc;

use rules_core::ruleset::{Each, Relief, Requirement, Row, RowTest, Rule, Selection, Table, Then};

/// A change to every requirement, applied after its members have been changed.
pub type Change<'a> = &'a mut dyn FnMut(Requirement) -> Requirement;

/// A rule with every requirement and condition in it changed.
pub fn rule(rule: &Rule, change: Change<'_>) -> Rule {
    let mut changed = rule.clone();
    changed.when = rule.when.as_ref().map(|when| requirement(when, change));
    changed.unless = rule
        .unless
        .as_ref()
        .map(|unless| requirement(unless, change));
    changed.each = rule.each.as_ref().map(|each| selection(each, change));
    changed.require = requirement(&rule.require, change);
    let relief = |relief: &Relief, change: Change<'_>| Relief {
        when: relief.when.as_ref().map(|when| requirement(when, change)),
        require: requirement(&relief.require, change),
        ..relief.clone()
    };
    changed.reliefs = rule.reliefs.iter().map(|one| relief(one, change)).collect();
    changed
}

fn selection(of: &Selection, change: Change<'_>) -> Selection {
    Selection {
        filter: of
            .filter
            .as_ref()
            .map(|filter| Arc::new(requirement(filter, change))),
        ..of.clone()
    }
}

fn all(of: &[Requirement], change: Change<'_>) -> Vec<Requirement> {
    of.iter().map(|one| requirement(one, change)).collect()
}

/// A requirement with everything in it changed.
pub fn requirement(of: &Requirement, change: Change<'_>) -> Requirement {
    let rebuilt = match of {
        Requirement::All(members) => Requirement::All(all(members, change)),
        Requirement::Any(members) => Requirement::Any(all(members, change)),
        Requirement::Not(inner) => Requirement::Not(Box::new(requirement(inner, change))),
        Requirement::Count { of, bounds } => Requirement::Count {
            of: all(of, change),
            bounds: bounds.clone(),
        },
        Requirement::Each(each) => Requirement::Each(Box::new(Each {
            selection: selection(&each.selection, change),
            require: requirement(&each.require, change),
            span: each.span,
        })),
        Requirement::Table(of) => Requirement::Table(Box::new(table(of, change))),
        Requirement::Meets {
            term,
            requirement: inner,
        } => Requirement::Meets {
            term: term.clone(),
            requirement: Arc::new(requirement(inner, change)),
        },
        Requirement::Test(_) | Requirement::Have(_) | Requirement::Refer => of.clone(),
    };
    change(rebuilt)
}

fn table(of: &Table<Requirement>, change: Change<'_>) -> Table<Requirement> {
    let mut rows = Vec::new();
    for row in &of.rows {
        let test = match &row.test {
            RowTest::When(when) => RowTest::When(requirement(when, change)),
            other => other.clone(),
        };
        let then = match &row.then {
            Then::Give(given) => Then::Give(requirement(given, change)),
            Then::Refer => Then::Refer,
        };
        rows.push(Row {
            test,
            then,
            span: row.span,
        });
    }
    Table {
        by: of.by.clone(),
        rows,
        span: of.span,
    }
}
