//! The lot: by width and depth, by its sides and corners, or by drawing; and what each of its sides faces.

use rules_core::asked::{AskedFact, Choice};
use rules_core::session::lot_size;
use rules_core::sides::{ProposedSide, proposed_sides};
use rules_core::text::Node;

use super::Form;
use super::choice::{Word, asked_in_a_row, radios};
use super::entry::{Entry, with_entry};
use super::field::Ask;
use super::outline::pair;
use crate::held::figure_shown;
use crate::plan::name_of;
use crate::view::keyed::{El, button, el};
use crate::words::{fill, t};

const MODES: [&str; 3] = ["rectangle", "sides", "draw"];
/// What a side may face, if the rules do not ask.
const FACES: [&str; 6] = ["front", "side", "rear", "street-side", "shore", "alley"];

impl Form<'_> {
    /// The questions about the lot.
    pub fn lot(&self) -> Vec<El> {
        with_entry(|entry| {
            let wrong = entry.wrong.as_ref().map(|wrong| {
                el("div")
                    .class("wrong")
                    .id("lot-wrong")
                    .set("role", "alert")
                    .with(el("p").with(wrong))
            });
            let closing = entry.closing.map(closing);
            let lot = self.at("lot").map(|lot| self.drawn_lot(lot));
            let first = [self.modes(), self.mode(entry)].into_iter();
            first.chain(wrong).chain(closing).chain(lot).collect()
        })
    }

    fn modes(&self) -> El {
        let now = self.looks.lot_mode.as_str();
        let one = |mode: &'static str| Word::new(mode, t(&format!("lot.{mode}")), now == mode);
        let row = radios("lot-mode", "lot-mode", None, MODES.map(one));
        asked_in_a_row("lot-how", t("lot.how"), row)
    }

    fn mode(&self, entry: &Entry) -> El {
        match self.looks.lot_mode.as_str() {
            "rectangle" => self.rectangle(entry),
            "sides" => self.walk(entry),
            _ => {
                let draw = button("lot-drawn")
                    .class("add")
                    .id("lot-draw")
                    .with(t("lot.draw-begin"));
                el("p").with(t("lot.draw-hint")).with(" ").with(draw)
            }
        }
    }

    /// A field for a figure that does not go into the plan by itself.
    fn plain(
        &self,
        id: String,
        label: String,
        (value, unit): (&str, &str),
        act: &'static str,
    ) -> [El; 2] {
        let input = el("input")
            .id(id.clone())
            .set("type", "text")
            .set("autocomplete", "off")
            .class("short")
            .set("value", value.to_owned())
            .does(act)
            .set("data-unit", unit.to_owned());
        [el("label").class("ask").set("for", id).with(label), input]
    }

    fn rectangle(&self, entry: &Entry) -> El {
        let size = lot_size(self.plan);
        let [width, depth] = size.clone().unwrap_or_else(|| entry.half.clone());
        let field = |key: &'static str, value: &str| {
            let (id, label) = (format!("lot-{key}"), t(&format!("lot.{key}")));
            let [label, input] =
                self.plain(id, label, (&figure_shown(value), self.unit), "lot-size");
            with_unit(label, input.set("data-key", key), self.unit)
        };
        let [has_width, has_depth] = entry.half.each_ref().map(|text| !text.is_empty());
        let other = if has_width {
            "lot.depth-too"
        } else {
            "lot.width-too"
        };
        let half = (has_width != has_depth).then(|| {
            el("p")
                .class("hint")
                .id("lot-half")
                .set("role", "status")
                .with(t(other))
        });
        let not_one = self.at("lot").is_some() && size.is_none();
        let hint = if not_one {
            "lot.not-rectangle"
        } else {
            "lot.rectangle-hint"
        };
        el("div")
            .with(pair([field("width", &width), field("depth", &depth)]))
            .with(half)
            .with(el("p").class("hint").with(t(hint)))
    }

    fn walk(&self, entry: &Entry) -> El {
        let many = entry.walk.len();
        let side = |(index, [length, angle]): (usize, &[String; 2])| {
            let field = |key: &'static str, value: &str, unit: &str| {
                let (id, label) = (format!("walk-{index}-{key}"), t(&format!("lot.{key}")));
                let [label, input] = self.plain(id, label, (value, unit), "walk-typed");
                with_unit(
                    label,
                    input
                        .set("data-index", index.to_string())
                        .set("data-key", key),
                    unit,
                )
            };
            let angle = (index + 1 < many).then(|| field("angle", angle, "deg"));
            let both = el("div")
                .class("pair")
                .with(field("length", length, self.unit))
                .with(angle);
            let n = (index + 1).to_string();
            let legend = el("legend").with(fill("lot.side", &[("n", &n)]));
            el("li").with(el("fieldset").class("place").with(legend).with(both))
        };
        let more = button("walk-more").class("plain").with(t("lot.side-more"));
        let less = button("walk-less").class("plain").with(t("lot.side-less"));
        el("div")
            .with(el("p").class("hint").with(t("lot.sides-hint")))
            .with(
                el("ol")
                    .class("places")
                    .each(entry.walk.iter().enumerate().map(side)),
            )
            .with(
                el("div")
                    .class("row")
                    .with(more)
                    .with((many > 3).then_some(less)),
            )
            .with(
                button("walk-done")
                    .class("add")
                    .id("walk-done")
                    .with(t("lot.walk-done")),
            )
    }

    fn drawn_lot(&self, lot: &Node) -> El {
        let sides = self
            .at("lot.sides")
            .and_then(Node::as_list)
            .unwrap_or_default();
        let open = sides.iter().any(|side| side.get("faces").is_none());
        let proposed = if open {
            proposed_sides(self.plan)
        } else {
            Vec::new()
        };
        let own = self
            .asked_of("lot")
            .map(|lot| lot.facts.as_slice())
            .unwrap_or_default();
        let (north, how) = (t("lot.north"), t("lot.north-how"));
        let north = Ask {
            how: &how,
            ..Ask::own(&north, "angle", Some("deg"))
        };
        el("div")
            .with(self.source("lot"))
            .with(el("p").class("hint").with(t("lot.source-hint")))
            .with(el("h3").with(t("lot.sides-head")))
            .with(el("p").class("hint").with(t("lot.faces-hint")))
            .with(all_proposed(&proposed))
            .each(
                sides
                    .iter()
                    .enumerate()
                    .map(|side| self.side(side, &proposed)),
            )
            .with(self.facts(own, "lot"))
            .with(self.question("north", north))
            .with(self.corners(lot))
    }

    fn side(&self, (index, side): (usize, &Node), proposed: &[ProposedSide]) -> El {
        let path = format!("lot.sides.{index}");
        let id = side.get("id").and_then(Node::text).unwrap_or_default();
        let facts = self
            .asked_of("lot-line")
            .map(|line| line.facts.as_slice())
            .unwrap_or_default();
        let is_faces = |fact: &&AskedFact| fact.id == "faces";
        let ask = t("lot.faces");
        let standard = FACES.map(|word| Choice {
            word: word.to_owned(),
            said: word.to_owned(),
        });
        let faces = match facts.iter().find(is_faces) {
            Some(fact) => Ask {
                ask: &ask,
                said: false,
                ..self.fact(fact)
            },
            None => Ask::choice(&ask, &standard),
        };
        let proposed = proposed.iter().find(|one| one.side == id);
        let proposed = proposed.filter(|_| side.get("faces").is_none());
        let others = facts.iter().filter(|fact| !is_faces(fact));
        el("fieldset")
            .class("side")
            .id(format!("side-{id}"))
            .is("data-wrong", !self.faults_at(&path).is_empty())
            .with(el("legend").with(fill("lot.side-named", &[("name", &name_of(side))])))
            .with(self.question(&format!("{path}.faces"), faces))
            .with(proposed.map(|one| proposal(&path, one)))
            .each(others.map(|fact| self.question(&format!("{path}.{}", fact.id), self.fact(fact))))
    }

    fn corners(&self, lot: &Node) -> El {
        let corners = lot
            .get("corners")
            .and_then(Node::as_map)
            .unwrap_or_default();
        let one = |(name, corner): (&str, &Node)| {
            let under = if corner.get("at").is_some() {
                ".at"
            } else {
                ""
            };
            let path = format!("lot.corners.{}{under}", name.replace('.', "\\."));
            self.place(&path, &fill("lot.corner", &[("name", name)]))
        };
        let about = el("details")
            .class("about")
            .id("lot-corners")
            .with(el("summary").with(t("lot.corners")));
        about.each(corners.iter().map(|entry| one((&entry.key, &entry.value))))
    }
}

/// All that is proposed, to be taken at once.
fn all_proposed(proposed: &[ProposedSide]) -> Option<El> {
    let said: Vec<String> = faces_proposed(proposed)
        .map(|(side, faces)| format!("{side}: {}", t(&format!("word.{faces}"))))
        .collect();
    let take = button("faces-taken").class("add").id("faces-take");
    let all = fill("lot.proposed-all", &[("sides", &said.join(", "))]);
    (said.len() > 1).then(|| {
        el("div")
            .class("note")
            .with(el("p").with(all))
            .with(take.with(t("lot.take-all")))
    })
}

/// Each side for which something is proposed, with the proposal.
pub fn faces_proposed(proposed: &[ProposedSide]) -> impl Iterator<Item = (&str, &'static str)> {
    proposed
        .iter()
        .filter_map(|one| Some((one.side.as_str(), one.faces?)))
}

fn with_unit(label: El, input: El, unit: &str) -> El {
    let unit = el("span").class("unit").with(unit);
    let figure = el("div").class("figure").with(input).with(unit);
    el("div").class("question").with(label).with(figure)
}

fn closing(millimetres: i128) -> El {
    let said = match millimetres {
        0 => t("lot.closes"),
        _ => fill("lot.closing", &[("mm", &millimetres.to_string())]),
    };
    el("p")
        .class("hint")
        .id("lot-closing")
        .set("role", "status")
        .with(said)
}

/// What a side probably faces, and why. Somebody who knows the place accepts it or says something else.
fn proposal(path: &str, proposed: &ProposedSide) -> El {
    let faces = proposed.faces;
    let said = faces.map(|faces| fill("lot.proposed", &[("faces", faces)]));
    let take = faces.map(|faces| {
        let take = button("face-taken")
            .class("plain")
            .set("data-path", format!("{path}.faces"));
        take.set("data-faces", faces)
            .with(fill("lot.take", &[("faces", faces)]))
    });
    el("p")
        .class("hint")
        .with(said)
        .with(" ")
        .with(el("span").said().with(&proposed.why))
        .with(" ")
        .with(take)
}
