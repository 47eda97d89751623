//! The ground that a rule keeps free of one of the pool's outlines.
//!
//! It is drawn, never judged: no verdict rests on it. Each zone is the ground within the limit (at its worst) of the
//! thing that the rule measures to. Its title names the outline of the pool that must stay out of it.

use super::path::{bare, widened};
use super::sheet::Sheet;
use super::style::POOL;
use super::svg::{Svg, el, title};
use super::{lot, path};
use crate::check::{Outcome, Reading, Witness};
use crate::plan::figure::{Figure, Form};
use crate::report::RuleReport;
use crate::ruleset::words::outline_words;
use crate::ruleset::{Bound, Distance, Measured, Places, Value};

/// One zone.
struct ShadedZone<'s> {
    rule: &'s RuleReport,
    figure: &'s Figure,
    /// In millimetres of ground.
    by: f64,
    title: String,
    /// Whether the pool may lie in it: the rule fails or is marginal.
    entered: bool,
}

/// A limit above this, in millimetres, would shade more than any sheet shows.
const WIDEST: f64 = 1e7;

/// All zones: one even tint, a hatch in those that the pool may lie in or whose rule is selected, and their borders.
pub(super) fn zones(sheet: &Sheet<'_>) -> Svg {
    let zones = all(sheet);
    let tint = zones.iter().map(|zone| zone.area("#5b4a2f", sheet));
    let hatched = zones.iter().filter(|zone| zone.is_heavy(sheet));
    let hatch = hatched.map(|zone| zone.area("url(#siting-hatch)", sheet));
    let borders = zones.iter().map(|zone| zone.border(sheet));
    let group = |class: &str| el("g").with("class", class);
    let inner = group("tint")
        .with("opacity", "0.13")
        .holding(tint.collect())
        + group("hatch")
            .with("pointer-events", "none")
            .holding(hatch.collect())
        + group("borders")
            .with("pointer-events", "none")
            .holding(borders.collect());
    group("shade")
        .with("clip-path", "url(#siting-lot)")
        .holding(inner)
}

/// The lot as a clip path for the shading.
pub(super) fn clip(sheet: &Sheet<'_>) -> Svg {
    let ring = lot::boundary(sheet).map(|figure| path::figure(figure, sheet));
    let inner = el("path").with_some("d", ring).empty();
    el("clipPath").with("id", "siting-lot").holding(inner)
}

fn all<'s>(sheet: &'s Sheet<'_>) -> Vec<ShadedZone<'s>> {
    let rules = sheet.findings.rules.iter().zip(sheet.reports);
    let mut zones = Vec::new();
    for (finding, rule) in rules {
        for part in &finding.parts {
            let entered = matches!(part.outcome, Outcome::Fail | Outcome::Marginal);
            let found = part.readings.iter();
            zones.extend(found.filter_map(|reading| zone(rule, reading, entered, sheet)));
        }
    }
    zones
}

fn zone<'s>(
    rule: &'s RuleReport,
    reading: &Reading,
    entered: bool,
    sheet: &'s Sheet<'_>,
) -> Option<ShadedZone<'s>> {
    let witness = reading.witness?;
    let distance =
        distance(reading.value()).filter(|distance| distance.places == Places::Nearest)?;
    let by = level_limit(reading, distance.how, &witness, sheet)?;
    let (own, other) = ends(&witness, sheet)?;
    let thing = sheet.plan.things.get(other.0)?;
    let figure = thing.outlines.get(&other.1)?;
    let vocabulary = sheet.vocabulary();
    let whose = vocabulary.kind(vocabulary.outline(own.1).kind).said.clone();
    let title = format!(
        "{} ({}): {}, {}",
        rule.title,
        rule.clause,
        outline_words(own.1, &whose, true, vocabulary),
        limit_words(reading),
    );
    Some(ShadedZone {
        rule,
        figure,
        by,
        title,
        entered,
    })
}

fn limit_words(reading: &Reading) -> String {
    let unit = reading
        .unit
        .filter(|unit| unit.dimension() == reading.dimension);
    let unit = unit.unwrap_or(crate::quantity::Unit::usual(reading.dimension));
    let amount = reading.limit.map_or(0, |limit| limit.high);
    let shown = crate::quantity::show_exactly(amount, unit);
    match reading.bound() {
        Bound::MoreThan(_) => format!("more than {shown}"),
        _ => format!("at least {shown}"),
    }
}

fn distance(value: &Value) -> Option<&Distance> {
    match value {
        Value::Distance(distance) => Some(distance),
        Value::Named { value, .. } => distance(value),
        _ => None,
    }
}

/// The limit as a horizontal distance. For a distance through the air, it is what remains of the limit after the height
/// difference at the measured place.
fn level_limit(
    reading: &Reading,
    how: Measured,
    witness: &Witness,
    sheet: &Sheet<'_>,
) -> Option<f64> {
    if !matches!(reading.bound(), Bound::AtLeast(_) | Bound::MoreThan(_)) {
        return None;
    }
    let millimetres = |amount: i128| amount as f64 / 1e6;
    let limit = millimetres(reading.limit?.greatest()?);
    let level = match how {
        Measured::Level => limit,
        Measured::InSpace => {
            let along = sheet.spot(witness.from).to(sheet.spot(witness.to)).length();
            let whole = millimetres(reading.drawn.or(reading.measured)?.least()?);
            let up = (whole * whole - along * along).max(0.0);
            (limit * limit - up).max(0.0).sqrt()
        }
        Measured::Plumb | Measured::Walking => return None,
    };
    (level <= WIDEST).then_some(level)
}

type End = (usize, crate::vocabulary::OutlineId);

/// The pool's end of a distance and the other end; `None` unless exactly one of them is a pool's.
fn ends(witness: &Witness, sheet: &Sheet<'_>) -> Option<(End, End)> {
    let from = (witness.from_thing, witness.from_outline);
    let to = (witness.to_thing, witness.to_outline);
    let pool = |end: End| {
        sheet
            .plan
            .things
            .get(end.0)
            .map(|thing| sheet.kind(thing) == POOL)
    };
    match (pool(from)?, pool(to)?) {
        (true, false) => Some((from, to)),
        (false, true) => Some((to, from)),
        _ => None,
    }
}

impl ShadedZone<'_> {
    fn selected(&self, sheet: &Sheet<'_>) -> bool {
        sheet.options.selected.as_deref() == Some(self.rule.id.as_str())
    }

    /// Whether it is drawn heavily: something is inside it, or its rule is selected.
    fn is_heavy(&self, sheet: &Sheet<'_>) -> bool {
        self.entered || self.selected(sheet)
    }

    fn reach(&self, sheet: &Sheet<'_>) -> f64 {
        self.by + sheet.ground(self.figure.spread)
    }

    /// The zone, filled. A form with hollows is widened by a wide line with round joints, which covers the same ground.
    fn area(&self, fill: &str, sheet: &Sheet<'_>) -> Svg {
        let by = self.reach(sheet);
        let one = |form: &Form| {
            let path = el("path")
                .with("class", "zone")
                .with("data-rule", &self.rule.id);
            let inside = match form {
                Form::Ring(_) => fill,
                _ => "none",
            };
            match widened(form, by, sheet) {
                Some(d) => path
                    .with("fill", fill)
                    .with("d", d)
                    .holding(title(&self.title)),
                None => path
                    .with("fill", inside)
                    .with("d", bare(form, sheet))
                    .with("stroke", fill)
                    .at("stroke-width", 2.0 * by)
                    .with("stroke-linejoin", "round")
                    .with("stroke-linecap", "round")
                    .holding(title(&self.title)),
            }
        };
        self.figure.forms.iter().map(one).collect()
    }

    fn border(&self, sheet: &Sheet<'_>) -> Svg {
        let by = self.reach(sheet);
        let (stroke, width) = match self.is_heavy(sheet) {
            true => ("#6b5a3c", "1.4"),
            false => ("#b3aa98", "0.7"),
        };
        let one = |d: String| {
            el("path")
                .with("class", "zone-border")
                .with("data-rule", &self.rule.id)
                .with("d", d)
                .painted("none", stroke, width)
                .with("stroke-dasharray", "7 3")
                .unscaled()
                .empty()
        };
        let forms = self.figure.forms.iter().filter(|_| by > 0.0);
        let outlines = forms.filter_map(|form| widened(form, by, sheet));
        outlines.map(one).collect()
    }
}
