//! What is said of where a pool could go.

use serde::Serialize;

use super::{Class, Way};
use crate::check::Outcome;
use crate::report::{CautionReport, Question, VerdictWords};

/// Where a pool could go.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Placement {
    /// What the plan is called.
    pub plan: String,
    /// The rule set, its edition and its authority.
    pub rules: String,
    /// The id of the pool.
    pub pool: String,
    /// The ids of what moves with it.
    pub moves_with: Vec<String>,
    /// What all that follows comes to, in a sentence.
    pub sentence: String,
    /// Rules that hold in no place that was tried: where they do not fail, they wait for an answer, a paper or the authority.
    /// No place that is offered breaks them, and nothing more is said of them.
    pub open_anyway: Vec<RuleName>,
    /// What is missing to decide those.
    pub questions: Vec<Question>,
    /// Rules that fail wherever the pool is put, and that moving it cannot mend: nothing here is said of them.
    pub fails_anyway: Vec<RuleName>,
    /// How many rules surely hold wherever on the lot the pool is put.
    pub holds_anyway: usize,
    /// How many tape readings to the pool are left aside: they are only true where it is drawn now.
    pub tapes_left_aside: usize,
    /// The map of each turn.
    pub turns: Vec<TurnReport>,
    /// Places that are offered, the nearest first. Each was judged by the ordinary checker.
    pub options: Vec<Offer>,
    /// Which rules rule out how much of the lot, each by itself; that which rules out most comes first.
    pub blocks: Vec<Block>,
    /// Where nothing fits: how large the same shape may be.
    pub smaller: Option<Smaller>,
    /// What to be careful of.
    pub cautions: Vec<CautionReport>,
    /// What this is not.
    pub disclaimer: String,
}

impl Placement {
    /// How surely the rules hold in the best of the places.
    pub fn best(&self) -> Option<Class> {
        self.options.iter().map(|offer| offer.holds).min()
    }
}

/// A rule by name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RuleName {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
}

/// How much of the lot is known to hold the pool at one turn: the area in which its middle may lie, in square metres.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct TurnReport {
    /// How far the pool is turned anticlockwise from the drawing, in degrees.
    pub degrees: f64,
    /// Where each rule surely holds.
    pub sure: f64,
    /// Where each rule holds as drawn, but not for sure.
    pub as_drawn: f64,
    /// Where it is open because an answer or a paper is missing.
    pub open: f64,
    /// What lies on an edge between these, cut as finely as was asked for.
    pub edge: f64,
    /// How many steps it took to try the lot and to draw the map.
    pub steps: u64,
    /// The cells that are not ruled out, the largest first.
    pub cells: Vec<CellReport>,
}

/// A cell of the map.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct CellReport {
    /// What is known of it.
    pub holds: Class,
    /// The way to its south-west corner, in millimetres.
    pub way: Way,
    /// How long its sides are, in millimetres.
    pub size: i64,
}

/// A place that is offered.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Offer {
    /// Why: `nearest`, `most-room` or `another`.
    pub why: Vec<&'static str>,
    /// How surely the rules that depend on the place hold there.
    pub holds: Class,
    /// How far the pool is turned anticlockwise from the drawing, in degrees.
    pub degrees: f64,
    /// How far it is moved from where it is drawn, in millimetres.
    pub way: Way,
    /// The same in words.
    pub moved: String,
    /// Where its middle is after the move, in the plan's coordinates and unit.
    pub middle: [String; 2],
    /// What the ordinary checker says of the whole plan with the pool there.
    pub verdict: VerdictWords,
    /// What it says of each rule that depends on the place.
    pub rules: Vec<RuleThere>,
    /// How far the pool can slide from there.
    pub slides: Vec<Slide>,
}

/// What a rule comes to at a place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct RuleThere {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What it comes to.
    pub outcome: Outcome,
    /// The same in a few words; empty where there is nothing to say.
    pub brief: String,
}

/// How far a pool can slide.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Slide {
    /// Where to: `east`, `north`, `west` or `south`.
    pub to: &'static str,
    /// How far, in millimetres.
    pub millimetres: i64,
    /// The same in the plan's unit.
    pub distance: String,
    /// The titles of the rules that stop it there.
    pub stopped_by: Vec<String>,
}

/// How much of the lot a rule rules out by itself.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Block {
    /// The rule.
    #[serde(flatten)]
    pub rule: RuleName,
    /// In how many of the places that were tried it surely fails.
    pub places: usize,
    /// How many were tried, evenly spread over the lot.
    pub of: usize,
}

/// How large the same shape may be where the pool as drawn fits nowhere.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Smaller {
    /// In thousandths of each length that is drawn of it.
    pub thousandths: i64,
    /// A place where it then fits.
    pub offer: Offer,
}
