//! From a plan's document to the answer where its pool could go.

use serde::Serialize;

use super::map::Class;
use super::map::Patch;
use super::model::{
    Block, CellReport, Offer, PaperMap, PaperName, Placement, RuleName, TurnReport, WhyNot,
};
use super::offers::offers;
use super::papers::Given;
use super::pause::{NEVER, Pause, at_once};
use super::regions::regions;
use super::smaller::smaller;
use super::spot::{MILLIMETRE, Way};
use super::survey::Role;
use super::why_not::why_not;
use super::{Ground, NotPlaced, Wishes};
use crate::answer::{plan_refused, read_rules, refusal_to_json};
use crate::edit::unit_of;
use crate::quantity::Unit;
use crate::report::{Question, Report};
use crate::ruleset::RuleSet;
use crate::text::{self, plain_json};

/// The most turns to try.
const MOST_TURNS: u32 = 64;

/// Where the pool of a plan could go under a rule set.
///
/// # Errors
/// All faults of the plan; that judging it takes too long; or a sentence where it is not clear what to move.
pub fn place(plan_text: &str, rules: &RuleSet, wishes: &Wishes) -> Result<Placement, NotPlaced> {
    at_once(place_by_and_by(plan_text, rules, wishes, NEVER))
}

/// The same for a program that has other things to do meanwhile: it says when the search is to wait.
///
/// # Errors
/// As for [`place`].
pub async fn place_by_and_by<'r>(
    plan_text: &str,
    rules: &'r RuleSet,
    wishes: &Wishes,
    pause: Pause<'r>,
) -> Result<Placement, NotPlaced> {
    let document = text::read(plan_text);
    let document =
        document.map_err(|faults| NotPlaced::Refused(plan_refused(plan_text, faults)))?;
    let unit = unit_of(&document).unwrap_or(Unit::METRE);
    let turns = wishes.turns.clamp(1, MOST_TURNS);
    let mut grounds: Vec<Ground<'_>> = Vec::new();
    for turn in 0..turns {
        let degrees = f64::from(turn) * 360.0 / f64::from(turns);
        let ground = Ground::new((&document, plan_text), (rules, wishes), degrees, pause);
        grounds.push(ground.await?);
    }
    let options = offers(&mut grounds, unit).await;
    let holding = |offer: &Offer| offer.holds < Class::Open;
    let pool = grounds.first().map(Ground::pool).unwrap_or_default();
    let fits = options.iter().any(holding);
    let why_not = if fits {
        Vec::new()
    } else {
        why_not(&mut grounds, unit).await
    };
    let first = grounds.first().filter(|_| !fits);
    let smaller = match first {
        Some(first) => {
            let (document, known) = ((&document, plan_text), (pool.as_str(), &first.survey));
            smaller(document, (rules, wishes, unit), known, pause).await
        }
        None => None,
    };
    let mut turns: Vec<TurnReport> = Vec::new();
    for ground in &mut grounds {
        turns.push(ground.turn_report().await);
    }
    let as_drawn = grounds
        .first()
        .and_then(|it| Some((it, it.report(Way::default())?)));
    let Some((first, report)) = as_drawn else {
        return Err(NotPlaced::Unclear(
            "Judging this plan takes too long.".to_owned(),
        ));
    };
    Ok(first.placement(report, turns, options, (why_not, smaller)))
}

/// The same from two texts. `bases` finds the text of a rule set that this one builds on, by its name.
///
/// # Errors
/// As for [`place`], and all faults of the rules.
pub fn place_texts<'t>(
    plan_text: &str,
    rules_text: &'t str,
    bases: &dyn Fn(&str) -> Option<&'t str>,
    wishes: &Wishes,
) -> Result<Placement, NotPlaced> {
    let rules = read_rules(rules_text, bases).map_err(NotPlaced::Refused)?;
    place(plan_text, &rules.rule_set, wishes)
}

impl Ground<'_> {
    /// The id of the pool.
    fn pool(&self) -> String {
        self.ids_of_moving().next().unwrap_or_default()
    }

    /// Where the pool's middle is drawn, in the plan's own coordinates, in millimetres.
    fn drawn_middle(&self) -> Way {
        let at = |own: i64, origin: i128| {
            let at = i128::from(own).saturating_add(origin);
            let at = at.saturating_add(i128::from(MILLIMETRE / 2));
            i64::try_from(at.div_euclid(i128::from(MILLIMETRE))).unwrap_or(0)
        };
        let (middle, origin) = (self.moving.middle, self.plan.origin);
        Way {
            x: at(middle.x, origin.0),
            y: at(middle.y, origin.1),
        }
    }

    fn ids_of_moving(&self) -> impl Iterator<Item = String> {
        let things = self.moving.things.iter();
        things.filter_map(|index| Some(self.plan.things.get(*index)?.id.clone()))
    }

    fn placement(
        &self,
        report: Report,
        turns: Vec<TurnReport>,
        options: Vec<Offer>,
        (why_not, smaller): (Vec<WhyNot>, Option<super::Smaller>),
    ) -> Placement {
        let open_anyway = self.names(Role::OpenAnyway);
        let questions = report.questions.into_iter();
        let head = &report.rule_set;
        Placement {
            plan: report.plan.title,
            rules: format!(
                "{}, edition {} ({})",
                head.title, head.edition, head.authority
            ),
            pool: self.pool(),
            moves_with: self.ids_of_moving().skip(1).collect(),
            middle: self.drawn_middle(),
            sentence: sentence(&options, open_anyway.len()),
            questions: questions.filter(|it| is_for(it, &open_anyway)).collect(),
            open_anyway,
            fails_anyway: self.names(Role::FailsAnyway),
            holds_anyway: self.survey.of(Role::HoldsAnyway).len(),
            tapes_left_aside: self.tapes_left_aside(),
            turns,
            options,
            blocks: self.blocks(),
            why_not,
            smaller,
            cautions: report.cautions,
            disclaimer: report.disclaimer,
        }
    }

    pub(super) fn name(&self, rule: usize) -> RuleName {
        RuleName {
            id: self.judging.id(rule).to_owned(),
            title: self.judging.title(rule),
        }
    }

    fn names(&self, role: Role) -> Vec<RuleName> {
        self.survey
            .of(role)
            .iter()
            .map(|rule| self.name(*rule))
            .collect()
    }

    fn tapes_left_aside(&self) -> usize {
        let moves = |end: usize| self.moving.things.contains(&end);
        let tapes = self.plan.measured.iter();
        tapes
            .filter(|taped| moves(taped.from.0) || moves(taped.to.0))
            .count()
    }

    /// How much of the lot each rule rules out, the most first.
    fn blocks(&self) -> Vec<Block> {
        let rows = self.survey.rows.iter().enumerate();
        let placed = rows.filter(|(_, row)| {
            matches!(row.role, Role::Placed | Role::OpenAnyway) && row.fails > 0
        });
        let block = |(rule, row): (usize, &super::survey::Row)| Block {
            rule: self.name(rule),
            places: row.fails,
            of: self.survey.places,
        };
        let mut blocks: Vec<Block> = placed.map(block).collect();
        blocks.sort_by_key(|block| std::cmp::Reverse(block.places));
        blocks
    }

    async fn turn_report(&mut self) -> TurnReport {
        let papers = match self.in_full {
            true => self.paper_maps().await,
            false => Vec::new(),
        };
        let kept = self.patches.iter().filter(|it| it.class != Class::Never);
        let cell = |patch: &Patch| CellReport {
            holds: patch.class,
            way: patch.spot.low,
            size: patch.spot.size,
            edge: patch.edge,
        };
        TurnReport {
            degrees: self.degrees,
            sure: area(&self.patches, Class::Sure, false),
            as_drawn: area(&self.patches, Class::AsDrawn, false),
            open: area(&self.patches, Class::Open, false),
            edge: area(&self.patches, Class::Open, true),
            steps: self.steps,
            cells: kept.map(cell).collect(),
            regions: regions(&self.patches, &self.judging),
            papers,
        }
    }

    /// The maps with none of the papers that are not in hand, with each alone, and with all; none without such papers.
    async fn paper_maps(&mut self) -> Vec<PaperMap> {
        let many = self.judging.papers().len();
        let one = (0..many).map(Given::one);
        let mut given: Vec<Given> = one.chain([Given::all(many)]).collect();
        given.dedup();
        given.insert(0, Given::NONE);
        let given = given.into_iter().filter(|_| many > 0);
        let mut maps = Vec::new();
        for given in given {
            maps.push(self.paper_map(given).await);
        }
        maps
    }

    async fn paper_map(&mut self, given: Given) -> PaperMap {
        let mut patches = self.map(given).await;
        patches.retain(|patch| patch.class != Class::Never);
        PaperMap {
            with: self.paper_names(given),
            sure: area(&patches, Class::Sure, false),
            as_drawn: area(&patches, Class::AsDrawn, false),
            open: area(&patches, Class::Open, false),
            edge: area(&patches, Class::Open, true),
            regions: regions(&patches, &self.judging),
        }
    }

    /// The papers that are taken to be in hand.
    pub(super) fn paper_names(&self, given: Given) -> Vec<PaperName> {
        let papers = self.judging.papers().iter().enumerate();
        let given = papers.filter(|(at, _)| given.has(*at));
        let name = |(_, paper): (usize, &super::papers::Paper)| PaperName {
            id: paper.id.clone(),
            title: paper.title.clone(),
            of: paper
                .thing
                .and_then(|thing| Some(self.plan.things.get(thing)?.id.clone())),
        };
        given.map(name).collect()
    }
}

/// The area of the cells of a class, on an edge or not, in square metres.
fn area(patches: &[Patch], class: Class, edge: bool) -> f64 {
    let some = patches.iter();
    let some = some.filter(|it| it.class == class && it.edge == edge);
    some.map(|patch| patch.spot.area()).sum::<i64>() as f64 / 1e6
}

/// Whether a question is asked for one of these rules.
fn is_for(question: &Question, rules: &[RuleName]) -> bool {
    question
        .rules
        .iter()
        .any(|id| rules.iter().any(|rule| rule.id == *id))
}

fn sentence(options: &[Offer], open: usize) -> String {
    let found = found(options.iter().map(|offer| offer.holds).min());
    match open {
        0 => found.to_owned(),
        1 => format!("{found} 1 more rule is open wherever the pool is put."),
        many => format!("{found} {many} more rules are open wherever the pool is put."),
    }
}

fn found(best: Option<Class>) -> &'static str {
    match best {
        Some(Class::Sure) => {
            "There is room: at the places below, every rule that depends on the place surely holds."
        }
        Some(Class::AsDrawn) => {
            "There is room as drawn: at the places below, every rule that depends on the place holds if everything is where it \
             is drawn. The plan is not exact enough to be sure."
        }
        Some(_) => {
            "No place was found where every rule that depends on the place holds. At the places below none of them fails for \
             sure: an answer, a paper or the authority decides."
        }
        None => "No place was found for this pool on this lot, at the turns that were tried.",
    }
}

/// The answer as another program gets it.
#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
enum Answer<'a> {
    Placement(&'a Placement),
    Unclear(&'a str),
}

/// As JSON: `{"placement": …}`, `{"unclear": …}` with a sentence, or what is wrong with the texts, as in [`crate::to_json`].
pub fn place_to_json(answer: &Result<Placement, NotPlaced>) -> String {
    let answer = match answer {
        Ok(placement) => Answer::Placement(placement),
        Err(NotPlaced::Unclear(why)) => Answer::Unclear(why),
        Err(NotPlaced::Refused(refusal)) => return refusal_to_json(refusal),
    };
    // Text, numbers and lists of them can always be written.
    let json = serde_json::to_string_pretty(&answer).unwrap_or_default();
    plain_json(json + "\n")
}
