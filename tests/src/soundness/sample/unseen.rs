//! Things that nobody has looked for, and whether things agree with what was taped between them.

use super::*;

impl Sampler<'_> {
    pub(super) fn tapes_agree(&self, things: &[Being]) -> bool {
        self.plan.measured.iter().all(|tape| {
            let end = |(thing, outline): (usize, OutlineId)| &things[thing].outlines[&outline];
            let is = geometry::nearest(end(tape.from), end(tape.to)).0;
            let whole = crate::soundness::number::Real::whole;
            is.compared(whole(tape.range.low))
                .is_some_and(|order| order.is_ge())
                && is
                    .compared(whole(tape.range.high))
                    .is_some_and(|order| order.is_le())
        })
    }

    /// Adds things that the plan does not show, if the inventory leaves room for them.
    pub(super) fn unseen(&mut self, world: &mut World) {
        for kind in self.words.kinds() {
            if !self.words.may_be_left_out(kind) {
                continue;
            }
            let number = self.words.vocabulary.kind(kind).number;
            let so_many = match number {
                Number::One => 0,
                Number::AtMostOne if world.of_kind(kind).next().is_some() => 0,
                Number::AtMostOne => self.random.below(2),
                Number::Many => self.random.weighted(&[3, 3, 1, 1, 1]),
            };
            let has_place = !self.words.outlines(kind).is_empty();
            let beyond = match self.plan.inventory.get(&kind) {
                None => -1,
                Some(Looked::AllShown(Some(within))) if has_place => *within,
                _ => continue,
            };
            for number in 0..so_many {
                let id = format!("unseen-{}-{number}", kind.0);
                if let Some(being) = self.one_unseen(world, kind, id, beyond) {
                    world.things.push(being);
                }
            }
        }
    }

    /// One unseen thing: on top of something, at the very edge of what was looked for, or anywhere beyond it.
    pub(super) fn one_unseen(
        &mut self,
        world: &World,
        kind: KindId,
        id: String,
        beyond: i64,
    ) -> Option<Being> {
        let within = if beyond < 0 { ANYWHERE / 4 } else { ANYWHERE };
        let mut being = being(self.random, self.words, kind, id, within);
        being.facts = self.facts(kind, &BTreeMap::new());
        being.papers = self.papers_of_unseen();
        let lot = &world.named("lot")?.outlines[&self.words.boundary];
        let direction = self.random.direction();
        for drawn in being.outlines.values_mut() {
            if beyond < 0 {
                self.onto_something(world, drawn);
                continue;
            }
            self.just_beyond(lot, drawn, beyond, direction);
        }
        let limit = crate::soundness::number::Real::whole(i128::from(beyond));
        let allowed = being.outlines.values().all(|drawn| {
            let away = geometry::nearest(lot, drawn).0;
            beyond < 0 || away.compared(limit).is_some_and(|order| order.is_gt())
        });
        allowed.then_some(being)
    }

    pub(super) fn papers_of_unseen(&mut self) -> Vec<Level> {
        (0..DOCUMENTS)
            .map(|number| self.paper(number, Some(usize::MAX)))
            .collect()
    }

    pub(super) fn onto_something(&mut self, world: &World, drawn: &mut Drawn) {
        let targets: Vec<&Drawn> = world
            .things
            .iter()
            .flat_map(|thing| thing.outlines.values())
            .collect();
        if targets.is_empty() || self.random.chance(30) {
            return;
        }
        let target = geometry::middle(&self.random.pick(&targets).forms[0]);
        let own = geometry::middle(&drawn.forms[0]);
        let step = ((target.0 - own.0) as i64, (target.1 - own.1) as i64);
        for form in &mut drawn.forms {
            *form = moved(form, || step);
        }
    }

    /// Moves an outline away from the lot until it is just beyond a distance from it.
    pub(super) fn just_beyond(
        &mut self,
        lot: &Drawn,
        drawn: &mut Drawn,
        beyond: i64,
        way: (f64, f64),
    ) {
        let at = |by: i64| {
            let step = towards(way, by);
            let forms = drawn
                .forms
                .iter()
                .map(|form| moved(form, || step))
                .collect();
            Drawn {
                forms,
                spread: drawn.spread,
            }
        };
        let far = |by: i64| geometry::nearest(lot, &at(by)).0.floor() > i128::from(beyond);
        let (mut near, mut out) = (0, 1000 * METRE);
        if far(near) || !far(out) {
            return;
        }
        // Sometimes slightly beyond the edge.
        let slack = *self.random.pick(&[1, 1000, METRE / 10]);
        while out - near > slack {
            let middle = i64::midpoint(near, out);
            match far(middle) {
                true => out = middle,
                false => near = middle,
            }
        }
        *drawn = at(out);
    }
}
