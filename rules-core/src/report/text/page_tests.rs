use super::Style;
use super::page::{Mark, Page, wrap};

const COLOURED: Style = Style {
    colour: true,
    width: 20,
};

#[test]
fn no_line_is_wider_than_the_page() {
    let text = "a gate that stands 12.5 m from the wall, and a wall that is 4 ft 6 in high";
    for width in 12..60 {
        for line in wrap(text, width) {
            assert!(line.chars().count() <= width, "{width}: {line}");
        }
    }
    assert_eq!(wrap(text, 400), [text]);
}

#[test]
fn a_figure_and_its_unit_stay_together() {
    assert_eq!(wrap("it is 3 m far", 7), ["it is", "3 m far"]);
    assert_eq!(wrap("unbreakable-word x", 5), ["unbreakable-word", "x"]);
}

#[test]
fn an_item_hangs_under_its_lead() {
    let mut page = Page::new(Style {
        colour: false,
        width: 16,
    });
    page.item(2, "1. ", "one two three four");
    assert_eq!(page.finish(), "  1. one two\n     three four\n");
}

#[test]
fn colour_is_there_only_where_it_is_wanted() {
    let page = |style| {
        let mut page = Page::new(style);
        page.marked(1, "bad", Mark::Bad);
        page.finish()
    };
    assert_eq!(page(COLOURED), " \u{1b}[1;31mbad\u{1b}[0m\n");
    assert_eq!(page(Style::default()), " bad\n");
}

#[test]
fn a_files_own_control_characters_do_not_reach_the_terminal() {
    assert_eq!(wrap("a\u{1b}[2Jb", 80), ["a‹U+001B›[2Jb"]);
}
