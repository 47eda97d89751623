//! Clauses such as `the gate closes by itself` with another verb: `the gate must close by itself`.

use super::nouns::PREPOSITIONS;

/// The verbs that clauses are built on: as they are said of what the clause speaks of, and as they follow `must`.
const VERBS: [(&str, &str); 34] = [
    ("allows", "allow"),
    ("are", "be"),
    ("belongs", "belong"),
    ("carries", "carry"),
    ("closes", "close"),
    ("comes", "come"),
    ("complies", "comply"),
    ("counts", "count"),
    ("fill", "fill"),
    ("flows", "flow"),
    ("goes", "go"),
    ("has", "have"),
    ("help", "help"),
    ("helps", "help"),
    ("holds", "hold"),
    ("is", "be"),
    ("keeps", "keep"),
    ("latches", "latch"),
    ("leads", "lead"),
    ("lies", "lie"),
    ("locks", "lock"),
    ("meets", "meet"),
    ("needs", "need"),
    ("opens", "open"),
    ("protects", "protect"),
    ("reaches", "reach"),
    ("runs", "run"),
    ("serves", "serve"),
    ("sets", "set"),
    ("stand", "stand"),
    ("stands", "stand"),
    ("stays", "stay"),
    ("takes", "take"),
    ("works", "work"),
];

/// Words before which no verb of the list is the clause's own.
const OTHER_VERBS: [&str; 7] = ["can", "could", "may", "was", "were", "will", "would"];

/// Words that begin a clause inside another, and those that stand for its subject: a verb after them is that clause's own.
const INNER: [&str; 17] = [
    "who", "whom", "whose", "which", "that", "what", "how", "when", "where", "while", "if",
    "unless", "until", "because", "as", "than", "whether",
];
const INNER_SUBJECTS: [&str; 6] = ["it", "they", "he", "she", "there", "nobody"];

/// Words after which a word that looks like a verb is a noun: `the locks are fitted`.
const BEFORE_NOUNS: [&str; 12] = [
    "the", "a", "an", "its", "their", "of", "to", "all", "both", "each", "any", "no",
];

/// Subjects of which `must not` can be read in two ways: not all of them, or none of them.
const OF_MANY: [&str; 8] = [
    "all",
    "each",
    "every",
    "both",
    "some",
    "any",
    "nobody",
    "everybody",
];

/// Whether the last word before a verb is the subject of a clause inside another: `it` in `the maker says it is safe`, but not
/// in `all wires near it are buried`.
fn own_subject(before: &[&str]) -> bool {
    matches!(before, [.., one, last] if INNER_SUBJECTS.contains(last) && !PREPOSITIONS.contains(one))
}

/// Whether the words before a verb are the subject of that verb, and `verb` can be said of it in one way only.
fn is_subject(before: &[&str], verb: &str) -> bool {
    let inner = before.iter().any(|word| INNER.contains(word))
        || own_subject(before)
        || before
            .last()
            .is_some_and(|word| ["and", "or"].contains(word));
    let of_many = before.first().is_some_and(|word| OF_MANY.contains(word));
    !(inner || of_many && verb.split(' ').any(|word| word == "not"))
}

/// The clause with `must`, `must not`, `should` … before its verb, or with `is not` denied. `None` where it cannot be turned:
/// its verb is not known, it has two, or another clause begins before it.
pub fn turned(clause: &str, verb: &str) -> Option<String> {
    let words: Vec<&str> = clause.split(' ').collect();
    if let ["there", ..] = words[..] {
        return None;
    }
    let known = |word: &&str| VERBS.iter().find(|(said, _)| said == word);
    let is_noun = |at: usize| {
        let before = at.checked_sub(1).and_then(|at| words.get(at));
        before.is_some_and(|word| BEFORE_NOUNS.contains(word))
    };
    let is_verb = |(at, word): &(usize, &&str)| {
        OTHER_VERBS.contains(word) || known(word).is_some() && !is_noun(*at)
    };
    let (at, _) = words.iter().enumerate().find(is_verb)?;
    let (before, rest) = words.split_at_checked(at)?;
    if !is_subject(before, verb) {
        return None;
    }
    let (own, after) = rest.split_first()?;
    if let ("can", "is not") = (*own, verb) {
        let (subject, verb) = denied(before, verb);
        let can = if verb == "is" { "can" } else { "cannot" };
        return Some(format!("{} {can} {}", subject.join(" "), after.join(" ")));
    }
    let (said, base) = known(own)?;
    let joins = |pair: &[&str]| matches!(pair, [join, next] if ["and", "or"].contains(join) && (known(next).is_some() || OTHER_VERBS.contains(next)));
    if after.windows(2).any(joins) {
        return None;
    }
    let (subject, verb) = denied(before, verb);
    let verb = match verb {
        "is" => (*said).to_owned(),
        "is not" if *base == "be" => format!("{said} not"),
        "is not" if said == base => format!("do not {base}"),
        "is not" => format!("does not {base}"),
        modal => format!("{} {base}", modal.trim_end_matches(" be")),
    };
    let words = [subject.join(" "), verb, after.join(" ")];
    Some(words.join(" ").trim_end().to_owned())
}

/// `Anything must not stand there` is said as `nothing must stand there`, and what is so of anything, as of something.
fn denied<'w>(subject: &[&'w str], verb: &'w str) -> (Vec<&'w str>, &'w str) {
    let ["anything" | "something", rest @ ..] = subject else {
        return (subject.to_vec(), verb);
    };
    let (first, verb) = match verb {
        "is not" => ("nothing", "is"),
        "must not be" => ("nothing", "must be"),
        "should not be" => ("nothing", "should be"),
        verb => ("something", verb),
    };
    let subject = [first].iter().chain(rest).copied().collect();
    (subject, verb)
}

#[cfg(test)]
mod tests {
    use super::turned;

    #[test]
    fn verbs_are_turned() {
        for (clause, verb, said) in [
            (
                "the gate closes by itself",
                "must be",
                "the gate must close by itself",
            ),
            (
                "the gate closes by itself",
                "is not",
                "the gate does not close by itself",
            ),
            ("the cover locks", "must be", "the cover must lock"),
            (
                "water flows onto a neighbour's land when it is emptied",
                "must not be",
                "water must not flow onto a neighbour's land when it is emptied",
            ),
            (
                "all wires near it are buried",
                "must be",
                "all wires near it must be buried",
            ),
            (
                "the locks are fitted",
                "must be",
                "the locks must be fitted",
            ),
            (
                "slats fill the mesh",
                "is not",
                "slats do not fill the mesh",
            ),
            (
                "the wires are insulated",
                "is not",
                "the wires are not insulated",
            ),
            (
                "it is a main or a service entrance",
                "must not be",
                "it must not be a main or a service entrance",
            ),
            (
                "anything stands against its outside",
                "must not be",
                "nothing must stand against its outside",
            ),
            (
                "anything on it helps to climb",
                "should not be",
                "nothing on it should help to climb",
            ),
            (
                "its outside can be climbed",
                "is not",
                "its outside cannot be climbed",
            ),
            (
                "something outside helps to climb it",
                "is not",
                "nothing outside helps to climb it",
            ),
        ] {
            assert_eq!(turned(clause, verb).as_deref(), Some(said));
        }
    }

    #[test]
    fn what_cannot_be_turned_is_left() {
        for clause in [
            "its outside can be climbed",
            "it is electrified or has barbed wire",
            "there is no room elsewhere",
            "the pool was lawfully built before this bylaw and is left as it is",
            "a young child could get through or over it",
            "the office finds that the paving at the edges is as small as possible",
            "the person who is named as builder has a licence",
            "an engineer states in writing that the slope is stable",
            "the water that leaves the pool has no chlorine",
            "the wall stops the wind and is high",
            "the maker says it is safe",
        ] {
            assert_eq!(turned(clause, "must be"), None, "{clause}");
        }
        assert_eq!(turned("all wires near it are buried", "must not be"), None);
    }
}
