//! Where on the lot the pool could go.
//!
//! The map is made of square cells. To judge a whole cell at once, the pool is put at its middle and its source is given a
//! shift of half the cell's diagonal: the checker then finds what holds at every place in the cell. So this code knows no
//! rule by name and no measure by kind. Where a whole cell cannot be decided, its four quarters are tried.

mod chart;
mod distances;
mod geojson;
mod judging;
mod map;
mod measures;
mod model;
mod moving;
mod nearest;
mod offers;
mod papers;
mod pause;
mod place;
mod pose;
mod reasons;
mod regions;
mod room;
mod smaller;
mod spot;
mod survey;
mod why_not;
mod words;

#[cfg(test)]
mod placement_tests;
#[cfg(test)]
mod why_not_tests;

pub use chart::place_to_svg;
pub use geojson::place_to_geojson;
pub use map::Class;
pub use model::*;
pub use pause::{Pause, Wait};
pub use place::{place, place_by_and_by, place_texts, place_to_json};
pub use spot::Way;

use crate::Refusal;
use crate::answer::{plan_of, plan_refused};
use crate::check::world::special::Special;
use crate::edit::{Change, change};
use crate::plan::Plan;
use crate::ruleset::RuleSet;
use crate::text::Node;
use judging::{Asked, Judging};
use map::{MapSettings, Patch};
use moving::Moving;
use papers::Given;
use spot::Spot;
use survey::{Role, Survey};

/// What is asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wishes {
    /// The id of the pool to move, where the plan has several.
    pub pool: Option<String>,
    /// The ids of things that move with it, other than its own parts.
    pub with: Vec<String>,
    /// How many turns to try, evenly spread over the whole circle; the first is as drawn.
    pub turns: u32,
    /// The size of the smallest cells of the map, in millimetres.
    pub finest: u32,
    /// Whether to find out more: what each paper that is not in hand would add, how far the pool can slide from each place on
    /// offer, and how these compare.
    pub in_full: bool,
}

impl Default for Wishes {
    fn default() -> Self {
        Wishes {
            pool: None,
            with: Vec::new(),
            turns: 1,
            finest: 100,
            in_full: true,
        }
    }
}

/// Why nothing can be said about where a pool could go.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotPlaced {
    /// Something is wrong with a text.
    Refused(Refusal),
    /// It is not clear what to move: a sentence that says why.
    Unclear(String),
}

/// The most steps to take for the map of one turn.
const MOST_STEPS: u64 = 20_000_000;

/// A plan with its pool turned, and the map of where the pool can go.
struct Ground<'r> {
    /// How far the pool is turned anticlockwise from the drawing.
    degrees: f64,
    plan: Plan,
    moving: Moving,
    judging: Judging<'r>,
    survey: Survey,
    /// Whether to find out more than the map and the places on offer.
    in_full: bool,
    /// No cell of the map is smaller, in millimetres; an even number.
    finest: i64,
    patches: Vec<Patch>,
    /// How many steps it took to try the lot and to draw the map.
    steps: u64,
}

impl<'r> Ground<'r> {
    /// Reads a document, with its pool turned, and draws the map.
    async fn new(
        document: (&Node, &str),
        (rules, wishes): (&'r RuleSet, &Wishes),
        degrees: f64,
        pause: Pause<'r>,
    ) -> Result<Ground<'r>, NotPlaced> {
        let unmapped = Ground::unmapped(document, (rules, wishes), degrees, None, pause);
        let mut ground = unmapped.await?;
        ground.patches = ground.map(Given::AsStated).await;
        ground.steps = ground.judging.steps();
        Ok(ground)
    }

    /// The same without a map. How the rules come out all over the lot may be known already.
    async fn unmapped(
        (document, text): (&Node, &str),
        (rules, wishes): (&'r RuleSet, &Wishes),
        degrees: f64,
        survey: Option<&Survey>,
        pause: Pause<'r>,
    ) -> Result<Ground<'r>, NotPlaced> {
        let plan = turned((document, text), rules, wishes, degrees)?;
        let moving = moving_of(&plan, rules, wishes)?;
        let too_much =
            |it: crate::check::TooMuch| NotPlaced::Refused(plan_refused(text, it.of_plan()));
        let mut judging = Judging::new(&plan, &moving.things, rules).map_err(too_much)?;
        judging.pause_by(pause);
        let survey = match survey {
            Some(known) => known.clone(),
            None => survey::survey(&mut judging, &moving).await,
        };
        let mut ground = Ground {
            degrees,
            plan,
            moving,
            in_full: wishes.in_full,
            finest: i64::from(wishes.finest.max(2)).div_euclid(2) * 2,
            patches: Vec::new(),
            steps: 0,
            judging,
            survey,
        };
        ground.judging.keep_papers(&ground.mapped());
        ground.judging.cut_down_to(ground.finest);
        Ok(ground)
    }

    /// The rules that the map shows.
    fn mapped(&self) -> Asked {
        let mut rules = [self.survey.of(Role::Placed), self.survey.waiting()].concat();
        rules.sort_unstable();
        rules
    }

    /// Squares that cover all moves that keep the pool's middle on the lot.
    fn first_cells(&self) -> Vec<Spot> {
        let (low, high) = self.moving.range();
        map::cover(low, high, first_size(self.finest))
    }

    /// The map with some papers in hand.
    async fn map(&mut self, given: Given) -> Vec<Patch> {
        let cells = self.first_cells();
        let settings = MapSettings {
            placed: self.survey.of(Role::Placed),
            waiting: self.survey.waiting(),
            finest: self.finest,
            most_steps: MOST_STEPS,
        };
        self.judging.give(given);
        let patches = map::map(&mut self.judging, cells, &settings).await;
        self.judging.give(Given::AsStated);
        patches
    }
}

fn moving_of(plan: &Plan, rules: &RuleSet, wishes: &Wishes) -> Result<Moving, NotPlaced> {
    let special = Special::of(&rules.vocabulary);
    Moving::of(plan, &special, wishes.pool.as_deref(), &wishes.with).map_err(NotPlaced::Unclear)
}

/// The plan with its pool turned, as the form would turn it.
fn turned(
    (document, text): (&Node, &str),
    rules: &RuleSet,
    wishes: &Wishes,
    degrees: f64,
) -> Result<Plan, NotPlaced> {
    let read = |document: &Node| plan_of((document, text), rules).map_err(NotPlaced::Refused);
    let plan = read(document)?;
    if degrees == 0.0 {
        return Ok(plan);
    }
    let moving = moving_of(&plan, rules, wishes)?;
    let metres = |nanometres: i128| nanometres as f64 / 1e9;
    let origin = plan.origin;
    let about = [
        metres(i128::from(moving.middle.x) + origin.0),
        metres(i128::from(moving.middle.y) + origin.1),
    ];
    let mut document = document.clone();
    let named = moving.things.iter().take(1 + wishes.with.len());
    for thing in named.filter_map(|index| plan.things.get(*index)) {
        let turn = Change::Turn {
            path: thing.id.clone(),
            degrees,
            about: Some(about),
        };
        change(&mut document, &turn).map_err(|wrong| NotPlaced::Unclear(wrong.0))?;
    }
    read(&document)
}

/// The size of the first cells: the finest, doubled until it is at least 3 m.
fn first_size(finest: i64) -> i64 {
    const METRES: i64 = 3000;
    let mut size = finest;
    while size < METRES {
        size *= 2;
    }
    size
}
