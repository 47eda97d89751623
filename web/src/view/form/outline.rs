//! The outlines of a thing: drawn as a shape, by places, or derived from another outline. Here they are only typed in.

use rules_core::asked::{AskedOutline, Choice};
use rules_core::text::{Content, Node};

use super::Form;
use super::choice::{labelled, tick};
use super::field::{Ask, faults, option, text_input};
use crate::held::figure_shown;
use crate::plan::field_of;
use crate::view::keyed::{El, button, el};
use crate::words::{fill, heading, t};

const SHAPES: [&str; 6] = [
    "rectangle",
    "rounded-rectangle",
    "oval",
    "circle",
    "kidney",
    "l-shape",
];
/// Other ways to draw an outline.
const RELATIONS: [&str; 4] = ["same-as", "outward", "inward", "parts"];

/// The way an outline is drawn.
pub fn shape_of(drawn: Option<&Node>) -> &'static str {
    let Some(drawn) = drawn else { return "none" };
    match &drawn.content {
        Content::Scalar { text, .. } if text == "none" => "absent",
        Content::List(items) => match items.first().is_some_and(|item| item.text().is_none()) {
            true => "places",
            false => "place",
        },
        _ => {
            let mut known = SHAPES.iter().chain(&RELATIONS);
            known
                .find(|name| drawn.get(name).is_some())
                .copied()
                .unwrap_or("other")
        }
    }
}

/// Two fields side by side.
pub fn pair(fields: [El; 2]) -> El {
    el("div").class("pair").each(fields)
}

impl Form<'_> {
    /// Fields for a drawn area: which shape, where, how large.
    pub fn area(&self, path: &str) -> El {
        let shape = shape_of(self.at(path));
        el("div")
            .class("shape")
            .with(pick(path, shape))
            .with(self.shape(path, shape))
    }

    fn shape(&self, path: &str, shape: &str) -> Vec<El> {
        let below = |key: &str| format!("{path}.{shape}.{key}");
        let length = |key: &str| self.length(&below(key), &t(&format!("shape.{key}")));
        let place = |key: &str| self.place(&below(key), &t(&format!("shape.{key}")));
        let two = |keys: [&str; 2]| pair(keys.map(length));
        match shape {
            "rectangle" | "rounded-rectangle" | "l-shape" => {
                let more = match shape {
                    "rounded-rectangle" => Some(length("corner-radius")),
                    "l-shape" => Some(two(["notch-length", "notch-width"])),
                    _ => None,
                };
                let turned = t("shape.turned");
                let turned =
                    self.question(&below("turned"), Ask::own(&turned, "angle", Some("deg")));
                let first = std::iter::once(two(["length", "width"]));
                first.chain(more).chain([place("at"), turned]).collect()
            }
            "kidney" => vec![
                two(["radius", "hollow"]),
                length("back"),
                place("from"),
                place("to"),
            ],
            "circle" => vec![length("radius"), place("at")],
            "oval" => vec![length("radius"), place("from"), place("to")],
            "places" => vec![self.places(path)],
            "place" => vec![self.place(path, &t("shape.at"))],
            _ => Vec::new(),
        }
    }

    /// The two figures of a place: how far right and how far up from the corner that the plan counts from.
    pub fn place(&self, path: &str, label: &str) -> El {
        let [right, up] = [("0", "shape.right"), ("1", "shape.up")]
            .map(|(at, key)| self.length(&format!("{path}.{at}"), &t(key)));
        let fields = el("fieldset").class("place").with(el("legend").with(label));
        fields.with(pair([right, up]))
    }

    /// A line or a ring, place by place.
    pub fn places(&self, path: &str) -> El {
        let many = self
            .at(path)
            .and_then(Node::as_list)
            .unwrap_or_default()
            .len();
        let one = |index: usize| {
            let (path, n) = (format!("{path}.{index}"), (index + 1).to_string());
            let place = self.place(&path, &fill("shape.place", &[("n", &n)]));
            let gone = button("place-gone").class("plain").set("data-path", path);
            let gone = gone.with(fill("shape.place-gone", &[("n", &n)]));
            el("li").with(place).with((many > 2).then_some(gone))
        };
        let more = button("place-more")
            .class("plain")
            .set("data-path", path.to_owned());
        let more = el("li")
            .class("more")
            .with(more.with(t("shape.place-more")));
        el("ol").class("places").each((0..many).map(one)).with(more)
    }

    /// An outline outside another: how far, and with which corners.
    pub fn outward(&self, path: &str, outline: &AskedOutline, from: (&str, &str)) -> El {
        let shape = shape_of(self.at(path));
        let corners = || {
            let corners = ["square", "round"].map(|word| Choice {
                word: word.to_owned(),
                said: word.to_owned(),
            });
            let ask = t("outline.corners");
            self.question(&format!("{path}.corners"), Ask::choice(&ask, &corners))
        };
        let own = ["outward", "same-as", "none", "absent"].contains(&shape);
        let may_be_none = outline.may_be_none || shape == "absent";
        let none = may_be_none.then(|| {
            let id = format!("{}-none", field_of(path));
            tick(id, "none-ticked", path, shape == "absent", t("field.none"))
        });
        let others = el("details")
            .class("about")
            .id(format!("{}-others", field_of(path)))
            .with(el("summary").with(t("outline.others")))
            .with(relation(path, shape, outline, from))
            .with((shape == "outward").then(corners));
        el("fieldset")
            .class("outward")
            .with(el("legend").with(heading(&outline.said)))
            .with(own.then(|| self.how_far(path, shape, from)))
            .with(none)
            .with(others)
    }

    /// How far outside another edge an edge lies; nothing is the same edge.
    fn how_far(&self, path: &str, shape: &str, (from, from_said): (&str, &str)) -> El {
        let (id, typed) = (field_of(path), format!("{path}.outward"));
        let value = match shape {
            "same-as" => "0".to_owned(),
            _ => figure_shown(&self.shown(&typed)),
        };
        let wrong = self.faults_at(&typed);
        let field = text_input(&id, "outward-typed", path)
            .class("short")
            .set("data-from", from.to_owned())
            .set("data-unit", self.unit.to_owned())
            .set("value", value)
            .is("aria-invalid", !wrong.is_empty());
        let unit = el("span").class("unit").with(self.unit);
        let figure = el("div").class("figure").with(field).with(unit);
        labelled(
            &id,
            &fill("outline.how-far", &[("from", from_said)]),
            figure,
        )
        .id(format!("q-{id}"))
        .with((!wrong.is_empty()).then(|| faults(&id, &wrong)))
    }
}

/// How an outline relates to another one.
fn relation(
    path: &str,
    shape: &str,
    outline: &AskedOutline,
    (from, from_said): (&str, &str),
) -> El {
    let id = format!("{}-as", field_of(path));
    let to_other = |key: &str| fill(key, &[("from", from_said)]);
    let one = |value: &str, said: String| option(value, &said, value == shape);
    let absent = (outline.may_be_none || shape == "absent").then(|| one("absent", t("field.none")));
    let own = ["outward", "same-as", "none", "absent"].contains(&shape);
    let other = (!own).then(|| one(shape, t(&format!("shape.{shape}"))));
    let select = el("select")
        .id(id.clone())
        .does("outline-picked")
        .set("data-path", path.to_owned())
        .set("data-from", from.to_owned())
        .with(one("none", t("field.not-known")))
        .with(one("same-as", to_other("outline.same")))
        .with(one("outward", to_other("outline.outward")))
        .with(absent)
        .with(other);
    labelled(&id, &t("outline.where"), select)
}

fn pick(path: &str, shape: &str) -> El {
    let id = format!("{}-shape", field_of(path));
    let named = |name: &str| option(name, &t(&format!("shape.{name}")), name == shape);
    let offered = || SHAPES.into_iter().chain(["places"]);
    let other = (!offered().any(|name| name == shape)).then(|| named(shape));
    let select = el("select")
        .id(id.clone())
        .does("shape-picked")
        .set("data-path", path.to_owned());
    let select = select.each(offered().map(named)).with(other);
    labelled(&id, &t("shape.which"), select)
}
