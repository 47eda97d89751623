use super::*;

const FILE: &str = "\
ruleset: small
terms:
  near: 3 m
rules:
- id: line
  title: To the line
  require: {distance: {from: pool.water, to: lot-line}, at-least: near}
- {id: deep, title: Depth}
decide:
  - id: size
    table:
      by: pool.depth
      rows: [
        {at-most: 1 m, then: small},
      ]
cases:
  - case: a
";

fn listed(text: &str) -> Vec<(String, String)> {
    let all = entries(text).into_iter();
    all.map(|entry| (entry.section, entry.id)).collect()
}

fn pair(section: &str, id: &str) -> (String, String) {
    (section.to_owned(), id.to_owned())
}

#[test]
fn entries_are_found_in_either_way_of_writing() {
    let expected = [
        pair("terms", "near"),
        pair("rules", "line"),
        pair("rules", "deep"),
        pair("decide", "size"),
        pair("cases", "a"),
    ];
    assert_eq!(listed(FILE), expected);
    let line = &entries(FILE)[1];
    let text = &FILE[line.start..line.end];
    assert!(text.starts_with("id: line"), "{text}");
    assert!(text.ends_with("at-least: near}"), "{text}");
}

/// What is half typed hides none of the others.
#[test]
fn entries_are_found_in_a_text_with_faults() {
    let half = FILE.replace("to: lot-line}, at-least: near}", "to: lot");
    assert_eq!(listed(&half), listed(FILE));
    let half = FILE.replace("  title: To the line\n", "  tit\n   where\n");
    assert_eq!(listed(&half), listed(FILE));
    let half = FILE.replace("rows: [", "rows: [[{\"");
    assert_eq!(listed(&half), listed(FILE));
}

/// Whatever is typed, the answer comes, and its places lie in the text.
#[test]
fn any_beginning_of_a_file_and_any_nonsense_has_a_shape() {
    let nonsense = [
        "[".repeat(5000),
        "- ".repeat(5000),
        "{a: ".repeat(5000),
        "ä: |\n é\n\n- [ü,".to_owned(),
    ];
    let beginnings = (0..FILE.len()).map(|long| FILE[..long].to_owned());
    for text in beginnings.chain(nonsense) {
        for entry in entries(&text) {
            assert!(
                text.get(entry.start..entry.end).is_some(),
                "{entry:?} in {text}"
            );
        }
    }
}

/// What may be written where `|` stands in a text.
fn at(text: &str) -> Hints {
    let place = text.find('|').expect("a place");
    hints(
        &text.replacen('|', "", 1),
        place,
        &crate::vocabulary::Vocabulary::standard(),
    )
}

fn offered(text: &str) -> Vec<String> {
    at(text)
        .offers
        .into_iter()
        .map(|offer| offer.word)
        .collect()
}

fn written(text: &str, word: &str) -> String {
    let mut offers = at(text).offers.into_iter();
    let offer = offers.find(|offer| offer.word == word);
    offer
        .unwrap_or_else(|| panic!("`{word}` is not offered in {text}"))
        .writes
}

#[test]
fn the_keys_of_the_map_are_offered_but_for_those_that_stand_there() {
    let top = offered("ruleset: small\n|\nauthority: nobody\n");
    assert!(top.contains(&"title".to_owned()), "{top:?}");
    assert!(!top.contains(&"authority".to_owned()), "{top:?}");
    let rule = offered("rules:\n  - id: a\n    require: {have: x}\n    ti|\n");
    assert_eq!(rule.first().map(String::as_str), Some("title"));
    assert!(
        !offered("rules:\n  - id: a\n    require: {have: x}\n    s|\n")
            .contains(&"should".to_owned())
    );
    let flow = offered("rules:\n  - {id: a, |}\n");
    assert!(flow.contains(&"clause".to_owned()), "{flow:?}");
}

#[test]
fn a_key_is_written_with_the_beginning_of_what_follows() {
    assert_eq!(written("rul|\n", "rules"), "rules:\n  - ");
    assert_eq!(
        written("rules:\n  - id: a\n    req|", "require"),
        "require:\n      "
    );
    assert_eq!(written("rules:\n  - id: a\n    tit|", "title"), "title: ");
    assert_eq!(written("rules:\n  - id: a\n    tit|: A", "title"), "title");
    assert_eq!(written("rules:\n  |\n", "id"), "- id: ");
}

#[test]
fn in_a_requirement_the_measures_come_first_and_then_the_bounds() {
    let first = offered("rules:\n  - id: a\n    require:\n      |\n");
    assert!(first.contains(&"distance".to_owned()), "{first:?}");
    assert!(first.contains(&"all-of".to_owned()), "{first:?}");
    assert!(!first.contains(&"at-least".to_owned()), "{first:?}");
    let then = offered(
        "rules:\n  - id: a\n    require:\n      distance: {from: pool.water, to: lot-line}\n      |\n",
    );
    assert!(then.contains(&"at-least".to_owned()), "{then:?}");
    assert!(!then.contains(&"area".to_owned()), "{then:?}");
    let inner = offered("rules:\n  - {id: a, require: {distance: {from: pool.water, |}}}\n");
    assert_eq!(inner.first().map(String::as_str), Some("to"), "{inner:?}");
}

#[test]
fn the_words_of_a_place_are_offered() {
    assert!(offered("rules:\n  - {id: a, each: gate, if-none: |}").contains(&"passes".to_owned()));
    let facts = offered("rules:\n  - {id: a, require: {fact: dep|}}");
    assert!(facts.contains(&"pool.depth".to_owned()), "{facts:?}");
    let answers = offered("rules:\n  - {id: a, require: {fact: lot-line.faces, is: |}}");
    assert!(answers.contains(&"rear".to_owned()), "{answers:?}");
    let terms = offered("terms:\n  near: 3 m\nrules:\n  - {id: a, require: {meets: |}}");
    assert_eq!(terms, ["near"]);
}

#[test]
fn a_word_that_people_say_leads_to_the_key() {
    assert_eq!(
        written("rules:\n  - id: a\n    must|", "must → require"),
        "require:\n      "
    );
}

#[test]
fn what_stands_there_is_explained() {
    let about = at("rules:\n  - id: a\n    title|: A\n").about;
    let says: Vec<&str> = about.iter().map(|about| about.says.as_str()).collect();
    assert_eq!(says, ["What it is about, in a few words."]);
    let about = at("rules:\n  - {id: a, require: {fact: pool.de|pth}}").about;
    let names: Vec<&str> = about.iter().map(|about| about.name.as_str()).collect();
    assert_eq!(names, ["fact", "pool.depth"]);
}

#[test]
fn a_case_takes_what_a_plan_takes() {
    let case = offered("cases:\n  - case: a\n    |\n");
    assert!(case.contains(&"expect".to_owned()), "{case:?}");
    let thing = offered(
        "cases:\n  - case: a\n    change:\n      things:\n        - kind: gate\n          latch|\n",
    );
    assert!(thing.contains(&"latch-height".to_owned()), "{thing:?}");
}

/// Wherever the writer is in whatever text, there is an answer, and its places lie in the text.
#[test]
fn every_place_of_a_file_has_an_answer() {
    for place in 0..=FILE.len() {
        for text in [FILE, &FILE[..place]] {
            let found = hints(text, place, &crate::vocabulary::Vocabulary::standard());
            assert!(text.get(found.from..found.to).is_some());
        }
    }
}
