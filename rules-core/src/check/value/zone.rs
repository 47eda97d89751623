//! The zones of a rule as areas of the plan, each with the tolerance of its edge.

use crate::check::Truth;
use crate::check::judge::Judge;
use crate::check::value::distance::{Drawn, End};
use crate::check::value::side_yard::holds_any_of;
use crate::check::world::env::{Env, Referent};
use crate::measure::{Corner, Patch, Region, UncertainLine, corner};
use crate::plan::{Figure, Form, Point};
use crate::quantity::Interval;
use crate::ruleset::{Operand, Value, Zone};
use crate::vocabulary::KindId;

impl<'a> Judge<'a> {
    /// Whether any part of a thing is in a zone, found by cutting the thing to it.
    pub(crate) fn has_part_in(
        &self,
        zone: &'a Zone,
        kind: KindId,
        referent: Referent,
        env: &Env<'_>,
    ) -> Truth {
        self.by_any_outline(kind, referent, |own| {
            let Some(drawn) = self.drawn(own) else {
                return Truth::OPEN;
            };
            holds_any_of(&self.region(zone, &drawn, env), drawn.figure)
        })
    }

    /// A zone as areas of the plan. The tolerance of each area includes that of the outline to be cut.
    ///
    /// The zone may have a shorter lifetime than the rule set, so the judge is borrowed for that lifetime, too.
    pub(crate) fn region<'z>(&self, zone: &'z Zone, cut: &Drawn<'z>, env: &Env<'_>) -> Region
    where
        'a: 'z,
    {
        let judge: &Judge<'z> = self;
        match zone {
            Zone::Named { zone, .. } => judge.region(zone, cut, env),
            Zone::Not(inner) => Region::Not(Box::new(judge.region(inner, cut, env))),
            Zone::Inside(of) => judge.near_region(of, Interval::exact(0), cut, env),
            Zone::Around { of, by } => match judge.value(by, env, &[]).range() {
                Some(by) => judge.near_region(of, by, cut, env),
                None => Region::Unknown,
            },
            Zone::Between(one, other) => judge
                .between_region(one, other, cut, env)
                .unwrap_or(Region::Unknown),
            Zone::Corner { of, legs } => judge
                .corner_region(of, legs, cut, env)
                .unwrap_or(Region::Unknown),
        }
    }

    /// Everything within a distance of some outlines.
    fn near_region(&self, of: &'a Operand, by: Interval, cut: &Drawn<'a>, env: &Env<'_>) -> Region {
        let ends = self.ends(of, env).list;
        let near = ends.iter().filter_map(|end| {
            if self.is_too_far(end, by, cut) {
                return None;
            }
            if is_itself(end, cut) && by.low >= 0 {
                return Some(Region::All(Vec::new()));
            }
            Some(
                self.patch(end, by, cut)
                    .map_or(Region::Unknown, Region::Patch),
            )
        });
        Region::Any(near.collect())
    }

    /// Whether something unseen is surely farther away.
    fn is_too_far(&self, end: &End<'_>, by: Interval, cut: &Drawn<'a>) -> bool {
        let own = End::whole(Referent::Thing(cut.index), cut.outline);
        matches!(end.referent, Referent::Unseen(_))
            && self.nearest(end, &own, &Env::EMPTY).range.low > by.high
    }

    fn patch(&self, end: &End<'_>, by: Interval, cut: &Drawn<'a>) -> Option<Patch> {
        let drawn = self.drawn(end)?;
        let wider = |end: i128| i64::try_from(end).ok();
        Some(Patch {
            figure: drawn.figure.clone(),
            edge: None,
            wider: (wider(by.low)?, wider(by.high)?),
            tolerance: self.joint_tolerance(cut, &drawn)?,
            sure: end.sure && end.zone.is_none(),
        })
    }

    /// The triangles at the corners of two sets of lines. `None` where they cannot be found.
    fn corner_region(
        &self,
        of: &'a (Operand, Operand),
        legs: &'a Value,
        cut: &Drawn<'a>,
        env: &Env<'_>,
    ) -> Option<Region> {
        let legs = self.value(legs, env, &[]).range()?;
        let (ones, others) = (self.ends(&of.0, env).list, self.ends(&of.1, env).list);
        let lot = self.lot()?;
        let towards = ring(lot.figure).and_then(middle)?;
        let mut done = Vec::new();
        let mut corners = Vec::new();
        for one in &ones {
            for other in &others {
                let (a, b) = ((one.referent, one.outline), (other.referent, other.outline));
                if a == b || done.contains(&(b, a)) {
                    continue;
                }
                done.push((a, b));
                corners.push(match (self.drawn(one), self.drawn(other)) {
                    (Some(a), Some(b)) => {
                        let sure = one.sure && other.sure;
                        self.triangles((&a, &b), sure, (legs, towards), cut)
                    }
                    _ => Region::Unknown,
                });
            }
        }
        Some(Region::Any(corners))
    }

    fn triangles(
        &self,
        (one, other): (&Drawn<'a>, &Drawn<'a>),
        sure: bool,
        (legs, towards): (Interval, Point),
        cut: &Drawn<'a>,
    ) -> Region {
        let off = |line: &Drawn<'a>| self.tolerance_against(line, cut);
        let offs = off(one).zip(off(other));
        let owns = self
            .tolerance_against(cut, one)
            .zip(self.tolerance_against(cut, other));
        let (Some((by_one, by_other)), Some(owns)) = (offs, owns) else {
            return Region::Unknown;
        };
        let mut all = Vec::new();
        let lines = |figure: &'a Figure| figure.forms.iter().map(path);
        for a in lines(one.figure) {
            for b in lines(other.figure) {
                let (Some(a), Some(b)) = (a, b) else {
                    return Region::Unknown;
                };
                for (legs, least) in [(legs.low, true), (legs.high, false)] {
                    let Ok(legs) = i64::try_from(legs) else {
                        return Region::Unknown;
                    };
                    let (a, b) = (
                        UncertainLine {
                            line: a,
                            tolerance: by_one,
                        },
                        UncertainLine {
                            line: b,
                            tolerance: by_other,
                        },
                    );
                    match corner(a, b, legs, towards) {
                        Corner::None => {}
                        Corner::Unknown => return Region::Unknown,
                        Corner::Triangle(triangle) => all.push(Region::Patch(Patch {
                            figure: Figure::new(
                                vec![Form::Ring(triangle.ring)],
                                0,
                                one.figure.accuracy.max(other.figure.accuracy),
                            ),
                            edge: None,
                            wider: (0, 0),
                            tolerance: triangle.tolerance.saturating_add(owns.0.max(owns.1)),
                            sure: sure && triangle.sure && least,
                        })),
                    }
                }
            }
        }
        Region::Any(all)
    }
}

pub(crate) fn path(form: &Form) -> Option<&[Point]> {
    match form {
        Form::Path(points) => Some(points),
        _ => None,
    }
}

pub(crate) fn ring(figure: &Figure) -> Option<&[Point]> {
    match figure.forms.as_slice() {
        [Form::Ring(ring)] => Some(ring),
        _ => None,
    }
}

/// The middle of the box around a ring, which is good enough to tell the four quadrants of a crossing apart.
fn middle(ring: &[Point]) -> Option<Point> {
    let range = |pick: fn(&Point) -> i64| {
        let (low, high) = (ring.iter().map(pick).min()?, ring.iter().map(pick).max()?);
        Some(low.midpoint(high))
    };
    Some(Point {
        x: range(|p| p.x)?,
        y: range(|p| p.y)?,
    })
}

/// Whether an end is the outline that is cut. It is within itself, whatever its tolerance.
fn is_itself(end: &End<'_>, cut: &Drawn<'_>) -> bool {
    let same = end.referent == Referent::Thing(cut.index) && end.outline == cut.outline;
    same && end.sure && end.zone.is_none()
}
