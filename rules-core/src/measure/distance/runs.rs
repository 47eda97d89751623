//! Two lines of some hundred edges against each other: runs of a few edges in boxes, and how far the edges of two runs
//! come towards each other. Cheaper to lay out than trees for a single question.

use smallvec::SmallVec;

use crate::measure::distance::laid::{Few, Laid, Place};
use crate::measure::distance::nearest::Nearest;
use crate::measure::distance::search::{TOGETHER, meet, nearest_corner};

/// Up to so many edges runs are half as long.
const SHORT: usize = 80;

type Runs<'l> = SmallVec<[Few<'l>; 16]>;

/// Goes through the pairs that may matter, run by run.
pub(crate) fn search(one: &Laid, other: &Laid, nearest: &mut Nearest) {
    nearest.within(guess(one, other));
    let (mut runs, mut against) = (Runs::new(), Runs::new());
    runs.extend(one.each(length(one)));
    against.extend(other.each(length(other)));
    for run in &runs {
        for beside in &against {
            if run.frame.apart(&beside.frame) <= nearest.limit() {
                meet(run, beside, nearest);
            }
        }
        // All that comes later comes later in the order of search too.
        if nearest.met_by(run.last()) {
            return;
        }
    }
}

fn length(line: &Laid) -> usize {
    if line.corners().len() > SHORT {
        TOGETHER
    } else {
        TOGETHER / 2
    }
}

/// A distance, squared, that some two corners are not farther apart than: the nearest of a few, and what is nearest to it.
fn guess(one: &Laid, other: &Laid) -> f64 {
    let mut others: SmallVec<[Place; 16]> = SmallVec::new();
    others.extend(sample(other));
    let mut least = (f64::INFINITY, [0.0; 2]);
    for at in sample(one) {
        let (squared, _) = nearest_corner(&others, at);
        if squared < least.0 {
            least = (squared, at);
        }
    }
    let (_, beside) = nearest_corner(other.corners(), least.1);
    nearest_corner(one.corners(), beside).0
}

/// A corner here and there.
fn sample(line: &Laid) -> impl Iterator<Item = Place> {
    line.corners()
        .iter()
        .skip(TOGETHER / 2)
        .step_by(TOGETHER)
        .copied()
}
