//! From the parser's count of characters to our count of bytes.

/// Every how many characters the byte is noted down.
const STEP: usize = 64;

/// Where the characters of a text begin, in bytes.
pub(super) struct Offsets<'t> {
    text: &'t str,
    noted: Vec<usize>,
}

impl<'t> Offsets<'t> {
    pub(super) fn new(text: &'t str) -> Self {
        let starts = text.char_indices().map(|(byte, _)| byte);
        let noted = starts.step_by(STEP).collect();
        Self { text, noted }
    }

    /// The byte at which a character begins; the end of the text past its last.
    pub(super) fn byte(&self, character: usize) -> usize {
        let from = self.noted.get(character / STEP).copied();
        let from = from.unwrap_or(self.text.len());
        let rest = self.text.get(from..).unwrap_or_default();
        let further = rest.char_indices().nth(character % STEP);
        from + further.map_or(rest.len(), |(byte, _)| byte)
    }
}
