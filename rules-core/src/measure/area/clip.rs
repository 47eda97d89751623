//! Cutting figures to a zone without losing anything.

use geo::{LineString, MultiPolygon};

use crate::measure::area::cut::{CUT, put_right};
use crate::measure::area::joining::{clipped, difference, shared};
use crate::measure::area::region::{ARC_TOLERANCE, Fit, Local, is_dense, rings};
use crate::measure::distance::forms_gap;
use crate::measure::figure::chain::Chain;
use crate::measure::figure::inside::{Place, Side, contains, side};
use crate::plan::figure::{Figure, Form, Point};

/// Which part of a figure to keep.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Keep {
    /// The part in the zone.
    Within,
    /// The part outside the zone.
    Beyond,
}

impl Keep {
    pub(crate) fn opposite(self) -> Keep {
        match self {
            Keep::Within => Keep::Beyond,
            Keep::Beyond => Keep::Within,
        }
    }
}

/// The part of `figure` in a zone, or outside it; `None` where nothing is left.
///
/// A figure wholly on one side is returned as it is. A cut whose corners are whole nanometres is exact. Any other is
/// approximate, and its accuracy includes that: 10 nm, plus, where either has arcs, the millimetre by which polygons of the
/// wanted fit may differ from them. Points and lines are cut to points and lines; of a figure that only touches the zone, no
/// more than a point is left.
pub fn clip(figure: &Figure, zone: &Figure, keep: Keep, fit: Fit) -> Option<Figure> {
    let gap = forms_gap(&figure.forms, &zone.forms);
    if gap.low > figure.spread.saturating_add(zone.spread) || zone.forms.is_empty() {
        return (keep == Keep::Beyond).then(|| figure.clone());
    }
    if holds(zone, figure) {
        return (keep == Keep::Within).then(|| figure.clone());
    }
    let local = Local::around(&[figure, zone])?;
    // The smaller the zone, the more is left outside it.
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

/// Like [`clip`], for a zone as drawn, not a derived one. A part that is too thin for the grid of cutting is not lost from an
/// outer fit.
pub(crate) fn clip_drawn(figure: &Figure, zone: &Figure, keep: Keep, fit: Fit) -> Option<Figure> {
    let thin = || {
        (fit == Fit::Outer)
            .then(|| sliver(figure, zone, keep))
            .flatten()
    };
    clip(figure, zone, keep, fit).or_else(thin)
}

/// A stand-in for a part that is too thin for the grid of cutting, if there is one: a corner of it, otherwise the whole figure.
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

/// Whether some part of a form, which must be an area, is surely kept, however thin.
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

/// How far the polygons for a figure may be from its arcs.
pub(super) fn rounding(figure: &Figure) -> i64 {
    match figure.spread {
        0 => 0,
        _ if is_dense(figure) => 2 * ARC_TOLERANCE,
        _ => ARC_TOLERANCE,
    }
}

/// Whether one ring of the zone surely contains the whole figure.
pub(super) fn holds(zone: &Figure, figure: &Figure) -> bool {
    zone.forms.iter().any(|form| match form {
        Form::Ring(ring) => figure.forms.iter().all(|form| {
            let clear =
                || crate::measure::distance::between_lines(Chain::of(form), Chain::ring(ring)).low;
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
            Keep::Beyond => difference(whole, &self.area),
        };
        rings(&self.local, cut)
    }
}
