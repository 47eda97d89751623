//! Random distances, areas and lengths.

use std::sync::Arc;

use rules_core::quantity::Dimension;
use rules_core::ruleset::types::Sort;
use rules_core::ruleset::{
    Area, Distance, Measured, Operand, Over, Part, Places, ShareOf, TermUse, Value, Which, Zone,
};
use rules_core::vocabulary::{FactId, KindId, OutlineId, Shape};

use super::leaf::stated;
use super::rules::Maker;
use crate::soundness::walk;
use crate::soundness::words::METRE;

impl Maker<'_> {
    fn outline(&mut self, kind: KindId) -> OutlineId {
        *self.random.pick(self.words.outlines(kind))
    }

    pub(super) fn bound_operand(&mut self, kind: KindId) -> Operand {
        let outline = self.outline(kind);
        operand(vec![part(Which::Bound(kind), outline)])
    }

    /// The bound thing, if it is among some chosen ones.
    fn chosen_operand(&mut self, scope: &[KindId], kind: KindId) -> Operand {
        let selection = self.selection(scope, kind);
        let outline = self.outline(kind);
        operand(vec![part(Which::Meant(selection), outline)])
    }

    fn set_operand(&mut self, scope: &[KindId]) -> Operand {
        let mut parts = Vec::new();
        for _ in 0..self.random.weighted(&[0, 6, 1]) {
            // All pools, besides the one the rule is about; or that one, if it is among some chosen ones.
            let all_pools = scope.contains(&self.words.pool) && self.random.chance(15);
            let kind = match all_pools {
                true => self.words.pool,
                false => self.other_kind(scope),
            };
            let selection = self.selection(scope, kind);
            let outline = self.outline(kind);
            let which = match all_pools && self.random.chance(50) {
                true => Which::Meant(selection),
                false => Which::All(selection),
            };
            parts.push(part(which, outline));
        }
        operand(parts)
    }

    fn distance(&mut self, scope: &[KindId]) -> Distance {
        let subject = *self.random.pick(scope);
        let chosen = subject == self.words.pool && self.random.chance(15);
        let from = match chosen {
            true => self.chosen_operand(scope, subject),
            false => self.bound_operand(subject),
        };
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

    /// Outlines of areas.
    fn areas(&self, kind: KindId) -> Vec<OutlineId> {
        let outlines = self.words.outlines(kind).iter().copied();
        outlines
            .filter(|outline| self.words.vocabulary.outline(*outline).shape == Shape::Area)
            .collect()
    }

    /// An area outline of a bound thing, or of the lot.
    fn bound_area(&mut self, scope: &[KindId]) -> Part {
        let fits: Vec<KindId> = scope
            .iter()
            .copied()
            .filter(|kind| !self.areas(*kind).is_empty())
            .collect();
        let kind = match fits.is_empty() {
            true => self.words.lot,
            false => *self.random.pick(&fits),
        };
        let areas = self.areas(kind);
        let outline = match self.solid {
            false => *self.random.pick(&areas),
            // The first outline of a kind is always there.
            true => areas[0],
        };
        part(Which::Bound(kind), outline)
    }

    /// The area of one outline, or of several together; sometimes only the part in a zone, sometimes as a share.
    pub(super) fn area(&mut self, scope: &[KindId]) -> (Value, Dimension) {
        let mut parts = vec![self.bound_area(scope)];
        if self.solid {
            return (area(operand(parts), None, None), Dimension::Area);
        }
        for _ in 0..self.random.weighted(&[4, 4, 2]) {
            let kind = self.other_kind(scope);
            if let Some(outline) = self.areas(kind).first() {
                let selection = self.selection(scope, kind);
                parts.push(part(Which::All(selection), *outline));
            }
        }
        let within = self.random.chance(40).then(|| {
            let inside = Zone::Inside(operand(vec![self.bound_area(scope)]));
            Box::new(match self.random.chance(50) {
                true => inside,
                false => Zone::Not(Box::new(inside)),
            })
        });
        let share_of = self.random.chance(30).then(|| {
            let lot = self.words.lot;
            ShareOf::Outlines(operand(vec![part(Which::Bound(lot), self.words.boundary)]))
        });
        let dimension = match share_of {
            Some(_) => Dimension::Number,
            None => Dimension::Area,
        };
        (area(operand(parts), within, share_of), dimension)
    }

    /// A zone that things may stand in.
    pub(super) fn zone(&mut self, scope: &[KindId]) -> Zone {
        match self.random.below(3) {
            0 => Zone::Inside(operand(vec![self.bound_area(scope)])),
            1 => {
                let inside = Zone::Inside(operand(vec![self.bound_area(scope)]));
                Zone::Not(Box::new(inside))
            }
            _ => {
                let of = match scope.is_empty() {
                    true => self.bound_operand(self.words.lot),
                    false => {
                        let kind = *self.random.pick(scope);
                        operand(vec![part(Which::Bound(kind), self.words.outlines(kind)[0])])
                    }
                };
                let by = self.random.between(0, 12) * METRE + self.random.between(-2, 2);
                let by = stated(i128::from(by.max(0)), Dimension::Length);
                Zone::Around { of, by }
            }
        }
    }

    /// Some length, sometimes through a term.
    pub(super) fn length(&mut self, scope: &[KindId], depth: usize) -> Value {
        if !self.random.chance(12) {
            return self.bare_length(scope, depth);
        }
        let own = self.term(scope);
        let value = self.bare_length(&own, depth);
        Value::Named {
            term: TermUse {
                name: "term".to_owned(),
                scope: self.depends(&own, |speaks| walk::value(&value, speaks)),
            },
            sort: Sort::of(&value, &self.words.vocabulary),
            value: Arc::new(value),
        }
    }

    fn bare_length(&mut self, scope: &[KindId], depth: usize) -> Value {
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

    /// The distance from a thing's first outline, which is always there, to the lot's.
    pub(super) fn to_lot(&self, kind: KindId) -> Value {
        let first = |kind: KindId| {
            let outline = self.words.outlines(kind)[0];
            operand(vec![part(Which::Bound(kind), outline)])
        };
        Value::Distance(Box::new(Distance {
            from: first(kind),
            to: first(self.words.lot),
            how: Measured::Level,
            places: Places::Nearest,
        }))
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

fn area(of: Operand, within: Option<Box<Zone>>, share_of: Option<ShareOf>) -> Value {
    Value::Area(Box::new(Area {
        of,
        within,
        share_of,
    }))
}

fn operand(parts: Vec<Part>) -> Operand {
    Operand {
        term: None,
        parts: parts.into(),
    }
}

fn part(which: Which, outline: OutlineId) -> Part {
    Part {
        which,
        outline,
        counted: None,
        if_drawn: false,
    }
}
