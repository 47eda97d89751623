//! Random distances, areas and lengths.

use rules_core::quantity::Dimension;
use rules_core::ruleset::{Area, Distance, Measured, Operand, Over, Part, Places, Value, Which};
use rules_core::vocabulary::{FactId, KindId, OutlineId, Shape};

use super::leaf::stated;
use super::rules::Maker;

impl Maker<'_> {
    fn outline(&mut self, kind: KindId) -> OutlineId {
        *self.random.pick(self.words.outlines(kind))
    }

    pub(super) fn bound_operand(&mut self, kind: KindId) -> Operand {
        let outline = self.outline(kind);
        operand(vec![part(Which::Bound(kind), outline)])
    }

    fn set_operand(&mut self, scope: &[KindId]) -> Operand {
        let mut parts = Vec::new();
        for _ in 0..self.random.weighted(&[0, 6, 1]) {
            let kind = self.other_kind(scope);
            let selection = self.selection(scope, kind);
            let outline = self.outline(kind);
            parts.push(part(Which::All(selection), outline));
        }
        operand(parts)
    }

    fn distance(&mut self, scope: &[KindId]) -> Distance {
        let subject = *self.random.pick(scope);
        let from = self.bound_operand(subject);
        let to_lot = self.random.chance(20);
        let to = match (to_lot, scope.len()) {
            (true, _) => self.bound_operand(self.words.lot),
            (_, 2..) if self.random.chance(50) => {
                let other = *self.random.pick(scope);
                self.bound_operand(other)
            }
            _ => self.set_operand(scope),
        };
        let places = match self.random.chance(20) {
            true => Places::Farthest,
            false => Places::Nearest,
        };
        Distance {
            from,
            to,
            how: Measured::Level,
            places,
        }
    }

    pub(super) fn distance_value(&mut self, scope: &[KindId]) -> Value {
        match scope.is_empty() {
            false => Value::Distance(Box::new(self.distance(scope))),
            true => {
                let from = self.set_operand(scope);
                let to = match self.random.chance(30) {
                    true => self.bound_operand(self.words.lot),
                    false => self.set_operand(scope),
                };
                Value::Distance(Box::new(Distance {
                    from,
                    to,
                    how: Measured::Level,
                    places: Places::Nearest,
                }))
            }
        }
    }

    pub(super) fn area(&mut self, scope: &[KindId]) -> Value {
        let kinds: Vec<KindId> = scope
            .iter()
            .copied()
            .filter(|kind| {
                self.words
                    .outlines(*kind)
                    .iter()
                    .all(|o| self.words.vocabulary.outline(*o).shape == Shape::Area)
            })
            .collect();
        let kind = match kinds.is_empty() {
            true => self.words.lot,
            false => *self.random.pick(&kinds),
        };
        let of = self.bound_operand(kind);
        Value::Area(Box::new(Area {
            of,
            within: None,
            share_of: None,
        }))
    }

    /// A length of one sort or another.
    pub(super) fn length(&mut self, scope: &[KindId], depth: usize) -> Value {
        let base = match self.random.chance(50) {
            true => self.distance_value(scope),
            false => Value::Fact(self.fact_of(scope, |maker, fact| {
                maker.certain(fact) && maker.words.dimension(fact) == Some(Dimension::Length)
            })),
        };
        if depth == 0 || self.random.chance(40) {
            return base;
        }
        let other = match self.random.chance(50) {
            true => self.near(scope, &base, Dimension::Length),
            false => self.length(scope, depth - 1),
        };
        let both = vec![base, other];
        match self.random.below(6) {
            0 => Value::Largest(both),
            1 => Value::Smallest(both),
            2 => Value::Sum(both),
            3 => Value::Difference(both),
            4 => self.over(scope),
            _ => {
                let factor = self.random.wide(1, 12) * 250_000_000;
                let base = both
                    .into_iter()
                    .next()
                    .unwrap_or(stated(0, Dimension::Length));
                Value::Product(vec![base, stated(factor, Dimension::Number)])
            }
        }
    }

    fn over(&mut self, scope: &[KindId]) -> Value {
        let kind = self.other_kind(scope);
        let fact = self.length_fact(kind);
        let of = self.selection(scope, kind);
        let how = *self
            .random
            .pick(&[Over::Largest, Over::Smallest, Over::Sum]);
        let mut inner = scope.to_vec();
        inner.push(kind);
        let take = match (fact, self.random.chance(60)) {
            (Some(fact), true) => Value::Fact(fact),
            _ => self.bound_to_lot(kind),
        };
        Value::Over {
            how,
            of,
            take: Box::new(take),
        }
    }

    fn bound_to_lot(&mut self, kind: KindId) -> Value {
        let (from, to) = (self.bound_operand(kind), self.bound_operand(self.words.lot));
        Value::Distance(Box::new(Distance {
            from,
            to,
            how: Measured::Level,
            places: Places::Nearest,
        }))
    }

    fn length_fact(&self, kind: KindId) -> Option<FactId> {
        self.words.facts(kind).iter().copied().find(|fact| {
            self.certain(*fact) && self.words.dimension(*fact) == Some(Dimension::Length)
        })
    }
}

fn operand(parts: Vec<Part>) -> Operand {
    Operand { term: None, parts }
}

fn part(which: Which, outline: OutlineId) -> Part {
    Part {
        which,
        outline,
        counted: None,
    }
}
