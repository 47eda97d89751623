//! What lies in a zone in one world, and the sizes of areas.

use rules_core::plan::Form;
use rules_core::ruleset::{Area, ShareOf, Zone};

use super::{Found, Got, Scene, Undecided};
use crate::soundness::number::Real;
use crate::soundness::world::Drawn;
use crate::soundness::{cover, geometry};

impl<'a> Scene<'a> {
    /// Whether a thing stands in a zone: at least part of one of its outlines does.
    pub(super) fn stands_in(&mut self, thing: usize, zone: &Zone) -> Found<bool> {
        let world = self.world;
        let outlines = &world.things[thing].outlines;
        let mut found = false;
        for drawn in outlines.values() {
            found |= self.lies_in(drawn, zone)?;
        }
        Ok(found)
    }

    /// Whether some part of an outline lies in a zone.
    fn lies_in(&mut self, drawn: &Drawn, zone: &Zone) -> Found<bool> {
        match zone {
            Zone::Inside(area) => {
                let Ok(areas) = self.outlines(area)? else {
                    return Err(Undecided::NotKnown);
                };
                let mut found = false;
                for area in areas {
                    found |= cover::overlap(drawn, area).ok_or(Undecided::Tie)?;
                }
                Ok(found)
            }
            Zone::Around { of, by } => {
                let Ok(around) = self.outlines(of)? else {
                    return Err(Undecided::NotKnown);
                };
                let Got::Number(by) = self.value(by)? else {
                    return Err(Undecided::NotKnown);
                };
                let mut found = false;
                for one in around {
                    let far = geometry::nearest(drawn, one).0;
                    self.close |= far != by && far.near(by, 4);
                    found |= far.compared(by).ok_or(Undecided::Tie)?.is_le();
                }
                Ok(found)
            }
            Zone::Not(inner) => self.lies_out(drawn, inner),
            Zone::Named { term, zone } => {
                self.within(term.scope, |scene| scene.lies_in(drawn, zone))
            }
            Zone::Between(..) | Zone::Corner { .. } => Err(Undecided::NotKnown),
        }
    }

    /// Whether some part of an outline lies outside a zone.
    fn lies_out(&mut self, drawn: &Drawn, zone: &Zone) -> Found<bool> {
        match zone {
            Zone::Not(inner) => self.lies_in(drawn, inner),
            Zone::Inside(area) => match self.outlines(area)?.as_deref() {
                Ok([area]) if area.spread == 0 => {
                    let [Form::Ring(ring)] = &area.forms[..] else {
                        return Err(Undecided::NotKnown);
                    };
                    let inside = cover::inside(drawn, ring).ok_or(Undecided::Tie)?;
                    Ok(!inside)
                }
                _ => Err(Undecided::NotKnown),
            },
            _ => Err(Undecided::NotKnown),
        }
    }

    pub(super) fn area(&mut self, area: &Area) -> Found<Got> {
        let sets = area
            .of
            .parts
            .iter()
            .any(|part| part.which.selection().is_some());
        let outlines = match self.outlines(&area.of)? {
            Ok(outlines) => outlines,
            // A set of things covers nothing if there are none; for a single thing the question does not arise.
            Err(None) if sets => Vec::new(),
            Err(None) => return Ok(Got::Bare),
            Err(said) => return Ok(Got::Void(said)),
        };
        let covered = self.covered(&outlines, area.within.as_deref())?;
        let Some(share_of) = &area.share_of else {
            return Ok(Got::Number(covered));
        };
        let base = match share_of {
            ShareOf::Value(value) => match self.value(value)? {
                Got::Number(base) => base,
                _ => return Err(Undecided::NotKnown),
            },
            ShareOf::Outlines(of) => {
                let Ok(of) = self.outlines(of)? else {
                    return Err(Undecided::NotKnown);
                };
                self.covered(&of, None)?
            }
        };
        covered.over(base).map(Got::Number).ok_or(Undecided::Tie)
    }

    /// The area that outlines cover together, or the part of it in a zone.
    fn covered(&mut self, of: &[&'a Drawn], zone: Option<&Zone>) -> Found<Real> {
        let covered = match (of, zone) {
            ([], _) => Some(Real::whole(0)),
            ([one], None) if one.spread == 0 => Some(geometry::area(one)),
            (of, None) => cover::area(of, None),
            (of, Some(Zone::Inside(area))) => {
                let Ok(area) = self.outlines(area)? else {
                    return Err(Undecided::NotKnown);
                };
                cover::area(of, Some((&area, true)))
            }
            (of, Some(Zone::Not(inner))) => match &**inner {
                Zone::Inside(area) => {
                    let Ok(area) = self.outlines(area)? else {
                        return Err(Undecided::NotKnown);
                    };
                    cover::area(of, Some((&area, false)))
                }
                _ => None,
            },
            _ => None,
        };
        let covered = covered.ok_or(Undecided::NotKnown)?;
        self.close |= covered.compared(covered).is_none();
        Ok(covered)
    }
}
