//! The things that a selection contains, and whether each surely is one of them.

use smallvec::SmallVec;

use crate::check::world::env::Referent;

/// Things, and whether each is surely meant. There are mostly one or two.
pub(crate) type Listed = SmallVec<[(Referent, bool); 4]>;

/// The members of a selection.
#[derive(Debug, Clone, Default)]
pub(crate) struct Members {
    /// The things, and whether each is surely a member; the last may stand for all unseen things.
    pub(crate) list: Listed,
}

impl Members {
    pub(crate) fn surely_empty(&self) -> bool {
        self.list.is_empty()
    }

    pub(crate) fn perhaps_empty(&self) -> bool {
        !self.list.iter().any(|(_, sure)| *sure)
    }

    /// The number of sure members.
    pub(crate) fn sure(&self) -> usize {
        self.list.iter().filter(|(_, sure)| *sure).count()
    }

    /// Whether things that nobody has looked for may be members.
    pub(crate) fn unseen(&self) -> bool {
        self.list
            .iter()
            .any(|(referent, _)| matches!(referent, Referent::Unseen(_)))
    }
}
