use super::{Outline, Rules, Session, at, blank, figure, lot_size, opened, path_of, shown};
use crate::plan;
use crate::text::{Node, read, to_json_text};
use crate::vocabulary::Vocabulary;

const HOME: &str = include_str!("../../../rulesets/eldermere/home.yaml");

fn home() -> Session {
    Session::new(read(HOME).unwrap(), Rules::default())
}

fn begun() -> Session {
    let mut session = Session::new(blank(), Rules::default());
    assert_eq!(session.size_lot("22 m", "32 m"), Ok(true));
    session
}

fn text<'s>(session: &'s Session, path: &str) -> Option<&'s str> {
    at(session.plan(), path).and_then(Node::text)
}

const WALL: Outline<'_> = Outline {
    name: "wall",
    shape: "area",
};

#[test]
fn what_is_said_is_put_and_taken_away_and_each_step_comes_back() {
    let mut session = Session::new(blank(), Rules::default());
    session.say("inventory.well", "none");
    session.say("answers.soft", " no ");
    assert_eq!(text(&session, "answers.soft"), Some("no"));
    session.say("answers.soft", "");
    assert!(
        session.plan().get("answers").is_none(),
        "an empty section goes"
    );
    session.say("answers.soft", "");
    session.undo();
    assert_eq!(text(&session, "answers.soft"), Some("no"));
    session.undo();
    session.undo();
    assert!(!session.can_undo() && session.plan() == &blank());
    session.redo();
    assert_eq!(text(&session, "inventory.well"), Some("none"));
    session.say("title", "12");
    assert!(!session.can_redo());
    assert_eq!(to_json_text(session.plan().get("title").unwrap()), "\"12\"");
}

#[test]
fn a_path_goes_through_lists_and_through_names_with_dots() {
    let root = read("lot: {corners: {a.1: [0, 7]}, sides: [{id: x}, {id: y, from: a.1}]}").unwrap();
    assert_eq!(
        at(&root, r"lot.corners.a\.1.1").and_then(Node::text),
        Some("7")
    );
    assert_eq!(at(&root, "lot.sides.1.id").and_then(Node::text), Some("y"));
    assert!(at(&root, "lot.corners.a.1").is_none() && at(&root, "lot.sides.2").is_none());
    let place = at(&root, r"lot.corners.a\.1.1").map(|node| node.span);
    assert_eq!(root.path_to(place.unwrap()), r"lot.corners.a\.1.1");
}

/// A decimal comma, where the language writes one; a day, a number in groups and a list stay as they are.
#[test]
fn figures_are_taken_as_each_language_writes_them() {
    let typed = |text: &str, unit: &str, language: &str| {
        let node = figure(text, unit, language);
        node.map(|node| to_json_text(&node))
    };
    for (text, unit, language, wanted) in [
        ("3,5", "m", "nb", "\"3.5 m\""),
        (" 3.5 ", "m", "nb", "\"3.5 m\""),
        ("3,5 m ± 0,1 m", "m", "fr", "\"3.5 m ± 0.1 m\""),
        ("12 ft 4,5 in", "ft", "fr", "\"12 ft 4.5 in\""),
        ("1.234,5", "m", "nb", "\"1.234,5\""),
        ("1,234,567", "m", "nb", "\"1,234,567\""),
        ("3,5", "m", "en", "\"3,5\""),
        ("1,200", "mm", "en", "\"1,200\""),
        ("4,5", "", "nb", "4.5"),
        ("-2", "m", "en", "\"-2 m\""),
        ("about my height", "m", "en", "\"about my height\""),
    ] {
        assert_eq!(
            typed(text, unit, language).as_deref(),
            Some(wanted),
            "{text}"
        );
    }
    assert_eq!(typed("  ", "m", "en"), None);
    assert_eq!(shown("3.5 m", "nb"), "3,5 m");
    assert_eq!(shown("3.5 m", "en"), "3.5 m");
    assert_eq!(shown("2026-03-02", "nb"), "2026-03-02");
}

/// Whatever a person calls a thing, its id is the program's own affair: nothing that is typed as a name makes the plan unreadable.
#[test]
fn a_name_is_any_text_and_two_may_be_alike() {
    let mut session = begun();
    session.add_pool().unwrap();
    for name in [
        "House",
        "Hütte",
        "o'neil",
        "garage 2",
        "House",
        "- [x]: {y}",
        "🏠",
    ] {
        let id = session.add("building", Some(&WALL), None).unwrap();
        let path = path_of(session.plan(), &id).unwrap();
        session.say(&format!("{path}.name"), name);
        let plan = plan::read(&session.text(), &Vocabulary::standard());
        let plan = plan.unwrap_or_else(|faults| panic!("{}", faults.show("plan", &session.text())));
        let thing = plan.things.iter().find(|thing| thing.id == id).unwrap();
        assert_eq!(thing.called(), name);
    }
}

/// What is new lies on no other thing, as long as there is room.
#[test]
fn nothing_new_lands_on_what_is_drawn() {
    let mut session = begun();
    session.add_pool().unwrap();
    assert_eq!(text(&session, "pool.source"), Some("design"));
    for _ in 0..6 {
        session.add("building", Some(&WALL), None).unwrap();
    }
    let document = session.plan();
    let corner = |path: &str| {
        let figure = |n: usize| text(&session, &format!("{path}.rectangle.at.{n}")).unwrap();
        [0, 1].map(|n| figure(n).parse::<f64>().unwrap())
    };
    let mut boxes = vec![(corner("pool.water"), [8.0, 4.0])];
    for index in 0..6 {
        boxes.push((corner(&format!("things.{index}.wall")), [6.0, 4.0]));
    }
    for (n, (at, size)) in boxes.iter().enumerate() {
        for (other, long) in &boxes[..n] {
            let apart = |axis: usize| {
                at[axis] + size[axis] <= other[axis] || other[axis] + long[axis] <= at[axis]
            };
            assert!(apart(0) || apart(1), "{}", to_json_text(document));
        }
    }
}

#[test]
fn none_of_a_kind_is_taken_back_when_one_is_drawn() {
    let mut session = begun();
    session.say("inventory.well", "none");
    let casing = Outline {
        name: "casing",
        shape: "point",
    };
    let id = session
        .add("well", Some(&casing), Some(&[[1234.0, 5678.0]]))
        .unwrap();
    assert_eq!(id, "well");
    assert!(session.plan().get("inventory").is_none());
    assert_eq!(text(&session, "things.0.casing.0.0"), Some("1.23"));
}

/// A source that is there already is used again; the id of one is never typed.
#[test]
fn a_source_is_listed_once() {
    let mut session = begun();
    session.source("lot.source", "+survey");
    session.add_pool().unwrap();
    session.source("pool.source", "+survey");
    let sources = session.plan().get("sources").unwrap().as_list().unwrap();
    assert_eq!(sources.len(), 2, "survey, and design for the pool");
    assert_eq!(text(&session, "pool.source"), text(&session, "lot.source"));
    session.source("pool.source", "");
    assert_eq!(text(&session, "pool.source"), None);
}

#[test]
fn the_size_of_a_lot_that_is_a_rectangle_is_known_and_changed_one_figure_at_a_time() {
    let mut session = begun();
    assert_eq!(
        lot_size(session.plan()),
        Some(["22 m", "32 m"].map(str::to_owned))
    );
    session.say("lot.sides.2.beyond", "road");
    assert_eq!(session.size_lot("", "30 m"), Ok(true));
    assert_eq!(
        lot_size(session.plan()),
        Some(["22 m", "30 m"].map(str::to_owned))
    );
    assert_eq!(text(&session, "lot.sides.2.beyond"), Some("road"));
    let opened = opened(
        "plan: p\ntitle: P\nunit: m\nlot: {corners: {a: [10, 20], b: [34, 20], c: {at: [34, 52.5]}, d: [10, 52.5]}}\n",
    );
    let mut session = Session::new(opened.unwrap().plan, Rules::default());
    assert_eq!(
        lot_size(session.plan()),
        Some(["24 m", "32.5 m"].map(str::to_owned))
    );
    assert_eq!(session.size_lot("25 m", "32.5 m"), Ok(true));
    assert_eq!(text(&session, "lot.corners.b.0"), Some("35"));
    assert_eq!(text(&session, "lot.corners.c.at.0"), Some("35"));
    assert_eq!(text(&session, "lot.corners.a.0"), Some("10"));
    assert!(session.size_lot("wide", "").is_err());
}

#[test]
fn half_a_size_is_no_lot_yet() {
    let mut session = Session::new(blank(), Rules::default());
    assert_eq!(session.size_lot("22 m", ""), Ok(false));
    assert!(session.plan().get("lot").is_none() && !session.can_undo());
    assert!(session.size_lot("22 m", "deep").is_err() && !session.can_undo());
}

/// A file carries the name of the rules that its plan was made for, and gives them back.
#[test]
fn a_file_names_its_rules() {
    let mut session = begun();
    session.add_pool().unwrap();
    let before = session.plan().clone();
    let rules = |id: Option<&str>, text: &str| Rules {
        id: id.map(str::to_owned),
        text: text.to_owned(),
        cases: String::new(),
    };
    for (rules, name) in [
        (
            rules(Some("eldermere"), "ruleset: eldermere\n"),
            "eldermere",
        ),
        (
            rules(None, "# mine\nruleset: hazelbrook\ntitle: Hazelbrook\n"),
            "hazelbrook",
        ),
    ] {
        session.replace(None, Some(rules));
        let file = session.file();
        assert!(plan::read(&file, &Vocabulary::standard()).is_ok(), "{file}");
        let back = opened(&file).unwrap();
        assert_eq!(back.rules, [name]);
        assert_eq!(to_json_text(&back.plan), to_json_text(&before));
    }
    session.replace(None, Some(Rules::default()));
    assert!(opened(&session.file()).unwrap().rules.is_empty());
    assert!(opened("- a list").is_err() && opened("lot: [").is_err());
}

#[test]
fn a_shape_and_an_outline_are_given_by_their_paths() {
    let mut session = begun();
    session.add_pool().unwrap();
    session.reshape("pool.water", "oval").unwrap();
    assert!(at(session.plan(), "pool.water.oval.radius").is_some());
    session.outline_as("pool.coping", "outward", "water", "m");
    assert_eq!(text(&session, "pool.coping.outward"), Some("300 mm"));
    session.outline_as("pool.coping", "same-as", "water", "m");
    assert_eq!(text(&session, "pool.coping.same-as"), Some("water"));
    session.outline_as("pool.coping", "none", "water", "m");
    assert!(at(session.plan(), "pool.coping").is_none());
    session.begin_outline("pool.deck", "area").unwrap();
    assert!(at(session.plan(), "pool.deck.rectangle").is_some());
    session.reshape("pool.deck", "places").unwrap();
    session.add_place("pool.deck");
    assert_eq!(
        at(session.plan(), "pool.deck")
            .unwrap()
            .as_list()
            .unwrap()
            .len(),
        5
    );
    session.remove("pool");
    assert!(session.plan().get("pool").is_none());
}

#[test]
fn what_differs_along_a_thing_has_two_ends() {
    let mut session = home();
    session.say("pool.depth", "1.5 m");
    session.vary("pool.depth", true);
    assert_eq!(text(&session, "pool.depth.to"), Some("1.5 m"));
    session.vary("pool.depth", false);
    assert_eq!(text(&session, "pool.depth"), Some("1.5 m"));
}

#[test]
fn an_answer_of_somebody_who_knows_is_kept_and_taken_back() {
    let mut session = begun();
    session.answer("flood", Some(["", "the county", "2026-03-02"]));
    assert_eq!(text(&session, "answered.flood.by"), Some("the county"));
    assert!(at(session.plan(), "answered.flood.says").is_none());
    session.answer("flood", None);
    assert!(session.plan().get("answered").is_none());
}

/// A lot of 22 m by 32 m with a pool in its middle, laid out as the form does.
fn with_pool() -> Session {
    let mut session = Session::new(blank(), Rules::default());
    session.size_lot("22 m", "32 m").expect("a lot");
    session.add_pool().expect("a pool");
    session
}

fn line_of(session: &Session, path: &str) -> Vec<[String; 2]> {
    let places = at(session.plan(), path).and_then(Node::as_list);
    let place = |node: &Node| {
        let [x, y] = node.as_list().expect("a place") else {
            panic!("{path}")
        };
        [x, y].map(|figure| figure.text().unwrap_or_default().to_owned())
    };
    places.expect("a line").iter().map(place).collect()
}

#[test]
fn a_fence_begins_round_the_pool_and_a_gate_in_the_fence() {
    let mut session = with_pool();
    let line = Outline {
        name: "line",
        shape: "line",
    };
    session
        .add("barrier-stretch", Some(&line), None)
        .expect("a fence");
    session.add("gate", Some(&line), None).expect("a gate");
    let fence = line_of(&session, "things.0.line");
    assert_eq!(fence.len(), 5);
    assert_eq!(fence.first(), fence.last());
    // The pool of 8 m by 4 m lies in the middle of the lot, and the fence 2 m from it.
    assert_eq!(fence[0], ["5", "12"]);
    assert_eq!(fence[2], ["17", "20"]);
    let gate = line_of(&session, "things.1.line");
    assert_eq!(
        gate,
        [["10.5", "12"], ["11.5", "12"]].map(|at| at.map(str::to_owned))
    );
}

#[test]
fn a_road_begins_past_the_front() {
    let mut session = with_pool();
    let line = Outline {
        name: "centreline",
        shape: "line",
    };
    session.add("road", Some(&line), None).expect("a road");
    let road = line_of(&session, "things.0.centreline");
    let below = road.iter().all(|[_, y]| y == "-6");
    assert!(below && road.len() == 2, "{road:?}");
}

#[test]
fn an_outline_lies_as_far_outside_as_was_typed() {
    let mut session = with_pool();
    session.outward("pool.shell", figure("0.25", "m", "en"), "water");
    let shell = |key: &str| {
        let found = at(session.plan(), &format!("pool.shell.{key}"));
        found.and_then(Node::text).map(str::to_owned)
    };
    assert_eq!(shell("outward").as_deref(), Some("0.25 m"));
    assert_eq!(shell("corners").as_deref(), Some("square"));
    session.outward("pool.shell", figure("0", "m", "en"), "water");
    assert!(at(session.plan(), "pool.shell.same-as").is_some());
    session.outward("pool.shell", None, "water");
    assert!(at(session.plan(), "pool.shell").is_none());
}

#[test]
fn each_of_several_pools_gets_its_own_cover() {
    let mut session = with_pool();
    session.add_pool().expect("a second pool");
    for _ in 0..2 {
        session.add("cover", None, None).expect("a cover");
    }
    let of = |at: &str| {
        super::at(session.plan(), at)
            .and_then(Node::text)
            .map(str::to_owned)
    };
    assert_eq!(of("things.0.part-of").as_deref(), Some("pool"));
    assert_eq!(of("things.1.part-of").as_deref(), Some("pool-2"));
}
