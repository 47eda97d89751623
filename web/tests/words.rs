//! The page's own words: the same in each language, and none left out.

use std::collections::BTreeMap;

const TABLES: [(&str, &str); 3] = [
    ("en", include_str!("../page/words/en.json")),
    ("nb", include_str!("../page/words/nb.json")),
    ("fr", include_str!("../page/words/fr.json")),
];

fn table(text: &str) -> BTreeMap<String, String> {
    serde_json::from_str(text).expect("a table of words")
}

/// The names that are filled in, sorted.
fn holes(words: &str) -> Vec<&str> {
    let pieces = words.split('{').skip(1);
    let named = |name: &&str| name.chars().all(|c| c.is_ascii_lowercase());
    let names = pieces.filter_map(|it| Some(it.split_once('}')?.0));
    let mut holes: Vec<&str> = names.filter(named).collect();
    holes.sort_unstable();
    holes
}

#[test]
fn each_language_has_all_words_and_fills_in_the_same() {
    let tables = TABLES.map(|(language, text)| (language, table(text)));
    let [(_, english), others @ ..] = &tables;
    assert!(english.len() > 300);
    for (language, words) in others {
        let keys = |table: &BTreeMap<String, String>| table.keys().cloned().collect::<Vec<_>>();
        assert_eq!(keys(english), keys(words), "{language}");
        for (key, said) in english {
            assert_eq!(holes(said), holes(&words[key]), "{language}: {key}");
            assert!(!words[key].is_empty(), "{language}: {key}");
        }
    }
}

/// The page and the report have words in the same languages, so that nobody has to read two.
#[test]
fn the_report_speaks_the_languages_of_the_page() {
    let report = rules_core::words::Language::ALL.map(|(tag, _)| tag);
    assert_eq!(report, TABLES.map(|(tag, _)| tag));
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/page/words");
    let files = std::fs::read_dir(folder).expect("the folder").count();
    assert_eq!(files, TABLES.len());
}
