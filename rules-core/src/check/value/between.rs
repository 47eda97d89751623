//! The land between lines: in front of the walls of houses, behind them and beside them, and between any other lines.

use crate::check::judge::Judge;
use crate::check::value::distance::{Drawn, End};
use crate::check::value::zone::{path, ring};
use crate::check::world::env::{Env, Referent};
use crate::measure::{
    Hand, Land, Patch, ROUNDED, Region, beyond, hand_of, in_a_row, look_alike, outward_of,
};
use crate::plan::{Figure, Form, Point};
use crate::ruleset::Operand;

/// A piece of a wall, and its outer side.
pub(crate) type Sided<'a> = (&'a [Point], Hand);

impl<'a> Judge<'a> {
    /// The land between any of some lines and any of others: from each line, everything towards the others. `None` where that
    /// cannot be found.
    ///
    /// On the inner side of a lot line is the lot. Any other line is extended across the lot, so that a front or a rear yard
    /// has the lot's full width; but the yard beside a side wall is only as long as that wall.
    pub(crate) fn between_region(
        &self,
        one: &'a Operand,
        other: &'a Operand,
        cut: &Drawn<'a>,
        env: &Env<'_>,
    ) -> Option<Region> {
        let (ones, others) = (self.ends(one, env).list, self.ends(other, env).list);
        if ones.is_empty() || others.is_empty() {
            return Some(Region::Any(Vec::new()));
        }
        let (ones, others) = (self.lines_at(&ones)?, self.lines_at(&others)?);
        let one = self.land_from_any(&ones, &others, cut)?;
        let other = self.land_from_any(&others, &ones, cut)?;
        Some(Region::All(vec![one, other]))
    }

    /// The lines at some ends, where all of them are surely meant and are drawn.
    fn lines_at(&self, ends: &[End<'_>]) -> Option<Vec<Drawn<'a>>> {
        ends.iter()
            .map(|end| self.drawn(end).filter(|_| end.sure && end.zone.is_none()))
            .collect()
    }

    /// The land from any of some lines towards others.
    fn land_from_any(
        &self,
        lines: &[Drawn<'a>],
        towards: &[Drawn<'a>],
        cut: &Drawn<'a>,
    ) -> Option<Region> {
        let each = lines.iter().map(|line| self.facing(line, towards, cut));
        let mut all = each.collect::<Option<Vec<_>>>()?;
        all.dedup();
        Some(Region::Any(all))
    }

    /// The land from a line towards others.
    fn facing(&self, line: &Drawn<'a>, towards: &[Drawn<'a>], cut: &Drawn<'a>) -> Option<Region> {
        if line.thing.kind == self.special.lot_line {
            let lot = self.lot()?;
            return Some(Region::of(
                lot.figure.clone(),
                self.joint_tolerance(cut, &lot)?,
            ));
        }
        if line.figure.spread > 0 {
            return None;
        }
        if line.outline == self.special.side_wall {
            return self.beside_walls(line, towards, cut);
        }
        let pieces = self.sided_pieces(line, towards)?;
        let lands = pieces
            .iter()
            .map(|(piece, hand)| self.land(beyond(piece, *hand, cut.figure)?, line, cut));
        let lands = lands.collect::<Option<Vec<Patch>>>()?;
        match one_wall(&pieces) {
            true => self.before_all(lands, &pieces, line, cut),
            false => Some(Region::Any(lands.into_iter().map(Region::Patch).collect())),
        }
    }

    /// The pieces of a line, each with its outer side.
    pub(crate) fn sided_pieces(
        &self,
        line: &Drawn<'a>,
        towards: &[Drawn<'a>],
    ) -> Option<Vec<Sided<'a>>> {
        let pieces = line.figure.forms.iter().map(|form| {
            let path = path(form)?;
            Some((path, self.hand(path, line, towards)?))
        });
        pieces.collect()
    }

    /// The land before a wall that is drawn in pieces. What joins the pieces is not drawn: the land surely before the wall lies
    /// before each of them, and before the line that joins them straight; it can be no other land than that before any of these.
    fn before_all(
        &self,
        mut lands: Vec<Patch>,
        pieces: &[Sided<'a>],
        line: &Drawn<'a>,
        cut: &Drawn<'a>,
    ) -> Option<Region> {
        let (joined, hand) = in_a_row(pieces)?;
        lands.push(self.land(beyond(&joined, hand, cut.figure)?, line, cut)?);
        let perhaps = lands.iter().cloned().map(|land| {
            Region::Patch(Patch {
                sure: false,
                ..land
            })
        });
        let mut all: Vec<Region> = perhaps.collect();
        all.push(Region::All(lands.into_iter().map(Region::Patch).collect()));
        Some(Region::Any(all))
    }

    pub(crate) fn land(&self, land: Land, line: &Drawn<'a>, cut: &Drawn<'a>) -> Option<Patch> {
        let own = self.tolerance_against(line, cut)? as f64 * land.sway;
        let tolerance = (own.ceil() as i64)
            .saturating_add(self.tolerance_against(cut, line)?)
            .saturating_add(ROUNDED);
        Some(Patch {
            figure: Figure::new(vec![Form::Ring(land.ring)], 0, line.figure.accuracy),
            edge: Some(land.edge),
            wider: (0, 0),
            tolerance,
            sure: true,
        })
    }

    /// The side of a line on which the land is: away from the building whose wall it is, otherwise towards the others.
    fn hand(&self, path: &[Point], line: &Drawn<'a>, towards: &[Drawn<'a>]) -> Option<Hand> {
        let own = line.thing.outlines.values().filter_map(ring);
        if let Some(hand) = own.filter_map(|ring| outward_of(path, ring)).next() {
            return Some(hand);
        }
        let mut hands = towards.iter().map(|other| hand_of(path, other.figure));
        let first = hands.next()??;
        hands.all(|hand| hand == Some(first)).then_some(first)
    }

    pub(crate) fn lot(&self) -> Option<Drawn<'a>> {
        let index = *self.scene.base.of_kind(self.special.lot).first()?;
        self.drawn(&End::whole(Referent::Thing(index), self.special.boundary))
    }
}

/// Whether the pieces of a wall may be one wall: some of them look more or less the same way.
fn one_wall(pieces: &[Sided<'_>]) -> bool {
    let alike = |(at, one): (usize, &Sided<'_>)| {
        let later = pieces.iter().skip(at + 1);
        later.into_iter().any(|other| look_alike(*one, *other))
    };
    pieces.iter().enumerate().any(alike)
}
