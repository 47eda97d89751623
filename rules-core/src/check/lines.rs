//! Distances to the lot's own lines, and from things that nobody has seen.

use super::distance::{Drawn, End};
use super::judge::Judge;
use super::special::OWNERS;
use crate::measure::{Place, contains, distance, farthest};
use crate::plan::{Figure, Form, Point};
use crate::quantity::Interval;

impl<'a> Judge<'a> {
    /// The distance from something of the owner's to what lies beyond a lot line: 0 once any part of it is past the
    /// line. `None` where this is not such a pair, or where the thing lies within the lot and the plain distance says it.
    pub(crate) fn past_the_line(
        &self,
        own: &Drawn<'a>,
        line: &Drawn<'a>,
        blur: i64,
    ) -> Option<Interval> {
        if line.thing.kind != self.special.lot_line || !self.is_the_owners(own) {
            return None;
        }
        let ring = self.lot_ring()?;
        if own
            .figure
            .forms
            .iter()
            .all(|form| contains(ring, form).is_within())
        {
            return None;
        }
        let depth = corners(own.figure)
            .filter_map(|corner| self.depth_past(corner, ring, line))
            .max()?;
        let depth = depth.saturating_add(own.figure.spread);
        let blur = blur.saturating_add(own.figure.corners_off());
        let high = if depth > blur { 0 } else { blur };
        Some(Interval {
            low: 0,
            high: i128::from(high),
        })
    }

    fn is_the_owners(&self, own: &Drawn<'a>) -> bool {
        let name = &self.scene.rules().vocabulary.kind(own.thing.kind).name;
        OWNERS.contains(&name.as_str())
    }

    /// The lot's boundary as drawn.
    pub(crate) fn lot_ring(&self) -> Option<&'a [Point]> {
        let lot = self.scene.base.of_kind(self.special.lot).first()?;
        match self
            .scene
            .thing(*lot)?
            .outlines
            .get(&self.special.boundary)?
            .forms
            .first()?
        {
            Form::Ring(ring) => Some(ring),
            _ => None,
        }
    }

    /// How far a corner lies past a lot line, where it is out of the lot and no other line is nearer.
    fn depth_past(&self, corner: Point, ring: &[Point], line: &Drawn<'a>) -> Option<i64> {
        let corner = Form::Point(corner);
        if contains(ring, &corner) != Place::Outside {
            return None;
        }
        let to = |figure: &Figure| {
            figure
                .forms
                .iter()
                .map(|form| distance(&corner, form).low)
                .min()
        };
        let own = to(line.figure)?;
        let sides = self.scene.base.of_kind(self.special.lot_line).iter();
        let figures =
            sides.filter_map(|side| self.scene.thing(*side)?.outlines.get(&self.special.line));
        let nearest = figures.filter_map(to).min()?;
        (own <= nearest).then_some(own)
    }

    /// How far a thing may reach beyond the lot; `None` where nobody knows.
    pub(crate) fn beyond_the_lot(&self, own: &Drawn<'a>) -> Option<i128> {
        let lot = self.scene.base.of_kind(self.special.lot).first()?;
        let end = End {
            holder: super::scene::Holder::Thing(*lot),
            outline: self.special.boundary,
            sure: true,
            zone: None,
        };
        let lot = self.drawn(&end)?;
        let blur = self.blur(own, &lot)?;
        Some(i128::from(farthest(own.figure, lot.figure).high).saturating_add(i128::from(blur)))
    }
}

/// The corners of a figure's forms.
fn corners(figure: &Figure) -> impl Iterator<Item = Point> {
    figure
        .forms
        .iter()
        .flat_map(|form| match form {
            Form::Point(point) => std::slice::from_ref(point),
            Form::Path(points) | Form::Ring(points) => points.as_slice(),
        })
        .copied()
}
