//! Where on the lot the pool could go.
//!
//! The map is made of square cells. To judge a whole cell at once, the pool is put at its middle and its source is given a
//! shift of half the cell's diagonal: the checker then finds what holds at every place in the cell. So this code knows no
//! rule by name and no measure by kind. Where a whole cell cannot be decided, its four quarters are tried.

mod judging;
mod map;
mod model;
mod moving;
mod offers;
mod place;
mod pose;
mod room;
mod smaller;
mod spot;
mod survey;
mod words;

#[cfg(test)]
mod placement_tests;

pub use map::Class;
pub use model::*;
pub use place::{place, place_texts, place_to_json};
pub use spot::Way;

use crate::Refusal;
use crate::answer::{plan_of, plan_refused};
use crate::check::world::special::Special;
use crate::edit::{Change, change};
use crate::plan::Plan;
use crate::ruleset::RuleSet;
use crate::text::Node;
use judging::Judging;
use map::{MapSettings, Patch};
use moving::Moving;
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
}

impl Default for Wishes {
    fn default() -> Self {
        Wishes {
            pool: None,
            with: Vec::new(),
            turns: 1,
            finest: 100,
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
    patches: Vec<Patch>,
    /// How many steps it took to try the lot and to draw the map.
    steps: u64,
}

impl<'r> Ground<'r> {
    /// Reads a document, with its pool turned, and draws the map.
    fn new(
        (document, text): (&Node, &str),
        rules: &'r RuleSet,
        wishes: &Wishes,
        degrees: f64,
    ) -> Result<Ground<'r>, NotPlaced> {
        let plan = turned((document, text), rules, wishes, degrees)?;
        let moving = moving_of(&plan, rules, wishes)?;
        let too_much =
            |it: crate::check::TooMuch| NotPlaced::Refused(plan_refused(text, it.of_plan()));
        let mut judging = Judging::new(&plan, &moving.things, rules).map_err(too_much)?;
        let survey = survey::survey(&mut judging, &moving);
        let patches = drawn_map(&mut judging, (&moving, &survey), wishes.finest);
        let steps = judging.steps();
        Ok(Ground {
            degrees,
            plan,
            moving,
            judging,
            survey,
            patches,
            steps,
        })
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
            degrees: Some(degrees),
            to: None,
            about: Some(about),
        };
        change(&mut document, &turn).map_err(|wrong| NotPlaced::Unclear(wrong.0))?;
    }
    read(&document)
}

fn drawn_map(
    judging: &mut Judging<'_>,
    (moving, survey): (&Moving, &Survey),
    finest: u32,
) -> Vec<Patch> {
    let finest = i64::from(finest.max(2)).div_euclid(2) * 2;
    let (low, high) = moving.range();
    let cells = map::cover(low, high, first_size(finest));
    let settings = MapSettings {
        placed: survey.of(Role::Placed),
        waiting: survey.waiting(),
        finest,
        most_steps: MOST_STEPS,
    };
    map::map(judging, cells, &settings)
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
