//! Dimension lines with their figures: where each rule measures from and to.

use std::collections::BTreeSet;

use super::labels::{Label, Lettering, width_of};
use super::place::SheetPoint;
use super::sheet::Sheet;
use super::svg::{INK, Svg, el, segment, title};
use crate::check::{Outcome, Part, Witness};
use crate::report::{PartReport, RangeReport, ReadingReport, RuleReport, deciding};

/// One measured distance.
struct DimensionLine<'s> {
    rule: &'s RuleReport,
    part: &'s PartReport,
    outcome: Outcome,
    witness: Witness,
    figure: String,
}

/// The dimension lines asked for. Their figures are placed before any other lettering.
pub(super) fn lines(lettering: &mut Lettering, sheet: &Sheet<'_>) -> Svg {
    let mut seen = BTreeSet::new();
    let mut drawn = Svg::default();
    let mut taken = Vec::new();
    for line in asked_for(sheet) {
        let ends = (line.witness.from, line.witness.to);
        if seen.insert((ends.0.min(ends.1), ends.0.max(ends.1))) {
            let ends = [ends.0, ends.1].map(|point| sheet.spot(point));
            let off = room_beside(ends, &taken, sheet);
            taken.push(moved(ends, off));
            drawn += line.drawn(ends, off, lettering, sheet);
        }
    }
    el("g").with("class", "distances").holding(drawn)
}

fn asked_for<'s>(sheet: &'s Sheet<'_>) -> Vec<DimensionLine<'s>> {
    let selected = sheet.options.selected.is_some();
    let on_paper = sheet.options.scale.is_some();
    let rules = sheet.findings.rules.iter().zip(sheet.reports);
    let shown = rules.filter(|(finding, _)| {
        let rule = sheet.rules.rules.get(finding.rule);
        rule.is_some_and(|rule| sheet.options.shows(rule, finding.outcome))
    });
    let mut list = Vec::new();
    for (finding, rule) in shown {
        if selected {
            let parts = finding.parts.iter().zip(&rule.parts);
            list.extend(parts.flat_map(|(part, said)| of_part(rule, part, said, on_paper)));
        } else {
            list.extend(of_deciding(rule, &finding.parts, on_paper));
        }
    }
    // What decides against the plan is drawn first, so that its figure finds room.
    list.sort_by_key(|line| std::cmp::Reverse(weight(line.outcome)));
    list
}

/// The lines of the deciding part. A report may hold that part only.
fn of_deciding<'s>(
    rule: &'s RuleReport,
    parts: &'s [Part],
    on_paper: bool,
) -> impl Iterator<Item = DimensionLine<'s>> {
    let part = deciding(parts).and_then(|place| parts.get(place));
    let said = rule.deciding.and_then(|place| rule.parts.get(place));
    let both = part.zip(said).into_iter();
    both.flat_map(move |(part, said)| of_part(rule, part, said, on_paper))
}

fn of_part<'s>(
    rule: &'s RuleReport,
    part: &'s Part,
    said: &'s PartReport,
    on_paper: bool,
) -> impl Iterator<Item = DimensionLine<'s>> {
    let readings = part.readings.iter().zip(&said.readings);
    readings.filter_map(move |(reading, words)| {
        Some(DimensionLine {
            rule,
            part: said,
            outcome: part.outcome,
            witness: reading.witness?,
            figure: figure(words, part.outcome, on_paper),
        })
    })
}

fn weight(outcome: Outcome) -> u8 {
    match outcome {
        Outcome::Fail => 3,
        Outcome::Marginal => 2,
        Outcome::Unknown | Outcome::Refer => 1,
        Outcome::Pass | Outcome::NotApplicable => 0,
    }
}

/// The measured figure at its worst (as drawn, where the worst is not known), and the limit unless it is surely kept.
/// On paper it is the figure as drawn, because somebody may lay a ruler on it; the table beside it has the worst. The
/// bound is read from the report's words, because under a `not` they state the opposite of the rule's own bound.
fn figure(words: &ReadingReport, outcome: Outcome, on_paper: bool) -> String {
    let low = |range: &RangeReport| range.low.clone();
    let high = |range: &RangeReport| range.high.clone();
    type End = fn(&RangeReport) -> Option<String>;
    let signs: [(&str, &str, End, End); 4] = [
        ("at least ", "≥", low, high),
        ("more than ", ">", low, high),
        ("at most ", "≤", high, low),
        ("less than ", "<", high, low),
    ];
    let sign = signs
        .into_iter()
        .find(|(asked, ..)| words.bound.starts_with(asked));
    let (_, sign, at_worst, limit) = sign.unwrap_or(("", "=", low, low));
    let measured = words.measured.as_ref().and_then(at_worst);
    let drawn = || Some(format!("{} as drawn", words.drawn.as_ref()?));
    let ruler = words.drawn.clone().filter(|_| on_paper);
    let measured = ruler.or(measured).or_else(drawn);
    let measured = measured.unwrap_or_else(|| "?".to_owned());
    match &words.limit {
        Some(range) if outcome != Outcome::Pass => {
            let limit = limit(range).unwrap_or_else(|| "?".to_owned());
            format!("{measured} ({sign} {limit})")
        }
        _ => measured,
    }
}

/// How far a dimension line is shifted sideways so that it does not lie on another.
fn room_beside(ends: [SheetPoint; 2], taken: &[[SheetPoint; 2]], sheet: &Sheet<'_>) -> f64 {
    let steps = [0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0, 4.0, -4.0, 5.0, -5.0];
    let offsets = steps.map(|step| step * sheet.points(19.0));
    let free = |off: &f64| {
        let line = moved(ends, *off);
        taken.iter().all(|other| !lies_on(line, *other, sheet))
    };
    offsets.into_iter().find(free).unwrap_or(0.0)
}

fn moved([from, to]: [SheetPoint; 2], off: f64) -> [SheetPoint; 2] {
    let side = from.to(to).unit().left();
    [from.along(side, off), to.along(side, off)]
}

/// Whether two parallel lines are too close to tell apart.
fn lies_on([a, b]: [SheetPoint; 2], [c, d]: [SheetPoint; 2], sheet: &Sheet<'_>) -> bool {
    let (way, other) = (a.to(b).unit(), c.to(d).unit());
    let parallel = (way.x * other.y - way.y * other.x).abs() < 0.05;
    let across = |spot: SheetPoint| {
        let from = a.to(spot);
        (way.x * from.y - way.y * from.x).abs()
    };
    let along = |spot: SheetPoint| {
        let from = a.to(spot);
        way.x * from.x + way.y * from.y
    };
    let (low, high) = (along(c).min(along(d)), along(c).max(along(d)));
    let near = across(c).min(across(d)) < sheet.points(12.0);
    parallel && near && low < a.to(b).length() && high > 0.0
}

impl DimensionLine<'_> {
    fn drawn(
        &self,
        ends: [SheetPoint; 2],
        off: f64,
        lettering: &mut Lettering,
        sheet: &Sheet<'_>,
    ) -> Svg {
        let [from, to] = ends;
        let beside = moved(ends, off);
        let shown = sheet.frame.holds(from) || sheet.frame.holds(to);
        lettering.place(&self.places(beside, sheet), shown, sheet);
        let strokes = match from.to(to).length() < sheet.points(4.0) {
            true => touch(from, sheet),
            false => extensions(ends, beside) + self.dimension(beside, sheet),
        };
        el("g")
            .with("class", format!("distance {}", self.outcome.word()))
            .with("data-rule", &self.rule.id)
            .with_some("data-subject", self.part.subject.id.as_ref())
            .holding(title(&self.title()) + strokes)
    }

    fn fails_as_drawn(&self) -> bool {
        self.part.as_drawn == Some(Outcome::Fail)
    }

    fn title(&self) -> String {
        format!(
            "{} ({}): {}",
            self.rule.title, self.rule.clause, self.part.sentence
        )
    }

    /// A line with a slanting stroke at each end: heavy where the rule fails (surely or as drawn), dashed where it is
    /// open.
    fn dimension(&self, [from, to]: [SheetPoint; 2], sheet: &Sheet<'_>) -> Svg {
        let (width, dash) = match self.outcome {
            Outcome::Fail => ("2.4", None),
            Outcome::Marginal if self.fails_as_drawn() => ("2.4", Some("5 3")),
            Outcome::Marginal | Outcome::Unknown | Outcome::Refer => ("1.6", Some("5 3")),
            Outcome::Pass | Outcome::NotApplicable => ("1", None),
        };
        let line = segment(from, to);
        let way = from.to(to).unit();
        let slant = way.along(way.left(), 1.0);
        let tick = |at: SheetPoint| {
            let half = sheet.points(4.5);
            segment(at.along(slant, half), at.along(slant, -half))
        };
        stroke(&line, width, dash) + stroke(&(tick(from) + &tick(to)), "1.8", None)
    }

    /// Above the middle of the line, else below it or nearer to one of its ends.
    fn places(&self, [from, to]: [SheetPoint; 2], sheet: &Sheet<'_>) -> Vec<Label> {
        let way = from.to(to);
        let short = way.length() < sheet.points(4.0);
        let (angle, side) = match short {
            true => (0.0, SheetPoint::new(0.0, -1.0)),
            false => (way.reading_angle(), way.unit().left()),
        };
        let long = way.length() > width_of(&self.figure, sheet);
        let label = |angle: f64, at: SheetPoint| Label {
            text: self.figure.clone(),
            at,
            angle,
            class: match self.outcome {
                Outcome::Fail => "figure fail",
                _ => "figure",
            },
        };
        // A figure longer than its line is written level beside it.
        if !long {
            return self
                .level_places(from.middle(to), way, sheet)
                .map(|at| label(0.0, at))
                .to_vec();
        }
        let at = [
            (0.5, 10.0),
            (0.5, -10.0),
            (0.28, 10.0),
            (0.72, 10.0),
            (0.28, -10.0),
            (0.72, -10.0),
            (0.5, 24.0),
            (0.5, -24.0),
        ];
        at.map(|(share, off)| label(angle, from.along(way, share).along(side, sheet.points(off))))
            .to_vec()
    }

    /// Right and left of the middle of a line, then above and below it.
    fn level_places(
        &self,
        middle: SheetPoint,
        way: SheetPoint,
        sheet: &Sheet<'_>,
    ) -> [SheetPoint; 6] {
        let half = width_of(&self.figure, sheet) / 2.0 + way.x.abs() / 2.0 + sheet.points(7.0);
        let up = way.y.abs() / 2.0 + sheet.points(14.0);
        let spot = |x: f64, y: f64| middle.along(SheetPoint::new(x, y), 1.0);
        [
            spot(half, 0.0),
            spot(-half, 0.0),
            spot(0.0, -up),
            spot(0.0, up),
            spot(half, -up),
            spot(-half, up),
        ]
    }
}

/// Where two things touch there is no line to draw, so a ring with a cross marks the place.
fn touch(at: SheetPoint, sheet: &Sheet<'_>) -> Svg {
    let r = sheet.points(7.0);
    let ring = el("circle")
        .round(at, r)
        .painted("none", INK, "2.2")
        .unscaled()
        .empty();
    let corner = |x: f64, y: f64| at.along(SheetPoint::new(x, y), r);
    let cross = segment(corner(-1.0, -1.0), corner(1.0, 1.0))
        + &segment(corner(-1.0, 1.0), corner(1.0, -1.0));
    ring + stroke(&cross, "1.6", None)
}

/// Extension lines: thin lines from the measured places to the dimension line beside them.
fn extensions(ends: [SheetPoint; 2], beside: [SheetPoint; 2]) -> Svg {
    let pairs = ends.into_iter().zip(beside).filter(|(from, to)| from != to);
    let d: String = pairs.map(|(from, to)| segment(from, to)).collect();
    match d.is_empty() {
        true => Svg::default(),
        false => stroke(&d, "0.6", None),
    }
}

fn stroke(d: &str, width: &str, dash: Option<&str>) -> Svg {
    el("path")
        .with("d", d)
        .painted("none", INK, width)
        .with_some("stroke-dasharray", dash)
        .unscaled()
        .empty()
}
