//! The map of where the pool could go, laid under what is drawn.

use rules_core::placement::{Class, Placement, Region, TurnReport, Way};

use super::ground::Ground;
use super::keyed::{El, svg};
use crate::looks::with_looks;
use crate::room::{Answer, Stage, now};

/// Above which layer of the drawing the map lies: over the land, under all that stands on it.
const ABOVE: usize = 5;
/// How many stripes of the map, or dots, there would be across the whole drawing.
const ACROSS: f64 = 90.0;
/// The classes that are shown, each with its name.
pub const SHOWN: [(Class, &str); 3] = [
    (Class::Sure, "sure"),
    (Class::AsDrawn, "as-drawn"),
    (Class::Open, "open"),
];

/// A drawing with its layers, and the map between them if it is to be shown.
pub fn laid(open: El, mut layers: Vec<El>, ground: Ground) -> El {
    if !with_looks(|looks| looks.room) {
        return open.each(layers);
    }
    let (stage, answer) = now();
    if let Some((found, map)) = answer.as_deref().and_then(Answer::map) {
        let sheet = Sheet {
            ground,
            middle: found.middle,
        };
        layers.insert(ABOVE.min(layers.len()), sheet.map(map, stage));
        layers.extend((stage == Stage::Found).then(|| sheet.marks(found)));
    }
    open.set("data-room", "").each(layers)
}

/// The name of a class.
pub fn name(class: Class) -> &'static str {
    let mut shown = SHOWN.into_iter();
    shown
        .find(|(known, _)| *known == class)
        .map_or("never", |(_, name)| name)
}

/// A small sample of how the map looks for a class, for the legend.
pub fn swatch(name: &'static str) -> El {
    let area = svg("rect")
        .class("room-area")
        .set("data-holds", name)
        .set("x", "1")
        .set("y", "1")
        .set("width", "34")
        .set("height", "18")
        .set("fill", format!("url(#room-key-{name})"));
    let pattern = pattern(&format!("room-key-{name}"), name, 6.0);
    svg("svg")
        .class("swatch")
        .set("viewBox", "0 0 36 20")
        .set("aria-hidden", "true")
        .with(pattern)
        .with(area)
}

/// What fills the areas of a class: plain, striped, dotted.
fn pattern(id: &str, name: &'static str, size: f64) -> El {
    let at = |share: f64| (size * share).to_string();
    let paper = svg("rect")
        .class("paper")
        .set("width", at(1.0))
        .set("height", at(1.0));
    let ink = match name {
        "as-drawn" => Some(
            svg("path")
                .class("ink")
                .set("d", format!("M0 {}h{}", at(0.5), at(1.0)))
                .set("stroke-width", at(0.22)),
        ),
        "open" => Some(
            svg("circle")
                .class("ink")
                .set("cx", at(0.5))
                .set("cy", at(0.5))
                .set("r", at(0.17)),
        ),
        _ => None,
    };
    svg("pattern")
        .id(id.to_owned())
        .class("room-look")
        .set("data-holds", name)
        .set("patternUnits", "userSpaceOnUse")
        .set("width", at(1.0))
        .set("height", at(1.0))
        .with(paper)
        .with(ink)
}

/// The ground on which the map lies.
struct Sheet {
    ground: Ground,
    /// The middle of the pool when it was looked for, from which the map counts.
    middle: Way,
}

impl Sheet {
    fn unit(&self) -> f64 {
        self.ground.whole[2] / ACROSS
    }

    fn at(&self, way: Way) -> [f64; 2] {
        let [left, top] = self.ground.zero;
        let (east, north) = (self.middle.x + way.x, self.middle.y + way.y);
        [left + east as f64, top - north as f64]
    }

    fn map(&self, map: &TurnReport, stage: Stage) -> El {
        let looks = SHOWN.map(|(_, name)| pattern(&format!("room-{name}"), name, self.unit()));
        svg("g")
            .id("room-map")
            .set("data-map", "")
            .set("data-fresh", (stage == Stage::Found).to_string())
            .with(svg("defs").each(looks))
            .with(self.reach(map))
            .each(SHOWN.map(|(class, name)| self.areas(map, class, name)))
    }

    /// An invisible area over all the ground that was searched, so that presses on it are noticed.
    fn reach(&self, map: &TurnReport) -> Option<El> {
        let ways = || {
            map.regions
                .iter()
                .flat_map(|it| it.polygons.iter().flatten().flatten())
        };
        let low = Way {
            x: ways().map(|way| way.x).min()?,
            y: ways().map(|way| way.y).min()?,
        };
        let high = Way {
            x: ways().map(|way| way.x).max()?,
            y: ways().map(|way| way.y).max()?,
        };
        let ([left, bottom], [right, top]) = (self.at(low), self.at(high));
        let reach = svg("rect")
            .class("room-reach")
            .set("x", left.to_string())
            .set("y", top.to_string())
            .set("width", (right - left).to_string())
            .set("height", (bottom - top).to_string());
        Some(reach)
    }

    /// The areas of a class, as one path.
    fn areas(&self, map: &TurnReport, class: Class, name: &'static str) -> Option<El> {
        let regions = map.regions.iter().filter(|it| it.holds == class);
        let path: String = regions.map(|region| self.path(region)).collect();
        let area = || {
            svg("path")
                .class("room-area")
                .set("data-holds", name)
                .set("fill", format!("url(#room-{name})"))
                .set("d", path.clone())
        };
        (!path.is_empty()).then(area)
    }

    fn path(&self, region: &Region) -> String {
        let ring = |ring: &Vec<Way>| {
            let places = ring.iter().map(|way| {
                let [x, y] = self.at(*way);
                format!("{x} {y}")
            });
            format!("M{}Z", places.collect::<Vec<_>>().join("L"))
        };
        region.polygons.iter().flatten().map(ring).collect()
    }

    /// The middle of the pool, and the places on offer, each with its number.
    fn marks(&self, found: &Placement) -> El {
        let unit = self.unit();
        let [x, y] = self.at(Way::default());
        let arm = unit * 1.3;
        let middle = svg("path").class("room-middle").set(
            "d",
            format!(
                "M{} {y}h{}M{x} {}v{}",
                x - arm,
                arm * 2.0,
                y - arm,
                arm * 2.0
            ),
        );
        let offers = (1..).zip(&found.options);
        svg("g")
            .id("room-marks")
            .set("aria-hidden", "true")
            .with(middle)
            .each(offers.map(|(number, offer)| numbered(self.at(offer.way), number, unit)))
    }
}

fn numbered([x, y]: [f64; 2], number: usize, unit: f64) -> El {
    let round = svg("circle")
        .set("cx", x.to_string())
        .set("cy", y.to_string())
        .set("r", (unit * 0.4).to_string());
    // Places are often close together: their numbers stand to either side.
    let (aside, anchor) = match number % 2 {
        0 => (-unit * 0.7, "end"),
        _ => (unit * 0.7, "start"),
    };
    let said = svg("text")
        .set("x", (x + aside).to_string())
        .set("y", (y - unit * 0.5).to_string())
        .set("text-anchor", anchor)
        .set("font-size", (unit * 2.0).to_string())
        .with(number.to_string());
    svg("g").class("room-offer").with(round).with(said)
}

/// The sign of the pool's middle, as it looks on the map.
pub fn middle_sign() -> El {
    svg("svg")
        .class("swatch")
        .set("viewBox", "0 0 36 20")
        .set("aria-hidden", "true")
        .with(
            svg("path")
                .class("room-middle")
                .set("d", "M10 10h16M18 2v16"),
        )
}
