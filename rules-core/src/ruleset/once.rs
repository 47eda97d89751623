//! Terms are shared: whoever goes through rules goes through each of them once.

use std::collections::BTreeSet;
use std::sync::Arc;

/// What was gone through already.
#[derive(Debug, Clone, Default)]
pub(crate) struct Once(BTreeSet<usize>);

impl Once {
    /// Whether this was not gone through before. All that is asked about must live as long as this does.
    pub(crate) fn is_first<T>(&mut self, shared: &Arc<T>) -> bool {
        self.0.insert(address(shared))
    }
}

/// Where something shared is stored: the same for all who share it.
pub(crate) fn address<T>(shared: &Arc<T>) -> usize {
    Arc::as_ptr(shared) as usize
}
