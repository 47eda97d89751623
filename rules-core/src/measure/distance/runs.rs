//! The search for two lines of some hundred edges: by runs of a few edges in boxes. This is cheaper to set up than trees for a
//! single distance.

use smallvec::SmallVec;

use crate::measure::distance::edge_runs::{EdgeRun, FloatLine, Place};
use crate::measure::distance::nearest::Nearest;
use crate::measure::distance::search::{TOGETHER, meet, nearest_corner};

/// For lines of up to this many edges, runs are half as long.
const SHORT: usize = 80;

type Runs<'l> = SmallVec<[EdgeRun<'l>; 16]>;

/// Goes through the pairs that may matter, run by run.
pub(crate) fn search(one: &FloatLine, other: &FloatLine, nearest: &mut Nearest) {
    nearest.within(guess(one, other));
    let (mut runs, mut against) = (Runs::new(), Runs::new());
    runs.extend(one.runs(length(one)));
    against.extend(other.runs(length(other)));
    for run in &runs {
        for beside in &against {
            if run.frame.apart(&beside.frame) <= nearest.limit() {
                meet(run, beside, nearest);
            }
        }
        // Everything still to come is later in the order of search.
        if nearest.met_by(run.last()) {
            return;
        }
    }
}

fn length(line: &FloatLine) -> usize {
    if line.corners().len() > SHORT {
        TOGETHER
    } else {
        TOGETHER / 2
    }
}

/// An upper bound for the squared distance: that of two corners, found from a sample.
fn guess(one: &FloatLine, other: &FloatLine) -> f64 {
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

/// A sample of corners.
fn sample(line: &FloatLine) -> impl Iterator<Item = Place> {
    line.corners()
        .iter()
        .skip(TOGETHER / 2)
        .step_by(TOGETHER)
        .copied()
}
