//! What hides is shown, and what is ordinary stays as it is.

use super::*;

/// Each with what is shown of it.
const HIDING: &[(&str, &str)] = &[
    // ECMA-48: colour, the title of the window, and a control in one character.
    ("a\u{1b}[31mb", "a‹U+001B›[31mb"),
    ("\u{1b}]0;x\u{7}", "‹U+001B›]0;x‹U+0007›"),
    ("\u{9b}2J\u{7f}\u{0}", "‹U+009B›2J‹U+007F›‹U+0000›"),
    // Line ends and separators: Unicode Standard Annex 14, mandatory breaks.
    ("a\nb\r\tc", "a b  c"),
    (
        "\u{b}\u{c}\u{85}\u{2028}\u{2029}",
        "‹U+000B›‹U+000C›‹U+0085›‹U+2028›‹U+2029›",
    ),
    // Unicode Standard Annex 9, table 1.
    (
        "\u{202a}\u{202b}\u{202c}\u{202d}\u{202e}",
        "‹U+202A›‹U+202B›‹U+202C›‹U+202D›‹U+202E›",
    ),
    (
        "\u{2066}\u{2067}\u{2068}\u{2069}",
        "‹U+2066›‹U+2067›‹U+2068›‹U+2069›",
    ),
    ("\u{200e}\u{200f}\u{61c}", "‹U+200E›‹U+200F›‹U+061C›"),
    (
        "a\u{200b}b\u{2060}c\u{feff}d\u{ad}e",
        "a‹U+200B›b‹U+2060›c‹U+FEFF›d‹U+00AD›e",
    ),
    ("a\u{200d}b \u{200c}c", "a‹U+200D›b ‹U+200C›c"),
    ("\u{3164}\u{ffff}", "‹U+3164›‹U+FFFF›"),
    (
        "x\u{e0041}\u{e0042}\u{e007f}",
        "x‹U+E0041›‹U+E0042›‹U+E007F›",
    ),
    ("a\u{fe0f}\u{fe0f} \u{fe0f}", "a\u{fe0f}‹U+FE0F› ‹U+FE0F›"),
];

/// What people write.
const ORDINARY: &[&str] = &[
    "",
    "Pool 8 m × 4 m, 1.5 m deep",
    "Überlaufrinne – Straße, château, Þingvellir, ångström, e\u{301}tang",
    "Бассейн у забора, πισίνα, плавни басен",
    "游泳池 プール 수영장 ว่ายน้ำ",
    "بركة سباحة ١٢ מטר, می\u{200c}خواهم, क्\u{200d}ष",
    "\u{1820}\u{180b}\u{1820}\u{180e}\u{1820}",
    "🏊 👨\u{200d}👩\u{200d}👧 🏊🏽\u{200d}♀\u{fe0f} ❤\u{fe0f} 1\u{fe0f}\u{20e3} 🇳🇴",
    "🏴\u{e0067}\u{e0062}\u{e0077}\u{e006c}\u{e0073}\u{e007f} Cymru",
    "葛\u{e0100}城市",
    "‹U+001B› “quoted” `ticked` <b>&amp;</b>",
];

#[test]
fn what_hides_is_shown() {
    for (text, shown) in HIDING {
        assert_eq!(one_line(text), *shown, "{text:?}");
    }
    assert_eq!(exact_name("a\nb\tc"), "a‹U+000A›b‹U+0009›c");
}

#[test]
fn what_people_write_stays_as_it_is() {
    for text in ORDINARY {
        assert_eq!(one_line(text), *text);
        assert_eq!(exact_name(text), *text);
        assert_eq!(plain_json((*text).to_owned()), *text);
    }
}

/// All characters of the general categories Cc, Cf, Zl and Zp (Unicode Character Database 14.0, by way of Python's
/// `unicodedata`), without those that are drawn: the marks before Arabic, Syriac and Kaithi numbers, and those that join
/// hieroglyphs.
const UNSEEN: &[(u32, u32)] = &[
    (0x0, 0x1f),
    (0x7f, 0x9f),
    (0xad, 0xad),
    (0x61c, 0x61c),
    (0x180e, 0x180e),
    (0x200b, 0x200f),
    (0x2028, 0x202e),
    (0x2060, 0x2064),
    (0x2066, 0x206f),
    (0xfeff, 0xfeff),
    (0xfff9, 0xfffb),
    (0x1bca0, 0x1bca3),
    (0x1d173, 0x1d17a),
    (0xe0001, 0xe0001),
    (0xe0020, 0xe007f),
];

#[test]
fn whatever_unicode_counts_as_control_or_format_is_shown() {
    let all = UNSEEN.iter().flat_map(|(first, last)| *first..=*last);
    for c in all.map(|c| char::from_u32(c).unwrap()) {
        let shown = exact_name(&format!("a{c}b")).into_owned();
        assert_eq!(shown, format!("a‹U+{:04X}›b", u32::from(c)));
    }
}

#[test]
fn lines_end_only_where_they_are_ended() {
    let mut text = Visible::new();
    text.line("one\ntwo\u{2028}three");
    text.part();
    text.marked("  ", "four\u{1b}[0m\n", "1");
    assert_eq!(
        text,
        "one two‹U+2028›three\n\n  \u{1b}[1mfour‹U+001B›[0m \u{1b}[0m\n"
    );
    assert_eq!(Visible::from("a\n\nb\u{202e}"), "a\n\nb‹U+202E›\n");
}

#[test]
fn json_reads_back_as_it_was() {
    let texts = HIDING
        .iter()
        .map(|(text, _)| *text)
        .chain(ORDINARY.iter().copied());
    for text in texts {
        let json = plain_json(serde_json::to_string_pretty(&[text]).unwrap());
        assert_eq!(one_line(&json.replace('\n', "")), json.replace('\n', ""));
        assert_eq!(serde_json::from_str::<[String; 1]>(&json).unwrap(), [text]);
    }
}
