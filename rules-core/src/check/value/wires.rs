//! The distance to an overhead line that sags between its supports.

use crate::check::Witness;
use crate::check::judge::Judge;
use crate::check::value::distance::{Drawn, End, Pair, slant, witness};
use crate::check::value::heights::{Extent, VaryingHeight};
use crate::check::world::env::{Env, thing_of};
use crate::measure::{Fit, Keep, Wire};
use crate::plan::{Figure, Form, Point};
use crate::quantity::Interval;
use crate::ruleset::Zone;
use crate::vocabulary::Role;

/// The facts that describe how it hangs: its heights at the first and the last point of its path, and its sag.
const HEIGHTS_AND_SAG: [&str; 3] = ["height-at-start", "height-at-end", "sag"];
/// The whole span.
const WHOLE: (f64, f64) = (0.0, 1.0);
/// The share of the span by which a cut part is narrowed at either end.
const NARROW: f64 = 1e-7;

impl<'a> Judge<'a> {
    /// The distance in space to or from a wire whose sag and heights the plan states; `None` where there is no such wire.
    pub(crate) fn along_wire(
        &self,
        pair: Pair,
        one: &End<'_>,
        other: &End<'_>,
        env: &Env<'_>,
    ) -> Option<Pair> {
        let turned = || Some(self.hung_pair(pair.turned(), other, one, env)?.turned());
        self.hung_pair(pair, one, other, env).or_else(turned)
    }

    fn hung_pair(
        &self,
        pair: Pair,
        line: &End<'_>,
        other: &End<'_>,
        env: &Env<'_>,
    ) -> Option<Pair> {
        let drawn = self.hung_line(line)?;
        let thing = self.drawn(other)?;
        let tolerance = self.joint_tolerance(&drawn, &thing)?;
        let (wire, below) = self.hung(line, &drawn, &thing, env)?;
        let against = self.extent(other, line, env).upon(below);
        let rise = |heights| level_wire(heights).rise(&against);
        let nearest = |parts: &[(f64, f64)]| wire.nearest(parts, thing.figure, tolerance, rise);
        let (mut range, gap) = nearest(&[WHOLE]);
        // The part of a thing in a zone is no nearer than the whole. For a wire, that part is measured.
        let left = match line.zone {
            Some(zone) => self.parts_in(zone, &wire, &drawn, env),
            None => vec![WHOLE],
        };
        if other.zone.is_some() || left.is_empty() {
            let any_part = slant(pair.range, rise(wire.between(0.0, 1.0)));
            range.high = range.high.max(any_part.high);
        } else if left != [WHOLE] {
            range.high = nearest(&left).0.high;
        }
        Some(Pair {
            range,
            witness: Some(witness(&drawn, &thing, gap)),
            tolerance: Some(tolerance).filter(|tolerance| *tolerance > 0),
        })
    }

    /// The parts of a wire that are surely in a zone.
    fn parts_in(
        &self,
        zone: &Zone,
        wire: &Wire,
        drawn: &Drawn<'a>,
        env: &Env<'_>,
    ) -> Vec<(f64, f64)> {
        let inner = self
            .region(zone, drawn, env)
            .parts(drawn.figure, Keep::Within, Fit::Inner);
        let forms = inner.iter().flat_map(|piece| &piece.forms);
        let shares = forms.filter_map(|form| wire.share_of(form));
        // The ends of a piece are rounded, so stay clear of them.
        let within = shares.map(|(from, to)| (from + NARROW, to - NARROW));
        within.filter(|(from, to)| from < to).collect()
    }

    /// A wire as it hangs, and the ground below the other thing in the same datum.
    fn hung(
        &self,
        line: &End<'_>,
        drawn: &Drawn<'a>,
        other: &Drawn<'a>,
        env: &Env<'_>,
    ) -> Option<(Wire, Interval)> {
        let off = self.absolute_tolerance(drawn);
        let (first, last) = (support(drawn.figure, 0)?, support(drawn.figure, 1)?);
        let under = [
            Some((&first, off)),
            Some((&last, off)),
            Some(self.lying(other)),
        ];
        let [here, there, below] = self.grounds(under, env);
        let [start, end, sag] = HEIGHTS_AND_SAG.map(|name| self.stated_height(line, name, env));
        let heights = [start.add(here), end.add(there)];
        let wire = Wire::hung(drawn.figure.forms.first()?, heights, sag, off?)?;
        Some((wire, below))
    }

    fn stated_height(&self, line: &End<'_>, name: &str, env: &Env<'_>) -> Interval {
        let vocabulary = &self.scene.rules().vocabulary;
        let fact = vocabulary.fact_named(vocabulary.outline(line.outline).kind, name);
        fact.map_or(Interval::any(), |fact| {
            self.varying_height(fact, line.referent, env).hull()
        })
    }

    /// An overhead line, where the plan says how it hangs.
    fn hung_line(&self, end: &End<'_>) -> Option<Drawn<'a>> {
        let vocabulary = &self.scene.rules().vocabulary;
        let thing = self.scene.thing(thing_of(end.referent)?)?;
        if vocabulary.kind(thing.kind).role != Some(Role::Wire) {
            return None;
        }
        let stated = |name: &str| {
            let fact = vocabulary.fact_named(thing.kind, name);
            fact.is_some_and(|fact| thing.facts.get(&fact).is_some_and(|own| own.span.is_some()))
        };
        HEIGHTS_AND_SAG
            .iter()
            .all(|name| stated(name))
            .then_some(())?;
        self.drawn(end)
    }
}

fn level_wire(heights: Interval) -> Extent {
    let wire = VaryingHeight::of(heights);
    Extent {
        bottom: wire,
        top: wire,
    }
}

/// A place of a line of two, alone.
fn support(line: &Figure, at: usize) -> Option<Figure> {
    let [Form::Path(points)] = &line.forms[..] else {
        return None;
    };
    let place: Point = *points.get(at)?;
    Some(Figure::new(vec![Form::Point(place)], 0, line.accuracy))
}

impl Pair {
    /// The same seen from the other end.
    fn turned(self) -> Pair {
        let turned = |seen: Witness| Witness {
            from: seen.to,
            to: seen.from,
            from_thing: seen.to_thing,
            from_outline: seen.to_outline,
            to_thing: seen.from_thing,
            to_outline: seen.from_outline,
        };
        Pair {
            witness: self.witness.map(turned),
            ..self
        }
    }
}
