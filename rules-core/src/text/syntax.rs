//! What the parser of YAML itself objects to, said in plain words.

use crate::faults::Code;

/// A fault of YAML: its code, the sentence, and what would be right.
pub(super) struct Said {
    pub code: Code,
    pub message: &'static str,
    pub help: &'static str,
}

/// Lists and maps inside each other.
pub(super) const TOO_DEEP: Said = Said {
    code: Code::TooDeep,
    message: "Lists and maps stand inside each other more than 64 deep.",
    help: "A plan or a rule set needs far fewer; a bracket is probably not closed.",
};

/// Text after a value.
const LEFT_OVER: Said = Said {
    code: Code::LeftOver,
    message: "There is something more here after the value has ended.",
    help: "If it belongs to the value, put the whole value in quotes; if not, put it on a line of its own.",
};

/// A word with a `*`.
pub(super) const ALIAS: Said = Said {
    code: Code::Alias,
    message: "A word that begins with `*` repeats another part of the file, which is not possible here.",
    help: "Write it out. If it is meant as text, put it in quotes.",
};

/// A tab before a key.
pub(super) const TAB: Said = Said {
    code: Code::Tab,
    message: "A tab stands where the line is indented.",
    help: "Indent with spaces: a tab has no fixed width, so nobody can say what belongs to what.",
};

/// A word with a `!`.
pub(super) const TAG: Said = Said {
    code: Code::Tag,
    message: "A word that begins with `!` is a tag, and tags are not read here.",
    help: "Take it out. If it is meant as text, put it in quotes.",
};

/// A word with a `&`.
pub(super) const ANCHOR: Said = Said {
    code: Code::Anchor,
    message: "A word that begins with `&` or `*` names a part of the file to be repeated, which is not possible here.",
    help: "Write it out. If it is meant as text, put it in quotes.",
};

/// A bracket that is not closed before a line that cannot be read.
pub(super) const OPEN_BRACKET: Said = Said {
    code: Code::Bracket,
    message: "A `[` or `{` on the line above is not closed before this.",
    help: "Close the bracket on the line above; each `{` needs its `}`, and each `[` its `]`.",
};

/// A key with its value right after the colon.
pub(super) const SPACE_AFTER_COLON: Said = Said {
    code: Code::Colon,
    message: "A space must follow the `:` here.",
    help: "Write `key: value`.",
};

/// A `?` before a text.
pub(super) const QUESTION: Said = Said {
    code: Code::QuestionMark,
    message: "A `?` cannot stand here.",
    help: "If it belongs to the text, put the text in quotes.",
};

/// A line in the wrong column.
const INDENTED: Said = Said {
    code: Code::Indentation,
    message: "This line is indented differently from those it belongs to.",
    help: "What belongs together begins in the same column.",
};

/// The parser's words, by a part that marks them, and ours. The first that fits is taken.
const TABLE: &[(&str, Said)] = &[
    ("recursion limit", TOO_DEEP),
    (
        "expected node content",
        Said {
            code: Code::ValueMissing,
            message: "A value is missing here.",
            help: "Take out the `,` or bracket that is too many, or write the value.",
        },
    ),
    ("unknown anchor", ALIAS),
    ("tab", TAB),
    (
        "invalid Unicode character",
        Said {
            code: Code::BadEscape,
            message: "This escape names no character.",
            help: "Write the character itself; two escapes that make one character together, as in `\\ud83d\\ude00`, are not read.",
        },
    ),
    (
        "escape",
        Said {
            code: Code::BadEscape,
            message: "A `\\` in double quotes begins an escape, and there is none of this name.",
            help: "Write `\\\\` for one `\\`, or put the text in single quotes.",
        },
    ),
    (
        "hexadecimal",
        Said {
            code: Code::BadEscape,
            message: "After `\\x`, `\\u` or `\\U`, the number of a character is expected: 2, 4 or 8 digits from 0 to f.",
            help: "Write the character itself, or `\\\\` for one `\\`.",
        },
    ),
    (
        "quoted scalar, found unexpected end",
        Said {
            code: Code::QuoteNotClosed,
            message: "A quotation mark is opened and never closed.",
            help: "Put the same mark at the end of the text. An apostrophe inside single quotes is written twice.",
        },
    ),
    (
        "quoted scalar, found unexpected document",
        Said {
            code: Code::QuoteNotClosed,
            message: "A quotation mark is not closed before the file is divided by `---` or `...`.",
            help: "Put the same mark at the end of the text.",
        },
    ),
    (
        "trailing content after double-quoted",
        Said {
            code: Code::AfterQuote,
            message: "Something stands after the closing quotation mark.",
            help: "Put the whole text in quotes, or none of it. An apostrophe inside single quotes is written twice; after a key in quotes stands a `:`.",
        },
    ),
    (
        "indentation in quoted",
        Said {
            code: Code::Indentation,
            message: "The text in quotes goes on here, on a line that is indented less than it must be.",
            help: "Indent the line further, or close the quotation mark on the line above.",
        },
    ),
    (
        "flow mapping",
        Said {
            code: Code::Bracket,
            message: "Inside `{ }`, a `,` or the closing `}` is expected here.",
            help: "Put a `,` between two entries and a `}` after the last. Text with `,`, `{` or `:` in it needs quotes.",
        },
    ),
    (
        "flow sequence",
        Said {
            code: Code::Bracket,
            message: "Inside `[ ]`, a `,` or the closing `]` is expected here.",
            help: "Put a `,` between two items and a `]` after the last. Text with `,`, `[` or `:` in it needs quotes.",
        },
    ),
    (
        "flow construct",
        Said {
            code: Code::Bracket,
            message: "This line stands inside a `[` or `{` that is not closed above it.",
            help: "Close the bracket, or indent the line further.",
        },
    ),
    (
        "mapping values are not allowed",
        Said {
            code: Code::Colon,
            message: "A `:` does not belong here.",
            help: "If it belongs to the text, put the text in quotes. If it ends a key, begin the key in the same column as \
                   its neighbours, and see that a space follows the `:` of the key above.",
        },
    ),
    (
        "illegal placement of ':'",
        Said {
            code: Code::Colon,
            message: "A `:` does not belong here.",
            help: "If it belongs to the text, put the text in quotes.",
        },
    ),
    (
        "':' must be followed",
        Said {
            code: Code::Colon,
            message: "A space must follow this `:`.",
            help: "Write `key: value`.",
        },
    ),
    (
        "simple key",
        Said {
            code: Code::NoColon,
            message: "A key is expected here, and no `:` follows it.",
            help: "Write `key: value`. Text that goes on over several lines is indented further than its key; before a heading stands `# `.",
        },
    ),
    (
        "block mapping, did not find expected key",
        Said {
            code: Code::Indentation,
            message: "A key is expected here: this line does not go with those above it.",
            help: "Keys that belong together begin in the same column; what belongs to a key is indented further.",
        },
    ),
    (
        "expected '-'",
        Said {
            code: Code::Indentation,
            message: "An item that begins with `- ` is expected here: this line does not go with the list above it.",
            help: "Items of one list begin in the same column.",
        },
    ),
    (
        "block sequence entries",
        Said {
            code: Code::ListItem,
            message: "A list item cannot begin here.",
            help: "Put the `-` on a line of its own, under the key that the list belongs to.",
        },
    ),
    (
        "'-' must be followed",
        Said {
            code: Code::ListItem,
            message: "A space must follow this `-`.",
            help: "Write `- item`.",
        },
    ),
    (
        "'-' followed",
        Said {
            code: Code::ListItem,
            message: "A `-` does not belong here.",
            help: "Inside brackets, items are divided by `,` only.",
        },
    ),
    (
        "mapping keys are not allowed",
        Said {
            code: Code::QuestionMark,
            message: "A `?` does not belong here.",
            help: "If it belongs to the text, put the text in quotes.",
        },
    ),
    (
        "block scalar",
        Said {
            code: Code::BlockText,
            message: "The text after `|` or `>` does not begin as it must.",
            help: "Nothing but a comment follows `|` or `>` on its line; the text is on the next lines, indented further.",
        },
    ),
    (
        "unexpected character",
        Said {
            code: Code::NeedsQuotes,
            message: "A text cannot begin with this character.",
            help: "Put the text in quotes.",
        },
    ),
    ("indentation", INDENTED),
    ("indented", INDENTED),
    (
        "comments must be separated",
        Said {
            code: Code::Comment,
            message: "A comment needs a space before its `#`.",
            help: "If the `#` belongs to the text, put the text in quotes.",
        },
    ),
    (
        "document",
        Said {
            code: Code::SeveralDocuments,
            message: "This line divides the file into several documents.",
            help: "Keep one document in the file; take out `---`, `...` and lines that begin with `%`.",
        },
    ),
    (
        "directive",
        Said {
            code: Code::Directive,
            message: "A line that begins with `%` is an instruction to YAML itself, and this one is not understood.",
            help: "Take the line out; if it is meant as text, put it in quotes.",
        },
    ),
    ("tag", TAG),
    (
        "TAG",
        Said {
            code: Code::Tag,
            message: "Tags are not read here.",
            help: "Take the line out.",
        },
    ),
    ("handle", TAG),
    ("anchor", ANCHOR),
];

/// What is said where the table has nothing better.
const OTHERWISE: Said = Said {
    code: Code::NotYaml,
    message: "The text cannot be read from here on.",
    help: "Look at the indentation, the brackets and the quotation marks here and on the line above.",
};

/// What the parser says of a line on which a key should stand.
const KEY_EXPECTED: &str = "expected key";

/// Says in plain words what the parser objects to, at a place after other text of its line or not. The parser has no codes.
pub(super) fn say(info: &str, after_text: bool) -> &'static Said {
    if after_text && info.contains(KEY_EXPECTED) {
        return &LEFT_OVER;
    }
    let fits = TABLE.iter().find(|(mark, _)| info.contains(mark));
    fits.map_or(&OTHERWISE, |(_, said)| said)
}
