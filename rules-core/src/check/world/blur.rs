//! How far off what is drawn may be, and what a tape says of it.

use crate::check::Missing;
use crate::check::judge::Judge;
use crate::check::value::distance::Drawn;
use crate::measure::deepest_common;
use crate::plan::figure::Accuracy;
use crate::quantity::Interval;
use crate::work;

impl<'a> Judge<'a> {
    /// Whether two outlines share a place however both are off.
    pub(crate) fn surely_overlaps(&self, a: &Drawn<'a>, b: &Drawn<'a>, blur: i64) -> bool {
        let (Some(one), Some(two)) = (self.off(a, b), self.off(b, a)) else {
            return false;
        };
        blur == 0 || deepest_common(a.figure, one, b.figure, two).is_some()
    }

    /// How far off the corners of two outlines may be together; `None` where nobody knows.
    pub(crate) fn blur(&self, a: &Drawn<'a>, b: &Drawn<'a>) -> Option<i64> {
        Self::both(self.off(a, b), self.off(b, a))
    }

    /// The same where arcs are measured as arcs.
    pub(crate) fn true_blur(&self, a: &Drawn<'a>, b: &Drawn<'a>) -> Option<i64> {
        let off = |end: &Drawn<'a>, other| self.shifted(end, other, end.figure.true_accuracy());
        Self::both(off(a, b), off(b, a))
    }

    fn both(one: Option<i64>, two: Option<i64>) -> Option<i64> {
        Some(one?.saturating_add(two?))
    }

    /// How far off one outline may be against another: its accuracy and, where the other does not shift together with it,
    /// the shift of its source.
    pub(crate) fn off(&self, a: &Drawn<'a>, other: &Drawn<'a>) -> Option<i64> {
        self.shifted(a, other, a.figure.accuracy)
    }

    fn shifted(&self, a: &Drawn<'a>, other: &Drawn<'a>, accuracy: Accuracy) -> Option<i64> {
        let plan = self.scene.plan();
        let together = plan.shift_together(a.index, other.index);
        let shift = match together {
            true => Some(0),
            false => plan.shift_of(a.thing),
        };
        self.off_with(a, accuracy, shift)
    }

    /// How far off an outline may be where nothing shifts together with it.
    pub(crate) fn off_in_all(&self, a: &Drawn<'a>) -> Option<i64> {
        self.off_with(a, a.figure.accuracy, self.scene.plan().shift_of(a.thing))
    }

    /// How far off an outline may be where all else shifts together with it.
    pub(crate) fn off_alone(&self, a: &Drawn<'a>) -> Option<i64> {
        self.off_with(a, a.figure.accuracy, Some(0))
    }

    /// Accuracy and shift together; asked for where either is not known.
    fn off_with(&self, a: &Drawn<'a>, accuracy: Accuracy, shift: Option<i64>) -> Option<i64> {
        if self.scene.as_drawn {
            return Some(0);
        }
        let off = accuracy.zip(shift);
        if off.is_none() {
            self.scene.depends_on(Missing::Accuracy(a.index), true, &[]);
        }
        off.map(|(accuracy, shift)| accuracy.saturating_add(shift))
    }

    /// What a tape said narrows what the drawing says.
    pub(crate) fn taped(&self, a: &Drawn<'a>, b: &Drawn<'a>, range: Interval) -> Interval {
        let (here, there) = ((a.index, a.outline), (b.index, b.outline));
        let own = self.scene.plan().measured.iter();
        work::corners(own.len());
        let own = own.filter(|taped| {
            (taped.from == here && taped.to == there) || (taped.from == there && taped.to == here)
        });
        own.fold(range, |range, taped| match taped.drawn {
            Some(drawn) if self.scene.as_drawn => Interval::exact(drawn),
            _ => range.meet(taped.range).unwrap_or(range),
        })
    }
}
