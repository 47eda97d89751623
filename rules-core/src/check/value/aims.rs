//! Where people come from: the street, the neighbours' lots, the doors of the house.

use crate::check::Missing;
use crate::check::judge::Judge;
use crate::check::value::distance::End;
use crate::check::world::env::{Env, Referent};
use crate::check::world::special::line_of;
use crate::measure::{Doubt, Place, View, contains, distance, part_way};
use crate::plan::{Figure, Form, Point, ThingIndex, Words};
use crate::vocabulary::{KindId, Role};

/// So far beyond a lot line, in nanometres, begins the place from which people come. What stands nearer to the line,
/// a neighbour's fence beside it, say, still stands between.
const BEYOND: i64 = 1_000_000_000;
/// A door is in the wall that both its ends are within this of, in nanometres.
const IN_THE_WALL: i64 = 300_000_000;

/// A place from which people come.
pub(crate) struct Aim {
    /// Where it is; `None` is far away.
    pub(crate) place: Option<(Figure, Doubt)>,
    /// Whether it surely is meant.
    pub(crate) sure: bool,
    /// It may be anywhere.
    pub(crate) anywhere: bool,
    /// It is an opening in whatever wall it stands in.
    door: bool,
}

impl Aim {
    const FAR: Aim = Aim {
        place: None,
        sure: true,
        anywhere: false,
        door: false,
    };
    const ANYWHERE: Aim = Aim {
        place: None,
        sure: false,
        anywhere: true,
        door: false,
    };

    /// What a door leaves of the wall that it is in.
    pub(crate) fn cut_from(&self, wall: &Figure, doubt: Doubt, view: View) -> Figure {
        match self.place.as_ref().filter(|_| self.door) {
            Some((door, own)) => opened(wall, door, own.against(doubt), None, view),
            None => wall.clone(),
        }
    }
}

/// What an opening leaves of the wall that it is in: for the widest way at most what it leaves in any world, for the
/// narrowest at least that. Where it is known how wide a ball may pass, it is no wider than that.
pub(crate) fn opened(
    wall: &Figure,
    opening: &Figure,
    off: i64,
    widest: Option<i64>,
    view: View,
) -> Figure {
    let Some(ends) = ends_of(opening) else {
        return wall.clone();
    };
    let wider = match view {
        View::Drawn => 0,
        View::Widest => off,
        View::Narrowest => off.saturating_neg(),
    };
    let cut = Cut {
        ends,
        wider,
        widest,
    };
    let forms = wall.forms.iter();
    let forms = forms.flat_map(|form| cut.without(form)).collect();
    Figure::new(forms, wall.spread, wall.accuracy)
}

/// What is cut out of a wall.
struct Cut {
    /// From one of these places to the other,
    ends: (Point, Point),
    /// and so much more on either side,
    wider: i64,
    /// but no more than this.
    widest: Option<i64>,
}

fn ends_of(door: &Figure) -> Option<(Point, Point)> {
    match door.forms.first()? {
        Form::Path(points) => Some((*points.first()?, *points.last()?)),
        _ => None,
    }
}

impl Cut {
    /// A line less what is cut out of one of its edges.
    fn without(&self, form: &Form) -> Vec<Form> {
        let reach = IN_THE_WALL.saturating_add(self.wider);
        let corners: Vec<Point> = match form {
            Form::Point(_) => return vec![form.clone()],
            Form::Path(points) => points.clone(),
            Form::Ring(points) => points.iter().chain(points.first()).copied().collect(),
        };
        let mut pieces = Vec::new();
        let mut cut = false;
        for (a, b) in corners.iter().zip(corners.iter().skip(1)) {
            let edge = Form::Path(vec![*a, *b]);
            let foot = |point: Point| {
                let gap = distance(&Form::Point(point), &edge);
                (gap.high <= reach).then_some(gap.to)
            };
            let feet = foot(self.ends.0).zip(foot(self.ends.1));
            let feet = feet.filter(|(p, q)| p != q);
            match feet.and_then(|feet| self.stretched((*a, *b), feet)) {
                Some((near, next)) => {
                    cut = true;
                    let ends = [(*a, near), (next, *b)];
                    let left = ends.into_iter().filter(|(from, to)| from != to);
                    pieces.extend(left.map(|(from, to)| Form::Path(vec![from, to])));
                }
                None => pieces.push(edge),
            }
        }
        if cut { pieces } else { vec![form.clone()] }
    }

    /// A piece of an edge, in the edge's direction, and so much longer at either end, as far as the edge goes; `None` where
    /// nothing is left of it.
    fn stretched(&self, edge: (Point, Point), (p, q): (Point, Point)) -> Option<(Point, Point)> {
        let far = |point: Point| distance(&Form::Point(edge.0), &Form::Point(point)).low;
        let (near, next) = if far(p) <= far(q) { (p, q) } else { (q, p) };
        let too_wide = |widest: i64| far(next).saturating_sub(far(near)) > widest;
        if self.wider == 0 && !self.widest.is_some_and(too_wide) {
            return Some((near, next));
        }
        let (from, to, long) = (
            far(near).saturating_sub(self.wider),
            far(next).saturating_add(self.wider),
            far(edge.1),
        );
        let over = self
            .widest
            .map_or(0, |widest| to.saturating_sub(from).saturating_sub(widest));
        let over = over.max(0);
        let (from, to) = (
            from.saturating_add(over / 2),
            to.saturating_sub(over - over / 2),
        );
        let at = |along: i64| {
            part_way(
                edge.0,
                edge.1,
                along.clamp(0, long) as f64 / long.max(1) as f64,
            )
        };
        (from < to).then(|| (at(from), at(to)))
    }
}

impl<'a> Judge<'a> {
    /// The places that words stand for; `None` where a word is not known.
    pub(crate) fn aims(&self, from: &[String], env: &Env<'_>) -> Option<Vec<Aim>> {
        let mut aims = Vec::new();
        for word in from {
            match word.as_str() {
                // Whoever comes from the street may come over a neighbour's lot, and the other way round: what is far
                // away is meant by both.
                "street" => aims.extend(self.beyond_the_lines(&["road", "alley"], env)),
                "neighbour-lot" => aims.extend(self.beyond_the_lines(&["neighbour-lot"], env)),
                "dwelling" => aims.extend(self.doors(env)),
                _ => return None,
            }
        }
        Some(aims)
    }

    fn beyond_the_lines(&self, words: &[&str], env: &Env<'_>) -> Vec<Aim> {
        let mut aims = vec![Aim::FAR];
        for index in self.scene.base.of_kind(self.special.lot_line) {
            let (may, sure) = self.says((self.special.lot_line, *index), "beyond", words, env);
            let figure = self
                .scene
                .thing(*index)
                .and_then(|thing| thing.outlines.get(&self.special.line));
            if !may {
                continue;
            }
            let Some(figure) = figure else { continue };
            // Nobody knows where a line is whose accuracy nobody knows, nor then what lies beyond it.
            let Some(doubt) = self.doubt(*index, figure) else {
                aims.push(Aim::ANYWHERE);
                continue;
            };
            let line = (*index, self.scene.as_drawn);
            let strips = self
                .scene
                .base
                .strips(line, || self.strips(figure, doubt).into());
            aims.extend(strips.iter().map(|strip| Aim {
                place: Some(strip.clone()),
                sure,
                ..Aim::FAR
            }));
        }
        aims
    }

    /// The lines so far beyond a lot line; where they would run into the lot again, their middle, if that is clear.
    ///
    /// Each is as far off as its line, and more, because a line that is turned turns what lies beyond it.
    fn strips(&self, line: &Figure, doubt: Doubt) -> Vec<(Figure, Doubt)> {
        let Some(ring) = self.lot_ring() else {
            return Vec::new();
        };
        let clear = |form: &Form| contains(ring, form) == Place::Outside;
        let far_enough =
            |form: &Form| distance(&Form::Ring(ring.to_vec()), form).high >= BEYOND - 10;
        let mut strips = Vec::new();
        for form in &line.forms {
            let Form::Path(points) = form else { continue };
            for (a, b) in points.iter().zip(points.iter().skip(1)) {
                let beside = [1, -1].into_iter().filter_map(|hand| beside(*a, *b, hand));
                let strip = beside.into_iter().find_map(|(a, b)| {
                    let middle = Point {
                        x: i64::midpoint(a.x, b.x),
                        y: i64::midpoint(a.y, b.y),
                    };
                    let whole = Form::Path(vec![a, b]);
                    let middle = Form::Point(middle);
                    let fits = |form: &Form| clear(form) && far_enough(form);
                    [whole, middle].into_iter().find(fits)
                });
                let doubt = Doubt {
                    accuracy: doubt
                        .accuracy
                        .saturating_add(turned(*a, *b, doubt.accuracy)),
                    ..doubt
                };
                strips.extend(strip.map(|form| {
                    let strip = Figure::new(vec![form], 0, line.accuracy);
                    (strip, doubt)
                }));
            }
        }
        strips
    }

    /// The doors of dwellings.
    fn doors(&self, env: &Env<'_>) -> Vec<Aim> {
        let vocabulary = &self.scene.rules().vocabulary;
        let Some((opening, outline)) = line_of(Role::WallOpening, vocabulary) else {
            return vec![Aim::ANYWHERE];
        };
        let mut aims = Vec::new();
        if self.may_be_unseen(opening) && self.may_have_a_dwelling(env) {
            self.scene
                .depends_on(Missing::Inventory(opening), true, &[]);
            aims.push(Aim::ANYWHERE);
        }
        for index in self.scene.base.of_kind(opening) {
            let (is, surely) = self.says(
                (opening, *index),
                "type",
                &["door", "sliding-door", "pet-door", "garage-door"],
                env,
            );
            let (ours, surely_ours) = self.is_in_a_dwelling(opening, *index, env);
            if !(is && ours) {
                continue;
            }
            let placed = self.placed(&End {
                referent: Referent::Thing(*index),
                outline,
                sure: true,
                zone: None,
            });
            aims.push(placed.map_or(Aim::ANYWHERE, |placed| Aim {
                place: Some((placed.figure, placed.doubt)),
                sure: surely && surely_ours,
                anywhere: false,
                door: true,
            }));
        }
        aims
    }

    fn may_have_a_dwelling(&self, env: &Env<'_>) -> bool {
        let Some(building) = self.scene.rules().vocabulary.with_role(Role::Building) else {
            return true;
        };
        let is_one =
            |index: &ThingIndex| self.says((building, *index), "use", &["dwelling"], env).0;
        self.may_be_unseen(building) || self.scene.base.of_kind(building).iter().any(is_one)
    }

    fn is_in_a_dwelling(&self, opening: KindId, index: ThingIndex, env: &Env<'_>) -> (bool, bool) {
        let building = self.scene.rules().vocabulary.with_role(Role::Building);
        let whole = self.scene.thing(index).and_then(|thing| thing.part_of);
        let whole =
            whole.filter(|whole| self.scene.thing(*whole).map(|thing| thing.kind) == building);
        match building.zip(whole) {
            Some((building, whole)) => self.says((building, whole), "use", &["dwelling"], env),
            None => self.says(
                (opening, index),
                "in",
                &["building", "barrier-stretch"],
                env,
            ),
        }
    }

    /// Whether a fact of a thing may be one of some words, and whether it surely is.
    fn says(
        &self,
        (kind, index): (KindId, ThingIndex),
        fact: &str,
        words: &[&str],
        env: &Env<'_>,
    ) -> (bool, bool) {
        let Some(fact) = self.scene.rules().vocabulary.fact_named(kind, fact) else {
            return (true, false);
        };
        let seen = self
            .scene
            .fact(fact, &env.bind(kind, Referent::Thing(index)), &[]);
        let view = &seen.view;
        let is = |word: &String| words.contains(&word.as_str());
        match view.words.as_deref() {
            Some(Words::OneOf(said)) => (said.iter().any(is), !view.none && said.iter().all(is)),
            Some(Words::Any) => (true, false),
            None => (false, false),
        }
    }
}

/// How far a place `BEYOND` an edge may move because the edge turns, either of its ends being off by so much.
fn turned(a: Point, b: Point, off: i64) -> i64 {
    let long = distance(&Form::Point(a), &Form::Point(b)).low.max(1);
    let by = 2.0 * off as f64 / (long as f64 - 2.0 * off as f64).max(1.0);
    // A turn by so much of a half circle moves it by no more than twice as far as it lies away.
    (by * std::f64::consts::FRAC_PI_2 * BEYOND as f64)
        .min(2.0 * BEYOND as f64)
        .ceil() as i64
}

/// An edge moved to its left or to its right.
fn beside(a: Point, b: Point, hand: i64) -> Option<(Point, Point)> {
    let (x, y) = (
        b.x.saturating_sub(a.x) as f64,
        b.y.saturating_sub(a.y) as f64,
    );
    let length = (x * x + y * y).sqrt();
    let far = hand.saturating_mul(BEYOND) as f64;
    let (dx, dy) = (
        (-y / length * far).round() as i64,
        (x / length * far).round() as i64,
    );
    let moved = |p: Point| Point {
        x: p.x.saturating_add(dx),
        y: p.y.saturating_add(dy),
    };
    (length > 0.0).then(|| (moved(a), moved(b)))
}
