//! The places to offer: the nearest, the one with the most room, and others well apart from these.

use super::Ground;
use super::judging::{Asked, View, holds};
use super::map::{Class, Patch};
use super::model::{Offer, RuleThere, Slide};
use super::pose::Pose;
use super::room::{Best, LONGEST, failing, room, roomiest, slide};
use super::spot::{MILLIMETRE, Spot, Way};
use super::survey::Role;
use crate::check::{Outcome, governed};
use crate::quantity::{Rounding, Unit, show};
use crate::report::{Report, RuleReport, Texts, governed_report};

/// The most places to offer.
const MOST: usize = 5;
/// The least distance between the places on offer, in millimetres.
const APART: i64 = 2500;

/// A place that might be offered.
struct Candidate {
    why: Vec<&'static str>,
    /// The index of its turn.
    ground: usize,
    way: Way,
}

/// The places to offer, from the cells of the best class there is; those where the rules hold most surely come first.
pub(super) async fn offers(grounds: &mut [Ground<'_>], unit: Unit) -> Vec<Offer> {
    let classes = [Class::Sure, Class::AsDrawn, Class::Open];
    let has = |class: &Class| grounds.iter().any(|it| it.places(*class).next().is_some());
    let class = classes.into_iter().find(has);
    let mut found = match class {
        Some(class) => candidates(grounds, class).await,
        None => Vec::new(),
    };
    if class.is_none_or(|class| class == Class::Open) {
        found.extend(tight_fit(grounds).await);
    }
    let mut offered: Vec<Offer> = Vec::new();
    for candidate in found {
        if let Some(ground) = grounds.get_mut(candidate.ground) {
            ground.judging.rest().await;
            offered.extend(ground.offer(candidate.why, candidate.way, unit));
        }
    }
    offered.sort_by_key(|offer| offer.holds);
    offered
}

/// The place with the most room among all open cells, edges included: the fit may be so tight that no whole cell is good.
async fn tight_fit(grounds: &mut [Ground<'_>]) -> Option<Candidate> {
    let open = |patch: &Patch| patch.class == Class::Open;
    let best = most_room(grounds, &open, Ground::placed).await;
    let (ground, best) = best.filter(|(_, best)| best.margin >= 0)?;
    Some(Candidate {
        why: vec!["most-room"],
        ground,
        way: best.way,
    })
}

async fn candidates(grounds: &mut [Ground<'_>], class: Class) -> Vec<Candidate> {
    let mut found: Vec<Candidate> = Vec::new();
    found.extend(nearest(grounds, class));
    let roomy = |patch: &Patch| patch.class == class && !patch.edge;
    if let Some((ground, best)) = most_room(grounds, &roomy, Ground::of_distance).await {
        let same = |it: &&mut Candidate| it.ground == ground && it.way == best.way;
        match found.iter_mut().find(same) {
            Some(same) => same.why.push("most-room"),
            None => found.push(Candidate {
                why: vec!["most-room"],
                ground,
                way: best.way,
            }),
        }
    }
    others(grounds, class, &mut found);
    found
}

fn nearest(grounds: &[Ground<'_>], class: Class) -> Option<Candidate> {
    let all = grounds.iter().enumerate().flat_map(|(ground, it)| {
        // An open cell was only tried at its middle and its corners: a rule may fail in between.
        let ways = it.places(class).map(move |patch| match class {
            Class::Open => patch.spot.middle(),
            _ => patch.spot.nearest_to(Way::default()),
        });
        ways.map(move |way| (way.squared(), ground, way))
    });
    all.min().map(|(_, ground, way)| Candidate {
        why: vec!["nearest"],
        ground,
        way,
    })
}

async fn most_room<'r>(
    grounds: &mut [Ground<'r>],
    among: &dyn Fn(&Patch) -> bool,
    by: fn(&Ground<'r>) -> Asked,
) -> Option<(usize, Best)> {
    let mut best: Option<(usize, Best)> = None;
    for (at, ground) in grounds.iter_mut().enumerate() {
        let patches = ground.patches.iter().filter(|patch| among(patch));
        let cells: Vec<Spot> = patches.map(|patch| patch.spot).collect();
        let asked = by(ground);
        let so_far = best.map(|(_, best)| best);
        let more = roomiest(&mut ground.judging, cells.into_iter(), &asked, so_far).await;
        best = more.map(|more| (at, more)).or(best);
    }
    best
}

/// Adds the middles of the largest cells that are far enough from all places found so far.
fn others(grounds: &[Ground<'_>], class: Class, found: &mut Vec<Candidate>) {
    let mut cells: Vec<(i64, usize, Spot)> = Vec::new();
    for (ground, it) in grounds.iter().enumerate() {
        cells.extend(
            it.places(class)
                .map(|patch| (-patch.spot.size, ground, patch.spot)),
        );
    }
    cells.sort_unstable();
    for (_, ground, spot) in cells {
        let way = spot.middle();
        let apart = |it: &Candidate| it.way.squared_to(way) >= APART * APART;
        if found.len() < MOST && found.iter().all(apart) {
            found.push(Candidate {
                why: vec!["another"],
                ground,
                way,
            });
        }
    }
}

impl Ground<'_> {
    /// The cells of a class, without those on an edge.
    fn places(&self, class: Class) -> impl Iterator<Item = &Patch> {
        let patches = self.patches.iter();
        patches.filter(move |patch| patch.class == class && !patch.edge)
    }

    /// The rules that depend on the place.
    pub(super) fn placed(&self) -> Asked {
        self.survey.of(Role::Placed)
    }

    /// Those that turn on a distance, by which the room of a place is measured: the gaps of a fence, say, are the same in most
    /// places.
    fn of_distance(&self) -> Asked {
        self.judging.of_distance(self.placed())
    }

    /// A place as the ordinary checker judges it; `None` where one of the rules listed with it fails there.
    pub(super) fn offer(&mut self, why: Vec<&'static str>, way: Way, unit: Unit) -> Option<Offer> {
        let report = self.report(way)?;
        let (placed, waiting) = (self.placed(), self.survey.waiting());
        let ids = |rules: &Asked| -> Vec<&str> {
            rules.iter().map(|rule| self.judging.id(*rule)).collect()
        };
        let (ids, waiting) = (ids(&placed), ids(&waiting));
        let listed = |rule: &&RuleReport| {
            let id = rule.id.as_str();
            ids.contains(&id) || waiting.contains(&id)
        };
        let rules = report.rules.iter().filter(listed);
        let rules: Vec<RuleThere> = rules.map(there).collect();
        if rules.iter().any(|rule| rule.outcome == Outcome::Fail) {
            return None;
        }
        let class = class_of(&report, &ids);
        let by = self.of_distance();
        let (slides, measures) = match self.in_full {
            true => (self.slides(way, class, unit), self.measures(way, unit)),
            false => (Vec::new(), Vec::new()),
        };
        Some(Offer {
            why,
            holds: class,
            degrees: self.degrees,
            way,
            moved: moved(way, self.degrees, unit),
            middle: self.middle(way, unit),
            verdict: report.verdict,
            rules,
            room: room(&mut self.judging, way, &by),
            slides,
            measures,
        })
    }

    /// The ordinary checker's whole report with the pool in a place; `None` where judging takes too long.
    pub(super) fn report(&self, way: Way) -> Option<Report> {
        let mut pose = Pose::of(&self.plan, &self.moving.things);
        let plan = pose.put(way, 0);
        let found = governed(plan, self.judging.rules()).ok()?;
        Some(governed_report(&found, plan, &Texts::default()))
    }

    fn slides(&mut self, from: Way, class: Class, unit: Unit) -> Vec<Slide> {
        let view = match class {
            Class::Sure => View::Possible,
            Class::AsDrawn => View::Drawn,
            Class::Open | Class::Never => return Vec::new(),
        };
        const TO: [(&str, (i64, i64)); 4] = [
            ("east", (1, 0)),
            ("north", (0, 1)),
            ("west", (-1, 0)),
            ("south", (0, -1)),
        ];
        let (asked, waiting) = (self.placed(), self.survey.waiting());
        let judging = &mut self.judging;
        let one = |(to, way): (&'static str, (i64, i64))| {
            let stop = slide(judging, (from, way), view, &asked);
            let end = stop.as_ref().map_or(LONGEST, |stop| stop.after);
            let stop = failing(judging, (from, way), end, &waiting).or(stop)?;
            Some(Slide {
                to,
                millimetres: stop.after,
                distance: length(stop.after, unit),
                stopped_by: stop.rules.iter().map(|rule| judging.title(*rule)).collect(),
            })
        };
        TO.into_iter().filter_map(one).collect()
    }

    pub(super) fn middle(&self, way: Way, unit: Unit) -> [String; 2] {
        let at = |own: i64, origin: i128, by: i64| {
            let at = i128::from(own) + origin + i128::from(by) * i128::from(MILLIMETRE);
            show(at, unit, Rounding::Nearest, 2)
        };
        let (middle, origin) = (self.moving.middle, self.plan.origin);
        [at(middle.x, origin.0, way.x), at(middle.y, origin.1, way.y)]
    }
}

/// How surely these rules hold according to the ordinary checker, where none of them fails.
fn class_of(report: &Report, ids: &[&str]) -> Class {
    let placed = || {
        let rules = report.rules.iter();
        rules.filter(|rule| ids.contains(&rule.id.as_str()))
    };
    let as_drawn = |rule: &RuleReport| holds(rule.outcome) || rule.as_drawn.is_some_and(holds);
    if placed().all(|rule| holds(rule.outcome)) {
        Class::Sure
    } else if placed().all(as_drawn) {
        Class::AsDrawn
    } else {
        Class::Open
    }
}

fn there(rule: &RuleReport) -> RuleThere {
    let deciding = rule.deciding.and_then(|at| rule.parts.get(at));
    let brief = deciding.map(|part| part.brief.clone());
    RuleThere {
        id: rule.id.clone(),
        title: rule.title.clone(),
        outcome: rule.outcome,
        brief: brief.unwrap_or_default(),
    }
}

/// A length in the plan's unit.
pub(super) fn length(millimetres: i64, unit: Unit) -> String {
    let nanometres = i128::from(millimetres) * i128::from(MILLIMETRE);
    show(nanometres, unit, Rounding::Nearest, 2)
}

fn moved(way: Way, degrees: f64, unit: Unit) -> String {
    let part = |by: i64, forwards: &str, backwards: &str| match by {
        0 => None,
        by if by > 0 => Some(format!("{} {forwards}", length(by, unit))),
        by => Some(format!("{} {backwards}", length(-by, unit))),
    };
    let parts = [part(way.x, "east", "west"), part(way.y, "north", "south")];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    let turned = match degrees == 0.0 {
        true => String::new(),
        false => format!(", turned by {degrees}° anticlockwise"),
    };
    match parts.is_empty() {
        true => format!("Where it is drawn{turned}."),
        false => format!("{} of where it is drawn{turned}.", parts.join(" and ")),
    }
}
