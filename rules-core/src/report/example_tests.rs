//! A small plan, a small rule set, and what was found, made by hand for the tests of the report.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::check::{
    DocumentNeed, Finding, Findings, Margin, Missing, Need, Outcome, Part, PlaceTruth, Reading,
    Subject, Truth, Verdict, Witness,
};
use crate::plan::{DocumentState, Figure, Form, Plan, Point, Possible, Thing, Words};
use crate::quantity::{Dimension, Interval, Unit};
use crate::ruleset::{
    Bound, Caution, Choice, Distance, Document, Layer, Measured, Operand, Places, Provenance,
    Relief, Requirement, Rule, RuleSet, Stated, Strength, Test, Value, Which,
};
use crate::text::Span;
use crate::vocabulary::{FactId, KindId, OutlineId, Vocabulary};

pub const MM: i64 = 1_000_000;

/// Plan and rules of which a test then finds something.
pub struct Example {
    pub plan: Plan,
    pub rules: RuleSet,
}

pub fn kind(name: &str) -> KindId {
    Vocabulary::standard().kind_named(name).unwrap()
}

pub fn outline(kind_name: &str, name: &str) -> OutlineId {
    Vocabulary::standard()
        .outline_named(kind(kind_name), name)
        .unwrap()
}

pub fn fact(kind_name: &str, name: &str) -> FactId {
    Vocabulary::standard()
        .fact_named(kind(kind_name), name)
        .unwrap()
}

pub fn metres(millimetres: i64) -> Value {
    Value::Stated(Stated {
        range: Interval::exact(i128::from(millimetres * MM)),
        dimension: Dimension::Length,
        unit: Unit::METRE,
    })
}

fn thing(id: &str, kind_name: &str, outline_name: &str, form: Form, accuracy: i64) -> Thing {
    let figure = Figure::new(vec![form], 0, Some(accuracy));
    Thing {
        id: id.to_owned(),
        name: None,
        kind: kind(kind_name),
        part_of: None,
        stands_alone: false,
        source: None,
        outlines: BTreeMap::from([(outline(kind_name, outline_name), figure)]),
        lacks: BTreeSet::new(),
        facts: BTreeMap::new(),
        span: Span::new(5, 9),
    }
}

fn rear_line() -> Thing {
    let from = Point {
        x: 0,
        y: 20_000 * MM,
    };
    let to = Point {
        x: 15_000 * MM,
        y: 20_000 * MM,
    };
    let mut line = thing(
        "l3",
        "lot-line",
        "line",
        Form::Path(vec![from, to]),
        50 * MM,
    );
    let faces = Possible {
        words: Some(Arc::new(Words::OneOf(BTreeSet::from(["rear".to_owned()])))),
        ..Possible::default()
    };
    line.facts.insert(fact("lot-line", "faces"), faces);
    line
}

fn operand(term: Option<&str>, kind_name: &str, outline_name: &str) -> Operand {
    Operand {
        term: term.map(str::to_owned),
        parts: std::sync::Arc::new([crate::ruleset::Part {
            which: Which::Bound(kind(kind_name)),
            outline: outline(kind_name, outline_name),
            counted: None,
            if_drawn: false,
        }]),
    }
}

/// The distance from the water to the rear lines.
pub fn distance() -> Value {
    Value::Distance(Box::new(Distance {
        from: operand(Some("pool-edge"), "pool", "water"),
        to: operand(Some("rear-lines"), "lot-line", "line"),
        how: Measured::Level,
        places: Places::Nearest,
    }))
}

fn rule(id: &str, title: &str, value: Value, bound: Bound) -> Rule {
    Rule {
        id: id.to_owned(),
        title: title.to_owned(),
        clause: "Bylaw 12, s. 4(2)".to_owned(),
        strength: Strength::Must,
        built_in: false,
        when: None,
        unless: None,
        each: None,
        about_pool: false,
        require: Requirement::Test(std::sync::Arc::new(Test {
            value,
            bounds: vec![bound],
            holds: None,
            span: Span::default(),
        })),
        reliefs: vec![Relief {
            id: "consent".to_owned(),
            when: None,
            require: Requirement::Have(0),
            leave: false,
            span: Span::default(),
        }],
        remedy: Some("Move the pool away from the line.".to_owned()),
        documents: vec![0],
        provenance: Provenance::FromMemory,
        cited: Vec::new(),
        again: None,
        note: None,
        in_force: None,
        layer: 0,
        span: Span::new(10, 12),
    }
}

pub fn example() -> Example {
    let corner = |x: i64, y: i64| Point {
        x: x * MM,
        y: y * MM,
    };
    let ring = Form::Ring(vec![
        corner(4000, 10_000),
        corner(8000, 10_000),
        corner(8000, 17_000),
    ]);
    let latch = Form::Point(corner(1000, 2000));
    let plan = Plan {
        id: "home".to_owned(),
        title: "A pool behind the house".to_owned(),
        north: None,
        sources: Vec::new(),
        things: vec![
            rear_line(),
            thing("main-pool", "pool", "water", ring, 20 * MM),
            thing("garden-gate", "gate", "latch", latch, 10 * MM),
        ],
        inventory: BTreeMap::new(),
        measured: Vec::new(),
        documents: BTreeMap::new(),
        answered: BTreeMap::new(),
        origin: (1_000_000_000_000, -2_500_000_000),
        unit: None,
    };
    Example {
        plan,
        rules: rule_set(),
    }
}

fn rule_set() -> RuleSet {
    let latch_side = Value::Fact(fact("gate", "latch-side"));
    RuleSet {
        id: "eldermere".to_owned(),
        title: "Eldermere, private pools".to_owned(),
        edition: "2026-01".to_owned(),
        authority: "the Eldermere building office".to_owned(),
        notice: None,
        about: Default::default(),
        language: Default::default(),
        reach: Default::default(),
        sources: Vec::new(),
        working_days: Default::default(),
        in_force: None,
        earlier: None,
        layers: vec![Layer {
            id: "eldermere".to_owned(),
            title: "Eldermere, private pools".to_owned(),
            edition: "2026-01".to_owned(),
        }],
        vocabulary: Vocabulary::standard(),
        terms: Vec::new(),
        questions: Vec::new(),
        rules: vec![
            rule(
                "rear-line",
                "Pool to rear lot line",
                distance(),
                Bound::AtLeast(metres(3000)),
            ),
            rule(
                "latch-side",
                "Latch on the pool side",
                latch_side,
                pool_side(),
            ),
        ],
        built_in: Vec::new(),
        decisions: Vec::new(),
        documents: vec![consent_letter()],
        duties: Vec::new(),
        interpretations: Vec::new(),
        cautions: vec![rock()],
    }
}

fn consent_letter() -> Document {
    Document {
        id: "consent-letter".to_owned(),
        title: "Neighbour's written consent".to_owned(),
        from: Some("the neighbour".to_owned()),
        form: None,
        each: None,
        one_for_all: false,
        always: false,
        when: None,
        on: Vec::new(),
        discretion: true,
        cited: Vec::new(),
        span: Span::default(),
    }
}

fn rock() -> Caution {
    Caution {
        id: "rock".to_owned(),
        says: "Much of Eldermere is rock: ask before digging.".to_owned(),
        when: None,
        span: Span::default(),
    }
}

pub fn pool_side() -> Bound {
    Bound::Is(vec![Choice::Word("pool".to_owned())])
}

/// A distance from the water to the rear line, all in nanometres.
pub fn distance_reading(value: &Value, bound: &Bound, measured: Interval, drawn: i128) -> Reading {
    let limit = Interval::exact(3_000_000_000);
    let relation = bound.relation();
    let compared = relation.judge(measured, limit);
    let margin = relation.margin(measured, limit);
    Reading {
        test: std::sync::Arc::new(Test {
            value: value.clone(),
            bounds: vec![bound.clone()],
            holds: None,
            span: Span::default(),
        }),
        bound: 0,
        negated: false,
        measured: Some(measured),
        drawn: Some(Interval::exact(drawn)),
        along: None,
        words: None,
        may_be_none: false,
        limit: Some(limit),
        dimension: Dimension::Length,
        unit: Some(Unit::METRE),
        truth: Truth::of_comparison(compared.can_be_true, compared.can_be_false),
        margin: margin.map(|range| Margin {
            range,
            dimension: Dimension::Length,
        }),
        witness: Some(Witness {
            from: Point {
                x: 8000 * MM,
                y: 17_000 * MM,
            },
            to: Point {
                x: 8000 * MM,
                y: 20_000 * MM,
            },
            from_thing: 1,
            from_outline: outline("pool", "water"),
            to_thing: 0,
            to_outline: outline("lot-line", "line"),
        }),
        tolerance: Some(i64::try_from(measured.high - measured.low).unwrap() / 2),
    }
}

/// A part about the plan as a whole, decided by these readings.
pub fn part(readings: Vec<Reading>, as_drawn: Truth, missing: &[Missing]) -> Part {
    let truth = readings
        .first()
        .map_or(Truth::OPEN, |reading| reading.truth);
    Part {
        subject: Subject::Plan,
        pool: None,
        outcome: Outcome::of(truth, truth, as_drawn),
        truth,
        as_drawn,
        places: vec![PlaceTruth {
            at: Vec::new(),
            sure: true,
            applies: Truth::HOLDS,
            base: truth,
            reliefs: Vec::new(),
        }],
        deciding: 0,
        relief: None,
        margin: readings.first().and_then(|reading| reading.margin),
        readings,
        missing: missing.to_vec(),
    }
}

/// What was found under one rule.
pub fn finding(rule: usize, parts: Vec<Part>) -> Finding {
    let worst = parts.iter().map(|part| part.outcome).min();
    let missing: BTreeSet<Missing> = parts.iter().flat_map(|part| part.missing.clone()).collect();
    Finding {
        rule,
        outcome: worst.unwrap_or(Outcome::NotApplicable),
        truth: Truth::OPEN,
        as_drawn: Truth::OPEN,
        applies: Truth::HOLDS,
        parts,
        missing: missing.into_iter().collect(),
    }
}

/// All findings, with a verdict that a test does not look at.
pub fn findings(rules: Vec<Finding>) -> Findings<'static> {
    Findings {
        verdict: Verdict::NotDecided,
        rules,
        decisions: Vec::new(),
        documents: vec![DocumentNeed {
            document: 0,
            thing: None,
            need: Need::Perhaps,
            rules: vec![0],
            state: DocumentState::NotYet,
        }],
        cautions: vec![0],
        duties: Vec::new(),
    }
}
