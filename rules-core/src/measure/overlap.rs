//! What figures share, cover and leave: areas as intervals, and figures cut to a zone.

use std::collections::BTreeSet;

use geo::{Area as _, LineString, MultiPolygon, Polygon};

use super::area::{Area, area2, chain_length, disc_area, length};
use super::chain::Chain;
use super::cut::{CUT, put_right};
use super::distance::{distance, forms_gap};
use super::inside::{Place, Side, contains, side};
use super::joining::{clipped, joined, left, shared};
use super::offset::is_convex;
use super::region::{ARC_TOLERANCE, Fit, Local, is_dense, rings};
use super::touching::{Rectangle, touching};
use crate::plan::figure::{Figure, Form, Point};

const SQUARE_METRE: f64 = 1e18;

/// Whether two figures share any area, more than a touch: decided exactly, never by a clip.
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

/// The area of one form with a spread, where a formula gives it.
fn form_area(form: &Form, spread: i64) -> Option<Area> {
    let convex = match form {
        Form::Point(_) => true,
        Form::Path(points) => points.len() == 2,
        Form::Ring(ring) => is_convex(ring),
    };
    (convex || spread == 0).then(|| steiner(form, spread))
}

/// Area + length · spread + π · spread²: right for a convex form, too much for any other.
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

/// The area that figures cover together, in square nanometres, each place counted once.
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

/// The figures that add to what the others cover: those that lie wholly within another one are left out, so that they do
/// not blur an area that is known exactly without them.
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

/// The plain sum, where every form has a formula and no two share anything.
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
    /// What is covered.
    pub figure: &'a Figure,
    /// How much each part of it counts, in millionths.
    pub millionths: u32,
}

/// The weighted area that figures cover together, in square nanometres: a place under several figures counts once,
/// with the greatest of their weights.
pub fn weighted_area(items: &[Weighted]) -> Area {
    let mut weights: Vec<u32> = items.iter().map(|item| item.millionths).collect();
    weights.sort_unstable();
    weights.dedup();
    let (mut low, mut high, mut before) = (0_i128, 0_i128, 0);
    // A place of weight w counts once for each step from one weight to the next, up to w.
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

/// What joining and cutting may do to an area, in square metres: the way round times what a corner may move.
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

/// Which part of a thing is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Keep {
    /// The part in the zone.
    Within,
    /// The part beyond the zone.
    Beyond,
}

impl Keep {
    pub(super) fn opposite(self) -> Keep {
        match self {
            Keep::Within => Keep::Beyond,
            Keep::Beyond => Keep::Within,
        }
    }
}

/// The part of `figure` in a zone, or beyond it; `None` where nothing is left.
///
/// What lies wholly on one side is returned as it is. A cut whose corners are whole nanometres is exact; any other is
/// approximate, and its accuracy says so: 10 nm, and where either has arcs the millimetre by which polygons of the wanted fit
/// stand for them. Points and lines are cut to
/// points and lines; a touch leaves nothing but a point.
pub fn clip(figure: &Figure, zone: &Figure, keep: Keep, fit: Fit) -> Option<Figure> {
    let gap = forms_gap(&figure.forms, &zone.forms);
    if gap.low > figure.spread.saturating_add(zone.spread) || zone.forms.is_empty() {
        return (keep == Keep::Beyond).then(|| figure.clone());
    }
    if holds(zone, figure) {
        return (keep == Keep::Within).then(|| figure.clone());
    }
    let local = Local::around(&[figure, zone])?;
    // What is left beyond a zone is the larger, the smaller the zone is taken.
    let zone_fit = match (keep, fit) {
        (Keep::Within, fit) => fit,
        (Keep::Beyond, Fit::Inner) => Fit::Outer,
        (Keep::Beyond, Fit::Outer) => Fit::Inner,
    };
    let cutter = Cutter {
        local,
        area: local.polygons(zone, zone_fit),
        keep,
    };
    let forms = if figure.spread == 0 {
        figure
            .forms
            .iter()
            .flat_map(|form| cutter.cut(form, zone))
            .collect()
    } else {
        cutter.areas(&local.polygons(figure, fit))
    };
    let grid = local.grid() * 1e9;
    let arcs = rounding(figure).max(rounding(zone));
    let (forms, round) = match figure.spread {
        0 => put_right((figure, zone), forms, grid),
        _ => (forms, CUT + grid.ceil() as i64),
    };
    let round = if round == 0 { 0 } else { round + arcs };
    let accuracy = figure
        .accuracy
        .map(|accuracy| accuracy.saturating_add(round));
    (!forms.is_empty()).then_some(Figure::new(forms, 0, accuracy))
}

/// As [`clip`], where the zone is as it was drawn, and not worked out: of a part that is too thin for the grid of cutting, all
/// that there may be is not nothing.
pub(super) fn clip_drawn(figure: &Figure, zone: &Figure, keep: Keep, fit: Fit) -> Option<Figure> {
    let thin = || {
        (fit == Fit::Outer)
            .then(|| sliver(figure, zone, keep))
            .flatten()
    };
    clip(figure, zone, keep, fit).or_else(thin)
}

/// What stands for a part that is too thin for the grid of cutting, where there is one: a corner of it, else all of the figure.
fn sliver(figure: &Figure, zone: &Figure, keep: Keep) -> Option<Figure> {
    let form = figure.forms.iter().find(|form| is_cut(form, zone, keep))?;
    let kept = |point: &&Point| match zone.spread {
        0 => zone.forms.iter().any(|zone| match (zone, keep) {
            (Form::Ring(ring), Keep::Within) => side(ring, **point) == Side::Inside,
            (Form::Ring(ring), Keep::Beyond) => side(ring, **point) == Side::Outside,
            (Form::Point(_) | Form::Path(_), _) => false,
        }),
        spread => forms_gap(&[Form::Point(**point)], &zone.forms).low < spread,
    };
    let Some(corner) = Chain::of(form).points.iter().find(kept) else {
        return Some(figure.clone());
    };
    let grid = Local::around(&[figure, zone])?.grid() * 1e9;
    let off = CUT + grid.ceil() as i64;
    let accuracy = figure.accuracy.map(|accuracy| accuracy.saturating_add(off));
    Some(Figure::new(vec![Form::Point(*corner)], 0, accuracy))
}

/// Whether some of a form with an area of its own surely is kept, however thin.
fn is_cut(form: &Form, zone: &Figure, keep: Keep) -> bool {
    let has_area = matches!(form, Form::Ring(_));
    match (zone.spread, keep, zone.forms.as_slice()) {
        (0, _, [Form::Ring(ring)]) => has_area && contains(ring, form) == Place::Across,
        (1.., Keep::Within, forms) => {
            has_area && forms_gap(std::slice::from_ref(form), forms).low < zone.spread
        }
        _ => false,
    }
}

/// How far the polygons that stand for a figure may be from its arcs.
fn rounding(figure: &Figure) -> i64 {
    match figure.spread {
        0 => 0,
        _ if is_dense(figure) => 2 * ARC_TOLERANCE,
        _ => ARC_TOLERANCE,
    }
}

/// Whether one ring of the zone surely holds all of the figure.
fn holds(zone: &Figure, figure: &Figure) -> bool {
    zone.forms.iter().any(|form| match form {
        Form::Ring(ring) => figure.forms.iter().all(|form| {
            let clear = || super::distance::between_lines(Chain::of(form), Chain::ring(ring)).low;
            contains(ring, form).is_within()
                && (figure.spread <= zone.spread || figure.spread - zone.spread <= clear())
        }),
        Form::Point(_) | Form::Path(_) => false,
    })
}

struct Cutter {
    local: Local,
    area: MultiPolygon,
    keep: Keep,
}

impl Cutter {
    fn cut(&self, form: &Form, zone: &Figure) -> Vec<Form> {
        match form {
            Form::Point(_) => {
                let within = forms_gap(std::slice::from_ref(form), &zone.forms).high <= zone.spread;
                if within == (self.keep == Keep::Within) {
                    vec![form.clone()]
                } else {
                    Vec::new()
                }
            }
            Form::Path(points) => self.line(points),
            Form::Ring(_) => {
                let alone = Figure::new(vec![form.clone()], 0, None);
                self.areas(&self.local.polygons(&alone, Fit::Inner))
            }
        }
    }

    fn line(&self, points: &[Point]) -> Vec<Form> {
        let line = LineString(points.iter().map(|p| self.local.metres(*p)).collect());
        let parts = clipped(&self.area, line, self.keep == Keep::Beyond);
        let mut paths: Vec<Vec<_>> = parts
            .iter()
            .map(|part| {
                let mut points: Vec<_> = part.0.iter().map(|c| self.local.point(*c)).collect();
                points.dedup();
                points
            })
            .filter(|points| points.len() > 1)
            .collect();
        paths.sort_unstable();
        paths.into_iter().map(Form::Path).collect()
    }

    fn areas(&self, whole: &MultiPolygon) -> Vec<Form> {
        let cut = match self.keep {
            Keep::Within => shared(whole, &self.area),
            Keep::Beyond => left(whole, &self.area),
        };
        rings(&self.local, cut)
    }
}

/// The outline of everything within `by` of a figure, as rings, for drawing and for cutting; never for a verdict.
///
/// With [`Fit::Inner`] it lies within the true outline, with [`Fit::Outer`] around it, nowhere more than a millimetre
/// (two where the figure has many corners, and 10 nm) from it. A ring with a hole comes as several that meet.
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
