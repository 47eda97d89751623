//! Where people come from: the street, the neighbours' lots, the doors of the house.

use crate::check::judge::Judge;
use crate::check::value::distance::End;
use crate::check::value::enclosure::Placed;
use crate::check::value::indoors::DWELLING;
use crate::check::world::env::{Env, Referent};
use crate::check::world::special::line_of;
use crate::check::{Missing, Truth};
use crate::measure::{Place, Tolerance, View, contains, distance, part_way};
use crate::plan::{Figure, Form, Point, ThingIndex, Words};
use crate::vocabulary::{KindId, Role};

/// The distance beyond a lot line at which people are taken to start, in nanometres. Anything nearer to the line, such as a
/// neighbour's fence beside it, is then still in their way.
const BEYOND: i64 = 1_000_000_000;
/// A door is in a wall if both its ends are this near to it, in nanometres.
const IN_THE_WALL: i64 = 300_000_000;

/// The openings of a wall that somebody can go through.
pub(crate) const DOORS: &[&str] = &["door", "sliding-door", "pet-door", "garage-door"];

/// A place from which people approach the pool.
pub(crate) struct Approach {
    /// Where it is; `None` is far away.
    pub(crate) place: Option<(Figure, Tolerance)>,
    /// Whether it is surely meant.
    pub(crate) sure: bool,
    /// Whether it may be anywhere.
    pub(crate) anywhere: bool,
    /// What it opens for those who come from there.
    opens: Opens,
}

/// What stands open for those who come from a place.
#[derive(Clone, Copy, PartialEq)]
enum Opens {
    Nothing,
    /// The place is a door: the wall that it is in, there.
    Door,
    /// The place is a house in which they already are: all of its walls.
    House(ThingIndex),
}

impl Approach {
    const FAR: Approach = Approach {
        place: None,
        sure: true,
        anywhere: false,
        opens: Opens::Nothing,
    };
    pub(crate) const ANYWHERE: Approach = Approach {
        place: None,
        sure: false,
        anywhere: true,
        opens: Opens::Nothing,
    };

    /// From within the walls of a house.
    pub(crate) fn inside(walls: Placed, sure: bool) -> Approach {
        Approach {
            place: Some((walls.figure, walls.tolerance)),
            sure,
            anywhere: false,
            opens: Opens::House(walls.index),
        }
    }

    /// What is left of a wall for those who come from here.
    pub(crate) fn cut_from(&self, left: Figure, wall: &Placed, view: View) -> Figure {
        match (self.opens, &self.place) {
            (Opens::Door, Some((door, own))) => {
                opened(&left, door, own.against(wall.tolerance), None, view)
            }
            (Opens::House(own), _) if own == wall.index => {
                Figure::new(Vec::new(), left.spread, left.accuracy)
            }
            _ => left,
        }
    }
}

/// The rest of a wall once an opening is cut out of it. For the widest way it is no more than is left in any world, for the
/// narrowest no less. Where it is known how wide a ball passes, the opening is cut no wider than that.
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

/// A piece to cut out of a wall.
struct Cut {
    /// Its two ends.
    ends: (Point, Point),
    /// How much wider to cut on either side.
    wider: i64,
    /// The widest that it may be in all.
    widest: Option<i64>,
}

fn ends_of(door: &Figure) -> Option<(Point, Point)> {
    match door.forms.first()? {
        Form::Path(points) => Some((*points.first()?, *points.last()?)),
        _ => None,
    }
}

impl Cut {
    /// A line with the piece cut out of its edges.
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

    /// A piece of an edge, in the edge's direction, made longer at both ends but not beyond the edge; `None` where nothing is
    /// left of it.
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
    pub(crate) fn approaches(&self, from: &[String], env: &Env<'_>) -> Option<Vec<Approach>> {
        let mut approaches = Vec::new();
        for word in from {
            match word.as_str() {
                // People from the street may come over a neighbour's lot or open ground, and the other way round, so each of
                // these words includes a place far away.
                "street" => approaches.extend(self.beyond_the_lines(&["road", "alley"], env)),
                "neighbour-lot" => {
                    approaches.extend(self.beyond_the_lines(&["neighbour-lot"], env))
                }
                "open-space" => approaches.extend(self.beyond_the_lines(&["open-space"], env)),
                DWELLING => approaches.extend(self.doors(env)),
                _ => return None,
            }
        }
        Some(approaches)
    }

    fn beyond_the_lines(&self, words: &[&str], env: &Env<'_>) -> Vec<Approach> {
        let mut approaches = vec![Approach::FAR];
        for index in self.scene.base.of_kind(self.special.lot_line) {
            let meant = self.says((self.special.lot_line, *index), "beyond", words, env);
            let figure = self
                .scene
                .thing(*index)
                .and_then(|thing| thing.outlines.get(&self.special.line));
            if meant == Truth::FAILS {
                continue;
            }
            let Some(figure) = figure else { continue };
            // If a line's accuracy is unknown, so is the place beyond it.
            let Some(tolerance) = self.tolerance_of(*index, figure) else {
                approaches.push(Approach::ANYWHERE);
                continue;
            };
            let line = (*index, self.scene.as_drawn);
            let strips = self
                .scene
                .base
                .strips(line, || self.strips(figure, tolerance).into());
            approaches.extend(strips.iter().map(|strip| Approach {
                place: Some(strip.clone()),
                sure: meant == Truth::HOLDS,
                ..Approach::FAR
            }));
        }
        approaches
    }

    /// The strips at that distance beyond a lot line; where a strip would run into the lot again, its middle, if that is clear
    /// of the lot.
    ///
    /// A strip's tolerance is more than its line's, because a rotation of the line moves the strip farther.
    fn strips(&self, line: &Figure, tolerance: Tolerance) -> Vec<(Figure, Tolerance)> {
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
                let tolerance = Tolerance {
                    accuracy: tolerance
                        .accuracy
                        .saturating_add(turned(*a, *b, tolerance.accuracy)),
                    ..tolerance
                };
                strips.extend(strip.map(|form| {
                    let strip = Figure::new(vec![form], 0, line.accuracy);
                    (strip, tolerance)
                }));
            }
        }
        strips
    }

    /// The doors of dwellings.
    fn doors(&self, env: &Env<'_>) -> Vec<Approach> {
        let vocabulary = &self.scene.rules().vocabulary;
        let Some((opening, outline)) = line_of(Role::WallOpening, vocabulary) else {
            return vec![Approach::ANYWHERE];
        };
        let mut approaches = Vec::new();
        if self.may_be_unseen(opening, env) && self.may_have_a_dwelling(env) {
            self.scene
                .depends_on(Missing::Inventory(opening), true, &[]);
            approaches.push(Approach::ANYWHERE);
        }
        for index in self.scene.base.of_kind(opening) {
            let is_door = self.says((opening, *index), "type", DOORS, env);
            let meant = is_door.and(self.is_in_a_dwelling(opening, *index, env));
            if meant == Truth::FAILS {
                continue;
            }
            let placed = self.placed(&End::whole(Referent::Thing(*index), outline));
            approaches.push(placed.map_or(Approach::ANYWHERE, |placed| Approach {
                place: Some((placed.figure, placed.tolerance)),
                sure: meant == Truth::HOLDS,
                anywhere: false,
                opens: Opens::Door,
            }));
        }
        approaches
    }

    fn may_have_a_dwelling(&self, env: &Env<'_>) -> bool {
        let Some(building) = self.scene.rules().vocabulary.with_role(Role::Building) else {
            return true;
        };
        let is_one = |index: &ThingIndex| self.used_as(*index, &[DWELLING], env) != Truth::FAILS;
        self.may_be_unseen(building, env) || self.scene.base.of_kind(building).iter().any(is_one)
    }

    /// Whether an opening is in a dwelling.
    pub(crate) fn is_in_a_dwelling(
        &self,
        opening: KindId,
        index: ThingIndex,
        env: &Env<'_>,
    ) -> Truth {
        let building = self.scene.rules().vocabulary.with_role(Role::Building);
        let whole = self.scene.thing(index).and_then(|thing| thing.part_of);
        let is_building =
            |whole: &ThingIndex| self.scene.thing(*whole).map(|thing| thing.kind) == building;
        match whole.filter(is_building) {
            Some(whole) => self.used_as(whole, &[DWELLING], env),
            None => self.says(
                (opening, index),
                "in",
                &["building", "barrier-stretch"],
                env,
            ),
        }
    }

    /// Whether a building is used as one of these.
    pub(crate) fn used_as(&self, building: ThingIndex, words: &[&str], env: &Env<'_>) -> Truth {
        match self.scene.rules().vocabulary.with_role(Role::Building) {
            Some(kind) => self.says((kind, building), "use", words, env),
            None => Truth::OPEN,
        }
    }

    /// Whether a fact of a thing is one of some words.
    pub(crate) fn says(
        &self,
        (kind, index): (KindId, ThingIndex),
        fact: &str,
        words: &[&str],
        env: &Env<'_>,
    ) -> Truth {
        let Some(fact) = self.scene.rules().vocabulary.fact_named(kind, fact) else {
            return Truth::OPEN;
        };
        let seen = self
            .scene
            .fact(fact, &env.bind(kind, Referent::Thing(index)), &[]);
        let view = &seen.view;
        let is = |word: &String| words.contains(&word.as_str());
        match view.words.as_deref() {
            Some(Words::OneOf(said)) => {
                let surely = !view.none && said.iter().all(is);
                Truth::of_comparison(said.iter().any(is), !surely)
            }
            Some(Words::Any) => Truth::OPEN,
            None => Truth::FAILS,
        }
    }
}

/// How far a place `BEYOND` an edge may move because the edge rotates when its ends are off by `off`.
fn turned(a: Point, b: Point, off: i64) -> i64 {
    let long = distance(&Form::Point(a), &Form::Point(b)).low.max(1);
    let by = 2.0 * off as f64 / (long as f64 - 2.0 * off as f64).max(1.0);
    // No rotation moves the place by more than twice its distance.
    (by * std::f64::consts::FRAC_PI_2 * BEYOND as f64)
        .min(2.0 * BEYOND as f64)
        .ceil() as i64
}

/// An edge moved to its left or right.
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
