//! From a world to plans that say less and less about it. Every world of one plan is also a world of the next.

use std::collections::BTreeMap;

use rules_core::plan::Point;

use super::site::{Fact, SOURCES, Site, Span, Thing, corners_of};
use crate::soundness::blur::vector;
use crate::soundness::random::Random;
use crate::soundness::words::METRE;

/// A plan, and what was taken back from the one before.
#[derive(Debug, Clone)]
pub struct Step {
    /// The plan.
    pub site: Site,
    /// In words.
    pub done: String,
}

/// A chain of plans for one world, from the exact one to the vaguest. With `whole`, things move only as a whole, never
/// corner by corner.
pub fn chain(random: &mut Random, world: &Site, steps: usize, whole: bool) -> Vec<Step> {
    let mut chain = vec![Step {
        site: world.clone(),
        done: "exact".to_owned(),
    }];
    for _ in 0..steps {
        let mut site = chain[chain.len() - 1].site.clone();
        let mut blur = Blur {
            random,
            site: &mut site,
            whole,
        };
        if let Some(done) = blur.once() {
            chain.push(Step { site, done });
        }
    }
    chain
}

struct Blur<'a> {
    random: &'a mut Random,
    site: &'a mut Site,
    whole: bool,
}

impl Blur<'_> {
    /// Takes back one statement; `None` if the one chosen has nothing to take back.
    fn once(&mut self) -> Option<String> {
        match self.random.weighted(&[26, 18, 8, 12, 3, 3, 14, 4, 3, 3]) {
            0 => self.position(),
            1 => self.shift(),
            2 => self.corners(),
            3 => self.shift_unsaid(),
            4 => self.accuracy_unsaid(),
            5 => self.source_unsaid(),
            6 => self.fact_widened(),
            7 => self.fact_unsaid(),
            8 => self.kind_unsaid(),
            _ => self.hidden(),
        }
    }

    fn size(&mut self) -> i64 {
        let part = *self.random.pick(&[1_000_000_000, 1000, 100, 10, 5, 2, 1]);
        METRE / part
    }

    fn thing(&mut self) -> &mut Thing {
        let at = self.random.below(self.site.things.len());
        &mut self.site.things[at]
    }

    /// Moves a thing, corner by corner or as a whole, and adds as much to its accuracy. Corners at one place stay
    /// together.
    fn position(&mut self) -> Option<String> {
        let by = self.size();
        // An area whose corners move far one by one might cross itself.
        let whole = self.whole || by > METRE / 10 || self.random.chance(50);
        let whole = whole.then(|| vector(self.random, by));
        let mut random = self.random.clone();
        self.random.bits();
        let thing = self.thing();
        let mut gone: BTreeMap<Point, (i64, i64)> = BTreeMap::new();
        for (_, shape) in &mut thing.outlines {
            for corner in corners_of(shape) {
                let own = gone
                    .entry(*corner)
                    .or_insert_with(|| whole.unwrap_or_else(|| vector(&mut random, by)));
                moved(corner, *own);
            }
        }
        thing.accuracy = thing.accuracy.map(|off| off + by);
        Some(format!("position of {} by {by}", thing.id))
    }

    /// Moves everything from one source, and adds as much to its shift. If a side of the lot comes from that source,
    /// the lot's other sides are off by as much: their sources get the shift, too, or they become less accurate.
    fn shift(&mut self) -> Option<String> {
        let source = self.random.below(SOURCES);
        let by = self.size();
        let step = vector(self.random, by);
        self.shift_source(source, by, step);
        if self.site.sides.iter().any(|side| side.source == source) {
            for corner in &mut self.site.corners {
                moved(corner, step);
            }
            for other in (0..SOURCES).filter(|other| *other != source) {
                match self.random.chance(50) {
                    true if self.site.sides.iter().any(|side| side.source == other) => {
                        self.shift_source(other, by, step);
                    }
                    _ => self.sides_off(Some(other), by),
                }
            }
        }
        Some(format!("shift of s{source} by {by}"))
    }

    fn shift_source(&mut self, source: usize, by: i64, step: (i64, i64)) {
        for thing in &mut self.site.things {
            if thing.source == Some(source) {
                let shapes = thing.outlines.iter_mut();
                shapes
                    .flat_map(|(_, shape)| corners_of(shape))
                    .for_each(|corner| moved(corner, step));
            }
        }
        let shift = &mut self.site.shifts[source];
        *shift = shift.map(|so_far| so_far + by);
    }

    /// Makes the sides from a source, or all sides, less accurate.
    fn sides_off(&mut self, source: Option<usize>, by: i64) {
        for side in &mut self.site.sides {
            if source.is_none_or(|source| source == side.source) {
                side.accuracy = side.accuracy.map(|off| off + by);
            }
        }
    }

    /// Moves the lot's corners, each in its own direction.
    fn corners(&mut self) -> Option<String> {
        let by = self.size();
        for corner in &mut self.site.corners {
            moved(corner, vector(self.random, by));
        }
        self.sides_off(None, by);
        Some(format!("corners of the lot by {by}"))
    }

    fn shift_unsaid(&mut self) -> Option<String> {
        let source = self.thing().source?;
        self.site.shifts[source] = None;
        Some(format!("shift of s{source} unsaid"))
    }

    fn accuracy_unsaid(&mut self) -> Option<String> {
        if self.random.chance(20) {
            let side = self.random.below(4);
            self.site.sides[side].accuracy = None;
            return Some(format!("accuracy of side {side} unsaid"));
        }
        let thing = self.thing();
        thing.accuracy = None;
        Some(format!("accuracy of {} unsaid", thing.id))
    }

    fn source_unsaid(&mut self) -> Option<String> {
        let thing = self.thing();
        thing.source = None;
        Some(format!("source of {} unsaid", thing.id))
    }

    fn fact(&mut self) -> Option<(usize, usize)> {
        let things = self.site.things.iter().enumerate();
        let all: Vec<(usize, usize)> = things
            .flat_map(|(thing, own)| (0..own.facts.len()).map(move |fact| (thing, fact)))
            .collect();
        (!all.is_empty()).then(|| *self.random.pick(&all))
    }

    fn fact_widened(&mut self) -> Option<String> {
        let (thing, fact) = self.fact()?;
        let (below, above) = (self.size(), self.size());
        let another = Span {
            count: self.random.between(1, 40),
            months: self.random.chance(50),
        };
        let end = below < above;
        let id = self.site.things[thing].id.clone();
        let (name, said) = &mut self.site.things[thing].facts[fact];
        match said {
            Fact::Length(low, high) => (*low, *high) = ((*low - below).max(0), *high + above),
            Fact::Along((low, high), _) if end => {
                (*low, *high) = ((*low - below).max(0), *high + above);
            }
            Fact::Along(_, (low, high)) => (*low, *high) = ((*low - below).max(0), *high + above),
            Fact::Word(words) => {
                let other = words_of(name).iter().find(|word| !words.contains(word));
                words.push(other?);
            }
            Fact::Time(spans) if !spans.contains(&another) => spans.push(another),
            Fact::Time(_) => return None,
        }
        Some(format!("{name} of {id} widened"))
    }

    fn fact_unsaid(&mut self) -> Option<String> {
        let (thing, fact) = self.fact()?;
        let thing = &mut self.site.things[thing];
        let (name, _) = thing.facts.remove(fact);
        Some(format!("{name} of {} unsaid", thing.id))
    }

    fn kind_unsaid(&mut self) -> Option<String> {
        let kinds: Vec<&'static str> = self.site.shown.iter().copied().collect();
        let kind = (!kinds.is_empty()).then(|| *self.random.pick(&kinds))?;
        self.site.shown.remove(kind);
        Some(format!("nobody looked for {kind}"))
    }

    /// Leaves a thing out, and with it the statement that all of its kind are shown.
    fn hidden(&mut self) -> Option<String> {
        let count = self.site.things.len();
        let at = (count > 1).then(|| 1 + self.random.below(count - 1))?;
        let hidden = self.site.things.remove(at);
        self.site.shown.remove(hidden.kind);
        for thing in &mut self.site.things {
            thing.part_of.take_if(|whole| *whole == hidden.id);
        }
        Some(format!("{} hidden", hidden.id))
    }
}

/// The words that a fact can be.
pub fn words_of(fact: &str) -> &'static [&'static str] {
    match fact {
        "stands-on" => &["lot", "neighbour-lot"],
        "on" => &["own", "lot-line"],
        _ => &[],
    }
}

fn moved(corner: &mut Point, (x, y): (i64, i64)) {
    corner.x += x;
    corner.y += y;
}
