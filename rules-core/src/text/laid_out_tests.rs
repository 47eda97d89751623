use super::{Content, Node, read, to_json_text, to_yaml_text};

/// A tree without its places, and without the difference between a word in quotes and the same word bare.
fn bare(node: &Node) -> String {
    match &node.content {
        Content::Empty => "nothing".to_owned(),
        Content::Scalar { text, .. } => format!("{text:?}"),
        Content::List(items) => format!("{:?}", items.iter().map(bare).collect::<Vec<_>>()),
        Content::Map(entries) => format!(
            "{:?}",
            entries
                .iter()
                .map(|entry| (&entry.key, bare(&entry.value)))
                .collect::<Vec<_>>()
        ),
    }
}

fn comes_back(text: &str) {
    let node = read(text).expect("a text that reads");
    for again in [to_json_text(&node), to_yaml_text(&node)] {
        let read = read(&again).unwrap_or_else(|faults| panic!("{faults:?}\n{again}"));
        assert_eq!(bare(&read), bare(&node), "{again}");
    }
}

#[test]
fn all_that_is_bundled_reads_back_as_it_was() {
    for text in [
        include_str!("../../../rulesets/eldermere/home.yaml"),
        include_str!("../../../rulesets/eldermere/rules.yaml"),
        include_str!("../../../rulesets/barrier-model/cases.yaml"),
        include_str!("../../../rulesets/norway/rules.yaml"),
        include_str!("../../../rulesets/quebec/rules.yaml"),
    ] {
        comes_back(text);
    }
}

#[test]
fn odd_texts_read_back_as_they_were() {
    for text in [
        r#"{"a": "", "b": " x ", "c": "a: b", "d": "x #y", "e": "- z", "f": "~", "g": "null", "h": "yes"}"#,
        r#"{"a": "1.50", "b": 1.50, "c": "true", "d": true, "e": [], "f": {}, "g": null, "h": [null, 1]}"#,
        r#"{"a": "line\nbreak\ttab \\ \" quote", "b": "\u0085 \u2028 \u2029 \u007f", "c": "[x], {y}"}"#,
        r#"{"4' 6\" wide": "4' 6\"", "-5": -5, "-": "-", "?": "? a", "%": "% b", "d": "2026-03-02"}"#,
        r#"{"a": [[[1, 2], [3, 4]], {"b": [{"c": {}}, []]}]}"#,
    ] {
        comes_back(text);
    }
}

#[test]
fn a_figure_stays_as_it_was_typed() {
    let node = read("a: 0.10\nb: '0.10'\nc: 0.10 m\n").expect("a text that reads");
    assert_eq!(
        to_json_text(&node),
        r#"{"a": 0.10, "b": "0.10", "c": "0.10 m"}"#
    );
    assert_eq!(to_yaml_text(&node), "a: 0.10\nb: \"0.10\"\nc: 0.10 m\n");
}
