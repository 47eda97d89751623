//! Which things move with a pool, and which moves keep its middle on the lot.

use super::spot::{MILLIMETRE, Way};
use crate::check::world::special::Special;
use crate::measure::{Bounds, Side, side};
use crate::plan::{Figure, Form, Plan, Point, ThingIndex};
use crate::vocabulary::KindId;

/// What moves, and over which lot.
#[derive(Debug, Clone)]
pub(super) struct Moving {
    /// The pool first, then the things named to move with it, then the parts of all these.
    pub things: Vec<ThingIndex>,
    /// The middle of the pool, where it is drawn.
    pub middle: Point,
    /// The lot's outline.
    lot: Vec<Vec<Point>>,
}

impl Moving {
    /// The pool and what moves with it.
    ///
    /// # Errors
    /// A sentence that says why it is not clear what to move.
    pub fn of(
        plan: &Plan,
        special: &Special,
        pool: Option<&str>,
        with: &[String],
    ) -> Result<Moving, String> {
        let pool = the_pool(plan, special.pool, pool)?;
        let mut things = vec![pool];
        for id in with {
            let named = plan.things.iter().position(|thing| thing.id == *id);
            things.push(named.ok_or_else(|| format!("There is no `{id}` on this plan."))?);
        }
        let part = |index: &ThingIndex| {
            let whole = plan.things.get(*index).and_then(|thing| thing.part_of);
            whole.is_some_and(|whole| things.contains(&whole)) && !things.contains(index)
        };
        let parts: Vec<ThingIndex> = (0..plan.things.len()).filter(part).collect();
        things.extend(parts);
        let middle = middle_of(plan, pool).ok_or("The pool is not drawn on this plan.")?;
        let lot = lot(plan, special).ok_or("The lot is not drawn on this plan.")?;
        Ok(Moving {
            things,
            middle,
            lot,
        })
    }

    /// The moves that take the pool's middle to the south-west and the north-east corner of the box around the lot.
    pub fn range(&self) -> (Way, Way) {
        let rings = self.lot.iter().filter_map(|ring| Bounds::around(ring));
        let Bounds { low, high } =
            (rings.reduce(Bounds::join)).unwrap_or(Bounds::of(self.middle, self.middle));
        let way = |to: Point, up: i64| Way {
            x: (to.x - self.middle.x + up).div_euclid(MILLIMETRE),
            y: (to.y - self.middle.y + up).div_euclid(MILLIMETRE),
        };
        (way(low, 0), way(high, MILLIMETRE - 1))
    }

    /// Whether a move takes the pool's middle to a place on the lot.
    pub fn on_lot(&self, way: Way) -> bool {
        let at = Point {
            x: self
                .middle
                .x
                .saturating_add(way.x.saturating_mul(MILLIMETRE)),
            y: self
                .middle
                .y
                .saturating_add(way.y.saturating_mul(MILLIMETRE)),
        };
        self.lot.iter().any(|ring| side(ring, at) != Side::Outside)
    }
}

fn the_pool(plan: &Plan, pool: KindId, wanted: Option<&str>) -> Result<ThingIndex, String> {
    let is_drawn = |index: &ThingIndex| {
        let thing = plan.things.get(*index);
        thing.is_some_and(|thing| thing.kind == pool && !thing.outlines.is_empty())
    };
    let id = |index: ThingIndex| Some((index, plan.things.get(index)?.id.as_str()));
    let drawn = (0..plan.things.len()).filter(is_drawn);
    let pools: Vec<(ThingIndex, &str)> = drawn.filter_map(id).collect();
    let names = || {
        pools
            .iter()
            .map(|(_, id)| format!("`{id}`"))
            .collect::<Vec<_>>()
            .join(", ")
    };
    match (wanted, pools.as_slice()) {
        (_, []) => Err(
            "No pool is drawn on this plan: draw it somewhere, in the size it is to have."
                .to_owned(),
        ),
        (None, [(only, _)]) => Ok(*only),
        (None, _) => Err(format!(
            "The plan has several pools ({}): name the one to be moved.",
            names()
        )),
        (Some(id), _) => {
            let found = pools.iter().find(|(_, known)| *known == id);
            found
                .map(|(index, _)| *index)
                .ok_or_else(|| format!("There is no pool `{id}` drawn here; there is {}.", names()))
        }
    }
}

/// The middle of the smallest outline, in whole millimetres from the plan's origin.
fn middle_of(plan: &Plan, pool: ThingIndex) -> Option<Point> {
    let outlines = plan.things.get(pool)?.outlines.values();
    let boxes = outlines.filter_map(box_around);
    let across = |it: &Bounds| (it.high.x - it.low.x).saturating_add(it.high.y - it.low.y);
    let Bounds { low, high } = boxes.min_by_key(across)?;
    Some(Point {
        x: low.x + (high.x - low.x) / 2,
        y: low.y + (high.y - low.y) / 2,
    })
}

fn box_around(figure: &Figure) -> Option<Bounds> {
    let forms = figure.forms.iter();
    let boxes = forms.filter_map(|form| Bounds::around(form.points()));
    boxes.reduce(Bounds::join)
}

fn lot(plan: &Plan, special: &Special) -> Option<Vec<Vec<Point>>> {
    let lot = plan.things.iter().find(|thing| thing.kind == special.lot)?;
    let boundary = lot.outlines.get(&special.boundary)?;
    let ring = |form: &Form| match form {
        Form::Ring(points) => Some(points.clone()),
        _ => None,
    };
    let rings: Vec<Vec<Point>> = boundary.forms.iter().filter_map(ring).collect();
    (!rings.is_empty()).then_some(rings)
}
