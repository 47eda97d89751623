use super::unasked;
use crate::ruleset::read;
use crate::vocabulary::{Matter, Vocabulary};

/// The questions about a file with this head and these rules.
fn of_file(head: &str, rules: &[&str]) -> Vec<String> {
    let mut text = format!("ruleset: r\ntitle: T\nedition: '1'\nauthority: Nobody\n{head}rules:\n");
    for (number, rule) in rules.iter().enumerate() {
        text += &format!("  - {{id: r{number}, title: T, clause: c, {rule}}}\n");
    }
    let read = read(&text, &|_| None, Vocabulary::standard());
    let rules = read.unwrap_or_else(|faults| panic!("{faults:?}")).rule_set;
    unasked(&rules)
}

fn of(rules: &[&str]) -> Vec<String> {
    of_file("", rules)
}

const ALL_ROUND: &str = "require: {enclosure: {of: pool.water, from: street, made-of: [barrier-stretch, gate]}, at-most: 4 in}";
const FENCE: &str =
    "each: barrier-stretch, require: {fact: barrier-stretch.height-outside, at-least: 4 ft}";
const GATE: &str = "each: gate, require: {fact: gate.height, at-least: 4 ft}";

/// A fence of 4 ft with a gate of 3 ft: a file with a rule on the fence raises a question about the gate.
#[test]
fn a_rule_on_fences_without_one_on_gates_is_a_question() {
    let inside =
        "each: barrier-stretch, require: {fact: barrier-stretch.height-inside, at-least: 4 ft}";
    let asked = "The rule `r0` limits `barrier-stretch.height-outside`, but no rule limits `gate.height`: may the height of the gate be anything?";
    assert_eq!(of(&[FENCE, ALL_ROUND]), [asked]);
    assert_eq!(
        of(&[FENCE, inside, ALL_ROUND]),
        [asked],
        "each fact of a gate once"
    );
    assert_eq!(of(&[FENCE, inside, GATE, ALL_ROUND]), [""; 0]);
    let advice = format!("strength: should, {FENCE}");
    assert_eq!(of(&[&advice]), [""; 0]);
    let holes = "each: barrier-stretch, require: {any-of: [{fact: barrier-stretch.opening, is: none}, {fact: barrier-stretch.opening, less-than: 4 in}]}";
    let bounded = "each: gate, require: {fact: gate.opening, less-than: 4 in}";
    assert!(of(&[holes])[0].ends_with("may the widest opening in the gate be anything?"));
    assert_eq!(of(&[holes, bounded, ALL_ROUND]), [""; 0]);
    // A rule that only applies to high fences asks no height of them.
    let high = "each: barrier-stretch, where: {fact: barrier-stretch.height-outside, more-than: 2 m}, require: {fact: barrier-stretch.type, is: solid}";
    assert_eq!(of(&[high]), [""; 0]);
}

#[test]
fn a_fence_without_an_enclosure_is_a_question() {
    let asked = of(&[FENCE, GATE]);
    assert!(
        asked.len() == 1 && asked[0].contains("goes all the way round"),
        "{asked:?}"
    );
    // Neither advice nor a condition of a rule counts as asking for an enclosure.
    let advice = ALL_ROUND.replace("require", "should");
    let condition = format!(
        "{}, require: {{fact: pool.depth, at-most: 3 m}}",
        ALL_ROUND.replace("require", "when")
    );
    assert_eq!(of(&[FENCE, GATE, &advice, &condition]), asked);
    let needed = format!("when: {{fact: pool.depth, more-than: 2 ft}}, {ALL_ROUND}");
    assert_eq!(of(&[FENCE, GATE, &needed]), [""; 0]);
}

fn to_lines(faces: &str) -> String {
    format!(
        "each: lot-line, where: {faces}, require: {{distance: {{from: pool.water, to: lot-line}}, at-least: 2 m}}"
    )
}

#[test]
fn lot_lines_that_no_rule_mentions_are_a_question() {
    let to = |word: &str| to_lines(&format!("{{fact: lot-line.faces, is: {word}}}"));
    let (front, others) = (to("front"), to("[side, rear]"));
    let [asked] = &of(&[&front, &others])[..] else {
        panic!("{:?}", of(&[&front, &others]));
    };
    assert!(
        asked.contains("`alley`, `shore` or `street-side`"),
        "{asked}"
    );
    // A single list may be all that the law has.
    assert!(
        !of(&[&front])
            .iter()
            .any(|it| it.contains("No rule mentions"))
    );
    let rest = to_lines("{not: {fact: lot-line.faces, is: front}}");
    assert_eq!(of(&[&front, &rest]), [""; 0]);
    let any = "require: {distance: {from: pool.water, to: lot-line}, at-least: 1 m}";
    assert!(
        !of(&[&front, &others, any])
            .iter()
            .any(|it| it.contains("No rule mentions"))
    );
    let advice = to("[street-side, shore, alley]").replace("require", "should");
    assert_eq!(
        of(&[&front, &others, &advice]),
        [""; 0],
        "whoever advises knows of them"
    );
}

#[test]
fn a_word_that_the_scope_covers_is_no_question() {
    let to = |word: &str| to_lines(&format!("{{fact: lot-line.faces, is: {word}}}"));
    let (front, others) = (to("front"), to("[side, rear]"));
    let others_hold = Matter::ALL.iter().map(|matter| matter.id());
    let others_hold = others_hold.filter(|id| *id != "lot-lines");
    let left: Vec<_> = others_hold
        .map(|id| format!("{{matter: {id}, ask: somebody}}"))
        .collect();
    let file = |on_top: &str| {
        let left = left.join(", ");
        let head =
            format!("scope: {{holds: lot-lines, on-top: [{on_top}], leaves-out: [{left}]}}\n");
        of_file(&head, &[&front, &others])
    };
    assert_eq!(
        file("Lines that are street-side, and the line of an alley."),
        [""; 0]
    );
    // The shore is left to somebody else, and a valley is not an alley.
    let asked = file("The street-side lines and valleys.");
    assert!(asked[0].contains("that is `alley` ("), "{asked:?}");
}

#[test]
fn a_word_that_contains_a_named_one_is_a_question() {
    let of_type = |word: &str| {
        format!(
            "each: wall-opening, where: {{fact: wall-opening.type, is: {word}}}, require: {{fact: wall-opening.self-closing, is: yes}}"
        )
    };
    let asked = of(&[&of_type("door")]);
    let expected = "For `wall-opening.type`, the rules name `door` but not `garage-door`, `pet-door` or `sliding-door`: is that intended?";
    assert_eq!(asked, [expected]);
    assert_eq!(
        of(&[&of_type("[door, sliding-door, pet-door, garage-door]")]),
        [""; 0]
    );
    assert_eq!(of(&[&of_type("sliding-door")]), [""; 0]);
    // A neighbour's lot is not one's own lot.
    let own = "each: building, where: {fact: building.stands-on, is: lot}, require: {fact: building.height, at-most: 4 m}";
    assert_eq!(of(&[own]), [""; 0]);
}

#[test]
fn one_answer_for_all_pools_is_a_question() {
    let question = |ask: &str| format!("questions: [{{id: q, ask: \"{ask}\", answer: yes-no}}]\n");
    let freed = "unless: {fact: q, is: yes}, require: {fact: pool.depth, at-most: 2 m}";
    let old = question("Was the pool lawfully built before this bylaw?");
    let asked = of_file(&old, &[freed]);
    assert!(
        asked.len() == 1 && asked[0].starts_with("One answer to `q`"),
        "{asked:?}"
    );
    let pump =
        "each: equipment, unless: {fact: q, is: yes}, require: {fact: equipment.enclosed, is: yes}";
    assert_eq!(of_file(&old, &[pump]), [""; 0], "nothing about a pool");
    assert_eq!(
        of_file(&question("Is the pool for guests?"), &[freed]),
        [""; 0]
    );
}

#[test]
fn one_paper_for_all_pools_is_a_question() {
    let paper = |more: &str| format!("documents: [{{id: letter, title: Letter{more}}}]\n");
    let freed = "require: {fact: pool.depth, at-most: 2 m}, relief: [{id: letter, require: {have: letter}}]";
    let asked = of_file(&paper(""), &[freed]);
    assert!(
        asked.len() == 1 && asked[0].starts_with("One `letter` is enough"),
        "{asked:?}"
    );
    assert_eq!(of_file(&paper(", one-for-all: yes"), &[freed]), [""; 0]);
    let of_each = format!("each: pool, {freed}");
    assert_eq!(of_file(&paper(""), &[&of_each]), asked);
    assert_eq!(of_file(&paper(", each: pool"), &[&of_each]), [""; 0]);
}
