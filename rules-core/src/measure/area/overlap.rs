//! Areas that figures share or cover together, as intervals.

use std::collections::BTreeSet;

use geo::{Area as _, MultiPolygon, Polygon};

use crate::measure::area::clip::{holds, rounding};
use crate::measure::area::cut::CUT;
use crate::measure::area::joining::joined;
use crate::measure::area::region::{ARC_TOLERANCE, Fit, Local, rings};
use crate::measure::area::{Area, disc_area};
use crate::measure::distance::distance;
use crate::measure::figure::chain::Chain;
use crate::measure::figure::convex::is_convex;
use crate::measure::figure::inside::contains;
use crate::measure::figure::size::{area2, chain_length, length};
use crate::measure::figure::touching::{Rectangle, touching};
use crate::plan::figure::{Figure, Form};

const SQUARE_METRE: f64 = 1e18;

/// Whether two figures share any area. Touching is not enough. Decided exactly, never by a clip.
pub fn overlaps(a: &Figure, b: &Figure) -> bool {
    let has_area =
        |figure: &Figure, form: &Form| figure.spread > 0 || matches!(form, Form::Ring(_));
    let spread = a.spread.saturating_add(b.spread);
    let first = a.forms.iter().filter(|form| has_area(a, form));
    first.into_iter().any(|one| {
        b.forms
            .iter()
            .filter(|form| has_area(b, form))
            .any(|other| match (one, other) {
                (Form::Ring(ring), Form::Ring(_)) if spread == 0 => contains(ring, other).shares(),
                _ => distance(one, other).low < spread,
            })
    })
}

/// The area of one form with a spread, where there is a formula.
fn form_area(form: &Form, spread: i64) -> Option<Area> {
    let convex = match form {
        Form::Point(_) => true,
        Form::Path(points) => points.len() == 2,
        Form::Ring(ring) => is_convex(ring),
    };
    (convex || spread == 0).then(|| steiner(form, spread))
}

/// Steiner's formula, area + length · spread + π · spread²: right for a convex form, too large for any other.
fn steiner(form: &Form, spread: i64) -> Area {
    let (twice, sides) = match form {
        Form::Ring(ring) => (area2(ring), 1),
        Form::Path(_) => (0, 2),
        Form::Point(_) => (0, 0),
    };
    let (round, disc) = (length(form), disc_area(spread));
    let strip = |length: i64| {
        i128::from(length)
            .saturating_mul(i128::from(spread))
            .saturating_mul(sides)
    };
    Area {
        low: (twice / 2)
            .saturating_add(strip(round.low))
            .saturating_add(disc.low),
        high: (twice / 2 + twice % 2)
            .saturating_add(strip(round.high))
            .saturating_add(disc.high),
    }
}

/// The area that figures cover together, in square nanometres; each place counts once.
pub fn union_area(figures: &[&Figure]) -> Area {
    if let Some(sum) = apart(figures) {
        return sum;
    }
    let adding = not_within_others(figures);
    if adding.len() < figures.len() {
        return union_area(&adding);
    }
    let Some(local) = Local::around(figures) else {
        return Area { low: 0, high: 0 };
    };
    let polygons = |fit| -> Vec<Polygon> {
        let each = figures.iter();
        each.flat_map(|figure| local.polygons(figure, fit))
            .collect()
    };
    let (inner, outer) = (polygons(Fit::Inner), polygons(Fit::Outer));
    let within = joined(&inner);
    // Without arcs the polygons are the outlines themselves.
    let around = match inner == outer {
        true => within.clone(),
        false => joined(&outer),
    };
    let least = figures
        .iter()
        .flat_map(|figure| &figure.forms)
        .map(|form| match form {
            Form::Ring(ring) => area2(ring) / 2,
            Form::Point(_) | Form::Path(_) => 0,
        });
    let most = figures
        .iter()
        .map(|figure| steiner_sum(figure))
        .fold(0, i128::saturating_add);
    let margin = margin(&local, figures);
    let least = least.max().unwrap_or(0);
    between(&within, &around, margin, least, most)
}

/// The figures without those that are wholly within another one: these add nothing, and without them the area may be exact.
fn not_within_others<'f>(figures: &[&'f Figure]) -> Vec<&'f Figure> {
    let rectangles: Option<Vec<_>> = figures.iter().map(|f| Rectangle::around(f)).collect();
    let Some(rectangles) = rectangles else {
        return figures.to_vec();
    };
    let mut within = BTreeSet::new();
    touching(&rectangles, |one, other| {
        if let (Some(a), Some(b)) = (figures.get(one), figures.get(other)) {
            match (within.contains(&one), within.contains(&other)) {
                (false, false) if holds(b, a) => within.insert(one),
                (false, false) if holds(a, b) => within.insert(other),
                _ => false,
            };
        }
        true
    });
    let each = figures.iter().enumerate();
    each.filter(|(place, _)| !within.contains(place))
        .map(|(_, figure)| *figure)
        .collect()
}

/// The sum of the areas, where every form has a formula and no two overlap.
fn apart(figures: &[&Figure]) -> Option<Area> {
    let alone = |figure: &Figure, form: &Form| {
        Figure::new(vec![form.clone()], figure.spread, figure.accuracy)
    };
    let each = figures.iter();
    let single: Vec<Figure> = each
        .flat_map(|figure| figure.forms.iter().map(|form| alone(figure, form)))
        .collect();
    let areas = single
        .iter()
        .map(|figure| form_area(figure.forms.first()?, figure.spread));
    let areas: Option<Vec<Area>> = areas.collect();
    let areas = areas?;
    let rectangles: Option<Vec<_>> = single.iter().map(Rectangle::around).collect();
    let is_apart = |one: usize, other: usize| match (single.get(one), single.get(other)) {
        (Some(one), Some(other)) => !overlaps(one, other),
        _ => true,
    };
    touching(&rectangles?, is_apart).then(|| {
        let none = Area { low: 0, high: 0 };
        areas.into_iter().fold(none, |sum, area| Area {
            low: sum.low.saturating_add(area.low),
            high: sum.high.saturating_add(area.high),
        })
    })
}

/// One figure of a sum in which not every square metre counts in full.
#[derive(Debug, Clone, Copy)]
pub struct Weighted<'a> {
    /// The figure.
    pub figure: &'a Figure,
    /// Its weight, in millionths.
    pub millionths: u32,
}

/// The weighted area that figures cover together, in square nanometres: a place under several figures counts once,
/// with the greatest of their weights.
pub fn weighted_area(items: &[Weighted]) -> Area {
    let mut weights: Vec<u32> = items.iter().map(|item| item.millionths).collect();
    weights.sort_unstable();
    weights.dedup();
    let (mut low, mut high, mut before) = (0_i128, 0_i128, 0);
    // A place of weight w counts once for each step between neighbouring weights up to w.
    for weight in weights {
        let covering: Vec<&Figure> = items
            .iter()
            .filter(|item| item.millionths >= weight)
            .map(|item| item.figure)
            .collect();
        let area = union_area(&covering);
        let step = i128::from(weight - before);
        low = low.saturating_add(area.low.saturating_mul(step));
        high = high.saturating_add(area.high.saturating_mul(step));
        before = weight;
    }
    Area {
        low: low / 1_000_000,
        high: high.saturating_add(999_999) / 1_000_000,
    }
}

fn steiner_sum(figure: &Figure) -> i128 {
    figure
        .forms
        .iter()
        .map(|form| steiner(form, figure.spread).high)
        .fold(0, i128::saturating_add)
}

/// How much joining and cutting may change an area, in square metres: the perimeter times how far a corner may move.
fn margin(local: &Local, figures: &[&Figure]) -> f64 {
    let round = figures.iter().flat_map(|figure| {
        let disc = figure.spread as f64 * 7.0;
        figure
            .forms
            .iter()
            .map(move |form| chain_length(Chain::of(form)).high as f64 * 2.0 + disc)
    });
    1e-6 + round.sum::<f64>() / 1e9 * local.grid()
}

fn between(
    inner: &MultiPolygon,
    outer: &MultiPolygon,
    margin: f64,
    least: i128,
    most: i128,
) -> Area {
    let low = ((inner.unsigned_area() - margin) * SQUARE_METRE).floor() as i128;
    let high = ((outer.unsigned_area() + margin) * SQUARE_METRE).ceil() as i128;
    Area {
        low: low.clamp(least, most),
        high: high.clamp(least, most),
    }
}

/// The outline of everything within `by` of a figure, as rings, for drawing and cutting; never for a verdict.
///
/// With [`Fit::Inner`] it is within the true outline, with [`Fit::Outer`] around it, nowhere more than a millimetre (two where
/// the figure has many corners) and 10 nm from it. A ring with a hole comes as several rings that meet.
pub fn around(figure: &Figure, by: i64, fit: Fit) -> Figure {
    let wider = Figure {
        spread: figure.spread.saturating_add(by.max(0)),
        ..figure.clone()
    };
    let forms = Local::around(&[&wider])
        .map(|local| rings(&local, local.polygons(&wider, fit)))
        .unwrap_or_default();
    let accuracy = figure
        .accuracy
        .map(|accuracy| accuracy.saturating_add(rounding(&wider).max(ARC_TOLERANCE) + CUT));
    Figure::new(forms, 0, accuracy)
}
