//! The exact words of faults, and what is underlined.

use super::*;
use crate::faults::Code;

fn shown(text: &str) -> String {
    read(text).unwrap_err().show("plan.yaml", text)
}

/// Each text with exactly what is said of it.
const SAID: &[(&str, &str)] = &[
    (
        "pool:\n  depth: 1 m\n  depth: 2 m\n",
        "The key `depth` is here twice: on line 2 and on line 3.
in plan.yaml, line 3, column 3:
  3 |   depth: 2 m
    |   ~~~~~
If each begins a thing of its own, make a list of them: put `- ` before both `depth`, and two more spaces before the lines that belong to each. Otherwise keep one of the two.
",
    ),
    (
        "lot:\n\tsides: 4\n",
        "A tab stands where the line is indented.
in plan.yaml, line 2, column 1:
  2 |     sides: 4
    | ~~~~
Indent with spaces: a tab has no fixed width, so nobody can say what belongs to what.
",
    ),
    (
        "grün: 漢字\r\n漢字: &漢 x\r\n",
        "A word that begins with `&` or `*` names a part of the file to be repeated, which is not possible here.
in plan.yaml, line 2, column 5:
  2 | 漢字: &漢 x
    |       ~~~
Write it out. If it is meant as text, put it in quotes.
",
    ),
    (
        "a: {b: 1\n",
        "Inside `{ }`, a `,` or the closing `}` is expected here.
in plan.yaml, line 2, column 1:
  2 | 
    | ~
The `{` on line 1 is still open. Put a `,` between two entries and a `}` after the last. Text with `,`, `{` or `:` in it needs quotes.
",
    ),
    (
        "a: [] []\n",
        "There is something more here after the value has ended.
in plan.yaml, line 1, column 7:
  1 | a: [] []
    |       ~
If it belongs to the value, put the whole value in quotes; if not, put it on a line of its own.
",
    ),
    (
        "a: 1\nb\nc: 2\n",
        "A key is expected here, and no `:` follows it.
in plan.yaml, line 2, column 1:
  2 | b
    | ~
Write `key: value`. Text that goes on over several lines is indented further than its key; before a heading stands `# `.
",
    ),
    (
        "a:\n  b: 1\n c: 2\n",
        "`c` begins in column 2, and no key above it does.
in plan.yaml, line 3, column 2:
  3 |  c: 2
    |  ~~
Begin it, and what is below it, in column 3, beside `b`, or in column 1, beside `a`, whichever it belongs to.
",
    ),
    (
        "a: 1\n---\nb: 2\n",
        "A second document begins here; a file holds only one.
in plan.yaml, line 2, column 1:
  2 | ---
    | ~~~
Take out the `---`, or put what follows into a file of its own.
",
    ),
    (
        "# nothing\n",
        "Nothing is written in the file.
in plan.yaml
Comments alone do not count.
",
    ),
    (
        "a: &n 1\nb: *n\n",
        "A word that begins with `&` or `*` names a part of the file to be repeated, which is not possible here.
in plan.yaml, line 1, column 4:
  1 | a: &n 1
    |    ~~
Write it out. If it is meant as text, put it in quotes.

A word that begins with `*` repeats another part of the file, which is not possible here.
in plan.yaml, line 2, column 4:
  2 | b: *n
    |    ~~
Write it out. If it is meant as text, put it in quotes.
",
    ),
];

#[test]
fn faults_say_exactly_this() {
    for (text, said) in SAID {
        assert_eq!(shown(text), *said);
    }
}

fn shown_at(text: &str, mark: &str) -> String {
    let start = text.find(mark).unwrap();
    let mut faults = Faults::default();
    let end = start + mark.len();
    faults.add(Code::NotYaml, Span::new(start, end), "So it is.");
    faults.list[0].show("plan.yaml", text)
}

#[test]
fn a_long_line_is_cut_to_the_place() {
    let text = format!("a: {} here {}\n", "x".repeat(500), "y".repeat(500));
    let said = shown_at(&text, "here");
    let lead = "x".repeat(29);
    let tail = "y".repeat(65);
    let under = " ".repeat(31);
    assert_eq!(
        said,
        format!(
            "So it is.\nin plan.yaml, line 1, column 505:\n  1 | …{lead} here {tail}…\n    | {under}~~~~\n"
        )
    );
}

#[test]
fn only_the_first_line_of_a_place_is_underlined() {
    let said = shown_at("a: b\r\nc: d\r\n", "b\r\nc");
    assert_eq!(
        said,
        "So it is.\nin plan.yaml, line 1, column 4:\n  1 | a: b\n    |    ~\n"
    );
}

#[test]
fn many_faults_are_counted_and_equal_ones_said_once() {
    let mut faults = Faults::default();
    for start in (0..70).rev().chain(0..70) {
        faults.add(Code::NotYaml, Span::new(start, start + 1), "So it is.");
    }
    let text = "x".repeat(70);
    let said = faults.show("plan.yaml", &text);
    assert_eq!(said.matches("So it is.").count(), MAX_SHOWN);
    assert!(said.starts_with("So it is.\nin plan.yaml, line 1, column 1:\n"));
    assert!(said.ends_with("\n\nand 20 more\n"), "{said}");
    assert_eq!(faults.rows(&text).len(), 70);
}

#[test]
fn a_row_says_the_same_for_programs() {
    let text = "a: 1\né: 2\né: 3\n";
    let rows = read(text).unwrap_err().rows(text);
    let json = serde_json::to_value(&rows).unwrap();
    assert_eq!(json[0]["code"], "duplicate-key");
    assert_eq!(
        (&json[0]["line"], &json[0]["column"]),
        (&3.into(), &1.into())
    );
    assert_eq!(json[0]["underlined"], "é");
}

#[test]
fn lines_end_in_three_ways() {
    let text = "é1\r\n2\r3\n";
    let line_col = |text, byte| Lines::new(text).line_col(byte);
    let place = |mark| line_col(text, text.find(mark).unwrap());
    assert_eq!(
        [place("1"), place("2"), place("3")],
        [(1, 2), (2, 1), (3, 1)]
    );
    assert_eq!(line_col(text, 99), (4, 1));
    assert_eq!(line_col("", 0), (1, 1));
}

/// A key that must be written and is misspelt is told once.
#[test]
fn unknown_keys_are_named_with_what_is_close() {
    let text = "hieght: 1 m\nlatch_side: pool\nzzz: 1\nswing: out\n";
    let root = read(text).unwrap();
    let mut faults = Faults::default();
    let mut gate = MapReader::new(&root, "a gate", &mut faults).unwrap();
    assert_eq!(
        gate.need("swing", "", &mut faults).unwrap().value.text(),
        Some("out")
    );
    assert!(gate.take("height").is_none());
    assert!(gate.need("latch-side", "", &mut faults).is_none());
    gate.finish(&mut faults);
    assert_eq!(
        faults.show("plan.yaml", text),
        "`hieght` is not a key of a gate.
in plan.yaml, line 1, column 1:
  1 | hieght: 1 m
    | ~~~~~~
Did you mean `height`? The keys here are `swing`, `height`, `latch-side`.
\n`latch_side` is not a key of a gate.
in plan.yaml, line 2, column 1:
  2 | latch_side: pool
    | ~~~~~~~~~~
Did you mean `latch-side`? The keys here are `swing`, `height`, `latch-side`.
\n`zzz` is not a key of a gate.
in plan.yaml, line 3, column 1:
  3 | zzz: 1
    | ~~~
The keys here are `swing`, `height`, `latch-side`.
"
    );
}

#[test]
fn close_depends_on_the_length() {
    for (word, meant) in [
        ("raer", Some("rear")),
        ("reax", Some("rear")),
        ("rexx", None),
        ("Rear", Some("rear")),
        ("cpoingg", Some("coping")),
        ("xpxingg", None),
        ("overhaed_lnie", Some("overhead-line")),
        ("", None),
        ("x", None),
    ] {
        assert_eq!(
            closest(word, ["front", "rear", "coping", "overhead-line"]),
            meant,
            "{word}"
        );
    }
    assert_eq!(closest(&"x".repeat(100_000), ["x"]), None);
}

#[test]
fn yes_and_no_are_read_in_words() {
    let root = read("a: yes\nb: 'no'\nc: true\nd: \"false\"\ne: yess\nf: on\ng: [yes]\n").unwrap();
    let word = |key| yes_no(root.get(key).unwrap());
    assert_eq!(
        [word("a"), word("b"), word("c"), word("d")],
        [Ok(true), Ok(false), Ok(true), Ok(false)]
    );
    let fault = word("e").unwrap_err();
    assert_eq!(fault.message, "`yes` or `no` is expected here, not `yess`.");
    assert_eq!(
        fault.help.map(|help| help.to_string()).as_deref(),
        Some("Did you mean `yes`?")
    );
    assert_eq!(
        word("g").unwrap_err().message,
        "`yes` or `no` is expected here, not a list."
    );
    assert_eq!(word("f").unwrap_err().code.word(), "not-yes-or-no");
}

/// A fault says what it speaks of by the keys and places that lead there.
#[test]
fn a_row_has_the_path_of_what_it_speaks_of() {
    let text = "pool:\n  depth: 2 m\nthings:\n  - {kind: gate, id: g}\n  - kind: gate\n    latch-height: [1 m, 2 m]\n";
    let tree = read(text).unwrap();
    let path = |part: &str| {
        let start = text.find(part).unwrap();
        tree.path_to(Span::new(start, start + part.len()))
    };
    for (part, expected) in [
        ("depth", "pool.depth"),
        ("2 m", "pool.depth"),
        ("id", "things.0.id"),
        ("{kind: gate, id: g}", "things.0"),
        ("latch-height", "things.1.latch-height"),
        ("1 m", "things.1.latch-height.0"),
        ("kind: gate\n    latch-height: [1 m, 2 m]", "things.1"),
        (text.trim_end(), ""),
    ] {
        assert_eq!(path(part), expected, "{part}");
    }
}
