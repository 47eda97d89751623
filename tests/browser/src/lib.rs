//! Drives the packed form in a real headless browser.
//!
//! Where the browser, its driver or the packed page is missing, each test fails with a sentence that says what to do:
//! a test that is skipped would look green.

mod driver;
mod form;
mod page;
mod paper;
mod session;

pub use driver::{Browser, Trouble};
pub use form::Form;
pub use page::{page_file, page_url};
pub use paper::{Stretch, stretches};
pub use session::{Key, Session};

/// What a test gives back.
pub type Outcome = Result<(), Trouble>;
