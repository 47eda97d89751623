//! Bytes as characters: seven bits in each character of one byte, fourteen in each of two, so that neither wastes any.
//!
//! Four characters of one byte are changed by a browser that reads the page, or could end the block they are in. If one
//! is due, a character of two bytes says which, and also holds the next seven bits.

/// The characters that must not be in the page: one that is dropped, the two line ends, and the start of a tag.
const KEPT_OUT: [u8; 4] = [0, b'\n', b'\r', b'<'];
/// The first character of two bytes that is used. None of the five hundred from here on combines with the one before
/// it.
const FIRST: u32 = 0x100;

/// The bytes as characters.
pub fn letters(bytes: &[u8]) -> String {
    // The last bits may not fill a character: one more byte pushes them out.
    let mut sevens = regrouped(bytes.iter().copied().chain([0]), 8, 7);
    let mut text = String::with_capacity(bytes.len() * 8 / 7 + 2);
    while let Some(seven) = sevens.next() {
        match KEPT_OUT.iter().position(|&out| out == seven) {
            None => text.push(char::from(seven)),
            Some(which) => text.extend(double(which, sevens.next().unwrap_or(0))),
        }
    }
    text
}

fn double(which: usize, next: u8) -> Option<char> {
    let which = u32::try_from(which).ok()?;
    char::from_u32(FIRST + (which << 7 | u32::from(next)))
}

/// The bytes these characters were made from, perhaps with zeros after them.
pub fn bytes(text: &str) -> Vec<u8> {
    let mut bytes = Vec::with_capacity(text.len());
    bytes.extend(regrouped(text.chars().flat_map(sevens), 7, 8));
    bytes
}

fn sevens(letter: char) -> impl Iterator<Item = u8> {
    let code = u32::from(letter);
    let which = code.checked_sub(FIRST).map(|code| code as usize >> 7);
    let first = which.and_then(|which| KEPT_OUT.get(which).copied());
    first.into_iter().chain([(code & 0x7f) as u8])
}

/// Regroups bits; what does not fill the last group is dropped.
fn regrouped(groups: impl Iterator<Item = u8>, from: u32, to: u32) -> impl Iterator<Item = u8> {
    let mut groups = groups;
    let (mut held, mut bits) = (0u32, 0);
    std::iter::from_fn(move || {
        while bits < to {
            held = held << from | u32::from(groups.next()?);
            bits += from;
        }
        bits -= to;
        Some((held >> bits & ((1 << to) - 1)) as u8)
    })
}

#[cfg(test)]
mod tests {
    use super::{KEPT_OUT, bytes, letters};

    #[test]
    fn the_bytes_come_back() {
        let all: Vec<u8> = (0..=255).chain((0..=255).rev()).collect();
        for long in 0..all.len() {
            let [bare, zeros] = [&all[..long], &vec![0; long]];
            for some in [bare, zeros] {
                let back = bytes(&letters(some));
                assert!(back.starts_with(some), "{some:?}");
                assert!(back.len() <= some.len() + 2, "{some:?}");
            }
        }
    }

    #[test]
    fn nothing_that_a_page_changes_is_written() {
        let all: Vec<u8> = (0..=255).flat_map(|a| [a, 0, 0x3c, a, 0x0d]).collect();
        let text = letters(&all);
        assert!(!text.bytes().any(|byte| KEPT_OUT.contains(&byte)));
        assert!(text.len() <= all.len() * 8 / 7 + 4, "{}", text.len());
        assert!(text.chars().all(|letter| (letter as u32) < 0x300));
    }
}
