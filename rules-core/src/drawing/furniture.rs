//! What a sheet needs besides the plan: patterns, the north arrow, the scale bar, the handles.

use super::labels::{Label, Lettering};
use super::place::{Frame, SheetPoint};
use super::shade;
use super::sheet::{Handle, Sheet};
use super::svg::{INK, Svg, el, mm, title};
use crate::quantity::Unit;

/// The patterns, and the lot as the clip path of the shading.
pub(super) fn defs(sheet: &Sheet<'_>) -> Svg {
    let line = |d: String, width: f64| {
        el("path")
            .with("d", d)
            .with("fill", "none")
            .with("stroke", "#6b5a3c")
            .at("stroke-width", sheet.points(width))
            .empty()
    };
    let diagonal = |size: f64| {
        let s = mm(sheet.points(size));
        let half = mm(sheet.points(size) / 2.0);
        format!(
            "M0 {s}L{s} 0M-{half} {half}L{half} -{half}M{half} {}L{} {half}",
            mm(sheet.points(size * 1.5)),
            mm(sheet.points(size * 1.5))
        )
    };
    let wave = {
        let s = |share: f64| mm(sheet.points(16.0 * share));
        format!(
            "M0 {}Q{} {} {} {}T{} {}",
            s(0.5),
            s(0.25),
            s(0.3),
            s(0.5),
            s(0.5),
            s(1.0),
            s(0.5)
        )
    };
    let hatch = pattern("siting-hatch", 9.0, line(diagonal(9.0), 1.1), sheet);
    let easement = pattern("siting-easement", 14.0, line(diagonal(14.0), 0.5), sheet);
    let flood = pattern("siting-flood", 16.0, line(wave, 0.7), sheet);
    el("defs").holding(hatch + easement + flood + shade::clip(sheet))
}

pub(super) fn pattern(id: &str, size: f64, inner: Svg, sheet: &Sheet<'_>) -> Svg {
    el("pattern")
        .with("id", id)
        .with("patternUnits", "userSpaceOnUse")
        .at("width", sheet.points(size))
        .at("height", sheet.points(size))
        .holding(inner)
}

/// An arrow to the north in a ring, at the top right; nothing where nobody said where north is.
pub(super) fn north(lettering: &mut Lettering, sheet: &Sheet<'_>) -> Svg {
    let Some(north) = sheet.plan.north else {
        return Svg::default();
    };
    let (r, edge) = (sheet.points(17.0), sheet.points(28.0));
    let at = SheetPoint::new(
        sheet.frame.high.x - edge,
        sheet.frame.low.y + edge + sheet.points(14.0),
    );
    let turn = (north as f64 / 1e9).to_radians();
    let up = SheetPoint::new(libm::sin(turn), -libm::cos(turn));
    let side = up.left();
    let spot = |forward: f64, left: f64| at.along(up, r * forward).along(side, r * left);
    let (tip, notch) = (spot(1.0, 0.0), spot(-0.45, 0.0));
    let back = el("circle")
        .round(at, r * 1.25)
        .with("class", "back")
        .with("fill", "#ffffff")
        .empty();
    let inner = back
        + half_arrow([tip, spot(-0.8, 0.5), notch], INK)
        + half_arrow([tip, spot(-0.8, -0.5), notch], "#ffffff");
    let box_around = Frame { low: at, high: at }.resized(2.6 * r, 2.6 * r);
    let letter = Label {
        text: "N".to_owned(),
        at: at.along(up, r + sheet.points(9.0)),
        angle: 0.0,
        class: "north",
    };
    lettering.place(&[letter], true, sheet);
    lettering.keep_free(box_around);
    el("g")
        .with("class", "north-arrow")
        .with("pointer-events", "none")
        .holding(title("North") + inner)
}

fn half_arrow(corners: [SheetPoint; 3], fill: &str) -> Svg {
    let points = corners.map(|spot| format!("{},{}", mm(spot.x), mm(spot.y)));
    el("polygon")
        .with("points", points.join(" "))
        .painted(fill, INK, "1")
        .with("stroke-linejoin", "round")
        .unscaled()
        .empty()
}

/// A bar of whole metres or feet, about 150 points long, at the bottom left; on paper, with the scale beside it.
pub(super) fn scale_bar(lettering: &mut Lettering, sheet: &Sheet<'_>) -> Svg {
    let (unit, long) = bar_length(sheet);
    let low = SheetPoint::new(
        sheet.frame.low.x + sheet.points(20.0),
        sheet.frame.high.y - sheet.points(13.0),
    );
    for share in [0.0, 0.5, 1.0] {
        let text = match share > 0.9 {
            true => sheet.printed(long),
            false => plain(sheet.printed(long * share), unit),
        };
        lettering.place(&[at_bar(text, low, long * share, sheet)], true, sheet);
    }
    if let Some(scale) = sheet.options.scale {
        let beside = long + sheet.points(60.0);
        let scale = at_bar(format!("1:{scale}"), low, beside, sheet);
        lettering.place(&[scale], true, sheet);
    }
    let bar = (0..4).map(|n| quarter_of_bar(n, low, long, sheet));
    el("g")
        .with("class", "scale-bar")
        .with("pointer-events", "none")
        .with("data-length", mm(long))
        .holding(bar.collect())
}

fn quarter_of_bar(n: u32, low: SheetPoint, long: f64, sheet: &Sheet<'_>) -> Svg {
    let fill = match n.is_multiple_of(2) {
        true => INK,
        false => "#ffffff",
    };
    el("rect")
        .at("x", low.x + long * f64::from(n) / 4.0)
        .at("y", low.y)
        .at("width", long / 4.0)
        .at("height", sheet.points(5.0))
        .painted(fill, INK, "0.8")
        .unscaled()
        .empty()
}

fn at_bar(text: String, low: SheetPoint, along: f64, sheet: &Sheet<'_>) -> Label {
    Label {
        text,
        at: SheetPoint::new(low.x + along, low.y - sheet.points(9.0)),
        angle: 0.0,
        class: "scale",
    }
}

/// Only the last figure carries the unit.
fn plain(text: String, unit: Unit) -> String {
    match text.strip_suffix(unit.symbol()) {
        Some(figure) => figure.trim_end().to_owned(),
        None => text,
    }
}

/// The longest round length of no more than 160 points, in millimetres, and its unit.
fn bar_length(sheet: &Sheet<'_>) -> (Unit, f64) {
    const METRES: [f64; 12] = [
        0.4, 1.0, 2.0, 4.0, 10.0, 20.0, 40.0, 100.0, 200.0, 400.0, 1000.0, 4000.0,
    ];
    let unit = sheet.unit();
    let (_, metre) = match unit == Unit::FOOT || unit == Unit::INCH || unit == Unit::YARD {
        true => (Unit::FOOT, 304.8),
        false => (Unit::METRE, 1000.0),
    };
    let longest = sheet.points(160.0);
    let fits = METRES
        .iter()
        .map(|count| count * metre)
        .filter(|long| *long <= longest);
    (
        unit,
        fits.fold(METRES.first().copied().unwrap_or(1.0) * metre, f64::max),
    )
}

/// The places where the chosen thing can be taken hold of.
pub(super) fn handles(sheet: &Sheet<'_>) -> Svg {
    let drawn = sheet
        .options
        .handles
        .iter()
        .map(|handle| drawn(handle, sheet));
    el("g").with("class", "handles").holding(drawn.collect())
}

fn drawn(handle: &Handle, sheet: &Sheet<'_>) -> Svg {
    let at = sheet.spot_of_file(handle.at);
    let name = format!("{} {}", handle.what, handle.index + 1);
    let circle = |class: &str, radius: f64, fill: &str| {
        el("circle")
            .with("class", class)
            .round(at, sheet.points(radius))
            .with("fill", fill)
    };
    // The target is larger than the visible ring: 24 points across, as WCAG 2.2 asks (2.5.8).
    let reach = circle("reach", 12.0, "none")
        .with("pointer-events", "all")
        .empty();
    let seen = circle(
        "seen",
        if handle.what == "turn" { 6.0 } else { 5.0 },
        "#ffffff",
    )
    .with("stroke", INK)
    .with("stroke-width", "1.6")
    .unscaled()
    .empty();
    el("g")
        .with("class", format!("handle handle-{}", handle.what))
        .with("data-handle", &handle.what)
        .with("data-index", handle.index.to_string())
        .with_some("data-of", sheet.options.chosen.as_ref())
        .with("tabindex", "0")
        .with("role", "img")
        .with("aria-label", &name)
        .holding(title(&name) + reach + seen)
}
