//! The tolerances of drawn outlines, and what tape readings add.

use crate::check::Missing;
use crate::check::judge::Judge;
use crate::check::value::distance::Drawn;
use crate::measure::deepest_common;
use crate::plan::figure::Accuracy;
use crate::quantity::Interval;
use crate::work;

impl<'a> Judge<'a> {
    /// Whether two outlines overlap wherever their tolerances put them.
    pub(crate) fn surely_overlaps(&self, a: &Drawn<'a>, b: &Drawn<'a>, tolerance: i64) -> bool {
        let (Some(one), Some(two)) = (self.tolerance_against(a, b), self.tolerance_against(b, a))
        else {
            return false;
        };
        tolerance == 0 || deepest_common(a.figure, one, b.figure, two).is_some()
    }

    /// The tolerances of two outlines' corners added up; `None` where one is unknown.
    pub(crate) fn joint_tolerance(&self, a: &Drawn<'a>, b: &Drawn<'a>) -> Option<i64> {
        Self::both(self.tolerance_against(a, b), self.tolerance_against(b, a))
    }

    /// The same for measuring arcs as arcs, not as polygons.
    pub(crate) fn joint_true_tolerance(&self, a: &Drawn<'a>, b: &Drawn<'a>) -> Option<i64> {
        let off =
            |end: &Drawn<'a>, other| self.tolerance_with(end, other, end.figure.true_accuracy());
        Self::both(off(a, b), off(b, a))
    }

    fn both(one: Option<i64>, two: Option<i64>) -> Option<i64> {
        Some(one?.saturating_add(two?))
    }

    /// The tolerance of one outline relative to another: its accuracy and, unless both shift together, the shift of its
    /// source.
    pub(crate) fn tolerance_against(&self, a: &Drawn<'a>, other: &Drawn<'a>) -> Option<i64> {
        self.tolerance_with(a, other, a.figure.accuracy)
    }

    fn tolerance_with(&self, a: &Drawn<'a>, other: &Drawn<'a>, accuracy: Accuracy) -> Option<i64> {
        let plan = self.scene.plan();
        let together = plan.shift_together(a.index, other.index);
        let shift = match together {
            true => Some(0),
            false => plan.shift_of(a.thing),
        };
        self.accuracy_plus_shift(a, accuracy, shift)
    }

    /// The absolute tolerance of an outline: its accuracy and the shift of its source.
    pub(crate) fn absolute_tolerance(&self, a: &Drawn<'a>) -> Option<i64> {
        self.accuracy_plus_shift(a, a.figure.accuracy, self.scene.plan().shift_of(a.thing))
    }

    /// The relative tolerance of an outline, where everything else shifts together with it: its accuracy alone.
    pub(crate) fn relative_tolerance(&self, a: &Drawn<'a>) -> Option<i64> {
        self.accuracy_plus_shift(a, a.figure.accuracy, Some(0))
    }

    /// Accuracy and shift added up. Where either is unknown, that is noted as missing.
    fn accuracy_plus_shift(
        &self,
        a: &Drawn<'a>,
        accuracy: Accuracy,
        shift: Option<i64>,
    ) -> Option<i64> {
        if self.scene.as_drawn {
            return Some(0);
        }
        let off = accuracy.zip(shift);
        if off.is_none() {
            self.scene.depends_on(Missing::Accuracy(a.index), true, &[]);
        }
        off.map(|(accuracy, shift)| accuracy.saturating_add(shift))
    }

    /// Narrows a drawn distance by the tape readings between the same two outlines.
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
