//! The lot: its corners in order, and its sides between them.

use std::collections::{BTreeMap, BTreeSet};

use super::super::{Amount, Figure, Form, Possible, SourceIndex, Thing};
use super::context::{Context, Stated};
use super::corners::{Corner, after_corner};
use super::fact::words_of;
use crate::faults::Code;
use crate::grammar::plan;
use crate::quantity::{Dimension, Interval, Unit};
use crate::text::{MapReader, Node, Span};
use crate::vocabulary::{FactId, KindId};

/// A side of the lot, from one of its corners to the next.
struct Side<'a> {
    id: String,
    name: Option<String>,
    source: Option<SourceIndex>,
    /// How far off it is by its own word or its own source's; `None` where the lot's holds for it.
    accuracy: Stated,
    facts: BTreeMap<FactId, Possible>,
    span: Span,
    /// Written under `sides`.
    listed: Option<&'a Node>,
}

impl<'a> Context<'a> {
    /// The place of the lot's first corner, rounded to whole metres: the origin of the plan.
    pub fn find_origin(&mut self, lot: Option<&'a Node>) {
        const METRE: i128 = 1_000_000_000;
        let corners = lot.and_then(|lot| lot.get("corners")?.as_map());
        let first = corners.and_then(|corners| corners.first());
        let node = first.map(|first| first.value.get("at").unwrap_or(&first.value));
        // What is wrong with the corner is said when all corners are read.
        let (faults, told) = (self.faults.clone(), self.told_of_unit);
        let place = node.and_then(|node| self.place(node));
        (self.faults, self.told_of_unit) = (faults, told);
        if let Some((x, y)) = place {
            let whole = |at: i128| at.div_euclid(METRE) * METRE;
            self.origin = (whole(x), whole(y));
        }
    }

    /// The lot, and its sides in order.
    pub fn lot(&mut self, node: &'a Node, kind: KindId) -> Option<(Thing, Vec<Thing>)> {
        let vocabulary = self.vocabulary;
        let line = vocabulary.kind_named("lot-line")?;
        let mut map = MapReader::new(node, &vocabulary.kind(kind).said, &mut self.faults)?;
        let [corners, sides] = map.keys(&plan::LOT.keys, &mut self.faults);
        let (source, accuracy) = self.whereabouts(&mut map);
        let (mut written, lacks) = self.written_outlines(&mut map, kind);
        let facts = self.facts(&mut map, kind);
        map.finish(&mut self.faults);
        let boundary = vocabulary.outline_named(kind, "boundary")?;
        if let Some((_, span)) = written.remove(&boundary) {
            self.faults
                .add(
                    Code::WrongPlace,
                    span,
                    "The lot's boundary is drawn by its corners, not as an outline.",
                )
                .help("Write `corners: {a: [0, 0], b: [24, 0], …}`.");
        }
        let own = accuracy.unwrap_or(self.source_accuracy(source));
        let mut outlines = self.figures(kind, written, own);
        let corners = self.corners(corners?)?;
        let mut found = self.sides(&corners, sides.map(|sides| &sides.value), line);
        self.effective(&mut found, source, own);
        let ring = corners.iter().map(|corner| corner.at).collect();
        let accuracies = self.line_accuracies(&corners, &found, source);
        let worst = self.worst_seen(&found, &accuracies, source);
        outlines.insert(boundary, Figure::new(vec![Form::Ring(ring)], 0, worst));
        let things = self.side_things(line, &corners, found, accuracies);
        let lot = Thing {
            id: "lot".to_owned(),
            name: None,
            kind,
            part_of: None,
            stands_alone: false,
            source,
            outlines,
            lacks,
            facts,
            span: node.span,
        };
        Some((lot, things))
    }

    /// One side for each edge: as listed, or named by its corners.
    fn sides(
        &mut self,
        corners: &[Corner<'a>],
        listed: Option<&'a Node>,
        kind: KindId,
    ) -> Vec<Side<'a>> {
        let next = corners.iter().cycle().skip(1);
        let unlisted = corners.iter().zip(next).map(|(from, to)| Side {
            id: format!("{}-{}", from.name, to.name),
            name: None,
            source: None,
            accuracy: None,
            facts: BTreeMap::new(),
            span: from.span,
            listed: None,
        });
        let mut sides: Vec<_> = unlisted.collect();
        for node in self.listed_sides(listed) {
            if let Some((at, side)) = self.side(node, corners, kind) {
                self.place_side(&mut sides, at, side);
            }
        }
        sides
    }

    fn listed_sides(&mut self, listed: Option<&'a Node>) -> &'a [Node] {
        let Some(node) = listed else { return &[] };
        node.as_list().unwrap_or_else(|| {
            let message = "`sides` needs a list.";
            self.faults.add(Code::NotAList, node.span, message);
            &[]
        })
    }

    fn place_side(&mut self, sides: &mut [Side<'a>], at: usize, side: Side<'a>) {
        let Some(place) = sides.get_mut(at) else {
            return;
        };
        if place.listed.is_some() {
            let message = format!(
                "`{}` and `{}` are the same side of the lot.",
                place.id, side.id
            );
            self.faults.add(Code::SideTwice, side.span, message);
        }
        *place = side;
    }

    /// A listed side, and which edge it is.
    fn side(
        &mut self,
        node: &'a Node,
        corners: &[Corner<'a>],
        kind: KindId,
    ) -> Option<(usize, Side<'a>)> {
        let said = &self.vocabulary.kind(kind).said;
        let mut map = MapReader::new(node, said, &mut self.faults)?;
        let [id, name, from, to] = map.keys(&plan::SIDE.keys, &mut self.faults);
        let (source, stated) = self.whereabouts(&mut map);
        let facts = self.facts(&mut map, kind);
        map.finish(&mut self.faults);
        let id = id.and_then(|id| self.id("id", &id.value));
        let name = self.name(name);
        let (from, to) = (
            self.corner_named(from?, corners),
            self.corner_named(to?, corners),
        );
        let (from, to) = (from?, to?);
        let count = corners.len();
        let at = match (from, to) {
            _ if (from + 1) % count == to => from,
            _ if (to + 1) % count == from => to,
            _ => {
                self.faults
                    .add(
                        Code::NotNeighbours,
                        node.span,
                        "A side runs between two corners that follow each other, and these do not.",
                    )
                    .help(after_corner(corners, from));
                return None;
            }
        };
        let accuracy = stated.or_else(|| source.map(|_| self.source_accuracy(source)));
        let (id, span, listed) = (id?.to_owned(), node.span, Some(node));
        Some((
            at,
            Side {
                id,
                name,
                source,
                accuracy,
                facts,
                span,
                listed,
            },
        ))
    }

    /// Sides that say nothing of their own take what the lot says.
    fn effective(&self, sides: &mut [Side], source: Option<SourceIndex>, own: Option<i64>) {
        for side in sides {
            side.accuracy = Some(side.accuracy.unwrap_or(own));
            side.source = side.source.or(source);
        }
    }

    fn side_things(
        &self,
        kind: KindId,
        corners: &[Corner],
        sides: Vec<Side>,
        accuracies: Vec<Option<i64>>,
    ) -> Vec<Thing> {
        let next = corners.iter().cycle().skip(1);
        let ends = corners.iter().zip(next).zip(accuracies);
        let things = ends.zip(sides).map(|(((from, to), accuracy), side)| {
            let path = vec![from.at, to.at];
            self.side_thing(kind, side, Figure::new(vec![Form::Path(path)], 0, accuracy))
        });
        things.collect()
    }

    /// How far off each side may be relative to everything from its own source.
    fn line_accuracies(
        &self,
        corners: &[Corner],
        sides: &[Side],
        lot: Option<SourceIndex>,
    ) -> Vec<Option<i64>> {
        let each = (0..sides.len()).map(|at| self.line_accuracy(at, corners, sides, lot));
        each.collect()
    }

    /// How far off the boundary may be relative to everything from the lot's own source: as far as the worst of its sides. A
    /// side from another source is shifted with whatever else comes from there.
    fn worst_seen(
        &self,
        sides: &[Side],
        accuracies: &[Option<i64>],
        lot: Option<SourceIndex>,
    ) -> Option<i64> {
        let seen = sides
            .iter()
            .zip(accuracies)
            .map(|(side, accuracy)| self.seen_from(lot, side.source, (*accuracy)?));
        seen.collect::<Option<Vec<_>>>()?.into_iter().max()
    }

    /// As far as the worse of its two corners. Corners that are well known do not help a line that was only guessed.
    fn line_accuracy(
        &self,
        at: usize,
        corners: &[Corner],
        sides: &[Side],
        lot: Option<SourceIndex>,
    ) -> Option<i64> {
        let own = sides.get(at)?;
        own.accuracy.flatten()?;
        let ends = [at, (at + 1) % sides.len()].map(|corner| {
            let beside = [(corner + sides.len() - 1) % sides.len(), corner];
            let sides = beside.into_iter().filter_map(|side| sides.get(side));
            let stated = sides.map(|side| (side.accuracy, side.source));
            let stated = stated.chain([(corners.get(corner)?.accuracy, lot)]);
            // A corner takes the smallest that is stated for it.
            let seen = stated
                .filter_map(|(accuracy, of)| self.seen_from(own.source, of, accuracy.flatten()?));
            seen.min()
        });
        let [one, other] = ends;
        Some(one?.max(other?))
    }

    /// The accuracy of something from source `of`, as seen from source `from`: the shifts of both are added.
    fn seen_from(
        &self,
        from: Option<SourceIndex>,
        of: Option<SourceIndex>,
        accuracy: i64,
    ) -> Option<i64> {
        if from == of {
            return Some(accuracy);
        }
        let shift = |source: Option<SourceIndex>| self.sources.get(source?)?.shift;
        Some(
            accuracy
                .saturating_add(shift(from)?)
                .saturating_add(shift(of)?),
        )
    }

    fn side_thing(&self, kind: KindId, side: Side, figure: Figure) -> Thing {
        let vocabulary = self.vocabulary;
        let mut facts = side.facts;
        let by = side.source.and_then(|source| self.sources.get(source));
        if let (Some(id), Some(source)) = (vocabulary.fact_named(kind, "source"), by) {
            facts.insert(id, words_of([source.by.as_str()]));
        }
        if let (Some(id), Some(accuracy)) =
            (vocabulary.fact_named(kind, "accuracy"), figure.accuracy)
        {
            facts.insert(id, exactly(accuracy));
        }
        let outline = vocabulary.outline_named(kind, "line");
        Thing {
            id: side.id,
            name: side.name,
            kind,
            part_of: Some(0),
            stands_alone: false,
            source: side.source,
            outlines: outline
                .map(|outline| (outline, figure))
                .into_iter()
                .collect(),
            lacks: BTreeSet::new(),
            facts,
            span: side.span,
        }
    }
}

fn exactly(length: i64) -> Possible {
    let length = i128::from(length);
    let amount = Amount {
        least: Interval::exact(length),
        most: None,
        drawn: Some((length, length)),
        dimension: Dimension::Length,
        unit: Some(Unit::usual(Dimension::Length)),
    };
    Possible {
        amount: Some(amount),
        ..Possible::default()
    }
}
