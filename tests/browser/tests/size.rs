//! The page is small enough to be sent by mail.

use std::fs;

use browser_checks::{Outcome, page_file};

#[test]
fn the_page_is_little_over_two_megabytes() -> Outcome {
    let file = page_file()?;
    let size = fs::metadata(&file)?.len();
    assert!(size < 2_060_000, "the page has {size} bytes");
    let text = fs::read_to_string(&file)?;
    assert!(
        text.contains("default-src 'none'"),
        "the page has no policy"
    );
    assert!(
        !text.contains("src=\"http") && !text.contains("href=\"http"),
        "the page names an address outside itself"
    );
    Ok(())
}
