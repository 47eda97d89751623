//! The plan as a drawing to scale: SVG that prints well by itself, and that a page can point at.
//!
//! It decides nothing. What it says of distances was found by `check` and put into words by `report`; the only geometry
//! of its own is where ink goes. One unit of the drawing is a millimetre of ground; y runs down, as screens have it.
//! Nothing is told by colour alone: what fails is heavy, what is open is broken, what is kept free is hatched, and each
//! thing has a title. All looks are plain attributes, so that a page whose policy allows no style of its own can show it.

mod furniture;
mod labels;
mod lot;
mod marks;
mod path;
mod place;
mod shade;
mod sheet;
mod style;
mod svg;
mod things;
mod witness;

pub use sheet::{Handle, Options};

use serde::Serialize;

use crate::check::Findings;
use crate::plan::Plan;
use crate::report::RuleReport;
use crate::ruleset::RuleSet;
use labels::Lettering;
use sheet::Sheet;
use style::Layer;
use svg::{el, mm, title};

/// A drawing in pieces, so that a page need not read all of it anew where only a part is drawn otherwise.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Drawing {
    /// How it begins: the tag of the whole, and what it is called.
    open: String,
    /// What lies on one another, the lowest first: each one element, always as many, in the same order.
    pub(crate) layers: Vec<String>,
}

impl Drawing {
    /// The whole as SVG.
    pub fn svg(&self) -> String {
        format!("{}{}</svg>", self.open, self.layers.concat())
    }
}

/// Draws a plan and what was found about it.
///
/// `reports` must be those that were made of these findings: one for each rule, with all parts of the selected one and at
/// least what decides of the others.
pub fn drawing<'a>(
    plan: &'a Plan,
    rules: &'a RuleSet,
    findings: &'a Findings<'a>,
    reports: &'a [RuleReport],
    options: &'a Options,
) -> Drawing {
    let sheet = Sheet::new((plan, rules), (findings, reports), options);
    let mut lettering = Lettering::default();
    // In the order in which lettering is placed: what must be read finds room first.
    let north = furniture::north(&mut lettering, &sheet);
    let bar = furniture::scale_bar(&mut lettering, &sheet);
    let distances = witness::lines(&mut lettering, &sheet);
    lot::lengths(&mut lettering, &sheet);
    things::names(&mut lettering, &sheet);
    let shade = options.shade.then(|| shade::zones(&sheet));
    let layers = |layer| things::layer(layer, &sheet);
    let inner = [
        furniture::defs(&sheet),
        ground(&sheet),
        lot::land(&sheet),
        layers(Layer::Ground),
        shade.unwrap_or_default(),
        layers(Layer::Lines),
        layers(Layer::Standing),
        lot::sides(&sheet),
        layers(Layer::Barrier),
        layers(Layer::Pool),
        distances,
        lettering.svg(&sheet),
        furniture::handles(&sheet),
        north,
        bar,
    ];
    let layer = |inner: String| el("g").holding(&inner);
    Drawing {
        open: root(&sheet).opening(&title(&plan.title)),
        layers: inner.map(layer).into(),
    }
}

fn ground(sheet: &Sheet<'_>) -> String {
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

fn root(sheet: &Sheet<'_>) -> svg::El {
    let frame = sheet.frame;
    let view = [frame.low.x, frame.low.y, frame.width(), frame.height()].map(mm);
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
}
