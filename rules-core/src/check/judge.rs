//! Whether a requirement holds: over every world that the plan leaves possible.

use super::compare::Standing;
use super::reading::Readings;
use super::scene::{Env, Holder, Scene};
use super::special::Special;
use super::{Level, Missing, Truth};
use crate::mutant::{self, Mutant};
use crate::plan::DocumentState;
use crate::quantity::Relation;
use crate::ruleset::{Bound, Each, IfNone, InForce, Requirement, Test, Value};

/// Judges requirements in one scene.
pub(crate) struct Judge<'a> {
    pub(crate) scene: Scene<'a>,
    pub(crate) special: Special,
    /// Whether anybody will ask what was measured; most judgements are only asked whether something holds.
    pub(crate) keeps: bool,
    /// When the rule set is in force; `None` where it is taken to be.
    pub(crate) in_force: Option<&'a InForce>,
}

/// What a requirement is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Asked {
    /// It must hold: a test of something that is not there is left aside.
    Required,
    /// It says whether something applies: a distance to something that is not there is without end.
    Condition,
}

/// What judging a requirement gave.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Judged<'a> {
    pub(crate) truth: Truth,
    pub(crate) room: Room,
    /// There was surely nothing that it speaks about.
    pub(crate) void: bool,
    pub(crate) node: Node<'a>,
}

/// What a judgement is made of.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Node<'a> {
    Leaf(Box<super::Reading<'a>>),
    All(Vec<Judged<'a>>),
    Any(Vec<Judged<'a>>),
    Other(Vec<Judged<'a>>),
}

pub(crate) use super::room::Room;

impl<'a> Judged<'a> {
    /// Without anything measured.
    pub(crate) fn bare(truth: Truth) -> Self {
        Judged {
            truth,
            room: Room::of_truth(truth),
            void: false,
            node: Node::Other(Vec::new()),
        }
    }

    /// Nothing that it speaks about is there.
    fn void() -> Self {
        Judged {
            void: true,
            ..Judged::bare(Truth::HOLDS)
        }
    }

    /// All of these must hold; `keeps` is whether anybody will ask what each came to.
    pub(crate) fn all(members: impl Iterator<Item = Judged<'a>>, keeps: bool) -> Self {
        let (mut all, mut room, mut kept) = (Judged::void(), None, Vec::new());
        for member in members {
            all.truth = all.truth.and(member.truth);
            all.void &= member.void;
            if !member.void {
                room = Some(room.map_or(member.room, |so_far: Room| so_far.least(member.room)));
            }
            if keeps {
                kept.push(member);
            }
        }
        Judged {
            room: room.unwrap_or(Room::Endless),
            node: Node::All(kept),
            ..all
        }
    }

    /// One of these must hold.
    fn any(members: impl Iterator<Item = Judged<'a>>, keeps: bool) -> Self {
        let (mut any, mut room, mut kept) = (Judged::bare(Truth::FAILS), None, Vec::new());
        let mut void = true;
        for member in members {
            any.truth = any.truth.or(member.truth);
            void &= member.void;
            room = Some(room.map_or(member.room, |so_far: Room| so_far.greatest(member.room)));
            if keeps {
                kept.push(member);
            }
        }
        Judged {
            void: void && room.is_some(),
            room: room.unwrap_or(Room::None),
            node: Node::Any(kept),
            ..any
        }
    }

    fn either(ways: Vec<Judged<'a>>) -> Self {
        Judged {
            truth: ways
                .iter()
                .fold(Truth::NONE, |all, way| all.or_else(way.truth)),
            room: ways
                .iter()
                .map(|way| way.room)
                .reduce(Room::either)
                .unwrap_or(Room::Unlike),
            void: !ways.is_empty() && ways.iter().all(|way| way.void),
            node: Node::Other(ways),
        }
    }

    /// The same for a thing that is perhaps not meant at all.
    pub(crate) fn perhaps(self) -> Self {
        Judged {
            truth: self.truth.or_else(Truth::HOLDS),
            ..self
        }
    }
}

impl<'a> Judge<'a> {
    /// The same judge in another scene.
    pub(crate) fn in_scene(&self, scene: Scene<'a>) -> Judge<'a> {
        Judge {
            scene,
            special: self.special,
            keeps: false,
            in_force: self.in_force,
        }
    }

    /// Whether anybody will ask what was measured: of a condition only its truth is ever used.
    pub(crate) fn keeps(&self, asked: Asked) -> bool {
        self.keeps && asked == Asked::Required
    }

    /// Whether a condition holds.
    pub(crate) fn truth(&self, requirement: &'a Requirement, env: &Env<'_>) -> Truth {
        self.judge(requirement, env, Asked::Condition).truth
    }

    /// Whether a requirement holds.
    pub(crate) fn judge(
        &self,
        requirement: &'a Requirement,
        env: &Env<'_>,
        asked: Asked,
    ) -> Judged<'a> {
        let each_of = |list: &'a [Requirement]| {
            let judge = move |member| self.judge(member, env, asked);
            list.iter().map(judge)
        };
        let keeps = self.keeps(asked);
        match requirement {
            Requirement::Test(test) => self.test(test, env, asked),
            Requirement::All(list) => Judged::all(each_of(list), keeps),
            Requirement::Any(list) => Judged::any(each_of(list), keeps),
            Requirement::Not(inner) if mutant::is_on(Mutant::NotUnmirrored) => {
                self.judge(inner, env, asked)
            }
            Requirement::Not(inner) => negated(self.judge(inner, env, asked), asked),
            Requirement::Count { of, bounds } => self.count(each_of(of).collect(), bounds, env),
            Requirement::Each(each) => self.each(each, env, asked),
            Requirement::Table(table) => {
                let ways = self.rows(
                    table,
                    env,
                    |judge, inner| judge.judge(inner, env, asked),
                    Judged::bare(Truth::AUTHORITY),
                );
                Judged::either(ways)
            }
            Requirement::Meets { requirement, .. } => self.judge(requirement, env, asked),
            Requirement::Have(document) => self.have(*document),
            Requirement::Refer => Judged::bare(Truth::AUTHORITY),
        }
    }

    fn have(&self, document: usize) -> Judged<'a> {
        let Some(paper) = self.scene.rules().documents.get(document) else {
            return Judged::bare(Truth::OPEN);
        };
        if let Some(in_hand) = self.scene.paper(document) {
            return Judged::bare(Truth::of_comparison(in_hand, !in_hand));
        }
        Judged::bare(match self.scene.plan().documents.get(&paper.id) {
            Some(DocumentState::InHand) => Truth::HOLDS,
            Some(DocumentState::Refused) => Truth::FAILS,
            Some(DocumentState::NotYet) | None => {
                self.scene.touch(Missing::Document(document), true, &[]);
                if paper.discretion {
                    Truth::AUTHORITY
                } else {
                    Truth::OPEN
                }
            }
        })
    }

    fn each(&self, each: &'a Each, env: &Env<'_>, asked: Asked) -> Judged<'a> {
        let members = self.members(&each.selection, env);
        let if_none = if_none(each.selection.if_none);
        if members.surely_empty() {
            return if_none;
        }
        let judged = members.list.iter().map(|(holder, sure)| {
            let inner = env.bind_in(each.selection.kind, *holder, each.selection.zone.as_deref());
            let own = self.judge(&each.require, &inner, asked);
            if *sure { own } else { own.perhaps() }
        });
        let all = Judged::all(judged, self.keeps(asked));
        match members.perhaps_empty() && !if_none.void {
            true => Judged::either(vec![all, if_none]),
            false => all,
        }
    }

    fn count(&self, members: Vec<Judged<'a>>, bounds: &'a [Bound], env: &Env<'_>) -> Judged<'a> {
        let truths: Vec<Truth> = members.iter().map(|member| member.truth).collect();
        let truth = bounds.iter().fold(Truth::HOLDS, |all, bound| {
            all.and(self.counted(&truths, bound, env))
        });
        let room = Room::of_truth(truth);
        Judged {
            truth,
            room,
            void: false,
            node: Node::Other(members),
        }
    }

    fn counted(&self, truths: &[Truth], bound: &'a Bound, env: &Env<'_>) -> Truth {
        let at_least = |wanted: i128| match usize::try_from(wanted) {
            Ok(wanted) => Truth::at_least(wanted, truths),
            Err(_) => Truth::HOLDS,
        };
        let whole = |value: &'a Value| self.whole_numbers(value, env);
        match bound {
            Bound::AtLeast(value) => whole(value).map_or(Truth::OPEN, |(_, n)| at_least(n)),
            Bound::MoreThan(value) => whole(value).map_or(Truth::OPEN, |(n, _)| at_least(n + 1)),
            Bound::AtMost(value) => {
                whole(value).map_or(Truth::OPEN, |(n, _)| at_least(n + 1).negated())
            }
            Bound::LessThan(value) => {
                whole(value).map_or(Truth::OPEN, |(_, n)| at_least(n).negated())
            }
            Bound::Is(choices) => choices
                .iter()
                .filter_map(super::compare::whole_choice)
                .map(|n| at_least(n).and(at_least(n + 1).negated()))
                .fold(Truth::FAILS, Truth::or),
        }
    }

    fn test(&self, test: &'a Test, env: &Env<'_>, asked: Asked) -> Judged<'a> {
        let reading = |bound| self.reading(test, bound, env, asked);
        match test.bounds.as_slice() {
            [only] => reading(only),
            bounds => {
                let keeps = self.keeps(asked);
                Judged::all(bounds.iter().map(reading), keeps)
            }
        }
    }

    fn reading(&self, test: &'a Test, bound: &'a Bound, env: &Env<'_>, asked: Asked) -> Judged<'a> {
        let reading = Readings {
            judge: self,
            env,
            asked,
        }
        .take(&test.value, bound);
        match reading {
            (Standing { void: true, .. }, _) => Judged::void(),
            (standing, reading) => Judged {
                truth: standing.truth,
                room: standing.room,
                void: false,
                node: reading.map_or(Node::Other(Vec::new()), |reading| {
                    Node::Leaf(Box::new(reading))
                }),
            },
        }
    }
}

/// What it means that a selection is surely empty.
pub(crate) fn if_none<'a>(said: Option<IfNone>) -> Judged<'a> {
    match said {
        Some(IfNone::Passes) => Judged::bare(Truth::HOLDS),
        Some(IfNone::Fails) => Judged::bare(Truth::FAILS),
        Some(IfNone::Refer) => Judged::bare(Truth::AUTHORITY),
        None => Judged::void(),
    }
}

/// What must not hold; where it speaks about nothing that is there, it is left aside like what must.
fn negated(inner: Judged<'_>, asked: Asked) -> Judged<'_> {
    if inner.void && asked == Asked::Required {
        return inner;
    }
    Judged {
        truth: inner.truth.negated(),
        room: inner.room.negated(),
        void: inner.void,
        node: Node::Other(vec![inner]),
    }
}

/// How a bound compares, for all bounds but `is`.
pub(crate) fn relation(bound: &Bound) -> Relation {
    match bound {
        Bound::AtLeast(_) if mutant::is_on(Mutant::AtLeastMoreThan) => Relation::MoreThan,
        Bound::MoreThan(_) if mutant::is_on(Mutant::AtLeastMoreThan) => Relation::AtLeast,
        Bound::AtLeast(_) => Relation::AtLeast,
        Bound::AtMost(_) => Relation::AtMost,
        Bound::MoreThan(_) => Relation::MoreThan,
        Bound::LessThan(_) => Relation::LessThan,
        Bound::Is(_) => Relation::Is,
    }
}

impl Level {
    /// What `if-none` makes of an empty selection.
    pub(crate) fn of_if_none(said: IfNone) -> Level {
        match said {
            IfNone::Passes => Level::Holds,
            IfNone::Fails => Level::Fails,
            IfNone::Refer => Level::Authority,
        }
    }
}

/// The thing behind a holder, where there is one.
pub(crate) fn thing_of(holder: Holder) -> Option<usize> {
    match holder {
        Holder::Thing(index) => Some(index),
        _ => None,
    }
}
