//! From a plan's document to the answer where its pool could go.

use serde::Serialize;

use super::map::Class;
use super::model::{Block, CellReport, Offer, Placement, RuleName, TurnReport};
use super::offers::offers;
use super::smaller::smaller;
use super::spot::Way;
use super::survey::Role;
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
    let document = text::read(plan_text);
    let document =
        document.map_err(|faults| NotPlaced::Refused(plan_refused(plan_text, faults)))?;
    let unit = unit_of(&document).unwrap_or(Unit::METRE);
    let turns = wishes.turns.clamp(1, MOST_TURNS);
    let ground = |turn: u32| {
        let degrees = f64::from(turn) * 360.0 / f64::from(turns);
        Ground::new((&document, plan_text), rules, wishes, degrees)
    };
    let mut grounds: Vec<Ground<'_>> = (0..turns).map(ground).collect::<Result<_, _>>()?;
    let options = offers(&mut grounds, unit);
    let holding = |offer: &Offer| offer.holds < Class::Open;
    let pool = grounds.first().map(Ground::pool).unwrap_or_default();
    let smaller = match options.iter().any(holding) {
        true => None,
        false => smaller((&document, plan_text), (rules, wishes, unit), &pool),
    };
    let turns: Vec<TurnReport> = grounds.iter().map(Ground::turn_report).collect();
    let as_drawn = grounds
        .first()
        .and_then(|it| Some((it, it.report(Way::default())?)));
    let Some((first, report)) = as_drawn else {
        return Err(NotPlaced::Unclear(
            "Judging this plan takes too long.".to_owned(),
        ));
    };
    Ok(first.placement(report, turns, options, smaller))
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

    fn ids_of_moving(&self) -> impl Iterator<Item = String> {
        let things = self.moving.things.iter();
        things.filter_map(|index| Some(self.plan.things.get(*index)?.id.clone()))
    }

    fn placement(
        &self,
        report: Report,
        turns: Vec<TurnReport>,
        options: Vec<Offer>,
        smaller: Option<super::Smaller>,
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
            sentence: sentence(&options, open_anyway.len()),
            questions: questions.filter(|it| is_for(it, &open_anyway)).collect(),
            open_anyway,
            fails_anyway: self.names(Role::FailsAnyway),
            holds_anyway: self.survey.of(Role::HoldsAnyway).len(),
            tapes_left_aside: self.tapes_left_aside(),
            turns,
            options,
            blocks: self.blocks(),
            smaller,
            cautions: report.cautions,
            disclaimer: report.disclaimer,
        }
    }

    fn name(&self, rule: usize) -> RuleName {
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

    fn turn_report(&self) -> TurnReport {
        let area = |class: Class, edge: bool| {
            let some = self
                .patches
                .iter()
                .filter(|it| it.class == class && it.edge == edge);
            some.map(|patch| patch.spot.area()).sum::<i64>() as f64 / 1e6
        };
        let kept = self.patches.iter().filter(|it| it.class != Class::Never);
        let cell = |patch: &super::Patch| CellReport {
            holds: patch.class,
            way: patch.spot.low,
            size: patch.spot.size,
        };
        TurnReport {
            degrees: self.degrees,
            sure: area(Class::Sure, false),
            as_drawn: area(Class::AsDrawn, false),
            open: area(Class::Open, false),
            edge: area(Class::Open, true),
            steps: self.steps,
            cells: kept.map(cell).collect(),
        }
    }
}

/// Whether a question is asked for one of these rules.
fn is_for(question: &Question, rules: &[RuleName]) -> bool {
    question
        .rules
        .iter()
        .any(|id| rules.iter().any(|rule| rule.id == *id))
}

fn sentence(options: &[Offer], open: usize) -> String {
    let best = options.iter().map(|offer| offer.holds).min();
    let found = match best {
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
    };
    match open {
        0 => found.to_owned(),
        1 => format!("{found} 1 more rule is open wherever the pool is put."),
        many => format!("{found} {many} more rules are open wherever the pool is put."),
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
