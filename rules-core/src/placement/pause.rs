//! Letting others run between two pieces of a long search.

use std::pin::{Pin, pin};
use std::task::{Context, Poll, Waker};

/// What a search waits for before it goes on.
pub type Wait = Pin<Box<dyn Future<Output = ()>>>;

/// Asked many times during a search: whether to wait now, and for what.
pub type Pause<'p> = &'p dyn Fn() -> Option<Wait>;

/// A search that never waits.
pub(super) const NEVER: Pause<'static> = &|| None;

/// What a search finds that never waits.
pub(super) fn at_once<T>(search: impl Future<Output = T>) -> T {
    let mut search = pin!(search);
    let mut context = Context::from_waker(Waker::noop());
    loop {
        if let Poll::Ready(found) = search.as_mut().poll(&mut context) {
            return found;
        }
    }
}
