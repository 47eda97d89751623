//! A failing case in words, for the person who has to find out why.

use std::fmt::Write;

use rules_core::plan::{Figure, Plan, Possible, Words as Possibly};
use rules_core::ruleset::{
    Bound, Choice, Distance, Operand, Places, Requirement, Row, RowTest, Rule, RuleSet, Scope,
    Selection, ShareOf, Table, Then, Value, Which, Zone,
};
use rules_core::vocabulary::Vocabulary;

use super::world::{Held, World};

/// A rule in brief.
pub fn rule(words: &Vocabulary, rule: &Rule) -> String {
    let says = Says(words);
    let mut text = rule.id.clone();
    if rule.about_pool {
        text += " (for each pool)";
    }
    if !rule.documents.is_empty() {
        let _ = write!(text, " (calls for {:?})", rule.documents);
    }
    let mut clause = |name: &str, said: String| {
        let _ = write!(text, "\n  {name} {said}");
    };
    if let Some(when) = &rule.when {
        clause("when", says.requirement(when));
    }
    if let Some(unless) = &rule.unless {
        clause("unless", says.requirement(unless));
    }
    if let Some(force) = &rule.in_force {
        clause("in force", format!("{:?} to {:?}", force.from, force.to));
    }
    if let Some(each) = &rule.each {
        clause("each", says.selection(each));
    }
    clause("require", says.requirement(&rule.require));
    for relief in &rule.reliefs {
        if let Some(when) = &relief.when {
            clause("relief when", says.requirement(when));
        }
        let leave = if relief.leave { "with leave" } else { "relief" };
        clause(leave, says.requirement(&relief.require));
    }
    text
}

struct Says<'a>(&'a Vocabulary);

impl Says<'_> {
    fn all<T>(&self, of: &[T], say: impl Fn(&T) -> String) -> String {
        of.iter().map(say).collect::<Vec<_>>().join(", ")
    }

    fn requirement(&self, requirement: &Requirement) -> String {
        let members = |of: &[Requirement]| self.all(of, |one| self.requirement(one));
        match requirement {
            Requirement::Test(test) => {
                let along = match test.holds {
                    Some(along) => format!(" {along:?}"),
                    None => String::new(),
                };
                let (value, bounds) = (self.value(&test.value), self.bounds(&test.bounds));
                format!("{value}{along} {bounds}")
            }
            Requirement::All(of) => format!("all({})", members(of)),
            Requirement::Any(of) => format!("any({})", members(of)),
            Requirement::Not(of) => format!("not({})", self.requirement(of)),
            Requirement::Count { of, bounds } => {
                format!("count({}) {}", members(of), self.bounds(bounds))
            }
            Requirement::Each(each) => {
                format!(
                    "each {}: ({})",
                    self.selection(&each.selection),
                    self.requirement(&each.require)
                )
            }
            Requirement::Table(table) => self.table(table, |one| self.requirement(one)),
            Requirement::Meets { term, requirement } => {
                let scope = self.scope(term.scope);
                format!("meets{scope}({})", self.requirement(requirement))
            }
            Requirement::Have(number) => format!("have paper-{number}"),
            Requirement::Refer => "refer".to_owned(),
        }
    }

    fn table<T>(&self, table: &Table<T>, say: impl Fn(&T) -> String) -> String {
        let by = table.by.as_ref().map_or(String::new(), |by| self.value(by));
        let rows = self.all(&table.rows, |Row { test, then, .. }| {
            let test = match test {
                RowTest::Bounds(bounds) => self.bounds(bounds),
                RowTest::When(when) => format!("when {}", self.requirement(when)),
                RowTest::Otherwise => "otherwise".to_owned(),
            };
            let then = match then {
                Then::Give(given) => say(given),
                Then::Refer => "refer".to_owned(),
            };
            format!("[{test} => {then}]")
        });
        format!("table({by} {rows})")
    }

    fn bounds(&self, bounds: &[Bound]) -> String {
        self.all(bounds, |bound| match bound {
            Bound::AtLeast(limit) => format!(">= {}", self.value(limit)),
            Bound::AtMost(limit) => format!("<= {}", self.value(limit)),
            Bound::MoreThan(limit) => format!("> {}", self.value(limit)),
            Bound::LessThan(limit) => format!("< {}", self.value(limit)),
            Bound::Is(choices) => self.all(choices, |choice| match choice {
                Choice::Word(word) => format!("is {word}"),
                Choice::Amount(amount, _) => format!("is {amount}"),
                Choice::None => "is none".to_owned(),
            }),
        })
    }

    fn scope(&self, scope: Scope) -> String {
        let of = scope.of.map(|kind| self.0.kind(kind).name.as_str());
        let pool = scope.about_pool.then_some("this pool");
        let all: Vec<&str> = of.into_iter().chain(pool).collect();
        format!("[{}]", all.join(", "))
    }

    fn selection(&self, selection: &Selection) -> String {
        let mut text = self.0.kind(selection.kind).name.clone();
        if let Some(scope) = selection.closed {
            text += &self.scope(scope);
        }
        if let Some(whole) = selection.part_of {
            let _ = write!(text, " part of {}", self.0.kind(whole).name);
        }
        if let Some(filter) = &selection.filter {
            let _ = write!(text, " where ({})", self.requirement(filter));
        }
        if let Some(zone) = &selection.zone {
            let _ = write!(text, " in {}", self.zone(zone));
        }
        if let Some(if_none) = selection.if_none {
            let _ = write!(text, " if none {if_none:?}");
        }
        format!("<{text}>")
    }

    fn zone(&self, zone: &Zone) -> String {
        match zone {
            Zone::Inside(of) => format!("inside {}", self.operand(of)),
            Zone::Around { of, by } => {
                format!("{} around {}", self.value(by), self.operand(of))
            }
            Zone::Not(of) => format!("not ({})", self.zone(of)),
            other => format!("{other:?}"),
        }
    }

    fn operand(&self, operand: &Operand) -> String {
        self.all(&operand.parts, |part| {
            let which = match &part.which {
                Which::Bound(kind) => self.0.kind(*kind).name.clone(),
                Which::Meant(selection) => format!("the one of {}", self.selection(selection)),
                Which::All(selection) => self.selection(selection),
            };
            format!("{which}.{}", self.0.outline(part.outline).name)
        })
    }

    fn distance(&self, distance: &Distance) -> String {
        let name = match distance.places {
            Places::Nearest => "distance",
            Places::Farthest => "greatest distance",
            Places::FarthestOfFirst => "farthest",
        };
        format!(
            "{name}({} to {})",
            self.operand(&distance.from),
            self.operand(&distance.to)
        )
    }

    fn value(&self, value: &Value) -> String {
        let values = |of: &[Value]| self.all(of, |one| self.value(one));
        match value {
            Value::Stated(stated) => stated.range.low.to_string(),
            Value::Fact(fact) => self.0.fact_path(*fact),
            Value::Distance(distance) => self.distance(distance),
            Value::Area(area) => {
                let mut text = format!("area({}", self.operand(&area.of));
                if let Some(zone) = &area.within {
                    let _ = write!(text, " in {}", self.zone(zone));
                }
                if let Some(ShareOf::Outlines(of)) = &area.share_of {
                    let _ = write!(text, " as a share of {}", self.operand(of));
                }
                text + ")"
            }
            Value::Count(selection) => format!("number of {}", self.selection(selection)),
            Value::Table(table) => self.table(table, |one| self.value(one)),
            Value::Largest(of) => format!("largest({})", values(of)),
            Value::Smallest(of) => format!("smallest({})", values(of)),
            Value::Sum(of) => format!("sum({})", values(of)),
            Value::Difference(of) => format!("difference({})", values(of)),
            Value::Product(of) => format!("product({})", values(of)),
            Value::Over { how, of, take } => {
                format!(
                    "{how:?} over {} of {}",
                    self.selection(of),
                    self.value(take)
                )
            }
            Value::Named { term, value, .. } => {
                format!("term{}({})", self.scope(term.scope), self.value(value))
            }
            other => format!("{other:?}"),
        }
    }
}

/// What each paper is needed for, and each decision.
pub fn papers(words: &Vocabulary, rules: &RuleSet) -> String {
    let says = Says(words);
    let mut text = String::new();
    for document in &rules.documents {
        let each = document.each.as_ref().map(|each| says.selection(each));
        let when = document.when.as_ref().map(|when| {
            let pool = if when.about_pool { "for any pool " } else { "" };
            format!("{pool}{}", says.requirement(&when.requirement))
        });
        let _ = writeln!(
            text,
            "{} each {each:?} always {} when {when:?} on {:?} free {}",
            document.id, document.always, document.on, document.discretion
        );
    }
    for decision in &rules.decisions {
        let each = decision.each.as_ref().map(|each| says.selection(each));
        let table = says.table(&decision.table, Clone::clone);
        let pool = if decision.about_pool {
            " for each pool"
        } else {
            ""
        };
        let _ = writeln!(text, "{}{pool} each {each:?}: {table}", decision.id);
    }
    text
}

/// A world in brief.
pub fn world(words: &Vocabulary, world: &World) -> String {
    let mut text = format!("papers: {:?}\n", world.papers);
    for thing in &world.things {
        let whole = thing.part_of.as_deref().unwrap_or("nothing");
        let _ = write!(text, "{} (part of {whole}):", thing.id);
        for (id, held) in &thing.facts {
            let held = match held {
                Held::Nothing => "none".to_owned(),
                Held::Amount(amount) => amount.to_string(),
                Held::Along(values) => format!("{values:?}"),
                Held::Word(word) => word.clone(),
            };
            let _ = write!(text, " {} {held};", words.fact(*id).name);
        }
        let _ = write!(text, " papers {:?}", thing.papers);
        for (id, drawn) in &thing.outlines {
            let _ = write!(
                text,
                "\n    {} spread {}: {:?}",
                words.outline(*id).name,
                drawn.spread,
                drawn.forms
            );
        }
        text.push('\n');
    }
    shortened(&text)
}

fn figure(figure: &Figure) -> String {
    format!(
        "spread {} ± {:?}: {:?}",
        figure.spread, figure.accuracy, figure.forms
    )
}

fn possible(possible: &Possible) -> String {
    let mut text = if possible.none {
        "none or ".to_owned()
    } else {
        String::new()
    };
    if let Some(amount) = &possible.amount {
        let _ = write!(text, "{}..{}", amount.least.low, amount.least.high);
        if let Some(most) = amount.most {
            let _ = write!(text, " to {}..{}", most.low, most.high);
        }
    }
    if let Some(Possibly::OneOf(choices)) = possible.words.as_deref() {
        let _ = write!(text, "{choices:?}");
    }
    text
}

/// A plan in brief.
pub fn plan(words: &Vocabulary, plan: &Plan) -> String {
    let mut text = String::new();
    let shifts: Vec<_> = plan.sources.iter().map(|source| source.shift).collect();
    let _ = writeln!(text, "shifts {shifts:?}; documents {:?}", plan.documents);
    for (kind, looked) in &plan.inventory {
        let _ = write!(text, "{}: {looked:?}; ", words.kind(*kind).name);
    }
    text.push('\n');
    for (index, thing) in plan.things.iter().enumerate() {
        let (whole, source) = (thing.part_of, thing.source);
        let _ = write!(
            text,
            "{index} {} (source {source:?}, part of {whole:?}):",
            thing.id
        );
        for (id, fact) in &thing.facts {
            let _ = write!(text, " {} {};", words.fact(*id).name, possible(fact));
        }
        for (id, drawn) in &thing.outlines {
            let _ = write!(text, "\n    {} {}", words.outline(*id).name, figure(drawn));
        }
        text.push('\n');
    }
    for tape in &plan.measured {
        let end = |(thing, outline): (usize, _)| format!("{thing}.{}", words.outline(outline).name);
        let _ = writeln!(
            text,
            "taped {} to {}: {:?}",
            end(tape.from),
            end(tape.to),
            tape.range
        );
    }
    shortened(&text)
}

fn shortened(text: &str) -> String {
    text.replace("Point { x: ", "(")
        .replace(", y: ", " ")
        .replace(" }", ")")
}
