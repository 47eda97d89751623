//! The things of the plan, each as a group that can be pointed at and read out.

use super::labels::{Label, Lettering, width_of};
use super::marks;
use super::path;
use super::place::{Frame, SheetPoint};
use super::sheet::Sheet;
use super::style::{LOT, LOT_LINE};
use super::svg::{Svg, el, title};
use crate::plan::Thing;
use crate::plan::figure::{Figure, Form};
use crate::ruleset::words::kind_noun;
use crate::text::capitalised;
use crate::vocabulary::{Layer, Look, Mark, Outline, Shape};

/// The things of one layer.
pub(super) fn layer(layer: Layer, sheet: &Sheet<'_>) -> Svg {
    let things = sheet.plan.things.iter();
    let own_place = [LOT, LOT_LINE];
    things
        .filter(|thing| !own_place.contains(&sheet.kind(thing)))
        .filter(|thing| layer_of(thing, sheet) == Some(layer))
        .map(|thing| group(thing, sheet))
        .collect()
}

/// A thing belongs to the layer of its topmost outline.
pub(super) fn layer_of<'a>(thing: &'a Thing, sheet: &Sheet<'a>) -> Option<Layer> {
    let outlines = sheet.outlines(thing).into_iter();
    outlines.map(|(outline, _)| look(outline).layer).max()
}

fn look(outline: &Outline) -> Look {
    outline
        .lie
        .look
        .unwrap_or_else(|| Look::of_shape(outline.shape))
}

/// The name of a thing: its kind and its id.
pub(super) fn name(thing: &Thing, sheet: &Sheet<'_>) -> String {
    let noun = kind_noun(thing.kind, sheet.vocabulary());
    let own = called(thing);
    match own.eq_ignore_ascii_case(noun) {
        true => capitalised(noun),
        false => format!("{}: {own}", capitalised(noun)),
    }
}

/// Its name, or its id as a person would say it.
pub(super) fn called(thing: &Thing) -> String {
    thing.name.clone().unwrap_or_else(|| spaced(&thing.id))
}

fn spaced(id: &str) -> String {
    id.replace('-', " ")
}

/// The group of a thing, with what a pointer and a screen reader need.
pub(super) fn around(thing: &Thing, inner: Svg, more: &str, sheet: &Sheet<'_>) -> Svg {
    let chosen = sheet.options.chosen.as_deref() == Some(thing.id.as_str());
    let class = format!(
        "thing kind-{}{more}{}",
        sheet.kind(thing),
        if chosen { " chosen" } else { "" }
    );
    let name = name(thing, sheet);
    el("g")
        .with("class", class)
        .with("data-path", &thing.id)
        .with("data-kind", sheet.kind(thing))
        .with("tabindex", "0")
        .with("role", "img")
        .with("aria-label", &name)
        .holding(title(&name) + inner)
}

fn group(thing: &Thing, sheet: &Sheet<'_>) -> Svg {
    let outlines = sheet.outlines(thing);
    let drawn = outlines.iter().enumerate().map(|(n, (outline, figure))| {
        let look = look(outline);
        outlined(thing, (outline, figure), look, n == 0, sheet)
    });
    around(thing, drawn.collect(), "", sheet)
}

fn outlined(
    thing: &Thing,
    (outline, figure): (&Outline, &Figure),
    look: Look,
    main: bool,
    sheet: &Sheet<'_>,
) -> Svg {
    if figure.spread == 0
        && figure
            .forms
            .iter()
            .all(|form| matches!(form, Form::Point(_)))
    {
        let spots = figure.forms.iter().filter_map(|form| match form {
            Form::Point(point) => Some(sheet.spot(*point)),
            _ => None,
        });
        return spots.map(|spot| marks::place(spot, sheet)).collect();
    }
    let d = path::figure(figure, sheet);
    let area = outline.shape != Shape::Line;
    let pointed_at = match (main, area) {
        (true, true) => "all",
        (true, false) => "stroke",
        (false, _) => "none",
    };
    let reach = match main && !area {
        true => reach(&d),
        false => Svg::default(),
    };
    let shape = el("path")
        .with("class", format!("outline outline-{}", outline.name))
        .with("data-outline", &outline.name)
        .with("d", &d)
        .painted(
            if area { look.fill } else { "none" },
            look.stroke,
            look.width,
        )
        .with_some("stroke-dasharray", look.dash)
        .with("stroke-linejoin", "round")
        .unscaled()
        .with("pointer-events", pointed_at)
        .empty();
    reach + shape + set_along(thing, (outline, figure), look, main, sheet)
}

/// A thin line is hard to hit, so a wide invisible line takes the pointer for it.
pub(super) fn reach(d: &str) -> Svg {
    el("path")
        .with("class", "reach")
        .with("d", d)
        .painted("none", "none", "16")
        .unscaled()
        .with("pointer-events", "stroke")
        .empty()
}

/// Marks along the line, and posts at the ends of a gate, door or window.
fn set_along(
    thing: &Thing,
    (outline, figure): (&Outline, &Figure),
    look: Look,
    main: bool,
    sheet: &Sheet<'_>,
) -> Svg {
    let letter = sheet
        .word(thing, "type")
        .and_then(|word| word.chars().next());
    let letter = letter.map(|letter| letter.to_ascii_uppercase());
    let opens = main && sheet.vocabulary().kind(thing.kind).opens && outline.shape == Shape::Line;
    let of_form = |form: &Form| {
        let line = line_of(form, sheet);
        let ends = line.first().zip(line.last()).filter(|_| opens);
        let posts = ends.map(|(a, b)| marks::posts([*a, *b], sheet));
        marks::along(&line, look.mark, letter, sheet) + posts.unwrap_or_default()
    };
    match look.mark == Mark::None && !opens {
        true => Svg::default(),
        false => figure.forms.iter().map(of_form).collect(),
    }
}

/// The places of a form along its line; a ring returns to its first place.
fn line_of(form: &Form, sheet: &Sheet<'_>) -> Vec<SheetPoint> {
    match form {
        Form::Point(point) => vec![sheet.spot(*point)],
        Form::Path(points) => sheet.spots(points),
        Form::Ring(points) => {
            let mut spots = sheet.spots(points);
            spots.extend(spots.first().copied());
            spots
        }
    }
}

/// Writes the name of each thing that there is room for.
pub(super) fn names(lettering: &mut Lettering, sheet: &Sheet<'_>) {
    let own_place = [LOT, LOT_LINE];
    let things = sheet.plan.things.iter().rev();
    let mut named: Vec<&Thing> = things
        .filter(|thing| !own_place.contains(&sheet.kind(thing)))
        .collect();
    named.sort_by_cached_key(|thing| std::cmp::Reverse(layer_of(thing, sheet)));
    for thing in named {
        if let Some((outline, figure)) = sheet.outlines(thing).first() {
            let text = capitalised(&called(thing));
            let places = match outline.shape {
                Shape::Line => beside_line(&text, figure, sheet),
                Shape::Area | Shape::Point => in_area(&text, figure, sheet),
            };
            lettering.place(&places, false, sheet);
        }
    }
}

fn label(text: &str, at: SheetPoint, angle: f64) -> Label {
    Label {
        text: text.to_owned(),
        at,
        angle,
        class: "name",
    }
}

/// In the middle of the visible part of an area, else below, above or beside it.
fn in_area(text: &str, figure: &Figure, sheet: &Sheet<'_>) -> Vec<Label> {
    let corners = sheet.corners(figure);
    let Some(around) = Frame::around(corners.into_iter()) else {
        return Vec::new();
    };
    if !around.meets(sheet.frame.wider(1.0)) {
        return Vec::new();
    }
    let Frame { low, high } = around.cut_to(sheet.frame);
    let (middle, gap) = (low.middle(high), sheet.points(10.0));
    let aside = width_of(text, sheet) / 2.0 + sheet.points(5.0);
    let wide = width_of(text, sheet) <= high.x - low.x;
    let inside = (wide && high.y - low.y >= sheet.points(14.0)).then_some(middle);
    let quarter = SheetPoint::new(middle.x, low.y + (high.y - low.y) * 0.25);
    let below = [
        quarter,
        SheetPoint::new(middle.x, high.y + gap),
        SheetPoint::new(middle.x, low.y - gap),
        SheetPoint::new(high.x + aside, middle.y),
        SheetPoint::new(low.x - aside, middle.y),
    ];
    // Outside an area that the edge of the sheet cuts off, a name would seem to belong to something else.
    let whole = sheet.frame.holds(around.low) && sheet.frame.holds(around.high);
    let outside = below
        .into_iter()
        .skip(usize::from(inside.is_none()))
        .filter(|_| whole);
    inside
        .into_iter()
        .chain(outside)
        .map(|at| label(text, at, 0.0))
        .collect()
}

/// Beside the longest visible straight part of a line, if the text is no longer than that part.
fn beside_line(text: &str, figure: &Figure, sheet: &Sheet<'_>) -> Vec<Label> {
    let Some((a, b)) = longest_part(figure, sheet) else {
        return Vec::new();
    };
    let way = a.to(b);
    if way.length() < width_of(text, sheet) * 1.15 {
        return Vec::new();
    }
    let side = way.unit().left();
    let gap = sheet.points(9.5);
    let places = [
        (0.5, gap),
        (0.5, -gap),
        (0.25, gap),
        (0.75, gap),
        (0.25, -gap),
        (0.75, -gap),
    ];
    places
        .into_iter()
        .map(|(share, off)| {
            label(
                text,
                a.along(way, share).along(side, off),
                way.reading_angle(),
            )
        })
        .collect()
}

fn longest_part(figure: &Figure, sheet: &Sheet<'_>) -> Option<(SheetPoint, SheetPoint)> {
    let lines = figure.forms.iter().map(|form| line_of(form, sheet));
    let parts = lines.flat_map(|line| {
        let pairs = line.iter().zip(line.iter().skip(1));
        let parts = pairs.filter_map(|(a, b)| sheet.frame.part_of(*a, *b));
        parts.collect::<Vec<_>>()
    });
    let length = |(a, b): &(SheetPoint, SheetPoint)| a.to(*b).length();
    parts.max_by(|one, other| length(one).total_cmp(&length(other)))
}
