//! What is laid over a drawing: hatched areas, numbered outlines, and below the drawing what the hatches mean.

use super::furniture::pattern;
use super::path::{bare, figure};
use super::place::SheetPoint;
use super::sheet::Sheet;
use super::svg::{INK, Svg, el, title};
use crate::plan::figure::{Figure, Form, Point};

/// What is laid over a drawing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Overlay {
    /// Areas of the ground.
    pub areas: Vec<OverlayArea>,
    /// Outlines, each with what is written in its middle.
    pub outlines: Vec<(String, Figure)>,
    /// The lines of text below the drawing, with the hatch that each explains.
    pub legend: Vec<(Option<Hatch>, String)>,
}

/// A hatched area.
#[derive(Debug, Clone, PartialEq)]
pub struct OverlayArea {
    /// How it is hatched.
    pub hatch: Hatch,
    /// What it says.
    pub title: String,
    /// The ids of the rules that it is about.
    pub rules: Vec<String>,
    /// Its rings, from the plan's origin; what lies in two of them is a hole.
    pub rings: Vec<Vec<Point>>,
}

/// How an area is hatched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hatch {
    /// An even tint with a heavy border.
    Tinted,
    /// Level lines.
    Lined,
    /// Dots.
    Dotted,
    /// A grey strip.
    Grey,
    /// Slanting lines.
    Slanted,
}

impl Hatch {
    fn fill(self) -> &'static str {
        match self {
            Hatch::Tinted => "#bfe0c6",
            Hatch::Lined => "url(#siting-lined)",
            Hatch::Dotted => "url(#siting-dotted)",
            Hatch::Grey => "#c9c5bb",
            Hatch::Slanted => "url(#siting-hatch)",
        }
    }

    fn border(self) -> (&'static str, &'static str) {
        match self {
            Hatch::Tinted => ("#1f6b3a", "1.6"),
            Hatch::Lined => ("#1f6b3a", "1.2"),
            Hatch::Dotted => ("#8a5a00", "1.2"),
            Hatch::Grey => ("none", "0"),
            Hatch::Slanted => ("#8d8062", "0.5"),
        }
    }

    fn dash(self) -> Option<&'static str> {
        match self {
            Hatch::Tinted | Hatch::Grey | Hatch::Slanted => None,
            Hatch::Lined => Some("7 3"),
            Hatch::Dotted => Some("2 3"),
        }
    }
}

/// The height of a line of the legend, in points.
const LINE: f64 = 18.0;

/// The height of the strip that the legend takes below the drawing, in points.
pub(super) fn height(overlay: &Overlay) -> f64 {
    overlay.legend.len() as f64 * LINE
}

/// The hatched areas.
pub(super) fn areas(sheet: &Sheet<'_>) -> Svg {
    let overlay = &sheet.options.overlay;
    if overlay.areas.is_empty() {
        return Svg::default();
    }
    let areas: Svg = overlay.areas.iter().map(|area| one(area, sheet)).collect();
    el("g")
        .with("class", "overlay")
        .with("clip-path", "url(#siting-lot)")
        .with("opacity", "0.8")
        .holding(patterns(sheet) + areas)
}

fn patterns(sheet: &Sheet<'_>) -> Svg {
    let line = el("path")
        .with(
            "d",
            format!(
                "M0 {0}H{1}",
                super::svg::mm(sheet.points(3.0)),
                super::svg::mm(sheet.points(6.0))
            ),
        )
        .with("fill", "none")
        .with("stroke", "#1f6b3a")
        .at("stroke-width", sheet.points(1.2))
        .empty();
    let dot = el("circle")
        .round(
            SheetPoint::new(sheet.points(3.5), sheet.points(3.5)),
            sheet.points(1.2),
        )
        .with("fill", "#8a5a00")
        .empty();
    el("defs").holding(
        pattern("siting-lined", 6.0, line, sheet) + pattern("siting-dotted", 7.0, dot, sheet),
    )
}

fn one(area: &OverlayArea, sheet: &Sheet<'_>) -> Svg {
    let rings = area
        .rings
        .iter()
        .map(|ring| bare(&Form::Ring(ring.clone()), sheet));
    let (stroke, width) = area.hatch.border();
    el("path")
        .with("class", "overlay-area")
        .with("data-rules", area.rules.join(" "))
        .with("d", rings.collect::<String>())
        .with("fill-rule", "evenodd")
        .painted(area.hatch.fill(), stroke, width)
        .with_some("stroke-dasharray", area.hatch.dash())
        .unscaled()
        .holding(title(&area.title))
}

/// The numbered outlines.
pub(super) fn outlines(sheet: &Sheet<'_>) -> Svg {
    let one = |(name, outline): &(String, Figure)| {
        let drawn = el("path")
            .with("class", "overlay-outline")
            .with("d", figure(outline, sheet))
            .painted("none", "#1b3f8b", "2")
            .with("stroke-dasharray", "9 4")
            .unscaled()
            .holding(title(name));
        let corners = sheet.corners(outline);
        let middle = corners.first().zip(corners.last());
        let middle = middle.map(|(low, high)| low.middle(*high));
        drawn
            + middle
                .map(|at| lettering(name, at, "middle", sheet))
                .unwrap_or_default()
    };
    sheet.options.overlay.outlines.iter().map(one).collect()
}

fn lettering(text: &str, at: SheetPoint, anchor: &str, sheet: &Sheet<'_>) -> Svg {
    let size = sheet.points(sheet.lettering());
    el("text")
        .at("x", at.x)
        .at("y", at.y + size * 0.35)
        .at("font-size", size)
        .with("font-family", "system-ui, sans-serif")
        .with("text-anchor", anchor)
        .with("fill", INK)
        .saying(text)
}

/// What the hatches mean, line by line in the strip above the scale bar.
pub(super) fn legend(sheet: &Sheet<'_>) -> Svg {
    let lines = &sheet.options.overlay.legend;
    let left = sheet.frame.low.x + sheet.points(20.0);
    let first =
        sheet.frame.high.y - sheet.points(30.0 + height(&sheet.options.overlay) - LINE / 2.0);
    let one = |(at, (hatch, text)): (usize, &(Option<Hatch>, String))| {
        let y = first + sheet.points(at as f64 * LINE);
        let indent = if hatch.is_some() { 30.0 } else { 0.0 };
        let swatch = hatch.map(|hatch| swatch(hatch, SheetPoint::new(left, y), sheet));
        let at = SheetPoint::new(left + sheet.points(indent), y);
        swatch.unwrap_or_default() + lettering(text, at, "start", sheet)
    };
    let lines: Svg = lines.iter().enumerate().map(one).collect();
    match lines.is_empty() {
        true => lines,
        false => el("g").with("class", "legend").holding(back(sheet) + lines),
    }
}

/// White ground behind the legend, so that no line of the drawing runs through it.
fn back(sheet: &Sheet<'_>) -> Svg {
    let high = sheet.points(height(&sheet.options.overlay));
    el("rect")
        .at("x", sheet.frame.low.x)
        .at("y", sheet.frame.high.y - sheet.points(30.0) - high)
        .at("width", sheet.frame.width())
        .at("height", high)
        .with("fill", "#ffffff")
        .empty()
}

fn swatch(hatch: Hatch, at: SheetPoint, sheet: &Sheet<'_>) -> Svg {
    let (stroke, width) = hatch.border();
    el("rect")
        .at("x", at.x)
        .at("y", at.y - sheet.points(6.0))
        .at("width", sheet.points(22.0))
        .at("height", sheet.points(12.0))
        .painted(hatch.fill(), stroke, width)
        .with_some("stroke-dasharray", hatch.dash())
        .unscaled()
        .empty()
}
