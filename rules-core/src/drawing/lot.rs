//! The lot: its land, and its sides with their lengths.

use super::labels::{Label, Lettering};
use super::path;
use super::place::SheetPoint;
use super::sheet::Sheet;
use super::style::{LOT, LOT_LINE, SURE_SOURCES};
use super::svg::{INK, Svg, el};
use super::things::{around, called, reach};
use crate::plan::Thing;
use crate::plan::figure::{Figure, Form};
use crate::text::capitalised;

fn of_kind<'s>(kind: &'s str, sheet: &'s Sheet<'_>) -> impl Iterator<Item = &'s Thing> {
    let things = sheet.plan.things.iter();
    things.filter(move |thing| sheet.kind(thing) == kind)
}

/// The outline of the lot.
pub(super) fn boundary<'s>(sheet: &'s Sheet<'_>) -> Option<&'s Figure> {
    let lot = of_kind(LOT, sheet).next()?;
    sheet.outlines(lot).first().map(|(_, figure)| *figure)
}

/// The land inside it.
pub(super) fn land(sheet: &Sheet<'_>) -> Svg {
    let ring = boundary(sheet).map(|figure| path::figure(figure, sheet));
    let land = el("path").with("class", "land").with_some("d", ring);
    land.with("fill", "#ffffff").empty()
}

/// Its sides: a long dash with two dots where a survey, a plat or a deed gives them, else a short dash, so that nobody
/// takes them for the boundary.
pub(super) fn sides(sheet: &Sheet<'_>) -> Svg {
    of_kind(LOT_LINE, sheet)
        .map(|side| drawn(side, sheet))
        .collect()
}

fn drawn(side: &Thing, sheet: &Sheet<'_>) -> Svg {
    let Some((outline, figure)) = sheet.outlines(side).first().copied() else {
        return Svg::default();
    };
    let d = path::figure(figure, sheet);
    let source = sheet.word(side, "source");
    let vouched = source.is_some_and(|word| SURE_SOURCES.contains(&word));
    let (dash, more) = match vouched {
        true => ("20 4 3 4 3 4", ""),
        false => ("6 4", " unsure"),
    };
    let line = el("path")
        .with("class", format!("outline outline-{}", outline.name))
        .with("data-outline", &outline.name)
        .with("d", &d)
        .painted("none", INK, "2")
        .with("stroke-dasharray", dash)
        .unscaled()
        .empty();
    around(side, reach(&d) + line, more, sheet)
}

/// Writes each side's name and length beside it.
pub(super) fn lengths(lettering: &mut Lettering, sheet: &Sheet<'_>) {
    let turned = boundary(sheet).is_some_and(|figure| runs_with_the_clock(figure, sheet));
    for side in of_kind(LOT_LINE, sheet) {
        let outlines = sheet.outlines(side);
        let form = outlines
            .first()
            .and_then(|(_, figure)| figure.forms.first());
        if let Some(Form::Path(points)) = form {
            let line = sheet.spots(points);
            if let Some((a, b)) = line.first().zip(line.last()) {
                let (a, b) = if turned { (*b, *a) } else { (*a, *b) };
                let text = format!(
                    "{} {}",
                    capitalised(&called(side)),
                    sheet.printed(a.to(b).length())
                );
                lettering.place(&beside(&text, a, b, sheet), false, sheet);
            }
        }
    }
}

/// Outside the lot, else inside. The lot lies to the left of the way from `a` to `b`.
fn beside(text: &str, a: SheetPoint, b: SheetPoint, sheet: &Sheet<'_>) -> Vec<Label> {
    let (a, b) = sheet.frame.part_of(a, b).unwrap_or((a, b));
    let (way, out) = (a.to(b), a.to(b).unit().left());
    let off = [(0.5, -11.0), (0.3, -11.0), (0.7, -11.0), (0.5, 11.0)];
    let places = off.map(|(share, off)| Label {
        text: text.to_owned(),
        at: a.along(way, share).along(out, sheet.points(off)),
        angle: way.reading_angle(),
        class: "length",
    });
    places.to_vec()
}

fn runs_with_the_clock(figure: &Figure, sheet: &Sheet<'_>) -> bool {
    let Some(Form::Ring(points)) = figure.forms.first() else {
        return false;
    };
    let spots = sheet.spots(points);
    let next = spots.iter().cycle().skip(1);
    // On the sheet y runs down.
    spots
        .iter()
        .zip(next)
        .map(|(a, b)| a.x * b.y - b.x * a.y)
        .sum::<f64>()
        > 0.0
}
