//! A small vocabulary for these tests, with every way in which a kind, an outline or a fact can behave, and little
//! else.

use rules_core::quantity::Dimension;
use rules_core::vocabulary::{
    Answer, Fact, FactId, KindId, Number, Outline, OutlineId, Phrase, Role, Shape, Vocabulary,
};

/// One metre in nanometres.
pub const METRE: i64 = 1_000_000_000;

/// The vocabulary, and its ids by purpose.
#[derive(Debug, Clone)]
pub struct Words {
    /// The table itself.
    pub vocabulary: Vocabulary,
    /// The lot: exactly one.
    pub lot: KindId,
    /// Its boundary.
    pub boundary: OutlineId,
    /// An alarm: one or none.
    pub alarm: KindId,
    /// The pool: every plan shows all of them.
    pub pool: KindId,
    /// Kinds with any number of things, the pool among them.
    pub many: Vec<KindId>,
}

fn amount(dimension: Dimension, least: i128, most: i128) -> Answer {
    Answer::Amount {
        dimension,
        least: Some(least),
        most: Some(most),
    }
}

fn words(of: &[&str]) -> Answer {
    Answer::Word {
        words: of.iter().map(|word| (*word).to_owned()).collect(),
        open: false,
    }
}

impl Words {
    /// Makes the table.
    pub fn new() -> Self {
        let mut table = Vocabulary::default();
        let metre = i128::from(METRE);
        let lot = table.add_kind("lot", "the lot", Number::One, "");
        table.set_role(lot, Role::Lot);
        let boundary = outline(&mut table, lot, "boundary", Shape::Area);
        fact(
            &mut table,
            lot,
            "width",
            amount(Dimension::Length, 0, 100 * metre),
        );
        fact(&mut table, lot, "zone", words(&["low", "middle", "high"]));
        fact(
            &mut table,
            lot,
            "applied",
            amount(Dimension::Date, 18_000, 24_000),
        );

        let alarm = table.add_kind("alarm", "an alarm", Number::AtMostOne, "");
        fact(
            &mut table,
            alarm,
            "loudness",
            amount(Dimension::Sound, 0, 200_000_000),
        );
        fact(&mut table, alarm, "powered", Answer::YesNo);

        let pool = table.add_kind("pool", "a pool", Number::Many, "");
        table.set_role(pool, Role::Pool);
        outline(&mut table, pool, "water", Shape::Area);
        // The checker does not know this name, so this outline need not lie around the water.
        may_lack(&mut table, pool, "ledge", Shape::Area);
        changing(
            &mut table,
            pool,
            "depth",
            amount(Dimension::Length, 0, 10 * metre),
        );
        fact(&mut table, pool, "heated", Answer::YesNo);

        let house = table.add_kind("house", "a house", Number::Many, "");
        outline(&mut table, house, "wall", Shape::Area);
        may_lack(&mut table, house, "terrace", Shape::Area);
        changing(
            &mut table,
            house,
            "height",
            amount(Dimension::Length, 0, 30 * metre),
        );
        fact(
            &mut table,
            house,
            "use",
            words(&["dwelling", "shed", "garage"]),
        );

        let well = table.add_kind("well", "a well", Number::Many, "");
        outline(&mut table, well, "casing", Shape::Point);
        fact(&mut table, well, "drinking", Answer::YesNo);
        fact(
            &mut table,
            well,
            "flow",
            amount(Dimension::Number, 0, 50_000_000_000),
        );

        let gate = table.add_kind("gate", "a gate", Number::Many, "");
        table.set_role(gate, Role::Gate);
        outline(&mut table, gate, "line", Shape::Line);
        // The only fact that may be `none`.
        fact(
            &mut table,
            gate,
            "latch",
            amount(Dimension::Length, 0, 3 * metre),
        );
        fact(&mut table, gate, "swing", words(&["in", "out"]));
        // Two facts that change along one thing.
        for name in ["top", "gap"] {
            changing(
                &mut table,
                gate,
                name,
                amount(Dimension::Length, 0, 4 * metre),
            );
        }
        Self {
            vocabulary: table,
            lot,
            boundary,
            alarm,
            pool,
            many: vec![pool, house, well, gate],
        }
    }

    /// The place of a kind among those that may be part of each other: only of an earlier one, or of the first of their
    /// own. What is part of a pool is judged with that pool alone, which is not tried here.
    pub fn rank(&self, kind: KindId) -> Option<usize> {
        let mut kinds = self.many.iter().filter(|kind| **kind != self.pool);
        kinds.position(|own| *own == kind)
    }

    /// Whether a plan can leave out things of this kind, or not say whether there are any.
    pub fn may_be_left_out(&self, kind: KindId) -> bool {
        kind != self.pool && self.vocabulary.kind(kind).number != Number::One
    }

    /// All kinds.
    pub fn kinds(&self) -> Vec<KindId> {
        self.vocabulary.kinds().map(|(id, _)| id).collect()
    }

    /// The facts of a kind.
    pub fn facts(&self, kind: KindId) -> &[FactId] {
        &self.vocabulary.kind(kind).facts
    }

    /// The outlines of a kind.
    pub fn outlines(&self, kind: KindId) -> &[OutlineId] {
        &self.vocabulary.kind(kind).outlines
    }

    /// Whether a fact may change along its thing.
    pub fn changes(&self, fact: FactId) -> bool {
        self.vocabulary.fact(fact).varies
    }

    /// The dimension of a fact, if it is an amount.
    pub fn dimension(&self, fact: FactId) -> Option<Dimension> {
        match self.vocabulary.fact(fact).answer {
            Answer::Amount { dimension, .. } => Some(dimension),
            _ => None,
        }
    }

    /// The words that a fact can be; empty if it is an amount.
    pub fn words(&self, fact: FactId) -> Vec<String> {
        match &self.vocabulary.fact(fact).answer {
            Answer::Amount { .. } => Vec::new(),
            Answer::Word { words, .. } => words.clone(),
            Answer::YesNo => vec!["no".to_owned(), "yes".to_owned()],
        }
    }

    /// The least and the greatest that an amount can be.
    pub fn limits(&self, fact: FactId) -> (i128, i128) {
        match self.vocabulary.fact(fact).answer {
            Answer::Amount { least, most, .. } => (least.unwrap_or(0), most.unwrap_or(0)),
            _ => (0, 0),
        }
    }
}

impl Default for Words {
    fn default() -> Self {
        Self::new()
    }
}

fn outline(table: &mut Vocabulary, kind: KindId, name: &str, shape: Shape) -> OutlineId {
    table.add_outline(Outline::new(kind, name, &format!("the {name}"), shape))
}

/// An outline that a thing may be without.
fn may_lack(table: &mut Vocabulary, kind: KindId, name: &str, shape: Shape) -> OutlineId {
    table.add_outline(Outline {
        none: true,
        ..Outline::new(kind, name, &format!("the {name}"), shape)
    })
}

fn fact(table: &mut Vocabulary, kind: KindId, name: &str, answer: Answer) {
    add_fact(table, kind, name, answer, false);
}

/// A fact that may vary along the thing.
fn changing(table: &mut Vocabulary, kind: KindId, name: &str, answer: Answer) {
    add_fact(table, kind, name, answer, true);
}

fn add_fact(table: &mut Vocabulary, kind: KindId, name: &str, answer: Answer, varies: bool) {
    table.add_fact(Fact {
        kind,
        name: name.to_owned(),
        said: name.to_owned(),
        phrase: Phrase::Noun,
        answer,
        varies,
        none: name == "latch",
        ask: String::new(),
        how: String::new(),
        matter: None,
        on_the_lot: None,
    });
}
