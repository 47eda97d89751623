//! A report in the language that was asked for: its own words, and what the rule file has in it.

use super::tried_tests::tried;
use crate::report::text::{Style, render};

const RULES: &str = "
ruleset: r
title: {en: Rules, nb: Regler}
edition: '1'
authority: {en: the office, nb: kommunen, fr: la mairie}
sources: {memory: {title: M, grade: memory}}
questions: [{id: old, ask: {en: Is it old?, nb: Er det gammelt?}, answer: yes-no}]
rules:
  - {id: depth, title: {en: Depth, nb: Dybde, fr: Profondeur}, clause: s. 1, require: {fact: pool.depth, at-most: 2 m},
     source: memory, remedy: {en: Fill it., nb: Fyll det.}}
  - {id: old, title: Old, clause: s. 2, require: {fact: old, is: yes}, source: memory}
";

fn text_in(language: Option<&str>) -> String {
    render(
        &tried(RULES, language, "3 m"),
        Style {
            width: 1000,
            ..Style::default()
        },
    )
    .into()
}

fn has_all(text: &str, lines: &[&str]) {
    for line in lines {
        assert!(text.contains(line), "{line}\n{text}");
    }
}

#[test]
fn bokmal_throughout_as_far_as_there_are_words() {
    has_all(
        &text_in(Some("nb")),
        &[
            "P\netter Regler, utgave 1 (kommunen)\n\nPlanen oppfyller ikke reglene slik den er tegnet.\nAv de bindende reglene: ",
            "1 er ikke oppfylt",
            "\nIkke oppfylt\n\n  Dybde\n  s. 1, fra hukommelsen, må kontrolleres; regel `depth` i r\n",
            "    Hva du kan gjøre: Fyll det.\n",
            "\nSpørsmål å svare på\n\n  1. Er det gammelt?",
            "\nHva du gjør nå\n\n  1. Fyll det (Dybde).\n",
            "\nAv de 2 verdiene i disse reglene er 2 verken fra loven eller fra en myndighets side: 2 fra hukommelsen.",
            "\nDette er verken en offisiell tekst eller en tillatelse. Her står hva regelfilen `Regler`, utgave 1, sier",
            "Bare denne myndigheten avgjør: kommunen. ",
        ],
    );
}

/// What the file lacks in French stands in English.
#[test]
fn french_with_what_the_file_has_in_it() {
    has_all(
        &text_in(Some("fr-CA")),
        &[
            "selon Rules, édition 1 (the office)\n",
            "\nCe qui n'est pas respecté\n\n  Depth\n",
        ],
    );
    has_all(
        &text_in(Some("fr")),
        &[
            "selon Rules, édition 1 (la mairie)\n\nLe plan n'est pas conforme tel qu'il est dessiné.\n",
            "\n  Profondeur\n  s. 1, de mémoire, à vérifier; règle `depth` de r\n",
            "    Que faire : Fill it.\n",
            "\nQuestions auxquelles répondre\n\n  1. Is it old?",
            "\nQue faire maintenant\n",
        ],
    );
}

#[test]
fn english_where_nobody_asks_for_another_or_there_are_no_words() {
    let english = text_in(None);
    has_all(
        &english,
        &[
            "under Rules, edition 1 (the office)\n",
            "\nWhat fails\n\n  Depth\n",
        ],
    );
    for language in ["en", "de"] {
        assert_eq!(text_in(Some(language)), english, "{language}");
    }
}

/// No English heading is left where another language is asked for.
#[test]
fn every_heading_is_in_the_language() {
    let headings = |text: &str| -> Vec<String> {
        let lines: Vec<&str> = text.lines().collect();
        let alone = lines
            .windows(3)
            .filter(|three| three[0].is_empty() && three[2].is_empty());
        alone.map(|three| three[1].to_owned()).collect()
    };
    let english = headings(&text_in(None));
    assert!(english.len() > 6, "{english:?}");
    for language in ["nb", "fr"] {
        let others = headings(&text_in(Some(language)));
        assert_eq!(others.len(), english.len());
        assert!(
            others.iter().all(|heading| !english.contains(heading)),
            "{others:?}"
        );
    }
}
