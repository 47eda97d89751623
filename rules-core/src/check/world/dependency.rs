//! What a judgement rests on that is not certain.

use crate::check::world::scene::Scene;

use crate::check::Missing;
use crate::check::value::Thresholds;
use crate::work;

/// Something uncertain that a judgement rests on, and the amounts that it was compared with.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Dependency {
    pub(crate) what: Missing,
    /// Nobody stated it, so a person can be asked; else it was stated, but not exactly.
    pub(crate) unstated: bool,
    /// It was read at the place that is judged, as it changes along its thing.
    pub(crate) at_place: bool,
    /// How often; more than twice is as good as twice.
    pub(crate) times: usize,
    pub(crate) thresholds: Thresholds,
}

impl Scene<'_> {
    /// Notes that a judgement rests on something uncertain.
    pub(crate) fn depends_on(&self, what: Missing, unstated: bool, thresholds: &[i128]) {
        self.note(&[Dependency {
            what,
            unstated,
            at_place: false,
            times: 1,
            thresholds: Thresholds::from_slice(thresholds),
        }]);
    }

    /// Notes all that a judgement rests on.
    pub(crate) fn note(&self, dependencies: &[Dependency]) {
        work::corners(NOTED * dependencies.len());
        self.log.borrow_mut().extend_from_slice(dependencies);
    }

    /// Does something, and gives what was relied on in it, each thing once.
    pub(crate) fn logging<T>(&self, act: impl FnOnce() -> T) -> (T, Vec<Dependency>) {
        let before = self.log.take();
        let done = act();
        let dependencies = self.log.replace(before);
        (done, each_once(dependencies))
    }

    /// Does something, and counts whatever is relied on in it as relied on twice.
    pub(crate) fn counting_twice<T>(&self, act: impl FnOnce() -> T) -> T {
        let before = self.log.borrow().len();
        let done = act();
        for touch in self.log.borrow_mut().iter_mut().skip(before) {
            touch.times += touch.times;
        }
        done
    }

    /// What was relied on since the log was last taken, each thing once.
    pub(crate) fn take_log(&self) -> Vec<Dependency> {
        each_once(self.log.take())
    }
}

/// What is noted takes more room than time: a step of it is fewer corners.
const NOTED: usize = 32;

/// The same dependencies, each thing once, with how often it was relied on in all.
fn each_once(mut dependencies: Vec<Dependency>) -> Vec<Dependency> {
    if dependencies.len() < 2 {
        return dependencies;
    }
    work::corners(2 * dependencies.len());
    dependencies.sort_by_key(|touch| (touch.what, touch.at_place));
    dependencies.dedup_by(|next, first| {
        let same = (next.what, next.at_place) == (first.what, first.at_place);
        if same {
            first.times += next.times;
            first.unstated |= next.unstated;
            first.thresholds.extend(next.thresholds.iter().copied());
        }
        same
    });
    for touch in &mut dependencies {
        touch.times = touch.times.min(2);
        touch.thresholds.sort_unstable();
        touch.thresholds.dedup();
    }
    dependencies
}
