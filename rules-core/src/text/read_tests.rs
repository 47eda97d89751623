//! The guard: what it takes, what it refuses, and where it says things stand.

use super::*;

fn faults(text: &str) -> Faults {
    read(text).expect_err(text)
}

/// Each fault with the text it underlines.
fn marks(text: &str) -> Vec<(&'static str, String)> {
    let rows = faults(text).rows(text).into_iter();
    rows.map(|row| (row.code.word(), row.underlined.unwrap_or_default()))
        .collect()
}

fn at(text: &str, span: Span) -> &str {
    &text[span.start..span.end]
}

#[test]
fn every_part_stands_where_it_says() {
    let text = "# é €\r\nname: Grün 😀 x\r\npool:\r\n  depth: \"1.5 m\"\r\n  ring: [[0, é], {x: 2}]\r\nlist:\r\n- a\r\n- 'b'\r\nnote: |\r\n  one\r\n  two\r\nlast:\r\n";
    let root = read(text).unwrap();
    let keys: Vec<_> = root
        .as_map()
        .unwrap()
        .iter()
        .map(|e| at(text, e.key_span))
        .collect();
    assert_eq!(keys, ["name", "pool", "list", "note", "last"]);
    let spot = |path: &[&str]| {
        let node = path.iter().fold(&root, |node, key| node.get(key).unwrap());
        at(text, node.span)
    };
    assert_eq!(spot(&["name"]), "Grün 😀 x");
    assert_eq!(
        spot(&["pool"]),
        "depth: \"1.5 m\"\r\n  ring: [[0, é], {x: 2}]"
    );
    assert_eq!(spot(&["pool", "depth"]), "\"1.5 m\"");
    assert_eq!(spot(&["pool", "ring"]), "[[0, é], {x: 2}]");
    let ring = root
        .get("pool")
        .unwrap()
        .get("ring")
        .unwrap()
        .as_list()
        .unwrap();
    assert_eq!(at(text, ring[0].span), "[0, é]");
    assert_eq!(at(text, ring[1].span), "{x: 2}");
    assert_eq!(at(text, ring[0].as_list().unwrap()[1].span), "é");
    assert_eq!(spot(&["list"]), "- a\r\n- 'b'");
    assert_eq!(spot(&["note"]), "one\r\n  two");
    assert_eq!(root.get("note").unwrap().text(), Some("one\ntwo\n"));
    assert!(root.get("last").unwrap().is_empty());
}

#[test]
fn refusals_underline_what_they_mean() {
    for (text, code, mark) in [
        ("a: 1\nb: 2\na: 3\n", "duplicate-key", "a"),
        ("a: &name 1\n", "anchor", "&name"),
        ("a: *name\n", "alias", "*name"),
        ("a: !thing 1\n", "tag", "!thing"),
        ("a: # !no\n  !!str 1\n", "tag", "!!str"),
        ("<<: {a: 1}\n", "merge-key", "<<"),
        ("[a]: 1\n", "bad-key", "[a]"),
        ("{a: 1}: 1\n", "bad-key", "{a: 1}"),
        ("a: 1\n---\nb: 2\n", "several-documents", "---"),
        ("a:\n\tb: 1\n", "tab", "\t"),
        ("- a\n- b\n", "top-not-a-map", "- a"),
        ("only words\n", "top-not-a-map", "only words"),
        ("a: [1, 2\n", "bracket", ""),
        ("a: \"x\n", "quote-not-closed", "\"x"),
        ("a: b: c\n", "colon", ":"),
        ("a: @x\n", "needs-quotes", "@x"),
        ("a: \"\\q\"\n", "bad-escape", "\"\\q\""),
        ("a: x\u{7}y\n", "control-character", "\u{7}"),
        ("a: [? b]\n", "question-mark", "? "),
    ] {
        assert_eq!(marks(text), [(code, mark.to_owned())], "{text:?}");
    }
}

#[test]
fn a_text_in_quotes_ends_at_its_mark() {
    let text = "{\"a\\\"b\"  # c\n : 1, 'it''s' : 2}\n";
    let root = read(text).unwrap();
    let keys = root.as_map().unwrap().iter();
    let marks: Vec<_> = keys.map(|entry| at(text, entry.key_span)).collect();
    assert_eq!(marks, ["\"a\\\"b\"", "'it''s'"]);
}
