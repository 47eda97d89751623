//! What every rule set holds, whatever its files say: the pool lies on the lot.

use std::sync::Arc;

use super::{
    Area, Bound, Operand, Part, Provenance, Requirement, Rule, Stated, Strength, Test, Value,
    Which, Zone,
};
use crate::quantity::{Dimension, Interval, Unit};
use crate::text::Span;
use crate::vocabulary::{KindId, Vocabulary};

/// The name of the rule, which no file may use.
pub(crate) const INSIDE: &str = "pool-inside-the-lot";

/// The outlines of a pool that must lie on the lot, so far as they are drawn; of the first it is asked where it is.
const OUTLINES: [&str; 4] = ["water", "inside-face", "coping", "shell"];

/// What stands in reports for the layer that they come from.
pub(crate) const LAYER: &str = "built-in";

/// The rules, as of a layer that no file is.
pub(super) fn rules(vocabulary: &Vocabulary, layer: usize) -> Vec<Rule> {
    inside_the_lot(vocabulary, layer).into_iter().collect()
}

fn inside_the_lot(vocabulary: &Vocabulary, layer: usize) -> Option<Rule> {
    let pool = vocabulary.kind_named("pool")?;
    let outlines = OUTLINES.iter().enumerate();
    let parts = outlines.filter_map(|(at, name)| part(vocabulary, pool, name, at > 0));
    let lot = vocabulary.kind_named("lot")?;
    let boundary = part(vocabulary, lot, "boundary", false)?;
    let outside = Zone::Not(Box::new(Zone::Inside(of(vec![boundary]))));
    let require = Requirement::Test(Arc::new(Test {
        value: Value::Area(Box::new(Area {
            of: of(parts.collect()),
            within: Some(Box::new(outside)),
            share_of: None,
        })),
        bounds: vec![Bound::AtMost(none())],
        holds: None,
        span: Span::default(),
    }));
    Some(Rule {
        id: INSIDE.to_owned(),
        title: "The pool lies on the lot".to_owned(),
        clause: "in every report".to_owned(),
        strength: Strength::Must,
        built_in: true,
        when: None,
        unless: None,
        each: None,
        about_pool: true,
        require,
        reliefs: Vec::new(),
        remedy: Some("Move the pool onto the lot.".to_owned()),
        documents: Vec::new(),
        provenance: Provenance::Confirmed,
        cited: Vec::new(),
        again: None,
        note: None,
        in_force: None,
        layer,
        span: Span::default(),
    })
}

fn part(vocabulary: &Vocabulary, kind: KindId, outline: &str, if_drawn: bool) -> Option<Part> {
    Some(Part {
        which: Which::Bound(kind),
        outline: vocabulary.outline_named(kind, outline)?,
        counted: None,
        if_drawn,
    })
}

fn of(parts: Vec<Part>) -> Operand {
    Operand {
        term: None,
        parts: parts.into(),
    }
}

fn none() -> Value {
    Value::Stated(Stated {
        range: Interval::exact(0),
        dimension: Dimension::Area,
        unit: Unit::SQUARE_METRE,
    })
}
