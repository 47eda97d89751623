//! What a rule asks of a site: as text, and as a judgement in a world.

use rules_core::check::Level;
use rules_core::quantity::{Dimension, Interval};
use rules_core::ruleset::{Bound, Requirement, Rule, RuleSet, Value};

use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::site::{Fact, Site, Span};
use super::spans;
use crate::read;
use crate::soundness::evaluate::{Judgement, Undecided};
use crate::soundness::number::Real;
use crate::soundness::random::Random;
use crate::soundness::words::METRE;

/// The value of a measure in a world.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Got {
    /// A number.
    One(Real),
    /// It varies along a thing, between these.
    Along(Real, Real),
    /// The rule is judged for each piece of a thing; these are the least and the greatest value.
    Pieces(Real, Real),
    /// The rule is not judged for the thing.
    Not,
    /// A span of time.
    Time(Span),
}

/// Something that a rule can measure.
#[derive(Debug)]
pub struct Measure {
    /// It is measured for each of these.
    pub each: Option<&'static str>,
    /// Only of those that have a part in this zone.
    pub within: Option<&'static str>,
    /// As a rule says it.
    pub value: &'static str,
    /// Its dimension.
    pub dimension: Dimension,
    /// Its value in a world, for one of its things if it is measured for each.
    pub of: fn(&Site, usize) -> Result<Got, Undecided>,
    /// Whether a plan that states the world exactly decides it.
    pub exact: bool,
}

impl Measure {
    /// The things it is measured for, one by one; the pool, if it is measured once.
    fn things(&self, world: &Site) -> Vec<usize> {
        let meant = |at: &usize| self.each.is_none_or(|kind| world.things[*at].kind == kind);
        let end = if self.each.is_some() {
            world.things.len()
        } else {
            1
        };
        (0..end).filter(meant).collect()
    }
}

/// A bound, as a rule says it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Keep {
    AtLeast,
    AtMost,
    MoreThan,
    LessThan,
    Is,
}

impl Keep {
    fn word(self) -> &'static str {
        match self {
            Keep::AtLeast => "at-least",
            Keep::AtMost => "at-most",
            Keep::MoreThan => "more-than",
            Keep::LessThan => "less-than",
            Keep::Is => "is",
        }
    }

    fn kept(self, order: Ordering) -> bool {
        match self {
            Keep::AtLeast => order.is_ge(),
            Keep::AtMost => order.is_le(),
            Keep::MoreThan => order.is_gt(),
            Keep::LessThan => order.is_lt(),
            Keep::Is => order.is_eq(),
        }
    }
}

/// How a rule uses its test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    Required,
    Forbidden,
    /// It is the rule's condition; the rule then requires a depth of the pool.
    Condition,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Limit {
    Amount(i128),
    Time(Span),
}

/// A rule.
#[derive(Debug, Clone, Copy)]
pub struct Asked {
    /// What it measures.
    pub measure: &'static Measure,
    form: Form,
    keep: Keep,
    limit: Limit,
}

/// The depth required if a condition holds.
const DEPTH: i64 = METRE;

/// Rule sets already read, by their texts.
#[derive(Debug, Default)]
pub struct Library(BTreeMap<String, RuleSet>);

impl Library {
    /// The rule set of two rules.
    pub fn rules(&mut self, asked: [Asked; 2]) -> RuleSet {
        let second = self.read(asked[1], 1).rules.clone();
        let mut rules = self.read(asked[0], 0).clone();
        rules.rules.extend(second);
        for (rule, asked) in rules.rules.iter_mut().zip(asked) {
            asked.put_limit(rule);
        }
        rules
    }

    fn read(&mut self, asked: Asked, number: usize) -> &RuleSet {
        let text = format!(
            "ruleset: eldermere\ntitle: Eldermere\nedition: \"1\"\nauthority: Eldermere building office\nrules:\n{}",
            asked.text(number)
        );
        let known = self.0.entry(text.clone());
        known.or_insert_with(|| read::rules(&text))
    }
}

impl Asked {
    /// A rule on one of some measures, with a limit near its value in a world.
    pub fn near(random: &mut Random, measures: &'static [Measure], world: &Site) -> Asked {
        let measure = some_of(random, measures, world);
        let bounds = [Keep::AtLeast, Keep::AtMost, Keep::MoreThan, Keep::LessThan];
        let mut keep = *random.pick(&bounds);
        let things = measure.things(world);
        let got = (measure.of)(world, *random.pick(&things));
        let limit = match got {
            Ok(Got::Time(span)) => {
                if random.chance(30) {
                    keep = Keep::Is;
                }
                Limit::Time(spans::near(random, span))
            }
            Ok(Got::One(is)) => Limit::Amount(is.floor() + beside(random, measure.dimension)),
            Ok(Got::Along(low, high) | Got::Pieces(low, high)) => {
                let is = random.pick(&[low, high]).floor();
                Limit::Amount(is + beside(random, measure.dimension))
            }
            Ok(Got::Not) | Err(_) => Limit::Amount(random.wide(0, 10) * i128::from(METRE)),
        };
        let form = *random.pick(&[
            Form::Required,
            Form::Required,
            Form::Required,
            Form::Forbidden,
            Form::Condition,
        ]);
        Asked {
            measure,
            form,
            keep,
            limit,
        }
    }

    /// The same with another limit; `None` if the limit is not a plain amount.
    pub fn at(self, amount: i128) -> Option<Asked> {
        matches!(self.limit, Limit::Amount(_)).then_some(Asked {
            limit: Limit::Amount(amount),
            ..self
        })
    }

    /// As written in a rule file; a named amount stands for any of its dimension.
    fn text(&self, number: usize) -> String {
        let unit = match self.measure.dimension {
            Dimension::Area => "1 m2",
            Dimension::Number => "1",
            _ => "1 m",
        };
        let limit = match self.limit {
            Limit::Amount(_) => unit.to_owned(),
            Limit::Time(span) => span.text(),
        };
        let test = format!("{{{}, {}: {limit}}}", self.measure.value, self.keep.word());
        let within = self
            .measure
            .within
            .map_or(String::new(), |zone| format!(", in: {zone}"));
        let each = self.measure.each.map_or(String::new(), |kind| {
            format!("    each: {{kind: {kind}{within}}}\n")
        });
        let asks = match self.form {
            Form::Required => format!("    require: {test}\n"),
            Form::Forbidden => format!("    require: {{not: {test}}}\n"),
            Form::Condition => {
                let each = self.measure.each.map(|kind| {
                    format!("    each: {{kind: {kind}{within}, where: {test}}}\n    require: {{fact: pool.depth, at-least: 1 m}}\n")
                });
                return format!(
                    "  - id: rule-{number}\n    title: Rule\n    clause: s. 1\n{}",
                    each.unwrap_or_else(|| format!(
                        "    when: {test}\n    require: {{fact: pool.depth, at-least: 1 m}}\n"
                    ))
                );
            }
        };
        format!("  - id: rule-{number}\n    title: Rule\n    clause: s. 1\n{each}{asks}")
    }

    fn put_limit(&self, rule: &mut Rule) {
        let Limit::Amount(amount) = self.limit else {
            return;
        };
        let filter = rule.each.as_mut().and_then(|each| each.filter.as_mut());
        let test = match filter.map(Arc::make_mut).or(rule.when.as_mut()) {
            Some(condition) => condition,
            None => &mut rule.require,
        };
        put_limit(test, amount);
    }

    /// In words, for a failure.
    pub fn said(&self) -> String {
        format!(
            "{:?} {:?} {:?}\n{}",
            self.form,
            self.keep,
            self.limit,
            self.text(0)
        )
    }

    /// The judgement in a world.
    ///
    /// # Errors
    /// The world cannot be judged.
    pub fn judge(&self, world: &Site) -> Result<Judgement, Undecided> {
        let mut worst = Judgement::NotApplicable;
        for thing in self.measure.things(world) {
            worst = worst.min(self.judge_one(world, thing)?);
        }
        Ok(worst)
    }

    fn judge_one(&self, world: &Site, thing: usize) -> Result<Judgement, Undecided> {
        let got = (self.measure.of)(world, thing)?;
        if got == Got::Not {
            return Ok(Judgement::NotApplicable);
        }
        let kept = self.kept(got, world.begins)?;
        let level = |holds| {
            Judgement::Applies(match holds {
                true => Level::Holds,
                false => Level::Fails,
            })
        };
        Ok(match (self.form, kept) {
            (Form::Required, kept) => level(kept),
            (Form::Forbidden, kept) => level(!kept),
            (Form::Condition, false) => Judgement::NotApplicable,
            (Form::Condition, true) => match world.pool().fact("depth") {
                Some(Fact::Length(is, _)) => level(*is >= DEPTH),
                _ => return Err(Undecided::NotKnown),
            },
        })
    }

    fn kept(&self, got: Got, begins: usize) -> Result<bool, Undecided> {
        let one = |real: Real, limit: i128| {
            let order = real.compared(Real::whole(limit)).ok_or(Undecided::Tie)?;
            Ok(self.keep.kept(order))
        };
        match (got, self.limit) {
            (Got::One(real), Limit::Amount(limit)) => one(real, limit),
            (Got::Along(low, high), Limit::Amount(limit)) => {
                match (one(low, limit)?, one(high, limit)?, self.form) {
                    (low, high, Form::Required) => Ok(low && high),
                    (low, high, _) if low == high => Ok(low),
                    _ => Err(Undecided::NotKnown),
                }
            }
            // The worst piece counts; a condition holds if any piece keeps it.
            (Got::Pieces(low, high), Limit::Amount(limit)) => {
                let (low, high) = (one(low, limit)?, one(high, limit)?);
                Ok(match self.form {
                    Form::Required => low && high,
                    Form::Forbidden | Form::Condition => low || high,
                })
            }
            (Got::Time(span), Limit::Time(limit)) => {
                Ok(self.keep.kept(spans::compared(span, limit, begins)))
            }
            _ => Err(Undecided::NotKnown),
        }
    }

    /// Whether a world is so close to the limit that the checker, which rounds to whole tiny units, may leave it open.
    pub fn is_close(&self, world: &Site) -> bool {
        let slack = match self.measure.dimension {
            Dimension::Area => 1_000_000_000_000,
            _ => 16,
        };
        let things = self.measure.things(world).into_iter();
        things
            .map(|thing| (self.measure.of)(world, thing))
            .any(|got| match (got, self.limit) {
                (Ok(Got::One(is)), Limit::Amount(limit)) => is.near(Real::whole(limit), slack),
                (Ok(Got::Pieces(low, high)), Limit::Amount(limit)) => {
                    low.near(Real::whole(limit), slack) || high.near(Real::whole(limit), slack)
                }
                (Ok(Got::Not), _) => false,
                (Ok(Got::Time(span)), Limit::Time(limit)) => span.months != limit.months,
                _ => true,
            })
    }
}

/// One of some measures, usually one that can be worked out in the world.
fn some_of(random: &mut Random, measures: &'static [Measure], world: &Site) -> &'static Measure {
    let known = |measure: &Measure| {
        let things = measure.things(world);
        let mut all = things.iter().map(|thing| (measure.of)(world, *thing));
        all.all(|got| got.is_ok())
    };
    let mut measure = random.pick(measures);
    for _ in 0..4 {
        if known(measure) {
            break;
        }
        measure = random.pick(measures);
    }
    measure
}

/// How far from the true value to put a limit: often not at all.
fn beside(random: &mut Random, dimension: Dimension) -> i128 {
    let unit: i128 = match dimension {
        Dimension::Area => i128::from(METRE) * i128::from(METRE),
        Dimension::Number => 20_000_000,
        _ => i128::from(METRE),
    };
    let by = match random.below(6) {
        0 => 0,
        1 => 1,
        2 => unit / 100,
        3 => unit / 4,
        4 => unit,
        _ => 4 * unit,
    };
    random.wide(-by, by)
}

fn put_limit(requirement: &mut Requirement, amount: i128) {
    match requirement {
        Requirement::Not(inner) => put_limit(inner, amount),
        Requirement::Test(test) => {
            if let Some(
                Bound::AtLeast(Value::Stated(limit))
                | Bound::AtMost(Value::Stated(limit))
                | Bound::MoreThan(Value::Stated(limit))
                | Bound::LessThan(Value::Stated(limit)),
            ) = Arc::make_mut(test).bounds.first_mut()
            {
                limit.range = Interval::exact(amount);
            }
        }
        _ => {}
    }
}
