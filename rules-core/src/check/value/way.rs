//! The walking distance between two outlines, round obstacles.

use crate::check::Missing;
use crate::check::judge::Judge;
use crate::check::value::distance::{Drawn, End, Pair};
use crate::check::world::env::Env;
use crate::check::world::env::Referent;
use crate::check::world::special::in_the_way;
use crate::check::world::ways::Ways;
use crate::measure::{Hurdle, Stand, Walk, contains, least_way, way_round};
use crate::plan::{Form, Looked, ThingIndex};
use crate::quantity::{Interval, NO_HIGH};
use crate::vocabulary::{KindId, OutlineId};
use crate::work;

/// The drawn obstacles.
struct Obstacles<'a> {
    drawn: Vec<Drawn<'a>>,
    /// Whether all obstacles near enough to matter are drawn, with their outlines.
    all: bool,
    /// Undrawn obstacles are farther from the lot than this; `None`: there are none.
    beyond: Option<i64>,
}

impl<'a> Judge<'a> {
    /// The walking distance for a pair whose straight distance is known.
    pub(crate) fn on_foot(&self, pair: Pair, one: &End<'_>, other: &End<'_>) -> Pair {
        let straight = Pair {
            range: Interval::from_low(pair.range.low),
            ..pair
        };
        if matches!(one.referent, Referent::Unseen(_))
            || matches!(other.referent, Referent::Unseen(_))
        {
            return straight;
        }
        if pair.range.high == 0 {
            return pair;
        }
        let (Some(a), Some(b)) = (self.drawn(one), self.drawn(other)) else {
            return straight;
        };
        let ways = self.ways(&a, &b);
        let low = ways
            .low
            .map_or(pair.range.low, |low| pair.range.low.max(low.into()));
        // Where only the part in a zone is meant, a route from the whole outline may start elsewhere.
        let whole = one.zone.is_none() && other.zone.is_none();
        let high = ways.high.filter(|_| whole);
        let high = high.map_or(NO_HIGH, |walk| i128::from(walk.length).max(low));
        Pair {
            range: Interval { low, high },
            ..pair
        }
    }

    fn ways(&self, a: &Drawn<'a>, b: &Drawn<'a>) -> Ways {
        let obstacles = self.obstacles(a, b);
        work::step(u64::try_from(obstacles.drawn.len()).unwrap_or(u64::MAX));
        let shifted = obstacles
            .drawn
            .iter()
            .chain([a, b])
            .any(|drawn| !self.scene.plan().shift_together(drawn.index, a.index));
        let off = |drawn: &Drawn<'a>| match shifted {
            true => self.absolute_tolerance(drawn),
            false => self.relative_tolerance(drawn),
        };
        let ends = off(a).zip(off(b));
        let offs: Vec<Option<i64>> = obstacles.drawn.iter().map(off).collect();
        let Some((from, to)) = ends else {
            return Ways::default();
        };
        let (from, to) = (
            Stand {
                figure: a.figure,
                off: from,
            },
            Stand {
                figure: b.figure,
                off: to,
            },
        );
        let hurdles: Vec<(Hurdle<'a>, bool)> = obstacles
            .drawn
            .iter()
            .zip(&offs)
            .filter_map(|(drawn, off)| {
                let hurdle = Hurdle {
                    figure: drawn.figure,
                    off: (*off)?,
                    own: [a, b].map(|end| self.is_at_its_edge(end, drawn)),
                };
                let vocabulary = &self.scene.rules().vocabulary;
                Some((hurdle, vocabulary.outline(drawn.outline).solid))
            })
            .collect();
        let all = obstacles.all && offs.iter().all(Option::is_some);
        let key = (
            a.index,
            a.outline,
            b.index,
            b.outline,
            self.scene.as_drawn,
            all,
        );
        let ways = self
            .scene
            .base
            .ways(key, || self.search(&from, &to, &hurdles, all));
        let far = from.off.max(to.off);
        let near = |walk: &Walk| self.is_near_enough(walk, far, obstacles.beyond);
        Ways {
            low: ways.low,
            high: ways.high.clone().filter(near),
        }
    }

    fn search(
        &self,
        from: &Stand<'_>,
        to: &Stand<'_>,
        hurdles: &[(Hurdle<'_>, bool)],
        all: bool,
    ) -> Ways {
        // A cord may pass through a fence, but not through the wall of a house.
        let solids = hurdles.iter().filter(|(_, solid)| *solid);
        let solids: Vec<Hurdle<'_>> = solids.map(|(hurdle, _)| *hurdle).collect();
        let hurdles: Vec<Hurdle<'_>> = hurdles.iter().map(|(hurdle, _)| *hurdle).collect();
        Ways {
            low: least_way(from, to, &solids),
            high: all.then(|| way_round(from, to, &hurdles)).flatten(),
        }
    }

    fn obstacles(&self, a: &Drawn<'a>, b: &Drawn<'a>) -> Obstacles<'a> {
        let mut found = Obstacles {
            drawn: Vec::new(),
            all: true,
            beyond: None,
        };
        let vocabulary = &self.scene.rules().vocabulary;
        for outline in in_the_way(vocabulary) {
            let kind = vocabulary.outline(outline).kind;
            self.note_unseen(kind, &mut found);
            for index in self.scene.base.of_kind(kind) {
                if [a, b]
                    .iter()
                    .any(|end| self.is_around(end, *index, outline))
                {
                    continue;
                }
                let end = End::whole(Referent::Thing(*index), outline);
                match self.drawn(&end) {
                    Some(drawn) => found.drawn.push(drawn),
                    None => found.all = false,
                }
            }
        }
        found
    }

    /// Whether an end of the route is this outline or one around it. A route that has left the end has then left the outline
    /// behind as well.
    fn is_around(&self, end: &Drawn<'a>, index: ThingIndex, outline: OutlineId) -> bool {
        let vocabulary = &self.scene.rules().vocabulary;
        end.index == index && (end.outline == outline || vocabulary.is_within(outline, end.outline))
    }

    /// Whether an end of the route is another outline of this thing or a part of it, such as a door in the wall of a house.
    fn is_at_its_edge(&self, end: &Drawn<'a>, of: &Drawn<'a>) -> bool {
        end.index == of.index || end.thing.part_of == Some(of.index)
    }

    /// Notes that obstacles of a kind may not be drawn.
    fn note_unseen(&self, kind: KindId, found: &mut Obstacles<'a>) {
        if !self.may_be_unseen(kind, &Env::EMPTY) {
            return;
        }
        self.scene.depends_on(Missing::Inventory(kind), true, &[]);
        match self.scene.plan().inventory.get(&kind) {
            Some(Looked::AllShown(Some(radius))) => {
                found.beyond = Some(found.beyond.map_or(*radius, |least| least.min(*radius)));
            }
            _ => found.all = false,
        }
    }

    /// Whether a route stays where everything is drawn: on the lot, whose tolerance is less than the distance around it that
    /// was searched.
    fn is_near_enough(&self, walk: &Walk, far: i64, beyond: Option<i64>) -> bool {
        let Some(beyond) = beyond else { return true };
        let lot = self.scene.base.of_kind(self.special.lot).first();
        let lot = lot.and_then(|index| Some((*index, self.scene.thing(*index)?)));
        let lot = lot
            .and_then(|(index, thing)| Some((index, thing.outlines.get(&self.special.boundary)?)));
        let Some((index, boundary)) = lot else {
            return false;
        };
        let shift = self.tolerance_of(index, boundary);
        let off = shift.map(|tolerance| tolerance.accuracy.saturating_add(tolerance.shift));
        let way = Form::Path(walk.way.clone());
        let within =
            |ring: &Form| matches!(ring, Form::Ring(ring) if contains(ring, &way).is_within());
        boundary.forms.iter().any(within)
            && off.is_some_and(|off| off.saturating_add(far) <= beyond)
    }
}
