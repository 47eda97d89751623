//! The drawing on the page.

use std::cell::RefCell;
use std::collections::BTreeSet;

use rules_core::drawing::{Drawing, Element, Options};
use rules_core::session::path_of;
use rules_core::text::Node;
use wasm_bindgen::JsCast;
use web_sys::{FocusOptions, HtmlElement, SvgGraphicsElement};

use super::ground::{self, EMPTY, Ground, numbers};
use super::keyed::{El, document, el, element, show, show_within, svg};
use super::room_map;
use crate::draw::drawn;
use crate::hand::being_drawn;
use crate::held::{length_said, with};
use crate::judged::with_judged;
use crate::looks::with_looks;
use crate::plan::is_of_lot;
use crate::words::{fill, t};

thread_local! {
    /// The layers of the drawing at rest.
    static AT_REST: RefCell<Vec<El>> = const { RefCell::new(Vec::new()) };
    /// Those that a drag has changed.
    static ASTIR: RefCell<BTreeSet<usize>> = const { RefCell::new(BTreeSet::new()) };
}

/// Where the drawing stands.
pub fn canvas() -> Option<HtmlElement> {
    element("canvas")?.dyn_into().ok()
}

/// How the drawing is wanted.
pub fn options() -> Options {
    let size = canvas().map(|canvas| [canvas.client_width(), canvas.client_height()]);
    let size = size.filter(|[width, _]| *width > 0);
    let usual = Options::default();
    with_looks(|looks| Options {
        selected: looks.selected.clone(),
        chosen: looks.thing.clone(),
        shade: looks.shade,
        unit: Some(looks.unit.clone()),
        width: size.map_or(usual.width, |[width, _]| width.into()),
        height: size.map(|[_, height]| height.into()),
        ..usual
    })
}

/// The same all through a drag: the ground that is drawn stays, so that it does not slide away under the pointer.
pub fn options_of_drag() -> Options {
    Options {
        view: Some(ground::drawn().whole),
        ..options()
    }
}

/// Shows the plan, or an empty sheet.
pub fn show_drawing() {
    let focused = focused();
    let (ground, sheet) = match drawing_now() {
        Some(drawing) => {
            let ground = Ground {
                whole: drawing.view,
                zero: drawing.zero,
            };
            (ground, of_plan(drawing, ground))
        }
        None => (EMPTY, empty_sheet()),
    };
    ground::set_drawn(ground);
    let sheet = sheet
        .id("drawing")
        .change("viewBox", Some(numbers(&ground::view()).into()));
    let canvas = el("div").set("aria-label", t("sheet.label"));
    show("canvas", canvas.with(sheet.with(drawn_so_far())));
    tell_places();
    if let Some(focused) = focused {
        keep_focus(&focused);
    }
}

/// The drawing of the plan: the one that was judged; one without a pool is drawn without rules that wait for it.
fn drawing_now() -> Option<Drawing> {
    let judged = with_judged(|judged| judged.shown()?.drawing.clone());
    judged.or_else(|| {
        let has_pool = with(|session| has_pool(session.plan()));
        let mut options = options();
        if !has_pool {
            (options.selected, options.shade) = (None, false);
        }
        drawn(&options)
    })
}

fn has_pool(plan: &Node) -> bool {
    plan.get("pool").is_some_and(|pool| !pool.is_empty())
}

fn of_plan(drawing: Drawing, ground: Ground) -> El {
    let layers = drawing.layers.into_iter().enumerate();
    let layers = layers.filter_map(|(at, layer)| of_layer(at, layer));
    let layers: Vec<El> = layers.collect();
    AT_REST.set(layers.clone());
    ASTIR.take();
    room_map::laid(El::from(drawing.open), layers, ground)
}

/// A layer of the drawing, found again by its number.
fn of_layer(at: usize, layer: Element) -> Option<El> {
    let layer = with(|session| {
        let (plan, has_pool) = (session.plan(), has_pool(session.plan()));
        El::from(layer).remade(&|element| {
            let stays = has_pool || !is_lent(&element);
            stays.then(|| said(element, plan))
        })
    });
    Some(layer?.id(format!("layer-{at}")))
}

/// Whether it is about the pool that a plan without one is lent.
fn is_lent(element: &El) -> bool {
    let class = element.get("class").unwrap_or_default();
    class
        .split(' ')
        .any(|class| ["kind-pool", "distances", "figure", "name"].contains(&class))
}

/// With what screen readers say of a thing or a ring. An id finds it again when others come and go.
fn said(element: El, plan: &Node) -> El {
    let get = |name| element.get(name).map(str::to_owned);
    let (path, ring) = (get("data-path"), get("data-handle").zip(get("data-index")));
    let (what, id) = match (path, ring) {
        (Some(path), _) if is_fixed(plan, &path) => ("line", format!("drawn-{path}")),
        (Some(path), _) => ("thing", format!("drawn-{path}")),
        (_, Some((what, index))) => ("ring", format!("ring-{what}-{index}")),
        _ => return element,
    };
    let role = t(&format!("sheet.is-{what}"));
    element
        .id(id)
        .change("role", Some("button".into()))
        .set("aria-roledescription", role)
        .set("data-is", what)
}

/// Whether it cannot be dragged: the lot is pulled by its corners.
pub fn is_fixed(plan: &Node, id: &str) -> bool {
    path_of(plan, id).is_none_or(|path| is_of_lot(&path))
}

/// A sheet with squares of five metres, to draw a lot on.
fn empty_sheet() -> El {
    AT_REST.take();
    ASTIR.take();
    let line = |[x1, y1, x2, y2]: [i32; 4]| {
        svg("line")
            .set("x1", x1.to_string())
            .set("y1", y1.to_string())
            .set("x2", x2.to_string())
            .set("y2", y2.to_string())
            .class("grid")
    };
    let lines = (0..=40_000).step_by(5000);
    let lines = lines.flat_map(|at| [[at, 0, at, -40_000], [0, -at, 40_000, -at]]);
    svg("svg")
        .class("empty")
        .set("role", "img")
        .set("aria-label", t("sheet.empty"))
        .each(lines.map(line))
}

/// What is being drawn place by place.
fn drawn_so_far() -> Option<El> {
    let drawing = being_drawn()?;
    let place = |place: &[f64; 2]| ground::on_sheet(*place).map(|at| at.to_string()).join(",");
    let places: Vec<String> = drawing.places.iter().map(place).collect();
    let line = svg(if drawing.ring { "polygon" } else { "polyline" });
    Some(line.class("being-drawn").set("points", places.join(" ")))
}

/// Shows a step of a drag: the layers that it changed, and at rest again those that only an earlier step changed.
pub fn follow(layers: Vec<Option<Element>>) {
    for (at, layer) in layers.into_iter().enumerate() {
        let was_astir = ASTIR.with_borrow_mut(|astir| astir.remove(&at));
        let changed = layer.and_then(|layer| of_layer(at, layer));
        if changed.is_some() {
            ASTIR.with_borrow_mut(|astir| astir.insert(at));
        }
        let at_rest = || AT_REST.with_borrow(|layers| layers.get(at).cloned());
        let wanted = changed.or_else(|| at_rest().filter(|_| was_astir));
        if let Some(layer) = wanted {
            show_within("canvas", layer);
        }
    }
}

/// Tells screen readers where each thing and ring lies, and which keys move it.
fn tell_places() {
    let Some(all) =
        ground::drawing().and_then(|drawing| drawing.query_selector_all("[data-is]").ok())
    else {
        return;
    };
    for at in 0..all.length() {
        if let Some(part) = all
            .item(at)
            .and_then(|node| node.dyn_into::<web_sys::Element>().ok())
        {
            let keys = format!(
                "sheet.keys-of-{}",
                part.get_attribute("data-is").unwrap_or_default()
            );
            let said = format!("{} {}", where_is(&part).unwrap_or_default(), t(&keys));
            // Any element takes an attribute.
            let _ = part.set_attribute("aria-description", &said);
        }
    }
}

/// Where something on the drawing lies: its lower left corner, from the place that the plan counts from.
pub fn where_is(part: &web_sys::Element) -> Option<String> {
    let outline = part.query_selector("[data-outline]").ok().flatten();
    let outline = outline.unwrap_or_else(|| part.clone());
    let frame = outline
        .dyn_into::<SvgGraphicsElement>()
        .ok()?
        .get_b_box()
        .ok()?;
    let [left, top] = ground::drawn().zero;
    let [x, y, height] = [frame.x(), frame.y(), frame.height()].map(f64::from);
    let (right, up) = (length_said(x - left), length_said(top - y - height));
    Some(fill("sheet.lies", &[("right", &right), ("up", &up)]))
}

/// The thing or ring that has the focus.
pub fn focused_part() -> Option<web_sys::Element> {
    let active = document()?.active_element()?;
    active.closest("#canvas [data-is]").ok()?
}

fn focused() -> Option<String> {
    Some(focused_part()?.id())
}

/// Gives the focus back to what had it, in case it was drawn anew.
fn keep_focus(id: &str) {
    let still = focused().as_deref() == Some(id);
    if let Some(found) = element(id).filter(|_| !still) {
        let how = FocusOptions::new();
        how.set_prevent_scroll(true);
        // Parts of a drawing take the focus as other elements do.
        let _ = found
            .unchecked_into::<HtmlElement>()
            .focus_with_options(&how);
    }
}
