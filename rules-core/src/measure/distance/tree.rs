//! The search for two lines of thousands of edges: by trees of boxes around runs of edges. Consecutive edges are near each
//! other, so they stay in their own order.

use crate::measure::distance::edge_runs::{EdgeRun, FloatLine, Frame};
use crate::measure::distance::nearest::Nearest;
use crate::measure::distance::search::{TOGETHER, meet};

struct Tree<'l> {
    leaves: Vec<EdgeRun<'l>>,
    /// The root first, then its two children, and so on: node `n` has `2n + 1` and `2n + 2`.
    boxes: Vec<Option<Frame>>,
    /// The index of the first box in the lowest row.
    lowest: usize,
}

impl<'l> Tree<'l> {
    fn new(line: &FloatLine<'l>) -> Self {
        let leaves: Vec<EdgeRun> = line.runs(TOGETHER).collect();
        let width = leaves.len().next_power_of_two();
        let row = leaves.iter().map(|leaf| Some(leaf.frame));
        let mut levels = vec![
            row.chain(std::iter::repeat(None))
                .take(width)
                .collect::<Vec<_>>(),
        ];
        while let Some(row) = levels.last().filter(|row| row.len() > 1) {
            levels.push(
                row.chunks(2)
                    .map(|pair| pair.iter().flatten().copied().reduce(Frame::join))
                    .collect(),
            );
        }
        let boxes = levels.into_iter().rev().flatten().collect();
        Tree {
            leaves,
            boxes,
            lowest: width - 1,
        }
    }

    fn node(&self, node: usize) -> Option<Frame> {
        self.boxes.get(node).copied().flatten()
    }

    fn leaf(&self, node: usize) -> Option<&EdgeRun<'l>> {
        self.leaves.get(node.checked_sub(self.lowest)?)
    }

    fn children(&self, node: usize) -> [(usize, Option<Frame>); 2] {
        [2 * node + 1, 2 * node + 2].map(|child| (child, self.node(child)))
    }
}

/// Searches both trees from the roots down, the nearer pair of boxes first.
pub(crate) fn search(one: &FloatLine, other: &FloatLine, nearest: &mut Nearest) {
    let (one, other) = (Tree::new(one), Tree::new(other));
    let mut open = vec![(0.0, 0, 0)];
    while let Some((apart, a, b)) = open.pop() {
        if apart > nearest.limit() {
            continue;
        }
        if let (Some(run), Some(beside)) = (one.leaf(a), other.leaf(b)) {
            meet(run, beside, nearest);
            if nearest.met() {
                return;
            }
            continue;
        }
        let (Some(around), Some(against)) = (one.node(a), other.node(b)) else {
            continue;
        };
        let split_first =
            one.leaf(a).is_none() && (other.leaf(b).is_some() || around.size() >= against.size());
        let mut next = if split_first {
            one.children(a)
                .map(|(child, frame)| frame.map(|frame| (frame.apart(&against), child, b)))
        } else {
            other
                .children(b)
                .map(|(child, frame)| frame.map(|frame| (frame.apart(&around), a, child)))
        };
        if let [Some(left), Some(right)] = next
            && left.0 <= right.0
        {
            next.reverse();
        }
        open.extend(next.into_iter().flatten());
    }
}
