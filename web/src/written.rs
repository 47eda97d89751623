//! How an answer is written.

use serde::Serialize;

/// An answer as JSON.
pub fn written(answer: &impl Serialize) -> String {
    // Text, numbers and lists of them can always be written.
    serde_json::to_string(answer).unwrap_or_default()
}
