//! Whatever the bytes are, reading ends soon, does not panic, and says where the fault is.

use std::time::{Duration, Instant};

use super::write_tests::{Dice, TEXTS};
use super::*;

/// Reads, and checks what must hold of every answer.
fn check(bytes: &[u8]) {
    let text = decode(bytes).unwrap_or_default();
    match read_bytes(bytes) {
        Ok(root) => check_spans(&root, text),
        Err(faults) => {
            assert!(!faults.is_empty(), "refused without a reason: {text:?}");
            let shown = faults.show("plan.yaml", text);
            let all: Vec<_> = faults.sorted();
            assert!(shown.contains(&all[0].message), "{shown}");
            assert!(
                faults
                    .rows(text)
                    .iter()
                    .all(|row| row.line.is_none_or(|line| line >= 1))
            );
        }
    }
}

/// Every part lies inside its parent, on whole characters.
fn check_spans(node: &Node, text: &str) {
    let inside = |outer: Span, inner: Span| outer.start <= inner.start && inner.end <= outer.end;
    assert!(
        text.get(node.span.start..node.span.end).is_some(),
        "{text:?}"
    );
    for item in node.as_list().unwrap_or_default() {
        assert!(
            item.is_empty() || inside(node.span, item.span),
            "{text:?} {node:?}"
        );
        check_spans(item, text);
    }
    for entry in node.as_map().unwrap_or_default() {
        let written = text.get(entry.key_span.start..entry.key_span.end).unwrap();
        let plain = !entry.key.is_empty() && entry.key.chars().all(|c| c.is_ascii_alphanumeric());
        assert!(
            !plain
                || written.trim_matches(['"', '\'']) == entry.key
                || written.contains(['\\', '\n', '\r']),
            "{text:?} {entry:?}"
        );
        assert!(inside(node.span, entry.key_span), "{text:?} {node:?}");
        assert!(
            entry.value.is_empty() || inside(node.span, entry.value.span),
            "{text:?} {node:?}"
        );
        check_spans(&entry.value, text);
    }
}

#[test]
fn bad_texts_are_refused() {
    for text in [
        "",
        " ",
        "\n\n",
        "# only a comment\n",
        "---\n",
        "...\n",
        "~\n",
        "null",
        "{",
        "}",
        "[",
        "]",
        "a: ]",
        "a: }",
        "\"",
        "'",
        "a: '",
        "a: \"\\",
        "a: \"\\u12",
        "a: \"\\ud83d\"",
        "a: |3x\n b",
        "a: >\n\tb",
        "? ",
        ": ",
        "- ",
        "-",
        "%",
        "%YAML 9\n---\na: 1",
        "%TAG ! x\n",
        "&",
        "*",
        "!",
        "!<",
        "a: !<x",
        "a: &",
        "a: *",
        "@",
        "`",
        "a: b\n  c: d",
        "a:\n  b: 1\n c: 2",
        "a: [b, c",
        "a: {b: c",
        "a: [b}",
        "a: {b]",
        "a: [,]",
        "a: [b,,c]",
        "{a: 1, a: 2}",
        "{{a: 1}}",
        "[[[",
        "a\u{0}: 1",
        "\u{feff}\u{feff}",
        "a: 1\n\n...\nb: 2",
        "? [a]\n: b",
        "? a\n? a\n",
        "a: 'x' y",
        "a: \"x\" y",
        "a: - b",
        "- a\nb: c",
        "a: 1\n- b",
        "a: 1\n\tb: 2",
    ] {
        assert!(read(text).is_err(), "{text:?} was read as {:?}", read(text));
        check(text.as_bytes());
    }
}

#[test]
fn bytes_that_are_no_text_are_refused_with_their_place() {
    let faults = read_bytes(b"a: 1\nb: \xff\n").unwrap_err();
    assert_eq!(
        faults.list[0].message,
        "The file is not UTF-8 text: byte 8, on line 2, belongs to no character."
    );
    assert!(read_bytes(b"\xef\xbb\xbfa: 1\n").is_ok());
    assert!(
        read_bytes(
            "a: 1\n"
                .encode_utf16()
                .flat_map(u16::to_le_bytes)
                .collect::<Vec<_>>()
                .as_slice()
        )
        .is_err()
    );
}

#[test]
fn what_is_too_much_is_refused_at_once() {
    let mut slow = Vec::new();
    for (name, text, code) in [
        ("lists", "[".repeat(1_000_000), "too-deep"),
        (
            "lists in a map",
            "a: ".to_owned() + &"[".repeat(1_000_000),
            "too-deep",
        ),
        ("maps", "{a: ".repeat(100_000), "too-deep"),
        ("dashes", "- ".repeat(500_000), "too-deep"),
        ("questions", "? ".repeat(500_000), "too-deep"),
        (
            "closed lists",
            "a: ".to_owned() + &"[".repeat(65) + &"]".repeat(65),
            "too-deep",
        ),
        (
            "stairs",
            (0..1000).map(|depth| " ".repeat(depth) + "a:\n").collect(),
            "too-deep",
        ),
        (
            "size",
            "a: ".to_owned() + &"x".repeat(MAX_BYTES),
            "too-long",
        ),
        (
            "nodes",
            "a: [".to_owned() + &"1,".repeat(MAX_NODES) + "]",
            "too-many",
        ),
        (
            "pairs",
            "a: [".to_owned() + &"b: 1,".repeat(MAX_NODES) + "]",
            "too-many",
        ),
        (
            "keys",
            (0..MAX_NODES).map(|n| format!("k{n}: \n")).collect(),
            "too-many",
        ),
        ("same keys", "a: 1\n".repeat(90_000), "duplicate-key"),
        (
            "unclosed",
            "a: \"".to_owned() + &"\\\"".repeat(900_000),
            "quote-not-closed",
        ),
        (
            "words",
            "a: ".to_owned() + &"b ".repeat(900_000) + ": c",
            "colon",
        ),
        (
            "lines",
            "a:".to_owned() + &"\n".repeat(1_900_000) + "]",
            "value-missing",
        ),
        ("colons", ":".repeat(1_900_000), "colon"),
        (
            "brackets",
            "a: ".to_owned() + &"[] ".repeat(600_000),
            "left-over",
        ),
        (
            "anchors",
            "a: [".to_owned() + &"&a 1, ".repeat(60_000) + "]",
            "anchor",
        ),
        (
            "euros",
            "a: [".to_owned() + &"€, ".repeat(180_000) + "]: 1",
            "colon",
        ),
    ] {
        let began = Instant::now();
        let read = read(&text);
        let took = began.elapsed();
        let codes: Vec<_> = read.map_or_else(
            |faults| {
                faults
                    .list
                    .into_iter()
                    .map(|fault| fault.code.word())
                    .collect()
            },
            |_| vec!["read"],
        );
        println!("{name}: {took:?} {} {:?}", codes.len(), codes[0]);
        slow.push((name, took, codes[0], code));
    }
    for (name, took, found, code) in slow {
        assert_eq!(found, code, "{name}");
        assert!(took < Duration::from_secs(5), "{name} took {took:?}");
    }
}

#[test]
fn no_bytes_make_it_panic() {
    let mut dice = Dice(20_260_101);
    let pieces: Vec<&[u8]> = [
        "a", "b: ", ": ", "- ", "? ", "[", "]", "{", "}", ",", "\n", "\n  ", "\r\n", "\r", "\t",
        " ", "#", " # c", "&x ", "*x", "!t ", "|", ">", "|-\n", "'", "\"", "\\", "\\u00e9", "---",
        "...", "%", "<<", "~", "é", "😀", "\u{2028}", "\u{85}", "\u{feff}", "0", "-", "\u{0}",
    ]
    .iter()
    .map(|piece| piece.as_bytes())
    .chain([&b"\xff"[..], b"\xe2\x82"])
    .collect();
    for _ in 0..ROUNDS {
        let length = dice.below(24);
        let bytes: Vec<u8> = (0..length)
            .flat_map(|_| pieces[dice.below(pieces.len())].to_vec())
            .collect();
        check(&bytes);
    }
    for _ in 0..ROUNDS {
        let mut bytes = TEXTS[dice.below(TEXTS.len())].as_bytes().to_vec();
        for _ in 0..=dice.below(4) {
            let at = dice.below(bytes.len() + 1);
            let end = (at + dice.below(4)).min(bytes.len());
            bytes.splice(at..end, pieces[dice.below(pieces.len())].iter().copied());
        }
        check(&bytes);
    }
}

const ROUNDS: usize = 4_000;
