//! The map laid over the drawing of the plan.

use super::map::Class;
use super::model::{Offer, Placement, Region, TurnReport};
use super::pose::{Pose, figure_moved};
use super::spot::{MILLIMETRE, Way};
use super::words::turn_words;
use super::{NotPlaced, Wishes, moving_of, turned};
use crate::answer::{judge_by, plan_refused, read_rules};
use crate::drawing::{Hatch, Options, Overlay, OverlayArea};
use crate::plan::{Figure, Plan, Point};
use crate::ruleset::RuleSet;
use crate::text::{self, Node};

/// The drawing of a plan as SVG, with the map of where its pool could go, and the places on offer numbered as in the
/// placement. With several turns, the map is that of the first place on offer.
///
/// # Errors
/// As for [`super::place`].
pub fn place_to_svg<'t>(
    plan_text: &str,
    rules_text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
    (wishes, found): (&Wishes, &Placement),
) -> Result<String, NotPlaced> {
    let rules = read_rules(rules_text, bases).map_err(NotPlaced::Refused)?;
    let rules = &rules.rule_set;
    let document = text::read(plan_text);
    let document =
        document.map_err(|faults| NotPlaced::Refused(plan_refused(plan_text, faults)))?;
    let chart = Chart {
        document: (&document, plan_text),
        rules,
        wishes,
        found,
        plan: turned((&document, plan_text), rules, wishes, 0.0)?,
    };
    let options = Options {
        overlay: chart.overlay()?,
        ..Options::default()
    };
    let rules = (rules, rules_text);
    let drawn = judge_by((&document, plan_text), rules, bases, Some(&options));
    let (_, drawing) = drawn.map_err(NotPlaced::Refused)?;
    Ok(drawing.map_or_else(String::new, |drawing| drawing.svg()))
}

/// What the map is drawn from.
struct Chart<'c> {
    document: (&'c Node, &'c str),
    rules: &'c RuleSet,
    wishes: &'c Wishes,
    found: &'c Placement,
    /// The plan as drawn.
    plan: Plan,
}

impl Chart<'_> {
    fn overlay(&self) -> Result<Overlay, NotPlaced> {
        let Some(turn) = self.turn() else {
            return Ok(Overlay::default());
        };
        let middle = moving_of(&self.plan, self.rules, self.wishes)?.middle;
        let areas = turn.regions.iter().map(|region| self.area(region, middle));
        let offers = (1..).zip(&self.found.options);
        let outlines = offers.map(|(number, offer)| self.outline(number, offer));
        Ok(Overlay {
            areas: areas.collect(),
            outlines: outlines.collect::<Result<_, _>>()?,
            legend: self.legend(turn),
        })
    }

    /// The turn of the first place on offer; as drawn, if there is none.
    fn turn(&self) -> Option<&TurnReport> {
        let first = self.found.options.first();
        let degrees = first.map_or(0.0, |offer| offer.degrees);
        let mut turns = self.found.turns.iter();
        turns.find(|turn| turn.degrees == degrees)
    }

    fn area(&self, region: &Region, middle: Point) -> OverlayArea {
        let point = |way: &Way| Point {
            x: middle.x.saturating_add(way.x.saturating_mul(MILLIMETRE)),
            y: middle.y.saturating_add(way.y.saturating_mul(MILLIMETRE)),
        };
        let rings = region.polygons.iter().flatten();
        OverlayArea {
            hatch: hatch(region.holds, region.edge),
            title: self.title(region),
            rules: region.rules.clone(),
            rings: rings.map(|ring| ring.iter().map(point).collect()).collect(),
        }
    }

    fn title(&self, region: &Region) -> String {
        let said = says(region.holds, region.edge);
        let titles: Vec<&str> = region.rules.iter().map(|id| self.rule_title(id)).collect();
        match titles.is_empty() {
            true => said.to_owned(),
            false => format!("{said}: {}", titles.join("; ")),
        }
    }

    fn rule_title<'a>(&'a self, id: &'a str) -> &'a str {
        let editions = std::iter::successors(Some(self.rules), |it| it.earlier.as_deref());
        let mut rules = editions.flat_map(RuleSet::all_rules);
        rules
            .find(|rule| rule.id == id)
            .map_or(id, |rule| &rule.title)
    }

    /// The pool's first outline in a place on offer, from the plan's origin.
    fn outline(&self, number: usize, offer: &Offer) -> Result<(String, Figure), NotPlaced> {
        let plan = turned(self.document, self.rules, self.wishes, offer.degrees)?;
        let moving = moving_of(&plan, self.rules, self.wishes)?;
        let mut pose = Pose::of(&plan, &moving.things);
        let put = pose.put(offer.way, 0);
        let pool = moving.things.first().and_then(|pool| put.things.get(*pool));
        let figure = pool.and_then(|pool| pool.outlines.values().next());
        let figure =
            figure.ok_or_else(|| NotPlaced::Unclear("The pool is not drawn.".to_owned()))?;
        let between = |own: i128, to: i128| i64::try_from(own.saturating_sub(to)).unwrap_or(0);
        let by = (
            between(plan.origin.0, self.plan.origin.0),
            between(plan.origin.1, self.plan.origin.1),
        );
        Ok((number.to_string(), figure_moved(figure, by)))
    }

    fn legend(&self, turn: &TurnReport) -> Vec<(Option<Hatch>, String)> {
        let head = format!(
            "Where the middle of the pool may lie, {}, under {}",
            turn_words(turn.degrees),
            self.found.rules
        );
        let mut legend = vec![(None, head)];
        let all = [
            (Class::Sure, false),
            (Class::AsDrawn, false),
            (Class::Open, false),
            (Class::Open, true),
            (Class::Never, false),
        ];
        for (class, edge) in all {
            let same = turn
                .regions
                .iter()
                .filter(|it| it.holds == class && it.edge == edge);
            let area: f64 = same.map(|region| region.square_metres).sum();
            // The cells that are ruled out reach beyond the lot.
            let line = match class {
                Class::Never => says(class, edge).to_owned(),
                _ => format!("{}: {area:.1} m²", says(class, edge)),
            };
            if area > 0.0 {
                legend.push((Some(hatch(class, edge)), line));
            }
        }
        if !self.found.options.is_empty() {
            legend.push((None, "Blue, numbered: the places on offer.".to_owned()));
        }
        legend.push((None, "Only the authority can permit a pool.".to_owned()));
        legend
    }
}

fn hatch(class: Class, edge: bool) -> Hatch {
    match class {
        Class::Sure => Hatch::Tinted,
        Class::AsDrawn => Hatch::Lined,
        Class::Open if edge => Hatch::Grey,
        Class::Open => Hatch::Dotted,
        Class::Never => Hatch::Slanted,
    }
}

/// What a part of the map says.
fn says(class: Class, edge: bool) -> &'static str {
    match class {
        Class::Sure => "Each rule surely holds here",
        Class::AsDrawn => "Each rule holds here as drawn, but not for sure",
        Class::Open if edge => "On an edge between these",
        Class::Open => "Open here: an answer or a paper is missing, or the authority decides",
        Class::Never => "Ruled out here",
    }
}
