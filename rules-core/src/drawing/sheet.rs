//! The sheet: what it shows, at what size, and where a place of the plan lies on it.

use serde::Deserialize;

use super::overlay::{self, Overlay};
use super::place::{Frame, SheetPoint};
use super::style::{LOT, POOL};
use crate::check::{Findings, Outcome};
use crate::plan::figure::{Figure, Point};
use crate::plan::{Plan, Thing, Words};
use crate::quantity::{Rounding, Unit, show};
use crate::report::RuleReport;
use crate::ruleset::{Rule, RuleSet, Strength};
use crate::vocabulary::{Outline, Vocabulary};

/// What to draw, and at what size.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(default, rename_all = "kebab-case", deny_unknown_fields)]
pub struct Options {
    /// The id of the rule whose distances are shown. Without one, the distances of rules that fail or are marginal are
    /// shown.
    pub selected: Option<String>,
    /// The id of the thing being worked on.
    #[serde(rename = "thing")]
    pub chosen: Option<String>,
    /// Whether to shade the ground that a rule keeps free of the pool.
    pub shade: bool,
    /// Whether to show the deciding distance of every rule.
    pub all_distances: bool,
    /// The width of the drawing on the screen, in points.
    pub width: f64,
    /// Its height; without one, as high as it needs.
    pub height: Option<f64>,
    /// The part shown: left, top, width and height in the drawing's own millimetres.
    pub view: Option<[f64; 4]>,
    /// On paper: the scale, 1 to this.
    pub scale: Option<u32>,
    /// The printable part of the paper, in millimetres: width and height.
    pub paper: Option<[f64; 2]>,
    /// The unit for lengths that no rule states: `m`, `ft`.
    pub unit: Option<String>,
    /// The handles of the chosen thing; see [`Options::holding`].
    #[serde(skip)]
    pub handles: Vec<Handle>,
    /// What is laid over the drawing.
    #[serde(skip)]
    pub overlay: Overlay,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            selected: None,
            chosen: None,
            shade: false,
            all_distances: false,
            width: 900.0,
            height: None,
            view: None,
            scale: None,
            paper: None,
            unit: None,
            handles: Vec::new(),
            overlay: Overlay::default(),
        }
    }
}

impl Options {
    /// Whether a rule's distances are drawn: those of the selected rule, or, if none is selected, those of the rules
    /// that decide against the plan.
    pub(crate) fn shows(&self, rule: &Rule, outcome: Outcome) -> bool {
        let against = matches!(outcome, Outcome::Fail | Outcome::Marginal);
        match &self.selected {
            Some(selected) => *selected == rule.id,
            None => self.all_distances || (against && rule.strength == Strength::Must),
        }
    }
}

/// A handle: a place where a thing can be dragged.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Handle {
    /// What dragging it changes: `corner`, `side`, `turn`, `point`, `radius`, `end`.
    pub what: String,
    /// Which of them, from 0.
    pub index: usize,
    /// East and north in the file's coordinates, in millimetres.
    pub at: [i64; 2],
}

/// A plan on its sheet.
pub(super) struct Sheet<'a> {
    pub plan: &'a Plan,
    pub rules: &'a RuleSet,
    pub findings: &'a Findings<'a>,
    pub reports: &'a [RuleReport],
    pub options: &'a Options,
    /// The offset from the plan's origin to the drawing's, in nanometres.
    shift: (i64, i64),
    /// What is shown.
    pub frame: Frame,
    /// Millimetres of ground to a point of the screen (a 96th of an inch on paper).
    pub point: f64,
}

/// A 96th of an inch, in millimetres.
const POINT: f64 = 25.4 / 96.0;
/// Coordinates farther from their origin than this (2 km, in nanometres) would lose millimetres in a browser.
const FAR: i128 = 2_000_000_000_000;
/// Within this distance of the lot, in millimetres, a thing that a rule measures to is shown with it.
const NEAR: f64 = 9000.0;
const NANO: f64 = 1e6;

impl<'a> Sheet<'a> {
    pub fn new(
        (plan, rules): (&'a Plan, &'a RuleSet),
        (findings, reports): (&'a Findings<'a>, &'a [RuleReport]),
        options: &'a Options,
    ) -> Self {
        let nothing = SheetPoint::new(0.0, 0.0);
        let mut sheet = Sheet {
            plan,
            rules,
            findings,
            reports,
            options,
            shift: shift(plan.origin),
            frame: Frame {
                low: nothing,
                high: nothing,
            },
            point: 1.0,
        };
        let shown = sheet.shown();
        (sheet.frame, sheet.point) = fitted(shown, options);
        if options.paper.is_some() {
            // Where not all fits on the paper, the lot goes before the road, and the pool before all.
            for kind in [LOT, POOL] {
                let kept = sheet.around(kind);
                sheet.frame = kept.map_or(sheet.frame, |kept| sheet.frame.moved_to_hold(kept));
            }
        }
        sheet
    }

    /// The box round all things of a kind.
    fn around(&self, kind: &str) -> Option<Frame> {
        let things = self.plan.things.iter();
        let some = things.filter(|thing| self.kind(thing) == kind);
        Frame::around(some.flat_map(|thing| self.reach(thing)))
    }

    /// The lot and the pools, with some room around them.
    fn shown(&self) -> Frame {
        let kinds = [LOT, POOL].map(|name| self.rules.vocabulary.kind_named(name));
        let things = self.plan.things.iter();
        let main = things.filter(|thing| kinds.contains(&Some(thing.kind)));
        let around = Frame::around(main.flat_map(|thing| self.reach(thing)));
        let around = around.map(|frame| self.with_measured(frame));
        let around = around.unwrap_or(Frame {
            low: SheetPoint::new(0.0, -20_000.0),
            high: SheetPoint::new(30_000.0, 0.0),
        });
        around.wider((around.width().max(around.height()) * 0.09).max(2500.0))
    }

    /// Widened to take in places near the lot that a rule measures to: the middle of the road, the neighbour's house.
    fn with_measured(&self, frame: Frame) -> Frame {
        let near = frame.wider(NEAR);
        let rules = self.findings.rules.iter();
        let readings = rules.flat_map(|found| found.parts.iter().flat_map(|part| &part.readings));
        let witnesses = readings.filter_map(|reading| reading.witness);
        let ends = witnesses.flat_map(|witness| [witness.from, witness.to]);
        let ends = ends
            .map(|point| self.spot(point))
            .filter(|spot| near.holds(*spot));
        Frame::around(ends).map_or(frame, |measured| frame.join(measured))
    }

    fn reach(&self, thing: &'a Thing) -> impl Iterator<Item = SheetPoint> {
        let corners = thing
            .outlines
            .values()
            .flat_map(|figure| self.corners(figure));
        corners.collect::<Vec<_>>().into_iter()
    }

    /// Two corners of the box around a figure.
    pub fn corners(&self, figure: &Figure) -> Vec<SheetPoint> {
        let by = self.ground(figure.spread);
        let points = figure.corners();
        match Frame::around(points.map(|point| self.spot(*point))) {
            Some(frame) => vec![frame.wider(by).low, frame.wider(by).high],
            None => Vec::new(),
        }
    }

    /// Where a place of the plan lies on the sheet.
    pub fn spot(&self, point: Point) -> SheetPoint {
        SheetPoint {
            x: point.x.saturating_add(self.shift.0) as f64 / NANO,
            y: -(point.y.saturating_add(self.shift.1) as f64 / NANO),
        }
    }

    pub fn spots(&self, points: &[Point]) -> Vec<SheetPoint> {
        points.iter().map(|point| self.spot(*point)).collect()
    }

    /// Where a place in the file's coordinates, in millimetres, lies on the sheet.
    pub fn spot_of_file(&self, [east, north]: [i64; 2]) -> SheetPoint {
        let [x, y] = self.zero();
        SheetPoint {
            x: (east as f64) - x,
            y: -((north as f64) - y),
        }
    }

    /// Where the drawing's own origin lies in the file's coordinates, in millimetres.
    pub fn zero(&self) -> [f64; 2] {
        let (x, y) = self.plan.origin;
        let (dx, dy) = self.shift;
        [(x, dx), (y, dy)].map(|(at, shift)| at.saturating_sub(shift.into()) as f64 / NANO)
    }

    /// A length on the ground, in millimetres.
    pub fn ground(&self, nanometres: i64) -> f64 {
        nanometres as f64 / NANO
    }

    /// A number of screen points, in millimetres of ground.
    pub fn points(&self, count: f64) -> f64 {
        count * self.point
    }

    /// The height of letters, in points: 2.5 mm on paper (a height of ISO 3098, from memory), a little more on a
    /// screen.
    pub fn lettering(&self) -> f64 {
        match self.options.scale {
            Some(_) => 2.5 / POINT,
            None => 12.5,
        }
    }

    pub fn vocabulary(&self) -> &'a Vocabulary {
        &self.rules.vocabulary
    }

    /// A thing's outlines in the order of the table, each with its figure, leaving out any that coincides with an
    /// earlier one.
    pub fn outlines(&self, thing: &'a Thing) -> Vec<(&'a Outline, &'a Figure)> {
        let mut list: Vec<(&Outline, &Figure)> = Vec::new();
        for id in &self.vocabulary().kind(thing.kind).outlines {
            let Some(figure) = thing.outlines.get(id) else {
                continue;
            };
            if list.iter().all(|(_, known)| *known != figure) {
                list.push((self.vocabulary().outline(*id), figure));
            }
        }
        list
    }

    pub fn kind(&self, thing: &Thing) -> &'a str {
        &self.vocabulary().kind(thing.kind).name
    }

    /// The one word that a fact is known to be.
    pub fn word(&self, thing: &'a Thing, fact: &str) -> Option<&'a str> {
        let id = self.vocabulary().fact_named(thing.kind, fact)?;
        match thing.facts.get(&id)?.words.as_deref()? {
            Words::OneOf(words) if words.len() == 1 => words.first().map(String::as_str),
            _ => None,
        }
    }

    /// The unit of lengths that no rule states.
    pub fn unit(&self) -> Unit {
        let unit = self.options.unit.as_deref().and_then(Unit::find);
        unit.filter(|unit| unit.dimension() == crate::quantity::Dimension::Length)
            .unwrap_or(Unit::METRE)
    }

    /// A length in millimetres of ground, printed in that unit.
    #[expect(
        clippy::cast_possible_truncation,
        reason = "lengths on a plan are far below what an i128 holds, and a cast beyond stops at the end"
    )]
    pub fn printed(&self, millimetres: f64) -> String {
        show(
            (millimetres * NANO).round() as i128,
            self.unit(),
            Rounding::Nearest,
            2,
        )
    }
}

/// A plan near its file's origin is drawn in the file's coordinates, so that nothing jumps when a corner moves.
fn shift((x, y): (i128, i128)) -> (i64, i64) {
    let near = x.abs() <= FAR && y.abs() <= FAR;
    let whole = |at: i128| i64::try_from(at).ok().filter(|_| near).unwrap_or(0);
    (whole(x), whole(y))
}

/// The frame that fits the screen or the paper, and the size of a point on the ground.
fn fitted(shown: Frame, options: &Options) -> (Frame, f64) {
    if let Some(scale) = options.scale {
        let scale = f64::from(scale.max(1));
        let paper = options
            .paper
            .map(|side| side.map(|side| side.clamp(10.0, 5000.0)));
        let [width, height] = paper.map_or([shown.width(), shown.height()], |paper| {
            paper.map(|side| side * scale)
        });
        return (shown.resized(width, height), POINT * scale);
    }
    let width = options.width.clamp(50.0, 20_000.0);
    if let Some([x, y, across, down]) = options.view {
        let low = SheetPoint::new(x, y);
        let size = SheetPoint::new(across.clamp(100.0, 1e8), down.clamp(100.0, 1e8));
        let high = low.along(size, 1.0);
        return (Frame { low, high }, size.x / width);
    }
    // A strip below for the scale bar and the legend.
    let below = 34.0 + overlay::height(&options.overlay);
    let strip = |point: f64| Frame {
        high: SheetPoint {
            y: shown.high.y + below * point,
            ..shown.high
        },
        ..shown
    };
    let by_width = shown.width() / width;
    let Some(height) = options.height.map(|height| height.clamp(50.0, 20_000.0)) else {
        return (strip(by_width), by_width);
    };
    let point = by_width.max(shown.height() / (height - below).max(20.0));
    (strip(point).resized(point * width, point * height), point)
}
