//! The nearest places of two lines: floats find which ends and edges may be the nearest, whole numbers decide.

use smallvec::SmallVec;

use crate::measure::distance::edge_runs::IndexedEdge;
use crate::measure::distance::{Gap, from_point, in_common};
use crate::measure::figure::chain::Chain;
use crate::measure::figure::exact::{Span, plainly_between};
use crate::plan::figure::Point;

/// Floats are good to 0.02 nm, and a rounded distance shows nothing below 1 nm. So every pair up to this much farther than the
/// nearest is decided exactly as well.
pub(crate) const MARGIN: f64 = 1.1;

/// The number of candidates to collect before any is decided.
const KEPT: usize = 12;

/// The order of search: an edge of one line, an edge of the other, and whether the end is the other's.
type Key = (usize, usize, bool);

/// An end of an edge of one line against an edge of the other.
#[derive(Debug, Clone, Copy)]
struct Candidate {
    squared: f64,
    key: Key,
}

impl Candidate {
    /// Their distance: from the floats where these are clear, otherwise exactly.
    #[inline]
    fn span(&self, one: Chain, other: Chain) -> Option<Span> {
        plainly_between(self.squared.sqrt())
            .or_else(|| exactly(one, other, self.key).map(|gap| gap.span()))
    }
}

/// What was found so far: the least distance in floats and the candidates for the nearest pair, or the first place in common.
pub(crate) struct Nearest<'a> {
    pub one: Chain<'a>,
    pub other: Chain<'a>,
    squared: f64,
    /// The distance up to which a pair still matters, and its square.
    reach: f64,
    limit: f64,
    kept: SmallVec<[Candidate; KEPT]>,
    best: Option<(Span, Key)>,
    meeting: Option<(usize, usize)>,
    /// Whether a straight line is known to separate the two lines.
    pub apart: bool,
}

impl<'a> Nearest<'a> {
    pub fn new(one: Chain<'a>, other: Chain<'a>) -> Self {
        Nearest {
            one,
            other,
            squared: f64::INFINITY,
            reach: f64::INFINITY,
            limit: f64::INFINITY,
            kept: SmallVec::new(),
            best: None,
            meeting: None,
            apart: false,
        }
    }

    /// Notes that some two places are no farther apart than this, squared.
    #[inline]
    pub fn within(&mut self, squared: f64) {
        if squared < self.squared {
            self.squared = squared;
            self.reach = squared.sqrt() + MARGIN;
            self.limit = self.reach * self.reach;
        }
    }

    /// The distance up to which a pair still matters.
    #[inline]
    pub fn reach(&self) -> f64 {
        self.reach
    }

    /// The square of the reach.
    #[inline]
    pub fn limit(&self) -> f64 {
        self.limit
    }

    /// Whether the two lines meet.
    #[inline]
    pub fn met(&self) -> bool {
        self.meeting.is_some()
    }

    /// Whether an edge of the first line, up to this one, meets the other line.
    #[inline]
    pub fn met_by(&self, index: usize) -> bool {
        self.meeting.is_some_and(|(first, _)| first <= index)
    }

    /// Two edges that do not meet are nearest at an end of one of them. Only the end of each edge is tried here, since its start
    /// is the end of another edge.
    #[inline(always)]
    pub fn pair(&mut self, one: &IndexedEdge, other: &IndexedEdge) {
        self.end(one, other);
        self.back(one, other);
    }

    /// Tries the end of an edge of the first line against an edge of the other.
    #[inline(always)]
    pub fn end(&mut self, one: &IndexedEdge, other: &IndexedEdge) {
        let squared = other.nearly(one.end());
        if squared <= self.limit {
            self.keep(squared, (one.index, other.index, false));
        }
    }

    /// Tries the end of an edge of the other line against an edge of the first.
    #[inline(always)]
    pub fn back(&mut self, one: &IndexedEdge, other: &IndexedEdge) {
        let squared = one.nearly(other.end());
        if squared <= self.limit {
            self.keep(squared, (one.index, other.index, true));
        }
    }

    /// Tries two edges whose boxes touch.
    pub fn close_pair(&mut self, one: &IndexedEdge, other: &IndexedEdge) {
        let pair = (one.index, other.index);
        if self.meeting.is_some_and(|first| first < pair) {
            return;
        }
        let edges = self.one.edge(pair.0).zip(self.other.edge(pair.1));
        if edges.is_some_and(|(edge, against)| edge.meets(&against)) {
            self.meeting = Some(pair);
            // No pair that is apart can matter any more.
            self.within(0.0);
        } else if !self.met() {
            self.pair(one, other);
        }
    }

    #[inline(never)]
    fn keep(&mut self, squared: f64, key: Key) {
        self.within(squared);
        if self.kept.len() == KEPT {
            self.thin();
        }
        self.kept.push(Candidate { squared, key });
    }

    /// Drops candidates that turned out to be too far, and decides the rest if that is not enough.
    #[cold]
    fn thin(&mut self) {
        let limit = self.limit;
        self.kept.retain(|kept| kept.squared <= limit);
        if self.kept.len() > KEPT / 2 {
            self.decide();
        }
    }

    /// Finds the nearest of the candidates; among equals, the first in the order of search.
    fn decide(&mut self) {
        let (one, other) = (self.one, self.other);
        for kept in self.kept.iter().filter(|kept| kept.squared <= self.limit) {
            let Some(span) = kept.span(one, other) else {
                continue;
            };
            let found = (span, kept.key);
            if self.best.is_none_or(|best| found < best) {
                self.best = Some(found);
            }
        }
        self.kept.clear();
    }

    fn common(&self, (edge, against): (usize, usize)) -> Option<Point> {
        Some(in_common(&self.one.edge(edge)?, &self.other.edge(against)?))
    }

    /// The distance of the two lines.
    pub fn gap(&mut self) -> Gap {
        if let Some(at) = self.meeting.and_then(|pair| self.common(pair)) {
            return Gap::touching(at);
        }
        self.decide();
        let gap = |(_, key)| exactly(self.one, self.other, key);
        self.best.and_then(gap).unwrap_or_else(Gap::unknown)
    }
}

fn exactly(one: Chain, other: Chain, (edge, against, turned): Key) -> Option<Gap> {
    let (edge, against) = (one.edge(edge)?, other.edge(against)?);
    Some(if turned {
        from_point(against.b, &edge).swapped()
    } else {
        from_point(edge.b, &against)
    })
}
