//! Proposes what each side of a lot faces. A person confirms it; the plan then states it, and rules read only that.

use serde::Serialize;

use crate::measure::{Beside, Beyond, Face, Naming, propose_faces, sides_along};
use crate::plan::figure::{Form, Point};
use crate::plan::{Plan, Thing, Words, read_document};
use crate::text::Node;
use crate::text::capitalised;
use crate::unknown_keys::hide_unknown_keys;
use crate::vocabulary::{Matter, Part, Role, Vocabulary};

/// A side of the lot runs along a road whose line lies no farther away, in nanometres: half of a wide street.
const REACH: i64 = 12_000_000_000;

/// What a side of the lot is proposed to face.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ProposedSide {
    /// The side's id.
    pub side: String,
    /// A word of the fact `lot-line.faces`; nothing where somebody has to choose.
    pub faces: Option<&'static str>,
    /// Why, in a sentence.
    pub why: String,
}

/// Proposes what the sides of a plan's lot face: from what lies beyond each, as the plan states
/// it, and from the roads and shores that are drawn. Nothing where the plan cannot be read, or its sides do not run once
/// round the lot.
pub fn proposed_sides(document: &Node) -> Vec<ProposedSide> {
    let vocabulary = Vocabulary::standard();
    let mut document = document.clone();
    hide_unknown_keys(&mut document, &vocabulary);
    let Ok(plan) = read_document(&document, &vocabulary) else {
        return Vec::new();
    };
    let sides: Vec<&Thing> = of_role(&plan, Role::LotLine, &vocabulary).collect();
    let Some((order, lines)) = round_the_lot(&sides, &vocabulary) else {
        return Vec::new();
    };
    let drawn = sides_along(&lines, &beyond(&plan, &vocabulary));
    let along = order.iter().zip(drawn).map(|(side, drawn)| {
        let stated = sides.get(*side).and_then(|side| word(side, &vocabulary));
        stated.map_or(drawn, beside)
    });
    let proposals = propose_faces(&lines, &along.collect::<Vec<_>>(), Naming::COMMON);
    let mut proposed: Vec<(usize, ProposedSide)> = order
        .iter()
        .zip(proposals)
        .filter_map(|(side, proposal)| {
            let proposed = ProposedSide {
                side: sides.get(*side)?.id.clone(),
                faces: proposal.face.map(faces),
                why: capitalised(&format!("{}.", proposal.why)),
            };
            Some((*side, proposed))
        })
        .collect();
    proposed.sort_by_key(|(side, _)| *side);
    proposed.into_iter().map(|(_, proposed)| proposed).collect()
}

fn of_role<'p>(
    plan: &'p Plan,
    role: Role,
    vocabulary: &Vocabulary,
) -> impl Iterator<Item = &'p Thing> {
    let kind = vocabulary.with_role(role);
    plan.things
        .iter()
        .filter(move |thing| Some(thing.kind) == kind)
}

/// The sides one after the other round the lot, each with its line that way; `None` where they do not close.
fn round_the_lot(
    sides: &[&Thing],
    vocabulary: &Vocabulary,
) -> Option<(Vec<usize>, Vec<Vec<Point>>)> {
    let mut left: Vec<(usize, Vec<Point>)> = Vec::new();
    for (at, side) in sides.iter().enumerate() {
        left.push((at, lines(side, vocabulary).next()?.to_vec()));
    }
    let (first, line) = (!left.is_empty()).then(|| left.remove(0))?;
    let (start, mut end) = (*line.first()?, *line.last()?);
    let (mut order, mut round) = (vec![first], vec![line]);
    while !left.is_empty() {
        let is_next =
            |(_, line): &(usize, Vec<Point>)| [line.first(), line.last()].contains(&Some(&end));
        let (at, mut line) = left.remove(left.iter().position(is_next)?);
        if line.first() != Some(&end) {
            line.reverse();
        }
        end = *line.last()?;
        order.push(at);
        round.push(line);
    }
    (end == start).then_some((order, round))
}

fn lines<'t>(thing: &'t Thing, vocabulary: &Vocabulary) -> impl Iterator<Item = &'t [Point]> {
    let own = vocabulary.kind(thing.kind).outlines.clone();
    let figures = own.into_iter().filter_map(|id| thing.outlines.get(&id));
    let forms = figures.flat_map(|figure| &figure.forms);
    forms.filter_map(|form| match form {
        Form::Path(points) => Some(points.as_slice()),
        Form::Point(_) | Form::Ring(_) => None,
    })
}

/// The lines of roads and shores that are drawn.
fn beyond(plan: &Plan, vocabulary: &Vocabulary) -> Vec<Beyond> {
    let of_thing = |thing: &Thing| {
        let kind = vocabulary.kind(thing.kind);
        let what = match (kind.part, kind.matter) {
            (Part::Road, _) => Beside::Street,
            (_, Some(Matter::Shore)) => Beside::Water,
            _ => return Vec::new(),
        };
        let all = lines(thing, vocabulary).map(|line| Beyond {
            what,
            line: line.to_vec(),
            reach: REACH,
        });
        all.collect()
    };
    plan.things.iter().flat_map(of_thing).collect()
}

/// What lies beyond a side, where the plan states just one thing.
fn word<'p>(side: &'p Thing, vocabulary: &Vocabulary) -> Option<&'p str> {
    let fact = vocabulary.fact_named(side.kind, "beyond")?;
    match side.facts.get(&fact)?.words.as_deref()? {
        Words::OneOf(words) if words.len() == 1 => words.first().map(String::as_str),
        _ => None,
    }
}

fn beside(beyond: &str) -> Option<Beside> {
    match beyond {
        "road" => Some(Beside::Street),
        "alley" => Some(Beside::Alley),
        "water" => Some(Beside::Water),
        _ => None,
    }
}

fn faces(face: Face) -> &'static str {
    match face {
        Face::Front => "front",
        Face::Side => "side",
        Face::Rear => "rear",
        Face::StreetSide => "street-side",
        Face::Shore => "shore",
        Face::Alley => "alley",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::read;

    fn plan(beyond: [&str; 4], things: &str) -> Vec<(String, Option<&'static str>)> {
        let [south, east, north, west] = beyond;
        let text = format!(
            "plan: p
title: P
unit: m
lot:
  corners: {{a: [0, 0], b: [30, 0], c: [30, 40], d: [0, 40]}}
  sides:
    - {{id: north, from: c, to: d{north}}}
    - {{id: south, from: a, to: b{south}}}
    - {{id: east, from: b, to: c{east}}}
    - {{id: west, from: a, to: d{west}}}
pool: {{id: pool, water: [[5, 5], [9, 5], [9, 9]]}}
{things}"
        );
        let proposed = proposed_sides(&read(&text).expect("good text"));
        assert!(proposed.iter().all(|side| side.why.ends_with('.')));
        let one = |side: ProposedSide| (side.side, side.faces);
        proposed.into_iter().map(one).collect()
    }

    fn named(words: [Option<&'static str>; 4]) -> Vec<(String, Option<&'static str>)> {
        let sides = ["south", "east", "north", "west"].map(str::to_owned);
        sides.into_iter().zip(words).collect()
    }

    #[test]
    fn by_what_the_plan_states() {
        let road = ", beyond: road";
        let (front, side, rear) = (Some("front"), Some("side"), Some("rear"));
        let interior = plan([road, "", "", ""], "");
        assert_eq!(interior, named([front, side, rear, side]));
        // On a corner the shorter line is the front; an alley behind is no street.
        let corner = plan([road, road, ", beyond: alley", ""], "");
        assert_eq!(
            corner,
            named([front, Some("street-side"), Some("alley"), side])
        );
        let shore = plan([road, "", ", beyond: water", ""], "");
        assert_eq!(shore, named([front, side, Some("shore"), side]));
    }

    #[test]
    fn by_the_road_that_is_drawn_unless_the_plan_states_something_else() {
        let road = "things: [{kind: road, id: lane, centreline: [[-20, -5], [60, -5]]}]\n";
        let (front, side, rear) = (Some("front"), Some("side"), Some("rear"));
        assert_eq!(plan([""; 4], road), named([front, side, rear, side]));
        let neighbour = ", beyond: neighbour-lot";
        assert_eq!(plan([neighbour, "", "", ""], road), named([None; 4]));
    }

    #[test]
    fn nothing_without_a_lot_that_closes() {
        let open = "plan: p\ntitle: P\nunit: m\nlot: {corners: {a: [0, 0], b: [9, 0], c: [9, 9]}, sides: [{id: s, from: a, to: b}]}\n";
        assert!(proposed_sides(&read(open).expect("good text")).is_empty());
        assert!(proposed_sides(&read("a: b").expect("good text")).is_empty());
    }
}
