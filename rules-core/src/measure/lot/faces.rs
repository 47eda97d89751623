//! Proposed names for the sides of a lot: front, side, rear, street side. A person confirms them, and the authority's own text
//! comes first.

use crate::measure::distance::{between_lines, to_line};
use crate::measure::figure::chain::{Chain, Edge};
use crate::measure::figure::direction::{distance, moved, unit};
use crate::measure::figure::exact::part_way;
use crate::measure::figure::inside::{Side, side};
use crate::measure::lot::face::{Beside, Beyond, Face, Naming, Proposal, Why};
use crate::plan::figure::Point;

/// Two pieces at an angle of less than 35 degrees (this is its cosine) are one frontage, or one rear line.
const ONE_LINE: f64 = 0.819;

/// Proposes a name for each side of a lot, from what it runs along. The sides are in order round the lot, each from corner to
/// corner.
pub fn propose_faces(
    sides: &[Vec<Point>],
    along: &[Option<Beside>],
    naming: Naming,
) -> Vec<Proposal> {
    let lot = Lot::new(sides, along);
    let fronts = lot.fronts(naming);
    (0..sides.len())
        .map(|index| {
            let (face, why) = lot.name(index, &fronts, naming);
            Proposal {
                side: index,
                face,
                why,
            }
        })
        .collect()
}

/// What each side runs along, from the lines beside the lot.
pub fn sides_along(sides: &[Vec<Point>], beyond: &[Beyond]) -> Vec<Option<Beside>> {
    let ring: Vec<Point> = sides
        .iter()
        .flat_map(|side| side.iter().take(side.len().saturating_sub(1)).copied())
        .collect();
    sides
        .iter()
        .map(|line| runs_along(line, &ring, beyond))
        .collect()
}

struct Lot<'a> {
    sides: &'a [Vec<Point>],
    along: &'a [Option<Beside>],
    /// The lines along streets, each of one or more sides.
    frontages: Vec<Vec<usize>>,
}

struct Fronts {
    main: Vec<usize>,
    why: Why,
    /// Fronts other than the main one.
    others: Vec<usize>,
    flag: Vec<usize>,
    rear: Vec<usize>,
    tie: bool,
}

impl<'a> Lot<'a> {
    fn new(sides: &'a [Vec<Point>], along: &'a [Option<Beside>]) -> Self {
        let mut lot = Lot {
            sides,
            along,
            frontages: Vec::new(),
        };
        lot.frontages = lot.grouped(|index| lot.is_street(index));
        lot
    }

    fn is_street(&self, index: usize) -> bool {
        matches!(
            self.along.get(index),
            Some(Some(Beside::Street | Beside::Address))
        )
    }

    fn chord(&self, index: usize) -> Option<(Point, Point)> {
        let line = self.sides.get(index)?;
        Some((*line.first()?, *line.last()?))
    }

    /// Groups of neighbouring sides of one sort that hardly change direction.
    fn grouped(&self, wanted: impl Fn(usize) -> bool) -> Vec<Vec<usize>> {
        let mut groups: Vec<Vec<usize>> = Vec::new();
        for index in (0..self.sides.len()).filter(|index| wanted(*index)) {
            match groups.last_mut() {
                Some(group) if group.last().is_some_and(|last| self.goes_on(*last, index)) => {
                    group.push(index)
                }
                _ => groups.push(vec![index]),
            }
        }
        let closes = groups.len() > 1
            && groups
                .first()
                .and_then(|g| g.first())
                .zip(groups.last().and_then(|g| g.last()))
                .is_some_and(|(first, last)| self.goes_on(*last, *first));
        if closes
            && let Some(last) = groups.pop()
            && let Some(first) = groups.first_mut()
        {
            first.splice(0..0, last);
        }
        groups
    }

    /// Whether a side follows another nearly straight on.
    fn goes_on(&self, one: usize, next: usize) -> bool {
        let straight = || {
            let (a, b) = (self.sides.get(one)?, self.sides.get(next)?);
            let ([.., p, q], [r, s, ..]) = (a.as_slice(), b.as_slice()) else {
                return None;
            };
            let (u, v) = (unit(*p, *q)?, unit(*r, *s)?);
            Some(u.0 * v.0 + u.1 * v.1 >= ONE_LINE)
        };
        self.follows(one, next) && straight() == Some(true)
    }

    fn follows(&self, one: usize, next: usize) -> bool {
        (one + 1) % self.sides.len().max(1) == next
    }

    fn joins(&self, one: usize, other: usize) -> bool {
        self.follows(one, other) || self.follows(other, one)
    }

    fn length(&self, group: &[usize]) -> f64 {
        group
            .iter()
            .filter_map(|index| self.chord(*index))
            .map(|(a, b)| distance(a, b))
            .sum()
    }

    fn fronts(&self, naming: Naming) -> Fronts {
        let (main, why) = self.main_front(naming);
        let is_main = |group: &&Vec<usize>| **group != main;
        let across = |group: &&Vec<usize>| {
            !group
                .iter()
                .any(|one| main.iter().any(|other| self.joins(*one, *other)))
        };
        let others: Vec<usize> = self
            .frontages
            .iter()
            .filter(is_main)
            .filter(|group| naming.every_street_is_front || across(group))
            .flatten()
            .copied()
            .collect();
        let flag = self.flag_front(&main);
        let corner = self.frontages.len() > 1;
        let through = self
            .frontages
            .iter()
            .filter(is_main)
            .any(|group| across(&group));
        let mut fronts = Fronts {
            others,
            flag,
            why,
            rear: Vec::new(),
            tie: false,
            main,
        };
        if !(through || corner && naming.corner_without_rear) {
            self.find_rear(&mut fronts);
        }
        fronts
    }

    fn main_front(&self, naming: Naming) -> (Vec<usize>, Why) {
        let of_address = |group: &&Vec<usize>| {
            group
                .iter()
                .any(|index| self.along.get(*index) == Some(&Some(Beside::Address)))
        };
        match self.frontages.as_slice() {
            [] => return (Vec::new(), Why::NoStreet),
            [only] => return (only.clone(), Why::OnlyStreet),
            _ => {}
        }
        if let Some(group) = self.frontages.iter().find(of_address) {
            return (group.clone(), Why::Address);
        }
        let by_length =
            |a: &&Vec<usize>, b: &&Vec<usize>| self.length(a).total_cmp(&self.length(b));
        let (found, why) = match naming.longest_is_front {
            true => (
                self.frontages.iter().max_by(by_length),
                Why::LongestFrontage,
            ),
            false => (
                self.frontages.iter().min_by(by_length),
                Why::ShortestFrontage,
            ),
        };
        (found.cloned().unwrap_or_default(), why)
    }

    /// The front of a flag lot: the sides next to the access strip, past a corner that points in, that face the street.
    fn flag_front(&self, main: &[usize]) -> Vec<usize> {
        let count = self.sides.len();
        let ([first, ..], [.., last]) = (main, main) else {
            return Vec::new();
        };
        let handles = [(last + 1) % count, (first + count - 1) % count];
        let bodies = [(last + 2) % count, (first + count - 2) % count];
        let Some((a, b)) = self.chord(*first) else {
            return Vec::new();
        };
        let faces_alike = |index: usize| {
            let (u, v) = unit(a, b).zip(self.chord(index).and_then(|(p, q)| unit(p, q)))?;
            Some(u.0 * v.0 + u.1 * v.1 >= ONE_LINE)
        };
        let fits = |(handle, body): (usize, usize)| {
            let long = self.length(&[handle]) > self.length(main);
            (long && faces_alike(body) == Some(true) && !main.contains(&body)).then_some(body)
        };
        handles.into_iter().zip(bodies).filter_map(fits).collect()
    }

    fn find_rear(&self, fronts: &mut Fronts) {
        let is_front = |index: usize| fronts.main.contains(&index) || fronts.flag.contains(&index);
        let joins_front = |index: usize| {
            (0..self.sides.len()).any(|front| is_front(front) && self.joins(front, index))
        };
        let mut far: Vec<(f64, usize)> = (0..self.sides.len())
            .filter(|index| !self.is_street(*index) && !is_front(*index) && !joins_front(*index))
            .filter_map(|index| Some((self.street_gap(index)?, index)))
            .collect();
        far.sort_by(|a, b| b.0.total_cmp(&a.0));
        let Some((farthest, best)) = far.first().copied() else {
            return;
        };
        let alike = self.grouped(|index| far.iter().any(|(_, other)| *other == index));
        let rear = alike
            .into_iter()
            .find(|group| group.contains(&best))
            .unwrap_or_default();
        fronts.tie = far
            .iter()
            .any(|(other, index)| !rear.contains(index) && *other > farthest * 0.98);
        fronts.rear = match fronts.tie {
            true => far
                .iter()
                .filter(|(other, _)| *other > farthest * 0.98)
                .map(|(_, index)| *index)
                .collect(),
            false => rear,
        };
    }

    /// The distance of a side's middle from the nearest line along a street.
    fn street_gap(&self, index: usize) -> Option<f64> {
        let (a, b) = self.chord(index)?;
        let middle = part_way(a, b, 0.5);
        let streets = self
            .frontages
            .iter()
            .flatten()
            .filter_map(|street| self.sides.get(*street));
        let gaps = streets.map(|line| {
            to_line(
                middle,
                Chain {
                    points: line,
                    closed: false,
                },
            )
            .high as f64
        });
        gaps.min_by(f64::total_cmp)
    }

    fn name(&self, index: usize, fronts: &Fronts, naming: Naming) -> (Option<Face>, Why) {
        let main_joins = || fronts.main.iter().any(|front| self.joins(*front, index));
        match self.along.get(index).copied().flatten() {
            Some(Beside::Alley) => (Some(Face::Alley), Why::AlongAlley),
            Some(Beside::Water) => (Some(Face::Shore), Why::AlongWater),
            _ if fronts.why == Why::NoStreet => (None, Why::NoStreet),
            _ if fronts.main.contains(&index) => (Some(Face::Front), fronts.why),
            _ if fronts.others.contains(&index) => (Some(Face::Front), other_front(naming)),
            Some(_) => (Some(Face::StreetSide), Why::SecondStreet),
            None if fronts.flag.contains(&index) => (Some(Face::Front), Why::FlagFront),
            None if fronts.rear.contains(&index) && fronts.tie => (None, Why::Tie),
            None if fronts.rear.contains(&index) => (Some(Face::Rear), Why::Farthest),
            None if main_joins() => (Some(Face::Side), Why::JoinsFront),
            None => (Some(Face::Side), Why::Neither),
        }
    }
}

fn other_front(naming: Naming) -> Why {
    match naming.every_street_is_front {
        true => Why::SecondStreet,
        false => Why::BothStreets,
    }
}

/// What a side runs along: something within reach of its ends and its middle, and not across the lot.
fn runs_along(line: &[Point], ring: &[Point], beyond: &[Beyond]) -> Option<Beside> {
    let (first, last) = (*line.first()?, *line.last()?);
    let middle = line_middle(line)?;
    let near = |road: &&Beyond| {
        let chain = Chain {
            points: &road.line,
            closed: false,
        };
        let gap = to_line(middle, chain);
        let all = [first, last, middle]
            .iter()
            .all(|p| to_line(*p, chain).high <= road.reach);
        let step = unit(middle, gap.to).map_or(middle, |to| moved(middle, to, 1e7));
        all && (gap.high == 0 || side(ring, step) == Side::Outside) && !crosses(ring, step, gap.to)
    };
    let found = beyond.iter().filter(near);
    let gap = |road: &&Beyond| {
        between_lines(
            Chain {
                points: line,
                closed: false,
            },
            Chain {
                points: &road.line,
                closed: false,
            },
        )
        .high
    };
    found.min_by_key(gap).map(|road| road.what)
}

fn line_middle(line: &[Point]) -> Option<Point> {
    let pairs: Vec<(Point, Point)> = line
        .iter()
        .copied()
        .zip(line.iter().skip(1).copied())
        .collect();
    let half = pairs.iter().map(|(a, b)| distance(*a, *b)).sum::<f64>() / 2.0;
    let mut gone = 0.0;
    for (a, b) in pairs {
        let step = distance(a, b);
        if gone + step >= half && step > 0.0 {
            return Some(part_way(a, b, (half - gone) / step));
        }
        gone += step;
    }
    line.first().copied()
}

/// Whether the line from a place on the lot's boundary to a road crosses the lot again.
fn crosses(ring: &[Point], from: Point, to: Point) -> bool {
    let way = Edge { a: from, b: to };
    Chain::ring(ring).edges().any(|edge| edge.crosses(&way))
}
