//! The sound level of the equipment at a place.

use crate::check::judge::Judge;
use crate::check::judge::possible::{Alternative, PossibleValue};
use crate::check::value::distance::{End, Pair};
use crate::check::world::env::{Env, Referent};
use crate::check::world::special::{POWER, REFLECTING, RUNS, runs_during};
use crate::measure::{level, together};
use crate::plan::Words;
use crate::quantity::{Dimension, Interval, NO_HIGH, NO_LOW};
use crate::ruleset::Sound;
use crate::vocabulary::FactId;

/// The sound level at one place, and the pair of the loudest machine and that place.
struct Heard {
    level: Interval,
    loudest: Option<Pair>,
}

impl<'a> Judge<'a> {
    /// The sound level of all machines together at the loudest of some places.
    pub(crate) fn sound(&self, sound: &'a Sound, env: &Env<'_>) -> PossibleValue {
        let (from, at) = (self.ends(&sound.from, env), self.ends(&sound.at, env));
        let empty = Alternative::Empty(from.if_none.or(at.if_none));
        if from.list.is_empty() || at.list.is_empty() {
            return PossibleValue::of(vec![empty], Dimension::Sound);
        }
        let (mut low, mut high, mut loudest) = (None, None, None);
        for place in &at.list {
            let heard = self.heard(&from.list, place, &sound.during, env);
            if place.sure {
                low = low.max(Some(heard.level.low));
            }
            if high.is_none_or(|high| heard.level.high > high) {
                (high, loudest) = (Some(heard.level.high), heard.loudest);
            }
        }
        let range = Interval {
            low: low.unwrap_or(0),
            high: high.unwrap_or(NO_HIGH),
        };
        let mut ways = vec![Alternative::amount(range)];
        if low.is_none() || !from.list.iter().any(|source| source.sure) {
            ways.push(empty);
        }
        PossibleValue {
            witness: loudest.and_then(|pair| pair.witness),
            ..PossibleValue::of(ways, Dimension::Sound)
        }
    }

    fn heard(&self, from: &[End<'_>], place: &End<'_>, during: &str, env: &Env<'_>) -> Heard {
        let (mut levels, mut loudest) = (Vec::new(), None);
        let mut most = NO_LOW;
        for source in from {
            let (may_run, runs) = self.runs(source, during, env);
            if !may_run {
                continue;
            }
            let pair = self.nearest(source, place, env);
            let mut own = self.level_of(source, pair.range, env);
            if !(runs && source.sure) {
                own.low = NO_LOW;
            }
            if matches!(source.referent, Referent::Unseen(_)) {
                // There may be any number of unseen machines.
                own.high = NO_HIGH;
            }
            if own.high > most {
                (most, loudest) = (own.high, Some(pair));
            }
            levels.push(own);
        }
        Heard {
            level: together(&levels),
            loudest,
        }
    }

    fn level_of(&self, source: &End<'_>, distance: Interval, env: &Env<'_>) -> Interval {
        let known = |name, otherwise| {
            self.fact_of(source, name)
                .map_or(otherwise, |fact| self.amount_of(source, fact, env))
        };
        let power = known(POWER, Interval::any());
        let surfaces = known(REFLECTING, Interval::from_low(0));
        level(power, distance, surfaces)
    }

    fn fact_of(&self, end: &End<'_>, name: &str) -> Option<FactId> {
        let vocabulary = &self.scene.rules().vocabulary;
        vocabulary.fact_named(vocabulary.outline(end.outline).kind, name)
    }

    fn amount_of(&self, end: &End<'_>, fact: FactId, env: &Env<'_>) -> Interval {
        let kind = self.scene.rules().vocabulary.fact(fact).kind;
        let seen = self.scene.fact(fact, &env.bind(kind, end.referent), &[]);
        let view = &seen.view;
        view.amount
            .map_or(Interval::any(), |amount| amount.least.hull(amount.most))
    }

    /// Whether a machine may run at that time of day, and whether it surely does.
    fn runs(&self, source: &End<'_>, during: &str, env: &Env<'_>) -> (bool, bool) {
        let Some(fact) = self.fact_of(source, RUNS) else {
            return (true, false);
        };
        let kind = self.scene.rules().vocabulary.fact(fact).kind;
        let seen = self.scene.fact(fact, &env.bind(kind, source.referent), &[]);
        let view = &seen.view;
        match view.words.as_deref() {
            Some(Words::OneOf(words)) => {
                let runs = |word: &String| runs_during(word, during);
                (words.iter().any(runs), !view.none && words.iter().all(runs))
            }
            _ => (true, false),
        }
    }
}
