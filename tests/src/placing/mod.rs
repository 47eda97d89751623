//! The map of where a pool could go, held against a search of its own that judges one place after the other.
//!
//! The search knows nothing of the map: it only has a plan with the pool moved judged by the checker. It leaves out a
//! square of places only if it has proved that none of them is good: a shift by some distance changes any distance by no
//! more than that, so where a margin is short by more than the way to the corners, it is short all over the square.

pub mod lots;

use rules_core::check::{Outcome, check};
use rules_core::placement::{CellReport, Class, Placement, Wishes, place};
use rules_core::plan;
use rules_core::quantity::Dimension;
use rules_core::ruleset::{self, RuleSet};
use rules_core::vocabulary::Vocabulary;

use self::lots::{At, Case};
use crate::random_plans::Random;

/// A place counts as good if each margin is more than this, in nanometres.
const MARGIN: i128 = 10_000_000;
const MILLIMETRE: i128 = 1_000_000;

/// How the checker judges one place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Judged {
    /// Whether every rule surely holds.
    pub holds: bool,
    /// The least margin of any distance, in nanometres, however inaccurate the drawing is.
    pub margin: i128,
}

/// What was compared, and what was wrong.
#[derive(Debug, Default)]
pub struct Tally {
    /// How many maps were looked at.
    pub maps: usize,
    /// On how many of them the search found a good place.
    pub with_room: usize,
    /// How many places the search had judged.
    pub judged: usize,
    /// How many good places it found.
    pub good: usize,
    /// How many places in sure cells were judged.
    pub sure: usize,
    /// What was wrong.
    pub wrong: Vec<String>,
}

/// How much to compare.
#[derive(Debug, Clone, Copy)]
pub struct Effort {
    /// The squares of the search are cut down to this many millimetres.
    pub grid: i64,
    /// The smallest cells of the map, in millimetres.
    pub finest: u32,
    /// How many right angles the pool is turned through: 1 or 4.
    pub turns: u32,
    /// How many places in sure cells are judged on each map.
    pub points: usize,
}

struct Bench<'c> {
    case: &'c Case,
    rules: RuleSet,
    turns: u32,
}

impl Bench<'_> {
    /// The pool turned by so many of the turns that are tried.
    fn judge(&self, turn: u32, way: At) -> Judged {
        let text = self.case.plan(turn * (4 / self.turns), way);
        let plan = plan::read(&text, &self.rules.vocabulary).expect("a plan");
        let found = check(&plan, &self.rules).expect("not too much");
        let holds = |it: Outcome| matches!(it, Outcome::Pass | Outcome::NotApplicable);
        let parts = found.rules.iter().flat_map(|it| &it.parts);
        let margins = parts.filter_map(|part| part.margin);
        let lengths = margins.filter(|it| it.dimension == Dimension::Length);
        Judged {
            holds: found.rules.iter().all(|it| holds(it.outcome)),
            margin: lengths.map(|it| it.range.low).min().unwrap_or(i128::MAX),
        }
    }

    /// All good places on a grid, with their margins. A square is left out only where none of its places is good.
    fn good(&self, turn: u32, grid: i64, tally: &mut Tally) -> Vec<(At, i128)> {
        let [low, high] = self.case.lot;
        let way = |at: At| [at[0] - self.case.middle[0], at[1] - self.case.middle[1]];
        let (low, high) = (way(low), way(high));
        let size = std::iter::successors(Some(grid), |size| Some(size * 2));
        let size = size.take_while(|size| *size < 6400).last().unwrap_or(grid);
        let mut squares = Vec::new();
        for x in (low[0]..high[0]).step_by(usize::try_from(size).expect("a size")) {
            for y in (low[1]..high[1]).step_by(usize::try_from(size).expect("a size")) {
                squares.push(([x, y], size));
            }
        }
        let mut good = Vec::new();
        while let Some((at, size)) = squares.pop() {
            let middle = [at[0] + size / 2, at[1] + size / 2];
            let judged = self.judge(turn, middle);
            tally.judged += 1;
            // Half the diagonal of a square is no more than 0.7072 of its side.
            let reach = i128::from(size) * 7072 * MILLIMETRE / 10_000;
            if judged.margin + reach <= MARGIN {
                continue;
            }
            if judged.holds && judged.margin > MARGIN {
                good.push((middle, judged.margin));
            }
            if size > grid {
                let half = size / 2;
                let quarters = [[0, 0], [half, 0], [0, half], [half, half]];
                squares.extend(quarters.map(|by| ([at[0] + by[0], at[1] + by[1]], half)));
            }
        }
        good
    }
}

/// Compares the map of a case with the search.
pub fn compare(case: &Case, effort: Effort, tally: &mut Tally) {
    let rules = ruleset::read(&case.rules, &|_| None, Vocabulary::standard());
    let rules = rules.expect("rules").rule_set;
    let wishes = Wishes {
        pool: Some("pool".to_owned()),
        turns: effort.turns,
        finest: effort.finest,
        ..Wishes::default()
    };
    let found = place(&case.plan(0, [0, 0]), &rules, &wishes).expect("a placement");
    let bench = Bench {
        case,
        rules,
        turns: effort.turns,
    };
    let mut random = Random::new(effort.points as u64 + 1);
    for (turn, report) in (0..).zip(&found.turns) {
        let good = bench.good(turn, effort.grid, tally);
        tally.maps += 1;
        tally.with_room += usize::from(!good.is_empty());
        tally.good += good.len();
        for (way, margin) in &good {
            let cell = report.cells.iter().find(|cell| holds_place(cell, *way));
            if let Some(wrong) = missed(cell, *margin, effort.finest) {
                tally.wrong.push(format!(
                    "{}, turn {turn}, moved by {way:?}, {margin} nm to spare: {wrong}",
                    case.name
                ));
            }
        }
        let sure: Vec<&CellReport> = report
            .cells
            .iter()
            .filter(|cell| cell.holds == Class::Sure)
            .collect();
        for _ in 0..effort.points {
            let Some(cell) = one_of(&sure, &mut random) else {
                break;
            };
            let within = |low: i64, random: &mut Random| random.within(low, low + cell.size);
            let way = [
                within(cell.way.x, &mut random),
                within(cell.way.y, &mut random),
            ];
            tally.sure += 1;
            if !bench.judge(turn, way).holds {
                let wrong = format!("{}, turn {turn}: {way:?} is in a sure cell", case.name);
                tally.wrong.push(wrong);
            }
        }
    }
    offers(&bench, &found, tally);
}

/// Every sure place on offer holds.
fn offers(bench: &Bench<'_>, found: &Placement, tally: &mut Tally) {
    let rules = [&found.fails_anyway, &found.open_anyway];
    if rules.iter().any(|rules| !rules.is_empty()) {
        let name = &bench.case.name;
        tally.wrong.push(format!("{name}: a rule was left aside"));
    }
    for offer in found.options.iter().filter(|it| it.holds == Class::Sure) {
        let quarter = 360.0 / f64::from(bench.turns);
        let turn = (0..bench.turns).find(|turn| f64::from(*turn) * quarter == offer.degrees);
        let way = [offer.way.x, offer.way.y];
        if !bench.judge(turn.expect("a turn"), way).holds {
            let name = &bench.case.name;
            tally
                .wrong
                .push(format!("{name}: offers {way:?}, which does not hold"));
        }
    }
}

fn holds_place(cell: &CellReport, way: At) -> bool {
    let within = |at: i64, low: i64| (low..=low + cell.size).contains(&at);
    within(way[0], cell.way.x) && within(way[1], cell.way.y)
}

/// What is wrong where a good place lies in this cell of the map.
fn missed(cell: Option<&CellReport>, margin: i128, finest: u32) -> Option<&'static str> {
    // In a cell of the finest size the middle is at most so far off, and so are the corners from the middle.
    let across = i128::from(finest) * 14_143 * MILLIMETRE / 10_000;
    match cell.map(|cell| cell.holds) {
        None => Some("the map says it can never be"),
        Some(Class::Sure) => None,
        Some(_) if margin > across => Some("the map does not call it sure"),
        Some(_) => None,
    }
}

fn one_of<'c>(cells: &[&'c CellReport], random: &mut Random) -> Option<&'c CellReport> {
    let last = i64::try_from(cells.len()).ok()?.checked_sub(1)?;
    let at = (last >= 0).then(|| random.within(0, last))?;
    cells.get(usize::try_from(at).ok()?).copied()
}
