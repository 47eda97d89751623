//! The answer to where a pool could go.

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
    /// Where its middle is drawn, in the plan's own coordinates, in millimetres.
    pub middle: Way,
    /// The answer in a sentence.
    pub sentence: String,
    /// Rules that hold in no place that was tried: where they do not fail, they wait for an answer, a document or the
    /// authority. They fail at none of the places on offer, and nothing more is said about them.
    pub open_anyway: Vec<RuleName>,
    /// What is missing to decide those.
    pub questions: Vec<Question>,
    /// Rules that fail wherever the pool is put. Moving it cannot help, so nothing more is said about them.
    pub fails_anyway: Vec<RuleName>,
    /// How many rules surely hold wherever on the lot the pool is put.
    pub holds_anyway: usize,
    /// How many tape readings to the pool are left out: they are only true where it is drawn now.
    pub tapes_left_aside: usize,
    /// The map of each turn.
    pub turns: Vec<TurnReport>,
    /// The places on offer, the nearest first. Each was judged by the ordinary checker.
    pub options: Vec<Offer>,
    /// How much of the lot each rule rules out by itself, the most first.
    pub blocks: Vec<Block>,
    /// Where nothing fits: why not. First with no paper that is not in hand, then with all of them, where nothing fits
    /// even so.
    pub why_not: Vec<WhyNot>,
    /// Where nothing fits: how large the same shape may be.
    pub smaller: Option<Smaller>,
    /// What to be careful of.
    pub cautions: Vec<CautionReport>,
    /// What this answer is not.
    pub disclaimer: String,
}

impl Placement {
    /// How surely the rules hold in the best place on offer.
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

/// How much of the lot can take the pool at one turn: the areas in which its middle may lie, in square metres.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct TurnReport {
    /// How far the pool is turned anticlockwise from the drawing, in degrees.
    pub degrees: f64,
    /// Where each rule surely holds.
    pub sure: f64,
    /// Where each rule holds as drawn, but not for sure.
    pub as_drawn: f64,
    /// Where it is open because an answer or a document is missing.
    pub open: f64,
    /// Cells on an edge between these, cut as finely as was asked for.
    pub edge: f64,
    /// How many steps it took to try the lot and to draw the map.
    pub steps: u64,
    /// The cells that are not ruled out, the largest first.
    pub cells: Vec<CellReport>,
    /// All cells, those joined that say the same and for which the same rules count.
    pub regions: Vec<Region>,
    /// What the papers that are not in hand would add: the map with none of them, with each alone, and with all.
    pub papers: Vec<PaperMap>,
}

/// A part of the map.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Region {
    /// Whether the pool can go there.
    pub holds: Class,
    /// Whether it is open only because cells are cut no smaller.
    pub edge: bool,
    /// The ids of the rules that each surely fail all over it; where it is open or holds as drawn, of those that leave it
    /// open.
    pub rules: Vec<String>,
    /// Its area.
    pub square_metres: f64,
    /// Its polygons: of each, the outer ring (anticlockwise), then its holes (clockwise), as ways in millimetres. A ring
    /// does not repeat its first corner.
    pub polygons: Vec<Vec<Vec<Way>>>,
}

/// A paper that is not in hand.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct PaperName {
    /// Its id.
    pub id: String,
    /// What it is.
    pub title: String,
    /// The id of the thing that it is for, where there is one for each.
    pub of: Option<String>,
}

/// The map with some papers taken to be in hand; areas are in square metres.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct PaperMap {
    /// The papers taken to be in hand besides those that are.
    pub with: Vec<PaperName>,
    /// Where each rule surely holds.
    pub sure: f64,
    /// Where each rule holds as drawn, but not for sure.
    pub as_drawn: f64,
    /// Where it is still open.
    pub open: f64,
    /// Cells on an edge between these.
    pub edge: f64,
    /// The parts of the map that are not ruled out.
    pub regions: Vec<Region>,
}

/// Why the pool fits nowhere: rules that together rule out the lot, and none of which can be left out. That the pool lies on
/// the lot always counts besides.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct WhyNot {
    /// The papers taken to be in hand besides those that are.
    pub with: Vec<PaperName>,
    /// The rules: no smaller set rules out the lot.
    pub rules: Vec<RuleNeeded>,
    /// Whether they rule out the lot however inaccurate the drawing is; otherwise they do as drawn.
    pub sure: bool,
    /// The area of the cells for which it is not proved, in square metres; 0 where it is proved for the whole lot.
    pub unproved: f64,
}

/// A rule of a set that rules out the lot, and a place that only this rule of the set rules out.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct RuleNeeded {
    /// The rule.
    #[serde(flatten)]
    pub rule: RuleName,
    /// How far the pool is turned there, anticlockwise from the drawing, in degrees.
    pub degrees: f64,
    /// How far it is moved there from where it is drawn, in millimetres.
    pub way: Way,
    /// Where its middle is there, in the plan's coordinates and unit.
    pub middle: [String; 2],
}

/// A cell of the map.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct CellReport {
    /// Whether the pool can go there.
    pub holds: Class,
    /// The way to its south-west corner, in millimetres.
    pub way: Way,
    /// How long its sides are, in millimetres.
    pub size: i64,
    /// Whether it is open only because cells are cut no smaller.
    pub edge: bool,
}

/// A place on offer.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Offer {
    /// Why it is offered: `nearest`, `most-room` or `another`.
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
    /// The ordinary checker's verdict on the whole plan with the pool there.
    pub verdict: VerdictWords,
    /// Its outcome for each rule that depends on the place.
    pub rules: Vec<RuleThere>,
    /// The smallest margin there of the rules that turn on a distance, as drawn, in millimetres, rounded down; negative where
    /// one falls short.
    pub room: Option<i64>,
    /// How far the pool can slide from there.
    pub slides: Vec<Slide>,
    /// What the places are compared by, as drawn.
    pub measures: Vec<Measure>,
}

/// A measure of a place on offer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Measure {
    /// What is measured: the rule's title, or a distance in words.
    pub what: String,
    /// The rule's id, where it is a rule's.
    pub rule: Option<String>,
    /// What it comes to there, in words.
    pub says: String,
}

/// A rule's outcome at a place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct RuleThere {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Its outcome.
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
    /// At how many of the places tried it surely fails.
    pub places: usize,
    /// How many places were tried, evenly spread over the lot.
    pub of: usize,
}

/// How large the same shape may be where the pool as drawn fits nowhere.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Smaller {
    /// The scale, in thousandths of each drawn length.
    pub thousandths: i64,
    /// A place where it then fits.
    pub offer: Offer,
}
