//! The uncertain things that a judgement depends on.

use smallvec::SmallVec;

use crate::check::Missing;
use crate::check::world::scene::Scene;
use crate::work;

/// The amounts at which a comparison changes: mostly one limit.
pub(crate) type Thresholds = SmallVec<[i128; 4]>;

/// Something uncertain that a judgement depends on, and the amounts that it was compared with.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Dependency {
    pub(crate) what: Missing,
    /// Nobody has stated it, so a person can be asked. Otherwise it was stated, but not exactly.
    pub(crate) unstated: bool,
    /// It changes along its thing, and was read at the place that is judged.
    pub(crate) at_place: bool,
    /// How often it was used, counted up to twice.
    pub(crate) times: usize,
    pub(crate) thresholds: Thresholds,
    /// Amounts between its lowest and its highest that some place along the thing may or may not have.
    pub(crate) between: Thresholds,
}

impl Scene<'_> {
    /// Notes that a judgement depends on something uncertain.
    pub(crate) fn depends_on(&self, what: Missing, unstated: bool, thresholds: &[i128]) {
        self.note(&[Dependency {
            what,
            unstated,
            at_place: false,
            times: 1,
            thresholds: Thresholds::from_slice(thresholds),
            between: Thresholds::new(),
        }]);
    }

    /// Notes all that a judgement depends on.
    pub(crate) fn note(&self, dependencies: &[Dependency]) {
        work::corners(NOTED * dependencies.len());
        self.log.borrow_mut().extend_from_slice(dependencies);
    }

    /// Runs a function, and gives back what it depended on, each thing once.
    pub(crate) fn logging<T>(&self, act: impl FnOnce() -> T) -> (T, Vec<Dependency>) {
        let before = self.log.take();
        let done = act();
        let dependencies = self.log.replace(before);
        (done, merged(dependencies))
    }

    /// Runs a function, and counts everything that it depends on as used twice.
    pub(crate) fn counting_twice<T>(&self, act: impl FnOnce() -> T) -> T {
        let before = self.log.borrow().len();
        let done = act();
        for dependency in self.log.borrow_mut().iter_mut().skip(before) {
            dependency.times += dependency.times;
        }
        done
    }

    /// The dependencies noted since the log was last taken, each thing once.
    pub(crate) fn take_log(&self) -> Vec<Dependency> {
        merged(self.log.take())
    }
}

/// The cost of one note, in corners: it takes more memory than time.
const NOTED: usize = 32;

/// Merges the dependencies on the same thing, adding up how often it was used.
fn merged(mut dependencies: Vec<Dependency>) -> Vec<Dependency> {
    if dependencies.len() < 2 {
        return dependencies;
    }
    work::corners(2 * dependencies.len());
    dependencies.sort_by_key(|dependency| (dependency.what, dependency.at_place));
    dependencies.dedup_by(|next, first| {
        let same = (next.what, next.at_place) == (first.what, first.at_place);
        if same {
            first.times += next.times;
            first.unstated |= next.unstated;
            first.thresholds.extend(next.thresholds.iter().copied());
            first.between.extend(next.between.iter().copied());
        }
        same
    });
    for dependency in &mut dependencies {
        dependency.times = dependency.times.min(2);
        for amounts in [&mut dependency.thresholds, &mut dependency.between] {
            amounts.sort_unstable();
            amounts.dedup();
        }
    }
    dependencies
}
