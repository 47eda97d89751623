//! The yards beside the side walls of a house: between a wall and a lot line lies only the yard on that side.

use crate::check::judge::Judge;
use crate::check::value::distance::Drawn;
use crate::check::value::zone::ring;
use crate::check::{Missing, Truth};
use crate::measure::{Fit, Hand, Keep, Patch, Region, beside, beyond, look_alike, opposite};
use crate::plan::{Figure, Point};

/// A piece of a side wall, and its outer side.
#[derive(Clone, Copy)]
struct Piece<'d, 'a> {
    line: &'d Drawn<'a>,
    path: &'a [Point],
    hand: Hand,
}

impl<'a> Judge<'a> {
    /// The land beside each piece of a side wall that has one of the others before it. `None` where that cannot be found.
    ///
    /// Where no drawn wall faces one of the others, and all drawn ones look the same way, the wall at the other side of the
    /// house is not drawn: its yard may lie there.
    pub(crate) fn beside_walls(
        &self,
        line: &Drawn<'a>,
        towards: &[Drawn<'a>],
        cut: &Drawn<'a>,
    ) -> Option<Region> {
        let pieces = self.sided_pieces(line, towards)?.into_iter();
        let pieces: Vec<Piece<'_, 'a>> = pieces
            .map(|(path, hand)| Piece { line, path, hand })
            .collect();
        let yards = pieces.iter().map(|piece| {
            let before = towards.iter().map(|other| self.reaches(*piece, other));
            let before = before.fold(Truth::FAILS, Truth::or);
            Some(match self.yard(*piece, cut)? {
                _ if before == Truth::FAILS => Region::Any(Vec::new()),
                yard => Region::Patch(Patch {
                    sure: before == Truth::HOLDS,
                    ..yard
                }),
            })
        });
        let mut yards: Vec<Region> = yards.collect::<Option<_>>()?;
        if let [piece, rest @ ..] = pieces.as_slice()
            && rest
                .iter()
                .all(|other| look_alike((piece.path, piece.hand), (other.path, other.hand)))
            && towards.iter().any(|other| !self.is_faced(&pieces, other))
        {
            yards.push(self.undrawn_yard(*piece, cut));
        }
        Some(Region::Any(yards))
    }

    fn yard(&self, piece: Piece<'_, 'a>, cut: &Drawn<'a>) -> Option<Patch> {
        let land = beside(piece.path, piece.hand, cut.figure)?;
        self.land(land, piece.line, cut)
    }

    /// Whether any of another outline lies straight before a piece of wall.
    fn reaches(&self, piece: Piece<'_, 'a>, other: &Drawn<'a>) -> Truth {
        let yard = self.yard(piece, other).map(Region::Patch);
        yard.map_or(Truth::OPEN, |yard| holds_any_of(&yard, other.figure))
    }

    /// Whether some wall may have an outline straight before it, or surely has some of it on its outer side.
    fn is_faced(&self, pieces: &[Piece<'_, 'a>], other: &Drawn<'a>) -> bool {
        let outer = |piece: &Piece<'_, 'a>| {
            let land = beyond(piece.path, piece.hand, other.figure)?;
            self.land(land, piece.line, other).map(Region::Patch)
        };
        pieces.iter().any(|piece| {
            self.reaches(*piece, other) != Truth::FAILS
                || outer(piece)
                    .is_some_and(|land| holds_any_of(&land, other.figure) == Truth::HOLDS)
        })
    }

    /// Where the yard may be that lies at the other side of the house.
    fn undrawn_yard(&self, piece: Piece<'_, 'a>, cut: &Drawn<'a>) -> Region {
        let outlines = piece.line.thing.outlines.values();
        let corners: Vec<Point> = outlines.filter_map(ring).flatten().copied().collect();
        let land = opposite(piece.path, piece.hand, &corners, cut.figure);
        let patch = land.and_then(|land| self.land(land, piece.line, cut));
        let yard = patch.map_or(Region::Unknown, |patch| {
            Region::Patch(Patch {
                sure: false,
                ..patch
            })
        });
        if holds_any_of(&yard, cut.figure) != Truth::FAILS {
            let wall = Missing::Outline(piece.line.index, piece.line.outline);
            self.scene.depends_on(wall, true, &[]);
        }
        yard
    }
}

/// Whether a zone has any part of a figure in it.
pub(crate) fn holds_any_of(region: &Region, figure: &Figure) -> Truth {
    let none = |fit| region.parts(figure, Keep::Within, fit).is_empty();
    match (none(Fit::Outer), none(Fit::Inner)) {
        (true, _) => Truth::FAILS,
        (false, false) => Truth::HOLDS,
        (false, true) => Truth::OPEN,
    }
}
