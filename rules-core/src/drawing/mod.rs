//! The plan as a drawing to scale: SVG that prints well by itself, and that a page can point at. It decides nothing.
//! `check` found what it says about distances, and `report` put that into words; the drawing itself only works out
//! where the ink goes. One unit of the drawing is a millimetre of ground, and y runs down, as on a screen. Colour alone
//! never carries meaning: a line that fails is heavy, an open one is dashed, ground kept free is hatched, and
//! everything has a title. Every style is a plain attribute, so a page whose policy forbids inline styles can show the
//! drawing.

mod changed;
mod furniture;
mod labels;
mod lot;
mod marks;
mod overlay;
mod path;
mod place;
mod shade;
mod sheet;
mod style;
mod svg;
mod things;
mod witness;

pub use overlay::{Hatch, Overlay, OverlayArea};
pub use sheet::{Handle, Options};
pub use svg::{Element, Inner};

use serde::{Serialize, Serializer};

use crate::check::Findings;
use crate::plan::Plan;
use crate::report::RuleReport;
use crate::ruleset::RuleSet;
use crate::vocabulary::Layer;
use changed::ChangedThings;
use labels::Lettering;
use place::Frame;
use sheet::Sheet;
use svg::{Svg, el, mm, title};

/// A drawing in pieces, so that a page need not read all of it again when only part of it changes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Drawing {
    /// The whole drawing with its title, without its layers.
    #[serde(serialize_with = "opening")]
    pub open: Element,
    /// The layers, lowest first; their number and order never change.
    pub layers: Vec<Element>,
    /// The ground that it shows: left, top, width and height, in whole millimetres of its own.
    #[serde(skip)]
    pub view: [f64; 4],
    /// Where the plan counts from, in the same.
    #[serde(skip)]
    pub zero: [f64; 2],
}

/// A page that gets the layers one by one gets the rest left open for them.
fn opening<S: Serializer>(open: &Element, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(&open.opening())
}

impl Drawing {
    /// The whole as SVG.
    pub fn svg(&self) -> String {
        let layers: String = self.layers.iter().map(Element::to_string).collect();
        format!("{}{layers}</svg>", self.open.opening())
    }
}

/// The layers of a drawing, with `None` for a layer known to be unchanged; also the part of the ground that they show,
/// and the size of a point on it.
#[derive(Debug)]
pub(crate) struct Layers {
    layers: Vec<Option<Element>>,
    shows: (Frame, f64),
}

impl Layers {
    /// The layers that differ from those before; `None` for the rest.
    pub fn diff(self, before: &Self) -> Vec<Option<Element>> {
        let pairs = self.layers.into_iter().zip(&before.layers);
        pairs
            .map(|(layer, old)| layer.filter(|layer| old.as_ref() != Some(layer)))
            .collect()
    }
}

/// Draws a plan and the findings about it.
///
/// `reports` must be made from these findings: one for each rule, with every part of the selected rule and at least the
/// deciding part of the others.
pub fn drawing<'a>(
    plan: &'a Plan,
    rules: &'a RuleSet,
    findings: &'a Findings<'a>,
    reports: &'a [RuleReport],
    options: &'a Options,
) -> Drawing {
    let sheet = Sheet::new((plan, rules), (findings, reports), options);
    Drawing {
        open: root(&sheet),
        layers: drawn(&sheet, &ChangedThings::ALL)
            .into_iter()
            .flatten()
            .collect(),
        view: view(&sheet),
        zero: sheet.zero().map(f64::round),
    }
}

/// The layers alone. A layer that holds the same things as before is not drawn again; the vocabulary and options must
/// be the same as before.
pub(crate) fn layers<'a>(
    (plan, rules): (&'a Plan, &'a RuleSet),
    found: (&'a Findings<'a>, &'a [RuleReport]),
    options: &'a Options,
    before: Option<(&'a Plan, &'a Layers)>,
) -> Layers {
    let sheet = Sheet::new((plan, rules), found, options);
    let same_ground = |(_, drawn): &(&Plan, &Layers)| drawn.shows == (sheet.frame, sheet.point);
    let changed = match before.filter(same_ground) {
        Some((before, _)) => ChangedThings::since(before, &sheet),
        None => ChangedThings::ALL,
    };
    Layers {
        layers: drawn(&sheet, &changed),
        shows: (sheet.frame, sheet.point),
    }
}

fn drawn(sheet: &Sheet<'_>, changed: &ChangedThings<'_>) -> Vec<Option<Element>> {
    let options = sheet.options;
    let mut lettering = Lettering::default();
    // Lettering is placed in this order, so that what must be readable gets its room first.
    let north = furniture::north(&mut lettering, sheet);
    let bar = furniture::scale_bar(&mut lettering, sheet);
    let distances = witness::lines(&mut lettering, sheet);
    lot::lengths(&mut lettering, sheet);
    things::names(&mut lettering, sheet);
    let shade = options.shade.then(|| shade::zones(sheet));
    let layers = |layer| {
        changed
            .has(layer, sheet)
            .then(|| things::layer(layer, sheet))
    };
    let of_lot = |draw: fn(&Sheet<'_>) -> Svg| changed.has_lot(sheet).then(|| draw(sheet));
    let inner = [
        of_lot(furniture::defs),
        Some(ground(sheet)),
        of_lot(lot::land),
        layers(Layer::Ground),
        Some(shade.unwrap_or_default()),
        layers(Layer::Lines),
        layers(Layer::Standing),
        of_lot(lot::sides),
        layers(Layer::Barrier),
        layers(Layer::Pool),
        Some(overlay::areas(sheet) + distances + overlay::outlines(sheet)),
        Some(lettering.svg(sheet)),
        Some(furniture::handles(sheet)),
        Some(north),
        Some(overlay::legend(sheet) + bar),
    ];
    let layer = |inner: Option<Svg>| inner.map(|inner| el("g").around(inner));
    inner.map(layer).into()
}

fn ground(sheet: &Sheet<'_>) -> Svg {
    let frame = sheet.frame;
    el("rect")
        .with("class", "ground")
        .at("x", frame.low.x)
        .at("y", frame.low.y)
        .at("width", frame.width())
        .at("height", frame.height())
        .with("fill", "#ffffff")
        .empty()
}

/// The ground that a sheet shows, in whole millimetres.
fn view(sheet: &Sheet<'_>) -> [f64; 4] {
    let frame = sheet.frame;
    [frame.low.x, frame.low.y, frame.width(), frame.height()].map(f64::round)
}

fn root(sheet: &Sheet<'_>) -> Element {
    let frame = sheet.frame;
    let view = view(sheet).map(mm);
    let zero = sheet.zero().map(mm);
    let size = sheet.options.scale.map(|scale| {
        let scale = f64::from(scale.max(1));
        [frame.width(), frame.height()]
            .map(|side| format!("{}mm", (side / scale * 1000.0).round() / 1000.0))
    });
    let [width, height] = size.map_or([None, None], |size| size.map(Some));
    el("svg")
        .with("xmlns", "http://www.w3.org/2000/svg")
        .with("class", "plan")
        .with("viewBox", view.join(" "))
        .with_some("width", width)
        .with_some("height", height)
        .with("role", "group")
        .with("aria-label", &sheet.plan.title)
        .with("data-zero", zero.join(" "))
        .with("data-point", format!("{:.3}", sheet.point))
        .around(title(&sheet.plan.title))
}
