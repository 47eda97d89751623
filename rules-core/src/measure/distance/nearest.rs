//! The nearest place of two lines: floats tell which ends and edges may be the nearest, whole numbers decide.

use smallvec::SmallVec;

use crate::measure::distance::laid::Side;
use crate::measure::distance::{Gap, from_point, in_common};
use crate::measure::figure::chain::Chain;
use crate::measure::figure::exact::{Span, plainly_between};
use crate::plan::figure::Point;

/// The floats are good to 0.02 nm, and a rounded distance tells nothing below 1 nm: every pair this much farther than
/// the nearest is decided exactly too.
pub(crate) const MARGIN: f64 = 1.1;

/// So many ends are kept before any is decided.
const KEPT: usize = 12;

/// An edge of one line, an edge of the other, and whether it is the other's end that is looked at: the order of search.
type Key = (usize, usize, bool);

/// An end of an edge of one line against an edge of the other.
#[derive(Debug, Clone, Copy)]
struct Candidate {
    squared: f64,
    key: Key,
}

impl Candidate {
    /// How far apart they are: by the floats where these leave no doubt.
    #[inline]
    fn span(&self, one: Chain, other: Chain) -> Option<Span> {
        plainly_between(self.squared.sqrt())
            .or_else(|| exactly(one, other, self.key).map(|gap| gap.span()))
    }
}

/// What was found so far: how near, in floats, and what may be the nearest; or the first place in common.
pub(crate) struct Nearest<'a> {
    pub one: Chain<'a>,
    pub other: Chain<'a>,
    squared: f64,
    /// How far apart a pair may be and still matter, and the square of it.
    reach: f64,
    limit: f64,
    kept: SmallVec<[Candidate; KEPT]>,
    best: Option<(Span, Key)>,
    meeting: Option<(usize, usize)>,
    /// All of one line is known to lie beyond a straight line that all of the other lies before.
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

    /// Some two places are known to be no farther apart than this, squared.
    #[inline]
    pub fn within(&mut self, squared: f64) {
        if squared < self.squared {
            self.squared = squared;
            self.reach = squared.sqrt() + MARGIN;
            self.limit = self.reach * self.reach;
        }
    }

    /// How far apart a pair may be and still matter.
    #[inline]
    pub fn reach(&self) -> f64 {
        self.reach
    }

    /// The square of the reach.
    #[inline]
    pub fn limit(&self) -> f64 {
        self.limit
    }

    /// The two lines have a place in common.
    #[inline]
    pub fn met(&self) -> bool {
        self.meeting.is_some()
    }

    /// An edge up to this one of the first line meets the other line.
    #[inline]
    pub fn met_by(&self, index: usize) -> bool {
        self.meeting.is_some_and(|(first, _)| first <= index)
    }

    /// Two straight pieces that do not meet are nearest at an end of one of them. Each end is looked at with the edge
    /// that it ends; its start ends another edge.
    #[inline(always)]
    pub fn pair(&mut self, one: &Side, other: &Side) {
        self.end(one, other);
        self.back(one, other);
    }

    /// The end of an edge of the first line against an edge of the other.
    #[inline(always)]
    pub fn end(&mut self, one: &Side, other: &Side) {
        let squared = other.nearly(one.end());
        if squared <= self.limit {
            self.keep(squared, (one.index, other.index, false));
        }
    }

    /// The end of an edge of the other line against an edge of the first.
    #[inline(always)]
    pub fn back(&mut self, one: &Side, other: &Side) {
        let squared = one.nearly(other.end());
        if squared <= self.limit {
            self.keep(squared, (one.index, other.index, true));
        }
    }

    /// Two edges whose boxes touch.
    pub fn close_pair(&mut self, one: &Side, other: &Side) {
        let pair = (one.index, other.index);
        if self.meeting.is_some_and(|first| first < pair) {
            return;
        }
        let edges = self.one.edge(pair.0).zip(self.other.edge(pair.1));
        if edges.is_some_and(|(edge, against)| edge.meets(&against)) {
            self.meeting = Some(pair);
            // Nothing apart can matter any more.
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

    /// Leaves out what turned out too far, and decides the rest if that is not enough.
    #[cold]
    fn thin(&mut self) {
        let limit = self.limit;
        self.kept.retain(|kept| kept.squared <= limit);
        if self.kept.len() > KEPT / 2 {
            self.decide();
        }
    }

    /// Finds what is nearest of all that may be; of places equally near the first in the order of search.
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

    /// The distance of the two lines, as found.
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
