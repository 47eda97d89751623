//! Zones: areas combined from others, each with the tolerance of its edge.

use crate::measure::area::clip::{Keep, clip, clip_drawn};
use crate::measure::area::region::Fit;
use crate::measure::figure::chain::Chain;
use crate::plan::figure::{Figure, Form};

/// A zone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Region {
    /// One area.
    Patch(Patch),
    /// Everything in at least one of these; nothing where there are none.
    Any(Vec<Region>),
    /// Everything in all of these.
    All(Vec<Region>),
    /// Everything outside this.
    Not(Box<Region>),
    /// An unknown zone: anything or nothing may be in it.
    Unknown,
}

/// One area and the tolerance of its edge.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Patch {
    /// The area as drawn.
    pub figure: Figure,
    /// The part of the outline that matters, where it is not all of it (the rest is far away).
    pub edge: Option<Form>,
    /// How much the area is widened, at least and at most, in nanometres.
    pub wider: (i64, i64),
    /// The tolerance of its edge, in nanometres.
    pub tolerance: i64,
    /// Whether it is surely meant.
    pub sure: bool,
}

impl Region {
    /// An area that is surely meant.
    pub fn of(figure: Figure, tolerance: i64) -> Region {
        Region::Patch(Patch {
            figure,
            edge: None,
            wider: (0, 0),
            tolerance,
            sure: true,
        })
    }

    /// The same zone with a larger tolerance of all edges.
    #[must_use]
    pub fn with_more_tolerance(self, by: i64) -> Region {
        let each = |list: Vec<Region>| {
            list.into_iter()
                .map(|one| one.with_more_tolerance(by))
                .collect()
        };
        match self {
            Region::Patch(patch) => Region::Patch(Patch {
                tolerance: patch.tolerance.saturating_add(by),
                ..patch
            }),
            Region::Any(list) => Region::Any(each(list)),
            Region::All(list) => Region::All(each(list)),
            Region::Not(inner) => Region::Not(Box::new(inner.with_more_tolerance(by))),
            Region::Unknown => Region::Unknown,
        }
    }

    /// The parts of a figure in the zone (or outside it): everything that may be (`Outer`), or only what surely is (`Inner`).
    /// They may overlap. The tolerance of each patch must include that of the figure itself.
    pub fn parts(&self, figure: &Figure, keep: Keep, fit: Fit) -> Vec<Figure> {
        self.split(figure, (keep, fit), false)
    }

    /// The same for a line, with each place in just one part, so that the lengths can be added up.
    pub fn parts_once(&self, line: &Figure, keep: Keep, fit: Fit) -> Vec<Figure> {
        self.split(line, (keep, fit), true)
    }

    fn split(&self, figure: &Figure, (keep, fit): (Keep, Fit), once: bool) -> Vec<Figure> {
        let whole = || vec![figure.clone()];
        match (self, keep) {
            (Region::Unknown, _) => match fit {
                Fit::Outer => whole(),
                Fit::Inner => Vec::new(),
            },
            (Region::Patch(patch), Keep::Within) => patch.within(figure, fit),
            (Region::Patch(patch), Keep::Beyond) if once => patch.beyond_once(figure, fit),
            (Region::Patch(patch), Keep::Beyond) => patch.beyond(figure, fit),
            (Region::Not(inner), _) => inner.split(figure, (keep.opposite(), fit), once),
            (Region::Any(list), Keep::Within) | (Region::All(list), Keep::Beyond) => {
                let each = list.iter().enumerate().flat_map(|(place, region)| {
                    let own = region.split(figure, (keep, fit), once);
                    // From each area, only what none of the earlier ones contains.
                    let before = list.iter().take(if once { place } else { 0 });
                    let opposite = (keep.opposite(), fit.opposite());
                    before.fold(own, |left, region| region.split_each(&left, opposite, once))
                });
                each.collect()
            }
            (Region::Any(list), Keep::Beyond) | (Region::All(list), Keep::Within) => {
                list.iter().fold(whole(), |left, region| {
                    region.split_each(&left, (keep, fit), once)
                })
            }
        }
    }

    fn split_each(&self, figures: &[Figure], how: (Keep, Fit), once: bool) -> Vec<Figure> {
        let each = figures.iter();
        each.flat_map(|figure| self.split(figure, how, once))
            .collect()
    }
}

impl Patch {
    /// How far the area surely (`Inner`) or at most (`Outer`) extends beyond its forms; negative where the tolerance is greater
    /// than the area's own spread.
    fn reach(&self, fit: Fit) -> i64 {
        let own = self.figure.spread;
        match fit {
            Fit::Outer => own
                .saturating_add(self.wider.1)
                .saturating_add(self.tolerance),
            Fit::Inner => own
                .saturating_add(self.wider.0)
                .saturating_sub(self.tolerance),
        }
    }

    fn spread(&self, spread: i64) -> Figure {
        Figure {
            spread,
            ..self.figure.clone()
        }
    }

    /// Cuts a figure to this area. An area with an `edge` is derived, and rounded to whole nanometres.
    fn clip(&self, figure: &Figure, zone: &Figure, keep: Keep, fit: Fit) -> Option<Figure> {
        match self.edge {
            Some(_) => clip(figure, zone, keep, fit),
            None => clip_drawn(figure, zone, keep, fit),
        }
    }

    /// The band along the edge in which places may be inside or outside.
    fn band(&self, width: i64) -> Figure {
        let closed = |form: &Form| match form {
            Form::Ring(ring) => Form::Path(ring.iter().chain(ring.first()).copied().collect()),
            other => other.clone(),
        };
        Figure::new(
            match &self.edge {
                Some(edge) => vec![edge.clone()],
                None => self.figure.forms.iter().map(closed).collect(),
            },
            width,
            self.figure.accuracy,
        )
    }

    fn within(&self, figure: &Figure, fit: Fit) -> Vec<Figure> {
        let reach = self.reach(fit);
        if fit == Fit::Inner && !self.sure {
            return Vec::new();
        }
        let cut = |reach| self.clip(figure, &self.spread(reach), Keep::Within, fit);
        match reach {
            0.. => cut(reach).into_iter().collect(),
            _ if fit == Fit::Outer => Vec::new(),
            _ => cut(0)
                .and_then(|part| self.clip(&part, &self.band(-reach), Keep::Beyond, fit))
                .into_iter()
                .collect(),
        }
    }

    /// The part outside: the less surely is within, the more may be outside.
    fn beyond(&self, figure: &Figure, fit: Fit) -> Vec<Figure> {
        let reach = match fit {
            Fit::Outer if !self.sure => return vec![figure.clone()],
            Fit::Outer => self.reach(Fit::Inner),
            Fit::Inner => self.reach(Fit::Outer),
        };
        let cut = |reach| self.clip(figure, &self.spread(reach), Keep::Beyond, fit);
        let mut parts: Vec<Figure> = match reach {
            0.. => cut(reach),
            _ if fit == Fit::Inner => Some(figure.clone()),
            _ => cut(0),
        }
        .into_iter()
        .collect();
        if reach < 0 && fit == Fit::Outer {
            parts.extend(self.clip(figure, &self.band(-reach), Keep::Within, fit));
        }
        parts
    }
}

impl Patch {
    /// Like [`beyond`](Self::beyond), for a line, with each place in just one part.
    fn beyond_once(&self, line: &Figure, fit: Fit) -> Vec<Figure> {
        let reach = self.reach(Fit::Inner);
        if fit == Fit::Inner || !self.sure || reach >= 0 {
            return self.beyond(line, fit);
        }
        let drawn = self.spread(0);
        let inside = self.clip(line, &drawn, Keep::Within, fit);
        let near =
            inside.and_then(|inside| self.clip(&inside, &self.band(-reach), Keep::Within, fit));
        let outside = self.clip(line, &drawn, Keep::Beyond, fit);
        outside.into_iter().chain(near).collect()
    }
}

/// The corners of all forms of a figure.
pub(crate) fn corners(figure: &Figure) -> impl Iterator<Item = crate::plan::figure::Point> {
    figure
        .forms
        .iter()
        .flat_map(|form| Chain::of(form).points.iter().copied())
}
